"""Fingerprint of a signed plan, from docs/plan-document.md alone.

Without an argument: the check values of crates/core/src/signing/fingerprint/tests.rs.
With the path of a register: the fingerprint and the hash of every sheet in it, recomputed from what
is stored; ends with status 1 if one differs.
"""

import hashlib
import sqlite3
import sys

LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"


def behind_length(*fields):
    return b"".join(len(f).to_bytes(8, "big") + f for f in fields)


def fingerprint(encoded):
    return hashlib.sha256(behind_length(b"millrace signed plan 1", encoded.encode())).digest()


def times(a, b):
    """Product of two elements of GF(32): polynomials over GF(2) modulo x^5 + x^2 + 1."""
    whole = 0
    for place in range(5):
        if b >> place & 1:
            whole ^= a << place
    for place in range(8, 4, -1):
        if whole >> place & 1:
            whole ^= 0b100101 << (place - 5)
    return whole


def with_check(values):
    weight, total = 1, 0
    for value in values:
        weight = times(weight, 2)
        total ^= times(weight, value)
    return values + [total]


def groups(values):
    letters = "".join(LETTERS[v] for v in with_check(values))
    count = len(letters) // 4
    parts = [letters[4 * i : 4 * i + 4] for i in range(count)]
    parts[-1] += letters[4 * count :]
    return "-".join(parts)


def written(digest):
    bits = int.from_bytes(digest, "big") << 4
    values = [bits >> (5 * place) & 31 for place in range(51, -1, -1)]
    return groups(values), groups(values[:15])


def sheets(path):
    sound, previous = True, bytes(32)
    connection = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    rows = connection.execute(
        "SELECT s.number, s.case_id, s.revision, s.fingerprint, s.hash, s.body, r.hash"
        " FROM sheet AS s JOIN revision AS r ON r.case_id = s.case_id AND r.number = s.revision"
        " ORDER BY s.number"
    )
    for number, case, revision, stored, chained, body, saved in rows:
        digest = fingerprint(body)
        fields = [b"millrace sheet 1", previous, str(number).encode(), case.encode()]
        fields += [str(revision).encode(), saved, body.encode()]
        link = hashlib.sha256(behind_length(*fields)).digest()
        fits = digest == stored and link == chained
        sound = sound and fits
        print(number, case, revision, written(digest)[1], link.hex(), "as stored" if fits else "DIFFERS")
        previous = chained
    return sound


if __name__ == "__main__":
    if len(sys.argv) == 2:
        sys.exit(0 if sheets(sys.argv[1]) else 1)
    for text in ['{"number":17,"name":"é"}']:
        for line in written(fingerprint(text)):
            print(line)
