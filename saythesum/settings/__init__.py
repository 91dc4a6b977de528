"""All settings, frozen, one dataclass for each room that has any. `reading` takes them from a file."""

from dataclasses import asdict, dataclass, field
from datetime import date
from typing import Literal

from saythesum.settings.key_names import OWN, KeyName
from saythesum.settings.limits import day, decimal, initials, one_of, shares, wait, whole, words, yes_or_no
from saythesum.settings.switch_names import SwitchName

Engine = Literal["neural", "vosk"]
EarKind = Literal["press", "open"]
Length = Literal["brief", "short", "full"]
Way = Literal["voice", "keys", "switch"]
Confidence = Literal["usual", "low"]
Colours = Literal[
    "black on white",
    "white on black",
    "yellow on black",
    "amber on black",
    "black on cream",
    "yellow on navy",
    "white on navy",
]
"""What is read, on what ground."""
Scanning = Literal["by itself", "by pressing"]
"""How one switch comes from one thing to the next."""
TakingAway = Literal["through the ten", "from the ten"]
"""The steps of 63 take away 8: 60, then five more; or 60 take away 8, and three back."""
Paper = Literal["A4", "A3"]
BrailleCode = Literal["uncontracted", "contracted"]
"""Of Unified English Braille: grade 1 or grade 2."""
Adding = Literal["through the ten", "ten and back", "near doubles", "tens and ones", "counting on"]
"""The steps of 47 add 9: 50, then six more; 57, then one back; or seven and nine first."""
NumberLine = Literal["off", "spoken", "sounded"]
"""The way along the number line, by ear: in words, or before them in tones that rise with the numbers."""
View = Literal["sum", "grid", "number line", "one cell"]
"""In the order in which their key goes through them."""
NumberPad = Literal["always", "once touched", "never"]


@dataclass(frozen=True, slots=True)
class Speech:
    """The voice. Source of the range: pyttsx3's espeak driver clamps outside 80 to 400 words a minute."""

    rate_wpm: int = field(default=140, metadata=whole(80, 400))
    voice: str = field(default="gmw/en", metadata=words(100))
    """A voice's id as pyttsx3 lists it; British English by default."""
    pitch: int = field(default=50, metadata=whole(0, 100))
    """Where the voice has a pitch to set."""
    volume_percent: int = field(default=90, metadata=whole(0, 100))


@dataclass(frozen=True, slots=True)
class Waits:
    """Every wait, in milliseconds. None is 'for ever'."""

    said_back_ms: int | None = field(default=1000, metadata=wait(300, 60_000))
    """The open pause after a number was said back."""
    after_number_ms: int | None = field(default=1300, metadata=wait(300, 60_000))
    after_bare_ten_ms: int | None = field(default=2500, metadata=wait(300, 60_000))
    """A tens word may go on: "fifty … two"."""
    counting_ms: int | None = field(default=4000, metadata=wait(300, 60_000))
    """A number equal to the start, or to the start plus one, is probably counting aloud."""
    after_other_ms: int | None = field(default=1300, metadata=wait(300, 60_000))
    """After a command, a choice or something not understood."""
    take_your_time_ms: int | None = field(default=None, metadata=wait(5_000, 600_000))
    """So long after a question "Take your time" is said, once; None: never. The question is not asked again."""
    between_sentences_ms: int = field(default=700, metadata=whole(300, 10_000))
    """How long the ear that opens by itself is open between two of the tool's sentences, on a loudspeaker. People
    who talk to each other begin an answer 0.2 s after a question. Source: Stivers et al., Universals and cultural
    variation in turn-taking in conversation, PNAS 106 (2009), 10587-10592 (from memory).
    """


@dataclass(frozen=True, slots=True)
class Listening:
    engine: Engine = field(default="neural", metadata=one_of(Engine))
    ear: EarKind | None = field(default=None, metadata=one_of(EarKind, optional=True))
    """None: open with a headset, press without one."""
    vocal_tract_factor: float = field(default=1.0, metadata=decimal(1.0, 1.5, steps=20))
    """The embedded engine lowers what it hears by it: about 1.2 to 1.5 for a child's smaller mouth."""
    vocal_tract_answers: int = field(default=0, metadata=whole(0, 100_000))
    """How many answers the factor was learnt from; none where it was set by hand."""
    learn_vocal_tract: bool = field(default=True, metadata=yes_or_no())
    """Whether a practice by voice goes on learning the factor. False keeps one that was set by hand."""


@dataclass(frozen=True, slots=True)
class OwnWordsConsent:
    """Whether this program may keep how one pupil says the number words. That is voice data of a child: it counts in
    the pupil's own file only, and is in no record, no report and no file that is given out.
    """

    use: bool = field(default=False, metadata=yes_or_no())
    consent_on: str | None = field(default=None, metadata=day())
    """The day on which the school's consent was noted."""
    consent_by: str | None = field(default=None, metadata=initials())
    """Who noted it."""
    pupil_said_no: str | None = field(default=None, metadata=day())
    """The day on which the pupil did; nothing is used until an adult has asked again and takes it out."""

    @property
    def lacks_consent(self) -> bool:
        return self.use and not (self.consent_on and self.consent_by)

    def is_given(self, today: date) -> bool:
        """Consent noted for a later day is a slip of the pen, and holds from that day on."""
        if not self.use or self.lacks_consent or self.pupil_said_no:
            return False
        return date.fromisoformat(str(self.consent_on)) <= today


@dataclass(frozen=True, slots=True)
class Wording:
    length: Length = field(default="short", metadata=one_of(Length))


@dataclass(frozen=True, slots=True)
class Helping:
    most_help_turns: int = field(default=6, metadata=whole(1, 20))
    most_help_speech_ms: int = field(default=75_000, metadata=whole(5_000, 600_000))
    taking_away: TakingAway = field(default="through the ten", metadata=one_of(TakingAway))
    """By which steps taking away is talked through. Source of the two: NCETM topic 1.11, teaching point 6."""
    adding: Adding = field(default="through the ten", metadata=one_of(Adding))
    """By which steps adding across a ten is talked through, where a sum goes by them."""
    number_line: NumberLine = field(default="off", metadata=one_of(NumberLine))
    """Whether the jumps of a sum that was talked through, or told, are heard once more along the number line."""


@dataclass(frozen=True, slots=True)
class Choosing:
    """Where the next sum is chosen (`order = "chosen"`)."""

    right_percent: tuple[int, int] | None = field(default=None, metadata=shares())
    """The share of right first answers that is aimed at, from and to; None: as the confidence says."""
    confidence: Confidence = field(default="usual", metadata=one_of(Confidence))
    """How easily the pupil loses heart. Low: nine known sums to one that is new."""


@dataclass(frozen=True, slots=True)
class SoundDevices:
    microphone: str | None = field(default=None, metadata=words(100, optional=True))
    """Its name or a part of it; None: the computer's own choice. The loudspeaker likewise."""
    loudspeaker: str | None = field(default=None, metadata=words(100, optional=True))
    adult_loudspeaker: str | None = field(default=None, metadata=words(100, optional=True))
    """Where an adult who does not see the window hears the list of the adult's turn; None: nowhere. Never where the
    pupil hears."""
    headset: bool | None = field(default=None, metadata=yes_or_no(optional=True))
    """Whether the pupil wears one; None: guessed by the devices' names."""
    cues: bool = field(default=True, metadata=yes_or_no())
    """Short sounds, where `[cues]` does not switch them off one by one."""
    echo_ms: int = field(default=100, metadata=whole(0, 2_000))
    """On a loudspeaker no speech is looked for so soon after the tool's own. Measured on 19 of its sentences, at the
    microphone as loud as a pupil: in a small room the ear took up the rest of 7 at once, of none after 100 ms; in rooms
    that echo for 0.4 and 0.6 s of 1 and 2 at once, of none and 1 after 100 ms. 10 dB quieter: of none. More for a
    loudspeaker that sounds later than it tells, as those without a wire do.
    """


@dataclass(frozen=True, slots=True)
class Patterns:
    """Talks about what stays the same in a finished grid."""

    offer: bool = field(default=True, metadata=yes_or_no())
    """Whether one is offered once the grid is done. It can be asked for at any time."""


@dataclass(frozen=True, slots=True)
class Cues:
    """Which of the short sounds are heard."""

    ear_open: bool = field(default=True, metadata=yes_or_no())
    ear_shut: bool = field(default=True, metadata=yes_or_no())
    heard_you: bool = field(default=True, metadata=yes_or_no())
    """A switch was pressed, and that counted."""
    scan_step: bool = field(default=True, metadata=yes_or_no())
    """The next thing is offered to a switch."""
    next_sum: bool = field(default=True, metadata=yes_or_no())
    row_finished: bool = field(default=True, metadata=yes_or_no())
    ten_reached: bool = field(default=True, metadata=yes_or_no())
    practice_over: bool = field(default=True, metadata=yes_or_no())


@dataclass(frozen=True, slots=True)
class Switch:
    """One or two switches: each is a key, a button of a mouse or of a joystick."""

    first: str | None = field(default=None, metadata={"limits": SwitchName()})
    """None: it is found by being pressed when it is asked for."""
    second: str | None = field(default=None, metadata={"limits": SwitchName()})
    """With two, the first one moves on and the second one chooses."""
    scanning: Scanning = field(default="by itself", metadata=one_of(Scanning))
    """With one: things come by themselves and a press chooses; or each press moves on and a rest chooses."""
    pace_ms: int = field(default=2_000, metadata=whole(1_000, 10_000))
    """How long each thing is offered, or how long a rest is that chooses."""
    debounce_ms: int = field(default=500, metadata=whole(0, 5_000))
    """No press counts so soon after the one before. Source: Game Accessibility Guidelines, a cool-down of half a second
    between inputs.
    """
    silent_rounds: int = field(default=3, metadata=whole(1, 20))
    """After so many rounds without a press nothing more is offered until the next press, for ever."""

    @property
    def has_two(self) -> bool:
        return self.second is not None and self.second != self.first


@dataclass(frozen=True, slots=True)
class Window:
    colours: Colours = field(default="black on white", metadata=one_of(Colours))
    size: int = field(default=5, metadata=whole(0, 8))
    """Steps of print size, from large print (N24) to one cell that fills the screen; Ctrl with plus or minus."""
    view: View = field(default="sum", metadata=one_of(View))
    """Besides the sum, or in place of it."""
    number_pad: NumberPad = field(default="once touched", metadata=one_of(NumberPad))
    """Digits, Enter and rubbing out as buttons, where they fit: once a mouse or a finger has pressed in the window."""
    sums_in_digits: bool = field(default=False, metadata=yes_or_no())
    """Sums that are said in words are shown in digits, too: "Forty and five is forty-five. 40 + 5 = 45." """
    screen_reader: bool = field(default=False, metadata=yes_or_no())
    """A screen reader speaks: then the tool is silent, and all that it would say is text for the screen reader."""


def _one_more() -> str | None:
    key: str | None = field(default=None, metadata={"limits": KeyName()})
    return key


@dataclass(frozen=True, slots=True)
class Keys:
    """One more key for each of these, pressed alone, beside the ones that everybody has. Of whoever sits here: they
    may change in the middle of a grid.
    """

    enter: str | None = _one_more()
    backspace: str | None = _one_more()
    say_again: str | None = _one_more()
    help: str | None = _one_more()
    where_am_i: str | None = _one_more()
    not_what_i_said: str | None = _one_more()
    skip: str | None = _one_more()
    stop: str | None = _one_more()
    left: str | None = _one_more()
    right: str | None = _one_more()
    up: str | None = _one_more()
    down: str | None = _one_more()
    home: str | None = _one_more()
    end: str | None = _one_more()
    tab: str | None = _one_more()
    shift_tab: str | None = _one_more()
    escape: str | None = _one_more()
    keys_aloud: str | None = _one_more()
    adult: str | None = _one_more()
    bigger: str | None = _one_more()
    smaller: str | None = _one_more()
    view: str | None = _one_more()
    colours: str | None = _one_more()
    screen_reader: str | None = _one_more()
    patterns: str | None = _one_more()

    @property
    def given(self) -> tuple[tuple[str, str], ...]:
        """Setting and key, for each that nobody has anyway."""
        return tuple((setting, name) for setting, name in asdict(self).items() if name and OWN.get(name) != setting)


OwnLine = Literal["without a screen reader", "always", "never"]


@dataclass(frozen=True, slots=True)
class Braille:
    letters_as_digits: bool = field(default=False, metadata=yes_or_no())
    """Letters a to j are the digits 1 to 9 and 0, in answers: a braille display may type them without a number sign."""
    own_line: OwnLine = field(default="without a screen reader", metadata=one_of(OwnLine))
    """When this program itself writes to a braille display, by BrlAPI, while its window has the keyboard. A line of
    its own hides the screen reader's.
    """


@dataclass(frozen=True, slots=True)
class Desk:
    """The adult's pages. Of everybody's settings: a pupil's file need not have it."""

    unused_minutes: int = field(default=240, metadata=whole(5, 1440))
    """After so long without a page the desk ends by itself."""


@dataclass(frozen=True, slots=True)
class Sheets:
    """Grids on paper, in braille and as sound."""

    print_size: int = field(default=24, metadata=whole(18, 48))
    """In points, as teachers write it: N24."""
    paper: Paper = field(default="A4", metadata=one_of(Paper))
    colours: Colours = field(default="black on white", metadata=one_of(Colours))
    braille: BrailleCode = field(default="uncontracted", metadata=one_of(BrailleCode))
    """Of the words; sums are the same in both."""
    braille_cells: int = field(default=40, metadata=whole(10, 60))
    """In a line."""
    braille_lines: int = field(default=25, metadata=whole(5, 40))
    """On a page."""
    braille_spaces: bool = field(default=False, metadata=yes_or_no())
    """Spaces around plus and minus, too, for those who begin to read braille."""
    pause_ms: int = field(default=6000, metadata=whole(1_000, 60_000))
    """On a sound sheet, after each sum."""


@dataclass(frozen=True, slots=True)
class Start:
    asked: bool = field(default=False, metadata=yes_or_no())
    """The five questions of the first start have been asked, or passed over."""
    by: Way = field(default="voice", metadata=one_of(Way))
    """How the pupil answers when nothing else is asked for."""


@dataclass(frozen=True, slots=True)
class Sitting:
    """When a practice ends by itself, between two sums; the next one goes on from there. None: never. No sum is timed,
    and a probe is not cut short."""

    most_sums: int | None = field(default=None, metadata=wait(1, 500))
    most_minutes: int | None = field(default=None, metadata=wait(1, 120))


@dataclass(frozen=True, slots=True)
class Settings:
    speech: Speech = field(default_factory=Speech)
    waits: Waits = field(default_factory=Waits)
    listening: Listening = field(default_factory=Listening)
    own_words: OwnWordsConsent = field(default_factory=OwnWordsConsent)
    wording: Wording = field(default_factory=Wording)
    helping: Helping = field(default_factory=Helping)
    choosing: Choosing = field(default_factory=Choosing)
    patterns: Patterns = field(default_factory=Patterns)
    sound: SoundDevices = field(default_factory=SoundDevices)
    cues: Cues = field(default_factory=Cues)
    switch: Switch = field(default_factory=Switch)
    window: Window = field(default_factory=Window)
    keys: Keys = field(default_factory=Keys)
    braille: Braille = field(default_factory=Braille)
    sheets: Sheets = field(default_factory=Sheets)
    start: Start = field(default_factory=Start)
    sitting: Sitting = field(default_factory=Sitting)
    desk: Desk = field(default_factory=Desk)
