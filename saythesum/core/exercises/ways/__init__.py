"""Other ways than through the next ten: the same sum, by other steps."""
