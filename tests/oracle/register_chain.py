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


def link(previous: bytes, *fields: str) -> bytes:
    return hash_fields([b"millrace revision 1", previous, *(f.encode() for f in fields)])


def head(saves: list[bytes], sheets: list[bytes]) -> bytes:
    fields = [b"millrace head 1"]
    for hashes in (saves, sheets):
        fields += [str(len(hashes)).encode(), hashlib.sha256(b"".join(hashes)).digest()]
    return hash_fields(fields)


def examples() -> None:
    case, when, who, program = "0" * 26, "2026-11-24T10:15:30Z", "A. Okafor", "millrace 0.1.0"
    first = link(bytes(32), case, "1", when, who, program, "{}")
    second = link(first, case, "2", when, who, program, '{"é":1}')
    print(first.hex())
    print(second.hex())
    print(head([bytes([1]) * 32, bytes([2]) * 32], [bytes([3]) * 32]).hex())
    print(head([], []).hex())


def verify(path: str) -> int:
    register = sqlite3.connect(f"file:{path}?mode=ro&immutable=1", uri=True)
    rows = register.execute(
        "SELECT case_id, number, saved_at, saved_by, program, body, hash FROM revision"
        " ORDER BY case_id, number"
    )
    last, count, wrong = {}, 0, 0
    for case, number, when, who, program, body, stored in rows:
        before = last.get(case, bytes(32))
        computed = link(before, case, str(number), when, who, program, body)
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
