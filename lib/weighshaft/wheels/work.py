"""The chapter worked: from the decisions to figures, workings and findings."""

from __future__ import annotations

import math

from ..findings import Finding, by_level, still_open, unlocked
from ..trade.tracks import greatest_attack_angle
from ..working import Working
from . import relations
from .across import across_engine, over_leading_axle
from .axle import along_axle
from .curve import STRAIGHT, Limit, layout, smallest
from .decisions import InsideCylinders, Wheels
from .fit import fits
from .loads import under_load
from .results import CurveLayout, WheelsResult
from .track import CHAPTER, Track, against_standard


def work(
    wheels: Wheels,
    *,
    track_gauge: float,
    scaled_width: float | None,
    crank_throw: float,
    number: int,
    crank_angle: float,
    piston_load: float,
    coupled_weight: float,
    adhesion: float,
    eccentric_throw: float | None,
    gear_sheaves: int,
    cylinder_bore: float,
    fixed: frozenset[str] = frozenset(),
    connecting_rod: float | None = None,
    crosshead: tuple[float, float] | None = None,
    cylinder_back: float | None = None,
    inclination: float = 0.0,
    cylinder_offset: float = 0.0,
) -> WheelsResult:
    """Work the chapter.

    Parameters
    ----------
    wheels : the decisions.
    track_gauge : of the model, mm.
    scaled_width : greatest width of the prototype at scale, mm, None if unknown.
    crank_throw : half of the stroke, mm.
    number : of cylinders.
    crank_angle : between the cranks, degrees.
    piston_load : greatest thrust of one piston, N.
    coupled_weight : kg.
    adhesion : grip of wheel on rail, friction over weight.
    eccentric_throw : centre distance of the sheaves, mm, None without eccentrics.
    gear_sheaves : of the valve gear, on the driven axle.
    cylinder_bore : mm.
    fixed : paths of sizes that a bought part has settled; no button changes them.
    connecting_rod : between centres, mm; None when unknown, then every coupled crankpin ahead
        of the driven axle is taken to pass the crosshead.
    crosshead : how far it reaches ahead of and behind the gudgeon pin, mm; None when unknown,
        then it is taken as short.
    cylinder_back : outer face of the back cover, mm ahead of the driven axle; None when unknown.
    inclination : of the cylinders, degrees, their front ends up.
    cylinder_offset : of the cylinder axis above the driven axle, mm.
    """
    track = against_standard(wheels, track_gauge)
    across = across_engine(
        wheels,
        track,
        scaled_width=scaled_width,
        crank_throw=crank_throw,
        connecting_rod=connecting_rod,
        crosshead=crosshead or (0.0, 0.0),
        cylinder_back=cylinder_back,
    )
    axle = along_axle(
        wheels,
        track,
        bore=cylinder_bore,
        eccentric_throw=eccentric_throw,
        gear_sheaves=gear_sheaves,
    )
    loads = under_load(
        wheels,
        track,
        crank_throw=crank_throw,
        crank_angle=crank_angle,
        piston_load=piston_load,
        coupled_weight=coupled_weight,
        adhesion=adhesion,
    )
    limit, curve, curve_workings, curve_findings = _curve(wheels, track)
    positions = wheels.positions
    leading = _truck(wheels.leading_truck, positions[0], 1)
    trailing = _truck(wheels.trailing_truck, positions[-1], -1)
    findings = (
        *track.findings,
        *across.findings,
        *axle.findings,
        *curve_findings,
        *loads.findings,
        *_layout(wheels, number),
        *fits(wheels, track, crank_throw=crank_throw),
        *over_leading_axle(
            wheels,
            crank_throw=crank_throw,
            connecting_rod=connecting_rod,
            inclination=inclination,
            cylinder_offset=cylinder_offset,
        ),
    )
    return WheelsResult(
        back_to_back=track.back_to_back,
        over_flanges=track.over_flanges,
        check_gauge=track.check_gauge,
        flange_play=track.play,
        tyre_width=track.tyre_width,
        flange_thickness=track.flange_thickness,
        flange_depth=track.flange_depth,
        lines=track.lines,
        wheel_face=across.wheel_face,
        rod_outside=across.rod_outside,
        pin_outside=across.pin_outside,
        pin_clearance=across.pin_clearance,
        pin_clearance_wanted=across.pin_clearance_wanted,
        rod_washer=across.rod_washer,
        width=across.width,
        width_limit=across.width_limit,
        across=across.parts,
        washers=axle.washers,
        collar=axle.collar,
        side_collar=axle.side_collar,
        clearance_left=axle.clearance_left,
        big_end_float=axle.big_end_float,
        least_sheave=axle.least_sheave,
        sheave=axle.sheave,
        bore_wall=axle.bore_wall,
        stack=axle.stack,
        smallest_radius=limit.radius,
        radius_rule=limit.rule,
        attack_angle=_askew(positions, limit.radius),
        total_wheelbase=wheels.total_wheelbase,
        leading_swing=_swing(leading, curve),
        trailing_swing=_swing(trailing, curve),
        curve=curve,
        journal_pressure=loads.journal_pressure,
        driving_pin_pressure=loads.driving_pin_pressure,
        coupled_pin_pressure=loads.coupled_pin_pressure,
        bending=loads.bending,
        twist=loads.twist,
        axle_stress=loads.axle_stress,
        seat_torque=loads.seat_torque,
        grip_torque=loads.grip_torque,
        seat_carries=loads.seat_fit.torque,
        seat_ratio=loads.seat_ratio,
        seat_fit=loads.seat_fit,
        bush_needed=loads.bush_needed,
        positions=positions,
        crank_throw=crank_throw,
        connecting_rod=connecting_rod,
        crosshead=crosshead or (0.0, 0.0),
        cylinder_back=cylinder_back,
        bore=cylinder_bore,
        workings=(
            *track.workings,
            *across.workings,
            *axle.workings,
            *curve_workings,
            *loads.workings,
        ),
        suggestions=still_open((*track.suggestions, *across.suggestions, *axle.suggestions), fixed),
        findings=by_level(unlocked(findings, fixed)),
    )


def _truck(distance: float | None, end: float, way: int) -> float | None:
    return None if distance is None else end + way * distance


def _swing(ahead: float | None, curve: CurveLayout) -> float | None:
    """Return how far the truck at `ahead` stands off the frames on the curve drawn, mm."""
    if ahead is None:
        return None
    return next(abs(axle.shift) for axle in curve.axles if axle.ahead == ahead)


def _askew(positions: tuple[float, ...], radius: float) -> float:
    half = abs(positions[0] - positions[-1]) / 2
    return (
        0.0
        if math.isinf(radius) or radius <= 0
        else math.degrees(math.asin(min(half / radius, 1.0)))
    )


def _curve(
    wheels: Wheels, track: Track
) -> tuple[Limit, CurveLayout, tuple[Working, ...], list[Finding]]:
    positions, plays = wheels.positions, wheels.plays
    play = track.play + wheels.gauge_widening
    wheel_radius = wheels.driving_diameter / 2
    angle, by = greatest_attack_angle()
    limit = smallest(positions, plays, play, wheel_radius, track.flange_angle, angle)
    wanted = wheels.radius_wanted
    drawn = wanted if wanted is not None else min(limit.radius, STRAIGHT)
    base = abs(positions[0] - positions[-1])
    trucks = tuple(
        x
        for x in (
            _truck(wheels.leading_truck, positions[0], 1),
            _truck(wheels.trailing_truck, positions[-1], -1),
        )
        if x is not None
    )
    curve = layout(
        positions, plays, play, track.gauge + wheels.gauge_widening, max(drawn, base), trucks
    )
    workings: list[Working] = []
    if math.isfinite(limit.radius) and limit.radius > 0:  # a single axle goes round any curve
        if len(limit.axles) == 3:
            x = [positions[i] for i in limit.axles]
            workings.append(
                relations.offset_from_chord.work(
                    "Middle axle off the chord of the ends, on the smallest curve",
                    "mm",
                    a=abs(x[0] - x[1]),
                    b=abs(x[1] - x[2]),
                    R=limit.radius,
                )
            )
        askew = math.asin(min(base / 2 / limit.radius, 1.0))
        workings.append(
            relations.flange_reach.work(
                "Play that an end wheel uses up by standing askew",
                "mm",
                r=wheel_radius,
                alpha=askew,
                beta=math.radians(track.flange_angle),
            )
        )
        if len(limit.axles) == 2:
            workings.append(
                relations.radius_of_attack.work(
                    "Smallest radius for the wheels' angle to the rail", "mm", B=base, alpha=askew
                )
            )
    findings = _judged_curve(wheels, limit, wanted, by)
    return limit, curve, tuple(workings), findings


def _judged_curve(wheels: Wheels, limit: Limit, wanted: float | None, by: str) -> list[Finding]:
    paths = ("wheels.across.side_play", "wheels.wheelbase", "wheels.radius_wanted")
    source = f"chord geometry, all plays used; {by} for the greatest angle"
    if math.isinf(limit.radius):
        return [
            Finding(
                "stop",
                CHAPTER,
                paths,
                "With no side play and no play between the rails this wheelbase goes round no "
                "curve at all.",
                "Give the end axles side play.",
                source,
            )
        ]
    metres = f"{limit.radius / 1000:.2f} m"
    if wanted is None:
        return [
            Finding(
                "fine",
                CHAPTER,
                paths,
                f"The coupled wheelbase goes round {metres}; {limit.rule} sets it.",
                source=source,
            )
        ]
    if limit.radius > wanted:
        return [
            Finding(
                "stop",
                CHAPTER,
                paths,
                f"The coupled wheelbase needs a curve of {metres}; {wanted / 1000:.2f} m is "
                f"wanted. {limit.rule[:1].upper()}{limit.rule[1:]} sets it.",
                "Give more side play to the middle or the end axles, widen the gauge there, or "
                "take the flanges off the middle wheels.",
                source,
            )
        ]
    return [
        Finding(
            "fine",
            CHAPTER,
            paths,
            f"The coupled wheelbase goes round {metres}, so {wanted / 1000:.2f} m is easy "
            f"enough; {limit.rule} sets it.",
            source=source,
        )
    ]


def _layout(wheels: Wheels, number: int) -> list[Finding]:
    found = []
    if number > 2:
        found.append(
            Finding(
                "check",
                CHAPTER,
                ("wheels.cylinders",),
                f"This chapter lays out two cylinders; the design has {number}.",
                "Check the others by hand.",
                "limit of this workbook",
            )
        )
    cylinders, play = wheels.cylinders, wheels.plays[wheels.driven_axle - 1]
    if isinstance(cylinders, InsideCylinders) and play > cylinders.pin_length - cylinders.big_end:
        found.append(
            Finding(
                "check",
                CHAPTER,
                ("wheels.across.side_play", "wheels.cylinders.big_end"),
                f"The crank axle slides {play:.2f} mm each way, more than its big ends float.",
                "Keep the driven axle's play within the float of the big ends, and give it to "
                "the others.",
            )
        )
    return found
