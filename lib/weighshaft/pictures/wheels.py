"""Plan across the engine, the row along the axle, the engine on its curve, and the tables."""

from __future__ import annotations

from ..motion.frame import Crank
from ..wheels import InsideCylinders, OutsideCylinders, Wheels, WheelsResult
from .scene import (
    Dimension,
    Fill,
    Label,
    Path,
    Pen,
    Picture,
    Point,
    Primitive,
    Scene,
    Table,
    box,
)
from .wheels_axle import row_along_axle
from .wheels_crankpin import at_the_crankpin
from .wheels_curve import on_curve

BOSS_SHARE = 0.9
"""Radius of a wheel boss over the axle's diameter where the design says nothing."""


def pictures(wheels: Wheels, result: WheelsResult) -> tuple[Picture, ...]:
    """Return half plan, crankpin enlarged, row along the axle, curve, and the tables."""
    return (
        half_plan(wheels, result),
        at_the_crankpin(wheels, result),
        row_along_axle(wheels, result),
        on_curve(wheels, result),
        standard_table(wheels, result),
        across_table(result),
        stack_table(result),
        loads_table(result),
    )


def half_plan(wheels: Wheels, result: WheelsResult) -> Scene:
    """Return the right-hand half of the engine from above, to scale.

    Ahead is to the right, the engine's centre line along y = 0, the driven axle at x = 0;
    the right-hand cranks stand at the top quarter.
    """
    still: list[Primitive] = []
    reach = wheels.driving_diameter / 2 + result.flange_depth
    rear, front = result.positions[-1] - reach, result.positions[0] + reach
    still += _frames(wheels, rear, front)
    for ahead in result.positions:
        still += _wheel(wheels, result, ahead)
    still += _rods(wheels, result)
    if isinstance(wheels.cylinders, OutsideCylinders):
        made, end = _outside(wheels, wheels.cylinders, result)
    else:
        made, end = _inside(wheels, wheels.cylinders, result)
    still += made
    front = max(front, end)
    still += _limits(result, rear, front)
    still.append(Path(box(rear - 4, 0, front + 4, 0)[:2], "centre", part="centre line"))
    still += _labels(wheels, result, rear, front)
    return Scene("Half plan across the engine", _says(wheels, result), tuple(still))


def _across(
    x0: float,
    x1: float,
    z0: float,
    z1: float,
    part: str,
    pen: Pen = "outline",
    fill: Fill = "paper",
) -> Path:
    """Return a rectangle between two distances from the centre line, the right-hand side."""
    return Path(box(x0, -z1, x1, -z0), pen, True, fill, part)


def _frames(wheels: Wheels, rear: float, front: float) -> list[Primitive]:
    inner = wheels.between.frame_spacing / 2
    outer = inner + wheels.between.frame_thickness
    return [_across(rear, front, inner, outer, "frame", fill="metal")]


def _wheel(wheels: Wheels, result: WheelsResult, ahead: float) -> list[Primitive]:
    radius, back = wheels.driving_diameter / 2, result.back_to_back / 2
    boss = BOSS_SHARE * wheels.axle_diameter
    outside = result.wheel_face + wheels.across.boss_outside
    inside = back - wheels.between.boss_inside
    half = wheels.axle_diameter / 2
    pin = wheels.across.crankpin / 2
    flange = radius + result.flange_depth
    box_in = wheels.between.frame_spacing / 2 - wheels.between.axlebox_inside
    box_out = (
        wheels.between.frame_spacing / 2
        + wheels.between.frame_thickness
        + wheels.between.axlebox_outside
    )
    return [
        _across(ahead - half, ahead + half, 0, inside, "axle", "thin"),
        _across(
            ahead - 2.2 * half, ahead + 2.2 * half, box_in, box_out, "axlebox", "thin", "metal"
        ),
        _across(
            ahead - flange, ahead + flange, back, back + result.flange_thickness, "flange", "thin"
        ),
        _across(ahead - radius, ahead + radius, back, result.wheel_face, "tyre"),
        _across(
            ahead - boss,
            ahead + boss,
            inside,
            max(outside, result.wheel_face),
            "wheel boss",
            "thin",
            "none",
        ),
        _across(ahead - pin, ahead + pin, outside, result.rod_outside, "crankpin", "thin"),
        Path(box(ahead, 4, ahead, -result.pin_outside - 3)[1:3], "centre", part="axle"),
    ]


def _rods(wheels: Wheels, result: WheelsResult) -> list[Primitive]:
    eye = wheels.across.crankpin
    rod_in = result.rod_outside - wheels.across.coupling_rod
    ends = (result.positions[-1] - eye, result.positions[0] + eye)
    made: list[Primitive] = [
        _across(*ends, rod_in, result.rod_outside, "coupling rod", fill="metal")
    ]
    for ahead in result.positions:
        if wheels.across.pin_cap and ahead != 0:
            made.append(
                _across(
                    ahead - 0.7 * eye, ahead + 0.7 * eye, result.rod_outside, result.pin_outside,
                    "crankpin cap", fill="metal",
                )
            )  # fmt: skip
    return made


def _gudgeon(result: WheelsResult) -> float | None:
    """Return where the gudgeon pin stands with the crank at the top quarter, mm ahead."""
    rod = result.connecting_rod
    if rod is None or rod <= result.crank_throw:
        return None
    return float(Crank(2 * result.crank_throw, rod).gudgeon(-90.0))


def _outside(
    wheels: Wheels, cylinders: OutsideCylinders, result: WheelsResult
) -> tuple[list[Primitive], float]:
    """Return rods, crosshead, bars and cylinder, and how far ahead they reach."""
    middle, (before, behind) = cylinders.centres / 2, result.crosshead
    at = _gudgeon(result)
    fore = [x for x in result.positions if x > 0]
    # with the rod unknown the crosshead is put abreast of the first crankpin ahead
    x = at if at is not None else (min(fore) if fore else 5 * result.crank_throw)
    rod_in, rod_out = middle - cylinders.big_end / 2, middle + cylinders.big_end / 2
    head_in, head_out = (
        middle - cylinders.crosshead_width / 2,
        middle + cylinders.crosshead_width / 2,
    )
    fouls = result.pin_clearance is not None and result.pin_clearance <= 0
    throw, pin = result.crank_throw, cylinders.crankpin
    bars = (x - throw - behind, x + throw + before)
    back = bars[1] + before if result.cylinder_back is None else result.cylinder_back
    cylinder = (back, back + 2 * throw + result.bore / 2)
    made: list[Primitive] = [
        _across(-pin / 2, pin / 2, result.rod_outside, rod_in, "driving crankpin", "thin"),
        _across(-0.9 * pin, x, rod_in, rod_out, "connecting rod", fill="metal"),
        _across(*bars, head_in, head_out, "slide bars", "behind", "none"),
        _across(x - behind, x + before, head_in, head_out, "crosshead",
                "stop" if fouls else "outline", "metal"),
        _across(*cylinder, middle - cylinders.over_covers, middle + cylinders.over_covers,
                "cylinder", "behind"),
        Path(box(-3, -middle, cylinder[1] + 3, -middle)[:2], "centre", part="cylinder"),
    ]  # fmt: skip
    if cylinders.return_crank:
        made.append(_across(-0.9 * pin, 0.9 * pin, rod_out, rod_out + cylinders.return_crank,
                            "return crank"))  # fmt: skip
    made += _clearance(wheels, result, head_in, fouls)
    return made, cylinder[1]


def _clearance(wheels: Wheels, result: WheelsResult, head: float, fouls: bool) -> list[Primitive]:
    """Return the axle's side play beyond the pin, dashed, and the clearance that is left."""
    if result.pin_clearance is None:
        return []
    made: list[Primitive] = []
    for ahead, play in zip(result.positions, wheels.plays, strict=True):
        if ahead <= 0:
            continue
        half, slid = 0.7 * wheels.across.crankpin, result.pin_outside + play
        made.append(
            _across(ahead - half, ahead + half, result.pin_outside, slid, "crankpin cap",
                    "stop" if fouls else "hidden", "none")
        )  # fmt: skip
        if head - slid == result.pin_clearance or abs(head - slid - result.pin_clearance) < 1e-9:
            x = ahead + half + 1.5
            made.append(Dimension((x, -slid), (x, -head), f"{result.pin_clearance:.2f} clear", 0.0))
    return made


def _inside(
    wheels: Wheels, cylinders: InsideCylinders, result: WheelsResult
) -> tuple[list[Primitive], float]:
    """Return the right-hand crank, its rod and the bore, and how far ahead they reach."""
    middle, half = cylinders.centres / 2, cylinders.pin_length / 2
    breadth, pin = cylinders.web_breadth / 2, cylinders.crankpin / 2
    big = cylinders.big_end / 2
    made: list[Primitive] = []
    for inner in (middle - half - cylinders.web, middle + half):
        made.append(_across(-breadth, breadth, inner, inner + cylinders.web, "crank web",
                            fill="metal"))  # fmt: skip
    made.append(_across(-pin, pin, middle - half, middle + half, "inside crankpin", "thin"))
    at = _gudgeon(result)
    x = at if at is not None else 5 * result.crank_throw
    cylinder = result.cylinder_back or x + 2 * result.crank_throw + result.bore / 2
    end = cylinder + 2 * result.crank_throw + result.bore / 2
    made += [
        _across(-1.3 * breadth, x, middle - big, middle + big, "connecting rod", fill="metal"),
        _across(
            cylinder, end, middle - result.bore / 2, middle + result.bore / 2, "bore", "behind"
        ),
        Path(box(-breadth - 3, -middle, end + 3, -middle)[:2], "centre", part="cylinder"),
    ]
    row = [part for part in result.stack if part.kind == "sheave"]
    radius = (result.sheave or 1.6 * wheels.axle_diameter) / 2
    for part in row:
        start, stop = (abs(z - result.back_to_back / 2) for z in (part.start, part.end))
        if part.start >= result.back_to_back / 2 - 1e-9:
            made.append(_across(-radius, radius, start, stop, "eccentric sheave"))
    return made, end


def _limits(result: WheelsResult, rear: float, front: float) -> list[Primitive]:
    if result.width_limit is None:
        return []
    out = -result.width_limit / 2
    wide = result.width > result.width_limit
    return [
        Path(box(rear, out, front, out)[:2], "stop" if wide else "hidden", part="width allowed"),
        Label("width allowed", (rear + 0.25 * (front - rear), out - 0.7 * _row(rear, front))),
    ]


def _row(rear: float, front: float) -> float:
    """Return the height of a line of lettering beside a plan of this length, mm of the model."""
    return 0.032 * (front - rear)


def _labels(wheels: Wheels, result: WheelsResult, rear: float, front: float) -> list[Primitive]:
    """Return the names with their leaders: the wheel's parts behind, the cylinder's ahead."""
    last = result.positions[-1]
    rod = result.rod_outside - wheels.across.coupling_rod / 2
    radius = wheels.driving_diameter / 2
    inner = wheels.between.frame_spacing / 2
    behind: list[tuple[str, Point]] = [
        ("axle", (last - wheels.axle_diameter / 4, -inner / 2)),
        ("frame", (rear + 1, -inner - wheels.between.frame_thickness / 2)),
        ("tyre", (last - 0.8 * radius, -(result.back_to_back / 2 + result.tyre_width * 0.6))),
        ("coupling rod", (last - wheels.across.crankpin * 0.8, -rod)),
    ]
    if wheels.across.pin_cap and last != 0:
        cap = result.rod_outside + wheels.across.pin_cap / 2
        behind.append(("crankpin cap", (last, -cap)))
    ahead: list[tuple[str, Point]] = []
    x = _gudgeon(result) or 0.0
    middle = wheels.cylinders.centres / 2
    if isinstance(wheels.cylinders, OutsideCylinders):
        wide = wheels.cylinders.crosshead_width / 2
        ahead.append(
            (
                "crosshead, slide bars in grey",
                (x + 0.8 * result.crosshead[0], -middle - 0.8 * wide),
            )
        )
        ahead.append(("connecting rod", (x * 0.4, -middle - wheels.cylinders.big_end / 4)))
    else:
        web = middle + (wheels.cylinders.pin_length + wheels.cylinders.web) / 2
        ahead.append(("connecting rod", (x * 0.8, -middle)))
        ahead.append(("crank web", (wheels.cylinders.web_breadth / 3, -web)))
    made: list[Primitive] = []
    row = _row(rear, front)
    for n, (text, at) in enumerate(behind):
        made.append(Label(text, (rear - 1.4 * row, -row * (n + 0.3)), "end", at))
    below = -max(result.width, result.width_limit or 0.0) / 2 - 1.3 * row
    for n, (text, at) in enumerate(ahead):
        made.append(Label(text, (front - row, below - row * n), "end", at))
    made.append(Dimension((rear - 3, 0), (rear - 3, -result.back_to_back / 2), "", 0))
    made.append(Dimension((front + 3, 0), (front + 3, -middle), "", 0))
    return made


def _says(wheels: Wheels, result: WheelsResult) -> str:
    words = [
        f"Right-hand half of the engine from above: wheels {result.back_to_back:.2f} mm back to "
        f"back, tyre faces {result.wheel_face:.2f} and coupling rods {result.rod_outside:.2f} mm "
        f"from the centre line, cylinders {wheels.cylinders.centres:.2f} mm apart, "
        f"{result.width:.1f} mm wide in all."
    ]
    if result.pin_clearance is not None:
        if result.pin_clearance > 0:
            words.append(f"The crankpin clears the crosshead by {result.pin_clearance:.2f} mm.")
        else:
            words.append(f"The crankpin fouls the crosshead by {-result.pin_clearance:.2f} mm.")
    return " ".join(words)


def standard_table(wheels: Wheels, result: WheelsResult) -> Table:
    """Return the standard against ours."""
    rows = tuple(
        (
            line.word,
            line.ours,
            line.standard if line.standard is not None else "–",
            line.qualifier,
            _between(line.low, line.high),
            "yes" if line.fits else "no",
        )
        for line in result.lines
    )
    return Table(
        "Tread and flange against the standard",
        ("", "ours", "standard", "printed as", "allowed, mm", "fits"),
        rows,
        note=f"{wheels.standard}; where it prints nothing, see the suggestions for the source.",
    )


def _between(low: float | None, high: float | None) -> str:
    if low is None and high is None:
        return "–"
    if low is None:
        return f"up to {high:.2f}"
    if high is None:
        return f"from {low:.2f}"
    return f"{low:.2f} to {high:.2f}"


def across_table(result: WheelsResult) -> Table:
    """Return the chain outwards from the engine's centre line."""
    rows = tuple((part.name, part.start, part.end, part.width) for part in result.across)
    return Table("Across the engine, from its centre line", ("", "from", "to", "width"), rows)


def stack_table(result: WheelsResult) -> Table:
    """Return the row along the driven axle, line by line, closing at the back to back."""
    rows = tuple((part.name, part.width, part.end) for part in result.stack)
    return Table(
        "Along the driven axle, wheel to wheel",
        ("", "width", "sum"),
        (*rows, ("back to back", result.back_to_back, result.back_to_back)),
    )


def loads_table(result: WheelsResult) -> Table:
    """Return pressures, stresses and torques."""
    rows = (
        ("Journals", f"{result.journal_pressure:.1f}", "N/mm²"),
        ("Driving crankpin", f"{result.driving_pin_pressure:.1f}", "N/mm²"),
        ("Coupled crankpins", f"{result.coupled_pin_pressure:.1f}", "N/mm²"),
        ("Axle in bending", f"{result.bending:.0f}", "N/mm²"),
        ("Axle in twist", f"{result.twist:.0f}", "N/mm²"),
        ("Both together", f"{result.axle_stress:.0f}", "N/mm²"),
        ("Wheel seat must carry", f"{result.seat_torque / 1000:.2f}", "N m"),
        ("Wheels of one side slip at", f"{result.grip_torque / 1000:.2f}", "N m"),
        ("Wheel seat carries", f"{result.seat_carries / 1000:.2f}", "N m"),
    )
    note = f"The seat is limited by {result.seat_fit.limits_by}."
    return Table("Pressures, stresses and torques", ("", "figure", "unit"), rows, note)
