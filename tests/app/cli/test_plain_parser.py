"""Whatever stands on the command line is understood, or refused in one sentence that says none of it at length."""

from contextlib import suppress

from hypothesis import given
from hypothesis import strategies as st

from saythesum.app.cli.main import parsed
from saythesum.app.cli.plain_parser import CommandLineError
from tests.app.command import is_one_sentence

VERBS = ("practise", "rehearse", "hear", "check", "grid", "show", "models", "add", "remove", "list")
OPTIONS = (
    "--pupil",
    "--by",
    "--ear",
    "--seed",
    "--log",
    "--probe",
    "--words",
    "--factor",
    "--json",
    "--into",
    "-h",
    "-x",
)
OTHERS = (
    "--",
    "-",
    "",
    "=",
    "rk-7",
    "text",
    "a.wav",
    "52",
    "-4",
    "--pupil=--",
    "--seed=",
    "--probe=1",
    "-hh",
    "o" * 9_999,
)
WORD = st.sampled_from(VERBS + OPTIONS + OTHERS) | st.text(max_size=6)


@given(st.lists(WORD, max_size=5))
def test_any_words_at_all(words: list[str]) -> None:
    try:
        with suppress(SystemExit):  # --help
            assert parsed(words).run
    except CommandLineError as error:
        assert is_one_sentence([str(error)])
        assert len(str(error)) < 900
        assert "argument" not in str(error), "a word of programmers"
