"""Steam chest and its cover with their holes, drawn with their sizes."""

from __future__ import annotations

from typing import Any

import numpy as np

from ...cylinders.chest import SteamChest
from ...design import Design
from ...threads.joints import JointResult
from ...wheels.decisions import InsideCylinders
from ..lengths import length
from ..scene import Circle, Label, Path, box
from .dimensions import chain, overall, rows
from .lathe import axis_line
from .sheet import Drawing, View, centre_lines, hole, polygon
from .shop import ELSE, FINE, Drawn


def chest_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return steam chest and cover of a slide valve; empty without one."""
    chest = work.cylinders.chest
    if chest is None:
        return []
    return [valve_chest(design, work, chest), chest_cover(design, work, chest)]


def _clear(design: Design, work: Any) -> tuple[float, str]:
    """Return diameter of a hole that clears a stud, mm, and what is said of the holes."""
    stud: JointResult | None = work.threads.joint("chest")
    number = len(work.cylinders.chest.studs)
    if stud is None:
        return float(work.cylinders.screw_major), f"{number} × clear of a stud"
    if stud.clear is None:
        return stud.one.major, f"{number} × clear of {stud.one.designation}"
    return stud.clear.diameter, f"{number} × clear of {stud.one.designation}, {stud.clear.name}"


def _from_above(design: Design, work: Any, chest: SteamChest, scale: float, opened: bool) -> Drawn:
    """Return walls or cover from above, with the holes for the studs and their places."""
    x, y = (one / 2 for one in chest.outside)
    a, b = chest.length / 2, chest.width / 2
    diameter, words = _clear(design, work)
    name = "chest" if opened else "chest cover"
    plan: Drawn = [polygon(box(-x, -y, x, y), "metal", name)]
    if opened:
        plan.append(polygon(box(-a, -b, a, b), "paper"))
    else:
        plan.append(Path(box(-a, -b, a, b), "hidden", True))
    out = y + 3.0 / scale
    plan += [axis_line(-x, x, scale), Path(np.array([[0.0, -out], [0.0, out]]), "centre")]
    for at in chest.studs:
        plan += [hole(at, diameter), *centre_lines(at, 0.2 * diameter, scale)]
    along = sorted({round(u, 6) for u, v in chest.studs if abs(v - max(w for _, w in chest.studs))
                    < 1e-6})  # fmt: skip
    across = sorted({round(v, 6) for u, v in chest.studs if abs(u - along[0]) < 1e-6})
    plan += rows("above", y, [*chain(along), overall(along[0], along[-1])], scale,
                 [across[-1]] * len(along))  # fmt: skip
    below = [overall(-x, x)]
    if opened:
        below += [overall(-a, a), (a, x, "")]
    plan += rows("below", -y, below, scale)
    plan += rows("left", -x, [*chain(across), overall(across[0], across[-1])]
                 if len(across) > 2 else chain(across), scale)  # fmt: skip
    plan += rows("right", x, [overall(-y, y), *([overall(-b, b)] if opened else [])], scale)
    plan.append(Label(words, (x + 26.0 / scale, -y - 9.0 / scale), "start",
                      (along[-1], across[0])))  # fmt: skip
    return plan


def valve_chest(design: Design, work: Any, chest: SteamChest) -> Drawing:
    """Return the steam chest from above, from the side, and the end where the spindle comes."""
    gland, steam = work.threads.joint("valve_gland"), work.threads.joint("steam")
    over = chest.spindle - chest.face_height if chest.spindle is not None else None
    if over is None:
        # as the valve asks: its nut is one and a half piston rods across
        over = chest.valve_height - 0.75 * work.cylinders.axis.rod
    major = gland.one.major if gland else 0.0
    shown = gland is not None and 0.5 * major < over < chest.height - 0.5 * major
    says = [
        f"Inside for the valve of {length(work.motion.face.valve_length)}, its travel of "
        f"{length(work.motion.travel)} and {length(design.motion.face.chest_clearance)} at each "
        "end. Studs: drilled with the cover, spotted through into the block.",
    ]
    if isinstance(design.wheels.cylinders, InsideCylinders):
        says.append("One chest for both where the valves stand back to back between the cylinders.")
    if steam:
        says.append(f"Steam inlet {steam.one.designation}, drill {steam.drill.name}.")
    if gland and not shown:
        says.append(f"Spindle gland {gland.one.designation}, drill {gland.drill.name}: it wants "
                    "a boss, as it does not go into the end wall.")  # fmt: skip

    def views(scale: float) -> tuple[View, ...]:
        x, y = (one / 2 for one in chest.outside)
        a, high = chest.length / 2, chest.height
        plan = _from_above(design, work, chest, scale, opened=True)
        if not shown or gland is None:
            return (View("elevation", tuple(plan)), View("end", tuple(_plain_end(chest, scale))))
        side: Drawn = [polygon(box(-x, 0.0, x, high), "metal", "chest")]
        side += [Path(np.array([[s * a, 0.0], [s * a, high]]), "hidden") for s in (-1, 1)]
        side += [Path(np.array([[-x, over + s * major / 2], [-a, over + s * major / 2]]), "hidden")
                 for s in (-1, 1)]  # fmt: skip
        side.append(axis_line(-x, x, scale, over))
        end: Drawn = [polygon(box(-y, 0.0, y, high), "metal")]
        end += [hole((0.0, over), gland.drill.diameter), Circle((0.0, over), major / 2, "thin")]
        end += centre_lines((0.0, over), y, scale)
        end += rows("right", y, [(0.0, over, ""), overall(0.0, high)], scale)
        words = (
            f"{gland.one.designation}, drill {gland.drill.name},\n"
            f"{length(gland.engagement)} of thread"
        )
        end.append(Label(words, (0.0, high + 9.0 / scale), "middle", (0.0, over + major / 2)))
        return (
            View("elevation", tuple(side)), View("end", tuple(end)), View("plan", tuple(plan))
        )  # fmt: skip

    return Drawing(
        key="valve-chest", title="Steam chest", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, notes=tuple(says), flat=not shown,
        tolerance=f"Joint faces flat and parallel within {FINE}; inside +{length(0.1)}{ELSE}",
    )  # fmt: skip


def _plain_end(chest: SteamChest, scale: float) -> Drawn:
    """Return the end of a chest without its gland."""
    y = chest.outside[1] / 2
    end: Drawn = [polygon(box(0.0, -y, chest.height, y), "metal")]
    return end + list(rows("above", y, [overall(0.0, chest.height)], scale))


def chest_cover(design: Design, work: Any, chest: SteamChest) -> Drawing:
    """Return the cover of the steam chest with its holes."""

    def views(scale: float) -> tuple[View, ...]:
        y = chest.outside[1] / 2
        end: Drawn = [polygon(box(0.0, -y, chest.cover, y), "metal")]
        end += rows("above", y, [overall(0.0, chest.cover)], scale)
        plan = _from_above(design, work, chest, scale, opened=False)
        return (View("elevation", tuple(plan)), View("end", tuple(end)))

    return Drawing(
        key="chest-cover", title="Steam-chest cover", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, flat=True,
        notes=(
            "Drill cover and chest clamped together. Hidden: the inside of the chest.",
            f"Bends with {chest.cover_stress:.0f} N/mm² between its rows of studs at full "
            "pressure.",
        ),
        tolerance=f"Joint face flat within {FINE}{ELSE}",
    )  # fmt: skip
