"""Settings from a file, and kept with a practice as plain values. Nothing here ever stops a start."""

from collections.abc import Mapping
from dataclasses import Field, asdict, fields, replace
from typing import Any

from saythesum.errors import CallerError
from saythesum.settings import Keys, OwnWordsConsent, Settings
from saythesum.settings.key_names import given_twice
from saythesum.settings.limits import Limits
from saythesum.settings.toml_text import Typed, first_of, rather, shown, shown_name, typed

_TABLES: Mapping[str, type[Any]] = {field.name: field.default_factory for field in fields(Settings)}  # type: ignore[misc]


NO_CONSENT = (
    'use is true, and no consent is noted; right would be consent_on = "2031-05-12" and consent_by = "AB", the day '
    "and the initials of who noted it. Own words stay off."
)


def settings_from(text: str, over: Settings | None = None) -> tuple[Settings, tuple[str, ...]]:
    """The settings of a TOML text with a table for each room, and a sentence for each problem in it.

    What is not there or cannot be taken stays as in `over`; without that it keeps its default.
    """
    try:
        written = typed(text, "rate_wpm = 140, under a line [speech]")
    except CallerError as error:
        left = "Nothing in it is used." if over else "All settings have their defaults."
        return over or Settings(), (f"{error} {left}",)
    return _read(written, over or Settings())


def everybodys(settings: Settings) -> tuple[Settings, tuple[str, ...]]:
    """What the file of all pupils says, without what is each pupil's own; a sentence where that stood there."""
    if settings.own_words == OwnWordsConsent():
        return settings, ()
    own = "[own_words] counts in a pupil's own file only: consent is each pupil's. It is left aside."
    return replace(settings, own_words=OwnWordsConsent()), (own,)


def as_dict(settings: Settings) -> dict[str, Any]:
    """Only what JSON can say; a wait for ever is null. Consent goes nowhere but into the pupil's own file."""
    return {name: table for name, table in asdict(settings).items() if name != "own_words"}


def from_dict(given: Mapping[str, Any]) -> Settings:
    """What `as_dict` gave, also an older or newer version's: what is unknown or unfit keeps its default."""
    settings, _ = _read(Typed(given, {}), Settings())
    return settings


def _read(written: Typed, over: Settings) -> tuple[Settings, tuple[str, ...]]:
    rooms: dict[str, Any] = {}
    problems: list[tuple[int, str]] = []
    for name, table in written.values.items():
        if name not in _TABLES:
            problems.append((written.line_of(name), _unknown_table(name)))
        elif not isinstance(table, Mapping):
            sentence = f"{name} has {shown(table)}; it is a table: [{name}] on a line of its own."
            problems.append((written.line_of(name), sentence))
        else:
            rooms[name], found = _room(name, table, getattr(over, name))
            problems += [(written.line_of(name, key), sentence) for key, sentence in found]
    in_order = sorted(problems, key=lambda problem: problem[0])
    return replace(over, **rooms), first_of([f"Line {line}: {sentence}" for line, sentence in in_order])


def _unknown_table(name: str) -> str:
    for table, kind in _TABLES.items():
        if name in _fields(kind):
            return f"{name} stands under [{table}], which is missing above it."
    return f"{shown_name(name)} is not a table of settings; {rather(name, _TABLES)}"


def _room(name: str, table: Mapping[str, Any], over: Any) -> tuple[Any, list[tuple[str, str]]]:
    """One room's settings, and a setting's name with a sentence for each problem."""
    known = _fields(_TABLES[name])
    taken: dict[str, object] = {}
    problems: list[tuple[str, str]] = []
    for key, value in table.items():
        if key not in known:
            problems.append((key, f"{shown_name(key)} is not a setting of [{name}]; {rather(key, known)}"))
            continue
        try:
            taken[key] = limits_of(_TABLES[name], key).taken(value)
        except CallerError as right:
            left = getattr(over, key)
            used = "" if left is None else f" {shown(left)} is used."
            problems.append((key, f"{key} has {shown(value)}; it is {right}.{used}"))
    if isinstance(over, OwnWordsConsent) and _lacks_consent(over, taken):
        taken["use"] = False
        problems.append(("use", NO_CONSENT))
    if isinstance(over, Keys):
        for key, problem in given_twice(taken, asdict(over)).items():
            del taken[key]
            problems.append((key, problem))
    return replace(over, **taken), problems


def _lacks_consent(over: Any, taken: Mapping[str, object]) -> bool:
    return bool(replace(over, **taken).lacks_consent)


def _fields(kind: type[Any]) -> dict[str, Field[Any]]:
    return {field.name: field for field in fields(kind)}


def limits_of(kind: type[Any], name: str) -> Limits:
    """What a setting of that dataclass may be."""
    limits: Limits = _fields(kind)[name].metadata["limits"]
    return limits
