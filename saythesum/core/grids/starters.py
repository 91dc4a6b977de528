"""Grids of our own to begin with, in the order in which schools teach the kinds of sum.

Source of the order: NCETM topic 1.13, "Addition and subtraction: two-digit and single-digit numbers" (England,
Year 2), teaching points 1 to 4. Singapore and Scotland put crossing last as well.
"""

from dataclasses import dataclass
from enum import StrEnum

from saythesum.core.grids.grid import Grid
from saythesum.core.grids.written_sums import exercise_from


class Stage(StrEnum):
    """What every sum of a grid is, in the order of teaching."""

    PLUS_ONE = "plus-one"
    WITHIN = "not-crossing"
    LANDING = "landing"
    CROSSING = "crossing"
    MIXED = "mixed"
    """Crossing and landing together: whether something is left after the ten has to be found out."""


@dataclass(frozen=True, slots=True)
class Starter:
    name: str
    """What it is asked for by."""
    stage: Stage
    grid: Grid
    why: str
    """For the teacher."""
    source: str


_TOPIC = "NCETM topic 1.13, teaching point"
_YEAR_2 = "England, National curriculum, Year 2"

DEFAULT = Starter(
    "ferry",
    Stage.MIXED,
    Grid("Seats on the ferry", (38, 57), (3, 5, 8)),
    "Six sums across or onto a ten, with small and large jumps: enough to hear how a pupil bridges.",
    f"{_TOPIC}s 3 and 4",
)
"""Used when no grid is named."""

ADDING: tuple[Starter, ...] = (
    Starter(
        "one-more-oar",
        Stage.PLUS_ONE,
        Grid("One more oar", (24, 61, 46, 59), (1,)),
        "One more is the next number, also where the next number is a ten.",
        f"{_TOPIC} 1",
    ),
    Starter(
        "buns",
        Stage.WITHIN,
        Grid("Buns on the tray", (32, 51, 74), (2, 4, 5)),
        "Facts within ten carry over to any ten: the tens stay, only the ones grow.",
        f"{_TOPIC} 2",
    ),
    Starter(
        "full-benches",
        Stage.LANDING,
        Grid("Filling the benches", (16, 36, 76), (4,)),
        "One bond to ten in three tens: the sum stops on the ten and nothing is left.",
        f"{_TOPIC} 3",
    ),
    Starter(
        "full-boxes",
        Stage.LANDING,
        Grid("Filling the egg boxes", (13, 43, 83), (7,)),
        "A second bond to ten, with the larger number added.",
        f"{_TOPIC} 3",
    ),
    Starter(
        "first-bridge",
        Stage.CROSSING,
        Grid("Over the first bridge", (9, 8), (4, 7)),
        "The two steps across ten itself, before any other ten.",
        "NCETM topic 1.11, teaching point 5; US CCSS 1.OA.C.6; Australia AC9M1N04",
    ),
    Starter(
        "last-seat",
        Stage.CROSSING,
        Grid("The last seat in the row", (29, 49, 79), (2, 4, 6)),
        "One always fills the ten, so all the thinking goes into what is left.",
        f"{_TOPIC} 4",
    ),
    Starter(
        "flour",
        Stage.CROSSING,
        Grid("Bags of flour", (36, 68), (5, 6, 7)),
        "Two bonds to ten, and something different left each time.",
        f"{_TOPIC} 4",
    ),
    Starter(
        "rowers",
        Stage.CROSSING,
        Grid("Rowers in the boats", (37, 58, 67, 86), (6, 7, 8, 9)),
        "Large ones with large amounts: here different mistakes give different answers, so most can be told apart.",
        f"{_TOPIC} 4; the choice of ones is our own arithmetic",
    ),
    Starter(
        "big-ferry",
        Stage.CROSSING,
        Grid("The hundredth passenger", (96, 99, 194), (7, 8)),
        "A hundred is a ten too: the same two steps lead across it.",
        "England, Year 3: mental addition of a three-digit number and ones (from memory)",
    ),
    DEFAULT,
)

TAKING: tuple[Starter, ...] = (
    Starter(
        "going-ashore",
        Stage.LANDING,
        Grid("Going ashore", (34, 64, 94), (4,), operations=("take",)),
        "Taking away the ones leaves the ten: the first jump back, by itself.",
        f"{_TOPIC} 3",
    ),
    Starter(
        "eaten-buns",
        Stage.CROSSING,
        Grid("Buns that were eaten", (13, 15, 12), (6, 7), operations=("take", "take")),
        "Back across ten itself, before any other ten.",
        "NCETM topic 1.11, teaching point 6; US CCSS 1.OA.C.6",
    ),
    Starter(
        "empty-seats",
        Stage.CROSSING,
        Grid("Seats that get free", (42, 63, 81), (5, 8, 9), operations=("take", "take", "take")),
        "Few ones and large amounts: here different mistakes give different answers, so most can be told apart.",
        f"{_TOPIC} 4",
    ),
    Starter(
        "on-and-off",
        Stage.CROSSING,
        Grid("On and off the ferry", (46, 75), (8, 8), operations=("add", "take")),
        "Add and take away side by side: what is asked has to be heard.",
        f"{_TOPIC} 4",
    ),
)

FARTHER: tuple[Starter, ...] = (
    Starter(
        "more-carriages",
        Stage.WITHIN,
        Grid("More carriages", (32, 47, 65), (10, 30)),
        "Tens put to tens: the ones stay as they are.",
        f"{_YEAR_2}: a two-digit number and tens",
    ),
    Starter(
        "two-classes",
        Stage.CROSSING,
        Grid("Two classes on the ferry", (27, 48), (15, 36)),
        "The tens first, then the same two steps across the ten.",
        f"{_YEAR_2}: two two-digit numbers",
    ),
    Starter(
        "sold-loaves",
        Stage.CROSSING,
        Grid("Loaves that were sold", (72, 94), (25, 48), operations=("take", "take")),
        "Back by the tens first, then back across the ten.",
        f"{_YEAR_2}: two two-digit numbers",
    ),
)

MISSING: tuple[Starter, ...] = (
    Starter(
        "late-passengers",
        Stage.CROSSING,
        Grid(
            "Passengers who came late",
            (),
            (),
            listed=tuple(map(exercise_from, ("47+?=52", "38+?=46", "65+?=73", "29+?=34"))),
        ),
        "How many came? The two jumps across the ten give it directly.",
        f"{_YEAR_2}: missing-number problems",
    ),
    Starter(
        "gone-buns",
        Stage.CROSSING,
        Grid(
            "Buns that are gone", (), (), listed=tuple(map(exercise_from, ("52-?=47", "43-?=36", "71-?=68", "94-?=85")))
        ),
        "How many are gone? Back to the ten, and on to what is left.",
        f"{_YEAR_2}: missing-number problems",
    ),
    Starter(
        "before-the-stop",
        Stage.CROSSING,
        Grid("Before the stop", (), (), listed=tuple(map(exercise_from, ("?+5=52", "?-5=47", "?+8=43", "?-6=75")))),
        "How many were there before? What was done is undone.",
        f"{_YEAR_2}: the inverse, used to solve missing-number problems",
    ),
)

STARTERS = (*ADDING, *TAKING, *FARTHER, *MISSING)


def starter_named(name: str) -> Grid | None:
    return next((starter.grid for starter in STARTERS if starter.name == name), None)
