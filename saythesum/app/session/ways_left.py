"""Whether a pupil can still answer: window, terminal and sound may all go away under a practice."""

from dataclasses import dataclass

from saythesum.app.session.speech.listener import ListeningLost
from saythesum.sound.device_events import LoudspeakerFound, LoudspeakerLost, MicrophoneFound, MicrophoneLost


@dataclass(frozen=True, slots=True)
class ScreenLost:
    sentence: str


@dataclass(slots=True)
class WaysLeft:
    """The ways to answer at the start, kept up to date by news of devices."""

    has_terminal: bool
    has_window: bool
    hears_by_itself: bool
    """An ear that opens without a key."""
    has_microphone: bool = True
    has_loudspeaker: bool = True

    def note(self, news: object) -> None:
        match news:
            case ScreenLost():
                self.has_window = False
            case ListeningLost():
                self.hears_by_itself = False
            case MicrophoneLost() | MicrophoneFound():
                self.has_microphone = isinstance(news, MicrophoneFound)
            case LoudspeakerLost() | LoudspeakerFound():
                self.has_loudspeaker = isinstance(news, LoudspeakerFound)
            case _:
                pass

    @property
    def are_none(self) -> bool:
        """A microphone may be plugged in again while there is a loudspeaker to ask for it."""
        can_be_heard = self.hears_by_itself and (self.has_microphone or self.has_loudspeaker)
        return not (self.has_terminal or self.has_window or can_be_heard)
