"""Every figure of diagnosis, the model of the pupil and the choice of cells: `python -m tests.tools.learning_figures`.

With names after it, only those: `python -m tests.tools.learning_figures questions kept`. All take an hour or so.
Made-up pupils only: what is printed says nothing about children.
"""

import sys

from tests.learner.published import print_published
from tests.tools.learning_figures.asking import kept, questions
from tests.tools.learning_figures.cost import cost
from tests.tools.learning_figures.finding_out import counts, false_naming, ranked_first, two_mistakes
from tests.tools.learning_figures.succeeding import success
from tests.tools.learning_figures.taking import taking

FIGURES = {
    "counts": counts,
    "published": print_published,
    "ranked-first": ranked_first,
    "false-naming": false_naming,
    "two-mistakes": two_mistakes,
    "taking": taking,
    "questions": questions,
    "kept": kept,
    "success": success,
    "cost": cost,
}


def main() -> None:
    names = sys.argv[1:] or list(FIGURES)
    if unknown := [name for name in names if name not in FIGURES]:
        sys.exit(f"{unknown[0]!r} is no figure; right would be any of: {', '.join(FIGURES)}.")
    for name in names:
        FIGURES[name]()


if __name__ == "__main__":
    main()
