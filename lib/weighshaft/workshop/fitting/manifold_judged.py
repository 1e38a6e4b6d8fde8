"""What is to be said of a manifold."""

from __future__ import annotations

import math
from dataclasses import replace

from ...erection.spanners import corners
from ...findings import Finding
from ...threads.connector import shift_of_turn
from .decisions import BRAZED_IN, SCREWED_IN, Manifold
from .manifold import BEHIND, Made, Room, Stub

LEAST_OVERLAP = 3.0
"""Spigot in its bore over its own wall; common practice."""
LEAST_TURNS = 3.0
"""Turns of a thread in the body that hold a branch; common practice."""


def judge_manifold(decided: Manifold, made: Made, *, example: bool) -> list[Finding]:
    """Return the findings on a manifold.

    Parameters
    ----------
    example : whether it is not made for this engine: what would stop it is only to be looked at.
    """
    found = _judged(decided, made)
    eased = {"stop": "check", "check": "fine"} if example else {}
    return [replace(one, level=eased.get(one.level, one.level)) for one in found]  # type: ignore[arg-type]


def _judged(decided: Manifold, made: Made) -> list[Finding]:
    if not made.stubs:
        return [
            _found("check", "manifold.branches", "The manifold has no branches.",
                   "Add one or more.")
        ]  # fmt: skip
    found = [*_of_body(decided, made)]
    for stub in made.stubs:
        found += _of_stub(decided, made, stub)
    for room in made.rooms:
        found += _of_room(made, room)
    found += _of_supply(decided, made)
    if not any(one.level != "fine" for one in found):
        least = min((min(room.nuts, room.spanner) for room in made.rooms), default=0.0)
        found.append(
            _found(
                "fine", "manifold.branches",
                f"{len(made.stubs)} branches stand clear of each other, spanners too"
                + (f", by {least:.2f} mm or more." if made.rooms else "."),
            )
        )  # fmt: skip
    return found


def _found(level: str, at: str, says: str, mend: str = "", source: str = "geometry") -> Finding:
    fields = tuple(f"fitting.{one}" for one in at.split())
    return Finding(level, "fitting", fields, says, mend, source)  # type: ignore[arg-type]


def _path(number: int, field: str) -> str:
    return f"manifold.branches.{number - 1}.{field}"


def _called(stub: Stub) -> str:
    return f"Branch {stub.number} ({stub.branch.name[:30]})"


def _of_body(decided: Manifold, made: Made) -> list[Finding]:
    found = []
    if made.wall < 0.3:
        found.append(
            _found("stop", "manifold.body manifold.bore",
                   f"A body of {made.body:.2f} mm leaves {made.wall:.2f} mm round the supply's "
                   f"bore of {made.bore:.2f} mm.", f"{made.usual[0]:.1f} mm or more.")
        )  # fmt: skip
    elif made.wall < made.wall_wanted - 1e-9:
        found.append(
            _found("check", "manifold.body manifold.bore",
                   f"{made.wall:.2f} mm round the supply's bore is less than the usual "
                   f"{made.wall_wanted:.2f} mm.", f"A body of {made.usual[0]:.1f} mm.",
                   "common practice")
        )  # fmt: skip
    core = (made.thread.minor - made.bore) / 2
    if core < 0.3:
        found.append(
            _found("stop", "manifold.thread manifold.bore",
                   f"The supply's bore of {made.bore:.2f} mm leaves {core:.2f} mm within the core "
                   f"of {made.thread.designation}.", "A larger thread or a smaller bore.")
        )  # fmt: skip
    elif core < made.wall_wanted - 1e-9:
        found.append(
            _found("check", "manifold.thread manifold.bore",
                   f"{core:.2f} mm between the supply's bore and the core of "
                   f"{made.thread.designation} is less than the usual {made.wall_wanted:.2f} mm.",
                   "A larger thread or a smaller bore.", "common practice")
        )  # fmt: skip
    return found


def _of_stub(decided: Manifold, made: Made, stub: Stub) -> list[Finding]:
    found, n, called = [], stub.number, _called(stub)
    straight = stub.emerges == 0
    if not straight and stub.branch.along > made.length:
        found.append(
            _found("stop", f"{_path(n, 'along')} manifold.length",
                   f"{called} stands {stub.branch.along:.2f} mm from the supply end, beyond a body "
                   f"of {made.length:.2f} mm.", "A longer body.")
        )  # fmt: skip
    if stub.wall < 0.3:
        found.append(
            _found("stop", f"{_path(n, 'bore')} {_path(n, 'thread')}",
                   f"{called}: a bore of {stub.bore:.2f} mm leaves {stub.wall:.2f} mm within the "
                   f"core of {stub.thread.designation}.", "A smaller bore or a larger thread.")
        )  # fmt: skip
    elif stub.wall < stub.wall_wanted - 1e-9:
        found.append(
            _found("check", f"{_path(n, 'bore')} {_path(n, 'thread')}",
                   f"{called}: {stub.wall:.2f} mm between bore and core of the thread; "
                   f"{stub.wall_wanted:.2f} mm is usual.", "A smaller bore or a larger thread.",
                   "common practice")
        )  # fmt: skip
    if not straight:
        ends = min(stub.foot[0], made.length - stub.foot[1])
        if ends < 0:
            found.append(
                _found("stop", f"{_path(n, 'along')} manifold.length",
                       f"{called} breaks out of an end of the body by {-ends:.2f} mm.",
                       "Further from the end.")
            )  # fmt: skip
        elif ends < made.wall_wanted - 1e-9:
            found.append(
                _found("check", f"{_path(n, 'along')} manifold.length",
                       f"{called} leaves {ends:.2f} mm to an end of the body; "
                       f"{made.wall_wanted:.2f} mm is usual.", "Further from the end.",
                       "common practice")
            )  # fmt: skip
    lowest = float(min(stub.at(stub.nut_from)[0], stub.at(stub.long)[0]))
    lowest -= corners(stub.flats) / 2 * math.hypot(*stub.direction[1:])
    if lowest < 0:
        found.append(
            _found("check", _path(n, "along"),
                   f"The union nut of {called[0].lower() + called[1:]} reaches {-lowest:.2f} mm "
                   "over the face that the supply end seats on.", "Further from that end.")
        )  # fmt: skip
    behind = stub.behind
    if behind < BEHIND - 1e-9:
        found.append(
            _found("stop" if behind < 0 else "check", _path(n, "reach"),
                   f"{called}: a reach of {stub.reach:.2f} mm leaves the union nut "
                   f"{behind:.2f} mm to the body.",
                   f"{stub.reach + BEHIND - behind:.1f} mm or more.")
        )  # fmt: skip
    return [*found, *_of_fixing(decided, made, stub)]


def _of_fixing(decided: Manifold, made: Made, stub: Stub) -> list[Finding]:
    found, n, called = [], stub.number, _called(stub)
    depth = stub.emerges - stub.leaves
    if stub.branch.fixing == BRAZED_IN:
        need = LEAST_OVERLAP * (stub.thread.major - stub.bore) / 2
        if depth < 0.5 * need:
            found.append(
                _found("check", f"manifold.body {_path(n, 'fixing')}",
                       f"{called} is brazed into {depth:.2f} mm of metal; three of its walls, "
                       f"{need:.2f} mm, are usual.", "A thicker body, or a flange on the stub.",
                       "common practice")
            )  # fmt: skip
        if stub.joint is not None and stub.joint.gained < -2 * stub.joint.alloy.gap[0]:
            found.append(
                _found("check", "manifold.metal manifold.stub",
                       f"{called}: its gap closes by {-stub.joint.gained:.3f} mm when hot; bore to "
                       f"{stub.joint.best:.3f} mm, measured cold.", "Bore as the table has it.")
            )  # fmt: skip
    elif stub.branch.fixing == SCREWED_IN and depth < LEAST_TURNS * stub.thread.pitch:
        found.append(
            _found("check", f"manifold.body {_path(n, 'fixing')}",
                   f"{called} has {depth / stub.thread.pitch:.1f} turns of thread in the body; "
                   f"{LEAST_TURNS:.0f} or more hold.", "A thicker body, or braze it in.",
                   "common practice")
        )  # fmt: skip
    if stub.skim:
        found.append(
            _found("check", _path(n, "short"),
                   f"{called} comes up tight {stub.branch.short:.0f}° short: {stub.skim:.3f} mm "
                   f"off its shoulder, or a washer of {stub.washer:.3f} mm, brings it "
                   "to its clocking.",
                   "Skim, or shim.", shift_of_turn.source)
        )  # fmt: skip
    return found


def _of_room(made: Made, room: Room) -> list[Finding]:
    stubs = {one.number: one for one in made.stubs}
    a, b = stubs[room.one], stubs[room.other]
    both = f"branches {a.number} and {b.number} ({a.branch.name[:20]}, {b.branch.name[:20]})"
    at = f"{_path(a.number, 'along')} {_path(b.number, 'along')} {_path(b.number, 'clocking')}"
    longer = f"{_path(a.number, 'reach')} {_path(b.number, 'reach')} {at}"
    found = []
    wall = min(room.bores, room.holes)
    which = "bores" if room.bores <= room.holes else "holes in the body"
    wanted = max(a.wall_wanted, b.wall_wanted)
    if wall < 0:
        found.append(
            _found("stop", at, f"The {which} of {both} run into each other by {-wall:.2f} mm "
                   "beyond the supply's bore.", "Further apart, or turned away.")
        )  # fmt: skip
    elif wall < wanted - 1e-9:
        found.append(
            _found("check", at, f"The {which} of {both} leave {wall:.2f} mm of metal; "
                   f"{wanted:.2f} mm is usual.", "Further apart.", "common practice")
        )  # fmt: skip
    if room.nuts < 0:
        found.append(
            _found("stop", longer, f"The union nuts of {both} foul each other by "
                   f"{-room.nuts:.2f} mm over their corners.",
                   "Further apart, turned away, or one longer.")
        )  # fmt: skip
    elif room.spanner < 0:
        found.append(
            _found("check", longer, f"An open-ended spanner does not go round between the nuts of "
                   f"{both}: {-room.spanner:.2f} mm are lacking.",
                   "Come from the other side, or further apart.",
                   "head 2.1 times the flats and 2 mm, from memory")
        )  # fmt: skip
    return found


def _of_supply(decided: Manifold, made: Made) -> list[Finding]:
    found = []
    if made.skim:
        found.append(
            _found("check", "manifold.short",
                   f"The manifold comes up tight {decided.short:.0f}° short of upright: "
                   f"{made.skim:.3f} mm off the shoulder of its supply end, or a washer of "
                   f"{made.washer:.3f} mm, brings it upright.", "Skim, or shim.",
                   shift_of_turn.source)
        )  # fmt: skip
    if made.share > 1 + 1e-9:
        found.append(
            _found("fine", "manifold.bore",
                   f"The branches' bores together are {made.share:.2f} times the supply's: with "
                   "all open at once the supply throttles them.",
                   "A larger supply, if all are to be open together.")
        )  # fmt: skip
    return found
