"""`python -m tests.tools.full_disk`: a practice on disks of 0 to 200 KB, with and without room elsewhere; as root."""

import tempfile
from collections import Counter
from pathlib import Path

from tests.tools.full_disk import practised_on, small_disk

SIZES_KB = range(4, 204, 8)


def main() -> None:
    for has_room_elsewhere in (False, True):
        came: Counter[str] = Counter()
        for size_kb in SIZES_KB:
            with tempfile.TemporaryDirectory() as folder, small_disk(Path(folder) / "disk", size_kb) as disk:
                elsewhere = Path(folder) if has_room_elsewhere else disk
                one = practised_on(disk, elsewhere)
            came[f"exit code {one.done.code}, {'true' if one.is_true else 'UNTRUE'}"] += 1
            print(
                f"{size_kb} KB: replied {one.replied}, kept {one.kept}, code {one.done.code}. {' '.join(one.done.told)}"
            )
        print(f"{'room' if has_room_elsewhere else 'no room'} elsewhere: {dict(came)}", flush=True)


if __name__ == "__main__":
    main()
