CREATE TABLE IF NOT EXISTS hub (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    epoch BLOB NOT NULL CHECK (length(epoch) = 16),
    at INTEGER NOT NULL, -- parcels that came
    mark BLOB NOT NULL CHECK (length(mark) = 32),
    closed INTEGER NOT NULL DEFAULT 0 CHECK (closed IN (0, 1)) -- it was moved and takes nothing more
) STRICT;

-- Entries of one book that came together.
CREATE TABLE IF NOT EXISTS parcel (
    at INTEGER NOT NULL PRIMARY KEY,
    mark BLOB NOT NULL CHECK (length(mark) = 32),
    noun INTEGER NOT NULL,
    book BLOB NOT NULL CHECK (length(book) = 16)
) STRICT;

CREATE INDEX IF NOT EXISTS parcel_book ON parcel (noun, book, at);

CREATE TABLE IF NOT EXISTS entry (
    log BLOB NOT NULL CHECK (length(log) = 16),
    seq INTEGER NOT NULL,
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    prev BLOB NOT NULL CHECK (length(prev) = 32),
    parcel INTEGER NOT NULL REFERENCES parcel (at),
    envelope BLOB NOT NULL,
    salt BLOB CHECK (length(salt) = 16),
    body BLOB,
    PRIMARY KEY (log, seq, hash)
) STRICT;

CREATE INDEX IF NOT EXISTS entry_parcel ON entry (parcel, log, seq, hash);

-- Last entries of each log: more than one where it forks or has a gap.
CREATE TABLE IF NOT EXISTS head (
    log BLOB NOT NULL,
    seq INTEGER NOT NULL,
    hash BLOB NOT NULL,
    PRIMARY KEY (log, seq, hash)
) STRICT, WITHOUT ROWID;
