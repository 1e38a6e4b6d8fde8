"""What holds the train back: wheels, bearings, curves, air and the engine's own friction."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..measures import GRAVITY
from ..working import Working
from . import relations
from .decisions import BALL, BY_HAULAGE, CLEAN, DRY, GREASY, OILED, WET, Driving, Train
from .results import Share

FRICTION = {BALL: 0.0015, OILED: 0.1, DRY: 0.25}
"""Of a bearing; ball bearings from a maker's catalogue (from memory), small oiled journals that
turn too slowly for a film and dry ones common practice.  Molesworth, p. 219, gives 0.018 and 0.035
for full-size journals with oil and with grease, which turn on a film."""
SLIDING = 0.25
"""Wheel on rail, in a curve; Molesworth, p. 219: 0.1 to 0.27 with the weather."""
GRIP = {CLEAN: 1.0, WET: 1.0, GREASY: 0.5}
"""Over the grip that the haulage has: Bourne, question 495, has 1/5 on rails clean, wholly wet or
wholly dry, and 1/10 to 1/12 half wet or greasy."""
ROTATING = 0.06
"""Mass to be added for what turns; common practice."""
SMALL_GAUGE = 60.0
"""Gauge, mm, below which trains carry nobody."""


@dataclass(frozen=True, kw_only=True)
class Resistance:
    """All that holds a train back.

    Parameters
    ----------
    mass : of engine and train, kg; `inertia` with what turns.
    level : on straight level track but for the air, N: both, with their journals.
    curve : N for each 1/m of curvature.
    air : N for each (m/s)2.
    machine : of the engine's motion, at the rim, N.
    grip : what the rail holds, N.
    own_mass, own_level, own_curve : of these, the engine's.
    """

    mass: float
    inertia: float
    level: float
    curve: float
    air: float
    machine: float
    grip: float
    own_mass: float
    own_level: float
    own_curve: float

    def at(self, speed: float, slope: float = 0.0, curvature: float = 0.0) -> float:
        """Return the force, N, that hauls engine and train at `speed` m/s, without its motion."""
        return (
            self.level + self.curve * curvature + self.air * speed**2 + self.mass * GRAVITY * slope
        )

    def times(self, trains: float) -> Resistance:
        """Return it with the train so many times as heavy, and no more drag of the air."""
        mass = self.own_mass + trains * (self.mass - self.own_mass)
        return replace(
            self, mass=mass, inertia=mass * (1 + ROTATING),
            level=self.own_level + trains * (self.level - self.own_level),
            curve=self.own_curve + trains * (self.curve - self.own_curve),
        )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Rolling:
    """The engine as far as its resistance goes: masses kg, lengths mm, areas mm2.

    Parameters
    ----------
    areas : of all piston faces together.
    adhesion : grip over weight on clean rails.
    share : rolling resistance over weight, as the haulage has it.
    """

    mass: float
    coupled: float
    wheel: float
    axle: float
    wheelbase: float
    areas: float
    stroke: float
    adhesion: float
    share: float
    gauge: float
    length: float


@dataclass(frozen=True, kw_only=True)
class Coupled:
    """The train as it is taken, with everything left empty filled in."""

    mass: float
    passengers: int
    stock: float
    length: float
    wheel: float
    journal: float
    bearings: str
    rigid: float
    drag: float


def coupled(train: Train, engine: Rolling) -> Coupled:
    """Return the train with the usual where nothing was decided."""
    gauge, small = engine.gauge, engine.gauge < SMALL_GAUGE
    usual = 0 if small else max(1, round(engine.coupled / 12))
    people = usual if train.passengers is None else train.passengers
    stock = train.stock
    if stock is None:
        stock = round(0.7 * engine.mass, 1) if small else 12.0 * max(people, 1)
    wheel = round((0.6 if small else 0.8) * gauge, 1) if train.wheel is None else train.wheel
    drag = train.front
    if drag is None:
        # a front about twice the gauge wide and three high
        drag = 0.5 if people else round(6 * (gauge / 1000) ** 2, 4)
    return Coupled(
        mass=stock + people * train.passenger, passengers=people, stock=stock,
        length=engine.length + 15 * gauge if train.length is None else train.length,
        wheel=wheel, journal=round(0.14 * wheel, 1) if train.journal is None else train.journal,
        bearings=train.bearings or (OILED if small else BALL),
        rigid=2 * gauge if train.rigid is None else train.rigid, drag=drag,
    )  # fmt: skip


def resistance_of(
    train: Train, driving: Driving, engine: Rolling, rail: str
) -> tuple[Resistance, Coupled, tuple[Share, ...], tuple[Working, ...]]:
    """Return the resistance, the train as taken, what makes it up, and the workings."""
    behind = coupled(train, engine)
    workings = []

    def put(working: Working) -> float:
        workings.append(working)
        return working.result

    own = put(relations.rolling.work("Engine's wheels on the rail, of its weight", "ratio",
                                     D=engine.wheel))  # fmt: skip
    own_journals = put(relations.journal.work(
        "Engine's journals, of its weight", "ratio", mu=FRICTION[driving.own_bearings],
        d=engine.axle, D=engine.wheel,
    ))  # fmt: skip
    rolls = put(relations.rolling.work("Wagon wheels on the rail, of their weight", "ratio",
                                       D=behind.wheel))  # fmt: skip
    turns = put(relations.journal.work(
        "Wagon journals, of their weight", "ratio", mu=FRICTION[behind.bearings],
        d=behind.journal, D=behind.wheel,
    ))  # fmt: skip
    if train.taken == BY_HAULAGE:
        rolls, turns = engine.share, 0.0
    machine = put(relations.machine.work(
        "Friction of the motion, at the rim", "N", p=driving.friction, A=engine.areas,
        s=engine.stroke, D=engine.wheel,
    ))  # fmt: skip
    grip = put(relations.grip.work(
        "What the rail holds", "N", mu=engine.adhesion * GRIP[rail], m=engine.coupled, g=GRAVITY,
    ))  # fmt: skip
    weight, load = engine.mass * GRAVITY, behind.mass * GRAVITY
    # for 1/m: the relation wants one unit of length throughout
    own_curve = relations.curve(SLIDING, engine.gauge, engine.wheelbase, 1000.0) * weight
    curve = relations.curve(SLIDING, engine.gauge, behind.rigid, 1000.0) * load
    mass = engine.mass + behind.mass
    made = Resistance(
        mass=mass, inertia=mass * (1 + ROTATING),
        level=weight * (own + own_journals) + load * (rolls + turns),
        curve=own_curve + curve, air=relations.air(behind.drag, 1.0), machine=machine, grip=grip,
        own_mass=engine.mass, own_level=weight * (own + own_journals), own_curve=own_curve,
    )  # fmt: skip
    shares = (
        Share("Engine, wheels on the rail", weight * own),
        Share("Engine, journals", weight * own_journals),
        Share("Engine, its motion", machine),
        Share("Train, wheels on the rail", load * rolls),
        Share("Train, journals", load * turns),
    )
    return made, behind, shares, tuple(workings)
