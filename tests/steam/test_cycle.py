"""The cycle: its textbook limit, an independent integration, closure, and what moves it how."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from weighshaft.cylinders.steam import Events, Fill
from weighshaft.steam import Cycle, CycleError, End, Losses, Outlet, Supply, run
from weighshaft.steam.fluid import AIR_R

BORE, STROKE, ROD, CLEARANCE = 38.0, 52.0, 180.0, 0.1
AREA = math.pi / 4 * BORE**2
NONE, METAL = Losses(film=0, gas=0, to_air=0), Losses()


def _place(angle: Any) -> Any:
    throw = STROKE / 2
    return throw + ROD - throw * np.cos(angle) - np.sqrt(ROD**2 - (throw * np.sin(angle)) ** 2)


def _ends(
    steps: int, lap: float, travel: float, port: tuple[float, float], discharge: float = 0.7
) -> tuple[End, End]:
    edges = np.linspace(0, 2 * np.pi, steps + 1)
    middle = (edges[1:] + edges[:-1]) / 2
    xi = travel / 2 * np.sin(middle + math.asin((lap + 0.3) / (travel / 2)))
    made = []
    for side, at in ((1, _place), (-1, lambda t: STROKE - _place(t))):
        made.append(
            End(
                volume=AREA * (at(edges) + CLEARANCE * STROKE),
                surface=2.6 * AREA + np.pi * BORE * at(middle),
                steam=discharge * port[1] * np.clip(side * xi - lap, 0, port[0]),
                exhaust=discharge * port[1] * np.clip(-side * xi, 0, port[0]),
            )
        )
    return made[0], made[1]


def _run(
    *, steps: int = 240, lap: float = 3.5, travel: float = 15.0,
    port: tuple[float, float] = (4.5, 28.0),
    turns: float = 3.0, bar: float = 7.0, losses: Losses = METAL, nozzle: float = 18.0,
    regulator: float = 60.0, medium: str = "steam", others: tuple[float, ...] = (90.0,),
) -> Cycle:  # fmt: skip
    return run(
        _ends(steps, lap, travel, port),
        Supply(pressure=bar, area=regulator, chest=20_000.0, medium=medium),
        Outlet(area=nozzle, pipe=20_000.0), losses, turns_a_second=turns, others=others,
    )  # fmt: skip


def _mean(cycle: Cycle) -> float:
    return float(cycle.work.sum()) * 1e4 / (2 * AREA * STROKE)


def test_without_losses_and_slowly_it_is_the_textbooks_diagram() -> None:
    wide, events = (4.5, 300.0), []
    steps = 960
    ends = _ends(steps, 3.5, 15.0, wide)
    slow = run(
        ends, Supply(pressure=7.0, area=2000.0, chest=200_000.0),
        Outlet(area=2000.0, pipe=200_000.0), NONE, turns_a_second=0.5,
    )  # fmt: skip
    for end in ends:
        place = (end.volume[1:] / AREA - CLEARANCE * STROKE) / STROKE
        out = np.diff(end.volume) > 0
        cut = place[(end.steam > 0) & out].max()
        release = place[(end.exhaust == 0) & out].max()
        compression = place[(end.exhaust > 0) & ~out].min()
        events.append(Events(cut, release, compression))
    # steam that neither gains nor loses heat expands by p v^1.135 (Zeuner, dry at the start)
    assert _mean(slow) == pytest.approx(
        float(np.mean([_isentropic(7.0, 1.01325, one) for one in events])), rel=0.01
    )
    # the textbook's p v constant stands a little above
    hyperbolic = [Fill(7.0, 1.01325, CLEARANCE, False).mean(one) for one in events]
    assert _mean(slow) == pytest.approx(float(np.mean(hyperbolic)), rel=0.04)


def _isentropic(live: float, spent: float, events: Events, k: float = 1.135) -> float:
    """Return the mean pressure of a diagram with clearance, release at its point, compression."""

    def under(pressure: float, at: float, to: float) -> float:
        c = CLEARANCE
        return pressure * (at + c) ** k * ((at + c) ** (1 - k) - (to + c) ** (1 - k)) / (k - 1)

    forward = live * events.cutoff + under(live, events.cutoff, events.release)
    forward += spent * (1 - events.release)
    backward = spent * (1 - events.compression) - under(spent, events.compression, 0.0)
    return forward - backward


def test_air_against_an_independent_integration() -> None:
    # one end with a chest and an exhaust that never change, written apart for a perfect gas
    # and marched by scipy; the cycle is given a wide regulator and nozzle to the same end
    steps, turns, bar = 960, 4.0, 4.0
    ends = _ends(steps, 3.5, 15.0, (4.5, 28.0))
    cycle = run(
        ends, Supply(pressure=bar, area=5000.0, chest=2e6, medium="air"),
        Outlet(area=5000.0, pipe=2e6), NONE, turns_a_second=turns,
    )  # fmt: skip
    k, kelvin, outside = 1.4, 293.15, 101_325.0
    edges = np.linspace(0, 2 * np.pi, steps + 1)

    def flow(area: float, p1: float, rho1: float, p2: float) -> float:
        ratio = max(p2 / p1, (2 / (k + 1)) ** (k / (k - 1)))
        inner = max(ratio ** (2 / k) - ratio ** ((k + 1) / k), 0.0)
        return area * math.sqrt(2 * k / (k - 1) * p1 * rho1 * inner)

    end = ends[0]

    def rate(t: float, y: np.ndarray) -> list[float]:
        angle = 2 * np.pi * turns * t
        i = min(int(angle / (2 * np.pi) * steps) % steps, steps - 1)
        volume = AREA * (_place(angle) + CLEARANCE * STROKE) * 1e-9
        small = 1e-6
        growing = AREA * (_place(angle + small) - _place(angle - small)) / (2 * small) * 1e-9
        growing *= 2 * np.pi * turns
        mass, energy, _ = y
        p, t_in = energy * (k - 1) / volume, energy / mass * (k - 1) / AIR_R
        into = heat = 0.0
        for area, p0 in ((end.steam[i], bar * 1e5), (end.exhaust[i], outside)):
            if p0 > p:
                m = flow(area * 1e-6, p0, p0 / AIR_R / kelvin, p)
                into, heat = into + m, heat + m * k / (k - 1) * AIR_R * kelvin
            else:
                m = flow(area * 1e-6, p, mass / volume, p0)
                into, heat = into - m, heat - m * k / (k - 1) * AIR_R * t_in
        return [into, heat - p * growing, p * growing]

    volume = AREA * CLEARANCE * STROKE * 1e-9
    y = np.array([2e5 * volume / (AIR_R * kelvin), 2e5 * volume / (k - 1), 0.0])
    for _ in range(3):
        y[2] = 0.0
        solved = solve_ivp(rate, (0, 1 / turns), y, max_step=1 / turns / 400, rtol=1e-4, atol=1e-9)
        y = solved.y[:, -1]
    assert float(cycle.work[0]) == pytest.approx(float(y[2]), rel=0.01)
    assert edges[-1] == pytest.approx(2 * np.pi)


@pytest.mark.parametrize("turns", [2.0, 5.0, 9.0])
def test_half_the_step_moves_the_mean_pressure_by_less_than_a_hundredth(turns: float) -> None:
    one, two = (_run(steps=steps, turns=turns) for steps in (240, 480))
    assert _mean(one) == pytest.approx(_mean(two), rel=0.01)
    assert one.drawn == pytest.approx(two.drawn, rel=0.01)


@pytest.mark.parametrize("medium", ["steam", "air"])
@pytest.mark.parametrize(
    ("lap", "travel", "turns", "bar", "nozzle"),
    [
        (3.5, 15.0, 3.0, 7.0, 18.0),
        (2.0, 12.0, 1.5, 2.5, 14.0),
        (5.0, 18.0, 9.0, 12.0, 40.0),
        (2.5, 16.0, 6.0, 5.0, 60.0),
        (4.5, 13.0, 4.0, 9.0, 25.0),
    ],
)
def test_mass_and_energy_close_within_a_thousandth(
    lap: float, travel: float, turns: float, bar: float, nozzle: float, medium: str
) -> None:
    cycle = _run(lap=lap, travel=travel, turns=turns, bar=bar, nozzle=nozzle, medium=medium)
    assert cycle.repeats
    assert max(cycle.mass_error, cycle.energy_error) <= 1e-3
    assert float(cycle.outlet.sum()) == pytest.approx(cycle.drawn, rel=4e-3)
    for values in (cycle.pressure, cycle.chest, cycle.pipe, cycle.mass):
        assert np.all(np.isfinite(values))
        assert np.all(values > 0)


def test_energy_of_a_turn_balances() -> None:
    # heat brought less heat carried out is the work, with walls that keep nothing in the mean
    cycle = _run(others=(), losses=NONE, medium="air", bar=4.0)
    brought = cycle.drawn * 1.4 / 0.4 * AIR_R * 293.15
    assert 0 < float(cycle.work.sum()) < brought


def test_what_narrows_the_way_costs_pull() -> None:
    free = _mean(_run())
    assert _mean(_run(nozzle=6.0)) < free
    assert _mean(_run(regulator=4.0)) < free
    assert _mean(_run(port=(4.5, 8.0))) < free
    assert _mean(_run(turns=8.0)) < free


def test_metal_and_gaps_cost_steam() -> None:
    bare, walls = _run(losses=NONE), _run()
    assert walls.drawn > 1.05 * bare.drawn
    assert _run(losses=Losses(valve_leak=1.0)).drawn > 1.02 * walls.drawn
    # the slower, the more of the steam goes into the metal
    slow, fast = _run(turns=1.0, steps=480), _run(turns=6.0)
    assert slow.drawn > fast.drawn


def test_superheat_dries_the_cylinder() -> None:
    ends = _ends(240, 3.5, 15.0, (4.5, 28.0))
    outlet = Outlet(area=18.0, pipe=20_000.0)
    wet, hot = (
        run(ends, Supply(pressure=7.0, area=60.0, chest=20_000.0, superheat=k), outlet, Losses(),
            turns_a_second=3.0)
        for k in (0.0, 100.0)
    )  # fmt: skip
    assert hot.drawn < wet.drawn
    assert hot.dryness[0].min() > wet.dryness[0].min()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"bar": 30.0}, "outside the steam table"),
        ({"bar": 1.0}, "no more pressure"),
        ({"nozzle": 0.0}, "nozzle lets nothing"),
        ({"regulator": 0.0}, "regulator lets nothing"),
        ({"turns": 0.0}, "stands"),
    ],
)
def test_what_cannot_run_is_refused_in_words(change: dict[str, Any], says: str) -> None:
    with pytest.raises(CycleError, match=says):
        _run(**change)


def test_a_stop_ends_it() -> None:
    with_stop = run(
        _ends(240, 3.5, 15.0, (4.5, 28.0)), Supply(pressure=7.0, area=60.0, chest=20_000.0),
        Outlet(area=18.0, pipe=20_000.0), Losses(), turns_a_second=3.0, stop=lambda: True,
    )  # fmt: skip
    assert with_stop.turns <= 4
    assert not with_stop.repeats
