"""The verb `report`: what was practised, for the review meeting, the parent, the visiting teacher or the class."""

import argparse
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from saythesum.app.cli.plain_parser import Verbs, cannot_be, one_of
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.terminal.console import show, tell
from saythesum.errors import CallerError

if TYPE_CHECKING:
    from saythesum.publishing.reports.making import MadeReport

FOR = ("review", "parent", "visit", "class", "today")
FORMS = ("html", "pdf", "csv", "json", "text")


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "report",
        needs="CODE",
        help="what was practised, for a meeting, a parent, a visit or the class",
        description="Write a report of one pupil, or of the class. It is practice, not assessment or diagnosis.",
        epilog="Example: saythesum report rk-7 --from 2031-01-06 --to 2031-04-04 --as pdf --into reports",
    )
    verb.add_argument_group("which").add_argument("code", metavar="CODE", nargs="?", help="the pupil; none for class")
    verb.add_argument("--for", metavar="WHOM", dest="whom", type=one_of(FOR), default="review", help=", ".join(FOR))
    verb.add_argument("--from", metavar="DATE", dest="first", type=_day, help="such as 2031-01-06")
    verb.add_argument("--to", metavar="DATE", dest="last", type=_day, help="the last day; without it today")
    verb.add_argument("--on", metavar="DATE", type=_day, help="the day of the report; without it today")
    verb.add_argument("--as", metavar="FORM", dest="form", type=one_of(FORMS), default="html", help=", ".join(FORMS))
    verb.add_argument("--into", metavar="FOLDER", type=Path, default=Path(), help="where the file is written")
    verb.set_defaults(run=_report)


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise cannot_be(text, "it is a day, such as 2031-04-04") from error


def _report(options: argparse.Namespace) -> None:
    # Counting and drawing are loaded where they are needed.
    from saythesum.office.afterwards import today_of, today_said
    from saythesum.office.papers.reporting import class_lines, period, source_of
    from saythesum.publishing.reports.making import PAGES, write_report
    from saythesum.reports.review.class_page import class_page
    from saythesum.reports.review.review import counted

    on = options.on or RealClock().now().date()
    if options.whom == "class":
        if options.code:
            raise CallerError("The class page is about all pupils: leave the code out.")
        page = class_page(tuple(class_lines(own_places(), on)), on)
        _tell_of(write_report(page, (), f"class-{on}", options.form, options.into))
        return
    if not options.code:
        raise CallerError("CODE is missing: name the pupil, such as rk-7, or say --for class.")
    if options.whom == "today":
        show(today_said(today_of(own_places(), options.code, on)))
        return
    source = source_of(own_places(), options.code)
    of = counted(source, period(options.first, options.last, on))
    name = f"{source.pupil}-{options.whom}-{on}"
    _tell_of(write_report(PAGES[options.whom](of), of.facts, name, options.form, options.into))


def _tell_of(made: "MadeReport") -> None:
    if made.notice:
        tell(made.notice)
    show(str(made.file))
