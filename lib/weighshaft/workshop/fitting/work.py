"""The chapter worked: each calculator for itself, with what the engine gives."""

from __future__ import annotations

from dataclasses import replace

from ...findings import Suggestion, by_level, still_open, unlocked
from ...threads.decisions import Connector
from ..machines import Machines
from .connectors import piece
from .decisions import Fitting
from .joints import ABOVE, held, soldered
from .judgement import CAUTIONS, judge
from .manifold import Made, manifold
from .results import FittingResult
from .seals import Stuffed, ringed, sealed, stuffed


def work(
    fitting: Fitting,
    *,
    machines: Machines,
    connector: Connector | None = None,
    rod: float = 5.0,
    bore: float = 25.0,
    axle: float = 12.0,
    steam: float = 160.0,
    metal: str = "cast iron",
    gland_box: float | None = None,
    gland_room: float | None = None,
    fixed: frozenset[str] = frozenset(),
) -> FittingResult:
    """Work the chapter.

    Parameters
    ----------
    machines : has no say here.
    connector : between two ports, as Threads has it; None for an example.
    rod, bore, axle : of the engine, mm; examples where there is none.
    steam : temperature in the chest, degC.
    metal : of the cylinder.
    gland_box : bore that the thread of the piston-rod gland leaves, mm; None if not known.
    gland_room : stuffing box and gland behind the cover, mm; None if not known.
    """
    made = piece(fitting.pipe, connector or Connector())
    branched = manifold(fitting.manifold)
    joint, bond = soldered(fitting.brazed), held(fitting.bonded, axle)
    seal = sealed(fitting.o_ring, rod=rod, bore=bore, steam=steam)
    gland = stuffed(fitting.packed, rod=rod, box=gland_box, room=gland_room)
    ring = ringed(fitting.rings, bore=bore, metal=metal, hot=steam)
    result = FittingResult(
        body=made.body, over_all=made.over_all, blank=made.blank,
        manifold_body=branched.body, manifold_length=branched.length,
        manifold_share=branched.share,
        manifold_room=min((min(one.nuts, one.spanner) for one in branched.rooms), default=None),
        solder_bore=joint.best, solder_gap=joint.cold, solder_heat=joint.heat,
        solder_wire=joint.wire, bond_bore=bond.wanted, bond_torque=bond.torque,
        groove_diameter=seal.groove_diameter, groove_width=seal.width, squeeze=seal.squeeze,
        filled=seal.fill,
        o_ring=seal.ring.name if seal.ring else "none of the table",
        box=gland.box, packing=_packing(gland), box_depth=gland.depth, radial=ring.radial,
        free_gap=ring.free, closed_gap=ring.closed[0], ring_stress=ring.opening,
        taken_from=_taken(fitting), piece=made, manifold=branched,
        soldered=joint, held=bond, sealed=seal,
        stuffed=gland, ringed=ring, cautions=CAUTIONS,
        workings=(
            *branched.workings,
            *joint.workings, *bond.workings, *seal.workings, *gland.workings, *ring.workings,
        ),
        suggestions=still_open(
            (
                Suggestion("fitting.pipe.engaged_a", round(made.engaged[0], 3), "a diameter"),
                Suggestion("fitting.pipe.engaged_b", round(made.engaged[1], 3), "a diameter"),
                *_manifold_suggestions(branched),
                Suggestion(
                    "fitting.brazed.heat", joint.alloy.liquid + ABOVE,
                    "30 degrees above the end of its melting range",
                ),
                Suggestion("fitting.bonded.pin", round(axle, 3), "the engine's axle"),
                Suggestion("fitting.bonded.length", round(bond.pin, 3), "one diameter"),
                Suggestion(
                    "fitting.o_ring.on", round(seal.on, 3), "the engine's piston rod or bore"
                ),
                Suggestion("fitting.o_ring.hot", round(steam), "steam in the chest"),
                Suggestion("fitting.packed.rod", round(rod, 3), "the engine's piston rod"),
                Suggestion("fitting.packed.yarn", round(gland.yarn, 3), "what fills the box"),
                Suggestion(
                    "fitting.packed.rings", gland.rings, "one and a half diameters of the rod"
                ),
                Suggestion("fitting.packed.nose", round(gland.nose, 3), "one section"),
                Suggestion("fitting.rings.bore", round(bore, 3), "the engine's"),
                Suggestion(
                    "fitting.rings.radial", round(ring.radial, 3), "from pressure and bending"
                ),
                Suggestion("fitting.rings.width", round(ring.width, 3), "0.85 of the depth"),
            ),
            fixed,
        ),
    )  # fmt: skip
    judged = judge(fitting, result, metal)
    return replace(result, findings=by_level(unlocked(judged, fixed)))


def _manifold_suggestions(made: Made) -> list[Suggestion]:
    found = [
        Suggestion("fitting.manifold.body", made.usual[0], "the bore, its wall and the threads"),
        Suggestion("fitting.manifold.length", made.usual[1], "a wall behind the last branch"),
        Suggestion("fitting.manifold.engaged", round(made.engaged, 3), "a diameter"),
    ]
    for one in made.stubs:
        at = f"fitting.manifold.branches.{one.number - 1}"
        found += [
            Suggestion(f"{at}.flats", round(one.flats, 3), "the usual hexagon of the thread"),
            Suggestion(f"{at}.bore", round(one.bore, 3), "half of the thread's core"),
            Suggestion(f"{at}.reach", round(one.reach, 3), "as short as the nut allows"),
        ]
    return found


def _packing(gland: Stuffed) -> str:
    return f"{gland.rings} rings of {gland.yarn:.2f} mm, {gland.packing:.1f} mm in all"


def _taken(fitting: Fitting) -> str:
    typed = [
        name
        for name, given in (
            ("pin", fitting.bonded.pin), ("O-ring's diameter", fitting.o_ring.on),
            ("rod", fitting.packed.rod), ("bore", fitting.rings.bore),
        )
        if given is not None
    ]  # fmt: skip
    return f"typed here: {', '.join(typed)}; the rest the engine's" if typed else "the engine's"
