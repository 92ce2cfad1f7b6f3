//! Which connections to a database are encrypted: those that leave this machine, and those whose address asks for it. The
//! certificate must lead to a root that this machine trusts, or to one in the file that `SSL_CERT_FILE` names.

use deadpool_postgres::Manager;
use provenohm_exchange::hub::StoreError;
use rustls::{ClientConfig, RootCertStore};
use std::error::Error;
use std::net::IpAddr;
use std::sync::Arc;
use tokio_postgres::config::{Host, SslMode};
use tokio_postgres::{Config, NoTls};
use tokio_postgres_rustls::MakeRustlsConnect;

/// What the library says of a server that knows no encryption.
const NOT_OFFERED: &str = "server does not support TLS";

/// What makes connections of that kind.
pub(super) fn manager(mut config: Config) -> Result<Manager, StoreError> {
    let wanted = match config.get_ssl_mode() {
        // What is encrypted only where the other side likes to, somebody in between can keep from it.
        SslMode::Prefer if is_here(&config) => SslMode::Disable,
        SslMode::Prefer => SslMode::Require,
        said => said,
    };
    config.ssl_mode(wanted);
    Ok(match wanted {
        SslMode::Disable => Manager::new(config, NoTls),
        _ => Manager::new(config, MakeRustlsConnect::new(client()?)),
    })
}

/// Whether nothing of it leaves this machine.
fn is_here(config: &Config) -> bool {
    let by_name = config.get_hosts().iter().all(|host| match host {
        Host::Tcp(name) => name == "localhost" || name.parse().is_ok_and(|ip: IpAddr| ip.is_loopback()),
        #[cfg(unix)]
        Host::Unix(_) => true,
    });
    // Where addresses are given they are gone to, whatever the names.
    let addresses = config.get_hostaddrs();
    if addresses.is_empty() { by_name } else { addresses.iter().all(IpAddr::is_loopback) }
}

fn client() -> Result<ClientConfig, StoreError> {
    let found = rustls_native_certs::load_native_certs();
    let mut roots = RootCertStore::empty();
    roots.add_parsable_certificates(found.certs);
    if roots.is_empty() {
        let why = found.errors.first().map_or_else(|| "there is none".to_owned(), ToString::to_string);
        return Err(StoreError::Engine(format!(
            "no certificate of a root could be read ({why}): name a file of them in SSL_CERT_FILE"
        )));
    }
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let client = ClientConfig::builder_with_provider(provider).with_safe_default_protocol_versions();
    let client = client.map_err(|error| StoreError::Engine(error.to_string()))?;
    Ok(client.with_root_certificates(roots).with_no_client_auth())
}

/// Why a connection is not encrypted as it has to be, and what to do.
pub(super) fn said(error: &tokio_postgres::Error) -> Option<String> {
    let why = error.source()?;
    if why.to_string() == NOT_OFFERED {
        let what_to_do = "turn that on there (ssl = on), or write sslmode=disable into its address";
        return Some(format!("the database does not encrypt its connections: {what_to_do}"));
    }
    let tls = why.downcast_ref::<std::io::Error>()?.get_ref()?.downcast_ref::<rustls::Error>()?;
    let what_to_do = "if it is the right one, name the file of the root that vouches for it in SSL_CERT_FILE";
    Some(format!("the database is not who it should be ({tls}): {what_to_do}"))
}
