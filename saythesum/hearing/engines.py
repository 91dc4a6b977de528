"""Which engine listens: an explicit choice, no registry."""

from saythesum.errors import ListeningError
from saythesum.hearing.neural import NeuralRecogniser
from saythesum.ports import Recogniser


def recogniser(name: str) -> Recogniser:
    """The engine of that name, as the settings call it, ready to be opened.

    Raises ListeningError when it is not there, or something it needs is missing.
    """
    if name == "neural":
        return NeuralRecogniser()
    raise ListeningError(f'There is no listening engine "{name}" in this version; the one there is: neural')
