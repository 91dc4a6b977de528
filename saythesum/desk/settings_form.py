"""The settings as a form: a field follows from what a setting may be."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from saythesum.desk.forms import Choice, Field, Form
from saythesum.desk.settings_words import GROUPS, Group, Worded, others
from saythesum.desk.words import day
from saythesum.errors import CallerError
from saythesum.office.pupils import Change
from saythesum.office.upkeep.settings_texts import all_settings
from saythesum.settings import Settings
from saythesum.settings.key_names import FREE, KeyName
from saythesum.settings.limits import FOR_EVER, OneOf, Shares, Whole, YesOrNo
from saythesum.settings.reading import limits_of


@dataclass(frozen=True, slots=True)
class Section:
    group: Group
    fields: Sequence[Field]


def sections(own: Mapping[str, Any], base: Settings, everybody: str) -> tuple[Section, ...]:
    """`own`: what stands in the file. `base`: what holds where nothing does. `everybody`: words for leaving it open,
    such as "As for everybody"."""
    more = others(all_settings())
    return tuple(
        Section(group, [_field(one, own.get(one.setting), base, everybody) for one in group.settings])
        for group in (*GROUPS, *([more] if more else []))
    )


def form_of(some: Sequence[Section]) -> Form:
    return Form([field for section in some for field in section.fields])


def texts_from(given: Mapping[str, str], own: Mapping[str, Any]) -> tuple[dict[str, str], dict[str, str]]:
    """Those that differ from what stands in the file, as `change_pupil` takes them; and a sentence for each that is
    no number of seconds."""
    texts: dict[str, str] = {}
    problems: dict[str, str] = {}
    for one in _all():
        if one.setting in given and given[one.setting].strip() != _typed(one, own.get(one.setting)):
            try:
                texts[one.setting] = _as_toml(one, given[one.setting].strip())
            except CallerError as error:
                problems[one.setting] = str(error)
    return texts, problems


def in_label_words(problems: Mapping[str, str]) -> dict[str, str]:
    """The office's sentences with the label in place of the setting's name."""
    labels = {one.setting: one.label for one in _all()}
    return {name: sentence.replace(name, labels.get(name, name), 1) for name, sentence in problems.items()}


def typed(setting: str, value: Any) -> str:
    """A value of the settings as a form has it."""
    return _typed(_named(setting), value)


def in_words(change: Change) -> str:
    """What was changed, as a sentence."""
    match change.setting:
        case "added":
            return "Added as a pupil."
        case "put-away":
            return "Put away." if change.after else "Brought back into the list."
        case "keep-until":
            return (
                f"To be kept until {day(date.fromisoformat(change.after))}."
                if change.after
                else "No day to keep until."
            )
    one = _named(change.setting)
    before, after = ("left open" if value is None else _shown(one, value) for value in (change.before, change.after))
    by = "" if change.by == "desk" else " Changed in the settings file or while practising."
    return f"{one.label}: was {before}, is {after}.{by}"


def _named(setting: str) -> Worded:
    return next((one for one in _all() if one.setting == setting), Worded(setting, setting, ""))


def _all() -> Iterator[Worded]:
    more = others(all_settings())
    for group in (*GROUPS, *([more] if more else [])):
        yield from group.settings


def _limits(one: Worded) -> Any:
    table, _, name = one.setting.partition(".")
    return limits_of(type(getattr(Settings(), table)), name)


def _field(one: Worded, own: Any, base: Settings, everybody: str) -> Field:
    table, _, name = one.setting.partition(".")
    holds = _shown(one, getattr(getattr(base, table), name))
    open_words = f"{everybody}: {holds}" if holds else everybody
    choices = [Choice(value, one.choices.get(value, value)) for value in _values(one)]
    if choices:
        choices.insert(0, Choice("", open_words))
    hint = one.sentence if choices else f"{one.sentence} {open_words}, where nothing is written here.".strip()
    return Field(
        one.setting, one.label, hint, _typed(one, own), choices, suggestions=() if choices else one.suggestions
    )


def _values(one: Worded) -> Sequence[str]:
    match _limits(one):
        case OneOf(words=words):
            return words
        case YesOrNo():
            return ("true", "false")
        case KeyName():
            return FREE
        case _:
            return ()


def _typed(one: Worded, value: Any) -> str:
    """What stands in the file, as the field has it."""
    match value:
        case None:
            return ""
        case bool():
            return str(value).lower()
        case int() if one.in_seconds:
            return f"{value / 1000:g}"
        case [lowest, highest]:
            return f"{lowest} to {highest}"
        case float():
            return f"{value:g}"
        case _:
            return str(value)


def _shown(one: Worded, value: Any) -> str:
    if value is None and isinstance(limits := _limits_or_none(one), Whole) and limits.for_ever:
        return one.without_end
    typed = _typed(one, value)
    return one.choices.get(typed, typed)


def _limits_or_none(one: Worded) -> Any:
    try:
        return _limits(one)
    except (AttributeError, KeyError):  # a setting of an older version, among the changes
        return None


def _as_toml(one: Worded, given: str) -> str:
    if not given:
        return ""
    limits = _limits(one)
    if one.in_seconds:
        return _milliseconds(one, limits, given)
    if isinstance(limits, Shares):
        return f"[{', '.join(part.strip() for part in given.replace('–', 'to').split('to'))}]"
    return given


def _milliseconds(one: Worded, limits: Whole, given: str) -> str:
    if limits.for_ever and given.lower() == FOR_EVER:
        return FOR_EVER
    try:
        milliseconds = round(float(given.replace(",", ".")) * 1000)
        _ = limits.taken(milliseconds)
    except (ValueError, OverflowError, CallerError) as error:
        ending = f", or “{FOR_EVER}”" if limits.for_ever else ""
        seconds = f"a number of seconds from {limits.lowest / 1000:g} to {limits.highest / 1000:g}{ending}"
        raise CallerError(f"{one.label} cannot be “{given[:30]}”; it is {seconds}.") from error
    return str(milliseconds)
