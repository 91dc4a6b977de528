"""What a wrong whole answer is met with: the help that its exercise has for the patterns behind it."""

from saythesum.core.exercises.exercise import Help
from saythesum.core.records.rows import Answer
from saythesum.core.sums import Part


def first_help(answer: Answer) -> Help:
    """The help that all patterns behind the answer share. Where they share none, or no pattern fits, a fresh look."""
    asked, given = answer.asked, answer.given
    helps = {asked.help_from(pattern.help, given) for pattern in asked.deciding(answer.could_be)}
    if len(helps) == 1 and not answer.close_to:
        return helps.pop()
    return Help(Part.WHOLE, asked.compared(given))


def first_step(answer: Answer) -> Part:
    """Where the steps begin after a wrong whole answer; only where there are steps."""
    help = first_help(answer)
    return help.part if help.part is not Part.WHOLE else answer.asked.first_part(answer.given)
