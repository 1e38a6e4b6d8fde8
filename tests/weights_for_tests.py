"""Engines put together by hand of a few blocks, so that their weights are known."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from weighshaft.frames import Axle, Bar, Drive, Part, Whole, block
from weighshaft.motion.frame import Crank
from weighshaft.weights import Bearing, Hauled, Weights, WeightsResult, work

HAULED = Hauled(
    tractive_effort=30.0, effort_full=28.0, adhesion=0.2, resistance=0.02, engine_weight=6.0,
    coupled_weight=5.0,
)  # fmt: skip
STEEL = 7850e-9
"""kg in a mm3."""


def axle(kind: str, ahead: float, name: str = "") -> Axle:
    """Return an axle; the one at 0 is the driving axle."""
    named = name or ("driving" if ahead == 0.0 else f"{kind} {ahead:g}")
    return Axle(named, ahead, 40.0 if kind == "coupled" else 24.0, kind, 0.3)  # type: ignore[arg-type]


def cube(name: str, mass: float, ahead: float, above: float, **part: Any) -> Part:
    """Return a steel cube of a mass, kg, about a place; `part` as of `Part`."""
    half = (mass / STEEL) ** (1 / 3) / 2
    solid = block(ahead - half, ahead + half, above - half, above + half, -half, half)
    sizes: dict[str, Any] = {
        "kind": "frames",
        "chapter": "frames",
        "fields": (),
        "material": "mild steel",
    }
    return Part(name, solids=(solid,), **sizes | part)


def wheelset(n: int, one: Axle, mass: float) -> Part:
    """Return a pair of discs of a mass, kg, on their axle."""
    y = 0.0 if one.kind == "coupled" else -20.0 + one.diameter / 2
    thick = mass / 2 / STEEL / (3.141592653589793 * (one.diameter / 2) ** 2)
    disc = Bar((one.ahead, y), (one.ahead, y), one.diameter / 2, 20.0, 20.0 + thick)
    return Part(
        f"{one.name} wheels", "wheels", "wheels", (), "mild steel", (disc,), paired=True,
        ride="wheel", axle=n,
    )  # fmt: skip


def engine(
    axles: Sequence[Axle], parts: Sequence[Part] = (), wheels: float = 0.2, coupling: float = 12.0
) -> Whole:
    """Return an engine on 45 mm gauge: its axles from the front, and what stands on them.

    Parameters
    ----------
    wheels : mass of each wheelset, kg.
    coupling : height of the back coupling over the driving axle, mm.
    """
    sets = [wheelset(n, one, wheels) for n, one in enumerate(axles)] if wheels else []
    hook = cube("back coupling", 1e-9, axles[-1].ahead - 70.0, coupling)
    return Whole(
        parts=(*parts, *sets, hook), axles=tuple(axles),
        drive=Drive(Crank(20.0, 62.0), 0.0, 90.0, 10.0),
        rail=-20.0, front=axles[0].ahead + 60.0, back=axles[-1].ahead - 60.0,
        buffer_front=axles[0].ahead + 70.0, buffer_back=axles[-1].ahead - 70.0,
        frame_inside=32.0, frame_thickness=2.0, rise=1.0, gauge=45.0, back_to_back=40.0,
        tyre_width=6.0, flange_depth=1.5, flange_play=0.5,
    )  # fmt: skip


SIX = (axle("coupled", 60.0), axle("coupled", 0.0), axle("coupled", -50.0))
MOGUL = (axle("leading", 120.0), *SIX)
TANK = (*MOGUL, axle("trailing", -110.0))
BODY = cube("body", 4.0, 8.0, 40.0)


def plain(**weights: Any) -> Weights:
    """Return decisions without any allowance, so that weights are just those of the parts."""
    return Weights(**{"allowance": 0.0} | weights)


def worked(whole: Whole, weights: Weights | None = None, **given: Any) -> WeightsResult:
    """Work the chapter."""
    return work(weights or plain(), whole=whole, **{"hauled": HAULED} | given)


def bearing(**sizes: Any) -> Weights:
    """Return decisions that say only how the axles bear."""
    return plain(bearing=Bearing(**sizes))
