"""The chapter worked."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..cylinders.axis import Axis
from ..cylinders.decisions import Cylinders
from ..findings import Finding, Suggestion, by_level, still_open, unlocked
from ..frames.whole import Whole
from ..measures import GRAVITY
from ..motion.frame import Array
from ..trade.densities import density
from ..wheels import relations as wheeled
from ..wheels.decisions import InsideCylinders, Wheels
from ..working import Working
from . import balance, judgement, relations
from .centres import centres_of
from .decisions import ALL_AXLES, IN_LINE, OPPOSITE, Rods
from .masses import riding, shank, turning, weigh
from .results import Layout, Masses, RodsResult, Span, Wheel
from .slidebars import on_the_bars
from .strength import PER_MM3, Duty, Shape, span_of, whip_at

_IDLE = 300.0
"""Turns a minute taken for greatest speed where no speed is known; common practice."""
_POINTS = 41


@dataclass(frozen=True)
class _Speeds:
    """Running and greatest speed: km/h, and turning in rad/s."""

    running: float | None
    top: float
    slow: float
    fast: float
    usual: float


def work(
    rods: Rods,
    *,
    whole: Whole,
    wheels: Wheels,
    cylinders: Cylinders,
    axis: Axis,
    piston_load: float,
    bush_needed: float,
    speed: float | None,
    fixed: frozenset[str] = frozenset(),
) -> RodsResult:
    """Work the chapter.

    Parameters
    ----------
    whole : the engine in its frames.
    wheels, cylinders : what was decided there; axis : the parts along the cylinder.
    piston_load : of full pressure, N.
    bush_needed : clearance that the rod bushes need, from the wheels, mm.
    speed : of the model, km/h; None where none is known.
    fixed : paths of sizes that a bought part has settled; no button changes them.
    """
    at = _speeds(rods, speed, wheels.driving_diameter / 2)
    layout = _layout(rods, wheels, cylinders, whole)
    centres = centres_of(
        rods.coupling, wheels, whole.coupled, rise=whole.rise, bush_needed=bush_needed,
        eye=layout.eye,
    )  # fmt: skip
    layout = replace(layout, knuckles=centres.knuckles)
    spans, span_workings = _coupling(rods, whole, wheels, cylinders, piston_load, at, layout)
    connecting, rod_workings = _connecting(rods, whole, cylinders, piston_load, at)
    masses = weigh(rods, whole)
    swings = whole.drive.trunnion is not None
    bars = np.zeros((0, 3)) if swings else _bars(whole, piston_load, masses, at.slow)
    pins = _pins(rods, whole, wheels, axis, connecting, spans, piston_load, layout)
    made, left, ways = _balance(rods, whole, wheels, cylinders, masses, at, layout)
    load = cylinders.coupled_weight * GRAVITY / len(wheels.positions) / 2
    found: list[Finding] = [*judgement.of_centres(rods, wheels, centres)]
    weakest = min(spans, key=_weakness, default=None)
    if weakest is not None:
        fields = ("rods.coupling.depth", "wheels.across.coupling_rod")
        deeper = _deeper(rods, weakest, layout, wheels, at)
        found += judgement.of_span(weakest, rods, deeper, fields)
    if connecting is not None:
        fields = ("clearance.widths.connecting_rod", "wheels.cylinders.big_end")
        found += judgement.of_span(connecting, rods, None, fields)
    found += judgement.of_pins(pins.gudgeon, pins.knuckle, layout.knuckle_pin)
    worst, shake = max(made, key=lambda one: one.left), abs(left.force)
    speed, omega = (at.top, at.fast) if at.running is None else (at.running, at.slow)
    blow = relations.centrifugal(U=worst.left / 1000, omega=omega)
    found += judgement.of_balance(
        rods, made, blow, load, speed, relations.centrifugal(U=shake, omega=omega),
        cylinders.engine_weight * GRAVITY, layout,
    )  # fmt: skip
    other = OPPOSITE if rods.coupling.pins == IN_LINE else IN_LINE
    turned = replace(rods, coupling=replace(rods.coupling, pins=other))
    against, _, _ = _balance(turned, whole, wheels, cylinders, masses, at, layout)
    found += judgement.of_pins_opposed(
        rods, wheels, _needed(made, "driving"), _needed(against, "driving")
    )
    found += judgement.of_masses(masses, cylinders.number, swings)
    worst_bar = bars[int(np.abs(bars[:, 2]).argmax())].tolist() if len(bars) else None
    most = None if worst_bar is None else abs(worst_bar[2])
    slipper = (axis.slipper_ahead + axis.slipper_behind) * axis.slipper_width
    fitted = next((one for one in made if one.axle == "driving"), made[0])
    lifts = math.sqrt(1000 * load / (worst.left / 1000)) if worst.left > 0 else None
    radius = wheels.driving_diameter / 2
    return RodsResult(
        running_speed=at.running,
        top_speed=at.top,
        turns=at.fast * 30 / math.pi,
        bush_at_stops=centres.at_stops,
        rigid_play=centres.play,
        off_line=None if centres.off_line is None else max(centres.off_line),
        knuckle_pressure=pins.knuckle,
        coupling_buckling=min((one.buckling for one in spans), default=None),
        coupling_stress=None if weakest is None else weakest.stress,
        coupling_factor=None if weakest is None else weakest.factor,
        connecting_buckling=None if connecting is None else connecting.buckling,
        connecting_factor=None if connecting is None else connecting.factor,
        gudgeon_pressure=pins.gudgeon,
        bar_force=most,
        bar_angle=None if worst_bar is None else worst_bar[0],
        slipper_pressure=None if most is None else most / max(slipper, 0.01),
        reciprocating=masses.reciprocating,
        weight=fitted.mass if rods.balance.fitted else None,
        blow=blow,
        blow_share=100 * blow / load,
        blow_top=worst.blow_top,
        wheel_load=load,
        lift_speed=None if lifts is None else lifts * radius / 1000 * 3.6,
        shake=relations.centrifugal(U=shake, omega=omega),
        sway=relations.centrifugal(U=abs(left.couple), omega=omega),
        shake_top=relations.centrifugal(U=shake, omega=at.fast),
        spans=spans,
        connecting=connecting,
        stretches=centres.stretches,
        masses=masses,
        wheels=made,
        bars=bars,
        speeds=_by_speed(rods, whole, spans, connecting, worst.left, shake, at, radius),
        layout=layout,
        workings=(*centres.workings, *span_workings, *rod_workings, *pins.workings, *ways),
        suggestions=still_open(_suggested(rods, wheels, whole, axis, at, layout), fixed),
        findings=by_level(unlocked(found, fixed)),
    )  # fmt: skip


def _speeds(rods: Rods, running: float | None, radius: float) -> _Speeds:
    """Return the speeds taken; see `_Speeds`."""

    def turning(kmh: float) -> float:
        return kmh / 3.6 * 1000 / radius

    running = running if running else None
    usual = _IDLE * math.pi / 30 * radius / 1000 * 3.6 if running is None else 2 * running
    top = usual if rods.top_speed is None else rods.top_speed
    slow = 0.0 if running is None else turning(running)
    return _Speeds(running, top, slow, turning(top), usual)


def _layout(rods: Rods, wheels: Wheels, cylinders: Cylinders, whole: Whole) -> Layout:
    pin = wheels.across.crankpin
    bar = shank(next(iter(riding(whole, "coupling")), None))
    depth = 2 * bar.half if bar is not None else 0.8 * wheels.axle_diameter
    coupling, weights, radius = rods.coupling, rods.balance, wheels.driving_diameter / 2
    thick = bar.outer - bar.inner if bar is not None else wheels.across.coupling_rod
    flute = min(coupling.flute, 0.45 * thick)
    high = 0.5 * depth if coupling.flute_height is None else coupling.flute_height
    outside = 0.85 * radius if weights.outside is None else weights.outside
    inside = 0.4 * radius if weights.inside is None else weights.inside
    return Layout(
        places=wheels.positions,
        eye=2 * pin if coupling.eye is None else coupling.eye,
        pin=pin, throw=abs(whole.drive.coupled_throw), knuckles=(),
        knuckle_pin=0.7 * pin if coupling.knuckle_pin is None else coupling.knuckle_pin,
        flute=(flute, min(high, 0.9 * depth) if flute else 0.0),
        wheel=radius, ring=(min(inside, 0.95 * outside), outside),
        slope=cylinders.inclination, driven=wheels.driven_axle - 1,
    )  # fmt: skip


def _shape(rods: Rods, whole: Whole, layout: Layout) -> Shape | None:
    bar = shank(next(iter(riding(whole, "coupling")), None))
    if bar is None:
        return None
    return Shape(2 * bar.half, bar.outer - bar.inner, *layout.flute)


def _coupling(
    rods: Rods, whole: Whole, wheels: Wheels, cylinders: Cylinders, piston_load: float,
    at: _Speeds, layout: Layout,
) -> tuple[tuple[Span, ...], tuple[Working, ...]]:  # fmt: skip
    """Return the rods between neighbouring axles, each loaded by the axles beyond it."""
    shape = _shape(rods, whole, layout)
    if shape is None:
        return (), ()
    axles, count = whole.coupled, len(whole.coupled)
    on_axle = cylinders.coupled_weight * GRAVITY / count
    spans, ways = [], []
    for n in range(count - 1):
        beyond = n + 1 if n < layout.driven else count - 1 - n
        grip = relations.grip_load.work(
            f"Thrust that the wheels beyond the rod {_between(whole, n)} can take", "N",
            mu=cylinders.haulage.adhesion, W=beyond * on_axle, R=layout.wheel,
            r=max(layout.throw, 0.1),
        )  # fmt: skip
        load = min(piston_load, grip.result)
        duty = Duty(min(piston_load * beyond / count, load), load, layout.throw, at.slow, at.fast)
        long = axles[n].ahead - axles[n + 1].ahead
        span, workings = span_of(
            f"coupling rod {_between(whole, n)}", shape, rods.coupling.material, long, duty
        )
        spans.append(span)
        ways.append((grip, *workings))
    weakest = spans.index(min(spans, key=_weakness))
    return tuple(spans), ways[weakest]


def _between(whole: Whole, n: int) -> str:
    return f"{whole.coupled[n].name} to {whole.coupled[n + 1].name}"


def _weakness(span: Span) -> float:
    return min(span.buckling, span.factor or 0.0)


def _connecting(
    rods: Rods, whole: Whole, cylinders: Cylinders, piston_load: float, at: _Speeds
) -> tuple[Span | None, tuple[Working, ...]]:
    bar = shank(next(iter(riding(whole, "connecting")), None))
    if bar is None or whole.drive.trunnion is not None:
        return None, ()
    crank = whole.drive.crank
    slant = (crank.throw + abs(crank.cylinder_offset)) / crank.connecting_rod
    load = piston_load / math.sqrt(1 - slant**2)
    shape = Shape(2 * bar.half, bar.outer - bar.inner)
    duty = Duty(load, load, crank.throw, at.slow, at.fast, connecting=True)
    return span_of("connecting rod", shape, rods.coupling.material, crank.connecting_rod, duty)


def _bars(whole: Whole, piston_load: float, masses: Masses, omega: float) -> Array:
    drive, mass = whole.drive, masses.reciprocating / 1000
    theta, still = on_the_bars(drive.crank, piston_load, mass, 0.0, slope=drive.inclination)
    _, running = on_the_bars(drive.crank, piston_load, mass, omega, slope=drive.inclination)
    return np.stack([theta, still, running], axis=-1)


@dataclass(frozen=True)
class _Pins:
    gudgeon: float | None
    knuckle: float | None
    workings: tuple[Working, ...]


def _gudgeon(rods: Rods, whole: Whole, axis: Axis) -> tuple[float, float]:
    """Return diameter and width of the gudgeon pin's bearing, mm."""
    bar = shank(next(iter(riding(whole, "connecting")), None))
    thick = bar.outer - bar.inner if bar is not None else axis.rod
    given = rods.small_end
    return (
        1.1 * axis.rod if given.diameter is None else given.diameter,
        thick if given.width is None else given.width,
    )


def _pins(
    rods: Rods, whole: Whole, wheels: Wheels, axis: Axis, connecting: Span | None,
    spans: tuple[Span, ...], piston_load: float, layout: Layout,
) -> _Pins:  # fmt: skip
    gudgeon = knuckle = None
    ways = []
    if connecting is not None:
        diameter, width = _gudgeon(rods, whole, axis)
        way = wheeled.pin_pressure.work(
            "Gudgeon pin pressure", "N/mm2", P=connecting.load, d=diameter, L=width
        )
        gudgeon = way.result
        ways.append(way)
    if layout.knuckles and spans:
        way = wheeled.pin_pressure.work(
            "Knuckle pin pressure", "N/mm2", P=max(one.load for one in spans),
            d=layout.knuckle_pin, L=spans[0].thickness / 2,
        )  # fmt: skip
        knuckle = way.result
        ways.append(way)
    return _Pins(gudgeon, knuckle, tuple(ways))


def _balance(
    rods: Rods, whole: Whole, wheels: Wheels, cylinders: Cylinders, masses: Masses,
    at: _Speeds, layout: Layout,
) -> tuple[tuple[Wheel, ...], balance.Left, tuple[Working, ...]]:  # fmt: skip
    """Return the weights, what is left, and the way to it."""
    decided, coupled = rods.balance, whole.coupled
    inside = isinstance(wheels.cylinders, InsideCylinders)
    number = min(cylinders.number, 2)
    share = decided.share / 100 if decided.fitted else 0.0
    if decided.axles == ALL_AXLES:
        shares = tuple(share / len(coupled) for _ in coupled)
    else:
        shares = tuple(share if n == layout.driven else 0.0 for n in range(len(coupled)))
    thick = 0.6 * whole.tyre_width if decided.thickness is None else decided.thickness
    ring = balance.Ring(*layout.ring, thick, density(decided.material) * PER_MM3)
    engine = balance.Engine(
        axles=tuple(one.name for one in coupled),
        wheel_plane=(whole.back_to_back + whole.tyre_width) / 2,
        lead=whole.drive.crank_angle,
        turned=turning(rods, whole, masses, inside, wheels.cylinders.centres, number),
        to_and_fro=masses.reciprocating / 1000 * whole.drive.crank.throw,
        cylinder_plane=wheels.cylinders.centres / 2, number=number, shares=shares,
        most=ring.most if decided.fitted else 0.0,
    )  # fmt: skip
    made, left = balance.balanced(engine, ring, at.slow, at.fast)
    return made, left, tuple(balance.shown(engine, made, share, at.slow or at.fast))


def _needed(made: tuple[Wheel, ...], axle: str) -> float:
    return max((one.needed for one in made if one.axle == axle), default=0.0)


def _by_speed(
    rods: Rods, whole: Whole, spans: tuple[Span, ...], connecting: Span | None, worst: float,
    shake: float, at: _Speeds, radius: float,
) -> Array:  # fmt: skip
    """Return the rows that the charts against speed are drawn of; see `RodsResult`."""
    metal, rows = rods.coupling.material, []
    for speed in np.linspace(0.0, 1.25 * at.top, _POINTS).tolist():
        omega = speed / 3.6 * 1000 / radius
        coupling = max(
            (whip_at(one, metal, abs(whole.drive.coupled_throw), omega, False) for one in spans),
            default=0.0,
        )
        rod = 0.0 if connecting is None else whip_at(
            connecting, metal, whole.drive.crank.throw, omega, True
        )  # fmt: skip
        rows.append(
            (
                speed, coupling, rod, relations.centrifugal(U=worst / 1000, omega=omega),
                relations.centrifugal(U=shake, omega=omega),
            )
        )  # fmt: skip
    return np.array(rows)


def _deeper(rods: Rods, weakest: Span, layout: Layout, wheels: Wheels, at: _Speeds) -> float | None:
    """Return a depth of coupling rod that gives the factor wanted; None where none does."""
    duty = Duty(weakest.shared, weakest.load, layout.throw, at.slow, at.fast)
    flute, high = layout.flute
    for n in range(1, 41):
        depth = round(weakest.depth * (1 + 0.05 * n), 2)
        shape = Shape(depth, weakest.thickness, flute, high * depth / weakest.depth)
        tried, _ = span_of(weakest.name, shape, rods.coupling.material, weakest.length, duty)
        if _weakness(tried) >= rods.factor and depth <= 1.5 * layout.eye:
            return depth
    return None


def _suggested(
    rods: Rods, wheels: Wheels, whole: Whole, axis: Axis, at: _Speeds, layout: Layout
) -> tuple[Suggestion, ...]:
    """Return what is taken for sizes left empty."""
    pin, radius = wheels.across.crankpin, layout.wheel
    shape = _shape(rods, whole, layout)
    _, width = _gudgeon(rods, whole, axis)
    told = [
        ("coupling.depth", 0.8 * wheels.axle_diameter, "0.8 of the axle's diameter"),
        ("coupling.eye", 2 * pin, "twice the crankpin"),
        ("coupling.knuckle", 0.9 * layout.eye, "0.9 of the eye"),
        ("coupling.knuckle_pin", 0.7 * pin, "0.7 of the crankpin"),
        ("balance.outside", 0.85 * radius, "0.85 of the wheel's radius"),
        ("balance.inside", 0.4 * radius, "0.4 of the wheel's radius"),
        ("balance.thickness", 0.6 * whole.tyre_width, "0.6 of the tyre's width"),
        ("small_end.diameter", 1.1 * axis.rod, "1.1 of the piston rod"),
        ("small_end.width", width, "as thick as the connecting rod's shank"),
        (
            "top_speed", at.usual,
            "twice the running speed" if at.running else f"{_IDLE:g} turns a minute",
        ),
    ]  # fmt: skip
    if shape is not None and rods.coupling.flute:
        told.append(("coupling.flute_height", 0.5 * shape.depth, "half of the rod's depth"))
    return tuple(Suggestion(f"rods.{name}", round(value, 2), why) for name, value, why in told)
