"""What a pupil hears of the records: only that answers are safe, or that they are not."""

RECORDS_LOST = "I can't reach the place where your answers are kept. I'm keeping them in another place for now."
"""When the records are moved away, say, or their disk is full. The practice goes on."""
RECORDS_BACK = "Your answers are back in their place."
