"""What is wrong in a text that is not TOML, where, and in words for a teacher.

Source of what is TOML: the specification of TOML 1.0.0; Python's `tomllib` as the reference that refuses each text.
"""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.settings import toml_problems as problems
from saythesum.settings.toml_problems import Problem, first_problem

TEXTS = {
    "[speech": Problem(1, 8, problems.TABLE),
    "[[oars]": Problem(1, 8, problems.TABLE),
    "[two oars]": Problem(1, 2, problems.ODD_NAME),
    "[]": Problem(1, 1, problems.NO_NAME),
    "[speech]\nrate_wpm : 100": Problem(2, 10, problems.NO_EQUALS),
    "add 5": Problem(1, 5, problems.NO_EQUALS),
    "add": Problem(1, 4, problems.NO_EQUALS),
    "two oars = 3": Problem(1, 5, problems.NO_EQUALS),
    "= 3": Problem(1, 1, problems.NO_NAME),
    "gr\u00f6\u00dfe = 3": Problem(1, 1, problems.ODD_NAME),
    "add = ": Problem(1, 6, problems.NO_VALUE),
    "add = five": Problem(1, 7, problems.NO_VALUE),
    "add = [3, five]": Problem(1, 11, problems.NO_VALUE),
    "title = it's": Problem(1, 9, problems.NO_VALUE),
    "add = 5, 8": Problem(1, 8, problems.LEFT_OVER),
    "add = 5 start = 36": Problem(1, 9, problems.LEFT_OVER),
    "add = [5]]": Problem(1, 10, problems.LEFT_OVER),
    "add = [5 8]": Problem(1, 10, problems.LIST),
    "add = [05]": Problem(1, 8, problems.LIST),
    "add = [5,\n  8\nstart = [36]": Problem(3, 1, problems.LIST),
    "add = [5,\n  8": Problem(2, 4, problems.LIST),
    "oars = {left = 1": Problem(1, 17, problems.BRACES),
    'title = "Oars\nadd = [5]': Problem(1, 9, problems.QUOTES),
    'add = [3, "x]': Problem(1, 11, problems.QUOTES),
    '"add = 3': Problem(1, 1, problems.QUOTES),
    'title = "a\\q"': Problem(1, 9, problems.BACKSLASH),
    "add = [5] # of oars\nstart\x07 = [36]": Problem(2, 1, problems.UNSEEN),
    "# a bell \x07\nadd = [5]": Problem(1, 1, problems.UNSEEN),
    "add = [5]\nstart = " + "3" * 5_000: Problem(2, None, problems.LONG_NUMBER),
    "add = [5]\n\nadd = [8]\nstart = [36]": Problem(3, None, problems.TWICE),
    "add = [5]\r\nadd = [8]\r\n": Problem(2, None, problems.TWICE),
    "[speech]\npitch = 1\n[speech]\nrate_wpm = 2": Problem(3, None, problems.TWICE),
}


@pytest.mark.parametrize("text", TEXTS, ids=lambda text: text[:20])
def test_what_is_wrong_and_where(text: str) -> None:
    with pytest.raises(ValueError):
        tomllib.loads(text)
    assert first_problem(text) == TEXTS[text]


GOOD = st.sampled_from(["add = [5,\n  8]", "# two oars", "", "[speech]", 'title = "it\'s # not a remark"', "a.b = 1"])


@given(
    st.lists(GOOD, max_size=5, unique=True),
    st.sampled_from([text for text in TEXTS if "\n" not in text and "#" not in text]),
)
def test_what_stands_before_it_moves_it_down(before: list[str], text: str) -> None:
    expected = TEXTS[text]
    lines = "".join(f"{good}\n" for good in before)
    assert first_problem(lines + text) == Problem(lines.count("\n") + 1, expected.column, expected.what)


@given(st.text(st.sampled_from("ab1 =[]{},.\"'\n\\#\t\x00"), max_size=30))
def test_any_text_has_its_problem_on_a_line_of_its_own(text: str) -> None:
    try:
        tomllib.loads(text)
    except ValueError:
        problem = first_problem(text)
        assert 1 <= problem.line <= text.count("\n") + 1
        assert problem.column is None or problem.column >= 1
