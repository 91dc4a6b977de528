"""How well the listening side hears, measured on recordings and made voices: `python -m tests.tools.listening`."""
