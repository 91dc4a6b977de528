"""Plans of the week: made, changed, put away. Each is a file that desk and hand may edit; what they said is kept.

A plan's file is what is to be done. Beside it each pupil has an entry for every text that named them.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError
from saythesum.office.grids import grid_name, list_grids
from saythesum.office.places import Places
from saythesum.office.plans.week import DOINGS, EXAMPLE, WeekPlan, text_of, week_from, without_pupil
from saythesum.office.pupils import codes
from saythesum.settings.changing import replace_file
from saythesum.settings.text_files import text_in
from saythesum.settings.toml_text import rather
from saythesum.store.beside.entries import Entry, add_entries, entries_in
from saythesum.store.beside.entry_tables import Table

_AWAY = "put-away"


@dataclass(frozen=True, slots=True)
class PlanCard:
    name: str
    file: Path
    week: WeekPlan
    """What can be taken of the file."""
    problems: tuple[str, ...]
    """A sentence each: what is wrong in the file, and what it names that is not here."""
    is_put_away: bool = False


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """What was planned for a pupil since then."""

    at: str
    """UTC, ISO 8601."""
    plan: str
    text: str | None
    """None: the plan was put away, or no longer names the pupil."""
    by: str
    """"desk" for the desk and the verbs; "elsewhere" for a file edited by hand."""


def list_plans(places: Places, *, put_away: bool = False) -> tuple[PlanCard, ...]:
    """By name."""
    cards = [_card(places, file) for file in _files(places.plans)]
    if put_away:
        cards += [_card(places, file, is_put_away=True) for file in _files(places.plans / _AWAY)]
    return tuple(cards)


def show_plan(places: Places, given: str) -> PlanCard:
    """Raises CallerError where there is no such plan."""
    return _card(places, _own_file(places, given))


def save_plan(places: Places, given: str, week: WeekPlan, now: datetime, *, over: bool = False) -> PlanCard:
    """Raises CallerError, a sentence a line, for a plan that could not be done, and for a name that is taken unless it
    is to be written over."""
    name = plan_name(given)
    file = _file(places, name)
    if file.exists() and not over:
        raise CallerError(f"There is a plan {name} already; choose another name, for example {name[:36]}-2.")
    text = text_of(week)
    _, problems = week_from(text)
    problems = (*problems, *(f"The plan {name}: {problem}" for problem in _not_here(places, week)))
    if problems:
        raise CallerError("\n".join(problems))
    note_plans(places, now)
    try:
        replace_file(file, text)
    except OSError as error:
        raise CallerError(f"The plan {file} cannot be written ({error.strerror}).") from error
    note_plans(places, now, by="desk")
    return _card(places, file)


def put_plan_away(places: Places, given: str, now: datetime) -> Path:
    """Out of the list, with nothing lost. Raises CallerError."""
    file = _own_file(places, given)
    note_plans(places, now)
    number = 1
    while (target := file.parent / _AWAY / f"{file.stem}{f'-{number}' * (number > 1)}.toml").exists():
        number += 1
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        file.rename(target)
    except OSError as error:
        raise CallerError(f"The plan {file} cannot be moved to {target} ({error.strerror}).") from error
    note_plans(places, now, by="desk")
    return target


def note_plans(places: Places, now: datetime, by: str = "elsewhere") -> None:
    """Keeps, for each pupil, what the plans' files say of them and the kept entries do not."""
    found = {name: week for name, week, _ in weeks(places)}
    unreadable = {name for name, week in found.items() if not week.pupils}  # nothing is known of it until it is mended
    here = {(code, name): _only_of(code, week) for name, week in found.items() for code in week.pupils}
    kept = {(entry.pupil, entry.fields["plan"]): entry.fields["text"] for entry in _entries(places)}
    entries = [
        Entry(code, utc_text(now), {"plan": name, "text": here.get((code, name)), "by": by})
        for code, name in sorted({*here, *kept})
        if name not in unreadable and here.get((code, name)) != kept.get((code, name))
    ]
    known = codes(places) if entries else ()
    add_entries(places.records_file, {Table.PLANS: [entry for entry in entries if entry.pupil in known]})


def kept_plans(places: Places, code: str) -> tuple[KeptPlan, ...]:
    """Oldest first."""
    return tuple(
        KeptPlan(entry.at, entry.fields["plan"], entry.fields["text"], entry.fields["by"])
        for entry in _entries(places, code)
    )


def plans_of(places: Places, code: str) -> tuple[Path, ...]:
    """The files that name the pupil, those put away among them."""
    return tuple(card.file for card in list_plans(places, put_away=True) if code in card.week.pupils)


def take_out_of_plan(file: Path, code: str) -> None:
    """A plan that is left with nobody goes. Raises OSError."""
    left = without_pupil(text_in(file, EXAMPLE), code)
    if left is None:
        file.unlink()
    else:
        replace_file(file, left)


def plan_name(given: str) -> str:
    """Raises CallerError."""
    try:
        return grid_name(given)
    except CallerError as error:
        raise CallerError(str(error).replace("The grid's name", "The plan's name", 1)) from error


def weeks(places: Places) -> Iterator[tuple[str, WeekPlan, tuple[str, ...]]]:
    """Each plan's name, what can be taken of its file, and a sentence for each problem in it; by name."""
    for file in _files(places.plans):
        week, problems = _read(file)
        yield file.stem, week, problems


def _read(file: Path) -> tuple[WeekPlan, tuple[str, ...]]:
    try:
        week, problems = week_from(text_in(file, EXAMPLE))
    except FileNotFoundError:  # put away at this moment
        return WeekPlan(), ()
    except CallerError as error:
        return WeekPlan(), (f"The plan {file} {error}",)
    return week, tuple(f"The plan {file}: {problem}" for problem in problems)


def _card(places: Places, file: Path, *, is_put_away: bool = False) -> PlanCard:
    week, problems = _read(file)
    not_here = tuple(f"The plan {file.stem}: {problem}" for problem in _not_here(places, week))
    return PlanCard(file.stem, file, week, problems + not_here, is_put_away)


def _not_here(places: Places, week: WeekPlan) -> Iterator[str]:
    """What the plan names and nobody has: pupils who were never added, or erased; grids that were put away."""
    known = codes(places)
    for code in week.pupils:
        if code not in known:
            yield f"there is no pupil {code} here (perhaps erased): add the pupil, or take the code out."
    grids = known_grids(places)
    for day, plan in week.days.items():
        for name in plan.do:
            if name not in DOINGS and grids.get(name) is not True:
                yield f"{day} names the grid {name}, {_why_not(name, grids)}"


def known_grids(places: Places) -> Mapping[str, bool]:
    """Names; False for a grid that was put away or cannot be read."""
    cards = list_grids(places, put_away=True)
    away = {card.name: False for card in cards}
    return {**away, **{card.name: True for card in cards if card.grid and not card.is_put_away}}


def _why_not(name: str, grids: Mapping[str, bool]) -> str:
    if name in grids:
        return "which was put away or cannot be read: bring it back, or name another."
    return f"which is not here; {rather(name, [*(name for name, is_here in grids.items() if is_here), *DOINGS])}"


def _entries(places: Places, code: str | None = None) -> tuple[Entry, ...]:
    return tuple(
        entry
        for entry in entries_in(places.records_file, Table.PLANS, code)
        if {"plan", "text", "by"} <= {*entry.fields}
    )


def _only_of(code: str, week: WeekPlan) -> str:
    """What is kept of one pupil names no other, so that each can be erased alone."""
    return text_of(replace(week, pupils=(code,)))


def _files(folder: Path) -> Iterator[Path]:
    if folder.is_dir():
        yield from (file for file in sorted(folder.glob("*.toml")) if _is_name(file.stem))


def _is_name(stem: str) -> bool:
    try:
        return plan_name(stem) == stem
    except CallerError:
        return False


def _file(places: Places, name: str) -> Path:
    return places.plans / f"{name}.toml"


def _own_file(places: Places, given: str) -> Path:
    name = plan_name(given)
    if _file(places, name).exists():
        return _file(places, name)
    known = [file.stem for file in _files(places.plans)]
    right = rather(name, known) if len(known) > 1 else "make one: saythesum plan make"
    raise CallerError(f"There is no plan {name}; {right}")
