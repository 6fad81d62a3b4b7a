#!/usr/bin/env python3
"""Hash chain of a register, written from docs/register.md alone.

Without an argument: the two hashes that crates/register/src/chain.rs expects.
With the path of a register: recomputes every hash in it and says which differ.
"""

import hashlib
import sqlite3
import sys


def link(previous: bytes, *fields: str) -> bytes:
    """SHA-256 over the fields, each behind its length in 8 bytes, big-endian."""
    digest = hashlib.sha256()
    for field in [b"millrace revision 1", previous, *(f.encode() for f in fields)]:
        digest.update(len(field).to_bytes(8, "big"))
        digest.update(field)
    return digest.digest()


def examples() -> None:
    case, when, who, program = "0" * 26, "2026-11-24T10:15:30Z", "A. Okafor", "millrace 0.1.0"
    first = link(bytes(32), case, "1", when, who, program, "{}")
    second = link(first, case, "2", when, who, program, '{"é":1}')
    print(first.hex())
    print(second.hex())


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
    return 1 if wrong or not count else 0


if __name__ == "__main__":
    if len(sys.argv) == 2:
        sys.exit(verify(sys.argv[1]))
    examples()
