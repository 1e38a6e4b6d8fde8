"""Threads with several starts: the lead, and how the work is moved on from start to start."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from ...trade.threads import Thread
from ..dials import Dial
from . import relations
from .trains import Train


@dataclass(frozen=True)
class Start:
    """Where a start begins, counted from the first.

    Parameters
    ----------
    number : from 1.
    angle : of the spindle, degrees.
    teeth : of the first change wheel, from the tooth that was chalked; None without a train.
    slide : of the top slide along the lathe, mm, and what its dial then shows.
    """

    number: int
    angle: float
    teeth: Fraction | None
    slide: float
    dial: str


@dataclass(frozen=True)
class Starts:
    """A thread of several starts.

    Parameters
    ----------
    lead : that the thread goes on in a turn, mm.
    helix : at the effective diameter, degrees.
    each : the starts in their order.
    by_nut : threads of the leadscrew after which the nut closes into another start, and by how
        many starts it is then further; None where it never meets another one.
    """

    lead: float
    helix: float
    each: tuple[Start, ...]
    by_nut: tuple[int, int] | None


def several(
    one: Thread, pitch: float, number: int, train: Train | None, stud_turns: float, slide: Dial
) -> Starts:
    """Return lead and indexing of a thread.

    Parameters
    ----------
    pitch : from one groove to the next, mm.
    number : of starts.
    stud_turns : of the first change wheel for one of the spindle.
    slide : dial of the top slide.
    """
    lead = relations.lead(starts=number, p=pitch)
    scale = pitch / one.pitch
    effective = one.major - (one.major - one.effective) * scale
    helix = math.degrees(relations.helix(l=lead, d=max(effective, 0.1 * one.major)))
    each = tuple(
        Start(
            n + 1, 360 * n / number,
            None if train is None else teeth_between(train, number, stud_turns) * n,
            n * pitch, slide.text(n * pitch),
        )
        for n in range(number)
    )  # fmt: skip
    return Starts(lead, helix, each, None if train is None else by_nut(train, number, stud_turns))


def teeth_between(train: Train, number: int, stud_turns: float) -> Fraction:
    """Return the teeth of the first wheel from start to start; whole where they can be counted."""
    turns = Fraction(stud_turns).limit_denominator(1000)
    return train.pairs[0][0] * turns / number


def by_nut(train: Train, number: int, stud_turns: float) -> tuple[int, int] | None:
    """Return after how many threads of the leadscrew the nut meets another start, and which.

    With leadscrew over pitch = N / D in lowest terms the nut meets a groove every D threads and
    is then N grooves further: another start where `number` does not divide N.
    """
    turns = Fraction(stud_turns).limit_denominator(1000)
    grooves = number / (train.ratio * turns)
    further = grooves.numerator % number
    return (grooves.denominator, further) if further else None
