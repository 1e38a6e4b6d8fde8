"""A small engine put together by hand, and its springs worked."""

from __future__ import annotations

from typing import Any

from weighshaft.frames import Axle, Drive, Part, Whole, block, disc
from weighshaft.motion import Crank
from weighshaft.springing import Springing, SpringingResult, work

WHEEL, RISE, BOX = 96.0, 1.5, (23.0, 25.0)
BACK, TYRE = 82.0, 9.0


def engine(
    places: tuple[float, ...] = (130.0, 0.0, -130.0),
    *,
    truck: float | None = None,
    rise: float = RISE,
    bottom: float = -24.0,
) -> Whole:
    """Return an engine of frames, boxes, wheels and a block of boiler.

    Parameters
    ----------
    places : of the coupled axles, the one at 0 being driven.
    truck : ahead of the driving axle, None without.
    bottom : edge of the frame plates, with the horn stays under it.
    """
    axles = [
        Axle("driving" if x == 0 else f"coupled {n}", x, WHEEL, "coupled", 0.5)
        for n, x in enumerate(places, 1)
    ]
    if truck is not None:
        axles.insert(0, Axle("leading truck", truck, 60.0, "leading", 3.0))
    half_x, half_y = BOX[0] / 2, BOX[1] / 2
    parts = [
        Part("frame plates", "frames", "frames", (), "mild steel",
             (block(-250, 250, bottom, 36, 36, 39),), paired=True),
        Part("boiler", "boiler", "boiler", (), "copper", (block(-180, 200, 60, 160, -50, 50),),
             share=0.2),
    ]  # fmt: skip
    stays = []
    for n, axle in enumerate(axles):
        radius = axle.diameter / 2
        y = 0.0 if axle.kind == "coupled" else radius - WHEEL / 2
        at = (axle.ahead, y)
        parts += [
            Part(f"{axle.name} wheels", "wheels", "wheels", (), "cast iron",
                 (disc(at, radius, BACK / 2, BACK / 2 + TYRE, 12),), paired=True, ride="wheel",
                 axle=n, share=0.6),
            Part(f"{axle.name} axle", "wheels", "wheels", (), "mild steel",
                 (disc(at, 6, -50, 50),), ride="wheel", axle=n),
        ]  # fmt: skip
        if axle.kind == "coupled":
            parts.append(
                Part(f"{axle.name} axleboxes", "frames", "frames", (), "gunmetal",
                     (block(axle.ahead - half_x, axle.ahead + half_x, -half_y, half_y, 31, 40),),
                     paired=True, ride="axle", axle=n)
            )  # fmt: skip
            stays.append(block(axle.ahead - 17, axle.ahead + 17, bottom - 4, bottom, 36, 39))
    parts.append(
        Part("horn stays", "frames", "frames", (), "mild steel", tuple(stays), paired=True)
    )
    return Whole(
        parts=tuple(parts), axles=tuple(axles), drive=Drive(Crank(40.0, 130.0), 0.0, 90.0, 20.0),
        rail=-WHEEL / 2, front=255.0, back=-255.0, buffer_front=270.0, buffer_back=-270.0,
        frame_inside=72.0, frame_thickness=3.0, rise=rise, gauge=89.0, back_to_back=BACK,
        tyre_width=TYRE, flange_depth=2.5, flange_play=1.0,
    )  # fmt: skip


def worked(
    springing: Springing | None = None,
    *,
    whole: Whole | None = None,
    loads: tuple[float, ...] | None = None,
    **other: Any,
) -> SpringingResult:
    """Return the chapter worked for that engine, 6 kg on every axle unless said otherwise."""
    whole = whole or engine()
    given = {
        "axle_loads": loads or (6.0,) * len(whole.axles), "horn_clearance": 0.05,
        "running_speed": 9.0,
    }  # fmt: skip
    return work(springing or Springing(), whole=whole, **(given | other))
