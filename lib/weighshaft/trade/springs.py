"""Wire and strip of which springs are made: how stiff, how strong, in what sizes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .tables import rows

WIRE_METALS = ("music wire", "spring steel", "stainless steel", "phosphor bronze")
STRIP_METALS = ("spring steel", "stainless steel", "phosphor bronze")


@dataclass(frozen=True)
class SpringWire:
    """Round spring wire of one diameter.

    Parameters
    ----------
    shear, young : moduli, N/mm2.
    strength, exponent : tensile strength is strength / diameter**exponent, N/mm2 and mm.
    share : of the tensile strength that the shear stress may reach in a spring that has not
        been set solid beforehand, Wahl's factor counted in.
    density : kg/m3.
    known : whether the diameter lies within the table; beyond it the nearest row is taken.
    """

    name: str
    diameter: float
    shear: float
    young: float
    strength: float
    exponent: float
    share: float
    density: float
    known: bool

    @property
    def tensile(self) -> float:
        """Least tensile strength, N/mm2."""
        return float(self.strength / self.diameter**self.exponent)

    @property
    def allowed(self) -> float:
        """Shear stress that the wire may reach, N/mm2."""
        return self.share * self.tensile


@dataclass(frozen=True)
class SpringStrip:
    """Spring strip: Young's modulus and what it may be bent to, N/mm2, and density, kg/m3."""

    name: str
    young: float
    allowed: float
    density: float


@cache
def spring_wire(name: str, diameter: float) -> SpringWire:
    """Return wire of a metal of `WIRE_METALS` and a diameter in mm."""
    found = [row for row in rows("spring_wire") if (row["name"], row["form"]) == (name, "wire")]
    low, high = float(found[0]["low_mm"]), float(found[-1]["high_mm"])
    row = next((one for one in found if diameter <= float(one["high_mm"])), found[-1])
    return SpringWire(
        name, diameter, float(row["shear_N_mm2"]), float(row["young_N_mm2"]),
        float(row["strength_A"]), float(row["strength_m"]), float(row["share_percent"]) / 100,
        float(row["density_kg_m3"]), low <= diameter <= high,
    )  # fmt: skip


@cache
def spring_strip(name: str) -> SpringStrip:
    """Return strip of a metal of `STRIP_METALS`."""
    row = next(one for one in rows("spring_wire") if (one["name"], one["form"]) == (name, "strip"))
    return SpringStrip(
        name, float(row["young_N_mm2"]), float(row["bend_N_mm2"]), float(row["density_kg_m3"])
    )


@cache
def spring_sizes(form: str) -> tuple[float, ...]:
    """Return the diameters of wire or thicknesses of strip that are sold, mm, rising."""
    row = next(one for one in rows("spring_sizes") if one["form"] == form)
    return tuple(map(float, row["sizes_mm"].split()))
