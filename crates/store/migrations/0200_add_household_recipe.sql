-- A household's own recipe as it was kept: a new version is a new row of the same key, and the
-- earlier ones stay readable. Serves: what a batch was made by can be read long afterwards.
CREATE TABLE household_recipe (
  id       INTEGER PRIMARY KEY,
  entry    INTEGER NOT NULL REFERENCES entry (id),
  key      TEXT NOT NULL CHECK (length(key) > 0),
  title    TEXT NOT NULL CHECK (length(title) > 0),
  content  TEXT NOT NULL CHECK (json_valid(content))
) STRICT;
CREATE INDEX household_recipe_key ON household_recipe (key);

CREATE TRIGGER household_recipe_no_update BEFORE UPDATE ON household_recipe
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER household_recipe_no_delete BEFORE DELETE ON household_recipe
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
