"""The leading sizes of the engine in its frames, with what is usual where nothing was said.

Where the prototype's outline is known the model follows it; else shares of the driving
wheel are taken, which are common practice.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..boiler.decisions import BoilerSeat
from ..clearance.decisions import Clearance
from ..curving.decisions import Curving
from ..cylinders.axis import Axis
from ..cylinders.decisions import Cylinders
from ..findings import Suggestion
from ..nozzle.decisions import Smokebox
from ..scale.decisions import Scale
from ..sizes import SizeError
from ..wheels.decisions import Wheels
from .decisions import Frames
from .whole import Axle

KIND_OF = {"coal": "locomotive type", "gas": "centre flue", "spirit": "pot"}
"""The boiler that a firing usually means; common practice."""


@dataclass(frozen=True)
class Chosen:
    """What was decided in every chapter, as far as the whole engine rests on it."""

    frames: Frames
    scale: Scale
    cylinders: Cylinders
    axis: Axis
    wheels: Wheels
    clearance: Clearance
    boiler: BoilerSeat
    smokebox: Smokebox
    firing: str
    curving: Curving


@dataclass(frozen=True, kw_only=True)
class Layout:
    """Leading sizes, mm; heights and places from the driving axle unless they say otherwise."""

    axles: tuple[Axle, ...]
    rail: float
    rise: float
    # plates
    plate_front: float
    plate_back: float
    top: float
    bottom: float
    end_depth: float
    inside: float
    outside: float
    box_length: float
    box_height: float
    keep: float
    # beams
    beam: float
    beam_height: float
    beam_width: float
    buffer_height: float
    buffers_apart: float
    buffer_length: float
    buffer_head: float
    coupling_height: float
    # platework
    board: float
    board_width: float
    sheet: float
    splasher_gap: float
    cab_width: float
    # boiler, heights of its centre and over its lagging
    boiler_kind: str
    boiler_centre: float
    boiler_radius: float
    lagging: float
    wall: float
    smokebox_front: float
    smokebox_length: float
    smokebox_radius: float
    boiler_back: float
    firebox_length: float
    firebox_width: float
    firebox_bottom: float
    firebox_asked: float
    ashpan: float
    water_space: float
    flue: float
    suggestions: tuple[Suggestion, ...]

    @property
    def boiler_front(self) -> float:
        """Where the barrel begins behind the smokebox."""
        return self.smokebox_front - self.smokebox_length


def laid_out(chosen: Chosen, *, flange_depth: float, swings: tuple[float | None, ...]) -> Layout:
    """Return the leading sizes of the engine.

    Parameters
    ----------
    flange_depth : of the wheels, mm.
    swings : of the leading and the trailing truck on the curve wanted, mm.

    Raises
    ------
    SizeError : when sizes leave no plate, or no boiler.
    """
    wheels, decided, n = chosen.wheels, chosen.frames, chosen.scale.ratio
    full, outline = chosen.scale.prototype, chosen.scale.prototype.outline
    wheel, journal, gauge = wheels.driving_diameter, wheels.axle_diameter, chosen.scale.track_gauge
    told: list[Suggestion] = []

    def take(path: str, given: float | None, usual: float, why: str) -> float:
        told.append(Suggestion(path, round(usual, 2), why))
        return usual if given is None else given

    def at_scale(size: float | None, else_: float) -> tuple[float, str]:
        if size is None:
            return else_, "common practice"
        return size / n, "the prototype's at scale"

    rise = chosen.clearance.axlebox_rise
    rise = wheels.quartering.axle_lift if rise is None else rise
    axles = axles_of(chosen, swings)
    first, last = axles[0].ahead, axles[-1].ahead
    plates, horns, beams, work = decided.plates, decided.horns, decided.beams, decided.platework

    # what the cylinders and the last wheel need, where no prototype tells
    ends = max(chosen.axis.axle_to_cylinder + chosen.axis.barrel, first + 0.75 * wheel)
    beam = take(
        "frames.beams.thickness", beams.thickness, 1.5 * wheels.between.frame_thickness,
        "1.5 of the frame plate",
    )  # fmt: skip
    usual, why = at_scale(outline.front_overhang, ends - first + beam)
    ahead = take("frames.plates.ahead", plates.ahead, usual - beam, why)
    length = chosen.scale.as_built.length or (full.length and full.length / n)
    behind_usual, why = (0.85 * wheel, "common practice")
    if length is not None and outline.front_overhang is not None:
        behind_usual = length - outline.front_overhang / n - (first - last) - beam
        why = "the prototype's length at scale"
    behind = take("frames.plates.behind", plates.behind, max(behind_usual, 0.3 * wheel), why)
    top = take("frames.plates.top", plates.top, 0.38 * wheel, "0.38 of the driving wheel")
    bottom = take("frames.plates.bottom", plates.bottom, 0.25 * wheel, "a quarter of the wheel")
    end_depth = take(
        "frames.plates.end_depth", plates.end_depth, 0.5 * (top + bottom), "half the depth amid"
    )
    box_length = take(
        "frames.horns.box_length", horns.box_length, 1.9 * journal, "1.9 of the journal"
    )
    box_height = take(
        "frames.horns.box_height", horns.box_height, 2.1 * journal, "2.1 of the journal"
    )
    keep = take("frames.horns.keep", horns.keep, 0.3 * journal, "0.3 of the journal")
    inside = wheels.between.frame_spacing / 2
    rail = -wheel / 2

    width, why = at_scale(full.width, 2.2 * gauge)
    width = chosen.scale.as_built.width or width
    beam_width = take("frames.beams.width", beams.width, 0.9 * width, f"nine tenths of {why}")
    buffer_usual, why = at_scale(outline.buffer_height, 0.75 * wheel)
    buffer_height = take("frames.beams.buffer_height", beams.buffer_height, buffer_usual, why)
    board = take(
        "frames.platework.board_height", work.board_height, top - rail, "on the frames' top edge"
    )
    diameter, centre = _boiler_place(chosen, rail, wheel, gauge, flange_depth)
    radius = diameter / 2
    lagging = take(
        "boiler.shell.lagging", chosen.boiler.shell.lagging, 0.02 * diameter,
        "0.02 of the diameter",
    )  # fmt: skip
    front = first + ahead + beam
    if outline.front_overhang is not None:
        front = first + outline.front_overhang / n  # longer plates do not carry the boiler ahead
    usual, why = at_scale(outline.smokebox_front, 0.3 * wheel)
    smokebox_front = take(
        "boiler.shell.smokebox_front", chosen.boiler.shell.smokebox_front, front - usual, why
    )
    wall = take(
        "boiler.shell.wall", chosen.boiler.shell.wall, 0.03 * diameter, "0.03 of the diameter"
    )
    smokebox = chosen.smokebox.inside_diameter
    smokebox_radius = radius if smokebox is None else smokebox / 2 + wall
    smokebox_length = take(
        "boiler.shell.smokebox_length", chosen.boiler.shell.smokebox_length,
        1.8 * smokebox_radius, "0.9 of its diameter",
    )  # fmt: skip
    usual, why = at_scale(outline.boiler_length, 0.75 * (first - last) + 1.2 * wheel)
    usual -= smokebox_length
    long = take("boiler.shell.length", chosen.boiler.shell.length, max(usual, diameter), why)
    fire = chosen.boiler.firebox
    pan_top = chosen.clearance.surroundings.ashpan_bottom
    ashpan = take("boiler.firebox.ashpan", fire.ashpan, 0.15 * wheel, "0.15 of the driving wheel")
    over_axles = journal / 2 + rise + max(0.4, 0.012 * wheel)
    low = max(0.1 * wheel, over_axles) if pan_top is None else pan_top + ashpan
    firebox_bottom = take(
        "boiler.firebox.bottom",
        fire.bottom,
        low,
        "0.1 of the driving wheel, clear of axles that rise"
        if pan_top is None
        else "over the ashpan",
    )
    kind = chosen.boiler.kind
    return Layout(
        axles=axles, rail=rail, rise=rise,
        plate_front=first + ahead, plate_back=last - behind, top=top, bottom=-bottom,
        end_depth=_plate(top, bottom, end_depth), inside=inside,
        outside=inside + wheels.between.frame_thickness,
        box_length=box_length, box_height=box_height, keep=keep,
        beam=beam,
        beam_height=take("frames.beams.height", beams.height, wheel / 3, "a third of the wheel"),
        beam_width=beam_width,
        buffer_height=buffer_height + rail,
        buffers_apart=take(
            "frames.beams.buffers_apart", beams.buffers_apart, 1.2 * gauge, "1.2 of the gauge"
        ),
        buffer_length=take(
            "frames.beams.buffer_length", beams.buffer_length, wheel / 6, "a sixth of the wheel"
        ),
        buffer_head=take(
            "frames.beams.buffer_head", beams.buffer_head, wheel / 4, "a quarter of the wheel"
        ),
        coupling_height=rail + take(
            "frames.beams.coupling_height", beams.coupling_height, buffer_height, "as the buffers"
        ),
        board=board + rail,
        board_width=take(
            "frames.platework.board_width", work.board_width, beam_width, "as the buffer beams"
        ),
        sheet=take(
            "frames.platework.sheet", work.sheet, max(1.0, 0.02 * wheel), "0.02 of the wheel"
        ),
        splasher_gap=take(
            "frames.platework.splasher_gap", work.splasher_gap, 0.08 * wheel, "0.08 of the wheel"
        ),
        cab_width=take(
            "frames.platework.cab_width", work.cab_width, 0.9 * width, "nine tenths of the width"
        ),
        boiler_kind=KIND_OF.get(chosen.firing, "pot") if kind == "as fired" else kind,
        boiler_centre=centre, boiler_radius=radius, lagging=lagging, wall=wall,
        smokebox_front=smokebox_front, smokebox_length=smokebox_length,
        smokebox_radius=smokebox_radius,
        boiler_back=smokebox_front - smokebox_length - long,
        firebox_length=take(
            "boiler.firebox.length", fire.length, 0.3 * long, "0.3 of barrel and firebox"
        ),
        firebox_width=take(
            "boiler.firebox.width", fire.width, min(_between_frames(chosen, axles), diameter),
            "between frames and axleboxes, a millimetre each side",
        ),
        firebox_bottom=min(firebox_bottom, centre - 0.1 * radius),
        firebox_asked=firebox_bottom,
        ashpan=ashpan,
        water_space=take(
            "boiler.firebox.water_space", fire.water_space, 0.07 * diameter,
            "0.07 of the diameter",
        ),
        flue=take("boiler.firebox.flue", fire.flue, 0.45 * diameter, "0.45 of the diameter"),
        suggestions=tuple(told),
    )  # fmt: skip


def _between_frames(chosen: Chosen, axles: tuple[Axle, ...]) -> float:
    """Return how wide a firebox between the frames may be, a millimetre clear each side, mm.

    Axleboxes that stand inside the plates narrow it where there is an axle behind the driving
    one, over which it usually stands.
    """
    between = chosen.wheels.between
    behind = any(one.kind == "coupled" and one.ahead < 0 for one in axles)
    return between.frame_spacing - 2 * (between.axlebox_inside if behind else 0.0) - 2.0


def _plate(top: float, bottom: float, end_depth: float) -> float:
    if end_depth > top + bottom:
        raise SizeError(
            f"Frame plates, depth at the buffer beams: {end_depth:g} mm is more than the "
            f"{top + bottom:g} mm amid the wheels; that much or less would do.",
            "plates.end_depth",
        )
    return end_depth


def _boiler_place(
    chosen: Chosen, rail: float, wheel: float, gauge: float, flange_depth: float
) -> tuple[float, float]:
    """Return the boiler's diameter over its lagging and the height of its centre, mm."""
    around, full, n = chosen.clearance.surroundings, chosen.scale.prototype, chosen.scale.ratio
    diameter = around.boiler_diameter or chosen.scale.as_built.boiler_diameter
    if diameter is None:
        diameter = 1.1 * gauge if full.boiler_diameter is None else full.boiler_diameter / n
    if around.boiler_bottom is not None:
        return diameter, around.boiler_bottom + diameter / 2
    if full.outline.boiler_centre is not None:
        return diameter, full.outline.boiler_centre / n + rail
    return diameter, wheel / 2 + flange_depth + 0.1 * wheel + diameter / 2


def axles_of(chosen: Chosen, swings: tuple[float | None, ...]) -> tuple[Axle, ...]:
    """Return all axles from the front, the trucks' with them; see `laid_out`."""
    wheels = chosen.wheels
    made = [
        Axle(_coupled_name(n, len(wheels.positions), wheels.driven_axle), x,
             wheels.driving_diameter, "coupled", play)
        for n, (x, play) in enumerate(zip(wheels.positions, wheels.plays, strict=True), 1)
    ]  # fmt: skip
    leading, trailing = swings
    if wheels.leading_truck is not None:
        made = [*_truck(chosen, "leading", made[0].ahead + wheels.leading_truck, leading), *made]
    if wheels.trailing_truck is not None:
        made += _truck(chosen, "trailing", made[-1].ahead - wheels.trailing_truck, trailing)
    return tuple(made)


def _coupled_name(number: int, count: int, driven: int) -> str:
    if number == driven:
        return "driving"
    if number == 1:
        return "leading coupled"
    return "trailing coupled" if number == count else f"coupled {number}"


def _truck(chosen: Chosen, kind: str, ahead: float, swing: float | None) -> list[Axle]:
    """Return the axle of a truck, or the two of a bogie about that place."""
    truck = chosen.curving.leading if kind == "leading" else chosen.curving.trailing
    carrying = chosen.scale.prototype.outline.carrying_wheel
    usual = 0.6 * chosen.wheels.driving_diameter
    usual = usual if carrying is None else carrying / chosen.scale.ratio
    wheel, swing = truck.wheel or usual, swing or 0.0
    word = "leading" if kind == "leading" else "trailing"
    assert kind in ("leading", "trailing")
    if truck.kind != "bogie":
        return [Axle(f"{word} truck", ahead, wheel, kind, swing)]  # type: ignore[arg-type]
    base = truck.wheelbase or 2 * wheel
    return [
        Axle(f"{word} bogie, front", ahead + base / 2, wheel, kind, swing),  # type: ignore[arg-type]
        Axle(f"{word} bogie, back", ahead - base / 2, wheel, kind, swing),  # type: ignore[arg-type]
    ]
