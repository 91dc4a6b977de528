"""Rows of older formats: what stands for a field that they do not have, where no default says it."""

from collections.abc import Mapping

SURE_FROM = 0.7
"""Before the gate's verdict was kept (format 4), an answer's certainty alone said whether it had been sure."""


def completed(kind: str, given: Mapping[str, object]) -> Mapping[str, object]:
    """The fields of a row, with what an older format left out."""
    if kind != "answer" or "sure" in given:
        return given
    return {**given, "sure": was_sure(given.get("certainty"))}


def was_sure(certainty: object) -> bool:
    """By an answer's certainty, where the gate's verdict was not kept yet."""
    return not isinstance(certainty, int | float) or certainty >= SURE_FROM
