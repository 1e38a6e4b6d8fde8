"""What the builder decides about erection."""

from __future__ import annotations

from dataclasses import dataclass

from ..sizes import check_sizes, size

SPANNERS = ("box spanner", "ring spanner", "open-ended spanner")


@dataclass(frozen=True, kw_only=True)
class Erection:
    """The chapter's decisions."""

    cover_spanner: str = size(
        "Spanner for the cover screws", "choice", choices=SPANNERS, default=SPANNERS[0], main=True
    )
    gland_spanner: str = size(
        "Spanner for the glands", "choice", choices=("pin spanner", *SPANNERS[1:]),
        default="pin spanner", main=True,
        help="a pin spanner takes a round gland with holes in its rim",
    )  # fmt: skip
    hand: float = size(
        "Room that a hand needs", low=5, high=120, default=25.0, main=True,
        help="two fingers with a screw between them; measure your own",
    )  # fmt: skip
    key: float = size(
        "Room that a key or a thin spanner needs", low=1, high=60, default=6.0, main=True
    )
    lift: float | None = size(
        "Engine can be lifted off its wheels by", low=0, high=2000, default=None,
        help="on the stand or the hoist; left empty: as far as need be, or on its back",
    )  # fmt: skip
    beam_bolted: bool = size(
        "Front buffer beam is bolted on", "yes/no", default=True,
        help="no: riveted, brazed or soldered for good",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
