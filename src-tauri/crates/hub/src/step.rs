//! The instance's own record, kept in step with the store: what people recorded in the browser goes there, what other
//! instances took in comes from there.

use crate::Office;
use provenohm_exchange::hub::{HubError, keep_in_step};
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::time::Duration;

/// How long others wait for what was recorded here, at most.
const EACH: Duration = Duration::from_millis(300);

/// Keeps it in step for ever.
pub(crate) async fn keep(office: Arc<Office>) {
    loop {
        once(&office).await;
        tokio::time::sleep(EACH).await;
    }
}

/// Brings it in step, off the threads that answer.
pub(crate) async fn once(office: &Arc<Office>) {
    let working = Arc::clone(office);
    if let Err(error) = tokio::task::spawn_blocking(move || now(&working)).await {
        tracing::error!(%error, "the record is not in step with the store");
    }
}

/// The same, here and now. What does not work now is tried again, and said in the log.
pub(crate) fn now(office: &Office) {
    let mut store = office.store();
    let done = store.is_closed().map_err(HubError::from).and_then(|closed| {
        office.is_moved.store(closed, Ordering::Relaxed);
        keep_in_step(&mut office.api.desk(), &mut **store)
    });
    if let Err(error) = done {
        tracing::error!(%error, "the record is not in step with the store");
    }
}
