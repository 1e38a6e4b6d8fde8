"""The beat that the browser plays: the blast of the running condition that is looked at."""

import json

import numpy as np

from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.view import view
from weighshaft.design import Design


def test_the_page_is_given_the_blast_of_a_turn(design: Design) -> None:
    desk = Desk(design)
    desk.chapter = "steam"
    beat = view(desk)[0]["beat"]
    json.dumps(beat)
    flow = np.array(beat["flow"])
    assert np.all(flow >= 0)
    assert beat["turns"] * 60 == desk.work.steam.revolutions
    assert "beats a turn" in beat["says"]
    desk.chapter = "nozzle"
    assert "beat" not in view(desk)[0] or view(desk)[0]["beat"] is None
