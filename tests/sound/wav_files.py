"""WAV files made byte by byte for tests, right and wrong."""

import struct


def wav(body: bytes, *, codec: int = 1, channels: int = 1, rate_hz: int = 16_000, bits: int = 16) -> bytes:
    return riff(chunk(b"fmt ", header(codec, channels, rate_hz, bits)) + chunk(b"data", body))


def header(codec: int, channels: int, rate_hz: int, bits: int) -> bytes:
    frame = channels * bits // 8
    return struct.pack("<HHIIHH", codec, channels, rate_hz, rate_hz * frame % 2**32, frame % 2**16, bits)


def chunk(name: bytes, body: bytes, *, size: int | None = None) -> bytes:
    return name + struct.pack("<I", len(body) if size is None else size) + body + b"\0" * (len(body) % 2)


def riff(chunks: bytes, *, size: int | None = None) -> bytes:
    return b"RIFF" + struct.pack("<I", 4 + len(chunks) if size is None else size) + b"WAVE" + chunks
