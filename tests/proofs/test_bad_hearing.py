"""Proof 6: bad hearing is bearable."""

from tests.proofs.bad_hearing import measured


def test_practices_with_a_quarter_of_all_hearings_wrong() -> None:
    """`python -m tests.proofs` looks at a thousand."""
    figures = measured(100)
    assert figures.practices == 100
    assert figures.once_more.median <= 3, figures
    assert figures.keys_offered.most <= 1, figures
    assert figures.hearing_in_parts == 0, figures
    assert figures.wrong_whole_rows.median <= 1, figures
    assert figures.once_more.most > 0 and figures.wrong_part_rows.most > 0, figures  # it was bad indeed
