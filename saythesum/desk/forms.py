"""What a form asks for, and what is wrong with what was given."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date


@dataclass(frozen=True, slots=True)
class Choice:
    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Field:
    name: str
    label: str
    hint: str = ""
    value: str = ""
    choices: Sequence[Choice] = ()
    """One of these; () for words that are typed."""
    kind: str = "text"
    """Of HTML's input types, or "lines" for several."""
    problem: str = ""
    """A sentence, where what was given cannot be."""
    is_required: bool = False
    is_first: bool = False
    """Has the focus when the page is opened, unless something on it is wrong."""
    suggestions: Sequence[str] = ()
    """Of what can be typed."""


@dataclass(frozen=True, slots=True)
class Form:
    fields: Sequence[Field]
    problems: Sequence[str] = field(default=())
    """Sentences about no field in particular."""

    @property
    def is_wrong(self) -> bool:
        return bool(self.problems) or any(one.problem for one in self.fields)

    @property
    def by_name(self) -> Mapping[str, Field]:
        return {one.name: one for one in self.fields}


def with_given(form: Form, given: Mapping[str, str], problems: Mapping[str, str] = {}) -> Form:
    """The form as it was filled in. `problems`: sentences by the name of the field; "" for the form as a whole."""
    fields = [
        replace(one, value=given.get(one.name, one.value), problem=problems.get(one.name, "")) for one in form.fields
    ]
    known = {one.name for one in fields}
    others = [sentence for name, sentence in problems.items() if name not in known]
    return Form(fields, [line for sentence in others for line in sentence.split("\n")])


def day_in(given: Mapping[str, str], name: str, problems: dict[str, str]) -> date | None:
    """None where the field was left empty, or is in `problems` then."""
    text = given.get(name, "").strip()
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        problems[name] = f"“{text[:20]}” is no day; right would be 2031-05-14, the year first."
        return None
