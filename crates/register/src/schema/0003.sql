-- From schema 2 to 3: at which desk a revision was saved. Nothing is known of it for what was saved before; its
-- hash covers the desk where there is one.

ALTER TABLE revision ADD COLUMN desk TEXT CHECK (desk IS NULL OR 0 < length(desk));
