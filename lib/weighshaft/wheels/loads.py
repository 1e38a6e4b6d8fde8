"""Journals, crankpins, axle and wheel seat under piston thrust and weight; coupling rods."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..findings import Finding
from ..fits import (
    COMPOUND_HOTTEST,
    COMPOUND_LETS_GO,
    MEMORY,
    WIDEST_GAP,
    Fit,
    PressedSeat,
    RetainedSeat,
    carried,
)
from ..measures import GRAVITY
from ..working import Working
from . import relations
from .decisions import InsideCylinders, Wheels
from .track import CHAPTER, Track

# What bearings and axles of steam engines are run at, N/mm2; full-size practice and
# text-book fatigue figures from memory, unconfirmed.  The thrust on a journal is reckoned
# with both pistons at full pressure, so it stands above the figures for weight alone.
JOURNAL_MOST = 7.0
PIN_MOST = 12.0
AXLE_MOST = 90.0


@dataclass(frozen=True)
class Loads:
    """Pressures and stresses in N/mm2, torques in N mm, clearance in mm."""

    journal_pressure: float
    driving_pin_pressure: float
    coupled_pin_pressure: float
    bending: float
    twist: float
    axle_stress: float
    seat_torque: float
    grip_torque: float
    seat_fit: Fit
    bush_needed: float
    workings: tuple[Working, ...]
    findings: tuple[Finding, ...]

    @property
    def seat_ratio(self) -> float:
        """What the seat carries over what it must carry."""
        return self.seat_fit.torque / self.seat_torque


def under_load(
    wheels: Wheels,
    track: Track,
    *,
    crank_throw: float,
    crank_angle: float,
    piston_load: float,
    coupled_weight: float,
    adhesion: float,
) -> Loads:
    """Return pressures, stresses and torques; see `work` for the parameters."""
    between, d = wheels.between, wheels.axle_diameter
    axles = len(wheels.positions)
    on_wheel = coupled_weight * GRAVITY / axles / 2
    box = between.axlebox_outside + between.frame_thickness + between.axlebox_inside
    journal = between.frame_spacing / 2 - between.axlebox_inside + box / 2
    middle = wheels.cylinders.centres / 2
    inside = isinstance(wheels.cylinders, InsideCylinders)
    thrust = relations.journal_thrust.work(
        "Thrust on a journal", "N", P=piston_load, z_c=max(middle, journal), z_j=journal
    )
    pressure = relations.journal_pressure.work(
        "Journal pressure", "N/mm2", H=thrust.result, W=on_wheel, d=d, L=box
    )
    pin = relations.pin_pressure.work(
        "Driving crankpin pressure",
        "N/mm2",
        P=piston_load,
        d=wheels.cylinders.crankpin,
        L=wheels.cylinders.big_end,
    )
    wheel_radius = wheels.driving_diameter / 2
    by_grip = adhesion * 2 * on_wheel * wheel_radius / crank_throw
    coupled = relations.pin_pressure.work(
        "Coupled crankpin pressure",
        "N/mm2",
        P=min(piston_load, by_grip),
        d=wheels.across.crankpin,
        L=wheels.across.coupling_rod,
    )
    moment = relations.bending_moment.work(
        "Bending moment in the axle",
        "N mm",
        P=piston_load,
        x=abs(middle - journal),
        W=on_wheel,
        y=abs(track.gauge / 2 - journal),
    )
    half = math.radians(crank_angle) / 2
    together = 2 * max(abs(math.cos(half)), abs(math.sin(half))) if inside else 1.0
    torque = relations.axle_torque.work(
        "Torque that the wheel seat must carry", "N mm", P=piston_load, r=crank_throw, k=together
    )
    bending = relations.bending_stress.work("Bending stress", "N/mm2", M=moment.result, d=d)
    twist = relations.twisting_stress.work("Twisting stress", "N/mm2", T=torque.result, d=d)
    stress = relations.combined_stress.work(
        "Bending and twist together", "N/mm2", s=bending.result, t=twist.result
    )
    fit = carried(wheels.seat, wheels.seat_bore)
    bush, rods = _rods(wheels, crank_throw, crank_angle)
    findings = [
        *_bearings(wheels, pressure.result, pin.result, coupled.result),
        *_axle(stress.result, d),
        *_seat(wheels, fit, torque.result),
        *_bushes(wheels, bush),
    ]
    return Loads(
        journal_pressure=pressure.result,
        driving_pin_pressure=pin.result,
        coupled_pin_pressure=coupled.result,
        bending=bending.result,
        twist=twist.result,
        axle_stress=stress.result,
        seat_torque=torque.result,
        grip_torque=adhesion * on_wheel * axles * wheel_radius,
        seat_fit=fit,
        bush_needed=bush,
        workings=(
            thrust,
            pressure,
            pin,
            coupled,
            moment,
            torque,
            bending,
            twist,
            stress,
            *fit.workings,
            *rods,
        ),
        findings=tuple(findings),
    )


def _rods(
    wheels: Wheels, crank_throw: float, crank_angle: float
) -> tuple[float, tuple[Working, ...]]:
    """Return the clearance that the rod bushes need and the way to it.

    The shortest pair of axles suffers most from one standing above the other.
    """
    true = wheels.quartering
    if not wheels.wheelbase:
        return 0.0, ()  # a single driving axle has no coupling rods
    stretch = relations.lift_stretch.work(
        "Axles further apart when one is lifted", "mm", L=min(wheels.wheelbase), v=true.axle_lift
    )
    half = math.radians(crank_angle) / 2
    share = max(abs(math.cos(half)), abs(math.sin(half))) / 2
    bush = relations.bush_clearance.work(
        "Clearance that the rod bushes need",
        "mm",
        r=crank_throw,
        epsilon=math.radians(true.quartering_error),
        k=share,
        delta=true.centre_error + stretch.result,
    )
    return bush.result, (stretch, bush)


def _bearings(wheels: Wheels, journal: float, pin: float, coupled: float) -> list[Finding]:
    found = []
    source = f"full-size practice, {MEMORY}"
    rows = (
        (journal, JOURNAL_MOST, "journals", "wheels.axle_diameter", "the axle or the axleboxes"),
        (pin, PIN_MOST, "driving crankpin", "wheels.cylinders.crankpin", "the pin or the big end"),
        (coupled, PIN_MOST, "coupled crankpins", "wheels.across.crankpin", "the pins or the rods"),
    )
    for value, most, name, path, thicken in rows:
        says = f"The {name} bear at {value:.1f} N/mm²; up to {most:g} N/mm² is usual."
        says = says.replace("crankpin bear", "crankpin bears")
        if value > most:
            found.append(Finding("check", CHAPTER, (path,), says, f"Enlarge {thicken}.", source))
        else:
            found.append(Finding("fine", CHAPTER, (path,), says, source=source))
    return found


def _axle(stress: float, d: float) -> list[Finding]:
    path = "wheels.axle_diameter"
    source = f"fatigue of mild steel at a wheel seat, {MEMORY}"
    if stress <= AXLE_MOST:
        return [
            Finding(
                "fine",
                CHAPTER,
                (path,),
                f"The axle stands {stress:.0f} N/mm² in bending and twist together.",
                source=source,
            )
        ]
    needed = d * (stress / AXLE_MOST) ** (1 / 3)
    return [
        Finding(
            "check",
            CHAPTER,
            (path,),
            f"The axle stands {stress:.0f} N/mm² in bending and twist together; mild steel "
            f"that turns under load should stay below about {AXLE_MOST:g}.",
            f"An axle of {needed:.2f} mm would do, or a better steel.",
            source,
            (path, round(needed + 0.005, 2)),
        )
    ]


def _seat(wheels: Wheels, fit: Fit, torque: float) -> list[Finding]:
    seat, found = wheels.seat, []
    path = "wheels.seat"
    says = (
        f"The wheel seat carries {fit.torque / 1000:.2f} N m ({fit.limits_by}) and must carry "
        f"{torque / 1000:.2f} N m: {fit.torque / torque:.1f} times as much."
    )
    mend = "Lengthen or thicken the seat, or key the wheel as well."
    if fit.torque < torque:
        found.append(Finding("stop", CHAPTER, (f"{path}.length",), says, mend, MEMORY))
    elif fit.torque < wheels.seat_factor * torque:
        wanted = f"A factor of {wheels.seat_factor:g} is wanted. "
        found.append(Finding("check", CHAPTER, (f"{path}.length",), says, wanted + mend, MEMORY))
    else:
        found.append(Finding("fine", CHAPTER, (f"{path}.length",), says, source=MEMORY))
    if isinstance(seat, RetainedSeat):
        found += _compound(seat, path)
    if isinstance(seat, PressedSeat):
        found += _press(seat, fit, path)
    return found


def _compound(seat: RetainedSeat, path: str) -> list[Finding]:
    found = []
    if seat.temperature > COMPOUND_HOTTEST:
        found.append(
            Finding(
                "stop",
                CHAPTER,
                (f"{path}.temperature",),
                f"At {seat.temperature:g} °C an ordinary retaining compound holds nothing that "
                f"may be relied on; about {COMPOUND_HOTTEST:g} °C is its limit, and near "
                f"{COMPOUND_LETS_GO:g} °C it lets go for good.",
                "Key or press the wheel, or keep it cooler. Never braze near a bonded wheel.",
                MEMORY,
            )
        )
    if seat.gap > WIDEST_GAP:
        found.append(
            Finding(
                "check",
                CHAPTER,
                (f"{path}.gap",),
                f"A gap of {seat.gap:.2f} mm is too wide for the compound, whose strength "
                f"is taken down to {WIDEST_GAP / seat.gap:.0%}.",
                f"Keep below {WIDEST_GAP:g} mm on the diameter; 0.03 to 0.06 mm is usual.",
                MEMORY,
                (f"{path}.gap", 0.05),
            )
        )
    return found


def _press(seat: PressedSeat, fit: Fit, path: str) -> list[Finding]:
    fields = (f"{path}.interference", f"{path}.hub_diameter")
    if fit.pressure == 0:
        return [
            Finding(
                "stop",
                CHAPTER,
                fields,
                f"An interference of {seat.interference * 1000:.0f} µm is lost as the "
                "surfaces smooth; nothing holds the wheel.",
                "A thousandth of the diameter is usual.",
            )
        ]
    if fit.hoop is not None and fit.hoop_limit is not None and fit.hoop > fit.hoop_limit:
        share = fit.hoop_limit / fit.hoop
        most = seat.smoothing + (seat.interference - seat.smoothing) * share
        return [
            Finding(
                "stop",
                CHAPTER,
                fields,
                f"Pressing on pulls the boss with {fit.hoop:.0f} N/mm²; {seat.metal} bears "
                f"about {fit.hoop_limit:g}: it may split or give.",
                f"Up to {most * 1000:.0f} µm of interference would do, or a larger boss.",
                MEMORY,
                (fields[0], round(most - 0.0005, 3)),
            )
        ]
    return []


def _bushes(wheels: Wheels, needed: float) -> list[Finding]:
    path, has = "wheels.quartering.bush_clearance", wheels.quartering.bush_clearance
    errors = (
        f"{wheels.quartering.quartering_error:g}° between the quarterings and "
        f"{wheels.quartering.centre_error:g} mm between rod and axle centres"
    )
    if has < needed:
        return [
            Finding(
                "check",
                CHAPTER,
                (path,),
                f"With {errors} the rods bind unless each bush has {needed:.3f} mm on the "
                f"diameter; it has {has:.3f} mm.",
                "Quarter the wheels in a jig, bore rods and axles alike, or ease the bushes.",
                "derived from the closing of both rods",
                (path, math.ceil(needed * 100) / 100),
            )
        ]
    return [
        Finding(
            "fine",
            CHAPTER,
            (path,),
            f"Bushes with {has:.3f} mm on the diameter run with {errors}; {needed:.3f} mm "
            "would do.",
            source="derived from the closing of both rods",
        )
    ]
