"""The tables of what is owned, beside the dials."""

from __future__ import annotations

from weighshaft.pictures.machines import pictures
from weighshaft.pictures.scene import Table
from weighshaft.trade.threads import thread
from weighshaft.workshop.machines import Bore, Machines, Need, Tools, work

NEEDS = (
    Need("Piston rod", thread("M4"), "cylinders.crosshead.rod_thread"),
    Need("Cover screws", thread("M2"), "cylinders.covers.thread", die=False),
    Need("Piston rod into piston", thread("M4"), "threads.piston_head.designation"),
)
BORES = (Bore(3.0, "coupling rods"), Bore(6.0, "connecting rods"))


def tables(tools: Tools) -> dict[str, Table]:
    machines = Machines(tools=tools)
    made = pictures(machines, work(machines, needs=NEEDS, bores=BORES))
    return {one.title: one for one in made if isinstance(one, Table)}


def test_what_is_not_told_has_no_table() -> None:
    assert not [title for title in tables(Tools()) if title.endswith("for this engine")]


def test_each_thread_stands_once_with_what_is_there() -> None:
    found = tables(Tools(taps=("M4",), dies=("M3",)))["Taps and dies for this engine"]
    assert found.rows == (
        ("M4", "Piston rod; Piston rod into piston", "you have it", "to buy or borrow"),
        ("M2", "Cover screws", "to buy or borrow", "none needed"),
    )


def test_the_nearest_reamer_stands_beside_its_bore() -> None:
    found = tables(Tools(reamers=(3.0, 5.0)))["Reamers for this engine"]
    assert found.rows == (
        (3.0, "coupling rods", "you have it", 3.0),
        (6.0, "connecting rods", "to buy or borrow", 5.0),
    )
