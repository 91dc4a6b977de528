from hypothesis import given
from hypothesis import strategies as st

from saythesum.hearing.certainty import certainty

NATS = st.floats(-50, 50)


@given(NATS, NATS)
def test_it_is_a_probability(below: float, above: float) -> None:
    assert 0 < certainty(below, above) < 1


@given(NATS, NATS, NATS)
def test_nearer_to_the_free_writing_is_never_less_certain(below: float, further: float, above: float) -> None:
    near, far = sorted((below, further))
    assert certainty(near, above) >= certainty(far, above)


@given(NATS, NATS, NATS)
def test_further_from_the_next_meaning_is_never_less_certain(below: float, above: float, further: float) -> None:
    near, far = sorted((above, further))
    assert certainty(below, far) >= certainty(below, near)
