"""Engines to look for gaps in: the samples, and one inside gear with room all round."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tests.designs import ROOT
from weighshaft import job
from weighshaft.clearance import planes_from
from weighshaft.design import read
from weighshaft.motion import Crank, Stephenson

CRANK = Crank(stroke=40.0, connecting_rod=130.0)
GEAR = Stephenson(
    eccentric_throw=6.4, advance=18.0, eccentric_rod=118.0, link_radius=124.0, pin_spacing=41.0,
    backset=5.5, suspension_ahead=0.0, suspension_above=0.0, lifting_link=65.0, lifting_arm=40.0,
    weighshaft_x=82.0, weighshaft_y=66.0, arm_angle_forward=-22.0, arm_angle_backward=24.0,
    die_height=0.0, slot_length=43.0, rods="open",
)  # fmt: skip
"""A locomotive link 118 mm ahead of an axle that has no neighbour near."""

ROOMY: dict[str, Any] = {
    "crank": CRANK, "gear": GEAR, "reversers": (1.0, 0.5, 0.0, -0.5, -1.0),
    "axle_diameter": 12.0, "axles": (0.0, -150.0), "driving_diameter": 130.0,
    "frame_inside": 76.0, "frame_thickness": 2.5, "planes": (), "crankpin": 12.0,
}  # fmt: skip


def mirrored(gear: Stephenson) -> Stephenson:
    """Return the gear upside down: what ran forward runs backward."""
    return replace(
        gear,
        weighshaft_y=-gear.weighshaft_y,
        suspension_above=-gear.suspension_above,
        arm_angle_forward=-gear.arm_angle_backward,
        arm_angle_backward=-gear.arm_angle_forward,
        hanging="above" if gear.hanging == "below" else "below",
    )


def sample(name: str) -> dict[str, Any]:
    """Return what the job would give the chapter for a sample engine."""
    design = read(ROOT / "sample_designs" / f"{name}.loco.json")
    wheeled, sizes, wheels = job.work(design).wheels, design.cylinders, design.wheels
    return {
        "crank": sizes.crank, "gear": design.motion.gear, "reversers": design.motion.reversers,
        "axle_diameter": wheels.axle_diameter, "axles": wheels.positions,
        "driving_diameter": wheels.driving_diameter,
        "frame_inside": wheels.between.frame_spacing,
        "frame_thickness": wheels.between.frame_thickness,
        "planes": planes_from(wheeled.across, wheeled.stack, wheeled.back_to_back),
        "crankpin": wheels.cylinders.crankpin, "sheave_diameter": wheeled.sheave,
        "crosshead": wheeled.crosshead, "inclination": sizes.inclination,
        "side_play": wheels.plays[wheels.driven_axle - 1],
        "axle_lift": wheels.quartering.axle_lift, "flange_depth": wheeled.flange_depth,
    }  # fmt: skip
