"""Debian's Chromium, as the desk's tests open it."""

from tests.desk.conftest import browser

__all__ = ["browser"]
