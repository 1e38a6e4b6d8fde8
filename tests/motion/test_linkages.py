"""Every gear closes, agrees with sympy's mechanics, and is refused where it locks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import sympy as sp
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy.physics.vector import Point, ReferenceFrame

from tests.motion.gears_for_tests import ALL, CRANK, DIRECT, INSIDE, OUTSIDE, ROCKER, SLIP, near
from weighshaft.motion import Crank, MotionLocks, Stephenson, Walschaerts, solve_motion
from weighshaft.sizes import SizeError

TURN = np.linspace(0.0, 360.0, 72, endpoint=False)
NOTCHES = (1.0, 0.6, -0.3, -1.0)
CLOSED = 1e-9  # the closure that is promised, mm


@pytest.mark.parametrize("name", ALL)
def test_every_bar_keeps_its_length(name: str) -> None:
    motion = solve_motion(CRANK, ALL[name], TURN, NOTCHES)
    assert motion.valve.shape == (len(NOTCHES), len(TURN))
    assert motion.residual < CLOSED
    for one, other, length in motion.bars:
        away = np.linalg.norm(motion.points[one] - motion.points[other], axis=-1)
        assert np.abs(away - length).max() < CLOSED


@pytest.mark.parametrize("name", ALL)
@settings(max_examples=15)
@given(data=st.data())
def test_random_gears_close_or_say_where_they_lock(name: str, data: st.DataObject) -> None:
    gear = data.draw(near(ALL[name], 0.06))
    try:
        motion = solve_motion(CRANK, gear, TURN, NOTCHES)
    except MotionLocks:
        return
    assert motion.residual < CLOSED
    assert all(np.isfinite(point).all() for point in motion.points.values())


def test_scalar_reverser_gives_one_row_and_the_same_figures() -> None:
    one = solve_motion(CRANK, DIRECT, TURN, 0.6)
    many = solve_motion(CRANK, DIRECT, TURN, NOTCHES)
    assert one.valve.shape == TURN.shape
    assert one.valve == pytest.approx(many.valve[1], abs=CLOSED)


def _polar(length: sp.Expr, angle: sp.Expr, frame: ReferenceFrame) -> sp.Expr:
    return length * (sp.cos(angle) * frame.x + sp.sin(angle) * frame.y)


def _square(vector: sp.Expr, frame: ReferenceFrame) -> sp.Expr:
    return vector.dot(vector)


def _deg(angle: float) -> sp.Expr:
    return sp.rad(sp.Float(angle, 30))


def _arm(gear: Stephenson | Walschaerts, reverser: float, ground: ReferenceFrame) -> sp.Expr:
    middle = (gear.arm_angle_forward + gear.arm_angle_backward) / 2
    half = (gear.arm_angle_forward - gear.arm_angle_backward) / 2
    shaft = gear.weighshaft_x * ground.x + gear.weighshaft_y * ground.y
    return shaft + _polar(gear.lifting_arm, _deg(middle + reverser * half), ground)


def _stephenson_by_sympy(gear: Stephenson, theta: float, reverser: float) -> float:
    """Solve the link in the Cartesian coordinates and angle of a sympy body, 30 digits."""
    ground = ReferenceFrame("N")
    x, y, q = sp.symbols("x y q")
    link = ground.orientnew("L", "Axis", [q, ground.z])
    axle, middle = Point("A"), Point("M")
    middle.set_pos(axle, x * ground.x + y * ground.y)
    turned = 180 if gear.turned else 0
    sheaves = [
        _polar(gear.eccentric_throw, -_deg(theta + lead + turned), ground)
        for lead in (90 + gear.advance, -90 - gear.advance)
    ]
    if gear.rods == "crossed":
        sheaves.reverse()
    at = middle.pos_from(axle)
    arms = [sign * gear.pin_spacing / 2 * link.y - gear.backset * link.x for sign in (1, -1)]
    hung = gear.suspension_ahead * link.x + gear.suspension_above * link.y
    closures = [
        _square(at + arm - sheave, ground) - gear.eccentric_rod**2
        for arm, sheave in zip(arms, sheaves, strict=True)
    ]
    closures.append(_square(at + hung - _arm(gear, reverser, ground), ground)
                    - gear.lifting_link**2)  # fmt: skip
    start = (gear.link_radius, -reverser * gear.pin_spacing / 3, 0.0)
    solved = sp.nsolve(closures, (x, y, q), start, prec=30)
    values = dict(zip((x, y, q), solved, strict=True))
    centre = (at - gear.link_radius * link.x).subs(values)
    cx, cy = (centre.dot(axis).subs(values) for axis in (ground.x, ground.y))
    if gear.drive == "direct":
        assert gear.die_height is not None
        return float(cx + sp.sqrt(gear.link_radius**2 - (gear.die_height - cy) ** 2))
    w, v = sp.symbols("w v")
    pivot = gear.rocker_x * ground.x + gear.rocker_y * ground.y
    lower = _polar(gear.rocker_lower, w, ground)
    upper = _polar(gear.rocker_upper, w + _deg(gear.rocker_angle or 0), ground)
    die = _square(pivot + lower - cx * ground.x - cy * ground.y, ground) - gear.link_radius**2
    swing = sp.nsolve(die, w, -1.57, prec=30)
    top = (pivot + upper).subs(w, swing)
    tx, ty = top.dot(ground.x), top.dot(ground.y)
    reach = (v - tx) ** 2 + (gear.spindle_height - ty) ** 2 - gear.valve_rod**2
    return float(sp.nsolve(reach, v, float(tx) + float(gear.valve_rod or 0), prec=30))


@settings(max_examples=6)
@given(gear=st.one_of(near(DIRECT), near(ROCKER), near(replace(DIRECT, rods="crossed"))),
       theta=st.floats(0, 360), reverser=st.floats(-1, 1))  # fmt: skip
def test_stephenson_agrees_with_sympy(gear: Stephenson, theta: float, reverser: float) -> None:
    try:
        ours = solve_motion(CRANK, gear, [theta], reverser).valve[0]
    except MotionLocks:
        return
    assert ours == pytest.approx(_stephenson_by_sympy(gear, theta, reverser), abs=CLOSED)


def _walschaerts_by_sympy(gear: Walschaerts, theta: float, reverser: float, start: object) -> float:
    """Solve link, die, radius rod and combination lever together, 30 digits."""
    ground = ReferenceFrame("N")
    psi, phi, beta, gamma, v = unknown = sp.symbols("psi phi beta gamma v")
    link = ground.orientnew("L", "Axis", [psi, ground.z])
    lever_down = sp.sin(gamma) * ground.x - sp.cos(gamma) * ground.y
    crank = _polar(gear.return_crank_throw, -_deg(theta + gear.return_crank_angle), ground)
    pivot = gear.link_x * ground.x + gear.link_y * ground.y
    tail = pivot + gear.tail_ahead * link.x + gear.tail_above * link.y
    rod = gear.radius_rod
    die = pivot + rod * link.x + rod * (-sp.cos(phi) * link.x + sp.sin(phi) * link.y)
    valve = v * ground.x + gear.spindle_height * ground.y
    end = valve + gear.lever_upper * lever_down
    union = end + gear.lever_lower * lever_down
    gudgeon = float(CRANK.gudgeon(theta))
    drop = (gudgeon + gear.drop_ahead) * ground.x + gear.drop_above * ground.y
    gap = die + _polar(rod, beta, ground) - end
    lifted = die + _polar(gear.lifting_pin, beta, ground)
    arm = _arm(gear, reverser, ground)
    if gear.lifting == "link":
        carried = _square(lifted - arm, ground) - gear.lifting_link**2
    else:
        shaft = gear.weighshaft_x * ground.x + gear.weighshaft_y * ground.y
        carried = (lifted - shaft).cross(arm - shaft).dot(ground.z)
    closures = [
        _square(tail - crank, ground) - gear.eccentric_rod**2,
        gap.dot(ground.x), gap.dot(ground.y), carried,
        _square(union - drop, ground) - gear.union_link**2,
    ]  # fmt: skip
    return float(sp.nsolve(closures, unknown, start, prec=30)[4])


@settings(max_examples=6)
@given(gear=st.one_of(near(OUTSIDE, 0.02), near(INSIDE, 0.02)),
       theta=st.floats(0, 360), reverser=st.floats(-1, 1))  # fmt: skip
def test_walschaerts_agrees_with_sympy(gear: Walschaerts, theta: float, reverser: float) -> None:
    try:
        motion = solve_motion(CRANK, gear, [theta], reverser)
    except MotionLocks:
        return
    # sympy starts from the picture rounded to a degree and a millimetre, not from our figures
    points = {name: point[0] for name, point in motion.points.items()}
    tail = points["link_tail"] - points["link"]
    own = np.arctan2(gear.tail_above, gear.tail_ahead)
    along, down = points["radius_rod"] - points["die"], points["union"] - points["valve"]
    start = np.round([
        np.arctan2(tail[1], tail[0]) - own, np.sin(float(motion.die[0]) / gear.radius_rod),
        np.arctan2(along[1], along[0]), np.arctan2(down[0], -down[1]),
    ], 1)  # fmt: skip
    theirs = _walschaerts_by_sympy(gear, theta, reverser, (*start, round(points["valve"][0])))
    assert motion.valve[0] == pytest.approx(theirs, abs=CLOSED)


@pytest.mark.parametrize("gear", [SLIP, DIRECT, ROCKER, OUTSIDE])
def test_inclined_spindle_is_the_gear_turned_about_the_axle(gear: object) -> None:
    """With everything else turned too, the valve moves along its line as before."""
    if not hasattr(gear, "eccentric_throw"):
        pytest.skip("the return crank is used as given and does not turn with the spindle")
    angle = 6.0
    turn = np.radians(angle)
    moved = {"valve_angle": angle}
    for x, y in (("weighshaft_x", "weighshaft_y"), ("rocker_x", "rocker_y")):
        if getattr(gear, x, None) is not None:
            px, py = getattr(gear, x), getattr(gear, y)
            moved[x] = px * np.cos(turn) - py * np.sin(turn)
            moved[y] = px * np.sin(turn) + py * np.cos(turn)
    for name in ("arm_angle_forward", "arm_angle_backward"):
        if hasattr(gear, name):
            moved[name] = getattr(gear, name) + angle
    for name in ("spindle_height", "die_height"):
        if getattr(gear, name, None) is not None:
            # the line's height is measured where it crosses x = 0
            moved[name] = getattr(gear, name) / np.cos(turn)
    notches = [1.0] if gear is SLIP else [1.0, 0.3, -1.0]
    level = solve_motion(CRANK, gear, TURN, notches).valve
    inclined = solve_motion(CRANK, replace(gear, **moved), TURN, notches).valve
    shift = inclined - level
    assert np.ptp(shift) < CLOSED


@pytest.mark.parametrize(
    ("gear", "change", "joint"),
    [
        (DIRECT, {"weighshaft_x": 20.0}, "lifting link"),
        (DIRECT, {"link_radius": 14.0}, "die"),
        (ROCKER, {"valve_rod": 8.0, "spindle_height": 75.0}, "valve rod"),
        (OUTSIDE, {"eccentric_rod": 40.0}, "link tail"),
        (OUTSIDE, {"union_link": 3.0}, "union link"),
        (SLIP, {"eccentric_rod": 6.0}, "eccentric rod"),
    ],
)
def test_a_gear_that_locks_says_where(gear: object, change: dict[str, float], joint: str) -> None:
    with pytest.raises(MotionLocks) as locked:
        solve_motion(CRANK, replace(gear, **change), TURN, [1.0])  # type: ignore[type-var]
    assert joint in locked.value.joint
    assert 0 <= locked.value.crank_angle < 360
    assert locked.value.reverser == 1.0
    assert f"{locked.value.crank_angle:.0f}°" in str(locked.value)


def test_a_lock_between_the_angles_asked_for_is_found() -> None:
    rod = 38.0  # long enough almost everywhere; the eccentric's height exceeds it for some degrees
    gear = replace(SLIP, spindle_height=33.05, eccentric_rod=rod)
    with pytest.raises(MotionLocks):
        solve_motion(CRANK, gear, [0.0, 180.0], 1.0)


def test_slip_eccentric_has_no_mid_gear() -> None:
    with pytest.raises(SizeError, match="no mid gear"):
        solve_motion(CRANK, SLIP, TURN, 0.0)


@pytest.mark.parametrize("reverser", [1.2, np.nan])
def test_reverser_beyond_full_gear_is_refused(reverser: float) -> None:
    with pytest.raises(ValueError, match="reverser"):
        solve_motion(CRANK, DIRECT, TURN, reverser)


def test_lifting_arm_swings_evenly_with_the_reverser() -> None:
    motion = solve_motion(CRANK, DIRECT, [0.0], np.array([-1.0, 0.0, 1.0]))
    arm = motion.points["arm"][:, 0] - np.array([DIRECT.weighshaft_x, DIRECT.weighshaft_y])
    assert np.degrees(np.arctan2(arm[:, 1], arm[:, 0])) == pytest.approx([25.0, 0.0, -25.0])


def test_die_moves_along_its_slot_by_what_the_arc_says() -> None:
    motion = solve_motion(CRANK, DIRECT, TURN, 0.7)
    chord = np.linalg.norm(motion.points["die"] - motion.points["link"], axis=-1)
    radius = DIRECT.link_radius
    assert np.abs(motion.die) == pytest.approx(2 * radius * np.arcsin(chord / (2 * radius)))


def test_longer_crank_is_no_matter_to_a_gear_driven_by_eccentrics() -> None:
    ours = solve_motion(Crank(40.0, 120.0), DIRECT, TURN, 0.5).valve
    other = solve_motion(Crank(30.0, 150.0), DIRECT, TURN, 0.5).valve
    assert np.array_equal(ours, other)
