"""Loads on the axles: what rests on them straight, and what comes through springs and beams."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..frames import Axle
from ..sizes import SizeError
from .decisions import COUPLED, GROUPS, Bearing

_NOTHING = 1e-9


@dataclass(frozen=True)
class Support:
    """What bears as one: an axle on its own springs, or several with beams between them.

    Parameters
    ----------
    axles : their indices from the front.
    shares : of the load on it, one for each axle, in any measure; their sum is its stiffness.
    ahead : where the load on it acts, ahead of the driving axle, mm.
    """

    axles: tuple[int, ...]
    shares: tuple[float, ...]
    ahead: float

    @property
    def stiffness(self) -> float:
        """Beside one coupled axle on its own springs.

        Springs under a beam all carry their share, so n alike let it sink as one of n times
        the stiffness would.
        """
        return sum(self.shares)


@dataclass(frozen=True)
class Borne:
    """What the axles carry through springs and beams, kg.

    Parameters
    ----------
    loads : of every axle from the front, never below nothing.
    lifted : indices of axles from which the springs have lifted the weight wholly.
    tips : whether the weight stands outside all that could bear it.
    sinks, turns : of the frame, kg and kg/mm on springs of the stiffness 1.
    """

    loads: tuple[float, ...]
    lifted: tuple[int, ...]
    tips: bool
    sinks: float
    turns: float


def supports_of(
    axles: Sequence[Axle], bearing: Bearing, pivots: tuple[float, float] = (0.0, 0.0)
) -> tuple[Support, ...]:
    """Return what bears, from the front.

    The axles of a truck always bear as one, about its pivot.

    Parameters
    ----------
    pivots : of a leading and a trailing bogie, ahead of amid its axles, mm.

    Raises
    ------
    SizeError : when more springs are given than there are coupled axles, or a group is empty.
    """
    coupled = [n for n, one in enumerate(axles) if one.kind == "coupled"]
    if len(bearing.springs) > len(coupled):
        raise SizeError(
            f"Coupled axle's springs: there are {len(bearing.springs)}, but {len(coupled)} coupled "
            "axles; no more than these would do.", "bearing.springs",
        )  # fmt: skip
    share = dict.fromkeys(range(len(axles)), 1.0)
    for n, one in zip(coupled, bearing.springs, strict=False):
        share[n] = one.rate
    trucks: dict[str, list[int]] = {"leading": [], "trailing": []}
    for n, axle in enumerate(axles):
        if axle.kind != "coupled":
            trucks[axle.kind].append(n)
            share[n] = bearing.leading if axle.kind == "leading" else bearing.trailing
    for theirs, pivot in zip(trucks.values(), pivots, strict=True):
        if len(theirs) == 2 and bearing.equalised != GROUPS:
            front, back = theirs
            lever = 2 * pivot / (axles[front].ahead - axles[back].ahead)
            share[front], share[back] = share[front] * (1 + lever), share[back] * (1 - lever)
    groups = [trucks["leading"], *([n] for n in coupled), trucks["trailing"]]
    if bearing.equalised == COUPLED:
        groups = [trucks["leading"], coupled, trucks["trailing"]]
    elif bearing.equalised == GROUPS:
        first = bearing.front_group
        if first is None:
            first = len(trucks["leading"]) + max(len(coupled) // 2, 0 if trucks["leading"] else 1)
        if not 0 < first < len(axles):
            raise SizeError(
                f"Axles in the front group: {first} of {len(axles)} leave none for the back "
                f"group; 1 to {max(len(axles) - 1, 1)} would do.", "bearing.front_group",
            )  # fmt: skip
        groups = [list(range(first)), list(range(first, len(axles)))]
    return tuple(_support(group, axles, share) for group in groups if group)


def _support(group: Sequence[int], axles: Sequence[Axle], share: dict[int, float]) -> Support:
    shares = tuple(share[n] for n in group)
    moment = sum(share[n] * axles[n].ahead for n in group)
    return Support(tuple(group), shares, moment / sum(shares))


def borne(supports: tuple[Support, ...], count: int, mass: float, centre: float) -> Borne:
    """Return what every axle carries of the weight above the springs.

    Two supports are found by moments; more by the stiffness of their springs under a rigid
    frame, which sinks and turns; a spring that would have to pull lets go.

    Parameters
    ----------
    count : of the axles.
    mass : above the springs, kg.
    centre : of it, ahead of the driving axle, mm.
    """
    live, tips = list(supports), False
    lifted: list[int] = []
    while True:
        on, sinks, turns = _shared(live, mass, centre)
        worst = min(range(len(live)), key=on.__getitem__)
        if on[worst] >= -_NOTHING * max(mass, 1.0) or len(live) == 1:
            break
        tips = len(live) == 2
        lifted += live[worst].axles
        del live[worst]
    loads = [0.0] * count
    for support, load in zip(live, on, strict=True):
        for n, share in zip(support.axles, support.shares, strict=True):
            loads[n] = max(load, 0.0) * share / support.stiffness
    return Borne(tuple(loads), tuple(sorted(lifted)), tips, sinks, turns)


def _shared(
    live: Sequence[Support], mass: float, centre: float
) -> tuple[list[float], float, float]:
    """Solve the sums of forces and of moments for how far the frame sinks and turns."""
    if len(live) == 1:
        return [mass], mass / live[0].stiffness, 0.0
    s0 = sum(one.stiffness for one in live)
    middle = sum(one.stiffness * one.ahead for one in live) / s0
    s2 = sum(one.stiffness * (one.ahead - middle) ** 2 for one in live)
    turns = mass * (centre - middle) / s2
    sinks = mass / s0 - turns * middle
    return [one.stiffness * (sinks + turns * one.ahead) for one in live], sinks, turns


def spring_centre(supports: tuple[Support, ...]) -> float:
    """Return where the weight has to stand for the frame to sink level, mm."""
    whole = sum(one.stiffness for one in supports)
    return sum(one.stiffness * one.ahead for one in supports) / whole


def level_kept(supports: tuple[Support, ...]) -> bool:
    """Return whether there are two supports at least, so that the engine cannot rock."""
    return len(supports) > 1


def truck_ratio(
    axles: Sequence[Axle], bearing: Bearing, kind: str, mass: float, centre: float, wanted: float,
    pivots: tuple[float, float] = (0.0, 0.0),
) -> float | None:  # fmt: skip
    """Return the stiffness of a truck's springs beside a coupled axle's that gives it a load.

    Parameters
    ----------
    kind : "leading" or "trailing".
    mass, centre : above the springs, kg and mm.
    wanted : on the springs of all its axles together, kg.
    pivots : see `supports_of`.

    Returns
    -------
    None where no stiffness does so, as where moments alone decide.
    """
    theirs = [n for n, one in enumerate(axles) if one.kind == kind]

    def gap(ratio: float) -> float:
        tried = (
            replace(bearing, leading=ratio) if kind == "leading"
            else replace(bearing, trailing=ratio)
        )  # fmt: skip
        found = borne(supports_of(axles, tried, pivots), len(axles), mass, centre)
        return sum(found.loads[n] for n in theirs) - wanted

    low, high = 0.02, 10.0
    if gap(low) * gap(high) > 0:
        return None
    rises = gap(high) > 0
    for _ in range(60):
        middle = (low * high) ** 0.5
        if (gap(middle) > 0) == rises:
            high = middle
        else:
            low = middle
    return high
