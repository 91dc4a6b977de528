"""What the pages say and do, without a browser: what was given in, what is wrong with it, and the way on."""

import json
import re
from io import BytesIO
from pathlib import Path

import pytest

from saythesum.desk.settings_form import typed
from saythesum.desk.settings_words import GROUPS, NOT_ASKED, others
from saythesum.office.keeping import kept_until
from saythesum.office.pupils import own_values, show_pupil
from saythesum.office.upkeep.settings_texts import all_settings
from saythesum.settings import Settings
from saythesum.store.lock import lock_to_practise
from tests.desk.application import Application, Starts, said
from tests.desk.homes import PRACTICE, one_pupil
from tests.office.places import home_in
from tests.office.school import all_rows

PRACTISED = f"/pupils/rk-7/practices/{PRACTICE.id}"


@pytest.fixture
def app(tmp_path: Path) -> Application:
    one_pupil(tmp_path)
    return Application(tmp_path)


def test_every_setting_is_on_the_page_by_its_words_or_by_its_name() -> None:
    worded = [one.setting for group in GROUPS for one in group.settings]
    assert len(worded) == len(set(worded))
    assert set(worded) <= set(all_settings())
    unworded = others((*all_settings(), "oars.length_cm"))
    assert unworded
    print("without words of its own:", [one.label for one in unworded.settings])
    assert unworded.settings[-1].label == "oars.length cm"
    assert {one.setting for one in unworded.settings} >= set(all_settings()) - set(worded) - NOT_ASKED


def test_what_a_form_shows_it_takes_back(app: Application, tmp_path: Path) -> None:
    """Each setting's own default, sent as the form would show it, is taken and comes to the same."""
    shown = {}
    for name in all_settings():
        table, _, setting = name.partition(".")
        if name not in NOT_ASKED and (text := typed(name, getattr(getattr(Settings(), table), setting))):
            shown[name] = text
    answer = app.sends("/pupils/rk-7/settings", **shown)
    assert answer.status_code == 303, said(answer)
    assert show_pupil(home_in(tmp_path), "rk-7").settings == Settings()


def test_waits_are_in_seconds(app: Application, tmp_path: Path) -> None:
    app.sends("/pupils/rk-7/settings", waits__said_back_ms="2,5", waits__counting_ms="for ever")
    own = own_values(home_in(tmp_path), "rk-7")
    assert (own["waits.said_back_ms"], own["waits.counting_ms"]) == (2500, "for ever")
    page = said(app.asks("/pupils/rk-7/"))
    assert "After a number was said back: was left open, is 2.5." in page
    assert "While counting aloud: was left open, is for ever." in page


def test_all_of_a_form_is_refused_where_some_of_it_cannot_be(app: Application, tmp_path: Path) -> None:
    before = own_values(home_in(tmp_path), "rk-7")
    answer = app.sends("/pupils/rk-7/settings", speech__rate_wpm="fast", waits__said_back_ms="9", window__size="12")
    assert answer.status_code == 422
    told = said(answer)
    assert 'Speed, in words a minute cannot be "fast"; it is a whole number from 80 to 400.' in told
    assert 'Size of print, 0 to 8 cannot be "12"; it is a whole number from 0 to 8.' in told
    assert 'value="fast"' in answer.get_data(as_text=True)
    assert own_values(home_in(tmp_path), "rk-7") == before


def test_one_key_is_not_given_to_two_things(app: Application, tmp_path: Path) -> None:
    answer = app.sends("/pupils/rk-7/settings", keys__help="F5", keys__stop="F5")
    assert answer.status_code == 422
    assert 'has "F5", the key of' in said(answer)


def test_what_is_left_alone_stays_with_its_remarks(app: Application, tmp_path: Path) -> None:
    file = home_in(tmp_path).pupil_file("rk-7")
    file.write_text("# by hand\n[speech]\nrate_wpm = 120  # slowly\n", encoding="utf-8")
    app.sends("/pupils/rk-7/settings", speech__rate_wpm="120", wording__length="full")
    text = file.read_text(encoding="utf-8")
    assert "# by hand" in text and "# slowly" in text and 'length = "full"' in text


def test_settings_broken_by_hand_are_told_with_their_line_and_nothing_is_lost(app: Application, tmp_path: Path) -> None:
    file = home_in(tmp_path).pupil_file("rk-7")
    file.write_text("[speech]\nrate_wpm = fast\npitch = 40\n", encoding="utf-8")
    assert f"Settings, {file}: Line 2 cannot be read" in said(app.asks("/pupils/rk-7/"))
    answer = app.sends("/pupils/rk-7/settings", speech__pitch="60")
    assert answer.status_code == 422
    assert "put it right first" in said(answer)
    assert file.read_text(encoding="utf-8") == "[speech]\nrate_wpm = fast\npitch = 40\n"


def test_a_voice_is_heard_and_a_window_seen_before_anything_is_kept(app: Application, tmp_path: Path) -> None:
    before = own_values(home_in(tmp_path), "rk-7")
    page = app.sends("/pupils/rk-7/settings", preview="window", window__size="7", window__colours="white on navy")
    assert "Thirty-eight add three, in white on navy, size 7" in page.get_data(as_text=True)
    picture = app.asks("/preview/window.png?window.size=7&window.colours=white+on+navy")
    assert (picture.mimetype, picture.get_data()[1:4]) == ("image/png", b"PNG")
    assert picture.get_data() != app.asks("/preview/window.png?window.size=0").get_data()
    sound = app.asks("/preview/voice.wav?speech.rate_wpm=300")
    slower = app.asks("/preview/voice.wav?speech.rate_wpm=100")
    assert sound.get_data()[:4] == b"RIFF"
    assert len(slower.get_data()) > 2 * len(sound.get_data())
    assert own_values(home_in(tmp_path), "rk-7") == before


def test_a_practice_is_started_with_what_was_chosen(tmp_path: Path) -> None:
    one_pupil(tmp_path)
    starts = Starts()
    app = Application(tmp_path, starts)
    for what in ("go-on", "grid-harbour", "probe", "find-out"):
        assert app.sends("/pupils/rk-7/start", what=what).status_code == 303
    assert [list(words[2:]) for words in starts.words] == [[], ["--grid", "harbour"], ["--probe"], ["--find-out"]]
    assert {tuple(words[:2]) for words in starts.words} == {("--pupil", "rk-7")}
    assert app.sends("/pupils/rk-7/start", what="grid-../../etc").status_code == 409
    assert app.sends("/pupils/nobody/start").status_code == 409
    assert len(starts.words) == 4


def test_a_start_that_fails_is_a_sentence_on_the_page(tmp_path: Path) -> None:
    one_pupil(tmp_path)
    answer = Application(tmp_path, Starts("There is no screen here.")).sends("/pupils/rk-7/start")
    assert answer.status_code == 409
    assert said(answer) == "The practice of rk-7 did not begin There is no screen here. Back to rk-7"


def test_while_somebody_practises_reading_goes_on_and_writing_says_why_not(app: Application, tmp_path: Path) -> None:
    rows = all_rows(home_in(tmp_path))
    lock = lock_to_practise(tmp_path)
    try:
        assert app.asks("/pupils/rk-7/").status_code == 200
        assert app.asks(PRACTISED + "/").status_code == 200
        answer = app.sends("/pupils/rk-7/erase", code="rk-7")
        assert answer.status_code == 409
        assert "Another copy of saythesum is practising" in said(answer)
    finally:
        lock.close()
    assert all_rows(home_in(tmp_path)) == rows


def test_erasing_waits_for_the_code_to_be_typed(app: Application, tmp_path: Path) -> None:
    assert app.sends("/pupils/rk-7/erase", code="rk-8").status_code == 422
    assert "rk-7" in all_pupils(tmp_path)
    done = app.sends("/pupils/rk-7/erase", code=" RK-7 ")
    assert done.status_code == 200
    assert "rk-7 is erased" in said(done)
    assert "Not removed: files of records, logs and reports that you saved elsewhere" in said(done)
    assert "rk-7" not in all_pupils(tmp_path)


def all_pupils(home: Path) -> str:
    return said(Application(home).asks("/pupils/"))


def test_an_answer_is_corrected_with_a_trace(app: Application, tmp_path: Path) -> None:
    page = app.asks(PRACTISED + "/").get_data(as_text=True)
    address = re.findall(f'href="({PRACTISED}/[^"]+)"', page)[0]
    assert app.sends(address, what="note").status_code == 422
    assert app.sends(address, what="helped", note="counted along").status_code == 303
    told = said(app.asks(PRACTISED + "/"))
    assert "Note: with an adult's help." in told and "Note: counted along." in told
    assert app.sends(address, what="take-back").status_code == 303
    assert "taken back" in said(app.asks(PRACTISED + "/"))
    assert app.sends(address, what="take-back").status_code == 422


def test_a_practice_is_moved_and_back(app: Application, tmp_path: Path) -> None:
    app.sends("/pupils/new", code="mo-2")
    assert app.sends(PRACTISED + "/", to="mo-2", first="5", last="2").status_code == 422
    assert app.sends(PRACTISED + "/", to="mo-2").status_code == 303
    assert str(PRACTICE.id) in app.asks("/pupils/mo-2/practices/").get_data(as_text=True)
    assert str(PRACTICE.id) not in app.asks("/pupils/rk-7/practices/").get_data(as_text=True)
    app.sends(f"/pupils/mo-2/practices/{PRACTICE.id}/", to="rk-7")
    assert str(PRACTICE.id) in app.asks("/pupils/rk-7/practices/").get_data(as_text=True)


def test_two_pupils_of_one_code_are_kept_apart(app: Application, tmp_path: Path) -> None:
    """The file of another laptop has a rk-7, too: this one gets another code here."""
    other = tmp_path / "other"
    other.mkdir()
    one_pupil(other)
    given = Application(other).sends("/records/give").get_data()
    assert "Here before" in said(app.sends("/records/take-in", file=(upload(given), "all.json")))
    page = app.sends("/records/taken-in", **{"as-rk-7": "rk-9", "look": "1"})
    assert "Not here yet." in said(page)
    app.sends("/records/taken-in", **{"as-rk-7": "rk-9"})
    assert {"rk-7", "rk-9"} <= set(all_pupils(tmp_path).split())


def test_records_cut_edited_or_newer_are_told_apart(app: Application) -> None:
    given = app.sends("/records/give").get_data()
    assert json.loads(given)["count"]["pupils"] == 1
    tellings = {
        given[: len(given) // 2]: "it seems to be cut off",
        given.replace(b'"version": 1', b'"version": 9'): "from a newer saythesum",
        b"PK\3\4": "cannot be read",
    }
    for content, telling in tellings.items():
        answer = app.sends("/records/take-in", file=(upload(content), "x.json"))
        assert answer.status_code == 422
        assert telling in said(answer)
    edited = app.sends("/records/take-in", file=(upload(given.replace(b'"at_ms": 0', b'"at_ms": 1', 1)), "x.json"))
    assert "Take it in although it was changed" in said(edited)
    refused = app.sends("/records/taken-in", **{"as-rk-7": "rk-7"})
    assert refused.status_code == 422
    assert "was changed since it was given out" in said(refused)


def upload(content: bytes) -> BytesIO:
    return BytesIO(content)


def test_a_wish_that_cannot_be_met_says_what_stands_against_it(app: Application) -> None:
    answer = app.sends(
        "/grids/new", kinds="landing", starts="41-43", amounts="2-9", rows="3", columns="2", unequal="yes"
    )
    assert answer.status_code == 422
    assert "There is no grid of 3 rows and 2 columns as wished." in said(answer)
    assert "There is one with sums of any kind" in said(answer)


def test_a_grid_is_typed_with_its_problems_line_by_line(app: Application) -> None:
    answer = app.sends("/grids/typed", name="dock", text="add = [0, 5]\nstart = [38, 2000]\n")
    assert answer.status_code == 422
    assert "Line 1: add has 0" in said(answer) and "Line 2: start has 2000" in said(answer)
    assert app.sends("/grids/typed", name="dock", text="add = [5]\nstart = [38]\n").status_code == 303
    assert "38 43" in said(app.asks("/grids/dock/"))


def test_a_target_and_a_day_for_the_records(app: Application, tmp_path: Path) -> None:
    wrong = app.sends("/pupils/rk-7/target", sentence="", right="9", of="8", by="2031-02-30")
    assert wrong.status_code == 422
    assert "Write the target as one sentence." in said(wrong) and "is no day" in said(wrong)
    kept = app.sends(
        "/pupils/rk-7/target", sentence="Fills every boat.", right="8", of="10", by="2031-06-30", sums="harbour"
    )
    assert kept.status_code == 303
    assert "Fills every boat. 8 of 10, harbour, unaided, by 30 June 2031." in said(app.asks("/pupils/rk-7/"))
    assert app.sends("/pupils/rk-7/keep", until="2031-07-31").status_code == 303
    assert str(kept_until(home_in(tmp_path), "rk-7")) == "2031-07-31"
    assert app.sends("/pupils/rk-7/keep", until="").status_code == 303
    assert kept_until(home_in(tmp_path), "rk-7") is None


def test_damaged_records_are_a_sentence(app: Application, tmp_path: Path) -> None:
    (tmp_path / "records.sqlite").write_bytes(b"no records at all" * 999)
    answer = app.asks("/")
    assert answer.status_code == 409
    assert "That could not be done" in said(answer)


def test_a_plan_is_typed_shown_and_put_away(app: Application) -> None:
    wrong = app.sends("/plans/typed", name="week-21", text='pupils = ["rk-7"]\n[monday]\ndo = ["nowhere"]\n')
    assert wrong.status_code == 422
    assert "monday names the grid nowhere, which is not here" in said(wrong)
    text = 'title = "Oars"\npupils = ["rk-7"]\n[wednesday]\ndo = ["harbour", "probe"]\n'
    assert app.sends("/plans/typed", name="week-21", text=text).status_code == 303
    assert "Wednesday the grid harbour, then a probe" in said(app.asks("/plans/week-21/"))
    assert app.sends("/plans/typed", name="week-21", text=text).status_code == 422
    assert app.sends("/plans/typed", name="week-21", text=text, over="yes").status_code == 303
    assert app.sends("/plans/week-21/put-away").status_code == 303
    assert "Oars" not in said(app.asks("/plans/"))


def test_what_is_planned_for_today_is_offered(app: Application) -> None:
    assert "Today: the grid harbour, then a probe." in said(app.asks("/"))
    assert "What is planned for today: the grid harbour, then a probe" in said(app.asks("/pupils/rk-7/"))
    assert "To do: the grid harbour, then a probe." in said(app.asks("/pupils/rk-7/today"))
    pdf = app.asks("/pupils/rk-7/today/pdf")
    assert pdf.mimetype == "application/pdf" and pdf.data.startswith(b"%PDF-")
    assert app.asks("/pupils/rk-7/today?on=oars").status_code == 409
