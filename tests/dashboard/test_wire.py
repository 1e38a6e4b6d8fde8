"""Pictures on their way to the browser, and the script that awaits them."""

from __future__ import annotations

import json
import math
from pathlib import Path

import numpy as np
import pytest

from tests.designs import SAMPLES
from weighshaft.dashboard import sheet
from weighshaft.dashboard.chapters import CHAPTERS, KEYS
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.shelf import Shelf
from weighshaft.dashboard.view import view
from weighshaft.dashboard.whole import paper_payload
from weighshaft.dashboard.wire import MOST_FRAMES, Numbers, extent, pictures_payload
from weighshaft.design import read
from weighshaft.motion import Oscillating
from weighshaft.pictures.scene import (
    Arc,
    Band,
    Chart,
    Circle,
    Curve,
    Dimension,
    Label,
    Moving,
    Scene,
    Table,
    box,
)
from weighshaft.pictures.scene import (
    Path as Line,
)

TURN = np.arange(0.0, 360.0, 0.5)


def a_scene() -> Scene:
    angle = np.radians(TURN)
    pin = np.stack([10 * np.cos(angle), -10 * np.sin(angle)], -1)[:, None]
    return Scene(
        "Crank",
        "A crank.",
        (
            Line(box(-2, -3, 4, 5), pen="outline", closed=True, fill="section", part="frame"),
            Circle((0, 0), 12, "centre"),
            Arc((0, 0), 3, 0, 90),
            Label("axle", (-20, 0), leader=(0, 0)),
            Dimension((0, 0), (10, 0), "10", offset=25),
        ),
        (Moving(pin, "circle", radius=1.5, part="crankpin"),),
        TURN,
    )


def test_points_arrive_as_they_were_sent() -> None:
    numbers = Numbers()
    (scene,) = pictures_payload((a_scene(),), "mm", numbers)
    points = np.frombuffer(numbers.raw(), "<f4")
    first, count = scene["still"][0]["p"]
    assert points[first : first + count].reshape(-1, 2).tolist() == box(-2, -3, 4, 5).tolist()
    json.dumps(scene, allow_nan=False)


def test_frames_are_thinned_evenly_and_stay_on_their_circle() -> None:
    numbers = Numbers()
    (scene,) = pictures_payload((a_scene(),), "mm", numbers)
    points = np.frombuffer(numbers.raw(), "<f4")
    first, count = scene["angles"]
    angles = points[first : first + count]
    assert count <= MOST_FRAMES
    assert np.ptp(np.diff(angles)) == 0
    assert angles[0] == 0
    assert angles[-1] + (angles[1] - angles[0]) == 360
    first, count = scene["moving"][0]["p"]
    sent = points[first : first + count].reshape(-1, 2)
    assert len(sent) == len(angles)
    # half way between two frames the browser draws the chord; it must not be seen to stray
    middle = (sent + np.roll(sent, -1, axis=0)) / 2
    assert 10 - np.hypot(*middle.T).min() < 0.002


def test_the_extent_holds_everything_in_every_frame() -> None:
    left, bottom, right, top = extent(a_scene())
    assert (left, bottom, right) == (-20, -12, 12)
    assert top == 25  # the dimension line stands 25 mm to the left of its way, so above
    assert extent(Scene("", "", ())) == [0.0, 0.0, 1.0, 1.0]
    lost = Line(np.array([[np.nan, 1.0], [2.0, 3.0]]))
    assert all(map(math.isfinite, extent(Scene("", "", (lost,)))))


def test_charts_and_tables_are_plain_data_in_the_unit_of_the_page() -> None:
    chart = Chart(
        "Lap", "says", "x", "y",
        (Curve(np.array([0.0, 1.0]), np.array([np.nan, 2.0]), "lap"),),
        (Band(1.0, 2.0, "shut"),), (0,),
    )  # fmt: skip
    table = Table("Sizes", ("what", "size"), (("bore", 12.7), ("note", "text")))
    for page, says in (("mm", "12.7"), ("in", "1/2")):
        numbers = Numbers()
        made = pictures_payload((chart, table), page, numbers)  # type: ignore[arg-type]
        json.dumps(made, allow_nan=False)
        assert made[1]["rows"][0][1] == {"text": says, "number": True}
        assert made[1]["rows"][1][1] == {"text": "text", "number": False}
        assert made[1]["unit"] == page
        assert np.isnan(np.frombuffer(numbers.raw(), "<f4")).sum() == 1


def test_coordinates_have_all_their_places_and_no_fractions() -> None:
    table = Table("Places", ("x",), ((12.7,), (0.05,)), fine=True)
    for page, says in (("mm", ["12.700", "0.050"]), ("in", ["0.5000", "0.0020"])):
        made = pictures_payload((table,), page, Numbers())  # type: ignore[arg-type]
        assert [row[0]["text"] for row in made[0]["rows"]] == says


def test_dimensions_and_axes_follow_the_unit_of_the_page() -> None:
    texts = ("104.50", "25.4 mm", "-12.7", "pitch 0.635", "width allowed 9 mm")
    scene = Scene("s", "s", tuple(Dimension((0, 0), (1, 0), text) for text in texts))
    ends = np.array([0.0, 25.4])
    axes = [("valve, mm", "torque, N mm"), ("mm", "mm of water")]
    charts = tuple(Chart("c", "c", x, y, (Curve(ends, ends),)) for x, y in axes)
    numbers = Numbers()
    drawn, *made = pictures_payload((scene, *charts), "in", numbers)
    shown = [one["text"] for one in drawn["still"]]
    assert shown == ["4.1142", "1 in", "-1/2", "pitch 0.635", "width allowed 9 mm"]
    # a named one goes with the sentences of its chapter
    (named,) = pictures_payload((scene,), "in", numbers, "in")
    shown = [one["text"] for one in named["still"]]
    assert shown == ["4.1142", "1 in", "-1/2", "pitch 0.0250", "width allowed 0.3543 in"]
    assert drawn["sizes"]
    assert [(one["x"], one["y"]) for one in made] == [
        ("valve, in", "torque, N mm"),
        ("in", "mm of water"),
    ]
    points = np.frombuffer(numbers.raw(), "<f4")
    for one in made:
        x, y = (points[f : f + n] for f, n in (one["curves"][0]["x"], one["curves"][0]["y"]))
        assert x[1] == 1
        assert y[1] == np.float32(25.4)
    (same,) = pictures_payload((scene,), "mm", Numbers())
    assert [one["text"] for one in same["still"]] == list(texts)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_every_chapter_of_every_sample_can_be_shown(sample: Path, tmp_path: Path) -> None:
    desk = Desk(read(sample), Shelf(tmp_path, sample.parent))
    for key in KEYS:
        desk.go(key)
        payload, points = view(desk)
        assert payload["says"] == "", "a picture could not be drawn"
        json.dumps(payload, allow_nan=False)
        if key == "whole":
            assert len(payload["whole"]["particulars"]) == len(CHAPTERS)
            continue
        if key == "questions":  # it has nothing of its own before one is asked
            assert len(payload["asks"]["buttons"]) == 5
            assert payload["pictures"]
            continue
        if key == "valve_setting" and isinstance(desk.design.motion.gear, Oscillating):
            assert not payload["pictures"]  # there is no valve to set
            assert payload["findings"]
        else:
            assert payload["pictures"], key
        assert payload["sizes"]["main"], key
        assert payload["figures"], key
        count = len(points) // 4
        for picture in payload["pictures"]:
            assert picture["title"]
            if picture["kind"] == "scene":
                assert all(map(math.isfinite, picture["extent"]))
                places = [one["p"] for one in (*picture["still"], *picture["moving"]) if "p" in one]
                assert all(0 <= first <= first + some <= count for first, some in places)
        for working in payload["workings"]:
            desk.unfold(working["label"])
        unfolded = view(desk)[0]["workings"]
        assert all(len(one["math"]) == 2 for one in unfolded), "a working could not be set"
    paper, _ = paper_payload(desk)
    assert [one["key"] for one in paper["chapters"]] == [one.key for one in CHAPTERS]
    json.dumps(paper, allow_nan=False)


def test_the_script_needs_nothing_from_elsewhere_and_never_makes_markup_of_text() -> None:
    script = sheet.script()
    for word in ("innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval("):
        assert word not in script
    addresses = {line for line in script.splitlines() if "http" in line}
    assert all("www.w3.org" in line for line in addresses)  # names of markup, not places
    assert "url(" not in sheet.style().replace("url(#", "")
    assert "@import" not in sheet.style()
