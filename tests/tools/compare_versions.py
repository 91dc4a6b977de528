"""Whether pupils hear the same words from two versions of the program: prints every difference in what they get.

`python -m tests.tools.compare_versions OLD NEW [--pupils 200] [--sound 20]`: OLD and NEW are checkouts. The same
made-up pupils practise with both, in plain text, some killed in the middle and gone on with. Each practice that the
old version began and did not finish is also gone on with by the new one, on records of its own. With `--sound`, so
many rehearsals as well, in which answers are spoken and heard.

What is compared is the log and all that is printed, with ids and times replaced by their order; fields of a kind of
line that the old version does not write are left out and named. Of what was spoken, how certain it was and how it was
written are left out, too: the voice's sound is not the same from one run to the next, with one version either. The
exit code is 1 where anything differs.
"""

import argparse
import difflib
import json
import os
import re
import runpy
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable, Iterator
from contextlib import redirect_stdout, suppress
from pathlib import Path
from random import Random
from typing import Any

from text_to_num import text2num

MOST_LINES = 45
"""Lines that a pupil types before the input ends."""
SESSIONS = 3
GRIDS = (
    ((38, 57), (3, 5, 8)),
    ((29, 64, 87), (4, 6, 7)),
    ((94, 196), (7, 8)),
    ((8, 9), (2, 5, 8)),
    ((42, 71), (3, 6, 9)),
    ((36,), (4, 9)),
)
ORDERS = ("rows", "columns", "shuffled", "chosen")
LENGTHS = ("brief", "short", "full")
COMMANDS = (
    *("I don't know", "help me", "say that again", "skip this one", "go back", "where am I", "read this row"),
    *(
        "read this column",
        "how many more",
        "not what I said",
        "that's what I said first",
        "left",
        "right",
        "up",
        "down",
    ),
    *("please wait", "go on", "hush", "slower please", "", "", "adult", "adult", "oranges", "forty, no, fifty", "no"),
)
RIGHT_ANSWERS = (0.3, 0.6, 0.8, 0.95)
OF_THE_SOUND = {"heard": ("certainty", "close_to", "text"), "answer": ("certainty", "close_to", "took_ms")}
SPOKEN_KINDS = ("right", "learning", "misheard", "counts", "does-not-know", "two-mistakes", "stopped-at-the-ten")


class KilledError(BaseException):
    """The program is gone in the middle of a practice: only what is on disk is left."""


# ---- one pupil, inside one version -------------------------------------------------------------------


class Pupil:
    """Stands for the keyboard: reads in the log what is asked, and types a line."""

    def __init__(self, seed: str, log: Path, *, is_ended: bool) -> None:
        self._dice = Random(seed)
        self._right = self._dice.choice(RIGHT_ANSWERS)
        self._log = log
        self._left = MOST_LINES if is_ended else self._dice.randrange(3, 25)
        self._is_killed = not is_ended and self._dice.random() < 0.7

    def readline(self, most: int = -1) -> str:
        _Time.seconds += 2
        if self._left == 0:
            if self._is_killed:
                raise KilledError
            return ""
        self._left -= 1
        return self._line() + "\n"

    def _line(self) -> str:
        if self._dice.random() < 0.18:
            return self._dice.choice(COMMANDS)
        lines = [json.loads(line) for line in self._log.read_text(encoding="utf-8").splitlines()]
        part = next((line["part"] for line in reversed(lines) if line["kind"] == "ask"), "whole")
        answers = _answers(*_sum_in(line["text"] for line in lines if line["kind"] == "say"))
        if self._dice.random() < self._right:
            return str(answers[part])
        return str(max(0, self._dice.choice(self._wrong(answers))))

    def _wrong(self, answers: dict[str, int]) -> list[int]:
        whole = answers["whole"]
        slips = [whole - 10, whole + 10, whole - 1, whole + 1, int(str(whole)[::-1]), self._dice.randrange(100)]
        return [*answers.values(), *slips, self._dice.randrange(12)]


def _answers(start: int, amount: int) -> dict[str, int]:
    ten = (start // 10 + 1) * 10
    return {
        **dict.fromkeys(("whole", "total"), start + amount),
        **{"next-ten": ten, "gap": ten - start, "rest": abs(start + amount - ten), "ones": start % 10 + amount},
        **{"amount": amount, "start": start, "down": start - amount, "twice": start + 2 * amount},
    }


def _sum_in(texts: Iterable[str]) -> tuple[int, int]:
    """The last sum that was said whole, or the last amount with the start before it."""
    start, amount = 38, 5
    for text in texts:
        for words in re.findall(r"((?:[a-z]+[ -])*)add ([a-z]+)", text.lower()):
            start, amount = _number(words[0]) or start, _number(words[1]) or amount
    return start, amount


def _number(words: str) -> int:
    """0 where the words before "add" end in no number ("Listen and add five")."""
    said = words.replace("-", " ").replace("a hundred", "one hundred").split()
    for first in range(len(said)):
        with suppress(ValueError):
            return int(text2num(" ".join(said[first:]), "en"))
    return 0


class _Time:
    """Moves by two seconds a line, so that nothing depends on how busy the machine is."""

    seconds = 0.0


def practised(home: Path, number: int, session: int) -> None:
    """One session of one pupil, in the version that this process imports."""
    log = home / f"log-{session}.jsonl"
    log.touch()
    words = _words(home, number, session)
    sys.argv = ["saythesum", "practise", "--by", "text", "--log", str(log), *words]
    sys.stdin = Pupil(f"{number} {session}", log, is_ended=session == SESSIONS - 1)
    with (home / f"printed-{session}.txt").open("w", encoding="utf-8") as printed, redirect_stdout(printed):
        try:
            runpy.run_module("saythesum", run_name="__main__")
        except KilledError:
            print("killed")
        except SystemExit as ended:
            if ended.code:
                raise


def _words(home: Path, number: int, session: int) -> list[str]:
    """What was unfinished goes on where nothing is named; so only the first session names a practice."""
    dice = Random(number)
    length, order, (starts, amounts) = dice.choice(LENGTHS), dice.choice(ORDERS), dice.choice(GRIDS)
    kind = dice.random()
    (home / "settings.toml").write_text(f'[wording]\nlength = "{length}"\n', encoding="utf-8")
    grid = home / "grid.toml"
    grid.write_text(
        f'title = "Rows of oars"\nstart = {list(starts)}\nadd = {list(amounts)}\norder = "{order}"\n', encoding="utf-8"
    )
    if kind < 0.15:
        return ["--probe"]
    if kind < 0.3:
        return ["--find-out", "--seed", str(number)]
    return ["--seed", str(number), *(["--grid", str(grid)] if session == 0 else [])]


def practised_all(folder: Path, sessions: list[int], numbers: Iterable[int]) -> None:
    time.monotonic = lambda: _Time.seconds  # noqa: TID251
    for number in numbers:
        home = folder / str(number)
        home.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.environ["SAYTHESUM_HOME"] = str(home)
        for session in sessions:
            practised(home, number, session)


# ---- both versions -----------------------------------------------------------------------------------


def _in_version(checkout: Path, *words: str) -> None:
    """A process of its own that imports nothing but this checkout's program."""
    environment = {**os.environ, "PYTHONPATH": str(checkout), "PYTHONDONTWRITEBYTECODE": "1"}
    command = [sys.executable, str(Path(__file__).resolve()), *words]
    subprocess.run(command, check=True, env=environment, cwd=checkout)


def _play(checkout: Path, folder: Path, sessions: str, pupils: int) -> None:
    _in_version(checkout, "--play", str(folder), sessions, str(pupils))


def _rehearse(checkout: Path, folder: Path, number: int) -> None:
    kind = SPOKEN_KINDS[number % len(SPOKEN_KINDS)]
    environment = {**os.environ, "PYTHONPATH": str(checkout), "SAYTHESUM_HOME": str(folder / "home")}
    words = ["rehearse", "--into", str(folder), "--pupil-kind", kind, "--seed", str(number)]
    command = [sys.executable, "-m", "saythesum", *words]
    subprocess.run(command, check=True, env=environment, cwd=checkout, stdout=subprocess.DEVNULL)


def _plain(log: Path) -> list[dict[str, Any]]:
    """The lines with ids replaced by their order and times left out."""
    ids: dict[str, str] = {}
    lines: list[dict[str, Any]] = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]

    def replaced(value: Any) -> Any:
        if isinstance(value, list):
            return [replaced(one) for one in value]
        if isinstance(value, str) and re.fullmatch(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", value):
            return ids.setdefault(value, f"id {len(ids)}")
        return value

    return [{name: replaced(value) for name, value in line.items() if name not in ("at", "at_ms")} for line in lines]


def _without_sound(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Without what depends on the very sound that was heard."""
    return [{name: line[name] for name in line if name not in OF_THE_SOUND.get(line["kind"], ())} for line in lines]


class Comparison:
    """What was compared so far, and where it differs."""

    def __init__(self) -> None:
        self.logs = 0
        self.lines = 0
        self.different = 0
        self.new_fields: dict[str, set[str]] = {}

    def compare(self, name: str, old: Path, new: Path, *, is_sound: bool = False) -> None:
        """Two logs, and what was printed beside them."""
        self.logs += 1
        before, after = _plain(old), _plain(new)
        if is_sound:
            before, after = _without_sound(before), _without_sound(after)
        known: dict[str, set[str]] = {}
        for line in before:
            known.setdefault(line["kind"], set()).update(line)
        self.lines += len(before)
        old_lines = [json.dumps(line, sort_keys=True) for line in before]
        new_lines = [json.dumps(self._known(line, known), sort_keys=True) for line in after]
        self._show(name, old_lines, new_lines)
        for printed in ("printed-", "transcript"):
            if old.name.startswith("log-") == (printed == "printed-"):
                beside = old.name.replace("log-", printed).replace(".jsonl", ".txt").replace("rehearsal", printed)
                texts = [(path.parent / beside).read_text(encoding="utf-8").splitlines() for path in (old, new)]
                self._show(f"{name}, {beside}", *texts)

    def _known(self, line: dict[str, Any], known: dict[str, set[str]]) -> dict[str, Any]:
        names = known.get(line["kind"], set(line))
        self.new_fields.setdefault(line["kind"], set()).update(set(line) - names)
        return {name: value for name, value in line.items() if name in names}

    def _show(self, name: str, old: list[str], new: list[str]) -> None:
        if old == new:
            return
        self.different += 1
        print(f"--- {name}")
        print("\n".join(difflib.unified_diff(old, new, "old", "new", n=1, lineterm="")))

    def report(self) -> None:
        print(f"{self.logs} logs, {self.lines} lines of the old version's, {self.different} texts differ.")
        for kind, names in sorted(self.new_fields.items()):
            if names:
                print(f"New fields of {kind}: {', '.join(sorted(names))}")


def _in_text(comparison: Comparison, folder: Path, old: Path, new: Path, pupils: int) -> None:
    """Three arms: the old version all the way, the new one, and the new one on records that the old one began."""
    everything = ",".join(map(str, range(SESSIONS)))
    _play(old, folder / "old", "0", pupils)
    shutil.copytree(folder / "old", folder / "gone-on")
    _play(old, folder / "old", everything.removeprefix("0,"), pupils)
    _play(new, folder / "new", everything, pupils)
    _play(new, folder / "gone-on", everything.removeprefix("0,"), pupils)
    for number in range(pupils):
        for session in range(SESSIONS):
            log = Path(str(number)) / f"log-{session}.jsonl"
            comparison.compare(f"pupil {number}, session {session}", folder / "old" / log, folder / "new" / log)
            if session:
                name = f"pupil {number}, session {session}, begun by the old version"
                comparison.compare(name, folder / "old" / log, folder / "gone-on" / log)


def _by_sound(comparison: Comparison, folder: Path, old: Path, new: Path, rehearsals: int) -> None:
    for number in range(rehearsals):
        folders = [folder / f"{version}-{number}" for version in ("old", "new")]
        for checkout, into in zip((old, new), folders, strict=True):
            _rehearse(checkout, into, number)
        logs = [into / "rehearsal.jsonl" for into in folders]
        comparison.compare(f"rehearsal {number}", *logs, is_sound=True)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("old", type=Path)
    parser.add_argument("new", type=Path)
    parser.add_argument("--pupils", type=int, default=200)
    parser.add_argument("--sound", type=int, default=0)
    parser.add_argument("--keep", type=Path, help="a folder in which all logs stay")
    options = parser.parse_args()
    comparison = Comparison()
    with tempfile.TemporaryDirectory() as made:
        folder = options.keep or Path(made)
        versions = options.old.resolve(), options.new.resolve()
        _in_text(comparison, folder / "text", *versions, options.pupils)
        _by_sound(comparison, folder / "sound", *versions, options.sound)
    comparison.report()
    return 1 if comparison.different else 0


def _played(words: list[str]) -> Iterator[None]:
    folder, sessions, pupils = words
    practised_all(Path(folder), [int(session) for session in sessions.split(",")], range(int(pupils)))
    return iter(())


if __name__ == "__main__":
    if sys.argv[1:2] == ["--play"]:
        _played(sys.argv[2:])
    else:
        sys.exit(main())
