"""A small engine put together by hand, of which every size is known: no chapter made it."""

from __future__ import annotations

from typing import Any

from weighshaft.frames.solids import Bar, Plate, Round, Solid, block, disc
from weighshaft.frames.whole import Axle, Drive, Part, Whole
from weighshaft.motion import Crank

RAIL = -50.0
APART = 110.0
MIDDLE = 75.0
"""Of an outside cylinder, from the engine's centre line, mm."""


def part(
    name: str, kind: Any, *solids: Solid, paired: bool = False, ride: Any = "frames",
    axle: int | None = None, joined: tuple[str, ...] = (),
) -> Part:  # fmt: skip
    return Part(name, kind, "frames", (), "mild steel", solids, paired, ride, axle, joined)


def plates() -> Part:
    """Return frame plates 2 mm thick, 70 mm apart, with horn gaps 24.2 mm wide open below."""
    corners: list[tuple[float, float]] = [(-200, 40), (200, 40), (200, -25)]
    for x in (APART, 0.0, -APART):
        corners += [(x + 12.1, -25), (x + 12.1, 16), (x - 12.1, 16), (x - 12.1, -25)]
    corners.append((-200, -25))
    return part("frame plates", "frames", Plate(tuple(corners), 35.0, 37.0), paired=True)


def wheelset(n: int, name: str, x: float) -> list[Part]:
    return [
        part(f"{name} wheels", "wheels", disc((x, 0), 50, 42, 50), disc((x, 0), 52, 40, 42),
             paired=True, ride="wheel", axle=n),
        part(f"{name} axle", "wheels", disc((x, 0), 6, -50, 50), ride="wheel", axle=n),
        part(f"{name} axleboxes", "frames", block(x - 12, x + 12, -13, 13, 34, 38), paired=True,
             ride="axle", axle=n),
    ]  # fmt: skip


def boiler_parts(width: float = 66.0, bottom: float = 15.0, pan: float = 10.0) -> list[Part]:
    return [
        part("boiler", "boiler", Round((-150, 95, 0), 270, 38, 0, 72), joined=("lagging",)),
        part("lagging", "boiler", Round((-150, 95, 0), 270, 40, 0, 76)),
        part("firebox", "boiler", block(-80, -20, bottom, 95, -width / 2, width / 2),
             joined=("ashpan",)),
        part("ashpan", "boiler",
             block(-75, -25, bottom - pan, bottom, -width / 2 + 5, width / 2 - 5)),
        part("smokebox", "boiler", Round((120, 95, 0), 70, 40, 0, 76),
             joined=("lagging", "smokebox saddle")),
        part("smokebox saddle", "boiler", block(130, 180, 40, 56, -35, 35)),
    ]  # fmt: skip


def engine(*more: Part, without: tuple[str, ...] = (), **boiler: float) -> Whole:
    """Return the engine: three axles 110 mm apart, wheels of 100 mm, with more parts."""
    names = ("leading coupled", "driving", "trailing coupled")
    places = (APART, 0.0, -APART)
    parts = [plates(), part("horn stays", "frames", block(-18, 18, -28, -25, 35, 37), paired=True)]
    for n, (name, x) in enumerate(zip(names, places, strict=True)):
        parts += wheelset(n, name, x)
    parts += boiler_parts(**boiler)
    parts = [*(one for one in parts if one.name not in without), *more]
    return Whole(
        parts=tuple(parts),
        axles=tuple(
            Axle(name, x, 100.0, "coupled", 0.2) for name, x in zip(names, places, strict=True)
        ),
        drive=Drive(Crank(stroke=40, connecting_rod=130), 0.0, 90.0, 20.0),
        rail=RAIL, front=205.0, back=-205.0, buffer_front=225.0, buffer_back=-225.0,
        frame_inside=70.0, frame_thickness=2.0, rise=1.5, gauge=89.0, back_to_back=80.0,
        tyre_width=10.0, flange_depth=2.0, flange_play=1.0,
    )  # fmt: skip


def cylinder(front: float = 190.0) -> list[Part]:
    """Return outside cylinders of 30 mm bore from 130 mm to `front`, with piston, bars and head."""
    z = MIDDLE
    return [
        part("cylinders", "cylinders", Round((130, 0, z), front - 130, 20, 0, 30),
             block(140, 180, 18, 34, z - 10, z + 10), Round((118, 0, z), 12, 4, 0, 5), paired=True),
        part("piston and rods", "cylinders", Round((172, 0, z), 12, 15),
             Round((110, 0, z), 62, 2.5), paired=True, ride="crosshead"),
        part("crossheads", "cylinders", block(95, 110, -8, 8, z - 6, z + 6), paired=True,
             ride="crosshead"),
        part("slide bars", "cylinders", block(50, 130, 8, 11, z - 6, z + 6),
             block(50, 130, -11, -8, z - 6, z + 6), paired=True),
        part("connecting rods", "rods", Bar((20, 0), (100, 0), 3, z - 2, z + 2), paired=True,
             ride="connecting"),
    ]  # fmt: skip
