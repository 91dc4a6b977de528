"""The log as it is promised to whoever reads it: every kind of line, its fields and what may stand in each.

Written out by hand and not taken from the program: a name or a field that has landed stays.
"""

import json
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path
from typing import Any
from uuid import UUID

Line = Mapping[str, Any]
Check = Callable[[Any], bool]


def _uuid(value: Any) -> bool:
    return isinstance(value, str) and str(UUID(value)) == value


def _whole(value: Any) -> bool:
    return type(value) is int and value >= 0


def _text(value: Any) -> bool:
    return isinstance(value, str)


def _words(value: Any) -> bool:
    return _text(value) and bool(value.strip())


def _yes_or_no(value: Any) -> bool:
    return isinstance(value, bool)


def _certainty(value: Any) -> bool:
    return type(value) in (int, float) and 0 <= value <= 1


def _numbers(value: Any) -> bool:
    return isinstance(value, list) and all(map(_whole, value))


def _names(value: Any) -> bool:
    return isinstance(value, list) and all(map(_words, value))


def _ids(value: Any) -> bool:
    return isinstance(value, list) and all(map(_uuid, value))


def _at(value: Any) -> bool:
    offset = datetime.fromisoformat(value).utcoffset()
    return offset is not None and not offset


def _one_of(names: str) -> Check:
    return lambda value: value in names.split()


def _or_null(check: Check) -> Check:
    return lambda value: value is None or check(value)


def _reason(value: Any) -> bool:
    return value in ("dont-know", "help", "moved", "skipped") or _uuid(value)


PARTS = (
    "whole next-ten gap rest ones total tens one-more tens-of-ones ten-before from-ten "
    "listen how-much-more every-row predict why turn-round make-one"
)
SUPPORTS = "independent repeated encouraged asked first-step modelled adult-help adult-answer"

FORMS = (
    "first fresh new-row next-along same-row back back-in-row called after-right after-wrong again look-again "
    "step-done telling-apart easier worked"
)

ALWAYS: Mapping[str, Check] = {
    "v": lambda value: value == 1,
    "id": _uuid,
    "practice": _uuid,
    "at": _at,
    "at_ms": _whole,
    "kind": _words,
}
FIELDS: Mapping[str, Mapping[str, Check]] = {
    "say": {"text": _words, "about": _words},
    "said": {"of": _uuid, "cut": _or_null(_whole)},
    "listen": {"for": _one_of("number step choice command"), "ear": _one_of("press open keys text")},
    "heard": {
        "text": _text,
        "number": _or_null(_whole),
        "choice": _or_null(_words),
        "command": _or_null(_words),
        "certainty": _or_null(_certainty),
        "verdict": _one_of("taken unsure refused"),
        "close_to": _numbers,
        "by": _one_of("voice keys text switch"),
    },
    "finding": {
        "mistake": _words,
        "share": _certainty,
        "for": _ids,
        "against": _ids,
        "text": _words,
    },
    "turn": {"whose": _one_of("adult pupil")},
    "ask": {
        "row": _or_null(_whole),
        "column": _or_null(_whole),
        "part": _one_of(PARTS),
        "support": _one_of(SUPPORTS),
        "because": _or_null(_reason),
        "activity": _whole,
        "exercise": _one_of("sum pattern"),
        "hidden": _one_of("total"),
        "form": _one_of(FORMS),
        "about": _or_null(_words),
        "lines": _numbers,
        "why": _or_null(_words),
    },
    "answer": {
        "row": _or_null(_whole),
        "column": _or_null(_whole),
        "operation": _one_of("add take"),
        "start": _whole,
        "amount": _whole,
        "part": _one_of(PARTS),
        "right_answer": _whole,
        "given": _whole,
        "right": _yes_or_no,
        "support": _one_of(SUPPORTS),
        "tries": _whole,
        "certainty": _or_null(_certainty),
        "close_to": _numbers,
        "heard": _or_null(_uuid),
        "took_ms": _or_null(_whole),
        "could_be": _names,
        "by": _one_of("voice keys text switch"),
        "settled": _one_of("said-back said-again confirmed followed keys text adult"),
        "purpose": _one_of("practice probe paper"),
        "activity": _whole,
        "exercise": _one_of("sum pattern"),
        "hidden": _one_of("total"),
        "sure": _yes_or_no,
        "way": _or_null(_one_of("counted bridged tens-and-ones compensated doubled known")),
    },
    "void": {"of": _uuid, "why": _one_of("not-said wrong-pupil adult interrupted")},
    "note": {
        "by": _one_of("adult"),
        "of": _or_null(_uuid),
        "what": _one_of("support worked-with not-counted text was-right way waits own-words"),
        "value": _text,
    },
    "end": {
        "cells": _whole,
        "right_first_time": _whole,
        "reason": _one_of("finished stopped adult end-of-input"),
    },
}


def checked_lines(path: Path) -> list[Line]:
    """Every line of the log; fails where one is not as promised."""
    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    for line in lines:
        _check(line)
    _check_references(lines)
    return lines


def of_kind(lines: list[Line], kind: str) -> list[Line]:
    return [line for line in lines if line["kind"] == kind]


def said_in(lines: list[Line]) -> list[str]:
    return [line["text"] for line in of_kind(lines, "say")]


def _check(line: Line) -> None:
    fields = {**ALWAYS, **FIELDS[line["kind"]]}
    assert set(line) == set(fields), line
    for name, check in fields.items():
        assert check(line[name]), f"{name} in {line}"
    if line["kind"] == "answer":
        assert line["right"] == (line["given"] == line["right_answer"]), line
        assert line["tries"] >= 1, line
        assert (line["certainty"] is None) == (line["by"] in ("keys", "text", "switch")), line
        assert line["sure"] or line["by"] == "voice", line
    if line["kind"] == "heard":
        meant = [name for name in ("number", "choice", "command") if line[name] is not None]
        assert len(meant) == (0 if line["verdict"] == "refused" else 1), line


def _check_references(lines: list[Line]) -> None:
    """What a line refers to stands before it; nothing has the id of something else."""
    ids: dict[str, str] = {}
    for line in lines:
        match line:
            case {"kind": "said", "of": of}:
                assert ids[of] == "say", line
            case {"kind": "void", "of": of}:
                assert ids[of] == "answer", line
            case {"kind": "ask", "because": str(because)} if _is_id(because):
                assert ids[because] == "answer", line
            case {"kind": "finding", "for": for_, "against": against}:
                assert all(ids[of] == "answer" for of in for_ + against), line
            case {"kind": "answer", "heard": str(heard)}:
                assert ids[heard] == "heard", line
            case _:
                pass
        assert line["id"] not in ids, line
        ids[line["id"]] = line["kind"]


def _is_id(because: str) -> bool:
    return len(because) == 36
