"""The words of a talk about patterns."""
