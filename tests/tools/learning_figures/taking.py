"""Taking away: how soon a stable mistake of its own is found out, asked in any order."""

from random import Random
from statistics import mean

from saythesum.app.rehearsal.kinds import SLIPS_ONLY, PupilKind, believing_in, mind_of
from saythesum.core.exercises.taking import Difference
from saythesum.core.mistakes.taking import TAKE_MISTAKES
from saythesum.core.records.rows import By, RowId
from saythesum.core.sums import Kind, Part
from saythesum.learner.diagnosis import diagnosed
from saythesum.learner.evidence import Evidence
from saythesum.learner.findings import findings
from tests.learner.learners import FIRST_DAY
from tests.tools.learning_figures.lines import SEEDS, each

PUPILS = 20
ANSWERS = 6
_ALL = [Difference(start, amount) for start in range(11, 100) for amount in range(1, 10)]
CROSSING = [asked for asked in _ALL if asked.kind is Kind.CROSSING]
LANDING = [asked for asked in _ALL if asked.kind is Kind.LANDING]


def answered(kind: PupilKind, seed: int, answers: int) -> list[Evidence]:
    """Two of three cross a ten, the third lands on one."""
    pupil, dice = mind_of(kind, seed, FIRST_DAY), Random(seed)
    told: list[Evidence] = []
    for number in range(answers):
        asked = dice.choice(LANDING if number % 3 == 2 else CROSSING)
        given = pupil.answer(asked, Part.WHOLE, FIRST_DAY).given
        told.append(Evidence(RowId(f"row {number}"), asked.key, Part.WHOLE, given, By.VOICE))
    return told


def taking() -> None:
    print(f"== Taking away: the one stable mistake ranked first after {ANSWERS} answers in any order (slips 5 %)")
    shares: dict[str, list[float]] = {}
    for mistake in TAKE_MISTAKES:
        ranked = (
            [
                diagnosed(answered(believing_in(mistake), 1000 * seed + number, ANSWERS)).ranked
                for number in range(PUPILS)
            ]
            for seed in SEEDS
        )
        shares[mistake.name] = [mean(names[0] == mistake.name for names in one) for one in ranked]
    print("all:", each(mean(one) for one in zip(*shares.values(), strict=True)))
    for name, of_seeds in sorted(shares.items(), key=lambda item: mean(item[1])):
        print(f"{name}: {each(of_seeds)}")
    named = [
        mean(bool(findings(answered(SLIPS_ONLY, 1000 * seed + number, 20))) for number in range(5 * PUPILS))
        for seed in SEEDS
    ]
    print("named after 20 answers although the pupil only slips:", each(named))
