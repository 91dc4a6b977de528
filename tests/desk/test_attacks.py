"""What a page of another site, another program, another user or a wrong file may try: refused in a sentence, nothing
changed.

Source of the list: OWASP Cheat Sheets on cross-site request forgery, session management, file uploads and DNS
rebinding (from memory); what browsers send with a form of another site: WHATWG Fetch, "Origin header".
"""

import stat
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.desk.homes import SHEET_CODE, one_pupil
from tests.desk.opened import OpenDesk, entered, opened
from tests.desk.visitor import Visitor, let_in, secret_in
from tests.office.places import home_in
from tests.office.school import all_rows

SCRIPT = "<script>alert(1)</script>\"'><img src=x onerror=alert(1)>"


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    home = tmp_path_factory.mktemp("home")
    one_pupil(home)
    return home


@pytest.fixture(scope="module")
def desk(home: Path) -> Iterator[OpenDesk]:
    with opened(home) as desk:
        yield desk


@pytest.fixture(scope="module")
def adult(desk: OpenDesk) -> Visitor:
    rights = stat.S_IMODE(desk.way_in.stat().st_mode)
    assert rights == 0o600, oct(rights)
    return let_in(desk)


@pytest.fixture(autouse=True)
def nothing_changes(home: Path, adult: Visitor) -> Iterator[None]:
    """Of all that the desk keeps."""
    before = kept(home)
    yield
    assert kept(home) == before


def kept(home: Path) -> tuple[object, ...]:
    places = home_in(home)
    files = {
        file: file.read_bytes()
        for file in (places.pupil_file("rk-7"), *sorted(places.grids.rglob("*")))
        if file.is_file()
    }
    return files, all_rows(places), sorted(path for path in home.rglob("*") if "sqlite" not in path.name)


def test_the_secret_is_valid_once(desk: OpenDesk, adult: Visitor) -> None:
    assert not desk.way_in.exists()
    assert Visitor(desk, adult.cookie).asks("/").code == 200


def test_a_secret_that_was_used_lets_nobody_in(home: Path, adult: Visitor) -> None:
    with opened(home) as again:
        secret = secret_in(again)
        first, second = (Visitor(again).sends("/enter", {"secret": secret}) for _ in range(2))
    assert (first.code, second.code) == (200, 403)
    assert "was used already" in second.said
    assert "Set-Cookie" not in second.headers


@pytest.mark.parametrize("secret", ["", "oars", "../../pupils/rk-7", "x" * 5_000, "\0"])
def test_a_guessed_secret_lets_nobody_in(desk: OpenDesk, secret: str) -> None:
    answer = Visitor(desk).sends("/enter", {"secret": secret})
    assert answer.code == 403
    assert "Set-Cookie" not in answer.headers


@pytest.mark.parametrize("path", ["/", "/pupils/rk-7/", "/records", "/nowhere"])
@pytest.mark.parametrize("cookie", ["", "oars"])
def test_without_the_cookie_no_page_is_shown(desk: OpenDesk, path: str, cookie: str) -> None:
    answer = Visitor(desk, cookie).asks(path)
    assert answer.code == 403
    assert "This browser has not been let in" in answer.said
    assert "rk-7" not in answer.page


@pytest.mark.parametrize("path", ["/static/../../../pyproject.toml", "/static/..%2fweb.py", "/static//etc/passwd"])
def test_no_other_file_is_given_out(desk: OpenDesk, path: str) -> None:
    answer = Visitor(desk).asks(path)
    assert answer.code in (403, 404)
    assert "root:" not in answer.page and "hatchling" not in answer.page and "import" not in answer.page


def test_without_the_cookie_nothing_is_done(desk: OpenDesk, adult: Visitor) -> None:
    answer = Visitor(desk).sends("/pupils/rk-7/erase", {"code": "rk-7", "token": adult.token})
    assert answer.code == 403


@pytest.mark.parametrize("host", ["localhost:8040", "127.0.0.1", "harbour.example", "127.0.0.1.harbour.example:80"])
def test_another_host_is_not_answered(adult: Visitor, host: str) -> None:
    """A name of another site may be made to lead to this machine."""
    answer = adult.asks("/", Host=host)
    assert answer.code == 403
    assert f"The desk answers at {adult.desk.address} only" in answer.said


@pytest.mark.parametrize("token", ["", "oars", "null"])
def test_a_form_without_our_token_is_refused(adult: Visitor, token: str) -> None:
    answer = adult.sends("/pupils/rk-7/erase", {"code": "rk-7", "token": token})
    assert answer.code == 403
    assert "does not come from a page of the desk, and nothing was changed" in answer.said


@pytest.mark.parametrize("origin", ["null", "http://harbour.example", "http://127.0.0.1:1", "http://localhost"])
def test_a_form_of_another_site_is_refused(adult: Visitor, origin: str) -> None:
    """Also with a token that was got at somehow."""
    answer = adult.sends("/pupils/rk-7/erase", {"code": "rk-7", "token": adult.token}, Origin=origin)
    assert answer.code == 403


def test_a_real_browser_sends_no_cookie_along_with_another_sites_form(
    home: Path, tmp_path: Path, browser: Browser, adult: Visitor
) -> None:
    with opened(home) as desk:
        context = browser.new_context()
        page = context.new_page()
        entered(page, desk)
        elsewhere = tmp_path / "elsewhere.html"
        elsewhere.write_text(
            f'<form method="post" action="{desk.address}/pupils/rk-7/put-away"><button>Win</button></form>'
        )
        page.goto(elsewhere.as_uri())
        page.get_by_role("button").click()
        page.wait_for_url("**/put-away")
        assert "This browser has not been let in" in page.inner_text("main")
        stranger = browser.new_context().new_page()
        stranger.goto(desk.address)
        assert "This browser has not been let in" in stranger.inner_text("main")
        context.close()


def test_what_a_page_may_do_is_told_the_browser(adult: Visitor) -> None:
    for path in ("/", "/nowhere", "/static/desk.css"):
        headers = adult.asks(path).headers
        assert headers["Content-Security-Policy"].startswith("default-src 'none'")
        assert "script" not in headers["Content-Security-Policy"]
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert headers["Cache-Control"] == "no-store"
        assert "Server" not in headers


@pytest.mark.parametrize(
    ("path", "fields"),
    [
        ("/pupils/new", {"code": SCRIPT}),
        ("/pupils/rk-7/settings", {"speech.rate_wpm": SCRIPT}),
        ("/pupils/rk-7/target", {"sentence": SCRIPT, "by": SCRIPT}),
        ("/grids/typed", {"name": SCRIPT, "text": f"title = '''{SCRIPT}'''\nadd = [3]\nstart = [38]"}),
        ("/grids/typed", {"name": "x", "text": f"{SCRIPT} = 1"}),
        ("/grids/new", {"starts": SCRIPT, "for": ""}),
        ("/grids/harbour/rename", {"name": SCRIPT}),
        ("/pupils/rk-7/erase", {"code": SCRIPT}),
        ("/records/taken-in", {"as-rk-7": SCRIPT}),
        ("/plans/form", {"name": SCRIPT, "title": SCRIPT, "for": SCRIPT, "sums": SCRIPT}),
        ("/paper", {"code": SHEET_CODE, "cell-1": SCRIPT, "for": SCRIPT, "practice": SCRIPT}),
        ("/pupils/rk-7/afterwards/words", {"words": SCRIPT * 20, "on": "2031-05-12"}),
        ("/pupils/rk-7/afterwards/not-done", {"other": SCRIPT * 20, "on": "2026-05-12"}),
        ("/pupils/rk-7/report/review", {"target.1": f"{SCRIPT} 4321", "on": "2031-05-13"}),
        ("/class", {"next.1": SCRIPT, "on": SCRIPT}),
    ],
)
def test_script_stays_words(adult: Visitor, path: str, fields: dict[str, str]) -> None:
    answer = adult.sends(path, {"token": adult.token, **fields})
    assert answer.code == 422, answer.said
    assert "<script" not in answer.page
    assert "<img src=x" not in answer.page


@pytest.mark.parametrize(
    "path", [f"/pupils/{SCRIPT}/", f"/grids/{SCRIPT}/", "/pupils/..%2f..%2fetc/", "/grids/../records"]
)
def test_script_and_paths_in_an_address_lead_nowhere(adult: Visitor, path: str) -> None:
    answer = adult.asks(path.replace(" ", "%20"))
    assert answer.code in (404, 409) or "Records" in answer.said
    assert "<script" not in answer.page


@pytest.mark.parametrize(
    "name", ["../../pupils/rk-7.toml", "C:\\Windows\\con.toml", "/etc/ferry.toml", "\0.toml", SCRIPT]
)
def test_a_path_in_a_file_name_is_no_path(adult: Visitor, home: Path, name: str) -> None:
    answer = adult.uploads(
        "/grids/take-in", {"token": adult.token, "name": "ferry"}, name, b"add = [3]\nstart = [38]\n"
    )
    assert answer.code == 422
    assert "ferry is the name of a starter grid" in answer.said


def test_a_file_that_is_no_grid_is_refused(adult: Visitor) -> None:
    for content in (b"\0" * 999, b"[" * 9_000, b"add = [3]\n" * 20_000, b""):
        answer = adult.uploads("/grids/take-in", {"token": adult.token, "name": "x"}, "x.toml", content)
        assert answer.code == 422, content[:20]
        assert answer.said.startswith("Take a grid file in Not saved yet")


def test_a_file_far_larger_than_any_of_ours_is_refused(adult: Visitor) -> None:
    """A form and a grid have few bytes; of records, so many are announced that nobody waits for them."""
    answer = adult.uploads("/grids/take-in", {"token": adult.token}, "x.toml", b"#" * 1_500_000)
    assert answer.code == 413
    assert "larger than anything that saythesum gives out" in answer.said
    answer = adult.asks(
        "/records/take-in", "POST", Content_Type="multipart/form-data; boundary=x", Content_Length="3000000000"
    )
    assert answer.code == 413
    assert "larger than anything that saythesum gives out" in answer.page


def test_records_that_are_none_are_refused(adult: Visitor) -> None:
    for content in (b"", b"{}", b"[1]", b"\xff\xfe", b'{"format": "saythesum records", "version": 1'):
        answer = adult.uploads("/records/take-in", {"token": adult.token}, "x.json", content)
        assert answer.code == 422, content
        assert "The file" in answer.said
