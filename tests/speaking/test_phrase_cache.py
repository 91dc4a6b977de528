import os
from multiprocessing import get_context
from pathlib import Path

import numpy as np
import pytest

from saythesum.errors import VoiceError
from saythesum.ports import Sound
from saythesum.speaking.phrase_cache import KeptVoice


class CountingVoice:
    """A tone as long as the phrase, and how often each was asked for."""

    def __init__(self, identity: str = "a tone") -> None:
        self.identity = identity
        self.rendered: list[str] = []

    def render(self, phrase: str) -> Sound:
        if phrase == "broken":
            raise VoiceError("No voice today.")
        self.rendered.append(phrase)
        return Sound((np.sin(np.arange(100 * len(phrase))) * 0.3).astype(np.float32), 22_050)

    def close(self) -> None:
        pass


def test_a_phrase_is_rendered_once(tmp_path: Path) -> None:
    voice = CountingVoice()
    kept = KeptVoice(voice, tmp_path / "made" / "when needed")
    first, again = kept.render("Eleven."), kept.render("Eleven.")
    assert voice.rendered == ["Eleven."]
    assert np.array_equal(first.samples, again.samples), "nothing tells the first time from the others"
    assert (first.rate_hz, again.rate_hz) == (22_050, 22_050)
    assert np.abs(first.samples - voice.render("Eleven.").samples).max() < 1 / 32_000


def test_it_outlives_the_program(tmp_path: Path) -> None:
    KeptVoice(CountingVoice(), tmp_path).render("Eleven.")
    later = CountingVoice()
    KeptVoice(later, tmp_path).render("Eleven.")
    assert later.rendered == []


def test_another_voice_has_phrases_of_its_own(tmp_path: Path) -> None:
    KeptVoice(CountingVoice("one"), tmp_path).render("Eleven.")
    other = CountingVoice("other")
    KeptVoice(other, tmp_path).render("Eleven.")
    assert other.rendered == ["Eleven."]


@pytest.mark.parametrize("share", [0.0, 0.02, 0.5, 0.999])
def test_a_file_that_is_cut_off_is_rendered_again(tmp_path: Path, share: float) -> None:
    voice = CountingVoice()
    kept = KeptVoice(voice, tmp_path)
    whole = kept.render("Eleven.")
    (path,) = tmp_path.iterdir()
    data = path.read_bytes()
    path.write_bytes(data[: int(len(data) * share)])
    assert np.array_equal(kept.render("Eleven.").samples, whole.samples)
    assert path.read_bytes() == data
    assert voice.rendered == ["Eleven."] * 2


def test_other_bytes_in_a_file_are_rendered_again(tmp_path: Path) -> None:
    voice = CountingVoice()
    kept = KeptVoice(voice, tmp_path)
    kept.render("Eleven.")
    (path,) = tmp_path.iterdir()
    for other in (b"\0" * 500, b"not a sound", os.urandom(2_000)):
        path.write_bytes(other)
        assert kept.render("Eleven.").duration_ms > 0
    assert len(voice.rendered) == 4


def test_the_folder_stays_within_its_bytes_and_the_longest_unused_go(tmp_path: Path) -> None:
    voice = CountingVoice()
    kept = KeptVoice(voice, tmp_path, most_bytes=20_000)
    for number in range(100, 130):
        kept.render("first")
        kept.render(str(number))
    assert sum(path.stat().st_size for path in tmp_path.iterdir()) <= 20_000
    assert voice.rendered.count("first") == 1, "it was used all the time"
    kept.render("100")
    assert voice.rendered.count("100") == 2, "it was not used for the longest time"


def test_what_a_crash_left_behind_goes_as_well(tmp_path: Path) -> None:
    (tmp_path / "tmpabc.part").write_bytes(b"\0" * 19_000)
    kept = KeptVoice(CountingVoice(), tmp_path, most_bytes=20_000)
    for number in range(100, 110):
        kept.render(str(number))
    assert not list(tmp_path.glob("*.part"))


def test_files_of_others_are_left_alone(tmp_path: Path) -> None:
    (tmp_path / "holiday.jpg").write_bytes(b"\0" * 50_000)
    kept = KeptVoice(CountingVoice(), tmp_path, most_bytes=2_000)
    for number in range(100, 110):
        kept.render(str(number))
    assert (tmp_path / "holiday.jpg").exists()


def test_a_folder_that_cannot_be_one_costs_only_time(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    voice = CountingVoice()
    kept = KeptVoice(voice, tmp_path / "file")
    assert kept.render("Eleven.").duration_ms == kept.render("Eleven.").duration_ms > 0
    assert len(voice.rendered) == 2


def test_a_voice_that_fails_is_told_and_nothing_is_kept(tmp_path: Path) -> None:
    with pytest.raises(VoiceError, match="No voice today"):
        KeptVoice(CountingVoice(), tmp_path).render("broken")
    assert not list(tmp_path.iterdir())


def _fill(folder: Path) -> None:
    kept = KeptVoice(CountingVoice(), folder, most_bytes=60_000)
    for round_ in range(4):
        for number in range(100, 160):
            assert kept.render(str(number)).duration_ms == 13, (round_, number)


def test_two_processes_share_a_folder(tmp_path: Path) -> None:
    context = get_context("spawn")
    both = [context.Process(target=_fill, args=(tmp_path,)) for _ in range(2)]
    for process in both:
        process.start()
    for process in both:
        process.join()
    assert [process.exitcode for process in both] == [0, 0]
    assert not list(tmp_path.glob("*.part"))
