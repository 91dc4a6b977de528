from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.errors import ListeningError
from saythesum.hearing.confidence.calibration import calibration, read
from saythesum.hearing.confidence.certainty import certainty
from saythesum.wording.understand.spellings import NUMBER_WORDS

NATS = st.floats(-50, 50)
LOG = st.floats(-50, 0)


@given(NATS, NATS, LOG)
def test_it_is_a_probability(below: float, above: float, log: float) -> None:
    assert 0 < certainty(below, above, log) < 1


@given(NATS, NATS, NATS, LOG)
def test_nearer_to_the_free_writing_is_never_less_certain(
    below: float, further: float, above: float, log: float
) -> None:
    near, far = sorted((below, further))
    assert certainty(near, above, log) >= certainty(far, above, log)


@given(NATS, NATS, NATS, LOG)
def test_further_from_the_next_meaning_is_never_less_certain(
    below: float, above: float, further: float, log: float
) -> None:
    near, far = sorted((above, further))
    assert certainty(below, far, log) >= certainty(below, near, log)


@given(NATS, NATS, LOG, LOG)
def test_what_is_likelier_by_itself_is_never_less_certain(below: float, above: float, one: float, other: float) -> None:
    unlikely, likely = sorted((one, other))
    assert certainty(below, above, likely) >= certainty(below, above, unlikely)


def test_what_was_measured_comes_with_the_program() -> None:
    assert {word for pair in calibration().mixed_up for word in pair} <= {*NUMBER_WORDS}
    assert all(len(pair) == 2 for pair in calibration().mixed_up)
    assert calibration().mixed_up


@pytest.mark.parametrize("text", ["", "certainty = 3", "[certainty]\nconstant = 'a'", "mixed_up = 4", "= \xff"])
def test_a_damaged_file_is_told(tmp_path: Path, text: str) -> None:
    path = tmp_path / "listening.toml"
    path.write_bytes(text.encode("latin-1"))
    with pytest.raises(ListeningError, match="is missing or damaged; right would be to install saythesum again"):
        read(path)


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(ListeningError, match="missing"):
        read(tmp_path / "listening.toml")
