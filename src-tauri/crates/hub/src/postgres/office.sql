-- One change after the other: whoever makes one takes this row first.
CREATE TABLE IF NOT EXISTS office (
    one INT8 NOT NULL PRIMARY KEY CHECK (one = 1),
    version INT8 NOT NULL DEFAULT 1,    -- of these tables
    carried INT8 NOT NULL DEFAULT 0     -- 1: a hub was moved here
);

INSERT INTO office (one) VALUES (1) ON CONFLICT (one) DO NOTHING;

CREATE TABLE IF NOT EXISTS account (
    person BYTEA NOT NULL PRIMARY KEY,
    name TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL,
    hash TEXT
);

-- The links that wait, by the hash of their code. The one of the first account has nobody yet.
CREATE TABLE IF NOT EXISTS invite (
    code BYTEA NOT NULL PRIMARY KEY,
    person BYTEA UNIQUE REFERENCES account (person),
    until TEXT NOT NULL
);

-- Only ever added to. That no line is changed is for the rights of the database's users here.
CREATE TABLE IF NOT EXISTS audit (
    number INT8 NOT NULL GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    at TEXT NOT NULL,
    what TEXT NOT NULL,
    who TEXT,
    about TEXT,
    role TEXT
);

CREATE TABLE IF NOT EXISTS phone (
    device BYTEA NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    secret BYTEA NOT NULL UNIQUE,
    enrolled TEXT NOT NULL,
    heard TEXT,
    alone INT8 NOT NULL DEFAULT 0,
    revoked TEXT
);

-- By the hash of its cookie; `of` is a hash of the password's hash, so that another password ends it. Seconds.
CREATE TABLE IF NOT EXISTS session (
    cookie BYTEA NOT NULL PRIMARY KEY,
    person BYTEA NOT NULL,
    of BYTEA NOT NULL,
    heard INT8 NOT NULL
);

-- Passwords that were wrong of late, and those being tried. Seconds.
CREATE TABLE IF NOT EXISTS attempt (
    id BYTEA NOT NULL PRIMARY KEY,
    of BYTEA NOT NULL,
    address BYTEA NOT NULL,
    at INT8 NOT NULL
);

-- Codes that enrol a phone, for a quarter of an hour each. Seconds.
CREATE TABLE IF NOT EXISTS enrol_code (
    code TEXT NOT NULL PRIMARY KEY,
    until INT8 NOT NULL
);

-- What revoked phones wrote beyond what the hub had, until a person accepts it.
CREATE TABLE IF NOT EXISTS held (
    log BYTEA NOT NULL,
    seq INT8 NOT NULL,
    hash BYTEA NOT NULL,
    device BYTEA NOT NULL,
    noun INT8 NOT NULL,
    book BYTEA NOT NULL,
    entry BYTEA NOT NULL,
    PRIMARY KEY (log, seq, hash)
);

-- For scripts, by the hash of what they say.
CREATE TABLE IF NOT EXISTS token (
    id BYTEA NOT NULL PRIMARY KEY,
    secret BYTEA NOT NULL UNIQUE,
    name TEXT NOT NULL,
    scope TEXT NOT NULL,
    person BYTEA NOT NULL REFERENCES account (person),
    until TEXT NOT NULL,
    used TEXT
);
