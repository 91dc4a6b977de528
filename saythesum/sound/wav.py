"""WAV files: those of any maker are read, and ours are written for people to listen to.

Source of the format: "Multimedia Programming Interface and Data Specifications 1.0" (IBM and Microsoft, 1991) and
"Multiple Channel Audio Data and WAVE Files" (Microsoft, 2001) for the extensible header.
"""

import struct
import wave
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from saythesum.errors import SoundFileError
from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.sound.resample import resampled_in_pieces

PCM, FLOAT, EXTENSIBLE = 1, 3, 0xFFFE
NAMES = {
    PCM: "PCM",
    FLOAT: "float",
    2: "ADPCM",
    6: "G.711 A-law",
    7: "G.711 mu-law",
    17: "IMA ADPCM",
    49: "GSM 6.10",
    80: "MPEG",
    85: "MP3",
}
"""Source: the registry of wave formats, RFC 2361."""
RATES_HZ = range(4_000, 192_001)
MOST_CHANNELS = 8
MOST_BYTES = 50_000_000
"""Nearly five minutes of stereo at 44.1 kHz; an answer takes a few hundred thousand."""
MOST_MINUTES = 5
"""An hour of few samples a second has as few bytes, and takes minutes and gigabytes to be listened to."""
PIECE_FRAMES = 1 << 16
RIGHT = "right would be a WAV file, mono or stereo, PCM of 8, 16, 24 or 32 bits or float"


@dataclass(frozen=True, slots=True)
class _Format:
    codec: int
    channels: int
    rate_hz: int
    bits: int

    @property
    def frame_bytes(self) -> int:
        return self.channels * self.bits // 8


def read_wav(path: Path) -> Sound:
    """Mono, at the file's own rate; of a file that is cut off, what is there.

    Raises SoundFileError.
    """
    rate_hz, pieces = wav_in_pieces(path)
    return Sound(np.concatenate(list(pieces)), rate_hz)


def read_for_listening(path: Path) -> Samples:
    """As the listening side takes it. A long recording never stands in memory at its own rate.

    Raises SoundFileError.
    """
    rate_hz, pieces = wav_in_pieces(path)
    return resampled_in_pieces(pieces, from_hz=rate_hz, to_hz=LISTENING_RATE_HZ)


def wav_in_pieces(path: Path) -> tuple[int, Iterator[Samples]]:
    """The file's rate, and its sound one piece after the other. Raises SoundFileError, before the first piece."""
    data = _bytes_of(path)
    if data[:4] != b"RIFF" or data[8:12] != b"WAVE":
        raise SoundFileError(f"{path} is {_what(data)}; {RIGHT}.")
    header, body = _chunks(data)
    described = _format(path, header)
    if body is None:
        raise SoundFileError(f"{path} ends before its sound begins; record or copy it once more.")
    decoded = _DECODERS.get((described.codec, described.bits))
    if decoded is None:
        raise SoundFileError(f"{path} is written as {_written_as(described)}; {RIGHT}.")
    frames = len(body) // described.frame_bytes
    if frames == 0:
        raise SoundFileError(f"{path} has no sound in it; record or copy it once more.")
    minutes = frames / described.rate_hz / 60
    if minutes > MOST_MINUTES:
        raise SoundFileError(
            f"{path} has {minutes:.0f} minutes of sound, more than {MOST_MINUTES}; right would be a shorter recording."
        )
    step = PIECE_FRAMES * described.frame_bytes
    whole = body[: frames * described.frame_bytes]
    pieces = (whole[begin : begin + step] for begin in range(0, len(whole), step))
    return described.rate_hz, (_mono(decoded(piece), described.channels) for piece in pieces)


def _mono(values: NDArray[np.floating], channels: int) -> Samples:
    """A broken float file may hold anything: whatever is not a number becomes silence."""
    mono = np.nan_to_num(values.reshape(-1, channels).mean(axis=1), nan=0.0, posinf=0.0, neginf=0.0)
    clean: Samples = np.clip(mono, -1.0, 1.0).astype(np.float32)
    return clean


def write_wav(path: Path, channels: Sequence[Samples], rate_hz: int) -> None:
    """16 bit, one track for each of `channels`, the shorter ones filled up with silence.

    Raises SoundFileError where it cannot be written.
    """
    length = max(len(channel) for channel in channels)
    together = np.zeros((length, len(channels)), "<i2")
    for track, channel in enumerate(channels):
        together[: len(channel), track] = np.clip(np.rint(channel * 32_768.0), -32_768, 32_767)
    try:
        with path.open("wb") as stream, wave.open(stream, "wb") as file:
            file.setparams((len(channels), 2, rate_hz, length, "NONE", ""))
            file.writeframes(together.tobytes())
    except OSError as error:
        raise SoundFileError(f"{path} cannot be written: {error.strerror or error}.") from error


def _bytes_of(path: Path) -> bytes:
    try:
        never_begins = path.exists() and not (path.is_file() or path.is_dir())
        data = b"" if never_begins else _beginning_of(path)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise SoundFileError(f"{path} cannot be read: {reason}; name a WAV file.") from error
    if never_begins:  # or never ends
        raise SoundFileError(f"{path} is a pipe or a device; name a WAV file.")
    if len(data) > MOST_BYTES:
        raise SoundFileError(f"{path} has more than {MOST_BYTES:,} bytes; right would be a shorter recording.")
    if not data:
        raise SoundFileError(f"{path} is empty; record or copy it once more.")
    return data


def _beginning_of(path: Path) -> bytes:
    """One byte more than there may be, where there are more."""
    with path.open("rb") as file:
        return file.read(MOST_BYTES + 1)


def _what(data: bytes) -> str:
    for beginning, name in _BEGINNINGS.items():
        if data.startswith(beginning):
            return f"{name}, not a WAV file"
    return "not a WAV file"


_BEGINNINGS = {
    b"RF64": "an RF64 file", b"RIFX": "a RIFX file", b"OggS": "an Ogg file", b"fLaC": "a FLAC file",
    b"ID3": "an MP3 file", b"\xff\xfb": "an MP3 file", b"FORM": "an AIFF file", b"caff": "a CAF file",
}  # fmt: skip


def _chunks(data: bytes) -> tuple[bytes | None, memoryview | None]:
    """The format chunk and the sound, each None where there is none.

    A recorder that was stopped the hard way leaves a length of 0, or one past the end: then the rest is the sound.
    """
    header: bytes | None = None
    body: memoryview | None = None
    riff_end = 8 + int.from_bytes(data[4:8], "little")
    at = 12
    while at + 8 <= len(data) and (header is None or body is None):
        name, size = data[at : at + 4], int.from_bytes(data[at + 4 : at + 8], "little")
        at += 8
        if name == b"data" and size == 0 and riff_end <= at:
            size = len(data) - at
        if name == b"fmt ":
            header = data[at : at + size]
        elif name == b"data":
            body = memoryview(data)[at : at + size]
        at += size + size % 2
    return header, body


def _format(path: Path, header: bytes | None) -> _Format:
    if header is None or len(header) < 16:
        raise SoundFileError(f"{path} does not say how its sound is written (no whole fmt chunk); {RIGHT}.")
    codec, channels, rate_hz, _, _, bits = struct.unpack_from("<HHIIHH", header)
    if codec == EXTENSIBLE and len(header) >= 26:
        codec = int.from_bytes(header[24:26], "little")
    if not 1 <= channels <= MOST_CHANNELS:
        raise SoundFileError(f"{path} says it has {channels} channels; right would be one or two.")
    if rate_hz not in RATES_HZ:
        raise SoundFileError(
            f"{path} says it has {rate_hz:,} samples a second; right would be {RATES_HZ[0]:,} to {RATES_HZ[-1]:,}."
        )
    return _Format(codec, channels, rate_hz, bits)


def _written_as(described: _Format) -> str:
    return f"{NAMES.get(described.codec, f'codec {described.codec}')} of {described.bits} bits"


def _three_bytes(body: memoryview) -> Samples:
    """24 bits have no type of their own: they are put in the upper three bytes of 32."""
    wide = np.zeros((len(body) // 3, 4), np.uint8)
    wide[:, 1:] = np.frombuffer(body, np.uint8).reshape(-1, 3)
    return _whole_numbers(wide.tobytes(), "<i4")


def _whole_numbers(body: memoryview | bytes, kind: str) -> Samples:
    values = np.frombuffer(body, kind)
    return values.astype(np.float32) / np.float32(-float(np.iinfo(values.dtype).min))


_DECODERS: Mapping[tuple[int, int], Callable[[memoryview], NDArray[np.floating]]] = {
    (PCM, 8): lambda body: (np.frombuffer(body, np.uint8).astype(np.float32) - 128) / 128,
    (PCM, 16): lambda body: _whole_numbers(body, "<i2"),
    (PCM, 24): _three_bytes,
    (PCM, 32): lambda body: _whole_numbers(body, "<i4"),
    (FLOAT, 32): lambda body: np.frombuffer(body, "<f4"),
    (FLOAT, 64): lambda body: np.frombuffer(body, "<f8"),
}
