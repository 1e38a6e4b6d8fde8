"""What the figures of the chapter mean to a builder."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import COMMON, Finding, unlocked
from ..trade.saturation import ATMOSPHERE, saturation
from ..trade.saturation import SOURCE as STEAM_TABLE
from .along import along_the_axis
from .chest import chest_findings
from .decisions import Cylinders
from .result import CylindersResult
from .said import said, three
from .suggested import ROD_RATIO

COVER_LIMIT = 40.0
ROD_LIMIT = 60.0
SLIPPER_LIMIT = 1.0
BAR_LIMIT = 60.0
STEAM_SPEED_LIMIT = 40.0
DROP = 50.0
"""Volume of a drop of water, mm3: about twenty to a millilitre."""


def judge(
    cylinders: Cylinders, result: CylindersResult, valve_lifts: bool, fixed: frozenset[str]
) -> tuple[Finding, ...]:
    """Return the findings; a change is not offered for what a bought part has settled."""
    found = [
        one
        for part in (
            _haulage(cylinders, result),
            _torque(cylinders, result),
            along_the_axis(cylinders, result),
            _steam(cylinders, result, valve_lifts),
            _strength(result),
            chest_findings(result.chest, cylinders),
            _caution(cylinders, result),
        )
        for one in part
    ]
    return unlocked(found, fixed)


def _haulage(cylinders: Cylinders, result: CylindersResult) -> Iterator[Finding]:
    coupled, engine = cylinders.coupled_weight, cylinders.engine_weight
    if coupled > engine * (1 + 1e-9):
        yield said(
            "stop", "coupled_weight engine_weight",
            f"The coupled wheels cannot carry {coupled:g} kg of an engine of {engine:g} kg.",
            "Correct one of the two weights.", COMMON, ("coupled_weight", engine),
        )  # fmt: skip
    factor, wanted = result.adhesion_factor, cylinders.haulage.wanted_factor
    figures = (
        f"Factor of adhesion {factor:.2f}: {three(result.tractive_effort)} N of tractive effort on "
        f"{coupled:g} kg; "
    )
    pressure = round(result.pressure_for_adhesion, 1)
    if factor < 0.8:
        change = ("pressure", pressure) if pressure >= 1.5 else None
        yield said(
            "check", "bore pressure coupled_weight",
            figures + "on a wide-open regulator she slips freely; good small engines stand at "
            "0.8 to 2.",
            f"A bore of {result.bore_for_adhesion:.1f} mm, or {pressure:g} bar, gives {wanted:g}; "
            "or let the driver nurse the regulator.", COMMON, change,
        )  # fmt: skip
    elif factor > 2:
        yield said(
            "check", "bore pressure coupled_weight",
            figures + "she can hold more than the cylinders give; good small engines stand at "
            "0.8 to 2.",
            f"A bore of {result.bore_for_adhesion:.1f} mm gives {wanted:g}.",
        )  # fmt: skip
    else:
        yield said(
            "fine", "bore pressure coupled_weight",
            figures + "within the 0.8 to 2 of small engines.",
        )  # fmt: skip
    if result.scaled_bore is not None:
        stroke = result.scaled_stroke
        beside = f" and stroke {stroke:.2f} mm" if stroke is not None else ""
        yield said(
            "fine", "bore stroke",
            f"Bore at scale {result.scaled_bore:.2f} mm{beside}; adhesion at "
            f"{cylinders.pressure:g} bar calls for a bore of {result.bore_for_adhesion:.2f} mm; "
            f"chosen {cylinders.bore:.2f} × {cylinders.stroke:.2f} mm.",
        )  # fmt: skip
    haul = cylinders.haulage
    ruling = next(pull for pull in result.pulls if pull.grade == haul.grade)
    held = "grip" if ruling.held_by == "adhesion" else "cylinders"
    if result.load_grade <= 0:
        yield said(
            "check", "haulage.grade haulage.adhesion coupled_weight",
            f"She does not climb 1 in {haul.grade:g} even light.",
            "An easier grade, more weight on the coupled wheels or more tractive effort.",
        )  # fmt: skip
    else:
        yield said(
            "fine", "haulage.grade haulage.rolling_resistance",
            f"Up 1 in {haul.grade:g} she draws {three(result.load_grade)} kg, on the level "
            f"{three(result.load_level)} kg, with {haul.rolling_resistance:g} % of the weight as "
            f"rolling resistance; on the grade the {held} set{'s' if held == 'grip' else ''} the "
            "limit.",
        )  # fmt: skip


def _torque(cylinders: Cylinders, result: CylindersResult) -> Iterator[Finding]:
    if cylinders.number == 1:
        yield said(
            "check", "number",
            "One cylinder does not start from its dead centres, and carries her over them only "
            "on the run.",
            "Two cylinders with the cranks at 90° start anywhere.",
        )  # fmt: skip
    elif result.least_start <= 0:
        usual = 120.0 if cylinders.number == 3 else 90.0
        yield said(
            "check", "crank_angle",
            f"With the cranks {cylinders.crank_angle:g}° apart and cut-off at "
            f"{100 * result.full_events.cutoff:.0f} % there are positions from which she does "
            "not start.",
            f"Cranks at {usual:g}°, or a later cut-off in full gear.", COMMON,
            ("crank_angle", usual) if cylinders.crank_angle != usual else None,
        )  # fmt: skip
    else:
        yield said(
            "fine", "crank_angle number",
            f"In full gear the torque runs from {result.least_torque:.2f} to "
            f"{result.evenness:.2f} of its mean; the worst position to start from gives "
            f"{result.least_start:.2f} of it.",
        )  # fmt: skip
    peak = result.torque_mean * result.evenness
    if peak > result.torque_limit and result.adhesion_factor >= 0.8:
        yield said(
            "fine", "haulage.adhesion pressure",
            f"At full pressure the highest torque, {three(peak / 1000)} N m, passes what a grip of "
            f"{cylinders.haulage.adhesion:g} holds, {three(result.torque_limit / 1000)} N m: she "
            "slips first there. That is usual, and the driver's business.",
        )  # fmt: skip
    ratio = result.rod_ratio
    if not 4.5 <= ratio <= 10:
        short = "throws the piston far off the even and loads the slide bars" if ratio < 4.5 else ""
        yield said(
            "check", "connecting_rod",
            f"The connecting rod is {ratio:.1f} times the crank throw; 5 to 8 is usual"
            + (f"; a short one {short}." if short else "."),
            f"About {ROD_RATIO * cylinders.crank.throw:.0f} mm would be usual.",
        )  # fmt: skip


def _steam(cylinders: Cylinders, result: CylindersResult, valve_lifts: bool) -> Iterator[Finding]:
    percent = result.clearance_percent
    if percent > 20:
        yield said(
            "check", "passages.length passages.hole_diameter barrel.length",
            f"The clearance volume is {percent:.1f} % of the stroke; every turn fills it with "
            "steam that does little work. 5 to 15 % is usual in small engines.",
            "Shorter passages, or less clearance at the covers.",
        )  # fmt: skip
    else:
        yield said(
            "fine", "passages.length passages.hole_diameter barrel.length",
            f"Clearance volume {result.clearance_front:.1f} % in front and "
            f"{result.clearance_back:.1f} % behind, passage included.",
        )  # fmt: skip
    yield from _compression(cylinders, result, valve_lifts)
    yield from _water(cylinders, result, valve_lifts)
    for speed, fields, what in (
        (result.passage_speed, "passages.holes passages.hole_diameter", "passage"),
        (result.port_speed, "motion.valve.port_width motion.valve.port_length", "port"),
    ):
        if speed is not None and speed > STEAM_SPEED_LIMIT:
            yield said(
                "check", fields,
                f"The steam runs at {speed:.0f} m/s through the {what}; above "
                f"{STEAM_SPEED_LIMIT:.0f} it is throttled.",
                f"A larger {what}.",
            )  # fmt: skip
    if result.passage_share > 25:
        yield said(
            "check", "passages.holes passages.hole_diameter",
            f"The passage is only one part in {result.passage_share:.0f} of the piston's area.",
            "One in 10 to 16 is usual: more or larger holes.",
        )  # fmt: skip


def _compression(
    cylinders: Cylinders, result: CylindersResult, valve_lifts: bool
) -> Iterator[Finding]:
    chest = result.chest_pressure
    end, gear = max(
        (result.compression_running, "the running notch"), (result.compression_full, "full gear")
    )
    if end <= chest:
        yield said(
            "fine", "barrel.length passages.length",
            f"Compression ends at {end:.1f} bar in {gear}, below the {chest:.1f} bar in the chest.",
        )  # fmt: skip
        return
    back = cylinders.cycle.back_pressure + ATMOSPHERE
    events = result.running_events if gear == "the running notch" else result.full_events
    needed = math.ceil(100 * back * events.compression / (chest + ATMOSPHERE - back))
    mend = (
        f"Exhaust clearance (less exhaust lap) shuts it in later; or {needed} % of clearance "
        "volume."
    )
    sentence = (
        f"Compression from {100 * events.compression:.0f} % in {gear} would end at {end:.1f} bar, "
        f"above the {chest:.1f} bar in the chest"
    )
    if valve_lifts:
        yield said(
            "check", "barrel.length passages.length",
            sentence + ": the slide valve lifts off its face and lets it back, with a clatter "
            "and a loss of power.", mend,
        )  # fmt: skip
    else:
        yield said(
            "check", "barrel.length passages.length",
            sentence + ", and a piston valve cannot lift: rods and covers take it.",
            mend + " Relief valves guard the covers.",
        )  # fmt: skip


def _water(cylinders: Cylinders, result: CylindersResult, valve_lifts: bool) -> Iterator[Finding]:
    drops = max(1, round(result.clearance_space / DROP))
    room = (
        f"{result.clearance_space / 1000:.2g} ml of water, about {drops} drop"
        f"{'s' if drops > 1 else ''}, fills the space at a dead centre"
    )
    drains = cylinders.passages.drains
    if drains != "none":
        yield said(
            "fine", "passages.drains",
            f"{room}; {drains} let it out. Open the cocks and warm the cylinders slowly."
            if "cocks" in drains
            else f"{room}; {drains} let it out.",
        )  # fmt: skip
    elif valve_lifts:
        yield said(
            "fine", "passages.drains",
            f"{room}; the slide valve lifts and lets it out into the chest. Move off gently "
            "until the cylinders are warm.",
        )  # fmt: skip
    else:
        yield said(
            "check", "passages.drains",
            f"{room}; a piston valve cannot lift, so more than that bends a rod or breaks a cover.",
            "Drain cocks or relief valves in every cylinder with a piston valve.",
            COMMON, ("passages.drains", "drain cocks"),
        )  # fmt: skip


def _strength(result: CylindersResult) -> Iterator[Finding]:
    checks = (
        (
            "barrel.piston_rod", f"Piston rod of {result.piston_rod:g} mm",
            result.rod_stress, ROD_LIMIT, "A thicker rod.", "",
        ),
        (
            "barrel.front_cover barrel.back_cover", "Cylinder cover",
            result.cover_stress, COVER_LIMIT, "A thicker cover, or a smaller screw circle.",
            ", reckoned on its flange alone",
        ),
        (
            "crosshead.slipper_ahead crosshead.slipper_behind crosshead.slipper_width",
            "Slipper on its slide bar", result.slipper_pressure, SLIPPER_LIMIT,
            "A longer or wider slipper, or a longer connecting rod.", "",
        ),
        (
            "crosshead.bar_thickness crosshead.slide_bar", "Slide bar in bending",
            result.bar_stress, BAR_LIMIT, "A thicker bar, or a bracket amid it.", "",
        ),
    )  # fmt: skip
    for fields, what, value, limit, mend, aside in checks:
        over = value > limit
        yield said(
            "check" if over else "fine", fields,
            f"{what}: {value:.2g} N/mm² at full pressure{aside}; "
            f"{'over' if over else 'within'} the {limit:g} that is usual.",
            mend if over else "",
        )  # fmt: skip
    if result.buckling_factor < 8:
        yield said(
            "check", "barrel.piston_rod",
            f"The piston rod would bow at {result.buckling_factor:.1f} times the piston load; "
            "8 times is wanted.",
            "A thicker or shorter rod.", "Euler's strut, pinned ends",
        )  # fmt: skip


def _caution(cylinders: Cylinders, result: CylindersResult) -> Iterator[Finding]:
    boiler = saturation(cylinders.pressure).temperature
    yield said(
        "fine", "pressure",
        f"Steam at {cylinders.pressure:g} bar is at {boiler:.0f} °C and scalds at once; the loads "
        "hold for a boiler that the club's inspector has passed for that pressure, and no "
        "higher.",
        "", STEAM_TABLE,
    )  # fmt: skip
