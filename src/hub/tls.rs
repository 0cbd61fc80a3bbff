//! The connection over a network: protected always, the server's certificate and its name checked.

use super::words::{plain, wrong};
use super::{Surroundings, service::Service};
use crate::exchange::CarrierError;
use crate::files;
use rustls::pki_types::{CertificateDer, pem::PemObject};
use rustls::{ClientConfig, RootCertStore, crypto::ring};
use std::path::Path;
use std::sync::Arc;
use tokio_postgres_rustls::MakeRustlsConnect;

/// The largest file of authorities read; those of a whole system take about a quarter of it.
const ROOTS_MOST: u64 = files::SETTINGS_MOST;

/// What checks the certificate of a hub: by the authority that the service names, or by those of the system.
pub(super) fn connector(service: &Service, around: &Surroundings) -> Result<MakeRustlsConnect, CarrierError> {
    let roots = match &service.root {
        Some(file) => roots_of(file, &service.from, around)?,
        None => roots_of_system(&service.from)?,
    };
    let config = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .map_err(|error| CarrierError::Certificate(error.to_string()))?;
    Ok(MakeRustlsConnect::new(config.with_root_certificates(roots).with_no_client_auth()))
}

fn roots_of(file: &Path, from: &str, around: &Surroundings) -> Result<RootCertStore, CarrierError> {
    let shown = around.shown(file);
    let bytes = files::read(file, ROOTS_MOST, files::FILE)
        .map_err(|error| wrong(&format!("{shown}, sslrootcert in {from}, cannot be read: {}", plain(&error))))?;
    let none = || wrong(&format!("{shown}, sslrootcert in {from}, is not a certificate; give the authority's as PEM"));
    let mut roots = RootCertStore::empty();
    for certificate in CertificateDer::pem_slice_iter(&bytes) {
        let certificate = certificate.ok().ok_or_else(none)?;
        roots.add(certificate).ok().ok_or_else(none)?;
    }
    if roots.is_empty() { Err(none()) } else { Ok(roots) }
}

fn roots_of_system(from: &str) -> Result<RootCertStore, CarrierError> {
    let mut roots = RootCertStore::empty();
    roots.add_parsable_certificates(rustls_native_certs::load_native_certs().certs);
    if roots.is_empty() {
        return Err(wrong(&format!(
            "this machine has no list of authorities; name the file of the hub's as sslrootcert in {from}"
        )));
    }
    Ok(roots)
}
