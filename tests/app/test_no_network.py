"""README's promise "No network at any time", and that nothing is written where nobody looks for it.

Source of what counts as the network: address families AF_INET and AF_INET6 (POSIX.1-2017, <sys/socket.h>).
"""

import sys
import tomllib
from collections.abc import Mapping
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from saythesum.app.rehearsal.recorded_phrases import recording_name
from saythesum.settings.shipped_files import audio_folder
from tests.app.command import COMMAND, TOP, Person
from tests.app.traced import read_trace, strace_to, trace_of
from tests.log_lines import of_kind
from tests.tools.rig.server import Rig
from tests.tools.rig.spoken import Pupil, program_on

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="strace is Linux's")

ONE_SUM = "add = [5]\nstart = [47]\n"
RECORDING = str(audio_folder() / "pupil" / recording_name("fifty-two"))


@pytest.fixture
def person(tmp_path: Path) -> Person:
    for name in ("home", "user", "tmp", "session"):
        (tmp_path / name).mkdir(mode=0o700)
    somebody = Person(tmp_path / "home")
    somebody.writes("oars.toml", ONE_SUM)
    return somebody


def watched(person: Person, **more: str) -> Mapping[str, str]:
    """A user's folder and a temporary folder of their own, and an environment that asks for telemetry.

    With the folder of the session that a desktop gives, in which PulseAudio's library makes one of its own.
    """
    kept = {name: value for name, value in person.environment().items() if not name.startswith("XDG_")}
    named = {"HOME": "user", "TMPDIR": "tmp", "XDG_RUNTIME_DIR": "session"}
    ours = {variable: str(person.home.parent / name) for variable, name in named.items()}
    return {**kept, **ours, "ORT_DISABLE_TELEMETRY": "0", "PYTHONDONTWRITEBYTECODE": "1", **more}


def of_the_session(person: Person) -> tuple[Path, Path]:
    return person.home.parent / "tmp", person.home.parent / "session/pulse"


@pytest.mark.parametrize(
    ("words", "given"),
    [
        (("practise", "--by", "text", "--grid", "oars.toml", "--log", "log.jsonl"), b"52\n"),
        (("practise", "--by", "keys", "--grid", "oars.toml", "--log", "log.jsonl"), b"52\r"),
        (("rehearse", "--grid", "oars.toml", "--into", "rehearsal"), b""),
        (("hear", RECORDING), b""),
        (("check",), b""),
        (("grid", "show"), b""),
        (("models", "list"), b""),
    ],
    ids=lambda value: "-".join(value[:3]) if isinstance(value, tuple) and value[0] == "practise" else None,
)
def test_a_verb_asks_no_address_and_writes_at_home_only(words: tuple[str, ...], given: bytes, person: Person) -> None:
    """With -s it prints which files each verb writes."""
    trace, done = trace_of([*COMMAND, *words], person.home, watched(person), given)
    assert done.returncode == 0, done.stderr
    written = sorted(path for path in trace.written if path.is_relative_to(person.home.parent))
    print(f"{' '.join(words)} wrote {[str(path.relative_to(person.home.parent)) for path in written]}")
    assert trace.internet == []
    assert trace.written_outside(person.home, *of_the_session(person)) == []
    assert list((person.home.parent / "tmp").iterdir()) == [], "left behind"


def test_the_trace_sees_what_it_looks_for(person: Person) -> None:
    """Otherwise it would find nothing in anything."""
    asks = "import socket; s = socket.socket(socket.AF_INET, socket.SOCK_DGRAM); s.connect_ex(('127.0.0.1', 9))"
    writes = "open('../user/oars', 'w').close()"
    trace, _ = trace_of([sys.executable, "-c", f"{asks}; {writes}"], person.home, watched(person))
    assert any("connect" in call for call in trace.internet)
    assert trace.written_outside(person.home) == [str(person.home.parent / "user/oars")]


def dependencies() -> list[str]:
    """The modules of every library in pyproject.toml, as they are imported."""
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = {name.split(";")[0].split(">")[0].split("=")[0].strip().lower() for name in project["dependencies"]}
    return sorted(
        module
        for module, packages in packages_distributions().items()
        if asked & {package.lower() for package in packages} and module.isidentifier() and not module.startswith("_")
    )


def test_there_are_dependencies_to_look_at() -> None:
    assert {"numpy", "onnxruntime", "vosk", "sounddevice", "pyttsx3"} <= set(dependencies())


@pytest.mark.parametrize("module", dependencies())
def test_a_library_asks_no_address_while_it_is_imported(module: str, person: Person) -> None:
    command = [sys.executable, "-c", f"import saythesum, {module}"]
    trace, done = trace_of(command, person.home, watched(person, SDL_VIDEODRIVER="dummy"))
    assert done.returncode == 0, done.stderr
    assert trace.internet == []
    assert trace.written_outside(*of_the_session(person)) == []


@pytest.mark.rig
def test_a_spoken_practice_asks_no_address(rig: Rig, person: Person) -> None:
    traced, tmp = person.home.parent / "spoken.strace", person.home.parent / "tmp"
    words = ("practise", "--by", "voice", "--ear", "open", "--grid", "oars.toml")
    more = {"TMPDIR": str(tmp), "ORT_DISABLE_TELEMETRY": "0", "PYTHONDONTWRITEBYTECODE": "1"}
    with program_on(rig, person.home, *words, under=strace_to(traced), more=more) as program:
        Pupil(program, {}, lambda ask: "fifty-two").practise(within_s=120)
        assert program.process.returncode == 0, program.shown
    assert [answer["given"] for answer in of_kind(program.lines, "answer")] == [52]
    trace = read_trace(traced, person.home)
    assert trace.internet == []
    of_the_server = [Path(rig.environment["HOME"]) / place for place in ("pulse", ".config/pulse")]
    assert trace.written_outside(person.home, tmp, *of_the_server) == []
