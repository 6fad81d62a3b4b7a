-- Schema 1. Once released it is never changed: a later schema is a later file.

-- Every saved change of every case. The body stands last, so that reading the short columns never
-- walks through it.
CREATE TABLE revision (
    sequence INTEGER PRIMARY KEY,
    case_id TEXT NOT NULL CHECK (length(case_id) = 26),
    number INTEGER NOT NULL CHECK (0 < number),
    saved_at TEXT NOT NULL,
    saved_by TEXT NOT NULL,
    program TEXT NOT NULL,
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    body TEXT NOT NULL CHECK (json_valid(body)),
    UNIQUE (case_id, number)
) STRICT;

CREATE TRIGGER revision_is_not_changed BEFORE UPDATE ON revision
BEGIN
    SELECT RAISE(ABORT, 'a saved revision is never changed');
END;

CREATE TRIGGER revision_is_not_removed BEFORE DELETE ON revision
BEGIN
    SELECT RAISE(ABORT, 'a saved revision is never removed');
END;

-- Also keeps INSERT OR REPLACE, which fires no trigger for what it removes, from replacing one.
CREATE TRIGGER revision_follows_the_last BEFORE INSERT ON revision
WHEN NEW.number <> 1 + (SELECT coalesce(max(number), 0) FROM revision WHERE case_id = NEW.case_id)
    OR EXISTS (SELECT 1 FROM revision WHERE sequence = NEW.sequence)
BEGIN
    SELECT RAISE(ABORT, 'a revision follows the last one of its case');
END;

-- The newest revision of each case in columns to list and search by, written in the transaction
-- that saves the revision. Everything in it follows from the revision.
CREATE TABLE current (
    case_key INTEGER PRIMARY KEY,
    case_id TEXT NOT NULL UNIQUE,
    sequence INTEGER NOT NULL UNIQUE REFERENCES revision (sequence),
    revision INTEGER NOT NULL,
    saved_at TEXT NOT NULL,
    saved_by TEXT NOT NULL,
    state TEXT NOT NULL,
    eye TEXT,
    operation_date TEXT,
    name TEXT,
    number TEXT,
    birth_date TEXT,
    name_folded TEXT NOT NULL,
    number_folded TEXT NOT NULL
) STRICT;

CREATE TRIGGER current_is_not_removed BEFORE DELETE ON current
BEGIN
    SELECT RAISE(ABORT, 'a case is never removed');
END;

CREATE TRIGGER current_goes_forward BEFORE UPDATE ON current
WHEN NEW.case_key <> OLD.case_key OR NEW.case_id <> OLD.case_id OR NEW.sequence <= OLD.sequence
BEGIN
    SELECT RAISE(ABORT, 'a case only moves on to a later revision');
END;

CREATE INDEX current_in_order
    ON current (operation_date IS NULL, operation_date, name_folded, case_key);
CREATE INDEX current_by_name ON current (name_folded);
CREATE INDEX current_by_number ON current (number);
CREATE INDEX current_by_state ON current (state, operation_date);

CREATE VIRTUAL TABLE search USING fts5 (
    name_folded,
    number_folded,
    content = 'current',
    content_rowid = 'case_key',
    tokenize = 'unicode61 remove_diacritics 2',
    prefix = '2 3'
);

CREATE TRIGGER search_gains AFTER INSERT ON current
BEGIN
    INSERT INTO search (rowid, name_folded, number_folded)
    VALUES (NEW.case_key, NEW.name_folded, NEW.number_folded);
END;

CREATE TRIGGER search_changes AFTER UPDATE ON current
WHEN NEW.name_folded <> OLD.name_folded OR NEW.number_folded <> OLD.number_folded
BEGIN
    INSERT INTO search (search, rowid, name_folded, number_folded)
    VALUES ('delete', OLD.case_key, OLD.name_folded, OLD.number_folded);
    INSERT INTO search (rowid, name_folded, number_folded)
    VALUES (NEW.case_key, NEW.name_folded, NEW.number_folded);
END;
