#!/usr/bin/env python3
"""Hash chain and head of a register, written from docs/register.md alone.

Without an argument: the hashes that crates/register/src/chain.rs and head/tests.rs expect.
With the path of a register: recomputes every hash in it, says which differ, and prints its head.
"""

import hashlib
import sqlite3
import sys


def hash_fields(fields: list[bytes]) -> bytes:
    """SHA-256 over the fields, each behind its length in 8 bytes, big-endian."""
    digest = hashlib.sha256()
    for field in fields:
        digest.update(len(field).to_bytes(8, "big"))
        digest.update(field)
    return digest.digest()


def link(previous: bytes, who: tuple[str, str, str, str], desk: str | None, rest: tuple[str, str]) -> bytes:
    """Case, number, time and person; the desk, if it was named; program and body."""
    purpose = b"millrace revision 1" if desk is None else b"millrace revision 2"
    fields = [*who, *([] if desk is None else [desk]), *rest]
    return hash_fields([purpose, previous, *(f.encode() for f in fields)])


def head(saves: list[bytes], sheets: list[bytes]) -> bytes:
    fields = [b"millrace head 1"]
    for hashes in (saves, sheets):
        fields += [str(len(hashes)).encode(), hashlib.sha256(b"".join(hashes)).digest()]
    return hash_fields(fields)


def examples() -> None:
    case, when, who, program = "0" * 26, "2026-11-24T10:15:30Z", "A. Okafor", "millrace 0.1.0"
    first = link(bytes(32), (case, "1", when, who), None, (program, "{}"))
    second = link(first, (case, "2", when, who), None, (program, '{"é":1}'))
    third = link(second, (case, "3", when, who), "measuring room", (program, "{}"))
    print(first.hex())
    print(second.hex())
    print(third.hex())
    print(head([bytes([1]) * 32, bytes([2]) * 32], [bytes([3]) * 32]).hex())
    print(head([], []).hex())


def verify(path: str) -> int:
    register = sqlite3.connect(f"file:{path}?mode=ro&immutable=1", uri=True)
    columns = [row[1] for row in register.execute("PRAGMA table_info(revision)")]
    desk_column = "desk" if "desk" in columns else "NULL"
    rows = register.execute(
        f"SELECT case_id, number, saved_at, saved_by, {desk_column}, program, body, hash FROM revision"
        " ORDER BY case_id, number"
    )
    last, count, wrong = {}, 0, 0
    for case, number, when, who, desk, program, body, stored in rows:
        before = last.get(case, bytes(32))
        computed = link(before, (case, str(number), when, who), desk, (program, body))
        if computed != stored:
            print(f"{case} revision {number}: {stored.hex()} stored, {computed.hex()} computed")
            wrong += 1
        last[case] = stored
        count += 1
    print(f"{count} revisions of {len(last)} cases, {wrong} wrong")
    saves = [row[0] for row in register.execute("SELECT hash FROM revision ORDER BY sequence")]
    sheets = [row[0] for row in register.execute("SELECT hash FROM sheet ORDER BY number")]
    digits = head(saves, sheets).hex()[:16]
    groups = "-".join(digits[at : at + 4] for at in range(0, 16, 4))
    print(f"head {len(saves)}-{len(sheets)}-{groups}")
    return 1 if wrong or not count else 0


if __name__ == "__main__":
    if len(sys.argv) == 2:
        sys.exit(verify(sys.argv[1]))
    examples()
