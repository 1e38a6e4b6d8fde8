"""What is to be said of joints, glands and rings."""

from __future__ import annotations

from dataclasses import replace

from ...findings import Finding
from ...fits import COMPOUND_HOTTEST
from ...trade.seals import MOVING
from .decisions import IN_PISTON, IRON_RINGS, O_RING, PACKING, Fitting
from .joints import THINNEST, WIDEST
from .manifold_judged import judge_manifold
from .results import FittingResult
from .seals import usual

CAUTIONS = (
    "Solder hot work in a draught that takes the fumes away, and never heat an alloy with cadmium "
    "or a part with zinc plating; fluxes burn eyes and skin.",
    "Quench nothing hollow from red heat; pickle with eyes and hands covered, acid into water.",
    "A boiler and its bushes go by the club's boiler inspector and the local code: gaps and "
    "alloys here are for fittings, pipes and cylinders.",
    "Steam and water leave a union that is slacked under pressure at once: blow down and let cool "
    "before a nut is touched, and keep a cock between boiler and manifold.",
    "Never braze or silver-solder beside a bonded joint or a rubber ring: take them out first.",
    "Try every joint cold, with water, before it sees steam.",
)
IRON = ("mild steel", "silver steel", "stainless steel", "cast iron")
SMALL_BORE = 20.0
"""Bore (mm) under which iron rings are seldom made; common practice."""
OVERSTRAINED = 350.0
"""Bending (N/mm2) that small iron rings seldom outlive when spread; common practice."""
LIMITS = "oringsupplyco.com, steam and high-temperature guides; the maker's sheet decides"
SHORT_NOSE = 0.45
SHORT_PACKING = 0.75
"""Least length of packing, in diameters of the rod; common practice."""


def judge(fitting: Fitting, result: FittingResult, metal: str) -> list[Finding]:
    """Return the findings.

    Parameters
    ----------
    metal : of the cylinder.
    """
    piston = fitting.o_ring.place == IN_PISTON
    used = (fitting.piston_seal if piston else fitting.rod_seal) == O_RING
    return [
        *_of_piece(fitting, result),
        *judge_manifold(fitting.manifold, result.manifold, example=not fitting.manifold.made),
        *_of_solder(fitting, result), *_of_bond(fitting, result),
        *_eased(_of_o_ring(fitting, result), used),
        *_eased(_of_gland(fitting, result), fitting.rod_seal == PACKING),
        *_eased(_of_rings(fitting, result, metal), fitting.piston_seal == IRON_RINGS),
    ]  # fmt: skip


def _eased(found: list[Finding], used: bool) -> list[Finding]:
    """Return findings on a seal; on one that is not used only as things to know."""
    return found if used else [replace(one, level="fine") for one in found[:1]]


def _found(level: str, at: str, says: str, mend: str = "", source: str = "geometry") -> Finding:
    fields = tuple(one if one.startswith("threads.") else f"fitting.{one}" for one in at.split())
    return Finding(level, "fitting", fields, says, mend, source)  # type: ignore[arg-type]


def _of_piece(fitting: Fitting, result: FittingResult) -> list[Finding]:
    piece, found = result.piece, []
    if piece.body <= 0:
        return [
            _found("stop", "pipe.washer threads.connector.distance",
                   f"Two washers of {fitting.pipe.washer:.2f} mm leave no body between faces "
                   f"{piece.faces:.2f} mm apart.", "Thinner washers.")
        ]  # fmt: skip
    if piece.choices:
        best = min(piece.choices, key=lambda one: abs(one.move))
        if abs(best.move) > piece.fit.slack:
            way = "out" if best.move > 0 else "in"
            under = (
                f"a washer of {best.shoulder:.3f} mm under shoulder B"
                if best.shoulder > 0
                else f"{-best.shoulder:.3f} mm off shoulder B"
            )
            found.append(
                _found("check", "threads.connector.distance threads.connector.start",
                       f"Upright and tight the port stands {best.faces:.3f} mm from the other, "
                       f"{abs(best.move):.3f} mm {way} of where the frames have it, with {under}.",
                       "Shim the port, or cut the thread of a new end so that it comes up upright.")
            )  # fmt: skip
    return found


def _of_solder(fitting: Fitting, result: FittingResult) -> list[Finding]:
    joint, made, found = result.soldered, fitting.brazed, []
    if not joint.alloy.iron and (made.inner in IRON or made.outer in IRON):
        found.append(
            _found("stop", "brazed.alloy brazed.inner brazed.outer",
                   f"{joint.alloy.name.capitalize()} makes brittle joints on iron and steel.",
                   "A silver solder.", joint.alloy.source)
        )  # fmt: skip
    copper = {"brass", "gunmetal", "bronze"} & {made.inner, made.outer}
    if joint.heat > 850 and copper:
        found.append(
            _found("stop" if "brass" in copper else "check", "brazed.alloy brazed.heat",
                   f"At {joint.heat:.0f} °C {' and '.join(sorted(copper))} is at or near its own "
                   "melting range.", "A silver solder.", "common practice")
        )  # fmt: skip
    gap = joint.gained
    if joint.bore[0] <= made.spigot:
        found.append(
            _found("fine", "brazed.spigot",
                   f"The bore gains {gap:.3f} mm when hot: a bore of {joint.bore[0]:.3f} mm on a "
                   f"spigot of {made.spigot:.3f} mm is still open enough for the solder.",
                   "Put it together cold only if it goes; a press fit starves the joint.")
        )  # fmt: skip
    elif gap < -joint.alloy.gap[0]:
        found.append(
            _found("check", "brazed.inner brazed.outer brazed.spigot",
                   f"The spigot grows {-gap:.3f} mm more than its bore by {joint.heat:.0f} °C: "
                   f"an easy fit of {2 * joint.alloy.gap[0]:.3f} mm cold would close.",
                   f"Bore {joint.best:.2f} mm, as worked out.")
        )  # fmt: skip
    if made.overlap < joint.overlap:
        found.append(
            _found("check", "brazed.overlap",
                   f"The joint is {made.overlap:.1f} mm long; three walls are "
                   f"{joint.overlap:.1f} mm.", "A longer spigot.",
                   "copper.org, brazed joints: three times the thinner wall")
        )  # fmt: skip
    return found


def _of_bond(fitting: Fitting, result: FittingResult) -> list[Finding]:
    bond, found = result.held, []
    if bond.warm <= 0:
        found.append(
            _found("check", "bonded.gap bonded.service",
                   f"At {fitting.bonded.service:.0f} °C the pin fills its bore and squeezes the "
                   "compound out.", "A wider gap.")
        )  # fmt: skip
    elif not THINNEST <= fitting.bonded.gap <= WIDEST:
        found.append(
            _found("check", "bonded.gap",
                   f"A gap of {fitting.bonded.gap:.3f} mm on the diameter is not between "
                   f"{THINNEST:.2f} and {WIDEST:.2f} mm.", "A light sliding fit.",
                   "maker's sheet of a high-strength grade (0.15 mm), common practice")
        )  # fmt: skip
    if fitting.bonded.service > COMPOUND_HOTTEST:
        found.append(
            _found("check", "bonded.service",
                   f"Ordinary compound is given up to {COMPOUND_HOTTEST:.0f} °C; the bond gets "
                   f"{fitting.bonded.service:.0f}.", "Solder, a key or a press fit.",
                   "maker's sheet of a high-strength grade")
        )  # fmt: skip
    return found


def _of_o_ring(fitting: Fitting, result: FittingResult) -> list[Finding]:
    seal, asked, found = result.sealed, fitting.o_ring, []
    piston = asked.place == IN_PISTON
    if seal.groove_diameter <= 0 or (piston and seal.groove_diameter < 2 * seal.groove.section):
        found.append(
            _found("stop", "o_ring.on o_ring.section",
                   f"A groove for the section of {seal.groove.section:.2f} mm leaves no core in a "
                   f"piston of {seal.on:.1f} mm.", "A thinner section, or a packed piston.")
        )  # fmt: skip
    if seal.ring is None:
        found.append(
            _found("check", "o_ring.section o_ring.on",
                   f"No ring of {seal.groove.section:.2f} mm section goes with a groove of "
                   f"{seal.groove_diameter:.2f} mm.",
                   "Another section, or a maker's list: more are made.",
                   seal.groove.source)
        )  # fmt: skip
    else:
        low, high = usual(seal.on, piston=piston)
        if not low - 0.5 <= seal.stretch <= high + 0.5:
            doing = "stretched" if piston else "larger than its groove by"
            found.append(
                _found("check", "o_ring.section o_ring.on",
                       f"Ring {seal.ring.name} is {doing} {seal.stretch:.1f} %; {low:g} to "
                       f"{high:g} % is usual.", "Another section, or a metric ring.",
                       "globaloring.com, groove design")
            )  # fmt: skip
    if not seal.rubber.steam and seal.hot > 100:
        found.append(
            _found("check", "o_ring.rubber", f"{seal.rubber.name.capitalize()} in steam of "
                   f"{seal.hot:.0f} °C: {seal.rubber.note}.", "EPDM, or packing.",
                   LIMITS)
        )  # fmt: skip
    elif seal.hot > seal.rubber.in_steam:
        found.append(
            _found("check", "o_ring.rubber o_ring.hot",
                   f"In steam {seal.rubber.name} is good for about {seal.rubber.in_steam:.0f} °C; "
                   f"here it gets {seal.hot:.0f}.",
                   "TFE/P rubber to 200 °C, packing, or a ring where it stays cooler.", LIMITS)
        )  # fmt: skip
    if asked.rubber == "PTFE":
        found.append(
            _found("check", "o_ring.rubber",
                   "PTFE does not spring back: pressed into this groove alone it soon lets by.",
                   "A rubber ring behind it, or PTFE as packing that the gland follows up.",
                   "common practice")
        )  # fmt: skip
    if asked.duty == MOVING and asked.rubber == "silicone":
        found.append(
            _found("check", "o_ring.rubber o_ring.duty",
                   "Silicone tears and wears fast where it slides.", "EPDM for a moving joint.",
                   "common practice")
        )  # fmt: skip
    return found


def _of_gland(fitting: Fitting, result: FittingResult) -> list[Finding]:
    gland, found = result.stuffed, []
    if gland.packing < SHORT_PACKING * gland.rod - 1e-9:
        found.append(
            _found("check", "packed.rings", f"{gland.rings} rings make {gland.packing:.1f} mm of "
                   f"packing on a rod of {gland.rod:.1f} mm; one and a half diameters are usual.",
                   "Another ring, where there is room.",
                   "machinedesign.com, compression packings (an old rule)")
        )  # fmt: skip
    if gland.nose < SHORT_NOSE * gland.yarn:
        found.append(
            _found("check", "packed.nose", f"A nose of {gland.nose:.1f} mm has little to follow "
                   "the packing with.", "One section of the packing or more.", "common practice")
        )  # fmt: skip
    if gland.room is not None and gland.depth > gland.room:
        found.append(
            _found("check", "packed.rings packed.yarn",
                   f"Packing and nose want {gland.depth:.1f} mm; the cylinder has "
                   f"{gland.room:.1f} mm of stuffing box and gland.",
                   "Let the box into the cover, fewer rings, or a longer gland in Cylinders.")
        )  # fmt: skip
    return found


def _of_rings(fitting: Fitting, result: FittingResult, metal: str) -> list[Finding]:
    ring, found = result.ringed, []
    if metal != "cast iron":
        found.append(
            _found("check", "rings.bore threads.covers.female",
                   f"Iron rings score a bore of {metal}; in it they are not used.",
                   "Packing or an O-ring in the piston, or a liner of iron.", "common practice")
        )  # fmt: skip
    if ring.bore < SMALL_BORE:
        found.append(
            _found("check", "rings.bore", f"In a bore of {ring.bore:.1f} mm a ring would be "
                   f"{ring.radial:.2f} mm thick.", "Packing or an O-ring.", "common practice")
        )  # fmt: skip
    if ring.opening > OVERSTRAINED:
        found.append(
            _found("check", "rings.radial rings.pressure",
                   f"Spread over the piston the ring is bent to {ring.opening:.0f} N/mm²; it may "
                   "snap or stay open.", "A piston in two parts, or a thinner ring.",
                   "curved beam; the limit from common practice")
        )  # fmt: skip
    if ring.radial > ring.bore / 8:
        found.append(
            _found("check", "rings.radial", f"A ring {ring.radial:.2f} mm deep in a bore of "
                   f"{ring.bore:.1f} mm is stiff as a bush.", "About a thirtieth of the bore.",
                   "common practice")
        )  # fmt: skip
    if ring.width < ring.least_width:
        found.append(
            _found("check", "rings.width rings.number",
                   f"Rings {ring.width:.2f} mm wide are under {ring.least_width:.2f} mm, a tenth "
                   f"of the bore over {fitting.rings.number}.", "Wider rings, or one more.",
                   "Khurmi and Gupta, 32.9")
        )  # fmt: skip
    if ring.closed[0] + ring.opens <= 0:
        found.append(
            _found("check", "rings.bore", f"Hot, the gap closes by {-ring.opens:.3f} mm, more "
                   f"than the least gap of {ring.closed[0]:.3f} mm.", "A wider gap.")
        )  # fmt: skip
    return found
