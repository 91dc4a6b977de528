"""Braille: held against liblouis (Debian's binding of it) and against the published examples."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.grids.file_format import grid_from
from saythesum.core.grids.grid import Grid
from saythesum.core.sums import Hidden
from saythesum.errors import CallerError
from saythesum.publishing.braille import liblouis
from saythesum.publishing.braille.pages import PageSize
from saythesum.publishing.braille.translator import Translator
from saythesum.publishing.sheets.in_braille import brf_sheet, in_signs, pages_of
from saythesum.reports.sheets.sheet import Sheet
from saythesum.wording.braille.cells import BLANK, brf_of, cells_of
from saythesum.wording.braille.own_encoder import encoded
from tests.publishing.louis import CONTRACTED, cells_by_louis, print_of
from tests.reports.sheets.made_sheets import ADDING, FERRY, TAKING, WIDE, sheet

PLAIN = Translator("uncontracted")
PAGE = PageSize(40, 25)

EXAMPLES = {
    "3+5 = 8": "⠼⠉⠐⠖⠼⠑⠀⠐⠶⠀⠼⠓",
    "3 + 5 = 8": "⠼⠉⠀⠐⠖⠀⠼⠑⠀⠐⠶⠀⠼⠓",
    "8−5 = 3": "⠼⠓⠐⠤⠼⠑⠀⠐⠶⠀⠼⠉",
    "3+7 = ?": "⠼⠉⠐⠖⠼⠛⠀⠐⠶⠀⠰⠦",
    "_": "⠨⠤",
}
"""Source: ICEB, Guidelines for Technical Material (2014), 3.1.1, 3.1.2 and 3.6, as an open library of braille for
mathematics has them among its tests."""


@pytest.mark.parametrize("text", EXAMPLES)
def test_the_guidelines_examples_come_out_dot_for_dot(text: str) -> None:
    assert PLAIN.signs(text) == encoded(text) == EXAMPLES[text]


@pytest.mark.parametrize("grid", [ADDING, TAKING], ids=["adding", "taking"])
@pytest.mark.parametrize("spaces", [False, True], ids=["usual", "for beginners"])
def test_every_sum_comes_back_from_braille(grid: Grid, spaces: bool) -> None:
    """All 810, with the answer and with a blank for it, also from our own encoder."""
    for filled in (True, False):
        for line in replace(sheet(grid), is_filled=filled).lines:
            text = in_signs(line.written, spaces=spaces)
            cells = PLAIN.signs(text)
            assert print_of(cells) == text
            assert encoded(text) == cells == cells_by_louis(text)


@pytest.mark.parametrize("grid", [FERRY, WIDE, ADDING, TAKING], ids=lambda grid: grid.title)
@pytest.mark.parametrize("cells", [20, 40])
def test_a_sheet_comes_back_as_the_grid_it_came_from(grid: Grid, cells: int) -> None:
    """Its tables, joined, and its sums one by one; and no line is over the width, no page over its length."""
    filled = sheet(grid).filled
    pages = pages_of(filled, PLAIN, PageSize(cells, 25))
    assert max(len(line) for page in pages for line in page) <= cells
    assert max(map(len, pages)) <= 25
    answers: dict[tuple[str, str], str] = {}
    sums = []
    heads: list[str] = []
    for line in (line for page in pages for line in page[1:]):
        if "⠐⠶" in line:
            sums.append(print_of(line).replace(" ", ""))
        elif line.startswith(BLANK * 3):
            heads = [print_of(head) for head in line.split(BLANK) if head]
        elif line.startswith("⠼"):
            start, *row = [print_of(number) for number in line.split(BLANK) if number]
            answers |= {(start, head): answer for head, answer in zip(heads, row, strict=True)}
    asked = [filled.asked(cell) for cell in filled.cells]
    assert sums == [f"{one.shown} = {one.total}".replace(" ", "") for one in asked]
    assert answers == {(str(one.start), one.shown_amount): str(one.total) for one in asked}


def test_each_page_has_title_and_number_at_the_end_of_its_first_line() -> None:
    pages = pages_of(sheet(WIDE, with_steps=True), PLAIN, PAGE)
    assert len(pages) > 20
    for number, page in enumerate(pages, 1):
        assert page[0].startswith(PLAIN.words("Rolls in the bakery") + BLANK * 3)
        assert page[0].endswith(BLANK + PLAIN.signs(str(number))) and len(page[0]) == 40


def test_a_wide_grid_is_split_with_its_headers_repeated() -> None:
    lines = [line for page in pages_of(sheet(WIDE), PLAIN, PAGE) for line in page]
    tops = [place for place, line in enumerate(lines) if set(line) == {"⠒"}]
    heads = [[print_of(one) for one in lines[place - 1].split(BLANK) if one] for place in tops]
    assert len(tops) > 2
    assert [head for row in dict.fromkeys(map(tuple, heads)) for head in row] == [f"+{n}" for n in WIDE.amounts]


def test_the_number_line_has_its_jumps_where_the_numbers_are() -> None:
    pages = pages_of(Sheet("gymyu", Grid("One", (47,), (5,)), is_filled=True, with_line=True), PLAIN, PAGE)
    *_, jumps, axis, numbers = pages[0]
    assert axis == "⠶⠒⠶⠒⠶⠒⠶⠒⠿⠒⠶⠒⠶⠒⠶⠒⠶⠒⠶⠒⠶⠒⠶"  # 46 to 57
    assert numbers.index("⠼⠙⠛") == 2 * (47 - 46) and numbers.index("⠼⠑⠚") == 2 * (50 - 46)
    assert jumps.index("⠐⠖⠼⠉") == 2 and jumps.index("⠐⠖⠼⠃") == 8
    assert numbers.index("⠼⠑⠃") == 2 * (52 - 46)


def test_nothing_on_an_empty_sheet_gives_an_answer_away() -> None:
    one = Sheet("gymyu", Grid("One", (47,), (5,)), with_line=True)
    other = Sheet("gymyu", Grid("One", (47,), (8,)), with_line=True)
    drawn, drawn_other = (pages_of(some, PLAIN, PAGE)[0][-2:] for some in (one, other))
    assert drawn == drawn_other
    assert PLAIN.signs("52") not in "".join(pages_of(one, PLAIN, PAGE)[0])


_WORDS = st.from_regex(r"[A-Z]?[a-z]{1,9}|[1-9][0-9]{0,3}", fullmatch=True)


@given(st.lists(_WORDS, min_size=1, max_size=6), st.sampled_from(("", ".", "?", "!", ": so", ", or")))
def test_our_own_encoder_is_equal_to_liblouis(words: list[str], end: str) -> None:
    text = " ".join(words) + end
    if any(one.isdigit() and other.isdigit() for one, other in pairwise(words)):
        text = text.replace(" ", "  ")  # a single space between two numbers joins them
    assert encoded(text) == cells_by_louis(text)


def test_contracted_words_come_from_liblouis_and_sums_stay() -> None:
    contracted = Translator("contracted")
    assert contracted.words("Seats on the ferry") == cells_by_louis("Seats on the ferry", CONTRACTED)
    assert contracted.signs("47+5 = 52") == PLAIN.signs("47+5 = 52")
    assert contracted.notice is None


@pytest.mark.parametrize("missing", ["the library", "the tables"])
def test_without_liblouis_the_same_sheet_comes_from_our_own_encoder(
    missing: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = brf_sheet(sheet(FERRY, with_steps=True, with_line=True), PLAIN, PAGE, spaces=False)
    if missing == "the library":
        monkeypatch.setattr("ctypes.util.find_library", lambda name: None)
        liblouis.library.cache_clear()
    else:
        monkeypatch.setattr(liblouis, "TABLES", {"uncontracted": "none.ctb", "contracted": "none.ctb"})
    try:
        assert liblouis.translated("the", "uncontracted") is None
        assert brf_sheet(sheet(FERRY, with_steps=True, with_line=True), PLAIN, PAGE, spaces=False) == before
        notice = Translator("contracted").notice
        assert notice and "uncontracted braille" in notice
    finally:
        liblouis.library.cache_clear()


def test_braille_ascii_is_that_of_liblouis() -> None:
    """Its display table of North American braille ASCII; capitals and small letters are the same cells there."""
    import louis

    cells = "".join(chr(0x2800 + number) for number in range(64))
    by_louis = louis.dotsToChar(["en-us-brf.dis"], cells)
    assert brf_of(cells) == by_louis.upper()
    assert cells_of(brf_of(cells)) == cells


def test_the_file_is_what_embossers_take() -> None:
    data = brf_sheet(sheet(WIDE), PLAIN, PAGE, spaces=False)
    assert data.endswith(b"\f") and data.isascii()
    pages = data.decode().split("\f")[:-1]
    assert all(page.endswith("\r\n") and page.count("\r\n") <= 25 for page in pages)
    assert set(data.decode()) <= {brf_of(chr(0x2800 + number)) for number in range(64)} | {"\r", "\n", "\f"}


@pytest.mark.parametrize(("size", "says"), [(PageSize(10, 25), "needs 13"), (PageSize(40, 3), "too short")])
def test_a_page_that_is_too_small_is_refused_in_one_sentence(size: PageSize, says: str) -> None:
    with pytest.raises(CallerError, match=says):
        pages_of(sheet(), PLAIN, size)


MISSING = replace(FERRY, hidden=Hidden.AMOUNT)
LISTED = grid_from('title = "A list"\nsums = ["38+5", "52-7", "?+5=52", "47+?=55"]\n')


@pytest.mark.parametrize(
    "grid", [MISSING, replace(FERRY, hidden=Hidden.START), LISTED], ids=["amount", "start", "list"]
)
def test_missing_numbers_and_lists_have_no_table_that_would_give_them_away(grid: Grid) -> None:
    for one, blank in ((sheet(grid), "_"), (sheet(grid).filled, None)):
        lines = [line for page in pages_of(one, PLAIN, PAGE) for line in page if "⠐⠶" in line]
        asked = [one.asked(cell) for cell in one.cells]
        shown = [sum_shown.replace(" ", "") for sum_shown in (ask.shown for ask in asked)]
        for line, ask, text in zip(lines, asked, shown, strict=True):
            wanted = text if "?" in text else f"{text}=?"
            assert print_of(line).replace(" ", "") == wanted.replace("?", blank or str(ask.total))
    assert "⠒⠒⠒⠒" not in "".join(line for page in pages_of(sheet(grid), PLAIN, PAGE) for line in page)


def test_a_sum_with_its_number_line_is_not_broken_between_pages() -> None:
    pages = pages_of(sheet(FERRY, with_steps=True, with_line=True), PLAIN, PAGE)
    assert len(pages) > 3
    assert all("⠐⠶" in page[1] or page[1].startswith(PLAIN.words("Sheet")) for page in pages)
