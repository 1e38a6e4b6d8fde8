"""The chapter worked: what dials and handles move, and which tools are there."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding, Suggestion, by_level, unlocked
from ...sizes import figure
from ...working import Working
from .decisions import FLAT, PLATE, TUBE, Machines
from .owned import Bore, Need, judged, near_reamer, of_pieces, owned

CAUTIONS = (
    "Key out of the chuck before the switch, guards shut, eyes covered; sleeves, hair and rags "
    "away from what turns.",
    "Isolate a machine before change wheels, belts or a chuck are touched.",
    "Try every dial against a gauge once: a figure here is no better than the screw behind it.",
)


@dataclass(frozen=True, kw_only=True)
class MachinesResult:
    """What one division of every dial moves, and what the engine asks of the tools."""

    cross_division: float = figure("Cross-slide, one division", main=True)
    top_division: float = figure("Top slide, one division", main=True)
    mill_division: float = figure("Mill, one division", main=True)
    handle_turn: float = figure("Dividing head, one turn of the handle", "deg", main=True)
    table_division: float = figure("Rotary table, one division", "deg", main=True)
    wheels: int = figure("Change wheels owned", "count")
    to_get: str = figure("Taps, dies and reamers to buy or borrow", "text")
    needs: tuple[Need, ...] = ()
    bores: tuple[Bore, ...] = ()
    cautions: tuple[str, ...] = ()
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()


def work(
    machines: Machines,
    *,
    needs: tuple[Need, ...] = (),
    bores: tuple[Bore, ...] = (),
    fixed: frozenset[str] = frozenset(),
) -> MachinesResult:
    """Return what one division of every dial moves, and which tools have to be got.

    Parameters
    ----------
    needs : the threads of the engine.
    bores : those of the engine that are reamed.
    fixed : paths of decisions that a bought part has settled.
    """
    lathe, mill, dividing = machines.lathe, machines.mill, machines.dividing
    tools = machines.tools
    pieces = (
        (
            f"machines.rack.pieces.{n}", one.told,
            one.second is not None or one.shape not in (TUBE, FLAT, PLATE),
        )
        for n, one in enumerate(machines.rack.pieces)
    )  # fmt: skip
    found = [*judged(needs, tools.taps, tools.dies), *of_pieces(pieces)]
    return MachinesResult(
        cross_division=lathe.cross_slide / lathe.cross_divisions,
        top_division=lathe.topslide / lathe.topslide_divisions,
        mill_division=mill.table / mill.divisions,
        handle_turn=360 / dividing.head_ratio,
        table_division=360 / dividing.table_ratio / dividing.table_divisions,
        wheels=len(lathe.change_wheels),
        to_get=_to_get(machines, needs, bores),
        needs=needs, bores=bores, cautions=CAUTIONS,
        findings=by_level(unlocked(found, fixed)),
    )  # fmt: skip


def _to_get(machines: Machines, needs: tuple[Need, ...], bores: tuple[Bore, ...]) -> str:
    """Return the tools that are not there, in words; "not told" where no list has been."""
    tools = machines.tools
    if not (tools.taps or tools.dies or tools.reamers):
        return "not told"
    got = [f"tap {n.one.designation}" for n in needs if owned(n.one, tools.taps).there is False]
    got += [
        f"die {n.one.designation}"
        for n in needs if n.die and owned(n.one, tools.dies).there is False
    ]  # fmt: skip
    got += [
        f"reamer {bore.diameter:.4g} mm"
        for bore in bores if near_reamer(bore.diameter, tools.reamers)[0] is False
    ]  # fmt: skip
    return ", ".join(dict.fromkeys(got)) or "none"
