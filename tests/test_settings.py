import json
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.errors import CallerError
from saythesum.settings import Choosing, Keys, Listening, Settings, Speech, Waits
from saythesum.settings.key_names import OWN
from saythesum.settings.limits import Limits
from saythesum.settings.reading import as_dict, from_dict, settings_from

ROOMS = {field.name: getattr(Settings(), field.name) for field in fields(Settings)}
EVERY_FIELD = [(room, field) for room, values in ROOMS.items() for field in fields(values)]


def test_nothing_written_is_all_defaults() -> None:
    assert settings_from("") == (Settings(), ())


def test_what_is_written_is_taken() -> None:
    taken, problems = settings_from(
        '[speech]\nrate_wpm = 110\nvoice = "gmw/en-gb-scotland"\n[waits]\nsaid_back_ms = "for ever"\n'
        '[listening]\nengine = "vosk"\near = "press"\n[wording]\nlength = "full"\n'
    )
    assert problems == ()
    assert taken.speech == Speech(rate_wpm=110, voice="gmw/en-gb-scotland")
    assert taken.waits == Waits(said_back_ms=None)
    assert taken.listening == Listening(engine="vosk", ear="press")
    assert taken.wording.length == "full"


FULL_OF_ERRORS = """\
rate_wpm = 100
colour = "blue"
helping = 6

[speach]
rate_wpm = 100

[speech]
rate = 100
rate_wpm = 600
pitch = true
voice = "  "
volume_percent = 30

[waits]
counting_ms = "never"
after_number_ms = 12.5

[wording]
length = "long"

[listening]
ear = "left"

[choosing]
right_percent = [85, 70]
confidence = "none"
"""


TABLES = [field.name for field in fields(Settings)]


def test_every_problem_is_told_and_what_is_right_is_taken() -> None:
    taken, problems = settings_from(FULL_OF_ERRORS)
    assert taken == replace(Settings(), speech=Speech(volume_percent=30))
    assert problems == (
        "Line 1: rate_wpm stands under [speech], which is missing above it.",
        f"Line 2: colour is not a table of settings; there are {', '.join(TABLES[:-1])} and {TABLES[-1]}.",
        "Line 3: helping has 6; it is a table: [helping] on a line of its own.",
        "Line 5: speach is not a table of settings; did you mean speech?",
        "Line 9: rate is not a setting of [speech]; did you mean rate_wpm?",
        "Line 10: rate_wpm has 600; it is a whole number from 80 to 400. 140 is used.",
        "Line 11: pitch has true; it is a whole number from 0 to 100. 50 is used.",
        'Line 12: voice has "  "; it is words in quotes, at most 100 characters. "gmw/en" is used.',
        'Line 16: counting_ms has "never"; it is a whole number from 300 to 60000, or "for ever". 4000 is used.',
        'Line 17: after_number_ms has 12.5; it is a whole number from 300 to 60000, or "for ever". 1300 is used.',
        'Line 20: length has "long"; it is "brief" or "short" or "full". "short" is used.',
        'Line 23: ear has "left"; it is "press" or "open".',
        "Line 26: right_percent has [85, 70]; "
        "it is two whole numbers from 0 to 100, the lower one first, such as [70, 85].",
        'Line 27: confidence has "none"; it is "usual" or "low". "usual" is used.',
    )


def test_only_waits_can_be_for_ever() -> None:
    taken, problems = settings_from('[speech]\nrate_wpm = "for ever"')
    assert taken == Settings()
    assert problems == ('Line 2: rate_wpm has "for ever"; it is a whole number from 80 to 400. 140 is used.',)


def test_of_many_problems_the_first_are_told() -> None:
    _, problems = settings_from("".join(f"[oar{number}]\n" for number in range(21)))
    assert len(problems) == 21
    _, problems = settings_from("".join(f"[oar{number}]\n" for number in range(30)))
    assert (len(problems), problems[-1]) == (21, "There are 10 more such problems.")


def test_what_is_not_toml_leaves_the_defaults() -> None:
    taken, (problem,) = settings_from("[speech]\nrate_wpm : 100")
    assert taken == Settings()
    assert problem.startswith("Line 2 cannot be read (")
    assert problem.endswith("All settings have their defaults.")


@pytest.mark.parametrize(("room", "field"), EVERY_FIELD, ids=lambda part: getattr(part, "name", part))
def test_every_default_lies_within_its_own_limits(room: str, field: Any) -> None:
    limits: Limits = field.metadata["limits"]
    assert limits.taken(field.default) == field.default
    with pytest.raises(CallerError):
        limits.taken(["a", "list"])


def test_the_rate_is_limited_to_what_the_voice_can_do() -> None:
    """Source: pyttsx3 2.99's espeak driver, which holds a rate to 80 to 400 words a minute."""
    for rate, problems in ((79, 1), (80, 0), (400, 0), (401, 1)):
        assert len(settings_from(f"[speech]\nrate_wpm = {rate}")[1]) == problems


@pytest.mark.parametrize(
    "written", ["70", '"70 to 85"', "[70]", "[70, 85, 90]", "[-1, 50]", "[50, 101]", "[0.7, 0.85]"]
)
def test_a_band_that_is_none(written: str) -> None:
    taken, (problem,) = settings_from(f"[choosing]\nright_percent = {written}")
    assert taken == Settings()
    assert problem.endswith("it is two whole numbers from 0 to 100, the lower one first, such as [70, 85].")
    assert settings_from("[choosing]\nright_percent = [true, 85]")[1]


def test_a_band_that_is_one() -> None:
    for lowest, highest in ((0, 0), (0, 100), (70, 85), (100, 100)):
        taken, problems = settings_from(f"[choosing]\nright_percent = [{lowest}, {highest}]")
        assert (taken.choosing.right_percent, problems) == ((lowest, highest), ())


# Keys of the pupil's own.


def test_keys_are_named_as_they_are_called() -> None:
    taken, problems = settings_from('[keys]\nhelp = "f5"\nadult = "Pad  0"\nview = "page down"\nskip = "delete"')
    assert (taken.keys.help, taken.keys.adult, taken.keys.skip) == ("F5", "pad 0", "Delete")
    assert problems == ('Line 4: view has "Page Down", the key of help already; give another, such as "F6".',)


A_KEY = 'it is the name of a key, such as "F5", "pad 0" or "Delete"'
NEED = ", never one that screen readers or the computer itself need"


@pytest.mark.parametrize(
    ("written", "right"),
    [
        *((f'"{sign}"', ", never a letter, a digit or a sign: they are typed as answers") for sign in "hH7,é"),
        *((f'"{name}"', NEED) for name in ("Insert", "Caps Lock", "num lock", "Scroll-Lock", "Shift", "Ctrl", "Alt")),
        *((f'"{name}"', NEED) for name in ("Windows", "Menu", "Print Screen", "left shift")),
        *((f'"{name}"', ", pressed alone") for name in ("Ctrl+F5", "Shift+Tab", "F5+F6")),
        *((written, "") for written in ('"F0"', '"F25"', '"pad 10"', '"pad"', '""', '"pup"', "5", "true", '["F5"]')),
    ],
)
def test_a_key_that_can_be_none(written: str, right: str) -> None:
    """Source: WCAG 2.2, 2.1.4, for single letters; what screen readers keep for themselves is common practice."""
    taken, (problem,) = settings_from(f"[keys]\nhelp = {written}")
    assert taken == Settings()
    assert problem.startswith("Line 2: help has ")
    assert problem.endswith(f"; {A_KEY}{right}.")


@pytest.mark.parametrize("first", ["help", "stop"])
def test_no_key_means_two_things(first: str) -> None:
    second = {"help": "stop", "stop": "help"}[first]
    taken, problems = settings_from(f'[keys]\n{first} = "F5"\n{second} = "F5"\nleft = "F6"')
    assert (getattr(taken.keys, first), getattr(taken.keys, second), taken.keys.left) == ("F5", None, "F6")
    assert problems == (f'Line 3: {second} has "F5", the key of {first} already; give another, such as "F7".',)


def test_a_key_that_everybody_has_is_nobody_elses() -> None:
    for name, owner in OWN.items():
        taken, problems = settings_from(f'[keys]\nskip = "{name}"\n{owner} = "{name}"')
        assert taken == Settings(keys=replace(Keys(), **{owner: name})), "what is so anyway may be written"
        assert problems == (f'Line 2: skip has "{name}", the key of {owner} already; give another, such as "F5".',)
        assert taken.keys.given == ()


def test_a_key_of_the_pupils_may_not_be_one_of_everybodys() -> None:
    everybodys, _ = settings_from('[keys]\nadult = "F5"\nhelp = "F6"')
    pupils, problems = settings_from('[keys]\nstop = "F5"\nhelp = "F7"\nskip = "F6"', everybodys)
    assert problems == ('Line 2: stop has "F5", the key of adult already; give another, such as "F8".',)
    assert pupils.keys == Keys(adult="F5", help="F7", skip="F6"), "what the pupil does not have is free"


# Kept with a practice.


def every_setting() -> st.SearchStrategy[Settings]:
    waits = st.none() | st.integers(300, 60_000)
    shares = st.lists(st.integers(0, 100), min_size=2, max_size=2).map(sorted).map(tuple)
    return st.builds(
        Settings,
        st.builds(Speech, st.integers(80, 400), st.sampled_from(["gmw/en", "x"]), st.integers(0, 100)),
        st.builds(Waits, waits, waits, waits, waits, waits),
        st.builds(Listening, st.sampled_from(["neural", "vosk"]), st.sampled_from([None, "press", "open"])),
        choosing=st.builds(Choosing, st.none() | shares, st.sampled_from(["usual", "low"])),
    )


@given(every_setting())
def test_settings_come_back_from_json(kept: Settings) -> None:
    assert from_dict(json.loads(json.dumps(as_dict(kept)))) == kept


def test_what_another_version_kept_is_read_as_far_as_it_goes() -> None:
    given = {"speech": {"rate_wpm": 100, "accent": "x", "pitch": "high"}, "braille": {"cells": 40}, "waits": 3}
    assert from_dict(given) == replace(Settings(), speech=Speech(rate_wpm=100))
    assert from_dict({}) == Settings()


PIECES = ("[speech]", "[waits]", "[[waits]]", "rate_wpm", "said_back_ms", "speech.pitch", "=", " 100", "{", "}", "\n")
SOUP = st.lists(st.sampled_from((*PIECES, '"for ever"')), max_size=25).map("".join)


@settings(deadline=None, max_examples=500)
@given(st.text() | SOUP)
def test_no_text_stops_the_start(text: str) -> None:
    taken, problems = settings_from(text)
    assert from_dict(as_dict(taken)) == taken
    assert all(problem.isprintable() and problem[-1] in ".?" for problem in problems), problems
