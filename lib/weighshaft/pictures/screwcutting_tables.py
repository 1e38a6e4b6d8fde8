"""Tables of the chapter: trains, cuts, order of work, circles, rotary table, speeds."""

from __future__ import annotations

from fractions import Fraction

from ..workshop.dials import angle_text
from ..workshop.screwcutting import ScrewcuttingResult
from ..workshop.screwcutting.starts import teeth_between
from ..workshop.screwcutting.trains import Train
from .scene import Table, parted

_DECIMALS = 5


def _named(text: str) -> str:
    """Return the name of a size in mm so that no change of the page's unit touches it."""
    return text.replace(" mm", "\u202fmm")


def trains(result: ScrewcuttingResult) -> tuple[Table, Table]:
    """Return the best few trains, the exact ones first, then those with one wheel more."""
    several = len(result.starts.each) > 1
    listed = [(str(n + 1), one) for n, one in enumerate(result.trains.best)]
    listed += [(f"with {teeth}", one) for teeth, one in result.helpers]
    rows = tuple(_train(name, one, result) for name, one in listed)
    what = "lead" if several else "pitch"
    columns = (
        "no.", "drivers / driven", f"{what}, mm",
        "turns an inch" if several else "threads an inch", "error", "in an inch", "between",
        "teeth to spare", "reach",
    )  # fmt: skip
    whole = Table(
        f"Trains for {'a lead of ' if several else ''}{result.lead:.{_DECIMALS}f} mm",
        (*columns, "teeth a start") if several else columns, rows,
        "Drivers over driven from the spindle's side. Rows “with” need a wheel that is not owned. "
        "Teeth to spare: what the tightest wheel passes the next stud with. Reach: how far first "
        "stud and leadscrew can stand apart. Isolate the lathe before a hand goes near the wheels.",
    )  # fmt: skip
    return parted(whole, 2, 6, "The same on their studs")


def _train(name: str, one: Train, result: ScrewcuttingResult) -> tuple[str, ...]:
    single = len(one.pairs) == 1
    idler = "–" if not single or name.startswith("with") else str(one.idler or "any")
    row = (
        name, one.text, f"{one.pitch:.{_DECIMALS}f}", f"{25.4 / one.pitch:.4f}",
        "exact" if one.exact else f"{100 * one.error:+.4f} %",
        "0" if one.exact else f"{1000 * 25.4 * one.error:+.1f} µm",
        idler, "–" if one.spare is None else f"{one.spare:.0f}",
        "–" if one.reach is None else f"{one.reach:.1f} mm",
    )  # fmt: skip
    number = len(result.starts.each)
    return (*row, _teeth(teeth_between(one, number, result.stud_turns))) if number > 1 else row


def _teeth(teeth: Fraction) -> str:
    return str(teeth) if teeth.denominator == 1 else f"{float(teeth):.2f}: no whole tooth"


def cuts(result: ScrewcuttingResult) -> Table:
    """Return the cuts with the dial that feeds."""
    rows: list[tuple[str | float, ...]] = [
        (
            str(n + 1) if cut.added else "again", cut.depth, cut.added, cut.slide, cut.dial,
            "" if cut.added else "without in-feed",
        )
        for n, cut in enumerate(result.fed.cuts)
    ]  # fmt: skip
    slide = f"top slide at {result.set_over:.1f}°" if result.set_over else "cross-slide"
    point = (
        "a point ground sharp" if result.fed.point == 0
        else f"a point with a {result.fed.point_is} of {result.fed.point:.3f} mm"
    )  # fmt: skip
    return Table(
        f"Cuts of {result.designation} by the {slide}",
        ("cut", "depth", "more by", "slide", "dial", "heed"), tuple(rows),
        f"For {point}. Dial: whole turns from zero (t) and divisions, {result.feed_dial.says}; "
        "zero where the tool touches the work.",
        fine=True,
    )  # fmt: skip


def steps(result: ScrewcuttingResult, *, outside: bool) -> Table:
    """Return the order of work for a screw, or for a nut."""
    chosen = result.outside if outside else result.inside
    rows: list[tuple[str | float, ...]] = [
        (str(n + 1), _named(one.what), "–" if one.size is None else one.size, one.heed)
        for n, one in enumerate(chosen)
    ]
    kind = "outside: tool or die" if outside else "inside: taps or tool"
    return Table(
        f"{result.designation}, {kind}", ("step", "what", "size", "heed"), tuple(rows),
        "Key out of the chuck, hands and rags away from a thread that turns. Order of die and taps "
        "is common practice.", fine=True,
    )  # fmt: skip


def starts(result: ScrewcuttingResult) -> Table:
    """Return how the work is moved on from start to start: by tooth, by slide, by nut."""
    rows: list[tuple[str | float, ...]] = []
    for one in result.starts.each:
        teeth = "–" if one.teeth is None else _teeth(one.teeth)
        rows.append((str(one.number), angle_text(one.angle), teeth, one.slide, one.dial))
    nut = ""
    if result.starts.by_nut is not None:
        every, further = result.starts.by_nut
        nut = (
            f" Or open the nut and close it {every} threads of the leadscrew further: the tool is "
            f"then {further} start{'s' if further > 1 else ''} on."
        )
    return Table(
        f"Starts of {result.designation}, lead {result.lead:.4f} mm",
        ("start", "spindle", "teeth of the first wheel", "or top slide", "its dial"), tuple(rows),
        "From the first start. By tooth: nut closed, lathe isolated, chalk the tooth in mesh, "
        "drop the quadrant and turn the spindle by hand until the tooth counted comes. By slide: "
        "set along the lathe, play taken up the same way, and fed by the cross-slide." + nut,
        fine=True,
    )  # fmt: skip


def circles(result: ScrewcuttingResult) -> Table:
    """Return every way of dividing: circles, two circles, nearest holes, a wheel on the mandrel."""
    ways = result.indexed
    rows: list[tuple[str | float, ...]] = [
        ("one circle", f"{one.turns} turns and {one.holes} holes of {one.circle}", "exact")
        for one in ways.circles
    ]
    for two in ways.compound:
        way = "and" if two.back >= 0 else "less"
        off = "exact" if two.exact else f"last gap {60 * abs(two.last):.2f}′ out"
        rows.append(
            (
                "two circles, pin and plate",
                f"{two.turns} turns, {two.holes} holes of {two.first} {way} {abs(two.back)} of "
                f"{two.second}", off,
            )
        )  # fmt: skip
    for by_gear in result.geared:
        turns = "with" if by_gear.plate > 0 else "against"
        between = f", {by_gear.between} between" if by_gear.between else ""
        rows.append(
            (
                "one circle, plate geared",
                f"{by_gear.handle}; {by_gear.wheels} from spindle to plate{between}, plate turns "
                f"{turns} the handle", "exact",
            )
        )  # fmt: skip
    if ways.nearest is not None:
        first = ", ".join(f"{t} t {h}" for t, h in ways.nearest.places[:6])
        rows.append(
            (
                f"nearest holes of {ways.nearest.circle}", f"{first} …",
                f"each within {60 * ways.nearest.error:.2f}′",
            )
        )  # fmt: skip
    for one in result.direct:
        rows.append(
            ("wheel on the mandrel", f"{one.wheel} teeth, every {one.step}", "as the wheel is cut")
        )
    angle = result.angle
    rows.append(
        (
            f"angle {angle_text(angle.angle)}",
            f"{angle.turns} turns and {angle.holes} holes of {angle.circle}; rotary table "
            f"{angle.table}", f"{60 * angle.error:+.2f}′; table {60 * angle.table_error:+.2f}′",
        )
    )  # fmt: skip
    gear = result.gear
    cutter = "a fly cutter" if gear.cutter is None else f"cutter no. {gear.cutter}"
    return Table(
        f"{result.divisions} divisions on the dividing head",
        ("way", "handle", "error"), tuple(rows),
        f"Two circles: both on one plate, the plate turned with its own pin. Plate geared: its "
        f"stop pin out. A gear wheel of "
        f"{gear.teeth} teeth, module {gear.module:g}: blank {gear.outside:.2f} mm, teeth "
        f"{gear.depth:.2f} mm deep, {cutter}.",
    )  # fmt: skip


def rotary(result: ScrewcuttingResult) -> Table:
    """Return the rotary table's readings for every division."""
    rows: list[tuple[str | float, ...]] = [
        (str(n), angle_text(angle), dial) for n, angle, dial in result.table_places
    ]
    return Table(
        f"{result.divisions} divisions on the rotary table", ("division", "angle", "handle"),
        tuple(rows),
        f"Whole turns from zero (t) and divisions; read to a tenth of a division they are within "
        f"{60 * result.table_error:.2f} minutes of arc.",
    )  # fmt: skip


def speeds(result: ScrewcuttingResult) -> Table:
    """Return the speeds of every operation."""

    def turns(one: float | None) -> str:
        return "–" if one is None else f"{one:.0f}"

    def span(low: float, high: float) -> str:
        return f"{high:.0f}" if round(low) == round(high) else f"{low:.0f} to {high:.0f}"

    rows: list[tuple[str | float, ...]] = [
        (
            "thread, single point" if one.operation == "threading" else one.operation, one.tool,
            span(one.low, one.high), span(one.slowest, one.fastest),
            turns(one.lathe), turns(one.mill), one.note,
        )
        for one in result.speeds
    ]  # fmt: skip
    return Table(
        f"Speeds in {result.material}",
        ("operation", "tool", "m/min", "rev/min", "lathe", "mill", "note"), tuple(rows),
        f"For {result.diameter:.2f} mm; the machine's next speed below the upper end. Published "
        "ranges; a small machine without much stiffness takes the lower end.",
    )  # fmt: skip
