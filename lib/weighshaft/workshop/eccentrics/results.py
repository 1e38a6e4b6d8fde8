"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding, Suggestion
from ...sizes import figure
from ...working import Working


@dataclass(frozen=True)
class Packing:
    """A packing and what comes of it.

    Parameters
    ----------
    name : of the jaws or the rule.
    thickness : mm.
    narrow_throw, flat_throw : throw that this packing gives in jaws of either kind, mm; None
        where narrow jaws cannot take so much.
    """

    name: str
    thickness: float
    narrow_throw: float | None
    flat_throw: float


@dataclass(frozen=True, kw_only=True)
class ChuckFigures:
    """Turning the throw."""

    throw: float | None = figure("Throw")
    bar: float | None = figure("Bar in the chuck")
    packing_narrow: float | None = figure("Packing under one of three narrow jaws", main=True)
    packing_flat: float | None = figure("Packing under one of three flat jaws", main=True)
    packing_jaw: float | None = figure("Packing for the jaws measured")
    packing_rule: float | None = figure("Packing by the rule of thumb")
    rule_error: float | None = figure("Rule of thumb over the narrow jaws' packing")
    rule_throw: float | None = figure("Throw that one and a half throws give in narrow jaws")
    dial: float | None = figure("Dial gauge, highest less lowest", main=True)
    four_jaw: float | None = figure("Four jaws: one opposite pair moved by")
    mandrel_spare: float | None = figure("Mandrel: metal outside the second centre hole")
    packings: tuple[Packing, ...] = ()


@dataclass(frozen=True, kw_only=True)
class StrapFigures:
    """Strap and sheave."""

    strap: float | None = figure("Strap and sheave, nominal")
    sheave_high: float | None = figure("Sheave turned to, at most")
    sheave_low: float | None = figure("Sheave turned to, at least")
    strap_low: float | None = figure("Strap bored to, at least")
    strap_high: float | None = figure("Strap bored to, at most")
    clear_least: float | None = figure("Strap clear of the sheave, least")
    clear_most: float | None = figure("Strap clear of the sheave, most")


@dataclass(frozen=True, kw_only=True)
class StopFigures:
    """The stop of a loose sheave."""

    slip: float | None = figure("Sheave slips when the engine is reversed", "deg")
    pin_takes: float | None = figure("Stop pin takes of that", "deg")
    opening: float | None = figure("Dog's gap, from face to face", "deg", main=True)
    dog: float | None = figure("Dog left", "deg")
    gap_chord: float | None = figure("Dog's gap straight across, at the pin's circle")
    stop_pin: float | None = figure("Pin of the stop")
    stop_radius: float | None = figure("Pin's circle, radius")


@dataclass(frozen=True, kw_only=True)
class CrankFigures:
    """Cranks built up."""

    pitch: float = figure("Crankpin pitch", main=True)
    crank_axle: float = figure("Axle of the crank")
    crank_pin: float = figure("Pin of the crank")
    over_pins: float = figure("Over axle and pin")
    between_pins: float = figure("Between axle and pin")
    web: float | None = figure("Web, thickness")
    web_breadth: float | None = figure("Web, breadth")
    web_length: float | None = figure("Web, length over its round ends")
    pin_cut: float | None = figure("Pin, cut to, webs filed off after")
    sawn_out: float | None = figure("Axle sawn out between the webs")
    web_carries: float | None = figure("A web stuck on carries", "N mm")
    web_must_carry: float | None = figure("A web has to carry", "N mm")
    dowel: float | None = figure("Dowel across web and axle")
    order: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class JigFigures:
    """Quartering."""

    jig_angle: float = figure("Cranks apart", "deg")
    jig_height: float = figure("Axle's centre above the plate")
    block: float = figure("Both blocks, height", main=True)
    block_reach: float = figure("Blocks ahead of and behind the axle")
    block_tolerance: float = figure("Blocks alike within")
    level_block: float = figure("Block under a level pin")
    square_strip: float = figure("Strip between the square and a pin straight above")
    jig_axle: float
    jig_pin: float
    jig_wheel: float


@dataclass(frozen=True, kw_only=True)
class EccentricsResult(ChuckFigures, StrapFigures, StopFigures, CrankFigures, JigFigures):
    """Figures, workings and findings; see `Eccentrics` for the decisions.

    Figures of what the engine has not got, and nobody typed, are None.
    """

    cautions: tuple[str, ...] = ()
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
