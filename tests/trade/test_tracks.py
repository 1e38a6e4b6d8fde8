"""The look-up of track and wheel standards."""

import pytest

from weighshaft.trade import tracks


def test_gauges_of_the_workbook_have_standards() -> None:
    for gauge in (32, 45, 63.5, 89, 127, 184):
        found = tracks.standards(float(gauge))
        assert found, gauge
        usual = tracks.usual_standard(float(gauge))
        assert usual is not None
        assert usual.value("back_to_back") is not None
        # wheels go between the rails
        back, flange = usual.value("back_to_back"), usual.value("flange_thickness")
        assert back is not None
        assert back + 2 * (flange or 0.0) < gauge * 1.01


def test_near_names_of_one_track_are_one_track() -> None:
    names = {one.name for one in tracks.standards(89.0)}
    assert {"IBLS wheel standard", "SMEE 3-1/2 in", "NEM 010 (2011)"} <= names
    assert tracks.standards(89.0) == tracks.standards(88.9)
    # 7 1/4 and 7 1/2 in, 5 and 4 3/4 in are different tracks
    assert {one.gauge for one in tracks.standards(184.0)} == {184.15, 184.0}
    assert {one.gauge for one in tracks.standards(127.0)} == {127.0}


def test_tolerances_and_bounds() -> None:
    gauge_one = tracks.standard("g1mra standard (2009 and later)", 45.0)
    assert gauge_one.value("back_to_back") == pytest.approx(40.0)
    assert gauge_one.limits("back_to_back") == pytest.approx((40.0, 40.5))
    assert gauge_one.limits("tyre_width") == pytest.approx((5.5, 6.0))
    assert gauge_one.limits("root_radius") == (pytest.approx(0.5), None)
    assert gauge_one.limits("flange_depth") == (None, pytest.approx(2.0))
    ibls = tracks.standard("IBLS wheel standard", 89.0)
    assert ibls.limits("root_radius") == pytest.approx((0.047 * 25.4, 0.063 * 25.4))
    assert ibls.limits("tyre_width") == (pytest.approx(0.406 * 25.4), None)
    assert ibls.value("hub_projection") is None
    assert ibls.limits("hub_projection") == (None, None)


def test_one_thing_under_several_names() -> None:
    nem = tracks.standard("NEM 310 (1977 edition)", 45.0)
    (entry,) = nem.all_of("back_to_back")
    assert entry.printed == "back_to_back_B"
    assert entry.qualifier == "min"
    assert entry.sources == "S43"
    assert entry.word == "Back to back"


def test_standard_of_two_sections_of_one_gauge() -> None:
    both = tracks.standard("NMRA S-4.2 (older edition)", 45.0)
    depths = sorted(entry.value for entry in both.all_of("flange_depth"))
    assert depths == pytest.approx([0.064 * 25.4, 0.09 * 25.4])


def test_unknown_name_lists_those_there_are() -> None:
    with pytest.raises(tracks.StandardUnknown, match="GL5"):
        tracks.standard("no such", 127.0)
    with pytest.raises(tracks.StandardUnknown, match="none for this gauge"):
        tracks.standard("IBLS wheel standard", 300.0)
    assert tracks.usual_standard(300.0) is None


def test_disagreements_name_both_sides() -> None:
    found = {one.parameter: one for one in tracks.disagreements(45.0)}
    values = {name: value for name, value, *_ in found["back_to_back"].values}
    assert values["G1MRA Standard (2009 and later)"] == pytest.approx(40.0)
    assert values["G1MRA Fine"] == pytest.approx(42.0)
    assert values["NEM 310 (1977 edition)"] == pytest.approx(39.8)
    # both coarse standards of gauge 0 print a flange of 1.5 mm: no disagreement
    assert "flange_thickness" not in {one.parameter for one in tracks.disagreements(32.0)}


def test_curve_rules_are_read() -> None:
    assert tracks.greatest_attack_angle() == (12.0, "NEM 111 (2016)")
    widening = [rule for rule in tracks.curve_rules() if "widening" in rule.case]
    assert [rule.value for rule in widening] == [3000.0]
