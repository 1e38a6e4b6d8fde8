"""The chapter worked: weights, centre of gravity, axle loads, adhesion and ballast."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..cylinders.haulage import adhesion_factor
from ..findings import Suggestion, by_level, still_open, unlocked
from ..frames import Whole
from ..measures import GRAVITY
from ..trade.densities import density
from ..working import Working
from . import relations
from .ballast import for_share, levelling, loads_of
from .bearing import Borne, Support, borne, level_kept, supports_of
from .decisions import EACH, Bearing, Weights
from .judgement import Given, judge
from .masses import Mass, State, in_state, masses_of, sort_of_water
from .results import Used, WeightsResult

_STEPS = 20


@dataclass(frozen=True)
class Hauled:
    """What the cylinders give and were told.

    Parameters
    ----------
    tractive_effort : by the 0.85 rule, N.
    effort_full : at the rim in full gear by mean pressure, N.
    adhesion : friction over weight.
    resistance : rolling resistance over weight.
    engine_weight, coupled_weight : as decided there, kg.
    """

    tractive_effort: float
    effort_full: float
    adhesion: float
    resistance: float
    engine_weight: float
    coupled_weight: float


def work(
    weights: Weights,
    *,
    whole: Whole,
    hauled: Hauled,
    pivots: tuple[float, float] = (0.0, 0.0),
    fixed: frozenset[str] = frozenset(),
) -> WeightsResult:
    """Work the chapter.

    Parameters
    ----------
    whole : the engine in its frames.
    hauled : what the cylinders give and were told.
    pivots : of a leading and a trailing bogie, ahead of amid its axles, mm.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    SizeError : when springs or groups do not fit the axles.
    """
    axles = whole.axles
    masses, lost = masses_of(weights, whole)
    left = weights.boiler_left / 100
    bare = in_state(masses, axles, boiler=0.0, tanks=0.0, fuel=0.0, working=False)
    full = in_state(masses, axles, boiler=1.0, tanks=1.0, fuel=1.0)
    low = in_state(masses, axles, boiler=left, tanks=0.0, fuel=0.0)
    supports = supports_of(axles, weights.bearing, pivots)
    rocks = not level_kept(supports)
    if rocks:
        alone = replace(weights.bearing, equalised=EACH)
        supports = supports_of(axles, alone, pivots)
    springs = borne(supports, len(axles), full.sprung, full.sprung_ahead)
    loads = loads_of(supports, full)
    height = full.above - whole.rail
    coupling = whole.part("back coupling")
    pulled_at = (0.0 if coupling is None else coupling.centroid[1]) - whole.rail
    pull, pulled = _pulling(weights, whole, hauled, supports, full, pulled_at)
    pulling = _sum(full.unsprung, borne(supports, len(axles), full.sprung, pulled).loads)
    coupled = _coupled(whole, loads)
    workings = [
        *_weighing(whole, masses, full),
        *_bearing_worked(whole, supports, springs, full),
        relations.centre_pulling.work(
            "What the springs carry stands, pulling, as if at", "mm",
            c=full.sprung_ahead, F=pull, h=pulled_at, W=full.sprung, g=GRAVITY,
        ),
    ]  # fmt: skip
    factor = adhesion_factor.work(
        "Factor of adhesion on the reckoned weight", "ratio",
        coupled=coupled, gravity=GRAVITY, effort=hauled.tractive_effort,
    )  # fmt: skip
    tilts = relations.tilt.work("Tilts over, standing, at (rad)", "ratio", G=whole.gauge, h=height)
    workings += [factor, tilts]
    aside = full.mass * (0.5 + full.out / whole.gauge)
    low_loads = loads_of(supports, low)
    wanted = weights.coupled_share
    result = WeightsResult(
        working=full.mass, bare=bare.mass, coupled=coupled, factor=factor.result,
        centre_ahead=full.ahead, centre_height=height,
        bare_ahead=bare.ahead, bare_height=bare.above - whole.rail,
        off_centre=full.out, right=aside, left=full.mass - aside,
        unsprung=sum(full.unsprung), tilt=math.degrees(tilts.result),
        overhang_front=whole.front - axles[0].ahead, overhang_back=axles[-1].ahead - whole.back,
        pull=pull, coupled_pulling=_coupled(whole, pulling), coupled_low=_coupled(whole, low_loads),
        coupling_height=pulled_at,
        axle_loads=loads, sprung_loads=springs.loads, bare_loads=loads_of(supports, bare),
        low_loads=low_loads, pulling_loads=pulling,
        lifted=springs.lifted, tips=springs.tips, rocks=rocks,
        masses=masses, supports=supports, states=(bare, full, low),
        run=tuple(_run(masses, whole, supports, left)),
        levelling=levelling(whole, supports, full),
        sharing=None if wanted is None else for_share(whole, supports, full, wanted / 100),
        whole=whole, workings=tuple(workings), suggestions=(), findings=(),
    )  # fmt: skip
    given = Given(weights, hauled.engine_weight, hauled.coupled_weight, lost, pivots)
    usual, _ = _pulling(replace(weights, pull=None), whole, hauled, supports, full, pulled_at)
    told = (
        Suggestion("cylinders.engine_weight", _round(full.mass), "part by part, in Weight"),
        Suggestion("cylinders.coupled_weight", _round(coupled), "by moments, in Weight"),
        Suggestion("weights.pull", round(usual, 1), "what cylinders and rail give on the level"),
    )
    return replace(
        result,
        suggestions=still_open(told, fixed),
        findings=by_level(unlocked(judge(given, result), fixed)),
    )


def _round(mass: float) -> float:
    return float(f"{mass:.3g}")


def _sum(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(x + y for x, y in zip(a, b, strict=True))


def _coupled(whole: Whole, loads: tuple[float, ...]) -> float:
    return sum(
        load for load, axle in zip(loads, whole.axles, strict=True) if axle.kind == "coupled"
    )


def _pulling(
    weights: Weights, whole: Whole, hauled: Hauled, supports: tuple[Support, ...], full: State,
    height: float,
) -> tuple[float, float]:  # fmt: skip
    """Return the pull at the coupling, N, and where the sprung weight seems to stand, mm.

    What the rail holds hangs on the weight that the pull itself brings on the coupled wheels,
    so it is come to by steps.
    """
    own = hauled.resistance * full.mass * GRAVITY
    pull, centre = weights.pull or 0.0, full.sprung_ahead
    for _ in range(40):
        centre = relations.centre_pulling(
            c=full.sprung_ahead, F=pull, h=height, W=full.sprung, g=GRAVITY
        )
        if weights.pull is not None:
            break
        springs = borne(supports, len(whole.axles), full.sprung, centre)
        grip = hauled.adhesion * _coupled(whole, _sum(full.unsprung, springs.loads)) * GRAVITY
        pull = max(min(hauled.effort_full, grip) - own, 0.0)
    return pull, centre


def _weighing(whole: Whole, masses: tuple[Mass, ...], full: State) -> Iterator[Working]:
    """Yield the weight of the heaviest reckoned part and the centre of gravity."""
    reckoned = [
        (one, part) for one in masses if not one.weighed
        for part in (whole.part(one.name),) if part is not None
    ]  # fmt: skip
    if reckoned:
        one, part = max(reckoned, key=lambda pair: pair[0].mass)
        yield relations.mass_of.work(
            f"Weight of the {one.name}", "kg", rho=density(part.material), V=part.volume
        )
    yield relations.centre.work(
        "Centre of gravity ahead of the driving axle", "mm",
        moment=full.mass * full.ahead, mass=full.mass,
    )  # fmt: skip


def _bearing_worked(
    whole: Whole, supports: tuple[Support, ...], springs: Borne, full: State
) -> Iterator[Working]:
    """Yield the load on the first support, by moments or by the springs."""
    live = [one for one in supports if not set(one.axles) <= set(springs.lifted)]
    first = live[0]
    words = " and ".join(whole.axles[n].name for n in first.axles)
    label = f"On the springs of the {words}"
    if len(live) == 2:
        yield relations.by_moments.work(
            label, "kg", W=full.sprung, c=full.sprung_ahead, a=first.ahead, b=live[1].ahead
        )
    elif len(live) > 2:
        yield relations.on_springs.work(
            label, "kg", K=first.stiffness, s=springs.sinks, t=springs.turns, x=first.ahead
        )


def _run(
    masses: tuple[Mass, ...], whole: Whole, supports: tuple[Support, ...], left: float
) -> Iterator[Used]:
    """Yield the axle loads as first the tanks and then the glass go down, fuel going evenly."""
    boiler, tanks = sort_of_water(masses)
    gone = tanks + (1 - left) * boiler
    start = in_state(masses, whole.axles, boiler=1.0, tanks=1.0, fuel=1.0).mass
    for n in range(_STEPS + 1):
        used = gone * n / _STEPS
        from_tanks = min(used, tanks)
        state = in_state(
            masses, whole.axles, fuel=1 - n / _STEPS,
            tanks=1 - from_tanks / tanks if tanks > 0 else 0.0,
            boiler=1 - (used - from_tanks) / boiler if boiler > 0 else 0.0,
        )  # fmt: skip
        yield Used(start - state.mass, from_tanks < tanks, loads_of(supports, state))


__all__ = ["Bearing", "Hauled", "work"]
