"""Text to braille cells: by liblouis where the system has it, by our own encoder where it has not."""

from saythesum.publishing.braille.liblouis import translated
from saythesum.settings import BrailleCode
from saythesum.wording.braille.own_encoder import encoded

_NO_CONTRACTIONS = (
    "liblouis is not installed, or lacks its tables: the words stand in uncontracted braille. The sums are the same."
)


class Translator:
    def __init__(self, code: BrailleCode) -> None:
        self._code = code
        self.notice = _NO_CONTRACTIONS if code == "contracted" and translated("the", code) is None else None
        """For the adult; None where all is as asked for."""

    def words(self, text: str) -> str:
        came = translated(text, self._code)
        return encoded(text) if came is None else came

    def signs(self, text: str) -> str:
        """Sums, numbers and codes, which are never contracted."""
        came = translated(text, "uncontracted")
        return encoded(text) if came is None else came
