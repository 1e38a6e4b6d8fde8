"""Setting the valves on the air line: from readings on the stand to what to move, and how far."""

from .decisions import AirTest, Believed, Instruments, Mends, Reading
from .mend import Mending
from .results import FaultFound, SideSet, Taken, ValveSettingResult
from .work import work

__all__ = [
    "AirTest",
    "Believed",
    "FaultFound",
    "Instruments",
    "Mending",
    "Mends",
    "Reading",
    "SideSet",
    "Taken",
    "ValveSettingResult",
    "work",
]
