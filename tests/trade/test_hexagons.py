"""Hexagons, nuts and materials."""

import pytest

from weighshaft.trade import materials
from weighshaft.trade.hexagons import hexagon, nut_thickness, prototype_nuts, smaller_hexagon
from weighshaft.trade.materials import JOINTINGS, MATERIALS, SEALINGS
from weighshaft.trade.threads import thread, threads


def test_one_size_smaller_is_the_next_ba_hexagon() -> None:
    for number in range(15):
        small = smaller_hexagon(thread(f"{number}BA"))
        assert small is not None
        following = hexagon(thread(f"{number + 1}BA")).across_flats
        assert small.across_flats == pytest.approx(following)
    assert smaller_hexagon(thread("M3")) is None


def test_every_thread_has_a_hexagon_that_clears_it() -> None:
    for one in threads():
        found = hexagon(one)
        assert found.across_flats > min(1.5 * one.major, one.major + 2.75)
        assert found.source
        assert 0.7 * one.major <= nut_thickness(one)[0] <= one.major


def test_prototype_nuts_rise() -> None:
    whitworth = [nut.across_flats for nut in prototype_nuts() if "Whitworth" in nut.bolt]
    assert whitworth == sorted(whitworth)
    assert len(whitworth) == 7


def test_names_are_those_of_the_tables() -> None:
    for names, look in (
        (MATERIALS, materials.material), (SEALINGS, materials.sealing),
        (JOINTINGS, materials.jointing),
    ):  # fmt: skip
        for name in names:
            found = look(name)
            assert found.name == name
            assert found.source
    for name in MATERIALS:
        metal = materials.material(name)
        assert 0 < metal.proof < metal.tensile
    with pytest.raises(KeyError):
        materials.material("cheese")
