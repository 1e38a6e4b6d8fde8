"""Gears that the tests of the motion turn: one of each kind, and random ones near them."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from weighshaft.motion import (
    Crank,
    SlipEccentric,
    Stephenson,
    Walschaerts,
    Wanted,
    sizes_for_events,
)

CRANK = Crank(40.0, 120.0)

SLIP = SlipEccentric(eccentric_throw=5.0, advance=28.0, eccentric_rod=110.0, spindle_height=3.0)

DIRECT = Stephenson(
    eccentric_throw=6.0, advance=20.0, eccentric_rod=125.0, link_radius=133.0, pin_spacing=40.0,
    backset=8.0, suspension_ahead=-1.0, suspension_above=1.0, slot_length=44.0,
    lifting_link=55.0, lifting_arm=38.0, weighshaft_x=93.0, weighshaft_y=55.0,
    arm_angle_forward=-25.0, arm_angle_backward=25.0, die_height=0.0,
)  # fmt: skip

ROCKER = Stephenson(
    eccentric_throw=5.0, advance=21.0, eccentric_rod=110.0, link_radius=112.0, pin_spacing=38.0,
    suspension_ahead=0.5, lifting_link=40.0, lifting_arm=30.0, weighshaft_x=80.0,
    weighshaft_y=40.0, arm_angle_forward=-28.0, arm_angle_backward=26.0, drive="rocker",
    rocker_x=108.0, rocker_y=35.0, rocker_lower=34.0, rocker_upper=30.0, rocker_angle=174.0,
    valve_rod=70.0, spindle_height=64.0,
)  # fmt: skip

_WANTED = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
_SIZES = sizes_for_events(78.0, 0.2, 2.8)

OUTSIDE = Walschaerts.laid_out(CRANK, _SIZES, _WANTED, "outside")
INSIDE = Walschaerts.laid_out(CRANK, _SIZES, _WANTED, "inside", slotted=True)

ALL = {"slip": SLIP, "direct": DIRECT, "rocker": ROCKER, "outside": OUTSIDE, "inside": INSIDE}


def near(gear: object, share: float = 0.04) -> st.SearchStrategy[object]:
    """Return gears whose lengths differ from `gear` by up to `share`, the assembly the same."""
    fields = [
        name for name, value in vars(gear).items()
        if isinstance(value, float) and abs(value) > 1 and "angle" not in name
    ]  # fmt: skip
    factor = st.floats(1 - share, 1 + share)

    def varied(factors: list[float]) -> object:
        changed = {n: getattr(gear, n) * f for n, f in zip(fields, factors, strict=True)}
        return replace(gear, **changed)  # type: ignore[type-var]

    return st.lists(factor, min_size=len(fields), max_size=len(fields)).map(varied)
