//! The hub's key and certificate: its own, made once and kept beside the record, or the firm's. Phones pin the certificate they
//! met when they were enrolled; a browser asks whether to trust one that nobody vouches for.

use rcgen::{CertificateParams, KeyPair};
use rustls::ServerConfig;
use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tokio_rustls::TlsAcceptor;

/// A certificate and its key, as PEM files.
#[derive(Clone, Debug)]
pub struct Certificate {
    /// The certificate, and those that lead to it.
    pub chain: PathBuf,
    /// Its private key.
    pub key: PathBuf,
}

/// The hub's own, in the folder of its record.
pub(crate) const CERTIFICATE: &str = "hub-certificate.pem";
pub(crate) const KEY: &str = "hub-key.pem";

/// Why connections cannot be encrypted.
#[derive(Debug, thiserror::Error)]
pub enum TlsError {
    /// A file cannot be read or written.
    #[error("{0}: {1}")]
    File(PathBuf, std::io::Error),
    /// A file holds no certificate or key.
    #[error("{0}: {1}")]
    Pem(PathBuf, rustls::pki_types::pem::Error),
    /// A certificate cannot be made.
    #[error(transparent)]
    Make(#[from] rcgen::Error),
    /// The two do not fit.
    #[error(transparent)]
    Rustls(#[from] rustls::Error),
}

/// What encrypts a hub's connections.
pub(crate) struct Tls {
    pub(crate) acceptor: TlsAcceptor,
    /// SHA-256 of the certificate.
    pub(crate) pin: [u8; 32],
}

impl Tls {
    /// With the firm's certificate, or the hub's own from the folder of its record.
    pub(crate) fn of(given: Option<&Certificate>, folder: &Path) -> Result<Self, TlsError> {
        let own = Certificate { chain: folder.join(CERTIFICATE), key: folder.join(KEY) };
        let certificate = match given {
            Some(given) => given,
            None => {
                make_if_missing(&own)?;
                &own
            }
        };
        let unread = |path: &Path| {
            let path = path.to_owned();
            move |error| TlsError::Pem(path, error)
        };
        let chain = CertificateDer::pem_file_iter(&certificate.chain).map_err(unread(&certificate.chain))?;
        let chain: Vec<CertificateDer<'static>> =
            chain.collect::<Result<_, _>>().map_err(unread(&certificate.chain))?;
        let key = PrivateKeyDer::from_pem_file(&certificate.key).map_err(unread(&certificate.key))?;
        let pin = Sha256::digest(chain.first().map(AsRef::as_ref).unwrap_or_default()).into();
        let provider = Arc::new(rustls::crypto::ring::default_provider());
        let mut config = ServerConfig::builder_with_provider(provider)
            .with_safe_default_protocol_versions()?
            .with_no_client_auth()
            .with_single_cert(chain, key)?;
        config.alpn_protocols = vec![b"http/1.1".to_vec()];
        Ok(Self { acceptor: TlsAcceptor::from(Arc::new(config)), pin })
    }
}

/// The key never leaves the folder, and only the hub's own user reads it.
fn make_if_missing(own: &Certificate) -> Result<(), TlsError> {
    if own.chain.exists() && own.key.exists() {
        return Ok(());
    }
    let key = KeyPair::generate()?;
    let certificate = CertificateParams::new(vec!["localhost".to_owned()])?.self_signed(&key)?;
    write_own(&own.key, &key.serialize_pem()).map_err(|error| TlsError::File(own.key.clone(), error))?;
    std::fs::write(&own.chain, certificate.pem()).map_err(|error| TlsError::File(own.chain.clone(), error))
}

#[cfg(unix)]
fn write_own(path: &Path, text: &str) -> std::io::Result<()> {
    use std::io::Write as _;
    use std::os::unix::fs::OpenOptionsExt as _;
    let mut file = std::fs::OpenOptions::new().write(true).create(true).truncate(true).mode(0o600).open(path)?;
    file.write_all(text.as_bytes())
}

#[cfg(not(unix))]
fn write_own(path: &Path, text: &str) -> std::io::Result<()> {
    std::fs::write(path, text)
}
