"""What to move, which way and how far, so that the valve goes again as designed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..measures import INCH
from ..motion.frame import Array
from ..sizes import figure
from ..working import relation
from .decisions import Instruments, Mends
from .faults import Fault, amount
from .fit import COVER

_TWELFTHS = {
    0: "", 1: "a twelfth", 2: "a sixth", 3: "a quarter", 4: "a third", 5: "five twelfths",
    6: "a half", 7: "seven twelfths", 8: "two thirds", 9: "three quarters", 10: "five sixths",
    11: "eleven twelfths",
}  # fmt: skip
_STEPS = {"half turns only": 0.5, "whole turns only": 1.0}


@relation(r"N", "common practice: a nut moves by its pitch a turn", p=r"p", s=r"s")
def turns_of(s: float, p: float) -> float:
    """Return the turns of a nut of pitch p that move the valve by s."""
    return s / p


@dataclass(frozen=True, kw_only=True)
class Mending:
    """One thing to be moved.

    Parameters
    ----------
    fault : which of the faults it takes away, by its place among them.
    amount : by how much that is changed; positive as the fault counts.
    """

    fault: int
    what: str
    unit: str
    says: str
    amount: float = figure("Moved by")
    within: float = figure("Good to within")
    turns: float | None = figure("Turns of the nut", "count")


def pitch_of(mends: Mends) -> float:
    """Return the pitch of the spindle's thread, mm."""
    return mends.pitch if mends.pitch is not None else INCH / mends.threads_per_inch


def least_move(mends: Mends, instruments: Instruments) -> float:
    """Return below what it is not worth moving the valve, mm.

    A twelfth of a turn of the nut, or where the valve has no nut half of what an opening can
    be read to (common practice).
    """
    return instruments.feeler / 2 if mends.held == "clamped" else pitch_of(mends) / 12


@dataclass(frozen=True)
class Mended:
    """What is to be moved, and how far the valve would be but for being too little, mm."""

    made: tuple[Mending, ...]
    spared: float | None = None


def mendings(
    faults: Sequence[Fault], curves: Array, found: Array, covariance: Array, mends: Mends,
    least: float,
) -> Mended:  # fmt: skip
    """Return what is worth moving: all that is larger than the doubt about it.

    The valve, the eccentrics, a radial gear's guide and one rod are moved so that over full
    forward, mid and full backward gear the valve departs least, in the sense of squares, from
    where the design has it.  Of two rods the one is chosen that leaves least to be done.

    Parameters
    ----------
    curves : (rows, angles, n) change of the valve's place by each fault.
    found, covariance : (n,), (n, n) of the faults.
    least : by less than which the valve is left alone, mm.
    """
    turned = [i for i, one in enumerate(faults) if one.sort == "angle"]
    rods = [i for i, one in enumerate(faults) if one.sort == "rod"]
    guide = [i for i, one in enumerate(faults) if one.sort in ("tilt", "height")]
    first = [0] + (turned if mends.eccentrics == "can be turned" else [])
    first += guide if mends.guide == "can be moved" else []
    ways = [[*first, rod] for rod in reversed(rods)] if mends.rods == "can be altered" else []
    tried = [
        _worth(faults, curves, found, covariance, way, mends, least) for way in ways or [first]
    ]
    return min(tried, key=lambda one: len(one.made))


def _worth(
    faults: Sequence[Fault], curves: Array, found: Array, covariance: Array,
    movable: list[int], mends: Mends, least: float,
) -> Mended:  # fmt: skip
    flat = curves.reshape(-1, curves.shape[-1])
    active = list(movable)
    spared: float | None = None
    while active:
        # by how much each is moved for each fault
        gain = -np.linalg.lstsq(flat[:, active], flat, rcond=None)[0]
        by = gain @ found
        doubt = COVER * np.sqrt(np.diagonal(gain @ covariance @ gain.T))
        share = np.abs(by) / np.maximum(doubt, 1e-12)
        known = doubt <= np.array([faults[i].possible for i in active])
        share = np.where(known, share, 0.0)
        if share.min() > 1:
            if active[0] == 0 and abs(by[0]) < least:
                spared = float(by[0])
                del active[0]  # the others make up for it as far as they can
                continue
            made = (_said(faults, i, float(b), float(d), mends)
                    for i, b, d in zip(active, by, doubt, strict=True))  # fmt: skip
            return Mended(tuple(one for one in made if one is not None), spared)
        del active[int(share.argmin())]
    return Mended((), spared)


def _said(
    faults: Sequence[Fault], i: int, by: float, within: float, mends: Mends
) -> Mending | None:
    fault = faults[i]
    made = Mending(
        fault=i, what=fault.name, unit=fault.unit, says="", amount=by, within=within, turns=None
    )
    if fault.sort == "valve":
        return move_valve(made, mends)
    much = amount(abs(by), fault.unit)
    if fault.sort == "rod":
        verb = "Lengthen" if by > 0 else "Shorten"
        return replace(made, says=f"{verb} the {fault.name} by {much}, by packing or a new length.")
    if fault.sort == "tilt":
        return replace(made, says=_tilted(by, mends))
    if fault.sort == "height":
        way = "up" if by > 0 else "down"
        says = f"Set the bracket of the guide's shaft {way} by {much}, by packing or slotted holes."
        return replace(made, says=says)
    if "stop" in fault.name:
        when = "earlier" if by > 0 else "later"
        says = f"Move the {fault.name} so that it drives the eccentric {much} {when}."
    elif fault.more == "early":
        way = "forward" if fault.name.startswith("forward") else "backward"
        with_ = "the way the axle turns" if by > 0 else "against the way the axle turns"
        says = f"Turn the {way} eccentric {much} on the axle, {with_} running {way}."
    else:
        part = fault.name.removesuffix("'s angle")
        sense = "on" if by > 0 else "back"
        says = f"Set the {part} {much} {sense} in the sense of forward running."
    return replace(made, says=says)


def _tilted(by: float, mends: Mends) -> str:
    """Return how a guide is turned on its shaft; the reach rod comes from behind."""
    way, up, hangs = ("back", "Shorten", "lengthen") if by > 0 else ("ahead", "Lengthen", "shorten")
    far = ""
    if mends.reach_arm is not None:
        # with the arm square to the reach rod
        far = f" by {amount(mends.reach_arm * math.sin(math.radians(abs(by))), 'mm')}"
    return (
        f"Turn the guide {amount(abs(by), 'deg')} on its shaft, its upper end {way}. {up} the "
        f"reach rod{far} where the guide's arm stands up, {hangs} it where the arm hangs."
    )


def move_valve(made: Mending, mends: Mends) -> Mending | None:
    """Return how the valve is moved on its spindle; None where no step of it comes nearer."""
    pitch = pitch_of(mends)
    by = made.amount
    if mends.held == "clamped":
        return replace(made, says=f"Move the valve {_mm(by)} on its spindle.")
    turns = turns_of(abs(by), pitch)
    rest = ""
    if mends.held in _STEPS:
        step = _STEPS[mends.held]
        whole = step * round(turns / step)
        # half of nothing gained is not worth the trouble
        if abs(turns - whole) > 0.7 * turns:
            return None
        left = by - math.copysign(whole * pitch, by)
        by, turns = math.copysign(whole * pitch, by), whole
        rest = f"; {_mm(left)} is left over" if abs(left) > 0.005 else ""
    thread = (
        f"pitch {mends.pitch:g} mm" if mends.pitch is not None
        else f"{mends.threads_per_inch:g} t.p.i."
    )  # fmt: skip
    what = "turn the spindle" if mends.held in _STEPS else "turn the spindle nuts"
    says = f"Move the valve {_mm(by)}: {what} {in_turns(turns)} ({thread}){rest}."
    return replace(made, amount=by, turns=turns, says=says)


def _mm(by: float) -> str:
    return f"{abs(by):.2f} mm {'ahead' if by > 0 else 'back'}"


def in_turns(turns: float) -> str:
    """Return turns in words, to the twelfth of a turn: two flats of a hexagon are a third."""
    twelfths = round(12 * turns)
    if twelfths == 0:
        return f"{turns:.2f} of a turn"
    whole, part = divmod(twelfths, 12)
    if whole == 0:
        return "half a turn" if part == 6 else f"{_named(part)} of a turn"
    if part == 0:
        return f"{whole} turn" + ("s" if whole > 1 else "")
    return f"{whole} and {_TWELFTHS[part]} turns"


def _named(part: int) -> str:
    return {4: "one third", 3: "one quarter", 2: "one sixth", 1: "one twelfth"}.get(
        part, _TWELFTHS[part]
    )


def after(found: Array, made: Sequence[Mending]) -> Array:
    """Return the faults that are left when all has been moved, (n,)."""
    left = found.copy()
    for one in made:
        left[one.fault] += one.amount
    return left


def departure(curves: Array, faults: Array) -> float:
    """Return how far the valve is from where it should be, root of the mean square, mm."""
    return float(np.sqrt(np.mean((curves @ faults) ** 2)))
