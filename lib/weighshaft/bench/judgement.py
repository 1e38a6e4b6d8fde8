"""What is to be said of the runs, in the builder's words."""

from __future__ import annotations

from collections.abc import Sequence

from ..findings import Finding
from .decisions import FUEL, FUEL_FULL, KEPT, KINDS, PULL, RAISED, STANDING, WATER, Bench
from .plan import Advice
from .results import Compared, Known

HOW = {
    WATER: "fill to a mark in the glass, run at one speed, notch and pressure for five minutes or "
    "more, and measure what brings the water back to the mark, the engine cold again",
    PULL: "let a spring balance draw a braked truck behind the engine on level track, and read it "
    "while speed and pressure stand still",
    STANDING: "hold the engine fast by a spring balance and a stop, open the regulator slowly in "
    "full gear, and take the mean of several positions of the cranks",
    FUEL: "weigh gas tank, lamp or coal before and after a run in which the pressure ends as it "
    "began",
    FUEL_FULL: "weigh gas tank or lamp before and after ten minutes at full fire",
    RAISED: "fill with cold water to the working level, light up, and note the minutes to a "
    "pressure, regulator shut and blower off",
    KEPT: "run at one speed and notch with the fire full until the gauge no longer moves, the "
    "safety valve shut",
}
"""How each measurement is made; common practice."""
SCATTERS = 1.5
"""Times the scatter to be expected from which it is said (common practice)."""
ALIKE = 1.15
"""Times by which two runs alike may differ before somebody looks why (common practice)."""


def kinds_for(fuel: str | None) -> tuple[str, ...]:
    """Return what can be measured of an engine; `fuel` None where the fire is not worked."""
    if fuel is None:
        return (WATER, PULL, STANDING)
    return tuple(one for one in KINDS if fuel != "coal" or one not in (FUEL_FULL, KEPT))


def cautions(pressure: float) -> tuple[str, ...]:
    """Return what to heed; `pressure` working, bar."""
    return (
        "In steam only with a boiler whose test is in date, and never above the working pressure "
        f"of {pressure:.3g} bar: no measurement is worth a tied-down safety valve. Never let the "
        "water go below the lowest mark to see how far a run goes.",
        "An engine that is held fast can break loose: a stop that holds by itself besides the "
        "balance, nobody in line with the engine, fingers out of wheels and motion, the regulator "
        "in the hand. On rollers it is held down as well.",
        "Weigh gas tanks and lamps cold and in the open, the valve shut, no flame near; never "
        "take off a tank or fill a lamp while anything is hot.",
        "Everything is hot that was in steam: let it cool before water is drained or measured.",
    )


def judged(
    bench: Bench, *, refused: dict[int, str], stands: bool, compared: Sequence[Compared],
    known: Sequence[Known], advice: Sequence[Advice], left_open: Sequence[str],
) -> list[Finding]:  # fmt: skip
    """Return the findings."""
    ready = [i for i, why in refused.items() if not why]
    found: list[Finding] = []
    for i, why in refused.items():
        told = f"Run {i + 1}, {bench.runs[i].what}, {why}: it takes no part."
        found.append(Finding("check", "bench", (f"bench.runs.{i}.what",), told,
                             "Fill in what is missing, or take the run away."))  # fmt: skip
        if not why:
            found.pop()
    if not ready:
        found.append(
            Finding(
                "fine", "bench", ("bench.runs",),
                "Nothing has been measured yet: all coefficients stand as they are seen in "
                "practice elsewhere.", _how(advice[0]) if advice else "",
            )
        )  # fmt: skip
    elif not bench.fitted.coefficients:
        many = "1 run is" if len(ready) == 1 else f"{len(ready)} runs are"
        found.append(
            Finding(
                "check", "bench", ("bench.runs",),
                f"{many} measured and nothing has been fitted to them yet.",
                "Press “Fit to the runs”; it takes some tens of seconds.",
            )
        )  # fmt: skip
    elif not stands:
        found.append(
            Finding(
                "check", "bench", ("bench.runs",),
                "The engine or the runs have been changed since the last fit, which no longer "
                "belongs to them.", "Fit again.",
            )
        )  # fmt: skip
    if stands:
        found += [*_coefficients(known), *_runs(compared), *_scatter(bench.fitted.scatter)]
    if ready and advice:
        found.append(
            Finding("fine", "bench", ("bench.runs",), _next(advice[0], left_open), _how(advice[0]))
        )
    return found


def _coefficients(known: Sequence[Known]) -> list[Finding]:
    made: list[Finding] = []
    open_ = [one.title for one in known if not one.determined]
    for one in known:
        if not one.determined or one.value is None or one.least is None or one.most is None:
            continue
        told = one.told
        span = f"{told['least']} to {told['most']}"
        beyond = one.value < one.low or one.value > one.high
        if beyond:
            made.append(
                Finding(
                    "check", "bench", (one.path,),
                    f"The runs put the {one.title} at {told['value']}, {span}: outside "
                    f"{told['low']} to {told['high']}, what is seen in practice.",
                    _odd(one.key, one.value > one.high), one.source,
                )
            )  # fmt: skip
        elif not one.least <= one.now <= one.most:
            made.append(
                Finding(
                    "check", "bench", (one.path,),
                    f"The {one.title} is {told['value']}, {span}, by the runs; the design reckons "
                    f"with {told['now']}.", "Take it over.",
                )
            )  # fmt: skip
        else:
            made.append(
                Finding(
                    "fine", "bench", (one.path,),
                    f"The {one.title} is {told['value']}, {span}, by the runs; {told['now']}, with "
                    "which the design reckons, agrees.",
                )
            )  # fmt: skip
    if open_:
        made.append(
            Finding(
                "fine", "bench", ("bench.runs",),
                f"The runs do not determine: {'; '.join(open_)}. These stay at what is seen in "
                "practice.",
            )
        )  # fmt: skip
    return made


def _odd(key: str, high: bool) -> str:
    words = {
        ("valve_gap", True): "Look for a leak: valves that stand off their faces, rings, cocks.",
        ("valve_gap", False): "Tighter than any valve is: was all the water counted?",
        ("efficiency", True): "Better than engines are: look at balance, pressure gauge and grade.",
        ("efficiency", False): "Look for tight bearings, glands or motion, and for a brake.",
        ("share", True): "Better than its type: look at the weight of the fuel.",
        ("share", False): "Look for soot, scale, cold air past the fire, or a lamp too far off.",
        ("rate", True): "Look at the bore of the jet, or at the wicks.",
        ("rate", False): "Look for dirt in the jet, a cold gas tank, or hard wicks.",
    }
    return words.get((key, high), "Look at the readings.")


def _runs(compared: Sequence[Compared]) -> list[Finding]:
    made: list[Finding] = []
    for one in compared:
        if one.used == "set aside" and one.after is not None and one.measured is not None:
            made.append(
                Finding(
                    "check", "bench", (f"bench.runs.{one.number - 1}.what",),
                    f"Run {one.number}, {one.what}, does not go with the others: "
                    f"{one.measured:.4g} {one.unit} measured, {one.after:.3g} {one.unit} by all "
                    "the rest and what is seen in practice. It was set aside.",
                    "Measure it again, or look what was odd.",
                )
            )  # fmt: skip
    good = [one for one in compared if one.used == "yes" and one.measured and one.after]
    pairs = [
        (a, b) for i, a in enumerate(good) for b in good[i + 1 :]
        if a.what == b.what and a.before == b.before and a.measured and b.measured
        and max(a.measured, b.measured) > ALIKE * min(a.measured, b.measured)
    ]  # fmt: skip
    for a, b in pairs[:2]:
        made.append(
            Finding(
                "check", "bench", (f"bench.runs.{b.number - 1}.what",),
                f"Runs {a.number} and {b.number} were made alike and show {a.measured:.3g} and "
                f"{b.measured:.3g} {a.unit}.", "A third would tell which is to be believed.",
            )
        )  # fmt: skip
    return made


def _scatter(scatter: float) -> list[Finding]:
    if scatter <= SCATTERS:
        return []
    return [
        Finding(
            "check", "bench", ("bench.spread",),
            f"The runs scatter {scatter:.2g} times as far as their accuracy lets expect; all that "
            "is said of the coefficients was widened by it.",
            "Look for what was not alike, or say honestly how well each was read.",
        )
    ]  # fmt: skip


def _next(advice: Advice, left_open: Sequence[str]) -> str:
    rest = f" Such runs leave open: {'; '.join(left_open)}." if left_open else ""
    return (
        f"Next, {advice.what} would tell most: the {advice.tells} known to {advice.then:.2g} % "
        f"instead of {advice.now:.2g} %.{rest}"
    )


def _how(advice: Advice) -> str:
    return f"{advice.what[:1].upper()}{advice.what[1:]}: {HOW[advice.what]}."
