//! The shop's certificate authority: made once, kept beside the book, good for this shop's own network and no other place.

use std::net::IpAddr;

use rcgen::{
    BasicConstraints, CertificateParams, CidrSubnet, DistinguishedName, DnType,
    ExtendedKeyUsagePurpose, GeneralSubtree, IsCa, Issuer, KeyPair, KeyUsagePurpose,
    NameConstraints, PKCS_ECDSA_P256_SHA256,
};
use rustls::pki_types::{CertificateDer, PrivateKeyDer, PrivatePkcs8KeyDer, pem::PemObject};
use store::Keys;
use time::OffsetDateTime;

use crate::Failure;

/// Days an authority is good for: ten years, so that phones are given it once in their life.
const AUTHORITY_DAYS: i64 = 3653;
/// Days a certificate of the desk is good for; a lost one is worth nothing soon.
const LEAF_DAYS: i64 = 90;
/// A clock that runs a day behind must not refuse a certificate made just now.
const EARLIER: i64 = 86_400;
/// Seconds after which a certificate of the desk is made anew, while the old one is good for two months yet.
pub const RENEW_AFTER: i64 = 30 * 86_400;

const KEY: &str = "authority-key";
const CERTIFICATE: &str = "authority-certificate";
const NAME: &str = "authority-name";

/// Endings of names that are not of the public network: RFC 6762 (`local`), RFC 8375 (`home.arpa`), RFC 6761 (`test`,
/// `localhost`); `internal` is kept for this by ICANN (resolution of 29 July 2024, from memory); `lan` is common practice.
const ENDINGS: [&str; 6] = ["local", "lan", "internal", "home.arpa", "test", "localhost"];

/// The authority of a shop, ready to sign.
pub struct Authority {
    issuer: Issuer<'static, KeyPair>,
    certificate: CertificateDer<'static>,
    pem: String,
}

impl std::fmt::Debug for Authority {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // The key is in no message and no log.
        f.write_str("Authority")
    }
}

impl Authority {
    /// The authority kept in these keys; made at `now` (seconds since 1970) for a shop of this name if there is none.
    ///
    /// # Errors
    /// If the keys cannot be read or written, or hold something else.
    pub fn of(keys: &Keys, shop: &str, now: i64) -> Result<Authority, Failure> {
        let kept = (
            keys.setting(KEY)?,
            keys.setting(CERTIFICATE)?,
            keys.setting(NAME)?,
        );
        if let (Some(key), Some(pem), Some(name)) = kept {
            let key = KeyPair::from_pem(&key).map_err(unreadable)?;
            let certificate = CertificateDer::from_pem_slice(pem.as_bytes()).map_err(unreadable)?;
            return Ok(Authority {
                issuer: Issuer::new(params(&name, now)?, key),
                certificate,
                pem,
            });
        }
        let key = KeyPair::generate_for(&PKCS_ECDSA_P256_SHA256).map_err(unmade)?;
        let name = format!("{shop}: the shop's own certificates");
        let params = params(&name, now)?;
        let made = params.self_signed(&key).map_err(unmade)?;
        keys.set(KEY, &key.serialize_pem())?;
        keys.set(NAME, &name)?;
        // Last, so that an authority half kept is none.
        keys.set(CERTIFICATE, &made.pem())?;
        Ok(Authority {
            certificate: made.der().clone(),
            pem: made.pem(),
            issuer: Issuer::new(params, key),
        })
    }

    /// Its certificate, for phones: as text.
    pub fn pem(&self) -> &str {
        &self.pem
    }

    /// Its certificate, as bytes.
    pub fn der(&self) -> &CertificateDer<'static> {
        &self.certificate
    }

    /// A certificate for the desk under these names and addresses, from `now` (seconds since 1970) on, with its key.
    ///
    /// # Errors
    /// If it cannot be made.
    pub fn sign(
        &self,
        names: &[String],
        now: i64,
    ) -> Result<(Vec<CertificateDer<'static>>, PrivateKeyDer<'static>), Failure> {
        let key = KeyPair::generate_for(&PKCS_ECDSA_P256_SHA256).map_err(unmade)?;
        let mut leaf = CertificateParams::new(names.to_vec()).map_err(unmade)?;
        leaf.distinguished_name = DistinguishedName::new();
        let first = names.first().map_or("desk", String::as_str);
        leaf.distinguished_name.push(DnType::CommonName, first);
        leaf.key_usages = vec![KeyUsagePurpose::DigitalSignature];
        leaf.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
        leaf.use_authority_key_identifier_extension = true;
        leaf.not_before = moment(now - EARLIER)?;
        leaf.not_after = moment(now + LEAF_DAYS * 86_400)?;
        let made = leaf.signed_by(&key, &self.issuer).map_err(unmade)?;
        let key = PrivatePkcs8KeyDer::from(key.serialize_der());
        // The authority goes with it, so that whoever looks at the line can hold its fingerprint against the printed one.
        Ok((vec![made.der().clone(), self.der().clone()], key.into()))
    }
}

/// What an authority is: it may sign certificates of the shop's network, none below another authority, and none that
/// a phone would take for a place outside.
fn params(name: &str, now: i64) -> Result<CertificateParams, Failure> {
    let mut params = CertificateParams::default();
    params.distinguished_name = DistinguishedName::new();
    params.distinguished_name.push(DnType::CommonName, name);
    params.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    params.key_usages = vec![KeyUsagePurpose::KeyCertSign, KeyUsagePurpose::CrlSign];
    params.not_before = moment(now - EARLIER)?;
    params.not_after = moment(now + AUTHORITY_DAYS * 86_400)?;
    let names = ENDINGS.map(|ending| GeneralSubtree::DnsName(ending.into()));
    let addresses = BLOCKS.map(|(address, bits)| {
        GeneralSubtree::IpAddress(CidrSubnet::from_addr_prefix(address.into(), bits))
    });
    params.name_constraints = Some(NameConstraints {
        permitted_subtrees: names
            .into_iter()
            .chain(addresses)
            .chain(BLOCKS_6.map(|(first, bits)| {
                let address =
                    std::net::Ipv6Addr::new(first, 0, 0, 0, 0, 0, 0, u16::from(bits == 128));
                GeneralSubtree::IpAddress(CidrSubnet::from_addr_prefix(address.into(), bits))
            }))
            .collect(),
        excluded_subtrees: Vec::new(),
    });
    Ok(params)
}

/// Private and local addresses: RFC 1918, RFC 3927 (link-local), RFC 1122 (this machine).
const BLOCKS: [([u8; 4], u8); 5] = [
    ([10, 0, 0, 0], 8),
    ([172, 16, 0, 0], 12),
    ([192, 168, 0, 0], 16),
    ([169, 254, 0, 0], 16),
    ([127, 0, 0, 0], 8),
];
/// The same of the longer addresses, by their first part: RFC 4193, RFC 4291 (link-local, this machine).
const BLOCKS_6: [(u16, u8); 3] = [(0xFC00, 7), (0xFE80, 10), (0, 128)];

/// Whether the shop's authority can vouch for a name or an address: it must be of a private network.
pub fn vouches_for(name: &str) -> bool {
    match name.parse::<IpAddr>() {
        Ok(IpAddr::V4(at)) => at.is_private() || at.is_link_local() || at.is_loopback(),
        Ok(IpAddr::V6(at)) => {
            at.is_loopback() || at.is_unique_local() || at.is_unicast_link_local()
        }
        Err(_) => {
            let name = name.to_ascii_lowercase();
            let known = |ending: &str| {
                let rest = name.strip_suffix(ending);
                rest.is_some_and(|rest| rest.is_empty() || rest.ends_with('.'))
            };
            let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '.';
            name.chars().all(plain) && ENDINGS.into_iter().any(known)
        }
    }
}

fn moment(seconds: i64) -> Result<OffsetDateTime, Failure> {
    OffsetDateTime::from_unix_timestamp(seconds).map_err(unmade)
}

fn unmade(why: impl std::fmt::Display) -> Failure {
    Failure::Machine(format!("A certificate could not be made: {why}."))
}

fn unreadable(why: impl std::fmt::Display) -> Failure {
    Failure::Machine(format!(
        "The shop's certificate authority in the keys beside the book does not read ({why}). Restore the keys from a backup; or take the keys \
         away, and a new authority is made, which every phone must then be given anew."
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_vouches_for_the_shops_network_and_for_no_place_outside() {
        for name in [
            "shop.test",
            "Bench.LOCAL",
            "desk.shop.lan",
            "a.home.arpa",
            "localhost",
            "192.168.1.20",
            "10.0.0.3",
            "172.31.0.1",
            "127.0.0.2",
            "fd00::1",
            "fe80::1",
            "::1",
        ] {
            assert!(vouches_for(name), "{name}");
        }
        for name in [
            "example.com",
            "local.example.com",
            "nolocal",
            "shop",
            "8.8.8.8",
            "172.32.0.1",
            "2001:db8::1",
            "bench local",
            "",
        ] {
            assert!(!vouches_for(name), "{name}");
        }
    }
}
