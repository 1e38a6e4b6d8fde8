"""What the builder decides about trucks, the line's curves and the vehicle behind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size
from ..trade.turnouts import NAMES

TRUCKS = ("pony truck", "bogie", "radial axle", "rigid axle")
CONTROLS = ("none", "springs", "swing links", "inclined planes")
BY_NUMBER = "crossing number"
TURNOUTS = ("none", BY_NUMBER, *NAMES)
FORMS = ("curved throughout", "straight points and crossing")


@dataclass(frozen=True, kw_only=True)
class Truck:
    """A leading or trailing truck; its distance from the coupled axles belongs to the wheels."""

    title: ClassVar[str] = "Truck"
    kind: str = size("Truck", "choice", choices=TRUCKS, default="pony truck")
    wheel: float | None = size(
        "Truck wheels, over the tread", low=3, high=400, default=None,
        help="left empty: the prototype's at scale, else 0.6 of the driving wheel",
    )  # fmt: skip
    wheelbase: float | None = size(
        "Bogie wheelbase", low=5, high=800, default=None,
        help="of a bogie, about the place that Wheels gives; left empty: twice its wheel",
    )  # fmt: skip
    arm: float | None = size(
        "Radius arm of the truck, pivot to axle", low=3, high=3000, default=None,
        help="of a radial axle the radius of its guides; left empty: the length that turns the "
        "axle square to the curve",
    )  # fmt: skip
    pivot: float = size(
        "Bogie pivot ahead of amid its axles", low=-400, high=400, default=0.0,
        help="negative behind",
    )  # fmt: skip
    swing: float | None = size(
        "Truck free to swing, each way", low=0, high=200, default=None,
        help="to its stops; of a bogie its pivot's side travel; left empty: a quarter more than "
        "the curve needs",
    )  # fmt: skip
    play: float = size("Truck axle, side play in its boxes, each way", low=0, high=20, default=0.0)
    control: str = size("Side control of the truck", "choice", choices=CONTROLS, default="springs")
    rate: float | None = size(
        "Side-control spring, rate", "N/mm", 0, 1000, default=None,
        help="of all that push back together; left empty: a quarter of the truck's load at the "
        "swing needed",
    )  # fmt: skip
    preload: float | None = size(
        "Side-control spring, push amid", "N", 0, 5000, default=None,
        help="left empty: a tenth of the truck's load",
    )  # fmt: skip
    link: float | None = size(
        "Swing links, length", low=1, high=300, default=None,
        help="between centres, hanging upright; left empty: five times the swing needed",
    )  # fmt: skip
    slope: float = size("Inclined planes, slope", "deg", 0, 30, default=6.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class CurvedLine:
    """The line where it curves; its smallest radius and widening belong to the wheels."""

    title: ClassVar[str] = "Line on the curve"
    inside: float | None = size(
        "Nearest structure inside the curve, from the track's middle", low=10, high=2000,
        default=None, main=True, help="left empty: the chapter tells what must be left clear",
    )  # fmt: skip
    outside: float | None = size(
        "Nearest structure outside the curve, from the track's middle", low=10, high=2000,
        default=None, main=True, help="left empty: the chapter tells what must be left clear",
    )  # fmt: skip
    gap: float | None = size(
        "Gap wanted to structures beside the curve", low=0, high=100, default=None,
        help="left empty: a twentieth of the gauge",
    )  # fmt: skip
    cant: float = size(
        "Cant on the smallest curve",
        low=0,
        high=60,
        default=0.0,
        main=True,
        help="outer rail the higher by",
    )
    reverses: bool = size("Curves reverse without a straight between", "yes/no", default=False)
    turnout: str = size(
        "Sharpest turnout", "choice", choices=TURNOUTS, default="none", main=True,
        help="of the line; published ones are taken in proportion to the gauge",
    )  # fmt: skip
    crossing: float = size(
        "Turnout's crossing number", "ratio", 1.5, 40, default=6.0, help="6 for 1 in 6"
    )
    form: str = size("Turnout, its form", "choice", choices=FORMS, default="curved throughout")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Behind:
    """The vehicle coupled behind: tender, driving truck or wagon."""

    title: ClassVar[str] = "Vehicle behind"
    wheelbase: float | None = size(
        "Vehicle behind, wheelbase or bogie centres", low=5, high=4000, default=None,
        help="left empty: the engine's total wheelbase",
    )  # fmt: skip
    overhang: float | None = size(
        "Vehicle behind, beam ahead of its first axle", low=0, high=2000, default=None,
        help="or of its bogie centre; left empty: the engine's own behind its last axle",
    )  # fmt: skip
    gap: float | None = size(
        "Buffer beams apart, coupled", low=1, high=600, default=None, main=True,
        help="engine to the vehicle behind; left empty: the buffers of both just touching",
    )  # fmt: skip
    pin: float = size(
        "Coupling pin inside the face of the buffer beam", low=-100, high=400, default=0.0,
        help="of a drawbar, at both ends; 0 for a hook at the beam; negative outside",
    )  # fmt: skip
    slot: float | None = size(
        "Drawbar free to swing, each way", "deg", 0, 80, default=None,
        help="from the engine's centre line; left empty: told, not judged",
    )  # fmt: skip
    pipe: float | None = size(
        "Hose to the vehicle behind, off the centre line", low=0, high=500, default=None,
        help="left empty: 0.3 of the gauge",
    )  # fmt: skip
    give: float | None = size(
        "Hose to the vehicle behind, gives by", low=0, high=400, default=None,
        help="how much further than on the straight it reaches; left empty: told, not judged",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Curving:
    """The chapter's decisions."""

    leading: Truck = Truck()
    trailing: Truck = Truck()
    line: CurvedLine = CurvedLine()
    behind: Behind = Behind()

    def __post_init__(self) -> None:
        check_sizes(self)
        for word, truck in (("leading", self.leading), ("trailing", self.trailing)):
            base = truck.wheelbase if truck.kind == "bogie" else None
            if base is not None and abs(truck.pivot) > base / 2:
                raise SizeError(
                    f"Bogie pivot ahead of amid its axles: {truck.pivot:g} mm stands outside its "
                    f"wheelbase of {base:g} mm; half of that or less would do.",
                    f"{word}.pivot",
                )
