"""`GRID ANSWERS`: milliseconds of processor time to the first question, of that the opening alone, then each answer."""

import sys
from pathlib import Path
from time import process_time

from saythesum.app.session.by_text import TextOutlets
from saythesum.app.session.practice import Wish, practice, setup_for
from saythesum.core.meanings import Number
from saythesum.core.records.rows import By, HeardId
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import Began, Entered
from saythesum.dialogue.tutor.progress import cell_of

outlets = TextOutlets()
setup = setup_for("pupil-1")
loaded_s = process_time()
with practice(Wish("pupil-1", Path(sys.argv[1])), setup, Ear.TEXT, outlets) as runner:
    outlets.runner = runner
    runner.post(Began(runner.now_ms))
    started_s = process_time()
    answers_ms: list[float] = []
    for number in range(int(sys.argv[2])):
        ask = runner.state.progress.ask
        assert ask is not None
        right = runner.state.plan.exercise_at(cell_of(ask)).answer_to(ask.part)
        given = Number(right - 1 if number % 3 == 1 else right)
        began_s = process_time()
        runner.post(Entered(given, "", By.TEXT, runner.now_ms, runner.now_ms, HeardId("")))
        answers_ms.append((process_time() - began_s) * 1000)
print(started_s * 1000, (started_s - loaded_s) * 1000, *answers_ms)
