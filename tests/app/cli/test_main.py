"""What can be asked of the command and what cannot, in this process: the way a person starts it is tested elsewhere."""

from pathlib import Path

import pytest

import saythesum
from saythesum import __version__
from saythesum.settings.shipped_files import models_folder
from tests.app.command import is_one_sentence
from tests.app.here import asked


@pytest.mark.parametrize(
    "words",
    [
        "",
        "practise",
        "rehearse",
        "hear",
        "check",
        "grid",
        "grid show",
        "grid check",
        "models",
        "models list",
        "models add",
        "models remove",
    ],
)
def test_help_has_an_example_that_can_be_pasted(words: str, capture: pytest.CaptureFixture[str]) -> None:
    done = asked(capture, *words.split(), "--help")
    assert (done.code, done.told) == (0, [])
    example = done.shown[-1]
    assert example.startswith("Example: saythesum")
    what_it_is_for = "\n".join(done.shown).split("\n\n")[1]
    assert what_it_is_for[0].isupper()
    assert not any("positional" in line for line in done.shown), "a word of programmers"
    # Plain lines that a screen reader reads well: no boxes, no colour.
    assert all(line.isprintable() and line.isascii() for line in done.shown)


def test_the_version(capture: pytest.CaptureFixture[str]) -> None:
    assert asked(capture, "--version").shown == [f"saythesum {__version__}"]


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("sing", "no verb 'sing'; there are practise, rehearse"),
        ("practice", "did you mean practise?"),
        ("grid dance", "there are show, make and check."),
        ("--sideways", "--sideways"),
        ("--by song", "there are voice, keys, switch and text."),
        ("practise --by song", "--by cannot be 'song'"),
        ("practise --pupil rk-7 practise", "'practise' has no meaning here"),
        ("practise --p rk-7", "'--p' has no meaning here"),
        ("check --words=all", "--words takes nothing after it"),
        *((f"practise {option}=--", f"{option} cannot be '--'") for option in ("--pupil", "--grid", "--seed", "--log")),
        ("--pupil=--", "--pupil cannot be '--'"),
        ("practise --pupil -- rk-7", "missing after --pupil"),
        ("hear --", "WAV is missing"),
        ("hear any.wav --factor", "missing after --factor"),
        (f"practise --grid {'oar' * 33_334}", "Word 3 of what was asked has 100,002 characters"),
        ("o" * 100_000, "Word 1 of what was asked has 100,000 characters"),
        ("hear any.wav --factor 1.2 --pupil rk-7", "do not go together"),
        (f"practise --by {'song' * 99}", "…"),
        ("practise --by", "missing after --by"),
        ("practise --ear wide", "'wide'"),
        ("practise --seed -4", "'-4'"),
        ("practise --seed 1e3", "'1e3'"),
        ("practise --by text --pupil Anna_Smith", '"Anna_Smith" must be'),
        (f"practise --by text --pupil {'oar' * 99}", f"{'oar' * 10}…"),
        ("practise --by text --pupil ../rk", '"../rk"'),
        ("practise --by text --pupil ré", '"ré"'),
        ("practise --by text --pupil CON", '"CON" is a device'),
        ("practise --by text --log nowhere/log.jsonl", "nowhere/log.jsonl"),
        ("practise --by text --log .", "log cannot be written"),
        ("practise --by text --grid nowhere.toml", "nowhere.toml"),
        ("practise --by text --grid .", "folder"),
        ("grid", "WHAT is missing"),
        ("models add nowhere.zip", "nowhere.zip is not there"),
        ("grid check", "FILE"),
        ("grid check nowhere.toml", "nowhere.toml"),
        ("hear", "WAV"),
        ("hear nowhere.wav", "nowhere.wav"),
        ("hear nowhere.wav --listening-for music", "'music'"),
        ("rehearse --pupil-kind loud", "'loud'"),
        ("rehearse --pupil-kind sailor", "stopped-at-the-ten"),
        ("rehearse --into /proc/rehearsal", "/proc/rehearsal cannot be written"),
        ("rehearse --grid nowhere.toml", "nowhere.toml"),
    ],
)
def test_what_cannot_be_asked(words: str, named: str, capture: pytest.CaptureFixture[str]) -> None:
    done = asked(capture, *words.split())
    assert done.code == 2
    assert done.shown == []
    assert is_one_sentence(done.told)
    assert named in done.told[0]
    assert "argument" not in done.told[0], "a word of programmers"


@pytest.mark.parametrize(
    "log",
    [
        "records.sqlite",
        "records.sqlite-wal",
        "practising.lock",
        "settings.toml",
        "pupils/rk-7.toml",
        "cache/phrases/oars.wav",
        "models/changing.lock",
        "pupils/../settings.toml",
        "link",
        "hard",
        saythesum.__file__,
        str(models_folder() / "listening.toml"),
    ],
)
def test_a_log_in_a_file_of_the_programs_own(log: str, home: Path, capture: pytest.CaptureFixture[str]) -> None:
    (home / "pupils").mkdir()
    (home / "settings.toml").write_text("# of the whole class\n")
    (home / "link").symlink_to(home / "records.sqlite")
    (home / "hard").hardlink_to(home / "settings.toml")
    done = asked(capture, "practise", "--by", "text", "--log", log)
    assert (done.code, done.shown) == (2, [])
    assert done.told == [f"{log} is a file of saythesum's own: name another file for the log."]
    assert (home / "settings.toml").read_text() == "# of the whole class\n"
    assert not (home / "records.sqlite").exists()


def test_a_log_in_the_grid(home: Path, capture: pytest.CaptureFixture[str]) -> None:
    (home / "ferry.toml").write_text("add = [5]\nstart = [47]\n")
    done = asked(capture, "practise", "--by", "text", "--grid", "ferry.toml", "--log", "./ferry.toml")
    assert (done.code, done.told) == (2, ["ferry.toml is the grid: name another file for the log."])
    assert (home / "ferry.toml").read_text() == "add = [5]\nstart = [47]\n"


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "add"),
        ("plain words\n", "Line 1"),
        ('title = "x"\nadd = [5]\n', "start"),
        ('title = "x"\nadd = []\nstart = [47]\n', "Line 2"),
        ('title = "x"\nadd = [5]\nstart = [-3]\n', "-3"),
        ('title = "x"\nadd = [5]\nstart = [4.5]\n', "4.5"),
        ('title = "x"\nadd = [5]\nstart = [1000]\n', "1000"),
        ('title = "x"\nadd = [0]\nstart = [47]\n', "Line 2"),
        ('title = "x"\nadd = [120]\nstart = [47]\n', "120"),
        ('title = "x"\nadd = ["five"]\nstart = [47]\n', "five"),
        ("title = 4\nadd = [5]\nstart = [47]\n", "Line 1"),
        ('title = "x"\nadd = [5]\nstrat = [47]\n', "start"),
        ('title = "x"\nadd = [5]\nstart = [47]\norder = "sideways"\n', '"rows", "columns"'),
        ('title = "x"\ntake = [5]\nstart = [3]\n', "below nought"),
        (b"\xff\xfe\x00g", "UTF-8"),
    ],
)
def test_what_is_no_grid(content: str | bytes, says: str, home: Path, capture: pytest.CaptureFixture[str]) -> None:
    (home / "bad.toml").write_bytes(content.encode() if isinstance(content, str) else content)
    begun = ("practise", "--by", "text", "--grid", "bad.toml")
    for words in (("grid", "check", "bad.toml"), ("grid", "show", "bad.toml"), begun):
        done = asked(capture, *words)
        assert (done.code, done.shown) == (2, [])
        assert done.told[0].startswith("bad.toml")
        assert says in " ".join(done.told)
    assert not (home / "records.sqlite").exists()


def test_the_starter_grids_are_shown_each_with_a_reason(capture: pytest.CaptureFixture[str]) -> None:
    shown = asked(capture, "grid", "show").shown
    assert shown[0] == "Starter grids, in the order schools teach them:"
    assert sum(line.startswith("Row ") for line in shown) >= 8


def test_a_grid_with_its_answers(home: Path, capture: pytest.CaptureFixture[str]) -> None:
    (home / "ferry.toml").write_text('title = "Seats on the ferry"\nadd = [5, 3]\nstart = [47, 96]\n')
    assert asked(capture, "grid", "show", "ferry.toml").shown == [
        "Seats on the ferry",
        "Along the top, add: 5, 3",
        "Row 47: add 5 is 52, add 3 is 50",
        "Row 96: add 5 is 101, add 3 is 99",
        "4 sums: 2 crossing a ten, 1 landing on a ten, 1 not crossing.",
        "1 sum past a hundred.",
    ]


def test_a_starter_grid_goes_by_its_name_unless_a_file_has_it(home: Path, capture: pytest.CaptureFixture[str]) -> None:
    assert asked(capture, "grid", "show", "full-boxes").shown[0] == "Filling the egg boxes"
    (home / "full-boxes").write_text('title = "Rows of oars"\nadd = [5]\nstart = [47]\n')
    assert asked(capture, "grid", "show", "full-boxes").shown[0] == "Rows of oars"
    neither = asked(capture, "grid", "show", "full-box")
    assert neither.code == 2
    assert neither.told == ["There is no grid file full-box: name one that is there, or a starter grid, such as ferry."]


def test_an_engine_that_is_not_there_is_missing_and_not_a_mistake(capture: pytest.CaptureFixture[str]) -> None:
    done = asked(capture, "hear", "any.wav", "--engine", "ears")
    assert (done.code, done.shown) == (3, [])
    assert done.told == ['There is no listening engine "ears" in this version; there are neural and vosk.']
