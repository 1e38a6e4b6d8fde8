"""The chapter worked: runs beside what the kept fit says of them, and what to measure next."""

from __future__ import annotations

import statistics
from collections.abc import Sequence

from ..findings import by_level, unlocked
from .coefficients import Coefficient
from .decisions import TAKEN, Bench, Fitted
from .fitting import Stand, mark_of, usable
from .judgement import cautions, judged, kinds_for
from .plan import advised, open_after
from .relations import log_deviation
from .results import BenchResult, Compared, Known


def work(bench: Bench, *, stand: Stand, fixed: frozenset[str] = frozenset()) -> BenchResult:
    """Work the chapter; nothing is marched here.

    Parameters
    ----------
    bench : the runs, and the last fit.
    stand : what the other chapters give; a fit takes the same.
    fixed : paths of sizes that a bought part has settled.
    """
    refused = usable(bench, stand)
    ready = [run for i, run in enumerate(bench.runs) if not refused[i]]
    coefficients = stand.coefficients
    stands = bool(bench.fitted.coefficients) and bench.fitted.of == mark_of(bench, stand)
    stands = stands and len(bench.fitted.runs) == len(bench.runs)
    compared = _compared(bench, refused, stands)
    known = tuple(_known(one, bench.fitted, stands) for one in coefficients)
    spread = bench.spread / 100
    fuel = None if stand.fire is None else stand.fire.fuel
    advice = advised(coefficients, ready, spread, kinds_for(fuel))
    used = [one for one in compared if one.used == "yes" and one.after is not None]
    findings = judged(
        bench, refused=refused, stands=stands, compared=compared, known=known, advice=advice,
        left_open=open_after(coefficients, ready, spread),
    )  # fmt: skip
    worked = {f"{run.what}, good to {100 * run.good:g} %": run.good for run in ready}
    return BenchResult(
        measured=len(ready), used=len(used), determined=sum(one.determined for one in known),
        off_before=_off([(one.measured, one.before) for one in used]),
        off_after=_off([(one.measured, one.after) for one in used]),
        stands=stands, compared=compared, known=known, advice=advice,
        takes=taken_over(bench, known) if stands else (),
        cautions=cautions(stand.line.pressure),
        workings=tuple(
            log_deviation.work(f"Standard deviation of the logarithm, {name}", "ratio",
                               within=good, spread=spread)
            for name, good in worked.items()
        ),
        suggestions=(), findings=by_level(unlocked(findings, fixed)),
    )  # fmt: skip


def taken_over(bench: Bench, known: Sequence[Known]) -> tuple[tuple[str, float], ...]:
    """Return path and value of what the builder takes over, as each chapter holds it."""
    every = bench.taking.taken == TAKEN[1]
    made = []
    for one in known:
        if one.value is None or not (one.determined or every):
            continue
        owner, low, high = _OWNED.get(one.path, (1.0, 0.0, float("inf")))
        made.append((one.path, float(f"{min(max(owner * one.value, low), high):.4g}")))
    return tuple(made)


_OWNED = {
    "steam.assumed.film": (1.0, 1000.0, 100_000.0), "steam.assumed.valve_gap": (1.0, 0.0, 0.2),
    "steam.assumed.ports": (1.0, 0.4, 1.0), "cylinders.haulage.efficiency": (100.0, 20.0, 100.0),
    "firing.heat.efficiency": (1.0, 0.1, 0.9), "firing.gas.discharge": (1.0, 0.4, 1.0),
    "firing.spirit.burns": (1.0, 0.05, 3.0), "firing.coal.burns": (1.0, 20.0, 900.0),
}  # fmt: skip
"""By what each is multiplied where it is decided, and the limits there."""


def _compared(bench: Bench, refused: dict[int, str], stands: bool) -> tuple[Compared, ...]:
    made = []
    for i, run in enumerate(bench.runs):
        then = bench.fitted.runs[i] if stands else None
        if then is not None and then.used == "could not":
            then = None
        used = refused[i] or ("not fitted yet" if then is None else then.used)
        made.append(
            Compared(
                i + 1, run.what, run.unit, run.figure, 100 * run.good,
                None if then is None else then.before, None if then is None else then.after,
                None if then is None else then.band, None if then is None else then.departs, used,
            )
        )  # fmt: skip
    return tuple(made)


def _known(one: Coefficient, fitted: Fitted, stands: bool) -> Known:
    found = next((kept for kept in fitted.coefficients if kept.name == one.key), None)
    if not stands or found is None or not 0 < found.low <= found.value <= found.high:
        found = None
    value, least, most = (
        (None, None, None) if found is None else (found.value, found.low, found.high)
    )
    named = {"now": one.now, "low": one.low, "high": one.high, "value": value, "least": least,
             "most": most}  # fmt: skip
    return Known(
        key=one.key, title=one.title, path=one.path, source=one.source, now=one.now, low=one.low,
        high=one.high, value=value, least=least, most=most,
        determined=found is not None and found.determined,
        told={name: one.told(told) for name, told in named.items() if told is not None},
    )  # fmt: skip


def _off(pairs: Sequence[tuple[float | None, float | None]]) -> float | None:
    off = [100 * abs(b / a - 1) for a, b in pairs if a and b is not None]
    return float(f"{statistics.median(off):.3g}") if off else None
