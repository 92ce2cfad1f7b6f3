//! What holds for every request and every answer, whoever asks.

use crate::Office;
use crate::refused::Refused;
use axum::extract::{Request, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HOST, HeaderName, ORIGIN, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// The app's own policy, with this origin in the place of its shell's channel.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

const HEADERS: [(HeaderName, &str); 4] = [
    (CONTENT_SECURITY_POLICY, POLICY),
    (X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (REFERRER_POLICY, "no-referrer"),
    // What a record says stays in no cache of a shared machine.
    (CACHE_CONTROL, "no-store"),
];

/// What is got and says something of the record.
const ASKED: [&str; 3] = ["/api/", "/calendar/", "/sync"];

/// Refuses what is meant for another address or comes from another page; a name that only resolves to this machine is
/// another address.
pub(crate) async fn guard(State(office): State<Arc<Office>>, request: Request, next: Next) -> Response {
    let refuse = |status, code| Refused::of(&office.words, status, code).into_response();
    // Where it was moved from only the screens are left, which say so.
    let is_file = request.method() == Method::GET && !ASKED.iter().any(|path| request.uri().path().starts_with(path));
    let mut answer = if !office.reached.is_meant(request.headers()) {
        refuse(StatusCode::FORBIDDEN, "not_this_page")
    } else if office.is_moved.load(Ordering::Relaxed) && !is_file {
        refuse(StatusCode::GONE, "hub_moved")
    } else {
        next.run(request).await
    };
    for (name, value) in HEADERS {
        answer.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    answer
}

/// By what a hub is reached.
pub(crate) struct Reached {
    address: SocketAddr,
    scheme: &'static str,
    names: Vec<String>,
}

impl Reached {
    pub(crate) fn new(address: SocketAddr, encrypted: bool, names: &[String]) -> Self {
        let names = std::iter::once("localhost").chain(names.iter().map(String::as_str));
        Self {
            address,
            scheme: if encrypted { "https" } else { "http" },
            names: names.map(|name| format!("{}:{}", name.to_lowercase(), address.port())).collect(),
        }
    }

    /// The address to open.
    pub(crate) fn address(&self) -> String {
        format!("{}://{}", self.scheme, self.place())
    }

    /// What a phone is told: without its scheme where that is understood.
    pub(crate) fn for_phones(&self) -> String {
        let understood = self.is_encrypted() != self.address.ip().is_loopback();
        if understood { self.place() } else { self.address() }
    }

    /// Name and port, by the first name that was given; else an address of this machine.
    fn place(&self) -> String {
        self.names.get(1).cloned().unwrap_or_else(|| match self.address.ip().is_unspecified() {
            true => SocketAddr::new(own_address().unwrap_or(self.address.ip()), self.address.port()).to_string(),
            false => self.address.to_string(),
        })
    }

    pub(crate) fn is_encrypted(&self) -> bool {
        self.scheme == "https"
    }

    /// A name that was given, or an address: no other page can make a browser believe that an address is its own. One that
    /// listens on every address is reached by any of them.
    fn is_here(&self, host: &str) -> bool {
        // The usual port of the scheme goes unsaid.
        let usual = if self.is_encrypted() { 443 } else { 80 };
        let said = host.rsplit_once(':').is_some_and(|(_, port)| port.parse::<u16>().is_ok());
        let host = &if said { host.to_owned() } else { format!("{host}:{usual}") };
        let by_address = host.parse::<SocketAddr>().is_ok_and(|host| {
            host.port() == self.address.port() && (self.address.ip().is_unspecified() || host == self.address)
        });
        by_address || self.names.contains(&host.to_lowercase())
    }

    fn is_meant(&self, headers: &HeaderMap) -> bool {
        let once = |name: HeaderName| {
            let mut all = headers.get_all(name).iter();
            (all.next(), all.next())
        };
        let here = |text: &str| self.is_here(text);
        let host = matches!(once(HOST), (Some(host), None) if host.to_str().is_ok_and(here));
        let origin = match once(ORIGIN) {
            (None, _) => true,
            (Some(origin), None) => {
                let of = origin.to_str().ok().and_then(|text| text.strip_prefix(self.scheme)?.strip_prefix("://"));
                of.is_some_and(here)
            }
            (Some(_), Some(_)) => false,
        };
        host && origin
    }
}

/// The address by which this machine would reach others: asked of its routes, nothing is sent.
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    // An address for documentation (RFC 5737): any other would do.
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    Some(socket.local_addr().ok()?.ip())
}
