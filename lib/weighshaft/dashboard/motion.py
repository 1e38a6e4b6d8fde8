"""What the motion chapter needs of its own: a gear of another kind, laid out for this engine."""

from __future__ import annotations

import dataclasses
from typing import Any

from ..design.document import Design, DesignRefused, described
from ..sizes import sizes_of

GEAR = "motion.gear"
LAP = "motion.valve.steam_lap"
OTHER, OTHER_LAP = "beside.gear", "beside.steam_lap"
ADMISSIONS = ("motion.valve.admission", "motion.gear.admission")
_PLACES = {"mm": 3, "deg": 2}

KEPT = frozenset({"bench.fitted"})
"""What a button writes, and the pictures show; no builder types it."""


def idle(design: Design) -> frozenset[str]:
    """Return the decisions that have no part in this engine and need not be shown.

    Oscillating cylinders are their own valve: slide valve, port face and setting do nothing.
    """
    from ..motion import Oscillating

    if not isinstance(design.motion.gear, Oscillating):
        return KEPT
    names = ("valve", "valve_type", "face", "setting", "wanted")
    return KEPT | {f"motion.{name}" for name in names}


def proposed_gear(design: Design, kind: str) -> dict[str, Any]:
    """Return the changes that give this engine a sensible gear of another kind.

    Parameters
    ----------
    design : the design as it stands; crank, valve and wanted events are taken from it.
    kind : word of the gear wanted.

    Raises
    ------
    DesignRefused : when no gear of that kind fits this engine.
    """
    from ..motion import Crank
    from ..motion.proportions import proposed

    sizes = design.cylinders
    crank = Crank(sizes.stroke, sizes.connecting_rod, sizes.cylinder_offset)
    try:
        made = proposed(kind, crank, design.motion.valve, design.motion.wanted)
    except ValueError as refused:
        raise DesignRefused(str(refused)) from refused
    return {GEAR: rounded(made.gear), LAP: round(made.steam_lap, _PLACES["mm"])}


def proposed_other(design: Design, kind: str) -> dict[str, Any]:
    """Return the changes that lay a gear of another kind beside the engine's; see above."""
    made = proposed_gear(design, kind)
    return {OTHER: made[GEAR], OTHER_LAP: made[LAP]}


def copied_gear(design: Design) -> dict[str, Any]:
    """Return the changes that lay a copy of the engine's own gear beside it, to be varied."""
    return {OTHER: design.motion.gear, OTHER_LAP: design.motion.valve.steam_lap}


def fitted_gear(design: Design) -> dict[str, Any]:
    """Return the changes that give the gear as it stands the events wanted in full gear.

    Raises
    ------
    DesignRefused : when they cannot be had from this layout.
    """
    from ..motion import Crank
    from ..motion.proportions import fitted

    sizes, motion = design.cylinders, design.motion
    crank = Crank(sizes.stroke, sizes.connecting_rod, sizes.cylinder_offset)
    try:
        gear, lap = fitted(motion.gear, crank, motion.valve, motion.wanted)
    except ValueError as refused:
        raise DesignRefused(str(refused)) from refused
    changed = {
        f"{GEAR}.{one.name}": round(value, _PLACES["mm"])
        for one in dataclasses.fields(gear)
        if (value := getattr(gear, one.name)) != getattr(motion.gear, one.name)
    }
    changed[LAP] = round(lap, _PLACES["mm"])
    if bought := sorted(set(changed) & set(design.fixed)):
        words = described(design, bought[0]).label.lower()
        raise DesignRefused(
            f"Fitting would change the {words}, which a bought part has settled; take its mark "
            "away, or change the events wanted."
        )
    return changed


def rounded(decisions: Any) -> Any:
    """Return decisions with their sizes as a builder would write them: to a thousandth of a mm."""
    changes = {}
    for name, about in sizes_of(type(decisions)).items():
        value = getattr(decisions, name)
        if isinstance(value, float) and about.unit in _PLACES:
            changes[name] = round(value, _PLACES[about.unit])
    return dataclasses.replace(decisions, **changes)


def together(design: Design, path: str, value: Any) -> dict[str, Any]:
    """Return what has to change with a size: valve and gear admit at the same edge."""
    if path in ADMISSIONS and hasattr(design.motion.gear, "admission"):
        return dict.fromkeys(ADMISSIONS, value)
    return {path: value}
