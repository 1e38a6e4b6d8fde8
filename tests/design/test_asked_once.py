"""No size of the trade is asked twice: each has one owner, and the others are told by it."""

from __future__ import annotations

import dataclasses
import typing
from collections import defaultdict
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from tests.designs import SAMPLES
from weighshaft import job
from weighshaft.curving import Truck
from weighshaft.design import CHAPTERS, Design, read
from weighshaft.sizes import sizes_of


def asked(kind: type, path: str) -> Iterator[tuple[str, str]]:
    """Yield path and words of every decision; the kinds of a choice share their paths."""
    abouts, hints = sizes_of(kind), typing.get_type_hints(kind)
    for one in dataclasses.fields(kind):
        hint, place = hints[one.name], f"{path}.{one.name}"
        kinds = [k for k in (hint, *typing.get_args(hint)) if dataclasses.is_dataclass(k)]
        for inner in kinds:
            yield from asked(typing.cast(type, inner), place)
        if not kinds:
            yield place, abouts[one.name].label


HINTS = typing.get_type_hints(Design)
# the gear beside the engine's is another gear: it has the same words
ASKED = tuple(
    (path, label)
    for chapter in CHAPTERS
    for path, label in asked(HINTS[chapter], chapter)
    if not path.startswith("beside.gear.")
)

# the words that each joint of threads has of its own
OF_EVERY_JOINT = {
    "Thread", "Length of thread engaged", "Metal tapped", "Metal of the male part",
    "Hole through the male part", "Made tight with", "Hottest that it gets",
    # the covers of the cylinder, and that of the chest
    "Metal of the screws", "Metal of the cylinder", "Cover joint",
}  # fmt: skip


# how far a length, and how far an angle, may go in a search
OF_EVERY_ROOM = {"It may become less by", "It may become more by"}


# the leading and the trailing truck
OF_EVERY_TRUCK = {about.label for about in sizes_of(Truck).values()}


SHEAVES = {
    "slip eccentric": 1, "Stephenson": 2, "Walschaerts": 0, "Gooch": 2, "Allan": 2, "Joy": 0,
    "Hackworth": 1, "Baker": 0, "change-over": 1, "oscillating": 0,
}  # fmt: skip


def test_no_two_decisions_have_the_same_words() -> None:
    paths = defaultdict(set)
    for path, label in ASKED:
        paths[label].add(path)
    twice = {label: sorted(found) for label, found in paths.items() if len(found) > 1}
    assert set(twice) == OF_EVERY_JOINT | OF_EVERY_ROOM | OF_EVERY_TRUCK
    owners = {"threads.": OF_EVERY_JOINT, "pivots.": OF_EVERY_ROOM, "curving.": OF_EVERY_TRUCK}
    for label, found in twice.items():
        (of,) = (owner for owner, labels in owners.items() if label in labels)
        assert all(path.startswith(of) for path in found)


# Every decision whose words touch a subject, so that a new one is set beside those there are
# before it is let in.  All of a row are different things, and why is said where it is not plain.
SUBJECTS: dict[str, set[str]] = {
    # full size and model
    "number of cylinders": {"scale.prototype.cylinders", "cylinders.number"},
    "wheelbase": {
        "scale.prototype.coupled_wheelbase", "scale.prototype.total_wheelbase",
        "curving.leading.wheelbase", "curving.trailing.wheelbase", "curving.behind.wheelbase",
    },
    "axles apart": {"wheels.wheelbase"},
    "track gauge": {"scale.prototype.gauge", "scale.track_gauge"},
    "driving wheel": {"scale.prototype.driving_wheel", "wheels.driving_diameter"},
    # the engine's own, full size and model, and what the line lets through
    "greatest width": {
        "scale.prototype.width", "scale.as_built.width", "wheels.across.width_limit",
    },
    # what the line lets through on the straight; structures beside the curve belong to the curves
    "loading gauge": {"gauging.line.outline", "gauging.line.spare"},
    "platform": {
        "gauging.line.platform", "gauging.line.platform_height", "gauging.line.platform_edge",
    },
    # above the rail, and above the boiler's centre where the blast is laid out from
    "chimney top": {
        "scale.prototype.height", "scale.as_built.height", "nozzle.smokebox.chimney_top",
        "nozzle.cones.upper", "nozzle.cones.touch_below_top",
    },
    "boiler diameter": {"scale.prototype.boiler_diameter", "scale.as_built.boiler_diameter"},
    "weight": {
        "scale.prototype.weight", "cylinders.engine_weight", "cylinders.coupled_weight",
        "cylinders.haulage.rolling_resistance",
        # of single parts as weighed, and what the coupled wheels are to have of the whole
        "weights.weighed.mass", "weights.ballast.mass", "weights.coupled_share",
        "rods.balance.fitted",
        "rods.balance.outside",
        "rods.balance.inside",
        "rods.balance.thickness",
        "rods.balance.material",
    },
    "speed": {
        "scale.prototype.speed", "scale.running_speed", "nozzle.steam.back_pressure",
        "rods.top_speed", "machines.lathe.speeds", "machines.mill.speeds",
        "screwcutting.diameter",
        # at which the indicator is read, which a builder tries over
        "steam.running.speed",
    },
    # what is on the piston, passages and all, and what the blast alone may take of it
    "back pressure": {"cylinders.cycle.back_pressure", "nozzle.steam.back_pressure"},
    "working pressure": {"cylinders.pressure"},
    # at the valve chest, and later, where the valve shuts and ports have throttled too
    "boiler": {
        "weights.boiler_left",
        "scale.prototype.pressure", "scale.prototype.boiler_diameter",
        "scale.prototype.outline.boiler_centre", "scale.as_built.boiler_diameter",
        "cylinders.cycle.chest_loss", "nozzle.smokebox.chimney_top",
        "nozzle.smokebox.nozzle_below", "nozzle.steam.at_cutoff",
        "clearance.surroundings.boiler_bottom", "clearance.surroundings.boiler_diameter",
        # what it is, how it is held and what room it has in the frames
        "boiler.kind", "boiler.shell.material", "boiler.water_level", "boiler.firebox.crown",
        "boiler.holding.at", "boiler.holding.slide", "boiler.holding.cold", "boiler.holding.gap",
        # with which the indicator is read, which falls on the line
        "steam.running.pressure",
    },
    "condens": {"cylinders.cycle.condensation"},
    # of wheel on rail, and of the driver on his lever
    "grip": {"cylinders.haulage.adhesion", "reversing.worked_by.handle"},
    # cylinders and rods
    "piston rod": {
        "cylinders.barrel.piston_rod", "cylinders.crosshead.rod_length",
        "cylinders.crosshead.rod_thread", "threads.piston_rod.male",
    },
    "screwed into": {"cylinders.crosshead.rod_engaged"},
    "screw": {
        "weights.allowance", "machines.lathe.leadscrew", "machines.lathe.train_centres",
        "cylinders.covers.screws", "cylinders.covers.thread", "cylinders.covers.screw_circle",
        "cylinders.crosshead.rod_engaged", "threads.covers.male", "threads.chest.male",
        "reversing.worked_by.pitch", "reversing.worked_by.starts",
        "reversing.worked_by.diameter", "reversing.worked_by.inclination",
        "erection.cover_spanner",
    },
    # lengths along the axis belong to the cylinders, widths across the engine to the wheels
    "crosshead": {
        "cylinders.crosshead.rod_length", "cylinders.crosshead.rod_thread",
        "cylinders.crosshead.rod_engaged", "cylinders.crosshead.boss",
        "wheels.cylinders.crosshead_width", "wheels.cylinders.crosshead_below",
        "threads.piston_rod.female", "valve_setting.instruments.length",
        "rods.weighed.reciprocating",
    },
    "slipper": {
        "cylinders.crosshead.slipper_ahead", "cylinders.crosshead.slipper_behind",
        "cylinders.crosshead.slipper_width",
    },
    # along the axis, across the engine, and its height seen from the side
    "big end": {
        "cylinders.crosshead.big_end", "wheels.cylinders.big_end", "wheels.cylinders.return_crank",
        "clearance.widths.big_end",
        "rods.weighed.big_end",
    },
    "eccentric": {
        "motion.gear.eccentric_throw", "motion.gear.eccentric_rod", "motion.gear.eccentric_angle",
        "motion.gear.valve_pin", "wheels.between.sheaves", "clearance.widths.rod",
        "clearance.thicknesses.forward_sheave", "valve_setting.mends.eccentrics",
        "valve_setting.mends.rods", "valve_setting.believed.angle",
    },
    "sheave": {
        "wheels.between.sheaves", "wheels.between.sheave_width", "wheels.between.sheave_gap",
        "wheels.between.sheave_wall", "wheels.between.sheave_diameter",
        "clearance.widths.strap", "eccentrics.strap.least",
    },
    "valve spindle": {
        "clearance.valve_spindle",
        "motion.gear.spindle_height", "motion.gear.valve_angle", "threads.valve_spindle.diameter",
    },
    # the gear's is part of its public fields: it is refused where it is not the valve's
    "admission": {"motion.valve.admission", "motion.gear.admission"},
    # of axles, of a truck's side control, of a port face and of the weighshaft; the weights ask
    # only how stiff one axle's are beside another's
    "spring": {
        *(f"springing.springs.{name}" for name in (
            "place", "number", "wire", "coil", "turns", "free_length", "ends", "metal", "span",
            "buckle", "leaves", "full_length", "thickness", "width", "camber", "nip",
        )),
        *(f"springing.trucks.{name}" for name in (
            "number", "wire", "coil", "turns", "free_length", "ends", "metal",
        )),
        "springing.riding.deflection", "springing.riding.adjusting",
        "curving.leading.preload", "curving.leading.rate", "curving.trailing.preload",
        "curving.trailing.rate", "weights.bearing.springs.rate", "weights.bearing.leading",
        "weights.bearing.trailing", "motion.gear.face.factor", "motion.gear.face.spring",
        "motion.gear.face.spring_rate", "reversing.balance.arm", "reversing.balance.coil",
        "reversing.balance.material", "reversing.balance.spring", "reversing.balance.turns",
        "reversing.balance.wire",
    },
    # fittings
    "drill": {
        "threads.rack.metric", "threads.rack.number", "threads.rack.letter",
        "threads.rack.fraction", "threads.rack.singles", "tolerances.workshop.jig_drilled",
        "tolerances.workshop.centre_pop", "machines.mill.cutters",
        "slots.cutter", "slots.roughing.drill", "eccentrics.crank.pitch",
        "screwcutting.diameter",
    },
    "nozzle": {
        "draught.number", "nozzle.diameter", "nozzle.smokebox.nozzle_below",
        "nozzle.smokebox.choke_above_nozzle", "nozzle.steam.dryness",
    },
    # how wide, and what all ways of the exhaust hold
    "blast pipe": {"nozzle.smokebox.pipe_bore", "steam.way.exhaust"},
}  # fmt: skip


@pytest.mark.parametrize("subject", SUBJECTS)
def test_what_touches_one_subject_is_known(subject: str) -> None:
    assert {path for path, label in ASKED if subject in label.lower()} == SUBJECTS[subject]


def _rod(work: job.Work) -> Any:
    joint = work.threads.joint("piston_rod")
    return joint.one.designation


def _screws(work: job.Work) -> Any:
    cover = work.threads.cover
    return cover.one.designation, cover.number, float(cover.screw_circle)


def _at_scale(name: str) -> Callable[[job.Work], Any]:
    def actual(work: job.Work) -> Any:
        found = [one.actual for one in work.scale.sizes if one.field.endswith(f".{name}")]
        return [round(one, 6) for one in found]

    return actual


TOLD: tuple[tuple[dict[str, Any], Callable[[job.Work], Any], Any], ...] = (
    ({"cylinders.crosshead.rod_thread": "2BA"}, _rod, "2BA"),
    (
        {"cylinders.crosshead.rod_engaged": 4.75},
        lambda work: work.threads.joint("piston_rod").engagement, 4.75,
    ),
    (
        {
            "cylinders.covers.thread": "4BA", "cylinders.covers.screws": 7,
            "cylinders.covers.screw_circle": 41.5,
        },
        _screws, ("4BA", 7, 41.5),
    ),
    (
        {"threads.piston_rod.male": "brass", "threads.piston_rod.female": "stainless steel",
         "threads.piston_head.female": "stainless steel"},
        lambda work: work.threads.joint("piston_head").stress_allowed
        == work.threads.joint("piston_rod").stress_allowed, True,
    ),
    ({"wheels.wheelbase": (140.0, 130.0)}, _at_scale("coupled_wheelbase"), [270.0]),
    ({"wheels.wheelbase": (140.0, 130.0)}, _at_scale("total_wheelbase"), [270.0]),
    (
        {"cylinders.crosshead.boss": 10.0, "cylinders.crosshead.slipper_ahead": 11.5,
         "cylinders.crosshead.slipper_behind": 12.5},
        lambda work: work.wheels.crosshead, (11.5, 12.5),
    ),
    ({"scale.prototype.width": 2400.0}, lambda work: work.wheels.width_limit, 150.0),
    (
        {"threads.rack.metric": False, "threads.rack.number": False,
         "threads.rack.letter": False},
        lambda work: work.nozzle.drill.endswith("in"), True,
    ),
    (
        {"nozzle.smokebox.pipe_bore": 6.6},
        lambda work: work.threads.joint("nozzle").hole, 6.6,
    ),
)  # fmt: skip


@pytest.mark.parametrize(("changes", "told", "expected"), TOLD)
def test_the_owner_tells_the_others(
    design: Design, changes: dict[str, Any], told: Callable[[job.Work], Any], expected: Any
) -> None:
    assert told(job.work(design.changed(changes))) == expected


def test_grip_and_condensation_are_taken_from_the_cylinders(design: Design) -> None:
    before = job.work(design)
    after = job.work(
        design.changed(
            {
                "cylinders.haulage.adhesion": 2 * design.cylinders.haulage.adhesion,
                "cylinders.cycle.condensation": 0,
            }
        )
    )
    assert after.wheels.grip_torque == pytest.approx(2 * before.wheels.grip_torque)
    drawn = design.cylinders.cycle.drawn
    assert before.nozzle.steam_flow == pytest.approx(drawn * after.nozzle.steam_flow)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_chapters_say_the_same_of_a_sample(sample: Any) -> None:
    design = read(sample)
    work = job.work(design)
    assert _rod(work) == work.cylinders.rod_thread
    cover = work.threads.cover
    assert (cover.one.designation, cover.number) == (
        work.cylinders.screw_thread,
        work.cylinders.screws,
    )
    sheaves = sum(part.kind == "sheave" for part in work.wheels.stack)
    assert sheaves == 2 * SHEAVES[design.motion.gear.kind]
    # two ways to reckon the steam, one by the diagram, one by what fills the cylinder to cut-off
    assert work.nozzle.steam_flow == pytest.approx(work.cylinders.steam_rate, rel=0.15)
