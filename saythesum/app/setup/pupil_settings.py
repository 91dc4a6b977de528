"""One pupil's own settings, read after everybody's; in them the one number that listening learns of a pupil."""

from collections.abc import Callable, Mapping
from datetime import date

from saythesum.app.setup.folders import Places
from saythesum.app.setup.settings_file import change_settings, own_settings
from saythesum.app.terminal.console import tell
from saythesum.hearing.vocal_tract.factor import FEWEST_ANSWERS, VocalTract
from saythesum.settings import Listening, Settings
from saythesum.settings.changing import Remarked
from saythesum.store.pupils import FIRST_PUPIL

HEADING = "Settings of this pupil only, read after settings.toml."


def settings_of(pupil: str, own: Places, report: Callable[[str], None] = tell) -> Settings:
    """`pupil`: a code as it is stored. `report` gets a sentence for each problem in either file."""
    return own_settings(own.pupil_file(pupil), base=own_settings(own.settings_file, report=report), report=report)


def has_consent(pupil: str, own: Places, today: date) -> bool:
    """To the pupil's own words, as the settings are now; not where they cannot be read."""
    return settings_of(pupil, own, report=lambda _: None).own_words.is_given(today)


def keep_no(pupil: str, own: Places, on: date) -> None:
    """The pupil does not want their own words kept: they are off until an adult has asked again."""
    no = Remarked(on.isoformat(), "own words are off until an adult has asked the pupil again and takes this out")
    change_settings(own.pupil_file(pupil), {"own_words": {"use": False, "pupil_said_no": no}}, heading=HEADING)


def vocal_tract_of(listening: Listening) -> VocalTract:
    return VocalTract(listening.vocal_tract_factor, listening.vocal_tract_answers)


def keep_vocal_tract(pupil: str, own: Places, learnt: VocalTract) -> None:
    """Writes it into the pupil's file, with remarks in plain words; the rest of the file stays as it is."""
    factor = Remarked(learnt.factor, "a child's smaller mouth sounds higher: the listening is lowered by this")
    answers = Remarked(learnt.answers, "that it was learnt from; it is no voiceprint and tells nobody apart")
    changes = {"listening": {"vocal_tract_factor": factor, "vocal_tract_answers": answers}}
    change_settings(own.pupil_file(pupil), changes, heading=HEADING)


def keep_look(pupil: str, own: Places, changed: Mapping[str, str | int]) -> None:
    """Settings of the window: the pupil's, or everybody's where no pupil was named."""
    file = own.settings_file if pupil == FIRST_PUPIL else own.pupil_file(pupil)
    change_settings(file, {"window": changed}, heading=HEADING if pupil != FIRST_PUPIL else "")


def keep_switch(pupil: str, own: Places, found: Mapping[str, str]) -> None:
    """Which switch it is, and that it is used: the pupil's settings, or everybody's where no pupil was named."""
    file = own.settings_file if pupil == FIRST_PUPIL else own.pupil_file(pupil)
    changes = {"switch": found, "start": {"by": "switch"}}
    change_settings(file, changes, heading=HEADING if pupil != FIRST_PUPIL else "")


def vocal_tract_sentence(pupil: str, listening: Listening) -> str:
    """For the adult."""
    factor, answers = listening.vocal_tract_factor, listening.vocal_tract_answers
    if factor != 1.0:
        source = f"learnt from {answers} answers" if answers else "set by hand"
        lowered = f"For {pupil} the listening is lowered as for a smaller mouth: factor {factor:g}, {source}."
        return f"{lowered} It is no voiceprint and tells nobody apart."
    if answers:
        return f"For {pupil} the listening is not lowered: {answers} answers were as clear without."
    if not listening.learn_vocal_tract:
        return f"For {pupil} the listening is not lowered, and nothing is learnt, as the settings say."
    return f"For {pupil} the listening is not lowered; that is learnt from {FEWEST_ANSWERS} answers by voice on."
