"""The log, line by line, against the fields it has promised."""

import json
import os
import re
import subprocess
import sys
import threading
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from itertools import count
from pathlib import Path
from typing import Any, get_args
from uuid import UUID

import pytest
from hypothesis import given

from saythesum.app.session.log import Log, LogFile, heard_fields, name_of
from saythesum.app.setup.clock import RealClock
from saythesum.core.exercises.bridge_remarks import AskRest
from saythesum.core.meanings import Awaiting, Choice, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.core.records.codec import row_as_dict, row_from_dict
from saythesum.core.records.rows import Ask, By, HeardId, Row, RowId, Support
from saythesum.core.records.times import utc_text
from saythesum.core.sums import Part
from saythesum.dialogue.messages import Message, NotYet
from saythesum.dialogue.turns.effects import Ear, Listen, Purpose, Say, Settle
from saythesum.dialogue.turns.events import ListenId, UtteranceEnded, UtteranceId
from saythesum.errors import CallerError
from saythesum.learner.findings import Finding
from saythesum.ports import Clock
from tests.core import made_rows
from tests.fakes.clock import FakeClock

PRACTICE = UUID("0f3a9d52-6b1e-4c77-9c0b-51a6e4d8f201")
ALWAYS = {"v", "id", "practice", "at", "at_ms", "kind"}


class Written:
    """A log whose lines can be looked at, with ids that count up."""

    def __init__(self) -> None:
        ids = count(1)
        self._lines: list[str] = []
        self.clock = FakeClock()
        self.log = Log(self._lines.append, PRACTICE, clock=self.clock, new_id=lambda: UUID(int=next(ids)))

    @property
    def lines(self) -> list[dict[str, Any]]:
        assert all(line.endswith("\n") and line.count("\n") == 1 for line in self._lines)
        return [json.loads(line) for line in self._lines]


def test_say_and_said_find_each_other() -> None:
    written = Written()
    written.log.say(Say(UtteranceId(4), AskRest(8)), "How many of the eight are left?")
    written.clock.pass_ms(900)
    written.log.say(Say(UtteranceId(5), NotYet()), "Not yet.")
    written.log.said(UtteranceEnded(UtteranceId(4), 900, cut_ms=610))
    written.log.said(UtteranceEnded(UtteranceId(5), 950))
    always = {"v": 1, "practice": str(PRACTICE)}
    assert written.lines == [
        {
            **always,
            "id": str(UUID(int=1)),
            "at": "2031-05-12T09:30:00.000Z",
            "at_ms": 0,
            "kind": "say",
            "text": "How many of the eight are left?",
            "about": "ask-rest",
        },
        {
            **always,
            "id": str(UUID(int=2)),
            "at": "2031-05-12T09:30:00.900Z",
            "at_ms": 900,
            "kind": "say",
            "text": "Not yet.",
            "about": "not-yet",
        },
        {
            **always,
            "id": str(UUID(int=3)),
            "at": "2031-05-12T09:30:00.900Z",
            "at_ms": 900,
            "kind": "said",
            "of": str(UUID(int=1)),
            "cut": 610,
        },
        {
            **always,
            "id": str(UUID(int=4)),
            "at": "2031-05-12T09:30:00.900Z",
            "at_ms": 900,
            "kind": "said",
            "of": str(UUID(int=2)),
            "cut": None,
        },
    ]


def test_said_of_nothing_that_was_logged_is_no_line() -> None:
    written = Written()
    written.log.said(UtteranceEnded(UtteranceId(9), 0))
    written.log.say(Say(UtteranceId(1), NotYet()), "Not yet.")
    written.log.said(UtteranceEnded(UtteranceId(1), 0))
    written.log.said(UtteranceEnded(UtteranceId(1), 0))
    assert [line["kind"] for line in written.lines] == ["say", "said"]


@pytest.mark.parametrize("awaiting", Awaiting)
@pytest.mark.parametrize("ear", Ear)
def test_listen(awaiting: Awaiting, ear: Ear) -> None:
    written = Written()
    written.log.listen(Listen(ListenId(1), awaiting, ear, Purpose.ANSWER))
    (line,) = written.lines
    assert set(line) == ALWAYS | {"for", "ear"}
    assert (line["kind"], line["for"], line["ear"]) == ("listen", awaiting.value, ear.value)


@pytest.mark.parametrize(
    ("heard", "by", "told"),
    [
        (Number(67, 0.93, close_to=(57,)), By.VOICE, (67, None, None, 0.93, "taken", [57])),
        (Number(67, 0.41, sure=False), By.VOICE, (67, None, None, 0.41, "unsure", [])),
        (Number(67), By.KEYS, (67, None, None, None, "taken", [])),
        (Choice(True, 0.8), By.VOICE, (None, "yes", None, 0.8, "taken", [])),
        (Choice(False), By.TEXT, (None, "no", None, None, "taken", [])),
        (Given(Command.READ_ROW), By.TEXT, (None, None, "read-row", None, "taken", [])),
        (Given(Command.STOP, 0.5, sure=False), By.VOICE, (None, None, "stop", 0.5, "unsure", [])),
        (Unclear(WhyUnclear.TWO_NUMBERS), By.VOICE, (None, None, None, None, "refused", [])),
    ],
)
def test_heard(heard: Meaning, by: By, told: tuple[object, ...]) -> None:
    written = Written()
    id = HeardId("7c1f3f7e-0f2e-4f0b-8a39-0a6dbb0a8e11")
    written.log.heard(Settle(id, heard, "sixty-seven … ‽", by))
    (line,) = written.lines
    fields = ("number", "choice", "command", "certainty", "verdict", "close_to")
    assert set(line) == ALWAYS | {"text", "by", *fields}
    assert tuple(line[name] for name in fields) == told
    assert (line["id"], line["kind"], line["text"], line["by"]) == (id, "heard", "sixty-seven … ‽", by.value)
    assert heard_fields(heard, line["text"], by) == {name: line[name] for name in ("text", "by", *fields)}


@given(made_rows.rows)
def test_a_row_stands_in_the_log_as_it_was_kept(row: Row) -> None:
    written = Written()
    written.log.kept(row, at="2031-05-12T09:31:07.007Z", at_ms=67_007)
    (line,) = written.lines
    assert row_from_dict(line) == row
    assert line["id"] == row.id
    assert (line["at"], line["at_ms"]) == ("2031-05-12T09:31:07.007Z", 67_007)
    assert set(line) == ALWAYS | set(row_as_dict(row)) | ({"why"} if isinstance(row, Ask) else set())


def test_a_question_says_why_it_was_chosen() -> None:
    written = Written()
    ask = Ask(RowId("7c1f3f7e-0f2e-4f0b-8a39-0a6dbb0a8e11"), 0, 1, Part.WHOLE, Support.INDEPENDENT, None)
    for why in (None, "Thirty-eight add five: the last one left."):
        written.log.kept(ask, at="2031-05-12T09:31:07.007Z", at_ms=67_007, why=why)
        assert written.lines[-1]["why"] == why


def test_a_finding_names_its_answers() -> None:
    written = Written()
    finding = Finding("one-short", 0.98765, (RowId("a"), RowId("b")), (RowId("c"),))
    written.log.finding(finding, "Could be one-short.")
    (line,) = written.lines
    told = {"mistake": "one-short", "share": 0.988, "for": ["a", "b"], "against": ["c"], "text": "Could be one-short."}
    assert {name: line[name] for name in told} == told
    assert set(line) == ALWAYS | set(told)


def test_every_message_has_a_name_of_its_own() -> None:
    kinds = get_args(Message)
    names = [name_of(kind) for kind in kinds]
    assert len(set(names)) == len(kinds) > 20
    assert all(re.fullmatch("[a-z]+(-[a-z]+)*", name) for name in names)


@pytest.fixture
def file(tmp_path: Path) -> Iterator[LogFile]:
    opened = LogFile(tmp_path / "practice.jsonl")
    yield opened
    opened.close()


def test_each_line_can_be_followed_at_once(file: LogFile, tmp_path: Path) -> None:
    for number in range(3):
        file.write(f'{{"roll": {number}}}\n')
        assert (tmp_path / "practice.jsonl").read_text().splitlines()[-1] == f'{{"roll": {number}}}'


def test_an_older_log_is_added_to_also_after_half_a_line(tmp_path: Path) -> None:
    path = tmp_path / "practice.jsonl"
    path.write_bytes(b'{"roll": 1}\n{"rol')
    file = LogFile(path)
    file.write('{"roll": 2}\n')
    file.close()
    assert path.read_text().splitlines() == ['{"roll": 1}', '{"rol', '{"roll": 2}']
    again = LogFile(path)
    again.write('{"roll": 3}\n')
    again.close()
    assert path.read_text().splitlines()[-2:] == ['{"roll": 2}', '{"roll": 3}']


def test_bytes_that_were_no_utf_8_stay_readable_json(file: LogFile, tmp_path: Path) -> None:
    typed = b"sixty \xff seven \xe2\x80\xa6".decode("utf-8", "surrogateescape")
    Log(file.write, PRACTICE, clock=FakeClock()).heard(Settle(HeardId("h"), Unclear(WhyUnclear.OTHER), typed, By.TEXT))
    line = (tmp_path / "practice.jsonl").read_bytes().decode("utf-8")
    assert json.loads(line)["text"] == typed
    assert "…" in line


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="named pipes as POSIX has them")
def test_a_pipe_can_be_followed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is waited for; that this is so is told."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    read: list[str] = []
    reader = threading.Thread(target=lambda: read.append(pipe.read_text()))
    reader.start()
    file = LogFile(pipe)
    file.write('{"roll": 1}\n')
    file.close()
    reader.join()
    assert read == ['{"roll": 1}\n']
    assert capsys.readouterr().err == f"{pipe} is a pipe: the practice begins as soon as somebody reads it.\n"


@pytest.mark.parametrize("name", [".", "nowhere/practice.jsonl"])
def test_a_log_that_cannot_be_written_is_told_before_anything_starts(name: str, tmp_path: Path) -> None:
    with pytest.raises(CallerError, match=r"The log cannot be written to .*: name a file in a folder that is"):
        LogFile(tmp_path / name)


FILLS_UP = """
import resource, sys
from pathlib import Path
from saythesum.app.session.log import LogFile
resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))
file = LogFile(Path(sys.argv[1]))
for number in range(30):
    file.write(f'{{"roll": {number}}}\\n')
file.close()
print(file.trouble)
"""


@pytest.mark.skipif(os.name != "posix", reason="a limit for files as POSIX has it")
def test_a_log_that_fills_the_disk_ends_early_and_says_so(tmp_path: Path) -> None:
    path = tmp_path / "practice.jsonl"
    child = subprocess.run([sys.executable, "-c", FILLS_UP, str(path)], capture_output=True, text=True, check=True)
    assert child.stdout == f"The log in {path} ends early (File too large); the records themselves are safe.\n"
    assert path.read_text().startswith('{"roll": 0}\n{"roll": 1}\n')
    assert path.stat().st_size == 100


def test_times_are_utc_with_milliseconds() -> None:
    summer = timezone(timedelta(hours=1))
    assert utc_text(datetime(2031, 5, 12, 10, 30, 7, 7_900, tzinfo=summer)) == "2031-05-12T09:30:07.007Z"
    assert datetime.fromisoformat(utc_text(datetime(2031, 5, 12, tzinfo=UTC))) == datetime(2031, 5, 12, tzinfo=UTC)


@pytest.mark.parametrize("clock", [RealClock(), FakeClock(5)])
def test_every_clock_tells_utc_and_never_runs_backwards(clock: Clock) -> None:
    assert clock.now().utcoffset() == timedelta(0)
    ticks = [clock.since_start_ms() for _ in range(1000)]
    assert ticks == sorted(ticks)
    assert ticks[0] >= 0
