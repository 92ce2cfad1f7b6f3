CREATE TABLE IF NOT EXISTS hub (
    one INT8 NOT NULL PRIMARY KEY CHECK (one = 1),
    epoch UUID NOT NULL,
    at INT8 NOT NULL,
    mark BYTEA NOT NULL,
    closed BOOL NOT NULL DEFAULT false
);

CREATE TABLE IF NOT EXISTS parcel (
    at INT8 NOT NULL PRIMARY KEY,
    mark BYTEA NOT NULL,
    noun INT8 NOT NULL,
    book UUID NOT NULL
);

CREATE INDEX IF NOT EXISTS parcel_book ON parcel (noun, book, at);

CREATE TABLE IF NOT EXISTS entry (
    log UUID NOT NULL,
    seq INT8 NOT NULL,
    hash BYTEA NOT NULL,
    prev BYTEA NOT NULL,
    parcel INT8 NOT NULL REFERENCES parcel (at),
    envelope BYTEA NOT NULL,
    salt BYTEA,
    body BYTEA,
    PRIMARY KEY (log, seq, hash)
);

CREATE INDEX IF NOT EXISTS entry_parcel ON entry (parcel, log, seq, hash);

CREATE TABLE IF NOT EXISTS head (
    log UUID NOT NULL,
    seq INT8 NOT NULL,
    hash BYTEA NOT NULL,
    PRIMARY KEY (log, seq, hash)
);
