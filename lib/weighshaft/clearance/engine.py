"""The moving parts and what stands still, as round-ended bars between joints.

A part is a set of straight pieces, each with half a width round its line.  A sheave in its
strap is a piece without length; a curved link is its arc in eight chords, which stray from
it by less than a hundredth of the width.  All stands in the engine's frame: level along
the rail, origin at the driving axle where the axleboxes stand midway.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..motion.frame import Array, Crank, MotionLocks, Sized, point, radians
from ..motion.gears import AnyGear
from ..motion.kernel import Part, Pose
from .decisions import Clearance
from .planes import Body, Plane, Proportions, planes_of

CHORDS = 8
RISES = ("crank_pin", "return_crank", "eccentric", "forward_eccentric", "backward_eccentric")
"""Joints that stand on the driving axle and rise and fall with it."""

Edge = tuple[str, str, float]


@dataclass(frozen=True)
class Piece:
    """A part in the search for gaps.

    Parameters
    ----------
    edges : from joint to joint, with half the width round that line, mm.
    joints : by which it is joined to others; parts that share one are not checked.
    inner, outer : across the engine, mm from the centre line.
    rides : whether the axle carries it sideways, so that it takes the side play.
    slack : by how much half its width might be less, where that is only the usual one, mm.
    """

    name: str
    edges: tuple[Edge, ...]
    joints: frozenset[str]
    inner: float
    outer: float
    rides: bool
    moves: bool = True
    slack: float = 0.0

    @property
    def wanders(self) -> bool:
        """Whether it moves from its place; axles, wheels and shafts only turn or rise."""
        return self.moves and "shaft" not in self.name


@dataclass(frozen=True)
class Engine:
    """One side of an engine: what moves, what stands still, and where its joints are.

    Parameters
    ----------
    axles : x of the coupled axles from the driving one, mm, positive ahead.
    crosshead : how far it reaches ahead of and behind the gudgeon pin, mm; None if unknown.
    inclination : of the cylinder, degrees, its front end up.
    rise : of the axleboxes each way, mm.
    spindle : length of the valve spindle ahead of its pin, mm.
    slot : half the length of the link's slot along its arc, mm.
    """

    gear: AnyGear
    crank: Crank
    axles: tuple[float, ...]
    crosshead: tuple[float, float] | None
    inclination: float
    rise: float
    spindle: Sized
    slot: Sized
    pieces: tuple[Piece, ...]

    def joints(self, theta: Array, reverser: Array, state: Array) -> dict[str, Array]:
        """Return every joint (r, n, 2) in the engine's frame.

        Parameters
        ----------
        theta : (r, n) or (1, n) degrees.
        reverser : (r, 1).
        state : (r, 1): -1, 0, +1 for axleboxes at the bottom, midway and at the top.

        Raises
        ------
        MotionLocks : where the gear cannot be assembled.
        """
        pose = self.gear.pose(self.crank, theta, reverser)
        shape = np.broadcast_shapes(theta.shape, reverser.shape)
        for joint, margin in pose.margins.items():
            bad = ~(np.broadcast_to(margin, shape) > 0)
            if bad.any():
                row, column = (int(i) for i in np.argwhere(bad)[0])
                angle = float(np.broadcast_to(theta, shape)[row, column])
                raise MotionLocks(joint, angle, float(reverser[row, 0]))
        return self.placed(pose, shape, state)

    def placed(self, pose: Pose, shape: tuple[int, ...], state: Array) -> dict[str, Array]:
        """Return every joint (*shape, 2) of a pose in the engine's frame.

        Rods whose one end rises with the axle are swung about their other end; that the
        gear itself moves a little is left out, being of the second order.

        Parameters
        ----------
        shape : of the poses; with rows of candidates these have an axis of their own.
        state : as in `joints`, against that shape.
        """
        tilt = math.radians(self.inclination)
        turn = np.array([[math.cos(tilt), math.sin(tilt)], [-math.sin(tilt), math.cos(tilt)]])
        up = np.array([0.0, self.rise]) * state[..., None]

        def level(place: Array) -> Array:
            turned: Array = np.broadcast_to(place @ turn if tilt else place, (*shape, 2))
            return turned

        made = {name: level(place) for name, place in pose.points.items()}
        for name in RISES:
            if name in made:
                made[name] = made[name] + up
        still = np.zeros((*shape, 2))
        made["axle"] = still + up
        for n, x in enumerate(self.axles):
            if x:
                low = still + np.array([x, -self.rise])
                made[f"axle {n} low"] = low
                made[f"axle {n} high"] = low + np.array([0.0, 2 * self.rise])
        for name, x in (("rod front", max(self.axles)), ("rod back", min(self.axles))):
            made[name] = made["crank_pin"] + np.array([x, 0.0])
        along = turn[0]
        if self.crosshead is not None:
            ahead, behind = self.crosshead
            made["crosshead front"] = made["gudgeon"] + ahead * along
            made["crosshead back"] = made["gudgeon"] - behind * along
        angle = radians(getattr(self.gear, "valve_angle", 0.0)) + tilt
        reach = point(np.cos(angle), np.sin(angle)) * np.asarray(self.spindle)[..., None]
        made["spindle end"] = made["valve"] + reach
        for part in self.gear.parts:
            if part.shape == "slot" and all(joint in made for joint in part.joints):
                _add_slot(part, made, self.slot)
        return made

    def arrays(self, joints: dict[str, Array]) -> tuple[Array, Array]:
        """Return the starts and ends (edges, r, n, 2) of all edges in the pieces' order."""
        edges = [edge for piece in self.pieces for edge in piece.edges]
        starts = np.stack([joints[one] for one, _, _ in edges])
        ends = np.stack([joints[other] for _, other, _ in edges])
        return starts, ends


def _add_slot(part: Part, made: dict[str, Array], half: Sized) -> None:
    """Add the arc of a slot in chords, and where the lugs of its pins meet it."""
    middle, centre = made[part.joints[0]], made[part.joints[1]]
    out = middle - centre
    radius = np.hypot(out[..., 0], out[..., 1])
    angle = np.arctan2(out[..., 1], out[..., 0])
    spread = half / radius

    def on_arc(turn: Array, radius: Array) -> Array:
        there: Array = centre + radius[..., None] * point(
            np.cos(angle + turn), np.sin(angle + turn)
        )
        return there

    # chords on a radius a little larger stray from the arc to both sides alike
    larger = radius * (1 + (spread / CHORDS) ** 2 / 4)
    for n in range(CHORDS + 1):
        made[f"{part.name} arc {n}"] = on_arc(spread * (2 * n / CHORDS - 1), larger)
    for pin in part.joints[2:]:
        off = made[pin] - centre
        turn = np.arctan2(off[..., 1], off[..., 0]) - angle
        turn = (turn + np.pi) % (2 * np.pi) - np.pi
        made[f"{part.name} lug {pin}"] = on_arc(np.clip(turn, -spread, spread), radius)


def engine_of(
    clearance: Clearance,
    *,
    gear: AnyGear,
    crank: Crank,
    axles: tuple[float, ...],
    axle_diameter: float,
    wheel_diameter: float,
    sheave: float,
    frame_inside: float,
    planes: tuple[Plane, ...],
    sizes: Proportions,
    crosshead: tuple[float, float] | None,
    inclination: float,
    rise: float,
    slot: float,
    side_play: float,
) -> Engine:
    """Return one side of the engine; see `work` for the parameters."""
    first = gear.pose(crank, np.zeros((1, 1)), np.ones((1, 1))).points
    skeleton = _skeleton(gear, set(first), crosshead, planes, len(axles))
    bodies = planes_of(
        gear,
        [name for name, *_ in skeleton],
        clearance=clearance,
        sizes=sizes,
        planes=planes,
        frame_inside=frame_inside,
        side_play=side_play,
    )
    pieces = [
        _piece(bodies[name], edges, joints, sizes, sheave) for name, edges, joints in skeleton
    ]
    across = {plane.name: plane for plane in planes}
    pieces += _still(
        gear, bodies, set(first), axles, axle_diameter, wheel_diameter, frame_inside, sizes, across
    )
    length = clearance.valve_spindle
    if length is None:
        valve = float(first["valve"][..., 0].flat[0])
        length = max(crank.gudgeon_ends[0] - valve, 3 * sizes.rod)
    return Engine(
        gear, crank, axles, crosshead, inclination, rise, float(length), slot, tuple(pieces)
    )


_Bare = tuple[str, tuple[tuple[str, str], ...], frozenset[str]]


def _skeleton(
    gear: AnyGear,
    known: set[str],
    crosshead: tuple[float, float] | None,
    planes: tuple[Plane, ...],
    axles: int,
) -> list[_Bare]:
    """Return name, lines and joints of what moves."""
    made: list[_Bare] = []
    slotted = getattr(gear, "lifting", "") == "slotted arm"
    for part in gear.parts:
        if part.name == "die" or not all(joint in known for joint in part.joints):
            continue
        lines = tuple(zip(part.joints, part.joints[1:], strict=False))
        joined = frozenset(part.joints)
        if part.shape == "sheave":
            lines = ((part.joints[0], part.joints[0]),)
        if part.shape == "slot":
            arc = tuple((f"{part.name} arc {n}", f"{part.name} arc {n + 1}") for n in range(CHORDS))
            lines = (*arc, *((f"{part.name} lug {pin}", pin) for pin in part.joints[2:]))
        if part.name in ("link", "guide"):
            joined |= {"die", "suspension"}
        if part.name == "piston rod" and "trunnion" in known:
            joined |= {"trunnion"}  # it slides in the cylinder that swings
        if slotted and part.name == "lifting link":
            continue
        if slotted and part.name == "lifting arm":
            lines, joined = (("weighshaft", "lifting_pin"),), joined | {"lifting_pin"}
        if part.name == "rocker":
            die, pivot, top = part.joints
            made.append(("rocker, lower arm", ((die, pivot),), joined))
            made.append(("rocker, upper arm", ((pivot, top),), joined))
        else:
            made.append((part.name, lines, joined))
    tied = {joint for _, _, joined in made for joint in joined}
    # with direct drive the die is the valve's pin
    ends = {"valve"} if "valve" in tied else {"valve", "die"}
    for name, _, joined in made:
        if "valve" in joined and "lever" in name:
            ends |= joined  # its fork stands over the lever's head and what is pinned there
    # an oscillating cylinder has neither
    oscillates = "trunnion" in known
    if not oscillates:
        made.append(("valve spindle", (("valve", "spindle end"),), frozenset(ends)))
        rod = {"crank_pin", "gudgeon"} | ({"rod_pin"} & known)
        made.append(("connecting rod", (("crank_pin", "gudgeon"),), frozenset(rod)))
    if axles > 1 and any(plane.name == "coupling rod" for plane in planes):
        made.append(("coupling rod", (("rod back", "rod front"),), frozenset({"crank_pin"})))
    if any(plane.name == "crank web" for plane in planes):
        made.append(("crank webs", (("axle", "crank_pin"),), frozenset({"crank_pin"})))
    if crosshead is not None and not oscillates:
        joined = frozenset({"gudgeon", "drop_arm"})
        made.append(("crosshead", (("crosshead back", "crosshead front"),), joined))
    return made


def _piece(
    body: Body,
    lines: tuple[tuple[str, str], ...],
    joints: frozenset[str],
    sizes: Proportions,
    sheave: float,
) -> Piece:
    """Return a moving part with its widths."""
    half = body.width / 2
    name = body.name
    edges: list[Edge] = [(a, b, half) for a, b in lines]
    rides = bool(joints & set(RISES)) and name != "crosshead"
    if len(lines) == 1 and lines[0][0] == lines[0][1]:
        return Piece(
            name,
            ((*lines[0], sheave / 2 + sizes.strap),),
            joints,
            body.inner,
            body.outer,
            True,
        )
    if name in ("link", "guide"):
        edges = [(a, b, half if "arc" in b else sizes.rod / 2) for a, b in lines]
    elif name == "connecting rod":
        edges.append(("crank_pin", "crank_pin", sizes.big_end / 2))
    slack = 0.4 * half if body.usual else 0.0
    return Piece(name, tuple(edges), joints, body.inner, body.outer, rides, True, slack)


def _still(
    gear: AnyGear,
    bodies: dict[str, Body],
    known: set[str],
    axles: tuple[float, ...],
    axle_diameter: float,
    wheel_diameter: float,
    frame_inside: float,
    sizes: Proportions,
    across: dict[str, Plane],
) -> list[Piece]:
    """Return axles, wheels and shafts, which turn but do not wander."""
    made = []
    tyre = across.get("tyre")
    face = tyre.outer if tyre else frame_inside / 2 + 4 * sizes.rod_thickness
    on_axle = frozenset(RISES)
    for n, x in enumerate(axles):
        name = axle_name(n, axles)
        low, high = (f"axle {n} low", f"axle {n} high") if x else ("axle", "axle")
        joined = on_axle if not x else frozenset({f"axle {n}"})
        made.append(Piece(name, ((low, high, axle_diameter / 2),), joined, 0.0, face, False, False))
        if tyre is not None:
            edge = ((low, high, wheel_diameter / 2),)
            wheel = f"wheel of the {name}"
            made.append(Piece(wheel, edge, joined, tyre.inner, tyre.outer, False, False))
    shaft = sizes.shaft / 2
    lifting = [part.name for part in gear.parts if "weighshaft" in part.joints]
    arms = [bodies[name] for name in lifting if name in bodies]
    if "weighshaft" in known and arms:
        outer = max(body.outer for body in arms)
        if outer < frame_inside / 2:
            outer = frame_inside / 2
        edges = (("weighshaft", "weighshaft", shaft),)
        made.append(Piece("weighshaft", edges, frozenset({"weighshaft"}), 0.0, outer, False))
    rockers = [body for name, body in bodies.items() if name.startswith("rocker")]
    if rockers:
        inner, outer = min(b.inner for b in rockers), max(b.outer for b in rockers)
        edges = (("rocker", "rocker", shaft),)
        made.append(Piece("rocker shaft", edges, frozenset({"rocker"}), inner, outer, False))
    return made


def axle_name(number: int, axles: tuple[float, ...]) -> str:
    """Return what a builder calls a coupled axle."""
    x = axles[number]
    if x == 0:
        return "driving axle"
    ordered = sorted(axles, reverse=True)
    if x == ordered[0]:
        return "leading axle"
    if x == ordered[-1]:
        return "trailing axle"
    return f"coupled axle {ordered.index(x) + 1}"
