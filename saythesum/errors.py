"""Every error of ours: one base, a branch for each room, one sentence for the person.

The text of an error is for people: what is wrong, where, and what would be right.
"""


class SayTheSumError(Exception):
    """The base of all of ours."""

    exit_code = 1


class CallerError(SayTheSumError, ValueError):
    """Something that was given to us is wrong: a file, an option, a setting."""

    exit_code = 2


class GridError(CallerError):
    """A grid cannot be read, or has something in it that no grid can have."""


class SoundFileError(CallerError):
    """A sound file is missing or cannot be read."""


class StoreError(SayTheSumError):
    """The records cannot be opened, read or written."""

    exit_code = 2


class AnotherCopyError(StoreError):
    """Somebody else practises with the same records."""


class VoiceError(SayTheSumError):
    """No voice, or it could not be brought to speak."""

    exit_code = 3


class ListeningError(SayTheSumError):
    """A listening engine or its model is missing or broken."""

    exit_code = 3


class DeviceError(SayTheSumError):
    """No microphone or loudspeaker, or one that does not work."""

    exit_code = 3


class ScreenError(SayTheSumError):
    """No window can be opened, or the screen went away under it. The practice can go on without."""

    exit_code = 3
