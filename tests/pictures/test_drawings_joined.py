"""Outlines joined into one with true arcs, against unions of chords by a general library."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon
from shapely.ops import unary_union

from weighshaft.pictures.drawings.joined import bar, curved, disc, strip, union
from weighshaft.pictures.drawings.sheet import Outline, hole, polygon, rod

MICRON = 1e-3  # mm
_PLACE = st.tuples(st.floats(-30, 30), st.floats(-30, 30))


def _flat(outline: Outline) -> Polygon:
    return Polygon(outline.path().points).buffer(0)


@given(
    places=st.lists(_PLACE, min_size=2, max_size=4), half=st.floats(1, 3),
    eyes=st.lists(st.sampled_from([1.0, 1.4, 2.0]), min_size=4, max_size=4),
)  # fmt: skip
@settings(deadline=None, max_examples=60)
def test_bars_and_eyes_join_as_a_general_library_joins_them(
    places: list[tuple[float, float]], half: float, eyes: list[float]
) -> None:
    assume(all(math.dist(a, b) > half for a, b in pairwise(places)))
    parts = [bar(a, b, half) for a, b in pairwise(places)]
    parts += [disc(at, half * eye) for at, eye in zip(places, eyes, strict=False)]
    made = union(parts)
    expected = unary_union([_flat(one) for one in parts])
    outer = Polygon(expected.exterior)
    # the library joins chords that stray by a micrometre
    assert made.area == pytest.approx(outer.area, abs=2 * MICRON * outer.length)
    assert _flat(made).hausdorff_distance(outer) < 20 * MICRON


def test_a_rod_by_joining_is_the_rod_by_its_own_formula() -> None:
    eyes, half = [((0.0, 0.0), 6.0), ((40.0, 0.0), 7.0), ((75.0, 0.0), 5.0)], 2.5
    own = rod([at for at, _ in eyes], [radius for _, radius in eyes], half)
    parts = [strip(a[0], b[0], half) for a, b in pairwise(eyes)]
    made = union([*parts, *(disc(*one) for one in eyes)])
    assert made.area == pytest.approx(own.area, abs=1e-9)
    corners = {(round(x, 6), round(y, 6)) for x, y, _ in made.corners}
    assert {(round(x, 6), round(y, 6)) for x, y, _ in own.corners} <= corners


def test_a_curved_bar_has_the_area_of_its_ring_and_its_round_ends() -> None:
    made = curved((3.0, -2.0), 40.0, 160.0, 200.0, 4.0)
    assert made.area == pytest.approx(math.radians(40) * 40 * 8 + math.pi * 16)


def test_two_discs_that_meet_have_the_area_of_their_lens_once() -> None:
    """Area of a lens of two equal circles, standard text: 2 r2 acos(d/2r) - d/2 sqrt(4r2 - d2)."""
    r, d = 5.0, 6.0
    lens = 2 * r * r * math.acos(d / 2 / r) - d / 2 * math.sqrt(4 * r * r - d * d)
    made = union([disc((0.0, 0.0), r), disc((d, 0.0), r)])
    assert made.area == pytest.approx(2 * math.pi * r * r - lens)


def test_one_within_another_and_the_same_twice_change_nothing() -> None:
    whole = polygon([(0, 0), (10, 0), (10, 8), (0, 8)])
    assert union([whole, hole((5, 4), 3)]).area == pytest.approx(80)
    assert union([whole, whole]).area == pytest.approx(80)
    assert len(union([bar((0, 0), (9, 0), 2), bar((0, 0), (9, 0), 2)]).corners) == 4


def test_what_does_not_hang_together_is_refused() -> None:
    with pytest.raises(ValueError, match="hang together"):
        union([disc((0, 0), 1), disc((9, 0), 1)])
