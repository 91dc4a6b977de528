"""Fields that older rows lack and whose value has to be worked out; the others have defaults."""

from collections.abc import Mapping

SURE_FROM = 0.7
"""Before format 4 the gate's verdict was not kept: an answer counted as sure from this certainty on."""


def completed(kind: str, given: Mapping[str, object]) -> Mapping[str, object]:
    """The fields of a row, with any that an older format did not have."""
    if kind != "answer" or "sure" in given:
        return given
    return {**given, "sure": was_sure(given.get("certainty"))}


def was_sure(certainty: object) -> bool:
    """By an answer's certainty, where the gate's verdict was not kept yet."""
    return not isinstance(certainty, int | float) or certainty >= SURE_FROM
