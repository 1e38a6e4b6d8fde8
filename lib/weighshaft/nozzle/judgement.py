"""Findings on nozzle and chimney."""

from __future__ import annotations

from collections.abc import Iterator

from ..findings import Finding
from ..trade.drills import Drill
from .cones import GREENLY, Layout
from .decisions import Nozzle
from .flow import choking_pressure
from .result import NozzleResult

FIERCE, FAINT = 1.6, 0.25
"""Back pressure over the allowed at which a blast is called fierce, or faint (common practice)."""
OFF_DRILL = 0.02
"""mm beside a drill that nobody can hold apart."""
CHOKES = (2.5, 8.0)
"""Choke over nozzle in working models (common practice)."""
TOUCHES = 0.06
"""Of the height from tip to chimney top: by how much a cone may miss (common practice)."""
HOT = (
    "The exhaust is steam and boiling water at 100 degC and more: face and hands away from the "
    "chimney, and drain the cylinders with the engine pointing at nobody."
)


def judged(
    nozzle: Nozzle, result: NozzleResult, drill: Drill, own: Drill, *, known_speed: bool
) -> Iterator[Finding]:
    """Yield what there is to say of a nozzle and its chimney."""
    yield _caution()
    yield _blast(nozzle, result, drill, known_speed)
    if abs(own.diameter - nozzle.diameter) > OFF_DRILL:
        yield Finding(
            "check", "nozzle", ("nozzle.diameter", "threads.rack"),
            f"No drill at hand makes {nozzle.diameter:.2f} mm; the nearest is {own.name} "
            f"({own.diameter:.2f} mm).",
            "Drill that, or ream and polish the mouth to size.",
            change=("nozzle.diameter", round(own.diameter, 3)),
        )  # fmt: skip
    yield from _pipe(nozzle)
    if result.layout is not None:
        yield from _fits(nozzle, result, result.layout)
        yield from _cones(nozzle, result.layout)
    elif nozzle.smokebox.chimney_top is not None and nozzle.smokebox.nozzle_below is not None:
        yield Finding(
            "stop", "nozzle", ("nozzle.smokebox.chimney_top", "nozzle.smokebox.nozzle_below"),
            f"The nozzle's tip stands {-nozzle.smokebox.nozzle_below:.1f} mm above the boiler "
            f"centre, the chimney ends {nozzle.smokebox.chimney_top:.1f} mm above it: no room is "
            "left for the blast.",
            "Lower the nozzle or raise the chimney.",
        )  # fmt: skip


def _caution() -> Finding:
    return Finding(
        "fine", "nozzle", ("nozzle.diameter",), HOT, source="usual caution",
    )  # fmt: skip


def _blast(nozzle: Nozzle, result: NozzleResult, drill: Drill, known_speed: bool) -> Finding:
    pace = f"at {result.speed:.3g} km/h" + ("" if known_speed else ", a walking pace,")
    fields = ("nozzle.diameter", "nozzle.firing", "nozzle.steam.back_pressure")
    change = ("nozzle.diameter", round(drill.diameter, 3))
    mend = (
        f"{drill.name} ({drill.diameter:.2f} mm) brings it to about the {result.allowed:g} bar "
        f"that suits {nozzle.firing}."
    )
    back = result.back_pressure
    if back is None:
        return Finding(
            "stop", "nozzle", fields,
            f"{result.steam_flow:.2g} g/s of steam {pace} would need more than 10 bar behind a "
            f"nozzle of {nozzle.diameter:.2f} mm: the engine would choke on its exhaust.",
            mend, change=change,
        )  # fmt: skip
    says = (
        f"{result.steam_flow:.2g} g/s of steam {pace} stands {back:.3f} bar behind the nozzle of "
        f"{nozzle.diameter:.2f} mm"
    )
    if back > FIERCE * result.allowed:
        sound = " and leaves at the speed of sound" if back >= choking_pressure(
            nozzle.steam.dryness
        ) else ""  # fmt: skip
        effect = {
            "coal": "it throws fire and robs the pistons",
            "spirit": "it lifts the flames off the wicks and robs the pistons",
            "gas": "it pulls the flame off the burner",
        }[nozzle.firing]
        return Finding(
            "check", "nozzle", fields,
            f"{says}{sound}, over the {result.allowed:g} bar allowed: {effect}.",
            mend, change=change,
        )  # fmt: skip
    if back < FAINT * result.allowed and nozzle.firing != "gas":
        return Finding(
            "check", "nozzle", fields,
            f"{says}, well under the {result.allowed:g} bar that draws a {nozzle.firing} fire.",
            mend, change=change,
        )  # fmt: skip
    return Finding(
        "fine", "nozzle", fields, f"{says}, {result.allowed:g} bar being allowed.",
        source="compressible flow of wet steam; allowance common practice",
    )  # fmt: skip


def _pipe(nozzle: Nozzle) -> Iterator[Finding]:
    bore = nozzle.smokebox.pipe_bore
    if bore is None:
        return
    fields = ("nozzle.smokebox.pipe_bore", "nozzle.diameter")
    source = "model engineers' forum threads on blast nozzles"
    if bore <= nozzle.diameter:
        yield Finding(
            "check", "nozzle", fields,
            f"The blast pipe's bore of {bore:.2f} mm is no larger than the nozzle of "
            f"{nozzle.diameter:.2f} mm, so the pipe throttles and not the nozzle.",
            f"Bore the pipe to {1.5 * nozzle.diameter:.1f} mm or more.", source,
        )  # fmt: skip
    else:
        level, mend = "fine", ""
        if bore < 1.3 * nozzle.diameter:
            level, mend = "check", f"{1.5 * nozzle.diameter:.1f} mm or more is better."
        yield Finding(
            "check" if level == "check" else "fine", "nozzle", fields,
            f"The blast pipe's bore is {bore / nozzle.diameter:.2f} times the nozzle.",
            mend, source,
        )  # fmt: skip


def _fits(nozzle: Nozzle, result: NozzleResult, at: Layout) -> Iterator[Finding]:
    box = nozzle.smokebox
    choke_fields = ("nozzle.smokebox.choke", "nozzle.smokebox.choke_above_nozzle")
    if at.choke_at >= at.top:
        yield Finding(
            "stop", "nozzle", choke_fields,
            f"The choke stands {at.choke_at - at.top:.1f} mm above the chimney's top.",
            "Lower it towards the nozzle.",
        )  # fmt: skip
    if at.choke <= nozzle.diameter:
        yield Finding(
            "stop", "nozzle", (*choke_fields[:1], "nozzle.diameter"),
            f"The choke of {at.choke:.1f} mm is no wider than the nozzle of "
            f"{nozzle.diameter:.1f} mm.",
            "Open the choke.",
        )  # fmt: skip
    else:
        share = at.choke / nozzle.diameter
        good = CHOKES[0] <= share <= CHOKES[1]
        yield Finding(
            "fine" if good else "check", "nozzle", (*choke_fields[:1], "nozzle.diameter"),
            f"The choke of {at.choke:.1f} mm is {share:.1f} times the nozzle.",
            "" if good else f"{CHOKES[0]:g} to {CHOKES[1]:g} times is usual in working models.",
        )  # fmt: skip
    if box.inside_diameter is not None:
        radius = box.inside_diameter / 2
        if abs(at.tip) >= radius:
            yield Finding(
                "stop", "nozzle", ("nozzle.smokebox.nozzle_below",
                                   "nozzle.smokebox.inside_diameter"),
                f"The nozzle's tip, {abs(at.tip):.1f} mm from the boiler centre, lies outside the "
                f"smokebox of {radius:.1f} mm radius.",
                "Bring the tip inside.",
            )  # fmt: skip
        if at.top <= radius:
            yield Finding(
                "stop", "nozzle", ("nozzle.smokebox.chimney_top",
                                   "nozzle.smokebox.inside_diameter"),
                f"The chimney's top, {at.top:.1f} mm above the boiler centre, does not clear the "
                f"smokebox of {radius:.1f} mm radius.",
                "Raise the chimney.",
            )  # fmt: skip
        if at.mouth > 0.9 * box.inside_diameter:
            yield Finding(
                "stop" if at.mouth >= box.inside_diameter else "check", "nozzle",
                ("nozzle.smokebox.petticoat_mouth", "nozzle.smokebox.inside_diameter"),
                f"The petticoat's mouth of {at.mouth:.1f} mm nearly fills the smokebox of "
                f"{box.inside_diameter:.1f} mm.",
                "Make the mouth smaller, or the choke if the mouth follows it.",
            )  # fmt: skip
    gap = at.mouth_at - at.tip
    if gap <= 0:
        yield Finding(
            "check", "nozzle", ("nozzle.smokebox.petticoat_length", "nozzle.smokebox.nozzle_below"),
            f"The petticoat's mouth hangs {-gap:.1f} mm below the nozzle's tip and shuts the "
            "gases off from the blast.",
            f"Shorten the petticoat by {-gap + 0.5 * nozzle.diameter:.1f} mm or lower the nozzle.",
        )  # fmt: skip
    outside = box.chimney_outside
    if outside is not None and outside <= at.top_bore:
        yield Finding(
            "stop", "nozzle", ("nozzle.smokebox.chimney_outside", "nozzle.smokebox.choke",
                               "nozzle.smokebox.taper"),
            f"The chimney's bore of {at.top_bore:.1f} mm at the top is no smaller than its outside "
            f"of {outside:.1f} mm.",
            "Make the choke or the taper smaller, or the chimney larger.",
        )  # fmt: skip


def _cones(nozzle: Nozzle, at: Layout) -> Iterator[Finding]:
    cones = nozzle.cones
    how = (
        f"(from {'the rim' if cones.start == 'rim' else 'a point at the tip'}, slope on the "
        f"{cones.measured_on})"
    )
    high = at.top - at.tip
    tapers = (
        "nozzle.smokebox.taper", "nozzle.cones.upper", "nozzle.cones.lower",
        "nozzle.smokebox.choke",
    )  # fmt: skip
    if at.wanted_choke is None:
        yield Finding(
            "check", "nozzle", tapers,
            f"A chimney that widens {nozzle.smokebox.taper:g} degrees a side runs away from the "
            f"cone of 1 in {cones.upper:g} {how}: the jet never fills it.",
            "Make the taper about 2 degrees a side or less, and the lower cone the wider.", GREENLY,
        )  # fmt: skip
        return
    miss = None if at.meets is None else at.meets - at.touch
    if miss is None or abs(miss) > TOUCHES * high:
        where = (
            "does not meet the chimney above the choke" if miss is None
            else f"meets the chimney {abs(miss):.1f} mm {'above' if miss > 0 else 'below'} the "
            f"place {at.top - at.touch:.1f} mm under its top where it should"
        )  # fmt: skip
        yield Finding(
            "check", "nozzle", ("nozzle.smokebox.choke", "nozzle.smokebox.nozzle_below"),
            f"The cone of 1 in {cones.upper:g} {how} {where}.",
            f"A choke of {at.wanted_choke:.2f} mm would make both cones touch with the nozzle "
            "where it is.",
            GREENLY, change=("nozzle.smokebox.choke", round(at.wanted_choke, 2)),
        )  # fmt: skip
    loose = at.choke - at.fills_choke
    if abs(loose) > TOUCHES * high * at.lower:
        yield Finding(
            "check", "nozzle", ("nozzle.smokebox.nozzle_below", "nozzle.smokebox.choke"),
            f"The cone of 1 in {cones.lower:g} {how} is {at.fills_choke:.1f} mm wide at the choke "
            f"of {at.choke:.1f} mm and {'leaves a gap' if loose > 0 else 'strikes the petticoat'}.",
            f"The tip at {-at.tip_for_lower_cone:.1f} mm below the boiler centre would make it "
            "just touch.",
            GREENLY,
            change=("nozzle.smokebox.nozzle_below", round(-at.tip_for_lower_cone, 2)),
        )  # fmt: skip
    upper_touches = miss is not None and abs(miss) <= TOUCHES * high
    if upper_touches and abs(loose) <= TOUCHES * high * at.lower:
        yield Finding(
            "fine", "nozzle", ("nozzle.smokebox.choke", "nozzle.smokebox.nozzle_below"),
            f"The cones of 1 in {cones.upper:g} and 1 in {cones.lower:g} {how} touch the chimney "
            f"{at.top - (at.meets or at.touch):.1f} mm below its top and the choke of "
            f"{at.choke:.1f} mm.",
            source=GREENLY,
        )  # fmt: skip
