"""Chimney, choke and nozzle height by the two cones of the blast.

From the nozzle a slender cone (1 in 6) should touch the chimney wall a little below its
top, and a wider one (1 in 3) the choke where the petticoat begins: what H. Greenly printed
for models, as quoted by builders.  Authors differ on where a cone starts and on which side
its slope is measured; `Cones` holds both choices.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from ..measures import INCH
from ..working import relation
from .decisions import Cones, Smokebox

GREENLY = "cones after H. Greenly, as quoted by builders"
TOUCH = 1.5 * INCH
"""Where the upper cone touches, below the top of a full-size chimney, mm: “an inch or two”."""
MOUTH, FLARE = 1.5, 0.6
"""Petticoat's mouth and length in chokes (common practice)."""


@relation("w", GREENLY, start="d_0", height="h", slope="s")
def cone_width(start: float, height: float, slope: float) -> float:
    """Width of a cone at a height above the tip; `slope` is its widening over height."""
    return start + slope * height


@relation("h_c", f"{GREENLY}: both cones just touch", touch="H", upper="s_u",
          lower="s_l", widening="t")  # fmt: skip
def choke_height(touch: float, upper: float, lower: float, widening: float) -> float:
    """Height of the choke above the tip at which both cones touch.

    `touch` the height where the upper cone touches, `widening` that of the chimney on the
    diameter over its height.  From d0 + lower hc + widening (H - hc) = d0 + upper H.
    """
    return touch * (upper - widening) / (lower - widening)


def slope(one_in: float, cones: Cones) -> float:
    """Return the widening of the diameter over height for a cone of 1 in `one_in`."""
    return (1.0 if cones.measured_on == "diameter" else 2.0) / one_in


@dataclass(frozen=True)
class Layout:
    """Smokebox, chimney and blast on their common axis; heights y from the boiler centre, mm.

    Parameters
    ----------
    tip, top : heights of the nozzle's tip and of the chimney's top.
    touch : height at which the upper cone is to touch the chimney.
    choke, choke_at : bore and height of the choke as taken (decided, else suggested).
    wanted_choke, wanted_at : the same as the cones ask for; None where they cannot touch both.
    top_bore : bore at the chimney's top.
    mouth, mouth_at : diameter and height of the petticoat's mouth.
    start : width of the cones at the tip.
    upper, lower : widening of the cones over height, on the diameter.
    meets : height at which the upper cone meets the chimney wall; None if it does not.
    fills_choke : width of the lower cone at the choke.
    """

    tip: float
    top: float
    touch: float
    choke: float
    choke_at: float
    wanted_choke: float | None
    wanted_at: float | None
    top_bore: float
    mouth: float
    mouth_at: float
    start: float
    upper: float
    lower: float
    meets: float | None
    fills_choke: float

    @property
    def tip_for_lower_cone(self) -> float:
        """Height of the tip at which the lower cone would just touch this choke."""
        return self.choke_at - max(self.choke - self.start, 0.0) / self.lower


def lay_out(smokebox: Smokebox, cones: Cones, nozzle: float, ratio: float) -> Layout | None:
    """Return the layout, or None while the chimney's top or the nozzle's height is not known.

    Parameters
    ----------
    smokebox, cones : the decisions.
    nozzle : diameter of the nozzle, mm.
    ratio : scale, for the place where the upper cone touches.
    """
    if smokebox.chimney_top is None or smokebox.nozzle_below is None:
        return None
    tip, top = -smokebox.nozzle_below, smokebox.chimney_top
    below = cones.touch_below_top if cones.touch_below_top is not None else TOUCH / ratio
    rise = top - below - tip
    if rise <= 0:
        return None
    start = nozzle if cones.start == "rim" else 0.0
    upper, lower = slope(cones.upper, cones), slope(cones.lower, cones)
    widening = 2 * math.tan(math.radians(smokebox.taper))
    wanted = wanted_at = None
    if widening < upper < lower:
        at = choke_height(touch=rise, upper=upper, lower=lower, widening=widening)
        wanted, wanted_at = cone_width(start, at, lower), tip + at
    up = smokebox.choke_above_nozzle
    fallback_at = tip + rise / 2  # what a parallel chimney has when the slopes are 6 and 3
    choke_at = tip + up if up is not None else wanted_at if wanted_at is not None else fallback_at
    choke = smokebox.choke or wanted or cone_width(start, choke_at - tip, lower)
    meets = None
    if upper > widening:
        # the wall is choke + widening (y - choke_at), the cone start + upper (y - tip)
        y = (choke - widening * choke_at - start + upper * tip) / (upper - widening)
        meets = y if y >= choke_at - 1e-9 else None
    return Layout(
        tip=tip, top=top, touch=top - below, choke=choke, choke_at=choke_at,
        wanted_choke=wanted, wanted_at=wanted_at,
        top_bore=choke + widening * max(top - choke_at, 0.0),
        mouth=smokebox.petticoat_mouth or MOUTH * choke,
        mouth_at=choke_at - (smokebox.petticoat_length or FLARE * choke),
        start=start, upper=upper, lower=lower, meets=meets,
        fills_choke=cone_width(start, choke_at - tip, lower),
    )  # fmt: skip


def working_values(layout: Layout, smokebox: Smokebox) -> dict[str, Any]:
    """Return the numbers for the working of `choke_height`."""
    return {
        "touch": layout.touch - layout.tip,
        "upper": layout.upper,
        "lower": layout.lower,
        "widening": 2 * math.tan(math.radians(smokebox.taper)),
    }
