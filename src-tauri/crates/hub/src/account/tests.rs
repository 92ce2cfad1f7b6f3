//! Accounts in their file: brought up from earlier versions, changed, and what of it stands in the audit.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::*;
use crate::base::Base;
use crate::secret::Secret;
use crate::session::Sessions;
use crate::tries::Tries;
use provenohm_api::Host;
use provenohm_words::{Locale, Words};
use rusqlite::Connection;
use serde_json::{Value, json};
use std::net::{IpAddr, Ipv4Addr};
use std::time::Duration;
use tempfile::TempDir;

const WEEK: Duration = Duration::from_secs(7 * 24 * 60 * 60);

struct File {
    _folder: TempDir,
    path: std::path::PathBuf,
    host: Host,
    now: Moment,
}

impl File {
    fn new() -> Self {
        let folder = TempDir::new().unwrap();
        let path = folder.path().join("office.sqlite");
        let now = Moment::parse_from_rfc3339("2026-11-25T10:00:00+01:00").unwrap();
        let mut count = 0u32;
        let random = move |bytes: &mut [u8]| {
            count += 1;
            bytes.iter_mut().zip(count.to_le_bytes().into_iter().cycle()).for_each(|(byte, of)| *byte = of);
            Ok(())
        };
        Self { _folder: folder, path, host: Host::new(move || now, random), now }
    }

    fn open(&mut self) -> Result<Accounts, AccountError> {
        Ok(Accounts(Arc::new(Base::in_file(&self.path, &mut self.host)?)))
    }

    /// The file, past what keeps it.
    fn sqlite(&self) -> Connection {
        Connection::open(&self.path).unwrap()
    }

    fn by<'a>(&self, who: &'a str) -> By<'a> {
        By { who, at: self.now }
    }

    fn person(&mut self) -> PersonId {
        PersonId(self.host.id().unwrap())
    }

    /// Accounts with a first one of the office.
    fn with_office(&mut self) -> (Accounts, Account) {
        let accounts = self.open().unwrap();
        let code = accounts.first_link(&mut self.host).unwrap().unwrap();
        let first = (self.person(), "A. Office");
        let office = accounts.accept((code.told(), "hash of a"), first, self.now).unwrap();
        (accounts, office)
    }

    fn invite(&mut self, accounts: &Accounts, name: &str, role: Role) -> Result<(PersonId, Secret), AccountError> {
        let (person, secret) = (self.person(), Secret::make(&mut self.host).unwrap());
        accounts.invite((person, name, role), &secret, self.by("A. Office"))?;
        Ok((person, secret))
    }
}

fn refused<T: std::fmt::Debug>(told: Result<T, AccountError>) -> &'static str {
    match told {
        Err(AccountError::Refused(code)) => code,
        other => panic!("{other:?}"),
    }
}

fn audit(accounts: &Accounts, before: Option<i64>) -> Value {
    json!(accounts.audit(before, &Words::new(Locale::ENGLISH)).unwrap())
}

#[test]
fn the_file_of_the_first_version_is_brought_up_and_whoever_had_an_account_is_the_office() {
    let mut file = File::new();
    let earlier = Connection::open(&file.path).unwrap();
    earlier
        .execute_batch(
            "CREATE TABLE account (name TEXT NOT NULL PRIMARY KEY, hash TEXT NOT NULL) STRICT, WITHOUT ROWID;
             INSERT INTO account VALUES ('A. Office', 'its hash');",
        )
        .unwrap();
    drop(earlier);
    let accounts = file.open().unwrap();
    let account = accounts.named("A. Office").unwrap().unwrap();
    assert_eq!((account.role, account.hash.as_deref()), (Role::Office, Some("its hash")));
    assert!(accounts.first_link(&mut file.host).unwrap().is_none());
    drop(accounts);
    // Opened again nothing changes; a newer file is left alone.
    let accounts = file.open().unwrap();
    assert_eq!(accounts.all().unwrap(), [account]);
    drop(accounts);
    file.sqlite().pragma_update(None, "user_version", 99).unwrap();
    assert!(matches!(file.open(), Err(AccountError::Newer)));
}

#[test]
fn a_link_works_once_and_for_a_week() {
    let mut file = File::new();
    let (accounts, _) = file.with_office();
    let (person, code) = file.invite(&accounts, "A. Recorder", Role::Recorder).unwrap();
    let nearly = file.now + WEEK - Duration::from_secs(1);
    assert_eq!(accounts.invited(code.told(), nearly).unwrap(), Some(Invited::Person(person)));
    assert_eq!(accounts.invited(code.told(), file.now + WEEK).unwrap(), None);
    assert_eq!(accounts.invited("00", file.now).unwrap(), None);
    let first = (person, "");
    let account = accounts.accept((code.told(), "hash"), first, nearly).unwrap();
    assert_eq!((account.person, account.role, account.link_until), (person, Role::Recorder, None));
    assert_eq!(refused(accounts.accept((code.told(), "other"), first, nearly)), "link_used");
    // A new link takes the place of one that waits.
    let [one, other] = [(); 2].map(|()| Secret::make(&mut file.host).unwrap());
    accounts.new_link(person, &one, file.by("A. Office")).unwrap();
    accounts.new_link(person, &other, file.by("A. Office")).unwrap();
    assert_eq!(accounts.invited(one.told(), file.now).unwrap(), None);
    assert_eq!(accounts.accept((other.told(), "other"), first, file.now).unwrap().hash.as_deref(), Some("other"));
    // Each start makes another first link, until it is used.
    let mut file = File::new();
    let accounts = file.open().unwrap();
    let [one, other] = [(); 2].map(|()| accounts.first_link(&mut file.host).unwrap().unwrap());
    assert_eq!(accounts.invited(one.told(), file.now).unwrap(), None);
    assert_eq!(accounts.invited(other.told(), file.now).unwrap(), Some(Invited::First));
}

#[test]
fn the_last_login_of_the_office_stays() {
    let mut file = File::new();
    let (accounts, office) = file.with_office();
    let by = file.by("A. Office");
    assert_eq!(refused(accounts.take_away(office.person, by)), "last_office");
    assert_eq!(refused(accounts.set_role(office.person, Role::Recorder, by)), "last_office");
    // One who is only invited cannot let anybody in.
    let (other, code) = file.invite(&accounts, "B. Office", Role::Office).unwrap();
    assert_eq!(refused(accounts.take_away(office.person, by)), "last_office");
    accounts.accept((code.told(), "hash of b"), (other, ""), file.now).unwrap();
    accounts.take_away(office.person, by).unwrap();
    assert_eq!(accounts.named("A. Office").unwrap().unwrap().hash, None);
    assert_eq!(refused(accounts.set_role(other, Role::Reviewer, by)), "last_office");
    assert_eq!(refused(accounts.set_role(file.person(), Role::Office, by)), "no_account");
    assert_eq!(refused(file.invite(&accounts, "A. Office", Role::Office).map(drop)), "name_taken");
}

#[test]
fn the_audit_names_who_did_what_to_whom_and_is_only_added_to() {
    let mut file = File::new();
    let (accounts, _) = file.with_office();
    let (person, code) = file.invite(&accounts, "A. Recorder", Role::Recorder).unwrap();
    accounts.set_role(person, Role::Reviewer, file.by("A. Office")).unwrap();
    accounts.take_away(person, file.by("A. Office")).unwrap();
    let lines = audit(&accounts, None);
    let said: Vec<&str> = lines["lines"].as_array().unwrap().iter().map(|one| one["words"].as_str().unwrap()).collect();
    assert_eq!(
        said,
        [
            "A. Office took the login of A. Recorder away",
            "A. Office gave A. Recorder another role: Reviewer",
            "A. Office made a link for A. Recorder",
            "A. Office made the account of A. Recorder: Recorder",
            "A. Office set a password",
            "A. Office made the account of A. Office: Office",
        ]
    );
    assert_eq!((&lines["more"], &lines["lines"][0]["at"]), (&json!(false), &json!("25 Nov 2026 10:00")));
    let kept: String = file.sqlite().query_row("SELECT at FROM audit", [], |row| row.get(0)).unwrap();
    assert_eq!(kept, "2026-11-25T10:00:00+01:00");
    for change in ["UPDATE audit SET who = 'B'", "DELETE FROM audit", "DELETE FROM audit WHERE number = 1"] {
        assert!(file.sqlite().execute(change, []).is_err(), "{change}");
    }
    drop(accounts);
    let bytes = std::fs::read(&file.path).unwrap();
    let holds = |secret: &str| bytes.windows(secret.len()).any(|window| window == secret.as_bytes());
    assert!(holds("A. Recorder") && !holds(code.told()));
}

#[test]
fn the_audit_is_told_by_pages() {
    let mut file = File::new();
    let (accounts, _) = file.with_office();
    for _ in 0..60 {
        accounts.note(file.now, &crate::audit::Act::Wrong { about: None }).unwrap();
    }
    let page = audit(&accounts, None);
    let lines = page["lines"].as_array().unwrap();
    assert_eq!((lines.len(), &page["more"]), (50, &json!(true)));
    let rest = audit(&accounts, lines[49]["number"].as_i64());
    assert_eq!((rest["lines"].as_array().unwrap().len(), &rest["more"]), (12, &json!(false)));
}

#[test]
fn a_session_ends_when_it_was_silent_for_long_is_closed_or_the_password_is_another() {
    let mut file = File::new();
    let (accounts, office) = file.with_office();
    let (sessions, now) = (Sessions(Arc::clone(&accounts.0)), file.now);
    let [one, other, third] = [(); 3].map(|()| Secret::make(&mut file.host).unwrap());
    sessions.open(&office, now, &one).unwrap();
    let nearly = Duration::from_secs(12 * 60 * 60 - 1);
    sessions.keep(one.told(), now + nearly).unwrap();
    assert_eq!(sessions.whose(one.told(), now + nearly * 2).unwrap().as_ref(), Some(&office));
    // Asking keeps nothing, and what has ended is not brought back.
    let late = now + nearly * 2 + Duration::from_secs(1);
    assert_eq!(sessions.whose(one.told(), late).unwrap(), None);
    sessions.keep(one.told(), late).unwrap();
    assert_eq!(sessions.whose(one.told(), late).unwrap(), None);
    // What is heard again within a minute is not written each time.
    sessions.open(&office, now, &other).unwrap();
    sessions.keep(other.told(), now + Duration::from_secs(59)).unwrap();
    let heard: i64 = file.sqlite().query_row("SELECT max(heard) FROM session", [], |row| row.get(0)).unwrap();
    assert_eq!(heard, (now + nearly).timestamp(), "that of the first");
    sessions.close(other.told()).unwrap();
    assert_eq!(sessions.whose(other.told(), now).unwrap(), None);
    sessions.open(&office, now, &third).unwrap();
    accounts.set_password(office.person, "hash of a", "another", file.by("A. Office")).unwrap();
    assert_eq!(sessions.whose(third.told(), now).unwrap(), None);
}

const HERE: IpAddr = IpAddr::V4(Ipv4Addr::LOCALHOST);
const QUARTER: Duration = Duration::from_secs(15 * 60);

fn elsewhere(nth: u8) -> IpAddr {
    // Addresses for documentation (RFC 5737).
    IpAddr::V4(Ipv4Addr::new(192, 0, 2, nth))
}

#[test]
fn wrong_passwords_of_one_name_leave_the_others_heard() {
    let mut file = File::new();
    let (tries, now) = (Tries(file.open().unwrap().0), file.now);
    let mut heard = |name, from, at| tries.begin((name, from), at, file.host.id().unwrap()).unwrap().is_some();
    for nth in 0..10 {
        assert!(heard("A", elsewhere(nth), now));
    }
    assert!(!heard("A", HERE, now) && heard("B", HERE, now) && heard("A", HERE, now + QUARTER));
}

#[test]
fn right_ones_never_count() {
    let mut file = File::new();
    let (tries, now) = (Tries(file.open().unwrap().0), file.now);
    for _ in 0..60 {
        let one = tries.begin(("A", HERE), now, file.host.id().unwrap()).unwrap().unwrap();
        tries.was_right(one).unwrap();
    }
}

#[test]
fn a_flood_of_names_from_one_address_shuts_that_address_out_and_nobody_else() {
    let mut file = File::new();
    let (tries, now) = (Tries(file.open().unwrap().0), file.now);
    let mut heard = |name: &str, from, at| tries.begin((name, from), at, file.host.id().unwrap()).unwrap().is_some();
    assert_eq!((0..200).filter(|name| heard(&name.to_string(), HERE, now)).count(), 50);
    assert!(heard("A", elsewhere(1), now));
    // Of IPv6 all addresses of one network are one.
    let of_network = |nth: u16| IpAddr::V6(std::net::Ipv6Addr::new(0x2001, 0xdb8, 0, 0, 0, 0, 0, nth));
    assert_eq!((0..200).filter(|nth| heard(&format!("six {nth}"), of_network(*nth), now)).count(), 50);
    // From many addresses it ends as well, and no more of it is kept than that.
    let from_many = (0..250).filter(|nth| (0..5).all(|name| heard(&format!("{nth} {name}"), elsewhere(*nth), now)));
    assert_eq!(from_many.count(), 179);
    assert!(!heard("A", HERE, now) && heard("A", HERE, now + QUARTER));
    let kept: i64 = file.sqlite().query_row("SELECT count(*) FROM attempt", [], |row| row.get(0)).unwrap();
    assert_eq!(kept, 1);
}
