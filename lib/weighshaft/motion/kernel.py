"""The kernel that every gear stands on: it solves, proves that nothing locks, and reports.

A gear is one file: its fields, and a `pose` that closes its loops.  Loops of two bars
close by `dyad`; a gear with a harder loop iterates inside its pose.  The kernel asks for
poses, vectorised over crank angle and reverser, checks the margins that the pose reports,
and refuses a motion that jumps from one assembly to another.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, ClassVar, Literal, Protocol, Self

import numpy as np
from numpy.typing import ArrayLike

from .frame import Array, Crank, MotionLocks, Sized, point

if TYPE_CHECKING:
    from .equivalent import EquivalentEccentric, ValveSizes, Wanted
    from .parts import Wishes

GRID = np.linspace(0.0, 360.0, 72, endpoint=False)
"""Crank angles at which every turn is proved, degrees."""

CLOSED = 1e-9
"""Largest closure error of a pose that counts as assembled, mm."""

ROUNDING = 1e-14
"""What arithmetic itself leaves of a length; it only tells in rods kilometres long."""


@dataclass(frozen=True)
class Pose:
    """What a gear answers for crank angles and reverser positions of one broadcast shape.

    Parameters
    ----------
    valve : displacement of the valve along its line before setting, mm.
    points : joint name to coordinates (..., 2), mm.
    bars : (joint, joint, length): what has to hold between the points.
    margins : joint name to a figure that falls to zero where that joint locks, below where
        it cannot be reached; near 1 for a sound angle of transmission.
    die : how far the die block stands from the middle of its slot along the arc, mm.
    """

    valve: Array
    points: Mapping[str, Array]
    bars: tuple[tuple[str, str, Sized], ...]
    margins: Mapping[str, Array]
    die: Array | None = None


@dataclass(frozen=True)
class Part:
    """A part as it is drawn: through which joints it runs, and in what shape.

    Parameters
    ----------
    shape : "bar" a line through the joints; "sheave" a disc at the first joint, with its arm
        from the axle; "slot" a curved link at the first joint, struck from the second.
    behind : whether it stands behind the others, as the backward eccentric does.
    """

    name: str
    joints: tuple[str, ...]
    shape: Literal["bar", "sheave", "slot"] = "bar"
    behind: bool = False


class Gear(Protocol):
    """A valve gear: a frozen dataclass of its sizes that closes its own loops.

    `kind` is its word in the design file; `notched` says whether it works between full gear
    and mid gear, or forward and backward alone; `parts` how it is drawn.
    """

    kind: ClassVar[str]
    notched: ClassVar[bool]
    parts: ClassVar[tuple[Part, ...]]

    def __hash__(self) -> int:
        """Gears are values: what is proved of one is proved of its equal."""
        ...

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose for `theta` (m, n) degrees and `reverser` (m, 1)."""
        ...

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve, pull positive."""
        ...

    @property
    def tuning(self) -> tuple[float, float]:
        """What governs the travel, and what governs the lead."""
        ...

    def tuned(self, throw: float, second: float, /) -> Self:
        """Return the gear with these two changed, and what has to follow them."""
        ...

    def neighbours(self) -> Sequence[Self]:
        """Return variants with a pin moved, among which one has the most even cut-offs."""
        ...

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return the values of its own fields that wanted events call for."""
        ...


@dataclass(frozen=True)
class Motion:
    """The motion of a gear over crank angles (n,) and reverser positions (m,).

    Parameters
    ----------
    theta : (n,) crank angles in degrees.
    reverser : (m,) or () positions of the reverser.
    valve : displacement of the valve before setting, mm, (m, n) or (n,).
    points : joint name to coordinates, (m, n, 2) or (n, 2).
    residual : largest closure error of any pose, mm.
    die : position of the die along its slot from the middle, or None.
    margins : joint name to the margin against locking, as in `Pose`.
    bars : pairs of joints at a fixed distance, with that distance.
    """

    theta: Array
    reverser: Array
    valve: Array
    points: Mapping[str, Array]
    residual: float
    die: Array | None
    margins: Mapping[str, Array]
    bars: tuple[tuple[str, str, Sized], ...]


def solve_motion(crank: Crank, gear: Gear, theta: ArrayLike, reverser: ArrayLike) -> Motion:
    """Solve the position of every joint of a gear.

    Parameters
    ----------
    crank : the crank and connecting rod.
    gear : any gear.
    theta : (n,) crank angles, degrees from front dead centre in forward running.
    reverser : scalar or (m,), +1 full forward to -1 full backward.

    Returns
    -------
    Motion with arrays (m, n), or (n,) where the reverser is a scalar.

    Raises
    ------
    MotionLocks : when the gear cannot be assembled or locks anywhere in the revolution.
    ValueError : when an angle or a reverser position is not usable.
    """
    angles = np.atleast_1d(np.asarray(theta, dtype=float))
    positions = np.asarray(reverser, dtype=float)
    if angles.ndim != 1 or not np.all(np.isfinite(angles)):
        raise ValueError("The crank angles have to be finite numbers in one row.")
    rows = np.atleast_1d(positions)
    if rows.ndim != 1 or not np.all(np.isfinite(rows)) or np.any(np.abs(rows) > 1):
        raise ValueError("The reverser runs from -1 (full backward) to +1 (full forward).")
    prove(crank, gear, rows)
    pose = gear.pose(crank, angles[None, :], rows[:, None])
    residual = closure_error(pose)
    if not residual < CLOSED:
        _refuse_locked(pose, np.broadcast_to(angles, (len(rows), len(angles))), tuple(rows))
    shape = (len(rows), len(angles))

    def full(a: Array, coordinates: int = 0) -> Array:
        whole: Array = np.broadcast_to(a, shape + (2,) * coordinates)
        return whole if positions.ndim else whole[0]

    return Motion(
        theta=angles,
        reverser=positions,
        valve=full(pose.valve),
        points={name: full(place, 1) for name, place in pose.points.items()},
        residual=residual,
        die=None if pose.die is None else full(pose.die),
        margins={name: full(margin) for name, margin in pose.margins.items()},
        bars=pose.bars,
    )


def closure_error(pose: Pose) -> float:
    """Return by how much the worst bar of any pose misses its length, mm."""
    worst = 0.0
    for one, other, length in pose.bars:
        worst = max(worst, float(np.max(_miss(pose, one, other, length))))
    return worst


def _miss(pose: Pose, one: str, other: str, length: Sized) -> Array:
    """Return by how much a bar misses its length, mm; a plain root, since hypot takes tenfold."""
    away = pose.points[one] - pose.points[other]
    x, y = away[..., 0], away[..., 1]
    missed: Array = np.abs(np.sqrt(x * x + y * y) - length)
    return missed


def prove(crank: Crank, gear: Gear, reversers: ArrayLike) -> None:
    """Prove that a gear turns right round at these reverser positions; remembered once done.

    Every joint has to keep a margin, also between the angles of the grid; every bar has
    to close; and no joint may jump, which would be another assembly.

    Raises
    ------
    MotionLocks : naming the joint, the crank angle and the reverser position.
    """
    _proved(crank, gear, tuple(np.unique(np.asarray(reversers, dtype=float)).tolist()))


@lru_cache(maxsize=512)
def _proved(crank: Crank, gear: Gear, reversers: tuple[float, ...]) -> None:
    rows = np.array(reversers)[:, None]
    theta = np.broadcast_to(GRID, (len(rows), len(GRID)))
    pose = gear.pose(crank, theta, rows)
    _refuse_locked(pose, theta, reversers)
    joints = list(pose.margins)
    # close in on the least margin of every joint together, down to hundredths of a degree
    least = [np.broadcast_to(pose.margins[joint], theta.shape).argmin(axis=1) for joint in joints]
    middle, step = GRID[np.stack(least, axis=1)], GRID[1] - GRID[0]
    across = np.arange(len(rows))[:, None], np.arange(len(joints))[None, :]
    for _ in range(3):
        near = middle[:, :, None] + step * np.linspace(-1, 1, 9)
        flat = near.reshape(len(rows), -1)
        closer = gear.pose(crank, flat, rows)
        _refuse_locked(closer, flat, reversers)
        margins = [np.broadcast_to(closer.margins[j], flat.shape) for j in joints]
        own = np.stack([m.reshape(near.shape)[:, i] for i, m in enumerate(margins)], axis=1)
        middle, step = near[(*across, own.argmin(axis=2))], step / 4
    _refuse_jumps(crank, gear, pose, rows)


def _refuse_locked(pose: Pose, theta: Array, reversers: tuple[float, ...]) -> None:
    """Refuse a pose without margin or that does not close, naming the joint nearest its limit."""
    margins = {name: np.broadcast_to(m, theta.shape) for name, m in pose.margins.items()}
    bad = np.zeros(theta.shape, dtype=bool)
    for margin in margins.values():
        bad |= ~(margin > 0)
    for one, other, length in pose.bars:
        bad |= ~(_miss(pose, one, other, length) < CLOSED + ROUNDING * length)
    if not bad.any():
        return
    row, column = (int(i) for i in np.unravel_index(np.argmax(bad), bad.shape))
    # where nothing fits any more the figures mean little: ask the nearest pose that closes
    sound = np.flatnonzero(~bad[row])
    ask = column if len(sound) == 0 else int(sound[np.abs(sound - column).argmin()])
    joint = min(margins, key=lambda name: float(margins[name][row, ask]))
    raise MotionLocks(joint, float(theta[row, column]), reversers[row])


def _refuse_jumps(crank: Crank, gear: Gear, pose: Pose, rows: Array) -> None:
    """Refuse a joint that leaps between neighbouring angles and does not leap less closer up."""
    step, size = GRID[1] - GRID[0], (len(rows), len(GRID))
    for joint, place in pose.points.items():
        path = np.broadcast_to(place, (*size, 2))
        leap = np.linalg.norm(np.roll(path, -1, axis=1) - path, axis=-1)
        worst = leap.argmax(axis=1)
        largest = leap[np.arange(len(rows)), worst]
        if not np.any(largest > 3 * np.median(leap, axis=1) + 1e-6):
            continue
        near = GRID[worst][:, None] + step * np.linspace(0, 1, 17)
        closer = np.broadcast_to(gear.pose(crank, near, rows).points[joint], (*near.shape, 2))
        within = np.linalg.norm(np.diff(closer, axis=1), axis=-1).max(axis=1)
        jumped = (within > 0.6 * largest) & (largest > 1e-6)
        if jumped.any():
            row = int(np.argmax(jumped))
            name = joint.replace("_", " ")
            raise MotionLocks(name, float(GRID[worst[row]]), float(rows[row, 0]))


def dyad(first: Array, r1: Sized, second: Array, r2: Sized, side: Sized) -> tuple[Array, Array]:
    """Return the joint of two bars between two points, in closed form.

    Parameters
    ----------
    first, second : (..., 2) ends of the bars, mm.
    r1, r2 : lengths of the bars from `first` and from `second`, mm.
    side : +1 when the joint lies to the left of the way from `first` to `second`, else -1.

    Returns
    -------
    The joint (..., 2), and the sine of the angle between the bars as the margin: zero or
    negative where they cannot meet.
    """
    x, y = second[..., 0] - first[..., 0], second[..., 1] - first[..., 1]
    square = x * x + y * y
    with np.errstate(divide="ignore", invalid="ignore"):
        along = (square + r1 * r1 - r2 * r2) / (2 * square)
        # sixteen times the squared area of the triangle over its largest value
        room = ((r1 + r2) ** 2 - square) * (square - (r1 - r2) ** 2) / (2 * r1 * r2) ** 2
        margin = np.where(room > 0, np.sqrt(np.maximum(room, 0.0)), room)
        across = side * np.maximum(margin, 0.0) * r1 * r2 / square
    margin = np.where(square > 0, margin, -1.0)
    joint = point(first[..., 0] + along * x - across * y, first[..., 1] + along * y + across * x)
    return joint, margin
