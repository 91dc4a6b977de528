"""A pupil's own words on the desk: consent noted with day and initials, withdrawn; all of it erased by one press."""

from pathlib import Path

import pytest

from saythesum.app.setup.pupil_settings import has_consent, keep_no
from tests.desk.application import NOW, Application, said
from tests.desk.homes import one_pupil
from tests.office.places import home_in

PAGE = "/pupils/rk-7/own-words/"
TODAY = NOW.date()


@pytest.fixture
def app(tmp_path: Path) -> Application:
    one_pupil(tmp_path)
    return Application(tmp_path)


def test_off_until_consent_is_noted_and_off_again_when_it_is_withdrawn(app: Application, tmp_path: Path) -> None:
    places = home_in(tmp_path)
    page = said(app.asks(PAGE))
    assert "Own words of rk-7 are off; nothing of this pupil's voice is learnt or used." in page
    assert "could be used to tell who speaks. The program never does that" in page
    assert app.sends(PAGE, on="2026-05-12", by="AB").status_code == 303
    assert has_consent("rk-7", places, TODAY)
    assert "are on: consent noted on 2026-05-12 by AB." in said(app.asks(PAGE))
    assert app.sends(f"{PAGE}withdraw").status_code == 303
    assert not has_consent("rk-7", places, TODAY)
    assert "consent" not in places.pupil_file("rk-7").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"on": "2026-05-12", "by": "Mrs Porter"}, 'Noted by cannot be "Mrs Porter"; it is initials of at most 4'),
        ({"on": "2026-05-12", "by": ""}, "Nobody's initials stand for the consent"),
        ({"on": "", "by": "AB"}, "Give the day on which the consent was noted."),
        ({"on": "last May", "by": "AB"}, "“last May” is no day"),
        ({"on": "2099-05-12", "by": "AB"}, "The day of the consent is still to come"),
    ],
)
def test_what_is_no_consent_is_told(app: Application, tmp_path: Path, given: dict[str, str], told: str) -> None:
    answer = app.sends(PAGE, **given)
    assert answer.status_code == 422 and told in said(answer), said(answer)
    assert not has_consent("rk-7", home_in(tmp_path), TODAY)


def test_after_the_pupils_no_an_adult_has_to_have_asked_again(app: Application, tmp_path: Path) -> None:
    places = home_in(tmp_path)
    app.sends(PAGE, on="2026-05-12", by="AB")
    keep_no("rk-7", places, TODAY)
    answer = app.sends(PAGE, on="2026-05-12", by="AB", **{"asked-again": "no"})
    assert answer.status_code == 422 and "right would be to ask the pupil again first" in said(answer)
    assert app.sends(PAGE, on="2026-05-12", by="AB", **{"asked-again": "yes"}).status_code == 303
    assert has_consent("rk-7", places, TODAY)


def test_one_press_erases_them(app: Application, tmp_path: Path) -> None:
    file = home_in(tmp_path).words_file("rk-7")
    assert "Erase what is kept" not in said(app.asks(PAGE))
    file.write_bytes(b"templates")
    assert "What was kept before is not read" in said(app.asks(PAGE))
    assert app.sends(f"{PAGE}erase").status_code == 303
    assert not file.exists()
    assert "The own words of rk-7 are erased." in said(app.asks(PAGE))


def test_everybodys_settings_have_nothing_of_it(app: Application, tmp_path: Path) -> None:
    assert "own_words" not in app.asks("/everybody").get_data(as_text=True)
    app.sends("/everybody", own_words__use="true")
    assert "own_words" not in home_in(tmp_path).settings_file.read_text(encoding="utf-8")
