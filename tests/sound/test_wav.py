"""Files that other programs wrote, files that are broken, and our own."""

import os
import subprocess
import sys
import wave
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from saythesum.errors import SoundFileError
from saythesum.ports import Samples, Sound
from saythesum.sound.resample import for_listening
from saythesum.sound.wav import PIECE_FRAMES, read_for_listening, read_wav, write_wav
from tests.sound.wav_files import chunk, header, riff, wav

TONE = (np.sin(np.arange(4_000) * 0.2) * 0.5).astype(np.float32)
SIXTEEN = (TONE * 32_768).astype("<i2").tobytes()
FFMPEG_KINDS = {"pcm_u8": 1 / 100, "pcm_s16le": 1 / 30_000, "pcm_s24le": 1 / 30_000, "pcm_s32le": 1 / 30_000,
                "pcm_f32le": 1 / 30_000, "pcm_f64le": 1 / 30_000}  # fmt: skip


def in_file(folder: Path, data: bytes) -> Path:
    path = folder / "said.wav"
    path.write_bytes(data)
    return path


@pytest.fixture
def tone_file(tmp_path: Path) -> Path:
    path = tmp_path / "tone.wav"
    write_wav(path, [TONE], 44_100)
    return path


# ---- what other programs write


@pytest.mark.parametrize("channels", [1, 2])
@pytest.mark.parametrize("kind", FFMPEG_KINDS)
def test_reads_what_ffmpeg_writes(tone_file: Path, tmp_path: Path, kind: str, channels: int) -> None:
    """Outside reference: ffmpeg, which writes stereo, 24 bits and more under the extensible header."""
    path = tmp_path / "theirs.wav"
    command = ["ffmpeg", "-v", "error", "-i", str(tone_file), "-ac", str(channels), "-c:a", kind, str(path)]
    subprocess.run(command, check=True)
    sound = read_wav(path)
    assert sound.rate_hz == 44_100
    assert sound.samples.dtype == np.float32
    # Both of two channels carry the mono tone; ffmpeg may bring it to 1 or to 0.71 in each.
    assert np.corrcoef(sound.samples, TONE)[0, 1] > 0.999
    if channels == 1:
        assert np.abs(sound.samples - TONE).max() < FFMPEG_KINDS[kind]


def test_reads_what_ffmpeg_sends_through_a_pipe(tone_file: Path, tmp_path: Path) -> None:
    """Through a pipe nobody can go back and write the length: it stays at its highest value."""
    command = ["ffmpeg", "-v", "error", "-i", str(tone_file), "-f", "wav", "-"]
    sent = subprocess.run(command, check=True, capture_output=True).stdout
    assert b"data\xff\xff\xff\xff" in sent, "else this test proves nothing"
    assert np.abs(read_wav(in_file(tmp_path, sent)).samples - TONE).max() < 1 / 30_000


def test_reads_what_the_standard_library_writes(tmp_path: Path) -> None:
    with wave.open(str(tmp_path / "said.wav"), "wb") as file:
        file.setparams((1, 2, 8_000, 0, "NONE", ""))
        file.writeframes(SIXTEEN)
    assert np.abs(read_wav(tmp_path / "said.wav").samples - TONE).max() < 1 / 30_000


def test_the_standard_library_reads_what_we_write(tmp_path: Path) -> None:
    path = tmp_path / "rehearsal.wav"
    write_wav(path, [TONE, TONE[:100] * 0.5], 16_000)
    with wave.open(str(path)) as file:
        assert file.getparams()[:4] == (2, 2, 16_000, len(TONE))
        left, right = np.frombuffer(file.readframes(len(TONE)), "<i2").reshape(-1, 2).T / 32_768
    assert np.abs(left - TONE).max() < 1 / 30_000
    assert np.abs(right[:100] - TONE[:100] * 0.5).max() < 1 / 30_000
    assert not right[100:].any()


# ---- by hand


def test_two_channels_become_their_mean(tmp_path: Path) -> None:
    both = np.stack([np.full(50, 8_192), np.full(50, -4_096)], axis=1).astype("<i2").tobytes()
    sound = read_wav(in_file(tmp_path, wav(both, channels=2)))
    assert sound.samples == pytest.approx(np.full(50, 0.0625))


@pytest.mark.parametrize(
    ("codec", "bits", "body", "values"),
    [
        (1, 8, bytes([0, 128, 255]), [-1, 0, 127 / 128]),
        (1, 16, b"\x00\x80\x00\x00\xff\x7f", [-1, 0, 32_767 / 32_768]),
        (1, 24, b"\x00\x00\x80\x00\x00\x00\x00\x00\x40", [-1, 0, 0.5]),
        (1, 32, b"\x00\x00\x00\x80\x00\x00\x00\x00\x00\x00\x00\x40", [-1, 0, 0.5]),
        (3, 32, np.array([-2.0, np.nan, 0.25], "<f4").tobytes(), [-1, 0, 0.25]),
        (3, 64, np.array([np.inf, -0.5, 1e300], "<f8").tobytes(), [0, -0.5, 1]),
    ],
)
def test_values_by_hand(tmp_path: Path, codec: int, bits: int, body: bytes, values: list[float]) -> None:
    sound = read_wav(in_file(tmp_path, wav(body, codec=codec, bits=bits)))
    assert sound.samples.tolist() == pytest.approx(values)


def test_other_chunks_are_passed_over(tmp_path: Path) -> None:
    names = chunk(b"LIST", b"odd") + chunk(b"bext", b"\0" * 602)
    body = names + chunk(b"fmt ", header(1, 1, 16_000, 16)) + names + chunk(b"data", SIXTEEN) + names
    assert len(read_wav(in_file(tmp_path, riff(body))).samples) == len(TONE)


@pytest.mark.parametrize("kept", [46, 1_000, 7_999])
def test_of_a_file_that_is_cut_off_what_is_there(tmp_path: Path, kept: int) -> None:
    sound = read_wav(in_file(tmp_path, wav(SIXTEEN)[:kept]))
    assert len(sound.samples) == (kept - 44) // 2
    assert np.abs(sound.samples - TONE[: len(sound.samples)]).max() < 1 / 30_000


def test_a_recording_whose_length_was_never_written(tmp_path: Path) -> None:
    begun = chunk(b"fmt ", header(1, 1, 16_000, 16)) + chunk(b"data", SIXTEEN, size=0)
    assert len(read_wav(in_file(tmp_path, riff(begun, size=0))).samples) == len(TONE)
    assert len(read_wav(in_file(tmp_path, riff(begun, size=36))).samples) == len(TONE)


# ---- one sentence: what, where, what would be right


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "is empty"),
        (b"RIFF", "not a WAV file; right would be"),
        (b"Not sound at all, but a letter." * 9, "not a WAV file; right would be"),
        (b"OggS\0\2" + bytes(200), "an Ogg file, not a WAV"),
        (b"ID3\4" + bytes(200), "an MP3 file, not a WAV"),
        (riff(b""), "no whole fmt chunk"),
        (riff(chunk(b"data", SIXTEEN)), "no whole fmt chunk"),
        (riff(chunk(b"fmt ", b"\1\0\1\0")), "no whole fmt chunk"),
        (riff(chunk(b"fmt ", header(1, 1, 16_000, 16))), "ends before its sound begins"),
        (wav(b""), "has no sound in it"),
        (wav(b"\0"), "has no sound in it"),
        (wav(SIXTEEN, codec=7, bits=8), "G.711 mu-law of 8 bits; right would be"),
        (wav(SIXTEEN, codec=0x1234), "codec 4660 of 16 bits; right would be"),
        (wav(SIXTEEN, bits=12), "PCM of 12 bits; right would be"),
        (wav(SIXTEEN, bits=0), "PCM of 0 bits; right would be"),
        (wav(SIXTEEN, codec=3, bits=16), "float of 16 bits; right would be"),
        (wav(SIXTEEN, channels=0), "0 channels; right would be"),
        (wav(SIXTEEN, channels=65_535), "65535 channels; right would be"),
        (wav(SIXTEEN, rate_hz=0), "0 samples a second; right would be"),
        (wav(SIXTEEN, rate_hz=4_000_000_000), "4,000,000,000 samples a second; right would be"),
    ],
)
def test_one_sentence_for_each_fault(tmp_path: Path, data: bytes, told: str) -> None:
    path = in_file(tmp_path, data)
    with pytest.raises(SoundFileError) as error:
        read_wav(path)
    sentence = str(error.value)
    assert told in sentence
    assert sentence.startswith(str(path))
    assert sentence.endswith(".")
    assert "\n" not in sentence


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "nowhere.wav", Path("nul\0byte.wav"), tmp_path / ("x" * 5_000)):
        with pytest.raises(SoundFileError, match=r"cannot be read: .*; name a WAV file"):
            read_wav(path)


def test_a_file_too_large_for_one_answer(tmp_path: Path) -> None:
    path = in_file(tmp_path, wav(SIXTEEN))
    with path.open("r+b") as file:
        file.truncate(60_000_000)  # a hole: it takes no room
    with pytest.raises(SoundFileError, match="more than 50,000,000 bytes"):
        read_wav(path)


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="a device that never ends, as Linux has it")
def test_what_never_ends_or_never_begins(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.wav"
    os.mkfifo(pipe)
    for path in (Path("/dev/zero"), pipe):
        with pytest.raises(SoundFileError, match="is a pipe or a device; name a WAV file"):
            read_wav(path)


def test_an_hour_of_few_samples_a_second(tmp_path: Path) -> None:
    path = in_file(tmp_path, wav(bytes([128]) * (8_000 * 3_600), rate_hz=8_000, bits=8))
    with pytest.raises(SoundFileError, match="has 60 minutes of sound, more than 5; right would be a shorter"):
        read_wav(path)


def test_a_file_that_cannot_be_written(tmp_path: Path) -> None:
    with pytest.raises(SoundFileError, match="cannot be written"):
        write_wav(tmp_path / "no folder" / "rehearsal.wav", [TONE], 16_000)


# ---- long recordings


def test_a_recording_is_the_same_in_pieces(tmp_path: Path) -> None:
    both = np.random.default_rng(1).integers(-9_000, 9_000, (2 * PIECE_FRAMES + 77, 2)).astype("<i2")
    path = in_file(tmp_path, wav(both.tobytes(), channels=2, rate_hz=44_100))
    whole = read_wav(path)
    assert np.array_equal(whole.samples, both.astype(np.float32).mean(axis=1) / 32_768)
    assert np.allclose(read_for_listening(path), for_listening(whole), atol=1e-6)


READS = """
import resource, sys
from pathlib import Path
from saythesum.sound.wav import read_for_listening
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
read_for_listening(Path(sys.argv[1]))
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before)
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="kilobytes, as Linux counts them")
def test_the_largest_recording_takes_little_memory(tmp_path: Path) -> None:
    """50 MB of few bits at many samples a second became a gigabyte. The file itself, and little else."""
    path = in_file(tmp_path, wav(bytes(range(256)) * 195_000, bits=8, rate_hz=192_000))
    done = subprocess.run([sys.executable, "-c", READS, str(path)], capture_output=True, text=True, check=True)
    assert int(done.stdout) < 150_000


# ---- any bytes

GOOD = [
    wav(SIXTEEN[:400]),
    wav(SIXTEEN[:400], channels=2, rate_hz=44_100),
    wav(bytes(range(256)), bits=8),
    wav(SIXTEEN[:390], bits=24),
    wav(TONE[:80].tobytes(), codec=3, bits=32),
    riff(chunk(b"fmt ", header(0xFFFE, 2, 48_000, 16) + b"\x16\0\x10\0\3\0\0\0\1\0") + chunk(b"data", SIXTEEN[:99])),
]
quickly = settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@quickly
@given(
    good=st.sampled_from(GOOD), at=st.integers(0, 99), put=st.binary(min_size=1, max_size=9), end=st.integers(0, 600)
)
def test_a_damaged_file_is_sound_or_one_sentence(tmp_path: Path, good: bytes, at: int, put: bytes, end: int) -> None:
    _is_sound_or_told(tmp_path, (good[:at] + put + good[at + len(put) :])[:end])


@quickly
@given(st.binary(max_size=300) | st.binary(max_size=300).map(riff))
@example(b"RIFF\0\0\0\0WAVEfmt \xff\xff\xff\xff")
def test_any_bytes_are_sound_or_one_sentence(tmp_path: Path, data: bytes) -> None:
    _is_sound_or_told(tmp_path, data)


def _is_sound_or_told(folder: Path, data: bytes) -> None:
    path = in_file(folder, data)
    try:
        sound = read_wav(path)
    except SoundFileError as error:
        assert str(error).startswith(str(path)) and "\n" not in str(error)
        return
    assert isinstance(sound, Sound)
    assert sound.samples.dtype == np.float32
    assert len(sound.samples) > 0
    assert np.abs(sound.samples).max() <= 1
    assert sound.duration_ms >= 0


@quickly
@given(st.lists(st.floats(-1, 1, width=32), min_size=1, max_size=200), st.sampled_from([8_000, 16_000, 22_050]))
def test_what_is_written_is_read(tmp_path: Path, values: list[float], rate_hz: int) -> None:
    samples: Samples = np.array(values, np.float32)
    write_wav(tmp_path / "out.wav", [samples], rate_hz)
    sound = read_wav(tmp_path / "out.wav")
    assert sound.rate_hz == rate_hz
    assert np.abs(sound.samples - samples).max() <= 1 / 32_768
