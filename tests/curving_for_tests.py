"""An invented engine in its frames, put together by hand: a 2-6-2 for 45 mm track."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tests.wheels_for_tests import outside
from weighshaft.curving import Curving, CurvingResult, work
from weighshaft.frames.solids import Round, block
from weighshaft.frames.whole import Axle, Drive, Part, Whole
from weighshaft.motion import Crank

COUPLED = ((48.0, 0.4), (0.0, 0.3), (-48.0, 0.4))
GIVEN: dict[str, Any] = {
    "coupled_radius": 700.0, "coupled_rule": "the coupled wheels", "width_limit": 110.0,
    "engine_weight": 3.0, "carried": 0.8, "speed": 6.0, "centre_height": 45.0,
}  # fmt: skip


def part(name: str, solids: Any, paired: bool = False, ride: Any = "frames") -> Part:
    """Return a part of the frames."""
    return Part(name, "frames", "frames", (), "mild steel", solids, paired, ride)


def engine(
    coupled: tuple[tuple[float, float], ...] = COUPLED,
    leading: tuple[float, ...] = (110.0,),
    trailing: tuple[float, ...] = (-110.0,),
) -> Whole:
    """Return the engine with its axles where they are said to stand."""
    axles = [Axle("leading truck", x, 25.0, "leading", 5.0) for x in leading]
    axles += [Axle(f"coupled {n}", x, 42.0, "coupled", p) for n, (x, p) in enumerate(coupled, 1)]
    axles += [Axle("trailing truck", x, 25.0, "trailing", 5.0) for x in trailing]
    front, back = axles[0].ahead + 30.0, axles[-1].ahead - 30.0
    head = (Round((back - 8.0, 5.0, 27.0), 2.0, 5.0), Round((back - 6.0, 5.0, 27.0), 6.0, 2.0))
    parts = (
        part("front buffer beam", (block(front - 3, front, -2, 12, -45, 45),)),
        part("back buffer beam", (block(back, back + 3, -2, 12, -45, 45),)),
        part("back buffers", head, True),
        part("running boards", (block(back, front, 12, 13, 30, 47),), True),
        part("cylinders", (block(front - 75, front - 35, -10, 10, 25, 48),), True),
        part("frame plates", (block(back + 3, front - 3, -5, 14, 16, 18),), True),
    )
    return Whole(
        parts=parts, axles=tuple(axles),
        drive=Drive(Crank(stroke=20.0, connecting_rod=62.0), 0.0, 90.0, 10.0), rail=-21.0,
        front=front, back=back, buffer_front=front + 8.0, buffer_back=back - 8.0,
        frame_inside=32.0, frame_thickness=2.0, rise=1.0, gauge=45.0, back_to_back=40.0,
        tyre_width=6.0, flange_depth=2.0, flange_play=2.0,
    )  # fmt: skip


def worked(curving: Curving | None = None, **changes: Any) -> CurvingResult:
    """Return the chapter worked on a curve of 1 m, unless the changes say otherwise."""
    whole = changes.pop("whole", None) or engine()
    wanted = changes.pop("wanted", 1000.0)
    wheels = replace(outside(), radius_wanted=wanted)
    return work(curving or Curving(), whole=whole, wheels=wheels, **GIVEN | changes)
