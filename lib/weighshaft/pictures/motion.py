"""The valve gear moving, the port face under its valve, valve against piston, and events."""

from __future__ import annotations

import numpy as np

from ..motion import AnyGear, EndEvents, Event, ValveMotion
from ..motion.chapter import FRAMES, MotionResult
from ..motion.kernel import Part
from ..motion.oscillating import Oscillating
from . import motion_trunnion
from .motion_charts import openings, polar, valve_against_piston
from .scene import (
    Array,
    Circle,
    Label,
    Moving,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
)

_CHANGED = ("die", "valve")


def pictures(motion: ValveMotion, result: MotionResult) -> tuple[Picture, ...]:
    """Return the moving gear, valve against piston, ports open, port face, events and diagrams."""
    if result.trunnion is not None and isinstance(motion.gear, Oscillating):
        drawn = motion_trunnion.pictures(motion.gear, result.trunnion)
        charts = (valve_against_piston(motion, result), event_table(result))
        return (drawn[0], *charts, *drawn[1:])
    made: list[Picture] = [
        gear_drawing(motion, result),
        valve_against_piston(motion, result),
        openings(motion, result),
        event_table(result),
    ]
    if result.face is not None:
        made.append(face_drawing(motion, result))
    made += polar(motion, result)
    if result.forces:
        made.append(_forces(result))
    return tuple(made)


def gear_drawing(motion: ValveMotion, result: MotionResult) -> Scene:
    """Return the gear to scale in the notch looked at, following the crank."""
    points = {name: _whole(point) for name, point in result.shown.points.items()}
    crank = result.crank
    still: list[Primitive] = [
        *centre_lines(points, crank.throw),
        Circle((0.0, 0.0), crank.throw, "centre"),
        Circle((0.0, 0.0), 0.22 * crank.throw, "outline", "metal", "axle"),
    ]
    moving: list[Moving] = []
    for part in sorted(motion.gear.parts, key=lambda part: not part.behind):
        if all(joint in points for joint in part.joints):
            moving += draw_part(part, points, motion.gear, crank.throw, result.die_reach)
    axle = np.zeros_like(points["crank_pin"])
    rod = np.stack([points["crank_pin"], points["gudgeon"]], axis=1)
    moving += [
        Moving(rod, pen="behind", part="connecting rod"),
        _pin(points["gudgeon"], 0.09 * crank.throw, "gudgeon pin"),
        Moving(np.stack([axle, points["crank_pin"]], axis=1), pen="crank", part="crank"),
        Moving(
            points["crank_pin"][:, None], "circle", "crank", "paper", 0.1 * crank.throw, "crank"
        ),
    ]
    trace = points["die"] if "die" in points else points["valve"]
    still.append(Path(trace, "trace", closed=True, part="path of the die"))
    still += _names(motion, points)
    notch = result.running.reverser
    words = "cut-off does not occur" if result.cutoff_running is None else (
        f"cut-off {result.cutoff_running:.0f} % of the stroke"
    )  # fmt: skip
    return Scene(
        f"{motion.gear.title}, reverser at {notch:+.2f}",
        f"{motion.gear.title} seen from the right-hand side, cylinder to the right, to scale; the "
        f"valve travels {result.running.travel:.2f} mm in this notch, {words}.",
        tuple(still), tuple(moving), FRAMES,
    )  # fmt: skip


def _whole(point: Array) -> Array:
    return np.array(np.broadcast_to(point, (len(FRAMES), 2)))


def centre_lines(points: dict[str, Array], throw: float) -> list[Primitive]:
    """Return the centre lines of axle, cylinder and valve spindle."""
    ahead = float(max(point[:, 0].max() for point in points.values())) + throw
    height = float(points["gudgeon"][0, 1])
    cross = np.array([[0.0, -1.5 * throw], [0.0, 1.5 * throw]])
    along = np.array([[-1.5 * throw, 0.0], [ahead, 0.0]])
    lines = [Path(along, "centre"), Path(cross, "centre")]
    if height:
        lines.append(Path(np.array([[0.0, height], [ahead, height]]), "centre"))
    valve = points["valve"]
    slope = valve.max(axis=0) - valve.min(axis=0)
    first, last = valve[valve[:, 0].argmin()], valve[valve[:, 0].argmax()]
    if slope[0] > 0:
        run = (last - first) / slope[0]
        lines.append(Path(np.array([first - throw * run, last + 1.5 * throw * run]), "centre"))
    return list(lines)


def draw_part(
    part: Part, points: dict[str, Array], gear: AnyGear, throw: float, die_reach: float | None
) -> list[Moving]:
    """Return one part of a gear through its joints (frames, 2), beside a crank of that throw.

    Parameters
    ----------
    die_reach : how far the die goes from the middle of its slot, mm, for a slot whose length is
        not decided.
    """
    pen: Pen = "behind" if part.behind else ("changed" if part.name in _CHANGED else "outline")
    through = [points[joint] for joint in part.joints]
    small = 0.07 * throw
    if part.shape == "sheave":
        centre = through[0]
        radius = 1.25 * float(np.hypot(*centre[0])) + 0.25 * throw
        arm = np.stack([np.zeros_like(centre), centre], axis=1)
        return [
            Moving(centre[:, None], "circle", pen, "none", radius, part.name),
            Moving(arm, pen="thin", part=part.name),
        ]
    if part.shape == "slot":
        length = getattr(gear, "slot_length", None) or 2.2 * (die_reach or 1.0)
        return _slot(part, through, length, throw)
    if len(through) == 1:
        return [_pin(through[0], 1.4 * small, part.name, pen)]
    line = Moving(np.stack(through, axis=1), pen=pen, part=part.name)
    return [line, *(_pin(joint, small, part.name, pen) for joint in through)]


def _pin(point: Array, radius: float, part: str, pen: Pen = "outline") -> Moving:
    return Moving(point[:, None], "circle", pen, "paper", radius, part)


def _slot(part: Part, through: list[Array], length: float, throw: float) -> list[Moving]:
    """Draw a curved link: its slot along the arc, its outline, and arms to its pins."""
    link, centre = through[0], through[1]
    out = link - centre
    radius = np.hypot(out[:, 0], out[:, 1])[:, None]
    half = length / 2
    width = 0.12 * throw
    angle = np.arctan2(out[:, 1], out[:, 0])[:, None]
    spread = np.linspace(-1, 1, 9)[None, :] * (half / radius)
    grown = np.linspace(-1, 1, 9)[None, :] * ((half + 2 * width) / radius)

    def ring(at: Array, offset: float) -> Array:
        turned = angle + at
        around: Array = centre[:, None] + (radius + offset)[..., None] * np.stack(
            [np.cos(turned), np.sin(turned)], axis=-1
        )
        return around

    def closed(at: Array, offset: float) -> Array:
        return np.concatenate([ring(at, offset), ring(at, -offset)[:, ::-1]], axis=1)

    made = [
        Moving(closed(grown, 2.2 * width), "outline", "outline", "paper", 0.0, part.name),
        Moving(closed(spread, width), "outline", "thin", "none", 0.0, part.name),
    ]
    return made + [_pin(joint, 0.07 * throw, part.name) for joint in through[2:]]


def _names(motion: ValveMotion, points: dict[str, Array]) -> list[Label]:
    """Name the parts that do not wander far: pivots and spindle."""
    throw = float(np.hypot(*points["crank_pin"][0]))
    names = (("weighshaft", "weighshaft"), ("rocker", "rocker"), ("link", "link pivot"))
    made = []
    for joint, text in names:
        if joint in points and np.ptp(points[joint], axis=0).max() < 1e-9:
            x, y = (float(v) for v in points[joint][0])
            at = (x - 0.7 * throw, y + 0.6 * throw)
            made.append(Label(text, at, "end", leader=(x, y)))
    x, y = (float(v) for v in points["valve"].mean(axis=0))
    made.append(Label("valve", (x, y + 0.45 * throw), "middle", leader=(x, y)))
    return made


def face_drawing(motion: ValveMotion, result: MotionResult) -> Scene:
    """Return the port face in section with the valve moving over it, front to the right."""
    face, valve = result.face, motion.valve
    assert face is not None
    deep, high = 1.6 * valve.port_width, 2.2 * valve.port_width
    far = face.valve_half + result.travel / 2 + 2 * valve.port_width
    edges = (
        (-far, -face.port_outer), (-face.port_inner, -face.exhaust_half),
        (face.exhaust_half, face.port_inner), (face.port_outer, far),
    )  # fmt: skip
    still: list[Primitive] = [
        Path(box(left, -deep, right, 0.0), "outline", closed=True, fill="section", part="port face")
        for left, right in edges
    ]
    middle = (face.port_inner + face.port_outer) / 2
    centre = "exhaust" if valve.admission == "outside" else "steam"
    for x, text in ((middle, "front port"), (-middle, "back port"), (0.0, centre)):
        still.append(Label(text, (x, -1.3 * deep)))
    shift = result.metal[:, None]
    half, cavity = face.valve_half, face.cavity_half
    if valve.admission == "outside":
        outline = np.array(
            [[-half, 0], [-half, high], [half, high], [half, 0], [cavity, 0],
             [cavity, 0.6 * high], [-cavity, 0.6 * high], [-cavity, 0]]
        )  # fmt: skip
        shapes = [outline]
    else:
        shapes = [box(cavity, 0.0, half, high), box(-half, 0.0, -cavity, high),
                  box(-cavity, 0.4 * high, cavity, 0.6 * high)]  # fmt: skip
    moving = tuple(
        Moving(_shifted(shape, shift), "outline", "changed", "metal", 0.0, "valve")
        for shape in shapes
    )
    left = "the steam is between the heads"
    if face.exhaust_left is not None:
        left = f"at full travel {face.exhaust_left:.2f} mm of the exhaust is left open"
    return Scene(
        "Port face and valve",
        f"Section through the port face, front to the right: ports {valve.port_width:.2f} mm wide, "
        f"valve {face.valve_length:.2f} mm long; {left}.",
        tuple(still), moving, FRAMES,
    )  # fmt: skip


def _shifted(shape: Array, shift: Array) -> Array:
    moved = np.broadcast_to(shape, (len(shift), *shape.shape)).copy()
    moved[..., 0] += shift
    return moved


def event_table(result: MotionResult) -> Table:
    """Return the events of both ends in every notch worked."""
    rows: list[tuple[str | float, ...]] = []
    for events in result.events:
        for name, end in (("front", events.front), ("back", events.back)):
            rows.append((f"{events.reverser:+.2f}", name, *event_cells(end)))
    return Table(
        "Events",
        ("reverser", "end", "admission", "cut-off", "release", "compression", "lead", "opens"),
        tuple(rows),
        "Per cent of the stroke from that end's dead centre. Compression is counted from the end "
        "that the piston approaches: 8 where some books print 92.",
    )


def event_cells(end: EndEvents) -> tuple[str | float, ...]:
    """Return admission, cut-off, release, compression, lead and opening of an end as cells."""
    events = (end.admission, end.cutoff, end.release, end.compression)
    return (*(_percent(one) for one in events), end.lead, end.port_opening)


def _percent(event: Event | None) -> str:
    return (
        "–" if event is None else f"{round(event.percent, 1) + 0.0:.1f} %"
    )  # no minus before nought


def _forces(result: MotionResult) -> Table:
    return Table(
        "Greatest forces from valve friction",
        ("part", "force"),
        tuple((one.part, f"{one.force:.1f} N") for one in result.forces),
        f"The valve takes {result.valve_force or 0:.1f} N under steam; inertia is left out.",
    )
