"""Everything the tool can mean to say, as values without words. The words are in wording/.

No message but `Worked`, `Right`, `AlongTheLine`, `TwoJumps` and the readings of answered cells may hold a right answer
before the pupil has said it.
"""

from dataclasses import dataclass
from enum import Enum, auto
from typing import TypeAlias

from saythesum.core.exercises.exercise import Exercise, Remark
from saythesum.core.meanings import Command
from saythesum.core.sums import ExerciseName

# ---- finding the place -------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class GridIntro:
    """At the first visit to a grid, or on request."""

    starts: tuple[int, ...]
    columns: tuple[Exercise, ...]
    """The first row's: one of each column."""


@dataclass(frozen=True, slots=True)
class NewRow:
    start: int


@dataclass(frozen=True, slots=True)
class NextAlong:
    """The next cell of the same row."""


@dataclass(frozen=True, slots=True)
class BackToOneLeft:
    """The tool returns to a cell that was left open, after all others have been asked."""


@dataclass(frozen=True, slots=True)
class ThisOneFirst:
    """An easier sum comes between, after several that did not go well."""


@dataclass(frozen=True, slots=True)
class LeftOpen:
    """The pupil does not know the answer even after the worked line."""

    comes_back: bool
    """After all others; otherwise on another day."""


@dataclass(frozen=True, slots=True)
class WhereYouAre:
    asked: Exercise
    done: int
    of: int


@dataclass(frozen=True, slots=True)
class RowRead:
    """A row, each cell with its answer; None where none is known yet."""

    cells: tuple[tuple[Exercise, int | None], ...]


@dataclass(frozen=True, slots=True)
class ColumnRead:
    """A column, each cell with its answer; None where none is known yet."""

    cells: tuple[tuple[Exercise, int | None], ...]


@dataclass(frozen=True, slots=True)
class HowManyMore:
    cells: int


@dataclass(frozen=True, slots=True)
class NoFurther:
    """Nothing is left to ask in the way the pupil wants to go."""

    way: Command


# ---- questions ---------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class AskWhole:
    asked: Exercise
    is_same_row: bool = False
    """The previous question named the row."""


# ---- verdicts and what follows an answer ---------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Right:
    asked: Exercise
    is_by_steps: bool
    """The pupil came to it through the guided parts, after a wrong answer."""


@dataclass(frozen=True, slots=True)
class AlongTheLine:
    """The jumps of a sum that was talked through, or is told, along the number line."""

    asked: Exercise


@dataclass(frozen=True, slots=True)
class NotYet:
    pass


@dataclass(frozen=True, slots=True)
class LeftForAnotherDay:
    """The worked line was said and the cell is still open."""


# ---- help ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ThatsFine:
    """After "I don't know"."""

    has_steps: bool = True
    """Whether the next question is a step. A start that is a whole ten has only one step, the sum itself."""


@dataclass(frozen=True, slots=True)
class StepByStep:
    """After "help me", where there are steps."""


@dataclass(frozen=True, slots=True)
class AnotherWay:
    """Help goes by another way than through the ten."""


@dataclass(frozen=True, slots=True)
class LookAgain:
    """The same question comes once more, for a fresh look."""


@dataclass(frozen=True, slots=True)
class Worked:
    """The whole way, the answer included; then the pupil says the answer."""

    asked: Exercise


# ---- hearing ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SaidBack:
    value: int


@dataclass(frozen=True, slots=True)
class CommandSaidBack:
    command: Command


@dataclass(frozen=True, slots=True)
class OnceMore:
    """An unsure hearing; the same words whatever was heard."""


@dataclass(frozen=True, slots=True)
class TryKeys:
    pass


@dataclass(frozen=True, slots=True)
class WasIt:
    value: int


@dataclass(frozen=True, slots=True)
class OneNumber:
    """Two numbers were heard in one breath."""


@dataclass(frozen=True, slots=True)
class NotUnderstood:
    """The line or the keys are neither a number nor a command."""

    is_by_keys: bool = False
    """No words can be entered."""


@dataclass(frozen=True, slots=True)
class Misheard:
    """The pupil was misheard, and has just said what it was."""


@dataclass(frozen=True, slots=True)
class SayItAgain:
    """The pupil was misheard, and has not yet said what it was."""


@dataclass(frozen=True, slots=True)
class TakenBack:
    """A typed answer does not count any more."""


@dataclass(frozen=True, slots=True)
class NothingToTakeBack:
    pass


@dataclass(frozen=True, slots=True)
class WhichSum:
    """After a bare "no" that may be about the sum before: whether its answer is to be taken back."""

    asked: Exercise


@dataclass(frozen=True, slots=True)
class TakeYourTime:
    """Only a hesitation was heard; or, where that was chosen, nothing for a while."""


# ---- stopping and going on ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Waiting:
    is_again: bool = False
    """Something was said in the wait that was no command."""
    by_switch: bool = False
    """The pupil can press a switch, and perhaps nothing else."""


@dataclass(frozen=True, slots=True)
class AdultMayHelp:
    """The pupil is not well, needs the toilet, or something is broken: the practice waits."""


@dataclass(frozen=True, slots=True)
class RestOffered:
    """After several sums that did not go well; the practice waits for the pupil."""

    by_switch: bool = False


@dataclass(frozen=True, slots=True)
class TwoJumpsOffered:
    """After a right answer that was counted on in ones: does the pupil want to hear of bridging?"""

    is_again: bool = False


@dataclass(frozen=True, slots=True)
class TwoJumps:
    """How the sum that was just answered goes in two jumps."""

    asked: Exercise


@dataclass(frozen=True, slots=True)
class KeysAloud:
    more: tuple[tuple[str, str], ...] = ()
    """Keys of this pupil's own: the setting and the key's name."""


@dataclass(frozen=True, slots=True)
class AllDone:
    cells: int
    left: int
    """Cells left for another day."""
    goes_on: bool = False
    """The practice continues with its next activity."""


@dataclass(frozen=True, slots=True)
class StopLine:
    is_missed: bool
    """A sum was just missed: it comes back, and nothing of it is told."""
    done: int


@dataclass(frozen=True, slots=True)
class EnoughNow:
    """As many sums or minutes are over as were planned."""

    done: int


@dataclass(frozen=True, slots=True)
class NextTime:
    """The input is at its end; the place is kept."""


# ---- the facts that sums stand on ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FactsIntro:
    facts: ExerciseName
    most: int
    """The largest number of questions that may be asked."""


@dataclass(frozen=True, slots=True)
class FactsOffered:
    """A kind of step was missed more than once: does the pupil want a few of its facts before the next sum?"""

    facts: ExerciseName
    is_again: bool = False


@dataclass(frozen=True, slots=True)
class BackToSums:
    pass


# ---- a talk about a pattern; what it says of numbers are remarks (`core/patterns/remarks.py`) ----------------


class WhyNoPattern(Enum):
    ONE_SUM = auto()
    NO_GRID = auto()
    """The sums come one by one, and stand in no rows and columns."""
    NOT_YET = auto()
    """Too little of the grid is done."""
    NO_OTHER = auto()
    """The grid has no other than the one that was talked about last."""


@dataclass(frozen=True, slots=True)
class PatternOffered:
    """After a finished grid: does the pupil want to look for a pattern?"""

    is_again: bool = False


@dataclass(frozen=True, slots=True)
class NoPattern:
    why: WhyNoPattern


@dataclass(frozen=True, slots=True)
class PatternOver:
    """All that was to be found was found."""


@dataclass(frozen=True, slots=True)
class PatternLeft:
    """The pupil wanted no more of it."""


@dataclass(frozen=True, slots=True)
class PatternThanks:
    """The pupil knew nothing to say, and is let go."""


@dataclass(frozen=True, slots=True)
class WhereInTalk:
    """Between two lines of the grid, not in a cell."""

    moves_left: int
    """The one that stands included."""


@dataclass(frozen=True, slots=True)
class Farewell:
    """The practice is over; that its sums are done was said before."""


# ---- sums that come one by one, without a grid ---------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ProbeIntro:
    sums: int


@dataclass(frozen=True, slots=True)
class FindOutIntro:
    most: int
    """The largest number of sums that may be asked."""


@dataclass(frozen=True, slots=True)
class ListIntro:
    """A list of sums to practise, without headers that they share."""

    sums: int
    is_number_missing: bool
    """In each of them."""


@dataclass(frozen=True, slots=True)
class Noted:
    """Said of any answer in a probe, right or wrong."""


@dataclass(frozen=True, slots=True)
class PassedOver:
    """In a probe a pupil who does not know goes on to the next sum."""


@dataclass(frozen=True, slots=True)
class HowFar:
    done: int
    more: int
    """The sum that is being asked included."""
    is_at_most: bool


@dataclass(frozen=True, slots=True)
class OneByOne:
    """There is no grid to move about in."""


@dataclass(frozen=True, slots=True)
class ProbeOver:
    sums: int
    goes_on: bool = False


Place: TypeAlias = (
    GridIntro
    | NewRow
    | NextAlong
    | BackToOneLeft
    | ThisOneFirst
    | LeftOpen
    | WhereYouAre
    | RowRead
    | ColumnRead
    | HowManyMore
    | NoFurther
)
Verdict: TypeAlias = Right | AlongTheLine | NotYet | LeftForAnotherDay
Help: TypeAlias = ThatsFine | StepByStep | AnotherWay | LookAgain | Worked
Hearing: TypeAlias = (
    SaidBack
    | CommandSaidBack
    | OnceMore
    | TryKeys
    | WasIt
    | OneNumber
    | NotUnderstood
    | Misheard
    | SayItAgain
    | TakenBack
    | NothingToTakeBack
    | WhichSum
    | TakeYourTime
)
Pausing: TypeAlias = (
    Waiting
    | AdultMayHelp
    | RestOffered
    | TwoJumpsOffered
    | TwoJumps
    | KeysAloud
    | AllDone
    | StopLine
    | EnoughNow
    | NextTime
)
Facts: TypeAlias = FactsIntro | FactsOffered | BackToSums
OneByOneSums: TypeAlias = ProbeIntro | FindOutIntro | ListIntro | Noted | PassedOver | HowFar | OneByOne | ProbeOver
Patterns: TypeAlias = PatternOffered | NoPattern | PatternOver | PatternLeft | PatternThanks | WhereInTalk | Farewell

Message: TypeAlias = AskWhole | Place | Verdict | Help | Hearing | Pausing | Facts | OneByOneSums | Patterns | Remark
