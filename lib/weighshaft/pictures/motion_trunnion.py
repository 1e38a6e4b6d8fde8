"""Oscillating cylinders: the cylinder swinging, its port over the holes, and how far it opens."""

from __future__ import annotations

import numpy as np

from ..motion.chapter import FRAMES
from ..motion.lapping import TrunnionResult
from ..motion.oscillating import Oscillating
from .scene import (
    Array,
    Band,
    Chart,
    Circle,
    Curve,
    Fill,
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


def pictures(gear: Oscillating, result: TrunnionResult) -> tuple[Picture, ...]:
    """Return the swinging cylinder, its face at a larger scale, openings, and the figures."""
    return (
        cylinder_drawing(gear, result),
        face_drawing(gear, result),
        openings(gear, result),
        lapping_table(gear, result),
    )


class _Stand:
    """Where the swinging parts stand in every frame: points of the cylinder's own axes placed."""

    def __init__(self, result: TrunnionResult) -> None:
        piston = result.piston
        self.throw, turn = piston.throw, np.radians(FRAMES)
        self.pin = self.throw * np.stack([np.cos(turn), -np.sin(turn)], axis=-1)
        self.trunnion = np.array([piston.trunnion_x, piston.trunnion_y])
        away = self.trunnion - self.pin
        self.way = away / np.hypot(away[:, 0], away[:, 1])[:, None]
        self.left = np.stack([-self.way[:, 1], self.way[:, 0]], axis=-1)
        self.swing = piston.swing(FRAMES)
        inclined = float(piston.inclined)
        self.line = np.array([np.cos(inclined), np.sin(inclined)])
        self.up = np.array([-self.line[1], self.line[0]])

    def swung(self, shape: Array, start: Array | None = None) -> Array:
        """Return a shape (n, 2), ahead and up from `start`, in every frame (frames, n, 2)."""
        origin = self.trunnion[None, :] if start is None else start
        placed: Array = (
            origin[:, None]
            + shape[None, :, :1] * self.way[:, None]
            + shape[None, :, 1:] * self.left[:, None]
        )
        return placed

    def fixed(self, ahead: float, up: float) -> tuple[float, float]:
        """Return a point of the fixed face, measured along and square to the line of centres."""
        x, y = self.trunnion + ahead * self.line + up * self.up
        return float(x), float(y)


def _ends(gear: Oscillating) -> tuple[float, ...]:
    return (1.0, -1.0) if gear.acting == "double" else (1.0,)


def cylinder_drawing(gear: Oscillating, result: TrunnionResult) -> Scene:
    """Return crank, rod, piston and swinging cylinder to scale, following the crank."""
    stand, throw, bore = _Stand(result), result.piston.throw, result.bore
    still: list[Primitive] = [
        Path(np.array([[-1.6 * throw, 0.0], [1.6 * throw, 0.0]]), "centre"),
        Path(np.array([[0.0, -1.6 * throw], [0.0, 1.6 * throw]]), "centre"),
        Path(
            np.array([(0.0, 0.0), stand.fixed(1.3 * result.face[0], 0.0)]),
            "centre", part="line of centres",
        ),
        Circle((0.0, 0.0), throw, "centre"),
        Circle((0.0, 0.0), 0.22 * throw, "outline", "metal", "axle"),
    ]  # fmt: skip
    front, back = _bore_ends(gear, result)
    wall = 0.12 * bore
    shell = [
        box(back, bore / 2, front + 2 * wall, bore / 2 + wall),
        box(back, -bore / 2 - wall, front + 2 * wall, -bore / 2),
        box(front, -bore / 2, front + 2 * wall, bore / 2),
    ]
    rod_half = 0.09 * bore
    if gear.acting == "double":
        shell += [box(back - 2 * wall, rod_half, back, bore / 2 + wall),
                  box(back - 2 * wall, -bore / 2 - wall, back, -rod_half)]  # fmt: skip
    length = gear.length_of_piston(result.piston.stroke)
    moving = [
        Moving(stand.swung(shape), "outline", "outline", "section", 0.0, "cylinder")
        for shape in shell
    ]
    rod = stand.swung(box(0.0, -rod_half, gear.piston_rod - length, rod_half), stand.pin)
    head = box(gear.piston_rod - length, -0.48 * bore, gear.piston_rod, 0.48 * bore)
    moving += [
        Moving(rod, "outline", "outline", "paper", 0.0, "piston rod"),
        Moving(stand.swung(head, stand.pin), "outline", "outline", "metal", 0.0, "piston"),
    ]
    for end in _ends(gear):
        still += _passages(gear, stand, end)
        port = stand.swung(np.array([[end * gear.port_radius, 0.0]]))
        moving.append(
            Moving(port, "circle", "changed", "none", gear.port_hole / 2, f"{_END[end]} port")
        )
    moving += [
        Moving(np.stack([0 * stand.pin, stand.pin], axis=1), pen="crank", part="crank"),
        Moving(stand.pin[:, None], "circle", "crank", "paper", 0.14 * throw, "crank"),
    ]
    # in front of the piston, so among what moves
    middle = stand.swung(np.zeros((1, 2)))
    moving.append(
        Moving(middle, "circle", "outline", "paper", gear.face.trunnion_pin / 2, "trunnion pin")
    )
    down = stand.fixed(0.0, -0.5 * result.face[2] - 0.5 * bore)
    still.append(Label("trunnion", down, leader=stand.fixed(0.0, 0.0)))
    return Scene(
        f"{gear.title}, {gear.acting} acting, forward",
        f"A cylinder of {bore:.2f} mm bore and {result.piston.stroke:.2f} mm stroke swings by "
        f"{result.swing:.1f}° to either side of the line of centres on a trunnion "
        f"{float(result.piston.trunnion):.2f} mm from the axle; steam holes above the line, "
        "exhaust holes below.",
        tuple(still), tuple(moving), FRAMES,
    )  # fmt: skip


_END = {1.0: "front", -1.0: "back"}


def _bore_ends(gear: Oscillating, result: TrunnionResult) -> tuple[float, float]:
    """Return where the cylinder is drawn to end, ahead of the trunnion: beyond port and piston."""
    ahead, throw = gear.piston_rod - float(result.piston.trunnion), result.piston.throw
    reach = gear.port_radius + gear.port_hole / 2
    front = max(reach, ahead + throw + 0.03 * result.bore)
    piston_back = ahead - throw - gear.length_of_piston(result.piston.stroke)
    if gear.acting == "double":
        return front, min(-reach, piston_back - 0.03 * result.bore)
    return front, piston_back


def _passages(gear: Oscillating, stand: _Stand, end: float) -> list[Primitive]:
    """Draw the steam hole above and the exhaust hole below of one end of the fixed face."""
    holes = gear.holes
    along = end * holes.radius * float(np.cos(holes.stands))
    fills: tuple[tuple[float, str, Fill], ...] = (
        (1.0, "steam hole", "steam"), (-1.0, "exhaust hole", "exhaust"),
    )  # fmt: skip
    return [
        Circle(stand.fixed(along, side * holes.pitch / 2), holes.passage / 2, "outline", fill, name)
        for side, name, fill in fills
    ]


def face_drawing(gear: Oscillating, result: TrunnionResult) -> Scene:
    """Return the rubbing face alone, with the port passing over the holes of the fixed face."""
    stand, holes = _Stand(result), gear.holes
    ahead, behind, width = result.face
    swing = np.linspace(-result.swing, result.swing, 25)
    turn = np.radians(swing) + float(result.piston.inclined)
    still: list[Primitive] = [
        Path(np.array([stand.fixed(-behind, 0.0), stand.fixed(1.1 * ahead, 0.0)]), "centre"),
    ]
    names = {"steam hole": 1.0, "exhaust hole": -1.0}
    moving: list[Moving] = [
        Moving(
            stand.swung(box(-behind, -width / 2, ahead, width / 2)),
            "outline", "behind", "none", 0.0, "face of the cylinder",
        )
    ]  # fmt: skip
    for end in _ends(gear):
        arc = stand.trunnion + end * holes.radius * np.stack([np.cos(turn), np.sin(turn)], axis=-1)
        still += [Path(arc, "trace", part="path of the port"), *_passages(gear, stand, end)]
        pen: Pen = "changed"
        moving.append(
            Moving(
                stand.swung(np.array([[end * holes.radius, 0.0]])),
                "circle", pen, "none", holes.port / 2, f"{_END[end]} port",
            )
        )  # fmt: skip
    still.append(
        Circle(stand.fixed(0.0, 0.0), gear.face.trunnion_pin / 2, "outline", "paper", "trunnion")
    )
    along = holes.radius * float(np.cos(holes.stands))
    for text, side in names.items():
        still.append(
            Label(
                text, stand.fixed(1.25 * ahead, side * 0.75 * width), "start",
                leader=stand.fixed(along, side * holes.pitch / 2),
            )
        )  # fmt: skip
    seals = (
        f"in the middle it is {result.seal:.2f} mm clear of both"
        if result.seal > 0
        else f"in the middle it overlaps both by {-result.seal:.2f} mm and steam blows through"
    )
    return Scene(
        "Rubbing face and holes",
        f"Port {holes.port:.2f} mm, steam and exhaust holes {holes.passage:.2f} mm, "
        f"{holes.pitch:.2f} mm between their centres, {holes.radius:.2f} mm from the trunnion; the "
        f"port opens {result.greatest_area:.2f} mm², {seals}.",
        tuple(still), tuple(moving), FRAMES,
    )  # fmt: skip


def openings(gear: Oscillating, result: TrunnionResult) -> Chart:
    """Return the open area to steam and to exhaust over the crank angle, dead bands tinted."""
    swing, holes = result.piston.swing(FRAMES), gear.holes
    theta = np.append(FRAMES, 360.0)

    def round_again(area: Array) -> Array:
        return np.append(area, area[:1])

    pens: dict[float, tuple[Pen, Pen]] = {1.0: ("changed", "behind"), -1.0: ("trace", "hidden")}
    curves = []
    for end in _ends(gear):
        steam, exhaust = holes.steam_area(end * swing), holes.exhaust_area(end * swing)
        curves += [
            Curve(theta, round_again(steam), f"{_END[end]}, steam", pens[end][0]),
            Curve(theta, round_again(exhaust), f"{_END[end]}, exhaust", pens[end][1]),
        ]
    words = (
        f"shut to both over {result.dead_band_front:.1f}° at front dead centre and "
        f"{result.dead_band_back:.1f}° at back dead centre"
    )
    if result.blow_through > 0:
        words = f"open to both by {result.blow_through:.2f} mm² at the dead centres"
    return Chart(
        "Ports open, as areas",
        f"The port opens {result.greatest_area:.2f} mm² to steam and as much to exhaust; it is "
        f"{words}.",
        "crank angle, degrees", "open, mm²", tuple(curves), _dead_bands(result),
        follows=tuple(range(len(curves))),
    )  # fmt: skip


def _dead_bands(result: TrunnionResult) -> tuple[Band, ...]:
    """Return the dead bands on the axis from 0 to 360 degrees; one may be cut by its ends."""
    bands = []
    widths = (result.dead_band_front, result.dead_band_back)
    for centre, width in zip(result.piston.dead_centres, widths, strict=True):
        if width <= 0:
            continue
        name, half = "dead band", width / 2
        for turn in (-360.0, 0.0, 360.0):
            low = max(float(centre) + turn - half, 0.0)
            high = min(float(centre) + turn + half, 360.0)
            if high > low:
                bands.append(Band(low, high, name, "x"))
                name = ""
    return tuple(bands)


def lapping_table(gear: Oscillating, result: TrunnionResult) -> Table:
    """Return what holds the cylinder to its face, and what takes it off."""
    ahead, behind, width = result.face
    rows: tuple[tuple[str | float, ...], ...] = (
        ("rubbing face, ahead of the trunnion", ahead),
        ("rubbing face, behind the trunnion", behind),
        ("rubbing face, width", width),
        ("steam creeps under the face beyond a hole", result.reach),
        ("area that lifts and tips", f"{result.lift_area:.1f} mm²"),
        ("spring as worked", f"{result.spring:.1f} N"),
        ("spring needed", f"{result.spring_wanted:.1f} N"),
        ("lifts at", f"{result.lift_pressure:.2f} bar"),
        ("mean pressure on the face", f"{result.face_pressure:.3f} N/mm²"),
        ("friction takes of the pistons' work", f"{result.friction_share:.1f} %"),
    )
    return Table(
        "Cylinder held to its face", ("what", "figure"), rows,
        "Steam is taken as full in the holes and as falling evenly to nothing over the face "
        "around them. Hot steam escapes where a cylinder lifts: keep clear of the faces.",
    )  # fmt: skip
