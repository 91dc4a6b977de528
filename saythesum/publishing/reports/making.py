"""A report as a file. Desk and verb both call it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from saythesum.errors import CallerError
from saythesum.publishing.pdf import pdf_of
from saythesum.publishing.reports.forms import facts_csv, page_html, page_json, page_text
from saythesum.publishing.whole_folder import whole_folder
from saythesum.reports.page import Page
from saythesum.reports.review.facts import Fact
from saythesum.reports.review.other_pages import parents_page, visit_page
from saythesum.reports.review.review import Counted, review

FORMS = ("html", "pdf", "csv", "json", "text")
PAGES: Mapping[str, Callable[[Counted], Page]] = {"review": review, "parent": parents_page, "visit": visit_page}
"""By whom they are for."""


@dataclass(frozen=True, slots=True)
class MadeReport:
    file: Path
    notice: str | None
    """What could not be done as asked for."""


def write_report(page: Page, facts: tuple[Fact, ...], name: str, form: str, into: Path) -> MadeReport:
    """Whole or not at all. Without the library for PDF it is HTML. Raises CallerError."""
    notice = None
    match form:
        case "pdf":
            html = page_html(page)
            try:
                content = pdf_of(html)
            except CallerError as missing:
                notice, form, content = str(missing), "html", html.encode()
        case "csv":
            content = facts_csv(facts).encode()
        case "json":
            content = page_json(page, facts).encode()
        case "text":
            form, content = "txt", page_text(page).encode()
        case _:
            content = page_html(page).encode()
    file = f"{name}.{form}"
    with whole_folder(into) as folder:
        (folder / file).write_bytes(content)
    return MadeReport(into / file, notice)
