"""The crankpin on its way past the crosshead, enlarged: seen along the engine, to scale."""

from __future__ import annotations

from ..wheels import OutsideCylinders, Wheels, WheelsResult
from .scene import Dimension, Fill, Label, Path, Pen, Primitive, Scene, box


def at_the_crankpin(wheels: Wheels, result: WheelsResult) -> Scene:
    """Return the parts outside the frames from the wheel to the cylinder's outside.

    x is the distance from the engine's centre line, y the height above the crankpin, which
    stands level with the crosshead; the axle's side play is dashed.
    """
    pin = wheels.across.crankpin
    face, back = result.wheel_face, result.back_to_back / 2
    high = 1.9 * pin
    boss = face + wheels.across.boss_outside
    rod_in = result.rod_outside - wheels.across.coupling_rod
    still: list[Primitive] = [
        _part(back, face, high, "tyre", fill="section"),
        _part(min(face, boss), max(face, boss), 1.3 * pin, "wheel boss", fill="section"),
        _part(back, result.pin_outside, pin / 2, "crankpin", "thin"),
        _part(rod_in, result.rod_outside, 1.1 * pin, "coupling rod", fill="metal"),
        _part(result.rod_outside, result.pin_outside, 0.75 * pin, "crankpin cap", fill="metal"),
    ]
    named = [
        ("wheel", (back + face) / 2, high),
        ("coupling rod", (rod_in + result.rod_outside) / 2, 1.1 * pin),
        ("cap", (result.rod_outside + result.pin_outside) / 2, 0.75 * pin),
    ]
    end = result.pin_outside
    play = max(wheels.plays)
    fouls = result.pin_clearance is not None and result.pin_clearance <= 0
    if isinstance(wheels.cylinders, OutsideCylinders):
        middle, half = wheels.cylinders.centres / 2, wheels.cylinders.crosshead_width / 2
        big = wheels.cylinders.big_end / 2
        end = middle + max(half, big)
        still += [
            _part(middle - half, middle + half, 1.4 * pin, "crosshead",
                  "stop" if fouls else "outline", "metal"),
            _part(middle - big, middle + big, 1.1 * pin, "connecting rod", "hidden"),
            Path(box(middle, -high, middle, high)[1:3], "centre", part="cylinder"),
        ]  # fmt: skip
        named += [("crosshead and slide bars", middle + 0.7 * half, 1.4 * pin),
                  ("connecting rod", middle + 0.7 * big, -1.1 * pin)]  # fmt: skip
        if result.pin_clearance is not None:
            head = middle - half
            play = head - result.pin_outside - result.pin_clearance
            still.append(
                Dimension((head - result.pin_clearance, -1.5 * pin), (head, -1.5 * pin),
                          f"{result.pin_clearance:.2f}", 0)
            )  # fmt: skip
    slid: Pen = "stop" if fouls else "hidden"
    still.append(
        _part(result.pin_outside, result.pin_outside + play, 0.75 * pin, "crankpin cap", slid)
    )
    still.append(Path(box(back - pin, 0, end + pin, 0)[:2], "centre", part="crankpin"))
    for n, (text, x, y) in enumerate(named):
        at = (x, 0.8 * y)
        level = high + 0.7 * pin * (1 + n % 2) if y > 0 else -high - 0.7 * pin
        still.append(
            Label(text, (back + (end - back) * (n + 0.3) / len(named), level), "middle", at)
        )
    still.append(Dimension((back, -high), (face, -high), f"{face - back:.2f}", -pin / 2))
    return Scene("At the crankpin, seen along the engine", _says(result, play), tuple(still))


def _part(x0: float, x1: float, half: float, part: str, pen: Pen = "outline",
          fill: Fill = "none") -> Path:  # fmt: skip
    return Path(box(x0, -half, x1, half), pen, True, fill, part)


def _says(result: WheelsResult, play: float) -> str:
    chain = (
        f"From the engine's centre line: tyre face {result.wheel_face:.2f}, coupling rod to "
        f"{result.rod_outside:.2f}, crankpin to {result.pin_outside:.2f} mm, with {play:.2f} mm of "
        "side play dashed beyond it"
    )
    if result.pin_clearance is None:
        return f"{chain}; no crankpin passes a crosshead."
    if result.pin_clearance <= 0:
        return f"{chain}; it fouls the crosshead by {-result.pin_clearance:.2f} mm."
    return f"{chain}, which leaves {result.pin_clearance:.2f} mm to the crosshead."
