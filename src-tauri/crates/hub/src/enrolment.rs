//! The office's side of phones: a code to enrol one, the list of them, revoking one that was lost.

use crate::Office;
use crate::account::By;
use crate::door::office_of;
use crate::held;
use crate::phones::{Phone, enrol_code};
use crate::refused::Refused;
use crate::request::asked;
use axum::Json;
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use provenohm_assess::ids::DeviceId;
use provenohm_assess::moment::Moment;
use provenohm_words::Words;
use qrcode::QrCode;
use qrcode::render::svg;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A code, as it is shown.
#[derive(Serialize)]
pub(crate) struct CodeShown {
    /// Where the phone finds the hub.
    address: String,
    /// In groups of four.
    code: String,
    /// Both as a QR code, in SVG.
    qr: String,
}

/// A phone, in words.
#[derive(Serialize)]
pub(crate) struct PhoneShown {
    device: DeviceId,
    name: String,
    /// When it was enrolled and heard, or revoked.
    words: String,
    /// What it holds alone.
    alone: Option<String>,
    /// What of it waits to be accepted.
    held: Option<String>,
    /// How many entries those are.
    waiting: u64,
    revoked: bool,
}

/// Which phone.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfPhone {
    device: DeviceId,
    /// How many entries of it were shown to wait.
    waiting: Option<u64>,
}

/// The phones as they are afterwards.
type Done = Result<Json<Vec<PhoneShown>>, Refused>;

/// The phones there are.
pub(crate) async fn list(State(office): State<Arc<Office>>, headers: HeaderMap) -> Done {
    office_of(&office, &headers).await?;
    office.blocking(all).await
}

/// Gives a code that enrols one phone.
pub(crate) async fn code(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Json<CodeShown>, Refused> {
    let account = office_of(&office, &headers).await?;
    office
        .blocking(move |office| {
            let broke = |error: &dyn std::fmt::Display| Refused::broke(&office.words, error);
            let by = By { who: &account.name, at: office.now() };
            let code = enrol_code(&mut office.random()).map_err(|error| broke(&error))?;
            office.phones.give_code(&code, by).map_err(|error| broke(&error))?;
            let (address, code) = (office.reached.for_phones(), code.told());
            let qr = QrCode::new(format!("{address} {code}")).map_err(|error| broke(&error))?;
            let qr = qr.render::<svg::Color<'_>>().min_dimensions(240, 240).build();
            Ok(Json(CodeShown { address, code, qr }))
        })
        .await
}

/// Revokes a phone.
pub(crate) async fn revoke(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Done {
    to_phone(office, &headers, body, |office, OfPhone { device, .. }, by| {
        office.phones.revoke(device, by).map_err(|error| Refused::broke(&office.words, error))
    })
    .await
}

/// Takes in what a revoked phone wrote beyond what the hub had.
pub(crate) async fn accept(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Done {
    to_phone(office, &headers, body, |office, phone, by| held::accept(office, phone.device, by)).await
}

/// Throws that away, if it is what was shown.
pub(crate) async fn drop_held(State(office): State<Arc<Office>>, headers: HeaderMap, body: Body) -> Done {
    to_phone(office, &headers, body, |office, OfPhone { device, waiting }, by| {
        let dropped = office.phones.drop_held(device, waiting, by);
        dropped.map_err(|error| Refused::by_accounts(&office.words, error))
    })
    .await
}

/// Does something about a phone for somebody of the office; it says whether there was anything to do.
async fn to_phone(
    office: Arc<Office>,
    headers: &HeaderMap,
    body: Body,
    does: impl FnOnce(&Office, OfPhone, By<'_>) -> Result<bool, Refused> + Send + 'static,
) -> Done {
    let account = office_of(&office, headers).await?;
    let phone: OfPhone = asked(&office, body).await?;
    let device = phone.device;
    office
        .blocking(move |office| {
            if !does(office, phone, By { who: &account.name, at: office.now() })? {
                return Err(Refused::of(&office.words, StatusCode::UNPROCESSABLE_ENTITY, "not_found"));
            }
            tracing::info!(%device, "something was done about a phone");
            all(office)
        })
        .await
}

fn all(office: &Office) -> Done {
    let all = office.phones.all().map_err(|error| Refused::broke(&office.words, error))?;
    Ok(Json(all.into_iter().map(|phone| shown(&office.words, phone)).collect()))
}

fn shown(words: &Words, phone: Phone) -> PhoneShown {
    let when = |at: Moment| words.date_time(at);
    let enrolled = ("enrolled", when(phone.enrolled).into());
    let said = match (phone.revoked, phone.heard) {
        (Some(revoked), _) => words.text_with("answer-phone-revoked", &[("revoked", when(revoked).into())]),
        (None, Some(heard)) => words.text_with("answer-phone-heard", &[("heard", when(heard).into()), enrolled]),
        (None, None) => words.text_with("answer-phone-never", &[enrolled]),
    };
    let alone = || words.text_with("answer-phone-alone", &[("entries", phone.alone.into())]);
    PhoneShown {
        device: phone.device,
        words: said,
        alone: (phone.alone > 0 && phone.revoked.is_none()).then(alone),
        held: (phone.held > 0).then(|| words.text_with("answer-phone-held", &[("entries", phone.held.into())])),
        waiting: phone.held,
        revoked: phone.revoked.is_some(),
        name: phone.name,
    }
}
