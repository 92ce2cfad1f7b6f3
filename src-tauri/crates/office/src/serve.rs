//! The hub: started, told of, ended.

use crate::ask::Outcome;
use crate::command::Serve;
use crate::tell;
use provenohm_hub::{
    CONNECTIONS, Carried, Certificate, Hub, NotKept, Options, carried, ended, no_folder, not_kept, not_serving,
};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use tokio::runtime::Runtime;

/// Answers until it is interrupted or asked to end.
pub(crate) fn serve(serve: Serve) -> Outcome {
    let record = serve.record.or_else(usual).ok_or_else(no_folder)?;
    let certificate = serve.certificate.zip(serve.key).map(|(chain, key)| Certificate { chain, key });
    let (listen, names, store, connections) = (serve.listen, serve.name, serve.store, CONNECTIONS);
    let options = Options { record, listen, certificate, names, store, connections };
    // What happens goes to the standard error, a line each, with its instant and what it is about.
    tracing_subscriber::fmt().with_writer(std::io::stderr).with_ansi(false).with_target(false).init();
    let told = |error: &dyn std::fmt::Display| error.to_string();
    runtime()?.block_on(async {
        let hub = Hub::bind(&options).await.map_err(|error| not_serving(&error))?;
        tell::lines(hub.lines())?;
        // Asked for before anybody can ask to end it.
        let end = end().map_err(|error| told(&error))?;
        hub.run(end).await;
        tell::lines([ended()])
    })?;
    Ok(ExitCode::SUCCESS)
}

/// Backs up a hub while it runs.
pub(crate) fn back_up(record: Option<&Path>, store: Option<&str>, output: &Path) -> Outcome {
    match (store, record) {
        (Some(url), instance) => {
            let runtime = runtime()?;
            told(provenohm_hub::back_up_database(url, instance, output, runtime.handle().clone()))
        }
        (None, Some(record)) => told(provenohm_hub::back_up(record, output)),
        (None, None) => Err(no_folder()),
    }
}

/// Brings a backup back.
pub(crate) fn restore(from: &Path, record: &Path) -> Outcome {
    told(provenohm_hub::restore(from, record))
}

/// Moves the entries of a hub into PostgreSQL.
pub(crate) fn move_to(record: &Path, to: &str) -> Outcome {
    let runtime = runtime()?;
    told(provenohm_hub::move_to(record, to, runtime.handle().clone()))
}

fn runtime() -> Result<Runtime, String> {
    Runtime::new().map_err(|error| error.to_string())
}

fn told(done: Result<Carried, NotKept>) -> Outcome {
    tell::lines([carried(&done.map_err(|error| not_kept(&error))?)])?;
    Ok(ExitCode::SUCCESS)
}

/// Where a program of this system keeps its data.
fn usual() -> Option<PathBuf> {
    let named = |name| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    let data = if cfg!(windows) {
        named("LOCALAPPDATA")
    } else {
        named("XDG_DATA_HOME").or_else(|| named("HOME").map(|home| home.join(".local/share")))
    };
    data.map(|data| data.join("provenohm-office"))
}

/// Ends when the program is interrupted, or asked to end by the system.
#[cfg(unix)]
fn end() -> std::io::Result<impl Future<Output = ()>> {
    use tokio::signal::unix::{SignalKind, signal};
    let (mut interrupted, mut asked) = (signal(SignalKind::interrupt())?, signal(SignalKind::terminate())?);
    Ok(async move {
        tokio::select! {
            _ = interrupted.recv() => {}
            _ = asked.recv() => {}
        }
    })
}

/// Ends when the program is interrupted.
#[cfg(not(unix))]
fn end() -> std::io::Result<impl Future<Output = ()>> {
    Ok(async {
        // Where nobody can interrupt it, it answers on.
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    })
}
