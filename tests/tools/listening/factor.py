"""What the pupil's vocal-tract factor is worth: each speaker before and after it was learnt.

    python -m tests.tools.listening.factor [FOLDER] [--set NAME] [--condition NAME] [--every N]

As in a practice, it is learnt from the first answers of a speaker, in an order by a fixed seed: from those that are
taken, whatever for. The figures are of all the answers after those, heard without it and with it.
FOLDER, NAME and N as in `python -m tests.tools.listening`. About half an hour on two free cores.
"""

import argparse
import os
import random
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace

from saythesum.core.meanings import Awaiting
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import spoken_part
from saythesum.hearing.vocal_tract.factor import FACTORS, Evidence, VocalTract
from saythesum.ports import Samples
from tests.tools.listening.conditions import CLEAN, Condition, child
from tests.tools.listening.figures import Figures, figures
from tests.tools.listening.hearings import answered
from tests.tools.listening.sets import Set, sets, speakers_folder
from tests.tools.listening.sounds import SEED, Clip, MissingError

FIRST = 24
"""Two practices of twelve sums; of a set that is smaller, a third."""
RAISED = (1.2, 1.35, 1.5)
CONDITIONS = (CLEAN, *map(child, RAISED))


@dataclass(frozen=True, slots=True)
class Learnt:
    set: str
    condition: str
    tract: VocalTract
    before: Figures
    after: Figures


def learnt(set_name: str, clips: list[Clip], condition: str) -> Learnt:
    make = next(each for each in CONDITIONS if each.name == condition)
    shuffled = random.Random(SEED).sample(clips, len(clips))
    spoken = [spoken_part(make.of(clip)) for clip in shuffled]
    first = min(FIRST, len(clips) // 3)
    tract = _learnt_from(spoken[:first])
    rest = list(zip(shuffled, spoken, strict=True))[first:]
    before, after = (_figures(set_name, rest, condition, factor) for factor in (1.0, tract.factor))
    return Learnt(set_name, condition, tract, before, after)


def _learnt_from(spoken: list[Samples]) -> VocalTract:
    """Answer after answer, each heard with what was learnt from those before it."""
    tract, evidence = VocalTract(), Evidence()
    clip = Clip("", "", None, lambda: spoken[0])
    for samples in spoken:
        engine = NeuralRecogniser(tract.factor)
        if len(samples) and answered(engine, "", clip, "", samples).is_taken:
            evidence = evidence.with_answer(engine.log_probabilities(samples, Awaiting.NUMBER, FACTORS))
            tract = tract.after(evidence)
    return tract


def _figures(set_name: str, rest: list[tuple[Clip, Samples]], condition: str, factor: float) -> Figures:
    engine = NeuralRecogniser(factor)
    return figures([answered(engine, set_name, clip, condition, samples) for clip, samples in rest])


def main() -> None:
    asked = _asked()
    conditions = [each.name for each in CONDITIONS if _is_wanted(each, asked.condition)]
    wanted = [each for each in sets(speakers_folder(asked.folder)) if each.has_numbers and _is_wanted(each, asked.set)]
    print(f"{'set':<24}{'condition':<12}{'factor':>6}{'from':>5}{'of':>5}   right          taken          wrongly")
    together: dict[str, list[Learnt]] = {}
    with ProcessPoolExecutor(os.cpu_count()) as cores:
        tasks = [
            cores.submit(learnt, each.name, clips, condition)
            for each in wanted
            if (clips := _clips(each)[:: asked.every])
            for condition in conditions
        ]
        for task in tasks:
            _show(found := task.result())
            together.setdefault(found.condition, []).append(found)
    for condition, found_there in together.items():
        before, after = (_sum([getattr(found, when) for found in found_there]) for when in ("before", "after"))
        _show(Learnt("all together", condition, VocalTract(), before, after), is_sum=True)


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.tools.listening.factor")
    parser.add_argument("folder", nargs="?")
    parser.add_argument("--set", action="append", default=[])
    parser.add_argument("--condition", action="append", default=[])
    parser.add_argument("--every", type=int, default=1)
    return parser.parse_args()


def _is_wanted(named: Set | Condition, names: list[str]) -> bool:
    return not names or named.name.startswith(tuple(names))


def _clips(each: Set) -> list[Clip]:
    try:
        return list(each.clips())
    except MissingError as missing:
        print(f"{each.name}: left out. {missing}")
        return []


def _sum(parts: list[Figures]) -> Figures:
    total = Figures(0, 0, 0, 0, 0.0)
    for part in parts:
        total = replace(
            total,
            count=total.count + part.count,
            right=total.right + part.right,
            taken=total.taken + part.taken,
            taken_wrongly=total.taken_wrongly + part.taken_wrongly,
        )
    return total


def _show(found: Learnt, *, is_sum: bool = False) -> None:
    source = " " * 11 if is_sum else f"{found.tract.factor:>6}{found.tract.answers:>5}"
    before, after, of = found.before, found.after, found.before.count
    shares = "  ".join(
        f"{100 * was / of:5.1f} to {100 * now / of:5.1f}"
        for was, now in (
            (before.right, after.right),
            (before.taken, after.taken),
            (before.taken_wrongly, after.taken_wrongly),
        )
    )
    print(f"{found.set:<24}{found.condition:<12}{source}{of:>5}  {shares}", flush=True)


if __name__ == "__main__":
    main()
