-- Schema 3: at which desk a revision was saved, and the order of a day. Once released it is never changed: a later
-- schema is a later file.

-- Nothing is known of it for what was saved before; the hash of a revision covers it where there is one.
ALTER TABLE revision ADD COLUMN desk TEXT CHECK (desk IS NULL OR 0 < length(desk));

-- As the team ordered the list. No case of an earlier schema has one, so there is nothing to derive.
ALTER TABLE current ADD COLUMN list_number INTEGER CHECK (list_number BETWEEN 1 AND 99);

DROP INDEX current_in_order;
CREATE INDEX current_in_order ON current (
    operation_date IS NULL, operation_date, list_number IS NULL, list_number, name_folded, case_key
);
