"""The adult's own ear, beside the pupil: a second loudspeaker that says the list of the adult's turn."""
