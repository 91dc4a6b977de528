"""What is offered for an answer, and when, does not depend on the right one."""

from typing import get_args

import pytest

from saythesum.settings import Scanning
from tests.switching.same_offers import offers_of_pairs

PAIRS = 40
"""`python -m tests.tools.one_switch` looks at 500."""


@pytest.mark.parametrize("scanning", get_args(Scanning))
def test_presses_and_seconds_are_the_same_for_every_sum(scanning: Scanning) -> None:
    pairs = [*offers_of_pairs(scanning, PAIRS)]
    assert [pair for pair in pairs if pair[0] != pair[1]] == []
    assert max(len(offers) for offers, _ in pairs) > 8
