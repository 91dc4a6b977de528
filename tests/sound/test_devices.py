"""Which device is meant, and what it is asked to do; and what is said where there is none."""

import subprocess
import sys

import pytest

from saythesum.errors import DeviceError
from saythesum.sound.devices import Device, Direction, StreamFormat, chosen, formats_to_try, found_again

BUILT_IN = Device("Built-in Audio: ALC (hw:0,0)", "ALSA", 2, 2, 48_000, is_default_in=True, is_default_out=True)
HEADSET = Device("Classroom Headset: USB Audio (hw:1,0)", "ALSA", 1, 2, 48_000)
SCREEN = Device("Screen: HDMI 0 (hw:0,3)", "ALSA", 0, 2, 48_000)
ALL = (SCREEN, BUILT_IN, HEADSET)


def test_the_default_one_unless_another_is_wanted() -> None:
    assert chosen(ALL, Direction.OUT, None) is BUILT_IN
    assert chosen(ALL, Direction.IN, None) is BUILT_IN
    assert chosen(ALL, Direction.OUT, "headset") is HEADSET
    assert chosen(ALL, Direction.OUT, "Screen: HDMI 0 (hw:0,3)") is SCREEN


def test_without_a_default_the_first_that_is_able() -> None:
    assert chosen((SCREEN, HEADSET), Direction.IN, None) is HEADSET


def test_the_whole_name_comes_before_a_part_of_another() -> None:
    long, short = Device("Speakers 2", "MME", 0, 2, 44_100), Device("Speakers", "MME", 0, 2, 44_100)
    assert chosen((long, short), Direction.OUT, "speakers") is short


@pytest.mark.parametrize("wanted", ["piano", "screen", " "])
def test_one_that_is_not_there_is_told_with_those_that_are(wanted: str) -> None:
    """The screen has no microphone."""
    with pytest.raises(DeviceError) as told:
        chosen(ALL, Direction.IN, wanted)
    assert f'no microphone called "{wanted}"' in str(told.value)
    assert BUILT_IN.name in str(told.value)
    assert SCREEN.name not in str(told.value)
    assert told.value.exit_code == 3


@pytest.mark.parametrize("direction", Direction)
def test_no_device_at_all_is_told_with_the_way_on(direction: Direction) -> None:
    with pytest.raises(DeviceError, match=f"There is no {direction}; plug one in, or go on by keys"):
        chosen((), direction, None)


def test_a_lost_headset_is_never_replaced() -> None:
    assert found_again(ALL, HEADSET, Direction.OUT, only_this=True) is HEADSET
    with pytest.raises(DeviceError, match="Classroom Headset"):
        found_again((BUILT_IN,), HEADSET, Direction.OUT, only_this=True)


def test_another_lost_device_is_replaced_by_the_default() -> None:
    assert found_again((BUILT_IN,), SCREEN, Direction.OUT, only_this=False) is BUILT_IN


@pytest.mark.parametrize(
    ("name", "inputs", "outputs", "is_headset"),
    [
        ("Classroom Headset", 1, 2, True),
        ("Headphones (High Definition Audio)", 0, 2, True),
        ("Kopfhörer", 0, 2, False),  # only English names are guessed
        ("XY Hands-Free AG Audio", 1, 1, True),
        ("USB Audio Device: - (hw:1,0)", 1, 2, True),
        ("USB speakers", 0, 2, False),
        ("USB microphone", 1, 0, False),
        ("Built-in Audio", 2, 2, False),
        ("default", 32, 32, False),
    ],
)
def test_a_headset_is_guessed_by_its_name(name: str, inputs: int, outputs: int, *, is_headset: bool) -> None:
    assert Device(name, "any", inputs, outputs, 48_000).seems_headset == is_headset


def test_a_device_is_asked_for_what_suits_us_first_and_for_its_own_way_next() -> None:
    tried = formats_to_try(BUILT_IN, Direction.IN, 16_000)
    assert tried[:4] == [
        StreamFormat(16_000, 1),
        StreamFormat(16_000, 2),
        StreamFormat(48_000, 1),
        StreamFormat(48_000, 2),
    ]
    assert StreamFormat(44_100, 2) in tried
    assert all(format.channels == 1 for format in formats_to_try(HEADSET, Direction.IN, 16_000))


WITHOUT_LIBRARY = """
import ctypes.util
ctypes.util.find_library = lambda name: None  # as on a machine where PortAudio was never installed
from saythesum.errors import DeviceError
from saythesum.sound.portaudio import load_portaudio
try:
    load_portaudio()
except DeviceError as error:
    print(error)
"""


def test_no_portaudio_is_told_with_what_to_install() -> None:
    done = subprocess.run([sys.executable, "-c", WITHOUT_LIBRARY], capture_output=True, text=True, check=True)
    assert "PortAudio library is missing" in done.stdout
    assert "apt-get install libportaudio2" in done.stdout
