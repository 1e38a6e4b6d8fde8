"""The port face: ports, bridges, valve and chest, and what is left at full travel."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from ..findings import Finding
from ..measures import to_step
from ..sizes import check_sizes, figure, size
from .valves import SlideValve


@dataclass(frozen=True, kw_only=True)
class FaceSizes:
    """What the builder decides of the valve and its chest besides the ports."""

    title: ClassVar[str] = "Valve, chest and friction"

    valve_wall: float = size("Valve wider than the port, each side", low=0, high=40, default=1.5)
    chest_clearance: float = size(
        "Clearance of the valve in the chest",
        low=0,
        high=40,
        default=0.5,
        help="at each end of its travel",
    )
    chest_length: float | None = size("Steam chest, length inside", low=1, high=500, default=None)
    chest_width: float | None = size("Steam chest, width inside", low=1, high=500, default=None)
    valve_height: float | None = size(
        "Slide valve, height over its face", low=1, high=200, default=None,
        help="left empty: what cavity, roof and the spindle's nut take",
    )  # fmt: skip
    valve_diameter: float | None = size(
        "Piston valve, diameter", low=1, high=200, default=None,
        help="left empty: the ports take two thirds of the way round",
    )  # fmt: skip
    friction: float = size(
        "Friction of the valve on its face",
        "ratio",
        0.01,
        0.6,
        default=0.15,
        help="coefficient; 0.1 oiled to 0.3 dry, from memory",
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class PortFace:
    """The face as cut: distances from its middle along the valve's line, mm.

    For inside admission the steam is between the heads and the exhaust outside them: the
    heads are drawn, and cavity, seal and exhaust port do not arise.
    """

    port_inner: float = figure("Steam port, inner edge from the middle")
    port_outer: float = figure("Steam port, outer edge from the middle")
    exhaust_half: float = figure("Exhaust port, half width")
    valve_half: float = figure("Valve, half length")
    cavity_half: float = figure("Cavity, half length")
    valve_length: float = figure("Valve, length", main=True)
    cavity_length: float | None = figure("Cavity, length")
    land: float = figure("Face of the valve beside the cavity")
    exhaust_left: float | None = figure("Exhaust left open at full travel", main=True)
    seal: float | None = figure("Seal on the bridge at over-travel")
    chest_needed: float = figure("Steam chest, length needed")
    bears: float = figure("Area of the valve under steam", "mm2")


def port_face(valve: SlideValve, sizes: FaceSizes, travel: float) -> PortFace | None:
    """Return the face for a valve and its greatest travel; None while bridge or exhaust is unknown.

    Parameters
    ----------
    travel : greatest travel in any notch, mm.
    """
    if valve.bridge is None or valve.exhaust_port is None:
        return None
    over = travel / 2
    half = valve.exhaust_port / 2
    inner, outer = half + valve.bridge, half + valve.bridge + valve.port_width
    if valve.admission == "outside":
        valve_half, cavity = outer + valve.steam_lap, inner - valve.exhaust_lap
    else:
        # the heads of a piston valve: steam between them, exhaust at their ends
        valve_half, cavity = outer + valve.exhaust_lap, inner - valve.steam_lap
    width = (valve.port_length or 0.0) + 2 * sizes.valve_wall
    outside = valve.admission == "outside"
    return PortFace(
        port_inner=inner,
        port_outer=outer,
        exhaust_half=half,
        valve_half=valve_half,
        cavity_half=cavity,
        valve_length=2 * valve_half,
        cavity_length=2 * cavity if outside else None,
        land=valve_half - cavity,
        exhaust_left=valve.exhaust_port - max(0.0, over - (cavity - half)) if outside else None,
        seal=min(valve_half - over - half, valve_half - cavity) if outside else None,
        chest_needed=2 * valve_half + travel + 2 * sizes.chest_clearance,
        bears=2 * valve_half * width,
    )


ROUND_SHARE = 2 / 3
"""Share of a liner's way round that its ports take; the bars between them take the rest; common
practice."""


def piston_valve_diameter(valve: SlideValve, sizes: FaceSizes) -> float:
    """Return the diameter of a piston valve as decided, else what its ports ask for, mm."""
    if sizes.valve_diameter is not None:
        return sizes.valve_diameter
    return max(1.0, to_step((valve.port_length or 0.0) / (math.pi * ROUND_SHARE), 0.5))


def piston_valve_findings(valve: SlideValve, sizes: FaceSizes) -> tuple[Finding, ...]:
    """Return what is to be said of the ports round a piston valve's liner."""
    if valve.port_length is None:
        return ()
    diameter = piston_valve_diameter(valve, sizes)
    share = valve.port_length / (math.pi * diameter)
    fields = ("motion.face.valve_diameter", "motion.valve.port_length")
    says = (
        f"Ports {valve.port_length:.2f} mm long in all take {100 * share:.0f} % of the way round a "
        f"piston valve of {diameter:.2f} mm."
    )
    wider = round(valve.port_length / (math.pi * ROUND_SHARE), 1)
    mend, change = f"{wider:g} mm leaves a third for the bars.", (fields[0], wider)
    if share > 1:
        return (Finding("stop", "motion", fields, says, mend, "geometry", change),)
    if share > 0.85:
        return (Finding("check", "motion", fields, says, mend, change=change),)
    return (Finding("fine", "motion", fields, says),)


def face_findings(
    valve: SlideValve, sizes: FaceSizes, face: PortFace | None
) -> tuple[Finding, ...]:
    """Return what is to be said of the face; nothing of cavities where steam is inside."""
    if face is None:
        return (
            Finding(
                "check",
                "motion",
                ("motion.valve.bridge", "motion.valve.exhaust_port"),
                "Bridge and exhaust port are not decided, so the valve cannot be drawn.",
                "Give both; a bridge as wide as the port and an exhaust port of twice its "
                "width are usual.",
            ),
        )
    found: list[Finding] = []
    if valve.steam_lap + valve.exhaust_lap < 0:  # line on line, as without any lap, just seals
        found.append(
            Finding("stop", "motion", ("motion.valve.exhaust_lap",),
                    f"With {_lap('exhaust', valve.exhaust_lap)} and "
                    f"{_lap('steam', valve.steam_lap)} a port is open to steam and exhaust at "
                    "once: live steam blows through.", "Less exhaust clearance than lap.")
        )  # fmt: skip
    if valve.admission == "outside":
        found += [*_exhaust(valve, face), *_seal(valve, face)]
    if valve.admission == "outside" and face.cavity_half <= 0:
        found.append(
            Finding(
                "stop",
                "motion",
                ("motion.valve.exhaust_lap",),
                "The cavity of the valve has no length left.",
                "Take exhaust lap off.",
            )
        )
    if sizes.chest_length is not None:
        short = face.chest_needed - sizes.chest_length
        path = "motion.face.chest_length"
        if short > 1e-9:
            found.append(
                Finding(
                    "stop",
                    "motion",
                    (path,),
                    f"The valve needs a chest {face.chest_needed:.2f} mm long inside; "
                    f"it is {short:.2f} mm short.",
                    "Lengthen the chest.",
                    change=(path, round(face.chest_needed + 0.05, 1)),
                )
            )
        else:
            found.append(
                Finding(
                    "fine",
                    "motion",
                    (path,),
                    f"The chest leaves {-short:.2f} mm beyond the clearance asked.",
                )
            )
    return tuple(found)


def _exhaust(valve: SlideValve, face: PortFace) -> list[Finding]:
    fields = ("motion.valve.exhaust_port", "motion.valve.bridge")
    left, port = face.exhaust_left, valve.port_width
    if left is None:
        return []
    if left <= 0:
        return [
            Finding(
                "stop",
                "motion",
                fields,
                f"At full travel the valve shuts the exhaust port by {-left:.2f} mm.",
                "Widen the exhaust port or the bridges.",
            )
        ]
    if left < 0.75 * port:
        wider = (valve.exhaust_port or 0) + (port - left)
        return [
            Finding(
                "check",
                "motion",
                fields,
                f"At full travel {left:.2f} mm of the exhaust is left open, less than "
                f"three quarters of the {port:.2f} mm steam port; the exhaust is throttled.",
                "Widen the exhaust port.",
                change=("motion.valve.exhaust_port", round(wider, 2)),
            )
        ]
    return [
        Finding(
            "fine",
            "motion",
            fields,
            f"At full travel {left:.2f} mm of the exhaust stays open, for a steam port "
            f"of {port:.2f} mm.",
        )
    ]


def _seal(valve: SlideValve, face: PortFace) -> list[Finding]:
    fields = ("motion.valve.bridge",)
    bridge, seal = valve.bridge or 0.0, face.seal
    if seal is None:
        return []
    if seal <= 0:
        return [
            Finding(
                "stop",
                "motion",
                fields,
                f"At over-travel the valve uncovers the bridge by {-seal:.2f} mm: live "
                "steam blows into the exhaust.",
                "Widen the bridge or shorten the travel.",
            )
        ]
    if seal < 0.5 * bridge:
        return [
            Finding(
                "check",
                "motion",
                fields,
                f"At over-travel {seal:.2f} mm of the {bridge:.2f} mm bridge is left as a seal.",
                "Half a bridge or more is usual: widen it.",
            )
        ]
    return [
        Finding(
            "fine",
            "motion",
            fields,
            f"At over-travel {seal:.2f} mm of face still seals beyond the exhaust port.",
        )
    ]


def _lap(edge: str, lap: float) -> str:
    """Return a lap in words; below nothing it is clearance."""
    word = "lap" if lap >= 0 else "clearance"
    return f"{abs(lap):.2f} mm of {edge} {word}"
