"""Engines of the nineteenth century that were measured, as the cycle takes them.

What the sources do not print is assumed here once, in words, and was not fitted to any result.
"""

import csv
import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from weighshaft.steam import Cycle, End, Losses, Outlet, Supply, run
from weighshaft.steam.engine import GAP_SHARE

DATA = Path(__file__).parent / "data"
AT = 0.980665
"""bar for 1 kgf/cm2."""
PSI, INCH = 0.0689475729, 25.4
STEPS = 360
RODS = 5.0
"""Connecting rod over crank, where no source prints it; usual."""
PORTS = 0.7


def figures(name: str, key: str) -> dict[str, float]:
    """Return the numbers of one set of a long table."""
    made = {}
    with open(DATA / name, encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["set"] == key:
                try:
                    made[row["quantity"]] = float(row["value"])
                except ValueError:
                    continue
    return made


@dataclass(frozen=True)
class Turned:
    """What a run comes to.

    Parameters
    ----------
    mean : mean effective pressure, bar; `stroke_steam` g drawn for each stroke of an end;
        `hour` kg of feed.
    """

    cycle: Cycle
    mean: float
    stroke_steam: float
    hour: float


def _place(stroke: float, end: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return crank angles halfway, places at the ends of the steps and halfway, from an end."""
    throw, rod = stroke / 2, RODS * stroke / 2

    def from_front(angle: np.ndarray) -> np.ndarray:
        return throw + rod - throw * np.cos(angle) - np.sqrt(rod**2 - (throw * np.sin(angle)) ** 2)

    ends = np.linspace(0, 2 * math.pi, STEPS + 1)
    middle = (ends[1:] + ends[:-1]) / 2
    at, halfway = from_front(ends), from_front(middle)
    return (middle, at, halfway) if end == 0 else (middle, stroke - at, stroke - halfway)


def _turned(
    ends: list[End], supply: Supply, outlet: Outlet, losses: Losses, rpm: float, swept: float
) -> Turned:
    cycle = run((ends[0], ends[1]), supply, outlet, losses, turns_a_second=rpm / 60)
    mean = float(cycle.work.sum()) / (2 * swept) * 1e4
    return Turned(cycle, mean, cycle.drawn * 500, cycle.drawn * rpm * 60)


def isherwood(losses: Losses, closing: float = 0.04) -> Turned:
    """Run Isherwood's unjacketed Corliss engine, non-condensing.

    Not printed: steam ports of 8 % of the piston that the wrist plate opens with the sine of the
    crank angle, and that shut over 4 % of the stroke; exhaust ports of 8 %, compression over 3 %
    of the stroke; clearance surface of 2.6 piston areas.
    """
    told = figures("isherwood_cycle.csv", "isherwood_noncond_1874")
    area, stroke, bore = told["net_piston_area"] * 100, told["stroke"], told["bore"]
    air = told["atmosphere_abs"] * AT
    ends = []
    for k in (0, 1):
        middle, at, halfway = _place(stroke, k)
        part, out = halfway / stroke, np.diff(at) > 0
        turned = middle - k * math.pi
        lifts = np.clip(0.1 + np.sin(turned), 0, 1) * np.clip(
            (told["cutoff"] - part) / closing, 0, 1
        )
        lets_out = np.clip(0.2 - np.sin(turned), 0, 1)
        exhausts = (out & (part > 0.5)) | (~out & (part > 0.03))
        ends.append(
            End(
                volume=area * (at + told["clearance"] * stroke),
                surface=2.6 * area + math.pi * bore * halfway,
                steam=0.8 * 0.08 * area * lifts * (out | (part < 0.01)),
                exhaust=0.8 * 0.08 * area * lets_out * exhausts,
            )
        )
    supply = Supply(
        pressure=told["chest_pressure_gauge"] * AT + air,
        area=0.24 * area,
        chest=0.3 * area * stroke,
    )
    outlet = Outlet(area=0.096 * area, pipe=0.3 * area * stroke, pressure=air)
    return _turned(ends, supply, outlet, losses, told["speed"], area * stroke)


@dataclass(frozen=True)
class SlideEngine:
    """A double-acting cylinder with a plain slide valve, mm and bar absolute.

    Parameters
    ----------
    port : width and length; `surface` at an end's clearance, of piston areas.
    cutoff : where a second valve cuts off, part of the stroke; 1 where there is none.
    """

    bore: float
    stroke: float
    rpm: float
    lap: float
    travel: float
    advance: float
    port: tuple[float, float]
    clearance: float
    surface: float
    back: float
    rod: float = 0.0
    cutoff: float = 1.0

    @property
    def area(self) -> float:
        return math.pi / 4 * (self.bore**2 - self.rod**2)

    @property
    def leak(self) -> float:
        """Gap under the valve round two ports, by the project's own rule, mm2."""
        width, length = self.port
        return GAP_SHARE * length * 4 * (length + width)

    @property
    def cut_off(self) -> float:
        """Where the front port shuts, % of the stroke."""
        middle, at, halfway = _place(self.stroke, 0)
        xi = self.travel / 2 * np.sin(middle + self.advance)
        return float(100 * halfway[(xi > self.lap) & (np.diff(at) > 0)].max() / self.stroke)

    def turned(self, losses: Losses, pressure: float) -> Turned:
        """Run it on dry steam."""
        width, length = self.port
        ends = []
        for k in (0, 1):
            middle, at, halfway = _place(self.stroke, k)
            xi = self.travel / 2 * np.sin(middle + self.advance) * (1 if k == 0 else -1)
            open_, lets_out = np.clip(xi - self.lap, 0, width), np.clip(-xi, 0, width)
            out = np.diff(at) > 0
            shuts = np.clip((self.cutoff - halfway / self.stroke) / 0.03, 0, 1)
            ends.append(
                End(
                    volume=self.area * (at + self.clearance * self.stroke),
                    surface=self.surface * self.area + math.pi * self.bore * halfway,
                    steam=PORTS * length * open_ * np.where(out, shuts, 1.0),
                    exhaust=PORTS * length * lets_out,
                )
            )
        swept = self.area * self.stroke
        way = 0.1 * self.area  # steam and exhaust pipes of a tenth of the piston are usual
        supply = Supply(pressure=pressure, area=way, chest=0.3 * swept)
        outlet = Outlet(area=way, pipe=swept, pressure=self.back)
        return _turned(ends, supply, outlet, losses, self.rpm, swept)


def english() -> SlideEngine:
    """Return English's engine of 1887, condensing, run 1, one of its two cylinders."""
    told = figures("english_slide_valve.csv", "english_geometry")
    ran = figures("english_slide_valve.csv", "english_run1")
    area = math.pi / 4 * told["bore"] ** 2 / 144
    return SlideEngine(
        bore=told["bore"] * INCH, stroke=told["stroke"] * INCH, rpm=ran["speed"],
        lap=told["outside_lap"] * INCH, travel=told["valve_travel"] * INCH,
        advance=math.radians(told["main_eccentric_advance"]),
        port=(told["steam_port_width"] * INCH, told["steam_port_length"] * INCH),
        clearance=0.0715, surface=told["clearance_surface"] / area, back=ran["p_back_abs"] * PSI,
        rod=told["piston_rod_through"] * INCH, cutoff=ran["cutoff_length"] / told["stroke"],
    )  # fmt: skip


def small(key: str) -> tuple[SlideEngine, dict[str, float]]:
    """Return one of the portable engines tried at Vienna in 1884, and what was measured.

    Not printed: the valve.  Lap 0.053, travel 0.26, port 0.083 by 0.64 of the bore, lead a tenth
    of the lap; clearance 8 %, its surface 3.2 piston areas, as is usual.
    """
    with open(DATA / "small_engines.csv", encoding="utf-8") as file:
        row = next(one for one in csv.DictReader(file) if one["id"] == key)
    bore, stroke = float(row["bore_mm"]), float(row["stroke_mm"])
    lap, travel = 0.053 * bore, 0.26 * bore
    engine = SlideEngine(
        bore=bore, stroke=stroke, rpm=float(row["rpm"]), lap=lap, travel=travel,
        advance=math.asin(1.1 * lap / (travel / 2)), port=(0.083 * bore, 0.64 * bore),
        clearance=0.08, surface=3.2, back=1.02,
    )  # fmt: skip
    brake = float(row["brake_ps"])
    told = {
        "brake": brake,
        "indicated": float(row["indicated_ps"]) if row["indicated_ps"] else brake / 0.8,
        "feed": float(row["feed_kg_per_brake_ps_h"]) * brake,
    }
    return engine, told


def at_power(engine: SlideEngine, losses: Losses, watts: float) -> Turned:
    """Run an engine at the pressure that makes a power; its own was not printed."""
    low, high = 1.5, 9.0
    for _ in range(9):
        middle = (low + high) / 2
        turned = engine.turned(losses, middle)
        if float(turned.cycle.work.sum()) * engine.rpm / 60 < watts:
            low = middle
        else:
            high = middle
    return turned
