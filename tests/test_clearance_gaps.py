"""The least gap of many gears at once: the same as of one, and kept by the search for pivots."""

from __future__ import annotations

import pickle
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.clearance_for_tests import CRANK, GEAR, ROOMY, sample
from tests.designs import SAMPLES
from weighshaft import job
from weighshaft.clearance import Clearance, Gaps, Surroundings, work
from weighshaft.dashboard import desk as desks
from weighshaft.design import read
from weighshaft.motion import AnyGear, Crank, MotionLocks, SlideValve, ValveSetting, Wanted
from weighshaft.motion.many import spread
from weighshaft.pivots import Angle, Holding, Length, Pivots, search
from weighshaft.pivots.fields import squares, with_sizes
from weighshaft.pivots.problem import rooms_of

CLOSE = 0.02
NAMES = [path.name.removesuffix(".loco.json") for path in SAMPLES]


def gaps_with(given: dict[str, Any], clearance: Clearance | None = None) -> Gaps:
    rest = {name: value for name, value in given.items() if name not in ("gear", "crank")}
    return Gaps(clearance=clearance or Clearance(), **rest)


def one_of(rows: AnyGear, gear: AnyGear, i: int) -> AnyGear:
    """Return a candidate as a gear of its own."""
    changes: dict[str, Any] = {
        name: float(np.ravel(value)[i if np.size(value) > 1 else 0])
        for name, value in vars(rows).items() if isinstance(value, np.ndarray)
    }  # fmt: skip
    return replace(gear, **changes)


def least_of(gear: AnyGear, given: dict[str, Any], clearance: Clearance | None = None) -> float:
    """Return what the chapter says of one gear; infinite where nothing comes near."""
    found = work(clearance or Clearance(), **given | {"gear": gear}).least_gap
    return np.inf if found is None else found


def neighbours(gear: AnyGear, k: int, seed: int) -> AnyGear:
    """Return candidates anywhere in the usual rooms of a gear."""
    rooms = rooms_of(Pivots(), gear, frozenset())
    random = np.random.default_rng(seed)
    values = {one.field: random.uniform(one.low, one.high, k) for one in rooms}
    return with_sizes(gear, values, follows=squares(gear, frozenset(values)))


@pytest.mark.parametrize("name", NAMES)
def test_gaps_of_candidates_are_those_of_the_chapter(name: str) -> None:
    """The sample's gear and gears round it, against the finer search of one gear."""
    given = sample(name)
    clearance = read(SAMPLES[NAMES.index(name)]).clearance
    gear, crank, gaps = given["gear"], given["crank"], gaps_with(given, clearance)
    assert gaps(gear, crank) == pytest.approx([least_of(gear, given, clearance)], abs=CLOSE / 10)
    if not rooms_of(Pivots(), gear, frozenset()):
        return
    rows = neighbours(gear, 24, seed=sum(map(ord, name)))
    found, compared = gaps(rows, crank), 0
    for i in range(24):
        if compared == 8:
            break
        try:
            expected = least_of(one_of(rows, gear, i), given, clearance)
        except MotionLocks:
            continue  # what locks between two angles of the coarse turn may still have a gap
        compared += 1
        # where parts stand deep in one another nobody needs a tenth of a millimetre
        assert found[i] == pytest.approx(expected, abs=max(CLOSE, -0.06 * expected))
    assert compared >= 4


def test_a_candidate_has_the_same_gap_among_others_as_alone() -> None:
    given = sample("hartfell")
    gaps, gear, crank = gaps_with(given), given["gear"], given["crank"]
    rows = neighbours(gear, 40, seed=5)
    alone = [gaps(one_of(rows, gear, i), crank)[0] for i in range(40)]
    assert gaps(rows, crank) == pytest.approx(alone, abs=1e-9, nan_ok=True)
    # a neighbour that locks has no gap
    free = [one for one in alone if np.isfinite(one)]
    assert len(free) > 20
    assert np.ptp(free) > 0.5


@pytest.mark.parametrize(
    "around",
    [
        Surroundings(boiler_bottom=64.0),
        Surroundings(boiler_bottom=58.0, boiler_diameter=110.0),
        Surroundings(ashpan_bottom=28.0, ashpan_front=70.0, ashpan_back=10.0),
        Surroundings(ashpan_bottom=40.0, ashpan_back=90.0),
        Surroundings(ashpan_bottom=40.0),
    ],
)
def test_boiler_and_ashpan_count(around: Surroundings) -> None:
    clearance = Clearance(surroundings=around, axlebox_rise=0.8)
    gaps = gaps_with(ROOMY, clearance)
    rows = neighbours(GEAR, 6, seed=9)
    expected = [least_of(one_of(rows, GEAR, i), ROOMY, clearance) for i in range(6)]
    assert gaps(rows, CRANK) == pytest.approx(expected, abs=CLOSE)
    free = gaps_with(ROOMY, Clearance(axlebox_rise=0.8))(rows, CRANK)
    assert (gaps(rows, CRANK) < free - 0.2).any()


def test_sheaves_of_no_known_diameter_grow_with_the_throw() -> None:
    """With an axle close behind it is the sheaves that come near to that."""
    given = {**ROOMY, "axles": (0.0, -34.0)}
    throws = np.array([5.0, 6.4, 8.0])
    found = gaps_with(given)(spread(GEAR, {"eccentric_throw": throws}), CRANK)
    for throw, gap in zip(throws, found, strict=True):
        gear = replace(GEAR, eccentric_throw=float(throw))
        assert gap == pytest.approx(least_of(gear, given), abs=CLOSE)
    assert found[0] - found[2] > 2.0


def test_what_locks_has_no_gap() -> None:
    found = gaps_with(ROOMY)(spread(GEAR, {"lifting_link": np.array([65.0, 5.0, 66.0])}), CRANK)
    assert np.isfinite(found).tolist() == [True, False, True]
    locked = gaps_with(ROOMY)(spread(GEAR, {"lifting_link": np.array([5.0, 65.0])}), CRANK)
    assert np.isfinite(locked).tolist() == [False, True]


# --- in the search ----------------------------------------------------------------------


def searched(gaps: Gaps, gear: AnyGear, crank: Crank, gap: float | None) -> Any:
    names = ("lifting link", "lifting arm", "weighshaft y", "suspension above")
    pivots = Pivots(
        lengths=tuple(Length(name=name) for name in names), angles=(Angle(name="none"),),
        notches=(1.0, 0.5, -1.0), candidates=400, polish=False,
        holding=Holding(least_gap=gap, margin=0.2, swing=90.0),
    )  # fmt: skip
    return search(
        pivots, gear=gear, crank=crank, valve=SlideValve(2.5, 0.1, 3.0), clear=gaps,
        setting=ValveSetting(), wanted=Wanted(cutoff=78.0, lead=0.2, port_opening=2.8),
    )  # fmt: skip


def top_of(gear: AnyGear) -> float:
    """Return how high anything that moves comes above the axle, mm."""
    found = work(Clearance(), **ROOMY | {"gear": gear})
    tops, n = [], 0
    for piece in found.engine.pieces:
        for _, _, half in piece.edges:
            if piece.moves:
                tops += [float(one[n, ..., 1].max()) + half for one in (found.starts, found.ends)]
            n += 1
    return max(tops)


def test_a_search_goes_round_a_boiler_that_stands_in_the_way() -> None:
    free = searched(gaps_with(ROOMY), GEAR, CRANK, None)
    # just where the best gear of all would foul it by a millimetre
    way = Clearance(surroundings=Surroundings(boiler_bottom=top_of(free.gear) - 1.0))
    assert least_of(free.gear, ROOMY, way) == pytest.approx(-1.0, abs=0.05)
    clear = searched(gaps_with(ROOMY, way), GEAR, CRANK, 0.4)
    assert least_of(clear.gear, ROOMY, way) > 0.4 - CLOSE
    assert clear.best.total >= free.best.total
    assert clear.gear != free.gear


def test_gaps_go_to_other_processes_and_into_the_cache() -> None:
    gaps = gaps_with(sample("rowan"))
    sent = pickle.loads(pickle.dumps(gaps))
    assert sent == gaps
    assert hash(sent) == hash(gaps)


def test_the_job_and_the_page_hand_the_gaps_to_the_search(monkeypatch: Any) -> None:
    design = read(SAMPLES[NAMES.index("hartfell")])
    wheeled = job.work(design).wheels
    assert job.gaps_of(design, wheeled) is None
    kept = replace(design, pivots=replace(design.pivots, holding=Holding(least_gap=1.0)))
    assert job.gaps_of(kept, None) is None
    gaps = job.gaps_of(kept, wheeled)
    assert gaps is not None
    worked = job.work(kept)
    assert gaps(design.motion.gear, design.cylinders.crank) == pytest.approx(
        [worked.clearance.least_gap], abs=CLOSE
    )
    assert worked.pivots.problem.clear == gaps
    assert not any("not looked at" in one.says for one in worked.pivots.findings)
    begun: list[Any] = []
    monkeypatch.setattr(desks, "Searching", lambda design, clear: begun.append(clear))
    desks.Desk(kept).search()
    desks.Desk(design).search()
    assert begun == [gaps, None]
