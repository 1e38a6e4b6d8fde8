"""The builder's own workshop in a real browser: kept, taken for every design, left and saved."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser.serving import Watched, browser_path, browsing, served
from tests.designs import ROOT
from weighshaft.design import workshop as own

pytest.importorskip("playwright", reason="the browser tests need playwright")
pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(browser_path() is None, reason="no Chromium or Chrome on this computer"),
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]
SAMPLE = ROOT / "sample_designs" / "lime_kiln_lane.workshop.json"


@pytest.fixture
def watched(tmp_path: Path) -> Iterator[Watched]:
    with served(tmp_path / "designs") as address, browsing(address) as one:
        yield one
        assert one.elsewhere == [], "the page fetched something from elsewhere"
        assert one.complaints == [], "the page complained"


def test_a_workshop_is_kept_for_every_design_and_travels_as_a_file(
    watched: Watched, tmp_path: Path
) -> None:
    watched.open()
    page = watched.page
    watched.chapter("machines")
    says = ".ws-shop-says"
    assert page.inner_text(says).startswith("Lists of this design.")
    assert not page.is_visible("text='Forget my workshop'")

    # a file that is none is said, and nothing changes
    broken = tmp_path / "broken.workshop.json"
    broken.write_text(SAMPLE.read_text(encoding="utf-8")[:-40], encoding="utf-8")
    page.set_input_files(".ws-shop input[type=file]", broken)
    page.wait_for_selector("text=not complete JSON")
    large = tmp_path / "large.workshop.json"
    large.write_text(" " * 1_200_000, encoding="utf-8")
    page.set_input_files(".ws-shop input[type=file]", large)
    page.wait_for_selector("text=a workshop has a few kB")
    assert page.inner_text(says).startswith("Lists of this design.")

    page.set_input_files(".ws-shop input[type=file]", SAMPLE)
    page.wait_for_selector("text=kept as your workshop")
    assert page.inner_text(says) == "Lists of your workshop."

    # another design takes it, and can go back to its own
    watched.chapter("whole")
    page.click(".ws-list >> nth=-1 >> button >> nth=0")
    page.wait_for_selector("text=With the lists of your workshop")
    watched.chapter("machines")
    assert page.inner_text(says) == "Lists of your workshop."
    page.click("text='Use the lists of this design'")
    page.wait_for_selector("text=those of your workshop are others")
    page.click("text='Use the lists of your workshop'")
    page.wait_for_selector("text='Lists of your workshop.'")

    # the page comes back with it, and hands it over as it was typed
    page.reload()
    watched.settle()
    page.wait_for_selector("text='Lists of your workshop.'")
    assert page.is_visible("text='Use the lists of this design'")
    with page.expect_download() as waiting:
        page.click("text='Save workshop file'")
    saved = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(saved)
    assert saved.name == "Lime Kiln Lane shed.workshop.json"
    assert own.read(saved) == own.read(SAMPLE)
    assert json.loads(saved.read_bytes())["machines"]["tools"]["reamers"][0] == "1/8 in"

    page.click("text='Forget my workshop'")
    page.wait_for_selector("text=No workshop of yours has been kept")
    page.click("text='Keep as my workshop'")
    page.wait_for_selector("text='Lists of your workshop.'")
    for width in (1280, 800, 400):
        page.set_viewport_size({"width": width, "height": 800})
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= width
        page.screenshot(path=str(tmp_path / f"shop{width}.png"))
