"""The chapter worked: springs, what they do under the engine, and the boxes in their horns."""

from __future__ import annotations

import math
from dataclasses import replace

from ..findings import Suggestion, by_level, still_open, unlocked
from ..frames import Whole
from ..measures import GRAVITY
from ..working import Working
from . import relations
from .bed import Carried, bed_of, carried, gyration
from .coil import CoilSpring
from .decisions import Springing, offered
from .fitted import Fitted, coupled_springs, truck_springs
from .judgement import judge
from .leaf import LeafSpring
from .results import AxleSpring, Bed, SpringingResult
from .riding import Across, Groups, Support, dipping, modes, twisted


def work(
    springing: Springing,
    *,
    whole: Whole,
    axle_loads: tuple[float, ...],
    horn_clearance: float,
    sprung_loads: tuple[float, ...] | None = None,
    groups: Groups = (),
    running_speed: float | None = None,
    fixed: frozenset[str] = frozenset(),
) -> SpringingResult:
    """Work the chapter.

    Parameters
    ----------
    whole : the engine in its frames.
    axle_loads : on every axle of it from the front, in working order, kg.
    horn_clearance : of the boxes along, both sides together, mm.
    sprung_loads : of the loads, what comes through springs, kg; None takes off what the model
        knows of wheels, axles, boxes and coupling rods.
    groups : indices of the axles that equalising beams along each side join; a beam across,
        which a stand on three points has besides, is not reckoned with.
    running_speed : taken for the model, km/h, None if unknown.
    fixed : paths of sizes that a bought part has settled; no button changes them.
    """
    bed = bed_of(whole, horn_clearance)
    borne = carried(whole, axle_loads, sprung_loads)
    coupled = [one for one in borne if one.kind == "coupled"]
    trucks = [one for one in borne if one.kind != "coupled"]
    fitted = coupled_springs(springing, whole, bed, coupled)
    carrying = truck_springs(springing, bed, trucks) if trucks else None
    stop, told_stop = _stop(springing, bed)
    fall = max(bed.gap - stop, 0.0)
    across = Across(bed.middle, bed.tread)
    axles = _axles(borne, fitted, carrying, bed, fall, across, springing.riding.twist, groups)
    main = next(n for n, one in enumerate(axles) if one.name == "driving")
    driving, spring = axles[main], axles[main].spring
    mass = sum(max(one.load - one.unsprung, 0.0) for one in borne)
    bounce, pitch = _modes(borne, axles, mass, gyration(whole), groups)
    tilt = relations.axle_tilt.work(
        "Slope of an axle with one box up and the other down", "ratio",
        u=bed.rise, f=min(fall, bed.rise), s=2 * bed.middle,
    )  # fmt: skip
    angle = math.atan(tilt.result)
    relief = relations.flange_relief.work(
        "Flange of a tilted box swings at its top and bottom by", "mm",
        H=bed.box_height, alpha=angle,
    )  # fmt: skip
    askew = relations.askew.work(
        "Slope in plan of an axle in its horns", "ratio", c=bed.clearance, s=2 * bed.middle
    )
    spread = max(one.packing for one in axles if one.kind == "coupled")
    coil = spring if isinstance(spring, CoilSpring) else None
    margins = [one.margin for one in axles if one.margin is not None]
    lefts = [one.left for one in axles if one.left is not None]
    dips = [one.dip for one in axles if one.dip is not None]
    found = SpringingResult(
        deflection=driving.deflection,
        rate=spring.rate,
        stressed=100 * max(one.stress_up / one.allowed for one in axles),
        margin=min(margins, default=None),
        left=min(lefts, default=None),
        dip=min(dips, default=None),
        free_length=None if coil is None else coil.free,
        loaded_length=None if coil is None else driving.length,
        solid_length=None if coil is None else coil.solid,
        index=None if coil is None else coil.index,
        preload=spring.preload if isinstance(spring, LeafSpring) else None,
        stop=stop,
        fall=fall,
        packing=spread,
        bounces=60 * bounce,
        pitches=None if pitch is None else 60 * pitch,
        surges=None if coil is None else 60 * coil.surge,
        in_step=3.6 * bounce * math.pi * bed.wheel / 1000,
        tilt=math.degrees(angle),
        relief=relief.result,
        bell=(bed.box_outer - bed.box_inner) / 2 * tilt.result,
        askew=math.degrees(math.atan(askew.result)),
        axles=axles,
        main=main,
        bed=bed,
        twist=springing.riding.twist,
        workings=(
            *_workings(borne[main], driving, fitted),
            *_on_track(axles, bounce, mass, springing.riding.twist),
            tilt, relief, askew,
        ),
        suggestions=still_open(
            _within(
                springing,
                *fitted.suggestions,
                *(carrying.suggestions if carrying else ()),
                told_stop,
                Suggestion("springing.riding.adjusting", min(round(spread, 2), 80.0),
                           "what the lightest coupled axle asks beside the heaviest"),
            ),
            fixed,
        ),
    )  # fmt: skip
    findings = tuple(
        replace(one, change=None) if one.change and not offered(springing, *one.change) else one
        for one in judge(springing, found, fitted, carrying, running_speed)
    )
    return SpringingResult(**{**vars(found), "findings": by_level(unlocked(findings, fixed))})


def _within(springing: Springing, *told: Suggestion) -> tuple[Suggestion, ...]:
    """Return the suggestions that could be typed."""
    return tuple(one for one in told if offered(springing, one.field, one.value))


def _stop(springing: Springing, bed: Bed) -> tuple[float, Suggestion]:
    """Return the height of the stop under the box, mm, and what is usual."""
    usual = round(min(max(bed.gap - bed.rise, 0.0), 120.0), 2)
    told = Suggestion("springing.riding.stop", usual, "lets the box fall as far as it rises")
    given = springing.riding.stop
    return (usual if given is None else given), told


def _axles(
    borne: tuple[Carried, ...],
    fitted: Fitted,
    carrying: Fitted | None,
    bed: Bed,
    fall: float,
    across: Across,
    twist: float,
    groups: Groups,
) -> tuple[AxleSpring, ...]:
    """Return the springs of every axle with what the track does to them."""
    kinds = [fitted if one.kind == "coupled" or carrying is None else carrying for one in borne]
    supports = tuple(
        Support(one.ahead, kind.spring.rate * kind.number, max(one.load, 0.0) * GRAVITY / 2)
        for one, kind in zip(borne, kinds, strict=True)
    )
    on_twist = twisted(supports, across, twist, groups)
    on_dip = dipping(supports, across, groups)
    least = {
        id(kind): min(
            _force(one, own) for one, own in zip(borne, kinds, strict=True) if own is kind
        ) / kind.spring.rate
        for kind in kinds
    }  # fmt: skip
    made = []
    for one, kind, support, (lost, moved), (per, falls) in zip(
        borne, kinds, supports, on_twist, on_dip, strict=True
    ):
        spring, force = kind.spring, _force(one, kind)
        gives = force / spring.rate
        coil = isinstance(spring, CoilSpring)
        bound = spring.rate * max(spring.travel, 0.0) if coil else None
        down = fall if one.kind == "coupled" else bed.rise
        dip = min(
            support.wheel / per if per > 0 else math.inf, down / falls if falls > 0 else math.inf
        )
        # without rise the engine stands on three points, whatever the springs
        rides = support.wheel > 0 and bed.rise > 0
        left = 100 * (1 - lost / support.wheel) if rides else None
        made.append(
            AxleSpring(
                name=one.name, kind=one.kind, ahead=one.ahead, spring=spring, number=kind.number,
                bound_at=bound, load=one.load, unsprung=one.unsprung, force=force,
                deflection=gives, packing=gives - least[id(kind)],
                stress=spring.stress(force),
                stress_up=spring.stress(force + spring.rate * bed.rise),
                allowed=spring.allowed,
                stress_bound=None if bound is None else spring.stress(bound),
                margin=spring.travel - gives - bed.rise if coil else None,
                fall=down, moved=moved, left=left, dip=dip if math.isfinite(dip) else None,
            )
        )  # fmt: skip
    return tuple(made)


def _force(one: Carried, kind: Fitted) -> float:
    """Return the load of one spring, N, never less than none."""
    return max(one.box, 0.0) / kind.number


def _modes(
    borne: tuple[Carried, ...],
    axles: tuple[AxleSpring, ...],
    mass: float,
    radius: float,
    groups: Groups,
) -> tuple[float, float | None]:
    if mass <= 0:
        return 0.0, None
    weights = [max(one.load - one.unsprung, 0.0) for one in borne]
    centre = sum(w * one.ahead for w, one in zip(weights, borne, strict=True)) / mass
    supports = tuple(Support(one.ahead, one.spring.rate * one.number, 0.0) for one in axles)
    return modes(supports, mass, centre, radius, groups)


def _workings(one: Carried, axle: AxleSpring, fitted: Fitted) -> tuple[Working, ...]:
    """Return the workings of the driving spring."""
    spring = axle.spring
    load = relations.spring_load.work(
        "Load on one driving spring", "N", W=one.load, U=one.unsprung, g=GRAVITY,
        n=2 * axle.number,
    )  # fmt: skip
    most = axle.force + spring.rate * fitted.task.rise
    if isinstance(spring, LeafSpring):
        sizes = {"E": spring.stuff.young, "b": spring.width, "t": spring.thickness,
                 "L": spring.half}  # fmt: skip
        leaves = {"f": float(spring.extra), "g": float(spring.graduated)}
        made = [
            load,
            relations.leaf_rate.work("Rate of a driving spring", "N/mm", **sizes, **leaves),
            relations.leaf_stress.work(
                "Stress with the box at its top, leaves sharing alike", "N/mm2",
                F=most, L=spring.half, n=spring.leaves, b=spring.width, t=spring.thickness,
            ),
        ]  # fmt: skip
        if spring.extra:
            made += [
                relations.leaf_nip.work(
                    "Nip that evens the stress out", "mm", F=most, n=spring.leaves, **sizes
                ),
                relations.leaf_preload.work(
                    "Pull that draws the leaves together", "N", C=spring.nip, **sizes, **leaves
                ),
            ]
        return tuple(made)
    stuff, coil = spring.stuff, {"D": spring.coil, "d": spring.wire}
    closed = relations.solid_ground if spring.ends.endswith("ground") else relations.solid_unground
    return (
        load,
        relations.coil_rate.work(
            "Rate of a driving spring", "N/mm", G=stuff.shear, n=spring.turns, **coil
        ),
        relations.coil_stress.work(
            "Stress with the box at its top", "N/mm2", F=max(most, 0.0), **coil
        ),
        relations.coil_stress_bergstrasser.work(
            "The same by Bergsträsser's factor", "N/mm2", F=max(most, 0.0), **coil
        ),
        relations.wire_strength.work(
            "Tensile strength of the wire", "N/mm2", A=stuff.strength, d=spring.wire,
            m=stuff.exponent,
        ),
        closed.work("Length when coil-bound", "mm", N=spring.total, d=spring.wire),
        relations.surge.work(
            "Waves along a driving spring in a second", "ratio", k=1000 * spring.rate, m=spring.mass
        ),
    )  # fmt: skip


def _on_track(
    axles: tuple[AxleSpring, ...], bounce: float, mass: float, twist: float
) -> tuple[Working, ...]:
    places = [one.ahead for one in axles]
    made = [
        relations.cross_level.work(
            "Cross level changes over the wheelbase by", "mm", X=max(places) - min(places), N=twist
        )
    ]
    if bounce > 0:
        total = sum(2000 * one.spring.rate * one.number for one in axles)
        made.append(
            relations.bounce.work(
                "Bounces in a second, were it balanced on its springs", "ratio", k=total, m=mass
            )
        )
    return tuple(made)
