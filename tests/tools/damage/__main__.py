"""`python -m tests.tools.damage [COUNT]`: so many damages by seed, 500 unless said; what came of them, and each that
was not noticed or ended a practice.
"""

import shutil
import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.tools.damage import Found, damage_something, looked_at, make_home, rows_in


def found_by_seed(count: int, folder: Path) -> list[Found]:
    homes = {is_killed: folder / ("killed" if is_killed else "closed") for is_killed in (False, True)}
    for is_killed, home in homes.items():
        make_home(home, is_killed=is_killed)
    found = []
    for seed in range(count):
        home = folder / "case" / "home"
        shutil.copytree(homes[seed % 2 == 1], home)
        found.append(looked_at(home, rows_in(folder / "closed"), damage_something(home, seed)))
        shutil.rmtree(folder / "case")
    return found


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        found = found_by_seed(count, Path(folder))
    for outcome, number in sorted(Counter(one.outcome for one in found).items()):
        print(f"{outcome}: {number} of {count}")
    print(f"exit code 1: {sum(one.code == 1 for one in found)}; another end: {sum(one.code > 1 for one in found)}")
    print(f"practised after it: {sum(one.is_practised for one in found)} of {count}")
    print(f"rows altered: {sum(one.altered for one in found)}; most rows lost: {max(one.lost for one in found)}")
    for seed, one in enumerate(found):
        if one.outcome == "unnoticed" or one.code or not one.is_practised:
            print(f"  {seed}: {one.damage}; {one.outcome}; code {one.code}; lost {one.lost}. {one.told.strip()}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
