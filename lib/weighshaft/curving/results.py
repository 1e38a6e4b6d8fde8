"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..frames.whole import Whole
from ..sizes import figure
from ..working import Working
from .coupling import Coupled
from .standing import Pose
from .throws import Throw
from .trucks import TruckPlace


@dataclass(frozen=True)
class CurvedAxle:
    """One axle on the curve, mm and degrees.

    Parameters
    ----------
    shift : its slide in the frames to the left, or how far its truck has swung.
    room : how far it may, each way; None where nothing stops it.
    left : of that and of the play between the rails together, negative where there is not
        enough; None where nothing stops it.
    attack : of its wheels to the rail, without sign.
    """

    name: str
    ahead: float
    shift: float
    room: float | None
    left: float | None
    attack: float


@dataclass(frozen=True, kw_only=True)
class TruckResult:
    """One truck on the curve; see `Truck` for the decisions."""

    word: str
    kind: str
    pivot: float = figure("Pivot ahead of the driving axle")
    arm: float = figure("Radius arm taken")
    radial: float = figure("Radius arm for a radial axle")
    load: float = figure("Load on the truck", "kg")
    needed: float = figure("Swing needed")
    allowed: float | None = figure("Swing that its stops allow")
    push: float = figure("Side control pushes on the curve", "N")
    amid: float = figure("Side control pushes before it swings", "N")
    wheel_gap: float | None = figure("Wheels clear of the frame plates on the curve")
    quotient: float = figure("Push over the load of the guiding wheel", "ratio")
    place: TruckPlace
    wheel: float
    wheelbase: float


@dataclass(frozen=True)
class LineCurve:
    """A published curve or turnout at our gauge, mm; `passes` whether the engine goes round."""

    name: str
    radius: float
    passes: bool
    sources: str
    chosen: bool = False


@dataclass(frozen=True, kw_only=True)
class CurvingResult:
    """Figures, workings and findings; see `Curving` for the decisions."""

    smallest: float = figure("Smallest curve of the whole engine", main=True)
    set_by: str = figure("What closes first on it", "text")
    drawn: float = figure("Curve looked at", main=True)
    leading_swing: float | None = figure("Leading truck swings on it", main=True)
    trailing_swing: float | None = figure("Trailing truck swings on it", main=True)
    coupled_attack: float = figure("First coupled axle askew to the rail", "deg")
    throw_outside: float = figure("Greatest throw-over outside the curve", main=True)
    throw_inside: float = figure("Greatest throw-over inside the curve", main=True)
    clear_outside: float = figure("Line to be left clear outside, from the track's middle")
    clear_inside: float = figure("Line to be left clear inside, from the track's middle")
    drawbar: float = figure("Drawbar swings to a side", "deg")
    buffers_nearer: float = figure("Inner buffers come nearer by")
    corner: float = figure("Left between the corners of the beams, inside the curve")
    step: float = figure("Buffers stand aside of one another where curves reverse")
    hose: float = figure("Hose has to give")
    turnout_radius: float | None = figure("Radius of the sharpest turnout")
    balanced_cant: float | None = figure("Cant at which both rails bear alike")
    overturning: float | None = figure("Overturning speed on the curve, with its cant", "km/h")
    pose: Pose
    gauge: float
    axles: tuple[CurvedAxle, ...]
    trucks: tuple[TruckResult, ...]
    throws: tuple[Throw, ...]
    coupled: Coupled
    curves: tuple[LineCurve, ...]
    sweep: tuple[tuple[float, float, float, float | None, float | None], ...]
    """Over the radius: throw outside and inside, swing of leading and trailing truck, mm."""
    whole: Whole
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
