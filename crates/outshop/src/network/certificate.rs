//! The certificate the desk shows: the shop's own, made anew in good time, or one that was supplied.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use rustls::pki_types::{CertificateDer, PrivateKeyDer, ServerName, pem::PemObject};
use rustls::server::{ClientHello, ParsedCertificate, ResolvesServerCert};
use rustls::sign::CertifiedKey;
use sha2::{Digest, Sha256};

use super::validity::validity;
use super::{Authority, RENEW_AFTER};
use crate::{Clock, Failure};

/// The SHA-256 of a certificate as phones show it: pairs of figures, eight to a group.
pub fn fingerprint(certificate: &CertificateDer<'_>) -> String {
    let pairs: Vec<String> = Sha256::digest(certificate.as_ref())
        .iter()
        .map(|byte| format!("{byte:02X}"))
        .collect();
    pairs.join(" ")
}

/// What the desk shows to whoever connects.
#[derive(Debug)]
pub struct Certificates {
    authority: Authority,
    names: Vec<String>,
    kept: Mutex<(i64, Arc<CertifiedKey>)>,
}

impl Certificates {
    /// Certificates of the shop's authority under these names.
    ///
    /// # Errors
    /// If the first cannot be made.
    pub fn of(authority: Authority, names: Vec<String>, now: i64) -> Result<Self, Failure> {
        let first = made(&authority, &names, now)?;
        Ok(Certificates {
            authority,
            names,
            kept: Mutex::new((now, first)),
        })
    }

    /// The one to show at `now`: the last one made, or a new one if that is a month old.
    pub fn at(&self, now: i64) -> Option<Arc<CertifiedKey>> {
        let mut kept = self.kept.lock().ok()?;
        let age = now - kept.0;
        // A clock set back makes one anew too: the old one may not have begun yet.
        if !(0..RENEW_AFTER).contains(&age)
            && let Ok(new) = made(&self.authority, &self.names, now)
        {
            *kept = (now, new);
        }
        Some(kept.1.clone())
    }
}

fn made(authority: &Authority, names: &[String], now: i64) -> Result<Arc<CertifiedKey>, Failure> {
    let (chain, key) = authority.sign(names, now)?;
    certified(chain, &key).map(Arc::new)
}

fn certified(
    chain: Vec<CertificateDer<'static>>,
    key: &PrivateKeyDer<'_>,
) -> Result<CertifiedKey, Failure> {
    let key = rustls::crypto::ring::sign::any_supported_type(key).map_err(|why| {
        Failure::Machine(format!("The key of the certificate cannot be used: {why}."))
    })?;
    Ok(CertifiedKey::new(chain, key))
}

impl ResolvesServerCert for Certificates {
    fn resolve(&self, _: ClientHello<'_>) -> Option<Arc<CertifiedKey>> {
        // Phones hold certificates against their own clocks, so the machine's is asked, whatever day the book holds.
        let now = Clock::Machine.read("UTC").ok()?.0.as_second();
        self.at(now)
    }
}

/// A certificate that somebody else made, with its key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supplied {
    /// The certificate, and those above it.
    pub certificate: PathBuf,
    /// Its key.
    pub key: PathBuf,
}

impl Supplied {
    /// Reads it, and holds it against the names the desk is to have and the day.
    ///
    /// # Errors
    /// A file that does not read, a key of another certificate, one that is expired or not begun, or another name's.
    pub fn read(&self, names: &[String], now: i64) -> Result<Arc<CertifiedKey>, Failure> {
        let no = |why: String| Failure::Input(format!("{why} Nothing was served."));
        let chain = chain(&self.certificate).map_err(&no)?;
        let key = PrivateKeyDer::from_pem_file(&self.key).map_err(|why| {
            no(format!(
                "{} is no private key in PEM: {why}.",
                self.key.display()
            ))
        })?;
        let Some(leaf) = chain.first().cloned() else {
            return Err(no(format!(
                "{} holds no certificate.",
                self.certificate.display()
            )));
        };
        let certified = certified(chain, &key)?;
        if certified.keys_match().is_err() {
            return Err(no(format!(
                "The key in {} is not that of the certificate in {}.",
                self.key.display(),
                self.certificate.display()
            )));
        }
        in_time(&leaf, &self.certificate, now).map_err(&no)?;
        let parsed = ParsedCertificate::try_from(&leaf)
            .map_err(|why| no(format!("{}: {why}.", self.certificate.display())))?;
        for name in names {
            let server = ServerName::try_from(name.as_str())
                .map_err(|_| no(format!("`{name}` is no name of a machine.")))?;
            if rustls::client::verify_server_name(&parsed, &server).is_err() {
                return Err(no(format!(
                    "The certificate in {} is not made out to `{name}`: browsers would refuse it.",
                    self.certificate.display()
                )));
            }
        }
        Ok(Arc::new(certified))
    }
}

fn chain(path: &Path) -> Result<Vec<CertificateDer<'static>>, String> {
    let unreadable = |why| format!("{} is no certificate in PEM: {why}.", path.display());
    CertificateDer::pem_file_iter(path)
        .map_err(unreadable)?
        .collect::<Result<_, _>>()
        .map_err(unreadable)
}

fn in_time(leaf: &CertificateDer<'_>, path: &Path, now: i64) -> Result<(), String> {
    let (from, through) = validity(leaf).ok_or_else(|| {
        format!(
            "The certificate in {} says in no way we know how long it is good.",
            path.display()
        )
    })?;
    let day = |at: i64| {
        let at = jiff::Timestamp::from_second(at).map(|at| at.to_string());
        at.unwrap_or_else(|_| "a day nobody can name".into())
    };
    if now > through {
        return Err(format!(
            "The certificate in {} ended on {}: have it renewed, or leave --certificate away and serve with the shop's own.",
            path.display(),
            day(through)
        ));
    }
    if now < from {
        return Err(format!(
            "The certificate in {} begins only on {}. Is the clock of this machine right?",
            path.display(),
            day(from)
        ));
    }
    Ok(())
}
