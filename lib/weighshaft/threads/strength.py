"""Strength of a screwed joint: core, threads, length of engagement, the wall left."""

from __future__ import annotations

from typing import Any

from ..measures import circle_area
from ..trade.materials import Material
from ..trade.threads import Thread
from ..working import pi, relation

SHEAR = 0.5
"""Shear strength of a thread over the tensile strength of its metal (FED-STD-H28, BS 3580)."""
STEADY, ALTERNATING = 3.0, 6.0
"""Safety on the proof stress for a steady and for a push-and-pull load (common practice)."""


@relation(r"\sigma", "direct stress on the core, textbook", load="F", core="d_3", hole="d_h")
def core_stress(load: Any, core: Any, hole: Any) -> Any:
    """Return the tension (N/mm²) in a core of diameter `core` with a `hole` through it."""
    return load / (pi * (core**2 - hole**2) / 4)


@relation(
    r"A_m", "FED-STD-H28/2B; Bickford", engagement="L", pitch="p", hole="d_0",
    effective="d_2", flank=r"\tan\alpha",
)  # fmt: skip
def male_strip_area(engagement: Any, pitch: Any, hole: Any, effective: Any, flank: Any) -> Any:
    """Return the area (mm²) over which the male thread shears at the bore of the female one.

    Parameters
    ----------
    engagement, pitch : mm.
    hole : bore of the female thread, so that a large tapping drill tells, mm.
    effective : of the male thread, mm.
    flank : tangent of the half angle between the flanks.
    """
    return pi / pitch * engagement * hole * (pitch / 2 + flank * (effective - hole))


@relation(
    r"A_f", "FED-STD-H28/2B; Bickford", engagement="L", pitch="p", major="d",
    effective="D_2", flank=r"\tan\alpha",
)  # fmt: skip
def female_strip_area(engagement: Any, pitch: Any, major: Any, effective: Any, flank: Any) -> Any:
    """Return the area (mm²) over which the female thread shears at the tops of the male one."""
    return pi / pitch * engagement * major * (pitch / 2 + flank * (major - effective))


@relation(r"\tau", "mean shear over the engaged threads", load="F", area="A")
def thread_shear(load: Any, area: Any) -> Any:
    """Return the mean shear (N/mm²); the first threads take more than their share."""
    return load / area


@relation(r"w", "geometry", core="d_3", hole="d_h")
def wall_left(core: Any, hole: Any) -> Any:
    """Return the wall (mm) between the root of a male thread and the hole through it."""
    return (core - hole) / 2


@relation(r"T", "torsion of a tube at half its proof stress", proof="R_p", core="d_3", hole="d_h")
def twist_off(proof: Any, core: Any, hole: Any) -> Any:
    """Return the torque (N mm) at which a bored core begins to twist off under the spanner."""
    return pi * (proof / 2) * (core**4 - hole**4) / (core * 16)


@relation(
    r"F_1", "ASME VIII-1, Appendix 2: operating", pressure="P", gasket="G", width="b",
    factor="m", number="n",
)  # fmt: skip
def screw_load_running(pressure: Any, gasket: Any, width: Any, factor: Any, number: Any) -> Any:
    """Return the load (N) on one cover screw that holds the steam and keeps the joint pressed.

    Parameters
    ----------
    pressure : N/mm².
    gasket : mean diameter of the joint, mm.
    width : effective width of the joint, mm.
    factor : gasket factor; its pressure is this many times that of the steam.
    number : screws.
    """
    steam = pi * gasket**2 / 4 * pressure
    return (steam + pi * gasket * width * 2 * factor * pressure) / number


@relation(
    r"F_2", "ASME VIII-1, Appendix 2: seating", gasket="G", width="b", seating="y", number="n"
)
def screw_load_seating(gasket: Any, width: Any, seating: Any, number: Any) -> Any:
    """Return the load (N) on one cover screw that seats the joint before there is steam."""
    return pi * width * gasket * seating / number


@relation(r"T", "T = 0.2 F d, dry threads (textbook)", load="F", major="d")
def tightening(load: Any, major: Any) -> Any:
    """Return the torque (N mm) that pulls a screw up to a load."""
    return load * major / 5


def bore_in_use(one: Thread, hole: float) -> float:
    """Return the bore at which the threads meet: the tapping drill, but not below the core."""
    return min(max(hole, one.minor), one.major - 1e-6)


def strip_areas(one: Thread, engagement: float, hole: float) -> tuple[float, float]:
    """Return the areas (mm²) over which the male and the female thread would strip.

    Parameters
    ----------
    one : thread, taken on its basic diameters.
    engagement : mm.
    hole : tapping drill, mm.
    """
    bore = bore_in_use(one, hole)
    return (
        male_strip_area(engagement, one.pitch, bore, one.effective, one.flank),
        female_strip_area(engagement, one.pitch, one.major, one.effective, one.flank),
    )


def engagement_for_load(
    one: Thread, load: float, hole: float, male: Material, female: Material, safety: float
) -> float:
    """Return the engagement (mm) at which neither thread exceeds its allowed shear.

    The allowed shear is `SHEAR` × proof stress / `safety`.
    """
    male_area, female_area = strip_areas(one, 1.0, hole)
    return load * safety / (SHEAR * min(male_area * male.proof, female_area * female.proof))


def engagement_for_strength(
    one: Thread, bored: float, hole: float, male: Material, female: Material
) -> float:
    """Return the engagement (mm) at which the core breaks before either thread strips.

    Parameters
    ----------
    one : thread.
    bored : hole through the male part, 0 if solid, mm.
    hole : tapping drill, mm.
    male, female : metals.
    """
    male_area, female_area = strip_areas(one, 1.0, hole)
    pull = male.tensile * max(circle_area(one.minor) - circle_area(bored), 0.0)
    return pull / (SHEAR * min(male_area * male.tensile, female_area * female.tensile))
