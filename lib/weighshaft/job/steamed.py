"""The chapters of steam, fire and running: they rest on the whole engine and on one another."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from .. import bench, draught, firing, running, steam
from ..cylinders.steaming import space_of
from ..design.document import Design
from ..findings import Finding
from .hauling import running_given
from .mapped import engine_map
from .measured import bench_given
from .worked import worked

STEAMED = ("firing", "steam", "bench", "draught", "running")


def steamed(
    name: str, design: Design, faults: list[Finding], results: dict[str, Any],
    mapped: steam.CycleMap | None = None,
) -> Any:  # fmt: skip
    """Work a chapter of steam or fire; None where what it rests on cannot be worked.

    Parameters
    ----------
    mapped : the true cycle marched over the whole map, for the run, as long as it is this engine's.
    """
    chapter, more = _CHAPTERS[name]
    given = more(design, results)
    if given is None:
        return None  # the findings of the chapters before say why
    if name == "running" and mapped and mapped.belongs_to(
        design.steam, engine_of(design, results)
    ):  # fmt: skip
        # marched from the boiler on: its pressures are in front of the regulator
        given |= {"engine": engine_map(mapped), "chest_share": 1.0}
    return worked(
        faults, chapter, getattr(design, name), fixed=frozenset(design.fixed), **given
    )  # fmt: skip


def _firing(design: Design, results: dict[str, Any]) -> dict[str, Any] | None:
    seat, blast = results.get("boiler"), results.get("nozzle")
    if seat is None:
        return None
    sizes = design.cylinders
    return {
        "boiler": design.boiler, "seat": firing.Seat(seat.whole, seat.lying, seat.water),
        "fuel": design.nozzle.firing,
        "pressure": sizes.pressure, "grate": design.nozzle.grate_area,
        "tube_area": design.nozzle.smokebox.tube_area,
        "demand": getattr(blast, "steam_flow", None),
        "turns": getattr(blast, "revolutions", None) or 0.0,
        "bore": sizes.bore, "stroke": sizes.stroke, "number": sizes.number,
        "ratio": design.scale.ratio,
    }  # fmt: skip


def _steam(design: Design, results: dict[str, Any]) -> dict[str, Any] | None:
    hauled, moved = results.get("cylinders"), results.get("motion")
    if hauled is None or moved is None:
        return None
    return {
        "engine": engine_of(design, results), "running_notch": design.motion.running_notch,
        "speed": getattr(results.get("scale"), "running_speed", None),
    }  # fmt: skip


def engine_of(design: Design, results: dict[str, Any]) -> steam.Engine:
    """Return the engine as far as the steam is concerned; cylinders must have been worked."""
    sizes, chosen = design.cylinders, design.motion
    piped = getattr(results.get("firing"), "piped", None)
    chest = results["cylinders"].chest
    return steam.Engine(
        moved=steam.Moved(sizes.crank, chosen.gear, chosen.valve, chosen.setting),
        space=space_of(sizes, results["cylinders"].axis), bore=sizes.bore, stroke=sizes.stroke,
        wheel=design.wheels.driving_diameter, number=sizes.number,
        crank_angle=sizes.crank_angle, holes=sizes.passages.holes, pressure=sizes.pressure,
        efficiency=sizes.haulage.efficiency / 100, nozzle=design.nozzle.diameter,
        discharge=design.nozzle.steam.discharge,
        regulator=None if piped is None else min(piped.regulator, piped.pipe),
        superheat=getattr(piped, "superheat", None), lifts=chosen.valve_type == "slide",
        chest=None if chest is None else chest.room,
    )  # fmt: skip


def _bench(design: Design, results: dict[str, Any]) -> dict[str, Any] | None:
    if results.get("cylinders") is None or results.get("motion") is None:
        return None
    return {"stand": bench_given(design, results, engine_of(design, results))}


def _draught(design: Design, results: dict[str, Any]) -> dict[str, Any] | None:
    blast, sizes = results.get("nozzle"), design.cylinders
    if blast is None or blast.layout is None or not blast.steam_flow:
        return None
    coal = {}
    if design.nozzle.firing == "coal":
        chosen = design.firing.coal
        coal = {"excess": chosen.excess - 1, "fire_draught": chosen.draught}
    return {
        "nozzle": design.nozzle, "layout": blast.layout, "steam": blast.steam_flow / 1000,
        "steam_full": blast.flow_per_speed[1] * blast.speed, "pressure": sizes.pressure,
        "beats": 2 * sizes.number * blast.revolutions / 60,
        "drill_sets": design.threads.rack.sets, "beside": blast.beside,
        "share": getattr(results.get("firing"), "share", None),
        "flow": _beaten(results.get("steam"), blast), **coal,
    }  # fmt: skip


def _beaten(turned: Any, blast: Any) -> tuple[float, ...]:
    """Return the exhaust over a turn, kg/s, as the chapter on steam has it; empty if it has none.

    Worked for another speed than the blast nozzle, its beats are taken with that one's steam.
    """
    if turned is None or turned.medium != "steam" or not turned.steam_rate > 0:
        return ()
    same = abs(turned.speed / blast.speed - 1) < 0.02
    by = 1.0 if same else blast.steam_flow / float(turned.blast.mean())
    return tuple((turned.blast * by / 1000).tolist())


_CHAPTERS: dict[str, tuple[Any, Callable[[Design, dict[str, Any]], dict[str, Any] | None]]] = {
    "firing": (firing.work, _firing),
    "steam": (steam.work, _steam),
    "bench": (bench.work, _bench),
    "draught": (draught.work, _draught),
    "running": (running.work, running_given),
}
"""Each chapter's work, and what it takes besides its own decisions."""
