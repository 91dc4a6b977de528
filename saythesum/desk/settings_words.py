"""Every setting as the desk names it: a label, a sentence, and words for what can be chosen."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Worded:
    setting: str
    """As `table.name`."""
    label: str
    sentence: str
    choices: Mapping[str, str] = field(default_factory=dict)
    """Words for values; one without words is shown as it is."""
    in_seconds: bool = False
    """Kept in milliseconds."""
    suggestions: tuple[str, ...] = ()
    """Of what can be typed."""
    without_end: str = "for ever"
    """What a wait without an end is called where it is shown."""


@dataclass(frozen=True, slots=True)
class Group:
    name: str
    heading: str
    about: str
    settings: tuple[Worded, ...]
    preview: str = ""
    """The table that is to be heard ("speech") or seen ("window")."""
    preview_words: str = ""


_YES_NO = {"true": "Yes", "false": "No"}
_ENGLISH_VOICES = ("gmw/en", "gmw/en-GB-x-rp", "gmw/en-GB-scotland", "gmw/en-GB-x-gbclan", "gmw/en-US")
"""eSpeak NG's ids. Source: its own list, `espeak-ng --voices=en`."""

ANSWERING = Group(
    "answering",
    "How the pupil answers",
    "Keys work for everybody at any time, whatever is chosen here.",
    (
        Worded(
            "start.by",
            "Way of answering",
            "By voice, or with keys alone: choose keys for a pupil whose speech is hard to understand.",
            {"voice": "By voice", "keys": "With the keys", "switch": "With one or two switches"},
        ),
        Worded(
            "listening.ear",
            "When it listens",
            "After a key is best in a room full of voices; by itself is best with a headset.",
            {"press": "After a key, for one answer", "open": "By itself"},
        ),
        Worded(
            "sound.headset",
            "Headset",
            "Whether the pupil wears one. Left open, it is guessed from the names of the devices.",
            _YES_NO,
        ),
        Worded(
            "window.screen_reader",
            "A screen reader speaks",
            "Then the tool itself is silent, and all it would say goes to the screen reader.",
            _YES_NO,
        ),
        Worded(
            "braille.own_line",
            "Writes to the braille display itself",
            "A line of its own hides the screen reader's.",
        ),
        Worded(
            "braille.letters_as_digits",
            "Braille letters are digits",
            "In answers, a to j are 1 to 9 and 0: for a braille keyboard without the number sign.",
            _YES_NO,
        ),
    ),
)
VOICE = Group(
    "voice",
    "The voice",
    "",
    (
        Worded(
            "speech.rate_wpm",
            "Speed, in words a minute",
            "Talk is 120 to 180. Those who use a screen reader often want 250 and more.",
        ),
        Worded(
            "speech.voice",
            "Voice",
            "Its name as this computer's speech has it; one that is not here is replaced by the nearest English one.",
            suggestions=_ENGLISH_VOICES,
        ),
        Worded("speech.pitch", "Pitch, 0 to 100", "Lower is easier for many who hear less well."),
        Worded(
            "speech.volume_percent",
            "Loudness, in per cent",
            "Of the loudest that this computer is set to; mind the volume of headphones.",
        ),
    ),
    "speech",
    "Hear this voice",
)
WAITS = Group(
    "waits",
    "Waits",
    "In seconds; “for ever” waits until a key. Nothing is timed against the pupil.",
    (
        Worded(
            "waits.said_back_ms",
            "After a number was said back",
            "Time to put it right before the verdict.",
            in_seconds=True,
        ),
        Worded(
            "waits.after_number_ms",
            "After a whole number",
            "How long a silence ends an answer: longer for a pupil who stops and thinks in the middle.",
            in_seconds=True,
        ),
        Worded("waits.after_bare_ten_ms", "After a bare ten", "“Fifty …” may become fifty-two.", in_seconds=True),
        Worded(
            "waits.counting_ms",
            "While counting aloud",
            "After a number that is probably a step in counting on.",
            in_seconds=True,
        ),
        Worded("waits.after_other_ms", "After anything else", "A word of command, say.", in_seconds=True),
        Worded(
            "waits.take_your_time_ms",
            "“Take your time”",
            "Said once, so long after a question without a word. Left open it is never said.",
            in_seconds=True,
            without_end="never",
        ),
        Worded(
            "waits.between_sentences_ms",
            "Between two sentences",
            "On a loudspeaker, where it listens by itself.",
            in_seconds=True,
        ),
    ),
)
HELP = Group(
    "help",
    "Words and help",
    "Help goes from a fresh look by small questions to a worked line, never faster than the pupil needs it.",
    (
        Worded(
            "wording.length",
            "Length of sentences",
            "Full for a pupil who is new, brief for one who wants to get on.",
            {"brief": "Brief", "short": "Short", "full": "Full"},
        ),
        Worded(
            "patterns.offer",
            "Talks about patterns",
            "After a finished grid, about what stays the same in it.",
            _YES_NO,
        ),
        Worded(
            "helping.most_help_turns",
            "Most turns of help",
            "After so many small questions about one sum, the worked line is told.",
        ),
        Worded(
            "helping.most_help_speech_ms",
            "Most speech in help, in seconds",
            "After so much talk about one sum, the worked line is told.",
            in_seconds=True,
        ),
        Worded(
            "helping.taking_away",
            "Steps of taking away",
            "63 take away 8: 60, then five more; or 60 take away 8, and three.",
            {"through the ten": "Through the ten", "from the ten": "From the ten"},
        ),
        Worded(
            "helping.adding",
            "Steps of adding",
            "47 add 9: 50, then six more; 57, then one back; 37 add 8 by seven and seven. Where a sum does not go that "
            "way, it goes through the ten.",
            {
                "through the ten": "Through the ten",
                "ten and back": "Add ten, take back",
                "near doubles": "Near doubles",
                "tens and ones": "Tens and ones",
                "counting on": "Counting on by two or three",
            },
        ),
        Worded(
            "helping.number_line",
            "Number line by ear",
            "After the steps of a sum: “Three to fifty, two past it”, or before it tones that rise with the numbers.",
            {"off": "Off", "spoken": "In words", "sounded": "In tones and words"},
        ),
    ),
)
CHOOSING = Group(
    "choosing",
    "Which sums come",
    "Where a grid's order is “chosen”, and where the tool chooses.",
    (
        Worded(
            "choosing.right_percent",
            "Right at first, in per cent",
            "The share that is aimed at, such as 70 to 85. Left open, it follows from the confidence.",
        ),
        Worded(
            "choosing.confidence",
            "Confidence",
            "For a pupil who easily loses heart, nine known sums come to one that is new.",
            {"usual": "Usual", "low": "Loses heart easily"},
        ),
    ),
)
LOOK = Group(
    "look",
    "Print and colours",
    "The pupil can change these while practising, and they are kept.",
    (
        Worded(
            "window.size",
            "Size of print, 0 to 8",
            "0 is large print (N24); at 8 one cell fills the screen.",
        ),
        Worded("window.colours", "Colours", "What is read, on what ground. Dark grounds suit those whom glare hurts."),
        Worded(
            "window.view",
            "What is seen",
            "One cell alone suits pupils for whom a full page is too much.",
            {"sum": "The sum", "grid": "The grid", "number line": "The number line", "one cell": "One cell alone"},
        ),
        Worded("window.number_pad", "Number pad on the screen", "Digits as buttons, for a mouse or a finger."),
        Worded(
            "window.sums_in_digits",
            "Sums in digits, too",
            "What is said in words is shown in digits as well: 40 + 5 = 45.",
            _YES_NO,
        ),
    ),
    "window",
    "See these colours and this size",
)
CUES = Group(
    "cues",
    "Short sounds",
    "Each can be left out by itself; the first of these leaves out all of them.",
    (
        Worded("sound.cues", "Short sounds at all", "", _YES_NO),
        Worded("cues.ear_open", "When it begins to listen", "", _YES_NO),
        Worded("cues.ear_shut", "When it has stopped listening", "", _YES_NO),
        Worded("cues.heard_you", "When a press of a switch counted", "", _YES_NO),
        Worded("cues.scan_step", "When a switch is offered the next thing", "", _YES_NO),
        Worded("cues.next_sum", "Before the next sum", "", _YES_NO),
        Worded("cues.row_finished", "When a row is finished", "", _YES_NO),
        Worded("cues.ten_reached", "When a ten is reached", "", _YES_NO),
        Worded("cues.practice_over", "When the practice is over", "", _YES_NO),
    ),
)
SWITCH = Group(
    "switch",
    "Switches",
    "For a pupil who answers with one or two of them: keys, or buttons of a mouse or a joystick.",
    (
        Worded("switch.first", "First switch", "A key's name. Left open, it is found by being pressed when asked for."),
        Worded("switch.second", "Second switch", "With two, the first one moves on and the second one chooses."),
        Worded(
            "switch.scanning",
            "With one switch",
            "Either things come by themselves and a press chooses, or each press moves on and a rest chooses.",
            {"by itself": "Things come by themselves", "by pressing": "A press moves on"},
        ),
        Worded("switch.pace_ms", "Pace, in seconds", "How long each thing is offered.", in_seconds=True),
        Worded(
            "switch.debounce_ms",
            "No second press within, in seconds",
            "For a hand that presses twice by itself.",
            in_seconds=True,
        ),
        Worded("switch.silent_rounds", "Rounds without a press", "After so many it is silent until the next press."),
    ),
)
SITTING = Group(
    "sitting",
    "How long a practice is",
    "It ends between two sums, and the next one goes on from there. No sum is timed, and no probe is cut short.",
    (
        Worded(
            "sitting.most_sums", "End after so many sums", "Left open: at the end of the grid.", without_end="never"
        ),
        Worded("sitting.most_minutes", "End after so many minutes", "Likewise.", without_end="never"),
    ),
)
SHEETS = Group(
    "sheets",
    "Sheets on paper, in braille and as sound",
    "How a grid is given out for the pupil's table.",
    (
        Worded("sheets.print_size", "Print size, 18 to 48", "In points: 24 is N24, what modified large print has."),
        Worded("sheets.paper", "Paper", ""),
        Worded("sheets.colours", "Colours of a sheet", "What is read, on what ground."),
        Worded(
            "sheets.braille",
            "Braille",
            "Of the words; sums are the same in both.",
            {"uncontracted": "Uncontracted (grade 1)", "contracted": "Contracted (grade 2)"},
        ),
        Worded("sheets.braille_cells", "Cells in a line of braille", "Of the embosser's paper."),
        Worded("sheets.braille_lines", "Lines on a page of braille", "Likewise."),
        Worded(
            "sheets.braille_spaces", "Spaces around plus and minus", "For those who begin to read braille.", _YES_NO
        ),
        Worded("sheets.pause_ms", "Pause on a sound sheet, in seconds", "After each sum.", in_seconds=True),
    ),
)
_KEY_NAMES = {
    "enter": "That is my answer",
    "backspace": "Rub out",
    "say_again": "Say it again",
    "help": "Help me",
    "where_am_i": "Where am I",
    "not_what_i_said": "Not what I said",
    "skip": "Skip this one",
    "stop": "Stop there",
    "left": "Left",
    "right": "Right",
    "up": "Up",
    "down": "Down",
    "home": "To the first",
    "end": "To the last",
    "tab": "To the next part",
    "shift_tab": "To the part before",
    "escape": "Hush, or one step back",
    "keys_aloud": "The keys aloud",
    "adult": "The adult's turn",
    "bigger": "Larger print",
    "smaller": "Smaller print",
    "view": "The next view",
    "colours": "The next colours",
    "screen_reader": "A screen reader speaks, or the tool does",
    "patterns": "Talk about patterns",
}
KEYS = Group(
    "keys",
    "One more key",
    "Each of these may have one more key, pressed alone, beside the one that everybody has.",
    tuple(Worded(f"keys.{name}", label, "") for name, label in _KEY_NAMES.items()),
)
MACHINE = Group(
    "machine",
    "Listening and devices",
    "Seldom needed. `saythesum check` says what works on this computer.",
    (
        Worded("sound.microphone", "Microphone", "Its name or a part of it; left open, the computer's own choice."),
        Worded("sound.loudspeaker", "Loudspeaker", "Likewise."),
        Worded("sound.adult_loudspeaker", "The adult's own loudspeaker", "It says the list of the adult's turn (F9)."),
        Worded(
            "sound.echo_ms",
            "Echo, in seconds",
            "More for a loudspeaker without a wire, which sounds later than it tells.",
            in_seconds=True,
        ),
        Worded(
            "listening.engine",
            "Listening engine",
            "The one that comes with it, or Vosk with a model that you added.",
            {"neural": "The one that comes with it", "vosk": "Vosk"},
        ),
        Worded(
            "listening.vocal_tract_factor",
            "Smaller mouth, 1 to 1.5",
            "Listening is lowered by it for a child: about 1.2 to 1.5. It is learnt from answers; no voiceprint.",
        ),
        Worded(
            "listening.learn_vocal_tract",
            "Go on learning it",
            "No keeps a number that was set by hand.",
            _YES_NO,
        ),
    ),
)
GROUPS = (ANSWERING, SWITCH, VOICE, CUES, WAITS, HELP, CHOOSING, SITTING, LOOK, SHEETS, KEYS, MACHINE)
NOT_ASKED = frozenset(
    {
        *("start.asked", "listening.vocal_tract_answers", "desk.unused_minutes"),
        *("own_words.use", "own_words.consent_on", "own_words.consent_by", "own_words.pupil_said_no"),
    }
)
"""Kept by the program itself, for the computer as a whole, or on a page of its own."""


def others(settings: tuple[str, ...]) -> Group | None:
    """Settings that have no words here yet, by their names in the file."""
    worded = {one.setting for group in GROUPS for one in group.settings} | NOT_ASKED
    left = tuple(Worded(name, name.replace("_", " "), "") for name in settings if name not in worded)
    return Group("others", "Others", "By their names in the settings file.", left) if left else None
