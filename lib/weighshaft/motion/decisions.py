"""What the builder decides of valves and motion."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from ..sizes import check_sizes, size
from .equivalent import Wanted
from .gears import AnyGear
from .port_face import FaceSizes
from .valves import SlideValve, ValveSetting, check_admission

NOTCHES = (1.0, 0.75, 0.5, 0.25, 0.0, -0.25, -0.5, -0.75, -1.0)


@dataclass(frozen=True, kw_only=True)
class ValveMotion:
    """The chapter's decisions: valve, gear, how the valve is set, and the notches in use."""

    valve: SlideValve
    valve_type: str = size("Kind of valve", "choice", choices=("slide", "piston"), default="slide")
    gear: AnyGear
    setting: ValveSetting = dataclasses.field(default_factory=ValveSetting)
    reversers: tuple[float, ...] = size(
        "Notches worked",
        "ratio",
        -1,
        1,
        default=NOTCHES,
        help="1 full forward, 0 mid gear, -1 full backward",
    )
    running_notch: float = size(
        "Notch looked at",
        "ratio",
        -1,
        1,
        default=0.5,
        main=True,
        help="the usual running notch; the drawing stands in it",
    )
    wanted: Wanted = dataclasses.field(default_factory=Wanted)
    face: FaceSizes = dataclasses.field(default_factory=FaceSizes)

    def __post_init__(self) -> None:
        check_sizes(self)
        check_admission(self.valve, getattr(self.gear, "admission", self.valve.admission))
