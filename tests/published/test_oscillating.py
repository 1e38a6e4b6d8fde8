"""Oscillating cylinders against the books.

Sources: F. Reuleaux, The Kinematics of Machinery (1876), p. 297: the oscillating engine is
the swinging-block slider-crank; so is the crank and slotted lever of the shaping machine,
whose lever swings as the cylinder does.  R. S. Khurmi, Theory of Machines, examples on that
mechanism (from memory; the first also as a published question on single slider-crank
inversions): fixed centres 240 mm, crank 120 mm, lever inclined 30 degrees at its extreme and
time ratio 2; fixed centres 300 mm, crank 120 mm, time ratio 1.72 as printed.
J. Lukin, The Young Mechanic, on the single-acting engine with a swinging cylinder: steam
while the piston goes one way, exhaust while it returns, and the fly-wheel carries it over.
Mechanical seals: pressure that falls evenly over a narrow face counts for half of it (the
pressure gradient factor 0.5; from memory).

No published layout of an oscillating cylinder with dimensions of its holes and events was
found, nor one with a measured spring; the holes and the spring rest on geometry and statics.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from weighshaft.motion import Crank, SlideValve, valve_events
from weighshaft.motion.lapping import work
from weighshaft.motion.oscillating import Oscillating, SwingingCrank
from weighshaft.motion.trunnion_face import cone, greatest_swing, lens

SWING = np.linspace(0.0, 360.0, 36001)


@pytest.mark.parametrize(
    ("centres", "crank", "extreme", "ratio", "printed_to"),
    [(240.0, 120.0, 30.0, 2.0, 1e-3), (300.0, 120.0, 23.6, 1.72, 1.5e-2)],
)
def test_slotted_lever_swings_and_returns_as_the_example_says(
    centres: float, crank: float, extreme: float, ratio: float, printed_to: float
) -> None:
    piston = SwingingCrank(2 * crank, 1.2 * centres, centres)
    swing = np.degrees(piston.swing(SWING))
    assert swing.max() == pytest.approx(extreme, abs=0.03)
    assert greatest_swing(crank, centres) == pytest.approx(extreme, abs=0.03)
    slow = (SWING[swing.argmin()] - SWING[swing.argmax()]) % 360
    assert slow / (360 - slow) == pytest.approx(ratio, abs=printed_to)


def test_the_rod_is_square_to_the_crank_at_the_greatest_swing() -> None:
    """The tangent from the trunnion to the crank circle, as the examples draw it."""
    piston = SwingingCrank(240.0, 300.0, 240.0)
    at = float(SWING[piston.swing(SWING).argmax()])
    assert at == pytest.approx(60.0, abs=0.02)
    assert float(piston.distance(at)) == pytest.approx(math.sqrt(240**2 - 120**2), abs=0.01)


def test_reuleaux_the_oscillating_engine_is_the_direct_one_with_another_link_held() -> None:
    """The same chain: its connecting rod is our frame, from axle to trunnion.

    So the pin stands from the trunnion as the direct engine's axle from its gudgeon pin, at
    that crank angle which our crank makes with the cylinder's axis.
    """
    piston, rod = SwingingCrank(16.0, 40.0, 40.0), Crank(16.0, 40.0)
    for theta in (20.0, 75.0, 110.0, 200.0, 310.0):
        to_cylinder = theta + math.degrees(float(piston.swing(theta)))
        assert float(rod.gudgeon(180.0 + to_cylinder)) == pytest.approx(
            float(piston.distance(theta)), abs=1e-9
        )


def test_with_a_far_trunnion_cutoff_and_release_are_the_harmonic_ones() -> None:
    """Long rods: a valve without advance and lap L of travel 2 e opens at asin(L/e)."""
    far = 1e6
    throw, radius = 8.0, 4e5
    gear = Oscillating(
        trunnion_x=far, piston_rod=far, port_radius=radius, port_hole=2.0, passage_hole=2.0,
        passage_pitch=5.0,
    )  # fmt: skip
    lap, travel = 0.5, radius * throw / far  # holes in line at 2.5, touching at 2.0 before it
    events = valve_events(Crank(16.0, 40.0), SlideValve(0.9, 0.4, 1.7), gear, 1.0)
    angle = math.degrees(math.asin(lap / travel))
    assert events.front.admission
    assert events.front.cutoff
    assert events.front.release
    assert events.front.compression
    assert events.front.admission.angle == pytest.approx(angle, abs=1e-3)
    assert events.front.cutoff.angle == pytest.approx(180 - angle, abs=1e-3)
    assert events.front.release.angle == pytest.approx(180 + angle, abs=1e-3)
    assert events.front.compression.angle == pytest.approx(360 - angle, abs=1e-3)
    percent = 100 * (1 + math.cos(math.radians(angle))) / 2
    assert events.front.cutoff.percent == pytest.approx(percent, abs=1e-3)
    assert events.travel == pytest.approx(2 * travel, rel=1e-6)


def test_lukin_single_acting_wants_its_fly_wheel() -> None:
    gear = Oscillating(
        trunnion_x=40.0, piston_rod=42.0, port_radius=12.8, port_hole=2.3, passage_hole=2.3,
        acting="single",
    )  # fmt: skip
    result = work(gear, crank=Crank(16.0, 40.0), bore=9.5, pressure=1.4, number=1)
    assert 180 <= result.blind < 200  # the return stroke and the dead bands
    assert any("does not start by itself" in one.says for one in result.findings)


def test_two_unit_circles_through_one_another_share_the_known_area() -> None:
    """Vesica piscis: 2 pi / 3 - sqrt(3) / 2 of the square of the radius."""
    known = 2 * math.pi / 3 - math.sqrt(3) / 2
    assert float(lens(np.array(1.0), 1.0, 1.0)) == pytest.approx(known, abs=1e-12)


def test_a_narrow_seal_face_counts_by_half() -> None:
    inner, wide = 20.0, 0.02
    face = math.pi * ((inner + wide) ** 2 - inner**2)
    share = (cone(2 * inner, wide) - math.pi * inner**2) / face
    assert share == pytest.approx(0.5, abs=1e-3)
