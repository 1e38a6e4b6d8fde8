"""The chapter: every sample read, what its figures must hold to, and what is told of them."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.designs import SAMPLES
from weighshaft import job
from weighshaft.design import read
from weighshaft.job.steamed import engine_of
from weighshaft.steam import Running, SteamSide, march
from weighshaft.steam.beat import beats_of
from weighshaft.steam.decisions import Assumed, LookedAt, Way


def _of(path: Any, **changes: Any) -> Any:
    design = replace(read(path), steam=SteamSide(**changes))
    return job.work(design, shown="steam", before=job.work(read(path)))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_every_sample_has_believable_figures(path: Any) -> None:
    worked = job.work(read(path))
    result, cylinders = worked.steam, worked.cylinders
    assert result.cycle.repeats
    assert max(result.cycle.mass_error, result.cycle.energy_error) <= 1e-3
    # the textbook's diagram is what no engine reaches, and half of it is what most exceed
    assert 0.5 * result.ideal_pressure < result.mean_pressure < 1.02 * result.ideal_pressure
    assert result.steam_rate == pytest.approx(cylinders.steam_rate, rel=0.6)
    assert result.missing_percent is not None
    assert 5 < result.missing_percent < 75
    # work of the torque around the turn is that of the indicator
    work = float(result.torque.mean()) * 2 * np.pi / 1000
    assert work == pytest.approx(
        float(result.cycle.work.sum()) * worked.design.cylinders.number, rel=0.02
    )
    assert sum(one.share for one in result.steam_losses) == pytest.approx(1.0)
    assert not [one for one in worked.findings if one.chapter == "steam" and one.level == "stop"]


HARTFELL = next(path for path in SAMPLES if path.stem.startswith("hartfell"))


def test_less_regulator_less_pull_and_less_steam() -> None:
    wide, narrow = (_of(HARTFELL, running=LookedAt(regulator=share)).steam for share in (1.0, 0.08))
    assert narrow.pull < 0.9 * wide.pull
    assert narrow.steam_rate < wide.steam_rate
    assert narrow.chest_pressure < wide.chest_pressure


def test_notching_up_saves_steam_for_the_work_done() -> None:
    full, up = (_of(HARTFELL, running=LookedAt(notch=notch)).steam for notch in (1.0, 0.5))
    assert up.pull < full.pull
    assert up.specific_steam < full.specific_steam


def test_backward_gear_pulls_too() -> None:
    back = _of(HARTFELL, running=LookedAt(notch=-1.0)).steam
    assert back.mean_pressure > 1.0
    assert float(back.torque.mean()) > 0


def test_on_air_there_is_nothing_to_condense() -> None:
    result = _of(HARTFELL, running=LookedAt(medium="compressed air")).steam
    assert result.missing_percent is None
    assert result.dryness is None
    assert result.mean_pressure > 0
    assert any("air" in one for one in result.cautions)


def test_superheat_is_warned_of() -> None:
    worked = _of(HARTFELL, way=Way(superheat=100.0))
    assert any("superheat" in one.says for one in worked.findings if one.chapter == "steam")


def test_a_worn_valve_shows() -> None:
    worn = _of(HARTFELL, assumed=Assumed(valve_gap=0.02)).steam
    assert worn.leak_percent > 3 * job.work(read(HARTFELL)).steam.leak_percent


def test_a_pressure_beyond_the_table_is_refused_in_words() -> None:
    worked = _of(HARTFELL, running=LookedAt(pressure=0.2), way=Way(regulator=0.3))
    assert worked.steam is not None or any(one.chapter == "steam" for one in worked.findings)


@pytest.mark.parametrize("way", [Way(exhaust=10.0), Way(chest=10.0), Way(chest=2e7, exhaust=5e7)])
@pytest.mark.parametrize("name", ["dunnock", "wagtail"])
def test_no_space_is_too_small_or_too_large_to_be_marched(name: str, way: Way) -> None:
    path = next(path for path in SAMPLES if path.stem.startswith(name))
    result = _of(path, way=way).steam
    assert np.all(np.isfinite(result.cycle.pressure))
    assert result.mean_pressure > 0


def test_beats_are_counted_as_heard() -> None:
    theta = np.linspace(0, 2 * np.pi, 360, endpoint=False)
    four = beats_of(1 + np.cos(4 * theta))
    assert len(four.at) == 4
    assert four.evenness == pytest.approx(1.0)
    limping = beats_of(1 + np.cos(4 * theta) * (1 + 0.4 * np.cos(theta)))
    assert limping.evenness is not None
    assert limping.evenness < 0.8
    assert beats_of(np.ones(360)).at == ()
    assert beats_of(np.zeros(360)).evenness is None


@pytest.mark.parametrize("name", ["bilberry", "hartfell", "alder", "dunnock"])
def test_twice_the_steps_move_the_figures_by_less_than_a_hundredth(name: str) -> None:
    design = read(next(path for path in SAMPLES if path.stem.startswith(name)))
    worked = job.work(design)
    engine = engine_of(design, {"cylinders": worked.cylinders, "firing": worked.firing})
    running = Running(
        speed=worked.steam.speed, notch=worked.steam.notch, regulator=1.0,
        pressure=design.cylinders.pressure,
    )  # fmt: skip
    steps = worked.steam.cycle.chest.size
    fine = march(SteamSide(), engine, running, steps=2 * steps).cycle
    assert float(worked.steam.cycle.work.sum()) == pytest.approx(float(fine.work.sum()), rel=0.01)
    assert worked.steam.cycle.drawn == pytest.approx(fine.drawn, rel=0.01)
