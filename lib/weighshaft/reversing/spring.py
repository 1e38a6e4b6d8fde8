"""The balance spring: a close-coiled spring in tension on an arm of the weighshaft."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..findings import Suggestion
from ..motion.frame import Array
from ..working import Working
from . import relations
from .decisions import Balance
from .results import SpringWork
from .shaft import Shaft

MODULUS = {"steel": 79300.0, "stainless steel": 69000.0, "phosphor bronze": 41400.0}
"""Shear modulus of spring wire, N/mm2 (values from memory of the usual handbook tables)."""
ALLOWED = {"steel": 700.0, "stainless steel": 550.0, "phosphor bronze": 300.0}
"""Shear stress for a spring that is moved now and then, N/mm2 (common practice)."""
WIRES = (0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.5,
         3.0, 3.5, 4.0, 5.0)  # fmt: skip
"""Diameters in which spring wire is sold, mm (common practice)."""
_INDEX = 12.0
_GIVES = 0.5
"""Share of the mid-gear force by which a suggested spring alters over the swing."""


@dataclass(frozen=True)
class Balanced:
    """The spring worked: figures, suggestions and workings; None without weight to balance."""

    spring: SpringWork | None
    suggestions: tuple[Suggestion, ...] = ()
    workings: tuple[Working, ...] = ()


def balanced(balance: Balance, shaft: Shaft, weight: Array, reversers: Array) -> Balanced:
    """Return the spring that balances the weight in mid gear, and what it leaves elsewhere.

    The spring is long beside its arm, so that its line keeps its direction; its arm is square
    to it in mid gear and pulls against the weight.

    Parameters
    ----------
    weight : (m,) torque of the weight on the shaft, N mm, anticlockwise.
    reversers : (m,) positions of it.
    """
    middle = float(np.interp(0.0, reversers[::-1], weight[::-1]))
    if abs(middle) < 1e-6:
        return Balanced(None)
    step = 0.5 if shaft.length >= 10 else 0.1
    usual = min(max(round(0.6 * shaft.length / step) * step, 1.0), 300.0)
    arm = balance.arm if balance.arm is not None else usual
    torque = abs(middle)
    force = relations.spring_force(T=torque, a=arm)
    turned = np.radians(shaft.half * reversers)
    sway = arm * math.sin(min(math.radians(abs(shaft.half)), math.pi / 2))
    modulus, allowed = MODULUS[balance.material], ALLOWED[balance.material]
    soft = _GIVES * force / (2 * sway)
    most = force * (1 + _GIVES / 2)
    ideal = relations.spring_wire(F=most, C=_INDEX, tau=allowed)
    wire_usual = next((one for one in WIRES if one >= ideal), WIRES[-1])
    if balance.coil is not None:
        # thicker wire could not be wound into that coil
        wire_usual = min(wire_usual, max(one for one in WIRES if one <= balance.coil / 4))
    wire = balance.wire if balance.wire is not None else wire_usual
    coil_usual = round(min(max(_INDEX * wire, 0.8), 80.0), 1)
    coil = balance.coil if balance.coil is not None else coil_usual
    ideal_turns = modulus * wire**4 / (8 * coil**3 * soft)
    turns_usual = float(min(max(math.ceil(ideal_turns), 4), 300))
    turns = balance.turns if balance.turns is not None else turns_usual
    made = [
        Suggestion("reversing.balance.arm", usual, f"six tenths of the {shaft.part}"),
        Suggestion("reversing.balance.wire", wire_usual,
                   f"carries {most:.1f} N at {allowed:.0f} N/mm² in a coil twelve wires across"),
        Suggestion("reversing.balance.coil", coil_usual, "twelve times the wire"),
        Suggestion("reversing.balance.turns", turns_usual,
                   "so soft that its pull alters by a quarter either way"),
    ]  # fmt: skip
    rate = relations.spring_rate.work(
        "Rate of the balance spring", "N/mm", G=modulus, d=wire, D=coil, n=turns
    )
    k = rate.result
    # turning with the weight stretches the spring
    sense = math.copysign(1.0, middle)
    pull = force + k * arm * np.sin(sense * turned)
    left = weight - sense * arm * np.cos(turned) * pull
    greatest = float(np.max(np.append(pull, force)))
    stress = relations.spring_stress.work(
        "Greatest shear stress in the spring", "N/mm2", F=max(greatest, 0.0), D=coil, d=wire
    )
    spring = SpringWork(
        arm=arm, force=force, rate=k, wire=wire, coil=coil, turns=turns,
        free_length=(turns + 1) * wire, stretch=force / k,
        stress=stress.result, allowed=allowed,
        left_over=float(np.max(np.abs(left))),
    )  # fmt: skip
    pulls = relations.spring_force.work("Pull of the balance spring", "N", T=torque, a=arm)
    return Balanced(spring, tuple(made), (pulls, rate, stress))
