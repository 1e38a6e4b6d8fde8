"""Oscillating cylinders: the swinging crank, the holes in metal both ways, and the spring."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import dblquad, quad
from scipy.optimize import brentq, linprog

from weighshaft.findings import Finding
from weighshaft.motion import (
    Crank,
    MotionLocks,
    SlideValve,
    Wanted,
    equivalent_eccentric,
    sizes_for_events,
    solve_motion,
    valve_events,
)
from weighshaft.motion.events import ValveEvents
from weighshaft.motion.lapping import (
    TrunnionResult,
    bearing_area,
    creeps,
    face_of,
    lift_area,
    work,
)
from weighshaft.motion.many import derivative, nudged
from weighshaft.motion.oscillating import Oscillating, SwingingCrank
from weighshaft.motion.trunnion_face import (
    TrunnionFace,
    cone,
    lens,
    mean_arm,
    pitch_that_seals,
    swing_to_open,
)
from weighshaft.sizes import SizeError

CRANK = Crank(16.0, 40.0)
GEAR = Oscillating(
    trunnion_x=40.0, piston_rod=42.0, port_radius=12.8, port_hole=2.3, passage_hole=2.3,
    passage_pitch=5.1,
)  # fmt: skip
SINGLE = replace(GEAR, acting="single")
VALVE = SlideValve(0.9, 0.4, 1.7)
TURN = np.linspace(0.0, 360.0, 72, endpoint=False)
BOTH_WAYS = pytest.mark.parametrize("direction", [1, -1])

GEARS = st.builds(
    lambda x, y, rod, radius, port, passage, seal: Oscillating(
        trunnion_x=x, trunnion_y=y, piston_rod=rod, port_radius=radius,
        port_hole=port * radius * 8 / x, passage_hole=passage * radius * 8 / x, seal=seal,
    ),
    x=st.floats(20, 60), y=st.floats(-10, 10), rod=st.floats(30, 50), radius=st.floats(8, 20),
    port=st.floats(0.6, 1.0), passage=st.floats(0.6, 1.0), seal=st.floats(0.02, 0.2),
)  # fmt: skip


def events_of(gear: Oscillating, direction: int, valve: SlideValve = VALVE) -> ValveEvents:
    """Return the events, running one way; the valve's own laps have no part in them."""
    return valve_events(CRANK, valve, gear, float(direction))


class Metal:
    """Holes as drilled and cylinder as it stands, in plain coordinates.

    Steam holes are above the line from axle to trunnion in forward gear, below it backward.
    """

    def __init__(self, gear: Oscillating, turned: float = 0.0) -> None:
        """Take the fixed face as turned about the trunnion by an arc, mm, its front end up."""
        self.gear = gear
        self.trunnion = complex(gear.trunnion_x, gear.trunnion_y)
        self.line = self.trunnion / abs(self.trunnion) * np.exp(1j * turned / gear.port_radius)
        half = gear.pitch / 2
        self.up = complex(np.sqrt(gear.port_radius**2 - half**2), half)

    def gap(self, end: str, to: str, direction: int, theta: float) -> float:
        """Return how far port and hole are from touching, mm; below 0 they overlap."""
        pin = 8.0 * np.exp(-1j * np.radians(theta))
        way = (self.trunnion - pin) / abs(self.trunnion - pin)
        side = 1 if end == "front" else -1
        port = self.trunnion + side * self.gear.port_radius * way
        above = (to == "steam") == (direction > 0)
        up = self.up if above else self.up.conjugate()
        hole = self.trunnion + self.line * (up if side > 0 else -up.conjugate())
        return float(abs(port - hole) - (self.gear.port_hole + self.gear.passage_hole) / 2)

    def turns_at(self, end: str, to: str, direction: int, *, opens: bool) -> list[float]:
        """Return the crank angles at which the port opens, or shuts, while running."""

        def seen(at: float) -> float:
            return -self.gap(end, to, direction, direction * at)

        grid = np.linspace(0.37, 360.37, 721)
        values = [seen(at) for at in grid]
        return [
            (direction * brentq(seen, one, other, xtol=1e-13)) % 360
            for one, other, f, g in zip(grid, grid[1:], values, values[1:], strict=False)
            if (f > 0) != (g > 0) and (g > 0) == opens
        ]


@settings(max_examples=15)
@given(gear=GEARS, theta=st.floats(1, 359))
def test_the_swinging_crank_is_the_inverted_slider_crank_of_sympy(
    gear: Oscillating, theta: float
) -> None:
    phi, q, t = sympy.symbols("phi q t")
    r, x, y = 8.0, gear.trunnion_x, gear.trunnion_y
    closure = [
        r * sympy.cos(t) + q * sympy.cos(phi) - x,
        -r * sympy.sin(t) + q * sympy.sin(phi) - y,
    ]
    now = {t: np.radians(theta)}
    start = (np.arctan2(y, x), np.hypot(x, y))
    angle, long = sympy.nsolve([e.subs(now) for e in closure], (phi, q), start)
    piston = gear.piston_of(CRANK)
    assert float(piston.distance(theta)) == pytest.approx(float(long), rel=1e-12)
    swing = float(angle) - np.arctan2(y, x)
    assert float(piston.swing(theta)) == pytest.approx(swing, abs=1e-12)
    least = np.hypot(x, y) - r
    assert float(piston.from_front(theta)) == pytest.approx((float(long) - least) / 16, abs=1e-12)
    # how fast it moves, by implicit differentiation of the closure
    jacobian = sympy.Matrix(closure).jacobian([phi, q]).subs({**now, phi: angle, q: long})
    rate = jacobian.LUsolve(-sympy.Matrix(closure).diff(t).subs(now))
    assert float(piston.slope(theta)) == pytest.approx(-float(rate[1]), abs=1e-9)
    motion = solve_motion(CRANK, gear, [theta], 1.0)
    assert motion.residual < 1e-9
    assert motion.valve[0] == pytest.approx(-gear.port_radius * swing, abs=1e-10)
    rod = gear.piston_rod
    place = (r * np.cos(now[t]) + rod * np.cos(float(angle)),
             -r * np.sin(now[t]) + rod * np.sin(float(angle)))  # fmt: skip
    assert motion.points["gudgeon"][0] == pytest.approx(place, abs=1e-9)


def test_piston_goes_from_end_to_end_between_its_dead_centres() -> None:
    piston = SwingingCrank(16.0, 42.0, 36.0, -7.0)
    assert piston.from_front(piston.dead_centres) == pytest.approx([0.0, 1.0], abs=1e-12)
    assert piston.slope(piston.dead_centres) == pytest.approx([0.0, 0.0], abs=1e-9)
    assert piston.gudgeon(piston.dead_centres) == pytest.approx(piston.gudgeon_ends)
    assert 0 <= piston.dead_centres[0] < 360
    assert hash(piston) == hash(SwingingCrank(16.0, 42.0, 36.0, -7.0))
    assert GEAR.piston_of(GEAR.piston_of(CRANK)) == GEAR.piston_of(CRANK)


def test_with_a_far_trunnion_the_piston_moves_as_a_sine() -> None:
    far = SwingingCrank(16.0, 42.0, 1e7)
    assert far.from_front(TURN) == pytest.approx((1 - np.cos(np.radians(TURN))) / 2, abs=1e-6)
    near = SwingingCrank(16.0, 42.0, 30.0)
    rod = Crank(16.0, 30.0)
    # not the piston of a connecting rod: that one is ahead of the sine by its obliquity
    assert abs(float(near.from_front(90.0)) - 0.5) < abs(float(rod.from_front(90.0)) - 0.5) + 0.01
    assert float(near.from_front(60.0)) != pytest.approx(float(rod.from_front(60.0)), abs=1e-3)


@BOTH_WAYS
@settings(max_examples=15)
@given(gear=GEARS, turned=st.sampled_from([0.0, 0.0, -0.05, 0.08]))
def test_events_are_those_of_the_holes_in_metal(
    direction: int, gear: Oscillating, turned: float
) -> None:
    events = events_of(gear, direction, replace(VALVE, valve_offset=turned))
    metal = Metal(gear, turned)
    piston = gear.piston_of(CRANK)
    for end, at in (("front", events.front), ("back", events.back)):
        for name, to, opens in (
            ("admission", "steam", True), ("cutoff", "steam", False),
            ("release", "exhaust", True), ("compression", "exhaust", False),
        ):  # fmt: skip
            theirs = metal.turns_at(end, to, direction, opens=opens)
            # not swung past the hole, nor short of it: those are findings' matters
            assume(len(theirs) == 1)
            ours = getattr(at, name)
            assert ours is not None
            assert abs((ours.angle - theirs[0] + 180) % 360 - 180) < 1e-6, (end, name)
            share = float(piston.from_front(theirs[0]))
            from_end = share if end == "front" else 1 - share
            assert abs(ours.percent) == pytest.approx(100 * from_end, abs=1e-6)


@BOTH_WAYS
def test_the_front_has_steam_while_the_piston_goes_back(direction: int) -> None:
    """The rule of the valve holds: front open by -xi - lap, and steam drives the way it runs."""
    valve = GEAR.seen(VALVE, float(direction))
    motion = solve_motion(CRANK, GEAR, TURN, float(direction))
    metal, slope = Metal(GEAR), GEAR.piston_of(CRANK).slope(TURN)
    for end, drives in (("front", -1), ("back", 1)):
        steam, exhaust = (
            valve.steam_opening(end, motion.valve),
            valve.exhaust_opening(end, motion.valve),
        )
        for i, theta in enumerate(TURN):
            assert (steam[i] > 0) == (metal.gap(end, "steam", direction, theta) < 0)
            assert (exhaust[i] > 0) == (metal.gap(end, "exhaust", direction, theta) < 0)
            if steam[i] > 0:
                assert direction * slope[i] * drives > 0


def test_backward_is_the_mirror_of_forward() -> None:
    forward, backward = events_of(GEAR, 1), events_of(GEAR, -1)
    for end in ("front", "back"):
        for name in ("admission", "cutoff", "release", "compression"):
            one, other = (getattr(getattr(e, end), name) for e in (forward, backward))
            assert other.angle == pytest.approx((-one.angle) % 360, abs=1e-6)
            assert other.percent == pytest.approx(one.percent, abs=1e-7)


def test_a_trunnion_above_the_axle_only_turns_the_engine() -> None:
    far = np.hypot(40.0, 9.0)
    level, raised = replace(GEAR, trunnion_x=far), replace(GEAR, trunnion_y=9.0)
    turned = np.degrees(np.arctan2(9.0, 40.0))
    for direction in (1, -1):
        one, other = events_of(level, direction), events_of(raised, direction)
        assert other.front.cutoff
        assert one.front.cutoff
        assert other.front.cutoff.percent == pytest.approx(one.front.cutoff.percent, abs=1e-6)
        assert other.front.cutoff.angle == pytest.approx(one.front.cutoff.angle - turned, abs=1e-6)
        assert other.setting == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("by", [0.03, 40.0])
def test_all_lengths_grow_alike(by: float) -> None:
    names = ("trunnion_x", "piston_rod", "port_radius", "port_hole", "passage_hole",
             "passage_pitch")  # fmt: skip
    larger = replace(GEAR, **{name: by * getattr(GEAR, name) for name in names})
    ours = solve_motion(CRANK, GEAR, TURN, -1.0).valve
    grown = solve_motion(Crank(16.0 * by, 40.0 * by), larger, TURN, -1.0).valve
    assert grown == pytest.approx(by * ours, rel=1e-9)


@BOTH_WAYS
@given(theta=st.floats(0, 360))
@settings(max_examples=10)
def test_forces_obey_virtual_work(direction: int, theta: float) -> None:
    """The rod moved sideways at the crank pin turns the port about the trunnion."""
    pose = GEAR.pose(CRANK, np.array([[theta]]), np.array([[float(direction)]]))
    pin, trunnion = pose.points["crank_pin"][0, 0], pose.points["trunnion"]
    way = (trunnion - pin) / np.linalg.norm(trunnion - pin)
    sideways = np.array([-way[1], way[0]])

    def angle(by: float) -> float:
        at = trunnion - (pin + by * sideways)
        return float(np.arctan2(at[1], at[0]))

    moves = -GEAR.port_radius * (angle(1e-5) - angle(-1e-5)) / 2e-5
    (force,) = GEAR.forces(pose).values()
    assert force[0, 0] == pytest.approx(moves, rel=1e-6)


def test_derivatives_ride_through_the_pose() -> None:
    fields = ("trunnion_x", "trunnion_y", "port_radius")
    gear = replace(GEAR, trunnion_y=1.5)
    theta, row = TURN[None, :], np.array([[1.0]])
    rates = derivative(nudged(gear, fields).pose(CRANK, theta, row).valve)
    for i, name in enumerate(fields):
        more, less = (
            replace(gear, **{name: getattr(gear, name) + step}).pose(CRANK, theta, row).valve
            for step in (1e-5, -1e-5)
        )
        assert rates[i] == pytest.approx((more - less) / 2e-5, abs=1e-7)


def test_a_trunnion_within_the_crank_circle_locks() -> None:
    close = replace(GEAR, trunnion_x=7.9)
    with pytest.raises(MotionLocks, match="trunnion"):
        solve_motion(CRANK, close, TURN, 1.0)
    with pytest.raises(MotionLocks, match="trunnion"):
        close.piston_of(CRANK)


def test_what_cannot_be_is_refused_in_words() -> None:
    with pytest.raises(SizeError, match="shuts off the steam"):
        solve_motion(CRANK, GEAR, TURN, 0.0)
    with pytest.raises(SizeError, match="smaller holes"):
        replace(GEAR, port_hole=19.0, passage_hole=19.0, passage_pitch=None)
    with pytest.raises(SizeError, match="reach round the trunnion"):
        replace(GEAR, port_hole=30.0, passage_hole=30.0)
    with pytest.raises(SizeError, match="twice the way to the port"):
        replace(GEAR, passage_pitch=26.0)
    with pytest.raises(SizeError, match="reaches round the trunnion"):
        replace(GEAR, seal=2 * GEAR.port_radius)
    with pytest.raises(ValueError, match="working pressure"):
        work(GEAR, crank=CRANK, bore=9.5, pressure=0.0)


# --- the holes ------------------------------------------------------------------------


@settings(max_examples=40)
@given(one=st.floats(0.3, 3), other=st.floats(0.3, 3), apart=st.floats(0, 6.5))
def test_lens_is_the_integral_of_its_chords(one: float, other: float, apart: float) -> None:
    def chord(x: float) -> float:
        heights = [r * r - (x - c) ** 2 for r, c in ((one, 0.0), (other, apart))]
        return 2 * np.sqrt(max(min(heights), 0.0))

    corner = (apart**2 + one**2 - other**2) / (2 * apart) if apart else 0.0
    low, high = max(-one, apart - other), min(one, apart + other)
    points = sorted({low, min(max(corner, low), high), high}) if high > low else []
    area = sum(quad(chord, a, b)[0] for a, b in pairwise(points))
    assert float(lens(np.array(apart), one, other)) == pytest.approx(area, abs=1e-6)


@given(gear=GEARS)
@settings(max_examples=20)
def test_shown_relations_are_those_that_are_worked(gear: Oscillating) -> None:
    sizes = {"radius": gear.port_radius, "port": gear.port_hole, "passage": gear.passage_hole}
    assert gear.pitch == pytest.approx(pitch_that_seals(**sizes, seal=gear.seal), rel=1e-12)
    assert float(gear.holes.seal) == pytest.approx(gear.seal, abs=1e-12)
    opens = swing_to_open(**sizes, pitch=gear.pitch)
    assert np.degrees(float(gear.holes.opens)) == pytest.approx(opens, abs=1e-10)


def worked(gear: Oscillating, **given: float) -> TrunnionResult:
    return work(gear, crank=CRANK, **{"bore": 9.5, "pressure": 1.4, **given})  # type: ignore[arg-type]


@pytest.mark.parametrize("seal", [0.0, 0.1, 0.4])
def test_dead_bands_are_those_of_the_events(seal: float) -> None:
    gear = replace(GEAR, passage_pitch=None, seal=seal)
    result, events = worked(gear), events_of(gear, 1)
    assert events.front.admission
    assert events.front.compression
    assert events.front.cutoff
    assert events.front.release
    front = (events.front.admission.angle - events.front.compression.angle + 180) % 360 - 180
    back = (events.front.release.angle - events.front.cutoff.angle) % 360
    assert result.dead_band_front == pytest.approx(front, abs=1e-6)
    assert result.dead_band_back == pytest.approx(back, abs=1e-6)
    assert (result.dead_band_back > result.dead_band_front + 1e-6 > 2e-6) == (seal > 0)


def test_areas_are_those_of_the_metal_over_the_turn() -> None:
    metal, holes = Metal(GEAR), GEAR.holes
    swing = GEAR.piston_of(CRANK).swing(TURN)
    touch = (GEAR.port_hole + GEAR.passage_hole) / 2
    for to, area in (("steam", holes.steam_area(swing)), ("exhaust", holes.exhaust_area(swing))):
        apart = np.array([metal.gap("front", to, 1, theta) + touch for theta in TURN])
        assert area == pytest.approx(lens(apart, 1.15, 1.15), abs=1e-9)
    most = max(lens(np.array(metal.gap("front", "steam", 1, t) + touch), 1.15, 1.15)
               for t in np.linspace(0, 180, 2001))  # fmt: skip
    assert worked(GEAR).greatest_area == pytest.approx(float(most), abs=1e-3)


def test_port_larger_than_the_land_blows_through_and_is_stopped() -> None:
    sound, large = worked(GEAR), worked(replace(GEAR, port_hole=2.9))
    assert sound.blow_through == 0
    half = (2.9 + 2.3) / 2
    middle = abs(12.8 - 12.8 * np.exp(1j * np.arcsin(5.1 / 25.6)))
    assert large.seal == pytest.approx(middle - half)
    assert large.blow_through == pytest.approx(float(lens(np.array(middle), 1.45, 1.15)))
    stop = found(large, "blows through")
    assert stop.level == "stop"
    assert f"{large.blow_through:.2f} mm²" in stop.says


# --- the spring -----------------------------------------------------------------------


def found(result: TrunnionResult, words: str) -> Finding:
    (one,) = [finding for finding in result.findings if words in finding.says]
    return one


def test_cone_is_full_in_the_hole_and_falls_evenly() -> None:
    whole, _ = quad(lambda r: 2 * np.pi * r * min(1.0, (3.0 - r) / 1.8), 0, 3.0, points=[1.2])
    assert cone(2.4, 1.8) == pytest.approx(whole)
    assert cone(2.4, 0.0) == pytest.approx(np.pi * 1.2**2)


def test_mean_arm_is_the_mean_distance_from_the_trunnion() -> None:
    total, _ = dblquad(lambda y, x: np.hypot(x, y), -9.0, 14.0, -5.5, 5.5)
    assert mean_arm(14.0, 9.0, 11.0) == pytest.approx(total / (23 * 11), rel=1e-6)


@pytest.mark.parametrize("gear", [GEAR, SINGLE], ids=["double", "single"])
def test_the_least_spring_is_that_of_four_corners_that_can_only_push(gear: Oscillating) -> None:
    """Statics anew: contact forces at the corners of the face, none of which may pull."""
    piston, half = gear.piston_of(CRANK), gear.pitch / 2
    face = face_of(gear, np.arcsin(8 / 40))
    reach = creeps(gear, face)
    ours = lift_area(gear, piston, TURN, face, reach)
    ahead, behind, width = face
    corners = [(x, y) for x in (ahead, -behind) for y in (width / 2, -width / 2)]
    metal = Metal(gear)
    for i, theta in enumerate(TURN):
        turn = np.exp(-1j * float(piston.swing(theta)))  # into the cylinder's axes
        loads = []
        for end, side in (("front", 1), ("back", -1)):
            if side < 0 and gear.acting == "single":
                continue
            hole = complex(side * np.sqrt(gear.port_radius**2 - half**2), half) * turn
            loads.append((cone(gear.passage_hole, reach), hole))
            if metal.gap(end, "exhaust", 1, theta) >= 0:
                apart = metal.gap(end, "steam", 1, theta) + 2.3
                shared = float(lens(np.array(apart), 1.15, 1.15)) / (np.pi * 1.15**2)
                port = cone(gear.port_hole, reach) * (1 - shared)
                loads.append((port, complex(side * gear.port_radius, 0)))
        total = sum(area for area, _ in loads)
        moment = sum(area * at for area, at in loads)
        # least spring = steam + corners; the spring acts on the trunnion, without moment
        equal = [[x for x, _ in corners], [y for _, y in corners]]
        least = linprog([1] * 4, A_eq=equal, b_eq=[-moment.real, -moment.imag])
        # linprog keeps the unknowns at 0 or above, which is the condition
        assert least.status == 0
        corner_rule = total + least.fun
        lone = total + max(abs(moment.real) / ahead, abs(moment.imag) / (width / 2))
        assert ours[i] == pytest.approx(corner_rule, rel=1e-7)
        assert ours[i] == pytest.approx(lone, rel=1e-9)


def test_spring_lifts_where_it_is_said_to() -> None:
    result = worked(replace(GEAR, face=TrunnionFace(spring=10.0, leak_reach=0.5)))
    assert result.lift_pressure == pytest.approx(10.0 / result.lift_area * 10)
    assert result.spring_wanted == pytest.approx(1.5 * 0.14 * result.lift_area)
    suggested = worked(replace(GEAR, face=TrunnionFace(leak_reach=0.5)))
    assert suggested.spring == pytest.approx(result.spring_wanted)
    assert suggested.lift_pressure == pytest.approx(1.5 * 1.4)


def test_a_lapped_face_lifts_less() -> None:
    wide, close = (worked(replace(GEAR, face=TrunnionFace(leak_reach=r))) for r in (2.0, 0.2))
    assert close.spring_wanted < 0.5 * wide.spring_wanted


def test_weak_and_strong_springs_are_found_and_the_button_mends_them() -> None:
    weak = worked(replace(GEAR, face=TrunnionFace(spring=5.0, spring_rate=4.0)))
    stop = found(weak, "lifts the cylinder")
    assert stop.level == "stop"
    assert stop.change is not None
    path, enough = stop.change
    assert path == "motion.gear.face.spring"
    assert isinstance(enough, float)
    assert f"by {(enough - 5) / 4:.2f} mm" in stop.mend
    assert "tighten" in stop.mend
    mended = worked(replace(GEAR, face=TrunnionFace(spring=enough)))
    assert {one.level for one in mended.findings} == {"fine"}
    strong = worked(replace(GEAR, face=TrunnionFace(spring=60.0, spring_rate=4.0)))
    check = found(strong, "rubbing takes")
    assert check.level == "check"
    assert check.change == (path, enough)
    assert "slacken" in check.mend
    little = worked(replace(GEAR, face=TrunnionFace(spring=enough / 1.3)))
    assert found(little, "little above").level == "check"


def test_friction_is_that_of_a_turn() -> None:
    """Work of the moment over the swing of a turn, added up, against that of two pistons' ends."""
    result = worked(replace(GEAR, face=TrunnionFace(spring=20.0)))
    swing = GEAR.piston_of(CRANK).swing(np.linspace(0, 360, 20001))
    rubbed = result.friction * np.abs(np.diff(swing)).sum()
    steam = 2 * 0.14 * np.pi / 4 * 9.5**2 * 16.0
    assert result.friction_share == pytest.approx(100 * rubbed / steam, rel=1e-5)
    assert result.friction == pytest.approx(0.15 * 20.0 * mean_arm(*result.face))
    # at front dead centre the crank feels it by how fast the cylinder swings
    rate = float(np.diff(GEAR.piston_of(CRANK).swing([-1e-3, 1e-3]))[0]) / np.radians(2e-3)
    assert result.crank_drag == pytest.approx(result.friction * rate, rel=1e-6)
    assert result.face_pressure == pytest.approx(20.0 / bearing_area(GEAR, result.face))


def test_a_narrow_face_bares_the_steam_hole() -> None:
    bare = worked(replace(GEAR, face=TrunnionFace(face_width=9.0)))
    at = GEAR.port_radius * np.sin(np.arcsin(5.1 / 25.6) + np.arcsin(0.2)) + 1.15
    assert bare.uncovered == pytest.approx(4.5 - at, abs=1e-3)
    assert found(bare, "outside the cylinder's face").level == "stop"


@pytest.mark.parametrize(
    ("changes", "level", "words"),
    [
        ({"passage_pitch": 2.2}, "stop", "run into each other"),
        ({"passage_pitch": 11.0}, "stop", "never reaches"),
        ({"trunnion_x": 14.0}, "stop", "swings past"),
        ({"passage_pitch": 7.0}, "check", "% of its hole"),
        ({"passage_pitch": 7.0}, "check", "port is shut over"),
        ({"port_radius": 9.6, "passage_pitch": 4.9}, "check", "over the port"),
    ],
)
def test_holes_that_will_not_do_are_found(
    changes: dict[str, float], level: str, words: str
) -> None:
    result = worked(replace(GEAR, **changes))
    assert level in {one.level for one in result.findings if words in one.says}


@pytest.mark.parametrize("acting", ["single", "double"])
@pytest.mark.parametrize(("number", "angle"), [(1, 90.0), (2, 90.0), (2, 180.0), (3, 120.0)])
def test_blind_arc_is_that_of_the_crank_turned_by_hand(
    acting: str, number: int, angle: float
) -> None:
    gear = replace(GEAR, acting=acting, passage_pitch=6.0)
    metal, step = Metal(gear), 0.25
    ends = ["front", "back"] if acting == "double" else ["front"]
    turn = np.arange(0, 360, step)
    open_to_steam = np.zeros(len(turn), dtype=bool)
    for k in range(number):
        for end in ends:
            open_to_steam |= np.array([metal.gap(end, "steam", 1, t - k * angle) < 0 for t in turn])
    longest = run = 0
    for has in [*open_to_steam, *open_to_steam]:
        run = 0 if has else run + 1
        longest = max(longest, run)
    result = worked(gear, number=number, crank_angle=angle)
    assert result.blind == pytest.approx(longest * step, abs=2 * step)
    starts = found(result, "by itself")
    assert (starts.level == "fine") == (longest == 0)
    if acting == "single" and number == 1:
        assert result.blind > 180
        assert "push" in starts.mend


# --- proportioning --------------------------------------------------------------------


@pytest.mark.parametrize("crank", [CRANK, Crank(25.4, 70.0), Crank(10.0, 30.0)])
def test_layout_is_sound_opens_fully_and_starts(crank: Crank) -> None:
    gear = Oscillating.laid_out(crank, sizes_for_events(78, 0.1, 1.0), Wanted(), "outside")
    result = work(gear, crank=crank, bore=0.6 * crank.stroke, pressure=1.4)
    assert not [one for one in result.findings if one.level == "stop"]
    assert result.opened == pytest.approx(100)
    assert result.over_swing == pytest.approx(0, abs=1e-9)
    assert result.blind == 0
    assert result.port_clear > 0
    events = valve_events(crank, VALVE, gear, 1.0)
    assert events.front.cutoff
    assert events.front.cutoff.percent > 99


def test_wishes_give_a_gear_that_seals_and_is_in_line() -> None:
    sizes = sizes_for_events(78, 0.1, 1.0)
    now = equivalent_eccentric(TURN, solve_motion(CRANK, GEAR, TURN, 1.0).valve)
    wishes = {name: value for name, value, _ in GEAR.called_for(sizes, now, Wanted(), CRANK)}
    result = worked(replace(GEAR, **wishes))
    assert result.over_swing == pytest.approx(0, abs=1e-9)
    assert 0 < result.seal < 0.1 * wishes["port_hole"]
    tuned = GEAR.tuned(13.0, 0.2)
    assert tuned.port_radius == 13.0
    assert tuned.tuning == pytest.approx((13.0, 0.2))
    assert tuned.neighbours() == ()
    with pytest.raises(SizeError, match="Seal"):
        GEAR.tuned(13.0, -0.1)


def test_suggestions_taken_change_nothing() -> None:
    gear = replace(GEAR, passage_pitch=None)
    before = worked(gear)
    changed, face = {}, {}
    for one in before.suggestions:
        path = one.field.removeprefix("motion.gear.")
        (face if path.startswith("face.") else changed)[path.removeprefix("face.")] = one.value
    after = worked(replace(gear, **changed, face=TrunnionFace(**face)))  # type: ignore[arg-type]
    for name in ("pitch", "spring", "lift_pressure", "face_pressure", "friction_share"):
        assert getattr(after, name) == pytest.approx(getattr(before, name), rel=1e-9)


def test_every_working_can_be_shown() -> None:
    for working in worked(GEAR).workings:
        assert "=" in working.in_symbols()
        assert "=" in working.in_numbers()
