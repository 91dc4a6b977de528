import pytest

from saythesum.core.meanings import NUMBER_KINDS, Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.wording.understand.tokens import LONGEST_LINE
from saythesum.wording.understand.understood import understood

OTHER = Unclear(WhyUnclear.OTHER)
NOTHING = Unclear(WhyUnclear.NOTHING)
TWO_NUMBERS = Unclear(WhyUnclear.TWO_NUMBERS)
SAID_FIRST = Given(Command.SAID_FIRST)
NOT_SAID = Given(Command.NOT_WHAT_I_SAID)


def _count(value: int) -> Number:
    return Number(value, counting=True)


def _objection(value: int) -> Number:
    return Number(value, objecting=True)


def _said_first(value: int) -> Number:
    return Number(value, said_first=True)


def _as_number(text: str) -> Meaning:
    return understood(text, Awaiting.NUMBER)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("47.", 47),
        ("It's forty-seven!", 47),
        ("Um, forty... seven", 47),
        ("forty - seven", 47),
        ("Forty—seven.", 47),
        ("“47”", 47),
        ("is it fifty-two?", 52),
        ("I think, umm, er, fifty two", 52),
        ("that's forty-three isn't it", 43),
        ("forty-seven, miss", 47),
        ("yes, forty-three", 43),
        ("the answer's fifty-two, I think", 52),
        ("forty and three", 43),
        ("forty, three", 43),
        ("40, 3", 43),
        ("70-1.", 71),
        ("a hundred and four", 104),
        ("a hundred, and four", 104),
        ("hundred and four", 104),
        ("one hundred four", 104),
        ("100 and 4", 104),
        ("a hundred", 100),
        ("a thousand and ninety-nine", 1099),
        ("one thousand", 1000),
        ("1,004", 1004),
        ("1004", 1004),
        ("05", 5),
        ("007", 7),
        ("nought", 0),
        ("0", 0),
        ("forty-seven, forty-seven", 47),
        ("wait, forty-seven", 47),
        ("wait... forty-seven", 47),
        ("two of the five", 2),
        ("three more", 3),
        ("five left", 5),
        ("add three", 3),
        ("+ 3", 3),
        ("oh, four", 4),
        ("oh forty-three!", 43),
    ],
)
def test_one_number(text: str, value: int) -> None:
    assert _as_number(text) == Number(value)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("forty-seven add five is fifty-two", 52),
        ("forty-two take away five is thirty-seven", 37),
        ("three and five make eight", 8),
        ("thirty-eight, two is forty, and three is forty-three", 43),
        ("forty and five is forty-five", 45),
        ("47 + 5 = 52", 52),
        ("47+5=52", 52),
        ("a hundred and four is the answer", 104),
    ],
)
def test_of_a_sum_its_last_number(text: str, value: int) -> None:
    assert _as_number(text) == Number(value)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("five two", 52),
        ("seven two", 72),
        ("5 2", 52),
        ("oh, five two", 52),
        ("one oh four", 104),
        ("one zero four", 104),
        ("1 0 4", 104),
        ("four oh", 40),
        ("one oh oh", 100),
        ("one forty two", 142),
        ("one forty", 140),
        ("two fifteen", 215),
    ],
)
def test_numbers_said_in_pieces(text: str, value: int) -> None:
    assert _as_number(text) == Number(value)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("forty-eight, no, forty-seven", Number(47)),
        ("Forty-eight. No. Forty-seven.", Number(47)),
        ("forty-eight, I mean forty-seven", Number(47)),
        ("forty-eight, sorry, forty-seven", Number(47)),
        ("forty-eight no forty-nine no fifty", Number(50)),
        ("five two no five three", Number(53)),
        ("sorry, forty-seven", Number(47)),
        ("no, sixty-two", _objection(62)),
        ("no no sixty-two", _objection(62)),
        ("nope, it's sixty two", _objection(62)),
        ("I said sixty-two", _objection(62)),
        ("I already said sixty-two", _objection(62)),
        ("no I said sixty two", _objection(62)),
        ("what I said was sixty-two", _objection(62)),
        ("sixty-two, I said!", _objection(62)),
        ("that's not what I said, sixty-two", _objection(62)),
        ("not fifty-two, sixty-two", _objection(62)),
        ("it's not fifty-two, it's sixty-two", _objection(62)),
        ("forty-three, that's what I said first", _said_first(43)),
        ("that's what I said, forty-three", _said_first(43)),
        ("no, forty-three, that is what I said before", _said_first(43)),
        ("I said that first, forty-three", _said_first(43)),
        ("I said forty-three first.", _said_first(43)),
        ("I said forty-three already", _said_first(43)),
    ],
)
def test_corrections_and_objections(text: str, number: Number) -> None:
    assert _as_number(text) == number


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("thirty-nine, forty, forty-one", _count(41)),
        ("thirty-nine forty forty-one", _count(41)),
        ("thirty-nine um forty", _count(40)),
        ("forty-two, forty-three", _count(43)),
        ("thirty-nine, forty, forty-three", _count(43)),
        ("twenty-eight, twenty-nine, thirty-one, thirty-two", _count(32)),
        ("thirty-nine, forty, forty-one. Forty-one!", _count(41)),
        ("ninety-nine, a hundred, a hundred and one", _count(101)),
        ("one hundred, one hundred and one", _count(101)),
        ("one two three", _count(3)),
        ("8, 9, 10", _count(10)),
        ("eight nine ten", _count(10)),
        ("forty... forty-three", Number(43)),
        ("forty forty-one", Number(41)),
        ("a hundred... a hundred and four", Number(104)),
        ("a hundred and twenty, a hundred and twenty-three", Number(123)),
    ],
)
def test_counting_aloud_and_beginning_again(text: str, number: Number) -> None:
    assert _as_number(text) == number


@pytest.mark.parametrize(
    "text",
    [
        "forty or fifty",
        "forty two forty three",
        "twenty twelve",
        "ten four",
        "ten, thirteen",
        "twenty one hundred",
        "forty-two and fifty",
        "forty-seven add five",
        "is it forty-seven add five",
        "forty-eight, forty-six",
        "thirty-nine, forty, seventeen",
        "not fifty-two sixty-two",
        "one hundred and twenty twelve",
        "five, two",
        "eight nine",
        "nine ten",
        "zero four",
        "one two five four",
        "one hundred oh four one",
        "12 34",
    ],
)
def test_two_numbers_are_not_guessed_at(text: str) -> None:
    assert _as_number(text) == TWO_NUMBERS


@pytest.mark.parametrize(
    "text",
    [
        "oh",
        "yes",
        "is it for me",
        "is it forty to",
        "I have forty apples",
        "forty-seven and",
        "forty-seven add",
        "forty-seven or",
        "forty-eight, no",
        "it's not fifty-two",
        "twenty-first",
        "thirtieth",
        "30s",
        "2nd",
        "I first",
        "-5",
        "−5",
        "minus five",
        "it's minus five",
        "3.5",
        "1/2",
        "5-2",
        "46-50",
        "forty-two point five",
        "1100",
        "1,100",
        "eleven hundred",
        "two thousand",
        "9" * 399,
        "²",
        "2²",
        "٤٢",
        "４７",
        "go on",
        "hush",
        "left",
        "again",
        "four o'clock",
        "is it",
        "no, that's forty apples",
        "forty-seven " * 40,
    ],
)
def test_what_is_no_answer(text: str) -> None:
    assert _as_number(text) == OTHER


@pytest.mark.parametrize("text", ["", "   ", "\n", "...", "?!", "Um.", "er, hmm", " " * 10_000])
def test_nothing_was_said(text: str) -> None:
    assert _as_number(text) == NOTHING


def test_the_longest_line_is_still_read() -> None:
    count = "one " * (LONGEST_LINE // 4)
    assert len(count.strip()) == LONGEST_LINE - 1
    assert _as_number(count) == Number(1)
    assert _as_number(count + "one") == OTHER


@pytest.mark.parametrize(("text", "value"), [("to", 2), ("For.", 4), ("ate", 8), ("free", 3), ("forty to", 42)])
def test_homophones_are_numbers_only_where_a_number_is_awaited(text: str, value: int) -> None:
    for awaiting in Awaiting:
        assert understood(text, awaiting) == (Number(value) if awaiting in NUMBER_KINDS else OTHER)


@pytest.mark.parametrize("text", ["none", "Nothing.", "there's nothing left"])
def test_nothing_is_a_number_only_for_a_part(text: str) -> None:
    assert understood(text, Awaiting.STEP) == Number(0)
    assert understood(text, Awaiting.NUMBER) == OTHER


@pytest.mark.parametrize(
    ("text", "command"),
    [
        *[("stop", Command.STOP), ("Help!", Command.HELP), ("wait", Command.WAIT), ("um, stop", Command.STOP)],
        *[(text, Command.NOT_WHAT_I_SAID) for text in ("no", "No, no!", "oh no")],
    ],
)
def test_short_words_alone(text: str, command: Command) -> None:
    for awaiting in NUMBER_KINDS:
        assert understood(text, awaiting) == Given(command, alone=True)
        typed = understood(text, awaiting, typed=True)
        assert isinstance(typed, Given)
        assert typed.command is command


@pytest.mark.parametrize(
    ("text", "command"),
    [
        ("Say that again, please.", Command.SAY_AGAIN),
        ("I dont know", Command.DONT_KNOW),
        ("I don’t know", Command.DONT_KNOW),
        ("um, where am I?", Command.WHERE_AM_I),
        ("no, that's not what I said", Command.NOT_WHAT_I_SAID),
        ("no, that's what I said first!", Command.SAID_FIRST),
        ("that's what I said", Command.SAID_FIRST),
    ],
)
def test_commands(text: str, command: Command) -> None:
    for awaiting in Awaiting:
        assert understood(text, awaiting) == Given(command)


@pytest.mark.parametrize(
    ("text", "command"),
    [
        ("left", Command.LEFT),
        ("go right", Command.RIGHT),
        ("up", Command.UP),
        ("Down", Command.DOWN),
        ("row start", Command.ROW_START),
        ("end of the row", Command.ROW_END),
        ("read this row", Command.READ_ROW),
        ("read this column", Command.READ_COLUMN),
        ("how many more", Command.HOW_MANY_MORE),
        ("how many more?", Command.HOW_MANY_MORE),
        ("hush", Command.HUSH),
        ("what are the keys", Command.KEYS_ALOUD),
        ("again", Command.SAY_AGAIN),
        ("skip", Command.SKIP),
        ("stop", Command.STOP),
    ],
)
def test_typed_commands(text: str, command: Command) -> None:
    for awaiting in Awaiting:
        assert understood(text, awaiting, typed=True) == Given(command)


def test_a_typed_answer_is_read_like_a_spoken_one() -> None:
    for text in ("47", "forty-seven", "no, 47", "2 left"):
        assert understood(text, Awaiting.NUMBER, typed=True) == _as_number(text)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("Yes.", Choice(True)),
        ("um, yeah", Choice(True)),
        ("yep", Choice(True)),
        ("y", Choice(True)),
        ("yes, forty-three", Choice(True)),
        ("yes that's it", Choice(True)),
        ("No!", Choice(False)),
        ("nope", Choice(False)),
        ("no, it wasn't", Choice(False)),
        ("no, that's not it", Choice(False)),
        ("no, forty-two", _objection(42)),
        ("forty-three", Number(43)),
        ("no, yes", OTHER),
        ("yes apples", OTHER),
        ("it", OTHER),
        ("forty-three, no", OTHER),
        ("stop", Given(Command.STOP)),
        ("I don't know", Given(Command.DONT_KNOW)),
    ],
)
def test_choices(text: str, meaning: Meaning) -> None:
    assert understood(text, Awaiting.CHOICE) == meaning


def test_short_commands_where_no_number_is_awaited() -> None:
    for text, command in (("go on", Command.GO_ON), ("hush", Command.HUSH), ("wait", Command.WAIT)):
        assert understood(text, Awaiting.COMMAND) == Given(command)
    assert understood("47", Awaiting.COMMAND) == Number(47)
    assert understood("no", Awaiting.COMMAND) == Choice(False)  # it leaves a talk about patterns


@pytest.mark.parametrize("line", ["that one", "this one", "no, not that one"])
def test_the_one_of_that_one_is_no_number(line: str) -> None:
    assert understood(line, Awaiting.NUMBER) == Unclear(WhyUnclear.OTHER)


def test_that_one_may_begin_a_sentence_or_a_hundred() -> None:
    assert understood("that one is forty-three", Awaiting.NUMBER) == Number(43)
    assert understood("that one hundred", Awaiting.NUMBER) == Number(100)
