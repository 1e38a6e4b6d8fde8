"""Answers as text and JSON, and the command that asks."""

from __future__ import annotations

import json

import numpy as np
import pytest

from tests.designs import ROOT
from weighshaft import cli
from weighshaft.design import read
from weighshaft.job import questions
from weighshaft.job.questions.answer import Answer
from weighshaft.job.questions.told import answer_json, answer_text
from weighshaft.pictures.scene import Chart, Curve, Table

HARTFELL = ROOT / "sample_designs" / "hartfell.loco.json"


def an_answer() -> Answer:
    line = Curve(np.array([1.0, 2.0]), np.array([3.0, 4.0]), "drawn")
    return Answer(
        question=questions.QUESTIONS[2], says="A nozzle of 25.4 mm would do.",
        uncertain="It may be 12.7 mm as well.",
        pictures=(
            Chart("Draws", "", "nozzle, mm", "draught", (line,)),
            Table("Tried", ("Nozzle", "Pull"), ((25.4, "5.0"),), note="All of them."),
        ),
        figures={"nozzle": 25.4}, change=(("nozzle.diameter", 25.4),), offer="Take it",
    )  # fmt: skip


def test_an_answer_as_text_is_in_the_unit_asked_for() -> None:
    text = answer_text(an_answer(), read(HARTFELL), "in")
    assert "A nozzle of 1.00 in" in text
    assert "How sure: It may be 0.50 in" in text
    assert "Tried (lengths in in)" in text
    assert "Nozzle diameter: 1.0000 in" in text
    assert "25.4" not in text
    assert "Nozzle diameter: 25.400 mm" in answer_text(an_answer(), read(HARTFELL))


def test_an_answer_as_json_keeps_mm_and_stable_keys() -> None:
    made = json.loads(json.dumps(answer_json(an_answer()), allow_nan=False))
    assert made["question"] == "nozzle"
    assert made["change"] == {"nozzle.diameter": 25.4}
    assert made["tables"][0]["rows"] == [[25.4, "5.0"]]
    assert made["charts"][0]["curves"][0]["y"] == [3.0, 4.0]


def test_the_command_lists_the_questions_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    assert list(cli.QUESTIONS) == [one.key for one in questions.QUESTIONS]
    with pytest.raises(SystemExit):
        cli.main(["ask", "--help"])
    shown = capsys.readouterr().out
    assert all(key in shown for key in cli.QUESTIONS)
    assert cli.main(["ask", str(HARTFELL), "weather"]) == cli.REFUSED
    assert "there are: ports, run, nozzle, bore, first" in capsys.readouterr().err


def test_the_command_refuses_what_has_no_answer(capsys: pytest.CaptureFixture[str]) -> None:
    wagtail = str(ROOT / "sample_designs" / "wagtail.loco.json")
    assert cli.main(["ask", wagtail, "ports", "--no-workshop"]) == cli.REFUSED
    assert "round holes" in capsys.readouterr().err
