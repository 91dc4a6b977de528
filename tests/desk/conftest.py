from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.desk.opened import OpenDesk, opened

CHROMIUM = "/usr/bin/chromium"


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's Chromium without a screen. Its sandbox wants rights that a container does not give."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[OpenDesk]:
    with opened(tmp_path) as desk:
        yield desk
