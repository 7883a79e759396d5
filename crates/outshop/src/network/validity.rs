//! From when to when a certificate is good, read out of its bytes.
//!
//! Source: RFC 5280, section 4.1 (the order of what stands in a certificate) and 4.1.2.5 (validity: UTCTime through
//! 2049, GeneralizedTime after, both to the second and in Z); the bytes by ITU-T X.690, the distinguished encoding rules.

use jiff::civil::DateTime;
use jiff::tz::TimeZone;

const SEQUENCE: u8 = 0x30;
const UTC_TIME: u8 = 0x17;
const GENERALIZED_TIME: u8 = 0x18;
const VERSION: u8 = 0xA0;

/// First and last second, since 1970; none if the bytes are no certificate.
pub fn validity(certificate: &[u8]) -> Option<(i64, i64)> {
    let (_, certificate, _) = next(certificate).filter(|(tag, ..)| *tag == SEQUENCE)?;
    let (_, mut rest, _) = next(certificate).filter(|(tag, ..)| *tag == SEQUENCE)?;
    // Version (which the oldest leave out), serial number, algorithm, issuer, validity.
    let mut before = 3;
    while before > 0 {
        let (tag, _, after) = next(rest)?;
        if tag != VERSION {
            before -= 1;
        }
        rest = after;
    }
    let (_, validity, _) = next(rest).filter(|(tag, ..)| *tag == SEQUENCE)?;
    let (tag, from, rest) = next(validity)?;
    let from = seconds(tag, from)?;
    let (tag, through, _) = next(rest)?;
    Some((from, seconds(tag, through)?))
}

/// Tag and inside of what stands first, and what follows it.
fn next(bytes: &[u8]) -> Option<(u8, &[u8], &[u8])> {
    let (tag, rest) = bytes.split_first()?;
    let (first, mut rest) = rest.split_first()?;
    let mut length = usize::from(*first);
    if length >= 0x80 {
        // The figure says how many bytes of length follow; four hold more than any certificate.
        let (bytes, after) = rest.split_at_checked(length - 0x80)?;
        if bytes.len() > 4 {
            return None;
        }
        length = bytes
            .iter()
            .fold(0, |all, byte| all << 8 | usize::from(*byte));
        rest = after;
    }
    let (inside, after) = rest.split_at_checked(length)?;
    Some((*tag, inside, after))
}

fn seconds(tag: u8, text: &[u8]) -> Option<i64> {
    let text = std::str::from_utf8(text).ok()?.strip_suffix('Z')?;
    let whole = match tag {
        // Two figures of the year: 50 to 99 are of the last century.
        UTC_TIME if text.get(..2)? >= "50" => format!("19{text}"),
        UTC_TIME => format!("20{text}"),
        GENERALIZED_TIME => text.to_string(),
        _ => return None,
    };
    let at = DateTime::strptime("%Y%m%d%H%M%S", whole).ok()?;
    Some(
        TimeZone::UTC
            .to_ambiguous_timestamp(at)
            .compatible()
            .ok()?
            .as_second(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Independent: rcgen 0.14 writes what is read here, on both sides of the turn to four figures of the year.
    #[test]
    fn what_another_library_wrote_is_read_to_the_second() {
        for (from, through) in [
            (1_782_000_000, 1_789_776_000),
            (2_524_607_999, 2_524_608_000),
        ] {
            let moment = |at| time::OffsetDateTime::from_unix_timestamp(at).unwrap();
            let key = rcgen::KeyPair::generate().unwrap();
            let mut params = rcgen::CertificateParams::new(vec!["shop.test".into()]).unwrap();
            (params.not_before, params.not_after) = (moment(from), moment(through));
            let made = params.self_signed(&key).unwrap();
            assert_eq!(validity(made.der()), Some((from, through)));
            for end in 0..made.der().len() {
                // Cut short anywhere, it is no certificate, and nothing breaks.
                let _ = validity(&made.der()[..end]);
            }
            assert_eq!(validity(&made.der()[..60]), None);
        }
        assert_eq!(validity(b""), None);
        assert_eq!(validity(&[0x30, 0x84, 0xFF, 0xFF, 0xFF, 0xFF]), None);
        assert_eq!(validity(&[0x30, 0xFF]), None);
    }
}
