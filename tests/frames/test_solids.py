"""Plain bodies: volumes, centres and bounds against a geometry library and by integration."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from weighshaft.frames import Bar, Part, Plate, Round, Solid, block, disc, mirrored

# circles of the geometry library are polygons: with so many corners a quarter their areas lack
# one part in 10^5
QUARTER = 256
ROUGH = 2e-5

places = st.floats(-200, 200)
sizes = st.floats(0.5, 80)


def star(count: int, seed: int) -> tuple[tuple[float, float], ...]:
    """Return a ragged outline about the middle, either way round."""
    random = np.random.default_rng(seed)
    turns = np.sort(random.uniform(0, 2 * np.pi, count))[:: 1 if seed % 2 else -1]
    out = random.uniform(20, 60, count)
    return tuple(
        (float(r * np.cos(t)), float(r * np.sin(t))) for r, t in zip(out, turns, strict=True)
    )


def seen(solid: Bar | Plate) -> BaseGeometry:
    """Return the body from the side by the geometry library."""
    if isinstance(solid, Plate):
        return Polygon(solid.outline, solid.holes)
    line = LineString([solid.start, solid.end])
    if solid.start == solid.end:
        round_ = Polygon(line.centroid.buffer(solid.half, quad_segs=QUARTER).exterior)
        return round_.difference(line.centroid.buffer(solid.bore / 2, quad_segs=QUARTER))
    return line.buffer(solid.half, quad_segs=QUARTER)


def agrees(solid: Bar | Plate, rough: float) -> None:
    shape = seen(solid)
    thick = solid.outer - solid.inner
    assert solid.volume == pytest.approx(shape.area * thick, rel=rough)
    x, y, z = solid.centroid
    scale = math.sqrt(shape.area)
    assert (x, y) == pytest.approx(
        (shape.centroid.x, shape.centroid.y), abs=max(rough, 1e-9) * scale * 10
    )
    assert z == pytest.approx((solid.inner + solid.outer) / 2)
    low, high = solid.extent
    assert (low[0], low[1], high[0], high[1]) == pytest.approx(shape.bounds, abs=1e-3)
    assert (low[2], high[2]) == (solid.inner, solid.outer)


@given(st.integers(5, 14), st.integers(0, 10_000), places, sizes)
def test_a_plate_has_its_polygons_volume_and_centre(
    count: int, seed: int, inner: float, thick: float
) -> None:
    outline = star(count, seed)
    assume(Polygon(outline).is_valid)
    agrees(Plate(outline, inner, inner + thick), 1e-9)


@given(st.integers(0, 10_000), sizes)
def test_holes_are_taken_out_of_a_plate(seed: int, thick: float) -> None:
    outline = tuple((60 * x, 40 * y) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    cut = tuple((0.3 * x - 30, 0.3 * y) for x, y in star(7, seed))
    assume(Polygon(cut).is_valid)
    second = ((20.0, -10.0), (20.0, 15.0), (45.0, 5.0))
    agrees(Plate(outline, 0.0, thick, (cut, second)), 1e-9)


@given(places, places, places, places, sizes, places, sizes)
def test_a_bar_is_a_line_widened(
    ax: float, ay: float, bx: float, by: float, half: float, inner: float, thick: float
) -> None:
    assume(math.dist((ax, ay), (bx, by)) > 1e-3)
    agrees(Bar((ax, ay), (bx, by), half, inner, inner + thick), ROUGH)


@given(places, places, sizes, st.floats(0, 0.95))
def test_a_disc_is_a_ring(x: float, y: float, radius: float, bore: float) -> None:
    agrees(disc((x, y), radius, 1.0, 4.0, 2 * radius * bore), 20 * ROUGH)


def sampled(solid: Round, steps: int = 90) -> tuple[float, np.ndarray]:
    """Return volume and centre of a round body by summing a grid of points in it."""
    turned = math.radians(solid.angle)
    along = np.array([math.cos(turned), math.sin(turned), 0.0])
    across = np.array([-math.sin(turned), math.cos(turned), 0.0])
    mid = (np.arange(steps) + 0.5) / steps
    r = np.sqrt(np.linspace((solid.bore / 2) ** 2, solid.radius**2, steps + 1))
    r = np.sqrt((r[1:] ** 2 + r[:-1] ** 2) / 2)  # rings of equal area
    t = 2 * np.pi * mid
    s, rr, tt = np.meshgrid(mid * solid.length, r, t, indexing="ij")
    points = (
        np.array(solid.start) + s[..., None] * along + (rr * np.cos(tt))[..., None] * across
        + (rr * np.sin(tt))[..., None] * np.array([0.0, 0.0, 1.0])
    )  # fmt: skip
    each = np.pi * (solid.radius**2 - solid.bore**2 / 4) / steps**2 * solid.length / steps
    return each * points[..., 0].size, points.reshape(-1, 3).mean(axis=0)


@pytest.mark.parametrize("angle", [0.0, 90.0, -7.5, 30.0])
def test_a_round_is_a_tube_about_its_axis(angle: float) -> None:
    solid = Round((12.0, -5.0, 3.0), 80.0, 20.0, angle, 32.0)
    volume, centre = sampled(solid)
    assert solid.volume == pytest.approx(volume)
    assert solid.centroid == pytest.approx(tuple(centre), abs=1e-9)
    # seen from the side it is a rectangle about the axis
    side = rotate(translate(Polygon([(0, -20), (80, -20), (80, 20), (0, 20)]), 12.0, -5.0), angle,
                  origin=(12.0, -5.0))  # fmt: skip
    assert Polygon(solid.outline).symmetric_difference(side).area < 1e-9
    low, high = solid.extent
    assert (low[0], low[1], high[0], high[1]) == pytest.approx(side.bounds)
    assert (low[2], high[2]) == (-17.0, 23.0)


def test_the_volume_of_a_tube_is_that_of_its_shells() -> None:
    # by the theorem of Pappus: the section's area times the way of its centre
    solid = Round((0.0, 0.0, 0.0), 50.0, 30.0, 0.0, 40.0)
    assert solid.volume == pytest.approx((30.0 - 20.0) * 50.0 * 2 * math.pi * 25.0)


@given(st.sampled_from(["plate", "bar", "round"]), sizes, places)
def test_the_mirror_has_the_same_volume_on_the_other_side(
    sort: str, size_: float, z: float
) -> None:
    made: dict[str, Solid] = {
        "plate": block(-size_, size_, 0.0, 3.0, z, z + 2.0),
        "bar": Bar((0.0, 0.0), (size_, 5.0), 2.0, z, z + 2.0),
        "round": Round((0.0, 0.0, z), size_, 3.0, 20.0),
    }
    solid, other = made[sort], mirrored(made[sort])
    x, y, across = solid.centroid
    assert other.volume == pytest.approx(solid.volume)
    assert other.centroid == pytest.approx((x, y, -across))
    assert mirrored(other) == solid


def test_a_part_of_several_bodies_has_their_common_centre() -> None:
    solids = (
        block(0.0, 10.0, 0.0, 4.0, 5.0, 7.0), block(10.0, 12.0, 0.0, 20.0, 5.0, 7.0),
        block(-8.0, 0.0, 3.0, 4.0, 5.0, 7.0),
    )  # fmt: skip
    part = Part("bracket", "frames", "frames", (), "mild steel", solids, paired=True, share=0.5)
    whole = unary_union([Polygon(one.outline) for one in solids])
    assert part.volume == pytest.approx(2 * 0.5 * 2.0 * whole.area)
    assert part.centroid == pytest.approx((whole.centroid.x, whole.centroid.y, 0.0))
    assert part.on("right").centroid[2] == pytest.approx(6.0)
    assert part.on("left").centroid[2] == pytest.approx(-6.0)
    assert part.on("left").volume == pytest.approx(part.volume / 2)
    low, high = part.extent
    assert (low[2], high[2]) == (-7.0, 7.0)
