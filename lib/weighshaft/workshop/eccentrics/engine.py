"""What the engine tells the chapter."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Web:
    """A crank web of inside cylinders, mm: its thickness, breadth, and the gap to the next."""

    thickness: float
    breadth: float
    between: float
    pin: float


@dataclass(frozen=True, kw_only=True)
class Engine:
    """The engine's sizes, mm and degrees; the defaults are an example to try the chapter on.

    Parameters
    ----------
    throw : of its eccentrics; None where it has none.
    advances : forward and backward, of a sheave that slips; None where none does.
    sheave : diameter; None where there is none.
    axle, pin : of the driven axle, and of the pin that the connecting rod drives.
    coupled_pin : in the coupled wheels.
    web : of a built-up crank; None for outside cylinders.
    crank_throw, crank_angle : half of the stroke, and the angle between the cranks.
    piston_load : N.
    wheel : over the flange.
    angle_error : difference of two axles that is allowed.
    """

    name: str = "an example to try the chapter on"
    throw: float | None = 3.0
    advances: tuple[float, float] | None = (25.0, 25.0)
    sheave: float | None = 28.0
    axle: float = 12.0
    pin: float = 8.0
    coupled_pin: float = 6.0
    web: Web | None = Web(thickness=6.0, breadth=16.0, between=9.0, pin=10.0)
    crank_throw: float = 20.0
    crank_angle: float = 90.0
    piston_load: float = 300.0
    wheel: float = 100.0
    angle_error: float = 0.1


EXAMPLE = Engine()
