"""A page of a report, as values: headings, sentences, tables and pictures. Every form of it says the same."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from saythesum.errors import CallerError


@dataclass(frozen=True, slots=True)
class Table:
    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    """The first of each row is its header."""
    shades: tuple[tuple[int, ...], ...] = ()
    """Of each cell after the header, 0 to 3, beside its words: () for none."""


@dataclass(frozen=True, slots=True)
class Bars:
    """A picture of a table: for each of its rows a bar, in parts with shades and a letter each."""

    title: str
    about: str
    """What is to be seen, in a sentence."""
    parts: tuple[str, ...]
    rows: tuple[tuple[str, tuple[int, ...]], ...]
    """Label, and how many of each part."""


@dataclass(frozen=True, slots=True)
class Section:
    name: str
    """By which its sentences are edited."""
    heading: str
    sentences: tuple[str, ...] = ()
    table: Table | None = None
    picture: Bars | None = None


@dataclass(frozen=True, slots=True)
class Page:
    title: str
    about: str
    """Whom and which days it is about."""
    sections: tuple[Section, ...]

    def edited(self, sentences: Mapping[str, str]) -> "Page":
        """With other sentences before printing: by the section's name and the sentence's place, "target.1". Tables and
        pictures stay. Raises CallerError for a sentence that is not there, and for a figure that was not counted: a
        figure may go with its sentence, and never becomes another."""
        known = self.sentences
        if unknown := sorted(set(sentences) - set(known)):
            raise CallerError(f"There is no sentence {unknown[0]} on this page; there are {', '.join(sorted(known))}.")
        for name, text in sentences.items():
            counted = iter(re.findall(_FIGURE, known[name]))
            for figure in re.findall(_FIGURE, text):
                if figure not in counted:  # which goes on from the one that was found last
                    raise CallerError(
                        f"The sentence {name} has the figure {figure} where it was not counted. Figures stay as they "
                        "are, in their order; a number of your own is written as a word."
                    )
        return replace(self, sections=tuple(_edited(one, sentences) for one in self.sections))

    @property
    def sentences(self) -> Mapping[str, str]:
        """All that can be edited, by the names that `edited` takes."""
        return {f"{one.name}.{place}": text for one in self.sections for place, text in enumerate(one.sentences, 1)}


_FIGURE = r"\d+"


def _edited(section: Section, sentences: Mapping[str, str]) -> Section:
    texts = (sentences.get(f"{section.name}.{place}", text) for place, text in enumerate(section.sentences, 1))
    return replace(section, sentences=tuple(text.strip() for text in texts if text.strip()))
