"""Half a page for whoever sits beside the pupil today and has not done it before."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell
from saythesum.core.grids.starters import DEFAULT
from saythesum.dialogue.turns.effects import Ear
from saythesum.errors import CallerError
from saythesum.office.places import Places
from saythesum.office.plans.today import ForToday, for_today
from saythesum.office.pupils import show_pupil
from saythesum.office.upkeep.shortcuts import DESK_ICON
from saythesum.settings import Settings
from saythesum.wording.for_adults.days import day_said
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.said_start import HOW_TO_ANSWER
from saythesum.wording.speak.said_switch import how_to_choose


@dataclass(frozen=True, slots=True)
class CoverSheet:
    code: str
    day: date
    lines: tuple[tuple[str, str], ...]
    """What each is about, in a word or two ("" for one that speaks for itself), and a sentence or more."""

    @property
    def title(self) -> str:
        return f"{self.code}, {day_said(self.day)}"


def cover_sheet(places: Places, given: str, day: date) -> CoverSheet:
    """Raises CallerError where nothing is planned for that day."""
    pupil = show_pupil(places, given)
    planned = for_today(places, pupil.code, day)
    if planned is None or not planned.activities:
        raise CallerError(f"Nothing is planned for {pupil.code} on {day_said(day)}.")
    return CoverSheet(pupil.code, day, tuple(_lines(pupil.code, planned, planned.ways.applied_to(pupil.settings))))


def _lines(code: str, planned: ForToday, settings: Settings) -> Iterator[tuple[str, str]]:
    yield "", "Practice, not a test: nothing is marked, and nothing is timed."
    yield "To do", f"{planned.said}."
    yield from (("Mind", trouble) for trouble in planned.troubles)
    yield "Plug in", f"{_plugged_in(settings)}."
    yield (
        "Start",
        f'open the icon "{DESK_ICON}" on the desktop. A page comes up: press its button "Start {code}" (without a '
        "mouse: Tab until you are on it, then Enter). Put the laptop where the pupil hears it, and sit beside. "
        "No icon? Whoever gave you this page starts it for you.",
    )
    yield "The pupil", f"{_answers(settings)}."
    yield (
        "Keys",
        f"Space says it again. Page Down helps. Backspace {_backspace(settings)}. Tab, then Enter, on Skip or Stop.",
    )
    yield "The tool", _says(planned, settings)
    yield (
        "You",
        "wait, longer than seems polite. Let the tool help first. To speak yourself, press F9: the microphone is shut "
        "and the screen lists what you can note by a digit; F9 again goes on. Do not say the answer; if you helped, "
        "note it, for it counts differently.",
    )
    yield "Stop", _stops(settings)
    if planned.note:
        yield "Note", planned.note
    yield (
        "Afterwards",
        "what the pupil may have told you besides sums goes the way that your school's policy says. Not done? Tell "
        "whoever gave you this page why.",
    )


def _plugged_in(settings: Settings) -> str:
    sees = "the screen reader is on" if settings.window.screen_reader else "the loudspeaker or a headset for listening"
    if settings.start.by == "keys":
        return f"nothing to speak into; {sees}"
    return f"the headset, or the microphone where the pupil sits; {sees}"


def _backspace(settings: Settings) -> str:
    return "rubs out a digit" if settings.start.by == "keys" else "takes back what was heard wrongly"


def _answers(settings: Settings) -> str:
    if settings.start.by == "keys":
        return "types the number, then presses Enter. Nothing needs to be said aloud"
    if settings.start.by == "switch":
        how = how_to_choose(settings.switch)
        return f'answers with a switch, for which things are offered one by one. "{how}" Keys work as well'
    ear = Ear.PRESS if settings.listening.ear == "press" or settings.window.screen_reader else None
    if ear:
        return f'answers by voice. "{HOW_TO_ANSWER[Ear.PRESS]}" Typing works as well'
    return "answers by voice, after the sound, or types the number and presses Enter"


def _says(planned: ForToday, settings: Settings) -> str:
    grid = next((one.grid for one in planned.activities if one.grid), None) or DEFAULT.grid
    first = grid.exercise_at(Cell(0, 0))
    back = "" if settings.start.by != "voice" else "It says back what it heard and waits a second, to be put right. "
    probe = " In the probe it says neither, and does not help." * any(
        one.aim is Aim.PROBE for one in planned.activities
    )
    return (
        f'says a sum, such as "{words_of(first).whole(first).capitalize()}." {back}'
        f'Then it says "Yes." or "Not yet.", and helps in small steps, as long as they help.{probe}'
    )


def _stops(settings: Settings) -> str:
    sitting = settings.sitting
    limits = [
        f"{sitting.most_sums} sums" if sitting.most_sums else "",
        f"{sitting.most_minutes} minutes, once the sum is done" if sitting.most_minutes else "",
    ]
    given = " or ".join(limit for limit in limits if limit)
    by_itself = f"by itself after {given}; " if given else "when all is done; "
    return f'{by_itself}and whenever the pupil says "stop there" or wants to. Nothing is lost; it goes on next time.'
