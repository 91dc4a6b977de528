"""What is missing or damaged is said in one sentence with what to do."""

import shutil
from pathlib import Path

import pytest

from saythesum.errors import ListeningError
from saythesum.hearing.embedded.moonshine import EmbeddedModel, model_folder

FILES = ("tokenizer.bin", "encoder_model.ort", "decoder_model_merged.ort")


@pytest.mark.parametrize("missing", FILES)
def test_a_missing_file(missing: str, tmp_path: Path) -> None:
    for name in set(FILES) - {missing}:
        shutil.copy(model_folder() / name, tmp_path)
    with pytest.raises(ListeningError, match=rf"{missing} is missing or damaged; put it back with: pip install"):
        EmbeddedModel(tmp_path)


@pytest.mark.parametrize("damaged", FILES[1:])
def test_a_damaged_file(damaged: str, tmp_path: Path) -> None:
    for name in FILES:
        shutil.copy(model_folder() / name, tmp_path)
    (tmp_path / damaged).write_bytes((model_folder() / damaged).read_bytes()[:100_000])
    with pytest.raises(ListeningError, match=rf"{damaged} is missing or damaged"):
        EmbeddedModel(tmp_path)


def test_a_wheel_that_is_not_installed() -> None:
    with pytest.raises(ListeningError, match="is not installed; install it with: pip install moonshine-voice"):
        model_folder("a_package_that_is_not_there")
