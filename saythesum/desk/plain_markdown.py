"""The little of Markdown that our own documents use: headings, paragraphs, lists, and words in code."""

import re
from collections.abc import Iterator
from itertools import groupby

from markupsafe import Markup, escape


def as_html(text: str) -> Markup:
    """A document's own first heading is left out: it is the page's. Nothing in the text is taken for HTML."""
    blocks = [block for block in re.split(r"\n\s*\n", text.strip()) if not block.startswith("# ")]
    return Markup("\n").join(part for block in blocks for part in _block(block))


def title_of(text: str) -> str:
    return text.splitlines()[0].removeprefix("# ")


def _block(block: str) -> Iterator[Markup]:
    for kind, lines in groupby(block.splitlines(), key=_kind):
        match kind:
            case "heading":
                yield from (Markup("<h2>{}</h2>").format(_words(line[3:])) for line in lines)
            case "item":
                items = Markup("").join(Markup("<li>{}</li>").format(_words(line[2:])) for line in lines)
                yield Markup("<ul>{}</ul>").format(items)
            case _:
                yield Markup("<p>{}</p>").format(_words(" ".join(lines)))


def _kind(line: str) -> str:
    return "heading" if line.startswith("## ") else "item" if line.startswith("- ") else "words"


def _words(text: str) -> Markup:
    parts = text.split("`")
    return Markup("").join(
        Markup("<code>{}</code>").format(part) if odd % 2 else escape(part) for odd, part in enumerate(parts)
    )
