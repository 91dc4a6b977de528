"""A model for Vosk that a person added: a folder, opened once, never looked for on the net."""

import json
import re
from collections.abc import Iterable, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from saythesum.errors import ListeningError
from saythesum.ports import LISTENING_RATE_HZ, Samples

NEEDED = ("am/final.mdl", "conf/mfcc.conf", "conf/model.conf", "graph/HCLr.fst", "graph/Gr.fst")
_GRAPHS = ("graph/HCLr.fst", "graph/Gr.fst")
_FIXED_GRAPH = "graph/HCLG.fst"
_GRAPH_BEGINS = bytes.fromhex("d6fdb27e")
"""Source: OpenFst, kFstMagicNumber in fst.cc, 2125659606, little-endian. A graph without it ends the whole process."""

LATTICE_BEAM_NATS = 4.0
"""How far below the best hearing another may lie and still be told of: as far as a number that sounds alike is
asked for. The makers' small models have 2. Measured on 99 synthetic numbers: 4 and 5 cost nothing that shows,
8 up to 8 s for a single answer."""
_KALDIS_OWN_BEAM_NATS = 10.0
_BEAM = re.compile(r"^--lattice-beam=[ \t]*([0-9.]+)[ \t]*$", re.MULTILINE)

_SILENT = -3
"""Below -1 and -2, at which the engine still writes warnings and errors among our lines."""
_MOST_ALTERNATIVES = 20
UNKNOWN = "[unk]"
"""What a vocabulary calls whatever it does not know. Models without it take everything for a word of the list."""


class VoskModel:
    """Stateless between streams. Shared by all recognisers."""

    def __init__(self, folder: Path) -> None:
        """Takes some seconds. Raises ListeningError where the folder holds no model that can be used."""
        fault = fault_in(folder)
        if fault:
            raise ListeningError(f"{folder} is no model for the listening engine vosk: {fault}")
        try:
            import vosk  # 0.2 s, and what else it loads: only for those who use it
        except (ImportError, OSError) as failure:
            raise ListeningError(
                f"The listening engine vosk cannot be loaded ({failure}); install it with: pip install vosk"
            ) from failure
        vosk.SetLogLevel(_SILENT)
        try:
            self._model = vosk.Model(str(folder))
        except Exception as failure:  # its only kind
            raise _damaged(folder) from failure
        self._new_stream = vosk.KaldiRecognizer
        self.folder = folder
        self.lattice_beam_nats = _lattice_beam(folder)

    def knows(self, word: str) -> bool:
        return bool(self._model.vosk_model_find_word(word) >= 0)

    def missing(self, entries: Iterable[str]) -> tuple[str, ...]:
        """The words of these entries that are not in the vocabulary, each once."""
        words = dict.fromkeys(word for entry in entries for word in entry.split())
        return tuple(word for word in words if not self.knows(word))

    def stream(self, entries: Sequence[str]) -> "VoskStream | None":
        """None where there is nothing to listen for: an empty list would end the whole process.

        Entries with a word that the model does not know are left out, for the engine would only drop that word.
        """
        known = [entry for entry in entries if not self.missing([entry])]
        if not known:
            return None
        if self.knows(UNKNOWN):
            known.append(UNKNOWN)
        # Letters as they are: the engine does not read JSON's escapes.
        grammar = json.dumps(known, ensure_ascii=False)
        return VoskStream(self._new_stream(self._model, LISTENING_RATE_HZ, grammar), self.folder)


class VoskStream:
    """One stretch of speech, heard while it is said. It ends when we say so, whatever the engine makes of a silence."""

    def __init__(self, engine: Any, folder: Path) -> None:
        self._engine = engine
        self._folder = folder
        engine.SetMaxAlternatives(_MOST_ALTERNATIVES)

    def feed(self, samples: Samples) -> None:
        """As in ports; what is no number is silence. Raises ListeningError where the model is damaged."""
        sound = np.clip(np.nan_to_num(samples, nan=0.0, posinf=1.0, neginf=-1.0), -1.0, 1.0)
        try:
            self._engine.AcceptWaveform(np.rint(sound * 32_767).astype("<i2").tobytes())
        except Exception as failure:  # its only kind
            raise _damaged(self._folder) from failure

    def end(self) -> str:
        """What was heard, in the engine's JSON. Nothing can be fed afterwards."""
        return str(self._engine.FinalResult())


@cache
def vosk_model(folder: Path) -> VoskModel:
    """The one copy of each: a small model takes half a gigabyte. Raises ListeningError as VoskModel does."""
    return VoskModel(folder)


def fault_in(folder: Path) -> str | None:
    """Why the folder is no model that can be used, with what would be right; None where it looks like one.

    The engine itself is not asked: it ends the whole process over some of these.
    """
    if not folder.is_dir():
        return "there is no such folder. Right would be the folder of a model."
    absent = [name for name in NEEDED if not (folder / name).is_file()]
    if absent and (folder / _FIXED_GRAPH).is_file():
        return "its graph is fixed and takes no list of words. Right would be one of the small models."
    if absent:
        return f"there is no {absent[0]} in it. Right would be a model as its makers publish it, whole."
    broken = [name for name in _GRAPHS if not _begins(folder / name, _GRAPH_BEGINS)]
    return f"its {broken[0]} is damaged. Right would be a fresh copy." if broken else None


def widen_lattice(folder: Path) -> None:
    """Let the model tell of hearings as far apart as LATTICE_BEAM_NATS, where it tells of fewer.

    Only for a copy of our own.
    """
    if _lattice_beam(folder) < LATTICE_BEAM_NATS:
        path = folder / "conf/model.conf"
        text = path.read_text(encoding="utf-8", errors="replace")
        path.write_text(_BEAM.sub(f"--lattice-beam={LATTICE_BEAM_NATS}", text), encoding="utf-8")


def _damaged(folder: Path) -> ListeningError:
    return ListeningError(f"The model {folder.name} is damaged: right would be a fresh copy of it.")


def _lattice_beam(folder: Path) -> float:
    text = (folder / "conf/model.conf").read_text(encoding="utf-8", errors="replace")
    found = _BEAM.findall(text)
    try:
        return float(found[-1]) if found else _KALDIS_OWN_BEAM_NATS
    except ValueError:
        return _KALDIS_OWN_BEAM_NATS


def _begins(path: Path, beginning: bytes) -> bool:
    with path.open("rb") as file:
        return file.read(len(beginning)) == beginning
