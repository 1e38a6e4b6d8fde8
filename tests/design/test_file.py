"""Design files: round trip, damage, hostile content, crashes, versions."""

from __future__ import annotations

import dataclasses
import json
import os
import stat
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.designs import SAMPLES, a_design
from weighshaft.design import (
    Design,
    DesignRefused,
    from_bytes,
    read,
    to_bytes,
    to_document,
    versions,
    write,
)
from weighshaft.design import file as design_file

DESIGN = a_design()
DATA = to_bytes(DESIGN)


def document() -> dict[str, Any]:
    made = json.loads(DATA)
    assert isinstance(made, dict)
    return made


def refused(data: bytes) -> str:
    """Return the sentence with which a file is refused; it must be fit to be read."""
    with pytest.raises(DesignRefused) as caught:
        from_bytes(data)
    return in_words(str(caught.value))


def in_words(says: str) -> str:
    assert 10 < len(says) < 600, says[:700]
    assert "Traceback" not in says
    assert "pydantic" not in says
    assert "Error" not in says
    return says


def as_bytes(made: Any) -> bytes:
    return json.dumps(made).encode()


# --- round trip ---------------------------------------------------------------------------


def test_a_design_comes_back_as_it_was(tmp_path: Path, design: Design) -> None:
    path = tmp_path / "hartfell.loco.json"
    write(path, design)
    assert read(path) == design
    assert path.read_bytes() == to_bytes(read(path))


def test_spellings_are_kept(tmp_path: Path, design: Design) -> None:
    changed = design.changed({"cylinders.bore": "1 1/8 in", "scale.ratio": "3/4 in/ft"})
    path = tmp_path / "a.loco.json"
    write(path, changed)
    saved = json.loads(path.read_text("utf-8"))
    assert saved["cylinders"]["bore"] == "1 1/8 in"
    assert saved["scale"]["ratio"] == "3/4 in/ft"
    again = read(path)
    assert again.cylinders.bore == pytest.approx(28.575)
    assert again.cylinders.bore.typed == "1 1/8 in"  # type: ignore[attr-defined]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_every_sample_is_saved_as_it_was_written(path: Path) -> None:
    """What a file leaves to the defaults is written out; what it says stays as it says it."""
    saved = json.loads(to_bytes(read(path)))
    assert said(json.loads(path.read_text("utf-8")), saved) == []


def said(wanted: Any, got: Any, place: str = "") -> list[str]:
    """Return the places in which `got` does not say what `wanted` says."""
    if isinstance(wanted, dict) and isinstance(got, dict):
        inner = [said(one, got.get(key), f"{place}.{key}") for key, one in wanted.items()]
        return [fault for faults in inner for fault in faults]
    return [] if wanted == got else [f"{place}: {wanted!r} became {got!r}"]


def test_the_file_says_first_what_it_is() -> None:
    assert list(document())[:3] == ["format", "version", "name"]


def test_a_byte_order_mark_does_no_harm() -> None:
    assert from_bytes(b"\xef\xbb\xbf" + DATA) == DESIGN


@given(name=st.text(min_size=1, max_size=120), note=st.text(max_size=2000))
def test_any_text_in_name_and_note_comes_back_or_is_refused(name: str, note: str) -> None:
    named = dataclasses.replace(DESIGN, name=name, notes={"cylinders.bore": note})
    try:
        data = to_bytes(named)
    except DesignRefused as says:
        in_words(str(says))
        return
    again = from_bytes(data)
    assert again.name == name
    assert dict(again.notes) == {"cylinders.bore": note}


HOSTILE = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "\x1b[31mred\x1b[0m",
    "../../etc/passwd",
    "$\\href{javascript:alert(1)}{x}$",
    "{{ 7*7 }}",
    "\u202egnirts",
    "a\x00b",
    "'; DROP TABLE engines; --",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_stays_text(text: str) -> None:
    named = dataclasses.replace(DESIGN, name=text, notes={"cylinders.bore": text})
    again = from_bytes(to_bytes(named))
    assert again.name == text
    assert again.notes["cylinders.bore"] == text


# --- damage -------------------------------------------------------------------------------


@given(st.integers(0, len(DATA) - 3))
def test_every_truncated_file_is_refused_in_words(length: int) -> None:
    refused(DATA[:length])


@given(st.integers(0, len(DATA) * 8 - 1))
def test_every_bit_flipped_file_loads_or_is_refused_in_words(bit: int) -> None:
    flipped = bytearray(DATA)
    flipped[bit // 8] ^= 1 << bit % 8
    loads_or_is_refused(bytes(flipped))


@given(st.binary(max_size=200))
def test_any_bytes_load_or_are_refused_in_words(data: bytes) -> None:
    loads_or_is_refused(data)


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
        lambda inner: (
            st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4)
        ),
        max_leaves=12,
    ),
    st.sampled_from(
        ["scale", "cylinders", "motion", "wheels", "threads", "nozzle", "notes", "fixed", "name"]
    ),
)
def test_anything_in_place_of_a_chapter_loads_or_is_refused_in_words(
    made: Any, chapter: str
) -> None:
    loads_or_is_refused(as_bytes({**document(), chapter: made}))


def loads_or_is_refused(data: bytes) -> None:
    try:
        made = from_bytes(data)
    except DesignRefused as says:
        in_words(str(says))
    else:
        assert from_bytes(to_bytes(made)) == made


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"", "line 1"),
        (b"[]", "not a design"),
        (b"null", "not a design"),
        (b"{}", "format"),
        (b'{"format": "something-else", "version": 1}', "format"),
        (b"\xff\xfe{\x00}\x00", "UTF-8"),
        (b"[" * 100_000 + b"]" * 100_000, "deeply"),
        (b'{"a":' * 50_000 + b"1" + b"}" * 50_000, "deeply"),
        (b'{"format": "weighshaft-design", "format": "weighshaft-design"}', "twice"),
        (b'{"format": NaN}', "NaN"),
        (b'{"format": -Infinity}', "Infinity"),
        (b'{"format": 1e999}', "too large"),
        (b'{"format": ' + b"9" * 5000 + b"}", "too large"),
        (b'{"format": "\\ud800"}', "Unicode"),
        (b" " * 1_000_001, "kB"),
    ],
)
def test_what_is_no_design_is_refused_in_words(data: bytes, word: str) -> None:
    assert word in refused(data)


def test_an_unknown_key_is_refused_with_its_place() -> None:
    made = document()
    made["cylinders"]["colour"] = "green"
    assert "cylinders.colour" in refused(as_bytes(made))


def test_an_unknown_key_of_any_length_is_refused_in_a_sentence() -> None:
    made = document()
    made["cylinders"]["x" * 100_000] = 1
    refused(as_bytes(made))


def test_a_missing_size_is_refused_with_its_place() -> None:
    made = document()
    del made["cylinders"]["bore"]
    assert "cylinders.bore" in refused(as_bytes(made))


@pytest.mark.parametrize("value", ["abc", "5/16 furlongs", True, None, [], {}, -5, 1e9, "9" * 70])
def test_a_bad_size_is_refused_with_its_place(value: Any) -> None:
    made = document()
    made["cylinders"]["bore"] = value
    assert "cylinders.bore" in refused(as_bytes(made))


def test_a_size_out_of_range_is_told_what_would_do() -> None:
    made = document()
    made["cylinders"]["bore"] = 5000
    says = refused(as_bytes(made))
    assert "5000" in says
    assert "would do" in says


@pytest.mark.parametrize(
    ("place", "value", "word"),
    [
        ("cylinders.number", "two", "whole number"),
        ("cylinders.number", 2.5, "whole number"),
        ("cylinders.pressure", "high", "number"),
        ("cylinders", 3, "braces"),
        ("motion.valve.admission", "both", "'outside' or 'inside'"),
        ("name", 3, "text"),
        ("name", "n" * 121, "120 characters"),
        ("notes", {"cylinders.bore": "n" * 2001}, "2000 characters"),
        ("notes", [], "braces"),
        ("fixed", "cylinders.bore", "list"),
        ("fixed", ["cylinders.bore"] * 501, "500"),
    ],
)
def test_a_wrong_sort_of_value_is_told_what_is_needed(place: str, value: Any, word: str) -> None:
    made = document()
    *steps, last = place.split(".")
    group = made
    for step in steps:
        group = group[step]
    group[last] = value
    says = refused(as_bytes(made))
    assert says.startswith(place)
    assert word in says
    assert "Input should" not in says


def test_a_note_on_nothing_is_refused() -> None:
    assert "colour" in refused(as_bytes({**document(), "notes": {"cylinders.colour": "why"}}))
    assert "colour" in refused(as_bytes({**document(), "fixed": ["cylinders.colour"]}))


# --- versions of the format ---------------------------------------------------------------


def test_a_newer_version_is_refused_with_a_clear_word() -> None:
    assert "newer" in refused(as_bytes({**document(), "version": 2}))


@pytest.mark.parametrize("version", [None, 0, -1, 1.0, "1", True, [], 1.5])
def test_a_bad_version_is_refused(version: Any) -> None:
    assert "version" in refused(as_bytes({**document(), "version": version}))


def test_a_missing_version_is_refused() -> None:
    made = document()
    del made["version"]
    assert "version" in refused(as_bytes(made))


# --- writing ------------------------------------------------------------------------------


def test_nothing_is_written_that_could_not_be_opened_again(tmp_path: Path) -> None:
    path = tmp_path / "a.loco.json"
    for name in ("", "n" * 121, "\ud800"):
        with pytest.raises(DesignRefused):
            write(path, dataclasses.replace(DESIGN, name=name))
    assert list(tmp_path.iterdir()) == []


class Crash(Exception):
    """The power fails."""


@pytest.mark.parametrize("where", ["fsync", "replace"])
def test_a_crash_while_writing_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, where: str
) -> None:
    path = tmp_path / "a.loco.json"
    write(path, DESIGN)
    before = path.read_bytes()

    def crash(*_: Any) -> None:
        raise Crash

    monkeypatch.setattr(os, where, crash)
    with pytest.raises(Crash):
        write(path, dataclasses.replace(DESIGN, name="New"))
    monkeypatch.undo()
    assert path.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir() if one.is_file()] == [path.name]
    write(path, dataclasses.replace(DESIGN, name="New"))
    assert read(path).name == "New"


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.loco.json"
    write(path, DESIGN)

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(DesignRefused, match="no space left") as says:
        write(path, dataclasses.replace(DESIGN, name="New"))
    in_words(str(says.value))
    assert read(path) == DESIGN


def test_the_last_ten_versions_are_kept(tmp_path: Path) -> None:
    path = tmp_path / "a.loco.json"
    for number in range(14):
        write(path, dataclasses.replace(DESIGN, name=f"Version {number}"))
    assert read(path).name == "Version 13"
    kept = versions(path)
    assert [read(one).name for one in kept] == [f"Version {n}" for n in range(12, 2, -1)]


def test_saving_the_same_again_makes_no_version(tmp_path: Path) -> None:
    path = tmp_path / "a.loco.json"
    for _ in range(3):
        write(path, DESIGN)
    assert versions(path) == ()


def test_versions_of_one_design_are_not_those_of_another(tmp_path: Path) -> None:
    for name in ("a.loco.json", "a.b.loco.json", "a[1].loco.json"):
        write(tmp_path / name, DESIGN)
        write(tmp_path / name, dataclasses.replace(DESIGN, name=name))
    for name in ("a.loco.json", "a.b.loco.json", "a[1].loco.json"):
        (kept,) = versions(tmp_path / name)
        assert read(kept).name == DESIGN.name
    assert versions(tmp_path / "never.loco.json") == ()


@pytest.mark.skipif(os.name != "posix", reason="links and modes as POSIX has them")
def test_links_and_permissions_outlast_saving(tmp_path: Path) -> None:
    real, link = tmp_path / "real.loco.json", tmp_path / "link.loco.json"
    write(real, DESIGN)
    real.chmod(0o640)
    link.symlink_to(real)
    write(link, dataclasses.replace(DESIGN, name="Through the link"))
    assert link.is_symlink()
    assert read(real).name == "Through the link"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


# --- files that cannot be had -------------------------------------------------------------


def test_files_that_cannot_be_opened_are_named(tmp_path: Path) -> None:
    for path in (tmp_path / "none.loco.json", tmp_path, tmp_path / "a\0b", tmp_path / ("n" * 300)):
        with pytest.raises(DesignRefused) as says:
            read(path)
        assert path.name[:20] in in_words(str(says.value))


@pytest.mark.skipif(sys.platform == "win32", reason="no such device")
def test_a_device_is_no_file() -> None:
    with pytest.raises(DesignRefused, match="not a file"):
        read("/dev/zero")


def test_files_that_cannot_be_written_are_named(tmp_path: Path) -> None:
    for path in (tmp_path / "nowhere" / "a.loco.json", tmp_path):
        with pytest.raises(DesignRefused, match="cannot be saved") as says:
            write(path, DESIGN)
        in_words(str(says.value))


def test_a_damaged_file_is_named(tmp_path: Path) -> None:
    path = tmp_path / "broken.loco.json"
    path.write_bytes(DATA[:100])
    with pytest.raises(DesignRefused, match="broken"):
        read(path)


def test_the_limits_are_the_documented_ones() -> None:
    assert (design_file.LARGEST, design_file.KEPT) == (1_000_000, 10)
    assert to_document(DESIGN)["version"] == 1
