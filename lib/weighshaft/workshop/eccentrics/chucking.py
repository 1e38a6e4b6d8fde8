"""Turning the throw: packing for three jaws, four jaws, the mandrel, and the strap's fit."""

from __future__ import annotations

import math
from typing import Any

from ...findings import Suggestion
from ...sizes import SizeError
from ...working import Working
from . import relations
from .decisions import Chucking, Strap
from .engine import Engine
from .results import Packing

BAR_OVER_SHEAVE = 1.1
"""Bar over the finished sheave: a rim to be turned off; common practice."""
H8, F7 = 25, 16
"""Tolerance of the hole and of the shaft in units of the standard's factor: IT8 and IT7."""
MOST_SHARE = 0.9
"""Throw over the bar's radius beyond which no jaw holds the bar; common practice."""

Worked = tuple[dict[str, Any], list[Working], list[Suggestion]]


def chucked(chucking: Chucking, engine: Engine) -> Worked:
    """Return the figures of the throw, their workings and what was taken.

    Raises
    ------
    SizeError : when no chuck holds the bar so far out.
    """
    throw = engine.throw if chucking.throw is None else chucking.throw
    if throw is None:
        empty = dict.fromkeys(
            ("throw", "bar", "packing_narrow", "packing_flat", "packing_jaw", "packing_rule",
             "rule_error", "rule_throw", "dial", "four_jaw", "mandrel_spare")
        )  # fmt: skip
        return dict(empty), [], []
    usual = BAR_OVER_SHEAVE * (engine.sheave or max(6 * throw, 2.5 * engine.axle))
    bar = usual if chucking.bar is None else chucking.bar
    radius = bar / 2
    if throw > MOST_SHARE * radius:
        raise SizeError(
            f"Throw to be turned: {throw:g} mm is too much for three jaws on a bar of {bar:g} mm; "
            f"{MOST_SHARE * radius:.3g} mm or less would do.", "chucking.throw",
        )  # fmt: skip
    narrow = relations.packing_narrow.work("Packing, narrow jaws", "mm", R=radius, e=throw)
    flat = relations.packing_flat.work("Packing, flat jaws", "mm", e=throw)
    rule = relations.packing_thumb.work("Packing, rule of thumb", "mm", e=throw, D=bar)
    dial = relations.dial_swing.work("Dial gauge on the bar", "mm", e=throw)
    # narrow jaws never ask for more than the bar's radius
    got = (
        relations.throw_narrow.work(
            "Throw that one and a half throws give in narrow jaws", "mm", R=radius, P=flat.result
        )
        if flat.result <= radius
        else None
    )
    workings = [narrow, flat, rule, *((got,) if got else ()), dial]
    jaw: float | None = None
    if chucking.jaw is not None:
        one = jaw_packing(radius, throw, chucking.jaw)
        jaw = one.result
        workings.insert(2, one)
    made = [("narrow jaws", narrow.result), ("flat jaws: 1½ throws", flat.result)]
    if jaw is not None:
        made.insert(1, (f"jaws of {chucking.jaw:g} mm", jaw))
    made.append(("rule of thumb", rule.result))
    mandrel = engine.axle if chucking.mandrel is None else chucking.mandrel
    figures = {
        "throw": throw, "bar": bar, "packing_narrow": narrow.result, "packing_flat": flat.result,
        "packing_jaw": jaw, "packing_rule": rule.result,
        "rule_error": rule.result - narrow.result, "rule_throw": got.result if got else None,
        "dial": dial.result, "four_jaw": throw,
        "mandrel_spare": mandrel / 2 - throw - chucking.centre_hole / 2,
        "packings": tuple(
            Packing(
                name, thick,
                relations.throw_narrow(R=radius, P=thick) if thick <= radius else None, thick / 1.5,
            )
            for name, thick in made
        ),
    }  # fmt: skip
    taken = [
        Suggestion("eccentrics.chucking.throw", engine.throw or throw, engine.name),
        Suggestion("eccentrics.chucking.bar", round(usual, 1), "the sheave and a rim to turn off"),
        Suggestion("eccentrics.chucking.mandrel", engine.axle, "the bore of the sheave"),
    ]
    return figures, workings, taken


def jaw_packing(radius: float, throw: float, width: float) -> Working:
    """Return the packing for jaws of a width: flat as long as the bar lies on their faces."""
    if math.sqrt(3) / 2 * throw <= width / 2:
        return relations.packing_flat.work("Packing, jaws measured: flat enough", "mm", e=throw)
    return relations.packing_jaw.work("Packing, jaws measured", "mm", R=radius, e=throw, b=width)


def strapped(strap: Strap, engine: Engine) -> Worked:
    """Return limits of strap and sheave: hole basis, H8 in the strap and f7 on the sheave."""
    size = engine.sheave if strap.diameter is None else strap.diameter
    names = (
        "strap", "sheave_high", "sheave_low", "strap_low", "strap_high", "clear_least",
        "clear_most",
    )  # fmt: skip
    if size is None:
        return dict.fromkeys(names), [], []
    unit = relations.tolerance_unit.work("Tolerance factor, 0.001 mm", "ratio", D=size)
    allow = relations.running_allowance.work("Deviation f, 0.001 mm", "ratio", D=size)
    usual = allow.result / 1000
    least = usual if strap.least is None else strap.least
    figures = limits(size, least, unit.result / 1000)
    taken = [Suggestion("eccentrics.strap.least", round(usual, 3), "the running fit H8/f7")]
    if engine.sheave is not None:
        taken.append(Suggestion("eccentrics.strap.diameter", engine.sheave, engine.name))
    return figures, [unit, allow], taken


def limits(size: float, least: float, unit: float) -> dict[str, Any]:
    """Return the limits of a running fit of a nominal size, mm.

    Parameters
    ----------
    least : clearance on the diameter.
    unit : the standard's tolerance factor, mm.
    """
    return {
        "strap": size, "strap_low": size, "strap_high": size + H8 * unit,
        "sheave_high": size - least, "sheave_low": size - least - F7 * unit,
        "clear_least": least, "clear_most": least + (H8 + F7) * unit,
    }  # fmt: skip
