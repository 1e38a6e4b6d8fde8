"""Valves and motion."""

from .allan import Allan
from .baker import Baker
from .change_over import ChangeOver
from .decisions import NOTCHES, ValveMotion
from .equivalent import Wanted, equivalent_eccentric, sizes_for_events, zeuner_link
from .events import EndEvents, Event, ValveEvents, events_over, valve_events
from .frame import Crank, MotionLocks
from .gears import GEARS, AnyGear
from .gooch import Gooch
from .hackworth import Hackworth
from .joy import Joy
from .kernel import Gear, Motion, solve_motion
from .oscillating import Oscillating
from .port_face import FaceSizes, PortFace
from .slip_eccentric import SlipEccentric
from .stephenson import Stephenson
from .valves import SlideValve, ValveSetting
from .walschaerts import Walschaerts

__all__ = [
    "GEARS",
    "NOTCHES",
    "Allan",
    "AnyGear",
    "Baker",
    "ChangeOver",
    "Crank",
    "EndEvents",
    "Event",
    "FaceSizes",
    "Gear",
    "Gooch",
    "Hackworth",
    "Joy",
    "Motion",
    "MotionLocks",
    "Oscillating",
    "PortFace",
    "SlideValve",
    "SlipEccentric",
    "Stephenson",
    "ValveEvents",
    "ValveMotion",
    "ValveSetting",
    "Walschaerts",
    "Wanted",
    "equivalent_eccentric",
    "events_over",
    "sizes_for_events",
    "solve_motion",
    "valve_events",
    "zeuner_link",
]  # fmt: skip
