"""The front end of an engine as one thing that is asked for its draught."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..nozzle.cones import Layout
from ..nozzle.decisions import Nozzle
from .decisions import Draughting
from .ejector import Chimney, Draught, Gas, draw
from .fire import area_by_choke, gas_way
from .jet import Jet
from .results import Scan, Way

Array = NDArray[np.float64]

EDGE = 0.5
"""Velocity heads lost at a plain edge (common hydraulics)."""


@dataclass(frozen=True)
class FrontEnd:
    """Nozzle, chimney and way of the gases of an engine, whichever nozzle is tried in it.

    Parameters
    ----------
    draughting, nozzle : the decisions.
    """

    draughting: Draughting
    nozzle: Nozzle

    def way(self, layout: Layout) -> Gas:
        """Return the gases and what their way takes."""
        way = self.draughting.way
        return gas_way(
            smokebox=way.smokebox, tubes=way.tubes, heads=way.heads, fire=way.fire,
            area=self.tubes(layout),
        )  # fmt: skip

    def tubes(self, layout: Layout) -> float:
        """Return the area through the tubes, mm2: as decided, or what suits this choke."""
        return self.nozzle.smokebox.tube_area or area_by_choke(layout.choke)

    def jet(self, steam: float | Array, diameter: float | Array | None = None) -> Jet:
        """Return the jet of `steam` kg/s from a nozzle of `diameter` mm, shared out."""
        number = self.draughting.number
        whole = self.nozzle.diameter if diameter is None else diameter
        steams = self.nozzle.steam
        return Jet(steam, whole / math.sqrt(number), number, steams.discharge, steams.dryness)

    def chimney(self, layout: Layout) -> Chimney:
        """Return the chimney as it is laid out."""
        spacing = max(layout.choke_at - layout.tip, 0.0)
        return Chimney(
            choke=layout.choke, top=max(layout.top_bore, layout.choke), spacing=spacing,
            free=min(max(layout.mouth_at - layout.tip, 0.0), spacing),
            length=max(layout.top - layout.choke_at, 0.0),
            losses=self.draughting.losses.taken(),
        )  # fmt: skip

    def draws(self, layout: Layout, steam: float | Array) -> Draught:
        """Return what the engine's own nozzle does with `steam` kg/s, a figure or (n,)."""
        return draw(self.jet(steam), self.chimney(layout), self.way(layout))

    def by_nozzle(self, layout: Layout, steam: float, diameters: Array) -> Scan:
        """Return what nozzles of other diameters (mm) would do with `steam` kg/s."""
        jet = self.jet(np.full(len(diameters), steam), diameters)
        return _scan(diameters, draw(jet, self.chimney(layout), self.way(layout)), steam)

    def by_choke(self, layout: Layout, steam: float, chokes: Array) -> Scan:
        """Return what other chokes (mm) would do, taper and heights staying."""
        at = self.chimney(layout)
        wider = chokes + (at.top - np.asarray(at.choke))
        tried = replace(at, choke=chokes, top=wider)
        jet = self.jet(np.full(len(chokes), steam))
        return _scan(chokes, draw(jet, tried, self.way(layout)), steam)

    def by_spacing(self, layout: Layout, steam: float, spacings: Array) -> Scan:
        """Return what other heights of the nozzle below the choke (mm) would do."""
        at = self.chimney(layout)
        petticoat = np.asarray(at.spacing) - at.free
        tried = replace(at, spacing=spacings, free=np.maximum(spacings - petticoat, 0.0))
        jet = self.jet(np.full(len(spacings), steam))
        return _scan(spacings, draw(jet, tried, self.way(layout)), steam)

    def ways(self, layout: Layout, steam: float) -> tuple[Way, ...]:
        """Return what other fronts would do with `steam` kg/s and this nozzle's area."""
        at, whole = self.chimney(layout), self.nozzle.diameter
        steams = self.nozzle.steam

        def shared(number: int) -> Jet:
            each = whole / math.sqrt(number)
            return Jet(steam, each, number, steams.discharge, steams.dryness)

        def widening(degrees: float) -> Chimney:
            more = 2 * math.tan(math.radians(degrees)) * np.asarray(at.length)
            return replace(at, top=at.choke + more)

        blunt = replace(at, losses=replace(at.losses, entry=EDGE), free=at.spacing)
        tried = [
            ("as it is", shared(self.draughting.number), at),
            *((f"area shared by {n} nozzles", shared(n), at) for n in (2, 4)),
            *((f"chimney widening {n} degrees a side", shared(self.draughting.number), widening(n))
              for n in (2, 6)),
            ("no petticoat, a plain edge at the choke", shared(self.draughting.number),
             blunt),
        ]  # fmt: skip
        made = []
        for name, jet, chimney in tried:
            drawn = draw(jet, chimney, self.way(layout))
            known = bool(np.isfinite(drawn.draught[0]))
            made.append(
                Way(name, float(drawn.draught[0]), float(drawn.gas[0]) / steam)
                if known else Way(name, None, None)
            )  # fmt: skip
        return tuple(made)


def _scan(size: Array, drawn: Draught, steam: float) -> Scan:
    return Scan(size, drawn.draught, drawn.back_pressure, drawn.gas / max(steam, 1e-12))


def size_for(scan: Scan, draught: float) -> float | None:
    """Return the greatest size whose draught is `draught`; None where none of the scan has it."""
    known = np.isfinite(scan.draught)
    sizes, values = scan.size[known], scan.draught[known]
    above = np.flatnonzero((values[:-1] >= draught) & (values[1:] < draught))
    if not len(above):
        return None
    i = int(above[-1])
    part = (values[i] - draught) / (values[i] - values[i + 1])
    return float(sizes[i] + part * (sizes[i + 1] - sizes[i]))


def best_of(scan: Scan) -> tuple[float, float] | None:
    """Return size and draught where the draught is greatest; None where nothing is known."""
    if not np.isfinite(scan.draught).any():
        return None
    i = int(np.nanargmax(scan.draught))
    return float(scan.size[i]), float(scan.draught[i])
