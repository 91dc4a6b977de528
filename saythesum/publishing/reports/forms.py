"""One page in every form: HTML as one file, plain text, JSON; and the counted answers as CSV."""

import csv
import json
from collections.abc import Iterator
from dataclasses import asdict
from functools import cache
from io import StringIO
from textwrap import wrap
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from saythesum.publishing.reports.bars_drawing import bars_drawing
from saythesum.reports.page import Bars, Page, Table
from saythesum.reports.review.facts import Fact
from saythesum.reports.review.shares import skill_said

TEXT_WIDTH = 80
JSON_VERSION = 1


def page_html(page: Page) -> str:
    return templates().get_template("report.html").render(page=page, drawing=_drawing)


def sections_html(page: Page) -> Markup:
    """What stands below the page's title, to be put into another page."""
    return Markup(templates().get_template("sections.html").render(page=page, drawing=_drawing))  # noqa: S704 - escaped


def page_text(page: Page) -> str:
    return "\n".join(_lines(page)) + "\n"


def page_json(page: Page, facts: tuple[Fact, ...]) -> str:
    """What the page says, and the answers that it was counted from."""
    said = {"format": "saythesum report", "version": JSON_VERSION, **asdict(page)}
    return json.dumps({**said, "answers": [_plain(one) for one in facts]}, ensure_ascii=False, indent=1) + "\n"


def facts_csv(facts: tuple[Fact, ...]) -> str:
    """A line for each answer, with a heading. What a spreadsheet might take for a formula cannot stand there: all
    words are ours but the grid's title, which then has an apostrophe before it."""
    out = StringIO()
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\r\n")
    writer.writeheader()
    for one in facts:
        row = _plain(one)
        title = row["title"]
        writer.writerow({**row, "title": f"'{title}" if title[:1] in "=+-@\t" else title})
    return out.getvalue()


def _plain(one: Fact) -> dict[str, Any]:
    answer = one.answer
    return {
        "day": one.day.isoformat(),
        "practice": str(one.practice),
        "serial": one.serial,
        "title": one.title,
        "activity": answer.activity,
        "row": answer.row,
        "column": answer.column,
        "operation": answer.operation,
        "exercise": answer.exercise.value,
        "hidden": answer.hidden.value,
        "start": answer.start,
        "amount": answer.amount,
        "part": answer.part.value,
        "right_answer": answer.right_answer,
        "given": answer.given,
        "right": int(answer.right),
        "support": answer.support.value,
        "tries": answer.tries,
        "by": answer.by.value,
        "settled": answer.settled.value,
        "sure": int(answer.sure),
        "close_to": " ".join(map(str, answer.close_to)),
        "purpose": answer.purpose.value,
        "took_ms": answer.took_ms,
        "fate": one.fate.value,
        "taken_back": one.taken_back,
        "could_be": " ".join(answer.could_be),
        "skill": skill_said(one.asked),
        "print_size": one.print_size,
        "rate_wpm": one.rate_wpm,
    }


COLUMNS = (
    *("day", "practice", "serial", "title", "activity", "row", "column", "operation", "exercise", "hidden"),
    *(
        "start",
        "amount",
        "part",
        "right_answer",
        "given",
        "right",
        "support",
        "tries",
        "by",
        "settled",
        "sure",
        "close_to",
        "purpose",
        "took_ms",
    ),
    *("fate", "taken_back", "could_be", "skill", "print_size", "rate_wpm"),
)


def _lines(page: Page) -> Iterator[str]:
    yield from (page.title, "=" * len(page.title), *wrap(page.about, TEXT_WIDTH))
    for section in page.sections:
        yield from ("", section.heading, "-" * len(section.heading))
        for sentence in section.sentences:
            yield from wrap(sentence, TEXT_WIDTH, subsequent_indent="  ")
        if section.table:
            yield from _in_text(section.table)


def _in_text(table: Table) -> Iterator[str]:
    """Each number with its heading: a screen reader reads lines, no columns."""
    yield f"{table.caption}:"
    for head, *cells in table.rows:
        said = "; ".join(f"{name} {cell}" for name, cell in zip(table.heads[1:], cells, strict=True))
        yield from wrap(f"{table.heads[0]} {head}: {said}.", TEXT_WIDTH, subsequent_indent="  ")


def _drawing(bars: Bars, name: str) -> Markup:
    return Markup(bars_drawing(bars, name))  # noqa: S704 - drawn by us, its words escaped


@cache
def templates() -> Environment:
    loader = PackageLoader("saythesum.publishing.reports")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
