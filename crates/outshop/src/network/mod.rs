//! The shop's own network: a certificate authority of the shop, and pages over https.
//!
//! A phone gives a page its camera and keeps its own store only where the page came over https. So each shop has an
//! authority of its own, made with the book; its key lies in the keys beside the book and never in the book.

mod authority;
mod certificate;
mod secure;
mod validity;

pub use authority::{Authority, RENEW_AFTER, vouches_for};
pub use certificate::{Certificates, Supplied, fingerprint};
pub use secure::Secure;
