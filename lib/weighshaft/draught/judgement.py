"""Findings on blast and draught."""

from __future__ import annotations

from collections.abc import Iterator

from ..findings import Finding
from ..nozzle.decisions import Nozzle
from ..trade.drills import Drill
from .fire import Fuel
from .relations import BOURNE, MOMENTUM, PORTA
from .results import DraughtResult

EVEN = 70.0
"""% of the jet's unevenness that should be gone at the top (common practice)."""
CATCH = 95.0
"""% of the jet's momentum that the choke should catch (common practice)."""
BETTER = 1.15
"""By how much another choke has to draw more before it is spoken of (common practice)."""
APART = 0.3
"""Part by which two draughts may differ without a word (common practice)."""
STEEP = 7.0
"""Degrees a side beyond which a diffuser's flow leaves its wall (common practice)."""
SURPLUS = 2.5
"""Draught over that wanted from which a larger nozzle is worth its trouble (common practice)."""
NARROW = "\u202f"
HOT = (
    "Draught is measured with a water gauge on a thin pipe, the engine held fast on rollers: "
    "mind hot metal, spitting water and what comes out of the chimney. A gas fire that goes out "
    "is shut off at once and the gas let blow away before it is lit again."
)
ROUGH = (
    "How near this comes: on engines of 1850 with all sizes known it gave 0.65 to 1.2 times the "
    "vacuum of Bourne's rule, and on engines of 1915 whose chimneys and tubes are not known 0.9 to "
    "2.6 times what was measured, plain nozzles the highest. Small engines are an extrapolation: "
    "drill small first, measure, and open up."
)


def judged(
    nozzle: Nozzle, result: DraughtResult, fuel: Fuel, drill: Drill | None,
    fire_draught: float | None,
) -> Iterator[Finding]:  # fmt: skip
    """Yield what there is to say of the draught.

    Parameters
    ----------
    fire_draught : mm water that the fire is reckoned with elsewhere; None where it is not.
    """
    yield Finding("fine", "draught", ("nozzle.diameter",), HOT, source="usual caution")
    yield Finding("fine", "draught", ("draught.margin",), ROUGH,
                  source=f"{BOURNE}, question 278; Dingler 331 (1916), p. 210")  # fmt: skip
    if result.draught is None:
        yield Finding(
            "check", "draught", ("nozzle.diameter",),
            f"{result.steam:.2g} g/s of steam need more than 10 bar behind a nozzle of "
            f"{nozzle.diameter:.2f} mm: there is no draught to reckon with.",
            "Open the nozzle; Blast nozzle tells how far.",
        )  # fmt: skip
        return
    yield _draught(nozzle, result, result.draught, fuel, drill)
    if not result.pulsating:
        yield Finding(
            "fine", "draught", ("cylinders.bore",),
            "Reckoned with the mean flow of steam. Beats draw about the same on the whole as long "
            "as the gases follow them, and more back pressure than the mean.",
            source=MOMENTUM,
        )  # fmt: skip
    if fire_draught is not None and abs(result.draught / fire_draught - 1) > APART:
        yield Finding(
            "fine", "draught", ("firing.coal.draught",),
            f"Fire, boiler and feed reckons its full fire with {fire_draught:.3g} mm of water; "
            f"this blast draws {result.draught:.3g} mm while running.",
            "Its full fire would go by the root of that.", BOURNE,
            change=("firing.coal.draught", round(result.draught, 1)),
        )  # fmt: skip
    yield from _chimney(nozzle, result)


def _draught(
    nozzle: Nozzle, result: DraughtResult, draught: float, fuel: Fuel, drill: Drill | None
) -> Finding:
    fields = ("nozzle.diameter", "draught.wanted", "draught.most", "nozzle.firing")
    says = (
        f"The blast draws {draught:.3g} mm of water and {result.gas:.3g} g/s of gases, "
        f"{result.over_steam:.2f} times the steam, for {_bar(result.back_pressure)} of back "
        f"pressure; the fire needs {result.needed:.3g} mm"
        + (", the burner's own jet bringing in the rest" if fuel.name == "gas" else "")
    )
    source = f"{MOMENTUM}; losses after {PORTA}"
    change = None if drill is None else ("nozzle.diameter", round(drill.diameter, 3))
    other = "" if drill is None else f"{_named(drill)} draws about the "
    mend = f"{other}{result.wanted:.3g} mm wanted." if drill else (
        "No nozzle from two fifths to four times this one does it: look at choke and tubes."
    )  # fmt: skip
    if draught > result.most:
        most = f"and stands {result.most:.3g} mm at most"
        if fuel.name == "gas":
            free = result.harmless
            mend = (
                "A gas burner wants almost none: its own jet brings the air. "
                + (f"From a nozzle of {free:.2f} mm up the blast does no harm."
                   if free else "Turn the exhaust beside the chimney, or open nozzle and choke.")
            )  # fmt: skip
            change = None if free is None else ("nozzle.diameter", round(free + 0.005, 2))
            return Finding(
                "check", "draught", fields,
                f"{says}, {most}: the blast does more harm than good, {fuel.harm}.", mend,
                "common practice; " + source, change,
            )  # fmt: skip
        return Finding(
            "check", "draught", fields, f"{says}, {most}: {fuel.harm}.", mend, source, change
        )
    if draught < result.needed:
        return Finding(
            "check", "draught", fields,
            f"{says}, which is more: the fire would raise {result.raised:.3g} g/s of the "
            f"{result.steam:.3g} g/s that are used.", mend, source, change,
        )  # fmt: skip
    if 0 < SURPLUS * result.wanted < draught and fuel.name != "gas":
        saved = "" if result.nozzle_back is None else f", for {_bar(result.nozzle_back)}"
        return Finding(
            "check", "draught", fields,
            f"{says}: the pistons pay for {draught / result.wanted:.1f} times the draught wanted.",
            f"{mend.removesuffix('.')}{saved}.", source, change,
        )  # fmt: skip
    other = "" if drill is None or result.nozzle_back is None else (
        f" {_named(drill)} would draw about the {result.wanted:.3g} mm wanted for "
        f"{_bar(result.nozzle_back)}."
    )  # fmt: skip
    return Finding("fine", "draught", fields, f"{says}.{other}", source=source)


def _named(drill: Drill) -> str:
    # a narrow space, since the name of a drill is no measure that a page's switch may change
    name = drill.name.replace(" ", NARROW)
    return name if name.endswith("mm") else f"{name} ({drill.diameter:.2f} mm)"


def _bar(pressure: float | None) -> str:
    if pressure is None:
        return "more than 10 bar"
    return f"{pressure:.3f} bar" if pressure >= 0.01 else f"{pressure:.2g} bar"


def _chimney(nozzle: Nozzle, result: DraughtResult) -> Iterator[Finding]:
    at, box = result.layout, nozzle.smokebox
    choke = ("nozzle.smokebox.choke", "nozzle.smokebox.nozzle_below")
    if result.evened < EVEN:
        yield Finding(
            "check", "draught", (*choke, "draught.number"),
            f"From tip to chimney top are {(at.top - at.tip) / at.choke:.1f} chokes, in which the "
            f"jet evens out by {result.evened:.0f} %: its middle blows through.",
            "A longer way, a smaller choke, or the area shared by four nozzles.", PORTA,
        )  # fmt: skip
    if result.caught < CATCH:
        yield Finding(
            "check", "draught", choke,
            f"The choke catches {result.caught:.0f} % of the jet: it has grown too wide on the "
            f"{at.choke_at - at.tip:.1f} mm from the tip.",
            "Raise the nozzle or open the choke, as the cone of 1 in 3 says.",
            "spread of a free round jet",
        )  # fmt: skip
    if box.taper > STEEP:
        yield Finding(
            "check", "draught", ("nozzle.smokebox.taper",),
            f"A chimney that widens {box.taper:g} degrees a side is steeper than the stream "
            "follows.",
            f"6 degrees a side is what {PORTA.split(',')[0]} takes; 2 degrees are usual.",
        )  # fmt: skip
    better, best = result.best_choke_draught, result.best_choke
    if better is not None and result.draught and better > BETTER * result.draught:
        outside = box.chimney_outside
        fits = outside is None or (best or 0.0) < 0.95 * outside
        yield Finding(
            "fine", "draught", choke[:1],
            f"By the ejector a choke of {best:.1f} mm would draw {better:.3g} mm of water with the "
            f"same back pressure, where {at.choke:.1f} mm draws {result.draught:.3g} mm"
            + ("." if fits else f"; the chimney of {outside:.1f} mm outside has no room for it."),
            source=MOMENTUM,
        )  # fmt: skip
