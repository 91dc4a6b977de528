"""The two documents say what there is: rooms, verbs, options, and the line that runs the tests."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
PACKAGE = TOP / "saythesum"
MOST_LINES = 400
MOST_MODULES = 15
TABLES = {"core/exercises/bridge_remarks.py", "dialogue/messages.py"}
"""Long because they list, not because they do."""


@pytest.mark.parametrize("room", sorted(path.name for path in PACKAGE.iterdir() if (path / "__init__.py").is_file()))
def test_every_room_is_on_the_map(room: str) -> None:
    assert f"| `{room}` |" in DEVELOPERS


def test_every_file_of_tests_that_is_named_is_there() -> None:
    """The table of standards says which test shows what."""
    named = set(re.findall(r"`(tests/[\w/.-]+\.\w+)`", DEVELOPERS))
    assert len(named) > 20
    assert [path for path in sorted(named) if not (TOP / path).is_file()] == []


def test_every_verb_and_option_is_in_the_readme() -> None:
    verbs = ("practise", "rehearse", "hear", "check", "models", "grid")
    shown = subprocess.run([sys.executable, "-m", "saythesum", "--help"], capture_output=True, text=True, check=True)
    for verb in verbs:
        assert verb in shown.stdout
        assert verb in README
    practise = [sys.executable, "-m", "saythesum", "practise", "--help"]
    options = subprocess.run(practise, capture_output=True, text=True, check=True).stdout
    for option in (
        "--pupil",
        "--grid",
        "--by",
        "--ear",
        "--seed",
        "--log",
        "--probe",
        "--find-out",
        "--found",
        "--why",
    ):
        assert option in options
        assert option in README


def test_one_line_of_the_readme_runs_the_tests() -> None:
    lines = [line for line in README.splitlines() if "python -m tests.check" in line]
    assert len(lines) == 1
    assert "'.[test]'" in lines[0]


def test_every_path_of_a_module_in_the_guide_is_there() -> None:
    paths = set(re.findall(r"`((?:[a-z_]+/)+[a-z_]+\.(?:py|toml))`", DEVELOPERS))
    assert len(paths) > 40
    gone = {path for path in paths if not any((top / path).is_file() for top in (PACKAGE, TOP))}
    assert gone == set()


def test_twenty_questions_of_where_are_answered() -> None:
    answers = DEVELOPERS.split("## Where is …?")[1].split("\n## ")[0]
    rows = [line for line in answers.splitlines() if line.startswith("| ")][2:]
    assert len(rows) >= 20
    assert all(re.search(r"`[a-z_/]+\.py`", row) for row in rows)


def test_no_folder_has_too_many_modules() -> None:
    """So that a newcomer finds the right one in the listing."""
    folders = (path for path in (PACKAGE, *PACKAGE.rglob("*")) if path.is_dir())
    many = {str(folder.relative_to(PACKAGE)): len(list(folder.glob("[!_]*.py"))) for folder in folders}
    assert {name: modules for name, modules in many.items() if modules > MOST_MODULES} == {}


def test_modules_stay_readable() -> None:
    long = {
        str(path.relative_to(PACKAGE)): lines
        for path in PACKAGE.rglob("*.py")
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > MOST_LINES
    }
    assert set(long) <= TABLES, f"more than {MOST_LINES} lines: {long}"


def test_the_top_level_is_as_agreed() -> None:
    tracked = subprocess.run(["git", "ls-files"], cwd=TOP, capture_output=True, text=True, check=True).stdout.split(
        "\n"
    )
    tops = {line.split("/")[0] for line in tracked if line and not line.startswith(".")}
    assert tops == {"README.md", "DEVELOPERS.md", "pyproject.toml", "saythesum", "models", "audio", "tests"}
