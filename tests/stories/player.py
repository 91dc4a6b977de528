"""Plays a story: the inputs of a practice flush left, all that came of each of them indented beneath it.

Header lines, before the first input: `grid 38 57 by 3 5 8`, or in its place `probe 0` (its form) or `finding out 3`
(its seed), or `facts bonds 3` (their name and seed), or `list 38+5 47+?=52`; `sums 2` (only the first of a probe's);
`ear open`, `length full`, `speech 2000` (how long everything said in one turn takes; 0 where left out), `order
columns`; `columns add take` (what each column does, where not all of them add); `hidden amount`; `taking away from the
ten`; `line spoken`; `adding ten and back`; `between 700`: the ear opens between sentences, each of which takes
`speech`.

Inputs: `begin`; `hear 0.9 forty-eight`, with `close 35` or `maybe 43 46` after it; `wait` for whatever is due next, or
`wait 2100`; `type 44`; `press`; `adult takes`; `adult gives`; `end of input`; `kill`: only the kept rows are left.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.exercises.registry import offered
from saythesum.core.grids.facts import facts_named
from saythesum.core.grids.grid import Grid, Order
from saythesum.core.grids.written_sums import exercise_from, text_of_sum
from saythesum.core.meanings import Awaiting, Choice, Given, Meaning, Number, Unclear
from saythesum.core.records.rows import Answer, Ask, End, Row, RowId, Void, row_id
from saythesum.core.sums import Hidden
from saythesum.dialogue.turns.effects import (
    Ear,
    Effect,
    Finish,
    Hush,
    Keep,
    Listen,
    Say,
    Settle,
    ShutEar,
    SpeakSlower,
    Wake,
)
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.learner.assessment import finding_out
from saythesum.learner.assessment.probe import form
from saythesum.settings import Helping, Settings, Wording
from saythesum.wording.speak.said import said
from saythesum.wording.understand.understood import understood
from tests.talk import PRACTICE, Talk

INDENT = "    "
HEADERS = (
    "line",
    "adding",
    "grid",
    "probe",
    "finding",
    "sums",
    "ear",
    "length",
    "speech",
    "order",
    "between",
    "columns",
    "taking",
    "hidden",
    "list",
    "facts",
)
BY_HAND = "# by hand"


@dataclass
class Player:
    """Holds the headers until the first input, then the practice."""

    headers: dict[str, str] = field(default_factory=dict)
    talk: Talk | None = None

    def effects_of(self, line: str) -> list[str]:
        word, _, rest = line.partition(" ")
        if word in HEADERS:
            assert self.talk is None, f"the header {line!r} stands after the first input"
            self.headers[word] = rest
            return []
        self.talk = self.talk or self._new_talk()
        effects = self._played(self.talk, word, rest)
        return [shown for effect in effects if (shown := self._shown(effect))]

    def _new_talk(self) -> Talk:
        way = self.headers.get("taking", "away through the ten").removeprefix("away ")
        settings = Settings(
            wording=Wording(length=self.headers.get("length", "short")),  # type: ignore[arg-type]
            helping=Helping(
                taking_away=way,  # type: ignore[arg-type]
                adding=self.headers.get("adding", "through the ten"),  # type: ignore[arg-type]
                number_line=self.headers.get("line", "off"),  # type: ignore[arg-type]
            ),
        )
        plan = self._plan(settings)
        between_ms = int(self.headers["between"]) if "between" in self.headers else None
        return Talk(plan, Ear(self.headers.get("ear", "open")), int(self.headers.get("speech", "0")), between_ms)

    def _plan(self, settings: Settings) -> Plan:
        if "probe" in self.headers:
            probe = form(int(self.headers["probe"]))
            cells = probe.cells[: int(self.headers.get("sums", "8"))]
            return planned(PRACTICE, [activity(probe.grid, 0, Aim.PROBE, cells)], settings)
        if "finding" in self.headers:
            cells = finding_out.cells_to_choose_from(int(self.headers["finding"].removeprefix("out ")))
            return planned(PRACTICE, [activity(finding_out.GRID, 0, Aim.FIND_OUT, cells)], settings)
        if "facts" in self.headers:
            name, seed = self.headers["facts"].split()
            facts = facts_named(name)
            assert facts is not None
            return planned(PRACTICE, [activity(facts.grid, int(seed), Aim.FACTS)], settings)
        order, does = Order(self.headers.get("order", "rows")), tuple(self.headers.get("columns", "").split())
        if "list" in self.headers:
            listed = tuple(map(exercise_from, self.headers["list"].split()))
            return planned(PRACTICE, [activity(Grid("Rows of oars", (), (), order, listed=listed), 0)], settings)
        starts, _, amounts = self.headers["grid"].partition(" by ")
        hidden = Hidden(self.headers.get("hidden", "total"))
        grid = Grid("Rows of oars", _numbers(starts), _numbers(amounts), order, does, hidden)
        return planned(PRACTICE, [activity(grid, 0)], settings)

    def _played(self, talk: Talk, word: str, rest: str) -> list[Effect]:
        match word, rest:
            case "begin", "":
                return talk.begin()
            case "hear", _:
                return _heard(talk, rest)
            case "wait", "":
                return talk.wait()
            case "wait", _:
                return talk.wait(int(rest))
            case "type", _:
                return talk.type(rest)
            case "press", "":
                return talk.press()
            case "adult", "takes":
                return talk.adult_takes()
            case "adult", "gives":
                return talk.adult_gives()
            case "end", "of input":
                return talk.end_input()
            case "kill", "":
                self.talk = talk.again()
                return []
            case _:
                raise ValueError(f"no such input: {word} {rest}")

    def _shown(self, effect: Effect) -> str:
        assert self.talk is not None
        match effect:
            case Keep(row=row):
                return _row(row, _serial(row.id))
            case Say(message=message):
                text = said(message, self.talk.plan.settings.wording.length)
                return f"say     {text}" if text else ""
            case _:
                return _plain(effect)


def played(text: str) -> str:
    """The story with every indented line worked out afresh."""
    player = Player()
    lines: list[str] = []
    for line in text.splitlines():
        if line.startswith(INDENT):
            continue
        lines.append(line)
        if line and not line.startswith("#"):
            lines += [INDENT + shown for shown in player.effects_of(line)]
    return "\n".join(lines) + "\n"


def _numbers(text: str) -> tuple[int, ...]:
    return tuple(map(int, text.split()))


def _heard(talk: Talk, rest: str) -> list[Effect]:
    certainty, _, what = rest.partition(" ")
    what, close_to = _cut(what, "close")
    what, alternatives = _cut(what, "maybe")
    awaiting = talk.listen.awaiting if talk.listen else Awaiting.NUMBER
    meant: str | Meaning = what
    if close_to or alternatives:
        number = understood(what, awaiting)
        assert isinstance(number, Number), f"{what!r} is no number"
        meant = replace(number, close_to=close_to, alternatives=alternatives)
    return talk.hear(meant, float(certainty))


def _cut(text: str, word: str) -> tuple[str, tuple[int, ...]]:
    found = re.search(rf" {word}((?: \d+)+)", text)
    return (text.replace(found[0], ""), _numbers(found[1])) if found else (text, ())


# ---- how effects look


def _plain(effect: Effect) -> str:
    match effect:
        case Settle(heard=heard):
            return f"heard   {_meaning(heard)}"
        case Listen(awaiting=awaiting, is_between=is_between):
            return f"listen  {awaiting}" + " between" * is_between
        case Wake(name=name, after_ms=after_ms):
            return f"wake    {name} in {after_ms}"
        case Finish(reason=reason):
            return f"finish  {reason}"
        case Hush():
            return "hush"
        case ShutEar():
            return "shut"
        case SpeakSlower():
            return "slower"
        case _:
            raise ValueError(f"{effect} has no line")


def _meaning(heard: Meaning) -> str:
    match heard:
        case Number(value=value, certainty=certainty):
            flags = [name for name in ("objecting", "said_first", "counting") if getattr(heard, name)]
            return " ".join([str(value), *_at(certainty), *_close(heard.close_to), *flags])
        case Choice(yes=yes, certainty=certainty):
            return " ".join(["yes" if yes else "no", *_at(certainty)])
        case Given(command=command, certainty=certainty, alone=alone):
            return " ".join([command, *_at(certainty), *(["alone"] if alone else [])])
        case Unclear(why=why):
            return f"unclear {why}"


def _at(certainty: float | None) -> list[str]:
    return [] if certainty is None else [f"at {certainty}"]


def _close(close_to: tuple[int, ...]) -> list[str]:
    return ["close", *map(str, close_to)] if close_to else []


def _row(row: Row, serial: int) -> str:
    match row:
        case Ask():
            because = [f"because {_because(row.because)}"] if row.because else []
            return " ".join([f"ask     {serial}  {row.row},{row.column} {row.part} {row.support}", *because])
        case Answer():
            is_sum = row.operation in offered()
            asked = text_of_sum(row.asked) if is_sum else f"{row.start} {row.operation} {row.amount}"
            return " ".join([f"answer  {serial}  {asked} {row.part} {row.given}", *_of_answer(row)])
        case Void():
            return f"void    {serial}  of {_serial(row.of)} {row.why}"
        case End():
            return f"end     {serial}  {row.cells} done, {row.right_first_time} right first time, {row.reason}"
        case _:
            raise ValueError(f"{row} has no line")


def _of_answer(answer: Answer) -> Iterator[str]:
    yield "right" if answer.right else "wrong"
    yield f"{answer.support} try {answer.tries} {answer.settled}"
    yield from _at(answer.certainty)
    yield from _close(answer.close_to)
    if answer.took_ms is not None:
        yield f"took {answer.took_ms}"
    if answer.could_be:
        yield f"({', '.join(answer.could_be)})"


def _because(because: str) -> str:
    return str(_serial(RowId(because))) if _is_row(because) else because


def _is_row(because: str) -> bool:
    try:
        UUID(because)
    except ValueError:
        return False
    return True


def _serial(id: RowId) -> int:
    """The row's number in its practice, the first being 1."""
    return next(serial + 1 for serial in range(1000) if row_id(PRACTICE, serial) == id)
