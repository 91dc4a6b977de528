"""Stand-ins for the edges, each run through the same suite as the real one."""
