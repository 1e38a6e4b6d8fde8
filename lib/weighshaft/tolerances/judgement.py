"""What is to be said of the scatter, in the builder's words."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..findings import Finding
from .decisions import WAYS, Tolerances
from .dimensions import amiss
from .results import Dimension, Ranked

CHAPTER = "tolerances"
NINETY = 1.645
"""Half width of the band that holds nine in ten, in standard deviations of a normal error."""


def of_beat(
    tolerances: Tolerances,
    where: str,
    half: float,
    drawn: float,
    ranked: Sequence[Ranked],
    share: float,
    rest: float,
) -> Finding:
    """Return the judgement on the scatter of the difference between the cut-offs.

    Parameters
    ----------
    where : the notch, in words.
    half : half of the band of nine engines in ten, % of the stroke.
    drawn : the difference as drawn, front less back, %.
    share : of the variance in this notch that the first three make.
    rest : standard deviation that all others make in this notch, %.
    """
    three = [one for one in ranked[:3] if one.share > 0]
    names = _listed([_lowered(one.dimension.label) for one in three])
    held = (
        f"In nine engines in ten the cut-offs of the two ends differ {where} by what is drawn "
        f"({_apart(drawn)}), plus or minus {half:.1f} % of the stroke"
    )
    fields = (f"{CHAPTER}.allowed", *(one.dimension.path for one in three))
    decide = f"{names[:1].upper()}{names[1:]} make {100 * share:.0f} % of that scatter."
    if half <= tolerances.allowed:
        return Finding("fine", CHAPTER, fields, f"{held}. {decide}")
    over = f"; you allow {tolerances.allowed:g} %. {decide}"
    own = half / NINETY  # the band as a standard deviation
    room = (tolerances.allowed / NINETY) ** 2 - rest**2
    made = own**2 - rest**2
    if room > 0 and made > 0:
        closer = math.sqrt(room / made)
        mend = "; ".join(
            f"{one.dimension.label}: {_limit(closer * one.dimension.limit, one.dimension)} instead "
            f"of {_limit(one.dimension.limit, one.dimension)} ({one.dimension.made})"
            for one in three
        )
        mend = f"Hold these closer: {mend}."
    else:
        mend = (
            f"The other dimensions alone scatter by plus or minus {NINETY * rest:.1f} %: "
            "a closer way of working throughout, or a setting after building."
        )
    return Finding("check", CHAPTER, fields, held + over, mend)


def of_slack(slack: Sequence[Ranked], ranked: Sequence[Ranked]) -> list[Finding]:
    """Return which dimensions need no care as far as the beat goes."""
    if not slack:
        return []
    names = [_lowered(one.dimension.label) for one in reversed(slack)]
    shown = names if len(names) <= 6 else [*names[:5], f"{len(names) - 5} more"]
    return [
        Finding(
            "fine", CHAPTER, tuple(one.dimension.path for one in slack),
            f"{len(slack)} of {len(ranked)} dimensions together make less than 1 % of the "
            f"scatter of the beat, as they are made now: {_listed(shown)}.",
        )
    ]  # fmt: skip


def of_lost(tolerances: Tolerances, lost: int) -> list[Finding]:
    """Return what is to be said of engines that would not run."""
    if not lost:
        return []
    return [
        Finding(
            "check", CHAPTER, ("motion.gear", f"{CHAPTER}.workshop"),
            f"{lost} of {tolerances.trials} engines built so lock, or lack an event that the "
            "drawing has.",
            "More room in the gear, or closer work.",
        )
    ]  # fmt: skip


def of_operations(tolerances: Tolerances, dimensions: tuple[Dimension, ...]) -> list[Finding]:
    """Return operations that name nothing here, or that do not suit what they name."""
    found = []
    for i, one, named in amiss(tolerances, dimensions):
        path = f"{CHAPTER}.made.{i}"
        if named is None:
            says = f"No dimension here is called “{one.dimension.strip()}”; the entry does nothing."
            mend = "A name as the table of dimensions gives it."
            field = f"{path}.dimension"
        else:
            held = {"mm": "a length", "deg": "an angle"}
            says = (
                f"{named.label} is {held[named.unit]}, “{one.made}” holds "
                f"{held[WAYS[one.made][1]]}; the entry does nothing."
            )
            mend = f"Another way of making it, such as “{named.made}”."
            field = f"{path}.made"
        found.append(Finding("check", CHAPTER, (field,), says, mend))
    return found


def _limit(limit: float, dimension: Dimension) -> str:
    return f"±{limit:.2g}°" if dimension.unit == "deg" else f"±{limit:.2g} mm"


def _apart(drawn: float) -> str:
    if abs(drawn) < 0.05:
        return "nothing"
    return f"{abs(drawn):.1f} %, the {'front' if drawn > 0 else 'back'} later"


def _lowered(label: str) -> str:
    """Begin a label with a small letter within a sentence, unless it begins with a name."""
    return label if label[:2].isupper() else label[:1].lower() + label[1:]


def _listed(names: Sequence[str]) -> str:
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
