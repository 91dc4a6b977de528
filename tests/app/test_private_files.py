"""What is kept is its owner's: nobody else who uses this computer can read it, whichever verb makes it first.

Source of the rights of folders on the way there: the XDG Base Directory Specification (0700 for a folder that is made).
"""

import os
import pwd
import stat
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from saythesum.app.rehearsal.recorded_phrases import recording_name
from saythesum.settings.shipped_files import audio_folder
from tests.app.command import Person

pytestmark = pytest.mark.skipif(os.name != "posix", reason="rights of owner, group and others, as POSIX has them")

VERBS = {
    "text": "practise --by text --pupil rk-7 --grid ../public/oars.toml --log ../public/log.jsonl",
    "keys": "practise --by keys --pupil rk-7 --grid ../public/oars.toml --log ../public/log.jsonl",
    "rehearse": "rehearse --grid ../public/oars.toml --into ../public/rehearsal",
    "hear": f"hear {audio_folder() / 'pupil' / recording_name('five')} --pupil rk-7",
    "check": "check --pupil rk-7",
    "models": "models add ../public/model",
}


@pytest.fixture
def shared() -> Iterator[Path]:
    """A place that everybody may enter, as /home and /media are; pytest's own folders are closed."""
    with tempfile.TemporaryDirectory(prefix="shared-") as folder:
        place = Path(folder)
        place.chmod(0o755)
        (place / "public").mkdir(mode=0o755)
        (place / "public/oars.toml").write_text("add = [5]\nstart = [47]\n")
        (place / "public/model").mkdir()
        yield place


def seen_by_nobody(shared: Path) -> list[str]:
    """The files that the user `nobody` can open. Without the right to become that user: those that the rights give."""
    nobody = pwd.getpwnam("nobody")
    find = ["find", str(shared), "-type", "f", "-readable"]
    try:
        done = subprocess.run(
            find, capture_output=True, text=True, check=False, user=nobody.pw_uid, group=nobody.pw_gid, extra_groups=[]
        )
    except OSError:
        return [str(path) for path in shared.rglob("*") if path.is_file() and _may_be_read(path, shared)]
    return done.stdout.splitlines()


def _may_be_read(path: Path, shared: Path) -> bool:
    way = [folder for folder in path.parents if folder.is_relative_to(shared)]
    return bool(path.stat().st_mode & stat.S_IROTH) and all(folder.stat().st_mode & stat.S_IXOTH for folder in way)


@pytest.mark.parametrize("home", ["home", "user/.local"])
@pytest.mark.parametrize("first", VERBS)
def test_nobody_else_reads_what_a_verb_made(first: str, home: str, shared: Path) -> None:
    """Each verb is the first to make folders once, and a practice follows; with and without SAYTHESUM_HOME."""
    (shared / "user").mkdir(mode=0o755)
    person = Person(shared / "home")
    more = {"HOME": str(shared / "user"), "SAYTHESUM_HOME": str(person.home) if home == "home" else ""}
    more |= {f"XDG_{kind}_HOME": "" for kind in ("CACHE", "CONFIG", "DATA")}
    given = {"text": "52\n", "keys": "52\r"}
    for verb in (first, "text"):
        run_at(shared / "public", person, VERBS[verb], given.get(verb, ""), more)
        assert seen_by_nobody(shared) == [str(shared / "public/oars.toml")], f"after {verb}, with {first} first"
    kept = shared / ("home" if home == "home" else "user/.local/share/saythesum")
    assert (kept / "records.sqlite").exists() and stat.S_IMODE(kept.stat().st_mode) == 0o700


def run_at(place: Path, person: Person, words: str, given: str, more: dict[str, str]) -> None:
    """By somebody whose files others can read unless a program sees to it. A model is refused here, after its folder
    was made.
    """
    environment = {**person.environment(more)}
    command = [sys.executable, "-m", "saythesum", *words.split()]
    done = subprocess.run(
        command, input=given.encode(), capture_output=True, check=False, cwd=place, env=environment, umask=0o022
    )
    assert done.returncode == (2 if "models" in words else 0), done.stderr.decode()


def test_a_folder_that_others_may_look_into_is_told_and_left(shared: Path) -> None:
    home = shared / "our oars"
    home.mkdir(mode=0o755)
    (home / "settings.toml").write_text("[window]\n")
    person = Person(home)
    told = (
        f"Other people who use this computer can look into {home}, where the records or settings are: "
        f"`chmod 700 '{home}'` ends that, or set SAYTHESUM_HOME to a folder of your own."
    )
    done = person.runs("practise", "--by", "text", given="41\n")
    assert done.told == [told]
    assert f"Other people: {told}" in person.runs("check").shown
    assert stat.S_IMODE(home.stat().st_mode) == 0o755
    assert stat.S_IMODE((home / "records.sqlite").stat().st_mode) == 0o600
    subprocess.run(["chmod", "700", str(home)], check=True)
    assert person.runs("practise", "--by", "text", given="43\n").told == []
    assert "Other people: cannot look into what is kept here." in person.runs("check").shown


def test_a_folder_inside_a_closed_one_is_nobody_elses(shared: Path) -> None:
    (shared / "closed").mkdir(mode=0o700)
    home = shared / "closed" / "home"
    home.mkdir(mode=0o755)
    assert Person(home).runs("practise", "--by", "text", given="41\n").told == []


def test_settings_keep_the_rights_that_a_person_gave_them(shared: Path) -> None:
    from saythesum.app.setup.settings_file import change_settings

    file = shared / "settings.toml"
    file.write_text("# of the whole class\n")
    file.chmod(0o644)
    change_settings(file, {"window": {"colours": "yellow on black"}})
    assert stat.S_IMODE(file.stat().st_mode) == 0o644
    assert "of the whole class" in file.read_text()
