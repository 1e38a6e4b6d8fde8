"""Tables of the chapter: places of a connector, skims, solders, and every size in one list."""

from __future__ import annotations

from dataclasses import replace

from ..trade.brazing import ALLOYS, alloy
from ..workshop.fitting import Fitting, FittingResult
from ..workshop.fitting.decisions import Brazed
from ..workshop.fitting.joints import soldered
from .scene import Table


def places(result: FittingResult) -> Table:
    """Return the places at which both ends seat with port B upright."""
    rows: list[tuple[str | float, ...]] = []
    for one in result.piece.choices:
        do = (
            f"washer of {one.shoulder:.3f} mm" if one.shoulder > 0
            else f"skim {-one.shoulder:.3f} mm" if one.shoulder < 0 else "nothing"
        )  # fmt: skip
        move = (
            f"shim the port {one.move:.3f} mm out" if one.move > 0
            else f"{-one.move:.3f} mm off its seat" if one.move < 0 else "nothing"
        )  # fmt: skip
        turn = f"{abs(one.turned):.0f}° {'further' if one.turned >= 0 else 'less'}"
        rows.append((one.faces, turn, do, move))
    if not rows:
        rows.append(("–", "–", "measure in Threads", "how far short of upright end B comes tight"))
    return Table(
        "Places at which both ends seat",
        ("faces apart", "turn of port B", "under shoulder B", "port B, to suit the frames"),
        tuple(rows),
        "One pitch apart: no metal off a shoulder changes them. Skim or washer makes it tight "
        "there; shim or cut moves the port to it.", fine=True,
    )  # fmt: skip


def skims(result: FittingResult) -> Table:
    """Return what the turn still to go asks of the shoulder, or of a washer."""
    rows: list[tuple[str | float, ...]] = [
        (f"{turn:.0f}°", skim, washer) for turn, skim, washer in result.piece.skims
    ]
    pitch = result.piece.fit.thread_b.designation
    return Table(
        f"Turn still to go at end B ({pitch})",
        ("short of upright", "metal off the shoulder", "or a washer under it"), tuple(rows),
        "Tight and upright: take metal off and turn on, or back off with a washer.", fine=True,
    )  # fmt: skip


def solders(fitting: Fitting, result: FittingResult) -> Table:
    """Return the bores for the same spigot with every solder."""
    rows: list[tuple[str | float, ...]] = []
    from_heat = fitting.brazed.heat
    for name in ALLOYS:
        made = soldered(_with(fitting.brazed, name))
        one = alloy(name)
        chosen = " (chosen)" if name == fitting.brazed.alloy else ""
        rows.append(
            (
                name + chosen, f"{one.solid:.0f} to {one.liquid:.0f} °C",
                f"{1000 * one.gap[0]:.0f} to {1000 * one.gap[1]:.0f} µm",
                f"{1000 * made.gained:+.0f} µm", made.bore[0], made.best, made.bore[1],
            )
        )  # fmt: skip
    at = "" if from_heat is None else f" Heat for the chosen one: {from_heat:.0f} °C."
    return Table(
        f"Bores for a spigot of {fitting.brazed.spigot:.2f} mm: {fitting.brazed.inner} in "
        f"{fitting.brazed.outer}",
        ("solder", "melts", "gap a side, hot", "gained on Ø", "least bore", "aimed at", "greatest"),
        tuple(rows),
        "Bores are cold ones. Gaps as published, at the heat at which the solder runs." + at,
        fine=True,
    )  # fmt: skip


def _with(brazed: Brazed, name: str) -> Brazed:
    """Return the joint with another solder, at that one's own heat."""
    heat = brazed.heat if name == brazed.alloy else None
    return replace(brazed, alloy=name, heat=heat)


def sizes(result: FittingResult) -> Table:
    """Return bond, groove, box and ring as sizes to work to."""
    bond, seal, gland, ring = result.held, result.sealed, result.stuffed, result.ringed
    cut = seal.groove
    rows: tuple[tuple[str | float, ...], ...] = (
        ("bonded pin", bond.pin, "–", f"carries {bond.torque / 1000:.1f} N m on {bond.length:.1f} "
         "mm at its hottest, no factor taken off"),
        ("bore for the compound", bond.bore[0], bond.bore[1], f"wanted {bond.wanted:.3f} mm"),
        ("O-ring groove, depth from the surface sealed", *cut.depth, cut.source),
        ("O-ring groove, width", *cut.width, cut.source),
        ("O-ring groove, radius at the bottom", *cut.radius, "no sharp edge; break the corners"),
        ("clearance on the diameter", *cut.clearance, "of the part with the groove"),
        ("stuffing box, bore", gland.box, "–", "packing pushed in ring by ring, joints apart"),
        ("ring of packing, cut to", gland.cut, "–", "square, ends just apart"),
        ("iron ring, radial depth", ring.radial, "–", "ring groove deeper: "
         f"{ring.groove_depth:.2f} mm"),
        ("iron ring, width", ring.least_width, ring.width, "from and to"),
        ("iron ring, gap free", ring.free, "–", "turned, cut and sprung; or turned to "
         f"Ø {ring.turned:.2f} mm and cut"),
        ("iron ring, gap in the bore", *ring.closed, "opens hot by "
         f"{ring.opens:.3f} mm" if ring.opens >= 0 else f"closes hot by {-ring.opens:.3f} mm"),
    )  # fmt: skip
    return Table(
        "Sizes to work to", ("what", "from", "to", "heed"), rows,
        "Ring, bore and gap in the bore after books of machine design; grooves as published.",
        fine=True,
    )  # fmt: skip
