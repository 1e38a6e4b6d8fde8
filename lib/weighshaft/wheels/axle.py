"""The row of parts along the driven axle between the wheels, and what closes it."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..working import Working
from . import relations
from .decisions import Between, InsideCylinders, Wheels
from .results import Kind, Part
from .track import CHAPTER, Track

_THINNEST_BORE_WALL = 0.045  # share of the bore between bore and frame; common practice
_HAIR = 0.005
_Item = tuple[str, float, Kind]


@dataclass(frozen=True)
class AlongAxle:
    """The row along the driven axle, from wheel back to wheel back, mm."""

    stack: tuple[Part, ...]
    washers: tuple[float, ...]
    collar: float | None
    side_collar: float | None
    clearance_left: float | None
    big_end_float: float | None
    least_sheave: float | None
    sheave: float | None
    bore_wall: float | None
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]


def along_axle(
    wheels: Wheels, track: Track, *, bore: float, eccentric_throw: float | None, gear_sheaves: int
) -> AlongAxle:
    """Return the row along the driven axle and what closes it; see `work` for the parameters."""
    between = wheels.between
    sheaves = gear_sheaves if between.sheaves is None else between.sheaves
    play = wheels.plays[wheels.driven_axle - 1]
    outside = _outside_box(between, track.back_to_back)
    washers = tuple(outside - one for one in wheels.plays)
    inner = between.frame_spacing - 2 * between.axlebox_inside
    findings = _box(outside, wheels)
    if inner <= 0:
        findings.append(
            Finding(
                "stop",
                CHAPTER,
                ("wheels.between.axlebox_inside", "wheels.between.frame_spacing"),
                f"Axleboxes {between.axlebox_inside:g} mm inside the frames leave no axle "
                f"between plates {between.frame_spacing:g} mm apart.",
                "Thin the axleboxes.",
                "geometry",
            )
        )
    if isinstance(wheels.cylinders, InsideCylinders):
        row = _crank_row(wheels, wheels.cylinders, sheaves, inner, play)
    else:
        row = _plain_row(between, sheaves, inner, play)
    end_float = wall = None
    if isinstance(wheels.cylinders, InsideCylinders):
        end_float = wheels.cylinders.pin_length - wheels.cylinders.big_end
        wall = (between.frame_spacing - wheels.cylinders.centres - bore) / 2
        findings += _inside_fits(wheels.cylinders, end_float, wall, bore, between)
    least, sheave, workings, about_sheave = _sheave(wheels, sheaves, eccentric_throw)
    left, right = _half(between, washers[wheels.driven_axle - 1], play)
    stack = _placed([*left, *row.items, *right])
    findings += _closes(row, between, sheaves, isinstance(wheels.cylinders, InsideCylinders))
    suggestions = []
    if least is not None:
        suggestions.append(
            Suggestion(
                "wheels.between.sheave_diameter",
                least,
                "axle, twice the throw and the least wall on both sides",
            )
        )
    if row.collar is not None and row.collar >= 0:
        suggestions.append(
            Suggestion("wheels.between.collar", row.collar, "closes the row along the axle")
        )
    return AlongAxle(
        stack,
        washers,
        row.collar,
        row.side_collar,
        row.left,
        end_float,
        least,
        sheave,
        wall,
        workings,
        tuple(suggestions),
        (*findings, *about_sheave),
    )


def _outside_box(between: Between, back_to_back: float) -> float:
    """Return the space between an axlebox's outer face and the wheel, mm."""
    frame = between.frame_spacing / 2 + between.frame_thickness
    return back_to_back / 2 - between.boss_inside - frame - between.axlebox_outside


def _half(between: Between, washer: float, play: float) -> tuple[list[_Item], list[_Item]]:
    left: list[_Item] = [
        ("wheel boss", between.boss_inside, "boss"),
        ("washer", washer, "collar"),
        ("side play", play, "play"),
        ("axlebox outside the frame", between.axlebox_outside, "axlebox"),
        ("frame", between.frame_thickness, "frame"),
        ("axlebox inside the frame", between.axlebox_inside, "axlebox"),
    ]
    return left, left[::-1]


def _placed(items: list[_Item]) -> tuple[Part, ...]:
    parts, at = [], 0.0
    for name, width, kind in items:
        if width != 0:
            parts.append(Part(name, at, at + width, kind))
        at += width
    return tuple(parts)


@dataclass(frozen=True)
class _Row:
    items: list[_Item]
    collar: float | None
    side_collar: float | None
    left: float | None


def _sheaves(count: int, between: Between) -> list[_Item]:
    """Return a group of sheaves with a gap between neighbours."""
    items: list[_Item] = []
    for n in range(count):
        items += [("gap", between.sheave_gap, "gap")] * (n > 0)
        items.append(("eccentric sheave", between.sheave_width, "sheave"))
    return items


def _width(items: list[_Item]) -> float:
    return sum(width for _, width, _ in items)


def _plain_row(between: Between, sheaves: int, inner: float, play: float) -> _Row:
    if sheaves == 0:
        return _Row([("plain axle", inner, "axle")], None, None, None)
    first = _sheaves(sheaves - sheaves // 2, between)
    second = _sheaves(sheaves // 2, between)
    room = inner - 2 * (play + between.clearance) - _width(first) - _width(second)
    made = room if between.collar is None else between.collar
    left = between.clearance + (room - made) / 2
    end: _Item = ("side play and clearance", play + left, "gap")
    items = [end, *first, ("distance collar", made, "collar"), *second, end]
    return _Row(items, room, None, left)


def _crank_row(
    wheels: Wheels, crank: InsideCylinders, sheaves: int, inner: float, play: float
) -> _Row:
    between = wheels.between
    first = _sheaves(sheaves - sheaves // 2, between)
    second = _sheaves(sheaves // 2, between)
    amid = crank.centres - crank.pin_length - 2 * crank.web
    ends = 2 * between.sheave_gap if sheaves else 0.0
    room = amid - ends - _width(first) - _width(second)
    made = room if between.collar is None else between.collar
    gap = (amid - made - _width(first) - _width(second)) / 2
    side = (inner - crank.centres - crank.pin_length - 2 * crank.web) / 2
    collar = side - play - between.clearance
    end: list[_Item] = [
        ("side play and clearance", play + between.clearance, "gap"),
        ("side collar", collar, "collar"),
    ]
    web: _Item = ("crank web", crank.web, "web")
    throw: list[_Item] = [web, ("inside crankpin", crank.pin_length, "big end"), web]
    beside: _Item = ("gap", gap, "gap")
    items: list[_Item] = [
        *end,
        *throw,
        beside,
        *first,
        ("distance collar", made, "collar"),
        *second,
        beside,
        *throw,
        *end[::-1],
    ]
    return _Row(items, room, collar, gap)


def _box(outside: float, wheels: Wheels) -> list[Finding]:
    paths = ("wheels.across.side_play", "wheels.between.frame_spacing", "wheels.back_to_back")
    most = max(wheels.plays)
    if outside < most - _HAIR:
        return [
            Finding(
                "stop",
                CHAPTER,
                paths,
                f"Between axlebox and wheel there are {outside:.2f} mm, which cannot give the "
                f"side play of {most:.2f} mm each way.",
                f"Bring the frames {2 * (most - outside):.2f} mm closer together, thin the "
                "axlebox outside the frame, or lessen the side play.",
                "geometry",
            )
        ]
    return []


def _closes(row: _Row, between: Between, sheaves: int, cranks: bool) -> list[Finding]:
    found = []
    paths = ("wheels.between.sheave_width", "wheels.between.sheaves", "wheels.cylinders.centres")
    if row.collar is not None and row.collar < -_HAIR:
        widest = between.sheave_width + row.collar / max(sheaves, 1)
        where = "between the crank webs" if cranks else "between the axleboxes"
        has = sheaves > 0 and widest > 0
        found.append(
            Finding(
                "stop",
                CHAPTER,
                paths,
                f"{sheaves} sheaves of {between.sheave_width:g} mm and the gaps beside "
                f"them need {-row.collar:.2f} mm more than there is {where}.",
                f"Sheaves and straps {widest:.2f} mm wide would go in."
                if has
                else "Thin the crank webs or pins, or spread the cylinders.",
                "geometry",
                ("wheels.between.sheave_width", round(widest - 0.005, 2)) if has else None,
            )
        )
    if row.side_collar is not None and row.side_collar < -_HAIR:
        found.append(
            Finding(
                "stop",
                CHAPTER,
                ("wheels.cylinders.web", "wheels.between.axlebox_inside"),
                f"The outer crank webs come {-row.side_collar:.2f} mm too near the axleboxes, "
                "side play taken up.",
                "Thin the webs or the axleboxes, or bring the cylinders closer.",
                "geometry",
            )
        )
    made, closing, left = between.collar, row.collar, row.left
    if made is not None and closing is not None and left is not None and left <= 0:
        found.append(
            Finding(
                "stop",
                CHAPTER,
                ("wheels.between.collar",),
                f"A collar of {made:.2f} mm is {made - closing:.2f} mm longer than the row leaves.",
                f"One of {closing:.2f} mm closes it.",
                "geometry",
                ("wheels.between.collar", round(closing, 2)),
            )
        )
    elif made is not None and closing is not None and left is not None and made < closing - 1.0:
        found.append(
            Finding(
                "check",
                CHAPTER,
                ("wheels.between.collar",),
                f"A collar of {made:.2f} mm leaves {left:.2f} mm at each end of its row.",
                f"One of {closing:.2f} mm closes it.",
                change=("wheels.between.collar", round(closing, 2)),
            )
        )
    if not found and closing is not None and left is not None:
        found.append(
            Finding(
                "fine",
                CHAPTER,
                ("wheels.between.collar",),
                f"A distance collar of {made if made is not None else closing:.2f} mm closes the "
                f"row along the axle with {left:.2f} mm clear at its ends.",
                source="geometry",
            )
        )
    return found


def _inside_fits(
    crank: InsideCylinders, end_float: float, wall: float, bore: float, between: Between
) -> list[Finding]:
    found = []
    paths = ("wheels.cylinders.big_end", "wheels.cylinders.pin_length")
    if end_float <= 0:
        found.append(
            Finding(
                "stop",
                CHAPTER,
                paths,
                f"Big end brasses {crank.big_end:g} mm wide do not go between webs "
                f"{crank.pin_length:g} mm apart.",
                f"{crank.pin_length * 0.98:.2f} mm would run with end float.",
                "geometry",
                (paths[0], round(crank.pin_length * 0.98, 2)),
            )
        )
    elif end_float > 0.08 * crank.pin_length:
        found.append(
            Finding(
                "check",
                CHAPTER,
                paths,
                f"The big ends float {end_float:.2f} mm between their webs.",
                "A fiftieth of the length is usual.",
            )
        )
    where = ("wheels.cylinders.centres", "wheels.between.frame_spacing", "cylinders.bore")
    least = _THINNEST_BORE_WALL * bore
    if wall < least:
        closer = between.frame_spacing - bore - 2 * least
        found.append(
            Finding(
                "stop" if wall <= 0 else "check",
                CHAPTER,
                where,
                f"Bores of {bore:g} mm at centres {crank.centres:g} mm leave {wall:.2f} mm "
                f"to frames {between.frame_spacing:g} mm apart.",
                f"Centres of {closer:.2f} mm leave a wall of {least:.2f} mm.",
                change=(where[0], round(closer, 2)) if closer > bore else None,
            )
        )
    between_bores = crank.centres - bore
    if between_bores < 2 * least:
        found.append(
            Finding(
                "stop" if between_bores <= 0 else "check",
                CHAPTER,
                where[:1],
                f"Between the two bores there are {between_bores:.2f} mm of metal.",
                f"{2 * least:.2f} mm or more is usual.",
            )
        )
    return found


def _sheave(
    wheels: Wheels, sheaves: int, throw: float | None
) -> tuple[float | None, float | None, tuple[Working, ...], list[Finding]]:
    between = wheels.between
    paths = ("wheels.between.sheave_diameter", "wheels.between.sheave_wall", "wheels.axle_diameter")
    if sheaves == 0:
        return None, None, (), []
    if throw is None:
        says = "There are sheaves on the axle, but no eccentric throw is known from the motion."
        finding = Finding(
            "check",
            CHAPTER,
            ("wheels.between.sheaves",),
            says,
            "With outside gear and nothing on the axle, put 0 sheaves.",
        )
        return None, between.sheave_diameter, (), [finding]
    working = relations.least_sheave.work(
        "Least sheave", "mm", d=wheels.axle_diameter, e=throw, w=between.sheave_wall
    )
    least = working.result
    sheave = least if between.sheave_diameter is None else between.sheave_diameter
    wall = (sheave - wheels.axle_diameter) / 2 - throw
    if sheave < least - _HAIR:
        finding = Finding(
            "stop" if wall <= 0 else "check",
            CHAPTER,
            paths,
            f"A sheave of {sheave:.2f} mm with a throw of {throw:.2f} mm leaves {wall:.2f} mm over "
            f"an axle of {wheels.axle_diameter:g} mm.",
            f"{least:.2f} mm keeps a wall of {between.sheave_wall:g} mm.",
            "geometry",
            (paths[0], round(least + 0.005, 2)),
        )
    else:
        finding = Finding(
            "fine",
            CHAPTER,
            paths,
            f"The sheave of {sheave:.2f} mm keeps {wall:.2f} mm over the axle at its thin side.",
            source="geometry",
        )
    return least, sheave, (working,), [finding]
