"""Side elevation in outline, the model over the scaled prototype, and the chapter's tables."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..measures import INCH
from ..scale import Scale, ScaleResult
from ..scale.result import ScaledSize
from .scene import (
    Chart,
    Circle,
    Curve,
    Dimension,
    Label,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
)

_SHOWN = 15.0  # % of gauge error beyond which a usual pair is not worth a line


def pictures(scale: Scale, result: ScaleResult) -> tuple[Picture, ...]:
    """Return the side elevation, the sizes at scale, the usual pairs and the speeds."""
    made: list[Picture] = [elevation(scale, result), _sizes(result), _pairs(scale, result)]
    if result.bought:
        made.append(_bought(result))
    if scale.prototype.speed is not None:
        made.append(_speeds(scale, result))
    return tuple(made)


@dataclass(frozen=True)
class _Sides:
    """Sizes of one engine in model mm, unknown ones None; x backwards from the front beam."""

    values: dict[str, float | None]

    def __getitem__(self, name: str) -> float | None:
        return self.values.get(name)

    def all(self, *names: str) -> tuple[float, ...] | None:
        """Return the named sizes when every one of them is known."""
        found = [value for name in names if (value := self.values.get(name)) is not None]
        return tuple(found) if len(found) == len(names) else None


def elevation(scale: Scale, result: ScaleResult) -> Scene:
    """Return the side elevation: the scaled prototype in grey, the model over it.

    Only what is known is drawn.  The front is at the right, x = 0 at the front buffer beam
    and y = 0 on the rail, in mm of the model.
    """
    wheels = scale.prototype.wheels()
    full = _Sides({_last(one): one.model for one in result.sizes})
    model = _Sides(
        {_last(one): one.model if one.actual is None else one.actual for one in result.sizes}
    )
    parts: list[Primitive] = []
    for sides, pen in ((full, "behind"), (model, "outline")):
        parts += _engine(sides, wheels, pen)  # type: ignore[arg-type]
    reach = [full[name] or 0.0 for name in ("length", "total_wheelbase", "driving_wheel")]
    length = max(*reach, 1.3 * (full["coupled_wheelbase"] or 0.0), 10.0)
    rail = Path(np.array([[-1.05 * length, 0.0], [0.05 * length, 0.0]]), pen="thin")
    parts = [rail, *parts, *_marks(full, model, _axles(model, wheels))]
    differ = [
        f"{one.label.lower()} {one.actual:.1f} for {one.model:.1f} mm"
        for one in result.sizes
        if one.actual is not None and abs(one.actual - one.model) > 0.005 * one.model
    ]
    words = f"the model differs in {', '.join(differ)}" if differ else "the model is at scale"
    return Scene(
        "Side elevation, model over scaled prototype",
        f"The prototype at 1:{result.ratio:.4g} in grey with the model in black over it, front "
        f"to the right; {words}. Only known sizes are drawn.",
        tuple(parts),
    )


def _last(one: ScaledSize) -> str:
    return one.field.rsplit(".", 1)[-1]


def _axles(sides: _Sides, wheels: tuple[int, int, int] | None) -> list[tuple[float, bool]]:
    """Return x of each axle and whether it is coupled, as far as the sizes tell."""
    coupled_base, total = sides["coupled_wheelbase"], sides["total_wheelbase"]
    if coupled_base is None and total is not None and wheels and wheels[0] == wheels[2] == 0:
        coupled_base = total
    if coupled_base is None:
        return []
    leading, coupled, trailing = wheels or (0, 2, 0)
    total = max(total or coupled_base, coupled_base)
    spare = total - coupled_base
    overhang = sides["front_overhang"]
    if overhang is None:
        overhang = ((sides["length"] or total * 1.5) - total) / 2
    if leading and trailing:
        before = min(sides["leading_gap"] or spare / 2, spare)
    else:
        before = spare if leading else 0.0
    first = -overhang - before
    axles = [(first - coupled_base * i / max(coupled - 1, 1), True) for i in range(coupled)]
    if leading == 1 and spare:
        axles.append((-overhang, False))
    elif leading == 2 and spare and (gap := sides["leading_gap"]) is not None:
        axles += [(-overhang, False), (first + gap, False)]
    if trailing == 1 and spare:
        axles.append((-overhang - total, False))
    return axles


def _engine(sides: _Sides, wheels: tuple[int, int, int] | None, pen: Pen) -> list[Primitive]:
    parts: list[Primitive] = []
    radius = (sides["driving_wheel"] or 0.0) / 2
    small = (sides["carrying_wheel"] or 0.0) / 2
    for x, coupled in _axles(sides, wheels):
        r = radius if coupled else small
        if r:
            parts.append(Circle((x, r), r, pen=pen, part="driving_wheel" if coupled else ""))
    length, beam = sides["length"], sides["buffer_height"]
    if length is not None:
        depth = 0.22 * beam if beam is not None else 0.04 * length
        height = beam if beam is not None else 2 * radius
        for x in (0.0, -length):
            parts.append(
                Path(np.array([[x, height - depth], [x, height + depth]]), pen=pen, part="length")
            )
    barrel = sides.all("boiler_diameter", "boiler_centre", "smokebox_front", "boiler_length")
    if barrel is not None:
        diameter, centre, front, long = barrel
        x0, y0 = -front - long, centre - diameter / 2
        parts.append(
            Path(box(x0, y0, -front, y0 + diameter), pen=pen, closed=True, part="boiler_diameter")
        )
        chimney = sides.all("chimney_position", "chimney_diameter", "height")
        if chimney is not None:
            at, wide, top = chimney
            x = -front - at
            parts.append(
                Path(
                    box(x - wide / 2, y0 + diameter, x + wide / 2, top),
                    pen=pen, closed=True, part="height",
                )
            )  # fmt: skip
        cab = sides.all("cab_length", "cab_height")
        if cab is not None:
            depth, roof = cab
            foot = 2 * radius if beam is None else beam
            parts.append(Path(box(x0 - depth, foot, x0, roof), pen=pen, closed=True))
    elif sides["height"] is not None and length is not None:
        top = sides["height"]  # only how high the engine stands is known
        parts.append(Path(np.array([[-length, top], [0.0, top]]), pen="centre", part="height"))
    return parts


def _marks(full: _Sides, model: _Sides, axles: list[tuple[float, bool]]) -> list[Primitive]:
    made: list[Primitive] = []
    length, height = model["length"], model["height"]
    wheel, scaled = model["driving_wheel"], full["driving_wheel"]
    below = 0.12 * max(height or 0.0, wheel or 0.0, 0.3 * (length or 0.0))
    if length is not None:
        made.append(Dimension((-length, 0), (0, 0), f"{length:.1f} mm", offset=-2 * below))
        if height is not None:
            made.append(Dimension((0, 0), (0, height), f"{height:.1f} mm", offset=-below))
    base = model["coupled_wheelbase"]
    if base is not None and (xs := [x for x, coupled in axles if coupled]):
        made.append(Dimension((min(xs), 0), (max(xs), 0), f"{base:.1f} mm", offset=-below))
    if wheel is not None and scaled is not None and axles:
        x = axles[0][0]
        text = f"driving wheel {wheel:.1f} mm"
        if abs(wheel - scaled) > 0.005 * scaled:
            text += f", {scaled:.1f} at scale"
        made.append(Label(text, (x, wheel + below), leader=(x, wheel)))
    return made


def _sizes(result: ScaleResult) -> Table:
    around = any(one.around is not None for one in result.sizes)
    rows = []
    for one in result.sizes:
        row: list[str | float] = [one.label, one.full, f"{one.model:.2f}", f"{one.inches:.4f}"]
        row += [f"{fraction_words(one)} ({_thou(one.error_64th)} thou)"]
        row += [one.stock.name if one.stock else "–"]
        row += [f"{one.actual:.2f}" if one.actual is not None else "–"]
        if around:
            row.append(f"{one.around:.2f}" if one.around is not None else "–")
        rows.append(tuple(row))
    columns: tuple[str, ...] = (
        "Size",
        "Full size",
        "Model, mm",
        "Model, in",
        "Nearest 1/64 in",
        "Stock",
    )
    columns = (*columns, "As decided, mm")
    if around:
        columns = (*columns, "To suit the bought part, mm")
    return Table(
        f"Sizes at 1:{result.ratio:.4g}, {result.mm_per_foot:.4g} mm to the foot",
        columns,
        tuple(rows),
        "Stock: nearest usual bar, for the boiler tube outside (common practice).",
    )


def fraction_words(one: ScaledSize) -> str:
    """Return the nearest 1/64 in as a builder writes it: 1 31/32, 3/4, 2."""
    whole, rest = divmod(one.nearest_64th, 1)
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{rest.numerator}/{rest.denominator}")
    return " ".join(parts)


def _thou(error: float) -> str:
    return f"{1000 * error / INCH + 0.0:+.1f}".replace("-0.0", "+0.0")


def _pairs(scale: Scale, result: ScaleResult) -> Table:
    rows: list[tuple[str | float, ...]] = [
        (
            "this design",
            f"1:{result.ratio:.4g}",
            scale.track_gauge,
            result.scaled_gauge,
            f"{result.gauge_error:+.2f} mm",
            f"{result.gauge_error_percent:+.1f} %",
        )
    ]
    rows += [
        (
            pair.name,
            f"{pair.scale} (1:{pair.ratio:.4g})" if "ft" in pair.scale else pair.scale,
            pair.track_gauge,
            pair.track_gauge - pair.error,
            f"{pair.error:+.2f} mm",
            f"{pair.percent:+.1f} %",
        )
        for pair in result.pairs
        if abs(pair.percent) <= _SHOWN
    ]
    return Table(
        f"Usual scales and tracks for a prototype of {scale.prototype.gauge:.4g} mm gauge",
        ("Pair", "Scale", "Track", "Gauge at scale", "Track wider by", "Error"),
        tuple(rows),
        f"Pairs within {_SHOWN:.0f} % of the gauge, best first; common practice.",
    )


def _bought(result: ScaleResult) -> Table:
    return Table(
        "Parts already bought",
        ("Part", "Size", "Stands for", "Scale it implies", "Off this scale by"),
        tuple(
            (b.label, b.size, b.full, f"1:{b.implied_ratio:.4g}", f"{b.percent:+.1f} %")
            for b in result.bought
        ),
    )


def _speeds(scale: Scale, result: ScaleResult) -> Chart:
    assert scale.prototype.speed is not None
    full = np.linspace(0.0, scale.prototype.speed, 50)
    n = result.ratio
    return Chart(
        "Speed of the model",
        f"{scale.prototype.speed:.0f} km/h of the prototype is {scale.prototype.speed / n:.2g} "
        f"km/h by the linear scale and {scale.prototype.speed / n**0.5:.2g} km/h by the dynamic.",
        "prototype, km/h",
        "model, km/h",
        (
            Curve(full, full / n, "linear, what the trade calls scale speed"),
            Curve(full, full / np.sqrt(n), "dynamic, by the square root", pen="trace"),
        ),
    )
