import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--rewrite-stories", action="store_true", help="write the stories anew as they are now, those by hand excepted"
    )
