-- Facts of one household. Every table is append-only: rows are inserted, never changed or removed;
-- a correction is a new entry that names the one it undoes.

-- One act of the household; every fact below belongs to one. Serves: an entry is undone once, by a
-- later one, and an undoing is not itself undone.
CREATE TABLE entry (
  id        INTEGER PRIMARY KEY,
  at        TEXT NOT NULL CHECK (length(at) >= 10),
  on_day    TEXT NOT NULL CHECK (on_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  who       TEXT NOT NULL,
  kind      TEXT NOT NULL CHECK (length(kind) > 0),
  note      TEXT NOT NULL,
  token     TEXT UNIQUE CHECK (length(token) > 0),
  reverses  INTEGER UNIQUE REFERENCES entry (id) CHECK (reverses < id)
) STRICT;

-- What an entry moved, written when it is closed. Serves entry-is-whole: a lost line shows.
CREATE TABLE entry_sum (
  entry            INTEGER PRIMARY KEY REFERENCES entry (id),
  movement_lines   INTEGER NOT NULL CHECK (movement_lines >= 0),
  milligrams       INTEGER NOT NULL CHECK (milligrams >= 0),
  container_lines  INTEGER NOT NULL CHECK (container_lines >= 0),
  containers       INTEGER NOT NULL CHECK (containers >= 0)
) STRICT;

-- The house as described from this entry on; the latest standing row counts.
CREATE TABLE house (
  entry    INTEGER PRIMARY KEY REFERENCES entry (id),
  content  TEXT NOT NULL CHECK (json_valid(content))
) STRICT;

-- One crop of one picking, grade and place, as first taken down. Serves lot-weight-matches-movements.
CREATE TABLE lot (
  id             INTEGER PRIMARY KEY,
  entry          INTEGER NOT NULL REFERENCES entry (id),
  crop           TEXT NOT NULL CHECK (length(crop) > 0),
  variety        TEXT NOT NULL,
  grade          TEXT NOT NULL,
  place          TEXT NOT NULL CHECK (length(place) > 0),
  temperature_f  TEXT,
  picked_on      TEXT NOT NULL CHECK (picked_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  milligrams     INTEGER NOT NULL CHECK (milligrams BETWEEN 1 AND 1000000000000),
  how_weighed    TEXT NOT NULL,
  note           TEXT NOT NULL
) STRICT;
CREATE INDEX lot_entry ON lot (entry);

-- What was said of a lot later: history, regrade, change of place, spoiled. The latest standing
-- statement of a key counts, earlier ones stay readable.
CREATE TABLE lot_statement (
  id     INTEGER PRIMARY KEY,
  entry  INTEGER NOT NULL REFERENCES entry (id),
  lot    INTEGER NOT NULL REFERENCES lot (id),
  key    TEXT NOT NULL CHECK (length(key) > 0),
  value  TEXT NOT NULL
) STRICT;
CREATE INDEX lot_statement_lot ON lot_statement (lot);

-- A batch as decided on. Serves: every batch carries the gate's answer, a permit record for heat or
-- a verdict for any other route.
CREATE TABLE batch (
  id              INTEGER PRIMARY KEY,
  entry           INTEGER NOT NULL REFERENCES entry (id),
  recipe          TEXT NOT NULL CHECK (length(recipe) > 0),
  batches         TEXT NOT NULL CHECK (length(batches) > 0),
  for_day         TEXT NOT NULL CHECK (for_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  jar             TEXT,
  question        TEXT NOT NULL CHECK (json_valid(question)),
  permit_record   TEXT CHECK (json_valid(permit_record)),
  route_verdict   TEXT CHECK (json_valid(route_verdict)),
  card            TEXT NOT NULL CHECK (json_valid(card)),
  planned_inputs  TEXT NOT NULL CHECK (json_valid(planned_inputs)),
  CHECK (permit_record IS NOT NULL OR route_verdict IS NOT NULL)
) STRICT;
CREATE INDEX batch_entry ON batch (entry);

-- What happened to a batch. Both readings of a corrected fact stay here.
CREATE TABLE batch_event (
  id       INTEGER PRIMARY KEY,
  entry    INTEGER NOT NULL REFERENCES entry (id),
  batch    INTEGER NOT NULL REFERENCES batch (id),
  kind     TEXT NOT NULL CHECK (kind IN
             ('started', 'outcome', 'seal-check', 'held', 'released', 'cancelled', 'note')),
  content  TEXT NOT NULL CHECK (json_valid(content))
) STRICT;
CREATE INDEX batch_event_batch ON batch_event (batch);

-- Food going from one place to another. Serves entry-sums-to-zero and no-place-below-zero.
CREATE TABLE movement (
  entry          INTEGER NOT NULL REFERENCES entry (id),
  line           INTEGER NOT NULL CHECK (line BETWEEN 0 AND 65535),
  on_day         TEXT NOT NULL CHECK (on_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  crop           TEXT NOT NULL CHECK (length(crop) > 0),
  lot            INTEGER REFERENCES lot (id),
  batch          INTEGER REFERENCES batch (id),
  becomes_lot    INTEGER REFERENCES lot (id),
  becomes_batch  INTEGER REFERENCES batch (id),
  from_place     TEXT NOT NULL CHECK (length(from_place) > 0),
  to_place       TEXT NOT NULL CHECK (length(to_place) > 0),
  milligrams     INTEGER NOT NULL CHECK (milligrams BETWEEN 1 AND 1000000000000),
  estimated      INTEGER NOT NULL CHECK (estimated IN (0, 1)),
  PRIMARY KEY (entry, line),
  CHECK ((lot IS NULL) <> (batch IS NULL)),
  CHECK (becomes_lot IS NULL OR becomes_batch IS NULL)
) STRICT;
CREATE INDEX movement_lot ON movement (lot);
CREATE INDEX movement_batch ON movement (batch);
CREATE INDEX movement_becomes_lot ON movement (becomes_lot) WHERE becomes_lot IS NOT NULL;
CREATE INDEX movement_becomes_batch ON movement (becomes_batch) WHERE becomes_batch IS NOT NULL;

-- Whole containers going from one place to another. Serves no-containers-below-zero.
CREATE TABLE container_movement (
  entry       INTEGER NOT NULL REFERENCES entry (id),
  line        INTEGER NOT NULL CHECK (line BETWEEN 0 AND 65535),
  on_day      TEXT NOT NULL CHECK (on_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  batch       INTEGER NOT NULL REFERENCES batch (id),
  size        TEXT NOT NULL CHECK (length(size) > 0),
  from_place  TEXT NOT NULL CHECK (length(from_place) > 0),
  to_place    TEXT NOT NULL CHECK (length(to_place) > 0),
  count       INTEGER NOT NULL CHECK (count BETWEEN 1 AND 1000000),
  PRIMARY KEY (entry, line),
  CHECK (from_place <> to_place)
) STRICT;
CREATE INDEX container_movement_batch ON container_movement (batch);

-- What was found on a shelf and what the record said. Serves count-matches-movements.
CREATE TABLE shelf_count (
  entry     INTEGER NOT NULL REFERENCES entry (id),
  line      INTEGER NOT NULL CHECK (line BETWEEN 0 AND 65535),
  place     TEXT NOT NULL CHECK (length(place) > 0),
  batch     INTEGER NOT NULL REFERENCES batch (id),
  size      TEXT NOT NULL CHECK (length(size) > 0),
  found     INTEGER NOT NULL CHECK (found >= 0),
  recorded  INTEGER NOT NULL,
  PRIMARY KEY (entry, line)
) STRICT;

-- An accepted harvest plan with the problem it answers: a fact, replayed by the checker, never
-- recomputed.
CREATE TABLE harvest_plan (
  id            INTEGER PRIMARY KEY,
  entry         INTEGER NOT NULL REFERENCES entry (id),
  problem       TEXT NOT NULL CHECK (json_valid(problem)),
  harvest_plan  TEXT NOT NULL CHECK (json_valid(harvest_plan))
) STRICT;

-- An accepted kitchen-day timetable with the problem it answers and the names shown on it.
CREATE TABLE timetable (
  id         INTEGER PRIMARY KEY,
  entry      INTEGER NOT NULL REFERENCES entry (id),
  day        TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  problem    TEXT NOT NULL CHECK (json_valid(problem)),
  timetable  TEXT NOT NULL CHECK (json_valid(timetable)),
  labels     TEXT NOT NULL CHECK (json_valid(labels))
) STRICT;
CREATE INDEX timetable_day ON timetable (day);

CREATE TRIGGER entry_undoing_stands BEFORE INSERT ON entry
WHEN NEW.reverses IS NOT NULL
 AND EXISTS (SELECT 1 FROM entry WHERE id = NEW.reverses AND reverses IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'an undoing is not itself undone'); END;

-- Facts are appended, never overwritten: the file itself refuses anything else.
CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER entry_sum_no_update BEFORE UPDATE ON entry_sum
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER entry_sum_no_delete BEFORE DELETE ON entry_sum
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER house_no_update BEFORE UPDATE ON house
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER house_no_delete BEFORE DELETE ON house
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER lot_no_update BEFORE UPDATE ON lot
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER lot_no_delete BEFORE DELETE ON lot
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER lot_statement_no_update BEFORE UPDATE ON lot_statement
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER lot_statement_no_delete BEFORE DELETE ON lot_statement
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER batch_no_update BEFORE UPDATE ON batch
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER batch_no_delete BEFORE DELETE ON batch
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER batch_event_no_update BEFORE UPDATE ON batch_event
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER batch_event_no_delete BEFORE DELETE ON batch_event
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER movement_no_update BEFORE UPDATE ON movement
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER movement_no_delete BEFORE DELETE ON movement
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER container_movement_no_update BEFORE UPDATE ON container_movement
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER container_movement_no_delete BEFORE DELETE ON container_movement
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER shelf_count_no_update BEFORE UPDATE ON shelf_count
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER shelf_count_no_delete BEFORE DELETE ON shelf_count
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER harvest_plan_no_update BEFORE UPDATE ON harvest_plan
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER harvest_plan_no_delete BEFORE DELETE ON harvest_plan
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER timetable_no_update BEFORE UPDATE ON timetable
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
CREATE TRIGGER timetable_no_delete BEFORE DELETE ON timetable
BEGIN SELECT RAISE(ABORT, 'facts are appended, never changed'); END;
