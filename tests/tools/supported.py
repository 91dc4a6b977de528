"""`python -m tests.tools.supported [COUNT]`: the supported practice in presses and seconds, medians and worst of COUNT
(5 unless said), with a week planned: from nothing open to the first question, once by the command that an icon holds
and once over the desk with a browser of its own; and the two minutes afterwards, on the desk.

The seconds are the machine's: nobody reads or thinks meanwhile. On an X server without a screen, without sound.
"""

import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Playwright, sync_playwright

from saythesum.office.plans.week import Day, DayPlan, WeekPlan
from saythesum.office.plans.weeks import save_plan
from saythesum.office.pupils import add_pupil
from saythesum.settings.changing import replace_file
from saythesum.wording.speak.said_start import PRESS_A_KEY
from tests.app.command import COMMAND, Person
from tests.desk.conftest import CHROMIUM
from tests.desk.hands import Hands
from tests.desk.opened import opened
from tests.desk.practising import asked, end_practices, waited_for
from tests.desk.two_minutes import two_minutes
from tests.office.places import home_in
from tests.office.school import NOW
from tests.office.test_afterwards import practised
from tests.tools.bench.lines import Figure, show
from tests.tools.x_server import XServer, x_server

TO_THE_FIRST_QUESTION_S = 60
AFTERWARDS_PRESSES = 10


def planned(home: Path) -> None:
    """As it is on the second day: set up, a pupil, a plan for every day."""
    places = home_in(home)
    replace_file(places.settings_file, "[start]\nasked = true\n")
    add_pupil(places, "rk-7", NOW)
    save_plan(places, "harbour", WeekPlan(("rk-7",), dict.fromkeys(Day, DayPlan(("ferry", "probe")))), NOW)


def by_the_command(home: Path, screen: XServer) -> float:
    """Seconds to the first question, with one press: any key."""
    began = time.perf_counter()
    practice = subprocess.Popen(
        [*COMMAND, "--pupil", "rk-7"],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        cwd=home,
        env=Person(home).environment(screen.environment),
        text=True,
    )
    try:
        assert practice.stdout and any(PRESS_A_KEY in line for line in practice.stdout)
        screen.keys("space")
        waited_for(lambda: asked(home, "rk-7"))
        return time.perf_counter() - began
    finally:
        practice.kill()
        practice.communicate()


@contextmanager
def hands_of(playwright: Playwright) -> Iterator[Hands]:
    """At a browser that is opened for them, in which no script runs."""
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
    try:
        yield Hands(browser.new_context(java_script_enabled=False).new_page())
    finally:
        browser.close()


def over_the_desk(home: Path, screen: XServer, playwright: Playwright) -> tuple[float, int]:
    """Seconds to the first question, and presses."""
    began = time.perf_counter()
    try:
        with opened(home, more=screen.environment) as desk, hands_of(playwright) as hands:
            hands.enters(desk)
            hands.goes_to("Start rk-7").goes_on()
            waited_for(lambda: asked(home, "rk-7"))
            return time.perf_counter() - began, hands.count
    finally:
        end_practices(home)


def afterwards(home: Path, playwright: Playwright) -> tuple[float, int]:
    """Seconds of the two minutes, and presses; the pupil's words are typed besides."""
    practised(home_in(home), unsure=6)
    with opened(home) as desk, hands_of(playwright) as hands:
        hands.enters(desk)
        began = time.perf_counter()
        two_minutes(hands, desk)
        return time.perf_counter() - began, hands.count


def main(count: int) -> None:
    commands, desks, after = [], [], []
    with sync_playwright() as playwright:
        for _ in range(count):
            with tempfile.TemporaryDirectory() as name, x_server(Path(name)) as screen:
                homes = [Path(name) / one for one in ("command", "desk", "afterwards")]
                for home in homes:
                    home.mkdir()
                    planned(home)
                commands.append(by_the_command(homes[0], screen))
                desks.append(over_the_desk(homes[1], screen, playwright))
                after.append(afterwards(homes[2], playwright))
    show(Figure("to the first question, --pupil CODE and any key", commands, "s", TO_THE_FIRST_QUESTION_S))
    show(Figure("to the first question, desk and browser opened", [s for s, _ in desks], "s", TO_THE_FIRST_QUESTION_S))
    show(Figure("presses on the desk to the first question", [presses for _, presses in desks], "presses"))
    show(Figure("two minutes afterwards, the machine's part", [s for s, _ in after], "s"))
    show(Figure("two minutes afterwards", [presses for _, presses in after], "presses", AFTERWARDS_PRESSES))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
