"""Charts of a valve gear: valve against piston, ports open, and the polar diagrams."""

from __future__ import annotations

import numpy as np

from ..motion import ValveMotion
from ..motion.chapter import FRAMES, MotionResult
from .scene import Array, Band, Chart, Curve


def valve_against_piston(motion: ValveMotion, result: MotionResult) -> Chart:
    """Return the valve oval: displacement of the valve over the position of the piston."""
    valve = result.seen
    xi = result.displacement[-2]
    piston = 100 * result.piston.from_front(FRAMES)
    return Chart(
        "Valve against piston",
        f"The valve moves from {xi.min():.2f} to {xi.max():.2f} mm as the piston goes to and fro; "
        f"within {valve.steam_lap:.2f} mm of lap either way both ports are shut to steam.",
        "piston from the front, % of stroke", "valve ahead, mm",
        (Curve(_round(piston), _round(xi), "valve", "changed"),),
        (Band(-valve.steam_lap, valve.steam_lap, "steam lap"),),
        follows=(0,),
    )  # fmt: skip


def openings(motion: ValveMotion, result: MotionResult) -> Chart:
    """Return by how much each port is open to steam and to exhaust around the revolution."""
    valve, xi = result.seen, result.displacement[-2]
    theta = np.append(FRAMES, 360.0)

    def over(opening: Array) -> Array:
        return _round(np.clip(opening, 0.0, valve.port_width))

    front, back = valve.steam_opening("front", xi), valve.steam_opening("back", xi)
    curves = (
        Curve(theta, over(front), "front, steam", "changed"),
        Curve(theta, over(back), "back, steam", "trace"),
        Curve(theta, over(valve.exhaust_opening("front", xi)), "front, exhaust", "behind"),
        Curve(theta, over(valve.exhaust_opening("back", xi)), "back, exhaust", "hidden"),
    )
    return Chart(
        "Ports open",
        f"Openings over one turn: the front port opens {max(front.max(), 0):.2f} mm to steam, the "
        f"back one {max(back.max(), 0):.2f} mm, of a width of {valve.port_width:.2f} mm.",
        "crank angle, degrees", "open, mm", curves,
        (Band(valve.port_width, valve.port_width, "width of the port"),),
        follows=(0, 1, 2, 3),
    )  # fmt: skip


def polar(motion: ValveMotion, result: MotionResult) -> list[Chart]:
    """Return Zeuner's and Reuleaux's diagrams of the equivalent eccentric in this notch."""
    one, lap = result.equivalent[-2], result.seen.steam_lap
    inside = abs(result.seen.exhaust_lap)
    r, delta = one.throw, np.radians(one.advance)
    if r <= 0:
        return []
    turn = np.radians(np.linspace(0, 360, 121))

    def circle(radius: float, x: float = 0.0, y: float = 0.0) -> tuple[Array, Array]:
        return x + radius * np.cos(turn), y + radius * np.sin(turn)

    # a crank at angle theta cuts off on the valve circle the displacement r sin(theta + delta)
    x, y = r / 2 * np.sin(delta), r / 2 * np.cos(delta)
    dead = np.array([-1.05 * r, 1.05 * r]), np.zeros(2)
    axis = np.array([-x, x]) * 2, np.array([-y, y]) * 2
    words = (f"equivalent eccentric: throw {r:.2f} mm, advance {one.advance:.1f}°, from which the "
             f"gear departs by up to {one.departure:.2f} mm")  # fmt: skip
    zeuner = Chart(
        "Zeuner's diagram",
        f"Valve circles of the {words}; where the lap circle of {lap:.2f} mm cuts them the port "
        "opens and shuts.",
        "mm", "mm",
        (
            Curve(*circle(r / 2, x, y), "valve circle, front", "changed"),
            Curve(*circle(r / 2, -x, -y), "valve circle, back", "trace"),
            Curve(*circle(abs(lap)), "steam lap"),
            *((Curve(*circle(inside), "exhaust lap", "thin"),) if inside else ()),
            Curve(*dead, "", "centre"),
            Curve(*axis, "", "thin"),
        ),
        equal=True,
    )  # fmt: skip
    # the crank circle; a line inclined by the advance, and one beside it at the lap
    along = np.array([np.cos(delta), -np.sin(delta)])
    beside = np.array([np.sin(delta), np.cos(delta)])
    cut = np.sqrt(max(r * r - lap * lap, 0.0))
    chord = np.array([lap * beside - cut * along, lap * beside + cut * along])
    back = -chord
    line = np.array([-r * along, r * along])
    reuleaux = Chart(
        "Reuleaux's diagram",
        f"Crank circle of the {words}; the chord at {lap:.2f} mm from the inclined line meets the "
        "circle where the crank stands at admission and cut-off.",
        "mm", "mm",
        (
            Curve(*circle(r), "crank circle"),
            Curve(line[:, 0], line[:, 1], "inclined by the advance", "thin"),
            Curve(chord[:, 0], chord[:, 1], "steam lap, front", "changed"),
            Curve(back[:, 0], back[:, 1], "steam lap, back", "trace"),
            Curve(*dead, "", "centre"),
        ),
        equal=True,
    )  # fmt: skip
    return [zeuner, reuleaux]


def _round(values: Array) -> Array:
    """Return a curve over the turn with its first point again at the end."""
    return np.append(values, values[:1])
