"""Wheels of two invented engines, one with outside and one with inside cylinders."""

from __future__ import annotations

from typing import Any

from weighshaft.fits import RetainedSeat
from weighshaft.wheels import (
    Across,
    Between,
    InsideCylinders,
    OutsideCylinders,
    Wheels,
)

ACROSS: dict[str, Any] = {
    "side_play": (0.4, 0.3, 0.4), "boss_outside": 0.5, "rod_gap": 0.2, "coupling_rod": 2.5,
    "pin_cap": 0.6, "crankpin": 3.0,
}  # fmt: skip
OUTSIDE: dict[str, Any] = {
    "centres": 68.0, "big_end": 3.0, "crankpin": 3.5, "return_crank": 1.0, "crosshead_width": 6.0,
    "over_covers": 12.0,
}  # fmt: skip
BETWEEN: dict[str, Any] = {
    "frame_spacing": 32.0, "frame_thickness": 2.0, "axlebox_outside": 1.0, "axlebox_inside": 1.5,
    "clearance": 0.2, "sheave_width": 3.2, "sheave_gap": 0.2, "sheave_wall": 1.2,
}  # fmt: skip


def outside(
    across: dict[str, Any] | None = None,
    cylinders: dict[str, Any] | None = None,
    between: dict[str, Any] | None = None,
    **wheels: Any,
) -> Wheels:
    """Return a six-coupled engine for 45 mm track with outside cylinders."""
    made: dict[str, Any] = {
        "standard": "G1MRA Standard (2009 and later)", "driving_diameter": 42.0,
        "wheelbase": (48.0, 48.0), "driven_axle": 2, "axle_diameter": 6.0,
        "across": Across(**ACROSS | (across or {})),
        "cylinders": OutsideCylinders(**OUTSIDE | (cylinders or {})),
        "between": Between(**BETWEEN | (between or {})),
        "seat": RetainedSeat(length=6.5),
    }  # fmt: skip
    return Wheels(**made | wheels)


CRANKS: dict[str, Any] = {
    "centres": 41.275, "web": 5.55625, "web_breadth": 19.05, "crankpin": 12.7,
    "pin_length": 7.9375, "big_end": 7.67, "crosshead_below": 8.0,
}  # fmt: skip
WITHIN: dict[str, Any] = {
    "frame_spacing": 76.2, "frame_thickness": 2.38125, "axlebox_inside": 4.7625,
    "clearance": 0.254, "sheave_width": 4.7625, "sheave_gap": 0.381,
    "sheave_wall": 2.38125,
}  # fmt: skip


def inside(
    cylinders: dict[str, Any] | None = None, between: dict[str, Any] | None = None, **wheels: Any
) -> Wheels:
    """Return a six-coupled engine for 3 1/2 in track with a crank axle and four eccentrics."""
    made: dict[str, Any] = {
        "standard": "IBLS wheel standard", "driving_diameter": 98.4, "wheelbase": (146.0, 139.7),
        "driven_axle": 2, "axle_diameter": 12.7, "seat_diameter": 11.1125,
        "across": Across(
            side_play=(0.8, 0.2, 0.8), boss_outside=1.6, rod_gap=0.4, coupling_rod=6.35,
            pin_cap=1.6, crankpin=7.9,
        ),
        "cylinders": InsideCylinders(**CRANKS | (cylinders or {})),
        "between": Between(**WITHIN | (between or {})),
        "seat": RetainedSeat(length=11.0),
    }  # fmt: skip
    return Wheels(**made | wheels)


SMALL: dict[str, Any] = {
    "track_gauge": 45.0, "scaled_width": 2450.0 / 22.5, "crank_throw": 10.0, "number": 2,
    "crank_angle": 90.0, "piston_load": 70.0, "coupled_weight": 3.3, "adhesion": 0.25,
    "eccentric_throw": 3.0, "gear_sheaves": 4, "cylinder_bore": 16.0, "connecting_rod": 62.0,
    "crosshead": (5.0, 5.0),
}  # fmt: skip
LARGE: dict[str, Any] = {
    "track_gauge": 89.0, "scaled_width": 2616.0 / 16, "crank_throw": 20.6375, "number": 2,
    "crank_angle": 90.0, "piston_load": 352.7, "coupled_weight": 18.0, "adhesion": 0.25,
    "eccentric_throw": 5.6, "gear_sheaves": 4, "cylinder_bore": 28.575, "connecting_rod": 127.0,
    "inclination": 7.0,
}  # fmt: skip
