"""Pupils by their codes: added, changed, put away, given a target; every change of a setting is kept with its date.

The settings files stay the truth, and may be edited by hand as well: what a file says and the kept changes do not
is noted as a change when the pupil is looked at next.
"""

from collections.abc import Mapping, Sequence
from contextlib import closing
from dataclasses import asdict, dataclass
from datetime import date, datetime
from typing import Any

from saythesum.core.records.times import utc_text
from saythesum.errors import CallerError, StoreError
from saythesum.office.places import Places
from saythesum.office.upkeep.settings_texts import SettingsError, settings_in, values_in, write_settings, written
from saythesum.settings import Settings
from saythesum.settings.toml_text import rather
from saythesum.store.beside.entries import Entry, add_entries, entries_in
from saythesum.store.beside.entry_tables import Table
from saythesum.store.pupils import is_code, pupil_code
from saythesum.store.reading import StoredRecords, open_to_read

HEADING = "Settings of this pupil only, read after settings.toml."
LONGEST_SENTENCE = 300
PUT_AWAY = "put-away"
OWN_WORDS = "own_words."
"""How the settings begin that are no part of the kept changes, as those are given out and stand in reports."""
_ADDED = "added"


@dataclass(frozen=True, slots=True)
class Target:
    """What a pupil is to reach, in one sentence, with its measurable part."""

    sentence: str
    sums: str
    """Which sums: a grid's name, or words such as "crossing a ten"."""
    right: int
    of: int
    unaided: bool
    by: date


@dataclass(frozen=True, slots=True)
class Change:
    at: str
    """UTC, ISO 8601: when it was made on the desk, or when it was noticed."""
    setting: str
    """As `table.name`; "added", "put-away" or "keep-until" for the pupil as a whole."""
    before: Any
    after: Any
    """None where the setting was taken out of the file."""
    by: str
    """"desk" for the desk and the verbs; "elsewhere" for a file edited by hand and for what the program learnt."""


@dataclass(frozen=True, slots=True)
class PupilCard:
    code: str
    settings: Settings
    problems: tuple[str, ...]
    """A sentence for each thing in the settings files that cannot be taken."""
    is_put_away: bool
    target: Target | None
    practices: int
    last_practised: str | None
    """UTC, ISO 8601."""


def list_pupils(places: Places, *, put_away: bool = False) -> tuple[PupilCard, ...]:
    """By code. `put_away`: those who were put away, too. All of them are read at once: a school has hundreds."""
    everybody = settings_in(places.settings_file, None)
    away = {entry.pupil: entry.fields["after"] for entry in _put_away_entries(places)}
    aims = {entry.pupil: _target(entry) for entry in entries_in(places.records_file, Table.TARGETS)}
    began: Mapping[str, Sequence[str]] = {}
    if reader := _reader(places):
        with closing(reader):
            began = reader.began_by_pupil()
    cards = [
        _shown(places, code, everybody, _Kept(bool(away.get(code)), aims.get(code), began.get(code, ())))
        for code in codes(places)
    ]
    return tuple(card for card in cards if put_away or not card.is_put_away)


def codes(places: Places) -> tuple[str, ...]:
    """All who have a settings file, a practice or an entry."""
    folder = places.pupil_file("any").parent
    with_file = {file.stem for file in folder.glob("*.toml") if is_code(file.stem)} if folder.is_dir() else set()
    with_entry = {entry.pupil for entry in entries_in(places.records_file, Table.CHANGES)}
    return tuple(sorted(with_file | with_entry | _practised(places)))


def _practised(places: Places) -> set[str]:
    if (reader := _reader(places)) is None:
        return set()
    with closing(reader):
        return set(reader.pupils())


def show_pupil(places: Places, given: str) -> PupilCard:
    """Raises CallerError where there is no such pupil."""
    return _card(places, known_code(places, given))


def known_code(places: Places, given: str) -> str:
    """Raises CallerError where there is no such pupil."""
    code = pupil_code(given)
    known = codes(places)
    if code not in known:
        more = rather(code, known) if len(known) > 1 else "add the pupil first: saythesum pupils add " + code
        raise CallerError(f"There is no pupil {code}; {more}")
    return code


def add_pupil(places: Places, given: str, now: datetime, values: Mapping[str, str] = {}) -> PupilCard:
    """`values`: as of `change_pupil`. Raises CallerError for a code that is taken, or a value that no setting has."""
    code = pupil_code(given)
    if code in codes(places):
        raise CallerError(f"There is a pupil {code} already; choose another code.")
    chosen = written(values)
    write_settings(places.pupil_file(code), chosen, HEADING)
    entry = Entry(code, utc_text(now), {"setting": _ADDED, "before": None, "after": True, "by": "desk"})
    add_entries(places.records_file, {Table.CHANGES: [entry]})
    note_changes(places, code, now, by="desk")
    return _card(places, code)


def change_pupil(places: Places, given: str, values: Mapping[str, str], now: datetime) -> PupilCard:
    """`values`: `table.name` to what would stand in the file, words with or without quotes; empty takes it out.

    All of them or none. Raises SettingsError with a sentence for each that cannot be, and CallerError.
    """
    code = known_code(places, given)
    note_changes(places, code, now)
    write_settings(places.pupil_file(code), written(values), HEADING)
    note_changes(places, code, now, by="desk")
    return _card(places, code)


def change_everybody(places: Places, values: Mapping[str, str]) -> None:
    """What holds for all pupils whose own settings say nothing else. As `change_pupil`."""
    if own := [name for name in values if name.startswith(OWN_WORDS)]:
        raise SettingsError({name: f"{name} is of one pupil: consent is each pupil's." for name in own})
    write_settings(places.settings_file, written(values))


def own_values(places: Places, code: str) -> Mapping[str, Any]:
    """What stands in the pupil's own settings file, by `table.name`; nothing where it cannot be read."""
    return values_in(places.pupil_file(code)) or {}


def everybodys_values(places: Places) -> Mapping[str, Any]:
    """What stands in the settings file of all. As `own_values`."""
    return values_in(places.settings_file) or {}


def everybodys_settings(places: Places) -> tuple[Settings, tuple[str, ...]]:
    """What holds where a pupil's file says nothing, with a sentence for each thing in it that cannot be taken."""
    return settings_in(places.settings_file, None)


def put_away(places: Places, given: str, now: datetime, *, back: bool = False) -> PupilCard:
    """Out of the list, with nothing lost; `back` brings the pupil back."""
    code = known_code(places, given)
    fields = {"setting": PUT_AWAY, "before": back, "after": not back, "by": "desk"}
    add_entries(places.records_file, {Table.CHANGES: [Entry(code, utc_text(now), fields)]})
    return _card(places, code)


def set_target(places: Places, given: str, target: Target, now: datetime) -> PupilCard:
    """The newest holds; the ones before are kept. Raises CallerError."""
    code = known_code(places, given)
    if not 0 < target.right <= target.of:
        raise CallerError(f"The target says {target.right} of {target.of}; right would be for example 8 of 10.")
    if not target.sentence.strip() or len(target.sentence) > LONGEST_SENTENCE:
        raise CallerError(f"The target is one sentence of 1 to {LONGEST_SENTENCE} characters.")
    fields = {**asdict(target), "by": target.by.isoformat()}
    add_entries(places.records_file, {Table.TARGETS: [Entry(code, utc_text(now), fields)]})
    return _card(places, code)


def targets(places: Places, code: str) -> tuple[tuple[str, Target], ...]:
    """Each with when it was set, oldest first."""
    return tuple((entry.at, _target(entry)) for entry in entries_in(places.records_file, Table.TARGETS, code))


def changes(places: Places, code: str, since: datetime | None = None) -> tuple[Change, ...]:
    """Oldest first: what changed since a visit, say."""
    begun = utc_text(since) if since else ""
    return tuple(_change(entry) for entry in entries_in(places.records_file, Table.CHANGES, code) if entry.at >= begun)


def _change(entry: Entry) -> Change:
    return Change(entry.at, entry.fields["setting"], entry.fields["before"], entry.fields["after"], entry.fields["by"])


def changes_of_all(places: Places, since: datetime) -> tuple[tuple[str, Change], ...]:
    """Each with the pupil's code, oldest first."""
    entries = entries_in(places.records_file, Table.CHANGES)
    return tuple((entry.pupil, _change(entry)) for entry in entries if entry.at >= utc_text(since))


def note_all_changes(places: Places, now: datetime) -> None:
    """As `note_changes`, of every pupil who has a settings file."""
    known: dict[str, dict[str, Any]] = {}
    for entry in entries_in(places.records_file, Table.CHANGES):
        if "." in entry.fields["setting"]:
            known.setdefault(entry.pupil, {})[entry.fields["setting"]] = entry.fields["after"]
    with_file = [code for code in codes(places) if places.pupil_file(code).exists()]
    entries = [one for code in with_file for one in _unnoted(places, code, known.get(code, {}), now, "elsewhere")]
    add_entries(places.records_file, {Table.CHANGES: entries})


def note_changes(places: Places, code: str, now: datetime, by: str = "elsewhere") -> None:
    """Keeps what the pupil's file says and the kept changes do not."""
    known = {change.setting: change.after for change in changes(places, code) if "." in change.setting}
    add_entries(places.records_file, {Table.CHANGES: _unnoted(places, code, known, now, by)})


def _unnoted(places: Places, code: str, known: Mapping[str, Any], now: datetime, by: str) -> list[Entry]:
    here = values_in(places.pupil_file(code))
    if here is None:  # broken by hand: nothing is known of it until it is mended
        return []
    noted = sorted(name for name in {*known, *here} if not name.startswith(OWN_WORDS))
    differ = [name for name in noted if known.get(name) != here.get(name)]
    return [
        Entry(code, utc_text(now), {"setting": name, "before": known.get(name), "after": here.get(name), "by": by})
        for name in differ
    ]


def _card(places: Places, code: str) -> PupilCard:
    away = [entry.fields["after"] for entry in _put_away_entries(places, code)]
    aims = targets(places, code)
    began: Sequence[str] = ()
    if reader := _reader(places):
        with closing(reader):
            began = reader.began(code)
    everybody = settings_in(places.settings_file, None)
    return _shown(places, code, everybody, _Kept(bool(away and away[-1]), aims[-1][1] if aims else None, began))


@dataclass(frozen=True, slots=True)
class _Kept:
    """What the records have of a pupil for a card."""

    is_put_away: bool
    target: Target | None
    began: Sequence[str]


def _shown(places: Places, code: str, everybody: tuple[Settings, tuple[str, ...]], kept: _Kept) -> PupilCard:
    base, wrong = everybody
    settings, wrong_here = settings_in(places.pupil_file(code), base)
    last = kept.began[-1] if kept.began else None
    return PupilCard(code, settings, wrong + wrong_here, kept.is_put_away, kept.target, len(kept.began), last)


def _put_away_entries(places: Places, code: str | None = None) -> list[Entry]:
    entries = entries_in(places.records_file, Table.CHANGES, code)
    return [entry for entry in entries if entry.fields["setting"] == PUT_AWAY]


def _target(entry: Entry) -> Target:
    return Target(**{**entry.fields, "by": date.fromisoformat(entry.fields["by"])})


def _reader(places: Places) -> StoredRecords | None:
    try:
        return open_to_read(places.records_file)
    except StoreError:
        if places.records_file.exists() and places.records_file.stat().st_size:
            raise
        return None
