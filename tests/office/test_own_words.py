"""Consent to a pupil's own words and what is kept with it: nothing leaves, and nothing stays that was erased."""

import io
import sys
from base64 import b64encode
from datetime import date
from pathlib import Path

import pytest

from saythesum.app.cli.main import main
from saythesum.app.setup.folders import HOME_VARIABLE, Places
from saythesum.app.setup.pupil_settings import has_consent, keep_no, settings_of
from saythesum.app.setup.words_kept import WordsKept
from saythesum.errors import CallerError
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import keep_own_words, none_yet
from saythesum.office.erasing import erase, look_at_erasing
from saythesum.office.giving import give
from saythesum.office.own_words import erase_own_words, note_consent, own_words_of, own_words_said, withdraw_consent
from saythesum.office.pupils import add_pupil, change_everybody, change_pupil, changes
from saythesum.office.taking_in import take_in
from saythesum.office.upkeep.settings_texts import SettingsError
from saythesum.settings import OwnWordsConsent
from saythesum.settings.changing import parts_of, without_own_words
from saythesum.settings.reading import NO_CONSENT, as_dict, settings_from
from tests.app.word_game.made_up import Speaker
from tests.office.places import home_in
from tests.office.school import NOW, bytes_of, keeps, some_answers

CODE, INITIALS = "zq-93x", "QZXV"
"""In no other text."""
DAY = date(2031, 5, 12)
TODAY = NOW.date()


def some_words() -> OwnWords:
    own, pupil = none_yet(1.0), Speaker(1)
    for word in (7, 30):
        came = own.with_take(word, pupil.frames(word), on=DAY)
        assert isinstance(came, OwnWords)
        own = came
    return own


def home(folder: Path) -> Places:
    """Of a pupil who has practised, with consent and own words."""
    places = home_in(folder / "home")
    add_pupil(places, CODE, NOW, {"speech.rate_wpm": "121"})
    note_consent(places, CODE, DAY, INITIALS, NOW)
    keep_own_words(places.words_file(CODE), some_words())
    keeps(places, *some_answers("answers", CODE))
    return places


def traces_of_words(everything: bytes) -> int:
    """As they are, and as text may have them."""
    pieces = [take.packed[at : at + 48] for take in some_words().takes for at in (0, 288, 1440)]
    forms = (bytes, bytes.hex, b64encode, lambda piece: str(list(memoryview(piece).cast("b")))[1:-1])
    written = [form(piece) for piece in pieces for form in forms]
    return sum((one.encode() if isinstance(one, str) else one) in everything for one in written)


def test_a_trace_would_be_found(tmp_path: Path) -> None:
    places = home(tmp_path)
    assert traces_of_words(bytes_of(places.data)) == 6
    assert traces_of_words(str(list(memoryview(some_words().takes[0].packed).cast("b"))).encode()) > 0


def test_no_export_report_log_or_record_has_any_of_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    places, out = home(tmp_path), tmp_path / "out"
    out.mkdir()
    monkeypatch.setenv(HOME_VARIABLE, str(places.data))
    monkeypatch.chdir(out)
    give(places, out / "all.json", NOW)
    for form in ("html", "csv", "json", "text"):
        assert main(["report", CODE, "--as", form, "--from", "2031-05-01", "--on", "2031-05-14"]) == 0
    assert main(["report", CODE, "--for", "visit", "--from", "2031-05-01", "--on", "2031-05-14"]) == 0
    monkeypatch.setattr(sys, "stdin", io.StringIO("52\nstop there\n"))
    assert main(["practise", "--pupil", CODE, "--by", "text", "--log", str(out / "log.jsonl")]) == 0
    assert main(["check", "--pupil", CODE]) == 0
    said = capfd.readouterr()
    assert f"Own words of {CODE} are off: consent is noted for 2031-05-12, a day to come." in said.out
    kept_elsewhere = [file for file in places.data.rglob("*") if file.is_file() and file.parent.name != "pupils"]
    everything = bytes_of(out) + b"".join(file.read_bytes() for file in kept_elsewhere)
    assert CODE.encode() in everything and len(list(out.iterdir())) == 7
    assert traces_of_words(everything + (said.out + said.err).encode()) == 0
    assert INITIALS.encode() not in everything
    assert traces_of_words(bytes_of(places.data)) == 6


def test_one_press_erases_them_and_nothing_else(tmp_path: Path) -> None:
    places = home(tmp_path)
    left_behind = places.words_file(CODE).with_name(f"{CODE}.words-killed.part")
    left_behind.write_bytes(places.words_file(CODE).read_bytes())
    before = set(places.data.rglob("*"))
    assert erase_own_words(places, CODE)
    assert traces_of_words(bytes_of(places.data)) == 0
    assert before - set(places.data.rglob("*")) == {places.words_file(CODE), left_behind}
    assert own_words_of(places, CODE).consent.is_given(TODAY)
    assert not erase_own_words(places, CODE)


def test_they_go_with_the_pupil(tmp_path: Path) -> None:
    places = home(tmp_path)
    part = places.words_file(CODE).with_name(f"{CODE}.words-killed.part")
    part.write_bytes(places.words_file(CODE).read_bytes())
    assert parts_of(places.words_file(CODE)) == (part,)
    assert {places.words_file(CODE), part} <= set(look_at_erasing(places, CODE).files)
    erase(places, CODE, NOW)
    everything = bytes_of(places.data)
    assert traces_of_words(everything) == 0
    assert not any(text.encode() in everything for text in (CODE, INITIALS))


def test_consent_stays_where_it_was_noted(tmp_path: Path) -> None:
    """A file of records brings none in, nor does it overwrite any; the other settings come as they are."""
    places, other = home(tmp_path), home_in(tmp_path / "other")
    file = give(places, tmp_path / "all.json", NOW).file
    take_in(other, file)
    assert settings_of(CODE, other).own_words == OwnWordsConsent()
    assert settings_of(CODE, other).speech.rate_wpm == 121
    assert take_in(places, file).other_settings == ()
    assert own_words_of(places, CODE).consent.is_given(TODAY)
    assert not any("own_words" in change.setting for change in changes(places, CODE))
    assert "own_words" not in as_dict(settings_of(CODE, places))


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("[own_words]\nuse = true\n[speech]\npitch = 40\n", "[speech]\npitch = 40\n"),
        ('[speech]\npitch = 40\n[own_words]\nconsent_by = "AB"\n', "[speech]\npitch = 40\n"),
        ("own_words.use = true\n", ""),
        ("[speech]\npitch = 40\n[ own_words ]\nuse = true\n[waits\n", "[speech]\npitch = 40\n[waits\n"),
        ("[speech]\npitch = 40", "[speech]\npitch = 40"),
    ],
)
def test_settings_that_are_given_out_are_without_it_also_where_they_are_broken(text: str, left: str) -> None:
    assert without_own_words(text) == left


DAY_NEEDED = 'it is a day such as "2031-05-12"'


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("use = true", NO_CONSENT),
        ('use = true\nconsent_on = "2031-05-12"', NO_CONSENT),
        ('use = true\nconsent_on = "last May"\nconsent_by = "AB"', f'consent_on has "last May"; {DAY_NEEDED}.'),
        (
            'consent_by = "Mrs Porter"',
            'consent_by has "Mrs Porter"; it is initials of at most 4 letters, such as "AB".',
        ),
        ("consent_by = 7", 'consent_by has 7; it is initials of at most 4 letters, such as "AB".'),
        ("consent_on = 12", f"consent_on has 12; {DAY_NEEDED}."),
        ('use = "yes"', 'use has "yes"; it is true or false. false is used.'),
    ],
)
def test_what_is_no_consent_is_told_and_leaves_them_off(text: str, problem: str) -> None:
    settings, problems = settings_from(f"[own_words]\n{text}\n")
    assert not settings.own_words.is_given(TODAY)
    assert any(one.endswith(problem) for one in problems), problems


def test_consent_counts_from_its_day_on_and_never_against_the_pupils_no() -> None:
    given = OwnWordsConsent(use=True, consent_on="2031-05-12", consent_by="A. B.")
    assert not given.is_given(date(2031, 5, 11))
    assert given.is_given(DAY)
    assert settings_from('[own_words]\nuse = true\nconsent_on = 2031-05-12\nconsent_by = "A. B."')[0].own_words == given
    said_no = OwnWordsConsent(use=True, consent_on="2031-05-12", consent_by="AB", pupil_said_no="2031-05-13")
    assert not said_no.is_given(date(2031, 6, 1))


def test_consent_is_each_pupils(tmp_path: Path) -> None:
    """What stands in everybody's file counts for nobody."""
    places = home_in(tmp_path)
    add_pupil(places, CODE, NOW)
    with pytest.raises(SettingsError, match="consent is each pupil's"):
        change_everybody(places, {"own_words.use": "true"})
    places.settings_file.write_text('[own_words]\nuse = true\nconsent_on = "2031-05-12"\nconsent_by = "AB"\n')
    told: list[str] = []
    assert settings_of(CODE, places, told.append).own_words == OwnWordsConsent()
    assert "counts in a pupil's own file only" in told[0]


def test_it_is_noted_withdrawn_and_the_pupil_asked_again(tmp_path: Path) -> None:
    places = home(tmp_path)
    with pytest.raises(SettingsError, match="no consent is noted"):
        change_pupil(places, CODE, {"own_words.consent_by": ""}, NOW)
    withdraw_consent(places, CODE, NOW)
    off, unread = own_words_said(own_words_of(places, CODE), TODAY)
    assert off.startswith(f"Own words of {CODE} are off") and "is not read" in unread
    with pytest.raises(CallerError, match="still to come"):
        note_consent(places, CODE, date(2031, 5, 15), "AB", NOW)
    with pytest.raises(SettingsError, match="initials of at most 4 letters"):
        note_consent(places, CODE, DAY, "Mrs Porter", NOW)
    change_pupil(places, CODE, {"own_words.pupil_said_no": "2031-05-13"}, NOW)
    with pytest.raises(CallerError, match="ask the pupil again first"):
        note_consent(places, CODE, DAY, "AB", NOW)
    assert not own_words_of(places, CODE).consent.is_given(TODAY)
    note_consent(places, CODE, DAY, "AB", NOW, is_asked_again=True)
    assert own_words_of(places, CODE).consent == OwnWordsConsent(use=True, consent_on="2031-05-12", consent_by="AB")


def test_they_are_written_only_while_that_is_allowed(tmp_path: Path) -> None:
    """Withdrawn on the desk, or erased by one press, in the middle of a game or a practice: nothing comes back."""
    places = home(tmp_path)
    file = places.words_file(CODE)
    kept = WordsKept(file, lambda: has_consent(CODE, places, TODAY), pytest.fail)
    assert kept.keep(some_words())
    before = file.read_bytes()
    withdraw_consent(places, CODE, NOW)
    assert not kept.keep(none_yet(1.0)) and file.read_bytes() == before
    note_consent(places, CODE, DAY, "AB", NOW)
    assert kept.keep(some_words())
    erase_own_words(places, CODE)
    assert not kept.keep(some_words()) and not file.exists()


def test_the_pupils_no_is_kept_with_its_day(tmp_path: Path) -> None:
    places = home(tmp_path)
    keep_no(CODE, places, TODAY)
    card = own_words_of(places, CODE)
    assert (card.consent.use, card.consent.pupil_said_no) == (False, TODAY.isoformat())
    assert next(own_words_said(card, TODAY)).endswith("the pupil said no on 2031-05-14.")
    assert not has_consent(CODE, places, TODAY)
