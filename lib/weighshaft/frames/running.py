"""What turns with the axles, as parts: wheels, axles, pins, rods, valve gear."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from ..clearance.engine import Engine, Piece
from ..clearance.planes import Plane, Proportions
from ..motion.frame import Crank, MotionLocks
from ..rods.decisions import Rods
from ..wheels.decisions import InsideCylinders, OutsideCylinders, Wheels
from .layout import Layout
from .solids import Bar, Point, Solid, disc
from .whole import Part

SPOKED = 0.6
"""Share of a spoked wheel within the tyre's outside that is metal; common practice."""


def wheel_parts(
    wheels: Wheels,
    layout: Layout,
    *,
    back_to_back: float,
    tyre_width: float,
    flange_thickness: float,
    flange_depth: float,
    metal: str,
    crank: Crank,
    inclination: float,
    coupled_throw: float,
) -> list[Part]:
    """Return wheels, axles and the pins in them; see `frames.work` for the parameters."""
    back = back_to_back / 2
    face = back + tyre_width
    made = []
    slope = math.radians(inclination)
    pin = (crank.throw * math.cos(slope), crank.throw * math.sin(slope))
    rodded = (coupled_throw * math.cos(slope), coupled_throw * math.sin(slope))
    for n, axle in enumerate(layout.axles):
        coupled = axle.kind == "coupled"
        y = 0.0 if coupled else layout.rail + axle.diameter / 2
        centre, radius = (axle.ahead, y), axle.diameter / 2
        seat = wheels.seat_bore if coupled else 0.8 * wheels.seat_bore
        boss = face + (wheels.across.boss_outside if coupled else 0.0)
        inner = back - (wheels.between.boss_inside if coupled else 0.0)
        solids: list[Solid] = [
            disc(centre, radius, back + flange_thickness, face, seat),
            disc(centre, radius + flange_depth, back, back + flange_thickness, seat),
        ]
        if boss > face:
            solids.append(disc(centre, seat, face, boss, seat))
        if inner < back:
            solids.append(disc(centre, seat, inner, back, seat))
        made.append(
            Part(
                f"{axle.name} wheels", "wheels", "wheels" if coupled else "curving",
                ("wheels.driving_diameter", "wheels.wheelbase", "wheels.back_to_back") if coupled
                else (f"wheels.{axle.kind}_truck", f"curving.{axle.kind}.wheel"),
                metal, tuple(solids), paired=True, ride="wheel", axle=n,
                joined=(f"{axle.name} axle", f"{axle.name} crankpins", "coupling rods",
                        "connecting rods", "splashers"),
                share=SPOKED,
            )
        )  # fmt: skip
        made.append(_axle(wheels, layout, n, back + tyre_width, centre, seat, pin))
        if coupled:
            made += _pins(wheels, layout, n, face, rodded)
    return made


def _axle(
    wheels: Wheels, layout: Layout, n: int, end: float, centre: Point, seat: float, pin: Point
) -> Part:
    axle = layout.axles[n]
    driven = axle.name == "driving"
    journal = wheels.axle_diameter if axle.kind == "coupled" else seat
    solids: list[Solid] = [disc(centre, journal / 2, -end, end)]
    cylinders = wheels.cylinders
    joined = [f"{axle.name} axleboxes"]
    if driven:
        joined += ["eccentric", "forward eccentric", "backward eccentric"]
    return Part(
        f"{axle.name} axle", "wheels", "wheels", ("wheels.axle_diameter", "wheels.wheelbase"),
        "mild steel", tuple(solids), ride="wheel", axle=n,
        joined=tuple(joined),
    ) if not (driven and isinstance(cylinders, InsideCylinders)) else _crank_axle(
        cylinders, n, solids, pin, tuple(joined)
    )  # fmt: skip


def _crank_axle(
    cylinders: InsideCylinders, n: int, solids: list[Solid], pin: Point, joined: tuple[str, ...]
) -> Part:
    """Return the crank axle, both of its cranks drawn on front dead centre of their own side."""
    middle, half = cylinders.centres / 2, cylinders.pin_length / 2
    for sign in (1, -1):
        for inner, outer in (
            (middle - half - cylinders.web, middle - half),
            (middle + half, middle + half + cylinders.web),
        ):
            ends = sorted((sign * inner, sign * outer))
            solids.append(Bar((0.0, 0.0), pin, cylinders.web_breadth / 2, *ends))
        ends = sorted((sign * (middle - half), sign * (middle + half)))
        solids.append(Bar(pin, pin, cylinders.crankpin / 2, *ends))
    return Part(
        "driving axle", "wheels", "wheels",
        ("wheels.axle_diameter", "wheels.cylinders.web", "wheels.cylinders.crankpin"),
        "mild steel", tuple(solids), ride="wheel", axle=n, joined=(*joined, "connecting rods"),
    )  # fmt: skip


def _pins(wheels: Wheels, layout: Layout, n: int, face: float, pin: Point) -> list[Part]:
    """Return the crankpins of a coupled axle, out to their caps."""
    across, cylinders, axle = wheels.across, wheels.cylinders, layout.axles[n]
    alone = sum(one.kind == "coupled" for one in layout.axles) == 1
    if alone and not isinstance(cylinders, OutsideCylinders):
        return []
    rod_in = max(face, face + across.boss_outside) + across.rod_gap
    outer = rod_in + across.coupling_rod + across.pin_cap
    radius = running_pin(wheels, axle.name) / 2
    centre = (axle.ahead + pin[0], pin[1])
    solids: list[Solid] = [disc(centre, radius, face, rod_in + across.coupling_rod)]
    if axle.name == "driving" and isinstance(cylinders, OutsideCylinders):
        middle = cylinders.centres / 2
        outer = middle + cylinders.big_end / 2
        solids = [
            disc(centre, radius, face, middle - cylinders.big_end / 2),
            disc(centre, cylinders.crankpin / 2, middle - cylinders.big_end / 2, outer),
        ]
    elif across.pin_cap > 0:
        solids.append(disc(centre, 1.4 * radius, rod_in + across.coupling_rod, outer))
    return [
        Part(
            f"{axle.name} crankpins", "rods", "wheels",
            ("wheels.across.crankpin", "wheels.across.pin_cap"), "silver steel", tuple(solids),
            paired=True, ride="wheel", axle=n,
            joined=("coupling rods", "connecting rods", "return crank"),
        )
    ]  # fmt: skip


def boss_round(wheels: Wheels) -> float:
    """Return the diameter of the boss round a crankpin in its wheel, mm."""
    given = wheels.across.pin_boss
    return 2 * wheels.across.crankpin if given is None else given


def running_pin(wheels: Wheels, axle: str) -> float:
    """Return the diameter on which a coupling rod runs at an axle, mm.

    On the driving axle of outside cylinders it is no thinner than the big end's, which stands
    outside it: the coupling rod goes on over that.
    """
    coupled, cylinders = wheels.across.crankpin, wheels.cylinders
    if axle == "driving" and isinstance(cylinders, OutsideCylinders):
        return max(coupled, cylinders.crankpin)
    return coupled


def rod_parts(
    wheels: Wheels,
    rods: Rods,
    layout: Layout,
    *,
    planes: tuple[Plane, ...],
    crank: Crank,
    inclination: float,
    coupled_throw: float,
    sizes: Proportions,
) -> list[Part]:
    """Return coupling and connecting rods; see `frames.work` for the parameters."""
    made = []
    slope = math.radians(inclination)
    across = (math.cos(slope), math.sin(slope))
    pin = (crank.throw * across[0], crank.throw * across[1])
    places = [one.ahead for one in layout.axles if one.kind == "coupled"]
    rod = next(plane for plane in planes if plane.name == "coupling rod")
    if len(places) > 1:
        depth, eye = coupling_depth(wheels, rods), coupling_eye(wheels, rods)
        rodded = (coupled_throw * across[0], coupled_throw * across[1])
        bars: list[Solid] = [
            # from eye to eye: what lies within the eyes is theirs
            Bar((b + rodded[0] + eye / 2, rodded[1]), (a + rodded[0] - eye / 2, rodded[1]),
                depth / 2, rod.inner, rod.outer)
            for a, b in pairwise(places)
        ]  # fmt: skip
        eyes = [
            disc(
                (one.ahead + rodded[0], rodded[1]),
                eye / 2,
                rod.inner,
                rod.outer,
                running_pin(wheels, one.name),
            )
            for one in layout.axles
            if one.kind == "coupled"
        ]
        made.append(
            Part(
                "coupling rods", "rods", "rods",
                ("rods.coupling.depth", "wheels.wheelbase", "wheels.across.coupling_rod"),
                rods.coupling.material, (*bars, *eyes), paired=True, ride="coupling",
                joined=("connecting rods",),
            )
        )  # fmt: skip
    plane = next((one for one in planes if one.name == "connecting rod"), None)
    cylinders = wheels.cylinders
    if plane is None and isinstance(cylinders, InsideCylinders):
        plane = Plane(
            "connecting rod", (cylinders.centres - cylinders.big_end) / 2,
            (cylinders.centres + cylinders.big_end) / 2,
        )  # fmt: skip
    if plane is None:
        return made
    gudgeon = float(crank.gudgeon(np.zeros(1))[0])
    offset = crank.cylinder_offset
    small = (
        gudgeon * across[0] - offset * across[1], gudgeon * across[1] + offset * across[0]
    )  # fmt: skip
    # the shank is thinner than the big end
    shank = 0.6 * (plane.outer - plane.inner)
    middle = plane.middle
    made.append(
        Part(
            "connecting rods", "rods", "cylinders",
            ("cylinders.connecting_rod", "clearance.widths.connecting_rod",
             "wheels.cylinders.big_end"),
            rods.coupling.material,
            (
                Bar(pin, small, sizes.connecting_rod / 2, middle - shank / 2, middle + shank / 2),
                disc(pin, sizes.big_end / 2, plane.inner, plane.outer,
                     wheels.cylinders.crankpin),
            ),
            paired=True, ride="connecting",
            joined=("crossheads", "return crank", "slide bars"),
        )
    )  # fmt: skip
    return made


def coupling_depth(wheels: Wheels, rods: Rods) -> float:
    """Return the depth of the coupling rods between their eyes, mm."""
    given = rods.coupling.depth
    return 0.8 * wheels.axle_diameter if given is None else given


def coupling_eye(wheels: Wheels, rods: Rods) -> float:
    """Return the diameter of the coupling rods' eyes over the metal, mm."""
    return 2 * wheels.across.crankpin if rods.coupling.eye is None else rods.coupling.eye


def gear_parts(gear: Engine | None) -> list[Part]:
    """Return the valve gear of one side as it stands in full forward gear, for its weight."""
    if gear is None:
        return []
    try:
        joints = gear.joints(np.zeros((1, 1)), np.ones((1, 1)), np.zeros((1, 1)))
    except MotionLocks:
        return []
    skip = ("connecting rod", "coupling rod", "crosshead", "crank webs")
    return [
        _gear_part(piece, joints)
        for piece in gear.pieces
        if piece.name not in skip and "axle" not in piece.name
    ]


def _gear_part(piece: Piece, joints: dict[str, np.ndarray]) -> Part:
    def place(name: str) -> Point:
        x, y = joints[name][0, 0]
        return float(x), float(y)

    # a shaft goes right across, its two halves are a pair
    bars = tuple(
        Bar(place(a), place(b), half, piece.inner, piece.outer) for a, b, half in piece.edges
    )
    return Part(
        piece.name, "motion", "motion", ("motion.gear", "clearance.widths"), "mild steel", bars,
        paired=True, share=_once(bars),
    )  # fmt: skip


_RASTER = 240
"""Points along the longer side of a part from which its outline's area is told."""


def _once(bars: tuple[Bar, ...]) -> float:
    """Return the share of the bars' volumes that is left when metal that lies over metal counts
    once, from a raster over the outline of them all; within a hundredth."""
    if len(bars) < 2:
        return 1.0
    low = np.min([one.extent[0][:2] for one in bars], axis=0)
    high = np.max([one.extent[1][:2] for one in bars], axis=0)
    step = float(np.max(high - low)) / _RASTER
    x, y = np.meshgrid(
        *(np.arange(a + step / 2, b, step) for a, b in zip(low, high, strict=True)), indexing="ij"
    )
    covered = np.zeros(x.shape, dtype=bool)
    for one in bars:
        (ax, ay), (bx, by) = one.start, one.end
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        along = ((x - ax) * dx + (y - ay) * dy) / square if square else np.zeros(x.shape)
        along = np.clip(along, 0.0, 1.0)
        covered |= (x - ax - along * dx) ** 2 + (y - ay - along * dy) ** 2 <= one.half**2
    alone = sum(one.volume / (one.outer - one.inner) for one in bars)
    return min(1.0, float(covered.sum()) * step**2 / alone)
