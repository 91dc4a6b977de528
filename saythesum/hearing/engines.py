"""Which engine listens: an explicit choice, no registry. What an engine needs is loaded when it is chosen."""

from pathlib import Path

from saythesum.errors import ListeningError
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.ports import Recogniser


def recogniser(
    name: str, models: Path, vocal_tract_factor: float = 1.0, own_words: OwnWords | None = None
) -> Recogniser:
    """The engine of that name, as the settings call it, ready to be opened.

    `models`: the folder of the models that were added. The factor and the pupil's own words are the embedded engine's;
    the other hears words as they come, before there is anything whole to be lowered or compared. Raises ListeningError
    when the engine is not there, or something it needs is missing.
    """
    match name:
        case "neural":
            from saythesum.hearing.embedded.recogniser import NeuralRecogniser

            return NeuralRecogniser(vocal_tract_factor, own_words)
        case "vosk":
            return _vosk(models)
    raise ListeningError(f'There is no listening engine "{name}" in this version; there are neural and vosk.')


def _vosk(models: Path) -> Recogniser:
    from saythesum.hearing.vosk.installed_models import model_in_use
    from saythesum.hearing.vosk.model import vosk_model
    from saythesum.hearing.vosk.recogniser import VoskRecogniser

    model = model_in_use(models)
    engine = VoskRecogniser(vosk_model(model.folder))
    if not engine.knows_any_number:
        raise ListeningError(
            f"The model {model.name} knows none of the number words that are listened for; right would be a model for "
            f"English. Say saythesum models remove {model.name}, and add that one."
        )
    return engine
