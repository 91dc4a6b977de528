"""Every error of ours: one base, a branch for each room, one sentence for the person.

The text of an error is for people: what is wrong, where, and what would be right.
"""


class SayTheSumError(Exception):
    """The base of all of ours. `code` is stable; the text may change."""

    code = "fault"
    exit_code = 1


class CallerError(SayTheSumError, ValueError):
    """Something that was given to us is wrong: a file, an option, a setting."""

    code = "caller"
    exit_code = 2


class GridError(CallerError):
    code = "grid"


class SoundFileError(CallerError):
    code = "sound-file"


class StoreError(SayTheSumError):
    """The records cannot be opened, read or written."""

    code = "store"
    exit_code = 2


class AnotherCopyError(StoreError):
    """Somebody else practises with the same records."""

    code = "another-copy"


class VoiceError(SayTheSumError):
    """No voice, or it could not be brought to speak."""

    code = "voice"
    exit_code = 3


class ListeningError(SayTheSumError):
    """A listening engine or its model is missing or broken."""

    code = "listening"
    exit_code = 3


class DeviceError(SayTheSumError):
    """No microphone or loudspeaker, or one that does not work."""

    code = "device"
    exit_code = 3


class ScreenError(SayTheSumError):
    """No window can be opened, or the screen went away under it. The practice can go on without."""

    code = "screen"
    exit_code = 3
