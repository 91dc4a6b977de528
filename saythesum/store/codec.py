"""Rows, plans and settings as the JSON text that the records hold.

All text is ASCII with escapes, so that a lone surrogate or a NUL in a note cannot stop it being kept.
"""

import json
import operator
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell
from saythesum.core.records.codec import row_as_dict, row_from_dict
from saythesum.core.records.rows import Row
from saythesum.errors import CallerError
from saythesum.ports import StoredActivity
from saythesum.settings import Settings
from saythesum.settings.reading import as_dict, from_dict
from saythesum.store.quick_rows import row_read_quickly


def row_as_text(row: Row) -> str:
    """Its kind and id have columns of their own."""
    fields = {name: value for name, value in row_as_dict(row).items() if name not in ("kind", "id")}
    return json.dumps(fields, allow_nan=False)


def row_from_text(kind: str, id: str, fields: str) -> Row:
    """Raises CallerError if this version cannot read it as a row."""
    return row_read_quickly(kind, id, fields) or row_from_dict({**_group(fields), "kind": kind, "id": id})


def plan_as_text(activities: Sequence[StoredActivity]) -> str:
    """The first one's aim has a column of its own, which knows fewer words than there are aims today."""
    first, *then = activities
    aim = {} if first.aim.value == aim_column(first.aim) else {"aim": first.aim.value}
    others = [{"aim": one.aim.value, **_activity_as_dict(one)} for one in then]
    return json.dumps({**aim, **_activity_as_dict(first), **({"then": others} if others else {})})


def _activity_as_dict(activity: StoredActivity) -> dict[str, Any]:
    asked = {} if activity.cells is None else {"cells": [(cell.row, cell.column) for cell in activity.cells]}
    return {"grid": activity.grid_text, **asked}


def aim_column(aim: Aim) -> str:
    """What stands in the column for it."""
    return aim.value if aim in (Aim.PROBE, Aim.FIND_OUT) else Aim.PRACTISE.value


def plan_from_text(plan: str, aim: str) -> tuple[StoredActivity, ...]:
    """Raises CallerError if it is not a plan. `aim` is the column's."""
    group = _group(plan)
    then = group.get("then", [])
    if not isinstance(then, list) or not all(isinstance(one, dict) for one in then):
        raise CallerError("the plan's further activities are not a list of groups.")
    return tuple(_activity_from(one) for one in ({"aim": aim, **group}, *then))


def _activity_from(group: Mapping[str, Any]) -> StoredActivity:
    aim, grid_text, cells = group.get("aim"), group.get("grid"), group.get("cells")
    if not isinstance(grid_text, str):
        raise CallerError("the plan has no grid.")
    if aim not in [known.value for known in Aim]:
        raise CallerError(f"the plan's aim is {aim!r}; it must be one of {', '.join(Aim)}.")
    if cells is None:
        return StoredActivity(Aim(aim), grid_text)
    try:
        asked = tuple(Cell(operator.index(row), operator.index(column)) for row, column in cells)
    except (TypeError, ValueError):
        raise CallerError("the plan's cells are not pairs of row and column.") from None
    return StoredActivity(Aim(aim), grid_text, asked)


def settings_as_text(settings: Settings) -> str:
    return json.dumps(as_dict(settings), allow_nan=False)


@lru_cache(maxsize=16)  # most practices of a pupil have the same
def settings_from_text(text: str) -> Settings:
    """Another version's settings too: what is unknown here keeps its default, so that the practice can go on."""
    return from_dict(_group(text))


def _group(text: str) -> dict[str, Any]:
    try:
        group = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise CallerError(f"it is not JSON ({error}).") from error
    if not isinstance(group, dict):
        raise CallerError("it is not a group of fields.")
    return group
