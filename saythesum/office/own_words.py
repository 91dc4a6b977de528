"""Consent to a pupil's own words: noted, withdrawn, the pupil asked again; and what is kept of them erased.

They are voice data of a child. Consent stands in the pupil's own settings file and nowhere else.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from saythesum.errors import CallerError
from saythesum.office.places import Places
from saythesum.office.pupils import change_pupil, known_code, show_pupil
from saythesum.settings import OwnWordsConsent
from saythesum.settings.changing import parts_of


@dataclass(frozen=True, slots=True)
class OwnWordsCard:
    code: str
    consent: OwnWordsConsent
    is_kept: bool
    """Whether there is a file of the pupil's own words."""


def own_words_of(places: Places, given: str) -> OwnWordsCard:
    """Raises CallerError where there is no such pupil."""
    card = show_pupil(places, given)
    return OwnWordsCard(card.code, card.settings.own_words, places.words_file(card.code).exists())


def note_consent(places: Places, given: str, on: date, by: str, now: datetime, *, is_asked_again: bool = False) -> None:
    """From now on own words are used. `by`: initials. `is_asked_again`: since the pupil said no, and they said yes.

    Raises SettingsError for what are no initials, and CallerError for a day to come and against the pupil's no.
    """
    card = own_words_of(places, given)
    if on > now.astimezone().date():
        raise CallerError("The day of the consent is still to come; right would be the day on which it was noted.")
    if not by.strip():
        raise CallerError("Nobody's initials stand for the consent; right would be those of who noted it, such as AB.")
    if (no := card.consent.pupil_said_no) and not is_asked_again:
        raise CallerError(f"{card.code} said no on {no}; right would be to ask the pupil again first.")
    noted = {"use": "true", "consent_on": on.isoformat(), "consent_by": by, "pupil_said_no": ""}
    change_pupil(places, card.code, {f"own_words.{name}": text for name, text in noted.items()}, now)


def withdraw_consent(places: Places, given: str, now: datetime) -> None:
    """A practice that is going on listens plainly from its next answer on. What is kept stays until it is erased."""
    left_out = dict.fromkeys(("own_words.use", "own_words.consent_on", "own_words.consent_by"), "")
    change_pupil(places, given, left_out, now)


def erase_own_words(places: Places, given: str) -> bool:
    """Nothing else of the pupil, and whoever is practising. Whether there was anything. Raises CallerError."""
    file = places.words_file(known_code(places, given))
    kept = [one for one in (file, *parts_of(file)) if one.exists()]
    for one in kept:
        try:
            one.unlink(missing_ok=True)
        except OSError as error:
            raise CallerError(
                f"{one} cannot be removed ({error.strerror}): make its folder writable and erase once more."
            ) from error
    return bool(kept)


def own_words_said(card: OwnWordsCard, today: date) -> Iterator[str]:
    """How it stands, for the adult."""
    consent, code = card.consent, card.code
    if consent.pupil_said_no:
        yield f"Own words of {code} are off: the pupil said no on {consent.pupil_said_no}."
    elif consent.is_given(today):
        yield f"Own words of {code} are on: consent noted on {consent.consent_on} by {consent.consent_by}."
    elif consent.use:
        yield f"Own words of {code} are off: consent is noted for {consent.consent_on}, a day to come."
    else:
        yield f"Own words of {code} are off; nothing of this pupil's voice is learnt or used."
    if card.is_kept and not consent.is_given(today):
        yield f"What was kept before is not read; saythesum records erase {code} --own-words --yes removes it."
