"""Trains the second opinion on a bank of frames, and writes its weights.

    python -m tests.tools.second_opinion.train BANK FILE --encoder FILE [--without SOURCE ...] [--seed N] [--steps N]

BANK as `tests.tools.second_opinion.bank` makes it. --without leaves out every source that begins so: "person:george"
for a fit that has never heard him, "person" for one that has heard nobody real. Needs PyTorch, and is made for a
graphics card.
"""

import argparse
import hashlib
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import torch
from torch.nn import functional

from tests.tools.second_opinion.bank import FIRST_SEED
from tests.tools.second_opinion.network import Dropped, Shape, Weights, new_weights, scores
from tests.tools.second_opinion.vocabulary import MEANINGS, WORDS

STEPS = 3600
BATCH, BATCHES_DRAWN = 384, 8
HIGHEST_RATE, WARM_UP_STEPS, WEIGHT_DECAY = 1.5e-3, 300, 0.05
PEOPLE_COUNT = 2.0
"""A clip of somebody real is drawn as often as this many of made voices."""
SMOOTHED = 0.05
STEADY = 0.999
"""The weights that are written are a running mean of those learnt."""
SHORTEST, LONGEST = 10, 175
FEATURE_NOISE, FEATURES_LOST, GAPS, LONGEST_GAP = 0.35, 0.13, 3, 4
KEPT_FOR_A_LOOK = 1500


class Bank:
    """All clips on the graphics card, one after the other."""

    def __init__(self, folder: Path, device: str) -> None:
        parts = [np.load(path) for path in sorted(folder.glob("*.npz"), key=lambda path: int(path.stem))]
        self.frames = torch.cat([torch.from_numpy(part["frames"]) for part in parts]).to(device)
        self.lengths = np.concatenate([part["lengths"] for part in parts])
        self.begins = np.cumsum(self.lengths) - self.lengths
        self.sources = np.concatenate([part["sources"] for part in parts])
        self.meanings = torch.from_numpy(np.concatenate([part["meanings"] for part in parts])).to(device)
        self.words = list(_split(np.concatenate([part["words"] for part in parts])))
        drawn = torch.randperm(len(self.frames), device=device)[:60_000]
        self.mean = self.frames[drawn].float().mean(0)
        self.spread = self.frames[drawn].float().std(0) + 1e-3

    def batch(self, clips: Any) -> tuple[Any, Any, Any, Any, Any]:
        """Frames, their lengths, all words on end, how many of them each clip has, meanings."""
        device, lengths = self.frames.device, self.lengths[clips]
        longest = int(lengths.max())
        places = self.begins[clips][:, None] + np.minimum(np.arange(longest)[None], lengths[:, None] - 1)
        frames = (self.frames[torch.from_numpy(places).to(device)].float() - self.mean) / self.spread
        words = [self.words[clip] for clip in clips]
        counts = torch.tensor([len(each) for each in words], device=device)
        together = torch.from_numpy(np.concatenate(words)).to(device)
        meanings = self.meanings[torch.from_numpy(clips).to(device)]
        return frames, torch.from_numpy(lengths).to(device), together, counts, meanings


def _split(words: np.ndarray[Any, Any]) -> Iterator[np.ndarray[Any, Any]]:
    begin = 0
    for end in np.flatnonzero(words < 0).tolist():
        yield words[begin:end]
        begin = end + 1


def disturbed(frames: Any, lengths: Any) -> Any:
    """Another encoder's frames of the same: noise that stays and that does not, gaps in time, features lost."""
    batch, count, size = frames.shape
    where = {"device": frames.device}
    frames = frames * (1 + 0.12 * torch.randn(batch, 1, size, **where))
    for steps in (1, count):
        noise = torch.randn(batch, steps, size, **where)
        frames = frames + FEATURE_NOISE * torch.rand(batch, 1, 1, **where) * noise
    at = torch.arange(count, **where)[None]
    for _ in range(GAPS):
        begin = torch.rand(batch, 1, **where) * lengths[:, None]
        wide = torch.rand(batch, 1, **where) * LONGEST_GAP * (torch.rand(batch, 1, **where) < 0.5)
        frames = frames.masked_fill(((at >= begin) & (at < begin + wide))[..., None], 0)
    return frames.masked_fill(torch.rand(batch, 1, size, **where) < FEATURES_LOST, 0)


def trained(bank: Bank, learnt: Any, looked_at: Any, steps: int, seed: int) -> Weights:
    shape, dice = Shape(), np.random.default_rng(seed)
    weights = new_weights(shape, len(WORDS), len(MEANINGS), str(bank.frames.device))
    steady = {name: weight.detach().clone() for name, weight in weights.items()}
    optimiser = torch.optim.AdamW(weights.values(), lr=HIGHEST_RATE, weight_decay=WEIGHT_DECAY, betas=(0.9, 0.98))
    share = np.where(np.char.startswith(bank.sources[learnt], "person"), PEOPLE_COUNT, 1.0)
    share /= share.sum()
    began = time.perf_counter()
    for step, clips in zip(range(steps), _batches(bank, learnt, share, dice), strict=False):
        for group in optimiser.param_groups:
            rising = min(1.0, step / WARM_UP_STEPS)
            group["lr"] = HIGHEST_RATE * rising * (0.5 * (1 + np.cos(np.pi * step / steps)) + 0.01)
        loss = _loss(weights, shape, bank, clips)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(weights.values(), 2.0)
        optimiser.step()
        with torch.no_grad():
            kept = min(STEADY, (step + 1) / (step + 20))
            torch._foreach_lerp_(list(steady.values()), [weights[name].detach() for name in steady], 1 - kept)
        if step % 250 == 249 or step == steps - 1:
            right = _right(steady, shape, bank, looked_at)
            print(
                f"step {step + 1}, {time.perf_counter() - began:.0f} s, loss {float(loss.detach()):.3f}, right {right}",
                flush=True,
            )
    return steady


def _batches(bank: Bank, learnt: Any, share: Any, dice: np.random.Generator) -> Iterator[Any]:
    """Clips of about one length together."""
    while True:
        drawn = dice.choice(learnt, BATCH * BATCHES_DRAWN, p=share)
        drawn = drawn[np.argsort(bank.lengths[drawn], kind="stable")]
        for place in dice.permutation(BATCHES_DRAWN):
            yield drawn[place * BATCH : (place + 1) * BATCH]


def _loss(weights: Weights, shape: Shape, bank: Bank, clips: Any) -> Any:
    """Connectionist temporal classification of the words, and cross-entropy of the meaning.

    Source of the first: A. Graves et al., Connectionist Temporal Classification, ICML 2006.
    """
    frames, lengths, words, counts, meanings = bank.batch(clips)
    word_scores, meaning_scores = scores(weights, shape, disturbed(frames, lengths), lengths, Dropped())
    by_word = functional.ctc_loss(
        word_scores.transpose(0, 1), words, lengths, counts, blank=0, zero_infinity=True, reduction="none"
    )
    by_meaning = functional.nll_loss(meaning_scores, meanings) * (1 - SMOOTHED) - SMOOTHED * meaning_scores.mean()
    return (by_word / counts.clamp(min=1)).mean() + by_meaning


def _right(weights: Weights, shape: Shape, bank: Bank, clips: Any) -> dict[str, str]:
    """Of clips that were not learnt from, the share whose meaning is found: by kind of voice."""
    found, of = Counter[str](), Counter[str]()
    with torch.no_grad():
        for some in np.array_split(clips, max(1, len(clips) // 512)):
            frames, lengths, _, _, meanings = bank.batch(some)
            likeliest = scores(weights, shape, frames, lengths)[1].argmax(-1)
            for source, is_right in zip(bank.sources[some].tolist(), (likeliest == meanings).tolist(), strict=True):
                kind = source if source.startswith("person") else source.split(":")[0]
                of[kind] += 1
                found[kind] += is_right
    return {kind: f"{found[kind] / count:.3f}" for kind, count in sorted(of.items())}


def main() -> None:
    asked = _asked()
    torch.manual_seed(asked.seed)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    bank = Bank(asked.bank, device)
    is_left_out = np.zeros(len(bank.sources), bool)
    for source in asked.without:
        is_left_out |= np.char.startswith(bank.sources, source)
    fits = (bank.lengths >= SHORTEST) & (bank.lengths <= LONGEST)
    dice = np.random.default_rng(asked.seed)
    learnt = np.flatnonzero(fits & ~is_left_out)
    looked_at = dice.choice(learnt, min(KEPT_FOR_A_LOOK, len(learnt) // 10), replace=False)
    learnt = np.setdiff1d(learnt, looked_at)
    left_out = np.flatnonzero(fits & is_left_out)[:3000]
    print(f"{len(learnt)} clips, left out: {asked.without}", flush=True)
    weights = trained(bank, learnt, np.concatenate([looked_at, left_out]), asked.steps, asked.seed)
    _write(asked.file, weights, bank, asked)


SOURCES = """\
espeak-ng: its English dialects, variants and other languages (GPL-3.0-or-later)
flite: slt, rms, kal, kal16 (licence of Carnegie Mellon University, like BSD)
festival: cmu_us_slt_arctic_hts and ked_diphone (licences of festival and its voices, like MIT)
hibari-tts 0.2.1: its voice, its lexicon (Apache-2.0)
Free Spoken Digit Dataset: george, lucas, nicolas (CC BY-SA 4.0)
asterisk-core-sounds-en: one woman's prompts (CC BY-SA 3.0)
frames: the encoder of moonshine-voice 0.1.0, tiny-en (MIT)
No recording is in the file."""


def _write(path: Path, weights: Weights, bank: Bank, asked: argparse.Namespace) -> None:
    """Halves suffice, and all of it is one file."""
    halves = {name: weight.cpu().numpy().astype(np.float16) for name, weight in weights.items()}
    np.savez_compressed(
        path,
        mean=bank.mean.cpu().numpy(),
        spread=bank.spread.cpu().numpy(),
        meaning_names=np.array(MEANINGS),
        encoder_sha256=np.array(hashlib.sha256(asked.encoder.read_bytes()).hexdigest()),
        about=np.array(about(asked.seed, asked.steps, asked.without, Counter(map(kind_of, bank.sources)))),
        **halves,
    )
    print(f"{path}: {sum(weight.size for weight in halves.values())} weights, {path.stat().st_size / 1e6:.2f} MB")


def kind_of(source: str) -> str:
    return str(source).split(":")[0]


def about(seed: int, steps: int, without: list[str], clips: Counter[str]) -> str:
    counts = ", ".join(f"{kind} {count}" for kind, count in clips.most_common())
    return (
        f"Made by python -m tests.tools.second_opinion.bank (parts from seed {FIRST_SEED} on) and\n"
        f"python -m tests.tools.second_opinion.train (seed {seed}, {steps} steps, without {without or 'nothing'}).\n"
        f"Clips: {counts}.\nSources and licences:\n{SOURCES}\n"
    )


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.tools.second_opinion.train")
    parser.add_argument("bank", type=Path)
    parser.add_argument("file", type=Path)
    parser.add_argument("--encoder", type=Path, required=True)
    parser.add_argument("--without", action="append", default=[])
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--steps", type=int, default=STEPS)
    return parser.parse_args()


if __name__ == "__main__":
    main()
