"""Pupils are known by a code, never by a name."""

import re
from contextlib import suppress

from saythesum.errors import CallerError
from saythesum.settings.toml_text import shown
from saythesum.store.file_names import DEVICES

FIRST_PUPIL = "pupil-1"
"""The pupil who practises where nobody was named."""

_CODE = re.compile(r"[a-z0-9][a-z0-9-]{0,19}")


def hint_of_a_name(given: str) -> str:
    """For the adult, where a code looks like a name; "" where it does not."""
    looks_like_one = re.fullmatch(r"[A-Z][a-z]{2,}", given.strip())
    return f"{given.strip()} looks like a name: a code, such as rk-7, keeps names out of the records." * bool(
        looks_like_one
    )


def pupil_code(given: str) -> str:
    """The code as it is stored: small letters, so that RK and rk are one pupil."""
    code = given.strip().lower()
    if not _CODE.fullmatch(code):
        raise CallerError(
            f"The pupil's code {shown(given)} must be 1 to 20 letters a to z, digits and hyphens, "
            "beginning with a letter or a digit, for example rk-7."
        )
    if code in DEVICES:
        raise CallerError(
            f"The pupil's code {shown(given)} is a device's name on some computers: choose another, for example rk-7."
        )
    return code


def is_code(name: str) -> bool:
    """Whether it is a code as it is stored."""
    with suppress(CallerError):
        return pupil_code(name) == name
    return False
