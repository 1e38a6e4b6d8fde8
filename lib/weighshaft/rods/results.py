"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..motion.frame import Array
from ..sizes import figure
from ..working import Working


@dataclass(frozen=True)
class Span:
    """One coupling rod from crankpin to crankpin, or the connecting rod.

    Parameters
    ----------
    length : between centres, mm.
    area, upright, sideways : of the section, mm2 and mm4 for bending up and down, and sideways.
    shared, load : thrust where all wheels pull alike, and the greatest there can be, N.
    euler_upright, euler_sideways, rankine : buckling loads, N; Rankine's the less of the two.
    buckling : Rankine's load over the greatest thrust.
    whip_running, whip_top : bending stress at running and at greatest speed, N/mm2.
    stress : thrust and whip together at greatest speed, N/mm2; None where the rod bows out.
    factor : proof stress over that, None likewise.
    bow : deflection by whip at greatest speed, mm.
    """

    name: str
    length: float
    depth: float
    thickness: float
    area: float
    upright: float
    sideways: float
    shared: float
    load: float
    euler_upright: float
    euler_sideways: float
    rankine: float
    buckling: float
    whip_running: float
    whip_top: float
    stress: float | None
    factor: float | None
    bow: float


@dataclass(frozen=True)
class Stretch:
    """How the centres of two neighbouring axles change with their height, mm.

    Parameters
    ----------
    apart : centres of axles and rod alike.
    one_up : further apart with one axle up by the rise.
    stops : with one at its upper and the other at its lower stop.
    tilt : of the rod then, degrees.
    """

    name: str
    apart: float
    one_up: float
    stops: float
    tilt: float


@dataclass(frozen=True)
class Wheel:
    """What one coupled wheel is to carry, and what is left.

    Parameters
    ----------
    needed, angle : mass times radius of the weight, g mm, and where it stands, degrees from
        opposite its own crank in the direction of forward running.
    turning : of `needed`, what balances masses that only turn, g mm.
    arc, mass, radius : of the piece of ring that gives it, or as much as there is room for:
        its whole angle in degrees, g, and mm to its centre of mass.
    made : mass times radius of that piece, g mm.
    left : what is left unbalanced up and down, g mm.
    blow : hammer blow at running speed, N.
    blow_top : at greatest speed, N.
    """

    axle: str
    side: str
    needed: float
    angle: float
    turning: float
    arc: float
    mass: float
    radius: float
    made: float
    left: float
    blow: float
    blow_top: float


@dataclass(frozen=True)
class Masses:
    """Masses of one side, g, as weighed or as reckoned from the sizes.

    Parameters
    ----------
    reciprocating : piston, rod and crosshead with the connecting rod's small end.
    """

    pistons: float
    small_end: float
    big_end: float
    coupling: float
    reciprocating: float
    source: tuple[tuple[str, str], ...]


@dataclass(frozen=True, eq=False, kw_only=True)
class RodsResult:
    """Figures, workings and findings; see `Rods` for the decisions.

    "Running" is at the greatest speed where no running speed is known.

    Parameters
    ----------
    bars : (n, 3) crank angles (degrees), force on the slide bars at a standstill and at running
        speed (N), up on the upper bar; running forward; no rows where there are none.
    speeds : (m, 5) km/h, then whip of the worst coupling rod, whip of the connecting rod (N/mm2),
        hammer blow of the worst wheel, fore-and-aft force (N).
    """

    running_speed: float | None = figure("Running speed taken for the rods", "km/h")
    top_speed: float = figure("Greatest speed taken for the rods", "km/h")
    turns: float = figure("Turns of the wheels at that speed", "rev/min")
    bush_at_stops: float | None = figure("Clearance that the rod bushes need, boxes at their stops")
    rigid_play: float | None = figure("A rigid rod lets an inner axle leave the line by")
    off_line: float | None = figure("An inner axle leaves the line by")
    knuckle_pressure: float | None = figure("Knuckle pin pressure", "N/mm2")
    coupling_buckling: float | None = figure("Coupling rod, buckling load over thrust", "ratio")
    coupling_stress: float | None = figure("Coupling rod, thrust and whip", "N/mm2")
    coupling_factor: float | None = figure("Coupling rod, factor on proof stress", "ratio",
                                           main=True)  # fmt: skip
    connecting_buckling: float | None = figure("Connecting rod, buckling load over thrust", "ratio")
    connecting_factor: float | None = figure("Connecting rod, factor on proof stress", "ratio",
                                             main=True)  # fmt: skip
    gudgeon_pressure: float | None = figure("Gudgeon pin pressure", "N/mm2")
    bar_force: float | None = figure("Greatest force on a slide bar, running", "N", main=True)
    bar_angle: float | None = figure("Crank angle of it, forward", "deg")
    slipper_pressure: float | None = figure("Slipper pressure, running", "N/mm2")
    reciprocating: float = figure("Reciprocating masses of one side", "g", main=True)
    weight: float | None = figure("Balance weight of a driving wheel", "g")
    blow: float = figure("Hammer blow of a wheel, running", "N", main=True)
    blow_share: float = figure("Hammer blow, of the wheel's load", "%", main=True)
    blow_top: float = figure("Hammer blow of a wheel at greatest speed", "N")
    wheel_load: float = figure("Load of a coupled wheel on the rail", "N")
    lift_speed: float | None = figure("Speed at which a wheel would leave the rail", "km/h")
    shake: float = figure("Force left along the engine, running", "N")
    sway: float = figure("Couple left about the upright, running", "N mm")
    shake_top: float = figure("Force left along the engine at greatest speed", "N")
    spans: tuple[Span, ...]
    connecting: Span | None
    stretches: tuple[Stretch, ...]
    masses: Masses
    wheels: tuple[Wheel, ...]
    bars: Array
    speeds: Array
    layout: Layout
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True)
class Layout:
    """What the pictures place, mm: taken from the whole engine and the decisions.

    Parameters
    ----------
    places : of the coupled axles ahead of the driving one, from the front.
    eye, pin : of the coupling rods.
    throw : of the coupling rods' pins.
    knuckles : places of the knuckle pins, as `places`.
    flute : depth and height.
    wheel : radius of the driving wheel.
    ring : inner and outer radius of the balance weights.
    slope : of the cylinder, degrees.
    driven : index of the driving axle among the coupled ones.
    """

    places: tuple[float, ...]
    eye: float
    pin: float
    throw: float
    knuckles: tuple[float, ...]
    knuckle_pin: float
    flute: tuple[float, float]
    wheel: float
    ring: tuple[float, float]
    slope: float
    driven: int
