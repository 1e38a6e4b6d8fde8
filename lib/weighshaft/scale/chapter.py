"""The chapter worked: from prototype, scale and track to sizes, speeds and findings."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from ..findings import COMMON, Finding, Suggestion, by_level
from ..measures import FOOT, INCH
from ..sizes import sizes_of
from ..trade.stock import Kind, nearest_stock, usual_pairs
from ..working import Working, relation, sqrt
from .decisions import AsBuilt, Outline, Prototype, Scale
from .result import Bought, PairError, ScaledSize, ScaleResult

GAUGE_UNSEEN, GAUGE_SEEN = 2.5, 6.0
"""Gauge errors in %: below the first nobody sees it; beyond the second everybody does
(common practice)."""
WEIGHT_LIGHT, WEIGHT_HEAVY = 0.7, 4.0
"""Model weight over scale weight between which working models stand (common practice):
plates, castings and boiler shells are far thicker than scale, the more so the smaller."""
BOUGHT_CLOSE, BOUGHT_FAR = 2.0, 5.0
"""Per cent by which a bought part may be off scale: unseen, and plainly seen (common practice)."""

SIMILARITY = "geometric similarity"


@relation("g_s", SIMILARITY, gauge="G", ratio="n")
def scaled(gauge: float, ratio: float) -> float:
    """Full size over the scale."""
    return gauge / ratio


@relation("e", "definition", track="g", gauge="G", ratio="n")
def gauge_error_percent(track: float, gauge: float, ratio: float) -> float:
    """Track wider than the gauge at scale, in % of the latter."""
    return 100 * (track - gauge / ratio) / (gauge / ratio)


@relation("n_0", SIMILARITY, gauge="G", track="g")
def exact_ratio(gauge: float, track: float) -> float:
    """Scale at which the track is the gauge."""
    return gauge / track


@relation("W_s", SIMILARITY + ": weight goes with volume", weight="W", ratio="n")
def scale_weight(weight: float, ratio: float) -> float:
    """Weight at equal density of all parts."""
    return weight / ratio**3


@relation("v_l", "what the trade calls scale speed: lengths at scale in the same time",
          speed="v", ratio="n")  # fmt: skip
def linear_speed(speed: float, ratio: float) -> float:
    """Scale speed as distances shrink and the clock does not."""
    return speed / ratio


@relation("v_d", "Froude: inertia and gravity in the same proportion as full size",
          speed="v", ratio="n")  # fmt: skip
def dynamic_speed(speed: float, ratio: float) -> Any:
    """Speed at which the model sways, leans in curves and coasts as the prototype does."""
    return speed / sqrt(ratio)


_SIZES = (
    "driving_wheel", "coupled_wheelbase", "total_wheelbase", "bore", "stroke", "length", "width",
    "height", "boiler_diameter",
)  # fmt: skip
_STOCK: dict[str, Kind] = {
    "driving_wheel": "bar", "bore": "bar", "boiler_diameter": "tube", "carrying_wheel": "bar",
    "chimney_diameter": "bar",
}  # fmt: skip
"""What a part is turned from or bought as."""
_PARTS = (
    ("wheels.driving_diameter", "driving_wheel", "Driving wheels"),
    ("cylinders.bore", "bore", "Cylinder bore"),
    ("cylinders.stroke", "stroke", "Piston stroke"),
)


def work(
    scale: Scale,
    *,
    bore: float | None = None,
    stroke: float | None = None,
    number: int | None = None,
    pressure: float | None = None,
    engine_weight: float | None = None,
    driving_diameter: float | None = None,
    coupled_wheelbase: float | None = None,
    leading_truck: float | None = None,
    trailing_truck: float | None = None,
    fixed: frozenset[str] = frozenset(),
) -> ScaleResult:
    """Work the chapter.

    Parameters
    ----------
    scale : the decisions.
    bore, stroke, driving_diameter : of the model, mm; None where not decided.
    number : cylinders of the model.
    pressure : working pressure of the model, bar gauge.
    engine_weight : of the model, kg.
    coupled_wheelbase, leading_truck, trailing_truck : of the model, mm; the trucks from the
        coupled axle next to them, None where there is none or it is not known.
    fixed : paths of sizes that bought parts have settled.
    """
    full, n, track = scale.prototype, scale.ratio, scale.track_gauge
    model = {"driving_wheel": driving_diameter, "bore": bore, "stroke": stroke}
    model |= {name: getattr(scale.as_built, name) for name in sizes_of(AsBuilt)}
    model["coupled_wheelbase"] = coupled_wheelbase
    model["total_wheelbase"] = _total_wheelbase(
        full, coupled_wheelbase, leading_truck, trailing_truck
    )
    bought = tuple(_bought(full, n, model, fixed))
    sizes = tuple(_sizes(full, n, model, bought[0].implied_ratio if bought else None))
    error = gauge_error_percent(track=track, gauge=full.gauge, ratio=n)
    workings = [
        scaled.work("Prototype's gauge at this scale", "mm", gauge=full.gauge, ratio=n),
        gauge_error_percent.work("Gauge error", "%", track=track, gauge=full.gauge, ratio=n),
        exact_ratio.work("Scale that makes the gauge exact", "scale", gauge=full.gauge,
                         track=track),
    ]  # fmt: skip
    weight = linear = dynamic = None
    if full.weight is not None:
        workings.append(scale_weight.work("Scale weight", "kg", weight=full.weight, ratio=n))
        weight = workings[-1].result
    if full.speed is not None:
        workings.append(linear_speed.work("Scale speed", "km/h", speed=full.speed, ratio=n))
        linear = workings[-1].result
        workings.append(dynamic_speed.work("Dynamic speed", "km/h", speed=full.speed, ratio=n))
        dynamic = workings[-1].result
    findings = (
        *_gauge_findings(scale, error),
        *_bought_findings(bought, n, track, full.gauge),
        *_weight_findings(engine_weight, weight, n),
        *_other_findings(scale, number, pressure, linear, dynamic),
    )
    at_scale = {name: value / n for name, value in _known(full) if value is not None}
    return ScaleResult(
        ratio=n,
        mm_per_foot=FOOT / n,
        scaled_gauge=full.gauge / n,
        gauge_error=track - full.gauge / n,
        gauge_error_percent=error,
        exact_ratio=full.gauge / track,
        represented_gauge=track * n,
        driving_wheel=at_scale.get("driving_wheel"),
        bore=at_scale.get("bore"),
        stroke=at_scale.get("stroke"),
        width=at_scale.get("width"),
        scale_weight=weight,
        linear_speed=linear,
        dynamic_speed=dynamic,
        running_speed=scale.running_speed if scale.running_speed is not None else linear,
        sizes=sizes,
        pairs=_pairs(full.gauge),
        bought=bought,
        workings=tuple(workings),
        suggestions=tuple(_suggestions(scale, sizes, bought, fixed)),
        findings=by_level(findings),
    )


def _total_wheelbase(
    full: Prototype, coupled: float | None, leading: float | None, trailing: float | None
) -> float | None:
    """Return the model's total wheelbase, mm; None where an axle's place is not known.

    The place of a bogie is that of its pivot, so that its outer axle is not known.
    """
    axles = full.wheels()
    if coupled is None or axles is None:
        return None
    ends = ((axles[0], leading), (axles[2], trailing))
    if any(count > 1 or (count == 1) != (place is not None) for count, place in ends):
        return None
    return coupled + (leading or 0.0) + (trailing or 0.0)


def _known(full: Prototype) -> tuple[tuple[str, float | None], ...]:
    return tuple((name, getattr(full, name)) for name in _SIZES)


def _sizes(
    full: Prototype, n: float, model: dict[str, float | None], implied: float | None
) -> Iterator[ScaledSize]:
    groups: tuple[tuple[str, Prototype | Outline, tuple[str, ...]], ...] = (
        ("scale.prototype.", full, ("gauge", *_SIZES)),
        ("scale.prototype.outline.", full.outline, tuple(sizes_of(Outline))),
    )
    for place, holder, names in groups:
        abouts = sizes_of(type(holder))
        for name in names:
            value, kind = getattr(holder, name), _STOCK.get(name)
            if value is not None:
                yield ScaledSize(
                    field=place + name,
                    label=abouts[name].label,
                    full=value,
                    model=value / n,
                    stock=nearest_stock(value / n, kind) if kind else None,
                    actual=model.get(name),
                    around=value / implied if implied else None,
                )


def _bought(
    full: Prototype, n: float, model: dict[str, float | None], fixed: frozenset[str]
) -> Iterator[Bought]:
    for path, name, label in _PARTS:
        size, value = model[name], getattr(full, name)
        if path in fixed and size and value:
            yield Bought(path, label, size, value, value / size, 100 * (size * n / value - 1))


def _pairs(gauge: float) -> tuple[PairError, ...]:
    pairs = []
    for pair in usual_pairs():
        ratio = ratio_of(pair.scale)
        at_scale = gauge / ratio
        error = pair.track_gauge - at_scale
        pairs.append(
            PairError(pair.name, pair.scale, ratio, pair.track_gauge, error, 100 * error / at_scale)
        )
    return tuple(sorted(pairs, key=lambda pair: abs(pair.percent)))


def ratio_of(spelling: str) -> float:
    """Return prototype over model from one of the trade's spellings: 1:32, 16 mm/ft, 3/4 in/ft."""
    if spelling.startswith("1:"):
        return float(spelling[2:])
    size, unit = spelling.removesuffix("/ft").rsplit(" ", 1)
    length = sum(float(Fraction(part)) for part in size.split())
    return FOOT / (length * {"mm": 1.0, "in": INCH}[unit])


def _gauge_findings(scale: Scale, error: float) -> Iterator[Finding]:
    full, track = scale.prototype.gauge, scale.track_gauge
    wide = "wider" if error > 0 else "narrower"
    fields = ("scale.ratio", "scale.track_gauge", "scale.prototype.gauge")
    at_scale = full / scale.ratio
    says = (
        f"The track of {track:g} mm is {abs(track - at_scale):.2f} mm ({abs(error):.1f} %) {wide} "
        f"than {full:g} mm at 1:{scale.ratio:.4g}, which would be {at_scale:.2f} mm."
        if abs(error) >= 0.05
        else f"The track of {track:g} mm is {full:g} mm at 1:{scale.ratio:.4g} exactly."
    )
    if abs(error) <= GAUGE_UNSEEN:
        yield Finding("fine", "scale", fields, says)
        return
    seen = "plainly seen from the front" if abs(error) > GAUGE_SEEN else "seen by those who know"
    exact = full / track
    yield Finding(
        "check", "scale", fields, f"{says} That is {seen}.",
        f"1:{exact:.4g} ({FOOT / exact:.3g} mm to the foot) would make the gauge exact.",
        change=("scale.ratio", round(exact, 3)),
    )  # fmt: skip


def _bought_findings(
    bought: tuple[Bought, ...], n: float, track: float, gauge: float
) -> Iterator[Finding]:
    for part in bought:
        says = (
            f"{part.label}: the bought part of {part.size:.2f} mm stands for {part.full:g} mm at "
            f"1:{part.implied_ratio:.4g}; at 1:{n:.4g} it is {_too(part.percent)}."
        )
        fields = (part.field, "scale.ratio")
        if abs(part.percent) <= BOUGHT_CLOSE:
            yield Finding("fine", "scale", fields, says)
            continue
        off = "plainly off" if abs(part.percent) > BOUGHT_FAR else "seen by those who know"
        yield Finding(
            "check", "scale", fields, f"{says} That is {off}.",
            f"At 1:{part.implied_ratio:.4g} it would be exact and the gauge at scale "
            f"{gauge / part.implied_ratio:.2f} mm on the track of {track:g} mm.",
            change=("scale.ratio", round(part.implied_ratio, 3)),
        )  # fmt: skip
    if len(bought) > 1:
        ratios = [part.implied_ratio for part in bought]
        spread = 100 * (max(ratios) / min(ratios) - 1)
        if spread > BOUGHT_FAR:
            yield Finding(
                "check", "scale", tuple(part.field for part in bought),
                f"The bought parts imply scales from 1:{min(ratios):.4g} to 1:{max(ratios):.4g}, "
                f"{spread:.0f} % apart, so no one scale makes them all true.",
                "Let the driving wheels set the scale and give the cylinders the bore that the "
                "weight on the wheels can use.",
            )  # fmt: skip


def _too(percent: float) -> str:
    if abs(percent) < 0.05:
        return "true to scale"
    return f"{abs(percent):.1f} % too {'large' if percent > 0 else 'small'}"


def _weight_findings(engine: float | None, at_scale: float | None, n: float) -> Iterator[Finding]:
    if engine is None or at_scale is None:
        return
    share = engine / at_scale
    says = (
        f"The model of {engine:.3g} kg weighs {share:.2g} times its scale weight of "
        f"{at_scale:.3g} kg (the prototype's over 1:{n:.4g} cubed)"
    )
    fields = ("cylinders.engine_weight", "scale.prototype.weight")
    if WEIGHT_LIGHT <= share <= WEIGHT_HEAVY:
        yield Finding("fine", "scale", fields, f"{says}, as solid metal at small scales does.")
    else:
        found = "lighter" if share < WEIGHT_LIGHT else "heavier"
        yield Finding(
            "check", "scale", fields, f"{says}, {found} than working models come out.",
            "Look again at both weights, and whether the prototype's counts the tender.",
        )  # fmt: skip


def _other_findings(
    scale: Scale,
    number: int | None,
    pressure: float | None,
    linear: float | None,
    dynamic: float | None,
) -> Iterator[Finding]:
    full = scale.prototype
    if pressure is not None:
        beside = f" beside the prototype's {full.pressure:.3g} bar" if full.pressure else ""
        higher = full.pressure is not None and pressure > full.pressure
        yield Finding(
            "check" if higher else "fine", "scale",
            ("cylinders.pressure", "scale.prototype.pressure"),
            f"The model works at {pressure:.3g} bar{beside}: pressure is not scaled. What the "
            "boiler may carry is for its drawing, its test and the boiler inspector to say.",
            "Few small boilers are built for more than the prototype carried." if higher else "",
        )  # fmt: skip
    if number is not None and number != full.cylinders:
        yield Finding(
            "check", "scale", ("cylinders.number", "scale.prototype.cylinders"),
            f"The model has {number} cylinder{'s' * (number > 1)}, the prototype "
            f"{full.cylinders}.",
            "As built or as drawn, make the two agree, or say why in a note.",
        )  # fmt: skip
    run = scale.running_speed
    if run is not None and linear is not None and dynamic is not None:
        where = (
            "under the linear scale speed" if run < 0.9 * linear
            else "above the dynamic one, where curves feel sharper than full size" if run > dynamic
            else "between the two"
        )  # fmt: skip
        yield Finding(
            "check" if run > dynamic else "fine", "scale", ("scale.running_speed",),
            f"{run:.3g} km/h is {where}: scale speed is {linear:.3g} km/h linear and "
            f"{dynamic:.3g} km/h dynamic (square root).",
            "Run it slower in curves." if run > dynamic else "",
            source="linear: common practice; dynamic: Froude",
        )  # fmt: skip


def _suggestions(
    scale: Scale, sizes: tuple[ScaledSize, ...], bought: tuple[Bought, ...], fixed: frozenset[str]
) -> Iterator[Suggestion]:
    if bought:
        part = bought[0]
        yield Suggestion(
            "scale.ratio", round(part.implied_ratio, 3),
            f"{part.label.lower()} already bought, {part.size:.2f} mm for {part.full:g} mm",
        )  # fmt: skip
    elif "scale.ratio" not in fixed:
        yield Suggestion(
            "scale.ratio", round(scale.prototype.gauge / scale.track_gauge, 3),
            f"makes {scale.prototype.gauge:g} mm exact on the track of {scale.track_gauge:g} mm",
        )  # fmt: skip
    gauge = scale.prototype.gauge / scale.ratio
    nearest = min(
        sorted({pair.track_gauge for pair in usual_pairs()}), key=lambda t: abs(t - gauge)
    )
    if "scale.track_gauge" not in fixed:
        yield Suggestion(
            "scale.track_gauge", nearest, f"usual track nearest to {gauge:.2f} mm ({COMMON})"
        )
    by_name = {size.field.rsplit(".", 1)[-1]: size for size in sizes}
    for path, name, _ in _PARTS:
        if path not in fixed and name in by_name:
            size = by_name[name]
            yield Suggestion(path, round(size.model, 4), f"{size.full:g} mm at 1:{scale.ratio:.4g}")


def workings_of(result: ScaleResult) -> dict[str, Working]:
    """Return the workings by their label, for the page and for tests."""
    return {working.label: working for working in result.workings}
