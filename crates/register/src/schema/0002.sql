-- Schema 2: signed plans. Once released it is never changed: a later schema is a later file.

-- Every plan that was signed, as the text its fingerprint is of. The number is that of its sheet.
CREATE TABLE sheet (
    number INTEGER PRIMARY KEY CHECK (0 < number),
    case_id TEXT NOT NULL,
    revision INTEGER NOT NULL,
    supersedes INTEGER REFERENCES sheet (number),
    signed_at TEXT NOT NULL,
    signed_by TEXT NOT NULL,
    fingerprint BLOB NOT NULL UNIQUE CHECK (length(fingerprint) = 32),
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    body TEXT NOT NULL CHECK (json_valid(body)),
    UNIQUE (case_id, revision),
    FOREIGN KEY (case_id, revision) REFERENCES revision (case_id, number)
) STRICT;

CREATE INDEX sheet_of_case ON sheet (case_id, number);

CREATE TRIGGER sheet_is_not_changed BEFORE UPDATE ON sheet
BEGIN
    SELECT RAISE(ABORT, 'a signed plan is never changed');
END;

CREATE TRIGGER sheet_is_not_removed BEFORE DELETE ON sheet
BEGIN
    SELECT RAISE(ABORT, 'a signed plan is never removed');
END;

-- Sheets are numbered without a gap, each supersedes the last one of its case, and only the newest
-- revision of a case is signed, once. Also keeps INSERT OR REPLACE, which fires no trigger for what it
-- removes, from replacing one.
CREATE TRIGGER sheet_follows_the_last BEFORE INSERT ON sheet
WHEN NEW.number IS NOT 1 + (SELECT coalesce(max(number), 0) FROM sheet)
    OR NEW.supersedes IS NOT (SELECT max(number) FROM sheet WHERE case_id = NEW.case_id)
    OR NEW.revision IS NOT (SELECT revision FROM current WHERE case_id = NEW.case_id)
    OR EXISTS (SELECT 1 FROM sheet WHERE fingerprint = NEW.fingerprint)
    OR EXISTS (SELECT 1 FROM sheet WHERE case_id = NEW.case_id AND revision = NEW.revision)
BEGIN
    SELECT RAISE(ABORT, 'a sheet follows the last one and signs the newest revision of its case');
END;
