"""A sensible gear from a few sizes: laid out by usual proportions, then fitted to its events.

The proportions are common practice; what they give is only a start.  `fitted` then turns
throw, advance and lap until the real linkage gives the cut-off, lead and port opening that
are wanted in full forward gear, and `levelled` moves one pin until the ends agree.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..sizes import SizeError
from .equivalent import ValveSizes, Wanted, sizes_for_events
from .events import ValveEvents, events_over, valve_events
from .frame import Array, Crank, MotionLocks
from .gears import GEARS, AnyGear
from .kernel import GRID, solve_motion
from .slip_eccentric import SlipEccentric
from .stephenson import Stephenson
from .valves import SlideValve
from .walschaerts import Walschaerts


@dataclass(frozen=True)
class Proposal:
    """A gear laid out for an engine, and the steam lap that goes with it."""

    gear: AnyGear
    steam_lap: float


def proposed(kind: str, crank: Crank, valve: SlideValve, wanted: Wanted) -> Proposal:
    """Lay out a gear of a kind for this crank, valve and events wanted.

    Parameters
    ----------
    kind : word of the gear, a key of `GEARS`.
    valve : its ports and the edge that admits; its lap is replaced by the proposal's.

    Raises
    ------
    SizeError : when no such gear is known, or nothing fits the events wanted.
    """
    if kind not in GEARS:
        raise SizeError(f"Gear: “{kind}” is not one of {', '.join(GEARS)}.", "gear")
    opening = wanted.port_opening or valve.port_width
    sizes = sizes_for_events(wanted.cutoff, wanted.lead, opening)
    if sizes.throw > 0.6 * crank.throw:
        raise SizeError(
            f"Wanted events: {wanted.cutoff:g} % cut-off with {opening:g} mm opening calls for "
            f"{sizes.travel:.1f} mm of valve travel, too much beside a stroke of "
            f"{crank.stroke:g} mm; a cut-off nearer 78 % or a smaller opening would do.",
            "wanted",
        )
    layouts: dict[str, Callable[..., AnyGear]] = {
        SlipEccentric.kind: slip_layout,
        Stephenson.kind: stephenson_layout,
        Walschaerts.kind: walschaerts_layout,
    }
    gear = layouts[kind](crank, sizes, wanted, valve.admission)
    lap = sizes.steam_lap
    gear, lap = fitted(gear, crank, replace(valve, steam_lap=lap), wanted)
    if not isinstance(gear, SlipEccentric):
        gear = levelled(gear, crank, replace(valve, steam_lap=lap))
        gear, lap = fitted(gear, crank, replace(valve, steam_lap=lap), wanted)
        gear = _slotted(gear, crank)
    return Proposal(gear, lap)


def _slotted(gear: AnyGear, crank: Crank) -> AnyGear:
    """Return the gear with a slot that the die does not leave, a twentieth to spare."""
    die = solve_motion(crank, gear, GRID, np.array([1.0, 0.0, -1.0])).die
    if die is None or isinstance(gear, SlipEccentric):
        return gear
    return replace(gear, slot_length=2.1 * float(np.abs(die).max()))


def slip_layout(crank: Crank, sizes: ValveSizes, wanted: Wanted, admission: str) -> SlipEccentric:
    """Return a level slip eccentric; rod three strokes long."""
    return SlipEccentric(
        eccentric_throw=sizes.throw, advance=sizes.advance, eccentric_rod=3.0 * crank.stroke,
        spindle_height=0.0, admission=admission,
    )  # fmt: skip


def stephenson_layout(
    crank: Crank, sizes: ValveSizes, wanted: Wanted, admission: str, *, rocker: bool = False
) -> Stephenson:
    """Return a locomotive link with direct drive, or a launch link that drives by a rocker.

    The die works to eight tenths of the half spacing; the lifting arm swings 25 degrees
    either way; the link hangs from its middle.
    """
    throw = sizes.throw / 0.85
    spacing, rod = 7.0 * throw, 3.1 * crank.stroke
    backset = 0.0 if rocker else 0.21 * spacing
    lift = 0.4 * spacing
    arm, hang = lift / math.sin(math.radians(25)), 1.4 * spacing
    ahead = math.sqrt(rod**2 - (spacing / 2) ** 2) + backset
    common: dict[str, Any] = {
        "eccentric_throw": throw, "advance": sizes.advance, "eccentric_rod": rod,
        "link_radius": rod + backset, "pin_spacing": spacing, "backset": backset,
        "lifting_link": hang, "lifting_arm": arm,
        "weighshaft_x": ahead - arm, "weighshaft_y": hang, "admission": admission,
        "arm_angle_forward": -25.0, "arm_angle_backward": 25.0,
    }  # fmt: skip
    if not rocker:
        # the upper pin takes the forward rod: the link is lowered for forward gear
        return Stephenson(**common, die_height=0.0)
    rise = 0.9 * spacing
    return Stephenson(
        **common, drive="rocker", rocker_x=ahead, rocker_y=rise, rocker_lower=rise,
        rocker_upper=rise, rocker_angle=180.0, valve_rod=1.5 * crank.stroke,
        spindle_height=2 * rise,
    )  # fmt: skip


def walschaerts_layout(
    crank: Crank, sizes: ValveSizes, wanted: Wanted, admission: str, *, slotted: bool = False
) -> Walschaerts:
    """Return a Walschaerts gear: link upright and radius rod level at both dead centres.

    The combination lever has lap and lead to half the stroke; with the link upright the
    return crank stands square to the line from the axle to the tail pin, so that the radius
    rod may be moved from full forward to full backward there without moving the valve.
    """
    stroke = crank.stroke
    inside = admission == "inside"
    spindle, drop = 0.95 * stroke, -0.35 * stroke
    share = (sizes.steam_lap + wanted.lead) / crank.throw
    # upper and lower arm make up the height from the union pin to the valve pin
    height = spindle - drop
    upper = height * share / (1 - share if inside else 1 + share)
    lower = height + upper if inside else height - upper
    upper = -upper if inside else upper
    tail, lift = 0.62 * stroke, 0.26 * stroke
    rod, union = 2.6 * stroke, 0.75 * stroke
    middle = float(np.mean(crank.gudgeon_ends))
    # at the dead centres the lever leans: there the radius rod has to lie level
    lean = math.asin((crank.throw + (-1 if inside else 1) * share * crank.throw) / height)
    link_x, link_y = middle + union - rod, spindle - upper * math.cos(lean)
    if link_x < 0.6 * crank.connecting_rod:
        link_x = 0.6 * crank.connecting_rod
        rod = middle + union - link_x
    amplitude = sizes.throw * math.cos(math.radians(sizes.advance)) * lower / (lower + upper)
    throw = amplitude * tail / lift
    at = 0.25 * rod
    rise = lift * (1 - at / rod)
    arm = rise / math.sin(math.radians(25))
    hang = 1.2 * stroke
    pin_x = link_x + at
    gear = Walschaerts(
        return_crank_throw=throw, return_crank_angle=-90.0 if inside else 90.0,
        eccentric_rod=link_x,
        link_x=link_x, link_y=link_y, tail_ahead=0.0, tail_above=-tail, radius_rod=rod,
        lever_upper=upper, lever_lower=lower, union_link=union, drop_above=drop,
        spindle_height=spindle, lifting_pin=at,
        lifting="slotted arm" if slotted else "link", lifting_link=hang, lifting_arm=arm,
        weighshaft_x=pin_x + (arm if slotted else -arm),
        weighshaft_y=link_y + (0.0 if slotted else hang),
        arm_angle_forward=205.0 if slotted else -25.0,
        arm_angle_backward=155.0 if slotted else 25.0, admission=admission,
    )  # fmt: skip
    return squared(gear)


def _throw_field(gear: AnyGear) -> str:
    return "return_crank_throw" if isinstance(gear, Walschaerts) else "eccentric_throw"


def _turn(gear: AnyGear, throw: float, advance: float) -> AnyGear:
    """Return the gear with another throw and what in it governs the lead."""
    if not isinstance(gear, Walschaerts):
        return replace(gear, eccentric_throw=throw, advance=advance)
    # with this gear the combination lever governs the lead, not the eccentric
    height = gear.lever_upper + gear.lever_lower
    return squared(
        replace(gear, return_crank_throw=throw, lever_upper=advance, lever_lower=height - advance)
    )


def squared(gear: Walschaerts) -> Walschaerts:
    """Return the gear with eccentric rod and return crank that stand the link upright.

    At both dead centres of a level engine the return crank is then square to the line from
    the axle to the tail pin, so that the radius rod can be moved through without moving the
    valve.
    """
    x, y = gear.link_x + gear.tail_ahead, gear.link_y + gear.tail_above
    quarter = -90.0 if gear.return_crank_angle < 0 else 90.0
    return replace(
        gear, return_crank_angle=quarter - math.degrees(math.atan2(y, x)),
        eccentric_rod=math.hypot(x, y, gear.return_crank_throw),
    )  # fmt: skip


def fitted(
    gear: AnyGear, crank: Crank, valve: SlideValve, wanted: Wanted, *, rounds: int = 12
) -> tuple[AnyGear, float]:
    """Fit throw, advance and lap on the real linkage to the events wanted in full forward gear.

    Newton's rule on mean cut-off, mean lead and the lesser opening; with Walschaerts' gear
    the combination lever takes the place of the advance, and the eccentric rod follows.

    Returns
    -------
    The gear, and the steam lap.

    Raises
    ------
    SizeError : when the events cannot be had with this layout.
    """
    opening = wanted.port_opening or valve.port_width
    target = np.array([wanted.cutoff, wanted.lead, opening])

    def miss(x: Array) -> Array:
        events = valve_events(
            crank, replace(valve, steam_lap=float(x[2])), _turn(gear, float(x[0]), float(x[1])), 1.0
        )
        missed: Array = _measured(events) - target
        return missed

    second = gear.lever_upper if isinstance(gear, Walschaerts) else gear.advance
    x = np.array([getattr(gear, _throw_field(gear)), second, valve.steam_lap])
    step = np.array([1e-4, 1e-4, 1e-4]) * np.maximum(np.abs(x), 0.1)
    try:
        for _ in range(rounds):
            now = miss(x)
            if np.max(np.abs(now) / np.array([1e-3, 1e-4, 1e-4])) < 1:
                return _turn(gear, float(x[0]), float(x[1])), float(x[2])
            slope = np.column_stack([(miss(x + d) - now) / d.max() for d in np.diag(step)])
            move = np.linalg.solve(slope, now)
            x = x - move * min(1.0, 0.3 / np.max(np.abs(move) / np.maximum(np.abs(x), 0.1)))
    except (MotionLocks, np.linalg.LinAlgError, SizeError):
        pass
    raise SizeError(
        f"Wanted events: {wanted.cutoff:g} % cut-off with {wanted.lead:g} mm lead and "
        f"{opening:g} mm opening cannot be had from this layout; a cut-off nearer 78 % or a "
        "smaller opening would do.",
        "wanted",
    )


def _measured(events: ValveEvents) -> Array:
    if events.front.cutoff is None or events.back.cutoff is None:
        raise SizeError("The ports do not open.", "wanted")
    return np.array(
        [
            (events.front.cutoff.percent + events.back.cutoff.percent) / 2,
            (events.front.lead + events.back.lead) / 2,
            min(events.front.port_opening, events.back.port_opening),
        ]
    )


def levelled(
    gear: Stephenson | Walschaerts,
    crank: Crank,
    valve: SlideValve,
    notches: tuple[float, ...] = (1.0, 0.75, 0.5, -0.5, -0.75, -1.0),
) -> Stephenson | Walschaerts:
    """Return the gear with one pin moved to where the cut-offs of the two ends are most alike.

    With a link motion it is the lifting pin, ahead or behind; with Walschaerts' gear the
    tail pin, and the height of link and weighshaft.  A few dozen places are tried; a search
    over more pins is another matter.
    """
    moved: list[Stephenson] | list[Walschaerts]
    if isinstance(gear, Stephenson):
        reach = 0.15 * gear.pin_spacing
        moved = [replace(gear, suspension_ahead=at) for at in _steps(reach)]
    else:
        tail, link, shaft = abs(gear.tail_above), gear.link_y, gear.weighshaft_y
        moved = [
            squared(replace(gear, tail_ahead=at, link_y=link + up, weighshaft_y=shaft + up))
            for up in (0.0, 0.05 * tail, 0.1 * tail)
            for at in _steps(0.3 * tail)
        ]
    best: Stephenson | Walschaerts = gear
    least = math.inf
    for tried in moved:
        try:
            events = events_over(crank, valve, tried, notches)
        except (MotionLocks, SizeError):
            continue
        apart = max(
            abs(one.front.cutoff.percent - one.back.cutoff.percent)
            if one.front.cutoff and one.back.cutoff else 100.0
            for one in events
        )  # fmt: skip
        if apart < least:
            best, least = tried, apart
    return best


def _steps(reach: float) -> list[float]:
    return [round(reach * step / 12, 3) for step in range(-12, 13)]
