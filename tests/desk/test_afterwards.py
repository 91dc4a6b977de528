"""The two minutes after a practice."""

import re
from pathlib import Path

import pytest

from saythesum.core.records.rows import Note, NoteKind, Void
from saythesum.office.afterwards import doubtful, today_of, today_said
from saythesum.office.plans.today import offers_not_done
from saythesum.office.pupils import add_pupil
from saythesum.store.records import SqliteStore
from tests.desk.application import NOW, Application, said
from tests.office.places import home_in
from tests.office.school import all_rows, keeps, some_answers
from tests.office.test_afterwards import DAY, practised

PATH = "/pupils/rk-7/afterwards/"
ON = {"on": str(DAY)}


@pytest.fixture
def app(tmp_path: Path) -> Application:
    places = home_in(tmp_path)
    add_pupil(places, "rk-7", NOW)
    practised(places, unsure=7)
    return Application(tmp_path)


def shown(app: Application) -> str:
    return said(app.asks(f"{PATH}?on={DAY}"))


def asked_about(app: Application) -> list[str]:
    html = app.asks(f"{PATH}?on={DAY}").get_data(as_text=True)
    return re.findall(r'name="answer" value="([^"]+)"', html)


def test_each_doubt_is_one_press_and_a_row_of_its_own(app: Application, tmp_path: Path) -> None:
    ids = [one.answer.id for one in doubtful(home_in(tmp_path), "rk-7", DAY)]
    assert asked_about(app) == ids and len(ids) == 5
    [(_, before, _)] = all_rows(home_in(tmp_path)).values()
    for id, judgement in zip(ids, ("said-so", "was-right", "with-help", "not-said"), strict=False):
        assert app.sends(PATH + "answer", answer=id, judgement=judgement, **ON).status_code == 303
        assert id not in asked_about(app)
    [(_, after, _)] = all_rows(home_in(tmp_path)).values()
    so, right, helped, void = after[len(before) :]
    assert isinstance(so, Note) and (so.of, so.what, so.value) == (ids[0], NoteKind.TEXT, "said so")
    assert isinstance(void, Void) and void.of == ids[3]
    assert isinstance(helped, Note) and (helped.of, helped.what) == (ids[2], NoteKind.SUPPORT)
    assert isinstance(right, Note) and (right.of, right.what) == (ids[1], NoteKind.WAS_RIGHT)
    again = app.sends(PATH + "answer", answer=ids[3], judgement="said-so", **ON)
    assert again.status_code == 422 and "was taken back already" in said(again)
    assert "Looked at: 38 + 3" in shown(app)


def test_the_focus_is_on_the_next_answer_and_what_was_kept_describes_it(app: Application) -> None:
    first, second, *_ = asked_about(app)
    app.sends(PATH + "answer", answer=first, judgement="said-so", **ON)
    html = app.asks(f"{PATH}?on={DAY}").get_data(as_text=True)
    form = html.split(f'value="{second}"')[1].split("</form>")[0]
    assert re.search(r'aria-describedby="kept" autofocus>Said so<', form)
    assert html.count("autofocus") == 1 and "Kept: said so." in html


def test_the_pupils_words_and_the_day_in_one_line(app: Application, tmp_path: Path) -> None:
    assert app.sends(PATH + "words", words="I like the <b>boats</b>", **ON).status_code == 303
    line = today_said(today_of(home_in(tmp_path), "rk-7", DAY))
    assert "I like the <b>boats</b>" in line and line in shown(app)
    wrong = app.sends(PATH + "words", words="x" * 501, **ON)
    assert wrong.status_code == 422 and "x" * 501 in wrong.get_data(as_text=True)
    nothing = app.sends(PATH + "words", words="Boats", on="2031-05-13")
    assert nothing.status_code == 422 and "Nothing was answered that day" in said(nothing)
    assert line in shown(app)


def test_what_was_heard_is_told_with_what_is_right(app: Application) -> None:
    page = shown(app)
    assert "38 + 3, the whole sum: 41 was heard, which is right. Said so Not said With my help 38 + 5" in page
    assert "38 + 5, the whole sum: 45 was heard. Right is 43. Said so Not said With my help The right answer" in page
    assert "The last practice was on" in said(app.asks(PATH))


def test_a_reason_is_one_press(app: Application, tmp_path: Path) -> None:
    assert app.sends(PATH + "not-done", reason="no time", other="", on="2031-05-13").status_code == 303
    assert app.sends(PATH + "not-done", other="a fire drill", on="2031-05-14").status_code == 303
    kept = offers_not_done(home_in(tmp_path), "rk-7")
    assert [(str(one.day), one.reason) for one in kept] == [("2031-05-13", "no time"), ("2031-05-14", "a fire drill")]
    assert "Offered and not done: a fire drill." in said(app.asks(PATH))
    assert app.sends(PATH + "not-done", other="", **ON).status_code == 422
    assert app.sends(PATH + "not-done", reason="unwell", on="2031-05-15").status_code == 422


def test_while_the_pupil_practises_the_window_marks_and_the_desk_is_told_so(app: Application, tmp_path: Path) -> None:
    keeps(home_in(tmp_path), *some_answers("goes on", "rk-7"), minute=40)
    id = asked_about(app)[0]
    before = all_rows(home_in(tmp_path))
    practising = SqliteStore(home_in(tmp_path).records_file)
    try:
        refused = app.sends(PATH + "answer", answer=id, judgement="not-said", **ON)
        assert refused.status_code == 422
        assert "perhaps rk-7: nothing was changed; try again when the practice is over." in said(refused)
        words = app.sends(PATH + "words", words="Boats are easy", **ON)
        assert words.status_code == 422 and 'value="Boats are easy"' in words.get_data(as_text=True), "nothing is lost"
    finally:
        practising.close()
    assert all_rows(home_in(tmp_path)) == before
    assert app.sends(PATH + "answer", answer=id, judgement="not-said", **ON).status_code == 303


def test_the_second_of_two_desks_is_told_what_the_first_one_noted(app: Application, tmp_path: Path) -> None:
    other = Application(tmp_path)
    id = asked_about(app)[0]
    app.sends(PATH + "answer", answer=id, judgement="with-help", **ON)
    other.sends(PATH + "answer", answer=id, judgement="said-so", **ON)
    told = shown(other)
    assert "Noted of the same answer before: with an adult's help (words)." in told
    assert "Noted of the same answer" not in shown(app)


def test_odd_input_is_a_sentence(app: Application, tmp_path: Path) -> None:
    before = all_rows(home_in(tmp_path))
    assert app.sends(PATH + "answer", answer="oars", judgement="said-so", **ON).status_code == 422
    assert app.sends(PATH + "answer", answer=asked_about(app)[0], judgement="oars", **ON).status_code == 400
    assert app.asks(PATH + "?on=oars").status_code == 409
    assert app.asks("/pupils/nobody/afterwards/").status_code == 409
    assert all_rows(home_in(tmp_path)) == before


def test_a_pupil_without_records_has_the_page_too(tmp_path: Path) -> None:
    file = home_in(tmp_path).pupil_file("mo")
    file.parent.mkdir(parents=True)
    file.write_text("", encoding="utf-8")
    page = said(Application(tmp_path).asks("/pupils/mo/afterwards/"))
    assert "nothing practised" in page and "Nothing was answered on this day." in page


def test_answers_typed_in_are_nothing_to_be_sure_of(tmp_path: Path) -> None:
    add_pupil(home_in(tmp_path), "rk-7", NOW)
    practised(home_in(tmp_path))
    assert asked_about(Application(tmp_path)) == []
