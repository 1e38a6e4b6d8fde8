"""Threads and fittings: the chapter, its joints, its connector."""

import dataclasses
import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from weighshaft.cylinders import Covers, Crosshead
from weighshaft.design.document import model_of
from weighshaft.measures import INCH
from weighshaft.sizes import SizeError
from weighshaft.threads import (
    Connector,
    CoverScrews,
    Exhaust,
    Nozzle,
    PistonGland,
    PistonHead,
    PistonRod,
    Rack,
    Steam,
    Threads,
    ThreadsResult,
    ValveSpindle,
    strength,
    work,
)
from weighshaft.threads.connector import fit
from weighshaft.threads.covers import cover
from weighshaft.threads.decisions import PREFERRED
from weighshaft.threads.proposals import largest_on_rod, smallest_round_hole
from weighshaft.threads.scale_screws import screws_to_scale
from weighshaft.threads.tapping import tapping_drill, usual_depth
from weighshaft.trade.drills import SETS, NoDrill, drills
from weighshaft.trade.materials import MATERIALS, SEALINGS, material
from weighshaft.trade.threads import Thread, thread, threads

GIVEN: dict[str, Any] = {
    "pressure": 5.5,
    "bore": 28.575,
    "piston_rod": 5.556,
    "piston_load": 353.0,
    "valve_spindle_load": 90.0,
    "nozzle_diameter": 4.0,
    "scale_ratio": 16.0,
}
EVERY = st.sampled_from(threads())
METAL = st.sampled_from(MATERIALS)


def worked(decisions: Threads | None = None, **changed: Any) -> ThreadsResult:
    return work(decisions or Threads(), **{**GIVEN, **changed})


def findings(result: ThreadsResult, level: str, path: str) -> list[str]:
    return [f.says for f in result.findings if f.level == level and path in f.fields]


# --- tapping drills -------------------------------------------------------------------------


@given(EVERY, METAL, st.floats(40, 99), st.floats(0, 20))
def test_deeper_thread_never_takes_a_bigger_drill(
    one: Thread, metal: str, depth: float, more: float
) -> None:
    try:
        shallow = tapping_drill(one, metal, depth, "tap chart", SETS)
        deep = tapping_drill(one, metal, min(100.0, depth + more), "tap chart", SETS)
    except NoDrill:
        return
    assert deep.drill.diameter <= shallow.drill.diameter
    assert deep.depth >= shallow.depth - 1e-9


@given(EVERY, METAL, st.floats(40, 100), st.sampled_from(["tap chart", "basic height"]))
def test_drill_leaves_no_more_than_the_depth_wanted(
    one: Thread, metal: str, depth: float, convention: str
) -> None:
    try:
        found = tapping_drill(one, metal, depth, convention, SETS)
    except NoDrill:
        return
    assert found.depth <= depth + 1e-6
    assert found.drill.diameter >= found.hole - 1e-9
    assert found.tighter is None or found.tighter.diameter < found.hole
    names = [name for name, _ in found.reached]
    assert names == (
        ["tap chart", "basic height", "external depth"] if one.form == "60°" else ["full form"]
    )
    between = [d for d in drills() if found.hole <= d.diameter < found.drill.diameter - 1e-9]
    assert not between


def test_the_same_hole_by_three_conventions() -> None:
    # a hole has one depth, told in three ways: 1.2990 a = 1.0825 b = 1.2269 c
    reached = dict(tapping_drill(thread("M6"), "brass", 75.0, "tap chart", ("metric",)).reached)
    depth = reached["tap chart"] * 1.299038
    assert reached["basic height"] * 1.082532 == pytest.approx(depth, rel=1e-5)
    assert reached["external depth"] * 1.226869 == pytest.approx(depth, rel=1e-5)


def test_usual_depth_is_the_same_hole_by_any_convention() -> None:
    six = thread("M6")
    holes = {
        round(tapping_drill(six, "mild steel", None, name, SETS).hole, 6)
        for name in ("tap chart", "basic height", "external depth")
    }
    assert len(holes) == 1
    assert usual_depth(thread("8BA"), "mild steel", "basic height") == 65


def test_only_the_drills_in_the_rack() -> None:
    metric = worked(Threads(rack=Rack(number=False, letter=False, fraction=False)))
    assert metric.tapping_name.endswith("mm")
    inch = worked(Threads(rack=Rack(metric=False)))
    assert "mm" not in inch.tapping_name
    letters = Threads(chosen="8BA", rack=Rack(metric=False, number=False, fraction=False))
    result = worked(letters)
    assert result.tapping is None
    assert findings(result, "check", "threads.rack")


def test_a_hole_below_full_form_is_pointed_out() -> None:
    deep = worked(Threads(chosen="M6", depth=95.0))  # as tap charts count: under the bore of 4.917
    assert findings(deep, "check", "threads.depth")
    assert not findings(worked(Threads(chosen="M6", depth=75.0)), "check", "threads.depth")
    # 95 % of the basic height is an ordinary hole
    usual = worked(Threads(chosen="M6", depth=95.0, convention="basic height"))
    assert not findings(usual, "check", "threads.depth")


# --- strength -------------------------------------------------------------------------------


@given(EVERY, st.floats(1, 1000), st.floats(1, 2), METAL, METAL)
def test_more_load_never_less_stress_or_engagement(
    one: Thread, load: float, more: float, male: str, female: str
) -> None:
    a, b = material(male), material(female)
    hole = one.minor_internal
    low = strength.core_stress(load, one.minor, 0.0)
    assert strength.core_stress(load * more, one.minor, 0.0) >= low
    needed = strength.engagement_for_load(one, load, hole, a, b, 3.0)
    assert strength.engagement_for_load(one, load * more, hole, a, b, 3.0) >= needed
    male_area, female_area = strength.strip_areas(one, needed, hole)
    # at the engagement needed the weaker thread is just at what is allowed
    ratios = (load / male_area / a.proof, load / female_area / b.proof)
    assert max(ratios) == pytest.approx(strength.SHEAR / 3.0)


@given(EVERY, st.floats(0, 1))
def test_a_larger_tapping_drill_weakens_the_thread(one: Thread, share: float) -> None:
    small = one.minor_internal
    large = small + share * 0.8 * (one.major - small)
    assert (
        strength.strip_areas(one, 5.0, large)[0] <= strength.strip_areas(one, 5.0, small)[0] + 1e-9
    )


@given(EVERY, st.floats(0.05, 0.9))
def test_a_hole_through_the_core_costs_strength(one: Thread, share: float) -> None:
    hole = share * one.minor
    assert strength.core_stress(100.0, one.minor, hole) > strength.core_stress(
        100.0, one.minor, 0.0
    )
    assert strength.wall_left(one.minor, hole) == pytest.approx((one.minor - hole) / 2)
    steel = material("mild steel")
    bored = strength.engagement_for_strength(one, hole, one.minor_internal, steel, steel)
    solid = strength.engagement_for_strength(one, 0.0, one.minor_internal, steel, steel)
    assert bored < solid


def test_core_stress_by_hand() -> None:
    # 5/32 × 40, core 3.156 mm: 7.82 mm²; 100 N make 12.8 N/mm²
    assert strength.core_stress(100.0, thread("5/32x40").minor, 0.0) == pytest.approx(
        12.79, abs=0.01
    )


def test_steel_in_steel_breaks_before_it_strips_at_under_a_diameter() -> None:
    # nuts of standard screws are about 0.8 of the diameter thick (ISO 4032)
    steel = material("mild steel")
    for size in ("M3", "M4", "M5", "M6", "M8"):
        one = thread(size)
        full = strength.engagement_for_strength(one, 0.0, one.minor_internal, steel, steel)
        assert 0.4 * one.major < full < 0.8 * one.major


def test_tightening_by_hand() -> None:
    # T = 0.2 F d: 100 N on 3 mm is 60 N mm
    assert strength.tightening(100.0, 3.0) == pytest.approx(60.0)


def test_twist_off_by_hand() -> None:
    # solid 4 mm bar at 100 N/mm² shear: pi/16 × 100 × 64
    found = strength.twist_off(200.0, 4.0, 0.0)
    assert found == pytest.approx(math.pi / 16 * 100 * 64)


# --- proposals ------------------------------------------------------------------------------


@given(st.floats(1.6, 13), st.sampled_from(PREFERRED))
def test_a_rod_carries_what_is_proposed(rod: float, preferred: str) -> None:
    one = largest_on_rod(rod, preferred)
    assert one is not None
    assert one.major <= rod + 0.021
    assert one.major > 0.7 * rod


@given(st.floats(1, 11), st.floats(0.5, 1.8), st.sampled_from(PREFERRED))
def test_a_wall_is_left_round_a_hole(hole: float, wall: float, preferred: str) -> None:
    one = smallest_round_hole(hole, wall, preferred)
    assert one is not None
    assert strength.wall_left(one.minor, hole) >= wall - 1e-9
    thicker = smallest_round_hole(hole, wall + 0.3, preferred)
    assert thicker is not None
    assert thicker.major >= one.major


@given(st.floats(12, 45), st.floats(1, 8), st.sampled_from(PREFERRED))
def test_cover_screws_hold(bore: float, pressure: float, preferred: str) -> None:
    found = cover(CoverScrews(), bore=bore, pressure=pressure, preferred=preferred, sets=SETS)
    assert found.proposal is not None
    assert found.one is found.proposal
    assert found.load / found.one.core_area <= material("mild steel").proof / strength.STEADY + 1e-9
    harder = cover(CoverScrews(), bore=bore, pressure=2 * pressure, preferred=preferred, sets=SETS)
    assert harder.one is not None
    assert harder.load >= found.load - 1e-9 or harder.one.major != found.one.major


def test_cover_load_by_hand() -> None:
    # bore 30, pitch circle 38, M3 (hole 3.2): land 2.4, G 32.4, b 1.2 mm, 5 bar, 8 screws
    given: dict[str, Any] = {
        "bore": 30.0, "pressure": 5.0, "preferred": "metric", "sets": ("metric",),
        "screw": "M3", "screws": 8, "screw_circle": 38.0,
    }  # fmt: skip
    found = cover(CoverScrews(), **given)
    assert found.land == pytest.approx(2.4)
    running = math.pi / 4 * 32.4**2 * 0.5 + 2 * math.pi * 1.2 * 32.4 * 1.75 * 0.5
    seating = math.pi * 1.2 * 32.4 * 7.6
    assert seating > running
    assert found.load == pytest.approx(seating / 8)
    assert found.workings[0].result == pytest.approx(running / 8)
    bare = cover(CoverScrews(jointing="sealing compound"), **given)
    assert bare.load == pytest.approx(2 * math.pi / 4 * 32.4**2 * 0.5 / 8)


# --- the joints of the engine ---------------------------------------------------------------

KEYS = [
    "piston_rod", "piston_head", "valve_spindle", "piston_gland", "valve_gland", "covers",
    "steam", "exhaust", "nozzle",
]  # fmt: skip


@pytest.mark.parametrize("preferred", PREFERRED)
def test_every_joint_has_a_sound_proposal(preferred: str) -> None:
    result = worked(Threads(preferred=preferred))
    assert [joint.key for joint in result.joints] == KEYS
    assert all(joint.proposed for joint in result.joints)
    assert [f.says for f in result.findings if f.level != "fine"] == []
    for joint in result.joints:
        assert joint.stress <= joint.stress_allowed
        assert joint.engagement >= joint.needed
        assert joint.wall >= joint.wall_wanted - 1e-9


def test_a_joint_that_is_decided_is_kept() -> None:
    result = worked(rod_thread="2ba", rod_engaged=8.0)
    joint = result.joint("piston_rod")
    assert joint is not None
    assert (joint.one.designation, joint.proposed, joint.engagement) == ("2BA", False, 8.0)
    assert joint.stress == pytest.approx(353.0 / (math.pi / 4 * 3.73**2))
    assert not result.joint("cheese")


def test_a_thread_larger_than_its_rod_is_a_stop_with_the_way_out() -> None:
    result = worked(rod_thread="1/4x40")
    (stop,) = [f for f in result.findings if f.level == "stop"]
    assert stop.change == ("cylinders.crosshead.rod_thread", "7/32 × 40")
    mended = worked(rod_thread="7/32 × 40")
    assert not [f for f in mended.findings if f.level == "stop"]
    fixed = worked(rod_thread="1/4x40", fixed=frozenset({"cylinders.crosshead.rod_thread"}))
    assert [f.change for f in fixed.findings if f.level == "stop"] == [None]


def test_too_small_a_thread_on_the_rod() -> None:
    result = worked(rod_thread="8BA")
    assert findings(result, "stop", "cylinders.crosshead.rod_thread")


def test_too_short_a_thread_strips() -> None:
    path = "cylinders.crosshead.rod_engaged"
    assert findings(worked(rod_engaged=1.0), "stop", path)
    longer = worked(rod_engaged=2.6)
    assert not findings(longer, "stop", path)
    assert findings(longer, "check", path)
    # screwing the rod further in would move the piston: no button does that
    assert all(f.change is None for f in longer.findings if path in f.fields)
    head = worked(Threads(piston_head=PistonHead(engagement=1.0)))
    assert findings(head, "stop", "threads.piston_head.engagement")


def test_what_the_cylinders_have_is_not_suggested_again() -> None:
    mine = {"cylinders.crosshead.rod_thread", "cylinders.covers.thread", "cylinders.covers.screws",
            "cylinders.covers.screw_circle"}  # fmt: skip
    alone = {one.field for one in worked().suggestions}
    assert mine <= alone
    told = worked(rod_thread="7/32x40", screw_thread="6BA", screws=8, screw_circle=37.0)
    assert not [one for one in told.suggestions if one.field.startswith("cylinders.")]
    joint = told.joint("covers")
    assert joint is not None
    assert (joint.one.designation, told.cover_screws, told.cover.screw_circle) == ("6BA", 8, 37.0)


def test_weak_cover_screws_are_told_which_would_do() -> None:
    weak = worked(screw_thread="12BA", screws=4)
    (said,) = [f for f in weak.findings if "cylinders.covers.thread" in f.fields]
    assert said.level != "fine"
    assert said.change is not None
    mended = worked(screw_thread=said.change[1], screws=4)
    assert not [f for f in mended.findings
                if f.level != "fine" and "cylinders.covers.thread" in f.fields]  # fmt: skip


def test_a_thin_wall_and_none_at_all() -> None:
    thin = worked(Threads(steam=Steam(designation="1/4x40", hole=4.4)))
    assert findings(thin, "check", "threads.steam.designation")
    none = worked(Threads(steam=Steam(designation="1/4x40", hole=6.0)))
    (says,) = findings(none, "stop", "threads.steam.designation")
    assert "through the roots" in says
    assert all(math.isfinite(working.result) for working in none.workings)


def test_a_thread_that_no_table_holds_is_said() -> None:
    result = worked(Threads(steam=Steam(hole=25.0)))
    assert result.joint("steam") is None
    assert findings(result, "check", "threads.steam.designation")
    thin = worked(Threads(valve_spindle=ValveSpindle(diameter=0.8)), piston_rod=1.6)
    assert thin.joint("valve_spindle") is not None  # 16BA


@pytest.mark.parametrize("seal", SEALINGS)
def test_seals_that_do_not_bear_the_heat(seal: str) -> None:
    decided = Threads(nozzle=Nozzle(sealing=seal, temperature=350.0))
    said = [f for f in worked(decided).findings if "threads.nozzle.sealing" in f.fields]
    assert bool(said) == (seal in ("PTFE tape", "soft solder", "sealing compound"))
    assert ([f.level for f in said] == ["stop"]) == (seal == "soft solder")
    cool = Threads(exhaust=Exhaust(sealing=seal, temperature=100.0))
    assert not [f for f in worked(cool).findings if "threads.exhaust.sealing" in f.fields]


def test_stainless_in_stainless_seizes() -> None:
    decided = Threads(piston_rod=PistonRod(male="stainless steel", female="stainless steel"))
    assert findings(worked(decided), "check", "threads.piston_rod.female")


def test_cover_findings() -> None:
    tight = worked(screw_circle=31.0)
    assert findings(tight, "stop", "cylinders.covers.screw_circle")
    assert findings(worked(screws=24), "stop", "cylinders.covers.screws")
    assert findings(worked(screws=3), "check", "cylinders.covers.screws")


def test_gland_by_hand() -> None:
    # packing at twice 5.5 bar on the ring between the hole 5.606 and the tapping drill
    joint = worked(Threads(piston_gland=PistonGland())).joint("piston_gland")
    assert joint is not None
    ring = math.pi / 4 * (joint.drill.diameter**2 - 5.606**2)
    assert joint.load == pytest.approx(1.1 * ring)


@given(st.floats(1, 10), st.floats(1, 2))
def test_more_pressure_never_less_load(pressure: float, more: float) -> None:
    # with the threads held, since a larger load may well propose a larger thread
    held = Threads(
        piston_gland=PistonGland(designation="3/8x32"),
        steam=Steam(designation="3/8x32"),
        covers=CoverScrews(jointing="sealing compound"),
    )
    low, high = (
        worked(held, pressure=one, screw_thread="6BA") for one in (pressure, pressure * more)
    )
    for key in ("piston_gland", "steam", "covers"):
        a, b = low.joint(key), high.joint(key)
        assert a is not None
        assert b is not None
        assert b.load >= a.load
        assert b.stress >= a.stress
        assert b.male_shear >= a.male_shear or b.engagement > a.engagement


# --- where a thread comes up tight ----------------------------------------------------------

FORTY = INCH / 40


def test_half_a_turn_and_half_a_pitch() -> None:
    found = fit(Connector(thread_a="1/4x40", shift=0.1))
    assert found.half_pitch == pytest.approx(FORTY / 2)
    assert found.half_turn_shift == pytest.approx(12.5 * INCH / 1000)
    assert found.turn_for_shift == pytest.approx(0.1 / FORTY * 360)
    assert not found.known


def test_a_connector_by_hand() -> None:
    # comes up tight a quarter of a turn early: upright it stands a quarter pitch nearer, or
    # three quarters further apart
    found = fit(Connector(length=40.0, distance=40.0, start=90.0, clearance=0.0))
    assert found.misfit == pytest.approx(FORTY / 4)
    assert found.places[1] == pytest.approx(40 - FORTY / 4)
    assert found.gap == pytest.approx(-FORTY / 4)
    assert found.skim == pytest.approx(FORTY / 4)
    far = fit(Connector(length=40.0, distance=40.0, start=270.0, clearance=0.0))
    assert far.misfit == pytest.approx(-FORTY / 4)
    assert far.gap == pytest.approx(FORTY / 4)
    assert far.skim == 0
    serves = {remedy.name: remedy.serves for remedy in far.remedies}
    assert not serves["Skim the shoulder"]
    assert serves["Washer or shim under the shoulder"]
    assert serves["Shim behind the port, or metal off"]
    assert not serves["Turn the connector"]


CONNECTORS = st.builds(
    Connector,
    thread_a=st.sampled_from(["1/4x40", "5/16x32", "M6", "G 1/8"]),
    distance=st.floats(20, 80),
    length=st.floats(20, 80),
    start=st.floats(0, 360),
)


@given(CONNECTORS)
def test_misfit_is_never_more_than_half_a_pitch(connector: Connector) -> None:
    found = fit(connector)
    assert found.misfit is not None
    assert abs(found.misfit) <= found.half_pitch + 1e-9
    assert found.places[1] + found.misfit == pytest.approx(connector.distance)


@given(CONNECTORS, st.floats(0, 1))
def test_skimming_a_shoulder_does_not_change_the_misfit(connector: Connector, share: float) -> None:
    # metal off the shoulder: shorter, and it comes up tight so much later
    assert connector.length is not None
    assert connector.start is not None
    pitch = thread(connector.thread_a).pitch
    off = share * pitch * connector.start / 360
    skimmed = dataclasses.replace(
        connector,
        length=connector.length - off,
        start=max(0.0, connector.start - 360 * off / pitch),
    )
    before, after = fit(connector), fit(skimmed)
    assert before.misfit is not None
    assert after.misfit is not None
    turns = (before.misfit - after.misfit) / pitch
    assert turns == pytest.approx(round(turns), abs=1e-6)  # the same to a whole pitch
    assert after.gap is not None
    assert before.gap is not None
    if abs(abs(before.misfit) - pitch / 2) > 1e-6:
        assert after.misfit == pytest.approx(before.misfit, abs=1e-6)
        assert after.gap == pytest.approx(before.gap + off, abs=1e-6)


@given(CONNECTORS)
def test_the_shim_behind_the_port_cures_the_misfit(connector: Connector) -> None:
    found = fit(connector)
    assert found.misfit is not None
    assume(abs(found.misfit) > found.slack)
    shim = next(r.amount for r in found.remedies if r.name.startswith("Shim behind"))
    assert shim is not None
    assert connector.distance is not None
    mended = fit(dataclasses.replace(connector, distance=connector.distance + shim))
    assert mended.misfit == pytest.approx(0.0, abs=1e-6)


@given(CONNECTORS)
def test_unequal_pitches_can_be_turned_into_place(connector: Connector) -> None:
    unequal = dataclasses.replace(connector, thread_b="3/8x32", thread_a="1/4x40")
    found = fit(unequal)
    assert found.change_per_turn == pytest.approx(INCH / 32 - INCH / 40)
    assert found.turn_to_cure is not None
    assert found.misfit is not None
    assert found.turn_to_cure / 360 * found.change_per_turn == pytest.approx(abs(found.misfit))
    opposite = fit(dataclasses.replace(connector, hands="one left-hand"))
    assert opposite.change_per_turn == pytest.approx(2 * thread(connector.thread_a).pitch)


def test_connector_findings() -> None:
    unknown = worked(Threads(connector=Connector(distance=40.0)))
    assert findings(unknown, "check", "threads.connector.start")
    off = Connector(distance=40.0, length=40.0, start=90.0)
    (stop,) = [f for f in worked(Threads(connector=off)).findings if f.level == "stop"]
    assert stop.change is not None
    moved = dataclasses.replace(off, distance=float(stop.change[1]))
    mended = worked(Threads(connector=moved))
    assert not [f for f in mended.findings if f.level == "stop"]
    assert findings(
        mended, "check", "threads.connector.length"
    )  # the shoulder still wants skimming
    assert not [f for f in worked().findings if "connector" in f.fields[0]]


# --- screws to scale ------------------------------------------------------------------------


@given(st.floats(8, 40), st.sampled_from(PREFERRED))
def test_screws_to_scale_are_the_nearest(ratio: float, preferred: str) -> None:
    rows = screws_to_scale(ratio, preferred)
    for before, after in pairwise(rows[:7]):
        assert before.wanted < after.wanted
        assert before.full.major <= after.full.major
    for row in rows:
        assert row.wanted == pytest.approx(row.prototype / ratio)
        if row.small is not None:
            assert row.small.major <= 6.0


def test_small_hexagons_reach_closer() -> None:
    # 3/4 Whitworth at 1:16 wants 2.07 mm: 12BA has 2.27, with the hexagon of 13BA 2.10
    row = next(r for r in screws_to_scale(16.0, "BA") if r.bolt == "3/4 Whitworth")
    assert row.full.designation == "12BA"
    assert row.small_hexagon == pytest.approx(2.1, abs=0.01)
    own = screws_to_scale(16.0, "BA", 33.0)[0]
    assert (own.bolt, own.prototype) == ("the prototype's", 33.0)


# --- decisions ------------------------------------------------------------------------------


def test_unknown_threads_are_refused_where_they_stand() -> None:
    with pytest.raises(SizeError, match="5/32 × 40") as refused:
        PistonHead(designation="5/32 ME")
    assert refused.value.field == "designation"
    with pytest.raises(SizeError) as refused:
        Connector(thread_b="cheese")
    assert refused.value.field == "thread_b"
    with pytest.raises(SizeError):
        Threads(chosen="")
    with pytest.raises(SizeError, match="at least one set"):
        Rack(metric=False, number=False, letter=False, fraction=False)


def test_an_empty_designation_is_the_proposal() -> None:
    joint = worked(Threads(piston_head=PistonHead(designation=""))).joint("piston_head")
    assert joint is not None
    assert joint.proposed


def test_the_design_file_knows_the_chapter() -> None:
    checked = model_of(Threads).model_validate(
        {"chosen": "8BA", "steam": {"designation": "1/4x40", "hole": "1/8 in"}}
    )
    assert checked.steam.hole == pytest.approx(3.175)  # type: ignore[attr-defined]
    mains = [
        f.name
        for kind in (Threads, Connector, Steam, Rack)
        for f in dataclasses.fields(kind)
        if "size" in f.metadata and f.metadata["size"].main
    ]
    assert len(mains) <= 6


def test_suggestions_point_at_decisions_and_would_be_accepted() -> None:
    result = worked()
    owners: dict[str, Any] = {
        "cylinders.covers": Covers(), "cylinders.crosshead": Crosshead(), "threads": Threads(),
    }  # fmt: skip
    for suggestion in result.suggestions:
        group, _, field = suggestion.field.rpartition(".")
        at = owners.get(group) or getattr(Threads(), group.removeprefix("threads."))
        dataclasses.replace(at, **{field: suggestion.value})  # not refused
    held = worked(fixed=frozenset({"threads.steam.hole"}))
    assert "threads.steam.hole" not in {s.field for s in held.suggestions}


def test_workings_can_be_read() -> None:
    result = worked(Threads(connector=Connector(distance=40.0, length=40.0, start=90.0)))
    for working in {w.relation.result + w.relation.source: w for w in result.workings}.values():
        assert "=" in working.in_symbols()
        assert "=" in working.in_numbers()
        assert working.relation.source
