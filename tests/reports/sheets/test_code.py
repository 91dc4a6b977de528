"""Sheets' codes."""

from itertools import combinations

from saythesum.reports.sheets.code import COUNT, LENGTH, LETTERS, code_number, code_of, is_code


def test_every_number_has_a_code_of_its_own() -> None:
    codes = {code_of(number) for number in range(COUNT)}
    assert len(codes) == COUNT
    assert all(map(is_code, codes))


def test_every_single_wrong_letter_and_every_two_exchanged_neighbours_are_caught() -> None:
    """Source of the properties: Damm 2004. All codes are tried."""
    codes = set(map(code_of, range(COUNT)))
    for code in codes:
        for place, right in enumerate(code):
            wrong = (f"{code[:place]}{letter}{code[place + 1 :]}" for letter in LETTERS if letter != right)
            assert codes.isdisjoint(wrong)
        for place in range(LENGTH):
            one, other = code[place], code[place + 1]
            if one != other:
                assert f"{code[:place]}{other}{one}{code[place + 2 :]}" not in codes


def test_no_two_letters_are_mirrored_in_braille() -> None:
    """Dots 1, 2, 3 stand to the left of 4, 5, 6. Source of the cells: ICEB, The Rules of Unified English Braille."""
    from saythesum.wording.braille.own_encoder import encoded

    for one, other in combinations(LETTERS, 2):
        cell = ord(encoded(one)) - 0x2800
        mirrored = (cell & 0b000111) << 3 | (cell & 0b111000) >> 3
        assert chr(0x2800 + mirrored) != encoded(other), (one, other)


def test_one_grid_has_one_number_on_every_computer() -> None:
    assert code_number("add = [5]\n") == code_number("add = [5]\n") != code_number("add = [6]\n")


def test_what_is_no_code_is_refused() -> None:
    assert not any(map(is_code, ("", "gymy", "gymyuu", "gymy1", "GYMYU", "gymyx")))
