"""Spaces that hold steam, openings between them and walls beside them; SI units throughout.

A cycle is marched by letting two spaces at a time exchange steam through their opening, and a
space heat with its wall. Each exchange is solved for the end of its step, in closed form, so that
no step is too long for a wide port at a slow turn, and mass and energy are kept to the last digit.
"""

from __future__ import annotations

import math

from .fluid import (
    AIR_FLOW,
    CELLS,
    LOWEST,
    STEP,
    SWELL,
    SWOLLEN_FLOW,
    WATER,
    WET_FLOW,
    Fluid,
    state,
)

_LAST = CELLS - 1
_PER_PASCAL = 1 / STEP
_TRIES = 80
LATENT = 2.1e6
"""Heat that dries a kilogram of water, J: 2.26e6 at the open air, 1.9e6 at 20 bar."""
NEAR = 1e-6
"""Part of the pressure within which the pressures at the end of a step are found."""
MOST = 0.8
"""Share of what a vessel holds that may leave it in a step."""
_SIXTY_FOUR = len(WET_FLOW) - 1


class Vessel:
    """A space with steam or air in it, well mixed.

    Parameters
    ----------
    fluid : what it holds.
    volume : m3; infinite for a boiler or the open air, which never change.
    pressure : Pa absolute.
    dryness, superheat : as in `state`.
    """

    __slots__ = (
        "density", "dryness", "energy", "fixed", "fluid", "heat", "mass", "per_joule",
        "per_kilogram", "per_volume", "pressure", "saturated", "temperature", "volume",
    )  # fmt: skip

    def __init__(
        self, fluid: Fluid, volume: float, pressure: float, *, dryness: float = 1.0,
        superheat: float = 0.0,
    ) -> None:  # fmt: skip
        self.fluid = fluid
        self.fixed = math.isinf(volume)
        self.volume = 1.0 if self.fixed else volume
        each, inside = state(fluid, pressure, dryness=dryness, superheat=superheat)
        self.mass = self.volume / each
        self.energy = self.mass * inside
        self.pressure, self.dryness = pressure, dryness
        self.settle()

    def settle(self) -> None:
        """Find pressure, temperature and heat content from mass, energy and volume."""
        m, energy, volume = self.mass, self.energy, self.volume
        wet_cells, dry_cells = self.fluid.wet, self.fluid.dry
        i, each = int((self.pressure - LOWEST) * _PER_PASCAL), volume / m
        i = 0 if i < 0 else _LAST if i > _LAST else i
        wet, changed = bool(wet_cells) and each < wet_cells[i][5], False
        low, high = 0, _LAST
        while True:
            p0, a, da, e, de, large, dlarge, hot, dhot = wet_cells[i] if wet else dry_cells[i]
            slope = m * da + volume * de
            above = (energy - m * a - volume * e) / slope
            # the energy rises with the pressure, so that every cell tried bounds the one sought
            if above < 0 and i > low:
                high = i - 1
                i = max(i + math.floor(above * _PER_PASCAL), low)
                continue
            if above > STEP and i < high:
                low = i + 1
                i = min(i + int(above * _PER_PASCAL), high)
                continue
            saturated = large + dlarge * above
            if changed or not wet_cells or wet == (each < saturated):
                break
            wet, changed, low, high = not wet, True, 0, _LAST
        self.pressure = pressure = p0 + above
        self.saturated = hot + dhot * above
        self.per_joule, self.per_volume = 1 / slope, e + de * above
        self.heat = heat = (energy + pressure * volume) / m
        self.density = 1 / each
        if wet:
            self.temperature = self.saturated
            self.dryness = min((each - WATER) / (saturated - WATER), 1.0)
        else:
            self.dryness = each / saturated if wet_cells else math.inf
            first, bend, second = self.fluid.bends[i]
            beyond = each - saturated
            hotter = (first + bend * above + second * beyond) * beyond
            self.temperature = self.saturated + hotter
        self.per_kilogram = (heat - a - da * above) / slope

    def take(self, mass: float, heat: float) -> None:
        """Take in `mass` kg that brings `heat` J in all; negative gives."""
        if not self.fixed:
            self.mass += mass
            self.energy += heat
            self.settle()

    def push(self, change: float) -> float:
        """Change the volume by m3 without heat or flow; return the work on the piston, J."""
        work = self.pressure - (self.pressure + self.per_volume) * change * self.per_joule / 2
        work *= change
        self.volume += change
        self.energy -= work
        self.settle()
        return work

    def flow_constants(self) -> tuple[float, float]:
        """Return greatest flow over area and root of pressure times density; critical ratio."""
        dryness = self.dryness
        if dryness < 1:
            return WET_FLOW[int(dryness * _SIXTY_FOUR) if dryness > 0 else 0]
        if dryness == math.inf:
            return AIR_FLOW
        return SWOLLEN_FLOW[min(int((dryness - 1) / SWELL * _SIXTY_FOUR), _SIXTY_FOUR)]


def _through(fall: float, most: float, chokes: float, stiff: float) -> tuple[float, float]:
    """Return the kg that pass an opening in a step, and their slope against the fall.

    Parameters
    ----------
    fall : of pressure if nothing passed, Pa, above 0.
    most : kg that pass when choked.
    chokes : fall from which the flow is choked, Pa.
    stiff : Pa by which the fall shrinks for each kg that passes.
    """
    y0, shrinks = fall / chokes, most * stiff / chokes
    if y0 - shrinks >= 1:
        return most, 0.0
    if shrinks < 1e-9:
        root = math.sqrt(y0 * (2 - y0))
        return most * root, most / chokes * (1 - y0) / (root + 1e-9)
    square = shrinks * shrinks
    middle = y0 + square
    y = (middle - math.sqrt(middle * middle - (1 + square) * y0 * y0)) / (1 + square)
    passed = y0 - y
    return passed * chokes / stiff, (1 - y) * square / (passed + (1 - y) * square) / stiff


def exchange(
    vessel: Vessel,
    openings: list[tuple[Vessel, float]],
    time: float,
    source: tuple[float, float] = (0.0, 0.0),
) -> list[tuple[float, float]]:
    """Let steam pass between a vessel and its neighbours at once.

    Parameters
    ----------
    openings : each neighbour and the m2 open to it, with the coefficient of discharge.
    time : s.
    source : kg and J that come in besides, whatever the pressure.

    Returns
    -------
    For each opening the kg and J that came in; negative what went out.

    The flow is that of a converging nozzle (Saint-Venant and Wantzel), its fall from the choked
    flow to nothing drawn as a quarter of an ellipse (Bendemann; from memory): with y the fall of
    pressure over the fall that chokes, flow / choked flow = sqrt(2 y - y^2). Pressures are those
    at the end of the step, all found together by Newton's rule between bounds.
    """
    start, own = vessel.pressure, vessel.heat
    out_greatest, out_critical = vessel.flow_constants()
    out_most = out_greatest * math.sqrt(start * vessel.density) * time
    out_chokes = start * (1 - out_critical)
    gives = vessel.per_kilogram
    sides = []
    low = high = start
    for other, area in openings:
        pressure = other.pressure
        low, high = min(low, pressure), max(high, pressure)
        greatest, critical = other.flow_constants()
        most = area * greatest * math.sqrt(pressure * other.density) * time
        if other.fixed:
            comes = goes = 0.0
        else:
            comes = other.per_kilogram
            goes = comes + (own - other.heat) * other.per_joule
        rises = gives + (other.heat - own) * vessel.per_joule
        sides.append(
            (pressure, most, pressure * (1 - critical), comes, rises, area * out_most, goes)
        )
    shifted = start + source[0] * gives + (source[1] - source[0] * own) * vessel.per_joule
    low, high = min(low, shifted), max(high, shifted)
    end = start
    masses = [0.0] * len(sides)
    for _ in range(_TRIES):
        error, slope = end - shifted, 1.0
        for k, (pressure, most, chokes, comes, rises, leaves, goes) in enumerate(sides):
            fall = pressure - end
            if fall > 0:
                mass, steep = _through(fall, most, chokes, comes)
                error -= mass * rises
                slope += steep * rises
            elif fall < 0:
                mass, steep = _through(-fall, leaves, out_chokes, goes)
                error += mass * gives
                slope += steep * gives
                mass = -mass
            else:
                mass = 0.0
            masses[k] = mass
        if error > 0:
            high = end
        else:
            low = end
        change = error / slope
        if abs(error) < NEAR * start or high - low < 1e-14 * start:
            break
        end -= change
        if not low < end < high:
            end = (low + high) / 2
    # no step empties a vessel; what is left passes in the next
    masses = [
        mass if other.fixed else min(mass, MOST * other.mass)
        for (other, _), mass in zip(openings, masses, strict=True)
    ]
    came, brought = (source[0], source[1]) if source[0] > 0 else (0.0, 0.0)
    went = -min(source[0], 0.0)
    for (other, _), mass in zip(openings, masses, strict=True):
        if mass > 0:
            came, brought = came + mass, brought + mass * other.heat
        else:
            went -= mass
    # what comes in mixes with what is there before it goes out
    mixed = (vessel.mass * own + brought) / (vessel.mass + came)
    part = min(1.0, MOST * (vessel.mass + came) / went) if went > 0 else 1.0
    passed, (total, heats) = [], source
    for (other, _), going in zip(openings, masses, strict=True):
        mass = going if going > 0 else part * going
        heat = mass * (other.heat if mass > 0 else mixed)
        other.take(-mass, -heat)
        passed.append((mass, heat))
        total += mass
        heats += heat
    vessel.take(total, heats)
    return passed


class Wall:
    """The skin of metal that is warmed and cooled within a turn.

    Parameters
    ----------
    temperature : K.
    capacity : J/K of the whole skin.
    conducted : J/K that its surface has passed since it was last set to nothing.
    """

    __slots__ = ("capacity", "conducted", "temperature")

    def __init__(self, temperature: float, capacity: float) -> None:
        self.temperature, self.capacity, self.conducted = temperature, capacity, 0.0


def warm(
    vessel: Vessel, wall: Wall, area: float, time: float, film: float, gas: float
) -> float:  # fmt: skip
    """Let a wall warm the steam beside it, or steam condense on it; return J into the steam.

    Parameters
    ----------
    area : m2 of the wall that the steam touches.
    film, gas : W/(m2 K) where water forms or dries away, and where the steam is dry.

    Taken at the end of the step, both temperatures moving.
    """
    wet = vessel.dryness < 1
    steam = vessel.temperature
    if not wet and wall.temperature < vessel.saturated:
        steam = vessel.saturated  # it condenses on the wall though the midst of it is hotter
        conductance = film * area * time
    else:
        conductance = (film if wet else gas) * area * time
    wall.conducted += conductance
    difference = wall.temperature - steam
    joules = conductance * difference / (1 + conductance / wall.capacity)
    # no step halves the pressure or warms more than it dries: what is left passes in the next
    joules = max(joules, -MOST / 2 * vessel.pressure / vessel.per_joule)
    if wet:
        joules = min(joules, vessel.mass * (1 - vessel.dryness) * LATENT)
    wall.temperature -= joules / wall.capacity
    vessel.take(0.0, joules)
    return joules
