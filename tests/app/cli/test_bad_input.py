"""Whatever is wrong: one sentence, the way on, and nothing lost. Never a traceback (`Person` looks for one)."""

import os
import shutil
import sqlite3
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from saythesum.hearing.embedded.moonshine import model_folder
from saythesum.settings.shipped_files import audio_folder
from tests.app.command import Person, is_one_sentence
from tests.log_lines import of_kind

BY_TEXT = ("practise", "--by", "text")
LOGGED = (*BY_TEXT, "--log", "log.jsonl")

# ---- where things live ---------------------------------------------------------------------------------


def test_a_home_that_is_a_file(person: Person) -> None:
    person.writes("home", "not a folder")
    done = person.runs(*BY_TEXT, more={"SAYTHESUM_HOME": str(person.home / "home")})
    assert (done.code, done.shown) == (2, [])
    assert is_one_sentence(done.told)


@pytest.mark.parametrize("home", ["oar" * 100, "stick/" + "oar" * 100])
def test_a_home_with_a_name_too_long_for_any_disk(home: str, person: Person) -> None:
    for words in (BY_TEXT, ("check",), ("models", "list")):
        done = person.runs(*words, more={"SAYTHESUM_HOME": home})
        assert (done.code, done.shown) == (2, [])
        assert is_one_sentence(done.told)


def _own_rights_only() -> list[str]:
    """How to start a command without the right of root to read everything."""
    if os.name != "posix" or os.geteuid() != 0:
        return []
    return ["setpriv", "--bounding-set=-dac_override,-dac_read_search", "--inh-caps=-dac_override,-dac_read_search"]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="folders that nobody may look into, as Linux has them")
def test_a_home_nobody_may_look_into(person: Person) -> None:
    shut = person.home / "shut"
    shut.mkdir(mode=0)
    command = " ".join([*_own_rights_only(), "$SAYTHESUM"])
    try:
        for words in ("practise --by text", "check", "models list"):
            done = person.in_a_shell(f"SAYTHESUM_HOME={shut} {command} {words}")
            assert (done.code, done.shown) == (2, [])
            assert is_one_sentence(done.told)
            assert "Permission denied" in done.told[0]
    finally:
        shut.chmod(0o700)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="folders that nobody may write in, as Linux has them")
def test_check_does_not_promise_records_where_none_can_be_kept(person: Person) -> None:
    read_only = person.home / "stick"
    read_only.mkdir(mode=0o500)
    command = " ".join([*_own_rights_only(), "$SAYTHESUM"])
    for home in (read_only, read_only / "in"):
        check = person.in_a_shell(f"SAYTHESUM_HOME={home} {command} check")
        (records,) = (line for line in check.shown if line.startswith("Records"))
        told = f"The folder {read_only} cannot be written: make it writable, or set SAYTHESUM_HOME to a folder that is."
        assert records == f"Records: not working. {told}"
    begun = person.in_a_shell(f"SAYTHESUM_HOME={read_only} {command} practise --by text")
    assert (begun.code, begun.shown, begun.told) == (2, [], [told])


# ---- grids -----------------------------------------------------------------------------------------------


def test_a_grid_from_another_editor(person: Person) -> None:
    """With a byte order mark and line ends of Windows."""
    person.writes("oars.toml", b'\xef\xbb\xbftitle = "Oars"\r\nadd = [5]\r\nstart = [47]\r\n')
    done = person.runs(*BY_TEXT, "--grid", "oars.toml", given="52\r\n")
    assert (done.code, done.told) == (0, [])
    assert done.shown[-1] == "That one's done. Bye for now."


def test_a_grid_file_of_any_size(person: Person) -> None:
    """A gigabyte; and one name of so many parts that reading it takes minutes and gigabytes."""
    person.writes("rows.toml", b"# an oar\n" * 100_000)
    with person.writes("hole.toml", "").open("r+b") as hole:
        hole.truncate(1 << 30)  # it takes no room
    person.writes("dots.toml", ".".join(["oar"] * 20_000) + " = 1\n")
    for file, problem in (("rows", "too long"), ("hole", "too long"), ("dots", "a line that is too long, line 1")):
        done = person.runs("grid", "check", f"{file}.toml")
        assert (done.code, done.shown) == (2, [])
        assert is_one_sentence(done.told)
        assert problem in done.told[0]


def test_a_remark_may_be_as_long_as_it_likes(person: Person) -> None:
    person.writes("oars.toml", f"# {'an oar ' * 200}\nadd = [5]\nstart = [47]\n")
    assert person.runs("grid", "check", "oars.toml").code == 0


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with a name, as POSIX has them")
def test_a_pipe_that_nobody_writes_to_is_not_waited_for(person: Person) -> None:
    os.mkfifo(person.home / "pipe")
    asked = ("grid check", "grid show", "hear", "models add", "practise --by text --grid", "rehearse --grid")
    for words in (f"{words} pipe" for words in asked):
        done = person.runs(*words.split())
        assert (done.code, done.shown) == (2, []), words
        assert is_one_sentence(done.told)
        assert "pipe" in done.told[0]


def test_a_grid_of_one_cell(person: Person) -> None:
    person.writes("one.toml", 'title = "Oars"\nadd = [5]\nstart = [47]\n')
    assert person.runs("grid", "check", "one.toml").code == 0
    done = person.runs(*LOGGED, "--grid", "one.toml", given="42\nI don't know\n52\n52\n52\n52\n52\n")
    assert (done.code, done.told) == (0, [])
    assert [end["reason"] for end in of_kind(person.log(), "end")] == ["finished"]


def test_equal_answers_in_one_grid(person: Person) -> None:
    """47 + 5 and 44 + 8 are both 52; 47 stands there twice."""
    person.writes("equal.toml", 'title = "Oars"\nadd = [5, 8]\nstart = [47, 44, 47]\n')
    told = person.runs("grid", "check", "equal.toml").shown
    assert any("52" in line for line in told)
    done = person.runs(*LOGGED, "--grid", "equal.toml", given="52\n55\n49\n52\n52\n55\n")
    assert (done.code, done.told) == (0, [])
    (end,) = of_kind(person.log(), "end")
    assert (end["cells"], end["right_first_time"]) == (6, 6)


def test_sums_past_a_hundred(person: Person) -> None:
    person.writes("past.toml", 'title = "Tickets"\nadd = [8]\nstart = [97, 199, 995, 999]\n')
    given = "a hundred and five\n207\none thousand and three\n1007\n"
    done = person.runs(*LOGGED, "--grid", "past.toml", given=given)
    assert (done.code, done.told) == (0, [])
    assert [answer["given"] for answer in of_kind(person.log(), "answer")] == [105, 207, 1003, 1007]


# ---- settings --------------------------------------------------------------------------------------------


def test_settings_full_of_errors(person: Person) -> None:
    person.writes(
        "settings.toml",
        '[speech]\nrate_wpm = "fast"\nvolume_percent = 900\nshouting = true\n'
        '[wording]\nlength = "endless"\n[waits]\nsaid_back_ms = -1\n[nonsense]\na = 1\n',
    )
    done = person.runs(*BY_TEXT, given="41\n")
    assert done.code == 0
    assert done.shown[1] == "Thirty-eight add three."
    for name in ("rate_wpm", "volume_percent", "shouting", "length", "said_back_ms", "nonsense"):
        assert any(name in line for line in done.told), name
    assert all(is_one_sentence([line]) for line in done.told)


UNREADABLE: Mapping[str, Callable[[Path], object]] = {
    "is not plain text in UTF-8; save it as that.": lambda file: file.write_bytes(b"\xff\xff"),
    "Line 1 cannot be read (a [ is not closed": lambda file: file.write_text("[speech"),
    "Line 1 cannot be read (it does not begin with a name": lambda file: file.write_text("= 3\n"),
    "is a folder; right would be a text file": lambda file: file.mkdir(),
    "is a pipe or a device; right would be": os.mkfifo,
    "is too long; right would be": lambda file: file.write_text("# an oar\n" * 20_000),
}


@pytest.mark.skipif(os.name != "posix", reason="pipes with a name, as POSIX has them")
@pytest.mark.parametrize("problem", UNREADABLE)
def test_settings_that_cannot_be_read_at_all(problem: str, person: Person) -> None:
    """Everybody's or one pupil's: told plainly, at the start and by `check`, and never in the way."""
    (person.home / "pupils").mkdir()
    for name, words in (("settings", ()), ("pupils/rk-7", ("--pupil", "rk-7"))):
        file = person.home / f"{name}.toml"
        UNREADABLE[problem](file)
        done = person.runs(*BY_TEXT, *words)
        assert done.code == 0
        assert done.shown[1] == "Thirty-eight add three."
        assert is_one_sentence(done.told)
        assert str(file) in done.told[0] and problem in done.told[0]
        assert "Errno" not in done.told[0] and "codec" not in done.told[0]
        file.rename(person.home / "elsewhere") if not file.is_dir() else file.rmdir()


# ---- what is missing ---------------------------------------------------------------------------------------


def first_comes(person: Person, package: str, text: str) -> dict[str, str]:
    """The environment in which a package of that name, with such a text in it, stands in the way of the real one."""
    folder = person.home / "shim" / package
    folder.mkdir(parents=True)
    (folder / "__init__.py").write_text(text)
    return {"PYTHONPATH": f"{folder.parent}:{person.environment()['PYTHONPATH']}"}


def test_without_the_speech_model(person: Person) -> None:
    """A package of the model's name that comes first and has no model in it."""
    more = first_comes(person, "moonshine_voice", "")
    shutil.copy(audio_folder() / "pupil" / "five.wav", person.home)
    for words in (("hear", "five.wav"), ("rehearse", "--into", "rehearsal")):
        done = person.runs(*words, more=more)
        assert (done.code, done.shown) == (3, [])
        assert is_one_sentence([done.told[-1]])
        assert "pip install" in done.told[-1]
    assert person.runs(*BY_TEXT, given="41\n", more=more).code == 0
    check = person.runs("check", more=more)
    assert any(line.startswith("Listening: not working") and "pip install" in line for line in check.shown)


def test_with_half_of_the_speech_model(person: Person) -> None:
    whole = model_folder()
    more = first_comes(person, "moonshine_voice", "")
    half = person.home / "shim" / "moonshine_voice" / "assets" / "tiny-en"
    half.mkdir(parents=True)
    shutil.copy(whole / "tokenizer.bin", half)
    (half / "encoder_model.ort").write_bytes((whole / "encoder_model.ort").read_bytes()[:5000])
    shutil.copy(audio_folder() / "pupil" / "five.wav", person.home)
    done = person.runs("hear", "five.wav", more=more)
    assert done.code == 3
    assert is_one_sentence(done.told)
    assert "encoder_model.ort" in done.told[0]


def test_without_the_speech_library(person: Person) -> None:
    """A package of pyttsx3's name that comes first and cannot be used."""
    more = first_comes(person, "pyttsx3", "raise ImportError('not here')\n")
    check = person.runs("check", more=more)
    assert any(line.startswith("Voice: not working. No voice") for line in check.shown)
    done = person.runs("rehearse", more=more)
    assert done.code == 3
    assert is_one_sentence([done.told[-1]])
    assert person.runs(*BY_TEXT, given="41\n", more=more).code == 0


def test_a_voice_that_is_not_there_is_told_and_another_speaks(person: Person) -> None:
    person.writes("settings.toml", '[speech]\nvoice = "gmw/atlantis"\n')
    voice = next(line for line in person.runs("check").shown if line.startswith("Voice"))
    assert "works" in voice
    assert "gmw/atlantis" in voice


@pytest.mark.parametrize("name", ["rehearsal.wav", "rehearsal.jsonl", "transcript.txt"])
def test_a_rehearsal_that_could_not_be_written_is_not_begun(name: str, person: Person) -> None:
    (person.home / "rehearsal" / name).mkdir(parents=True)
    done = person.runs("rehearse")
    assert (done.code, done.shown) == (2, [])
    assert is_one_sentence(done.told)
    assert f"{name} cannot be written (Is a directory)" in done.told[0]


def test_a_fault_of_its_own_is_one_line_with_its_place(person: Person) -> None:
    """A library that comes first and breaks in a way that nobody foresaw."""
    more = first_comes(person, "sounddevice", "oars = 1 / 0\n")
    done = person.runs("practise", more=more)
    assert (done.code, done.shown) == (1, [])
    assert is_one_sentence(done.told)
    assert "ZeroDivisionError division by zero, in __init__.py line 1" in done.told[0]


def test_names_that_a_terminal_would_obey(person: Person) -> None:
    """Bytes that are no text, and a name that clears the screen."""
    person.writes("oars.toml", "add = [5]\nstart = [47]\n")
    for name, seen in ((b"\xff\xfe.toml", "??.toml"), (b"\x1b[2J.toml", "?[2J.toml")):
        (person.home / os.fsdecode(name)).write_bytes((person.home / "oars.toml").read_bytes())
        done = person.runs("grid", "check", os.fsdecode(name))
        assert (done.code, done.shown[0]) == (0, f"{seen} is right: 47 add 5.")
        done = person.runs("grid", "check", os.fsdecode(b"no" + name))
        assert (done.code, done.told[0].partition(":")[0]) == (2, f"There is no grid file no{seen}")


def test_without_portaudio(person: Person) -> None:
    """A package of sounddevice's name that comes first and finds no library, as on a machine without it."""
    more = first_comes(person, "sounddevice", "raise OSError('PortAudio library not found')\n")
    by_keys = person.runs("practise", "--by", "keys", given="41\r", more=more)
    assert (by_keys.code, by_keys.shown[-2:]) == (0, ["Thirty-eight add five.", "We'll go on from here next time."])
    assert is_one_sentence(by_keys.told)
    assert "libportaudio2" in by_keys.told[0]
    by_voice = person.runs("practise", "--by", "voice", more=more)
    assert (by_voice.code, by_voice.shown) == (3, [])
    assert all(is_one_sentence([line]) for line in by_voice.told)
    check = person.runs("check", more=more)
    assert sum("not working. No sound: the PortAudio library is missing" in line for line in check.shown) == 2


# ---- records -----------------------------------------------------------------------------------------------


def test_damaged_records_are_kept_and_all_that_can_be_read_goes_on(person: Person) -> None:
    person.runs(*BY_TEXT, given="41\n")
    records = person.home / "records.sqlite"
    spoilt = b"\xa5" * 3000 + records.read_bytes()[3000:]
    records.write_bytes(spoilt)
    check = [line for line in person.runs("check").shown if line.startswith("Records: not working")]
    assert len(check) == 1
    assert check[0].endswith(
        "run: saythesum check --mend. It makes a new file of it and keeps the damaged one beside it."
    )
    assert records.read_bytes() == spoilt
    done = person.runs(*BY_TEXT, given="43\n")
    assert (done.code, done.shown[:2]) == (0, ["Thirty-eight add five.", "Yes."])
    aside = person.home / "records-damaged-1.sqlite"
    assert is_one_sentence(done.told)
    assert f"The damaged file is kept as {aside}; 4 rows of 1 practice could be read" in done.told[0]
    assert aside.read_bytes() == spoilt
    assert person.runs(*BY_TEXT).told == []


def test_mending_by_hand(person: Person) -> None:
    person.runs(*BY_TEXT, given="41\n")
    records = person.home / "records.sqlite"
    assert person.runs("check", "--mend").shown == [f"The records in {records} are whole: there is nothing to mend."]
    records.write_bytes(b"\xa5" * 3000 + records.read_bytes()[3000:])
    (mended,) = person.runs("check", "--mend").shown
    assert "4 rows of 1 practice could be read" in mended
    assert person.runs(*BY_TEXT).shown[0] == "Thirty-eight add five."


def test_records_with_nothing_to_read_in_them(person: Person) -> None:
    person.writes("records.sqlite", "Monday: 12 rolls, 4 loaves\n" * 400)
    done = person.runs(*BY_TEXT, given="41\n")
    assert (done.code, done.shown[1]) == (0, "Thirty-eight add three.")
    assert is_one_sentence(done.told)
    assert "nothing in it could be read, and new records begin" in done.told[0]


def test_records_of_a_newer_version(person: Person) -> None:
    person.runs(*BY_TEXT, given="41\n")
    with sqlite3.connect(person.home / "records.sqlite") as records:
        records.execute("CREATE TABLE oars (row INTEGER)")
        records.execute("PRAGMA user_version = 90")
    done = person.runs(*BY_TEXT, given="41\n")
    assert (done.code, done.shown) == (2, [])
    assert is_one_sentence(done.told)


@pytest.mark.skipif(os.name != "posix", reason="a folder nobody can write in, as Linux has it")
def test_a_home_that_cannot_be_written(person: Person) -> None:
    done = person.runs(*BY_TEXT, more={"SAYTHESUM_HOME": "/proc/saythesum"})
    assert (done.code, done.shown) == (2, [])
    assert is_one_sentence(done.told)


# ---- lines and pipes ---------------------------------------------------------------------------------------

ODD_LINES = {
    "bytes": b"\xff\xfe\x00\x9f four\n",
    "null": b"\x00\n",
    "long": b"forty " * 1700 + b"\n",
    "one long word": b"x" * 10_000 + b"\n",
    "digits": b"9" * 10_000 + b"\n",
    "control": b"\x1b[2J\x07\x08\n",
    "other digits": "٤١\n".encode(),
    "negative": b"-41\n",
    "spaces": b"  \t \n",
    "carriage returns": b"\r\r\n",
    "wide digits": "４１\n".encode(),
    "turned round": "\u202e41\n".encode(),
    "a decimal": b"41.0\n",
    "a power of ten": b"4e1\n",
    "a number of four hundred digits": b"1" + b"0" * 400 + b"\n",
    "too large": b"1100\n",
    "a sum that is none": b"38+\n",
}


def test_lines_that_are_no_answer(person: Person) -> None:
    """Some are shown again as what they are not; none is kept as an answer, and the answer after them all counts."""
    done = person.runs(*LOGGED, given=b"".join(ODD_LINES.values()) + b"41\n")
    assert (done.code, done.told) == (0, [])
    assert done.shown[-2] == "Thirty-eight add five."
    assert [answer["given"] for answer in of_kind(person.log(), "answer")] == [41]


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="a line that never ends, as Linux has it")
def test_a_line_without_end_is_the_end(person: Person) -> None:
    done = person.in_a_shell("(echo 41; cat /dev/zero) | $SAYTHESUM practise --by text; exit ${PIPESTATUS[1]}")
    assert done.code == 0
    assert done.shown[-2:] == ["Thirty-eight add five.", "We'll go on from here next time."]
    assert is_one_sentence(done.told)
    assert "one answer a line" in done.told[0]


def test_lines_from_an_editors_file(person: Person) -> None:
    done = person.runs(*LOGGED, given=b"\xef\xbb\xbf41\r\n43\r\n")
    assert [answer["given"] for answer in of_kind(person.log(), "answer")] == [41, 43]
    assert done.told == []


@pytest.mark.parametrize("way", ["text", "keys"])
@pytest.mark.parametrize(
    "connected",
    [
        "$SAYTHESUM practise --by {way} <&-",
        "$SAYTHESUM practise --by {way} </dev/null",
        "$SAYTHESUM practise --by {way} </dev/null 2>&-",
    ],
)
def test_no_input_at_all(connected: str, way: str, person: Person) -> None:
    """What is missing may be told; the first cell is asked, the place kept."""
    done = person.in_a_shell(connected.format(way=way))
    assert done.code == 0
    assert done.shown[-2:] == ["Thirty-eight add three.", "We'll go on from here next time."]


@pytest.mark.parametrize("way", ["text", "keys"])
def test_nobody_reads_the_lines(way: str, person: Person) -> None:
    """The reader goes after one line. What was answered is kept."""
    done = person.in_a_shell(f"yes 41 | $SAYTHESUM practise --by {way} | head -n 1; exit ${{PIPESTATUS[1]}}")
    assert (done.code, len(done.shown)) == (0, 1)
    assert person.runs(*BY_TEXT).code == 0


@pytest.mark.parametrize("way", ["text", "keys"])
def test_no_output_at_all(way: str, person: Person) -> None:
    done = person.in_a_shell(f"echo 41 | $SAYTHESUM practise --by {way} >&-")
    assert done.code == 0
    assert person.runs(*BY_TEXT).shown[0] == "Thirty-eight add five."


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a full device, as Linux has it")
@pytest.mark.parametrize("words", ["practise --by text", "practise --by keys", "grid show", "check"])
def test_lines_that_go_to_a_full_disk(words: str, person: Person) -> None:
    done = person.in_a_shell(f"echo 41 | $SAYTHESUM {words} >/dev/full")
    assert done.code == 2
    assert is_one_sentence([done.told[-1]])
    assert "No space left" in done.told[-1]


def test_help_to_a_reader_that_goes(person: Person) -> None:
    assert person.in_a_shell("$SAYTHESUM --help | head -n 1; exit ${PIPESTATUS[0]}").code == 0
