"""What the engine tells the chapter."""

from __future__ import annotations

from dataclasses import dataclass

PROTOTYPE_CONING = 2.8624
"""Degrees: 1 in 20, as on the full-size engine; common practice."""


@dataclass(frozen=True, kw_only=True)
class Ports:
    """The port face of a slide valve, mm."""

    width: float
    length: float
    bridge: float
    exhaust: float

    @property
    def middle(self) -> float:
        """Middle of a steam port from the middle of the face."""
        return self.exhaust / 2 + self.bridge + self.width / 2


@dataclass(frozen=True, kw_only=True)
class Engine:
    """The engine's sizes, mm and degrees; the defaults are an example to try the chapter on.

    Parameters
    ----------
    barrel : cylinder over its end faces.
    spigot : of the cover into the bore.
    screws, screw_circle, screw : of a cylinder cover; `screw` is over the thread.
    holes, hole, passage : number of the passage's holes, their drill, and their length.
    ports : None where no flat face is milled.
    chest_length, chest_width : inside; what the valve needs.
    face_height, chest_wall : as the cylinders have them; None takes what is usual.
    chest_studs : along each long and each short side, corners counted.
    tread, wheel : width and diameter of the driving wheel's tread.
    coning : of the wheel standard, degrees; None where it has none.
    """

    name: str = "an example to try the chapter on"
    bore: float = 25.0
    barrel: float = 50.0
    spigot: float = 2.0
    screws: int = 6
    screw_circle: float = 33.0
    screw: float = 2.8
    holes: int = 3
    hole: float = 3.5
    passage: float = 18.0
    ports: Ports | None = Ports(width=3.0, length=16.0, bridge=3.0, exhaust=6.0)
    chest_length: float = 34.0
    chest_width: float = 22.0
    face_height: float | None = None
    chest_wall: float | None = None
    chest_studs: tuple[int, int] = (3, 3)
    tread: float = 9.0
    wheel: float = 90.0
    coning: float | None = None


EXAMPLE = Engine()
