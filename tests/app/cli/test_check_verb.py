"""What `check` says of this machine: a line for each thing, with what to do where something does not work."""

import shutil
import subprocess
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from saythesum.app.cli.checks.check_records import records_can_be_read
from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.app.word_game.which_words import OFTEN_MIXED_UP
from saythesum.core.records.rows import Answer
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import keep_own_words, none_yet, read_own_words
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import spoken_part
from saythesum.settings import Settings
from saythesum.sound.resample import for_listening
from saythesum.store.records import SqliteStore
from saythesum.wording.for_adults.said_word_game import still_to_say
from saythesum.wording.numbers import words
from saythesum.wording.speak import said_word_game as say
from tests.app.command import COMMAND, TOP, Person, is_one_sentence
from tests.office.places import home_in
from tests.store.made_practices import AT, answered, asked, practice
from tests.tools.listening.sounds import padded
from tests.tools.rig.server import Rig
from tests.tools.rig.word_game import Child, game_on

THINGS = (
    "Settings",
    "Voice",
    "Loudspeaker",
    "Microphone",
    "Listening",
    "Window",
    "Screen reader",
    "Braille line",
    "Other people",
    "Records",
    "Kept",
    "Kept until",
)


def records_of(person: Person) -> str:
    """What the line for the records says, without the looks at everything else."""
    return records_can_be_read(home_in(person.home), Settings())


def test_a_line_for_each_thing(person: Person) -> None:
    """Without a display; the sound devices are those of this machine, or none."""
    done = person.runs("check")
    assert (done.code, done.told) == (0, [])
    lines = {line.split(":")[0]: line for line in done.shown}
    assert tuple(lines) == THINGS
    assert "works; it takes" in lines["Voice"]
    assert "understood a known recording" in lines["Listening"]
    assert "none yet" in lines["Records"]
    assert done.shown[0] == f"Settings: none yet; they will be in {person.home / 'settings.toml'}."
    assert all(line[-1] == "." or "records.sqlite" in line for line in lines.values())


def test_without_its_second_opinion_it_says_so_and_listens_on(
    person: Person, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Missing, in a copy of the program; in tests/hearing it is empty or cut off."""
    top = tmp_path_factory.mktemp("copy")
    for folder in ("saythesum", "models", "audio"):
        shutil.copytree(TOP / folder, top / folder, ignore=shutil.ignore_patterns("__pycache__"))
    (top / "models" / "second-opinion.npz").unlink()
    done = person.runs("check", more={"PYTHONPATH": str(top)})
    listening = next(line for line in done.shown if line.startswith("Listening"))
    assert "understood a known recording. It listens without its second opinion" in listening
    assert "second-opinion.npz is missing or damaged; right would be to install saythesum again." in listening


def test_what_telemetry_once_left_behind(person: Person) -> None:
    left = person.home / "cache-of-programs/Microsoft/DeveloperTools/.onnxruntime"
    left.mkdir(parents=True)
    assert person.runs("check").shown[-1] == (
        "Left behind: The library onnxruntime once kept a device id and a list of events for its maker, here or in "
        f"another program: they are in {left}, and `rm -r {left}` removes them."
    )


def test_settings_that_are_there(person: Person) -> None:
    """Which files were read, and what is wrong in them, on the way to everything else."""
    (person.home / "pupils").mkdir()
    everybodys = person.writes("settings.toml", "[speech]\nrate_wpm = 9000\n")
    pupils = person.writes("pupils/rk-7.toml", '[wording]\nlength = "long"\n')
    done = person.runs("check", "--pupil", "rk-7")
    assert (done.code, done.told) == (0, [])
    assert done.shown[:3] == [
        f"Settings: those in {everybodys} and {pupils}.",
        f"Settings, {everybodys}: Line 2: rate_wpm has 9000; it is a whole number from 80 to 400. 140 is used.",
        f'Settings, {pupils}: Line 2: length has "long"; it is "brief" or "short" or "full". "short" is used.',
    ]
    assert done.shown[3].startswith("Voice: ")


def test_a_folder_where_the_records_should_be(person: Person) -> None:
    (person.home / "records.sqlite").mkdir()
    told = f"A folder stands where the records should be, at {person.home / 'records.sqlite'}: move it elsewhere, "
    assert f"Records: not working. {told}or set SAYTHESUM_HOME to another folder." in person.runs("check").shown
    begun = person.runs("practise", "--by", "text")
    assert (begun.code, begun.shown, begun.told) == (2, [], [f"{told}or set SAYTHESUM_HOME to another folder."])


def test_newest_rows_are_named_while_they_stand_in_a_file_of_their_own(person: Person) -> None:
    """During a practice, and after one that was killed; one that ends folds them in."""
    beside = person.home / "records.sqlite-wal"
    practising = person.starts("practise", "--by", "text")
    assert practising.stdout and practising.stdout.readline()
    during = records_of(person)
    assert f"Their newest rows are in {beside} until a practice ends: to copy the records, let one end first" in during
    practising.kill()
    practising.communicate()
    assert f"Their newest rows are in {beside}" in records_of(person)
    person.runs("practise", "--by", "text")
    assert "newest rows" not in records_of(person)


def test_records_that_are_there(person: Person) -> None:
    person.runs("practise", "--by", "text", given="41\n")
    records = (person.home / "records.sqlite").read_bytes()
    assert records_of(person).startswith("can be read")
    assert (person.home / "records.sqlite").read_bytes() == records


ODD = {
    "earlier": (
        [answered(practice(), 0), answered(practice(), 1)],
        [AT, "2031-05-11T09:30:00.000Z"],
        "with an earlier time than the answer before: 1, first 59 add 5 answered 54 on 11 May 2031; all are kept; "
        "they count, but memory is worked out forwards only; look whether this machine's clock is right.",
    ),
    "same": (
        [answered(practice(), 0), answered(practice(), 1)],
        [AT, AT],
        "with the same time as the answer before: 1, first 59 add 5 answered 54 on 12 May 2031; all are kept; "
        "they count in the order in which they were kept.",
    ),
    "newer": (
        [replace(answered(practice(), 0), could_be=("new-ten-lost", "counted-the-seagulls"))],
        [AT],
        "with the name of a mistake that only a newer saythesum knows: 1, first 59 add 5 answered 54 on 12 May 2031; "
        "all are kept; the name is passed over, the number counts.",
    ),
    "marked": (
        [replace(answered(practice(), serial), right=True) for serial in range(3)],
        [AT, "2031-05-12T09:30:09.000Z", "2031-05-12T09:30:20.500Z"],
        "with a number that is never awaited, or marked otherwise than their sum says: 3, first 59 add 5 answered 54 "
        "on 12 May 2031; all are kept; nothing is made of them.",
    ),
}


@pytest.mark.parametrize(("rows", "times", "sentence"), ODD.values(), ids=list(ODD))
def test_odd_answers_are_told_in_a_sentence_and_practice_goes_on(
    rows: list[Answer], times: list[str], sentence: str, person: Person
) -> None:
    store = SqliteStore(person.home / "records.sqlite")
    store.begin(practice(pupil="rk-7"))
    for serial, (row, at) in enumerate(zip(rows, times, strict=True)):
        question = replace(asked(practice(), 10 + serial), row=row.row, column=row.column)
        store.keep(practice().id, question, at=at, at_ms=0)
        store.keep(practice().id, row, at=at, at_ms=0)
    store.close()
    assert f" Answers of rk-7 {sentence}" in records_of(person)
    went_on = person.runs("practise", "--by", "text", "--pupil", "rk-7", given="stop there\n")
    assert (went_on.code, went_on.told) == (0, [])


def test_nothing_odd_is_told_of_a_practice_as_it_comes(person: Person) -> None:
    person.runs("practise", "--by", "text", given="41\n")
    assert "Answers of" not in records_of(person)


@pytest.mark.rig
def test_with_a_loudspeaker_and_a_microphone(rig: Rig, tmp_path: Path) -> None:
    """A null sink plays exact zeros: a microphone that is switched off or muted sounds like that."""
    environment = {name: value for name, value in rig.environment.items() if "DISPLAY" not in name}
    done = subprocess.run(
        [*COMMAND, "check"],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**environment, "SAYTHESUM_HOME": str(tmp_path), "PYTHONPATH": str(TOP)},
    )
    assert done.stderr == ""
    loudspeaker = next(line for line in done.stdout.splitlines() if line.startswith("Loudspeaker"))
    assert "works, if you have just heard a sentence" in loudspeaker
    microphone = [line for line in done.stdout.splitlines() if line.startswith("Microphone")]
    assert "listens to the room for ten seconds" in microphone[0]
    assert "nothing but silence" in microphone[1]


def test_a_pupil_of_whom_something_was_learnt(person: Person) -> None:
    (person.home / "pupils").mkdir()
    person.writes("pupils/rk-7.toml", "[listening]\nvocal_tract_factor = 1.2\nvocal_tract_answers = 9\n")
    told = person.runs("check", "--pupil", "RK-7").shown[-1]
    assert told.startswith("Pupil: For rk-7 the listening is lowered as for a smaller mouth: factor 1.2, learnt from 9")


def test_the_word_check_without_its_microphone(person: Person) -> None:
    person.writes("settings.toml", '[sound]\nmicrophone = "the one that was stolen"\n')
    done = person.runs("check", "--words")
    assert (done.code, done.shown) == (3, [])
    assert is_one_sentence(done.told)


@pytest.mark.rig
def test_the_word_game_is_stopped_and_taken_up_another_day(rig: Rig, tmp_path: Path) -> None:
    """Two of the twelve words are missing. The pupil says yes, then one of them, then "stop there"."""
    (tmp_path / "settings.toml").write_text("[speech]\nrate_wpm = 250\n")
    (tmp_path / "pupils").mkdir()
    (tmp_path / "pupils/rk-7.toml").write_text(
        '[own_words]\nuse = true\nconsent_on = "2026-05-12"\nconsent_by = "AB"\n'
    )
    first, second = OFTEN_MIXED_UP[0], OFTEN_MIXED_UP[-1]
    file = tmp_path / "pupils/rk-7.words"
    keep_own_words(file, said_before(NeuralRecogniser(), set(OFTEN_MIXED_UP) - {first, second}))
    begun = game_on(rig, tmp_path, Child(rig, says={say.say_word(second): "stop there"}), "--pupil", "rk-7")
    assert begun.shown[1:7] == [
        *(say.ROOM, say.BEGIN, say.MAY_I_KEEP),
        *(say.say_word(first), say.say_again(first), say.say_word(second)),
    ]
    assert begun.shown[7] == say.STOPPED
    assert still_to_say([second]) in begun.shown
    kept = read_own_words(file, 1.0, pytest.fail)
    assert (kept.counts[first], kept.counts[second]) == (2, 0)
    finished = game_on(rig, tmp_path, Child(rig), "--pupil", "rk-7")
    assert finished.shown[4:7] == [say.say_word(second), say.say_again(second), say.FINISHED]
    assert set(read_own_words(file, 1.0, pytest.fail).counts.values()) == {2}
    assert list(tmp_path.glob("**/*.wav")) == list((tmp_path / "cache").glob("**/*.wav")), "no sound of the pupil"


def said_before(engine: NeuralRecogniser, words_: set[int]) -> OwnWords:
    """Two sayings of each, by the same made-up pupil."""
    own = none_yet(1.0)
    for number in sorted(words_):
        phrase = pupil_phrase(words(number))
        assert phrase
        frames = engine.frames(spoken_part(padded(for_listening(phrase))))
        held = None
        for _ in range(2):
            came = own.with_take(number, frames, on=date(2026, 5, 12), again=held)
            own, held = (came, None) if isinstance(came, OwnWords) else (own, came)
    return own
