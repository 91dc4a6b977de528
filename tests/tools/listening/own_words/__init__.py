"""What a pupil's own words are worth. `python -m tests.tools.listening.own_words` prints the figures."""
