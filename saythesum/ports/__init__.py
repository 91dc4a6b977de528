"""The edges: what each device and service must be able to do, and the values that pass between them and us."""

from saythesum.ports.clock import Clock
from saythesum.ports.listener import Listener
from saythesum.ports.loudspeaker import BETWEEN_SOUNDS_MS, Loudspeaker, Over, OwnSound, SoundId
from saythesum.ports.microphone import Captured, Microphone
from saythesum.ports.recogniser import Frames, Hearing, Hypothesis, Recogniser, SecondOpinion
from saythesum.ports.screen import Screen, ScreenNews, SwitchFound, SwitchLost, Touched
from saythesum.ports.sound import LISTENING_RATE_HZ, Samples, Sound
from saythesum.ports.store import EarlierPractice, Keeper, Store, StoredActivity, StoredPractice
from saythesum.ports.voice import PacedVoice, Voice

__all__ = [
    "BETWEEN_SOUNDS_MS",
    "LISTENING_RATE_HZ",
    "Captured",
    "Clock",
    "EarlierPractice",
    "Frames",
    "Hearing",
    "Hypothesis",
    "Keeper",
    "Listener",
    "Loudspeaker",
    "Microphone",
    "Over",
    "OwnSound",
    "PacedVoice",
    "Recogniser",
    "Samples",
    "Screen",
    "ScreenNews",
    "SecondOpinion",
    "Sound",
    "SoundId",
    "Store",
    "StoredActivity",
    "StoredPractice",
    "SwitchFound",
    "SwitchLost",
    "Touched",
    "Voice",
]
