"""How often a vocal-tract factor is in use by chance: `python -m tests.tools.listening.factor_by_chance [FOLDER]`.

Some recordings of each speaker, as they are and raised by 1.35, are scored once; then practices are drawn from them by
seed, twelve sums at a time, and the factor is learnt answer after answer. As they are, no speaker should have one.
FOLDER as in `python -m tests.tools.listening`. About three minutes on two free cores.
"""

import os
import sys
from concurrent.futures import ProcessPoolExecutor
from random import Random

from saythesum.core.meanings import Awaiting
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import spoken_part
from saythesum.hearing.vocal_tract.factor import FACTORS, Evidence, Scores, VocalTract
from tests.tools.listening.conditions import CLEAN, child
from tests.tools.listening.sets import sets, speakers_folder
from tests.tools.listening.sounds import SEED, Clip, MissingError

CONDITIONS = {each.name: each for each in (CLEAN, child(1.35))}
CLIPS, ORDERS, ANSWERS, SUMS = 30, 40, 60, 12


def main() -> None:
    folder = speakers_folder(sys.argv[1] if sys.argv[1:] else None)
    print(f"{'set':<24}{'condition':<12}ever   share of answers   at the end")
    with ProcessPoolExecutor(os.cpu_count()) as cores:
        tasks = []
        for each in sets(folder):
            if not (each.has_numbers and each.is_person):
                continue
            try:
                clips = Random(SEED).sample(drawn := list(each.clips()), min(CLIPS, len(drawn)))
            except MissingError as missing:
                print(f"{each.name}: left out. {missing}")
                continue
            tasks += [(each.name, name, cores.submit(_scores, clips, name)) for name in CONDITIONS]
        for set_name, condition, task in tasks:
            _show(set_name, condition, [_practised(task.result(), Random(seed)) for seed in range(ORDERS)])


def _scores(clips: list[Clip], condition: str) -> list[Scores]:
    engine, make = NeuralRecogniser(), CONDITIONS[condition]
    spoken = [spoken_part(make.of(clip)) for clip in clips]
    return [tuple(engine.log_probabilities(samples, Awaiting.NUMBER, FACTORS)) for samples in spoken if len(samples)]


def _practised(scores: list[Scores], dice: Random) -> list[float]:
    """The factor in use after each answer."""
    tract, evidence = VocalTract(), Evidence()
    factors = []
    sums: list[Scores] = []
    for place in range(ANSWERS):
        sums = sums if place % SUMS else dice.sample(scores, SUMS)
        evidence = evidence.with_answer(dice.choice(sums))
        tract = tract.after(evidence)
        factors.append(tract.factor)
    return factors


def _show(set_name: str, condition: str, orders: list[list[float]]) -> None:
    used = [[factor > 1.0 for factor in factors] for factors in orders]
    ever = sum(map(any, used)) / len(used)
    share = sum(map(sum, used)) / (len(used) * ANSWERS)
    end = sum(factors[-1] for factors in orders) / len(orders)
    print(f"{set_name:<24}{condition:<12}{ever:4.2f}   {share:16.2f}   {end:10.2f}", flush=True)


if __name__ == "__main__":
    main()
