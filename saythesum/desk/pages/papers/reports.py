"""Reports: the review, the parent's page, the visiting teacher's and the class page; shown, edited, printed, given out.

An edited sentence goes along with the form from page to page, and is kept nowhere.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from flask import Blueprint, render_template, request
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response

from saythesum.desk.desk import the_desk, today
from saythesum.desk.forms import Field, Form, day_in, with_given
from saythesum.errors import CallerError
from saythesum.office.papers.reporting import class_lines, period, source_of
from saythesum.office.pupils import known_code
from saythesum.publishing.reports.forms import sections_html
from saythesum.publishing.reports.making import PAGES, write_report
from saythesum.reports.page import Page
from saythesum.reports.review.class_page import class_page
from saythesum.reports.review.facts import Fact
from saythesum.reports.review.review import counted

pages = Blueprint("reports", __name__)
Answer = str | tuple[str, int] | Response

DAYS = Form(
    [
        Field("from", "From", "Left empty: three months before the last day.", kind="date"),
        Field("to", "To", "Left empty: the day it is made on.", kind="date"),
        Field("on", "Made on", "Left empty: today.", kind="date"),
    ]
)
DAY = Form([DAYS.by_name["on"]])
FORMS: Mapping[str, tuple[str, str]] = {
    "pdf": ("PDF", "application/pdf"),
    "html": ("HTML, one file", "text/html"),
    "text": ("Plain text", "text/plain"),
    "csv": ("Answers as a table (CSV)", "text/csv"),
    "json": ("Data (JSON)", "application/json"),
}
"""As buttons call them, and their media types."""


@dataclass(frozen=True, slots=True)
class _Report:
    name: str
    """Of its file."""
    code: str
    """ "" for the class."""
    page: Page
    facts: tuple[Fact, ...]
    days: Mapping[str, str]
    """As they were chosen."""

    @property
    def forms(self) -> Mapping[str, str]:
        return {form: words for form, (words, _) in FORMS.items() if self.facts or form != "csv"}


@pages.get("/pupils/<code>/report/<any(review, parent, visit):whom>")
def of_pupil(code: str, whom: str) -> Answer:
    return _answered(code, whom, request.args)


@pages.post("/pupils/<code>/report/<any(review, parent, visit):whom>")
def of_pupil_edited(code: str, whom: str) -> Answer:
    return _answered(code, whom, request.form)


@pages.get("/class")
def of_class() -> Answer:
    return _answered("", "class", request.args)


@pages.post("/class")
def of_class_edited() -> Answer:
    return _answered("", "class", request.form)


def _answered(code: str, whom: str, given: MultiDict[str, str]) -> Answer:
    """`given`: the days, edited sentences by their names, and in `does` what is wanted: a form, or "edit"."""
    pupil = known_code(the_desk().places, code) if code else ""
    problems: dict[str, str] = {}
    report = _report(pupil, whom, given, problems)
    if report is None:
        form = with_given(DAYS if pupil else DAY, given, problems)
        return render_template("reports/days.html", code=pupil, form=form), 422
    edited = _edited(report.page, given, problems)
    does = given.get("does", "")
    if problems or does == "edit":
        return _edit_page(report, edited, problems)
    page = report.page.edited(edited)
    if does not in report.forms:
        return _shown(report, page, edited)
    return _given_out(report, page, edited, does)


def _report(pupil: str, whom: str, given: Mapping[str, str], problems: dict[str, str]) -> _Report | None:
    """None where the days cannot be."""
    first, last, on = (day_in(given, name, problems) for name in ("from", "to", "on"))
    if first and first > (last or on or today()):
        problems["from"] = "The first day comes after the last: right would be the earlier day first."
    if problems:
        return None
    on = on or today()
    days = {name: given.get(name, "") for name in (DAYS if pupil else DAY).by_name}
    if not pupil:
        page, facts = class_page(tuple(class_lines(the_desk().places, on)), on), ()
        return _Report(f"class-{on}", "", page, facts, days)
    of = counted(source_of(the_desk().places, pupil), period(first, last, on))
    return _Report(f"{pupil}-{whom}-{on}", pupil, PAGES[whom](of), of.facts, days)


def _edited(page: Page, given: Mapping[str, str], problems: dict[str, str]) -> Mapping[str, str]:
    """The sentences that are others than the tool's, with what is wrong with each."""
    edited = {}
    for name, text in page.sentences.items():
        new = " ".join(given.get(name, text).split())
        if new != " ".join(text.split()):
            edited[name] = new
            try:
                page.edited({name: new})
            except CallerError as error:
                problems[name] = str(error)
    return edited


def _shown(report: _Report, page: Page, edited: Mapping[str, str], notice: str = "") -> str:
    form = with_given(DAYS if report.code else DAY, report.days)
    return render_template(
        "reports/shown.html",
        report=report,
        page=page,
        sections=sections_html(page),
        edited=edited,
        form=form,
        notice=notice,
    )


def _edit_page(report: _Report, edited: Mapping[str, str], problems: Mapping[str, str]) -> Answer:
    groups = [(one.heading, _fields(report.page, one.name)) for one in report.page.sections if one.sentences]
    form = with_given(Form([field for _, fields in groups for field in fields]), edited, problems)
    page = render_template(
        "reports/edit.html",
        report=report,
        page=report.page,
        form=form,
        groups=[(heading, [field.name for field in fields]) for heading, fields in groups],
    )
    return (page, 422) if problems else page


def _fields(page: Page, section: str) -> list[Field]:
    mine = [(name, text) for name, text in page.sentences.items() if name.rpartition(".")[0] == section]
    return [Field(name, f"Sentence {place}", value=text, kind="lines") for place, (name, text) in enumerate(mine, 1)]


def _given_out(report: _Report, page: Page, edited: Mapping[str, str], form: str) -> Answer:
    with TemporaryDirectory() as folder:
        made = write_report(page, report.facts, report.name, form, Path(folder))
        if made.notice:
            return _shown(report, page, edited, made.notice)
        response = Response(made.file.read_bytes(), content_type=f"{FORMS[form][1]}; charset=utf-8")
    response.headers["Content-Disposition"] = f'attachment; filename="{made.file.name}"'
    return response
