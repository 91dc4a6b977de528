"""Reads what a talk about a pattern says, sentence by sentence, and checks it by plain arithmetic.

It knows the forms of sentences, number words (from num2words) and the numbers of the grid; it shares no code with what
makes the sentences. A sentence of no known form is as wrong as an untrue one.
"""

import re
from collections.abc import Callable, Iterator
from functools import cache

from num2words import num2words

from saythesum.core.grids.grid import Grid
from tests.core.patterns.plain_arithmetic import Table, table_of

Claim = Callable[..., bool]
LARGEST = 1099


@cache
def _spelled() -> dict[str, int]:
    spelled = {num2words(value): value for value in range(LARGEST + 1)}
    for text, value in list(spelled.items()):
        if text.startswith(("one hundred", "one thousand")):
            spelled["a" + text.removeprefix("one")] = value
    return spelled


_ONES = "one|two|three|four|five|six|seven|eight|nine"
_TEENS = "ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_BELOW = rf"(?:(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:-(?:{_ONES}))?|{_TEENS}|{_ONES}|zero)"
_NUMBER = re.compile(rf"\b(?:(?:a|{_ONES}) (?:hundred|thousand)(?: and {_BELOW})?|{_BELOW})\b")


def in_digits(text: str) -> str:
    """Each number word as num2words knows it; one that it does not know stays."""
    spelled = _spelled()
    return _NUMBER.sub(lambda found: str(spelled.get(found[0], found[0])), text.lower())


class UntrueError(AssertionError):
    pass


def check_talk(text: str, grid: Grid) -> int:
    """Raises UntrueError. How many sentences were read."""
    count = 0
    for sentence in _sentences(text):
        count += 1
        if not _holds(in_digits(sentence), table_of(grid)):
            raise UntrueError(f"{sentence!r} in {grid}")
    return count


def _sentences(text: str) -> Iterator[str]:
    for sentence in re.split(r"(?<=[.?])\s+", text):
        if sentence:
            yield sentence.rstrip(".?")


def _holds(sentence: str, table: Table) -> bool:
    at = _form_of(re.sub(r"\d+", "8", sentence))
    for form, claim in _FORMS if at is None else (_FORMS[at], *_FORMS):
        found = re.fullmatch(form, sentence)
        if found:
            return claim(table, **found.groupdict())
    raise UntrueError(f"no known form: {sentence!r}")


@cache
def _form_of(sentence: str) -> int | None:
    """Where to look first: sentences that only differ in their numbers mostly have one form."""
    return next((at for at, (form, _) in enumerate(_FORMS) if re.fullmatch(form, sentence)), None)


N = r"\d+"
STEP = r"(?:add|take away) \d+"


def _by(step: str) -> int:
    way, _, amount = step.rpartition(" ")
    return int(amount) if way == "add" else -int(amount)


def _makes(_: Table, a: str, step: str, t: str) -> bool:
    return int(a) + _by(step) == int(t)


def _apart(_: Table, a: str, b: str, d: str) -> bool:
    return abs(int(b) - int(a)) == int(d)


def _against(_: Table, step: str, d: str, way: str, other: str) -> bool:
    return _by(step) - _by(other) == (int(d) if way == "more" else -int(d)) != 0


def _is_more(_: Table, a: str, d: str, way: str, b: str) -> bool:
    return int(a) - int(b) == (int(d) if way == "more" else -int(d)) != 0


def _crossing(step: str) -> list[int]:
    by = _by(step)
    low, high = (0, by) if by > 0 else (by, 0)
    return [
        ones
        for ones in range(10)
        if any((50 + ones + way) % 10 == 0 for way in range(low + 1, high)) and (50 + ones + by) % 10 and ones
    ]


def _crosses(start: int, step: str) -> bool:
    return start % 10 in _crossing(step)


def _is_column(table: Table, step: str, numbers: str, more: str | None) -> bool:
    given = [int(number) for number in numbers.split(", ")]
    whole = [start + _by(step) for start in table.starts]
    return given == whole[: len(given)] and (len(given) < len(whole)) == bool(more) and _by(step) in table.moves


def _is_row(table: Table, a: str, numbers: str, more: str | None) -> bool:
    given = [int(number) for number in numbers.split(", ")]
    whole = [int(a) + move for move in table.moves]
    return given == whole[: len(given)] and (len(given) < len(whole)) == bool(more) and int(a) in table.starts


def _goes(_: Table, a: str, b: str, way: str, step: str | None = None, start: str | None = None) -> bool:
    return (int(b) > int(a)) == (way == "more") and a != b


def _asked_here(table: Table, start: str, a: str, b: str, way: str) -> bool:
    """In a row of the grid; its numbers are made by two of its columns, or by one and by adding or taking ten."""
    moves = {*table.moves, 10, -10}
    is_made = {int(a) - int(start), int(b) - int(start)} <= moves
    return int(start) in table.starts and is_made and _goes(table, a, b, way)


def _asked_there(table: Table, step: str, a: str, b: str, way: str) -> bool:
    starts = {int(a) - _by(step), int(b) - _by(step)}
    return starts <= set(table.starts) and _by(step) in table.moves and _goes(table, a, b, way)


def _past(_: Table, a: str, g: str, t: str, way: str, b: str) -> bool:
    return int(a) + int(g) == int(t) and (int(t) > int(b)) == (way == "past") and t != b


def _ones_cross(_: Table, step: str, low: str | None = None, high: str | None = None) -> bool:
    crossing = _crossing(step)
    return crossing == list(range(int(low or 1), int(high or 9) + 1))


def _both_ones(_: Table, step: str, low: str, high: str) -> bool:
    return _crossing(step) == [int(low), int(high)]


def _one_ones(_: Table, step: str, low: str) -> bool:
    return _crossing(step) == [int(low)]


def _counted(table: Table, c: str, of: str) -> bool:
    crossing = {
        sum(_crosses(start, f"{'add' if move > 0 else 'take away'} {abs(move)}") for start in table.starts)
        for move in table.moves
    }
    return int(of) == len(table.starts) and int(c) in crossing


def _left(_: Table, g: str, r: str, a: str, r2: str, ten: str) -> bool:
    return int(g) + int(r) == int(a) and r == r2 and int(ten) % 10 == 0


def _pairs_make_ten(table: Table, pairs: str) -> bool:
    for pair in pairs.split("; "):
        ones, amount = map(int, pair.split(" and "))
        if ones + amount != 10 or amount not in table.moves or all(start % 10 != ones for start in table.starts):
            return False
    return True


def _ones_taken(table: Table, pairs: str) -> bool:
    for pair in pairs.split("; "):
        amount, start = map(int, pair.split(" from "))
        if start % 10 != amount or -amount not in table.moves or start not in table.starts:
            return False
    return True


def _gap_and_rests(table: Table, a: str, g: str, ten: str) -> bool:
    return abs(int(ten) - int(a)) == int(g) < 10 and int(ten) % 10 == 0 and int(a) in table.starts


def _end_alike(table: Table, ones: str, also: str | None) -> bool:
    """Two different starts end so; where it is said that they cross, some column makes such starts cross."""
    starts = {start for start in table.starts if start % 10 == int(ones)}
    steps = [f"{'add' if move > 0 else 'take away'} {abs(move)}" for move in table.moves]
    return len(starts) > 1 and bool(also) == any(_crosses(int(ones), step) for step in steps)


def _near_ten(table: Table, n: str, s: str, way: str, back: str) -> bool:
    by = int(n) if way == "more" else -int(n)
    return int(n) + int(s) == 10 and by in table.moves and back == s


def _true(_: Table, **__: str) -> bool:
    return True


def _in_range(_: Table, g: str, a: str, b: str) -> bool:
    return not int(a) <= int(g) <= int(b)


def _crosses_none(_: Table, a: str, step: str, t: str) -> bool:
    return _makes(_, a, step, t) and not _crosses(int(a), step)


def _lands(_: Table, o: str, step: str, way: str, o2: str) -> bool:
    return (int(o) + _by(step)) % 10 == 0 and o == o2 and (way == "more") == (_by(step) > 0)


def _equal(table: Table, *, step: str, d2: str, way2: str, other: str, **start: str) -> bool:
    d, way = start["d"], start["way"]
    return _is_more(table, **start) and _against(table, step, d2, way2, other) and d == d2 and way != way2


_NUMBERS = rf"(?P<numbers>{N}(?:, {N})*)(?P<more>, and so on)?"
_FORMS: list[tuple[str, Claim]] = [
    # what is listened to
    (rf"(?P<step>{STEP}): {_NUMBERS}", _is_column),
    (rf"row (?P<a>{N}): {_NUMBERS}", _is_row),
    (
        r"(?:a new row: |a new column: |now turn it round: |i'll start: )?"
        rf"(?P<a>{N}) (?P<step>{STEP}) makes (?P<t>{N})",
        _makes,
    ),
    # questions
    (
        rf"(?:and )?in row (?P<start>{N}), from (?P<a>{N}) to (?P<b>{N}), how much (?P<way>more|less)(?: is that)?",
        _asked_here,
    ),
    (
        rf"(?:and )?in the column (?P<step>{STEP}), from (?P<a>{N}) to (?P<b>{N}), "
        r"how much (?P<way>more|less)(?: is that)?",
        _asked_there,
    ),
    (rf"(?:and )?(?:in a new row, )?from (?P<a>{N}) to (?P<b>{N}), how much (?P<way>more|less)(?: is that)?", _goes),
    (rf"what would (?:{N} )?{STEP} make", _true),
    (rf"(?:{N} )?{STEP}", _true),
    (rf"(?P<step>{STEP}): (?P<g>{N}) to get to (?P<ten>{N})", lambda _, step, g, ten: int(ten) % 10 == 0),
    (rf"{STEP}, {N} used", _true),
    (rf"with {STEP}, (?:which is )?the (?:smallest|largest) ones (?:digit )?that cross(?:es a 10)?", _true),
    # hints and what is shown
    (rf"start at (?P<a>{N}) and go up to (?P<b>{N})", lambda _, a, b: int(a) < int(b)),
    (rf"from (?P<a>{N}) to (?P<b>{N}) is (?P<d>{N})", _apart),
    (rf"then from (?P<a>{N}) to (?P<b>{N})", lambda _, a, b: int(a) % 10 == 0 and int(a) < int(b)),
    (rf"(?P<b>{N}) comes just after (?P<a>{N})", lambda _, a, b: int(a) + 1 == int(b)),
    (rf"(?P<a>{N})(?:, then| and) 1 (?:more )?is (?P<b>{N})", lambda _, a, b: int(a) + 1 == int(b)),
    (rf"(?P<step>{STEP}) makes (?P<d>{N}) (?P<way>more|less) than (?P<other>{STEP})", _against),
    (rf"(?P<a>{N}) is (?P<d>{N}) (?P<way>more|less) than (?P<b>{N})", _is_more),
    (rf"(?P<a>{N})(?:, then| and) (?P<g>{N}) (?:more )?is (?P<t>{N}), (?P<way>past|short of) (?P<b>{N})", _past),
    (rf"(?P<g>{N}) of the (?P<a>{N}) (?:is|are) used", lambda _, g, a: int(g) < int(a)),
    (rf"(?P<g>{N}) and how many make (?P<a>{N})", lambda _, g, a: int(g) < int(a)),
    (
        rf"(?P<a>{N}) and (?P<b>{N}) make (?P<c>{N})(?:, not (?P<d>{N}))?",
        lambda _, a, b, c, d: int(a) + int(b) == int(c) != int(d or -1),
    ),
    (rf"(?P<g>{N}) and (?P<r>{N}) make (?P<a>{N}), so (?P<r2>{N}) (?:is|are) left after (?P<ten>{N})", _left),
    (rf"(?P<c>{N}) of the (?P<of>{N}) cross(?:es)? a 10", _counted),
    (rf"(?P<o>{N}) (?P<step>{STEP}) lands on the 10", lambda _, o, step: (int(o) + _by(step)) % 10 == 0),
    (rf"go to 1 (?:more|less) than {N}", _true),
    (rf"with (?P<step>{STEP}), ones digits from (?P<low>{N}) up cross a 10", _ones_cross),
    (rf"with (?P<step>{STEP}), ones digits from 1 to (?P<high>{N}) cross a 10", _ones_cross),
    (rf"with (?P<step>{STEP}), only the ones digits (?P<low>{N}) and (?P<high>{N}) cross a 10", _both_ones),
    (rf"with (?P<step>{STEP}), only the ones digit (?P<low>{N}) crosses a 10", _one_ones),
    (rf"the ones and (?P<a>{N}) must come to more than 10", _true),
    (rf"the ones must be fewer than (?P<a>{N})", _true),
    (rf"(?P<g>{N}) is what (?P<a>{N}) (?P<step>{STEP}) makes", lambda _, g, a, step: int(a) + _by(step) == int(g)),
    (rf"(?P<g>{N}) is not from (?P<a>{N}) to (?P<b>{N})", _in_range),
    (rf"(?P<a>{N}) (?P<step>{STEP}) makes (?P<t>{N}), and crosses no 10", _crosses_none),
    (rf"(?P<g>{N}) is a 10 already", lambda _, g: int(g) % 10 == 0),
    (rf"{N} would do|say 1 from {N} to {N}|count in tens from {N}", _true),
    (
        rf"(?:make 1 yourself. |now make 1 yourself. |say |your turn: )*a start from (?P<a>{N}) to (?P<b>{N})"
        rf"(?:, but not a 10| that crosses a 10 with {STEP})?",
        lambda _, a, b: int(a) <= int(b),
    ),
    # what follows a right answer
    (
        r"yes, in (?P<all>both|every) (?P<of>row|column)s?",
        lambda table, all, of: (len(table.starts if of == "row" else table.moves) == 2) == (all == "both"),
    ),
    (rf"yes\. still (?P<d>{N}) (?:more|less)|still {N} (?:more|less)", _true),
    # reasons
    (
        rf"the start is the same, and (?P<step>{STEP}) makes (?P<d>{N}) (?P<way>more|less) than (?P<other>{STEP})",
        _against,
    ),
    (rf"the start is the same, and both columns (?P<step>{STEP})", lambda t, step: t.moves.count(_by(step)) > 1),
    (
        rf"(?P<step>{STEP}) makes (?P<d>10) (?P<way>more|less) than (?P<other>{STEP}), "
        r"and a whole 10 leaves the ones as they are",
        _against,
    ),
    (
        rf"both rows start with (?P<a>{N}), and each column does the same to both",
        lambda t, a: t.starts.count(int(a)) > 1,
    ),
    (
        rf"each column does the same to both rows, and (?P<a>{N}) is (?P<d>{N}) (?P<way>more|less) than (?P<b>{N})",
        lambda t, a, d, way, b: _is_more(t, a, d, way, b) and {int(a), int(b)} <= set(t.starts),
    ),
    (
        rf"both starts end in (?P<ones>{N}), so their numbers end alike"
        r"(?P<also>, and they cross a 10 in the same columns)?",
        _end_alike,
    ),
    (rf"each time the ones and what is added make 10: (?P<pairs>{N} and {N}(?:; {N} and {N})*)", _pairs_make_ten),
    (rf"each time just the ones are taken away: (?P<pairs>{N} from {N}(?:; {N} from {N})*)", _ones_taken),
    (
        rf"(?P<a>{N}) is (?P<d>{N}) (?P<way>more|less) than (?P<b>{N}), but (?P<step>{STEP}) makes (?P<d2>{N}) "
        rf"(?P<way2>more|less) than (?P<other>{STEP})",
        _equal,
    ),
    (rf"(?P<n>{N}) is (?P<s>{N}) less than 10: a 10 (?P<way>more|less), and (?P<back>{N}) (?:back|forward)", _near_ten),
    (rf"(?P<a>{N}) is (?P<g>{N}) from (?P<ten>{N}), whatever comes", _gap_and_rests),
    (rf"only what is left changes: {N}(?:, {N})*", _true),
    (
        r"5 and 5 make 10: a whole 10 (?P<way>on|back), so the ones are the same again",
        lambda t, way: (5 if way == "on" else -5) in t.moves,
    ),
    # words without numbers
    (
        r"listen|have a listen|what stays the same|say go on, or press enter|take as long as you like|go on counting"
        r"|why|why is that|say it, or just think|say it in your own words, or just think|how many (?:are )?left"
        r"|the 2 stay just as far apart as before|only the ones of each start matter|any start that fits will do"
        r"|only the ones of the start decide|the 2 cancel out|yes|yes, here, too|that 1 is your own"
        r"|(?:now )?make 1 yourself|now we'll turn it round|i'll fill 1 in"
        r"|here's a (?:row|column) that isn't in the grid|how many (?:of the sums in this column )?cross a 10",
        _true,
    ),
]
