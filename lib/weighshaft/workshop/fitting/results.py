"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding, Suggestion
from ...sizes import figure
from ...working import Working
from .connectors import Piece
from .joints import Held, Soldered
from .manifold import Made
from .seals import Ringed, Sealed, Stuffed


@dataclass(frozen=True, kw_only=True)
class FittingResult:
    """Figures, workings and findings; see `Fitting` for the decisions."""

    body: float = figure("Connector between its shoulders, so that both seat", main=True)
    over_all: float = figure("Connector over both ends")
    blank: float = figure("Bar to cut for the connector")
    manifold_body: float = figure("Manifold, body diameter")
    manifold_length: float = figure("Manifold, body length")
    manifold_share: float = figure("Manifold, bores of the branches over the supply's", "ratio")
    manifold_room: float | None = figure("Manifold, least room for nut or spanner")
    solder_bore: float = figure("Bore for the spigot, cold", main=True)
    solder_gap: float = figure("Gap on each side, cold")
    solder_heat: float = figure("Heat of the joint", "degC")
    solder_wire: float = figure("Solder wire for the joint")
    bond_bore: float = figure("Bore for the bonded pin")
    bond_torque: float = figure("Torque that shears the bond", "N mm")
    groove_diameter: float = figure("O-ring groove, diameter at its bottom", main=True)
    groove_width: float = figure("O-ring groove, width")
    squeeze: float = figure("O-ring, squeeze", "%")
    filled: float = figure("O-ring, groove filled", "%")
    o_ring: str = figure("O-ring to ask for", "text", main=True)
    box: float = figure("Stuffing box, bore", main=True)
    packing: str = figure("Packing of the gland", "text")
    box_depth: float = figure("Stuffing box, depth for packing and nose")
    radial: float = figure("Iron ring, radial depth", main=True)
    free_gap: float = figure("Iron ring, gap when free")
    closed_gap: float = figure("Iron ring, least gap in the bore, cold")
    ring_stress: float = figure("Iron ring, bending when spread over the piston", "N/mm2")
    taken_from: str = figure("Rod, bore and axle are", "text")

    piece: Piece
    manifold: Made
    soldered: Soldered
    held: Held
    sealed: Sealed
    stuffed: Stuffed
    ringed: Ringed
    cautions: tuple[str, ...] = ()
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
