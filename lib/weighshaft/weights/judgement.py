"""What is said of weights, axle loads and adhesion."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..findings import COMMON, Finding
from .bearing import spring_centre, truck_ratio
from .decisions import EACH, Weights
from .results import WeightsResult

CHAPTER = "weights"
STATICS = "statics"
VOSE = "G. L. Vose, Handbook of Railroad Construction (1857)"
LIFT = 25.0
"""kg at waist height close to the body; HSE leaflet INDG143, from memory."""
APART = 0.15
"""Reckoned and given weight may differ by so much before it is said; common practice."""
_UNEVEN = 1.35
_LIGHT, _HEAVY = 1 / 3, 1.1
"""Load of a truck's axle beside a coupled axle's; common practice."""


@dataclass(frozen=True)
class Given:
    """What was decided, here and in other chapters; kg.

    Parameters
    ----------
    lost : names of weighed additions for which no place was given.
    pivots : of a leading and a trailing bogie, ahead of amid its axles, mm.
    """

    weights: Weights
    engine_weight: float
    coupled_weight: float
    lost: tuple[str, ...]
    pivots: tuple[float, float]


def judge(given: Given, result: WeightsResult) -> tuple[Finding, ...]:
    """Return the findings of the chapter."""
    return (
        *_known(given), *_against(given, result), *_standing(result), *_adhesion(result),
        *_evenness(result), *_trucks(given, result), *_share(given, result),
        *_pulled(result), *_run_down(result), *_aside(result), *_lifting(result),
    )  # fmt: skip


def kg(mass: float) -> str:
    """Return a weight to three figures."""
    rounded = float(f"{mass:.3g}")
    return f"{rounded:.0f} kg" if abs(rounded) >= 100 else f"{rounded:g} kg"


def _known(given: Given) -> Iterator[Finding]:
    for name in given.lost:
        yield Finding(
            "check", CHAPTER, ("weights.weighed",),
            f"“{name[:40]}” is no part of the model and has no place, so it is left out.",
            "Say where it stands ahead of the driving axle, or spell it as the table of parts.",
        )  # fmt: skip


def _against(given: Given, result: WeightsResult) -> Iterator[Finding]:
    rows = (
        ("engine_weight", "The engine", given.engine_weight, result.working, ""),
        ("coupled_weight", "The coupled wheels", given.coupled_weight, result.coupled, " on them"),
    )
    for name, what, told, reckoned, words in rows:
        path = f"cylinders.{name}"
        off = reckoned / told - 1
        says = f"{what}: {kg(reckoned)}{words} reckoned part by part, {kg(told)} in Cylinders"
        if abs(off) > APART:
            yield Finding(
                "check", CHAPTER, (path,),
                f"{says}, {abs(off) * 100:.0f} % {'more' if off > 0 else 'less'}.",
                "Add what the model has not, such as fuel, burner, tank of gas, tubes and "
                f"fittings; when all is in, take {kg(reckoned)} there.",
                COMMON, (path, float(f"{reckoned:.3g}")),
            )  # fmt: skip
        else:
            yield Finding("fine", CHAPTER, (path,), f"{says}.", source=COMMON)


def _standing(result: WeightsResult) -> Iterator[Finding]:
    path, axles = "weights.bearing.equalised", result.whole.axles
    if result.rocks:
        yield Finding(
            "stop", CHAPTER, (path,),
            "With all coupled axles equalised together and no truck the engine rocks on one point; "
            "the loads shown are for springs of their own.",
            "Springs for each axle by itself, or front and back groups.", STATICS, (path, EACH),
        )  # fmt: skip
    if result.tips:
        names = ", ".join(axles[n].name for n in result.lifted)
        yield Finding(
            "stop", CHAPTER, ("weights.ballast", path),
            f"The engine tips: its sprung weight stands at {result.states[1].sprung_ahead:.1f} mm "
            f"and leaves nothing for the {names}.",
            "Ballast on the side that lifts, or another way of equalising.", STATICS,
        )  # fmt: skip
    elif result.lifted:
        names = ", ".join(axles[n].name for n in result.lifted)
        yield Finding(
            "check", CHAPTER, ("weights.ballast", path),
            f"The springs of the {names} carry nothing; only the wheels' own weight holds them to "
            "the rail.",
            "Move weight towards them, or equalise them with a neighbour.", STATICS,
        )  # fmt: skip


def _adhesion(result: WeightsResult) -> Iterator[Finding]:
    fields = ("cylinders.bore", "cylinders.pressure", "weights.ballast")
    says = (
        f"{kg(result.coupled)} on the coupled wheels, {result.coupled / result.working * 100:.0f} "
        f"% of the weight, give a factor of adhesion of {result.factor:.2f}; "
    )
    if result.factor < 0.8:
        yield Finding(
            "check", CHAPTER, fields,
            says + "she slips freely on a wide-open regulator; good small engines stand at 0.8 "
            "to 2.", "Ballast over the coupled wheels, or less pressure.",
        )  # fmt: skip
    elif result.factor > 2:
        yield Finding(
            "check", CHAPTER, fields, says + "she holds more than the cylinders give; good small "
            "engines stand at 0.8 to 2.", "Less ballast, or larger cylinders.",
        )  # fmt: skip
    else:
        yield Finding("fine", CHAPTER, fields, says + "within the 0.8 to 2 of small engines.")


def _coupled(result: WeightsResult) -> list[int]:
    return [n for n, one in enumerate(result.whole.axles) if one.kind == "coupled"]


def _evenness(result: WeightsResult) -> Iterator[Finding]:
    coupled = _coupled(result)
    if len(coupled) < 2:
        return
    loads, axles = result.axle_loads, result.whole.axles
    most, least = (pick(coupled, key=loads.__getitem__) for pick in (max, min))
    says = (
        f"Of the coupled axles the {axles[most].name} carries {kg(loads[most])}, the "
        f"{axles[least].name} {kg(loads[least])}; the springs would sink level with the sprung "
        f"weight at {spring_centre(result.supports):.1f} mm, it stands at "
        f"{result.states[1].sprung_ahead:.1f} mm."
    )
    fields, advice = ("weights.ballast", "weights.bearing.equalised"), result.levelling
    if loads[most] <= _UNEVEN * loads[least]:
        yield Finding("fine", CHAPTER, fields, says, source=COMMON)
        return
    mend = "Equalise them, or move weight."
    if advice is not None:
        mend = (
            f"{kg(advice.mass)} of ballast at {advice.ahead:.1f} mm levels them; less nearer to "
            "the end does part of it. Equalising does it without."
        )
    yield Finding("check", CHAPTER, fields, says, mend, COMMON)


def _trucks(given: Given, result: WeightsResult) -> Iterator[Finding]:
    axles, loads, coupled = result.whole.axles, result.axle_loads, _coupled(result)
    mean = result.coupled / len(coupled)
    bearing = given.weights.bearing
    for kind, wanted in (("leading", bearing.leading_load), ("trailing", bearing.trailing_load)):
        theirs = [n for n, one in enumerate(axles) if one.kind == kind]
        path = f"weights.bearing.{kind}"
        if not theirs:
            continue
        load = sum(loads[n] for n in theirs)
        share = load / result.working
        says = f"The {kind} truck carries {kg(load)}, {share * 100:.0f} % of the weight"
        if wanted is not None and abs(load - wanted) > 0.03 * wanted:
            state = result.states[1]
            springs = wanted - sum(state.unsprung[n] for n in theirs)
            ratio = truck_ratio(
                axles, bearing, kind, state.sprung, state.sprung_ahead, springs, given.pivots
            )
            yield Finding(
                "check", CHAPTER, (path, f"{path}_load"),
                f"{says}; {kg(wanted)} are wanted.",
                "Its load is settled by moments alone: move weight." if ratio is None
                else f"Springs of {ratio:.2f} of a coupled axle's stiffness give it.",
                STATICS, None if ratio is None else (path, float(f"{ratio:.3g}")),
            )  # fmt: skip
            continue
        beside = load / len(theirs) / mean
        says += f", {beside:.2f} of a coupled axle's load on each of its axles"
        rule = f"; full-size engines had a fifth to a sixth on the leading wheels ({VOSE})"
        says += rule if kind == "leading" else ""
        if beside < _LIGHT:
            yield Finding(
                "check", CHAPTER, (path, "weights.ballast"), f"{says}.",
                "A truck so light climbs the rail at a bad joint; stiffer springs for it, or "
                "weight towards it.", COMMON,
            )  # fmt: skip
        elif beside > _HEAVY:
            yield Finding(
                "check", CHAPTER, (path, "weights.ballast"), f"{says}.",
                "It takes weight that the coupled wheels want; softer springs for it, or weight "
                "away from it.", COMMON,
            )  # fmt: skip
        else:
            yield Finding("fine", CHAPTER, (path,), f"{says}.", source=COMMON)


def _share(given: Given, result: WeightsResult) -> Iterator[Finding]:
    wanted = given.weights.coupled_share
    if wanted is None:
        return
    now = result.coupled / result.working * 100
    says = f"{now:.1f} % of the weight stands on the coupled wheels; {wanted:g} % are wanted."
    fields, advice = ("weights.coupled_share", "weights.ballast"), result.sharing
    if now >= wanted - 0.05:
        yield Finding("fine", CHAPTER, fields, says, source=STATICS)
    elif advice is None:
        yield Finding(
            "check", CHAPTER, fields, says,
            "Ballast alone does not do it; softer springs on the trucks would.", STATICS,
        )  # fmt: skip
    else:
        yield Finding(
            "check", CHAPTER, fields, says,
            f"{kg(advice.mass)} of ballast over the axle at {advice.ahead:.1f} mm brings it.",
            STATICS,
        )  # fmt: skip


def _pulled(result: WeightsResult) -> Iterator[Finding]:
    axles, loads, pulling = result.whole.axles, result.axle_loads, result.pulling_loads
    drops = [1 - b / a if a > 0 else 0.0 for a, b in zip(loads, pulling, strict=True)]
    worst = max(range(len(drops)), key=drops.__getitem__)
    says = (
        f"Pulling {result.pull:.1f} N at {result.coupling_height:.1f} mm above the rail, the "
        f"{axles[worst].name} axle goes from {kg(loads[worst])} to {kg(pulling[worst])}; on the "
        f"coupled wheels {kg(result.coupled_pulling)} are left of {kg(result.coupled)}."
    )
    fields = ("frames.beams.coupling_height", "weights.pull")
    if drops[worst] > 0.3:
        yield Finding(
            "check", CHAPTER, fields, says,
            "A lower coupling, or weight towards the front.", STATICS,
        )  # fmt: skip
    else:
        yield Finding("fine", CHAPTER, fields, says, source=STATICS)


def _run_down(result: WeightsResult) -> Iterator[Finding]:
    gone = 1 - result.coupled_low / result.coupled
    used = result.run[-1].used
    says = (
        f"With {kg(used)} of water and fuel used up the coupled wheels carry "
        f"{kg(result.coupled_low)}, {abs(gone) * 100:.0f} % {'less' if gone >= 0 else 'more'}."
    )
    fields = ("weights.boiler_left", "frames.platework.tank_ahead")
    if gone > 0.15:
        yield Finding(
            "check", CHAPTER, fields, says,
            "Reckon the train on the lighter engine, or bring the tanks elsewhere.", STATICS,
        )  # fmt: skip
    else:
        yield Finding("fine", CHAPTER, fields, says, source=STATICS)


def _aside(result: WeightsResult) -> Iterator[Finding]:
    says = (
        f"The centre of gravity is {result.centre_height:.1f} mm above the rail on "
        f"{result.whole.gauge:.1f} mm gauge: standing, she tilts over at {result.tilt:.0f}°"
    )
    fields = ("weights.ballast",)
    if result.tilt < 12:
        yield Finding("check", CHAPTER, fields, f"{says}.", "Ballast low down helps.", COMMON)
    else:
        yield Finding("fine", CHAPTER, fields, f"{says}.", source=STATICS)
    uneven = abs(result.right - result.left) / result.working
    if uneven > 0.05:
        yield Finding(
            "check", CHAPTER, ("weights.weighed",),
            f"The right-hand wheels carry {kg(result.right)}, the left-hand ones "
            f"{kg(result.left)}.", "Weight on the lighter side.", STATICS,
        )  # fmt: skip


def _lifting(result: WeightsResult) -> Iterator[Finding]:
    if result.bare > LIFT:
        yield Finding(
            "fine", CHAPTER, ("weights.weighed",),
            f"Bare she weighs {kg(result.bare)}: more than {LIFT:g} kg is for a hoist or for "
            "several, never for one alone.", source="HSE leaflet INDG143, from memory",
        )  # fmt: skip
