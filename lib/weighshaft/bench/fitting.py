"""A fit of an engine to its runs, as something long that tells how far it has come."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

import numpy as np

from ..sizes import SizeError
from ..steam import Engine, SteamSide
from ..steam.engine import valve_gap
from .coefficients import Coefficient, coefficients_of, prior_of
from .decisions import Bench, Fitted, Found, Predicted, Run
from .fit import COVER, fit
from .model import (
    Fire,
    Line,
    Reckoner,
    as_read,
    check_pressure,
    deviation,
    measured,
    why_not,
)

_ROUNDS = 4
"""Rounds that a fit usually takes, for telling how far it has come."""


@dataclass(frozen=True, kw_only=True)
class Stand:
    """What a fit is given of the other chapters.

    Parameters
    ----------
    steam, engine : as the chapter on steam has them.
    line : engine on the line.
    fire : None where it cannot be worked.
    """

    steam: SteamSide
    engine: Engine
    line: Line
    fire: Fire | None

    @property
    def coefficients(self) -> tuple[Coefficient, ...]:
        """The coefficients, as the design has them and with their ranges."""
        assumed = self.steam.assumed
        return coefficients_of(
            film=assumed.film, gap=valve_gap(self.steam, self.engine), ports=assumed.ports,
            efficiency=self.engine.efficiency, fire=self.fire,
        )  # fmt: skip


def usable(bench: Bench, stand: Stand) -> dict[int, str]:
    """Return by the place of every run why it cannot be used; empty where it can."""
    return {
        i: why_not(run, stand.line, stand.fire) or check_pressure(run)
        for i, run in enumerate(bench.runs)
    }


def mark_of(bench: Bench, stand: Stand) -> str:
    """Return a mark that changes with engine and runs, but not with what a fit takes over."""
    steam, engine, fire = stand.steam, stand.engine, stand.fire
    seen = (
        tuple(replace(run, note="") for run in bench.runs), bench.spread, steam.way,
        replace(steam.assumed, film=1000.0, valve_gap=None, ports=0.5),
        # pipes left empty go by the fire, which a fit changes
        replace(engine, efficiency=0.0, regulator=None, superheat=None), stand.line,
        None if fire is None else (fire.fuel, fire.kind, round(fire.surface), fire.air, fire.cold),
    )  # fmt: skip
    return hashlib.sha256(_plain(seen).encode()).hexdigest()[:12]


def _plain(value: Any) -> str:
    """Return decisions as text that is the same however a number was typed or kept."""
    if is_dataclass(value):
        parts = [_plain(getattr(value, one.name)) for one in fields(value)]
        return f"{type(value).__name__}({','.join(parts)})"
    if isinstance(value, tuple):
        return f"({','.join(map(_plain, value))})"
    if isinstance(value, (int, float)):
        return f"{float(value):.9g}"
    return repr(value)


def fitted(
    bench: Bench, stand: Stand, *, told: Callable[[int, int], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Fitted:  # fmt: skip
    """Fit the coefficients to the runs and return what the design then keeps.

    Parameters
    ----------
    told : called with the marches done and those expected.
    stop : asked before every march; true raises `model.Stopped`.

    Raises
    ------
    SizeError : where no run can be used, or one cannot be reckoned, in the builder's words.
    """
    refused = usable(bench, stand)
    places = [i for i, why in refused.items() if not why]
    runs = [bench.runs[i] for i in places]
    if not runs:
        raise SizeError("No run has been measured that could be fitted to.", "runs")
    turning = {one for one in runs if one.minutes is not None or one.turns is not None}
    expected = max(len(turning), 1) * (4 * 3 + _ROUNDS)

    def tell(done: int) -> None:
        if told is not None:
            told(done, max(expected, done + 1))

    reckoner = Reckoner(runs, stand.steam, stand.engine, stand.line, stand.fire,
                        told=tell, stop=stop)  # fmt: skip
    coefficients = stand.coefficients
    centre, spread = prior_of(coefficients)
    now = np.log([one.now for one in coefficients])
    target = np.log([measured(run) for run in runs])
    error = np.array([deviation(run, bench.spread / 100) for run in runs])
    before = reckoner(now)
    found = fit(reckoner, target, error, centre, spread)
    determined = found.determined(spread)
    known = tuple(
        Found(
            name=one.key, before=one.now, value=_kept(np.exp(found.logs[i])),
            low=_kept(np.exp(found.logs[i] - found.within[i])),
            high=_kept(np.exp(found.logs[i] + found.within[i])), determined=bool(determined[i]),
        )
        for i, one in enumerate(coefficients)
    )  # fmt: skip
    own = np.log1p(bench.spread / 100) / np.sqrt(3) * COVER
    reckoned = [Predicted(used="could not")] * len(bench.runs)
    for k, (place, run) in enumerate(zip(places, runs, strict=True)):
        assert run.figure is not None
        band = float(np.expm1(np.hypot(found.band[k], own)))
        reckoned[place] = Predicted(
            measured=run.figure, before=_read(run, before[k]), after=_read(run, found.shown[k]),
            band=min(_kept(100 * band), 1000.0),
            departs=float(np.clip(_kept(found.departs[k]), -1000, 1000)),
            used="yes" if found.used[k] else "set aside",
        )  # fmt: skip
    return Fitted(
        of=mark_of(bench, stand), scatter=min(_kept(found.scatter), 1e6), coefficients=known,
        runs=tuple(reckoned),
    )  # fmt: skip


def _read(run: Run, log: float) -> float:
    return _kept(min(as_read(run, float(np.exp(log))), 1e9))


def _kept(value: float) -> float:
    """Return a figure with no more places than a file need keep."""
    return float(f"{float(value):.5g}")
