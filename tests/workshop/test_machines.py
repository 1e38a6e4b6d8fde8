"""The tools that are there, those that have to be got, and lists that have not been told."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.designs import ROOT, a_design
from weighshaft import job
from weighshaft.design import Design, read, with_workshop
from weighshaft.design import workshop as own
from weighshaft.sizes import SizeError
from weighshaft.threads.decisions import Rack as Drills
from weighshaft.trade.drills import drills
from weighshaft.trade.threads import thread, threads
from weighshaft.workshop.machines import (
    PLATES,
    WHEELS,
    Bore,
    Dividing,
    Lathe,
    Machines,
    Mill,
    Need,
    Piece,
    Rack,
    Tools,
    near_reamer,
    owned,
    work,
)

EVERY = [one.designation for one in threads()]


def need(name: str, *, decided: bool = True, die: bool = True) -> Need:
    return Need("Steam connection", thread(name), "threads.steam.designation", decided, die)


@given(st.sampled_from(EVERY), st.lists(st.sampled_from(EVERY), min_size=1, max_size=12))
def test_a_thread_is_there_if_it_is_on_the_list(name: str, listed: list[str]) -> None:
    one = thread(name)
    found = owned(one, listed)
    alike = [
        other for other in map(thread, listed)
        if (other.form, round(other.major, 2), round(other.pitch, 3))
        == (one.form, round(one.major, 2), round(one.pitch, 3))
    ]  # fmt: skip
    if alike:
        assert found.there
        assert found.says == "you have it"
    if one.designation in [thread(other).designation for other in listed]:
        assert found.there
    off = abs(thread(found.nearest).major - one.major) + abs(
        thread(found.nearest).pitch - one.pitch
    )
    assert all(
        off <= abs(other.major - one.major) + abs(other.pitch - one.pitch) + 1e-12
        for other in map(thread, listed)
    )


def test_of_two_names_for_one_thread_either_will_do() -> None:
    assert owned(thread("M3"), ["M3 × 0.5"]).there
    assert owned(thread("1/4 × 40"), ["1/4x40"]).there
    assert owned(thread("1/4 × 40"), ["1/4 × 32"]).there is False


def test_a_list_that_is_not_told_judges_nothing() -> None:
    result = work(Machines(), needs=(need("M3"),), bores=(Bore(6.0, "rods"),))
    assert result.findings == ()
    assert result.to_get == "not told"
    assert owned(thread("M3"), ()).there is None
    assert near_reamer(6.0, ()) == (None, None)


def test_a_thread_without_a_tap_is_said_with_the_nearest() -> None:
    told = Machines(tools=Tools(taps=("6BA", "M3", "1/4x40"), dies=("M3",)))
    result = work(told, needs=(need("M4"), need("M3")))
    tap, die = result.findings
    assert tap.level == die.level == "check"
    assert "no tap for M4" in tap.says
    assert "the nearest is M3 (3.00 mm, pitch 0.500 mm)" in tap.says
    assert tap.fields == ("machines.tools.taps", "threads.steam.designation")
    assert "no die for M4" in die.says
    assert result.to_get == "tap M4, die M4"


def test_a_proposal_and_a_bought_screw_are_not_found_fault_with() -> None:
    told = Machines(tools=Tools(dies=("M3",)))
    assert work(told, needs=(need("M4", decided=False),)).findings == ()
    (fine,) = work(told, needs=(need("M4", die=False),)).findings
    assert fine.level == "fine"


def test_everything_there_is_said_once() -> None:
    told = Machines(tools=Tools(taps=("M3", "M4"), dies=("M3", "M4"), reamers=(6.0,)))
    result = work(told, needs=(need("M4"), need("M3")), bores=(Bore(6.0, "rods"),))
    (fine,) = result.findings
    assert fine.level == "fine"
    assert "a tap and a die" in fine.says
    assert result.to_get == "none"


@given(st.floats(1, 30), st.lists(st.floats(0.5, 60), min_size=1, max_size=20))
def test_the_nearest_reamer(bore: float, reamers: list[float]) -> None:
    there, nearest = near_reamer(bore, reamers)
    assert nearest in reamers
    assert all(abs(nearest - bore) <= abs(one - bore) for one in reamers)
    assert there == (abs(nearest - bore) <= 0.013)


def test_a_tube_without_its_wall_is_asked_for() -> None:
    told = Machines(rack=Rack(pieces=(Piece(), Piece(shape="tube", across=8.0))))
    (asked,) = work(told).findings
    assert asked.fields == ("machines.rack.pieces.1.second",)
    assert "wall or width is not told" in asked.says


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Tools(taps=("M3", "M3.3")), "taps"),
        (lambda: Tools(dies=("",)), "dies"),
        (lambda: Piece(shape="tube", across=6.0, second=3.0), "second"),
        (lambda: Drills(singles=("99 mm",)), "singles"),
        (lambda: Drills(metric=False, number=False, letter=False, fraction=False), "metric"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(make: object, field: str) -> None:
    with pytest.raises(SizeError) as refused:
        make()  # type: ignore[operator]
    assert refused.value.field == field


# --- drills one by one -------------------------------------------------------------------


def test_single_drills_stand_beside_the_sets_or_instead_of_them() -> None:
    beside = Drills(number=False, letter=False, fraction=False, singles=("No. 50", "3.17"))
    names = [one.name for one in drills(beside.sets)]
    assert {"No. 50", "3.17 mm", "3.2 mm"} <= set(names)
    instead = Drills(
        metric=False, number=False, letter=False, fraction=False, singles=("F", "5/32 in", "F")
    )
    assert [one.name for one in drills(instead.sets)] == ["5/32 in", "F"]


def test_a_drill_of_a_set_named_singly_is_there_once() -> None:
    assert len(drills(("metric", "3 mm"))) == len(drills(("metric",)))


def bare(*singles: str) -> Design:
    """Return a design whose builder owns no set of drills, and every other list empty."""
    design = a_design()
    rack = Drills(metric=False, number=False, letter=False, fraction=False, singles=singles)
    machines = Machines(
        lathe=Lathe(change_wheels=()), mill=Mill(cutters=()), dividing=Dividing(plates=())
    )
    return dataclasses.replace(
        design, machines=machines, threads=dataclasses.replace(design.threads, rack=rack)
    )


def test_empty_lists_and_a_single_drill_still_work() -> None:
    before, after = job.work(a_design()), job.work(bare("3 mm"))
    # the usual wheels and circles stand in, and nothing is said of them
    assert (
        after.screwcutting.train
        == job.work(
            dataclasses.replace(a_design(), machines=Machines(lathe=Lathe(change_wheels=WHEELS)))
        ).screwcutting.train
    )
    assert after.screwcutting.indexed == before.screwcutting.indexed
    assert not [
        one for one in after.findings
        if {"machines.lathe.change_wheels", "machines.dividing.plates"} & set(one.fields)
    ]  # fmt: skip
    assert after.slots is not None
    assert after.patterns is not None
    assert Dividing(plates=()).circles == PLATES
    # every joint keeps a drill that taps it, and those not owned are said
    joints = after.threads.joints
    assert [one.key for one in joints] == [one.key for one in before.threads.joints]
    wrong = [one for one in joints if one.drill.name != "3 mm"]
    said = [one for one in after.findings if "no drill of those owned taps" in one.says]
    assert len(said) == len(wrong) > 0


def test_the_sample_workshop_works_with_every_kind_of_list() -> None:
    shed = own.read(ROOT / "sample_designs" / "lime_kiln_lane.workshop.json")
    design = with_workshop(read(ROOT / "sample_designs" / "rowan.loco.json"), shed)
    worked = job.work(design)
    assert worked.machines.to_get not in ("none", "not told")
    (said,) = [one for one in worked.findings if one.fields[:1] == ("machines.tools.dies",)]
    assert "no die for M5 × 0.5" in said.says
    chosen = {one.drill for one in worked.threads.joints}
    assert chosen <= set(drills(shed.drills.sets))
    owns = set(shed.machines.mill.cutters)
    assert worked.patterns.port_cutter in owns
    assert worked.screwcutting.indexed.circles[0].circle in shed.machines.dividing.plates
