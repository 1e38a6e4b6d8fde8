"""Set-ups drawn out again with sympy's geometry, and measured on the drawing."""

from __future__ import annotations

import math

import numpy as np
import pytest
from sympy import Point, Rational, cos, pi, sin
from sympy.geometry import Circle, Line, Point3D, Ray, RegularPolygon, Segment
from sympy.geometry.line import Line3D

from weighshaft.workshop.eccentrics import BuiltUp, Chucking, Eccentrics, Jig, Stop
from weighshaft.workshop.eccentrics import work as set_up
from weighshaft.workshop.eccentrics.chucking import jaw_packing
from weighshaft.workshop.machines import Machines
from weighshaft.workshop.patterns import Ball, Patterns, Taper
from weighshaft.workshop.patterns import Circle as Holes
from weighshaft.workshop.patterns import work as set_out
from weighshaft.workshop.patterns.engine import EXAMPLE

JAWS = (pi, pi / 3, -pi / 3)
"""The packed jaw on the left, the other two to the right of it."""


def measured(radius: Rational, throw: Rational, width: Rational | int) -> float:
    """Return the packing between jaws of a width on a bar that stands `throw` to the right."""
    bar = Circle(Point(throw, 0), radius)
    stands = []
    for turn in JAWS:
        x, y = cos(turn).evalf(), sin(turn).evalf()
        out, along = Point(x, y), Point(-y, x)
        # where each place of the face first meets the bar: its ends, its middle, and the place
        # beside the bar's centre where that lies on the face
        beside = bar.center.dot(along)
        places = [-width / Rational(2), 0, width / Rational(2)]
        if abs(beside) <= width / Rational(2):
            places.append(beside)
        found = []
        for place in places:
            start = along * place
            cut = bar.intersection(Line(start, start + out))
            if not cut:
                continue  # this end of the face stands beside the bar
            found.append(max(float((Point(one) - start).dot(out)) for one in cut))
        stands.append(max(found))
    packed, *others = stands
    assert others[0] == pytest.approx(others[1])
    return others[0] - packed


@pytest.mark.parametrize(("radius", "throw"), [(15, 4), (10, Rational(5, 2))])
def test_packing_under_jaws(radius: int, throw: Rational) -> None:
    big, small = Rational(radius), Rational(throw)
    result = set_up(
        Eccentrics(chucking=Chucking(throw=float(throw), bar=2.0 * radius)), machines=Machines()
    )
    assert result.packing_narrow == pytest.approx(measured(big, small, 0), abs=1e-9)
    assert result.packing_flat == pytest.approx(measured(big, small, 2 * radius), abs=1e-9)
    worked = jaw_packing(float(radius), float(throw), 3.0).result
    assert worked == pytest.approx(measured(big, small, 3), abs=1e-9)


def test_stop_lets_the_pin_from_face_to_face() -> None:
    result = set_up(
        Eccentrics(stop=Stop(forward=30.0, backward=24.0, pin=2.4, radius=10.0)),
        machines=Machines(),
    )
    assert result.opening is not None
    assert result.slip is not None
    # two radial faces of the dog; the pin touches one, then the other
    half = math.radians(result.opening / 2)
    for sign in (1, -1):
        face = Line(Point(0, 0), Point(math.cos(half), sign * math.sin(half)))
        at = sign * math.radians(result.slip / 2)
        pin = Point(10 * math.cos(at), 10 * math.sin(at))
        assert float(face.distance(pin)) == pytest.approx(1.2, abs=1e-6)
    # the sheave leads by 90 + 30 one way and by 90 + 24 the other
    assert result.slip == pytest.approx(360 - (90 + 30) - (90 + 24))


def test_crank_web_and_jig() -> None:
    result = set_up(
        Eccentrics(
            crank=BuiltUp(pitch=20.0, axle=12.0, pin=8.0, web=7.0, breadth=18.0, between=11.0),
            jig=Jig(height=60.0, pin=8.0, axle=12.0, angle=90.0),
        ),
        machines=Machines(),
    )
    axle, pin = Circle(Point(0, 0), 6), Circle(Point(20, 0), 4)
    line = Segment(Point(-10, 0), Point(30, 0))
    places = sorted(float(one.x) for ring in (axle, pin) for one in ring.intersection(line))
    assert result.over_pins == pytest.approx(places[-1] - 0 + 6)
    assert result.between_pins == pytest.approx(places[2] - places[1])
    # both pins rest on blocks of one height, the axle 60 mm over the plate
    throw = set_up(Eccentrics(), machines=Machines()).pitch
    low = result.block + 4.0
    cut = Circle(Point(0, 60), throw).intersection(Line(Point(-1, low), Point(1, low)))
    left, right = sorted(cut, key=lambda one: float(one.x))
    middle = Point(0, 60)
    angle = Ray(middle, left).angle_between(Ray(middle, right))
    assert math.degrees(float(angle)) == pytest.approx(90.0, abs=1e-6)
    assert result.block_reach == pytest.approx(float(right.x), abs=1e-6)


def test_passage_at_a_slant() -> None:
    result = set_out(Patterns(), machines=Machines())
    assert result.port_floor is not None
    for one in result.passages:
        start = Point3D(EXAMPLE.barrel / 2 - (result.passage_begins or 0), one.across, one.begins)
        assert EXAMPLE.ports is not None
        end = Point3D(EXAMPLE.ports.middle, one.across, result.port_floor)
        bore = Line3D(Point3D(0, 0, 0), Point3D(1, 0, 0))
        angle = float(Line3D(end, start).angle_between(bore))
        assert one.tilt == pytest.approx(math.degrees(angle), abs=1e-9)
        assert one.length == pytest.approx(float(start.distance(end)), abs=1e-9)
        # it begins on the bore's edge
        assert math.hypot(one.across, one.begins) == pytest.approx(EXAMPLE.bore / 2)


@pytest.mark.parametrize("start", [None, 5.0, 15.0])
@pytest.mark.parametrize("depth", [3.0, 7.0, 12.0])
def test_metal_between_screw_holes_and_passages(start: float | None, depth: float) -> None:
    # in space, place by place along each passage: to the side of the hole and to its flat bottom.
    # A passage that climbs under a shallow hole is nearest beyond its bottom, which the view along
    # the cylinder does not show
    result = set_out(Patterns(circle=Holes(start=start, depth=depth)), machines=Machines())
    assert EXAMPLE.ports is not None
    assert result.port_floor is not None
    face, least = EXAMPLE.barrel / 2, math.inf
    for spot in result.spots:
        for way in result.passages:
            one = np.array([face - (result.passage_begins or 0.0), way.across, way.begins])
            two = np.array([EXAMPLE.ports.middle, way.across, result.port_floor])
            slope = (two - one) / (one[0] - two[0])
            entry = one - slope * (face - one[0])  # the drill comes in through the end face
            at = entry + slope * np.linspace(0.0, face - two[0], 20001)[:, None]
            side = np.hypot(at[:, 1] - spot.x, at[:, 2] - spot.y) - result.hole / 2
            below = face - at[:, 0] - depth
            off = np.where(below <= 0, side, np.hypot(np.maximum(side, 0), np.maximum(below, 0)))
            least = min(least, float(off.min()))
    assert result.metal == pytest.approx(least - EXAMPLE.hole / 2, abs=1e-3)


def test_bolt_circle_is_a_polygon() -> None:
    result = set_out(
        Patterns(circle=Holes(holes=8, diameter=40.0, start=22.5)), machines=Machines()
    )
    wanted = RegularPolygon(Point(0, 0), 20, 8, pi / 8)
    corners = np.array([(float(one.x), float(one.y)) for one in wanted.vertices])
    for one in result.spots:
        assert np.hypot(*(corners - (one.x, one.y)).T).min() < 1e-9
    assert result.hole_chord == pytest.approx(float(wanted.length))


def test_taper_and_tread() -> None:
    result = set_out(
        Patterns(taper=Taper(large=14.0, small=11.0, length=48.0, between=120.0, coning=3.0)),
        machines=Machines(),
    )
    edge = Line(Point(0, Rational(11, 2)), Point(48, 7))
    angle = float(edge.angle_between(Line(Point(0, 0), Point(1, 0))))
    assert result.half_angle == pytest.approx(math.degrees(angle))
    # set over, the edge lies along the bed: the far centre stands this much aside of its own line
    assert result.set_over == pytest.approx(120 * math.sin(angle))
    rise = Line(Point(0, 0), slope=math.tan(math.radians(3.0)))
    at = rise.intersection(Line(Point(result.tread_width, 0), Point(result.tread_width, 1)))[0]
    assert result.tread_fall == pytest.approx(2 * float(at.y), abs=1e-9)


def test_ball_by_increments() -> None:
    result = set_out(
        Patterns(ball=Ball(radius=6.0, stem=5.0, step=0.5, ridge=0.2)), machines=Machines()
    )
    ball, stem = Circle(Point(6, 0), 6), Line(Point(0, Rational(5, 2)), Point(1, Rational(5, 2)))
    far = max(float(one.x) for one in ball.intersection(stem))
    assert result.ball_end == pytest.approx(far)
    for one in result.stations[1:-1]:
        upright = Line(Point(one.z, 0), Point(one.z, 1))
        assert one.x == pytest.approx(max(float(two.y) for two in ball.intersection(upright)))
