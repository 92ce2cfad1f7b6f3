-- The entries themselves: what was written, never changed. Only the body of erased personal data is dropped.
CREATE TABLE entry (
    id INTEGER PRIMARY KEY, -- order of arrival on this device
    log BLOB NOT NULL CHECK (length(log) = 16),
    seq INTEGER NOT NULL CHECK (seq >= 0),
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    prev BLOB NOT NULL CHECK (length(prev) = 32),
    kind INTEGER NOT NULL,
    lamport INTEGER NOT NULL,
    recorded_ms INTEGER NOT NULL, -- milliseconds since 1970 UTC
    envelope BLOB NOT NULL,
    salt BLOB CHECK (length(salt) = 16),
    body BLOB,
    CHECK ((salt IS NULL) = (body IS NULL)),
    UNIQUE (log, seq, hash)
) STRICT;

CREATE INDEX entry_lamport ON entry (lamport);
CREATE INDEX entry_kind ON entry (kind);

-- Projected from the entries; rebuilt from them at will.

-- Last entries of each log: more than one where it forks or has a gap.
CREATE TABLE head (
    log BLOB NOT NULL,
    seq INTEGER NOT NULL,
    hash BLOB NOT NULL,
    PRIMARY KEY (log, seq, hash)
) STRICT, WITHOUT ROWID;

-- First entries of logs: the book and device of each.
CREATE TABLE opened (
    entry INTEGER NOT NULL PRIMARY KEY REFERENCES entry (id),
    log BLOB NOT NULL,
    noun INTEGER NOT NULL,
    book BLOB NOT NULL,
    device BLOB NOT NULL,
    key BLOB NOT NULL
) STRICT;

CREATE INDEX opened_log ON opened (log);
CREATE INDEX opened_book ON opened (noun, book);

-- What each entry is about; one of them is its subject.
CREATE TABLE about (
    noun INTEGER NOT NULL,
    object BLOB NOT NULL CHECK (length(object) = 16),
    kind INTEGER NOT NULL, -- the entry's
    entry INTEGER NOT NULL REFERENCES entry (id),
    subject INTEGER NOT NULL CHECK (subject IN (0, 1)),
    PRIMARY KEY (noun, object, kind, entry)
) STRICT, WITHOUT ROWID;

CREATE INDEX about_entry ON about (entry);

-- Which entries each entry names, and what naming does.
CREATE TABLE naming (
    log BLOB NOT NULL,
    seq INTEGER NOT NULL,
    short BLOB NOT NULL CHECK (length(short) = 8),
    role INTEGER NOT NULL,
    entry INTEGER NOT NULL REFERENCES entry (id),
    PRIMARY KEY (log, seq, short, role, entry)
) STRICT, WITHOUT ROWID;

CREATE INDEX naming_entry ON naming (entry);

-- Where each entry stands: readable by this version, taken back, no longer current.
CREATE TABLE standing (
    entry INTEGER NOT NULL PRIMARY KEY REFERENCES entry (id),
    readable INTEGER NOT NULL CHECK (readable IN (0, 1)),
    withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
    replaced INTEGER NOT NULL CHECK (replaced IN (0, 1)),
    set_aside INTEGER NOT NULL CHECK (set_aside IN (0, 1))
) STRICT;

CREATE INDEX standing_unreadable ON standing (entry) WHERE readable = 0;

-- Of this device alone; not part of what is shared.

-- Logs this device wrote. One of a book is open at most.
CREATE TABLE own_log (
    log BLOB NOT NULL PRIMARY KEY CHECK (length(log) = 16),
    device BLOB NOT NULL CHECK (length(device) = 16),
    noun INTEGER NOT NULL,
    book BLOB NOT NULL CHECK (length(book) = 16),
    closed TEXT CHECK (closed IN ('restored', 'forked', 'returned')),
    head_seq INTEGER NOT NULL,
    head_hash BLOB NOT NULL CHECK (length(head_hash) = 32),
    sealed_to INTEGER NOT NULL -- entries of it that a seal covers
) STRICT;

CREATE UNIQUE INDEX own_log_open ON own_log (noun, book) WHERE closed IS NULL;

-- Which entries one act of a person appended: undo takes back an act.
CREATE TABLE own_act (
    act INTEGER NOT NULL,
    entry INTEGER NOT NULL REFERENCES entry (id),
    device BLOB NOT NULL,
    person BLOB NOT NULL,
    PRIMARY KEY (act, entry)
) STRICT, WITHOUT ROWID;

CREATE INDEX own_act_person ON own_act (device, person, act);

-- People known to this device before any book names them.
CREATE TABLE local_person (
    person BLOB NOT NULL PRIMARY KEY CHECK (length(person) = 16),
    name TEXT NOT NULL,
    role TEXT NOT NULL
) STRICT;

-- Half-typed text, overwritten.
CREATE TABLE draft (
    person BLOB NOT NULL,
    place TEXT NOT NULL,
    text TEXT NOT NULL,
    PRIMARY KEY (person, place)
) STRICT, WITHOUT ROWID;

-- Choices of this device: who works on it, its theme.
CREATE TABLE setting (
    name TEXT NOT NULL PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Facts about the file: which projection its tables were made by, which programs may read it.
CREATE TABLE file (
    name TEXT NOT NULL PRIMARY KEY,
    number INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

INSERT INTO file (name, number) VALUES ('projection', 0), ('readable_from', 1);
