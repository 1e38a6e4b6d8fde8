"""The search finds what is there: planted optima, mirrored ones, the same by any executor."""

from __future__ import annotations

import multiprocessing
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace

import numpy as np
import pytest

from tests.motion.gears_for_tests import CRANK, DIRECT, OUTSIDE, ROCKER
from tests.pivots.problems_for_tests import (
    SHIFT,
    SUSPENSION,
    VALVE,
    bowl,
    given,
    only,
    ridge,
)
from weighshaft.motion import SlideValve, Stephenson, ValveSetting, events_over
from weighshaft.motion.proportions import levelled
from weighshaft.pivots import Angle, Counting, Holding, Length, Pivots, posed, scored, search
from weighshaft.pivots.blocks import BLOCK, Stopped, Trial
from weighshaft.pivots.choosing import holds, rounded, spared
from weighshaft.pivots.fields import value_now
from weighshaft.pivots.objective import MOST, SEEN, evaluate, judged, residuals
from weighshaft.pivots.search import explore, polish
from weighshaft.sizes import SizeError


def trial(count: int, judge=evaluate, gear=DIRECT, pivots=None, **others) -> Trial:
    problem = posed(pivots or only(*SUSPENSION), **given(gear))
    return Trial(problem, count, judge=judge, **others)


def test_a_known_lowest_place_is_found_among_false_ones() -> None:
    for n in (2, 4):
        names = (*SUSPENSION, "weighshaft x", "weighshaft y")[:n]
        one = trial(4000, bowl, pivots=only(*names))
        explore(one, np.full(n, 0.95), seed=3)
        assert one.elite[0][2] == pytest.approx(np.resize(SHIFT, n), abs=2e-3)
        assert one.tried <= 4000


def test_the_search_goes_to_the_edge_of_what_is_allowed_and_not_beyond() -> None:
    one = trial(4000, ridge)
    explore(one, np.full(2, 0.95), seed=3)
    assert one.elite[0][2] == pytest.approx([0.5, SHIFT[1]], abs=5e-3)
    assert one.best is not None
    assert one.best < MOST


def test_polish_runs_down_to_a_place_no_neighbour_betters() -> None:
    one = trial(500)
    start = np.array([0.6, 0.3])
    polish(one, start)
    total, _, place = one.elite[0]
    assert total < 0.9 * evaluate(one.problem, start[None])[0]
    around = place + 0.02 * np.array([[1, 0], [-1, 0], [0, 1], [0, -1]])
    assert (evaluate(one.problem, np.clip(around, 0, 1)) >= total - 1e-6).all()


@pytest.mark.parametrize("gear", [DIRECT, ROCKER, OUTSIDE], ids=lambda g: g.kind)
def test_a_good_gear_whose_pin_was_moved_away_is_found_again(gear) -> None:
    """Planted: a levelled gear is spoilt within the room, and has to come back as good."""
    names = SUSPENSION if isinstance(gear, Stephenson) else ("tail ahead", "lifting pin")
    fields = [name.replace(" ", "_") for name in names]
    valve = SlideValve(2.5, 0.1, 3.0, admission=gear.admission)
    good = levelled(gear, CRANK, valve)
    spoilt = replace(
        good, **{fields[0]: getattr(good, fields[0]) + 2.5, fields[1]: getattr(good, fields[1]) - 3}
    )
    if not isinstance(gear, Stephenson):
        spoilt = spoilt.squared()
    pivots = only(*names, reach=5.0, candidates=1500)
    found = search(pivots, **given(spoilt))
    planted = scored(found.problem, good)
    assert planted.total < 0.9 * found.present.total
    assert found.best.total <= planted.total + 1e-3
    assert found.worth.gain == pytest.approx(found.present.total - found.best.total)
    assert holds(found.problem, found.gear)
    assert {one.field for one in found.moved} - {"eccentric_rod", "return_crank_angle"} <= set(
        fields
    )
    for one in found.moved:
        assert getattr(found.gear, one.field) == one.after != one.before
    for path, value in found.changes:
        assert getattr(found.gear, path.rpartition(".")[2]) == value


def upside_down(gear: Stephenson) -> Stephenson:
    """Mirror a direct gear in the cylinder's line: what was forward becomes backward."""
    assert gear.die_height is not None
    return replace(
        gear, weighshaft_y=-gear.weighshaft_y, suspension_above=-gear.suspension_above,
        die_height=-gear.die_height, hanging="above" if gear.hanging == "below" else "below",
        arm_angle_forward=-gear.arm_angle_backward, arm_angle_backward=-gear.arm_angle_forward,
    )  # fmt: skip


def test_mirrored_problems_have_mirrored_optima() -> None:
    gear = replace(DIRECT, die_height=1.0, arm_angle_backward=22.0)
    even = Counting(cutoff_forward=1.0, cutoff_backward=2.0)
    odd = Counting(cutoff_forward=2.0, cutoff_backward=1.0)
    notches = (1.0, 0.6, -0.5, -1.0)
    here = only(*SUSPENSION, "weighshaft y", candidates=1500, counting=even, notches=notches)
    there = replace(here, counting=odd, notches=tuple(-one for one in notches))
    first = search(here, **given(gear))
    second = search(there, **given(upside_down(gear), setting=ValveSetting(reverser=-1.0)))
    assert second.present.total == pytest.approx(first.present.total, rel=1e-6)
    assert second.best.total == pytest.approx(first.best.total, abs=0.01)
    assert second.best.total < 0.9 * second.present.total
    back = upside_down(second.gear)
    for field in ("suspension_ahead", "suspension_above", "weighshaft_y"):
        assert getattr(back, field) == pytest.approx(getattr(first.gear, field), abs=0.25)
    assert scored(first.problem, back).total == pytest.approx(second.best.total, abs=1e-6)


def test_any_executor_and_any_number_of_workers_give_the_same_gear() -> None:
    pivots = only(*SUSPENSION, "lifting link", candidates=700)
    alone = search(pivots, **given(DIRECT))
    with ThreadPoolExecutor(3) as threads:
        threaded = search(pivots, executor=threads, **given(DIRECT))
    spawned = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(2, mp_context=spawned) as processes:
        apart = search(pivots, executor=processes, **given(DIRECT))
    assert alone == threaded == apart
    assert search(replace(pivots, seed=2), **given(DIRECT)).history != alone.history


def test_progress_never_falls_back_and_the_best_never_rises() -> None:
    told: list[tuple[int, int, float | None]] = []
    pivots = only(*SUSPENSION, candidates=900)
    found = search(pivots, progress=lambda *all: told.append(all), **given(DIRECT))
    tried = [one[0] for one in told]
    assert tried == sorted(set(tried))
    assert tried[-1] == found.tried
    assert all(done <= total for done, total, _ in told)
    best = [one[2] for one in told if one[2] is not None]
    assert best == sorted(best, reverse=True)
    assert best[0] > best[-1]
    assert not found.stopped
    assert [one[1] for one in found.history] == sorted({one[1] for one in found.history})[::-1]


@pytest.mark.parametrize("threads", [False, True])
def test_a_stopped_search_gives_the_best_so_far(threads: bool) -> None:
    seen = []

    def stop() -> bool:
        return len(seen) >= 5

    pivots = only(*SUSPENSION, candidates=100_000)
    pool = ThreadPoolExecutor(2) if threads else None
    found = search(
        pivots, executor=pool, progress=lambda *all: seen.append(all), stop=stop, **given(DIRECT)
    )
    if pool is not None:
        pool.shutdown()
    assert found.stopped
    assert found.tried == 5 * BLOCK
    assert found.best.total < found.present.total
    assert holds(found.problem, found.gear)


def test_stopped_at_once_the_present_gear_stands() -> None:
    found = search(only(*SUSPENSION), stop=lambda: True, **given(DIRECT))
    assert found.stopped
    assert found.tried == 0
    assert found.gear == DIRECT
    assert found.moved == ()
    assert not found.worth.worth
    assert found.worth.says == "Nothing better was found than the gear as it is; leave it."
    with pytest.raises(Stopped):
        trial(100, stop=lambda: True).totals(np.zeros((3, 2)))


def test_what_locks_never_wins_and_stands_behind_all_else() -> None:
    """Rooms so wide that most of them locks: the ranks keep apart, and the best one turns."""
    pivots = Pivots(
        lengths=(Length(name="lifting link", down=44.0, up=60.0),
                 Length(name="eccentric rod", down=90.0, up=40.0)),
        angles=(Angle(name="none"),), candidates=600, holding=Holding(margin=0.3),
    )  # fmt: skip
    problem = posed(pivots, **given(DIRECT))
    x = np.random.default_rng(1).uniform(size=(400, 2))
    totals = evaluate(problem, x)
    found = judged(problem, problem.candidates(x), len(x))
    turns = found.events.turns
    assert 0.1 < turns.mean() < 0.9
    assert totals[~turns].min() > 1e9 > totals[turns].max()
    assert np.isfinite(totals).all()
    assert found.total[~turns].min() > 1e9 > found.total[turns].max()
    sound = totals < MOST
    assert np.array_equal(sound, found.sound)
    assert totals[sound] == pytest.approx(found.score[sound], rel=1e-9)
    assert (totals[turns & ~sound] > MOST).all()
    best = search(pivots, **given(DIRECT))
    assert best.best.margin >= 0.3
    assert holds(problem, best.gear)
    # a gear that locks as it is gets out of it
    locked = replace(DIRECT, lifting_link=10.0)
    freed = search(only("lifting link", reach=60.0, candidates=400), **given(locked))
    assert not np.isfinite(freed.present.total)
    assert freed.best.sound
    assert freed.worth.worth
    assert "as it is locks" in freed.worth.says


def test_limits_are_kept_and_cost_something() -> None:
    free = search(only(*SUSPENSION, "lifting link", candidates=600), **given(DIRECT))
    limit = 0.5 * (free.present.margin + free.best.margin) if (
        free.best.margin < free.present.margin) else free.best.margin + 0.01  # fmt: skip
    tight = replace(only(*SUSPENSION, "lifting link", candidates=600),
                    holding=Holding(margin=limit))  # fmt: skip
    held = search(tight, **given(DIRECT))
    assert free.best.margin < limit <= held.best.margin
    assert free.best.total < held.best.total


def far_from_weighshaft(gear, crank) -> np.ndarray:
    """A gap that asks the lifting link to be long, as another chapter would report it."""
    return np.ravel(gear.lifting_link) - 50.0


def test_a_gap_that_is_to_hold_is_held() -> None:
    pivots = replace(only("lifting link", reach=10.0, candidates=300),
                     holding=Holding(least_gap=5.5))  # fmt: skip
    found = search(pivots, clear=far_from_weighshaft, **given(DIRECT))
    assert found.gear.lifting_link >= 55.5
    assert found.present.broken == ("gap",)
    assert "breaks a limit (gap)" in found.worth.says


def test_residuals_are_the_score_in_pieces() -> None:
    problem = posed(only(*SUSPENSION), **given(ROCKER))
    x = np.array([[0.5, 0.5], [0.45, 0.55]])
    found = judged(problem, problem.candidates(x), 2, polished=True)
    rows = residuals(problem, x)
    assert found.sound.all()
    assert (rows**2).sum(axis=1) == pytest.approx(found.score**2, rel=1e-12)


def test_a_move_that_brings_nothing_is_spared() -> None:
    problem = posed(only(*SUSPENSION, "die height"), **given(DIRECT))
    now = problem.place(DIRECT)
    better = search(only(*SUSPENSION, candidates=600), **given(DIRECT))
    place = problem.place(better.gear)
    place[2] += 1e-4
    kept = spared(problem, place, better.present.total)
    assert kept[2] == now[2]
    assert np.abs(kept[:2] - now[:2]).max() > 0.01


def test_sizes_are_hundredths_within_their_rooms_and_the_rest_stays() -> None:
    pivots = only(*SUSPENSION, "lifting link", reach=1.234)
    problem = posed(pivots, **given(DIRECT))
    for place in np.random.default_rng(2).uniform(size=(20, 3)):
        for _, gear in rounded(problem, place, np.random.default_rng(1)):
            for one in problem.rooms:
                value = value_now(gear, one.field)
                assert value is not None
                assert one.low <= value <= one.high
                assert value == pytest.approx(round(value, 2), abs=1e-12)
            untouched = {one.field: one.now for one in problem.rooms}
            assert replace(gear, **untouched) == DIRECT


def test_nothing_that_may_move_is_refused_in_words() -> None:
    with pytest.raises(SizeError, match="Nothing may move"):
        search(
            Pivots(lengths=(Length(name="none"),), angles=(Angle(name="none"),)), **given(DIRECT)
        )


def test_whether_it_is_worth_the_metal_hangs_on_the_workshop() -> None:
    pivots = only(*SUSPENSION, candidates=500)
    close = search(pivots, tolerance=0.01, **given(DIRECT)).worth
    rough = search(pivots, tolerance=6.0, **given(DIRECT)).worth
    assert close.worth
    assert close.says.startswith("Worth the metal: the score falls from 9.39 to ")
    assert close.spread < 0.2 < close.gain < rough.spread
    assert not rough.worth
    assert rough.says.startswith("Not worth the metal as the workshop is")
    assert f"worse than {rough.made:.2f}" in rough.says
    assert rough.present_made > rough.made - rough.gain
    best = search(pivots, **given(DIRECT)).gear
    slight = replace(best, suspension_ahead=best.suspension_ahead + 0.03)
    again = search(pivots, **given(slight)).worth
    assert not again.worth
    assert again.gain < 0.25
    assert "nobody will hear" in again.says or "Nothing better" in again.says


def test_events_of_the_best_are_those_of_the_linkage() -> None:
    found = search(only(*SUSPENSION, candidates=500), **given(ROCKER))
    events = events_over(CRANK, VALVE, found.gear, found.problem.notches)
    apart = [one.front.cutoff.percent - one.back.cutoff.percent for one in events]
    assert found.best.apart == pytest.approx(apart, abs=1e-6)


def test_first_glance_never_turns_away_what_is_sound() -> None:
    wide = Pivots(candidates=500)
    problem = posed(wide, **given(OUTSIDE))
    x = np.random.default_rng(4).uniform(size=(300, len(problem.rooms)))
    totals = evaluate(problem, x)
    whole = judged(problem, problem.candidates(x), len(x))
    assert (totals >= SEEN).any()
    assert not whole.sound[totals >= SEEN].any()
