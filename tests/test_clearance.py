"""Room for the motion: gaps measured right, fouls found and named, none where there is none."""

import dataclasses
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from tests.clearance_for_tests import CRANK, GEAR, ROOMY, mirrored, sample
from weighshaft.clearance import (
    Clearance,
    ClearanceResult,
    PartSizes,
    Plane,
    Surroundings,
    Thicknesses,
    Widths,
    planes_from,
    work,
)
from weighshaft.clearance.judgement import judge
from weighshaft.clearance.search import ANGLES, Poses, least_between, pairs_of
from weighshaft.clearance.segments import between_segments, nearest_points
from weighshaft.findings import Finding
from weighshaft.motion import Crank
from weighshaft.motion.equivalent import Wanted, sizes_for_events
from weighshaft.motion.gears import GEARS
from weighshaft.pictures.clearance import gap_table
from weighshaft.sizes import SizeError, sizes_of

CLOSE = 1e-9
NAMED = ("tansy", "rowan", "merrow", "hartfell", "dunnock")


def worked(clearance: Clearance | None = None, **given: Any) -> ClearanceResult:
    return work(clearance or Clearance(), **ROOMY | given)


def stops(result: ClearanceResult) -> list[Finding]:
    return [finding for finding in result.findings if finding.level == "stop"]


def gap_of(result: ClearanceResult, one: str, other: str) -> float | None:
    for gap in result.gaps:
        if {gap.first, gap.second} == {one, other}:
            return gap.gap
    return None


# --- distances --------------------------------------------------------------------------


def test_distances_agree_with_a_geometry_library() -> None:
    shapely = pytest.importorskip("shapely")
    random = np.random.default_rng(4)
    ends = random.uniform(-10, 10, (4, 3000, 2))
    ends[1, :300] = ends[0, :300]  # points among them
    ends[3, 150:450] = ends[2, 150:450]
    ours = between_segments(*ends)
    a, b, c, d = ends
    first = shapely.linestrings(np.stack([a, b], axis=1))
    second = shapely.linestrings(np.stack([c, d], axis=1))
    theirs = shapely.distance(first, second)
    assert (ours < 0).sum() > 300
    assert np.array_equal(ours < 0, (theirs == 0) & (ours != 0))
    assert np.maximum(ours, 0.0) == pytest.approx(theirs, abs=1e-9)


def test_distances_agree_with_a_search_over_both_pieces() -> None:
    random = np.random.default_rng(7)
    for a, b, c, d in random.uniform(-5, 5, (25, 4, 2)):
        found = min(
            minimize(
                lambda s, a=a, b=b, c=c, d=d: np.sum(
                    (a + s[0] * (b - a) - c - s[1] * (d - c)) ** 2
                ),
                start, bounds=[(0, 1), (0, 1)], tol=1e-14,
            ).fun
            for start in ([0.2, 0.2], [0.8, 0.8], [0.2, 0.8])
        )  # fmt: skip
        ours = float(between_segments(a, b, c, d))
        assert max(ours, 0.0) == pytest.approx(found**0.5, abs=1e-5)


def test_an_overlap_is_the_least_move_that_parts_the_two() -> None:
    """Two crossing pieces moved just so far apart touch, and moved less still cross."""
    random = np.random.default_rng(2)
    crossed = 0
    for a, b, c, d in random.uniform(-5, 5, (200, 4, 2)):
        gap = float(between_segments(a, b, c, d))
        if gap >= 0:
            continue
        crossed += 1
        turn = np.linspace(0, 2 * np.pi, 720)
        ways = np.column_stack([np.cos(turn), np.sin(turn)])
        less = -gap * 0.99 * ways
        assert (between_segments(a + less, b + less, c, d) < 0).all()
        here, there = nearest_points(a, b, c, d)
        move = there - here
        assert np.hypot(*move) == pytest.approx(-gap)
        more = 1.001 * move
        assert between_segments(a + more, b + more, c, d) > -1e-3
    assert crossed > 20


# --- the search -------------------------------------------------------------------------


def test_what_the_search_drops_is_none_of_the_least() -> None:
    """Against every pair of pieces at every pose, measured without a short cut."""
    result = work(Clearance(), **sample("rowan"))
    engine = result.engine
    rows, states = result.reversers[:, None], result.states[:, None]
    poses = Poses.of(engine, ANGLES[None, ::6], rows, states)
    pairs = pairs_of(engine.pieces, 0.3)
    every = []
    for n, (i, j) in enumerate(pairs):
        edges = [(p, q) for p in np.flatnonzero(poses.owner == i)
                 for q in np.flatnonzero(poses.owner == j)]  # fmt: skip
        gap = min(
            float(
                (
                    between_segments(poses.starts[p], poses.ends[p], poses.starts[q], poses.ends[q])
                    - poses.radius[p] - poses.radius[q]
                ).min()
            )
            for p, q in edges
        )  # fmt: skip
        every.append((gap, n))
    every.sort()
    found = least_between(poses, pairs, 0.4)
    assert [n for _, n, _, _ in found][:10] == [n for _, n in every][:10]
    assert [g for g, *_ in found][:10] == pytest.approx([g for g, _ in every][:10], abs=CLOSE)


def test_the_least_gap_is_that_of_a_far_finer_turn() -> None:
    result = worked(axles=(0.0, 150.0))
    gap = next(g for g in result.gaps if "leading axle" in (g.first, g.second))
    finer = np.linspace(gap.crank_angle - 6, gap.crank_angle + 6, 2401)[None, :]
    poses = Poses.of(result.engine, finer, np.array([[gap.reverser]]), np.zeros((1, 1)))
    names = [piece.name for piece in result.pieces]
    pair = (names.index(gap.first), names.index(gap.second))
    least = least_between(poses, [pair], 0.0)[0][0]
    assert gap.gap == pytest.approx(least, abs=2e-4)


def test_a_gap_agrees_with_shapes_of_a_geometry_library() -> None:
    """The two parts as buffered lines in the pose of their least gap."""
    shapely = pytest.importorskip("shapely")
    result = worked(axles=(0.0, 150.0))
    seen = 0
    for gap in result.gaps:
        if gap.kind != "part" or gap.gap < 0:
            continue
        joints = result.engine.joints(
            np.array([[gap.crank_angle]]), np.array([[gap.reverser]]), np.array([[gap.state]])
        )
        shapes = []
        for name in (gap.first, gap.second):
            piece = next(p for p in result.pieces if p.name == name)
            bars = [
                shapely.LineString([joints[a][0, 0], joints[b][0, 0]]).buffer(half, 256)
                if not np.array_equal(joints[a], joints[b])
                else shapely.Point(joints[a][0, 0]).buffer(half, 256)
                for a, b, half in piece.edges
            ]
            shapes.append(shapely.unary_union(bars))
        assert shapes[0].distance(shapes[1]) == pytest.approx(gap.gap, abs=1e-3)
        seen += 1
    assert seen >= 3


# --- what fouls -------------------------------------------------------------------------


def test_a_roomy_engine_has_no_foul_and_says_so() -> None:
    result = worked()
    assert [finding.level for finding in result.findings] == ["fine"]
    assert result.least_gap is not None
    assert result.least_gap > result.wanted
    assert f"{result.least_gap:.2f} mm" in result.findings[0].says


def test_an_axle_planted_in_the_link_is_found_and_named() -> None:
    result = worked(axles=(120.0, 0.0, -150.0))
    says = [finding.says for finding in stops(result)]
    assert any("The link and the leading axle foul" in one for one in says)
    assert all("-" not in one.replace("reverser at -", "") for one in says)  # no negative lengths
    # the middle line of the link passes over the middle of the axle: both half widths
    assert gap_of(result, "link", "leading axle") == pytest.approx(-(0.95 * 12 + 12) / 2, abs=0.02)


def test_an_axle_outside_the_planes_of_the_motion_is_no_foul() -> None:
    """The axle stays, but the whole motion is set outside its end."""
    free = worked(axles=(120.0, 0.0, -150.0))
    names = [piece.name for piece in free.pieces if piece.wanders]
    parts = tuple(
        PartSizes(name=name, plane=200.0 + 10 * n, thickness=2.0) for n, name in enumerate(names)
    )
    result = worked(Clearance(parts=parts), axles=(120.0, 0.0, -150.0))
    assert not stops(result)


def test_parts_set_in_one_plane_foul_and_apart_do_not() -> None:
    two = {"forward rod": 20.0, "backward rod": 20.0}
    clearance = Clearance(
        parts=tuple(PartSizes(name=n, plane=z, width=6.0, thickness=3.0) for n, z in two.items())
    )
    gap = gap_of(worked(clearance), "forward rod", "backward rod")
    assert gap is not None
    assert gap < 0
    apart = Clearance(parts=(clearance.parts[0], replace(clearance.parts[1], plane=24.0)))
    assert gap_of(worked(apart), "forward rod", "backward rod") is None


def test_a_foul_of_usual_widths_alone_is_to_be_looked_at_but_true_widths_stop() -> None:
    given_sizes = sample("dunnock")
    gear = given_sizes["gear"]
    # a shorter tail to the link brings the eccentric rod up against the radius rod
    given_sizes["gear"] = replace(gear, tail_above=gear.tail_above + 1.9).squared()
    result = work(Clearance(), **given_sizes)
    (finding,) = [f for f in result.findings if "eccentric rod and the radius rod" in f.says]
    assert finding.level == "check"
    given_widths = Clearance(widths=Widths(rod=9.53))
    finding = work(given_widths, **given_sizes).findings[0]
    assert finding.level == "stop"
    assert "eccentric rod and the radius rod foul" in finding.says


@pytest.mark.parametrize(
    ("gap", "slack", "fouls", "level"),
    [(1.0, 0.0, 0, "check"), (-0.5, 0.9, 1, "check"), (-0.5, 0.4, 1, "stop")],
)
def test_what_is_too_near_besides_is_in_the_table_and_stops_only_when_sure(
    gap: float, slack: float, fouls: int, level: str
) -> None:
    result = worked(Clearance(wanted=40.0), axles=(0.0, 118.0, -60.0))
    first, last = result.gaps[:9], result.gaps[9]
    gaps = (*(replace(one, gap=-9.0) for one in first), replace(last, gap=gap, slack=slack))
    found = judge(
        Clearance(), GEAR, gaps[1:], (), wanted=40.0, rail_wanted=2.0, rise=0.0, rail=None,
        notches=(1.0,), checked=20,
    )  # fmt: skip
    (rest,) = (one for one in found if one.says.startswith("Pairs of parts too near"))
    assert rest.says == (
        f"Pairs of parts too near besides these: 1, of which {fouls} foul; see the table of least "
        "gaps for all of them."
    )
    assert rest.level == level
    rows = [row[0] for row in gap_table(replace(result, gaps=gaps)).rows]
    assert rows == [f"{one.first}, {one.second}" for one in gaps]


def test_parts_joined_by_a_pin_are_never_checked() -> None:
    result = worked(Clearance(widths=Widths(rod=30.0, lever=30.0, link=30.0), wanted=40.0))
    joined = {p.name: p.joints for p in result.pieces}
    assert len(result.gaps) > 5
    for gap in result.gaps:
        if gap.kind == "part":
            assert not joined[gap.first] & joined[gap.second]


def test_a_low_boiler_ashpan_or_rail_is_found_and_the_button_mends_it() -> None:
    boiler = worked(Clearance(surroundings=Surroundings(boiler_bottom=60.0)))
    finding = next(f for f in stops(boiler) if "into the boiler" in f.says)
    path, height = finding.change or ("", 0.0)
    assert path == "clearance.surroundings.boiler_bottom"
    worst = max(g.gap for g in boiler.gaps if g.kind == "boiler" and g.gap < boiler.wanted)
    assert worst < boiler.wanted
    # the button of the worst one mends them all
    mended = worked(Clearance(surroundings=Surroundings(boiler_bottom=float(height))))
    assert not [g for g in mended.gaps if g.kind == "boiler" and g.gap < mended.wanted]
    small = worked(driving_diameter=50.0)
    assert any("below the rail" in f.says for f in stops(small))
    pan = Surroundings(ashpan_bottom=-10.0, ashpan_front=60.0, ashpan_back=-100.0)
    assert any("into the ashpan" in f.says for f in stops(worked(Clearance(surroundings=pan))))
    # the rods are all ahead of an ashpan behind the axle
    behind = replace(pan, ashpan_front=-40.0)
    assert not stops(worked(Clearance(surroundings=behind)))


def test_gap_to_the_ashpan_is_that_to_its_corner() -> None:
    """A shaft 3 mm thick at (82, 66) and an ashpan from (60, 40) up and back: 22 mm between."""
    pan = Surroundings(ashpan_bottom=40.0, ashpan_front=60.0, ashpan_back=50.0)
    result = worked(Clearance(surroundings=pan, widths=Widths(weighshaft=6.0), wanted=20.0))
    gap = gap_of(result, "weighshaft", "ashpan")
    assert gap == pytest.approx(22.0 - 3.0)
    low = replace(pan, ashpan_bottom=90.0)
    result = worked(Clearance(surroundings=low, widths=Widths(weighshaft=6.0), wanted=32.0))
    assert gap_of(result, "weighshaft", "ashpan") == pytest.approx(np.hypot(22, 24) - 3.0)


def test_a_round_boiler_rises_sideways() -> None:
    flat = worked(Clearance(surroundings=Surroundings(boiler_bottom=110.0), wanted=50.0))
    barrel = Surroundings(boiler_bottom=110.0, boiler_diameter=90.0)
    result = worked(Clearance(surroundings=barrel, wanted=50.0))
    arm = next(p for p in result.pieces if p.name == "lifting arm")
    rises = 45.0 - (45.0**2 - arm.inner**2) ** 0.5
    assert rises > 0.5
    one, other = (gap_of(r, "lifting arm", "boiler") for r in (flat, result))
    assert one is not None
    assert other == pytest.approx(one + rises)


def test_the_frames_stop_what_stands_in_their_plane() -> None:
    part = PartSizes(name="lifting link", plane=38.0, thickness=3.0)
    result = worked(Clearance(parts=(part,)))
    assert any("frame plate overlap by 1.50 mm" in finding.says for finding in stops(result))
    near = Clearance(parts=(replace(part, plane=36.4),))
    (finding,) = [f for f in worked(near).findings if "frame plate" in f.says]
    assert finding.level == "check"
    assert "0.10 mm from the frame plate" in finding.says


def test_side_play_of_the_axle_takes_up_room_across() -> None:
    rod = PartSizes(name="forward rod", plane=30.0, thickness=2.0, width=6.0)
    shaft = PartSizes(name="lifting arm", plane=32.5, thickness=2.0, width=40.0)
    clearance = Clearance(parts=(rod, shaft), widths=Widths(lever=6.0))
    assert gap_of(worked(clearance), "forward rod", "lifting arm") is None
    moved = worked(replace(clearance, wanted=50.0), side_play=0.6)
    assert gap_of(moved, "forward rod", "lifting arm") is not None
    sides = [worked(clearance, side_play=p).side_gaps for p in (0.0, 0.4)]
    rods = [next(s.gap for s in one if s.part == "forward rod") for one in sides]
    assert rods[0] - rods[1] == pytest.approx(0.4)


def test_axleboxes_that_rise_bring_axles_nearer() -> None:
    around = Surroundings(over_rail=90.0)
    still, rising = (
        worked(Clearance(axlebox_rise=rise, wanted=40.0, surroundings=around), axles=(150.0, 0.0))
        for rise in (0.0, 2.0)
    )
    a, b = (gap_of(r, "link", "leading axle") for r in (still, rising))
    assert a is not None
    assert b is not None
    assert a - 2.0 - CLOSE <= b < a
    # the link hangs from the frame, which comes down on the rail with the axleboxes up; what
    # the axle carries keeps its height
    assert gap_of(rising, "link", "rail") == pytest.approx(gap_of(still, "link", "rail") - 2.0)
    for name in ("connecting rod", "forward eccentric", "backward eccentric"):
        assert gap_of(rising, name, "rail") == pytest.approx(gap_of(still, name, "rail"))
    assert worked(axle_lift=2.0).rise == 2.0


# --- properties -------------------------------------------------------------------------


@settings(max_examples=12, deadline=None)
@given(thin=st.floats(2, 6), more=st.floats(0.1, 8))
def test_wider_parts_have_smaller_gaps(thin: float, more: float) -> None:
    around = {"axles": (150.0, 0.0)}
    one, other = (
        worked(Clearance(widths=Widths(rod=w, lever=w, link=w + 2), wanted=40.0), **around)
        for w in (thin, thin + more)
    )
    assert one.least_gap is not None
    assert other.least_gap is not None
    assert other.least_gap <= one.least_gap + CLOSE
    for gap in one.gaps:
        wider = gap_of(other, gap.first, gap.second)
        if wider is not None:
            assert wider <= gap.gap + 1e-6


@settings(max_examples=8, deadline=None)
@given(scale=st.floats(0.3, 1.6))
def test_an_engine_to_another_scale_has_gaps_to_that_scale(scale: float) -> None:
    lengths = {
        f.name: getattr(GEAR, f.name) * scale
        for f in dataclasses.fields(GEAR)
        if isinstance(getattr(GEAR, f.name), float)
        and sizes_of(type(GEAR))[f.name].unit == "mm"
    }  # fmt: skip
    gear = replace(GEAR, **lengths)
    crank = Crank(CRANK.stroke * scale, CRANK.connecting_rod * scale)
    sides = Thicknesses(side_gap=0.0)
    whole = worked(Clearance(wanted=30.0, thicknesses=sides), axles=(150.0, 0.0))
    small = work(
        Clearance(wanted=30.0 * scale, thicknesses=sides),
        **ROOMY
        | {
            "crank": crank, "gear": gear, "axle_diameter": 12.0 * scale, "crankpin": 12.0 * scale,
            "axles": (150.0 * scale, 0.0), "driving_diameter": 130.0 * scale,
            "frame_inside": 76.0 * scale, "frame_thickness": 2.5 * scale,
        },
    )  # fmt: skip
    for gap in whole.gaps[:6]:
        other = gap_of(small, gap.first, gap.second)
        assert other == pytest.approx(gap.gap * scale, rel=1e-4, abs=1e-4 * scale)


def test_a_gear_upside_down_has_the_same_gaps() -> None:
    clearance = Clearance(wanted=30.0)
    one = worked(clearance, axles=(150.0, 0.0))
    turned = replace(clearance, thicknesses=Thicknesses(forward_sheave="inner"))
    other = worked(turned, axles=(150.0, 0.0), gear=mirrored(GEAR), planes=_sheaves(one))
    swap = {"forward": "backward", "backward": "forward"}
    seen = 0
    for gap in one.gaps:
        if gap.kind != "part" or gap.gap > clearance.wanted:
            continue
        names = [" ".join(swap.get(w, w) for w in n.split()) for n in (gap.first, gap.second)]
        assert gap_of(other, *names) == pytest.approx(gap.gap, abs=1e-4)
        seen += 1
    assert seen >= 4


def _sheaves(result: ClearanceResult) -> tuple[Plane, ...]:
    """Return the planes in which the sheaves of a result stand."""
    by_name = {piece.name: piece for piece in result.pieces}
    one, other = by_name["forward eccentric"], by_name["backward eccentric"]
    return tuple(Plane("eccentric sheave", p.inner, p.outer) for p in (one, other))


# --- every gear, every sample -------------------------------------------------------------


@pytest.mark.parametrize("kind", GEARS)
def test_every_gear_can_be_looked_at(kind: str) -> None:
    crank = Crank(20.0, 62.0)
    wanted = Wanted(cutoff=78.0, lead=0.1, port_opening=1.4)
    gear = GEARS[kind].laid_out(crank, sizes_for_events(78.0, 0.1, 1.4), wanted, "outside")
    given_sizes = ROOMY | {
        "crank": crank, "gear": gear, "axle_diameter": 6.0, "crankpin": 3.5, "axles": (0.0, -60.0),
        "driving_diameter": 50.0, "frame_inside": 32.0, "crosshead": (7.0, 6.0),
    }  # fmt: skip
    result = work(Clearance(), **given_sizes)
    drawn = {part.name for part in gear.parts} - {"die", "rocker"}
    named = {piece.name for piece in result.pieces}
    known = set(gear.pose(crank, np.zeros((1, 1)), np.ones((1, 1))).points)
    missing = {part.name for part in gear.parts if not all(joint in known for joint in part.joints)}
    assert drawn - missing <= named | {"lifting link"}
    assert np.isfinite(result.starts).all()
    assert np.isfinite(result.ends).all()
    assert all(np.isfinite(gap.gap) for gap in result.gaps)
    assert all(len(finding.says) > 30 for finding in result.findings)


def _laid_out(kind: str) -> ClearanceResult:
    """Return the room for a gear of a kind as it is laid out for a stroke of 40 mm."""
    wanted = Wanted(cutoff=78.0, lead=0.2, port_opening=3.0)
    gear = GEARS[kind].laid_out(CRANK, sizes_for_events(78.0, 0.2, 3.0), wanted, "outside")
    return worked(Clearance(wanted=30.0), gear=gear, axles=(0.0,))


def test_a_piston_rod_is_no_foul_in_the_cylinder_that_it_slides_in() -> None:
    result = _laid_out("oscillating")
    assert {"cylinder", "piston rod"} <= {piece.name for piece in result.pieces}
    assert gap_of(result, "cylinder", "piston rod") is None
    assert not stops(result)


def test_the_guide_of_joys_gear_lets_the_valve_rod_pass() -> None:
    result = _laid_out("Joy")
    guide, rod = (next(p for p in result.pieces if p.name == n) for n in ("guide", "valve rod"))
    assert guide.inner >= rod.outer + Thicknesses().side_gap - CLOSE
    assert gap_of(result, "guide", "valve rod") is None


def test_a_low_anchor_link_is_mended_by_its_own_sizes() -> None:
    result = worked(gear=_laid_out("Joy").engine.gear, driving_diameter=60.0, axles=(0.0,))
    finding = next(f for f in stops(result) if f.says.startswith("The anchor link reaches"))
    assert finding.fields[0] == "motion.gear.anchor_link"
    assert "motion.gear.slot_length" not in finding.fields


@pytest.mark.parametrize("inside", [False, True])
def test_the_valve_rod_of_bakers_gear_passes_the_gear_connecting_rod(inside: bool) -> None:
    gear = _laid_out("Baker").engine.gear
    pins = (Plane("inside crankpin", 18.0, 24.0),) if inside else ()
    result = worked(gear=gear, axles=(0.0,), planes=pins, driving_diameter=200.0)
    assert not stops(result)
    by_name = {piece.name: piece for piece in result.pieces}
    rod, valve_rod = by_name["gear connecting rod"], by_name["valve rod"]
    bars, yoke, bell = (by_name[name] for name in ("radius bars", "yoke", "bell crank"))
    gap = Thicknesses().side_gap
    if inside:  # the other way about: outwards is the frame
        inward = [yoke, bars, rod, valve_rod]
        assert max(piece.outer for piece in inward) < ROOMY["frame_inside"] / 2
    else:
        inward = [valve_rod, rod, bars, yoke]
    for one, other in pairwise(inward):
        assert other.inner - one.outer == pytest.approx(gap)
    # the bell crank is a sleeve from the one arm to the other
    assert bell.inner == pytest.approx(min(rod.inner, valve_rod.inner))
    assert bell.outer == pytest.approx(max(rod.outer, valve_rod.outer))


@pytest.mark.parametrize("name", NAMED)
def test_the_samples_are_worked(name: str) -> None:
    result = work(Clearance(), **sample(name))
    assert len(result.gaps) >= 6
    assert [g.gap for g in result.gaps] == sorted(g.gap for g in result.gaps)
    for about, value in ((n, getattr(result, n)) for n in sizes_of(ClearanceResult)):
        assert value is None or isinstance(value, str) or np.isfinite(value), about


def test_hartfell_has_room_and_its_link_clears_the_leading_axle() -> None:
    result = work(Clearance(), **sample("hartfell"))
    assert not [f for f in result.findings if f.level != "fine"]
    gap = gap_of(result, "link", "leading axle")
    assert gap is not None
    # at most: axle's back edge 146.05 - 6.35, link's front edge about 124.1 + half of 12.1
    assert 0 < gap < 146.05 - 6.35 - 124.1 - 6.03


def test_planes_are_those_of_the_row_along_the_axle() -> None:
    given_sizes = sample("rowan")
    by_name = {p.name: p for p in work(Clearance(), **given_sizes).pieces}
    # frames 32, box 1.5, play 0.3 and clearance 0.2, then sheaves 3.2 with 0.2 between
    assert by_name["forward eccentric"].outer == pytest.approx(16 - 1.5 - 0.3 - 0.2)
    assert by_name["backward eccentric"].outer == pytest.approx(16 - 2.0 - 3.2 - 0.2)
    inner = Clearance(thicknesses=Thicknesses(forward_sheave="inner"))
    other = {p.name: p for p in work(inner, **given_sizes).pieces}
    assert other["forward eccentric"].outer == by_name["backward eccentric"].outer
    assert by_name["connecting rod"].inner == pytest.approx(34 - 1.5)


def test_left_half_of_the_row_is_left_out() -> None:
    from weighshaft.wheels import Part

    stack = (Part("eccentric sheave", 6, 9, "sheave"), Part("eccentric sheave", 31, 34, "sheave"))
    (plane,) = planes_from((), stack, 40.0)
    assert (plane.inner, plane.outer) == (11.0, 14.0)


# --- decisions --------------------------------------------------------------------------


def test_decisions_have_defaults_and_can_be_kept_in_a_cache() -> None:
    clearance = Clearance(parts=(PartSizes(name="link", width=9.0),))
    assert hash(clearance) == hash(Clearance(parts=(PartSizes(name="link", width=9.0),)))
    count = sum(about.main for kind in (Clearance, Widths, Thicknesses, Surroundings)
                for about in sizes_of(kind).values())  # fmt: skip
    assert 1 <= count <= 6


def test_a_part_of_no_such_name_and_an_ashpan_turned_about_are_refused_in_words() -> None:
    with pytest.raises(SizeError, match=r"“lnk”.*link"):
        worked(Clearance(parts=(PartSizes(name="lnk"),)))
    with pytest.raises(SizeError, match="ahead of its back"):
        Surroundings(ashpan_front=-50.0, ashpan_back=20.0)
