"""What is said of the train, the line and the run."""

from __future__ import annotations

import math

from ..findings import COMMON, Finding, Level
from . import relations
from .assumed import CYCLE
from .decisions import BY_HAULAGE, CLEAN, GREASY, Running
from .given import Raising
from .profile import misses_by
from .resistance import Coupled, Rolling
from .results import RunningResult, times

STEPNEY = "A. Stepney, model railway standards: about 8 lb a ton of load"
_TON = 2240.0


def cautions(passengers: int) -> tuple[str, ...]:
    """Return what to heed."""
    always = (
        "Nobody leaves an engine in steam, and water in the glass comes before every other figure "
        "here. What boiler, safety valves and brakes have to be is for the club's boiler inspector "
        "and the rules of the line.",
    )
    if not passengers:
        return always
    return (
        *always,
        "People behind the engine: the line's own limits of speed and load, a brake on the train "
        "and a guard go before what the engine could do.",
    )


def judge(
    running: Running, result: RunningResult, *, raising: Raising, rolling: Rolling,
    behind: Coupled, evenness: float | None, most: float, steepest: float,
) -> list[Finding]:  # fmt: skip
    """Return the findings.

    Parameters
    ----------
    most : pull of the cylinders at a stand, the motion's friction taken off, N.
    steepest : 1 in so many, 0 where nothing rises.
    """
    return [
        *_ran(running, result, raising),
        *_slips(running, result, rolling, evenness, most),
        *_pace(running, result, steepest),
        *_rolls(running, result, rolling, behind),
        *_boiler(result, raising),
        *_line(running),
        *_whence(result, raising),
    ]


def _finding(
    level: Level, fields: tuple[str, ...], says: str, mend: str = "", source: str = COMMON,
    change: tuple[str, float | str] | None = None,
) -> Finding:  # fmt: skip
    return Finding(level, "running", fields, says, mend, source, change)


def _ran(running: Running, result: RunningResult, raising: Raising) -> list[Finding]:
    run = result.run
    minutes = float(run.time[-1]) / 60
    far = f"{result.distance:.0f} m in {minutes:.0f} minutes"
    laps = f", {result.laps:.1f} laps," if running.line.closed else ""
    if not run.ended:
        return [_finding(
            "fine", ("running.train.stock", "running.driving.minutes"),
            f"With {result.train:.1f} kg behind it the engine runs {far}{laps} at "
            f"{result.mean_speed:.1f} km/h in the mean; the pressure does not fall below "
            f"{result.least_pressure:.1f} of {raising.working_pressure:.1f} bar.",
        )]  # fmt: skip
    if "line" in run.ended:
        return [_finding("fine", ("running.line.closed",),
                         f"The end of the line is reached after {far}.")]  # fmt: skip
    if "cannot" in run.ended:
        change = None
        lighter = _lighter(running, result)
        if lighter is not None:
            change = ("running.train.stock", lighter)
        return [_finding(
            "check", ("running.train.stock", "running.train.passengers"),
            f"After {far} {run.ended}; {result.train:.1f} kg are behind the engine.",
            "Less behind it, a gentler rise or cleaner rails.", change=change,
        )]  # fmt: skip
    return [_finding("fine", ("running.driving.minutes",),
                     f"The run ends after {far}: {run.ended}.")]  # fmt: skip


def _lighter(running: Running, result: RunningResult) -> float | None:
    """Return half the wagons where they, not people, are the load."""
    if result.passengers:
        return None
    return round(result.train / 2, 2)


def _slips(
    running: Running, result: RunningResult, rolling: Rolling, evenness: float | None, most: float
) -> list[Finding]:
    fields = ("running.line.rail", "cylinders.coupled_weight")
    made = []
    run = result.run
    if run.slips:
        first = next(one for one in run.moments if one.kind == "slip")
        made.append(_finding(
            "check", fields,
            f"The wheels slip {times(run.slips)}, for {run.slipped:.0f} s together, the first time "
            f"after {first.distance:.0f} m: there the train wants more than the "
            f"{result.grip:.1f} N that the rail holds.",
            "More weight on the coupled wheels, less behind the engine, or dry rails.",
        ))  # fmt: skip
    if most > result.grip:
        peak = "" if evenness is None or evenness <= 1 else (
            f"; in a turn the pull swings up to {evenness:.2f} of its mean, so that it begins at "
            f"{result.grip / evenness:.1f} N"
        )  # fmt: skip
        made.append(_finding(
            "fine", fields,
            f"Thrown wide open at a stand the cylinders pull {most:.1f} N and the rail holds "
            f"{result.grip:.1f} N: the engine slips unless the regulator is eased, as small "
            f"engines do{peak}.",
            source="factors of adhesion of 0.8 to 2 are usual on small engines",
        ))  # fmt: skip
    if running.line.rail == GREASY:
        made.append(_finding(
            "check", fields,
            f"On half wet or greasy rails the wheels hold {result.grip:.1f} N, half of what they "
            "do on clean ones.", "Dry or wash the rails.",
            source=f"{relations.BOURNE}, question 495: 1/10 to 1/12 against 1/5",
            change=("running.line.rail", CLEAN),
        ))  # fmt: skip
    return made


def _pace(running: Running, result: RunningResult, steepest: float) -> list[Finding]:
    fields = ("running.driving.pace", "running.train.stock")
    own = [one for one in result.wanted if abs(one.mass - result.train) < 1e-9]
    words = {"grip": "the grip of the wheels", "cylinders": "the cylinders", "boiler": "the boiler"}
    made = []
    for one in own:
        where = f"up 1 in {steepest:.0f}" if one.grade else "on the level"
        if one.speed <= 0:
            made.append(_finding(
                "check", ("running.train.stock", "running.train.passengers"),
                f"{where.capitalize()} the train of {result.train:.1f} kg is more than "
                f"{words[one.held_by]} will start.",
                "Less behind the engine, or take the rise with a run at it.",
            ))  # fmt: skip
        elif one.speed < 0.97 * result.kept and one.held_by == "boiler":
            made.append(_finding(
                "check", fields,
                f"{where.capitalize()} the boiler keeps up {one.speed:.1f} km/h and not the "
                f"{result.kept:.1f} km/h asked for; what is more comes out of the heat stored in "
                "the water, and pressure falls.",
                "A slower pace, less behind the engine, or halts to raise steam.",
                change=("running.driving.pace", max(math.floor(10 * one.speed) / 10, 0.2)),
            ))  # fmt: skip
        else:
            fast = f"{one.speed:.1f} km/h" if one.speed < 39.9 else "40 km/h and more"
            by = "" if one.speed >= 39.9 else f", held by {words[one.held_by]}"
            made.append(_finding(
                "fine", fields,
                f"{where.capitalize()} pull and resistance balance at {fast}{by}; the driver keeps "
                f"to {result.kept:.1f} km/h.",
            ))  # fmt: skip
    return made


def _rolls(
    running: Running, result: RunningResult, rolling: Rolling, behind: Coupled
) -> list[Finding]:
    if not behind.mass:
        return []
    fields = (
        "running.train.bearings",
        "running.train.wheel",
        "cylinders.haulage.rolling_resistance",
    )
    if running.train.taken == BY_HAULAGE:
        return [_finding("fine", fields, f"The train is taken to roll as the haulage has it, "
                         f"{100 * rolling.share:.2f} % of its weight.")]  # fmt: skip
    pounds = result.train_per_weight / 100 * _TON
    own = 100 * rolling.share
    made = [_finding(
        "fine", fields,
        f"On {behind.wheel:.0f} mm wheels and {behind.bearings} the train rolls at "
        f"{result.train_per_weight:.2f} % of its weight, {pounds:.1f} lb a ton; 8 lb a ton is said "
        f"of passenger trolleys, and no measured figures for garden gauges were found, so that "
        f"half or twice as much may be true.",
        source=STEPNEY,
    )]  # fmt: skip
    if not 0.5 <= result.train_per_weight / own <= 2:
        made.append(_finding(
            "fine", fields,
            f"The haulage reckons with {own:.2f} %, the run with {result.train_per_weight:.2f} % "
            "by wheels and bearings. A pull with a spring balance would settle it.",
            change=("cylinders.haulage.rolling_resistance", round(result.train_per_weight, 2)),
        ))  # fmt: skip
    return made


def _boiler(result: RunningResult, raising: Raising) -> list[Finding]:
    run = result.run
    made = []
    if run.stands:
        first = next(one for one in run.moments if one.kind == "steam")
        made.append(_finding(
            "check", ("running.driving.pace", "running.train.stock"),
            f"The train stands {times(run.stands)} to raise steam, first after "
            f"{first.distance:.0f} m.",
            "A slower pace or less behind the engine.",
        ))  # fmt: skip
    if run.tops:
        first = next(one for one in run.moments if one.kind == "water")
        usable = 1000 * (raising.water_working - raising.water_least)
        made.append(_finding(
            "check", ("running.driving.tops_up",),
            f"It stands {times(run.tops)} to be topped up by hand, first after "
            f"{first.distance:.0f} m: only {usable:.0f} g of water lie between the working level "
            "and the lowest that is allowed.",
            "A pump on the axle, or more water over what the fire touches.",
        ))  # fmt: skip
    if run.blown > 0.2 * max(run.steam, 1e-9):
        made.append(_finding(
            "fine", ("running.driving.minutes",),
            f"The safety valve blows off {1000 * run.blown:.0f} g of steam beside the "
            f"{1000 * run.steam:.0f} g that work.",
        ))  # fmt: skip
    if result.filling is not None:
        fed = raising.feed_per_turn > 0 or raising.water_tank <= 0
        made.append(_finding(
            "fine", ("running.driving.minutes",),
            f"Filled once, water and fuel last for about {result.filling:.0f} m in this manner"
            + ("." if fed else ", with nothing fed into the boiler on the way."),
        ))  # fmt: skip
    return made


def _line(running: Running) -> list[Finding]:
    if not running.line.closed:
        return []
    apart, rises = misses_by(running.line)
    round_ = sum(one.length for one in running.line.sections)
    made = []
    if abs(rises) > max(0.0005 * round_, 5.0):
        made.append(_finding(
            "check", ("running.line.sections",),
            f"The circuit ends {abs(rises):.0f} mm {'above' if rises > 0 else 'below'} its "
            "beginning; every lap is run as if it went on so.",
            "Gradients whose rises and falls add up to nothing.", source="levelling",
        ))  # fmt: skip
    if apart > 0.03 * round_:
        made.append(_finding(
            "check", ("running.line.sections", "running.line.closed"),
            f"As drawn in plan the circuit ends {apart:.0f} mm away from its beginning.",
            "Curves that turn once round together, and straights that match.", source="geometry",
        ))  # fmt: skip
    return made


def _whence(result: RunningResult, raising: Raising) -> list[Finding]:
    made = []
    if result.source:
        flatters = "" if not result.source.startswith(CYCLE) else (
            "; nothing in that falls off with speed, so that what is said of twice the pace and "
            "more flatters"
        )  # fmt: skip
        made.append(_finding("fine", ("running.driving.minutes",),
                             f"Pull and steam follow {result.source}{flatters}."))  # fmt: skip
    if raising.assumed:
        made.append(_finding(
            "fine", ("running.driving.minutes",),
            f"Fire and boiler are taken at usual proportions: {raising.heat_full:.0f} W into the "
            f"water and {result.evaporation:.2f} g of steam a second.",
            source="small engines evaporated 17 to 28 kg/h on a m2, Vienna 1884",
        ))  # fmt: skip
    return made
