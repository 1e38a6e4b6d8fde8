"""Which way each part comes out, and what stands there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from ..cylinders.axis import Axis
from ..frames.solids import Plate, Round
from ..frames.whole import Axle, Part, Whole
from .results import Removal
from .sweep import Shape, Way, both_sides, extent_of, overlap, shapes_of, toward_of, way_out

WATER = ("water", "tank water")
ECCENTRICS = ("eccentric", "forward eccentric", "backward eccentric")
GLAND = 0.6
"""Of the stuffing box, what its gland has to come back by; common practice."""
THETAS = tuple(float(45 * n) for n in range(8))
BOILER = (
    "boiler", "lagging", "firebox", "burner", "dome", "safety valve", "smokebox", "chimney",
    "ashpan",
)  # fmt: skip


def removals(whole: Whole, axis: Axis, inclination: float) -> tuple[Removal, ...]:
    """Return how every part that has to come out does so.

    Parameters
    ----------
    axis : the parts along the cylinder.
    inclination : of the cylinder, degrees.
    """
    bench = Bench(whole)
    made = [_wheelset(bench, n, axle) for n, axle in enumerate(whole.axles)]
    if whole.drive.trunnion is None:
        made += [*_piston(bench, inclination), *_gland(bench, inclination),
                 *_crosshead(bench, inclination), *_valve(bench, inclination)]  # fmt: skip
    made += [*_rods(bench), *_cylinders(bench), *_ashpan(bench), *_boiler(bench)]
    return tuple(made)


class Bench:
    """The engine with the shapes of its parts, each made once at a crank angle."""

    def __init__(self, whole: Whole) -> None:
        self.whole = whole
        self._made: dict[tuple[str, float], tuple[Shape, ...]] = {}
        self._sides: dict[tuple[str, float], tuple[Shape, ...]] = {}

    def shapes(self, part: Part, theta: float = 0.0) -> tuple[Shape, ...]:
        """Return a part's shapes on the right; see `shapes_of`."""
        if theta and part.ride in ("frames", "axle"):
            theta = 0.0
        key = (part.name, theta)
        if key not in self._made:
            self._made[key] = shapes_of(part, self.whole, theta)
        return self._made[key]

    def named(self, names: Iterable[str], theta: float = 0.0) -> tuple[Shape, ...]:
        """Return the shapes on the right of the parts named, as far as there are such parts."""
        parts = (self.whole.part(name) for name in names)
        return tuple(shape for part in parts if part for shape in self.shapes(part, theta))

    def standing(self, without: Iterable[str], theta: float = 0.0) -> list[Shape]:
        """Return all shapes, both sides, but those of the parts named and the water."""
        left = {*without, *WATER}
        made: list[Shape] = []
        for part in self.whole.parts:
            if part.name in left:
                continue
            shapes = self.shapes(part, theta)
            key = (part.name, theta)
            if key not in self._sides:
                self._sides[key] = tuple(both_sides(shapes, part.paired))
            made += self._sides[key]
        return made


def _clear(going: Sequence[Shape], stood: Sequence[Shape], down: bool) -> float:
    """Return how far a part goes down or up until it is beyond all that it may meet, mm."""
    far = 0.0
    for one in going:
        (x0, y0, _), (x1, y1, _) = extent_of([one])
        for other in stood:
            if min(one.outer, other.outer) <= max(one.inner, other.inner):
                continue
            (a0, b0, _), (a1, b1, _) = extent_of([other])
            if min(x1, a1) > max(x0, a0):
                far = max(far, y1 - b0 if down else b1 - y0)
    return far


def _touching(going: Sequence[Shape], bench: Bench, kinds: Sequence[str]) -> tuple[str, ...]:
    """Return the parts of these groups that lie against the shapes and so come off first."""
    names = {shape.part for shape in going}
    found = []
    for part in bench.whole.parts:
        if part.kind not in kinds or part.name in names:
            continue
        if any(
            min(one.outer, other.outer) > max(one.inner, other.inner) and overlap(one, other)
            for other in bench.shapes(part)
            for one in going
        ):
            found.append(part.name)
    return tuple(found)


def _best(ways: Sequence[Way]) -> tuple[Way, tuple[Way, ...]]:
    """Return the first open way, else that with the fewest things in it; and the others."""
    chosen = min(ways, key=lambda way: len(way.blocked))
    return chosen, tuple(way for way in ways if way is not chosen)


def _wheelset(bench: Bench, n: int, axle: Axle) -> Removal:
    own = [part for part in bench.whole.parts if part.axle == n]
    names = [part.name for part in own]
    if axle.name == "driving":
        names += [name for name in ECCENTRICS if bench.whole.part(name)]
    going = bench.named(names)
    first = [name for name in ("horn stays", "coupling rods") if bench.whole.part(name)]
    if axle.kind != "coupled":
        first = []
    elif axle.name == "driving":
        swinging = ("piston and rods",) if bench.whole.drive.trunnion is not None else ()
        first += [name for name in ("connecting rods", *swinging) if bench.whole.part(name)]
    first += [
        name for name in _touching(going, bench, ("motion", "rods")) if name not in first
    ]  # fmt: skip
    stood = bench.standing((*names, *first))
    needed = _clear(going, stood, down=True)
    way = way_out(going, stood, "down", needed)
    kind = "wheelset" if axle.kind == "coupled" else "truck"
    return Removal(f"{axle.name} wheelset", kind, way, (), tuple(first), going)


def _cylinder_round(whole: Whole) -> tuple[Part, Round] | None:
    part = whole.part("cylinders")
    if part is None:
        return None
    body = next((one for one in part.solids if isinstance(one, Round)), None)
    return None if body is None else (part, body)


def _along(shapes: Sequence[Shape], inclination: float) -> tuple[float, float]:
    """Return the ends of shapes along the cylinder's line, mm from the axle."""
    line = toward_of("forward", inclination)
    assert line is not None
    at = [x * line[0] + y * line[1] for one in shapes for x, y in one.outline]
    return min(at), max(at)


def _piston(bench: Bench, inclination: float) -> Iterator[Removal]:
    """Yield how piston and rod are drawn forward, through the front cover."""
    found = _cylinder_round(bench.whole)
    going = bench.named(("piston and rods",))
    if found is None or not going:
        return
    barrel = shapes_of(replace(found[0], solids=found[0].solids[:1]), bench.whole)
    front = _along(barrel, inclination)[1]
    needed = front - _along(going, inclination)[0]
    first = ("front cylinder covers",)
    stood = bench.standing(("piston and rods", "cylinders", "crossheads", "connecting rods"))
    way = way_out(going, stood, "forward", needed, inclination)
    yield Removal("piston and rods", "piston", way, (), first, going)


def _gland(bench: Bench, inclination: float) -> Iterator[Removal]:
    """Yield how the piston-rod gland comes back along its rod, at back dead centre."""
    found = _cylinder_round(bench.whole)
    if found is None:
        return
    stuffing = tuple(
        one for one in found[0].solids if isinstance(one, Round) and one is not found[1]
    )
    if not stuffing:
        return
    going = shapes_of(replace(found[0], name="piston-rod gland", solids=stuffing), bench.whole)
    low, high = _along(going, inclination)
    stood = bench.standing(("cylinders", "piston and rods"), 180.0)
    # the gland proper is what screws into the stuffing box, a little over half of it
    way = way_out(going, stood, "backward", GLAND * (high - low), inclination)
    yield Removal("piston-rod gland", "gland", way, (), (), going, 180.0)


def _crosshead(bench: Bench, inclination: float) -> Iterator[Removal]:
    bars = bench.named(("slide bars",))
    best: tuple[Removal, int] | None = None
    for theta in THETAS:
        going = bench.named(("crossheads",), theta)
        if not going or not bars:
            return
        gear = _touching(going, bench, ("motion",)) if theta == 0 else ()
        first = ("connecting rods", *gear)
        stood = bench.standing(("crossheads", "piston and rods", *first), theta)
        outer = max(one.outer for one in going)
        off_bars = _along(going, inclination)[1] - _along(bars, inclination)[0]
        back = way_out(going, stood, "backward", off_bars, inclination)
        out = way_out(going, stood, "out", outer - min(one.inner for one in going))
        way, others = _best((out, back))
        if best is None or len(way.blocked) < best[1]:
            best = (Removal("crossheads", "crosshead", way, others, first, going, theta),
                    len(way.blocked))  # fmt: skip
    if best is not None:
        yield best[0]


def _valve(bench: Bench, inclination: float) -> Iterator[Removal]:
    """Yield how a valve comes out of its chest: the chest less its walls stands for it."""
    found = _cylinder_round(bench.whole)
    if found is None:
        return
    chest = next((one for one in found[0].solids if isinstance(one, Plate)), None)
    if chest is None:
        return
    (x, y, z) = chest.centroid
    corners = tuple((x + 0.8 * (a - x), y + 0.6 * (b - y)) for a, b in chest.outline)
    half = 0.4 * (chest.outer - chest.inner)
    going = (Shape("valve", corners, z - half, z + half),)
    (x0, y0, _), (x1, _, _) = extent_of(going)
    high = chest.extent[1][1]
    stood = bench.standing(("cylinders", "valve spindle", "piston and rods"))
    ways = [
        way_out(going, stood, "up", high - y0),
        way_out(going, stood, "out", 2 * half),
        way_out(going, stood, "forward", x1 - x0, inclination),
    ]
    way, others = _best(ways)
    yield Removal("slide valve", "valve", way, others, ("steam-chest cover",), going)


def _rods(bench: Bench) -> Iterator[Removal]:
    """Yield how the rods come off their pins, with the crank where it is best.

    Rods between the plates have a big end in halves and come down.  A small end comes out of
    its crosshead when its pin is drawn, so that crossheads and bars do not count.
    """
    pins = [one.name for one in bench.whole.parts if one.name.endswith("crankpins")]
    for name in ("coupling rods", "connecting rods"):
        part = bench.whole.part(name)
        if part is None:
            continue
        own = bench.shapes(part)
        outer = max(one.outer for one in own)
        between = outer < bench.whole.frame_inside / 2
        over = [
            other.name for other in bench.whole.parts
            if other.name in ("connecting rods", "piston and rods", "return crank")
            and other.name != name and min(one.inner for one in bench.shapes(other)) > 0
            and min(one.inner for one in bench.shapes(other)) >= outer - 1.0
            and other.extent[1][2] > outer
        ]  # fmt: skip
        without = [name, *pins, *over]
        if name == "connecting rods":
            without += ["crossheads", "slide bars", "piston and rods"]
        if between:
            without += ["driving axle", "driving wheels"]
        made: list[tuple[int, float, Way, tuple[Shape, ...]]] = []
        for theta in (0.0, 180.0) if between else THETAS:
            going = bench.shapes(part, theta)
            stood = [one for one in bench.standing(without, theta) if one.outer > 0]
            if between:
                way = way_out(going, stood, "down", _clear(going, stood, down=True))
            else:
                way = way_out(going, stood, "out", 2 * (outer - min(one.inner for one in own)))
            made.append((len(way.blocked), theta, way, going))
            if way.open:
                break
        _, theta, way, going = min(made, key=lambda one: (one[0], one[1]))
        way, gear = _gear_off(bench, way, going, (*without, *WATER), theta)
        yield Removal(name, "rod", way, (), (*over, *gear), going, theta)


def _gear_off(
    bench: Bench, way: Way, going: Sequence[Shape], without: Iterable[str], theta: float = 0.0
) -> tuple[Way, tuple[str, ...]]:
    """Return a way with the valve gear that stands in it taken off its pins, and its names."""
    gear = tuple(
        part.name for part in bench.whole.parts
        if part.kind == "motion" and part.name in way.blocked and "shaft" not in part.name
    )  # fmt: skip
    if not gear:
        return way, ()
    left = [one for one in bench.standing((*without, *gear), theta) if one.outer > 0]
    slope = bench.whole.drive.inclination
    return way_out(going, left, way.toward, way.needed, slope), gear


def _cylinders(bench: Bench) -> Iterator[Removal]:
    found = _cylinder_round(bench.whole)
    if found is None:
        return
    going = bench.shapes(found[0])
    plate = bench.whole.frame_inside / 2 + bench.whole.frame_thickness
    between = max(one.outer for one in going) < plate
    first = ("slide bars", "piston and rods", "crossheads", "connecting rods", "valve spindle")
    off = [name for name in first if bench.whole.part(name)]
    if between and bench.whole.part("smokebox saddle"):
        off.append("smokebox saddle")
    without = ["cylinders", *off, *(("frame plates",) if between else ())]
    stood = bench.standing(without)
    tries: list[Callable[[], Way]]
    tries = [
        lambda: way_out(going, stood, "down", _clear(going, stood, down=True)),
        lambda: way_out(going, stood, "up", _clear(going, stood, down=False)),
    ]
    if not between:
        wide = max(one.outer for one in going) - min(one.inner for one in going)
        tries.insert(0, lambda: way_out(going, stood, "out", wide))
    made = [(way, _gear_off(bench, way, going, without)) for way in (one() for one in tries)]
    tried, (way, gear) = min(made, key=lambda one: len(one[1][0].blocked))
    others = tuple(one for one, _ in made if one is not tried)
    yield Removal("cylinders", "cylinders", way, others, (*off, *gear), going)


def _ashpan(bench: Bench) -> Iterator[Removal]:
    for name in ("ashpan", "burner"):
        part = bench.whole.part(name)
        if part is None:
            continue
        going = bench.shapes(part)
        stood = bench.standing(("ashpan", "burner", "firebox", "boiler", "lagging"))
        (x0, y0, _), (x1, y1, _) = extent_of(going)
        ways = [
            way_out(going, stood, "down", y1 - y0),
            way_out(going, stood, "back", x1 - bench.whole.back),
            way_out(going, stood, "ahead", bench.whole.front - x0),
        ]
        way, others = _best(ways)
        what = "grate and ashpan" if name == "ashpan" else "burner"
        yield Removal(what, "ashpan", way, others, (), going)


def _boiler(bench: Bench) -> Iterator[Removal]:
    going = bench.named(BOILER)
    if not going:
        return
    stood = bench.standing(BOILER)
    needed = _clear(going, stood, down=False)
    way = way_out(going, stood, "up", needed)
    off = [name for name in way.blocked if name in LIFTED_OFF]
    if off:  # sheet work is made to come off
        stood = bench.standing((*BOILER, *off))
        way = way_out(going, stood, "up", _clear(going, stood, down=False))
    yield Removal("boiler", "boiler", way, (), tuple(off), going)


LIFTED_OFF = ("cab roof", "cab front", "cab sides", "saddle tank", "side tanks", "splashers",
              "running boards", "reach rod")  # fmt: skip
"""What is screwed on so that the boiler can come out; common practice."""
