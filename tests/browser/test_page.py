"""The page in a real browser: walked through, dragged, typed into, saved and reloaded."""

from __future__ import annotations

import contextlib
import json
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from tests.browser.serving import Watched, browser_path, browsing, served
from tests.designs import SAMPLES
from weighshaft.design import read, to_document, write

pytest.importorskip("playwright", reason="the browser tests need playwright")
pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(browser_path() is None, reason="no Chromium or Chrome on this computer"),
    # the library that drives the browser leaves a socket or two to the collector
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

CHAPTERS = (
    "scale", "cylinders", "motion", "beside", "reversing", "pivots", "tolerances", "axlebox",
    "clearance", "valve_setting", "wheels", "threads", "nozzle",
    "frames", "boiler", "gauging", "weights", "springing", "curving", "rods", "erection",
    "machines", "slots", "patterns", "eccentrics", "screwcutting", "fitting",
    "steam", "firing", "bench", "draught", "running",
)  # fmt: skip
HOSTILE = '<img src=x onerror="window.bitten=1"><script>window.bitten=1</script>'


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("designs")


@pytest.fixture(scope="module")
def address(shelf: Path) -> Iterator[str]:
    with served(shelf) as at:
        yield at


@pytest.fixture
def watched(address: str) -> Iterator[Watched]:
    with browsing(address) as one:
        yield one
        assert one.elsewhere == [], "the page fetched something from elsewhere"
        assert one.complaints == [], "the page complained"


def text_of(page: Any, path: str) -> str:
    return str(page.input_value(f'[data-path="{path}"] .ws-box'))


def type_into(page: Any, path: str, text: str) -> None:
    box = page.locator(f'[data-path="{path}"] .ws-box').first
    box.fill(text)
    box.press("Enter")


UNFOLD = """(one) => {
    for (let at = one.closest("details"); at; at = at.parentElement.closest("details"))
        at.open = true;
}"""


def drag(watched: Watched, slider: Any, share: float) -> None:
    """Drag a handle with the mouse, in steps, as a hand does."""
    box = slider.bounding_box()
    at = slider.evaluate("(one) => (one.value - one.min) / (one.max - one.min)")
    x, y = box["x"] + 7 + at * (box["width"] - 14), box["y"] + box["height"] / 2
    mouse = watched.page.mouse
    mouse.move(x, y)
    mouse.down()
    for step in range(1, 9):
        mouse.move(x + share * box["width"] * step / 8, y)
    mouse.up()
    watched.settle()


def test_all_chapters_can_be_walked_and_a_slider_dragged_in_each(watched: Watched) -> None:
    watched.open()
    page = watched.page
    for key in CHAPTERS:
        watched.chapter(key)
        if key == "beside":
            page.get_by_role("button", name="Begin with a copy of the engine's gear").click()
            watched.settle()
        assert page.locator(".ws-picture svg").count() >= 1, key
        assert page.locator(".ws-picture svg[role=img] desc").first.text_content(), key
        assert page.locator(".ws-keys li").count() >= 1, f"no key figures in {key}"
        slider = page.locator(".ws-main .ws-range").first
        if slider.count() == 0:
            slider = page.locator(".ws-sizes .ws-range").first
            slider.evaluate(UNFOLD)
        slider.scroll_into_view_if_needed()
        path = slider.evaluate("(one) => one.closest('[data-path]').dataset.path")
        before = text_of(page, path)
        drag(watched, slider, -0.06)
        if text_of(page, path) == before:  # a size that stands at its least goes up only
            drag(watched, slider, 0.06)
        assert text_of(page, path) != before, f"{path} did not follow the hand"
        page.keyboard.press("Control+z")
        watched.settle()
        assert text_of(page, path) == before, f"{path} did not come back by one undo"
    watched.chapter("whole")
    assert page.locator(".ws-chapter").count() == len(CHAPTERS)


def test_a_gear_that_locks_says_so_where_its_drawing_was(watched: Watched) -> None:
    watched.open()
    page = watched.page
    watched.chapter("motion")
    type_into(page, "motion.gear.eccentric_rod", "3 mm")
    watched.settle()
    assert page.locator(".ws-none").is_visible()
    assert "locks" in page.locator(".ws-margin").inner_text()
    page.keyboard.press("Control+z")
    watched.settle()
    assert page.locator(".ws-none").count() == 0


def test_a_fraction_is_taken_and_a_wrong_value_says_so(watched: Watched) -> None:
    watched.open()
    page = watched.page
    watched.chapter("cylinders")
    type_into(page, "cylinders.bore", "1 3/16 in")
    page.click("text='mm'")
    watched.settle()
    assert text_of(page, "cylinders.bore") == "30.16"
    page.click(".ws-cell-units >> text='in'")
    watched.settle()
    assert text_of(page, "cylinders.bore") == "1 3/16"
    drawn = page.inner_html(".ws-scene")
    type_into(page, "cylinders.bore", "two")
    page.wait_for_selector('[data-path="cylinders.bore"] .ws-wrong:visible')
    row = page.locator('[data-path="cylinders.bore"]')
    assert "“two” is not a length" in row.locator(".ws-wrong").inner_text()
    assert row.locator(".ws-box").get_attribute("aria-invalid") == "true"
    assert text_of(page, "cylinders.bore") == "two"
    assert _without_ids(page.inner_html(".ws-scene")) == _without_ids(drawn)
    type_into(page, "cylinders.bore", "1 1/4")
    page.wait_for_selector('[data-path="cylinders.bore"] .ws-wrong', state="hidden")


def _without_ids(markup: str) -> str:
    import re

    return re.sub(r"ws-(title|desc|hatch)-\d+", "id", markup)


def test_the_crank_turns_under_the_hand_and_only_then(watched: Watched) -> None:
    watched.open()
    page = watched.page
    watched.chapter("motion")
    angle = page.locator(".ws-theta")
    first = angle.inner_text()
    page.wait_for_timeout(300)
    assert angle.inner_text() == first, "it turned by itself"
    page.locator(".ws-crank .ws-range").focus()
    page.keyboard.press("ArrowRight")
    assert angle.inner_text() == f"{int(first[:-1]) + 1}°"
    page.click("text='Turn'")
    page.wait_for_timeout(300)
    page.click(".ws-crank >> text='Stop'")
    stopped = angle.inner_text()
    assert stopped != first
    moving = page.locator(".ws-scene").first
    before = moving.inner_html()
    box = moving.bounding_box()
    page.mouse.move(box["x"] + 0.3 * box["width"], box["y"] + 20)
    page.mouse.down()
    page.mouse.move(box["x"] + 0.1 * box["width"], box["y"] + 0.6 * box["height"], steps=5)
    page.mouse.up()
    assert angle.inner_text() != stopped
    assert moving.inner_html() != before


def test_another_gear_is_laid_out_for_this_engine(watched: Watched) -> None:
    watched.open()
    page = watched.page
    watched.chapter("motion")
    chooser = page.locator(".ws-kind select").first
    kinds = chooser.locator("option").evaluate_all("(all) => all.map((one) => one.value)")
    assert len(kinds) >= 3
    for kind in (*kinds, chooser.input_value()):
        page.locator(".ws-kind select").first.select_option(kind)
        watched.settle()
        assert page.locator(".ws-kind select").first.input_value() == kind
        assert page.locator(".ws-picture svg").count() >= 1


def test_saved_closed_and_opened_again_it_is_the_same_design(
    address: str, shelf: Path, tmp_path: Path
) -> None:
    profile = tmp_path / "profile"
    with browsing(address, profile) as first:
        first.open()
        page = first.page
        first.chapter("cylinders")
        type_into(page, "cylinders.bore", "1 7/32 in")
        first.chapter("whole")
        page.fill(".ws-files input >> nth=0", "Saved in the browser")
        page.press(".ws-files input >> nth=0", "Enter")
        first.settle()
        page.click(".ws-buttons >> text='Save'")
        page.wait_for_selector("text=Saved as “Saved in the browser”")
        saved = read(shelf / "Saved in the browser.loco.json")
        assert to_document(saved)["cylinders"]["bore"] == "1 7/32 in"
        first.chapter("cylinders")
        type_into(page, "cylinders.stroke", "1 23/32 in")
        first.settle()
    with browsing(address, profile) as again:
        again.open()
        page = again.page
        page.wait_for_selector("text=came back as this browser had kept it")
        assert page.get_attribute(".ws-body", "data-chapter") == "cylinders"
        stroke = page.locator('[data-path="cylinders.stroke"]')
        assert "1 23/32" in (stroke.inner_text() + text_of(page, "cylinders.stroke"))
        assert "1 change" in page.inner_text(".ws-cell-saved")
        again.chapter("whole")
        assert "1 23/32" in page.inner_text(".ws-changes")
        page.click("text='Start afresh'")
        page.wait_for_selector("text=A fresh start")
        page.click(".ws-list >> text='Saved in the browser'")
        page.wait_for_selector("text=Opened “Saved in the browser”")
        again.chapter("cylinders")
        bore = page.locator('[data-path="cylinders.bore"]')
        assert "1 7/32" in (bore.inner_text() + text_of(page, "cylinders.bore"))
        assert again.elsewhere == []
        assert again.complaints == []


def test_a_design_travels_by_download_and_upload(watched: Watched, tmp_path: Path) -> None:
    watched.open()
    page = watched.page
    watched.chapter("whole")
    with page.expect_download() as waiting:
        page.click(".ws-buttons >> text='Download'")
    file = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(file)
    design = read(file)
    document = to_document(design)
    document["name"] = "Brought along"
    other = tmp_path / "brought.loco.json"
    other.write_text(json.dumps(document), encoding="utf-8")
    page.set_input_files(".ws-upload", other)
    page.wait_for_selector("text=Opened Brought along from your file")
    large = tmp_path / "large.loco.json"
    large.write_text(" " * 1_200_000, encoding="utf-8")
    page.set_input_files(".ws-upload", large)
    page.wait_for_selector("text=It was not sent")
    assert page.inner_text(".ws-cell-design .ws-cell-text") == "Brought along"
    broken = tmp_path / "broken.loco.json"
    broken.write_text(json.dumps(document)[:-40], encoding="utf-8")
    page.set_input_files(".ws-upload", broken)
    page.wait_for_selector("text=not complete JSON")


def test_the_drawings_are_made_beside_the_page_and_handed_over(
    watched: Watched, tmp_path: Path
) -> None:
    watched.open("?design=wagtail")  # the fewest drawings
    page = watched.page
    watched.chapter("whole")
    with page.expect_download(timeout=180_000) as waiting:
        page.click("text='Drawings (ZIP)'")
        page.wait_for_selector(".ws-drawings progress:visible")
        watched.chapter("cylinders")  # the page goes on meanwhile
        watched.chapter("whole")
    assert waiting.value.suggested_filename.endswith(" drawings.zip")
    file = tmp_path / "drawings.zip"
    waiting.value.save_as(file)
    with zipfile.ZipFile(file) as archive:
        assert archive.testzip() is None
        names = set(archive.namelist())
    assert {"drawings.pdf", "frame-plate.dxf", "general-arrangement.svg"} <= names
    page.wait_for_selector(".ws-drawings >> text='Save again'")


def test_the_book_is_made_beside_the_page_and_opens(watched: Watched, tmp_path: Path) -> None:
    watched.open("?design=wagtail")
    page = watched.page
    watched.chapter("whole")
    page.click("text='Book (HTML)'")
    page.click(".ws-drawings >> text='Stop'")
    page.wait_for_selector("text='Stopped; no book was kept.'", timeout=60_000)
    with page.expect_download(timeout=180_000) as waiting:
        page.click("text='Book (PDF)'")
        page.wait_for_selector(".ws-drawings progress:visible")
        watched.chapter("cylinders")  # the page goes on meanwhile
        page.fill('[data-path="cylinders.pressure"] input', "2.5")
        page.keyboard.press("Enter")
        watched.settle()
        watched.chapter("whole")
    name = waiting.value.suggested_filename
    assert name.endswith(" book.pdf")
    file = tmp_path / "book.pdf"
    waiting.value.save_as(file)
    document = PdfReader(file)
    assert len(document.pages) > 100
    first = document.pages[0].extract_text()
    assert "Working pressure 2 bar" in " ".join(first.split())
    assert "2.5 bar" not in first, "it belongs to the design with which it began"
    page.wait_for_selector("text=of the design as it stood then")


def test_hostile_text_never_becomes_markup(watched: Watched, shelf: Path) -> None:
    document = to_document(read(SAMPLES[0]))
    document["name"] = HOSTILE[:110]
    document["notes"] = {"cylinders.bore": HOSTILE, "scale.ratio": "</textarea>" + HOSTILE}
    from weighshaft.design import from_document

    write(shelf / "hostile.loco.json", from_document(document))
    watched.open()
    page = watched.page
    watched.chapter("whole")
    page.click(".ws-list >> text='hostile'")
    page.wait_for_selector("text=Opened “hostile”")
    assert HOSTILE in page.inner_text(".ws-notes")
    assert HOSTILE[:60] in page.inner_text(".ws-cell-design")
    page.click("text='Printable page'")
    page.wait_for_selector(".ws-paper:not([hidden])")
    page.click("text='Back to the desk'")
    watched.chapter("cylinders")
    page.click('[data-path="cylinders.bore"] .ws-name')
    assert page.input_value('[data-path="cylinders.bore"] textarea') == HOSTILE
    page.reload()
    page.wait_for_selector("text=came back")
    assert page.evaluate("window.bitten") is None
    assert page.locator(".ws img, .ws script").count() == 0


def test_a_sample_can_be_asked_for_by_name_and_only_a_sample(watched: Watched) -> None:
    key = SAMPLES[-1].name.split(".")[0]
    watched.open(f"?design={key}")
    watched.settle()
    assert watched.page.inner_text(".ws-cell-design .ws-cell-text") == read(SAMPLES[-1]).name
    watched.open("?design=..%2F..%2Fetc%2Fpasswd%3Cb%3E")
    watched.page.wait_for_selector("text=There is no design")


def test_a_finding_lights_its_sizes_and_a_working_unfolds(watched: Watched) -> None:
    watched.open()
    page = watched.page
    watched.chapter("cylinders")
    details = page.locator(".ws-working details").first
    details.locator("summary").click()
    details.locator("math").first.wait_for()
    assert details.locator("math").count() == 2
    fines = page.locator(".ws-fines summary")
    if fines.count():
        fines.click()
    note = page.locator(".ws-finding-note").first
    note.click()
    page.wait_for_selector(".ws-row.ws-lit, .ws-part-lit", state="attached")


def test_the_keyboard_reaches_everything(watched: Watched) -> None:
    watched.open()
    page = watched.page
    watched.chapter("nozzle")
    page.locator(".ws-tab").first.focus()
    reached = set()
    for _ in range(400):
        page.keyboard.press("Tab")
        kind = page.evaluate(
            "(() => { const one = document.activeElement;"
            " const holder = one.closest('section, nav, footer');"
            " return holder ? holder.className.split(' ')[0] + ' ' + one.tagName : '' })()"
        )
        reached.add(kind)
        if kind.startswith("ws-block"):
            break
    assert {"ws-tabs BUTTON", "ws-sizes INPUT", "ws-sizes SUMMARY", "ws-sizes BUTTON"} <= reached
    assert any(kind.startswith("ws-margin") for kind in reached)
    assert any(kind.startswith("ws-block") for kind in reached)
    nameless = page.evaluate(
        "[...document.querySelectorAll('.ws input, .ws select, .ws textarea, .ws button')].filter("
        "(one) => !(one.labels?.length || one.getAttribute('aria-label') || one.textContent.trim()"
        " || document.getElementById(one.getAttribute('aria-labelledby') || '')?.textContent))"
        ".map((one) => one.outerHTML.slice(0, 120))"
    )
    assert nameless == []


@pytest.mark.parametrize(("width", "height"), [(1280, 900), (800, 1000), (400, 800)])
def test_nothing_is_cut_off_at_any_width(address: str, width: int, height: int) -> None:
    with browsing(address, viewport={"width": width, "height": height}) as watched:
        watched.open()
        page = watched.page
        for key in (*CHAPTERS, "whole"):
            watched.chapter(key)
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, f"{key} is {wide} wide"
            cut = page.evaluate(
                "[...document.querySelectorAll('.ws-body > *')].filter((one) =>"
                " one.scrollWidth > one.clientWidth + 1).map((one) => one.className)"
            )
            assert cut == [], key
            lost = page.evaluate(
                "[...document.querySelectorAll('.ws-fig svg')].flatMap((svg) => {"
                " const all = svg.getBoundingClientRect();"
                " return [...svg.querySelectorAll('text')].filter((one) => {"
                "  const box = one.getBoundingClientRect();"
                "  return box.width && (box.left < all.left - 4 || box.right > all.right + 4"
                "   || box.top < all.top - 4 || box.bottom > all.bottom + 4);"
                " }).map((one) => one.textContent) })"
            )
            assert lost == [], f"labels outside their picture in {key}"
            assert (
                page.evaluate(
                    "/NaN|Infinity|undefined/.test(document.querySelector('.ws').outerHTML)"
                )
                is False
            )
        assert watched.complaints == []


def test_a_lost_kernel_is_said(tmp_path: Path) -> None:
    with contextlib.ExitStack() as stack:
        server = contextlib.ExitStack()
        stack.callback(server.close)
        watched = stack.enter_context(browsing(server.enter_context(served(tmp_path))))
        watched.open()
        server.close()
        watched.page.click(".ws-tab[data-chapter=wheels]")
        watched.page.wait_for_selector(".ws-lost:visible", timeout=40_000)
        assert "your design is saved in this browser" in watched.page.inner_text(".ws-lost")
