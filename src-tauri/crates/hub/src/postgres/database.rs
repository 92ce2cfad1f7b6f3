//! A database: connections to it, and transactions as often as they take.

#[cfg(test)]
mod tests;

use super::encrypted;
use deadpool_postgres::{Object, Pool, PoolError, Runtime};
use provenohm_exchange::hub::StoreError;
use std::error::Error;
use std::time::Duration;
use tokio::runtime::Handle;
use tokio::time::timeout;
use tokio_postgres::error::SqlState;
use tokio_postgres::{Config, IsolationLevel, Transaction};

/// How often a transaction is tried that others keep from being serialized.
pub(super) const TRIES: u32 = 20;

/// For what is asked over a connection.
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
    longest: Duration,
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
        let mut config: Config = url.parse().map_err(|error| engine(&error))?;
        config.connect_timeout(CONNECTED);
        let manager = encrypted::manager(config)?;
        let pool =
            Pool::builder(manager).runtime(Runtime::Tokio1).create_timeout(Some(CONNECTED)).wait_timeout(Some(LONGEST));
        let pool = pool.build().map_err(|error| StoreError::Engine(error.to_string()))?;
        Ok(Self { pool, runtime, longest: LONGEST })
    }

    /// Makes what is not there yet. To be called off the threads of the runtime.
    pub(super) fn make(&self, statements: &str) -> Result<(), StoreError> {
        self.wait(async {
            for tried in 1.. {
                let client = self.connection().await?;
                match self.answered(client, async |client| client.batch_execute(statements).await).await? {
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
        self.pool.get().await.map_err(|error| match error {
            PoolError::Backend(error) => engine(&error),
            other => StoreError::Engine(other.to_string()),
        })
    }

    /// Waits for work.
    pub(super) fn wait<T>(&self, work: impl Future<Output = T>) -> T {
        self.runtime.block_on(work)
    }

    /// Waits for an answer, though not for ever: a database that went away without a word would be waited for as long as the
    /// system does.
    pub(super) async fn in_time<T>(&self, work: impl Future<Output = T>) -> Result<T, StoreError> {
        let late = |_| StoreError::Engine("the database did not answer in time".to_owned());
        timeout(self.longest, work).await.map_err(late)
    }

    /// What is asked over a connection. One that did not answer in time is not used again: what it was asked may still be done.
    async fn answered<T>(&self, mut client: Object, work: impl AsyncFnOnce(&mut Object) -> T) -> Result<T, StoreError> {
        let answered = self.in_time(work(&mut client)).await;
        if answered.is_err() {
            drop(Object::take(client));
        }
        answered
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
                let client = self.connection().await?;
                match self.answered(client, async |client| once(client, level, &work).await).await? {
                    Err(Failed::Engine(error)) if is_passing(&error) && tried < TRIES => {
                        tokio::time::sleep(AGAIN * tried).await;
                    }
                    done => return done.map_err(Failed::said),
                }
            }
            Err(StoreError::Engine("others were always first".to_owned()))
        })
    }
}

async fn once<T>(
    client: &mut Object,
    level: IsolationLevel,
    work: &impl AsyncFn(&Transaction<'_>) -> Result<T, Failed>,
) -> Result<T, Failed> {
    let tx = client.build_transaction().isolation_level(level).start().await?;
    let done = work(&tx).await?;
    tx.commit().await?;
    Ok(done)
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
    let told = error.as_db_error().map(|told| told.message().to_owned());
    StoreError::Engine(told.or_else(|| encrypted::said(error)).unwrap_or_else(|| chain(error)))
}

/// An error with what it comes from.
fn chain(error: &(dyn Error + 'static)) -> String {
    let causes = std::iter::successors(Some(error), |&error| error.source());
    causes.map(ToString::to_string).collect::<Vec<_>>().join(": ")
}
