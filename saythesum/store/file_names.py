"""Names that a file cannot have everywhere."""

DEVICES = frozenset(
    {"con", "prn", "aux", "nul"} | {f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10)}
)
"""With such names a path leads elsewhere on some systems. Source: "Naming Files, Paths, and Namespaces" (Microsoft)."""
