//! Connections: how many at once, how long one may take to say what it wants, and how they end.

use axum::{Extension, Router};
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use std::net::IpAddr;
use std::sync::Arc;
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::time::timeout;
use tokio_rustls::TlsAcceptor;

/// For the handshake, and for the head of each request.
const HEAD: Duration = Duration::from_secs(10);
/// For a whole request and its answer: a large bundle over a slow line.
pub(crate) const WHOLE: Duration = Duration::from_secs(300);
/// What was begun when the end was asked for has so long.
const END: Duration = Duration::from_secs(30);
/// A listener that cannot accept is asked again: too many files are open, say.
const AGAIN: Duration = Duration::from_millis(200);

/// The address a request comes from: of the machine itself, or of what stands before the hub.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Caller(pub(crate) IpAddr);

/// Answers until `over`, so many connections at once; those beyond wait to be accepted. What was begun at the end is ended.
pub(crate) async fn serve(
    listener: TcpListener,
    tls: Option<TlsAcceptor>,
    routes: Router,
    connections: usize,
    over: impl Future<Output = ()>,
) {
    let graceful = GracefulShutdown::new();
    let room = Arc::new(Semaphore::new(connections));
    let mut over = std::pin::pin!(over);
    loop {
        let accepted = async {
            let permit = Arc::clone(&room).acquire_owned().await.ok()?;
            match listener.accept().await {
                Ok((stream, from)) => Some((stream, Caller(from.ip()), permit)),
                Err(error) => {
                    tracing::warn!(%error, "a connection was not accepted");
                    tokio::time::sleep(AGAIN).await;
                    None
                }
            }
        };
        let accepted = tokio::select! {
            accepted = accepted => accepted,
            () = &mut over => break,
        };
        let Some((stream, caller, permit)) = accepted else { continue };
        let (tls, routes, watcher) = (tls.clone(), routes.clone().layer(Extension(caller)), graceful.watcher());
        tokio::spawn(async move {
            let Some(stream) = secured(stream, tls).await else { return };
            let mut http = http1::Builder::new();
            http.timer(TokioTimer::new()).header_read_timeout(HEAD);
            let connection = http.serve_connection(TokioIo::new(stream), TowerToHyperService::new(routes));
            // A browser that goes away in the middle is nothing to tell of.
            drop(watcher.watch(connection).await);
            drop::<OwnedSemaphorePermit>(permit);
        });
    }
    drop(listener);
    if timeout(END, graceful.shutdown()).await.is_err() {
        tracing::warn!("connections were cut that did not end by themselves");
    }
}

trait Stream: AsyncRead + AsyncWrite + Unpin + Send {}
impl<T: AsyncRead + AsyncWrite + Unpin + Send> Stream for T {}

/// The connection, encrypted where it has to be. Nothing if the other side does not manage that.
async fn secured(stream: TcpStream, tls: Option<TlsAcceptor>) -> Option<Box<dyn Stream>> {
    match tls {
        None => Some(Box::new(stream)),
        Some(tls) => match timeout(HEAD, tls.accept(stream)).await {
            Ok(Ok(stream)) => Some(Box::new(stream)),
            _ => None,
        },
    }
}
