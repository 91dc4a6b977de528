"""The window for assistive software."""
