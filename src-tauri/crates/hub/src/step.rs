//! The instance's own record, kept in step with the store: what people recorded in the browser goes there, what other
//! instances took in comes from there.

use crate::Office;
use provenohm_exchange::hub::keep_in_step;
use std::sync::Arc;
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

/// Brings it in step. What does not work now is tried again, and said in the log.
pub(crate) async fn once(office: &Arc<Office>) {
    let working = Arc::clone(office);
    let work = move || keep_in_step(&mut working.api.desk(), &mut **working.store());
    match tokio::task::spawn_blocking(work).await {
        Ok(Ok(())) => {}
        Ok(Err(error)) => tracing::error!(%error, "the record is not in step with the store"),
        Err(error) => tracing::error!(%error, "the record is not in step with the store"),
    }
}
