"""Reports on the desk: the same page as the verb's, in other words where an adult wants them, and as files."""

import json
import re
from html import unescape
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from saythesum.office.papers.reporting import class_lines, period, source_of
from saythesum.publishing.reports.forms import facts_csv, page_html, page_json, page_text
from saythesum.publishing.reports.making import PAGES
from saythesum.reports.page import Page
from saythesum.reports.review.class_page import class_page
from saythesum.reports.review.review import Counted, counted
from tests.desk.application import Application, said
from tests.office.places import home_in
from tests.reports.review.harbour import FIRST, LAST, ON, PUPIL, keep_all

DAYS = {"from": str(FIRST), "to": str(LAST), "on": str(ON)}
ASKED = "?" + "&".join(f"{name}={day}" for name, day in DAYS.items())


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    home = tmp_path_factory.mktemp("harbour")
    keep_all(home_in(home))
    return home


@pytest.fixture(scope="module")
def app(home: Path) -> Application:
    return Application(home)


@pytest.fixture(scope="module")
def of(home: Path) -> Counted:
    return counted(source_of(home_in(home), PUPIL), period(FIRST, LAST, ON))


def path(whom: str) -> str:
    return f"/pupils/{PUPIL}/report/{whom}"


def words(page: Page) -> str:
    """As HTML says it, in plain words."""
    body = page_html(page).split("<main>")[1].split("</main>")[0]
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", body)).split())


@pytest.mark.parametrize("whom", PAGES)
def test_the_page_says_what_the_file_says(app: Application, of: Counted, whom: str) -> None:
    page = PAGES[whom](of)
    shown = said(app.asks(path(whom) + ASKED))
    title, about, rest = page.title, page.about, words(page).removeprefix(f"{page.title} {page.about} ")
    assert shown.startswith(title) and about in shown and rest in shown


def test_every_form_is_the_verbs_own(app: Application, of: Counted) -> None:
    page = PAGES["review"](of)
    expected = {
        "html": page_html(page),
        "text": page_text(page),
        "csv": facts_csv(of.facts),
        "json": page_json(page, of.facts),
    }
    for form, content in expected.items():
        answer = app.sends(path("review"), does=form, **DAYS)
        assert answer.get_data() == content.encode()
        assert f'filename="{PUPIL}-review-{ON}.' in answer.headers["Content-Disposition"]
    pdf = app.sends(path("review"), does="pdf", **DAYS)
    assert pdf.mimetype == "application/pdf"
    with pikepdf.open(BytesIO(pdf.get_data())) as read:
        assert len(read.pages) <= 2


def test_without_the_library_of_pdf_a_sentence_says_so(
    app: Application, monkeypatch: pytest.MonkeyPatch, of: Counted
) -> None:
    monkeypatch.setitem(__import__("sys").modules, "weasyprint", None)
    sentence = next(iter(PAGES["review"](of).sentences))
    answer = app.sends(path("review"), does="pdf", **{sentence: "In words of ours."}, **DAYS)
    assert "A PDF needs the library weasyprint: install it with" in said(answer)
    assert "In words of ours." in said(answer), "what was edited is still there"


def test_sentences_can_be_edited_and_are_kept_nowhere(app: Application, of: Counted) -> None:
    page = PAGES["review"](of)
    first, second, *_ = page.sentences
    form = app.sends(path("review"), does="edit", **DAYS)
    assert all(text in unescape(form.get_data(as_text=True)) for text in page.sentences.values())
    edited = {first: "Adds eight on the <b>ferry</b>.", second: ""}
    shown = said(app.sends(path("review"), does="show", **edited, **DAYS))
    assert "Adds eight on the <b>ferry</b>." in shown and "Sentences in words of yours: 2." in shown
    assert page.sentences[second] not in shown
    text = app.sends(path("review"), does="text", **edited, **DAYS).get_data(as_text=True)
    assert text == page_text(page.edited(edited))
    data = json.loads(app.sends(path("review"), does="json", **edited, **DAYS).get_data())
    assert data["sections"][0]["sentences"][0] == "Adds eight on the <b>ferry</b>."
    assert page.sentences[second] in said(app.asks(path("review") + ASKED))


def test_a_figure_that_was_not_counted_is_refused_beside_its_sentence(app: Application, of: Counted) -> None:
    name = next(iter(PAGES["review"](of).sentences))
    for does in ("show", "pdf"):
        answer = app.sends(path("review"), does=does, **{name: "All 4321 sums were right."}, **DAYS)
        assert answer.status_code == 422
        assert f"The sentence {name} has the figure 4321 where it was not counted." in said(answer)
        assert "All 4321 sums were right." in said(answer), "what was typed is still there"


def test_days_that_cannot_be_are_told_beside_their_field(app: Application) -> None:
    wrong = app.asks(path("review") + "?from=2031-05-01&to=2031-04-01")
    assert wrong.status_code == 422
    assert "The first day comes after the last" in said(wrong)
    assert "“oars” is no day" in said(app.asks("/class?on=oars"))
    assert app.asks("/pupils/nobody/report/review").status_code == 409
    assert app.asks(f"/pupils/{PUPIL}/report/oars").status_code == 404


def test_the_class_page(app: Application, home: Path) -> None:
    page = class_page(tuple(class_lines(home_in(home), ON)), ON)
    shown = said(app.asks(f"/class?on={ON}"))
    assert words(page).removeprefix(f"{page.title} {page.about} ") in shown
    assert app.sends("/class", does="text", on=str(ON)).get_data(as_text=True) == page_text(page)
    assert "CSV" not in shown


def test_a_pupil_who_has_not_practised_has_a_page_too(tmp_path: Path) -> None:
    app = Application(tmp_path)
    app.sends("/pupils/new", code="mo")
    for whom in PAGES:
        assert app.asks(f"/pupils/mo/report/{whom}").status_code == 200
    assert app.sends("/pupils/mo/report/review", does="pdf").mimetype == "application/pdf"
    assert "The class" in said(app.asks("/class"))
