-- The season log: one SQLite file. What a note gave is rebuilt from its kept record, so the tables below `versions` can
-- always be made anew. Days are ISO 8601, lengths millimetres, shares percent, offsets code points of the note's text.

CREATE TABLE steps (            -- one keep, undo or join, in the order in which they were done
    id INTEGER PRIMARY KEY,
    what TEXT NOT NULL
) STRICT;

CREATE TABLE versions (         -- every reading of a note that was ever kept; the newest of a name stands
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,         -- the note's path as it was given
    step INTEGER NOT NULL REFERENCES steps (id),
    sha256 TEXT NOT NULL,       -- of the note's bytes
    text TEXT NOT NULL,
    record TEXT NOT NULL,       -- the JSON line of the record contract, answers in it
    rows TEXT NOT NULL,         -- JSON: the tidy rows of each visit
    program TEXT NOT NULL,      -- version of notesparse
    counting_rule TEXT NOT NULL
) STRICT;
CREATE INDEX versions_of_name ON versions (name, id);

CREATE TABLE fields (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL
) STRICT;

CREATE TABLE names (            -- every way in which a field was called, folded; several names may be one field
    folded TEXT PRIMARY KEY,
    field INTEGER NOT NULL REFERENCES fields (id),
    step INTEGER NOT NULL REFERENCES steps (id)
) STRICT;

CREATE TABLE apart (            -- two names that look alike and are two fields: so it was answered
    one TEXT NOT NULL,
    two TEXT NOT NULL,
    PRIMARY KEY (one, two)
) STRICT;

CREATE TABLE visits (
    id INTEGER PRIMARY KEY,
    version INTEGER NOT NULL REFERENCES versions (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,    -- of the visit in its note, from 0
    field INTEGER REFERENCES fields (id),
    called TEXT,                -- the field's name in this note
    date TEXT,
    planted TEXT,
    emerged TEXT,
    variety TEXT,
    maturity_group REAL,
    row_spacing_in REAL,
    v TEXT, r TEXT, basis_v TEXT, basis_r TEXT,
    plants INTEGER NOT NULL,
    share_v REAL, share_r REAL, low_v REAL, high_v REAL, low_r REAL, high_r REAL,
    least_v TEXT, least_r TEXT, median_v TEXT, median_r TEXT, most_v TEXT, most_r TEXT,
    mean_v REAL,
    counting_rule TEXT NOT NULL,
    open_questions INTEGER NOT NULL,
    open_moving INTEGER NOT NULL,   -- of these, such as can change the field's stage
    assumed INTEGER NOT NULL
) STRICT;
CREATE INDEX visits_of_field ON visits (field, date);

CREATE TABLE observations (     -- tidy rows: one observed value each, as in `read --csv`
    id INTEGER PRIMARY KEY,
    visit INTEGER NOT NULL REFERENCES visits (id) ON DELETE CASCADE,
    stop TEXT, plant TEXT,
    variable TEXT NOT NULL,
    value TEXT, value_low REAL, value_high REAL, unit TEXT,
    status TEXT NOT NULL,
    start INTEGER, end INTEGER, words TEXT
) STRICT;
CREATE INDEX observations_of_visit ON observations (visit);

CREATE TABLE questions (
    id INTEGER PRIMARY KEY,
    version INTEGER NOT NULL REFERENCES versions (id) ON DELETE CASCADE,
    visit INTEGER NOT NULL,     -- number of the visit in its note
    plant TEXT, rule TEXT NOT NULL, quote TEXT NOT NULL, ask TEXT NOT NULL,
    choices TEXT NOT NULL,      -- JSON
    answer TEXT,                -- JSON; null while open
    start INTEGER NOT NULL, end INTEGER NOT NULL,
    moves_field INTEGER NOT NULL
) STRICT;

CREATE TABLE assumptions (
    id INTEGER PRIMARY KEY,
    version INTEGER NOT NULL REFERENCES versions (id) ON DELETE CASCADE,
    rule TEXT NOT NULL, text TEXT NOT NULL, start INTEGER NOT NULL, end INTEGER NOT NULL
) STRICT;
