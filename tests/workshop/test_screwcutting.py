"""Screwcutting, dividing and speeds: searches against plain loops, and what is said."""

from __future__ import annotations

import itertools
import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.designs import ROOT
from weighshaft import job
from weighshaft.design import read
from weighshaft.sizes import SizeError
from weighshaft.threads.form import profile
from weighshaft.trade.cutting import cutting_speed
from weighshaft.trade.materials import MATERIALS
from weighshaft.trade.threads import thread
from weighshaft.workshop.machines import Dividing, Lathe, Machines
from weighshaft.workshop.screwcutting import Screwcutting, ScrewcuttingResult, work
from weighshaft.workshop.screwcutting.decisions import (
    INSIDE,
    STRAIGHT,
    ChangeWheels,
    InFeed,
)
from weighshaft.workshop.screwcutting.differential import geared
from weighshaft.workshop.screwcutting.indexing import indexed, nearest_holes
from weighshaft.workshop.screwcutting.infeed import fed
from weighshaft.workshop.screwcutting.speeds import next_lower
from weighshaft.workshop.screwcutting.starts import by_nut, several
from weighshaft.workshop.screwcutting.trains import (
    Train,
    missing,
    nut_every,
    passing,
    search,
    spare,
)


def worked(machines: Machines | None = None, **decided: object) -> ScrewcuttingResult:
    return work(Screwcutting(**decided), machines=machines or Machines())  # type: ignore[arg-type]


def by_hand(lathe: Lathe, wanted: float) -> float:
    """Return the least error of all trains of one or two pairs that mesh, by plain loops."""
    need, best = 2 + lathe.stud / lathe.wheel_module, math.inf
    wheels = lathe.change_wheels
    for a, b in itertools.permutations(range(len(wheels)), 2):
        best = min(best, abs(lathe.leadscrew * wheels[a] / wheels[b] / wanted - 1))
    for a, b, c, d in itertools.permutations(range(len(wheels)), 4):
        w, x, y, z = (wheels[n] for n in (a, b, c, d))
        if w + x >= y + need and y + z >= x + need:
            best = min(best, abs(lathe.leadscrew * w * y / (x * z) / wanted - 1))
    return best


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.integers(18, 75), min_size=4, max_size=8),
    st.floats(0.3, 4.0),
    st.sampled_from([25.4 / 8, 2.0]),
)
def test_search_finds_the_best(wheels: list[int], wanted: float, leadscrew: float) -> None:
    lathe = Lathe(leadscrew=leadscrew, change_wheels=tuple(wheels))
    found = search(lathe, wanted, 2, 4)
    assert abs(found.best[0].error) == pytest.approx(by_hand(lathe, wanted), abs=1e-12)
    errors = [abs(one.error) for one in found.best]
    assert errors == sorted(errors) or found.best[0].exact
    owned = sorted(wheels)
    for one in found.best:
        used = [teeth for pair in one.pairs for teeth in pair]
        assert all(used.count(teeth) <= owned.count(teeth) for teeth in used)
        assert one.pitch == pytest.approx(leadscrew * float(one.ratio))
        assert one.meshes


def test_wheels_that_pass_are_apart() -> None:
    # drawn out: rims of the wheels beside clear the studs when spare is what is needed
    lathe = Lathe()
    m, need = lathe.wheel_module, passing(lathe)
    for a, b, c, d in ((20, 30, 25, 65), (25, 35, 20, 65), (20, 40, 50, 45), (30, 60, 20, 38)):
        left = m * (a + b) / 2 - (m * (c + 2) / 2 + lathe.stud / 2)
        right = m * (c + d) / 2 - (m * (b + 2) / 2 + lathe.stud / 2)
        room = spare(np.array([[a, c]]), np.array([[b, d]]))[0] - need
        assert min(left, right) == pytest.approx(m / 2 * room)


def test_three_pairs_come_nearer_or_as_near() -> None:
    lathe = Lathe(change_wheels=(20, 25, 30, 35, 38, 45, 50, 55, 60, 65))
    two, three = (search(lathe, 0.73, pairs, 1).best[0] for pairs in (2, 3))
    assert abs(three.error) < abs(two.error)
    assert three.spare is not None
    assert three.spare >= 0


def test_exact_trains_come_first_and_simple_ones_before() -> None:
    found = search(Lathe(change_wheels=(20, 30, 40, 50, 60, 75)), 25.4 / 12, 2, 8).best
    assert len(found[0].pairs) == 1
    assert [one.exact for one in found] == sorted((one.exact for one in found), reverse=True)


def test_reach_refuses_a_train_that_is_too_short() -> None:
    near, far = (
        Lathe(train_centres=centres, change_wheels=(20, 25, 30, 35, 40, 60))
        for centres in (60.0, 500.0)
    )
    assert search(near, 25.4 / 16, 2, 3).best
    assert not search(far, 25.4 / 16, 2, 3).best
    result = worked(Machines(lathe=far), pitch=25.4 / 16)
    assert [one.level for one in result.findings if "No train" in one.says] == ["stop"]


def test_single_pair_gets_the_smallest_wheel_that_bridges() -> None:
    lathe = Lathe(train_centres=100.0, change_wheels=(20, 40, 30, 45, 55, 65))
    one = next(t for t in search(lathe, 25.4 / 16, 1, 4).best if t.pairs == ((20, 40),))
    # 1.27 / 2 × (20 + 40 + 2 × 55) = 107.95; with 45 only 95.25
    assert one.idler == 55
    assert one.reach == pytest.approx(107.95)


def test_helper_wheel_is_named() -> None:
    helped = missing(Lathe(), 1.0, 2)
    assert helped[0][0] == 127
    assert helped[0][1].exact
    result = worked(thread="M6")
    assert any("127 teeth" in one.mend for one in result.findings)


def test_many_wheels_are_said_not_to_be_looked_at() -> None:
    many = Machines(lathe=Lathe(change_wheels=tuple(range(20, 65))))
    assert "first 40" in search(many.lathe, 1.0, 2, 1).skipped
    result = worked(many, pitch=1.0, wheels=ChangeWheels(pairs=3))
    assert any("looked at" in one.says for one in result.findings)


@given(st.integers(15, 80), st.integers(15, 80))
def test_nut_meets_the_thread(a: int, b: int) -> None:
    every = nut_every(Train(((a, b),), 0, 0, None, None, None, None), 1.0)
    ratio = Fraction(a, b)
    assert (every / ratio).denominator == 1
    assert all((n / ratio).denominator > 1 for n in range(1, every))


def test_exact_pitch_costs_nothing_and_a_long_nut_more() -> None:
    assert worked(thread="1/4 × 40").lost == 0
    short, long = (
        worked(thread="M6", wheels=ChangeWheels(engagement=length)) for length in (5.0, 50.0)
    )
    assert long.lost == pytest.approx(10 * short.lost)  # type: ignore[operator]
    assert any(one.level == "check" and "binds" in one.says for one in long.findings)
    assert not any("binds" in one.says for one in short.findings)


@settings(max_examples=30, deadline=None)
@given(
    st.sampled_from(["1/4 × 40", "2BA", "M6", "8BA", "1/4 UNC", "1/4 BSF"]),
    st.floats(0.03, 0.3), st.sampled_from([True, False]), st.sampled_from([True, False]),
)  # fmt: skip
def test_cuts_grow_to_the_depth(name: str, first: float, inside: bool, straight: bool) -> None:
    one = thread(name)
    options = InFeed(
        first_cut=first, **({"where": INSIDE} if inside else {}),
        **({"fed": STRAIGHT} if straight else {}),
    )  # fmt: skip
    through = fed(options, one, one.pitch, Lathe())
    depths = [cut.depth for cut in through.cuts]
    assert depths == sorted(depths)
    assert depths[-1] == pytest.approx(through.depth)
    assert through.cuts[-1].added == 0
    expected = (one.major - one.minor_internal) / 2 if inside else one.depth
    assert through.depth == pytest.approx(expected)
    assert through.slide == pytest.approx(through.depth / math.cos(math.radians(through.set_over)))
    assert through.set_over == (0 if straight else one.angle / 2 - 0.5)


def test_depth_is_that_of_the_form() -> None:
    for name in ("1/4 × 40", "2BA", "M6"):
        one = thread(name)
        across = profile(one, np.linspace(0, one.pitch, 2001), male=True)
        through = fed(InFeed(), one, one.pitch, Lathe())
        # tables round the depth to the third place
        assert np.ptp(across) == pytest.approx(through.depth, abs=0.006)


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 400))
def test_every_way_of_dividing_goes_round(divisions: int) -> None:
    head = Dividing()
    ways = indexed(head, divisions)
    for one in ways.circles:
        assert (one.turns + Fraction(one.holes, one.circle)) * divisions == head.head_ratio
    for two in ways.compound:
        got = two.turns + Fraction(two.holes, two.first) + Fraction(two.back, two.second)
        last = float((got * divisions - head.head_ratio) / head.head_ratio * 360)
        assert two.last == pytest.approx(last, abs=1e-9)
        assert two.exact == (got * divisions == head.head_ratio)
        assert abs(two.back) < two.second
        assert 0 <= two.holes < two.first
    assert bool(ways.circles) == (ways.nearest is None)


def test_nearest_holes_are_within_half_a_hole() -> None:
    near = nearest_holes(Dividing(), 127)
    hole = 360 / 40 / near.circle
    assert near.error <= hole / 2
    for n, (turns, holes) in enumerate(near.places):
        angle = (turns + holes / near.circle) * 9
        assert angle == pytest.approx(n * 360 / 127, abs=near.error + 1e-9)


@given(st.floats(1, 5000))
def test_next_lower_speed(wanted: float) -> None:
    speeds = Lathe().speeds
    found = next_lower(speeds, wanted)
    slower = [one for one in speeds if one <= wanted]
    assert found == (max(slower) if slower else None)


def test_every_metal_has_its_speeds() -> None:
    for metal in MATERIALS:
        for operation in ("turning", "milling", "drilling", "reaming", "tapping", "threading"):
            found = cutting_speed(metal, operation)
            assert found is not None
            assert 0 < found.low <= found.high
            assert found.source
        turning, carbide = (cutting_speed(metal, "turning", tool) for tool in ("HSS", "carbide"))
        assert carbide is not None
        assert turning is not None
        assert carbide.low > turning.low
    assert cutting_speed("brass", "drilling", "carbide") is None


def test_a_machine_too_fast_and_one_too_slow_are_said() -> None:
    fast = Machines(lathe=Lathe(speeds=(900.0, 2000.0)))
    result = worked(fast, material="stainless steel", diameter=100.0)
    assert result.revolutions is None
    assert any("every speed of the machines is faster" in one.says for one in result.findings)
    slow = Machines(lathe=Lathe(speeds=(35.0, 300.0)))
    result = worked(slow, material="brass", diameter=3.0)
    assert any(one.level == "check" and "reach 300" in one.says for one in result.findings)


def test_what_is_typed_goes_before_the_bench() -> None:
    bench = work(Screwcutting(), machines=Machines(), bench="2BA", bench_metal="copper", screws=8)
    assert (bench.designation, bench.material, bench.divisions) == ("2BA", "copper", 8)
    assert "bench" in bench.taken_from
    typed = work(
        Screwcutting(thread="M6", pitch=0.5, divisions=12, material="brass"),
        machines=Machines(), bench="2BA", bench_metal="copper", screws=8,
    )  # fmt: skip
    assert (typed.designation, typed.material, typed.divisions) == ("M6", "brass", 12)
    assert typed.pitch == 0.5
    # the form is the thread's, at the pitch that was typed
    assert typed.depth == pytest.approx(thread("M6").depth / 2)


def test_an_unknown_thread_is_refused() -> None:
    with pytest.raises(SizeError, match="not a thread") as refused:
        Screwcutting(thread="7/5 × 41")
    assert refused.value.field == "thread"


def test_the_job_hands_over_the_bench() -> None:
    design = read(ROOT / "sample_designs" / "rowan.loco.json")
    work = job.work(design)
    result = work.screwcutting
    assert result.designation == thread(design.threads.chosen).designation
    assert result.divisions == work.threads.cover.number
    assert result.material == design.threads.material
    assert result.cautions
    assert all(one.in_numbers() for one in result.workings)


@settings(max_examples=60, deadline=None)
@given(st.integers(2, 400), st.sampled_from([40, 60, 90]))
def test_geared_plate_comes_round(divisions: int, ratio: int) -> None:
    # division by division: the handle goes by its holes against the plate while the plate follows
    # the work through its wheels; after all of them the work has turned once
    for way in geared(Dividing(head_ratio=ratio), divisions):
        train = Fraction(1)
        for driver, driven in way.pairs:
            train *= Fraction(driver, driven)
        follows = train if way.plate > 0 else -train
        handle, work = way.turns + Fraction(way.holes, way.circle), Fraction(0)
        for _ in range(divisions):
            # worm = handle against the plate + plate; work = worm / ratio; plate = follows x work
            work += handle / (ratio - follows)
        assert work == 1
        wheels = [teeth for pair in way.pairs for teeth in pair]
        owned = Dividing().head_wheels
        assert all(wheels.count(teeth) <= owned.count(teeth) for teeth in wheels)


def test_head_that_cannot_be_geared() -> None:
    plain = Machines(dividing=Dividing(head_wheels=()))
    result = worked(plain, divisions=127)
    assert result.geared == ()
    assert "nearest" in result.handle
    assert any(one.level == "check" and "127" in one.says for one in result.findings)
    assert worked(divisions=127).indexing_error == 0.0
    # 69 comes by two circles, which needs no wheels
    assert "less" in worked(divisions=69).handle


def test_starts_share_the_lead() -> None:
    wheels = ChangeWheels(starts=3)
    result = worked(thread="M6", wheels=wheels)
    assert result.lead == pytest.approx(3.0)
    assert result.trains.best[0].pitch == pytest.approx(3.0, rel=1e-3)
    assert result.cut == pytest.approx(1.0, rel=1e-3)
    # the groove is that of the pitch
    assert result.depth == worked(thread="M6").depth
    assert [one.angle for one in result.starts.each] == [0.0, 120.0, 240.0]
    assert [one.slide for one in result.starts.each] == pytest.approx([0.0, 1.0, 2.0])
    # unrolled: three grooves of a pitch in a turn
    effective = thread("M6").effective
    assert math.tan(math.radians(result.helix)) == pytest.approx(3.0 / (math.pi * effective))
    assert not any("die" in one.what for one in result.outside)
    assert result.carriage is not None
    slow = next(one for one in result.speeds if one.operation == "threading")
    assert slow.fastest <= 40.0


@given(st.sampled_from([20, 30, 45, 60]), st.sampled_from([25, 40, 65]), st.integers(2, 6))
def test_nut_closes_into_another_start(driver: int, driven: int, number: int) -> None:
    one = Train(((driver, driven),), 0.0, 0.0, None, None, None, None)
    screw = Fraction(3)
    lead = screw * one.ratio
    pitch = lead / number
    found = by_nut(one, number, 1.0)
    # by counting: the nut moves by whole threads of the screw until it stands over a groove
    every = next(n for n in range(1, 1000) if (n * screw / pitch).denominator == 1)
    further = int(every * screw / pitch) % number
    assert found == ((every, further) if further else None)


def test_first_wheel_that_cannot_be_counted_is_said() -> None:
    odd = worked(
        Machines(lathe=Lathe(leadscrew=3.0, change_wheels=(20, 25))), pitch=1.2,
        wheels=ChangeWheels(starts=3),
    )  # fmt: skip
    assert any("cannot be counted into 3" in one.says for one in odd.findings)
    even = worked(
        Machines(lathe=Lathe(leadscrew=3.0, change_wheels=(30, 25))), pitch=1.2,
        wheels=ChangeWheels(starts=3),
    )  # fmt: skip
    assert any("by 10 teeth" in one.says for one in even.findings)
    none = several(thread("M6"), 1.0, 2, None, 1.0, odd.feed_dial)
    assert none.each[1].teeth is None
