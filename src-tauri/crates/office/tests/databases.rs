//! How a database is reached: encrypted, unless it is on this machine or its address says otherwise, and the right one.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;
#[path = "../../hub/tests/postgres/mod.rs"]
mod postgres;

use common::Folder;
use postgres::Postgres;
use std::process::Command;

/// A certificate of this name that vouches for itself, and its key.
fn certificate() -> (String, String) {
    let made = rcgen::generate_simple_self_signed(vec!["localhost".to_owned()]).unwrap();
    (made.cert.pem(), made.signing_key.serialize_pem())
}

/// What the program says of a database without a hub, where it trusts this file alone.
fn said(url: &str, trusted: &str) -> String {
    let folder = Folder::new();
    let backup = ["backup", "--output", &folder.text("backup"), "--store", url];
    let mut program = Command::new(env!("CARGO_BIN_EXE_provenohm-office"));
    let output = program.args(backup).env("SSL_CERT_FILE", trusted).env_remove("SSL_CERT_DIR").output().unwrap();
    assert_eq!(output.status.code(), Some(2), "{url}");
    assert!(!folder.file("backup").exists(), "nothing is made where no hub is");
    String::from_utf8(output.stderr).unwrap().trim_end().to_owned()
}

/// It was reached, and nothing was in the way.
const REACHED: &str = "There is no hub in that database. Name the one it is served with";

#[test]
fn a_database_is_asked_over_encrypted_connections_and_only_if_it_is_who_it_should_be() {
    let (folder, (certificate_of_it, key), (foreign, _)) = (Folder::new(), certificate(), certificate());
    let server = Postgres::encrypted(&certificate_of_it, &key);
    let (own, foreign) = (folder.with("own.pem", &certificate_of_it), folder.with("foreign.pem", &foreign));
    let by_name = server.url.replace("127.0.0.1", "localhost");
    let with = |mode: &str| format!("{by_name}?sslmode={mode}");
    assert_eq!(said(&with("require"), &own), REACHED);
    let refused = said(&with("require"), &foreign);
    assert!(refused.contains("the database is not who it should be (invalid peer certificate: "), "{refused}");
    assert!(refused.ends_with("name the file of the root that vouches for it in SSL_CERT_FILE"), "{refused}");
    // The right certificate, under another name.
    let refused = said(&format!("{}?sslmode=require", server.url), &own);
    assert!(refused.contains("the database is not who it should be (invalid peer certificate: "), "{refused}");
    // It takes nothing that is not encrypted, so what went through was.
    for plain in [with("disable"), server.url.clone()] {
        let refused = said(&plain, &own);
        assert!(refused.contains("no encryption"), "{refused}");
    }
    let refused = said(&with("require"), &folder.text("missing.pem"));
    assert!(refused.contains("no certificate of a root could be read"), "{refused}");
    assert!(said(&with("sometimes"), &own).contains("sslmode"), "{}", said(&with("sometimes"), &own));
}

#[test]
fn what_leaves_this_machine_is_encrypted_unless_the_address_says_otherwise() {
    let server = Postgres::start();
    let (folder, (root, _)) = (Folder::new(), certificate());
    let root = folder.with("root.pem", &root);
    let refused = "the database does not encrypt its connections: turn that on there (ssl = on), or write \
                   sslmode=disable into its address";
    // Here nothing lies in between.
    assert_eq!(said(&server.url, &root), REACHED);
    assert!(said(&format!("{}?sslmode=require", server.url), &root).ends_with(refused));
    // An address that is not this machine's own, by what it says, and leads here.
    let elsewhere = server.url.replace("127.0.0.1", "0.0.0.0");
    for url in [elsewhere.clone(), format!("{elsewhere}?sslmode=prefer"), format!("{elsewhere}?sslmode=require")] {
        let told = said(&url, &root);
        assert!(told.ends_with(refused), "{url}: {told}");
    }
    assert_eq!(said(&format!("{elsewhere}?sslmode=disable"), &root), REACHED);
}
