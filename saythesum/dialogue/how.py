"""How something came to be heard: what an answer's row keeps beside the number."""

from dataclasses import dataclass

from saythesum.core.rows import By, HeardId


@dataclass(frozen=True, slots=True)
class HowHeard:
    by: By
    id: HeardId | None
    took_ms: int | None
    """From the end of the question to the first sound or key; None where that says nothing."""
