import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.missing.amount import AddedAmount
from saythesum.core.grids.file_format import LONGEST_TITLE, grid_from, text_of
from saythesum.core.grids.grid import AboutGrid, Grid, Order, about, walk
from saythesum.core.sums import Hidden
from saythesum.errors import GridError

OARS = """\
# Tuesday's group
title = "Rows of oars"
add   = [6, 8]   # along the top
start = [
    36,
    85,          # nearly a hundred
]
order = "columns"
"""


def told(text: str) -> list[str]:
    with pytest.raises(GridError) as refusal:
        grid_from(text)
    return str(refusal.value).split("\n")


def test_a_grid_as_a_teacher_types_it() -> None:
    assert grid_from(OARS) == Grid("Rows of oars", (36, 85), (6, 8), Order.COLUMNS)


def test_what_is_written_is_toml_that_reads_back() -> None:
    grid = grid_from(OARS)
    written = tomllib.loads(text_of(grid))
    assert written == {"title": "Rows of oars", "add": [6, 8], "start": [36, 85], "order": "columns"}
    assert grid_from(text_of(grid)) == grid


@pytest.mark.parametrize(
    ("text", "grid"),
    [
        ("add=[7]\nstart=[36]", Grid("36 add 7", (36,), (7,))),
        ("start=[36, 58]\nadd=[9, 5]", Grid("36 to 58 add 5 to 9", (36, 58), (9, 5))),
        ('title=" "\nadd=[7]\nstart=[0]', Grid("0 add 7", (0,), (7,))),
        ('title="Buns\\tand  rolls"\nadd=[7]\nstart=[999]', Grid("Buns and rolls", (999,), (7,))),
        ('title="Crème brûlée 🚣"\nadd=[7]\nstart=[96]', Grid("Crème brûlée 🚣", (96,), (7,))),
        ("add=[7, 7]\nstart=[36, 36]", Grid("36 add 7", (36, 36), (7, 7))),
        ("\ufeffadd=[7]\r\nstart=[36]\r\n", Grid("36 add 7", (36,), (7,))),
        (f"add={[5] * 20}\nstart={list(range(20))}", Grid("0 to 19 add 5", tuple(range(20)), (5,) * 20)),
    ],
)
def test_what_is_fine(text: str, grid: Grid) -> None:
    assert grid_from(text) == grid


AMOUNT = "an amount is a whole number from 1 to 99."
START = "a start is a whole number from 0 to 999."
FINE = "\nadd = [7]\nstart = [36]"


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        (
            "add = [7]\n\nstart = [36,\n 1200, 58]",
            [f"Line 4: start has 1200; {START}"],
        ),
        (
            'title = """Buns\nand rolls"""  # two lines\nadd = [7]\nstart = [1200]',
            [f"Line 4: start has 1200; {START}"],
        ),
        (
            "add = [0, 100, -3]\nstart = [true, 5.5, '36']",
            [f"Line 1: add has {wrong}; {AMOUNT}" for wrong in ("0", "100", "-3")]
            + [f"Line 2: start has {wrong}; {START}" for wrong in ("true", "5.5", '"36"')],
        ),
        (
            "add = [nan, 2024-05-01, [7], {x = 1}]\nstart = [0xffffffffffffffff]",
            [f"Line 1: add has {wrong}; {AMOUNT}" for wrong in ("nan", "2024-05-01", "[7]", "a table")]
            + [f"Line 2: start has a number of more than twelve digits; {START}"],
        ),
        (
            "",
            [
                "add is missing; write for example add = [3, 5, 8].",
                "start is missing; write for example start = [38, 57].",
            ],
        ),
        (
            "add = 7\nstart = []",
            [
                "Line 1: add has 7; it is a list, such as [3, 5, 8].",
                "Line 2: start is empty; it needs a number at least, such as [38, 57].",
            ],
        ),
        (
            f"start = {list(range(21))}\nadd = {[0] * 500}",
            [
                "Line 1: start has 21 numbers; a grid has at most 20 rows.",
                "Line 2: add has 500 numbers; a grid has at most 20 columns.",
            ],
        ),
        (
            "adds = [7]\nstart = [36]\ncolour = 3",
            [
                "Line 1: adds is not a name in a grid file; did you mean add?",
                "Line 3: colour is not a name in a grid file; there are title, add, take, start, hidden and order.",
            ],
        ),
        (
            "add = [5]\ntake = [7, 3]\nstart = [36, 5, 0]",
            [
                "Line 2: Row 5 (number 2), take 7: 5 take away 7 is below nought; from 5 take at most 5.",
                "Line 2: Row 0 (number 3), take 7: 0 take away 7 is below nought; nothing can be taken from 0.",
                "Line 2: Row 0 (number 3), take 3: 0 take away 3 is below nought; nothing can be taken from 0.",
            ],
        ),
        ("order = 'row'" + FINE, ['Line 1: order has "row"; it is "rows", "columns", "shuffled" or "chosen".']),
        ("order = 3" + FINE, ['Line 1: order has 3; it is "rows", "columns", "shuffled" or "chosen".']),
        ("title = 3" + FINE, ['Line 1: title has 3; it is words in quotes, such as "At the bakery".']),
        (
            f"title = '{'x' * (LONGEST_TITLE + 1)}'" + FINE,
            ["Line 1: title has 61 characters; a title has at most 60."],
        ),
        (
            'title = "Bu\\u0007ns"' + FINE,
            ["Line 1: title has a hidden character (U+0007); it is words in quotes that can be seen and read aloud."],
        ),
        (
            "[grid]\nadd = [7]\nstart = [36]",
            [
                "Line 1: grid is not a name in a grid file; there are title, add, take, start, hidden and order.",
                "add is missing; write for example add = [3, 5, 8].",
                "start is missing; write for example start = [38, 57].",
            ],
        ),
    ],
)
def test_every_problem_is_told_with_its_line(text: str, sentences: list[str]) -> None:
    assert told(text) == sentences


def test_of_many_problems_the_first_are_told() -> None:
    names = "".join(f"bun{number} = 1\n" for number in range(500))
    sentences = told(names + "add = [7]\nstart = [36]")
    assert sentences[19:] == [
        "Line 20: bun19 is not a name in a grid file; there are title, add, take, start, hidden and order.",
        "There are 480 more such problems.",
    ]


@pytest.mark.parametrize(
    ("text", "begins"),
    [
        ("add = [7]\nstart = [36", "Line 2 cannot be read (a list lacks its end ] or a comma"),
        (
            "add = [7]\ntitle = Buns\nstart = [36]",
            "Line 2 cannot be read (after = comes a number, a list in [ ] or words",
        ),
        ("add [7]", "Line 1 cannot be read (there is no = after the name, column 5)"),
        ("add = 7, 8", "Line 1 cannot be read (something is left over; numbers stand in a list, [ ], column 8)"),
        ("+, 7\n36,", "Line 1 cannot be read (it does not begin with a name, column 1)"),
        ("add = [07]", "Line 1 cannot be read (a list lacks its end ] or a comma, or has a number that begins with 0"),
        ('title = "Oars\nadd = [7]', "Line 1 cannot be read (the quotes are not closed"),
        ("add = [7]\nadd = [8]\nstart = [36]", "Line 2 cannot be read (the same name is there twice"),
        ("start = [36]\nadd = [" + "9" * 5000 + "]", "Line 2 cannot be read (a number far too long)"),
        ("add = " + "[" * 100_000, "There are far too many brackets inside brackets"),
    ],
)
def test_what_is_not_toml_is_told_with_its_line(text: str, begins: str) -> None:
    (sentence,) = told(text)
    assert sentence.startswith(begins)
    assert sentence.endswith("; a line looks like add = [3, 5, 8].")


@pytest.mark.parametrize("title", ["“Buns”", "„Buns“", '"Buns"', "«Buns»"])
def test_curly_quotes_are_understood_and_may_stand_in_a_title(title: str) -> None:
    assert grid_from(f"add = [7]\nstart = [36]\ntitle = {title}").title == "Buns"
    assert grid_from('add = [7]\nstart = [36]\ntitle = "Anna’s “best” buns"').title == "Anna’s “best” buns"


def test_a_list_of_sums() -> None:
    grid = grid_from('sums = ["38+5", "52 - 7", "47+?=52", "? \N{MINUS SIGN} 5 = 47"]')
    assert [(one.operation, one.start, one.amount, one.hidden) for one in grid.listed] == [
        ("add", 38, 5, Hidden.TOTAL),
        ("take", 52, 7, Hidden.TOTAL),
        ("add", 47, 5, Hidden.AMOUNT),
        ("take", 52, 5, Hidden.START),
    ]
    assert [grid.exercise_at(cell).total for cell in walk(grid, 0)] == [43, 45, 5, 52]
    assert (grid.rows, grid.columns, grid.title) == (4, 1, "4 sums")
    assert tomllib.loads(text_of(grid))["sums"] == ["38+5", "52-7", "47+?=52", "?-5=47"]
    assert grid_from(text_of(grid)) == grid


RIGHT_SUM = 'a sum is typed as "38+5" or "52-7", or with a hole as "47+?=52".'


@pytest.mark.parametrize(
    ("written", "sentence"),
    [
        ('"thirty-eight and five"', RIGHT_SUM),
        ('"38 plus 5"', RIGHT_SUM),
        ("7", RIGHT_SUM),
        ('"38+5=43"', f"nothing is asked in it; {RIGHT_SUM}"),
        ('"?+?=52"', f"it has a hole in two places; {RIGHT_SUM}"),
        ('"?+5"', f"it has a hole in two places; {RIGHT_SUM}"),
        ('"38+0"', "The amount 0 is not a whole number from 1 to 99."),
        ('"0-3"', "0 take away 3 is below nought; nothing can be taken from 0."),
        ('"5-7"', "5 take away 7 is below nought; from 5 take at most 5."),
        (
            '"47+?=40"',
            "the missing number would be -7. The amount -7 is not a whole number from 1 to 9.",
        ),
        (
            '"?+7=5"',
            "the missing number would be -2. The start -2 is not a whole number from 0 to 999.",
        ),
    ],
)
def test_a_sum_that_cannot_be_asked_is_told_with_what_would_be_right(written: str, sentence: str) -> None:
    (said,) = told(f'sums = ["38+5",\n {written}]')
    assert said == f"Line 2: sums has {written}; {sentence}"


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ('sums = "many"', ['Line 1: sums has "many"; it is a list, such as ["38+5", "52-7"].']),
        ("sums = []", ['Line 1: sums is empty; it needs a sum at least, such as ["38+5", "52-7"].']),
        (f"sums = {['38+5'] * 21}", ["Line 1: sums has 21 sums; a list has at most 20."]),
        (
            'sums = ["38+5"]\nstart = [38]\nhidden = "start"\ncolour = 1',
            [
                "Line 2: start does not go with sums; a grid has starts and amounts, a list has sums alone.",
                "Line 3: hidden does not go with sums; a grid has starts and amounts, a list has sums alone.",
                "Line 4: colour is not a name in a grid file; there are title, sums and order.",
            ],
        ),
    ],
)
def test_a_list_that_is_none(text: str, sentences: list[str]) -> None:
    assert told(text) == sentences


def test_a_hidden_number() -> None:
    grid = grid_from('add = [5, 8]\nstart = [47, 59]\nhidden = "amount"\norder = "rows"')
    assert grid == Grid("47 to 59 add 5 to 8", (47, 59), (5, 8), hidden=Hidden.AMOUNT)
    assert [grid.exercise_at(cell).total for cell in walk(grid, 0)] == [5, 8, 5, 8]
    assert grid_from(text_of(grid)) == grid


def test_hidden_numbers_are_shuffled_unless_an_order_is_written_as_they_come_again_in_each_row_or_column() -> None:
    assert grid_from('take = [5]\nstart = [47]\nhidden = "start"').order is Order.SHUFFLED
    assert about(grid_from('take = [5]\nstart = [47, 63]\nhidden = "amount"')).equal_answers == (5,)


def test_what_may_be_hidden() -> None:
    (sentence,) = told('add = [5]\nstart = [47]\nhidden = "both"')
    assert sentence == 'Line 3: hidden has "both"; it is "amount" or "start".'


def test_a_title_may_be_missing() -> None:
    assert grid_from("add = [5, 8]\nstart = [38, 47]").title == "38 to 47 add 5 to 8"


def grids() -> st.SearchStrategy[Grid]:
    starts = st.lists(st.integers(0, 999), min_size=1, max_size=20).map(tuple)
    amounts = st.lists(st.integers(1, 9), min_size=1, max_size=20).map(tuple)
    letters = st.characters().filter(str.isprintable)
    titles = st.text(letters, max_size=LONGEST_TITLE).map(lambda text: " ".join(text.split())).filter(bool)
    hidden = st.sampled_from(Hidden)
    one_sum = st.builds(Sum, st.integers(0, 999), st.integers(1, 9)) | st.builds(
        AddedAmount, st.integers(0, 999), st.integers(1, 9)
    )
    lists = st.lists(one_sum, min_size=1, max_size=20).map(tuple)
    listed = st.builds(Grid, titles, st.just(()), st.just(()), st.sampled_from(Order), listed=lists)
    return listed | st.builds(Grid, titles, starts, amounts, st.sampled_from(Order), hidden=hidden)


@given(grids())
def test_every_grid_reads_back_as_itself(grid: Grid) -> None:
    assert grid_from(text_of(grid)) == grid


NAMES = ("title", "add", "start", "order", "take", "starts", "x.y", '"a b"')
MARKS = (
    "=",
    "[",
    "]",
    "{",
    "}",
    ",",
    "[[",
    "]]",
    "\n",
    "\r\n",
    " ",
    "#",
    '"',
    "'",
    '"""',
    "'''",
    "\\",
    "\x00",
    "\u2028",
)
NUMBERS = ("7", "36", "-1", "1e999", "true", "0x", "9" * 30)

VALUES = st.recursive(
    st.sampled_from(["7", "36", "0", "1000", "-5", "1.5", "inf", "true", '"rows"', "'''a\nb'''", "1979-05-27"]),
    lambda inner: st.lists(inner, max_size=4).map(lambda items: "[" + ", # no\n".join(items) + "\n]"),
)
LINES = st.builds("{} = {}\n".format, st.sampled_from(["add", "start", "title", "order", "a.b", '"q u"']), VALUES)


def damaged(places: list[tuple[int, int, str]]) -> str:
    """A good file with some stretches overwritten."""
    text = OARS
    for begin, length, instead in places:
        text = text[:begin] + instead + text[begin + length :]
    return text


PLACES = st.tuples(st.integers(0, len(OARS)), st.integers(0, 4), st.sampled_from(("", *NAMES, *MARKS, *NUMBERS)))
DAMAGED = st.lists(PLACES, max_size=2).map(damaged)
SOUP = st.one_of(
    DAMAGED,
    st.text(),
    st.lists(st.sampled_from(NAMES + MARKS + NUMBERS), max_size=30).map("".join),
    st.lists(LINES, max_size=5).map("".join),
)


@settings(max_examples=1500, deadline=None)
@given(SOUP)
def test_any_text_is_a_grid_or_told_in_sentences(text: str) -> None:
    try:
        grid = grid_from(text)
    except GridError as refusal:
        sentences = str(refusal).split("\n")
        assert all(sentence.isprintable() and sentence[-1] in ".?" for sentence in sentences), sentences
    else:
        assert grid_from(text_of(grid)) == grid
        assert all(0 <= start <= 999 for start in grid.starts)
        assert all(1 <= amount <= 9 for amount in grid.amounts)


@given(st.lists(st.sampled_from(["7,", "\n", "# no, [7]\n", " "])), st.sampled_from(["'a,[\n'", "1200", "{a=[1,\t2]}"]))
def test_the_line_of_an_item_is_the_line_it_is_typed_on(before: list[str], wrong: str) -> None:
    text = f"add = [7]\nstart = [{''.join(before)}" + wrong.replace("\n", "") + "]"
    line = text[: text.rindex(wrong.replace("\n", ""))].count("\n") + 1
    sentences = told(text)
    assert sentences[-1].startswith(f"Line {line}: start has ")


def test_about_a_grid() -> None:
    assert about(Grid("Mixed", (36, 36, 95, 193), (1, 4, 7))) == AboutGrid(
        cells=12,
        crossing=3,  # 36+7 twice, 95+7
        landing=3,  # 36+4 twice, 193+7
        within=6,  # 36+1 twice, 95+1, 95+4, 193+1, 193+4
        past_hundred=2,  # 95+7, 193+7
        equal_answers=(37, 40, 43),
        repeated=3,
    )
