"""Trucks on the curve: where they stand, how they are turned, and what pushes them back."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..working import Working
from . import relations
from .decisions import Truck
from .standing import Pose, Stand

ARMS = ("pony truck", "radial axle")


@dataclass(frozen=True)
class Guided:
    """A truck of the engine with the sizes that are taken, mm.

    Parameters
    ----------
    word : "leading" or "trailing"; `way` is +1 or -1 with it.
    axles : ahead of the driving axle, from the front.
    wheel : over the tread.
    arm : of one that swings about a pivot, else 0.
    """

    word: str
    way: int
    decided: Truck
    axles: tuple[float, ...]
    wheel: float
    arm: float

    @property
    def middle(self) -> float:
        """Amid its axles, ahead of the driving axle, mm."""
        return sum(self.axles) / len(self.axles)

    @property
    def wheelbase(self) -> float:
        """Of a bogie, else 0, mm."""
        return self.axles[0] - self.axles[-1]

    @property
    def pivot(self) -> float:
        """Where it turns in the frames, ahead of the driving axle, mm."""
        if self.decided.kind in ARMS:
            return self.middle - self.way * self.arm
        return self.middle + (self.decided.pivot if self.decided.kind == "bogie" else 0.0)

    @property
    def within(self) -> float:
        """What its pivot's circle has over the track's in square, mm2; see `Stand`."""
        if self.decided.kind != "bogie":
            return 0.0
        return self.decided.pivot**2 - (self.wheelbase / 2) ** 2


@dataclass(frozen=True)
class TruckPlace:
    """A truck on the curve.

    Parameters
    ----------
    swing : of its axle, or of a bogie's pivot, to the left of the frames' middle, mm.
    turned : against the frames, degrees, with the curve positive.
    attack : of its first axle to the rail, degrees; positive where the axle turns too little.
    axles : places of its axles, ahead and to the left, mm.
    """

    swing: float
    turned: float
    attack: float
    axles: tuple[tuple[float, float], ...]


def arm_for(pose: Pose, ahead: float, way: int) -> float:
    """Return the arm that turns a truck's axle square to the track as the engine stands, mm.

    The pivot's power with respect to the track's circle is the square of the arm where the
    arm is tangent to it.

    Parameters
    ----------
    ahead : of the truck's axle, of the driving axle, mm.
    way : +1 for a leading truck, -1 for a trailing one.
    """
    reach = way * (ahead - pose.crown)
    power = 2 * pose.radius * pose.line + pose.line**2
    return (reach**2 + power) / (2 * reach) if reach > 0 else 0.0


def stand_of(truck: Guided, rail_play: float, flange: float) -> Stand | None:
    """Return what a truck with stops asks of the track, None where it swings freely.

    Parameters
    ----------
    rail_play : what the gauge leaves of the wheels, both sides together, mm.
    flange : slope of the flanges, degrees.
    """
    decided, free = truck.decided, truck.decided.play + rail_play / 2
    name = f"{truck.word} {decided.kind}"
    if decided.kind == "rigid axle":
        return Stand(name, truck.middle, -free, free, wheel=truck.wheel / 2, flange=flange)
    if decided.swing is None:
        return None
    reach = decided.swing + free
    if decided.kind == "bogie":
        return Stand(name, truck.pivot, -reach, reach, truck.within)
    swing = min(decided.swing, truck.arm)
    at_stop = truck.pivot + truck.way * math.sqrt(truck.arm**2 - swing**2)
    return Stand(name, at_stop, -reach, reach)


def placed(truck: Guided, pose: Pose) -> TruckPlace:
    """Return where the truck stands with its axles on the track's middle."""
    if truck.decided.kind in ARMS:
        return _on_arm(truck, pose)
    if truck.decided.kind == "bogie":
        return _bogie(truck, pose)
    at = truck.middle
    askew = math.degrees(math.asin(_unit((at - pose.crown) / pose.radius)))
    track = pose.track(at)
    return TruckPlace(track, 0.0, truck.way * askew, ((at, track),))


def _on_arm(truck: Guided, pose: Pose) -> TruckPlace:
    """Return the place where the arm's end meets the track's circle."""
    (cx, cy), arm, radius = pose.centre, truck.arm, pose.radius
    to_x, to_y = cx - truck.pivot, cy
    far = math.hypot(to_x, to_y)
    corner = math.acos(_unit((arm**2 + far**2 - radius**2) / (2 * arm * far)))
    points = math.atan2(to_y, to_x) + truck.way * corner
    x, y = truck.pivot + arm * math.cos(points), arm * math.sin(points)
    # between arm and radius there is a right angle where the axle is square to the track
    attack = math.degrees(math.asin(_unit((arm**2 + radius**2 - far**2) / (2 * arm * radius))))
    return TruckPlace(y, -math.degrees(math.asin(_unit(y / arm))), attack, ((x, y),))


def _bogie(truck: Guided, pose: Pose) -> TruckPlace:
    """Return the bogie with its wheelbase a chord of the track."""
    half, ahead = truck.wheelbase / 2, truck.decided.pivot
    radius = pose.radius
    swing = pose.track(truck.pivot, truck.within)
    own = math.sqrt(max(radius**2 + truck.within, 1e-12))
    inner = math.sqrt(max(radius**2 - half**2, 1e-12))
    around = math.asin(_unit((truck.pivot - pose.crown) / own)) - math.atan2(ahead, inner)
    (cx, cy), turn = pose.centre, around
    middle = cx + inner * math.sin(turn), cy + inner * math.cos(turn)
    axles = tuple(
        (middle[0] + s * half * math.cos(turn), middle[1] - s * half * math.sin(turn))
        for s in (1, -1)
    )
    attack = math.degrees(math.asin(_unit(half / radius)))
    return TruckPlace(swing, truck.way * math.degrees(turn), attack, axles)


def _unit(value: float) -> float:
    return max(-1.0, min(1.0, value))


@dataclass(frozen=True)
class Push:
    """What side control pushes with at a swing, N, and amid; with the sizes taken."""

    amid: float
    swung: float
    rate: float
    preload: float
    link: float
    working: Working | None


def pushed_back(decided: Truck, word: str, swing: float, load: float) -> Push:
    """Return the push of a truck's side control.

    Parameters
    ----------
    swing : at which, mm.
    load : on the truck, N.
    """
    y = abs(swing)
    preload = 0.1 * load if decided.preload is None else decided.preload
    usual = max(0.25 * load - preload, 0.0) / y if y > 0.01 else 0.0
    rate = usual if decided.rate is None else decided.rate
    link = max(5 * y, 1.0) if decided.link is None else decided.link
    label = f"Push of the {word} truck's side control"
    working, amid, swung = None, 0.0, 0.0
    if decided.control == "springs":
        working = relations.spring_push.work(label, "N", F_0=preload, c=rate, y=y)
        amid, swung = preload, working.result
    elif decided.control == "swing links":
        reach = min(y, 0.95 * link)  # links that lie nearly level are a finding
        working = relations.link_push.work(label, "N", W=load, y=reach, l=link)
        swung = working.result
    elif decided.control == "inclined planes":
        slope = math.radians(decided.slope)
        working = relations.plane_push.work(label, "N", W=load, beta=slope)
        amid = swung = working.result
    return Push(amid, swung, rate, preload, link, working)
