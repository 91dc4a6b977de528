import pytest

from saythesum.errors import CallerError
from saythesum.store.pupils import FIRST_PUPIL, pupil_code


@pytest.mark.parametrize("code", ["rk-7", "a", "7", "a" * 20, FIRST_PUPIL])
def test_a_plain_code_stays_as_it_is(code: str) -> None:
    assert pupil_code(code) == code


def test_capital_letters_make_no_second_pupil() -> None:
    assert pupil_code(" RK-7 ") == "rk-7"


@pytest.mark.parametrize("code", ["", "-", "-a", "a" * 21, "r k", "rk_7", "Zoë", "²", "../x", "rk\n7", "r.k"])
def test_anything_else_is_the_callers_mistake(code: str) -> None:
    with pytest.raises(CallerError, match="1 to 20 letters a to z, digits and hyphens"):
        pupil_code(code)


@pytest.mark.parametrize("code", ["con", "NUL", "com1", "lpt9"])
def test_a_code_whose_file_would_be_a_device(code: str) -> None:
    """The pupil's own settings stand in a file of that name."""
    with pytest.raises(CallerError, match="is a device's name on some computers: choose another"):
        pupil_code(code)
