"""From the engine's centre line outwards: wheel, rods, crankpins, crosshead, cylinder."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..working import Working
from . import relations
from .decisions import OutsideCylinders, Wheels
from .results import Part
from .track import CHAPTER, Track

_MOST_PLAY = 0.5  # mm of air between the rods beyond which a distance washer is wanted
_PINS = (
    "wheels.cylinders.centres",
    "wheels.cylinders.crosshead_width",
    "wheels.across.pin_cap",
    "wheels.across.side_play",
)


@dataclass(frozen=True)
class AcrossEngine:
    """The chain outwards on one side, mm from the centre line."""

    parts: tuple[Part, ...]
    wheel_face: float
    rod_outside: float
    pin_outside: float
    pin_clearance: float | None
    pin_clearance_wanted: float
    rod_washer: float | None
    width: float
    width_limit: float | None
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]


def wanted_clearance(gauge: float) -> float:
    """Return the clearance wanted between crankpin and crosshead, mm; common practice.

    0.4 mm on 32 and 45 mm track, growing with the gauge to 0.8 on 89 and 1.2 on 127 mm.
    """
    return max(0.4, 0.0091 * gauge)


def across_engine(
    wheels: Wheels,
    track: Track,
    *,
    scaled_width: float | None,
    crank_throw: float,
    connecting_rod: float | None,
    crosshead: tuple[float, float],
    cylinder_back: float | None,
) -> AcrossEngine:
    """Return the chain across the engine with its clearances; see `work` for the parameters."""
    across, cylinders = wheels.across, wheels.cylinders
    back = track.back_to_back / 2
    face = back + track.tyre_width
    boss = face + across.boss_outside
    rod_in = max(boss, face) + across.rod_gap
    rod_out = rod_in + across.coupling_rod
    pin = rod_out + across.pin_cap
    parts = [
        Part("tyre", back, face, "wheel"),
        Part("wheel boss", back, boss, "boss"),
        Part("coupling rod", rod_in, rod_out, "rod"),
        Part("crankpin cap", rod_out, pin, "pin"),
    ]
    workings: list[Working] = []
    findings: list[Finding] = []
    suggestions: list[Suggestion] = []
    wanted = wanted_clearance(track.gauge)
    clearance = washer = None
    outermost = pin + max(wheels.plays)
    if isinstance(cylinders, OutsideCylinders):
        middle = cylinders.centres / 2
        washer = middle - cylinders.big_end / 2 - rod_out
        end = middle + cylinders.big_end / 2 + cylinders.return_crank
        head = middle - cylinders.crosshead_width / 2
        parts += [
            Part(
                "connecting rod",
                middle - cylinders.big_end / 2,
                middle + cylinders.big_end / 2,
                "rod",
            ),
            Part(
                "crosshead and slide bars",
                head,
                middle + cylinders.crosshead_width / 2,
                "crosshead",
            ),
            Part(
                "cylinder",
                middle - cylinders.over_covers,
                middle + cylinders.over_covers,
                "cylinder",
            ),
        ]
        if cylinders.return_crank:
            parts.append(Part("return crank", end - cylinders.return_crank, end, "pin"))
        outermost = max(
            outermost, end + wheels.plays[wheels.driven_axle - 1], middle + cylinders.over_covers
        )
        findings += _rods(wheels, washer, rod_out)
        if cylinder_back is not None:
            inner = middle - cylinders.over_covers
            findings += _cylinder(wheels, track, crank_throw, cylinder_back, inner, face, pin)
        play = _passing_play(wheels, crank_throw, connecting_rod, crosshead)
        if play is not None:
            working = relations.pin_clearance.work(
                "Crankpin clear of the crosshead", "mm", z_h=head, z_p=pin, s=play
            )
            workings.append(working)
            clearance = working.result
            least = 2 * (pin + play + wanted) + cylinders.crosshead_width
            suggestions.append(
                Suggestion(
                    "wheels.cylinders.centres",
                    least,
                    f"the coupled crankpin then clears the crosshead by {wanted:.2f} mm",
                )
            )
            findings.append(_passing(clearance, wanted, head, pin, play, least))
        elif any(x > 0 for x in wheels.positions):
            findings.append(
                Finding(
                    "fine",
                    CHAPTER,
                    _PINS[:1],
                    "No coupled crankpin comes abreast of the crosshead or its slide bars, "
                    "with this connecting rod and wheelbase.",
                    source="geometry",
                )
            )
        else:
            findings.append(
                Finding(
                    "fine",
                    CHAPTER,
                    ("wheels.driven_axle",),
                    "The first axle is the driven one, so no crankpin passes the crosshead.",
                    source="geometry",
                )
            )
    limit = across.width_limit if across.width_limit is not None else scaled_width
    findings += _width(2 * outermost, limit)
    return AcrossEngine(
        tuple(parts),
        face,
        rod_out,
        pin,
        clearance,
        wanted,
        washer,
        2 * outermost,
        limit,
        tuple(workings),
        tuple(suggestions),
        tuple(findings),
    )


def _passing_play(
    wheels: Wheels,
    crank_throw: float,
    connecting_rod: float | None,
    crosshead: tuple[float, float],
) -> float | None:
    """Return the most side play of an axle whose crankpin passes the crosshead, else None."""
    cylinders = wheels.cylinders
    if not isinstance(cylinders, OutsideCylinders):
        return None
    plays = []
    for ahead, play in zip(wheels.positions, wheels.plays, strict=True):
        if ahead <= 0:
            continue
        reach = 2 * crank_throw + wheels.across.crankpin
        if connecting_rod is None or (
            -reach - crosshead[1] < ahead - connecting_rod < reach + crosshead[0]
        ):
            plays.append(play)
    return max(plays) if plays else None


def _rods(wheels: Wheels, washer: float, rod_out: float) -> list[Finding]:
    paths = ("wheels.cylinders.centres", "wheels.cylinders.big_end", "wheels.across.coupling_rod")
    big_end = wheels.cylinders.big_end
    least = 2 * (rod_out + 0.1) + big_end
    if washer < 0:
        return [
            Finding(
                "stop",
                CHAPTER,
                paths,
                f"The connecting rod, in line with its cylinder, lies {-washer:.2f} mm inside "
                "the outer face of the coupling rod.",
                f"Bring the cylinders to {least:.2f} mm apart, or thin the rods.",
                "geometry",
                (paths[0], round(least, 2)),
            )
        ]
    if washer > _MOST_PLAY:
        return [
            Finding(
                "fine",
                CHAPTER,
                paths,
                f"A washer of {washer:.2f} mm on the driving crankpin, less its running play, "
                "keeps the connecting rod in line with the cylinder.",
                source="geometry",
            )
        ]
    return []


def _cylinder(
    wheels: Wheels,
    track: Track,
    crank_throw: float,
    back: float,
    inner: float,
    face: float,
    pin: float,
) -> list[Finding]:
    """Return whether a coupled wheel or its crankpin runs into the cylinder's back cover."""
    paths = ("wheels.wheelbase", "wheels.cylinders.centres", "cylinders.connecting_rod")
    found = []
    for number, (ahead, play) in enumerate(zip(wheels.positions, wheels.plays, strict=True), 1):
        if ahead <= 0:
            continue
        reaches = (
            ("wheel", ahead + wheels.driving_diameter / 2 + track.flange_depth, face + play),
            ("crankpin", ahead + crank_throw + 0.7 * wheels.across.crankpin, pin + play),
        )
        for name, front, outside in reaches:
            if front > back and outside > inner:
                found.append(
                    Finding(
                        "stop",
                        CHAPTER,
                        paths,
                        f"The {name} of axle {number} reaches {front:.1f} mm ahead and "
                        f"{outside:.2f} mm out; the cylinder begins {back:.1f} mm ahead and "
                        f"{inner:.2f} mm out: they foul.",
                        f"Bring that axle {front - back:.1f} mm back, lengthen the connecting "
                        "rod, or spread the cylinders.",
                        "geometry",
                    )
                )
    return found


def _passing(
    clearance: float,
    wanted: float,
    head: float,
    pin: float,
    play: float,
    least: float,
) -> Finding:
    chain = (
        f"the cap ends {pin:.2f} mm from the centre line, the axle slides {play:.2f} mm, the "
        f"crosshead and slide bars begin at {head:.2f} mm"
    )
    mend = (
        f"Bring the cylinders to {least:.2f} mm apart, sink the cap into the rod, or lessen the "
        "side play of that axle."
    )
    if clearance <= 0:
        says = f"The coupled crankpin fouls the crosshead by {-clearance:.2f} mm: {chain}."
        return Finding("stop", CHAPTER, _PINS, says, mend, change=(_PINS[0], round(least, 2)))
    says = f"The coupled crankpin clears the crosshead by {clearance:.2f} mm: {chain}."
    if clearance < wanted - 0.005:
        mend = f"{wanted:.2f} mm is usual on this gauge. {mend}"
        return Finding("check", CHAPTER, _PINS, says, mend, change=(_PINS[0], round(least, 2)))
    return Finding("fine", CHAPTER, _PINS, says)


def _width(width: float, limit: float | None) -> list[Finding]:
    paths = ("wheels.across.width_limit", "wheels.cylinders.centres")
    if limit is None:
        return []
    if width > limit:
        return [
            Finding(
                "check",
                CHAPTER,
                paths,
                f"{width:.1f} mm wide over cylinders and pins, the engine is {width - limit:.1f} "
                f"mm wider than the {limit:.1f} mm allowed.",
                "Bring the cylinders closer, thin what stands outside, or ask what the line "
                "really clears.",
                "the prototype's width at scale, or the limit given",
            )
        ]
    return [
        Finding(
            "fine",
            CHAPTER,
            paths,
            f"{width:.1f} mm wide over cylinders and pins, within {limit:.1f} mm.",
            source="the prototype's width at scale, or the limit given",
        )
    ]


def over_leading_axle(
    wheels: Wheels,
    *,
    crank_throw: float,
    connecting_rod: float | None,
    inclination: float,
    cylinder_offset: float,
) -> list[Finding]:
    """Return whether inside crossheads pass over the coupled axles ahead; see `work`.

    An inside cylinder lies level with the axles unless it is inclined or raised, and its
    piston rod and crosshead then have to go over the axle in front of the driven one.
    """
    cylinders = wheels.cylinders
    if isinstance(cylinders, OutsideCylinders) or connecting_rod is None:
        return []
    found = []
    paths = ("cylinders.inclination", "cylinders.cylinder_offset", "wheels.wheelbase")
    radius = wheels.axle_diameter / 2
    for number, ahead in enumerate(wheels.positions, 1):
        if ahead <= 0 or ahead + radius < connecting_rod - crank_throw:
            continue
        above = ahead * math.sin(math.radians(inclination)) + cylinder_offset
        clear = above - radius - cylinders.crosshead_below
        needed = (radius + cylinders.crosshead_below + 0.5 - cylinder_offset) / ahead
        angle = math.degrees(math.asin(min(needed, 1.0)))
        says = (
            f"The cylinder axis passes {above:.1f} mm over axle {number}, whose radius is "
            f"{radius:.1f} mm; the crosshead reaches {cylinders.crosshead_below:.1f} mm below"
        )
        if clear <= 0:
            found.append(
                Finding(
                    "stop",
                    CHAPTER,
                    paths,
                    f"{says}: they foul by {-clear:.1f} mm.",
                    f"Incline the cylinders by {angle:.1f}°, raise them, or shorten the rod.",
                    "geometry",
                    (paths[0], math.ceil(angle * 10) / 10) if needed < 0.5 else None,
                )
            )
        else:
            found.append(
                Finding("fine", CHAPTER, paths, f"{says}: {clear:.1f} mm clear.", source="geometry")
            )
    return found
