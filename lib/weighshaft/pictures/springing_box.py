"""The driving axlebox in its horn gap at three heights, and the axle tilted across the engine."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ..springing import Bed, CoilSprings, Springing, SpringingResult
from ..springing.coil import CoilSpring
from ..springing.decisions import ABOVE
from ..springing.leaf import LeafSpring
from .scene import Array, Circle, Dimension, Label, Path, Pen, Primitive, Scene, box

_MOST_TURNS = 30
_ARC = 21


def box_drawing(springing: Springing, result: SpringingResult) -> Scene:
    """Return the box at its top, at its running height and on its stop, with its springs."""
    bed, axle = result.bed, result.axles[result.main]
    spring, decided = axle.spring, springing.springs
    over = isinstance(decided, CoilSprings) and decided.place == ABOVE
    wide = 1.7 * bed.box_length
    if isinstance(spring, LeafSpring):
        wide = max(wide, 1.12 * spring.span)
    heights = (
        ("at its top", bed.rise),
        ("at its running height", 0.0),
        ("on its stop", -result.fall),
    )
    still: list[Primitive] = []
    for n, (word, shift) in enumerate(heights):
        x = (n - 1) * wide
        still += _gap(bed, result.stop, x, shift)
        if isinstance(spring, LeafSpring):
            still += _leaf(bed, spring, axle.length, x, shift)
        elif over:
            still += _above(bed, spring, axle.length, x, shift)
        else:
            still += _under(bed, spring, axle.number, axle.length, x, shift)
        still.append(Label(word, (x, bed.plate_top + 0.12 * bed.wheel)))
    reach = 1.5 * wide
    still.append(Path(np.array([[-reach, bed.rail], [reach, bed.rail]]), "outline", part="rail"))
    still.append(Label("rail", (reach, bed.rail + 0.03 * bed.wheel), "end"))
    side = -1.5 * wide
    if bed.rise > 0:
        still.append(Dimension((side, 0.0), (side, bed.rise), f"{bed.rise:.2f}", 0.0))
    length = ""
    if isinstance(spring, CoilSpring):
        closed = f"{spring.solid:.2f} mm closed"
        length = (
            f" The spring is {spring.free:.2f} mm long when free, {axle.length:.2f} mm at the "
            f"running height and {closed}."
        )
    return Scene(
        "The driving axlebox in its horn gap",
        f"From the left: the box at its top {bed.rise:.2f} mm up, at its running height, and on "
        f"its stop {result.fall:.2f} mm down.{length}",
        tuple(still),
    )  # fmt: skip


def _gap(bed: Bed, stop: float, x: float, shift: float) -> Iterator[Primitive]:
    """Yield plate, stay, stop, box and journal about x, the box moved up by `shift`."""
    half = (bed.box_length + bed.clearance) / 2
    roof, edge = bed.box_height / 2 + bed.rise, 0.75 * bed.box_length
    plate = np.array(
        [
            [x - edge, bed.stay_top], [x - half, bed.stay_top], [x - half, roof], [x + half, roof],
            [x + half, bed.stay_top], [x + edge, bed.stay_top], [x + edge, bed.plate_top],
            [x - edge, bed.plate_top],
        ]
    )  # fmt: skip
    yield Path(plate, "outline", True, "section", "frame plate")
    yield Path(
        box(x - edge, bed.stay_bottom, x + edge, bed.stay_top), "outline", True, "metal",
        "horn stay",
    )  # fmt: skip
    if stop > 0:
        block = 0.12 * bed.box_length
        yield Path(
            box(x - block, bed.stay_top, x + block, bed.stay_top + stop), "outline", True,
            "section", "stop",
        )  # fmt: skip
    across, high = bed.box_length / 2, bed.box_height / 2
    yield Path(
        box(x - across, shift - high, x + across, shift + high), "changed", True, "paper", "axlebox"
    )
    yield Circle((x, shift), bed.journal / 2, "outline", "metal", "axle")
    cross = 0.65 * bed.journal
    yield Path(np.array([[x - cross, shift], [x + cross, shift]]), "centre")
    yield Path(np.array([[x, shift - cross], [x, shift + cross]]), "centre")


def _coil(spring: CoilSpring, x: float, foot: float, length: float) -> Iterator[Primitive]:
    """Yield a coil spring cut through, standing on `foot`; red where it is coil-bound."""
    drawn = min(max(length, spring.solid), spring.free)
    pen: Pen = "stop" if length < spring.solid - 1e-9 else "outline"
    turns = min(spring.total + (0 if spring.ends.endswith("ground") else 1), _MOST_TURNS)
    count = max(round(turns), 2)
    step = (drawn - spring.wire) / max(count - 1, 1)
    for n in range(count):
        y = foot + spring.wire / 2 + n * step
        yield Circle((x - spring.coil / 2, y), spring.wire / 2, pen, "section", "spring")
        if n < count - 1:
            right = (x + spring.coil / 2, y + step / 2)
            yield Circle(right, spring.wire / 2, pen, "section", "spring")
            yield Path(np.array([[x - spring.coil / 2, y], right]), "thin", part="spring")


def _under(
    bed: Bed, spring: CoilSpring, number: int, length: float, x: float, shift: float
) -> Iterator[Primitive]:
    """Yield springs under the stay, on pins that hang from the box."""
    places = (x - bed.box_length / 4, x + bed.box_length / 4) if number == 2 else (x,)
    now = length - shift
    seat = bed.stay_bottom - now
    pin, nut = 0.35 * (spring.coil - spring.wire), max(spring.wire, 0.1 * bed.box_length)
    for at in places:
        yield Path(
            box(at - pin, seat - 1.5 * nut, at + pin, shift - bed.box_height / 2), "thin", True,
            "none", "pin",
        )  # fmt: skip
        drawn = min(max(now, spring.solid), spring.free)
        # a slack spring lies on the nut
        yield from _coil(spring, at, bed.stay_bottom - drawn if now < drawn else seat, now)
        half = spring.outside / 2
        yield Path(box(at - half, seat - nut, at + half, seat), "outline", True, "metal", "nut")


def _above(
    bed: Bed, spring: CoilSpring, length: float, x: float, shift: float
) -> Iterator[Primitive]:
    """Yield the spring in a pocket of the box, up against the plate."""
    metal = max((bed.box_height - bed.journal) / 2 - 0.1 * bed.journal, 0.0)
    seat = bed.box_height / 2 - min(max(length - bed.rise, 0.0), metal)
    top, roof, half = seat + length, bed.box_height / 2 + bed.rise, 0.55 * spring.outside
    if top > roof:
        yield Path(box(x - half, roof, x + half, top), "outline", True, "paper", "seat")
    yield Path(
        box(x - half, seat + shift, x + half, bed.box_height / 2 + shift), "thin", True, "paper",
        "pocket",
    )  # fmt: skip
    now = length - shift
    yield from _coil(spring, x, seat + shift, now)


def _leaf(
    bed: Bed, spring: LeafSpring, camber: float, x: float, shift: float
) -> Iterator[Primitive]:
    """Yield a leaf spring over the box; its ends hang from the frames and keep their height."""
    stack = spring.leaves * spring.thickness
    middle = bed.box_height / 2 + shift + stack
    rise = camber - shift
    shorter = max(spring.graduated, 1)
    for n in range(min(spring.leaves, _MOST_TURNS)):
        share = 1.0 if n <= spring.extra else 1 - (n - spring.extra) / shorter
        reach = spring.buckle / 2 + spring.half * share
        yield Path(
            _bent(x, middle - n * spring.thickness, reach, spring, rise), "thin", True, "metal",
            "leaf spring",
        )  # fmt: skip
    half = spring.buckle / 2
    yield Path(
        box(x - half, middle - stack, x + half, middle + spring.thickness), "outline", True,
        "section", "buckle",
    )  # fmt: skip
    for way in (-1, 1):
        end = (x + way * spring.span / 2, middle + rise)
        up = (end[0], bed.plate_top + 0.05 * bed.wheel)
        yield Path(np.array([end, up]), "thin", part="hanger")
        yield Circle(end, 1.2 * spring.thickness, "outline", "paper", "hanger")


def _bent(x: float, top: float, reach: float, spring: LeafSpring, rise: float) -> Array:
    """Return the outline of one leaf, flat within the buckle and bent beyond."""
    at = np.linspace(-reach, reach, _ARC)
    out = np.maximum(np.abs(at) - spring.buckle / 2, 0.0) / spring.half
    upper = np.stack([x + at, top + rise * out**2], axis=-1)
    lower = upper - np.array([0.0, spring.thickness])
    outline: Array = np.concatenate([upper, lower[::-1]])
    return outline


def tilted_axle(result: SpringingResult) -> Scene:
    """Return the driving axle from behind, its right box at its top and the left one down."""
    bed = result.bed
    slope = math.radians(result.tilt)
    down = min(result.fall, bed.rise)
    centre = (bed.rise - down) / 2
    cos, sin = math.cos(slope), math.sin(slope)

    def turned(points: Array) -> Array:
        z, y = points[:, 0], points[:, 1]
        made: Array = np.stack([z * cos - y * sin, centre + z * sin + y * cos], axis=-1)
        return made

    still: list[Primitive] = []
    high, radius = bed.box_height / 2, bed.wheel / 2
    roof = high + bed.rise
    for way in (-1, 1):
        inner, outer = sorted((way * bed.plate_inner, way * bed.plate_outer))
        for low, top, fill in (
            (roof, bed.plate_top, "section"),
            (bed.stay_bottom, bed.stay_top, "metal"),
        ):
            still.append(
                Path(box(inner, low, outer, top), "outline", True, fill, "frame")  # type: ignore[arg-type]
            )
        back, face = sorted((way * bed.back, way * (bed.back + bed.tyre)))
        still.append(
            Path(turned(box(back, -radius, face, radius)), "behind", True, "paper", "wheel")
        )
        one, other = sorted((way * bed.box_inner, way * bed.box_outer))
        still.append(
            Path(turned(box(one, -high, other, high)), "changed", True, "paper", "axlebox")
        )
    end = bed.back + bed.tyre
    still.append(
        Path(turned(box(-end, -bed.journal / 2, end, bed.journal / 2)), "outline", True, "metal",
             "axle")
    )  # fmt: skip
    still.append(Path(turned(np.array([[-1.15 * end, 0.0], [1.15 * end, 0.0]])), "centre"))
    still.append(Path(np.array([[-1.15 * end, 0.0], [1.15 * end, 0.0]]), "thin"))
    text = (1.2 * end, bed.plate_top)
    still.append(Label(f"tilts {result.tilt:.2f}°", text, "start", (end, centre + end * sin)))
    return Scene(
        "The axle tilted, seen from behind",
        f"The right box is {bed.rise:.2f} mm up and the left one {down:.2f} mm down: the axle "
        f"tilts {result.tilt:.2f}°, and the flanges of the boxes swing {result.relief:.2f} mm at "
        "top and bottom.",
        tuple(still),
    )  # fmt: skip
