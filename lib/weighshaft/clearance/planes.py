"""Where across the engine each moving part runs, and how wide and thick it is.

What the axle carries stands where the row along the axle and the chain outwards put it;
what follows takes the plane beside it that is common practice.  A part of known sizes
overrides both.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from ..motion.gears import AnyGear
from ..sizes import SizeError
from ..wheels.results import Part as WheelsPart
from .decisions import Clearance, PartSizes


@dataclass(frozen=True)
class Plane:
    """A thing on the right-hand side, mm out from the engine's centre line."""

    name: str
    inner: float
    outer: float

    @property
    def middle(self) -> float:
        """Its middle, mm from the centre line."""
        return (self.inner + self.outer) / 2


@dataclass(frozen=True)
class Body:
    """Sizes of a moving part: its width seen from the side and its place across, mm.

    `usual` says that the width is none of the builder's but the usual one.
    """

    name: str
    width: float
    inner: float
    outer: float
    usual: bool = True

    @property
    def thickness(self) -> float:
        """Across the engine, mm."""
        return self.outer - self.inner


@dataclass(frozen=True)
class Proportions:
    """The widths and thicknesses taken where the builder has left them empty, mm."""

    rod: float
    lever: float
    link: float
    strap: float
    connecting_rod: float
    big_end: float
    shaft: float
    rod_thickness: float
    link_thickness: float


def planes_from(
    across: Iterable[WheelsPart], stack: Iterable[WheelsPart], back_to_back: float
) -> tuple[Plane, ...]:
    """Return the planes that the chapter on wheels gives, of the right-hand side.

    Parameters
    ----------
    across : the chain outwards from the centre line.
    stack : the row along the driven axle, counted from the back of the left wheel, mm.
    """
    half = back_to_back / 2
    made = [Plane(part.name, part.start, part.end) for part in across]
    for part in stack:
        if part.kind in ("sheave", "web", "big end") and part.start + part.end > 2 * half:
            made.append(Plane(part.name, part.start - half, part.end - half))
    return tuple(made)


def proportions(clearance: Clearance, axle_diameter: float, crankpin: float) -> Proportions:
    """Return the builder's widths and thicknesses, and usual shares of the axle for the others."""
    d, widths, thick = axle_diameter, clearance.widths, clearance.thicknesses

    def taken(given: float | None, usual: float) -> float:
        return usual if given is None else given

    return Proportions(
        rod=taken(widths.rod, 0.5 * d),
        lever=taken(widths.lever, 0.45 * d),
        link=taken(widths.link, 0.95 * d),
        strap=taken(widths.strap, 0.25 * d),
        connecting_rod=taken(widths.connecting_rod, 0.7 * d),
        big_end=taken(widths.big_end, 1.7 * crankpin),
        shaft=taken(widths.weighshaft, 0.5 * d),
        rod_thickness=taken(thick.rod, 0.25 * d),
        link_thickness=taken(thick.link, 0.3 * d),
    )


_STEPS = {
    "lifting link": -1, "lifting arm": -1, "link's lifting link": -1, "link's arm": -1,
    "suspension link": 1, "radius rod's lifting link": 1, "radius rod's arm": 1,
    "rocker, lower arm": 1,
    # Joy's gear stands beside the connecting rod, the guide outside the rod it lets pass
    "correcting link": 1, "anchor link": 1, "lever": 2, "guide": 3, "valve rod": 2, "die": 2,
}  # fmt: skip
"""How many places beside the gear's own plane a part runs, outwards; common practice."""

_BAKER = {"radius bars": 1, "yoke": 2, "valve rod": -1}
"""The same for Baker's gear: its bell crank is a sleeve with an arm at either end, so that the
valve rod runs on the one side of the gear connecting rod, bars and yoke on the other."""

_LEVERS = (
    "lifting", "arm", "lever", "union", "drop", "rocker", "suspension", "return", "anchor",
    "correcting", "yoke", "bars", "bell",
)  # fmt: skip
_OUTER_VALVE = ("rocker, upper arm", "valve rod", "valve spindle")


def planes_of(
    gear: AnyGear,
    names: Iterable[str],
    *,
    clearance: Clearance,
    sizes: Proportions,
    planes: Iterable[Plane],
    frame_inside: float,
    side_play: float = 0.0,
) -> dict[str, Body]:
    """Return width and place across of every moving part, by its name.

    Eccentrics stand where the row along the axle puts them, rods in the planes of their
    sheaves, a link midway between its rods, lifting links and rocker beside the rods.
    Outside gear runs in one plane outside the return crank, with lifting links inside it;
    Baker's has the valve rod inside that plane, radius bars and yoke outside it.

    Parameters
    ----------
    names : of the moving parts.
    sizes : widths and thicknesses for parts of which none are known.
    planes : from the chapter on wheels; may be empty, then usual places are taken.
    frame_inside : between the frames, mm.
    side_play : of the driving axle, each way, mm, for which parts keep off what it carries.

    Raises
    ------
    SizeError : when a part of known sizes is none of this gear.
    """
    known = tuple(names)
    here = _Places(gear, clearance, sizes, tuple(planes), frame_inside, side_play)
    made = {name: here.body(name) for name in known}
    for part in clearance.parts:
        if part.name not in made:
            raise SizeError(
                f"Part “{part.name}”: nothing of that name moves; it may be one of "
                f"{', '.join(known)}.",
                "parts",
            )
        made[part.name] = _overridden(made[part.name], part)
    return made


def _overridden(body: Body, part: PartSizes) -> Body:
    middle = (body.inner + body.outer) / 2 if part.plane is None else part.plane
    half = (body.thickness if part.thickness is None else part.thickness) / 2
    width = body.width if part.width is None else part.width
    usual = body.usual and part.width is None
    return replace(body, width=width, inner=middle - half, outer=middle + half, usual=usual)


class _Places:
    """Places the parts of one gear."""

    def __init__(
        self,
        gear: AnyGear,
        clearance: Clearance,
        sizes: Proportions,
        planes: tuple[Plane, ...],
        frame_inside: float,
        side_play: float,
    ) -> None:
        self.gear, self.sizes, self.widths = gear, sizes, clearance.widths
        self.gap = clearance.thicknesses.side_gap + side_play
        by_name: dict[str, list[Plane]] = {}
        for plane in planes:
            by_name.setdefault(plane.name, []).append(plane)
        self.planes: Mapping[str, list[Plane]] = by_name
        thick = sizes.rod_thickness
        beside = frame_inside / 2 + 6 * thick
        rod = self._first("connecting rod") or self._first("inside crankpin")
        self.outside = "inside crankpin" not in by_name
        self.connecting = rod or Plane("connecting rod", beside, beside + 2 * thick)
        # of the sheaves the builder says which is whose
        self.sheaves = sorted(
            by_name.get("eccentric sheave", ()), key=lambda p: p.middle, reverse=True
        )
        if clearance.thicknesses.forward_sheave == "inner":
            self.sheaves.reverse()
        count = sum(part.shape == "sheave" for part in gear.parts)
        while len(self.sheaves) < count:
            out = frame_inside / 2 - (1.5 + 2 * len(self.sheaves)) * thick
            self.sheaves.append(Plane("eccentric sheave", out - thick, out + thick))
        self.inside = count > 0
        rocker = getattr(gear, "drive", "") == "rocker"
        self.over_cylinder = _OUTER_VALVE if rocker and self.outside else ()
        self.middle, self.half = self._own(count)

    def _first(self, name: str) -> Plane | None:
        found = self.planes.get(name)
        return found[0] if found else None

    def _own(self, count: int) -> tuple[float, float]:
        """Return the middle of the gear's own plane, and half of what its parts take there."""
        rod, link = self.sizes.rod_thickness, self.sizes.link_thickness
        if count > 1:
            first, second = self.sheaves[0].middle, self.sheaves[1].middle
            return (first + second) / 2, abs(first - second) / 2 + rod / 2
        if count == 1:
            return self.sheaves[0].middle, rod / 2
        if self.gear.kind == "Joy":
            rodded = self.connecting
            return rodded.middle, (rodded.outer - rodded.inner) / 2
        most = rod if self.gear.kind == "Baker" else max(rod, link)  # it has no link
        return self._return_crank().outer + rod / 2, most / 2

    def _return_crank(self) -> Plane:
        """Return where the return crank stands: against the outside of the big end."""
        start = self.connecting.outer
        usual = Plane("return crank", start, start + self.sizes.rod_thickness)
        return self._first("return crank") or usual

    def body(self, name: str) -> Body:
        """Return the sizes of one part."""
        sizes, thick = self.sizes, self.sizes.rod_thickness
        width, given = sizes.rod, self.widths.rod
        if name in ("link", "guide"):
            width, given, thick = sizes.link, self.widths.link, sizes.link_thickness
        elif name in ("connecting rod", "coupling rod", "crosshead"):
            width, given = sizes.connecting_rod, self.widths.connecting_rod
        elif name == "crank webs":
            width, given = sizes.big_end, self.widths.big_end
        elif any(word in name for word in _LEVERS):
            width, given = sizes.lever, self.widths.lever
        usual, place = given is None, self._carried(name)
        if place is None:
            thick = self._between_rods(name, thick)
            middle = self._middle(name, thick)
            place = Plane(name, middle - thick / 2, middle + thick / 2)
        if name == "bell crank":
            # from the plane of the gear connecting rod to that of the valve rod
            beside = self._middle("valve rod", thick)
            inner, outer = sorted((beside, place.middle))
            place = Plane(name, inner - thick / 2, outer + thick / 2)
        return Body(name, width, place.inner, place.outer, usual)

    def _carried(self, name: str) -> Plane | None:
        """Return the place of what the chapter on wheels places, None for the others."""
        thick = self.sizes.rod_thickness
        if name == "crosshead":
            return self._first("crosshead and slide bars") or self.connecting
        if name == "connecting rod":
            return self.connecting
        if name == "coupling rod":
            rod = self.planes["coupling rod"][0]
            return Plane(name, rod.inner, (self._first("crankpin cap") or rod).outer)
        if name == "crank webs":
            webs = self.planes["crank web"]
            return Plane(name, min(w.inner for w in webs), max(w.outer for w in webs))
        if name == "return crank":
            return self._return_crank()
        if "eccentric" in name and not name.endswith("rod"):
            return self._sheave(name)
        if self.inside and name.endswith(("eccentric rod", "forward rod", "backward rod")):
            middle = self._sheave(name).middle
            return Plane(name, middle - thick / 2, middle + thick / 2)
        return None

    def _between_rods(self, name: str, thick: float) -> float:
        """Return the thickness of what runs amid two eccentric rods: no more than goes between."""
        if not self.inside or name == "link" or _STEPS.get(name) or name in self.over_cylinder:
            return thick
        room = 2 * (self.half - self.sizes.rod_thickness - self.gap)
        return room if 0.3 * thick < room < thick else thick

    def _sheave(self, name: str) -> Plane:
        return self.sheaves[1 if "backward" in name else 0]

    def _step(self, name: str) -> int:
        """Return how many places beside the gear's own plane a part runs, outwards."""
        kind = self.gear.kind
        if kind == "Baker":
            step = _BAKER.get(name, 0)
        elif name == "valve spindle":
            step = 2 if kind == "Joy" else 0
        elif kind != "Joy" and name in ("guide", "valve rod", "die"):
            step = {"guide": 1}.get(name, 0)
        else:
            step = 1 if name == "rocker, upper arm" else _STEPS.get(name, 0)
        # between the frames there is no room outwards
        return -step if kind in ("Joy", "Baker") and not self.outside else step

    def _middle(self, name: str, thick: float) -> float:
        if name in self.over_cylinder:
            return self.connecting.middle  # the steam chest over an outside cylinder
        step = self._step(name)
        if step < 0 and self.inside:
            # no room towards the middle of the engine: then on the other side
            inner = self.middle - self.half - self.gap - thick
            step = step if inner > self.gap else -step
        if step == 0:
            return self.middle
        by = self.half + abs(step) * (self.gap + thick) - thick / 2
        return self.middle + (by if step > 0 else -by)
