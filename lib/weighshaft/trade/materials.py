"""Metals of a small locomotive, and what seals its joints."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .tables import rows

MATERIALS = (
    "mild steel", "silver steel", "stainless steel", "brass", "bronze", "gunmetal", "copper",
    "cast iron", "aluminium",
)  # fmt: skip
SEALINGS = (
    "none", "sealing compound", "PTFE tape", "copper washer", "graphite yarn", "soft solder",
    "silver solder",
)  # fmt: skip
JOINTINGS = ("oiled paper", "sealing compound")


@dataclass(frozen=True)
class Material:
    """A metal.

    Parameters
    ----------
    name : as in `MATERIALS`.
    proof, tensile : least proof stress and tensile strength, N/mm².
    depth : usual depth of thread tapped in it, per cent as tap charts count.
    grip : usual length of thread in it, in diameters of the screw.
    source, note : keys of the README beside the tables.
    """

    name: str
    proof: float
    tensile: float
    depth: float
    grip: float
    source: str
    note: str


@dataclass(frozen=True)
class Sealing:
    """What makes a thread tight, and how hot it may get (degC)."""

    name: str
    limit: float
    source: str
    note: str


@dataclass(frozen=True)
class Jointing:
    """What lies between two faces: gasket factor, and pressure to seat it in N/mm²."""

    name: str
    factor: float
    seating: float
    source: str


@cache
def _materials() -> dict[str, Material]:
    return {
        row["name"]: Material(
            row["name"], float(row["proof_N_mm2"]), float(row["tensile_N_mm2"]),
            float(row["depth_percent"]), float(row["grip_diameters"]), row["sources"], row["note"],
        )
        for row in rows("materials")
    }  # fmt: skip


@cache
def _sealings() -> dict[str, Sealing]:
    return {
        row["name"]: Sealing(row["name"], float(row["limit_degC"]), row["sources"], row["note"])
        for row in rows("sealings")
    }


@cache
def _jointings() -> dict[str, Jointing]:
    return {
        row["name"]: Jointing(
            row["name"], float(row["gasket_factor"]), float(row["seating_N_mm2"]), row["sources"]
        )
        for row in rows("jointings")
    }


def material(name: str) -> Material:
    """Return a metal by its name; KeyError when it is not one of `MATERIALS`."""
    return _materials()[name]


def sealing(name: str) -> Sealing:
    """Return a seal by its name; KeyError when it is not one of `SEALINGS`."""
    return _sealings()[name]


def jointing(name: str) -> Jointing:
    """Return a jointing by its name; KeyError when it is not one of `JOINTINGS`."""
    return _jointings()[name]
