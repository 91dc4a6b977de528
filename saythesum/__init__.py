"""Practise adding a one-digit to a two-digit number across a ten, by ear, voice and keys."""

__version__ = "0.1.0"
