//! The office's hub: the operations and screens of the app over HTTP, behind a login. It holds no rule of the trade.
//!
//! A request passes `guard` (is it meant for this address, does it come from this page), then the door it asks for:
//! `login` and `set_password` for whoever has no session yet, `door` for the operations, `people` for the accounts, `sync` for
//! phones. Screens are files and hold nothing of the record. Entries lie in a store of their own, and the record is kept in
//! step with it.

mod account;
mod audit;
mod base;
mod door;
mod enrolment;
mod guard;
mod held;
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
mod scripts;
mod secret;
mod serve;
mod session;
mod set_password;
mod step;
mod sync;
mod tls;
mod told;
mod tries;

pub use keep::{NotKept, back_up, back_up_database, move_to, restore};
pub use postgres::PostgresStore;
pub use provenohm_exchange::hub::Carried;
pub use tls::Certificate;
pub use told::{carried, ended, no_folder, not_kept, not_serving};

use crate::base::Base;
use crate::postgres::Database;
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
use std::sync::atomic::AtomicBool;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
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
    /// Connections at once, usually [`CONNECTIONS`]. Those beyond wait to be accepted.
    pub connections: usize,
}

/// Connections at once of a hub for one firm.
pub const CONNECTIONS: usize = 1024;

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
    /// Whether the store was moved elsewhere: then nothing is taken here any more.
    pub(crate) is_moved: AtomicBool,
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
        // Whoever draws random bytes keeps nobody from knowing the time.
        Host::system().now()
    }

    /// Whose session a cookie is of, as their account stands now.
    pub(crate) fn logged_in(&self, cookie: &str) -> Result<Option<account::Account>, Refused> {
        self.sessions.whose(cookie, self.now()).map_err(|error| Refused::broke(&self.words, error))
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

/// What a hub keeps: entries, and the office's own tables.
struct Kept {
    store: Box<dyn Store>,
    base: Base,
}

impl Kept {
    /// Beside the record, or in the database that was asked for.
    fn open(options: &Options, runtime: Handle) -> Result<Self, NotServing> {
        let mut host = Host::system();
        let new = Epoch(host.id()?);
        let Some(url) = &options.store else {
            let mut store = SqliteStore::open(&options.record.join(keep::STORE), new)?;
            if store.is_closed()? {
                return Err(StoreError::Closed.into());
            }
            let base = Base::in_file(&options.record.join(keep::ACCOUNTS), &mut host)?;
            return Ok(Self { store: Box::new(store), base });
        };
        let database = Database::of(url, runtime)?;
        let mut store = Box::new(PostgresStore::within(database.clone(), new)?);
        if store.is_closed()? {
            return Err(StoreError::Closed.into());
        }
        let base = Base::in_database(database)?;
        // The accounts of a hub that kept its entries there, but these in its folder still, as earlier versions did.
        let file = options.record.join(keep::ACCOUNTS);
        if file.is_file() && base.is_empty()? {
            Base::in_file(&file, &mut host)?.carry(&base)?;
        }
        Ok(Self { store, base })
    }
}

/// Waits for work that waits for a disk or a network itself.
async fn off_the_threads<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, NotServing> + Send + 'static,
) -> Result<T, NotServing> {
    let done = tokio::task::spawn_blocking(work).await;
    done.unwrap_or_else(|error| Err(StoreError::Engine(error.to_string()).into()))
}

/// A hub that is listening and answers once it [runs](Hub::run).
pub struct Hub {
    listener: TcpListener,
    acceptor: Option<TlsAcceptor>,
    address: SocketAddr,
    office: Arc<Office>,
    first: Option<String>,
    connections: usize,
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
        let Kept { store, base } = off_the_threads({
            let (options, runtime) = (options.clone(), Handle::current());
            move || Kept::open(&options, runtime)
        })
        .await?;
        let base = Arc::new(base);
        let accounts = account::Accounts(Arc::clone(&base));
        let encrypted = options.certificate.is_some() || !options.listen.ip().is_loopback();
        let tls = encrypted.then(|| tls::Tls::of(options.certificate.as_ref(), folder)).transpose()?;
        let no_address = |error| NotServing::Address(options.listen, error);
        let listener = TcpListener::bind(options.listen).await.map_err(no_address)?;
        let address = listener.local_addr().map_err(no_address)?;
        let reached = guard::Reached::new(address, encrypted, &options.names);
        let (accounts, first) = off_the_threads(move || {
            let first = accounts.first_link(&mut Host::system())?;
            Ok::<_, NotServing>((accounts, first))
        })
        .await?;
        let first = first.map(|code| format!("{}/#/first/{}", reached.address(), code.told()));
        let pin = tls.as_ref().map(|tls| tls.pin);
        Ok(Self {
            listener,
            acceptor: tls.map(|tls| tls.acceptor),
            address,
            office: Arc::new(Office {
                api,
                accounts,
                sessions: session::Sessions(Arc::clone(&base)),
                tries: tries::Tries(Arc::clone(&base)),
                phones: phones::Phones(base),
                reached,
                pin,
                words: Words::new(Locale::ENGLISH),
                store: Mutex::new(store),
                is_moved: AtomicBool::new(false),
                is_elsewhere: options.store.is_some(),
                random: Mutex::new(Host::system()),
            }),
            first,
            connections: options.connections,
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
            .merge(scripts::routes())
            .route("/call", post(door::call))
            .route("/phones", post(enrolment::list))
            .route("/phones/code", post(enrolment::code))
            .route("/phones/revoke", post(enrolment::revoke))
            .route("/phones/accept", post(enrolment::accept))
            .route("/phones/drop", post(enrolment::drop_held))
            .route("/sync", get(sync::protocols))
            .route("/sync/1/enrol", post(sync::enrol))
            .route("/sync/1/{what}", post(sync::asked))
            .fallback(get(screens::screen))
            .layer(TimeoutLayer::with_status_code(StatusCode::REQUEST_TIMEOUT, serve::WHOLE))
            .layer(guarded)
            .with_state(Arc::clone(&self.office));
        // A new instance answers once it has what others took in.
        step::once(&self.office).await;
        tracing::info!(address = %self.address, encrypted = self.acceptor.is_some(), "the hub answers");
        let in_step = tokio::spawn(step::keep(Arc::clone(&self.office)));
        serve::serve(self.listener, self.acceptor, routes, self.connections, over).await;
        in_step.abort();
        step::once(&self.office).await;
        tracing::info!("the hub has ended");
    }
}
