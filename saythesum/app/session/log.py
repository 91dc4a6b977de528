"""The log: one JSON object a line, for other programs that follow or check a practice. UTF-8.

A name or a field once landed stays. Rows stand here exactly as they are stored, an `ask` with one field more: `why`,
the sentence for the adult where its cell was chosen, else null. The other kinds of line
(say, said, listen, heard, turn, finding) are in the log only.
"""

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any
from uuid import UUID, uuid4

from saythesum.app.terminal.console import tell
from saythesum.core.meanings import Choice, Given, Meaning, Number, Unclear
from saythesum.core.records.codec import row_as_dict
from saythesum.core.records.rows import Ask, By, Row
from saythesum.core.records.times import utc_text
from saythesum.dialogue.messages import Message
from saythesum.dialogue.turns.effects import Listen, Say, Settle
from saythesum.dialogue.turns.events import UtteranceEnded, UtteranceId
from saythesum.errors import CallerError
from saythesum.learner.findings import Finding
from saythesum.ports import Clock

VERSION = 1


def name_of(kind: type[Message]) -> str:
    """The name of a kind of message in words: `AskRest` is ask-rest."""
    return re.sub(r"(?<=.)(?=[A-Z])", "-", kind.__name__).lower()


def heard_fields(heard: Meaning, text: str, by: By) -> dict[str, Any]:
    return {
        "text": text,
        "number": heard.value if isinstance(heard, Number) else None,
        "choice": ("yes" if heard.yes else "no") if isinstance(heard, Choice) else None,
        "command": heard.command.value if isinstance(heard, Given) else None,
        "certainty": None if isinstance(heard, Unclear) else heard.certainty,
        "verdict": _verdict(heard),
        "close_to": list(heard.close_to) if isinstance(heard, Number) else [],
        "by": by.value,
    }


def _verdict(heard: Meaning) -> str:
    if isinstance(heard, Unclear):
        return "refused"
    return "taken" if heard.sure else "unsure"


class Log:
    """Lines for one practice; `write` gets each line whole, with its line end."""

    def __init__(
        self,
        write: Callable[[str], object],
        practice: UUID,
        *,
        clock: Clock,
        new_id: Callable[[], UUID] = uuid4,
    ) -> None:
        self._write = write
        self._practice = str(practice)
        self._clock = clock
        self._new_id = new_id
        self._being_said: dict[UtteranceId, str] = {}
        """The ids of the `say` lines whose `said` is still to come."""

    def kept(self, row: Row, *, at: str, at_ms: int, why: str | None = None) -> None:
        """With the very times that were stored."""
        fields = row_as_dict(row)
        if isinstance(row, Ask):
            fields["why"] = why
        self._line(fields.pop("kind"), fields, at=at, at_ms=at_ms)

    def heard(self, settled: Settle) -> None:
        self._now("heard", {"id": settled.id, **heard_fields(settled.heard, settled.text, settled.by)})

    def say(self, said: Say, text: str) -> None:
        id = str(self._new_id())
        self._being_said[said.id] = id
        self._now("say", {"id": id, "text": text, "about": name_of(type(said.message))})

    def said(self, said: UtteranceEnded) -> None:
        """An utterance that no `say` line began is none of this log's."""
        of = self._being_said.pop(said.id, None)
        if of is not None:
            self._now("said", {"of": of, "cut": said.cut_ms})

    def listen(self, listen: Listen) -> None:
        self._now("listen", {"for": listen.awaiting.value, "ear": listen.ear.value})

    def turn(self, *, is_adults: bool) -> None:
        """The adult took the turn, or gave it back: between the two nothing is heard."""
        self._now("turn", {"whose": "adult" if is_adults else "pupil"})

    def finding(self, finding: Finding, text: str) -> None:
        """After a practice whose purpose is to find out: `for` and `against` are ids of answers."""
        fields = {"mistake": finding.mistake, "share": round(finding.share, 3)}
        self._now("finding", {**fields, "for": finding.for_, "against": finding.against, "text": text})

    def _now(self, kind: str, fields: dict[str, Any]) -> None:
        self._line(kind, fields, at=utc_text(self._clock.now()), at_ms=self._clock.since_start_ms())

    def _line(self, kind: str, fields: dict[str, Any], *, at: str, at_ms: int) -> None:
        line = {
            "v": VERSION,
            "id": fields.get("id") or str(self._new_id()),
            "practice": self._practice,
            "at": at,
            "at_ms": at_ms,
            "kind": kind,
        }
        self._write(json.dumps(line | fields, ensure_ascii=False, allow_nan=False) + "\n")


class LogFile:
    """Each line is in the file when `write` returns, so that another process can follow it.

    An older log of the same name is added to. A file that fails later on never stops a practice: no more
    lines are written, and `trouble` says why.
    """

    def __init__(self, path: Path) -> None:
        """Raises CallerError when the file cannot be written."""
        self.trouble: str | None = None
        self._path = path
        try:
            if path.is_fifo():
                tell(f"{path} is a pipe: the practice begins as soon as somebody reads it.")
            self._file = path.open("ab", buffering=0)
            if not _ends_in_a_whole_line(path):
                self._file.write(b"\n")
        except OSError as error:
            raise CallerError(
                f"The log cannot be written to {path} ({error.strerror}): "
                "name a file in a folder that is there and can be written."
            ) from error

    def write(self, line: str) -> None:
        # A lone surrogate (a byte of the input that was no UTF-8) becomes an escape that JSON can read.
        rest = line.encode("utf-8", "backslashreplace")
        while rest and self.trouble is None:
            try:
                rest = rest[self._file.write(rest) :]
            except OSError as error:
                self.trouble = (
                    f"The log in {self._path} ends early ({error.strerror}); the records themselves are safe."
                )

    def close(self) -> None:
        self._file.close()


def _ends_in_a_whole_line(path: Path) -> bool:
    """A killed run may have left half a line; a pipe has no end to look at."""
    if not path.is_file() or path.stat().st_size == 0:
        return True
    with path.open("rb") as file:
        file.seek(-1, 2)
        return file.read() == b"\n"
