//! The office's hub: the operations and screens of the app over HTTP, behind a login. It holds no rule of the trade.
//!
//! A request passes `guard` (is it meant for this address, does it come from this page), then the door it asks for:
//! `login` and `set_password` for whoever has no session yet, `door` for the operations, `people` for the accounts, `sync` for
//! phones. Screens are files and hold nothing of the record. Entries lie in a store of their own, and the record is kept in
//! step with it.

mod account;
mod audit;
mod door;
mod enrolment;
mod guard;
mod keep;
mod login;
mod may;
mod people;
mod phones;
mod postgres;
mod refused;
mod request;
mod role;
mod screens;
mod secret;
mod serve;
mod session;
mod set_password;
mod step;
mod sync;
mod tls;
mod told;
mod tries;

pub use keep::{NotKept, back_up, move_to, restore};
pub use postgres::PostgresStore;
pub use provenohm_exchange::hub::Carried;
pub use tls::Certificate;
pub use told::{carried, ended, no_folder, not_kept, not_serving};

use crate::refused::Refused;
use axum::Router;
use axum::http::StatusCode;
use axum::middleware::from_fn_with_state;
use axum::routing::{get, post};
use provenohm_api::{Api, Failure, Host, Moment};
use provenohm_exchange::hub::{Epoch, SqliteStore, Store, StoreError};
use provenohm_logbook::random::NoRandomness;
use provenohm_words::{Locale, Words};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Instant;
use tokio::net::TcpListener;
use tokio::runtime::Handle;
use tokio_rustls::TlsAcceptor;
use tower_http::timeout::TimeoutLayer;

/// Where a hub keeps its record and where it listens.
#[derive(Clone, Debug)]
pub struct Options {
    /// Folder of the record; made where there is none.
    pub record: PathBuf,
    /// Address and port; port 0 takes a free one. Anything but loopback is encrypted.
    pub listen: SocketAddr,
    /// The firm's certificate, in place of the hub's own.
    pub certificate: Option<Certificate>,
    /// Names by which it is reached, beside its addresses.
    pub names: Vec<String>,
    /// Where the entries are kept, `postgres://…`; absent: beside the record.
    pub store: Option<String>,
}

/// Why a hub does not run.
#[derive(Debug, thiserror::Error)]
pub enum NotServing {
    /// Connections cannot be encrypted.
    #[error(transparent)]
    Tls(#[from] tls::TlsError),
    /// The store of entries cannot be read or kept.
    #[error(transparent)]
    Store(#[from] StoreError),
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
}

/// What every request may need.
pub(crate) struct Office {
    pub(crate) api: Api,
    pub(crate) accounts: account::Accounts,
    pub(crate) sessions: session::Sessions,
    pub(crate) tries: tries::Tries,
    pub(crate) phones: phones::Phones,
    pub(crate) reached: guard::Reached,
    /// SHA-256 of the certificate, where connections are encrypted.
    pub(crate) pin: Option<[u8; 32]>,
    pub(crate) words: Words,
    store: Mutex<Box<dyn Store>>,
    /// Whether the store is not on this machine's own disk.
    pub(crate) is_elsewhere: bool,
    random: Mutex<Host>,
}

impl Office {
    /// Random bytes and the clock, for one who asks at a time.
    pub(crate) fn random(&self) -> MutexGuard<'_, Host> {
        self.random.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The store, for one who asks at a time.
    pub(crate) fn store(&self) -> MutexGuard<'_, Box<dyn Store>> {
        self.store.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What the clock says, with its offset.
    pub(crate) fn now(&self) -> Moment {
        self.random().now()
    }

    /// Whose session a cookie is of, as their account stands now.
    pub(crate) fn logged_in(&self, cookie: &str) -> Option<account::Account> {
        let whose = self.sessions.whose(cookie, Instant::now())?;
        // What cannot be read lets nobody in.
        self.accounts.of_person(whose.person).ok().flatten().filter(|account| whose.holds(account))
    }

    /// Work that takes its time, off the threads that answer.
    pub(crate) async fn blocking<T: Send + 'static>(
        self: &Arc<Self>,
        work: impl FnOnce(&Self) -> Result<T, Refused> + Send + 'static,
    ) -> Result<T, Refused> {
        let office = Arc::clone(self);
        match tokio::task::spawn_blocking(move || work(&office)).await {
            Ok(done) => done,
            Err(error) => Err(Refused::broke(&self.words, error)),
        }
    }
}

/// The store that was asked for.
async fn store_of(options: &Options, new: Epoch) -> Result<Box<dyn Store>, StoreError> {
    let Some(url) = options.store.clone() else {
        let store = SqliteStore::open(&options.record.join(keep::STORE), new)?;
        return if store.is_closed()? { Err(StoreError::Closed) } else { Ok(Box::new(store)) };
    };
    let runtime = Handle::current();
    let opened = tokio::task::spawn_blocking(move || PostgresStore::open(&url, new, runtime)).await;
    Ok(Box::new(opened.map_err(|error| StoreError::Engine(error.to_string()))??))
}

/// A hub that is listening and answers once it [runs](Hub::run).
pub struct Hub {
    listener: TcpListener,
    acceptor: Option<TlsAcceptor>,
    address: SocketAddr,
    office: Arc<Office>,
    first: Option<String>,
}

impl Hub {
    /// Opens the record and takes the address.
    ///
    /// # Errors
    /// [`NotServing`] in a sentence.
    pub async fn bind(options: &Options) -> Result<Self, NotServing> {
        if !screens::are_there() {
            return Err(NotServing::NoScreens);
        }
        let folder = &options.record;
        let api = Api::open(folder, Host::system().with_papers(folder.join("papers")))?.shared();
        let mut random = Host::system();
        let accounts = account::Accounts::open(&folder.join(keep::ACCOUNTS), &mut random)?;
        let phones = phones::Phones::open(&folder.join(keep::ACCOUNTS))?;
        let store = store_of(options, Epoch(random.id()?)).await?;
        let encrypted = options.certificate.is_some() || !options.listen.ip().is_loopback();
        let tls = encrypted.then(|| tls::Tls::of(options.certificate.as_ref(), folder)).transpose()?;
        let no_address = |error| NotServing::Address(options.listen, error);
        let listener = TcpListener::bind(options.listen).await.map_err(no_address)?;
        let address = listener.local_addr().map_err(no_address)?;
        let reached = guard::Reached::new(address, encrypted, &options.names);
        let first = accounts.first_link(&mut random)?;
        let first = first.map(|code| format!("{}/#/first/{}", reached.address(), code.told()));
        let pin = tls.as_ref().map(|tls| tls.pin);
        Ok(Self {
            listener,
            acceptor: tls.map(|tls| tls.acceptor),
            address,
            office: Arc::new(Office {
                api,
                accounts,
                sessions: session::Sessions::default(),
                tries: tries::Tries::default(),
                phones,
                reached,
                pin,
                words: Words::new(Locale::ENGLISH),
                store: Mutex::new(store),
                is_elsewhere: options.store.is_some(),
                random: Mutex::new(random),
            }),
            first,
        })
    }

    /// Where it is reached.
    #[must_use]
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The address to open.
    #[must_use]
    pub fn reached(&self) -> String {
        self.office.reached.address()
    }

    /// SHA-256 of its certificate, where connections are encrypted.
    #[must_use]
    pub fn pin(&self) -> Option<[u8; 32]> {
        self.office.pin
    }

    /// The link by which the first person sets a password: once, and only while nobody has.
    #[must_use]
    pub fn first_link(&self) -> Option<&str> {
        self.first.as_deref()
    }

    /// Answers until `over`; what was begun then is ended.
    pub async fn run(self, over: impl Future<Output = ()>) {
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
            .route("/phones", post(enrolment::list))
            .route("/phones/code", post(enrolment::code))
            .route("/phones/revoke", post(enrolment::revoke))
            .route("/sync", get(sync::protocols))
            .route("/sync/1/enrol", post(sync::enrol))
            .route("/sync/1/{what}", post(sync::asked))
            .fallback(get(screens::screen))
            .layer(TimeoutLayer::with_status_code(StatusCode::REQUEST_TIMEOUT, serve::WHOLE))
            .layer(guarded)
            .with_state(Arc::clone(&self.office));
        tracing::info!(address = %self.address, encrypted = self.acceptor.is_some(), "the hub answers");
        let in_step = tokio::spawn(step::keep(Arc::clone(&self.office)));
        serve::serve(self.listener, self.acceptor, routes, over).await;
        in_step.abort();
        step::once(&self.office).await;
        tracing::info!("the hub has ended");
    }
}
