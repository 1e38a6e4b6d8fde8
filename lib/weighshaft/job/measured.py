"""What a fit to the builder's own measurements is given of the other chapters."""

from __future__ import annotations

from typing import Any

from .. import bench
from ..design.document import Design
from ..firing.fires import drawn, efficiency_of
from ..measures import GRAVITY
from ..steam import Engine

WALKING = 4.0
"""km/h where no running speed is known."""
_RATES: dict[str, tuple[str, tuple[float, float], str, str]] = {
    "gas": ("firing.gas.discharge", (0.7, 1.0), "discharge of the gas jet", ""),
    "spirit": ("firing.spirit.burns", (0.3, 1.2), "spirit burnt by 1 cm² of wick", " g/min"),
    "coal": ("firing.coal.burns", (150.0, 550.0), "coal burnt by 1 m² of grate", " kg/h"),
}
"""Whence the fuel burnt, the range in practice, and its name; common practice, coal as the
chapter on fire has it."""


def bench_given(design: Design, results: dict[str, Any], engine: Engine) -> bench.Stand:
    """Return engine, line and fire; the fire is None where it cannot be worked.

    Parameters
    ----------
    results : of the chapters before.
    engine : as far as the steam is concerned.
    """
    sizes, haulage = design.cylinders, design.cylinders.haulage
    speed = getattr(results.get("scale"), "running_speed", None)
    return bench.Stand(
        steam=design.steam, engine=engine,
        line=bench.Line(
            mass=sizes.engine_weight, rolling=haulage.rolling_resistance / 100,
            grip=haulage.adhesion * sizes.coupled_weight * GRAVITY, speed=speed or WALKING,
            notch=design.motion.running_notch, pressure=sizes.pressure,
        ),
        fire=_fire(design, results.get("firing")),
    )  # fmt: skip


def _fire(design: Design, fired: Any) -> bench.Fire | None:
    if fired is None or not fired.raising.fire_full > 0 or not fired.raising.surface > 0:
        return None
    raising, heat = fired.raising, design.firing.heat
    path, seen, title, unit = _RATES[fired.fuel]
    coal = fired.fuel == "coal"
    usual = 6.0 if coal else 0.5
    share = 1.0
    if coal:
        share = drawn(design.firing.coal.raising_draught, design.firing.coal.draught, 1.0)
    return bench.Fire(
        fuel=fired.fuel, full=raising.fire_full, value=raising.fuel_value,
        kind=efficiency_of(fired.pattern, fired.fuel, None), share=fired.share,
        surface=raising.surface, loss=raising.loss, air=heat.air, cold=heat.cold, feed=heat.feed,
        water=raising.water_total, metal=raising.metal_heat,
        kindling=usual if heat.kindling is None else heat.kindling, raising=share,
        rate_now=float(design.at(path)), rate_range=seen, rate_title=title, rate_unit=unit,
        rate_path=path,
    )  # fmt: skip
