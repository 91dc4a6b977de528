"""Everything the tool can mean to say, as values without words. The words are in wording/.

No message but `Worked`, `StopLine`, `Right` and the readings of answered cells may hold a right answer
before the pupil has said it.
"""

from dataclasses import dataclass
from typing import TypeAlias

from saythesum.core.comparison import Stand
from saythesum.core.meanings import Command
from saythesum.core.sums import Sum

# ---- finding the place -------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class GridIntro:
    """At the first visit to a grid, or on request."""

    starts: tuple[int, ...]
    amounts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class NewRow:
    start: int


@dataclass(frozen=True, slots=True)
class NextAlong:
    """The next cell of the same row."""


@dataclass(frozen=True, slots=True)
class BackToOneLeft:
    """A cell that was left open, after all others."""


@dataclass(frozen=True, slots=True)
class LeftOpen:
    """The pupil knows no answer even after the worked line."""

    comes_back: bool
    """After all others; else on another day."""


@dataclass(frozen=True, slots=True)
class WhereYouAre:
    asked: Sum
    done: int
    of: int


@dataclass(frozen=True, slots=True)
class RowRead:
    """The answered cells of a row: amount and answer; None where none is known yet."""

    start: int
    cells: tuple[tuple[int, int | None], ...]


@dataclass(frozen=True, slots=True)
class ColumnRead:
    """The answered cells of a column: start and answer; None where none is known yet."""

    amount: int
    cells: tuple[tuple[int, int | None], ...]


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
    asked: Sum
    is_same_row: bool = False
    """The row was said with the question before."""


@dataclass(frozen=True, slots=True)
class AskNextTen:
    start: int


@dataclass(frozen=True, slots=True)
class AskGap:
    """How many from the start to the next ten? A landing sum's next ten is its answer: never named."""

    asked: Sum
    is_ten_just_said: bool = False
    """By the pupil."""
    is_ten_just_told: bool = False
    """By the tool, in what it said of a wrong number."""
    is_again: bool = False


@dataclass(frozen=True, slots=True)
class AskBond:
    """The gap, asked by the ones of the start: what makes ten with them?"""

    ones: int


@dataclass(frozen=True, slots=True)
class AskRest:
    amount: int
    is_gap_just_said: bool = False
    is_ten_by_pupil: bool = False


@dataclass(frozen=True, slots=True)
class AskOnes:
    ones: int
    amount: int


@dataclass(frozen=True, slots=True)
class AskTotal:
    asked: Sum


# ---- verdicts and what follows an answer ---------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Right:
    asked: Sum
    is_by_steps: bool
    """The pupil came to it through the guided parts, after a wrong answer."""


@dataclass(frozen=True, slots=True)
class NotYet:
    pass


@dataclass(frozen=True, slots=True)
class TenGiven:
    ten: int


@dataclass(frozen=True, slots=True)
class GapGiven:
    asked: Sum
    is_ten_by_pupil: bool


@dataclass(frozen=True, slots=True)
class OnesGiven:
    value: int


@dataclass(frozen=True, slots=True)
class LeftForAnotherDay:
    """The worked line was said and the cell is still open."""


# ---- true things about a number ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Stands:
    """How a wrong answer stands to the start or to the next ten."""

    asked: Sum
    value: int
    stand: Stand


@dataclass(frozen=True, slots=True)
class AddingGoesUp:
    value: int
    start: int


@dataclass(frozen=True, slots=True)
class TenAndAll:
    """The whole amount was put after the ten."""

    asked: Sum


@dataclass(frozen=True, slots=True)
class TenAndGap:
    """The gap was put after the ten once more."""

    asked: Sum


@dataclass(frozen=True, slots=True)
class ReachedTen:
    """The answer stopped at the next ten."""

    asked: Sum


@dataclass(frozen=True, slots=True)
class WasAdded:
    """Which amount leads to the number, beside the one that is asked."""

    asked: Sum
    value: int


@dataclass(frozen=True, slots=True)
class LessThanTen:
    """The amount is, and the answer is more than ten past the start."""

    amount: int


@dataclass(frozen=True, slots=True)
class AddingIsSteps:
    amount: int


@dataclass(frozen=True, slots=True)
class TensToo:
    """Ones were answered, and no tens."""


@dataclass(frozen=True, slots=True)
class InTens:
    """A number in its tens and ones: an answer whose digits may be turned round, or a start that may be misheard."""

    value: int


@dataclass(frozen=True, slots=True)
class PlaceAgain:
    """Both headers of the cell."""

    asked: Sum


@dataclass(frozen=True, slots=True)
class Digits:
    """A typed answer, digit by digit."""

    value: int


@dataclass(frozen=True, slots=True)
class NotATen:
    value: int


@dataclass(frozen=True, slots=True)
class TenNotAfter:
    """A ten that does not come after the start."""

    value: int
    start: int


@dataclass(frozen=True, slots=True)
class TenTooFar:
    """A ten more than ten past the start."""

    value: int
    start: int


@dataclass(frozen=True, slots=True)
class GapReaches:
    """Where a wrong gap would lead."""

    asked: Sum
    value: int


@dataclass(frozen=True, slots=True)
class GapIsAll:
    """The whole amount was given for the gap."""

    asked: Sum


@dataclass(frozen=True, slots=True)
class EndsIn:
    """The ones of the start were given for the gap."""

    start: int


@dataclass(frozen=True, slots=True)
class MoreThanTen:
    value: int


@dataclass(frozen=True, slots=True)
class RestMakes:
    """What gap and a wrong rest make together."""

    asked: Sum
    value: int


@dataclass(frozen=True, slots=True)
class GapIsUsed:
    """The rest was too large; where what it makes with the gap would be the answer."""

    asked: Sum
    value: int


@dataclass(frozen=True, slots=True)
class MoreThanAll:
    """More than the whole amount was given for what is left of it."""

    value: int
    amount: int


@dataclass(frozen=True, slots=True)
class OnesMake:
    """Which amount leads from the ones of the start to a wrong sum of the ones."""

    asked: Sum
    value: int


@dataclass(frozen=True, slots=True)
class OnesLess:
    """Fewer than the ones of the start."""

    value: int
    ones: int


@dataclass(frozen=True, slots=True)
class OnePart:
    """One of the two parts of the total was given for it."""

    value: int
    other: int


@dataclass(frozen=True, slots=True)
class PartsMake:
    """How a wrong total stands to the ten that it was to be put on."""

    ten: int
    more: int
    value: int


@dataclass(frozen=True, slots=True)
class GapLands:
    """The gap of a sum that lands, after a wrong total."""

    asked: Sum


# ---- help ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ThatsFine:
    """After "I don't know"."""

    has_steps: bool = True
    """Whether what is asked now is a step; from a whole ten there is one step, the sum itself."""


@dataclass(frozen=True, slots=True)
class StepByStep:
    """After "help me", where there are steps."""


@dataclass(frozen=True, slots=True)
class LookAgain:
    """The same question comes once more, for a fresh look."""


@dataclass(frozen=True, slots=True)
class DoNextTen:
    asked: Sum


@dataclass(frozen=True, slots=True)
class DoGap:
    asked: Sum


@dataclass(frozen=True, slots=True)
class DoRest:
    asked: Sum


@dataclass(frozen=True, slots=True)
class DoOnes:
    asked: Sum


@dataclass(frozen=True, slots=True)
class Worked:
    """The whole way, the answer included; then the pupil says the answer."""

    asked: Sum


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
    """What was entered is neither a number nor a command."""

    is_by_keys: bool = False
    """Where no words can be entered."""


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


# ---- stopping and going on ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Waiting:
    pass


@dataclass(frozen=True, slots=True)
class KeysAloud:
    more: tuple[tuple[str, str], ...] = ()
    """Keys of this pupil's own: the setting and the key's name."""


@dataclass(frozen=True, slots=True)
class AllDone:
    cells: int
    left: int
    """Cells left for another day."""


@dataclass(frozen=True, slots=True)
class StopLine:
    missed: Sum | None
    """A sum just missed: its answer is said, and nothing more is asked."""
    done: int


@dataclass(frozen=True, slots=True)
class NextTime:
    """The input is at its end; the place is kept."""


# ---- sums that come one by one, without a grid ---------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ProbeIntro:
    sums: int


@dataclass(frozen=True, slots=True)
class FindOutIntro:
    most: int
    """At most so many sums."""


@dataclass(frozen=True, slots=True)
class Noted:
    """Of any answer in a probe, right or wrong."""


@dataclass(frozen=True, slots=True)
class PassedOver:
    """In a probe, whoever does not know goes on to the next sum."""


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


Place: TypeAlias = (
    GridIntro
    | NewRow
    | NextAlong
    | BackToOneLeft
    | LeftOpen
    | WhereYouAre
    | RowRead
    | ColumnRead
    | HowManyMore
    | NoFurther
)
Question: TypeAlias = AskWhole | AskNextTen | AskGap | AskBond | AskRest | AskOnes | AskTotal
Verdict: TypeAlias = Right | NotYet | TenGiven | GapGiven | OnesGiven | LeftForAnotherDay
OfWhole: TypeAlias = (
    Stands
    | AddingGoesUp
    | TenAndAll
    | TenAndGap
    | ReachedTen
    | WasAdded
    | LessThanTen
    | AddingIsSteps
    | TensToo
    | InTens
    | PlaceAgain
    | Digits
)
OfPart: TypeAlias = (
    NotATen
    | TenNotAfter
    | TenTooFar
    | GapReaches
    | GapIsAll
    | EndsIn
    | MoreThanTen
    | RestMakes
    | GapIsUsed
    | MoreThanAll
    | OnesMake
    | OnesLess
    | OnePart
    | PartsMake
    | GapLands
)
Help: TypeAlias = ThatsFine | StepByStep | LookAgain | DoNextTen | DoGap | DoRest | DoOnes | Worked
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
)
Pausing: TypeAlias = Waiting | KeysAloud | AllDone | StopLine | NextTime
OneByOneSums: TypeAlias = ProbeIntro | FindOutIntro | Noted | PassedOver | HowFar | OneByOne | ProbeOver

Message: TypeAlias = Place | Question | Verdict | OfWhole | OfPart | Help | Hearing | Pausing | OneByOneSums
