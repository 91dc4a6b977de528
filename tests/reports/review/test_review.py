"""The review of the harbour school's pupil, recounted by SQL, in every form; and what it makes of odd input."""

import json
import re
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import Any
from uuid import UUID

import pikepdf
import pytest

from saythesum.core.grids.grid import Cell
from saythesum.core.records.marks import COUNTS, FROM_HERE, KINDS, SAID_SO, YES, Mark
from saythesum.core.records.rows import Answer, By, NoteKind, Purpose, Support, Void, VoidReason
from saythesum.errors import CallerError
from saythesum.office.erasing import erase
from saythesum.office.giving import give
from saythesum.office.papers.reporting import class_lines, period, source_of
from saythesum.office.places import Places
from saythesum.office.taking_in import take_in
from saythesum.publishing.pdf import pdf_of
from saythesum.publishing.reports.forms import facts_csv, page_html, page_json, page_text
from saythesum.publishing.reports.making import PAGES, write_report
from saythesum.reports.page import Page
from saythesum.reports.review.class_page import class_page
from saythesum.reports.review.facts import Fate, facts_of, firsts
from saythesum.reports.review.review import Counted, counted, review
from saythesum.reports.review.source import Period, PracticeRead, Source
from tests.office.places import home_in
from tests.reports.review.by_sql import BySql
from tests.reports.review.harbour import FERRY, FIRST, LAST, ON, PUPIL, Rows, days, keep_all

PERIOD = Period(FIRST, LAST, ON)


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Places:
    home = home_in(tmp_path_factory.mktemp("harbour"))
    keep_all(home)
    return home


@pytest.fixture(scope="module")
def harbour(home: Places) -> Counted:
    return counted(source_of(home, PUPIL), PERIOD)


@pytest.fixture(scope="module")
def sql(harbour: Counted, tmp_path_factory: pytest.TempPathFactory) -> BySql:
    file = tmp_path_factory.mktemp("csv") / "rows.csv"
    file.write_text(facts_csv(harbour.facts), encoding="utf-8", newline="")
    return BySql(file)


def said(page: Page) -> str:
    """The text form, its lines joined again."""
    return " ".join(page_text(page).split())


# ---- every figure, by a second path


def test_every_share_is_what_sql_makes_of_the_csv(harbour: Counted, sql: BySql) -> None:
    text = said(review(harbour))
    for skill, (right, of) in sql.shares("skill").items():
        assert re.search(rf"{skill}: Right unaided {right} of {of}\b", text), skill
    for condition, by in (("By {}", '"by"'), ("Print size {}", "print_size"), ("Voice at {} words", "rate_wpm")):
        for value, (right, of) in sql.shares(by).items():
            assert f"{condition.format(value)}" in text and f"Right unaided {right} of {of}" in text
    for operation, sign in (("add", "+"), ("take", "−")):
        counted_by_sql = sql.ask(
            "SELECT operation, start % 10, amount, sum(alone), count(*) FROM first WHERE purpose = 'practice' "
            "GROUP BY 1, 2, 3"
        )
        for of_operation, one, amount, right, of in counted_by_sql:
            if of_operation != operation:
                continue
            (line,) = re.findall(rf"Start's ones {one}: [^.]*{re.escape(sign)}{amount} \w+, (\d+ of \d+)", text)
            assert line == f"{right} of {of}"


def test_support_probes_target_and_what_is_apart_are_what_sql_counts(harbour: Counted, sql: BySql) -> None:
    text = said(review(harbour))
    levels = {"independent": "alone", "asked": "asked a question", "first-step": "first step given"}
    weeks = sql.ask(
        "SELECT date(day, '-6 days', 'weekday 1'), support, count(*) FROM answer WHERE \"right\" = '1' "
        "AND part IN ('whole', 'total') AND purpose = 'practice' AND taken_back = '' GROUP BY 1, 2"
    )
    assert len(weeks) > 20
    for week, support, count in weeks:
        begins = date.fromisoformat(str(week))
        (line,) = re.findall(rf"Week from {begins.day} {begins:%B}: ([^.]*)\.", text)
        assert f"{levels[str(support)]} {count}" in line
    probes = sql.ask(
        "SELECT day, sum(alone), count(*) FROM first WHERE purpose = 'probe' GROUP BY practice ORDER BY day"
    )
    first, last = probes
    assert f"Baseline, 7 January 2031: {first[1]} of {first[2]} right." in text
    assert f"Now, 7 April 2031: {last[1]} of {last[2]} right." in text
    on_target = sql.ask(
        "SELECT day, sum(alone), count(*) FROM first WHERE purpose = 'practice' AND day >= '2031-03-20' "
        "AND title = 'Seats on the ferry' GROUP BY day HAVING count(*) >= 10 ORDER BY day"
    )
    met = [day for day, right, of in on_target if int(str(right)) * 10 >= 8 * int(str(of))]
    assert (len(on_target), met) == (3, ["2031-03-25", "2031-04-03"])
    assert "Met on 2 of the 3 days with 10 first answers or more: 25 March, 3 April." in text
    ((voids,),) = sql.ask("SELECT count(*) FROM answer WHERE taken_back <> ''")
    ((unsure,),) = sql.ask("SELECT count(*) FROM answer WHERE taken_back = '' AND close_to <> '' AND \"right\" = '0'")
    assert voids == 5 and f"Answers taken back: {voids} (5 not what the pupil said)." in text
    assert f"Not heard for sure, and so counted in no share: {unsure}." in text
    ((practised,),) = sql.ask("SELECT count(DISTINCT day) FROM answer WHERE purpose <> 'paper'")
    assert len(days()) == 22 and practised == 24
    assert f"Offered on {int(str(practised)) + 2} days, practised on {practised}, not done on 2." in text
    assert "Not done: 11 February, unwell; 4 March, no quiet place." in text


def test_what_speaks_for_a_mistake_and_against_it_stands_there(harbour: Counted) -> None:
    text = said(review(harbour))
    assert re.search(r"Could be losing the new ten: \d+ \+ \d answered \d+, .*Against it: ", text)
    assert "new-ten-lost" not in text  # no code of ours


# ---- forms


def test_the_review_is_two_pages_and_tagged(harbour: Counted) -> None:
    html = page_html(review(harbour))
    pdf = pikepdf.open(BytesIO(data := pdf_of(html)))
    assert 1 <= len(pdf.pages) <= 2
    assert str(pdf.Root.Lang) == "en-GB" and pdf.docinfo["/Title"] == "Review of rk-7"
    nodes = tuple(_nodes(pdf.Root.StructTreeRoot))
    kinds = [str(node.S) for node in nodes]
    assert kinds.count("/H1") == 1 and kinds.count("/H2") == len(review(harbour).sections)
    headers = {str(node.ID) for node in nodes if node.S == "/TH"}
    for cell in (node for node in nodes if node.S == "/TD"):
        row, column = map(str, cell.A.Headers)  # each cell names its row's and its column's header
        assert row in headers and column in headers and row != column
    assert any("Support over time" in str(node.get("/Alt", "")) for node in nodes if node.S == "/Figure")
    read = subprocess.run(["pdftotext", "-", "-"], input=data, capture_output=True, check=True).stdout.decode()
    headings = [section.heading for section in review(harbour).sections]
    places = [" ".join(read.split()).index(heading) for heading in headings]
    assert places == sorted(places)


def _nodes(node: pikepdf.Object) -> Iterator[pikepdf.Object]:
    kids: Any = node.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from _nodes(kid)


def test_every_form_says_the_same(harbour: Counted) -> None:
    for make in PAGES.values():
        page = make(harbour)
        html = unescape(re.sub(r"<[^>]+>", " ", page_html(page)))
        text, plain = said(page), json.loads(page_json(page, harbour.facts))
        for section in page.sections:
            for sentence in section.sentences:
                assert " ".join(sentence.split()) in text
                assert sentence in html
        assert plain["version"] == 1 and plain["title"] == page.title and len(plain["answers"]) == len(harbour.facts)


def test_a_note_with_markup_stays_words(harbour: Counted) -> None:
    assert "counted on &lt;his&gt; fingers &amp; smiled" in page_html(review(harbour))
    assert "counted on <his> fingers & smiled" in page_text(review(harbour))


def test_the_parents_page_is_one_side_in_plain_words(harbour: Counted) -> None:
    page = PAGES["parent"](harbour)
    assert len(pikepdf.open(BytesIO(pdf_of(page_html(page)))).pages) == 1
    for word in ("%", "support", "probe", "first-step", "baseline", "void", "diagnosed"):
        assert word not in said(page).lower(), word


def test_the_visiting_teachers_page_has_what_changed_with_its_day(harbour: Counted) -> None:
    since = counted(harbour.source, replace(PERIOD, first=date(2031, 2, 1)))
    text = said(PAGES["visit"](since))
    assert "3 February 2031: speech.rate_wpm was not set, is 120." in text
    assert "20 March 2031: Adds five and eight across a ten" in text
    later = counted(harbour.source, replace(PERIOD, first=date(2031, 4, 1)))
    assert re.search(r"Settings that changed -+ None\.", said(PAGES["visit"](later)))


def test_the_class_page_has_no_ranking(home: Places) -> None:
    page = class_page(tuple(class_lines(home, ON)), ON)
    text = said(page)
    assert "Pupil rk-7: Next the tool's choice; Last practice 7 April." in text and "%" not in text


def test_sentences_can_be_edited_and_figures_cannot(harbour: Counted) -> None:
    page = review(harbour).edited({"target.1": "Adds eight on the ferry.", "probes.2": ""})
    assert page.sections[0].sentences[0] == "Adds eight on the ferry." and len(page.sections[1].sentences) == 1
    assert [one.table for one in page.sections] == [one.table for one in review(harbour).sections]
    with pytest.raises(CallerError, match=r"no sentence skills\.1"):
        review(harbour).edited({"skills.1": "All is well."})
    name, before = next((name, text) for name, text in page.sentences.items() if len(re.findall(r"\d+", text)) > 1)
    first, second, *_ = re.findall(r"\d+", before)
    assert page.edited({name: f"After {first} it was {second}, which is the tool's own."}).sentences[name]
    for other in (f"It was {first}{second}.", f"It was {second}, then {first}.", f"{before} And {first} {second}."):
        with pytest.raises(CallerError, match="where it was not counted"):
            page.edited({name: other})


# ---- given out, erased and taken in again


def test_given_erased_and_taken_in_the_pages_are_the_same_byte_for_byte(tmp_path: Path) -> None:
    here = home_in(tmp_path / "here")
    keep_all(here)
    before = [page_html(make(counted(source_of(here, PUPIL), PERIOD))) for make in PAGES.values()]
    from tests.reports.review.harbour import _at

    given = give(here, tmp_path / "rk.json", _at(ON), [PUPIL])
    erase(here, PUPIL, _at(ON))
    with pytest.raises(CallerError, match="There is no pupil rk-7"):
        source_of(here, PUPIL)
    take_in(here, given.file, {}, even_erased={PUPIL})
    assert [page_html(make(counted(source_of(here, PUPIL), PERIOD))) for make in PAGES.values()] == before


# ---- little, and odd


def _of(rows: Rows | None) -> Counted:
    read = () if rows is None else (_read(rows),)
    return counted(Source("rk-7", read), PERIOD)


def _read(rows: Rows) -> PracticeRead:
    return PracticeRead(
        rows.practice, date(2031, 2, 3), FERRY.title, (), rows.rows, [date(2031, 2, 3)] * len(rows.rows), 5, 140
    )


def _made(kind: str) -> Rows | None:
    rows = Rows(UUID(int=1), By.KEYS)
    match kind:
        case "no answer":
            return None
        case "one answer":
            rows.right(FERRY, Cell(0, 0))
        case "only taken back":
            rows.right(FERRY, Cell(0, 0))
            rows.rows.append(Void(rows._id, rows.rows[-1].id, VoidReason.ADULT))
        case "only helped":
            rows.called_for_help(FERRY, Cell(0, 0))
        case "only paper":
            rows.purpose = Purpose.PAPER
            rows.right(FERRY, Cell(0, 0))
    return rows


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("no answer", "Nothing was answered without help yet."),
        ("one answer", "Adding across a ten: Right unaided 1 of 1;"),
        ("only taken back", "Answers taken back: 1 (1 by an adult)."),
        ("only helped", "Adding across a ten: Right unaided 0 of 1;"),
        ("only paper", "On paper (how is not noted): Right unaided 1 of 1."),
    ],
)
def test_of_little_every_page_is_made(kind: str, says: str) -> None:
    of = _of(_made(kind))
    assert says in said(review(of))
    for make in PAGES.values():
        assert "<h1>" in page_html(make(of)) and page_text(make(of)).endswith("\n")
    if kind in ("only helped", "only paper", "only taken back"):
        assert "alone 1" not in said(review(of))


@pytest.mark.parametrize("value", [Support.ADULT_HELP.value, *KINDS[Mark.HELPED]])
def test_help_that_an_adult_noted_counts_as_such(value: str) -> None:
    rows = Rows(UUID(int=1), By.KEYS)
    rows.note(NoteKind.SUPPORT, value, rows.right(FERRY, Cell(0, 0)))
    (first,) = firsts(facts_of(_read(rows)))
    assert first.answer.right and not first.is_right_unaided
    rows.note(NoteKind.SUPPORT, "", first.answer)
    (first,) = firsts(facts_of(_read(rows)))
    assert first.is_right_unaided, "taken back"


def test_what_an_adult_takes_out_is_in_no_figure_but_attendance() -> None:
    rows = Rows(UUID(int=1), By.VOICE)
    out = rows.right(FERRY, Cell(0, 0))
    rows.note(NoteKind.NOT_COUNTED, "", out)
    for row in range(1, 5):
        rows.right(FERRY, Cell(row, 0))
        rows.right(FERRY, Cell(row, 1))
    rows.note(NoteKind.NOT_COUNTED, FROM_HERE)
    rows.right(FERRY, Cell(0, 1))
    facts = facts_of(_read(rows))
    assert [one.fate for one in facts] == [Fate.NOT_COUNTED, *[Fate.COUNTED] * 8, Fate.NOT_COUNTED]
    text = said(review(_of(rows)))
    assert "practised on 1" in text and "Taken out by an adult: 2." in text and "voice, 2031-02:" in text
    assert {right_of for right_of in re.findall(r"Right unaided (\d+ of \d+)", text)} == {"8 of 8"}
    assert re.search(r"voice, 2031-02: Median .*; Of 8\.", text)
    rows.note(NoteKind.NOT_COUNTED, COUNTS, out)
    assert facts_of(_read(rows))[0].fate is Fate.COUNTED


def test_what_an_adult_says_was_right_is_right_and_its_help_never_was() -> None:
    rows = Rows(UUID(int=1), By.VOICE)
    rows.helped(FERRY, Cell(0, 0), 42, Support.ASKED)
    misheard = next(row for row in rows.rows if isinstance(row, Answer))
    rows.note(NoteKind.WAS_RIGHT, YES, misheard)
    first, total = facts_of(_read(rows))
    assert first.is_right_unaided and first.answer.given == first.answer.right_answer
    assert (total.fate, total.taken_back) == (Fate.TAKEN_BACK, "adult")
    rows.note(NoteKind.WAS_RIGHT, "", misheard)
    first, total = facts_of(_read(rows))
    assert not first.answer.right and total.fate is Fate.COUNTED


def test_what_was_seen_beside_the_pupil_stands_in_the_review() -> None:
    rows = Rows(UUID(int=1), By.VOICE)
    one, other = rows.right(FERRY, Cell(0, 0)), rows.right(FERRY, Cell(0, 1))
    rows.note(NoteKind.WORKED_WITH, "head", one)
    rows.note(NoteKind.WORKED_WITH, "number-line", one)
    rows.note(NoteKind.WORKED_WITH, "fingers", other)
    rows.note(NoteKind.WORKED_WITH, "", other)
    rows.note(NoteKind.WAY, "counted", other)
    rows.note(NoteKind.TEXT, SAID_SO, other)
    for words in ("Boats", "I like boats"):
        rows.note(NoteKind.OWN_WORDS, words)
    text = said(review(_of(rows)))
    assert "Worked with, where an adult noted it: number line 1. How it was found" in text
    assert "How it was found, where an adult noted it: counted on 1." in text
    assert "3 February: I like boats" in text and "February: Boats" not in text and SAID_SO not in text


@pytest.mark.parametrize("right", [3, 12, 38])
def test_the_parents_page_says_what_goes_well_and_never_that_it_is_found_out_for_ever(right: int) -> None:
    """Of 50 sums, the right ones last, so that a hard beginning hides nothing."""
    practices = [Rows(UUID(int=number), By.KEYS) for number in range(1, 6)]
    for place, cell in enumerate(
        [(number, row, column) for number in range(5) for row in range(5) for column in (0, 1)]
    ):
        number, row, column = cell
        if place >= 50 - right:
            practices[number].right(FERRY, Cell(row, column))
        else:
            practices[number].helped(FERRY, Cell(row, column), 11, Support.ASKED)
    text = said(PAGES["parent"](counted(Source("rk-7", tuple(map(_read, practices))), PERIOD)))
    assert "finding out" not in text
    if right < 14:
        assert f"{right} of 50 sums were right at once, and {50 - right} were worked out with a little help" in text
    else:
        assert "Adding across a ten: 20 of the last 20 right at once, without help." in text


def test_dates_the_wrong_way_round_are_refused() -> None:
    with pytest.raises(CallerError, match="--from 2031-04-08 is after --to 2031-01-06"):
        period(LAST, FIRST, ON)
    assert period(None, None, ON) == Period(date(2031, 1, 7), ON, ON)


def test_a_folder_that_cannot_be_written_leaves_no_half_a_file(harbour: Counted, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(CallerError, match="cannot be written"):
        write_report(review(harbour), harbour.facts, "review", "html", tmp_path / "file")
    assert [path.name for path in tmp_path.iterdir()] == ["file"]
