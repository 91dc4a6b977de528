"""Whose records were erased, remembered as a digest of the code, so that an older file brings nobody back unasked.

A code is short: who has the file of records and tries all codes can find it. It names no child.
"""

import sqlite3
from collections.abc import Iterable
from hashlib import sha256


def digest_of(code: str) -> str:
    return sha256(f"erased by saythesum: {code}".encode()).hexdigest()


def erased_before(connection: sqlite3.Connection, codes: Iterable[str]) -> set[str]:
    """Those of the codes whose records were erased here and who have not come back since."""
    known = {digest for (digest,) in connection.execute("SELECT code_digest FROM erased")}
    here = {code for (code,) in connection.execute("SELECT DISTINCT pupil FROM practices")}
    return {code for code in codes if digest_of(code) in known and code not in here}
