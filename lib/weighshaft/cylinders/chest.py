"""The steam chest of a slide valve: port face, valve, room inside, walls and cover."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from ..findings import COMMON, Finding, Level
from ..measures import BAR, to_step
from ..motion.port_face import FaceSizes, PortFace
from ..motion.valves import SlideValve
from ..sizes import figure
from ..working import Working, relation
from .axis import Axis
from .decisions import Cylinders
from .said import said

PORT_DEPTH = 1.5
"""Depth of a port over its width; common practice."""
LEAST_RISE = 0.15
"""Rise of a passage over the bore, where the length decided leaves less; common practice."""
WALL = 2.5
"""Wall of a steam chest in diameters of its studs, which stand in it; common practice."""
APART = 6.0
"""Studs apart, in diameters; common practice, 8 is the most for a tight joint."""
COVER_LIMIT = 40.0
"""Bending let pass in the cover of a chest, N/mm2; as in a cylinder's."""


@relation("V_c", "geometry", length="l", width="b", height="h", valve="V_v")
def steam_room(length: Any, width: Any, height: Any, valve: Any) -> Any:
    """Room for steam in the chest: its inside less the valve, mm3."""
    return length * width * height - valve


@relation("V_v", "geometry", length="l_v", width="b_v", height="h_v")
def valve_bulk(length: Any, width: Any, height: Any) -> Any:
    """What a slide valve takes of the chest's live steam, mm3; its cavity holds exhaust."""
    return length * width * height


@relation("\\sigma_c", "long plate on its edges under even pressure (textbook, from memory)",
          pressure="p", span="b", thickness="t")  # fmt: skip
def plate_stress(pressure: Any, span: Any, thickness: Any) -> Any:
    """Greatest bending in a flat cover between its rows of studs, N/mm2; on the safe side."""
    return 3 * BAR * pressure * span**2 / (4 * thickness**2)


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What valve and ports ask of the chest.

    Parameters
    ----------
    spindle : axis of the valve spindle above the cylinder axis, mm, None where not known.
    """

    face: PortFace
    sizes: FaceSizes
    valve: SlideValve
    spindle: float | None


@dataclass(frozen=True, eq=False, kw_only=True)
class SteamChest:
    """The steam chest as decided or, where nothing was said, as usual; mm.

    Parameters
    ----------
    passage_run : from the middle of the barrel, where a passage leaves bore and port's floor.
    taken : full paths of the sizes that were left open, with the reason.
    """

    face_height: float = figure("Port face above the cylinder axis")
    valve_height: float = figure("Slide valve, height")
    valve_width: float = figure("Slide valve, width")
    length: float = figure("Steam chest, length inside")
    width: float = figure("Steam chest, width inside")
    height: float = figure("Steam chest, height inside")
    wall: float = figure("Steam chest, wall")
    cover: float = figure("Steam chest, thickness of the cover")
    along: int = figure("Chest studs along each long side", "count")
    across: int = figure("Chest studs along each short side", "count")
    line: float = figure("Chest studs, from the inside of the wall")
    room: float = figure("Steam chest, room for steam", "mm3")
    cover_stress: float = figure("Steam chest, bending of the cover", "N/mm2")
    spindle: float | None
    needed: float
    port_depth: float
    port_middle: float
    passage_run: tuple[float, float]
    stud_thread: str | None
    workings: tuple[Working, ...]
    taken: dict[str, tuple[float, str]] = field(hash=False)

    @property
    def outside(self) -> tuple[float, float]:
        """Length and width over the walls, mm."""
        return self.length + 2 * self.wall, self.width + 2 * self.wall

    @property
    def studs(self) -> tuple[tuple[float, float], ...]:
        """Studs from the middle of the face, along and across the cylinder, mm."""
        x, y = self.length / 2 + self.line, self.width / 2 + self.line
        along = [x * (2 * n / (self.along - 1) - 1) for n in range(self.along)]
        across = [y * (2 * n / (self.across - 1) - 1) for n in range(self.across)]
        places = [(u, v) for v in (-y, y) for u in along]
        return tuple(places + [(u, v) for v in across[1:-1] for u in (-x, x)])

    @property
    def spacing(self) -> float:
        """Widest space between neighbouring studs, mm."""
        x, y = self.length + 2 * self.line, self.width + 2 * self.line
        return max(x / (self.along - 1), y / (self.across - 1))


def steam_chest(
    cylinders: Cylinders, axis: Axis, asked: Asked, *, screw_circle: float, screw: float,
    passage: float,
) -> SteamChest:  # fmt: skip
    """Return the steam chest, usual proportions for whatever was left open.

    Parameters
    ----------
    screw_circle, screw : of a cylinder cover, and its screws over the outside, mm.
    passage : length from port to bore, mm.
    """
    given, sizes, face, valve = cylinders.chest, asked.sizes, asked.face, asked.valve
    taken: dict[str, tuple[float, str]] = {}

    def take(path: str, value: float | None, usual: float, why: str) -> float:
        if value is not None:
            return value
        taken[path] = (usual, f"{why} ({COMMON})")
        return usual

    deep = PORT_DEPTH * valve.port_width
    middle = (face.port_inner + face.port_outer) / 2
    begins = axis.barrel / 2 - axis.back_spigot
    # the valve's nut is as wide as one and a half piston rods; its axis lies amid it
    nut = 1.5 * axis.rod
    roof = max(1.0, 0.5 * valve.port_width)
    axis_over = valve.port_width + roof + nut / 2
    usual, why = _face_height(cylinders, asked, passage, begins - middle, deep, axis_over,
                              screw_circle / 2 + screw)  # fmt: skip
    height = take("cylinders.chest.face_height", given.face_height, usual, why)
    over = None if asked.spindle is None else asked.spindle - height
    known = over is not None and over >= axis_over - 1e-9
    tall = take(
        "motion.face.valve_height", sizes.valve_height,
        round((over if known and over is not None else axis_over) + nut / 2, 2),
        "up to the spindle's axis and half its nut" if known else
        f"a cavity as deep as the port is wide, a roof of {roof:.3g} mm, the nut of the spindle",
    )  # fmt: skip
    wide = (valve.port_length or 0.0) + 2 * sizes.valve_wall
    long = take("motion.face.chest_length", sizes.chest_length, round(face.chest_needed, 2),
                "valve, travel and clearance at each end")  # fmt: skip
    across = take("motion.face.chest_width", sizes.chest_width,
                  round(wide + 2 * sizes.chest_clearance, 2),
                  "valve and its clearance")  # fmt: skip
    inside = take(
        "cylinders.chest.height", given.height,
        round(tall + max(1.0, 0.1 * cylinders.bore), 2),
        "the valve and a tenth of the bore over it, so that it can lift",
    )  # fmt: skip
    stud = screw
    wall = take("cylinders.chest.wall", given.wall, to_step(WALL * stud, 0.5),
                "two and a half of a cover screw")  # fmt: skip
    lid = take("cylinders.chest.cover", given.cover, axis.front_cover, "as the cylinder's cover")
    line = take("cylinders.chest.stud_line", given.stud_line, wall / 2, "amid the wall")
    numbers = []
    for path, decided, inner in (
        ("studs_along", given.studs_along, long), ("studs_across", given.studs_across, across),
    ):  # fmt: skip
        number = max(2, math.ceil((inner + 2 * line) / (APART * stud) - 1e-9) + 1)
        why = f"{APART:g} diameters apart or less, corners counted"
        numbers.append(int(take(f"cylinders.chest.{path}", decided, number, why)))
    bulk = valve_bulk.work(
        "Slide valve in the chest", "mm3", length=2 * face.valve_half, width=wide, height=tall
    )
    room = steam_room.work("Steam chest, room for steam", "mm3", length=long, width=across,
                           height=inside, valve=bulk.result)  # fmt: skip
    bent = plate_stress.work("Steam chest, bending of the cover", "N/mm2",
                             pressure=cylinders.pressure, span=across + 2 * line,
                             thickness=lid)  # fmt: skip
    return SteamChest(
        face_height=height, valve_height=tall, valve_width=wide, length=long, width=across,
        height=inside, wall=wall, cover=lid, along=numbers[0], across=numbers[1], line=line,
        room=max(room.result, 0.0), cover_stress=bent.result, spindle=asked.spindle,
        needed=axis_over, port_depth=deep, port_middle=middle, passage_run=(begins, middle),
        stud_thread=given.stud_thread, workings=(bulk, room, bent), taken=taken,
    )  # fmt: skip


def _face_height(
    cylinders: Cylinders, asked: Asked, passage: float, run: float, deep: float,
    axis_over: float, edge: float,
) -> tuple[float, str]:  # fmt: skip
    """Return the port face's usual height over the axis, and the reason."""
    bore = cylinders.bore
    rise = math.sqrt(max(passage**2 - max(run, 0.0) ** 2, (LEAST_RISE * bore) ** 2))
    usual, why = bore / 2 + rise + deep, "the passage as long as decided"
    if asked.spindle is not None and usual > asked.spindle - axis_over:
        usual, why = asked.spindle - axis_over, "the valve and its nut below the spindle"
    if usual < edge:
        usual, why = edge, "level with the edge of the covers"
    return round(usual, 2), why


def chest_findings(chest: SteamChest | None, cylinders: Cylinders) -> Iterator[Finding]:
    """Yield what is to be said of port face, valve, chest and cover."""
    if chest is None:
        return
    floor = chest.face_height - chest.port_depth
    if floor <= cylinders.bore / 2:
        least = round(cylinders.bore / 2 + chest.port_depth + 1.0, 1)
        yield said(
            "stop", "chest.face_height",
            f"The port face {chest.face_height:.2f} mm above the axis leaves ports "
            f"{chest.port_depth:.2f} mm deep no metal over a bore of {cylinders.bore:.2f} mm.",
            f"{least:g} mm or more.", COMMON, ("chest.face_height", least),
        )  # fmt: skip
    if chest.spindle is not None:
        over = chest.spindle - chest.face_height
        if over < chest.needed - 0.01:
            lower = round(chest.spindle - chest.needed, 2)
            yield said(
                "check", "chest.face_height motion.gear.spindle_height",
                f"The valve spindle stands {over:.2f} mm above the port face; cavity, roof and nut "
                f"of the valve want {chest.needed:.2f} mm.",
                f"A port face {lower:g} mm above the axis, or the spindle higher.", COMMON,
                ("chest.face_height", lower) if lower > cylinders.bore / 2 else None,
            )  # fmt: skip
    gap = chest.height - chest.valve_height
    if gap < 0:
        yield said(
            "stop", "chest.height motion.face.valve_height",
            f"The chest is {chest.height:.2f} mm high inside and the valve {chest.valve_height:.2f}"
            " mm.", "A higher chest.", COMMON, ("chest.height", round(chest.valve_height + 1.0, 1)),
        )  # fmt: skip
    else:
        yield said(
            "fine" if gap >= 0.5 else "check", "chest.height motion.face.valve_height",
            f"The chest leaves {gap:.2f} mm over the valve to lift by.",
            "" if gap >= 0.5 else "Half a millimetre or more lets water out.",
        )  # fmt: skip
    if chest.length < 2 * chest.port_middle or chest.width < chest.valve_width:
        yield said(
            "stop", "motion.face.chest_width motion.face.chest_length",
            f"The chest is {chest.width:.2f} mm wide inside; the valve is {chest.valve_width:.2f} "
            "mm wide.", "A wider chest.",
        )  # fmt: skip
    level: Level = "fine" if chest.cover_stress <= COVER_LIMIT else "check"
    thick = chest.cover * math.sqrt(chest.cover_stress / COVER_LIMIT)
    yield said(
        level, "chest.cover",
        f"The chest's cover of {chest.cover:.2f} mm bends with {chest.cover_stress:.0f} N/mm² at "
        f"full pressure; {COVER_LIMIT:g} is let pass.",
        "" if level == "fine" else f"{thick:.1f} mm or thicker, or ribs.", COMMON,
        None if level == "fine" else ("chest.cover", round(thick + 0.05, 1)),
    )  # fmt: skip
