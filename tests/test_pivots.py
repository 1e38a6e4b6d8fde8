"""The chapter on pivots: what may move, what a gear scores, the map, and what is said."""

from __future__ import annotations

import math
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given as drawn
from hypothesis import settings
from hypothesis import strategies as st

from tests.motion.gears_for_tests import CRANK, DIRECT, INSIDE, OUTSIDE, ROCKER, SLIP
from tests.motion.test_many import ALL
from tests.pivots.problems_for_tests import KINDS, NOTCHES, SUSPENSION, VALVE, given, only
from weighshaft.design.document import model_of
from weighshaft.motion import GEARS, SlideValve, events_over
from weighshaft.motion.many import spread
from weighshaft.pivots import (
    Angle,
    Counting,
    Holding,
    Length,
    Pivots,
    pivot_map,
    posed,
    scored,
    work,
)
from weighshaft.pivots.fields import USUAL, idle, value_now, with_sizes
from weighshaft.pivots.objective import MISSING, PARTS, evaluate, judged
from weighshaft.pivots.problem import glance
from weighshaft.sizes import SizeError, sizes_of


def end_events(gear, valve, notches, setting=None):
    return events_over(CRANK, valve, gear, notches, setting=setting)


@pytest.mark.parametrize("gear", [DIRECT, ROCKER, OUTSIDE, INSIDE, SLIP], ids=lambda g: g.kind)
def test_parts_of_the_score_are_those_of_the_events_on_the_linkage(gear) -> None:
    """Each part anew from `events_over`, the definitions written out once more."""
    known = given(gear)
    problem = posed(Pivots(notches=NOTCHES), **known)
    notches = problem.notches
    score = scored(problem, gear)
    events = end_events(gear, known["valve"], notches)

    def apart(name: str) -> list[float]:
        return [getattr(e.front, name).percent - getattr(e.back, name).percent for e in events]

    leads = np.array([[e.front.lead, e.back.lead] for e in events])
    means = leads.mean(axis=1)
    cutoffs = np.array([(e.front.cutoff.percent + e.back.cutoff.percent) / 2 for e in events])
    full = [i for i, one in enumerate(notches) if abs(one) == 1]
    faults = {
        "cutoff_forward": [a for a, n in zip(apart("cutoff"), notches, strict=True) if n > 0],
        "cutoff_backward": [a for a, n in zip(apart("cutoff"), notches, strict=True) if n < 0],
        "lead": list(leads[:, 0] - leads[:, 1]),
        "lead_change": list(means - means.mean()),
        "opening": [0.0] * len(notches),
        "release": apart("release"),
        "compression": apart("compression"),
        "cutoff_kept": [cutoffs[i] - 78.0 for i in full],
        "lead_kept": [means[i] - 0.2 for i in full],
    }
    counts = {
        "cutoff_forward": 1.0, "cutoff_backward": 2.0, "lead": 0.12, "lead_change": 0.45,
        "die_slip": 2.0, "opening": 0.15, "release": 3.0, "compression": 3.0, "cutoff_kept": 2.0,
        "lead_kept": 0.12,
    }  # fmt: skip
    theta = np.linspace(0, 360, 72, endpoint=False)[None]
    die = gear.pose(CRANK, theta, np.array(notches)[:, None]).die
    if die is not None:
        faults["die_slip"] = list(np.ptp(die, axis=1))
    assert {part.name for part in score.parts} == set(faults)
    squares = 0.0
    for part in score.parts:
        figure = math.sqrt(sum(one**2 for one in faults[part.name]) / len(faults[part.name]))
        assert part.figure == pytest.approx(figure, abs=1e-6)
        assert part.counts == pytest.approx(counts[part.name])
        told = [one for one in part.notches if one is not None]
        assert told == pytest.approx(faults[part.name], abs=1e-6)
        squares += (figure / counts[part.name]) ** 2
    assert score.total == pytest.approx(math.sqrt(squares), abs=1e-6)
    assert score.apart == pytest.approx(apart("cutoff"), abs=1e-6)


@pytest.mark.parametrize("name", KINDS)
def test_usual_sizes_of_every_gear_may_move_and_matter(name: str) -> None:
    """Each moves something that is judged, and rows of candidates are the gears one by one."""
    gear = KINDS[name]
    problem = posed(Pivots(notches=NOTCHES), **given(gear))
    fields = [one.field for one in problem.rooms]
    assert fields == list(dict.fromkeys(fields))
    expected = {field for field, *_ in USUAL[gear.kind]} - idle(gear)
    assert set(fields) == expected
    now = problem.place(gear)
    assert ((now >= 0) & (now <= 1)).all()
    same = judged(problem, problem.candidates(now[None]))
    assert same.score[0] == pytest.approx(scored(problem, gear).total, rel=0.02, abs=0.02)
    n = len(now)
    moved = np.tile(now, (n, 1)) + 0.1 * np.eye(n) * np.where(now > 0.5, -1, 1)[:, None]
    rows = judged(problem, problem.candidates(moved), n, polished=True)
    alone = [
        judged(problem, problem.candidates(one[None]), polished=True).score[0] for one in moved
    ]
    assert rows.score == pytest.approx(alone, rel=1e-6)
    base = judged(problem, problem.candidates(now[None]), polished=True)
    flat = np.concatenate([np.nan_to_num(one) for one in rows.faults.values()], axis=1)
    still = np.concatenate([np.nan_to_num(one) for one in base.faults.values()], axis=1)
    assert (np.abs(flat - still).max(axis=1) > 1e-7).all(), fields


def test_every_gear_that_can_be_chosen_has_usual_sizes_that_it_owns() -> None:
    for kind, usual in USUAL.items():
        about = sizes_of(GEARS[kind])
        for field, share, of in usual:
            assert about[field].unit == ("mm" if of else "deg"), (kind, field)
            assert share > 0
            assert not of or of in about


def test_a_size_left_empty_moves_from_what_stands_in_for_it() -> None:
    problem = posed(only("link radius", reach=4.0), **given(KINDS["Gooch, outside"]))
    (room,) = problem.rooms
    assert room.now == value_now(KINDS["Gooch, outside"], "radius_rod")
    slip = posed(Pivots(), **given(SLIP))
    assert {one.field for one in slip.rooms if one.unit == "deg"} == {"advance", "advance_backward"}
    assert value_now(SLIP, "advance_backward") == SLIP.advance
    assert slip.notches == (1.0, -1.0)


def test_rod_and_return_crank_follow_as_the_builder_would_set_them() -> None:
    gear = replace(OUTSIDE, tail_ahead=1.0).squared()
    moved = with_sizes(gear, {"tail_ahead": np.array([1.0, 3.0])}, follows=True)
    there = replace(gear, tail_ahead=3.0).squared()
    for field in ("eccentric_rod", "return_crank_angle"):
        rows = np.ravel(getattr(moved, field))
        assert rows[0] == pytest.approx(getattr(gear, field), abs=1e-12)
        assert rows[1] == pytest.approx(getattr(there, field), abs=1e-12)
    assert posed(only("tail ahead"), **given(gear)).follows
    assert not posed(only("tail ahead", "eccentric rod"), **given(gear)).follows


@drawn(st.floats(0, 30), st.floats(0, 30))
@settings(max_examples=40, deadline=None)
def test_room_holds_the_present_size_and_no_length_vanishes(down: float, up: float) -> None:
    pivots = Pivots(
        lengths=(Length(name="lifting link", down=down, up=up),), angles=(Angle(name="none"),)
    )
    rooms = posed(pivots, **given(replace(DIRECT, lifting_link=20.0))).rooms
    if down + up < 1e-9:
        assert rooms == ()
        return
    (room,) = rooms
    assert room.low == pytest.approx(max(20.0 - down, 4.0))
    assert room.high == pytest.approx(20.0 + up)


def test_what_does_not_occur_counts_as_a_great_fault_not_as_none() -> None:
    shut = replace(VALVE, steam_lap=9.0)
    problem = posed(only(*SUSPENSION), **given(DIRECT, valve=shut))
    score = scored(problem, DIRECT)
    cutoffs = next(part for part in score.parts if part.name == "cutoff_forward")
    assert cutoffs.figure == pytest.approx(MISSING)
    assert score.apart == (None,) * 4
    assert np.isfinite(evaluate(problem, np.array([[0.5, 0.5]]))).all()
    assert work(only(*SUSPENSION), **given(DIRECT, valve=shut)).score == score.total


def test_limits_left_empty_are_never_tighter_than_the_gear_is_now() -> None:
    for gear in KINDS.values():
        problem = posed(Pivots(), **given(gear))
        assert "angle of transmission" not in scored(problem, gear).broken
        assert "swing of the link" not in scored(problem, gear).broken
    seen = glance(posed(Pivots(), **given(OUTSIDE)), OUTSIDE)
    points = OUTSIDE.pose(
        CRANK, np.linspace(0, 360, 24, endpoint=False)[None], np.array([[1.0]])
    ).points
    way = points["link"] - points["link_centre"]
    turns = np.degrees(np.unwrap(np.arctan2(way[..., 1], way[..., 0])))
    assert seen.swing is not None
    assert seen.swing[0] == pytest.approx(np.ptp(turns), abs=1e-9)


def test_lifting_gear_alone_in_rows_closes_as_one_by_one() -> None:
    """More candidates than poses fit a block, where the eccentrics are the same for all."""
    arms = np.linspace(36.0, 40.0, 200)
    theta, rows = np.linspace(0, 360, 30)[None], np.array([[1.0], [-0.5]])
    links = np.linspace(52.0, 58.0, 200)
    many = spread(DIRECT, {"lifting_arm": arms, "lifting_link": links}).pose(CRANK, theta, rows)
    for i in (0, 99, 199):
        one = replace(DIRECT, lifting_arm=float(arms[i]), lifting_link=float(links[i]))
        assert many.valve[i] == pytest.approx(one.pose(CRANK, theta, rows).valve, abs=1e-9)


@pytest.mark.parametrize(
    ("gear", "x", "y"),
    [
        (DIRECT, "suspension_ahead", "suspension_above"),
        (OUTSIDE, "tail_ahead", "arm_angle_forward"),
    ],
    ids=["Stephenson", "Walschaerts"],
)
def test_the_map_is_the_gear_itself_at_each_place(gear, x: str, y: str) -> None:
    pivots = only(*SUSPENSION) if x == "suspension_ahead" else Pivots(notches=NOTCHES)
    known = given(gear)
    drawn_map = pivot_map(pivots, x, y, points=7, tolerance=0.05, **known)
    assert drawn_map is not None
    problem = posed(pivots, **known)
    for i, j in ((0, 0), (3, 5), (6, 2)):
        sizes = {x: float(drawn_map.xs[j]), y: float(drawn_map.ys[i])}
        one = replace(gear, **sizes)
        if problem.follows:
            one = replace(one, eccentric_rod=one.squared().eccentric_rod,
                          return_crank_angle=one.squared().return_crank_angle)  # fmt: skip
        score = scored(problem, one)
        assert drawn_map.score[i, j] == pytest.approx(score.total, rel=1e-6)
        known_apart = [abs(one) for one in score.apart if one is not None]
        assert drawn_map.apart[i, j] == pytest.approx(max(known_apart), rel=1e-6)
        assert drawn_map.sound[i, j] == score.sound
    assert drawn_map.present == (getattr(gear, x), getattr(gear, y))
    assert drawn_map.error == (0.05, 0.25 if y == "arm_angle_forward" else 0.05)
    with ThreadPoolExecutor(2) as pool:
        again = pivot_map(pivots, x, y, points=7, executor=pool, **known)
    assert again is not None
    assert np.array_equal(again.score, drawn_map.score, equal_nan=True)


def test_the_map_on_the_best_gear_marks_both_and_can_be_stopped() -> None:
    best = replace(DIRECT, suspension_ahead=0.5, weighshaft_x=95.0)
    known = given(DIRECT)
    made = pivot_map(only(*SUSPENSION), *("suspension_ahead", "weighshaft_y"), best=best, points=5,
                     **known)  # fmt: skip
    assert made is not None
    assert made.on_best
    assert made.best == (0.5, 55.0)
    assert made.present == (-1.0, 55.0)
    middle = replace(best, suspension_ahead=float(made.xs[2]), weighshaft_y=float(made.ys[2]))
    expected = scored(posed(only(*SUSPENSION), **known), middle).total
    assert made.score[2, 2] == pytest.approx(expected, rel=1e-6)
    stopped = pivot_map(only(*SUSPENSION), "suspension_ahead", "weighshaft_y", stop=lambda: True,
                        **known)  # fmt: skip
    assert stopped is None
    with pytest.raises(SizeError, match="has no size"):
        pivot_map(only(*SUSPENSION), "tail_ahead", "weighshaft_y", **known)
    with pytest.raises(SizeError, match="two sizes"):
        pivot_map(only(*SUSPENSION), "weighshaft_y", "weighshaft_y", **known)


def test_where_the_gear_locks_the_map_is_blank() -> None:
    pivots = only("lifting link", "lifting arm", reach=44.0)
    made = pivot_map(pivots, "lifting_link", "lifting_arm", points=9, **given(DIRECT))
    assert made is not None
    blank = np.isnan(made.score)
    assert 0 < blank.sum() < blank.size
    assert not made.sound[blank].any()


def says(pivots: Pivots, gear=DIRECT, **others) -> list[tuple[str, str, tuple[str, ...]]]:
    found = work(pivots, **given(gear, **others)).findings
    return [(one.level, one.says, one.fields) for one in found]


def test_work_tells_the_present_gear_and_what_may_move() -> None:
    result = work(Pivots(), **given(DIRECT))
    assert result.score == result.present.total
    parts = {part.name: part for part in result.present.parts}
    assert result.apart_forward == max(abs(one) for one in result.present.apart[:3])
    assert result.apart_backward == max(abs(one) for one in result.present.apart[3:])
    assert result.die_slip == max(one for one in parts["die_slip"].notches if one is not None)
    assert result.moving == len(result.rooms) == 12
    (working,) = result.workings
    assert working.result == pytest.approx(result.score)
    assert r"\sqrt" in working.in_symbols()
    suggested = {one.field: one.value for one in result.suggestions}
    assert suggested["pivots.counting.lead"] == pytest.approx(0.12)
    assert suggested["pivots.counting.die_slip"] == pytest.approx(2.0)
    assert suggested["pivots.holding.margin"] == pytest.approx(
        min(0.64, result.least_margin), abs=1e-9
    )
    ((level, sentence, _),) = says(Pivots())
    assert level == "fine"
    assert f"scores {result.score:.2f} faults" in sentence


def test_findings_name_the_size_and_what_is_wrong() -> None:
    assert any(
        "nothing to search" in one and level == "check" for level, one, _ in says(only("none"))
    )
    (wrong, *_) = says(only("tail ahead", "suspension ahead"))
    assert wrong == ("check", "Stephenson's link motion has no tail ahead; it is left out.",
                     ("pivots.lengths.0.name",))  # fmt: skip
    assert any("without meaning" in one for _, one, _ in says(only("rocker x", *SUSPENSION)))
    assert any("named twice" in one for _, one, _ in says(only("backset", "backset")))
    settled = frozenset({"motion.gear.lifting_link"})
    pivots = only("lifting link", "backset")
    assert any("bought part" in one for _, one, _ in says(pivots, fixed=settled))
    assert [one.field for one in work(pivots, **given(DIRECT, fixed=settled)).rooms] == ["backset"]
    none = Pivots(lengths=(Length(name="backset", down=0.0, up=0.0),), angles=(Angle(name="none"),))
    assert any("neither down nor up; it stays at 8" in one for _, one, _ in says(none))
    short = Pivots(lengths=(Length(name="lifting link", down=54.0),), angles=(Angle(name="none"),))
    assert any("down to 11.00 mm at most" in one for _, one, _ in says(short))
    few = work(Pivots(candidates=300), **given(DIRECT)).findings
    assert [one.change for one in few if one.change] == [("pivots.candidates", 1200.0)]
    gap = Pivots(holding=Holding(least_gap=0.5))
    assert any("gap of 0.5 mm is not looked at" in one for _, one, _ in says(gap))


def test_a_gear_without_pivots_or_without_lap_is_not_asked_for_what_it_cannot_do() -> None:
    swings = work(Pivots(), **given(ALL["oscillating, outside"]))
    assert swings.moving == 0
    told = [(one.level, one.says) for one in swings.findings]
    assert ("fine", "Oscillating cylinders: no pivots to search.") in told
    assert {level for level, _ in told} == {"fine"}
    for name in ("oscillating, outside", "change-over, outside"):
        parts = {part.name: part for part in work(Pivots(), **given(ALL[name])).present.parts}
        assert parts["cutoff_kept"].figure == pytest.approx(0.0, abs=1e-6)
    for name in ("Joy, outside", "Hackworth, outside"):
        assert work(Pivots(), **given(ALL[name])).die_slip is None


def test_findings_on_a_gear_that_breaks_what_must_hold() -> None:
    sharp = Pivots(holding=Holding(margin=0.95, swing=20.0))
    told = [one for level, one, _ in says(sharp) if level == "check"]
    assert any("sine 0." in one and "0.95 is asked" in one for one in told)
    assert any("of swing where 20° is allowed" in one for one in told)
    tight = replace(DIRECT, slot_length=20.0)
    assert any("slot that has 10.00 mm either way" in one for _, one, _ in says(Pivots(), tight))
    loose = Pivots(holding=Holding(die_in_slot=False))
    assert not any("slot" in one and level == "check" for level, one, _ in says(loose, tight))
    locked = replace(DIRECT, lifting_link=10.0)
    assert any("locks in a notch that counts" in one for _, one, _ in says(Pivots(), locked))
    result = work(Pivots(), **given(locked))
    assert result.score is result.apart_forward is result.lead_apart is None
    leaning = replace(OUTSIDE, eccentric_rod=OUTSIDE.eccentric_rod + 2.0)
    assert any("does not stand upright" in one for _, one, _ in says(Pivots(), leaning))
    assert not any("does not stand upright" in one for _, one, _ in says(Pivots(), OUTSIDE))


def test_notches_between_keep_the_cut_off_they_have() -> None:
    """Without full gear among the notches the outermost are held where they are now."""
    problem = posed(replace(Pivots(), notches=(0.7, 0.4, -0.6)), **given(DIRECT))
    events = end_events(DIRECT, VALVE, problem.notches)
    mean = [(e.front.cutoff.percent + e.back.cutoff.percent) / 2 for e in events]
    assert problem.kept_cutoff[0] == pytest.approx(mean[0], abs=1e-6)
    assert math.isnan(problem.kept_cutoff[1])
    assert problem.kept_cutoff[2] == pytest.approx(mean[2], abs=1e-6)
    kept = {part.name: part for part in scored(problem, DIRECT).parts}
    assert kept["cutoff_kept"].figure == pytest.approx(0.0, abs=1e-6)
    whole = posed(Pivots(notches=(1.0, 0.4)), **given(DIRECT))
    assert whole.kept_cutoff[0] == 78.0
    assert whole.kept_lead[0] == 0.2
    assert "cutoff_backward" not in {part.name for part in scored(whole, DIRECT).parts}


def test_what_counts_more_weighs_more() -> None:
    heavy = posed(Pivots(counting=Counting(cutoff_forward=0.5)), **given(DIRECT))
    plain = posed(Pivots(), **given(DIRECT))
    by_name = [{p.name: p for p in scored(one, DIRECT).parts} for one in (plain, heavy)]
    for name, *_ in PARTS:
        factor = 2.0 if name == "cutoff_forward" else 1.0
        assert by_name[1][name].faults == pytest.approx(factor * by_name[0][name].faults)


def test_bad_decisions_are_refused_in_words() -> None:
    with pytest.raises(SizeError, match="at least one is needed"):
        Pivots(notches=())
    with pytest.raises(SizeError, match="Length that may move"):
        Length(name="__class__")
    with pytest.raises(SizeError, match="out of range"):
        Counting(cutoff_forward=0.0)
    with pytest.raises(SizeError, match="Gears to try"):
        Pivots(candidates=3)
    assert len([about for about in sizes_of(Pivots).values() if about.main]) <= 6


def test_decisions_can_be_checked_as_a_design_file() -> None:
    model = model_of(Pivots)
    read = model.model_validate(
        {"lengths": [{"name": "suspension ahead", "up": 2}], "counting": {"lead": 0.1}}
    )
    assert read.lengths[0].name == "suspension ahead"
    with pytest.raises(ValueError, match="name"):
        model.model_validate({"lengths": [{"name": "made up"}]})


def test_valve_is_the_piston_valve_of_the_gear() -> None:
    inside = work(Pivots(notches=NOTCHES), **given(INSIDE))
    assert inside.problem.valve == SlideValve(2.5, 0.1, 3.0, admission="inside")
    assert inside.score is not None
    assert "lifting_link" not in {one.field for one in inside.rooms}
