"""Poses per second of Stephenson's motion, beside a general solver on the same equations.

The general solver is `scipy.optimize.fsolve` on the three closure equations of the link (two
eccentric rods and the lifting link), in its two coordinates and its angle, started from the
pose before; the ratio is what a vectorised solution gains.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from math import cos, sin

import numpy as np
from scipy.optimize import fsolve

from weighshaft.motion import Crank, Stephenson, solve_motion
from weighshaft.motion.frame import Array, eccentric_leads, pin
from weighshaft.motion.kernel import closure_error
from weighshaft.motion.parts import arm_end

CRANK = Crank(40.0, 120.0)
GEAR = Stephenson(
    eccentric_throw=6.0, advance=20.0, eccentric_rod=125.0, link_radius=133.0, pin_spacing=40.0,
    backset=8.0, suspension_ahead=-1.0, suspension_above=1.0, lifting_link=55.0,
    lifting_arm=38.0, weighshaft_x=93.0, weighshaft_y=55.0, arm_angle_forward=-25.0,
    arm_angle_backward=25.0, die_height=0.0,
)  # fmt: skip
THETA = np.linspace(0.0, 360.0, 720, endpoint=False)
NOTCHES = np.linspace(1.0, -1.0, 11)
ROUNDS = 25


def seconds(call: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Return the median time of a call, s."""
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        call()
        taken.append(time.perf_counter() - start)
    return float(np.median(taken))


def eccentrics(theta: Array) -> list[Array]:
    """Return the two sheaves' centres for crank angles in degrees."""
    leads = eccentric_leads(GEAR.advance, 0.0, turned=False)
    return [pin(GEAR.eccentric_throw, lead, np.radians(theta)) for lead in leads]


def arms() -> Array:
    """Return the lifting arm's end for each notch, (m, 1, 2)."""
    return arm_end(
        GEAR.weighshaft_x, GEAR.weighshaft_y, GEAR.lifting_arm,
        GEAR.arm_angle_forward, GEAR.arm_angle_backward, NOTCHES[:, None],
    )  # fmt: skip


def by_fsolve(every: int) -> tuple[int, float]:
    """Return how many poses a lean fsolve has solved, and its worst miss, mm."""
    half, rod2, hang2 = GEAR.pin_spacing / 2, GEAR.eccentric_rod**2, GEAR.lifting_link**2
    ahead, above = GEAR.backset + GEAR.suspension_ahead, GEAR.suspension_above
    upper, lower = eccentrics(THETA[::every])
    count, worst = 0, 0.0
    for ax, ay in arms()[::5, 0]:
        start = np.array([123.0, 0.0, 0.0])
        for (ux, uy), (lx, ly) in zip(upper, lower, strict=True):

            def closure(q: Array) -> list[float]:
                x, y, c, s = q[0], q[1], cos(q[2]), sin(q[2])
                return [
                    (x - half * s - ux) ** 2 + (y + half * c - uy) ** 2 - rod2,  # noqa: B023
                    (x + half * s - lx) ** 2 + (y - half * c - ly) ** 2 - rod2,  # noqa: B023
                    (x + ahead * c - above * s - ax) ** 2  # noqa: B023
                    + (y + ahead * s + above * c - ay) ** 2  # noqa: B023
                    - hang2,
                ]

            start = fsolve(closure, start, xtol=1e-12)
            worst = max(worst, max(map(abs, closure(start))) / (2 * GEAR.lifting_link))
            count += 1
    return count, worst


def main() -> None:
    """Print the figures and their ratio."""
    count, worst = by_fsolve(8)
    general = seconds(lambda: by_fsolve(8), 3) / count
    upper, lower = (centre[None] for centre in eccentrics(THETA))
    arm = arms()
    poses = len(THETA) * len(NOTCHES)
    link = seconds(lambda: GEAR._links(upper, lower, arm)) / poses
    residual = closure_error(GEAR.pose(CRANK, THETA[None], NOTCHES[:, None]))
    whole = seconds(lambda: solve_motion(CRANK, GEAR, THETA, NOTCHES)) / poses
    print(f"fsolve, three closure equations   {1e6 * general:8.3f} us a pose, miss {worst:.1e} mm")
    print(f"the link alone, the same          {1e6 * link:8.3f} us a pose, miss {residual:.1e} mm")
    print(f"link, die, valve, residual        {1e6 * whole:8.3f} us a pose")
    print(f"ratio, link alone to fsolve       {general / link:8.0f} : 1")
    print(f"ratio, the whole motion to fsolve {general / whole:8.0f} : 1")


if __name__ == "__main__":
    main()
