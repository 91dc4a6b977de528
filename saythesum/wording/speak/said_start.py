"""The questions of the first start: answered by Up, Down and Enter, by ear alone if need be."""

from dataclasses import dataclass

from saythesum.dialogue.turns.effects import Ear
from saythesum.settings import Switch
from saythesum.wording.speak.lengths import begun
from saythesum.wording.speak.said_switch import how_to_choose


@dataclass(frozen=True, slots=True)
class StartQuestion:
    table: str
    """Where the answer goes in the settings."""
    setting: str
    words: str
    choices: tuple[str, ...]
    """Said when Up or Down comes to them."""
    values: tuple[int | bool | str, ...]
    begins_at: int

    def asked(self, at: int | None = None) -> str:
        """With the answer that stands, of which an ear knows nothing else."""
        if len(set(self.choices)) == 1:
            return self.words
        choice = self.choices[self.begins_at if at is None else at]
        return f"{self.words} Now it's {choice[:1].lower()}{choice[1:]}"


PRESS_A_KEY = "Press any key to begin."
"""Shown and said; then it is silent until somebody is there."""
HOW_TO_ANSWER = {Ear.PRESS: "Press Enter, then say it.", Ear.OPEN: "After the sound, say it."}
PRESS_TO_CLOSE = "Press any key to close."
"""Said after a finished practice; the window stays until then, so that the last verdict can be read."""
ANOTHER_COPY = (
    "Another copy is still running, and only one at a time can keep the answers. Close it, or restart the computer."
)
DESK_OPENS = "The desk opens in the browser. A key closes this."
KEPT = "Thank you. That's all kept, and can be changed in the settings."

SPEED = StartQuestion(
    "speech",
    "rate_wpm",
    "Is this a good speed for my voice? Up for faster, Down for slower, then Enter.",
    tuple(["Like this?"] * 6),
    (100, 120, 140, 160, 190, 230),
    2,
)
WAY = StartQuestion(
    "start",
    "by",
    "Will you answer by voice, with the keys, or with a switch? Up or Down to change, then Enter.",
    ("With a switch.", "With the keys.", "By voice."),
    ("switch", "keys", "voice"),
    2,
)
HEADSET = StartQuestion(
    "sound",
    "headset",
    "Are you wearing a headset? Up for yes, Down for no, then Enter.",
    ("No.", "Yes."),
    (False, True),
    0,
)
SCREEN_READER = StartQuestion(
    "window",
    "screen_reader",
    "Does a screen reader speak for you? Up for yes, Down for no, then Enter.",
    ("No.", "Yes."),
    (False, True),
    0,
)
PRINT = StartQuestion(
    "window",
    "size",
    "How large should the print be? Up for larger, Down for smaller, then Enter.",
    tuple(f"Size {name}." for name in ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")),
    tuple(range(9)),
    5,
)
START_QUESTIONS = (SPEED, WAY, HEADSET, SCREEN_READER, PRINT)


def how_to_answer(ear: Ear, switch: Switch) -> str | None:
    """Said once a practice in a pupil's first three; None where it needs no words."""
    return how_to_choose(switch) if ear is Ear.SWITCH else HOW_TO_ANSWER.get(ear)


def welcome(questions: int) -> str:
    return (
        f"Hello. {begun(questions)} short questions first, then we begin. "
        "Up and Down change the answer, Enter goes on. Escape passes over all of them. "
        "For grown-ups: F9 opens the desk, where pupils and grids are prepared."
    )
