"""Questions to the steam: answers against the same model marched by itself."""

from __future__ import annotations

import dataclasses
from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.optimize import brentq

from tests.designs import ROOT
from weighshaft import job, steam
from weighshaft.design import Design, read
from weighshaft.draught import FrontEnd
from weighshaft.job import questions
from weighshaft.job.questions import bore, first, lasting, nozzle, ports
from weighshaft.job.questions.answer import NotAnswered
from weighshaft.job.questions.varied import Asked, crossing
from weighshaft.pictures.scene import Chart, Scene, Table

_WIDTH, _LENGTH = "motion.valve.port_width", "motion.valve.port_length"


@cache
def sample(name: str) -> tuple[Design, job.Work]:
    design = read(ROOT / "sample_designs" / f"{name}.loco.json")
    return design, job.work(design, shown="none", before=_nothing(design))


def _nothing(design: Design) -> job.Work:
    """Return a design worked but for what no question looks at."""
    names = dict.fromkeys(("scale", "cylinders", "motion", "wheels", "threads", "nozzle"))
    core = job.Work(design, **names, findings=())
    done = job.work(design, shown="none", before=core)
    for chapter in ("frames", "boiler", "firing", "steam", "draught"):
        done = job.work(design, shown=chapter, before=done)
    return done


@pytest.fixture
def asked() -> Asked:
    return Asked(*sample("hartfell"), steam.Marching())


@pytest.fixture(autouse=True)
def few(monkeypatch: pytest.MonkeyPatch) -> None:
    """Coarser searches without their bands: what is checked here does not hang on either."""
    for module in (ports, lasting, nozzle, bore):
        monkeypatch.setattr(module, "OTHERWISE", ())
    monkeypatch.setattr(ports, "LENGTHS", (0.5,))
    monkeypatch.setattr(ports, "TRIED", 5)
    monkeypatch.setattr(nozzle, "SIZES", (0.7, 0.9, 1.1))
    monkeypatch.setattr(bore, "SIZES", (0.5, 0.7))
    monkeypatch.setattr(first, "ENDS", ({"film": 8000.0},))


def pull(asked: Asked, pair: tuple[steam.SteamSide, steam.Engine], **running: float) -> float:
    return steam.outcome(asked.condition(pair, steps=asked.steps, **running)).pull


def test_the_smallest_port_costs_no_more_and_a_smaller_one_does(asked: Asked) -> None:
    answer = ports.answer(asked)
    width, length = answer.figures["width"], answer.figures["length"]
    assert dict(answer.change) == {
        _WIDTH: width, _LENGTH: length
    }  # fmt: skip
    free = pull(asked, ports.free_of(asked.base))
    there, narrower = (
        100 * (1 - pull(asked, asked.with_({_WIDTH: w, _LENGTH: length})) / free)
        for w in (width, width - 0.15)
    )
    assert there <= ports.LOSS
    assert answer.figures["loss"] == pytest.approx(there, abs=0.3)
    assert narrower > ports.LOSS or width <= ports.CUTTER + ports.STEP
    assert [type(one) for one in answer.pictures] == [Chart, Table]


def test_a_wider_port_never_loses_more(asked: Asked) -> None:
    sizes = [(float(w), 16.0) for w in np.geomspace(0.4, 3.0, 6)]
    asked.marching.expects(7)
    cost = ports.losses(asked, sizes)
    assert cost[0] > 5
    assert np.all(np.diff(cost) < 0.1), "but for the grain of the march"


def test_the_water_is_that_at_just_the_pull_needed(asked: Asked) -> None:
    for needed in (20.0, 70.0):
        asked.marching.expects(3)
        (water,) = lasting.water(asked, [(asked.base, 0.5)], needed)

        def over(pressure: float, needed: float = needed) -> float:
            return pull(asked, asked.base, notch=0.5, pressure=pressure) - needed

        pressure = brentq(over, 0.3, 5.5, rtol=1e-3)
        there = steam.outcome(
            asked.condition(asked.base, notch=0.5, pressure=pressure, steps=asked.steps)
        )
        assert water == pytest.approx(there.steam * 3600 / asked.speed, rel=0.01)


def test_a_pull_beyond_the_cylinders_has_no_water(asked: Asked) -> None:
    asked.marching.expects(3)
    assert lasting.water(asked, [(asked.base, 0.5)], 900.0) == [None]


def test_a_retuned_gear_gives_the_cutoff_it_is_called_after(asked: Asked) -> None:
    own, *retuned = lasting.gears(asked)
    assert own.changes == ()
    assert len(retuned) >= 2
    changes = dict(retuned[0].changes)
    done = job.work(asked.design.changed(changes), shown="none", before=asked.worked)
    assert done.motion is not None
    assert done.motion.cutoff_full == pytest.approx(lasting.FULL_GEARS[0], abs=0.1)


def test_the_nozzle_draws_what_the_fire_wants(asked: Asked) -> None:
    answer = nozzle.answer(asked)
    size = answer.figures["nozzle"]
    ours = asked.with_({"nozzle.diameter": size})
    seen = steam.outcome(asked.condition(ours, steps=asked.steps))
    front = FrontEnd(asked.design.draught, asked.design.nozzle)
    drawn = front.by_nozzle(asked.worked.nozzle.layout, seen.steam, np.array([size])).draught[0]
    worked = asked.worked.draught
    wanted = worked.needed * (1000 * seen.steam / worked.steam) ** 2 * asked.design.draught.margin
    assert drawn == pytest.approx(min(wanted, worked.most), rel=0.1)
    assert answer.figures["blast"] == pytest.approx(seen.blast)
    assert "0.4 to 1.5" in answer.uncertain


def test_the_bore_just_pulls_the_train_up_the_rise(asked: Asked) -> None:
    answer = bore.answer(asked)
    size, needed = answer.figures["bore"], answer.figures["needed"]
    held = asked.resistance()
    area = asked.design.cylinders.bore**2

    def rail(value: float) -> float:
        pair = asked.with_({"cylinders.bore": value})
        return pull(asked, pair, notch=1.0) - held.machine * value**2 / area

    assert rail(size) == pytest.approx(answer.figures["pull"], rel=1e-9)
    assert rail(size) >= 0.98 * needed
    assert rail(size - 1) < needed or size <= 0.5 * asked.design.cylinders.bore + bore.STEP


def test_a_tenth_of_a_size_does_what_the_ranking_says(asked: Asked) -> None:
    (size,) = (one for one in first.sizes(asked) if one.path == "nozzle.diameter")
    base, (effect,) = first.effects(asked, [size])
    narrow = asked.with_({"nozzle.diameter": 0.9 * asked.design.nozzle.diameter})
    assert base == pytest.approx(pull(asked, asked.base))
    assert effect.pull[0] == pytest.approx(100 * (pull(asked, narrow) / base - 1))


def test_bore_and_pressure_come_first_and_coefficients_are_told_apart(asked: Asked) -> None:
    answer = first.answer(asked)
    bars, table = answer.pictures
    assert isinstance(bars, Scene)
    assert isinstance(table, Table)
    names = [str(row[0]) for row in table.rows]
    assert names[0] == "Bore", "its square acts"
    assert sum(name.startswith("Coefficient") for name in names) == 3
    assert answer.figures["pull_least"] <= answer.figures["pull"] <= answer.figures["pull_most"]


def test_round_ports_are_told_apart() -> None:
    with pytest.raises(NotAnswered, match="round holes"):
        questions.ask("ports", *sample("wagtail"))


def test_an_unknown_question_is_refused_with_those_there_are() -> None:
    with pytest.raises(NotAnswered, match="ports, run, nozzle, bore, first"):
        questions.ask("weather", *sample("hartfell"))


def test_a_bought_part_is_not_offered_to_be_changed(asked: Asked) -> None:
    design = dataclasses.replace(asked.design, fixed=("nozzle.diameter",))
    answer = nozzle.answer(dataclasses.replace(asked, design=design))
    assert answer.change == ()
    assert "bought part" in answer.says


def test_stop_ends_a_question() -> None:
    done: list[int] = []
    marching = steam.Marching(None, lambda n, of: done.append(n), lambda: done[-1] >= 1)
    with pytest.raises(steam.Stopped):
        questions.ask("first", *sample("hartfell"), marching)
    assert done[-1] == 1


@given(some.lists(some.floats(0, 100), min_size=2, max_size=8), some.floats(0, 100))
def test_where_a_falling_line_comes_below(values: list[float], wanted: float) -> None:
    y = np.array(sorted(values, reverse=True))
    x = np.arange(float(len(y)))
    found = crossing(x, y, wanted)
    if found is None:
        assert y[-1] > wanted
    else:
        assert float(np.interp(found, x, y)) <= wanted + 1e-6
        assert not found or float(np.interp(found - 1e-3, x, y)) >= wanted - 0.2
