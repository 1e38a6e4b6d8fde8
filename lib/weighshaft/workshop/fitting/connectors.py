"""A connector between two ports: its lengths, and what each place that fits asks for."""

from __future__ import annotations

from dataclasses import dataclass

from ...threads.connector import ConnectorFit, fit
from ...threads.decisions import Connector
from .decisions import Pipe

EXAMPLE = 40.0
"""Distance of two port faces where none is given, mm: an example."""


@dataclass(frozen=True)
class Choice:
    """A place at which port B stands upright.

    Parameters
    ----------
    faces : distance of the port faces there, mm.
    move : how far port B has to be moved away from where the frames have it, mm; negative nearer.
    shoulder : metal off shoulder B (negative) or washer under it, mm, so that it comes up tight.
    turned : how much further port B is turned than where it comes up tight, degrees.
    """

    faces: float
    move: float
    shoulder: float
    turned: float


@dataclass(frozen=True)
class Piece:
    """The connector as a piece to be made; lengths in mm.

    Parameters
    ----------
    faces : distance of the port faces wanted.
    body : between the shoulders.
    over_all : over both ends.
    blank : length to be cut.
    ports : least depths tapped in ports A and B.
    skims : (turn still to go in degrees, metal off a shoulder, or washer instead).
    """

    faces: float
    body: float
    engaged: tuple[float, float]
    over_all: float
    blank: float
    ports: tuple[float, float]
    fit: ConnectorFit
    choices: tuple[Choice, ...]
    skims: tuple[tuple[float, float, float], ...]
    given: bool


def piece(pipe: Pipe, connector: Connector) -> Piece:
    """Return the connector with its lengths, from the clocking that Threads works out."""
    clocked = fit(connector)
    known = connector.distance is not None
    faces = connector.distance if connector.distance is not None else EXAMPLE
    a, b = clocked.thread_a, clocked.thread_b
    engaged = (pipe.engaged_a or a.major, pipe.engaged_b or b.major)
    body = faces - 2 * pipe.washer
    over = body + sum(engaged)
    length = connector.length
    choices = tuple(
        Choice(
            place, place - faces, place - (length or faces),
            360 * ((length or faces) - place) / b.pitch,
        )
        for place in clocked.places
    )  # fmt: skip
    skims = tuple(
        (float(turn), b.pitch * turn / 360, b.pitch * (360 - turn) / 360)
        for turn in range(30, 360, 30)
    )
    return Piece(
        faces, body, engaged, over, over + pipe.allowance,
        (engaged[0] + 2 * a.pitch, engaged[1] + 2 * b.pitch), clocked, choices, skims, known,
    )  # fmt: skip
