//! The office's hub: the operations and screens of the app over HTTP, behind a login. It holds no rule of the trade.
//!
//! A request passes `guard` (is it meant for this address, does it come from this page), then the door it asks for:
//! `login` and `set_password` for whoever has no session yet, `door` for the operations, `people` for the accounts.
//! Screens are files and hold nothing of the record.

mod account;
mod audit;
mod door;
mod guard;
mod login;
mod may;
mod people;
mod refused;
mod request;
mod role;
mod screens;
mod secret;
mod session;
mod set_password;
mod told;
mod tries;

pub use told::{ended, no_folder, not_serving};

use axum::Router;
use axum::middleware::from_fn_with_state;
use axum::routing::{get, post};
use provenohm_api::{Api, Failure, Host, Moment};
use provenohm_logbook::random::NoRandomness;
use provenohm_words::{Locale, Words};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Instant;
use tokio::net::TcpListener;

/// Where a hub keeps its record and where it listens.
#[derive(Clone, Debug)]
pub struct Options {
    /// Folder of the record; made where there is none.
    pub record: PathBuf,
    /// Address and port; port 0 takes a free one. Anything but loopback is refused until connections are encrypted.
    pub listen: SocketAddr,
}

/// Why a hub does not run.
#[derive(Debug, thiserror::Error)]
pub enum NotServing {
    /// Passwords would go over the network as they are.
    #[error("{0} can be reached from other machines, and connections are not encrypted yet: listen on 127.0.0.1")]
    NotLoopback(SocketAddr),
    /// The address is taken, or not of this machine.
    #[error("cannot listen on {0}: {1}")]
    Address(SocketAddr, std::io::Error),
    /// The program was built without the screens.
    #[error("this program was built without its screens")]
    NoScreens,
    /// The record is not there and cannot be made, or does not open.
    #[error(transparent)]
    Record(#[from] Failure),
    /// Accounts cannot be read or kept.
    #[error(transparent)]
    Accounts(#[from] account::AccountError),
    /// The system gives no random bytes.
    #[error(transparent)]
    NoRandomness(#[from] NoRandomness),
    /// The server broke off.
    #[error("the hub broke off: {0}")]
    BrokeOff(std::io::Error),
}

/// What every request may need.
pub(crate) struct Office {
    pub(crate) api: Api,
    pub(crate) accounts: account::Accounts,
    pub(crate) sessions: session::Sessions,
    pub(crate) tries: tries::Tries,
    pub(crate) address: SocketAddr,
    pub(crate) words: Words,
    random: Mutex<Host>,
}

impl Office {
    /// Random bytes, for one who asks at a time.
    pub(crate) fn random(&self) -> MutexGuard<'_, Host> {
        self.random.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(crate) fn now(&self) -> Moment {
        self.random().now()
    }

    /// Whose session a cookie is of, as their account stands now.
    pub(crate) fn logged_in(&self, cookie: &str) -> Option<account::Account> {
        let whose = self.sessions.hear(cookie, Instant::now())?;
        // What cannot be read lets nobody in.
        self.accounts.of_person(whose.person).ok().flatten().filter(|account| whose.holds(account))
    }
}

/// A hub that is listening and answers once it [runs](Hub::run).
pub struct Hub {
    listener: TcpListener,
    office: Arc<Office>,
    first: Option<String>,
}

impl Hub {
    /// Opens the record and takes the address.
    ///
    /// # Errors
    /// [`NotServing`] in a sentence.
    pub async fn bind(options: &Options) -> Result<Self, NotServing> {
        if !options.listen.ip().is_loopback() {
            return Err(NotServing::NotLoopback(options.listen));
        }
        if !screens::are_there() {
            return Err(NotServing::NoScreens);
        }
        let host = Host::system().with_papers(options.record.join("papers"));
        let api = Api::open(&options.record, host)?;
        let mut random = Host::system();
        let accounts = account::Accounts::open(&options.record.join("office.sqlite"), &mut random)?;
        let first = accounts.first_link(&mut random)?;
        let no_address = |error| NotServing::Address(options.listen, error);
        let listener = TcpListener::bind(options.listen).await.map_err(no_address)?;
        let address = listener.local_addr().map_err(no_address)?;
        let first = first.map(|code| format!("http://{address}/#/first/{}", code.told()));
        let (sessions, tries) = (session::Sessions::default(), tries::Tries::default());
        let (words, random) = (Words::new(Locale::ENGLISH), Mutex::new(random));
        let office = Arc::new(Office { api, accounts, sessions, tries, address, words, random });
        Ok(Self { listener, office, first })
    }

    /// Where it is reached.
    #[must_use]
    pub fn address(&self) -> SocketAddr {
        self.office.address
    }

    /// The link by which the first person sets a password: once, and only while nobody has.
    #[must_use]
    pub fn first_link(&self) -> Option<&str> {
        self.first.as_deref()
    }

    /// Answers until `over`; what was begun then is ended.
    ///
    /// # Errors
    /// [`NotServing::BrokeOff`].
    pub async fn run(self, over: impl Future<Output = ()> + Send + 'static) -> Result<(), NotServing> {
        let guarded = from_fn_with_state(Arc::clone(&self.office), guard::guard);
        let routes = Router::new()
            .route("/health", get(|| async { "ok\n" }))
            .route("/session", post(login::session))
            .route("/first", post(set_password::first))
            .route("/login", post(login::login))
            .route("/logout", post(login::logout))
            .route("/password", post(set_password::change))
            .merge(people::routes())
            .route("/call", post(door::call))
            .fallback(get(screens::screen))
            .layer(guarded)
            .with_state(self.office);
        axum::serve(self.listener, routes).with_graceful_shutdown(over).await.map_err(NotServing::BrokeOff)
    }
}
