"""sounddevice as it is, except that every device takes 48 kHz stereo only, as docks and screens do."""

from typing import Any


class Only48kStereo:
    def __init__(self, library: Any) -> None:
        self._library = library
        self.opened: list[tuple[int, int]] = []
        """Rate and channels of each stream."""

    def __getattr__(self, name: str) -> Any:
        return getattr(self._library, name)

    def InputStream(self, **wanted: Any) -> Any:  # noqa: N802 - sounddevice's own name
        self._refuse_other(wanted)
        return self._library.InputStream(**wanted)

    def OutputStream(self, **wanted: Any) -> Any:  # noqa: N802
        self._refuse_other(wanted)
        return self._library.OutputStream(**wanted)

    def _refuse_other(self, wanted: dict[str, Any]) -> None:
        format = (wanted["samplerate"], wanted["channels"])
        if format != (48_000, 2):
            raise self._library.PortAudioError(f"Invalid sample rate or channels: {format}")
        self.opened.append(format)
