"""The boiler in the frames: growth, gaps, water, ashpan, and what is said of them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point as Dot
from shapely.geometry import box as rectangle

from tests.boiler_for_tests import engine, part
from weighshaft import job
from weighshaft.boiler import BoilerResult, BoilerSeat, Firebox, work
from weighshaft.boiler.decisions import Fittings, Holding, Shell
from weighshaft.boiler.gaps import Swept, box_to_box, box_to_disc, lying_to_disc
from weighshaft.boiler.results import Lying
from weighshaft.design import Design
from weighshaft.findings import Finding
from weighshaft.frames.solids import Round, block, disc
from weighshaft.frames.whole import Whole
from weighshaft.sizes import SizeError


def worked(
    boiler: BoilerSeat | None = None, whole: Whole | None = None, pressure: float = 5.5
) -> BoilerResult:
    return work(
        boiler or BoilerSeat(), whole=whole or engine(), pressure=pressure, firing="coal",
        ratio=16.0, frame_metal="mild steel",
    )  # fmt: skip


def said(result: BoilerResult, level: str, words: str) -> list[Finding]:
    return [one for one in result.findings if one.level == level and words in one.says]


def test_the_slide_is_what_the_boiler_grows_by_more_than_the_frames() -> None:
    result = worked()
    # 5.5 bar on the gauge boil at 162.07 degC; 270 mm of copper, 35 of steel to the saddle
    copper = 16.8e-6 * 270 * (result.temperature - 20)
    steel = 12e-6 * 35 * (result.temperature - 20)
    frames = 12e-6 * 305 * 20
    assert result.temperature == pytest.approx(162.07, abs=0.05)
    assert result.slide == pytest.approx(copper + steel - frames, rel=1e-9)
    assert result.moves == -result.slide
    assert result.at_smokebox == pytest.approx(steel)
    assert result.at_backhead == result.slide


def test_held_at_the_firebox_the_front_slides() -> None:
    result = worked(BoilerSeat(holding=Holding(at="at the firebox")))
    assert result.moves > 0
    assert result.at_backhead == 0
    assert result.at_smokebox == result.slide
    assert result.held == pytest.approx((-150 - 20) / 2)
    assert result.slide < worked().slide


def test_too_little_slide_stops_and_one_button_mends_it() -> None:
    result = worked(BoilerSeat(holding=Holding(slide=0.1)))
    (found,) = said(result, "stop", "bends the frames")
    assert found.change is not None
    path, value = found.change
    assert path == "boiler.holding.slide"
    again = worked(BoilerSeat(holding=Holding(slide=float(value))))
    assert not [one for one in again.findings if path in one.fields and one.level != "fine"]


def test_nothing_is_short_on_the_engine_that_has_room() -> None:
    result = worked()
    assert all(one.level == "fine" for one in result.findings), result.findings


@pytest.mark.parametrize(("width", "level"), [(71.0, "stop"), (69.6, "check"), (66.0, "fine")])
def test_a_firebox_too_wide_for_the_frames_is_told_and_mended(width: float, level: str) -> None:
    result = worked(whole=engine(width=width))
    found = next(one for one in result.findings if "boiler.firebox.width" in one.fields)
    assert found.level == level
    if level != "fine":
        assert found.change is not None
        narrower = worked(whole=engine(width=float(found.change[1])))
        assert said(narrower, "fine", "Between firebox and frames")


def test_hot_side_gap_is_less_than_cold_by_the_growth() -> None:
    result = worked()
    swell = 16.8e-6 * 66 * (result.temperature - 20)
    assert result.side_gap == pytest.approx((70 - 66 - swell) / 2)


def test_an_axle_in_the_ashpan_is_named_and_a_higher_firebox_clears_it() -> None:
    low = engine(bottom=2.0, pan=10.0)
    # the ashpan ends at -8 behind the driving axle; an axle is planted under it
    planted = Whole(
        **{
            **vars(low),
            "parts": (
                *low.parts,
                part(
                    "odd axle", "wheels", disc((-50.0, -10.0), 6.0, -50, 50), ride="wheel", axle=1
                ),
            ),
        }
    )
    result = worked(whole=planted)
    found = said(result, "stop", "ashpan")
    assert found
    assert "odd axle" in found[0].says
    assert not [one for one in worked(whole=low).gaps if one.other == "odd axle"]


def test_axles_are_looked_at_where_they_have_risen() -> None:
    result = worked()
    gap = next(one for one in result.gaps if (one.part, one.other) == ("ashpan", "driving axle"))
    # the corner nearest at (-25, 5), axle of 6 mm risen by 1.5
    assert gap.cold == pytest.approx(math.hypot(25.0, 3.5) - 6)
    # held at the smokebox the pan goes back, away from that axle: the worst is cold
    assert gap.least == gap.cold < gap.hot


def test_a_weighshaft_through_the_barrel_stops() -> None:
    shaft = part("weighshaft", "motion", disc((50.0, 70.0), 3.0, 0, 35), paired=True)
    found = said(worked(whole=engine(shaft)), "stop", "weighshaft")
    assert len(found) == 1
    assert "in two halves" in found[0].mend


@given(
    x=st.floats(-60, 60), y=st.floats(-60, 60), r=st.floats(1, 20), wide=st.floats(5, 40),
    high=st.floats(5, 40),
)  # fmt: skip
def test_box_to_disc_is_what_a_geometry_library_finds(
    x: float, y: float, r: float, wide: float, high: float
) -> None:
    flat = rectangle(-wide, -high, wide, high)
    gap = box_to_disc((-wide, wide, -high, high, -5, 5), Swept("d", x, y, r, -3, 3))
    away = flat.distance(Dot(x, y))
    if away > r:
        assert gap == pytest.approx(away - r, abs=1e-9)
    elif away > 0:
        assert gap == pytest.approx(max(away - r, -8.0), abs=1e-9)
    else:
        assert gap < 0


@given(
    a=st.tuples(*[st.floats(-50, 50)] * 3), b=st.tuples(*[st.floats(-50, 50)] * 3),
    size=st.floats(1, 30),
)  # fmt: skip
def test_gaps_of_boxes_are_the_same_both_ways_and_positive_only_apart(
    a: tuple[float, float, float], b: tuple[float, float, float], size: float
) -> None:
    def about(p: tuple[float, float, float]) -> tuple[float, float, float, float, float, float]:
        return (p[0] - size, p[0] + size, p[1] - size, p[1] + size, p[2] - size, p[2] + size)

    gap = box_to_box(about(a), about(b))
    assert gap == pytest.approx(box_to_box(about(b), about(a)))
    assert (gap >= 0) == any(abs(p - q) >= 2 * size for p, q in zip(a, b, strict=True))


def test_the_barrel_clears_a_wheel_by_the_distance_in_the_section() -> None:
    lying = Lying(-150, 120, 95, 40, 36)
    wheel = Swept("wheel", 0.0, 1.5, 52.0, 40.0, 42.0)
    section = Dot(0, 95).distance(rectangle(40, -52, 42, 53.5)) - 40
    assert lying_to_disc(lying, wheel) == pytest.approx(section)


def test_water_is_seen_covers_the_crown_and_rises_when_hot() -> None:
    result = worked()
    water = result.water
    assert water is not None
    assert water.crown == pytest.approx(95 + 4)
    assert water.level == pytest.approx(55 + 0.7 * 80)
    assert result.water_over_crown == pytest.approx(12)
    assert water.bottom_nut == pytest.approx(99 + 76.2 / 16)
    assert water.hot > water.level
    assert result.water_between is not None
    # between the nuts the barrel is about as wide as at its middle there
    middle = (water.bottom_nut + 8) - 95
    about = 2 * math.sqrt(36**2 - middle**2) * 16 * 270 * 998.2e-6
    assert result.water_between == pytest.approx(about, rel=0.02)


def test_water_below_the_crown_stops_and_the_button_brings_it_into_the_glass() -> None:
    found = said(worked(BoilerSeat(water_level=0.5)), "stop", "burnt")
    assert found[0].change is not None
    level = float(found[0].change[1])
    assert said(worked(BoilerSeat(water_level=level)), "fine", "above the firebox crown")


def test_a_low_bottom_nut_is_told() -> None:
    result = worked(BoilerSeat(fittings=Fittings(gauge_nut=0.5)))
    assert said(result, "check", "bottom nut covers")


def test_the_ashpan_falls_unless_something_is_under_it() -> None:
    assert said(worked(), "fine", "ashpan comes out down")
    stay = part("planted stay", "frames", block(-60, -50, -10, 0, -35, 35))
    result = worked(whole=engine(stay))
    (found,) = said(result, "check", "do not come out down")
    assert "planted stay" in found.says
    assert "after 5.0 mm" in found.says


def test_plugs_that_no_finger_reaches_are_told() -> None:
    assert said(worked(), "fine", "Washout plugs")
    stays = (
        part("stay ahead", "frames", block(-15, -12, -20, 60, -35, 35)),
        part("stay behind", "frames", block(-90, -85, -20, 60, -35, 35)),
    )
    assert said(worked(whole=engine(*stays)), "check", "No washout plug")


def test_an_upright_boiler_has_no_barrel_and_is_asked_for_its_crown() -> None:
    upright = part("boiler", "boiler", Round((-60, 20, 0), 120, 30, 90, 54))
    whole = engine(upright, without=("boiler", "lagging", "firebox", "ashpan"))
    result = worked(BoilerSeat(kind="vertical"), whole)
    assert result.lying is None
    assert result.slide == 0
    assert said(result, "check", "not known here")


def test_the_cautions_defer_to_the_inspector_and_forbid_air() -> None:
    words = " ".join(worked().cautions)
    assert "inspector" in words
    assert "never with air" in words
    assert "5.5 bar" in words


def test_odd_metals_are_for_the_inspector() -> None:
    assert said(worked(BoilerSeat(shell=Shell(material="aluminium"))), "check", "aluminium")


def test_a_pressure_beyond_the_steam_table_is_refused_in_words() -> None:
    with pytest.raises(SizeError, match="Working pressure"):
        worked(pressure=40.0)


def test_the_job_gives_the_chapter_what_the_frames_took(design: Design) -> None:
    done = job.work(design)
    assert done.boiler is not None
    fields = {one.field for one in done.boiler.suggestions}
    assert {"boiler.shell.lagging", "boiler.firebox.length", "boiler.holding.slide"} <= fields
    given_crown = design.changed({"boiler.firebox.crown": 3.0})
    crown = job.work(given_crown).boiler.water.crown
    assert crown - done.boiler.lying.centre == pytest.approx(3.0)
    assert Firebox(crown=3.0) == given_crown.boiler.firebox
