"""What the gaps mean to a builder: what fouls, what the line does not let through."""

from __future__ import annotations

from collections.abc import Iterator

from ..findings import COMMON, Finding
from ..frames import Whole
from ..trade.gauges import Outline
from .decisions import NONE, OWN, SCALED, Gauging
from .line import Compared, Low, Margin, Prototype
from .mending import Mend, mends
from .sweep import Near

CHAPTER = "gauging"
_MOST, _MENDED = 8, 4
_HAIR = 1e-3
_SOURCE = "geometry of the parts as decided or usual"
PLACED = ("reach rod", "reversing arm")
"""Parts whose plane across is nobody's decision: it is taken where there should be room."""
_TOLD = ("cylinders", "crankpins", "coupling rods", "connecting rods", "piston and rods")
"""What the wheels' chapter judges by its width already."""


def of_gaps(whole: Whole, near: tuple[Near, ...], looked_at: int) -> Iterator[Finding]:
    """Yield the findings on gaps; those of the motion are told in its own chapter."""
    short = [one for one in near if one.short > _HAIR and not one.told]
    short.sort(key=lambda one: -one.short)
    for n, one in enumerate(short[:_MOST]):
        # the sizes that would mend it are sought for the worst, with which others often go
        found = mends(whole, one.first, one.second, one.wanted) if n < _MENDED else ()
        yield _of_gap(whole, one, found)
    left = short[_MOST:]
    if left:
        fouls = sum(one.gap < 0 for one in left)
        yield Finding(
            "stop" if any(_level(one) == "stop" for one in left) else "check", CHAPTER,
            ("clearance.wanted",),
            f"Pairs of parts too near besides these: {len(left)}, of which {fouls} foul; the "
            "table of least gaps has them all.",
            "Mend the worst first: many of these go with it.", _SOURCE,
        )  # fmt: skip
    if not short:
        own = [one for one in near if not one.told]
        least = f"; the least gap is {own[0].gap:.2f} mm, {between(own[0])}" if own else ""
        yield Finding(
            "fine", CHAPTER, ("clearance.wanted",),
            f"Nothing fouls all round the turn, with the springs up and down and side play taken "
            f"up{least}. {looked_at} pairs of parts that do not belong together were looked at.",
            source=_SOURCE,
        )  # fmt: skip


def between(one: Near) -> str:
    """Return both parts in words."""
    return f"between {_name(one, 0)} and {_name(one, 1)}"


def _name(one: Near, which: int) -> str:
    name, side = ((one.first, one.second)[which], one.sides[which])
    if one.sides[0] and one.sides[1] and one.sides[0] != one.sides[1]:
        return f"the {side} {name}"
    return f"the {name}"


def when(one: Near, rise: float) -> str:
    """Return what stands where, in words."""
    said = []
    if one.crank_angle is not None:
        said.append(f"the right-hand crank at {one.crank_angle:.0f}°")
    for word, sign in (("up", 1), ("down", -1)):
        names = [name for name, at in one.rises if at == sign]
        if names:
            many = "axles" if len(names) > 1 else "axle"
            said.append(f"the {' and '.join(names)} {many} {rise:.2f} mm {word}")
    if one.play > 0:
        said.append(f"{one.play:.2f} mm of side play or swing taken up")
    return ", ".join(said[:-1]) + (" and " if len(said) > 1 else "") + said[-1] if said else ""


def _level(one: Near) -> str:
    placed = one.first in PLACED or one.second in PLACED
    return "stop" if one.gap < -_HAIR and not placed else "check"


def _of_gap(whole: Whole, one: Near, found: tuple[Mend, ...]) -> Finding:
    state = when(one, whole.rise)
    state = f" with {state}" if state else ""
    x, y, z = one.place
    where = (
        f"{abs(x):.1f} mm {'ahead of' if x >= 0 else 'behind'} the driving axle, "
        f"{abs(y):.1f} mm {'above' if y >= 0 else 'below'} it and {abs(z):.1f} mm out"
    )
    parts = between(one).removeprefix("between ")
    if one.gap < -_HAIR:
        says = f"{parts} foul: they overlap by {-one.gap:.2f} mm{state}, {where}."
    else:
        says = (
            f"{parts} come within {max(one.gap, 0.0):.2f} mm of one another{state}, {where}; "
            f"{one.wanted:.2f} mm is wanted."
        )
    return Finding(
        "stop" if _level(one) == "stop" else "check", CHAPTER, one.fields,
        says[0].upper() + says[1:], _in_words(one, found), _SOURCE,
        (found[0].path, found[0].value) if found else None,
    )  # fmt: skip


def _in_words(one: Near, found: tuple[Mend, ...]) -> str:
    said = ", or ".join(mend.words for mend in found[:3])
    said = f"{said[0].upper()}{said[1:]} would clear it." if said else ""
    if "weighshaft" in (one.first, one.second):
        said += " Or lay the lifting out anew with the shaft lower or higher, so that it passes."
    if one.first in PLACED or one.second in PLACED:
        said += " The plane of the reach rod across is not decided: set it where there is room."
    elif not found:
        by = max(one.short, 0.0)
        said = f"Move one of them {by:.2f} mm, or make one so much smaller there."
    return said.strip()


def of_line(
    gauging: Gauging,
    whole: Whole,
    prototype: Prototype,
    gauge: Outline | None,
    margins: tuple[Margin, ...],
) -> Iterator[Finding]:
    """Yield what the loading gauge lets through."""
    line = gauging.line
    fields = ("gauging.line.outline", prototype.width_path)
    if gauge is None:
        if line.outline != SCALED:
            yield Finding(
                "check", CHAPTER, fields,
                f"{line.outline} has no figures for this gauge and scale, so that nothing was "
                "held against it.",
                "Choose another, or give an outline of your own.", "the table of loading gauges",
            )  # fmt: skip
        return
    told = gauge.name == SCALED
    # the prototype's own outline is no structure: sizes rounded in the model are let through
    rounded = 0.005 * (prototype.height or prototype.width or 0.0) if told else _HAIR
    out = [
        one for one in margins
        if one.least < line.spare - rounded and not (told and _in_wheels(one))
    ]  # fmt: skip
    source = "the prototype's outline at scale" if told else gauge.name
    for one in out[:4]:
        part = whole.part(one.part)
        beside = one.beside <= one.above
        by = line.spare - one.least
        says = (
            f"the {one.part} stand{'' if one.part.endswith('s') else 's'} {by:.2f} mm outside the "
            + (f"loading gauge, {one.height:.1f} mm above the rail" if beside
               else "top of the loading gauge")
        )  # fmt: skip
        spare = f", {line.spare:g} mm to spare" if line.spare else ""
        yield Finding(
            "check" if told or one.least >= 0 else "stop", CHAPTER,
            (*fields, *(part.fields if part else ())),
            f"{says[0].upper()}{says[1:]} ({gauge.name}{spare}).",
            f"Make it {'narrower' if beside else 'lower'} by that, or ask what the line really "
            "clears.", source,
        )  # fmt: skip
    if not out and margins:
        least = margins[0]
        nearest = f"nearest to it is the {least.part}, {least.least:.2f} mm inside"
        if least.least < 0:
            nearest = (
                f"the {least.part} is {-least.least:.2f} mm over it, no more than the gauge's own "
                "figures are rounded or than wheels and their rods may be"
            )
        yield Finding(
            "fine", CHAPTER, fields,
            f"All stands inside the loading gauge ({gauge.name}); {nearest}.", source=source,
        )  # fmt: skip


def _in_wheels(one: Margin) -> bool:
    return any(word in one.part for word in _TOLD)


def of_rail(low: tuple[Low, ...], wanted: float, rise: float) -> Iterator[Finding]:
    """Yield what comes too near the rail."""
    for one in low[:3]:
        if one.over >= wanted - _HAIR:
            break
        down = f", {rise:.2f} mm down on its springs" if one.sinks and rise else ""
        over = (
            f"{one.over:.2f} mm over the rail" if one.over > 0
            else f"{-one.over:.2f} mm into the rail"
        )  # fmt: skip
        yield Finding(
            "check" if one.over > 0 else "stop", CHAPTER, ("clearance.surroundings.over_rail",),
            f"The {one.part} come {over}{down}; {wanted:.2f} mm are wanted.",
            f"Raise or shorten it by {wanted - one.over:.2f} mm.", COMMON,
        )  # fmt: skip


def of_platform(
    gauging: Gauging,
    platform: tuple[float, float] | None,
    reach: tuple[str, float] | None,
    shift: float,
) -> Iterator[Finding]:
    """Yield whether the engine passes a platform on straight track."""
    line = gauging.line
    fields = ("gauging.line.platform", "gauging.line.platform_edge", "gauging.line.platform_height")
    if platform is None or reach is None:
        if line.platform != NONE:
            yield Finding(
                "check", CHAPTER, fields,
                "Height and edge of the platform are not known for this gauge and scale, so that "
                "nothing was held against it.",
                "Give both of your own.", "the table of platforms",
            )  # fmt: skip
        return
    (height, edge), (part, out) = platform, reach
    says = (
        f"Below the platform's {height:.1f} mm the {part} reach {out:.2f} mm out, {shift:.2f} mm "
        f"of that by play on the track; its edge stands at {edge:.2f} mm"
    )
    source = "own figures" if line.platform == OWN else line.platform
    if out > edge:
        yield Finding(
            "stop", CHAPTER, fields, f"{says}: {out - edge:.2f} mm too near.",
            f"A platform edge {out:.1f} mm from the track's middle, or a narrower engine there.",
            source,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"{says}: {edge - out:.2f} mm clear on straight track.", source=source,
        )  # fmt: skip


def of_couplings(gauging: Gauging, compared: tuple[Compared, ...]) -> Iterator[Finding]:
    """Yield how buffers and couplings meet those of the other stock."""
    if gauging.line.couplings == NONE:
        return
    if not compared:
        yield Finding(
            "check", CHAPTER, ("gauging.line.couplings",),
            f"{gauging.line.couplings} has no figures for this gauge and scale.",
            "Choose another, or none.", "the table of couplings",
        )  # fmt: skip
    for one in compared:
        standard = one.standard
        limits = (
            f"{standard.low:.2f} to {standard.high:.2f} mm" if standard.high > standard.low
            else f"{standard.value:.2f} mm"
        )  # fmt: skip
        # a height is never worked closer than this, and the springs give more
        off = one.off if abs(one.off) > 0.005 * standard.value else 0.0
        if off:
            value = standard.high if off > 0 else standard.low
            yield Finding(
                "check", CHAPTER, (one.field, "gauging.line.couplings"),
                f"{one.what.capitalize()}: {one.has:.2f} mm, {abs(off):.2f} mm "
                f"{'more' if off > 0 else 'less'} than {standard.name} has it ({limits}).",
                f"{value:.2f} mm meets it.", standard.name, (one.field, round(value, 2)),
            )  # fmt: skip
        else:
            yield Finding(
                "fine", CHAPTER, (one.field, "gauging.line.couplings"),
                f"{one.what.capitalize()}: {one.has:.2f} mm, as {standard.name} has it ({limits}).",
                source=standard.name,
            )  # fmt: skip
