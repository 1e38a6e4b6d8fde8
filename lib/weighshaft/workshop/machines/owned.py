"""Which of the tools that the engine asks for are there, and which has to be got."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ...findings import Finding
from ...trade.threads import Thread, thread

REAMED = 0.013
"""A reamer so near to a bore (mm, half a thou) is the one for it; common practice."""


@dataclass(frozen=True)
class Need:
    """A thread of the engine: what it is for, the decision behind it, and what cuts it.

    Parameters
    ----------
    name : of the joint, in the trade's words.
    one : the thread.
    path : of the decision.
    decided : whether the builder decided it; else it is a proposal.
    die : whether the male part is cut here; a screw is bought with its thread on.
    """

    name: str
    one: Thread
    path: str
    decided: bool = True
    die: bool = True


@dataclass(frozen=True)
class Bore:
    """A bore (mm) that is reamed, and what it is in."""

    diameter: float
    what: str


@dataclass(frozen=True)
class Owned:
    """A tool that is there, or the nearest that is.

    Parameters
    ----------
    there : whether it is; None where the list has not been told.
    nearest : what comes nearest of the list, as the builder spelt it; empty for none.
    """

    there: bool | None
    nearest: str = ""

    @property
    def says(self) -> str:
        """What a table says of it."""
        if self.there is None:
            return "not told"
        return "you have it" if self.there else "to buy or borrow"


def same_thread(one: Thread, other: Thread) -> bool:
    """Whether one tap cuts both: the same form, diameter and pitch under two names."""
    return (
        one.form == other.form
        and abs(one.major - other.major) < 0.01
        and abs(one.pitch - other.pitch) < 0.001
    )


def owned(one: Thread, names: Iterable[str]) -> Owned:
    """Return whether a thread is among those of a list, and the nearest of them.

    Parameters
    ----------
    one : the thread asked for.
    names : of the taps, or the dies, owned.
    """
    listed = [(name, thread(name)) for name in names]
    if not listed:
        return Owned(None)
    # as near in diameter as in pitch: what of the list could take its place
    name, nearest = min(
        listed, key=lambda two: abs(two[1].major - one.major) + abs(two[1].pitch - one.pitch)
    )
    there = any(same_thread(one, other) for _, other in listed)
    return Owned(there, name if not there else nearest.designation)


def near_reamer(bore: float, reamers: Iterable[float]) -> tuple[bool | None, float | None]:
    """Return whether a reamer for a bore is there (None: not told), and the nearest, mm."""
    nearest = min(reamers, key=lambda one: abs(one - bore), default=None)
    if nearest is None:
        return None, None
    return abs(nearest - bore) <= REAMED, nearest


def judged(
    needs: Iterable[Need], taps: tuple[str, ...], dies: tuple[str, ...]
) -> Iterator[Finding]:
    """Judge the threads that the builder decided on by the taps and dies that are there."""
    told = [
        (word, plural, f"machines.tools.{plural}", names)
        for word, plural, names in (("tap", "taps", taps), ("die", "dies", dies))
        if names
    ]
    needs = [one for one in needs if one.decided]
    missing = 0
    for need in needs:
        for word, plural, path, names in told:
            found = owned(need.one, names)
            if found.there or (word == "die" and not need.die):
                continue
            missing += 1
            near = thread(found.nearest)
            yield Finding(
                "check", "machines", (path, need.path),
                f"{need.name}: there is no {word} for {need.one.designation} "
                f"({need.one.major:.2f} mm, pitch {need.one.pitch:.3f} mm) among the {plural} "
                f"owned; the nearest is {found.nearest} ({near.major:.2f} mm, pitch "
                f"{near.pitch:.3f} mm).",
                f"Buy or borrow one, or see whether {found.nearest} will do there.",
                "the lists of the workshop",
            )  # fmt: skip
    if told and needs and not missing:
        words = " and a ".join(word for word, *_ in told)
        yield Finding(
            "fine", "machines", tuple(path for *_, path, _ in told),
            f"There is a {words} for every thread decided on ({len(needs)}).",
            source="the lists of the workshop",
        )  # fmt: skip


def of_pieces(told: Iterable[tuple[str, str, bool]]) -> Iterator[Finding]:
    """Say of which pieces of the rack a size is missing.

    Parameters
    ----------
    told : of each piece its path, what it is, and whether its section is whole.
    """
    for path, says, whole in told:
        if not whole:
            yield Finding(
                "check", "machines", (f"{path}.second",),
                f"In the rack, {says}: its wall or width is not told, so nothing is cut from it.",
                "Measure it and write it there.", "the lists of the workshop",
            )  # fmt: skip
