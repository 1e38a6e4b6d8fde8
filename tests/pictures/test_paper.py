"""Pictures on paper: every primitive drawn, at the scale it says, words off one another."""

import io
import math
from itertools import combinations
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.text import Text

from weighshaft.pictures.paper import figure
from weighshaft.pictures.paper.lettering import Box, Places, size_of, text_box, width_of, wrapped
from weighshaft.pictures.paper.pens import FILLS, PENS, TEXT
from weighshaft.pictures.paper.scene import spell_scale
from weighshaft.pictures.scene import (
    Arc,
    Band,
    Chart,
    Circle,
    Curve,
    Dimension,
    Label,
    Moving,
    Path,
    Scene,
    Table,
    box,
)

ANGLES = np.arange(0.0, 360.0, 5.0)


def everything() -> Scene:
    pins = 20 * np.column_stack([np.cos(np.radians(ANGLES)), -np.sin(np.radians(ANGLES))])
    rods = np.stack([pins, np.column_stack([np.full(len(ANGLES), 80.0), np.zeros(len(ANGLES))])], 1)
    still = [
        Path(box(0, 0, 100, 10), closed=True, fill="section", part="frame"),
        Circle((0, 0), 25, pen="centre"),
        Arc((0, 0), 30, 350, 370, pen="trace"),
        Label("weighshaft", (10, 30), leader=(0, 25)),
        Label("crank $ pin", (12, 30)),
        Dimension((0, 0), (100, 0), "", offset=-20),
        Dimension((0, 0), (2, 0), "2", offset=-30),
        Dimension((100, 0), (100, 10), "10", offset=-5),
    ]
    still += [Path(box(0, 40 + 4 * i, 20, 42 + 4 * i), pen=p) for i, p in enumerate(PENS)]
    still += [Circle((50 + 6 * i, 50), 2.5, fill=f) for i, f in enumerate(FILLS)]
    moving = (
        Moving(rods),
        Moving(rods, shape="outline", fill="metal"),
        Moving(pins[:, None, :], shape="circle", radius=3.0, pen="crank"),
    )
    return Scene("Everything", "One of each.", tuple(still), moving, ANGLES)


def painted(made: Figure) -> np.ndarray:
    canvas = FigureCanvasAgg(made)
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())


def paper_points(made: Figure, patch: PathPatch) -> np.ndarray:
    """Points of a patch in mm on paper, by matplotlib's own transformation."""
    inches = patch.get_transform().transform(patch.get_path().vertices) / made.dpi
    return inches * 25.4


@pytest.mark.parametrize("scale", [0.25, 0.5, 1.0, 2.0, 1 / 3])
def test_100_mm_of_model_is_100_mm_times_scale_on_paper(scale: float) -> None:
    scene = Scene("Bar", "A bar.", (Path(box(-50, 3, 50, 23), closed=True),))
    made = figure(scene, width_mm=120, scale=scale)
    (patch,) = (p for p in made.axes[0].patches if isinstance(p, PathPatch))
    points = paper_points(made, patch)
    assert np.ptp(points[:, 0]) == pytest.approx(100 * scale, abs=1e-6)
    assert np.ptp(points[:, 1]) == pytest.approx(20 * scale, abs=1e-6)
    wide, tall = made.get_size_inches() * 25.4
    assert wide >= 120 - 1e-9
    assert points.min() >= 0
    assert points[:, 0].max() <= wide
    assert points[:, 1].max() <= tall


def test_100_mm_in_the_pixels_of_the_print() -> None:
    # a black bar printed at 254 dots per inch: ten dots a millimetre
    scene = Scene("", "A bar.", (Path(box(0, 0, 100, 20), pen="stop", closed=True),))
    made = figure(scene, width_mm=150, scale=1.0)
    made.set_dpi(254)
    image = painted(made).astype(int)
    red = (image[..., 0] - image[..., 1]) > 60
    columns = np.flatnonzero(red.any(axis=0))
    line = PENS["stop"].width * 10
    assert columns[-1] - columns[0] + 1 == pytest.approx(1000 + line, abs=2)


def test_the_scale_is_said() -> None:
    scene = Scene("Bar", "A bar.", (Path(box(0, 0, 100, 20)),))
    for scale, says in ((0.5, "1 : 2"), (1.0, "full size, 1 : 1"), (2.5, "2.5 : 1")):
        words = [text.get_text() for text in figure(scene, scale=scale).axes[0].texts]
        assert f"Drawn {says}" in words
    assert spell_scale(1 / 32) == "1 : 32"


@pytest.mark.parametrize(("length", "said"), [(100, "1.5 : 1"), (900, "1 : 6"), (4, "40 : 1")])
def test_without_a_scale_the_largest_usual_one_that_fits(length: float, said: str) -> None:
    scene = Scene("Bar", "A bar.", (Path(box(0, 0, length, length / 100)),))
    made = figure(scene, width_mm=180)
    assert f"Drawn {said}" in [text.get_text() for text in made.axes[0].texts]
    assert made.get_size_inches()[0] * 25.4 == pytest.approx(180)


def test_every_primitive_is_painted() -> None:
    scene = everything()
    made = figure(scene, width_mm=180, frame=10)
    patches = [p for p in made.axes[0].patches if isinstance(p, PathPatch)]
    drawn = [one for one in scene.still if isinstance(one, (Path, Circle, Arc))]
    assert len(patches) == len(drawn) + len(scene.moving)
    for patch in patches:
        assert np.isfinite(patch.get_path().vertices).all()
    assert "100" in [t.get_text() for t in made.axes[0].texts]  # an unworded dimension is measured
    image = painted(made)
    assert len(np.unique(image.reshape(-1, 4), axis=0)) > 30
    file = io.BytesIO()
    made.savefig(file, format="svg")
    ElementTree.fromstring(file.getvalue())


def test_a_moving_part_follows_its_frame() -> None:
    scene = everything()
    centres = []
    for frame in (0, 18):
        made = figure(scene, scale=1.0, frame=frame)
        patch = [p for p in made.axes[0].patches if isinstance(p, PathPatch)][-1]
        centres.append(patch.get_path().vertices[:-1].mean(axis=0))
    # a quarter turn clockwise takes a pin of 20 mm throw from (20, 0) to (0, -20)
    assert centres[1] - centres[0] == pytest.approx([-20, -20], abs=0.06)


def test_line_weights_and_types_follow_iso_128() -> None:
    assert PENS["outline"].width == 2 * PENS["thin"].width == 2 * PENS["centre"].width
    scene = Scene("Lines", "Lines.", tuple(Path(box(0, 0, 9, 9), pen=pen) for pen in PENS))
    made = figure(scene, scale=1.0)
    patches = [p for p in made.axes[0].patches if isinstance(p, PathPatch)]
    for patch, pen in zip(patches, PENS, strict=True):
        assert patch.get_linewidth() * 25.4 / 72 == pytest.approx(PENS[pen].width)
        assert (patch.get_linestyle() == "-") == (pen not in ("hidden", "centre"))
    assert set(TEXT) == set(PENS)


def test_words_do_not_cover_one_another() -> None:
    heap = tuple(Label(f"part number {i}", (0.2 * i, 0.1 * i), leader=(0, 0)) for i in range(12))
    made = figure(Scene("Heap", "Labels in a heap.", (Circle((0, 0), 5), *heap)), scale=1.0)
    canvas = FigureCanvasAgg(made)
    canvas.draw()
    words = [t for t in made.axes[0].texts if t.get_text().startswith("part")]
    assert len(words) == 12
    boxes = [t.get_window_extent(canvas.get_renderer()) for t in words]
    for one, other in combinations(boxes, 2):
        assert not one.overlaps(other)
    wide, tall = canvas.get_width_height()
    for one in boxes:
        assert one.x0 >= 0 <= one.y0
        assert one.x1 <= wide
        assert one.y1 <= tall


def test_words_keep_off_lines_where_there_is_room() -> None:
    line = np.column_stack([np.linspace(-50, 50, 201), np.zeros(201)])
    places = Places(line)
    wanted = text_box((0, 0), "on the line", "middle")
    assert wanted.holds(line) > 0
    shift = places.place(wanted)
    assert wanted.moved(*shift).holds(line) == 0


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(-30, 30), st.floats(-30, 30)), min_size=1, max_size=10))
def test_placed_boxes_never_overlap(points: list[tuple[float, float]]) -> None:
    places = Places(np.zeros((0, 2)))
    for point in points:
        places.place(text_box(point, "label", "middle"))
    for one, other in combinations(places.taken, 2):
        assert not one.overlaps(other)


@given(st.floats(-180, 180))
def test_turned_text_keeps_its_middle(angle: float) -> None:
    found = text_box((3.0, 4.0), "a text", "middle", turned=angle)
    assert ((found.x0 + found.x1) / 2, (found.y0 + found.y1) / 2) == pytest.approx((3, 4))
    wide, tall = size_of("a text")
    a = math.radians(angle)
    assert found.x1 - found.x0 == pytest.approx(wide * abs(math.cos(a)) + tall * abs(math.sin(a)))


def test_measured_width_is_the_painted_width() -> None:
    made = Figure()
    canvas = FigureCanvasAgg(made)
    word = made.text(0.1, 0.5, "smokebox 12.5", fontsize=8.0)
    painted_width = word.get_window_extent(canvas.get_renderer()).width / made.dpi * 25.4
    assert width_of("smokebox 12.5", 8.0) == pytest.approx(painted_width, rel=0.06)


def test_wrapping() -> None:
    text = wrapped("a chimney that is drawn in section with its petticoat", 30)
    assert "\n" in text
    assert all(width_of(line) <= 30 for line in text.split("\n"))
    assert text.replace("\n", " ") == "a chimney that is drawn in section with its petticoat"


def test_hatching_stays_inside_its_part() -> None:
    scene = Scene("", "Hatched.", (Circle((0, 0), 30, fill="section"),))
    image = painted(figure(scene, scale=1.0, width_mm=100)).astype(int)
    dark = image[..., :3].sum(axis=2) < 300
    rows, columns = np.nonzero(dark)
    wide = np.ptp(columns) / 100 * 25.4
    assert wide == pytest.approx(60.5, abs=0.6)
    assert len(rows) > 1500


def chart() -> Chart:
    x = np.linspace(0, 360, 73)
    return Chart(
        "Ports", "Two curves.", "crank angle, deg", "opening, mm",
        (
            Curve(x, np.sin(np.radians(x)), "front"),
            Curve(x, np.where(x > 180, np.nan, np.cos(np.radians(x))), "back", pen="trace"),
        ),
        bands=(Band(-0.2, 0.2, "lap"), Band(80, 100, "dead", axis="x")),
        follows=(0,),
    )  # fmt: skip


def test_chart() -> None:
    made = figure(chart(), width_mm=150, frame=18)
    painted(made)
    axes = made.axes[0]
    words = [t.get_text() for t in axes.texts]
    assert sorted(words) == ["back", "dead", "front", "lap"]
    (marker,) = (
        line for line in axes.lines if isinstance(line, Line2D) and len(line.get_xydata()) == 1
    )
    assert marker.get_xydata()[0] == pytest.approx([90, 1])  # 18 of 72 spaces is a quarter turn
    assert made.get_size_inches()[0] * 25.4 == pytest.approx(150)


def test_equal_chart_has_equal_scales() -> None:
    angle = np.linspace(0, 2 * np.pi, 90)
    polar = Chart(
        "Circle", "A circle.", "x", "y", (Curve(3 * np.cos(angle), np.sin(angle)),), equal=True
    )
    made = figure(polar)
    painted(made)
    across = made.axes[0].transData.transform([(0, 0), (1, 0), (0, 1)])
    assert across[1, 0] - across[0, 0] == pytest.approx(across[2, 1] - across[0, 1])


@pytest.mark.parametrize(
    "curves",
    [(), (Curve(np.array([]), np.array([]), "none"),), (Curve(np.ones(3), np.ones(3), "flat"),)],
)
def test_poor_charts_are_still_drawn(curves: tuple[Curve, ...]) -> None:
    painted(figure(Chart("Poor", "Little.", "x", "y", curves)))


def table() -> Table:
    return Table(
        "Sizes <b>at</b> scale",
        ("size", "mm", "remark"),
        (("wheel", 50.8, "a long remark " * 12), ("bore $x$", 12.7, "short")),
        note="Common practice.",
    )


@pytest.mark.parametrize(("unit", "said"), [("mm", {"50.8", "12.7"}), ("in", {"2", "1/2"})])
def test_table_shows_lengths_in_the_unit_asked_for(unit: str, said: set[str]) -> None:
    made = figure(table(), unit=unit)  # type: ignore[arg-type]
    image = painted(made)
    words = {t.get_text() for t in made.findobj(Text)}
    assert said <= words
    assert {"bore $x$", "Sizes <b>at</b> scale"} <= words
    assert image.shape[1] == pytest.approx(180 / 25.4 * 100, abs=1)


def test_table_stays_on_its_paper() -> None:
    made = figure(table(), width_mm=90)
    canvas = FigureCanvasAgg(made)
    canvas.draw()
    for text in made.axes[0].texts:
        found = text.get_window_extent(canvas.get_renderer())
        assert found.x0 >= 0
        assert found.x1 <= canvas.get_width_height()[0]
        assert found.y0 >= 0


def test_bad_pictures_are_refused_in_words() -> None:
    holed = Scene("Holed", "", (Path(np.array([[0.0, 0.0], [np.nan, 1.0]])),))
    with pytest.raises(ValueError, match="Holed: a point of the drawing is not a number"):
        figure(holed)
    with pytest.raises(ValueError, match="is not a number"):
        figure(Scene("Label", "", (Label("x", (math.inf, 0)),)))
    with pytest.raises(ValueError, match="40 to 5000"):
        figure(everything(), width_mm=math.nan)
    with pytest.raises(ValueError, match="out of range"):
        figure(everything(), scale=0.0)
    with pytest.raises(ValueError, match="1 cells for 3 columns"):
        figure(Table("T", ("a", "b", "c"), (("x",),)))
    with pytest.raises(TypeError):
        figure("a text")  # type: ignore[arg-type]


def test_an_empty_scene_is_a_sheet_of_paper() -> None:
    painted(figure(Scene("Nothing", "Nothing is known yet.", ())))
    assert Box(0, 0, 1, 1).overlaps(Box(0.5, 0.5, 2, 2))
