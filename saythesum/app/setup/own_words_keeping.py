"""A pupil's own words in their file, for as long as that is allowed: it is looked at again each time, as an adult may
withdraw consent, or erase them, on the desk meanwhile."""

from collections.abc import Callable
from contextlib import suppress
from datetime import date

from saythesum.app.setup.folders import Places
from saythesum.app.setup.pupil_settings import HEADING
from saythesum.app.setup.settings_file import change_settings, own_settings
from saythesum.app.terminal.console import tell
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import keep_own_words, read_own_words
from saythesum.settings import OwnWordsConsent, Settings
from saythesum.settings.changing import Remarked


class OwnWordsKeeping:
    def __init__(self, pupil: str, own: Places, today: date) -> None:
        """`pupil`: a code as it is stored."""
        self.pupil, self._own, self._today = pupil, own, today
        self._file, self._settings_file = own.words_file(pupil), own.pupil_file(pupil)
        self._seen: tuple[int, int] | None = None
        self._consent = OwnWordsConsent()
        self._has_file = False
        """It was read or written here, so where it is gone it was erased."""
        self._is_over = False

    @property
    def is_allowed(self) -> bool:
        """Consent given, not against the pupil's no, and not erased since it was read. Once it is not, it never is
        again for whoever holds this."""
        if not self._is_over:
            self._is_over = not self._has_consent() or (self._has_file and not self._file.exists())
        return not self._is_over

    def read(self, factor: float, report: Callable[[str], None] = tell) -> OwnWords:
        """As `read_own_words`."""
        found = read_own_words(self._file, factor, report)
        self._has_file = bool(found.takes)
        return found

    def keep(self, words: OwnWords) -> bool:
        """Whether it was kept, and may go on being kept. A disk that takes nothing is told."""
        if not self.is_allowed:
            return False
        try:
            keep_own_words(self._file, words)
        except OSError as error:
            tell(f"{self._file} cannot be written ({error.strerror}): no more own words are kept today.")
            self._is_over = True
            return False
        self._has_file = True
        return True

    def keep_no(self, before: OwnWords) -> None:
        """The pupil said no: nothing of today stays, and nothing is used until an adult has asked again.

        `before`: what was kept on other days. It is not read any more, and stays until an adult erases it.
        """
        if before.takes:
            self.keep(before)
        else:
            self._file.unlink(missing_ok=True)
        no = Remarked(self._today.isoformat(), "not used until an adult has asked the pupil again and takes this out")
        change_settings(self._settings_file, {"own_words": {"use": False, "pupil_said_no": no}}, heading=HEADING)
        self._is_over = True

    def _has_consent(self) -> bool:
        seen = None
        with suppress(OSError):
            found = self._settings_file.stat()
            seen = (found.st_mtime_ns, found.st_size)
        if seen != self._seen or seen is None:
            self._seen = seen
            self._consent = own_settings(self._settings_file, base=Settings(), report=lambda _: None).own_words
        return self._consent.is_given(self._today)
