"""Whose records were erased, remembered as a digest of the code, so that an older file brings nobody back unasked.

A code is short: who has the file of records and tries all codes can find it, slowly. It names no child. The digest is
salted with a number that only this file of records has, so that no list made elsewhere, and no other computer's
records, tell anything of it.
"""

import secrets
import sqlite3
from collections.abc import Iterable
from hashlib import pbkdf2_hmac, sha256

ROUNDS = 20_000
"""About 10 ms a code: nobody waits for it, and trying all codes of four letters takes hours."""
_SALT = "salt:"
"""How the row begins that has this file's salt."""


def remember_erased(connection: sqlite3.Connection, code: str, at: str) -> None:
    """Within a transaction of the caller's. `at`: UTC, ISO 8601."""
    salt = _salt(connection)
    if salt is None:
        salt = secrets.token_hex(16)
        connection.execute("INSERT INTO erased VALUES (?, ?)", (_SALT + salt, ""))
    connection.execute("INSERT OR REPLACE INTO erased VALUES (?, ?)", (_digest(code, salt), at))


def erased_before(connection: sqlite3.Connection, codes: Iterable[str]) -> set[str]:
    """Those of the codes whose records were erased here and who have not come back since."""
    known = {digest for (digest,) in connection.execute("SELECT code_digest FROM erased")}
    here = {code for (code,) in connection.execute("SELECT DISTINCT pupil FROM practices")}
    salt = _salt(connection)
    return (
        {code for code in codes if code not in here and not known.isdisjoint(_digests(code, salt))} if known else set()
    )


def _salt(connection: sqlite3.Connection) -> str | None:
    found = connection.execute("SELECT code_digest FROM erased WHERE code_digest LIKE ?", (f"{_SALT}%",)).fetchone()
    return str(found[0]).removeprefix(_SALT) if found else None


def _digests(code: str, salt: str | None) -> set[str]:
    """As it is kept now, and as it was before there was a salt."""
    before = sha256(f"erased by saythesum: {code}".encode()).hexdigest()
    return {before, _digest(code, salt)} if salt else {before}


def _digest(code: str, salt: str) -> str:
    return pbkdf2_hmac("sha256", code.encode(), bytes.fromhex(salt), ROUNDS).hex()
