"""So many of something, for adults."""


def counted(number: int, one: str, many: str = "") -> str:
    """ "1 practice", "2 practices". `many`: where it is more than an s."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"
