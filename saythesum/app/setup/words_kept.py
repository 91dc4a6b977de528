"""The file of a pupil's own words while they are learnt: it may be erased, and consent withdrawn, at any moment."""

from collections.abc import Callable
from pathlib import Path

from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import keep_own_words


class WordsKept:
    def __init__(self, file: Path, is_consented: Callable[[], bool], report: Callable[[str], None]) -> None:
        """`report` gets a sentence, once, where the file cannot be written."""
        self._file, self._is_consented, self._report = file, is_consented, report
        self._was_there = file.exists()
        self._is_writable = True

    @property
    def may_be_used(self) -> bool:
        """Whoever erases the file means what was learnt in this practice, too."""
        return self._is_consented() and self._file.exists() >= self._was_there

    def keep(self, own: OwnWords) -> bool:
        """False where they may not be used any more; then nothing is written."""
        if not self.may_be_used:
            return False
        if self._is_writable:
            self._write(own)
        return True

    def _write(self, own: OwnWords) -> None:
        try:
            keep_own_words(self._file, own)
            self._was_there = True
        except OSError as error:
            self._is_writable = False
            lost = "what is learnt of the pupil's own words today is forgotten."
            self._report(f"{self._file} cannot be written ({error.strerror}): {lost}")
