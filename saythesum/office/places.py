"""What the office needs to know of where things live."""

from collections.abc import Sequence
from pathlib import Path
from typing import Protocol


class Places(Protocol):
    """Nothing here needs to exist yet: whoever writes first makes the folder."""

    @property
    def data(self) -> Path: ...

    @property
    def settings_file(self) -> Path: ...

    @property
    def records_file(self) -> Path: ...

    @property
    def grids(self) -> Path: ...

    @property
    def plans(self) -> Path: ...

    @property
    def for_rescue(self) -> Sequence[Path]: ...

    def pupil_file(self, code: str) -> Path: ...

    def words_file(self, code: str) -> Path: ...

    def snapshots(self, code: str) -> Path: ...
