"""Balance weights in the wheels by the method of planes, and what they leave."""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from ..working import Working
from . import relations
from .masses import Turned
from .results import Wheel

RIGHT, LEFT = "right", "left"


@dataclass(frozen=True)
class Engine:
    """What is to be balanced.

    Parameters
    ----------
    axles : names of the coupled axles.
    wheel_plane : from the centre line to the middle of the tyre, mm.
    lead : by which the left crank leads the right one, degrees.
    turned : masses that turn, of the right-hand side; the left has the same.
    to_and_fro : reciprocating mass of one side times the throw, kg mm.
    cylinder_plane : of it, mm.
    number : of cylinders, one (on the right) or two.
    shares : of the reciprocating masses balanced in each axle.
    most : mass times radius that there is room for in a wheel, kg mm; nothing where no
        weights are fitted.
    """

    axles: tuple[str, ...]
    wheel_plane: float
    lead: float
    turned: tuple[Turned, ...]
    to_and_fro: float
    cylinder_plane: float
    number: int
    shares: tuple[float, ...]
    most: float


@dataclass(frozen=True)
class Ring:
    """The piece of ring that a weight is made of, mm and kg/mm3."""

    inside: float
    outside: float
    thickness: float
    density: float

    @property
    def most(self) -> float:
        """Mass times radius of half the ring, kg mm."""
        return self.moment(math.pi / 2)

    def moment(self, half: float) -> float:
        """Return mass times radius of a piece, half of its angle in radians."""
        return relations.ring_moment(
            rho=self.density, t=self.thickness, R=self.outside, q=self.inside, alpha=half
        )

    def piece(self, wanted: float) -> tuple[float, float, float]:
        """Return whole angle (degrees), mass (kg) and radius (mm) of what gives `wanted`."""
        if self.most <= 0 or wanted <= 0:
            return 0.0, 0.0, 0.0
        half = math.asin(min(wanted / self.most, 1.0))
        mass = self.density * self.thickness * half * (self.outside**2 - self.inside**2)
        return math.degrees(2 * half), mass, self.moment(half) / mass if mass else 0.0


@dataclass(frozen=True)
class Left:
    """What is left, kg mm and kg mm2, as numbers that turn with the cranks.

    Parameters
    ----------
    wheels : of each wheel in its plane, right and left of each axle in turn.
    force, couple : of everything, reciprocating masses too, along the engine and about the
        upright.
    """

    wheels: tuple[complex, ...]
    force: complex
    couple: complex


def in_wheels(engine: Engine, masses: tuple[Turned, ...]) -> tuple[complex, complex]:
    """Return the masses of one axle as they act in the planes of its right and left wheels."""
    right = left = 0j
    turn = cmath.rect(1.0, math.radians(engine.lead))
    for one in masses:
        near = relations.in_plane(U=1.0, z=one.plane, p=engine.wheel_plane)
        other = one.moment * turn if one.both else 0j
        right += one.moment * near + other * (1 - near)
        left += one.moment * (1 - near) + other * near
    return right, left


def _to_and_fro(engine: Engine, share: float) -> tuple[complex, complex]:
    """Return so much of the reciprocating masses as would act in the wheels' planes."""
    moment = complex(share * engine.to_and_fro)
    return in_wheels(engine, (Turned(0, moment, engine.cylinder_plane, engine.number > 1),))


def balanced(
    engine: Engine, ring: Ring, running: float, top: float
) -> tuple[tuple[Wheel, ...], Left]:
    """Return the weight for each wheel and what is left.

    Parameters
    ----------
    running, top : turning speeds, rad/s.
    """
    made: list[Wheel] = []
    remain: list[complex] = []
    lead = cmath.rect(1.0, math.radians(engine.lead))
    for n, name in enumerate(engine.axles):
        turned = in_wheels(engine, tuple(one for one in engine.turned if one.axle == n))
        to_and_fro = _to_and_fro(engine, engine.shares[n])
        for side, plain, part in zip((RIGHT, LEFT), turned, to_and_fro, strict=True):
            wanted = -(plain + part)
            weight = wanted
            if abs(wanted) > engine.most:
                weight = wanted * (engine.most / abs(wanted))
            left = plain + weight
            crank = 1.0 + 0j if side == RIGHT else lead
            around = cmath.phase(-wanted / crank) if abs(wanted) > 1e-12 else 0.0
            arc, mass, radius = ring.piece(abs(weight))
            made.append(
                Wheel(
                    axle=name, side=side, needed=1000 * abs(wanted),
                    angle=math.degrees(around), turning=1000 * abs(plain), arc=arc,
                    mass=1000 * mass, radius=radius, made=1000 * abs(weight),
                    left=1000 * abs(left),
                    blow=relations.centrifugal(U=abs(left), omega=running),
                    blow_top=relations.centrifugal(U=abs(left), omega=top),
                )
            )  # fmt: skip
            remain.append(left)
    return tuple(made), _left(engine, tuple(remain))


def _left(engine: Engine, wheels: tuple[complex, ...]) -> Left:
    turn = cmath.rect(1.0, math.radians(engine.lead))
    cranks = [(complex(engine.to_and_fro), engine.cylinder_plane)]
    if engine.number > 1:
        cranks.append((engine.to_and_fro * turn, -engine.cylinder_plane))
    planes = [engine.wheel_plane, -engine.wheel_plane] * (len(wheels) // 2)
    every = [*zip(wheels, planes, strict=True), *cranks]
    return Left(wheels, sum((one for one, _ in every), 0j), sum((one * z for one, z in every), 0j))


def shown(engine: Engine, made: tuple[Wheel, ...], share: float, omega: float) -> list[Working]:
    """Return the way to the figures where every weight is as large as it should be."""
    if engine.number != 2 or any(one.made < one.needed * (1 - 1e-9) for one in made):
        return []
    gamma = math.radians(engine.lead)
    if math.cos(gamma / 2) < 0 or math.sin(gamma / 2) < 0:
        return []
    worst = max(made, key=lambda one: one.left)
    return [
        relations.centrifugal.work(
            "Hammer blow of the worst wheel", "N", U=worst.left / 1000, omega=omega
        ),
        relations.fore_and_aft.work(
            "Force left along the engine", "N", c=share, U=engine.to_and_fro,
            omega=omega, gamma=gamma,
        ),
        relations.swaying.work(
            "Couple left about the upright", "N mm", c=share,
            U=engine.to_and_fro, omega=omega, gamma=gamma, a=2 * engine.cylinder_plane,
        ),
    ]  # fmt: skip
