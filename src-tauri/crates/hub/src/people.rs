//! What the office does with accounts. No operation of `api`: an app alone has none.

use crate::Office;
use crate::account::{Account, AccountError, By};
use crate::audit::Page;
use crate::door::office_of;
use crate::refused::Refused;
use crate::request::{asked, blocking};
use crate::role::Role;
use crate::secret::Secret;
use crate::set_password::account_name;
use axum::body::Body;
use axum::extract::State;
use axum::http::HeaderMap;
use axum::routing::post;
use axum::{Json, Router};
use provenohm_api::{Moment, PersonId, Seat};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

type Answer<T> = Result<Json<T>, Refused>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Nothing {}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Invite {
    name: String,
    role: Role,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfPerson {
    person: PersonId,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OtherRole {
    person: PersonId,
    role: Role,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Before {
    before: Option<i64>,
}

/// One account as it is told.
#[derive(Serialize)]
struct PersonLine {
    person: PersonId,
    name: String,
    role: Role,
    /// Whether there is a login, or a link for one, in words.
    standing: String,
    /// Whether there is something to take away.
    may_come_in: bool,
}

/// Everybody, and the roles to choose from.
#[derive(Serialize)]
struct People {
    people: Vec<PersonLine>,
    roles: Vec<RoleLine>,
    /// The code of the link that was just made: told this once.
    code: Option<String>,
}

#[derive(Serialize)]
struct RoleLine {
    id: Role,
    words: String,
}

/// The doors of the office's people.
pub(crate) fn routes() -> Router<Arc<Office>> {
    Router::new()
        .route("/people", post(people))
        .route("/people/invite", post(invite))
        .route("/people/link", post(link))
        .route("/people/role", post(role))
        .route("/people/take-away", post(take_away))
        .route("/people/audit", post(audit))
}

async fn people(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer<People> {
    by_office(office, &headers, body, |office, Nothing {}, _, _| told(office, None)).await
}

async fn invite(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer<People> {
    by_office(office, &headers, body, |office, Invite { name, role }, _, by| {
        let name = account_name(&name).map_err(AccountError::Refused)?;
        let secret = Secret::make(&mut *office.random())?;
        let person = PersonId(office.random().id()?);
        office.accounts.invite((person, &name, role), &secret, by)?;
        // Work can be given to them before they first come in.
        let seat = Seat { person, name, role: role.words(&office.words) };
        office.api.know(&seat).map_err(|failure| AccountError::Record(failure.to_string()))?;
        told(office, Some(secret))
    })
    .await
}

async fn link(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer<People> {
    by_office(office, &headers, body, |office, OfPerson { person }, _, by| {
        let secret = Secret::make(&mut *office.random())?;
        office.accounts.new_link(person, &secret, by)?;
        told(office, Some(secret))
    })
    .await
}

async fn role(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer<People> {
    by_office(office, &headers, body, |office, OtherRole { person, role }, _, by| {
        office.accounts.set_role(person, role, by)?;
        told(office, None)
    })
    .await
}

async fn take_away(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer<People> {
    by_office(office, &headers, body, |office, OfPerson { person }, _, by| {
        office.accounts.take_away(person, by)?;
        told(office, None)
    })
    .await
}

async fn audit(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Answer<Page> {
    by_office(office, &headers, body, |office, Before { before }, _, _| office.accounts.audit(before, &office.words))
        .await
}

/// Does something for somebody of the office, and refuses everybody else.
pub(crate) async fn by_office<Asked: DeserializeOwned + Send + 'static, Told: Send + 'static>(
    office: Arc<Office>,
    headers: &HeaderMap,
    body: Body,
    does: impl FnOnce(&Office, Asked, PersonId, By<'_>) -> Result<Told, AccountError> + Send + 'static,
) -> Answer<Told> {
    let account = office_of(&office, headers).await?;
    let asked: Asked = asked(&office, body).await?;
    let doing = Arc::clone(&office);
    let done =
        blocking(&office, move || does(&doing, asked, account.person, By { who: &account.name, at: doing.now() }));
    Ok(Json(done.await?))
}

fn told(office: &Office, secret: Option<Secret>) -> Result<People, AccountError> {
    let now = office.now();
    let people = office.accounts.all()?.into_iter().map(|account| line(office, account, now)).collect();
    let roles = Role::ALL.map(|id| RoleLine { id, words: id.words(&office.words) }).into();
    Ok(People { people, roles, code: secret.map(|secret| secret.told().to_owned()) })
}

fn line(office: &Office, account: Account, now: Moment) -> PersonLine {
    let waits = account.link_until.filter(|until| now < *until);
    let standing = match (waits, &account.hash) {
        (Some(until), _) => {
            let until = office.words.date_time(until.with_timezone(&now.timezone()));
            office.words.text_with("hub-account-invited", &[("until", until.into())])
        }
        (None, Some(_)) => office.words.text("hub-account-in"),
        (None, None) => office.words.text("hub-account-out"),
    };
    PersonLine {
        person: account.person,
        name: account.name,
        role: account.role,
        standing,
        may_come_in: waits.is_some() || account.hash.is_some(),
    }
}
