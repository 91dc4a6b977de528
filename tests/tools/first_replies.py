"""Prints what each of ninety wrong answers is met with first: `python -m tests.tools.first_replies`.

With a file of `sum<TAB>numbers` as an argument, those; without one, sums and numbers of our own that cover the same
ground. `--with OLD`, a file that this tool printed from another checkout, puts its replies beside these.
"""
