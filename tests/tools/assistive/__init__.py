"""Real assistive software beside the real program: a private X server, session bus and accessibility bus."""
