"""Everything the tool can mean to say, as values without words. The words are in wording/."""

from typing import TypeAlias

Message: TypeAlias = object
