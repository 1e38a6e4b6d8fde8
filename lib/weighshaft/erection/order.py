"""The order in which the engine goes together, from what has to be there before what."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from ..frames.whole import Whole
from .results import Step
from .ways import ECCENTRICS


@dataclass(frozen=True)
class Task:
    """Something to do.

    Parameters
    ----------
    key : short name by which others refer to it.
    does : in the builder's words.
    why : the reason for its place.
    after : keys of what has to be done before; those that this engine lacks are left out.
    """

    key: str
    does: str
    why: str
    after: tuple[str, ...] = ()


def tasks(whole: Whole, inside: bool) -> tuple[Task, ...]:
    """Return what has to be done on this engine.

    Parameters
    ----------
    inside : whether the axleboxes stand between the wheels, so that they are trapped by them.
    """

    def has(*names: str) -> bool:
        return any(whole.part(name) for name in names)

    swings = whole.drive.trunnion is not None
    cranked = len(whole.part("driving axle").solids) > 1 if has("driving axle") else False  # type: ignore[union-attr]
    several = len(whole.coupled) > 1
    sheaves = has(*ECCENTRICS)
    gear = any(part.kind == "motion" for part in whole.parts) and not swings
    trucks = any(axle.kind != "coupled" for axle in whole.axles)
    told: list[tuple[bool, Task]] = [
        (True, Task("frames", "Frame plates, stays and buffer beams together, square and out of "
                    "wind", "everything else is set from them")),
        (True, Task("boxes", "Axleboxes fitted to their horns, bored in pairs",
                    "they are fitted while the horns are open", ("frames",))),
        (cranked, Task("crank", "Crank axle built up and trued",
                       "its webs and pins are finished before anything is slipped on")),
        (sheaves, Task("sheaves", "Eccentric sheaves on the axle, set to the cranks"
                       if not cranked else "Eccentric sheaves on the axle, between the webs",
                       "they go on from the end, before either wheel", ("crank",))),
        (inside, Task("on_axle", "Axleboxes on their axles",
                      "they stand between the wheels and go on before the second one",
                      ("boxes", "sheaves", "crank"))),
        (True, Task("first_wheel", "First wheel of each pair fixed to its axle",
                    "it is the face from which the other is quartered", ("on_axle", "sheaves"))),
        (not inside, Task("outside_boxes", "Axleboxes on the axles' ends",
                          "they stand outside the wheels", ("second_wheel", "boxes"))),
        (True, Task("second_wheel", "Second wheel of each pair, quartered and fixed",
                    "the last of each wheelset: after it nothing more goes on the axle",
                    ("first_wheel",))),
        (True, Task("wheelsets", "Wheelsets up into the horns, boxes free on their springs",
                    "the horn gaps are open downwards only",
                    ("second_wheel", "boxes", "outside_boxes", "straps"))),
        (sheaves, Task("straps", "Eccentric straps on their sheaves, in halves",
                       "they are hard to reach once the wheelset is in", ("second_wheel",))),
        (True, Task("horn_stays", "Horn stays across the gaps",
                    "they keep the boxes in, and the plates from spreading", ("wheelsets",))),
        (several, Task("coupling", "Coupling rods on, and the engine pushed round by hand",
                       "a tight place is found while nothing else turns with the wheels",
                       ("horn_stays",))),
        (True, Task("cylinders", "Cylinders on the frames, lined up through the bores with the "
                    "driving axle", "the axle is there to line them up with",
                    ("frames", "wheelsets"))),
        (has("slide bars"), Task("bars", "Slide bars, parallel to the bore",
                                 "they are set from rod and gland", ("cylinders", "pistons"))),
        (not swings, Task("pistons", "Pistons with their rods and packing, back covers and glands",
                          "from the front, while the front is open", ("cylinders",))),
        (not swings, Task("crossheads", "Crossheads on the rods, between the bars",
                          "the rod has to be in its gland first", ("bars", "pistons"))),
        (has("connecting rods"), Task("connecting", "Connecting rods on, bumping clearance looked "
                                      "at on both ends", "pistons are set before the front closes",
                                      ("crossheads", "horn_stays", "coupling"))),
        (not swings, Task("covers", "Front cylinder covers",
                          "the clearance is measured first", ("connecting",))),
        (has("weighshaft", "rocker shaft"), Task("shafts", "Weighshaft and rocker shafts in their "
                                                 "brackets", "the gear hangs on them",
                                                 ("frames",))),
        (gear, Task("gear", "Valve gear between axle and spindle",
                    "both its ends have to be there", ("shafts", "straps", "crossheads",
                                                       "wheelsets"))),
        (not swings, Task("setting", "Valves set, steam-chest covers off, then closed",
                          "while the sheaves and the spindle are in the open",
                          ("gear", "connecting"))),
        (has("reach rod"), Task("reach", "Reach rod and reverser",
                                "its length is taken from full gear both ways", ("gear",))),
        (trucks, Task("trucks", "Trucks under the ends",
                      "they are turned and lifted in once the engine stands level",
                      ("horn_stays",))),
        (True, Task("air", "Run on a little air, wheels off the ground",
                    "the last time that all of it is seen", ("setting", "coupling", "cylinders"))),
        (has("feed pump"), Task("pump", "Feed pump and its eccentric",
                                "it is reached from above while the boiler is away",
                                ("wheelsets",))),
        (has("smokebox saddle"), Task("saddle", "Smokebox saddle", "the boiler stands on it",
                                      ("cylinders",))),
        (has("boiler"), Task("boiler", "Boiler, tested and passed, into the frames, with its slide "
                             "free", "it closes the frames from above",
                             ("saddle", "air", "pump", "frames"))),
        (has("boiler"), Task("pipes", "Steam, exhaust and feed pipes, smokebox airtight",
                             "both their ends stand still now", ("boiler", "cylinders"))),
        (has("ashpan", "burner"), Task("pan", "Grate, ashpan or burner",
                                       "from below, with its pin, last of what is under the "
                                       "boiler", ("boiler",))),
        (has("lagging"), Task("lagging", "Lagging and clothing",
                              "after the boiler's test in place", ("boiler", "pipes"))),
        (has("running boards"), Task("boards", "Running boards and splashers",
                                     "over wheels and rods that have been run",
                                     ("air", "boiler"))),
        (has("side tanks", "saddle tank", "tank"), Task("tanks", "Tanks", "over or beside the "
                                                        "boiler", ("lagging", "boards"))),
        (has("cab sides"), Task("cab", "Cab, its roof loose",
                                "last, since fittings are reached through it",
                                ("boiler", "boards", "lagging", "tanks"))),
    ]  # fmt: skip
    there = [task for wanted, task in told if wanted]
    keys = {task.key for task in there}
    every = {task.key: task for _, task in told}

    def known(after: Iterable[str]) -> tuple[str, ...]:
        """Return keys that are there; what a missing one would have waited for counts too."""
        made: list[str] = []
        for key in after:
            made += [key] if key in keys else known(every[key].after) if key in every else []
        return tuple(dict.fromkeys(made))

    return tuple(
        Task(task.key, task.does, task.why, known(task.after)) for task in there
    )  # fmt: skip


def ordered(listed: tuple[Task, ...]) -> tuple[Step, ...]:
    """Return the tasks in an order in which each comes after what it needs.

    Of those that may come next the one that was listed first does.

    Raises
    ------
    ValueError : naming tasks that wait for one another.
    """
    done: dict[str, int] = {}
    steps: list[Step] = []
    left = list(listed)
    ready: Callable[[Task], bool] = lambda task: all(key in done for key in task.after)  # noqa: E731
    while left:
        task = next((one for one in left if ready(one)), None)
        if task is None:
            raise ValueError("Wait for one another: " + ", ".join(one.key for one in left))
        left.remove(task)
        done[task.key] = len(steps) + 1
        steps.append(
            Step(len(steps) + 1, task.does, tuple(sorted(done[key] for key in task.after)),
                 task.why)
        )  # fmt: skip
    return tuple(steps)
