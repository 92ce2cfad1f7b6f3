//! A database: connections to it, and transactions as often as they take.

use deadpool_postgres::{Config, Object, Pool, Runtime};
use provenohm_exchange::hub::StoreError;
use std::time::Duration;
use tokio::runtime::Handle;
use tokio::time::timeout;
use tokio_postgres::error::SqlState;
use tokio_postgres::{IsolationLevel, NoTls, Transaction};

/// How often a transaction is tried that others keep from being serialized.
pub(super) const TRIES: u32 = 20;

/// For a transaction and all its tries.
const LONGEST: Duration = Duration::from_secs(60);

/// For a connection to be there.
const CONNECTED: Duration = Duration::from_secs(10);

/// Longer from one try to the next.
pub(super) const AGAIN: Duration = Duration::from_millis(5);

/// Connections that are kept open. Its calls wait, so they are made off the threads that answer.
#[derive(Clone, Debug)]
pub(crate) struct Database {
    pool: Pool,
    runtime: Handle,
}

/// Why a transaction did not come about.
pub(super) enum Failed {
    Engine(tokio_postgres::Error),
    Store(StoreError),
}

impl From<tokio_postgres::Error> for Failed {
    fn from(error: tokio_postgres::Error) -> Self {
        Self::Engine(error)
    }
}

impl From<StoreError> for Failed {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}

impl Failed {
    fn said(self) -> StoreError {
        match self {
            Self::Store(error) => error,
            Self::Engine(error) => engine(&error),
        }
    }
}

impl Database {
    /// The database of `postgres://…`.
    ///
    /// # Errors
    /// [`StoreError`] if that is no address of one.
    pub(crate) fn of(url: &str, runtime: Handle) -> Result<Self, StoreError> {
        let config = Config { url: Some(url.to_owned()), connect_timeout: Some(CONNECTED), ..Config::default() };
        let _in = runtime.enter();
        let pool = config.create_pool(Some(Runtime::Tokio1), NoTls);
        Ok(Self { pool: pool.map_err(|error| StoreError::Engine(error.to_string()))?, runtime: runtime.clone() })
    }

    /// Makes what is not there yet. To be called off the threads of the runtime.
    pub(super) fn make(&self, statements: &str) -> Result<(), StoreError> {
        self.wait(async {
            for tried in 1.. {
                let client = self.connection().await?;
                match client.batch_execute(statements).await {
                    // Two instances that start at once are each other's way.
                    Err(error) if (is_passing(&error) || is_there(&error)) && tried < TRIES => {
                        tokio::time::sleep(AGAIN * tried).await;
                    }
                    made => return made.map_err(|error| engine(&error)),
                }
            }
            Err(StoreError::Engine("others were always first".to_owned()))
        })
    }

    pub(super) async fn connection(&self) -> Result<Object, StoreError> {
        self.pool.get().await.map_err(|error| StoreError::Engine(error.to_string()))
    }

    /// Waits for work. A database that went away without a word would be waited for as long as the system does.
    pub(super) fn wait<T>(&self, work: impl Future<Output = Result<T, StoreError>>) -> Result<T, StoreError> {
        let late = |_| Err(StoreError::Engine("the database did not answer in time".to_owned()));
        self.runtime.block_on(async { timeout(LONGEST, work).await.unwrap_or_else(late) })
    }

    /// Reads, all of it at one and the same moment.
    pub(super) fn read<T>(&self, work: impl AsyncFn(&Transaction<'_>) -> Result<T, Failed>) -> Result<T, StoreError> {
        self.transact(IsolationLevel::RepeatableRead, work)
    }

    /// Changes something: what is read behind a row that was taken is as the one before left it.
    pub(super) fn write<T>(&self, work: impl AsyncFn(&Transaction<'_>) -> Result<T, Failed>) -> Result<T, StoreError> {
        self.transact(IsolationLevel::ReadCommitted, work)
    }

    /// One transaction, as often as it takes.
    fn transact<T>(
        &self,
        level: IsolationLevel,
        work: impl AsyncFn(&Transaction<'_>) -> Result<T, Failed>,
    ) -> Result<T, StoreError> {
        self.wait(async {
            for tried in 1.. {
                let mut client = self.connection().await?;
                let begun = client.build_transaction().isolation_level(level).start().await;
                let tx = begun.map_err(|error| engine(&error))?;
                let done = match work(&tx).await {
                    Ok(value) => tx.commit().await.map(|()| value).map_err(Failed::from),
                    Err(failed) => Err(failed),
                };
                match done {
                    Err(Failed::Engine(error)) if is_passing(&error) && tried < TRIES => {
                        tokio::time::sleep(AGAIN * tried).await;
                    }
                    Err(failed) => return Err(failed.said()),
                    Ok(value) => return Ok(value),
                }
            }
            Err(StoreError::Engine("others were always first".to_owned()))
        })
    }
}

/// Whether a transaction may come about if it is tried again.
pub(super) fn is_passing(error: &tokio_postgres::Error) -> bool {
    matches!(error.code(), Some(&(SqlState::T_R_SERIALIZATION_FAILURE | SqlState::T_R_DEADLOCK_DETECTED)))
}

/// Whether somebody else made the same at the same time.
fn is_there(error: &tokio_postgres::Error) -> bool {
    matches!(error.code(), Some(&(SqlState::UNIQUE_VIOLATION | SqlState::DUPLICATE_TABLE | SqlState::DUPLICATE_OBJECT)))
}

pub(super) fn engine(error: &tokio_postgres::Error) -> StoreError {
    let said = error.as_db_error().map_or_else(|| error.to_string(), |told| told.message().to_owned());
    StoreError::Engine(said)
}
