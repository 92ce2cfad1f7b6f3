//! Trust in one certificate: the one that was met when the device was enrolled. Nobody else's word counts, and no name.

use rustls::client::danger::{HandshakeSignatureValid, ServerCertVerified, ServerCertVerifier};
use rustls::crypto::{CryptoProvider, verify_tls12_signature, verify_tls13_signature};
use rustls::pki_types::{CertificateDer, ServerName, UnixTime};
use rustls::{CertificateError, ClientConfig, DigitallySignedStruct, Error, SignatureScheme};
use sha2::{Digest, Sha256};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};

/// SHA-256 of a certificate.
pub(crate) type Pin = [u8; 32];

/// What a connection met.
#[derive(Debug, Default)]
pub(crate) struct Met {
    /// The first certificate, where none was pinned.
    pub(crate) first: OnceLock<Pin>,
    /// Whether another than the one that was wanted answered.
    pub(crate) other: AtomicBool,
}

/// Takes the pinned certificate alone; without a pin any, which is noted.
#[derive(Debug)]
struct Pinned {
    pin: Option<Pin>,
    met: Arc<Met>,
    provider: Arc<CryptoProvider>,
}

/// What encrypts a connection to that certificate. Without a pin it takes the first it meets, and notes it.
///
/// # Errors
/// What the library says of its own settings.
pub(crate) fn config(pin: Option<Pin>, met: &Arc<Met>) -> Result<ClientConfig, Error> {
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let pinned = Pinned { pin, met: Arc::clone(met), provider: Arc::clone(&provider) };
    Ok(ClientConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()?
        .dangerous()
        .with_custom_certificate_verifier(Arc::new(pinned))
        .with_no_client_auth())
}

impl ServerCertVerifier for Pinned {
    fn verify_server_cert(
        &self,
        end_entity: &CertificateDer<'_>,
        _intermediates: &[CertificateDer<'_>],
        _server_name: &ServerName<'_>,
        _ocsp_response: &[u8],
        _now: UnixTime,
    ) -> Result<ServerCertVerified, Error> {
        let found: Pin = Sha256::digest(end_entity).into();
        // Met once: every connection of one enrolment is to the same.
        let wanted = *self.pin.as_ref().unwrap_or_else(|| self.met.first.get_or_init(|| found));
        self.met.other.store(found != wanted, Ordering::SeqCst);
        if found == wanted {
            Ok(ServerCertVerified::assertion())
        } else {
            Err(Error::InvalidCertificate(CertificateError::ApplicationVerificationFailure))
        }
    }

    fn verify_tls12_signature(
        &self,
        message: &[u8],
        certificate: &CertificateDer<'_>,
        signed: &DigitallySignedStruct,
    ) -> Result<HandshakeSignatureValid, Error> {
        verify_tls12_signature(message, certificate, signed, &self.provider.signature_verification_algorithms)
    }

    fn verify_tls13_signature(
        &self,
        message: &[u8],
        certificate: &CertificateDer<'_>,
        signed: &DigitallySignedStruct,
    ) -> Result<HandshakeSignatureValid, Error> {
        verify_tls13_signature(message, certificate, signed, &self.provider.signature_verification_algorithms)
    }

    fn supported_verify_schemes(&self) -> Vec<SignatureScheme> {
        self.provider.signature_verification_algorithms.supported_schemes()
    }
}
