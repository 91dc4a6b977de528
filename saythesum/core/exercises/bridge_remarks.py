"""What can be said about bridging a ten, without words: questions for its parts, true things about wrong numbers."""

from dataclasses import dataclass, replace
from typing import TypeAlias

from saythesum.core.exercises.comparison import Stand
from saythesum.core.exercises.exercise import Followed, Remark
from saythesum.core.sums import Bridge

# ---- questions for a part


@dataclass(frozen=True, slots=True)
class AskNextTen(Remark):
    start: int


@dataclass(frozen=True, slots=True)
class AskGap(Remark):
    """How many from the start to the next ten? A landing sum's next ten is its answer: never named."""

    asked: Bridge
    is_ten_just_said: bool = False
    """By the pupil."""
    is_ten_just_told: bool = False
    """By the tool, in what it said of a wrong number."""
    is_again: bool = False

    @property
    def alone(self) -> Remark:
        return replace(self, is_ten_just_said=False, is_ten_just_told=False)


@dataclass(frozen=True, slots=True)
class AskBond(Remark):
    """Asks for the gap by way of the ones of the start: how many make ten with them?"""

    ones: int


@dataclass(frozen=True, slots=True)
class AskRest(Remark):
    amount: int
    is_gap_just_said: bool = False
    is_ten_by_pupil: bool = False

    @property
    def alone(self) -> Remark:
        return AskRest(self.amount)


@dataclass(frozen=True, slots=True)
class AskOnes(Remark):
    ones: int
    amount: int
    is_after_tens: bool = False
    """Then the ones do not come first."""


@dataclass(frozen=True, slots=True)
class AskTotal(Remark):
    asked: Bridge


@dataclass(frozen=True, slots=True)
class AskTensAndOnes(Remark):
    """Asks for the total by way of the start's tens and what the ones come to."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class AskTens(Remark):
    """How many tens has the start?"""

    start: int
    is_either: bool = False
    """The ones are offered beside the tens."""

    @property
    def alone(self) -> Remark:
        return AskTens(self.start)


@dataclass(frozen=True, slots=True)
class AskOneMore(Remark):
    """Where does counting on from the start begin?"""

    start: int
    is_again: bool = False


@dataclass(frozen=True, slots=True)
class AskTensOfOnes(Remark):
    """What the ones come to, and how many tens are in it?"""

    asked: Bridge
    is_again: bool = False


# ---- a part that was followed


@dataclass(frozen=True, slots=True)
class TenGiven(Followed):
    ten: int


@dataclass(frozen=True, slots=True)
class GapGiven(Followed):
    asked: Bridge
    is_ten_by_pupil: bool


@dataclass(frozen=True, slots=True)
class OnesGiven(Followed):
    value: int


@dataclass(frozen=True, slots=True)
class TensGiven(Followed):
    tens: int


# ---- true things about a wrong whole answer


@dataclass(frozen=True, slots=True)
class Stands(Remark):
    """How a wrong answer compares with the start or with the next ten."""

    asked: Bridge
    value: int
    stand: Stand


@dataclass(frozen=True, slots=True)
class AddingGoesUp(Remark):
    value: int
    start: int


@dataclass(frozen=True, slots=True)
class TenAndAll(Remark):
    """The whole amount was put after the ten."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class TenAndGap(Remark):
    """The gap was put after the ten once more."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class ReachedTen(Remark):
    """The answer stopped at the next ten."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class GapGets(Remark):
    """Which jump leads to the next ten."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class OnesMakeUp(Remark):
    """The answer was what the ones come to."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class WasAdded(Remark):
    """Which amount leads to the number, and which one is asked."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class LessThanTen(Remark):
    """The amount is less than ten, and the answer is more than ten past the start."""

    amount: int


@dataclass(frozen=True, slots=True)
class AddingIsSteps(Remark):
    amount: int


@dataclass(frozen=True, slots=True)
class TensToo(Remark):
    """Ones were answered, and no tens."""


@dataclass(frozen=True, slots=True)
class InTens(Remark):
    """A number in its tens and ones: an answer whose digits may be turned round, or a start that may be misheard."""

    value: int


@dataclass(frozen=True, slots=True)
class PlaceAgain(Remark):
    """Both headers of the cell."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class Digits(Remark):
    """A typed answer, digit by digit."""

    value: int


# ---- true things about a wrong answer to a part


@dataclass(frozen=True, slots=True)
class NotATen(Remark):
    value: int


@dataclass(frozen=True, slots=True)
class TenNotAfter(Remark):
    """A ten that does not come after the start."""

    value: int
    start: int


@dataclass(frozen=True, slots=True)
class TenTooFar(Remark):
    """A ten more than ten past the start."""

    value: int
    start: int


@dataclass(frozen=True, slots=True)
class GapReaches(Remark):
    """Where a wrong gap would lead."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class GapIsAll(Remark):
    """The whole amount was given for the gap."""

    asked: Bridge


@dataclass(frozen=True, slots=True)
class EndsIn(Remark):
    """The ones of the start were given for the gap."""

    start: int


@dataclass(frozen=True, slots=True)
class MoreThanTen(Remark):
    value: int


@dataclass(frozen=True, slots=True)
class RestMakes(Remark):
    """What gap and a wrong rest make together."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class GapIsUsed(Remark):
    """The rest was too large, and naming what gap and rest make together would give the answer away."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class MoreThanAll(Remark):
    """More than the whole amount was given for what is left of it."""

    value: int
    amount: int


@dataclass(frozen=True, slots=True)
class OnesMake(Remark):
    """Which amount leads from the ones of the start to a wrong sum of the ones."""

    asked: Bridge
    value: int


@dataclass(frozen=True, slots=True)
class OnesLess(Remark):
    """Fewer than the ones of the start."""

    value: int
    ones: int


@dataclass(frozen=True, slots=True)
class OnesFar(Remark):
    """Far more than the ones can come to."""

    value: int
    ones: int


@dataclass(frozen=True, slots=True)
class TensMake(Remark):
    """What a wrong number of tens would be worth."""

    tens: int


@dataclass(frozen=True, slots=True)
class TensTooMany(Remark):
    """Where what they would be worth is the answer."""

    tens: int


@dataclass(frozen=True, slots=True)
class OnePart(Remark):
    """One of the two parts of the total was given for it."""

    value: int
    other: int


@dataclass(frozen=True, slots=True)
class PartsMake(Remark):
    """How a wrong total compares with the ten that the rest is added to."""

    ten: int
    more: int
    value: int


@dataclass(frozen=True, slots=True)
class GapLands(Remark):
    """The gap of a sum that lands, after a wrong total."""

    asked: Bridge


# ---- a part done for the pupil


@dataclass(frozen=True, slots=True)
class DoNextTen(Remark):
    asked: Bridge


@dataclass(frozen=True, slots=True)
class DoGap(Remark):
    asked: Bridge


@dataclass(frozen=True, slots=True)
class DoRest(Remark):
    asked: Bridge


@dataclass(frozen=True, slots=True)
class DoOnes(Remark):
    asked: Bridge


@dataclass(frozen=True, slots=True)
class DoOneMore(Remark):
    start: int


PartQuestion: TypeAlias = (
    AskNextTen | AskGap | AskBond | AskRest | AskOnes | AskTotal | AskTensAndOnes | AskTens | AskOneMore | AskTensOfOnes
)
PartFollowed: TypeAlias = TenGiven | GapGiven | OnesGiven | TensGiven
OfWhole: TypeAlias = (
    Stands
    | AddingGoesUp
    | TenAndAll
    | TenAndGap
    | ReachedTen
    | GapGets
    | OnesMakeUp
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
    | OnesFar
    | TensMake
    | TensTooMany
    | OnePart
    | PartsMake
    | GapLands
)
PartDoneFor: TypeAlias = DoNextTen | DoGap | DoRest | DoOnes | DoOneMore
BridgeRemark: TypeAlias = PartQuestion | PartFollowed | OfWhole | OfPart | PartDoneFor
