//! Pages over https, with the shop's own authority or a supplied certificate. Only loopback is ever spoken to.
//!
//! Independent: what the program shows is held by rustls-webpki, which verifies chains, names and name constraints by
//! RFC 5280; nothing of ours decides whether a certificate is good.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Stdio};
use std::sync::Arc;

use rustls::pki_types::{CertificateDer, ServerName, pem::PemObject};
use sha2::{Digest, Sha256};

use crate::run::Folder;

/// A desk served by https on an address of this machine's own; stopped at the end.
struct Desk {
    child: Child,
    port: u16,
    link: String,
    fingerprint: String,
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

const PLACE: &str = "127.0.0.2";

fn serve(folder: &Folder, more: &[&str]) -> Desk {
    let words = [
        &[
            "serve",
            "--port",
            "0",
            "--listen",
            PLACE,
            "--name",
            "shop.test",
        ],
        more,
    ]
    .concat();
    let mut child = folder
        .command(&words)
        .env_remove("OUTSHOP_NOW")
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap())
        .lines()
        .map(Result::unwrap);
    let served = lines
        .find(|line| line.contains("Served at https://shop.test:"))
        .unwrap();
    let port = served.split("shop.test:").nth(1).unwrap();
    let port = port.split(' ').next().unwrap().parse().unwrap();
    let link = lines.next().unwrap();
    let link = link[link.find("/in/").unwrap()..].to_string();
    let next = lines.next().unwrap();
    let fingerprint = if next.contains("SHA-256") {
        lines.next().unwrap().trim().to_string()
    } else {
        String::new()
    };
    std::thread::spawn(move || lines.for_each(drop));
    Desk {
        child,
        port,
        link,
        fingerprint,
    }
}

/// What is said without https.
fn plain(desk: &Desk, path: &str) -> String {
    let mut line = TcpStream::connect((PLACE, desk.port)).unwrap();
    write!(
        line,
        "GET {path} HTTP/1.1\r\nHost: shop.test:{}\r\n\r\n",
        desk.port
    )
    .unwrap();
    let mut all = String::new();
    line.read_to_string(&mut all).unwrap();
    all
}

/// Asks over https, as one who trusts only this certificate and looks for this name.
fn ask(
    desk: &Desk,
    root: &CertificateDer<'static>,
    name: &str,
    request: &str,
) -> Result<String, String> {
    let mut roots = rustls::RootCertStore::empty();
    roots.add(root.clone()).unwrap();
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let config = rustls::ClientConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    let name = ServerName::try_from(name.to_string()).unwrap();
    let client = rustls::ClientConnection::new(Arc::new(config), name).unwrap();
    let line = TcpStream::connect((PLACE, desk.port)).unwrap();
    let mut line = rustls::StreamOwned::new(client, line);
    line.write_all(request.as_bytes())
        .map_err(|e| e.to_string())?;
    let mut all = Vec::new();
    // The desk hangs up without a farewell when it was asked to close; what came before stands.
    let _ = line.read_to_end(&mut all);
    Ok(String::from_utf8_lossy(&all).into_owned())
}

fn get(desk: &Desk, path: &str) -> String {
    format!(
        "GET {path} HTTP/1.1\r\nHost: shop.test:{}\r\nConnection: close\r\n\r\n",
        desk.port
    )
}

fn post(desk: &Desk, path: &str, origin: &str) -> String {
    format!(
        "POST {path} HTTP/1.1\r\nHost: shop.test:{}\r\nOrigin: {origin}\r\nContent-Length: 0\r\nConnection: close\r\n\r\n",
        desk.port
    )
}

fn authority(desk: &Desk) -> CertificateDer<'static> {
    let answer = plain(desk, "/authority.crt");
    let (head, body) = answer.split_once("\r\n\r\n").unwrap();
    assert!(head.contains("application/x-x509-ca-cert"), "{head}");
    CertificateDer::from_pem_slice(body.as_bytes()).unwrap()
}

#[test]
fn the_shops_own_authority_is_enough_for_a_phone_and_for_no_other_name() {
    let folder = Folder::shop("https");
    let desk = serve(&folder, &[]);
    let root = authority(&desk);
    let pairs: Vec<_> = Sha256::digest(&root)
        .iter()
        .map(|b| format!("{b:02X}"))
        .collect();
    assert_eq!(desk.fingerprint, pairs.join(" "));
    // Who trusts it and looks for the name it was served under gets pages; strict as ever, and without HSTS.
    let page = ask(&desk, &root, "shop.test", &get(&desk, "/in")).unwrap();
    assert!(page.starts_with("HTTP/1.1 200"), "{page}");
    assert!(
        page.contains("content-security-policy")
            && !page.to_lowercase().contains("strict-transport")
    );
    assert!(
        ask(&desk, &root, PLACE, &get(&desk, "/in"))
            .unwrap()
            .starts_with("HTTP/1.1 200")
    );
    // Another name, or another shop's authority, is no way in.
    let no = ask(&desk, &root, "other.test", &get(&desk, "/in")).unwrap_err();
    assert!(no.contains("not valid for name"), "{no}");
    let elsewhere = Folder::shop("https-other");
    let other = serve(&elsewhere, &[]);
    let no = ask(&desk, &authority(&other), "shop.test", &get(&desk, "/in")).unwrap_err();
    assert!(no.contains("certificate"), "{no}");
    // A session's cookie is for https alone; acts from the desk's own pages are taken, from elsewhere not.
    let origin = format!("https://shop.test:{}", desk.port);
    let no = ask(
        &desk,
        &root,
        "shop.test",
        &post(&desk, &desk.link, "https://elsewhere.test"),
    )
    .unwrap();
    assert!(no.starts_with("HTTP/1.1 403"), "{no}");
    let come = ask(&desk, &root, "shop.test", &post(&desk, &desk.link, &origin)).unwrap();
    assert!(
        come.starts_with("HTTP/1.1 303") && come.contains("; Secure"),
        "{come}"
    );
    // Without https: where to go, and nothing of the book.
    let way = plain(&desk, "/");
    assert!(
        way.starts_with("HTTP/1.1 426") && way.contains(&origin),
        "{way}"
    );
    assert!(!way.contains("Juniper"), "{way}");
    // The authority is the same when the desk is served again, and its key is in no book.
    drop(desk);
    let again = serve(&folder, &[]);
    assert_eq!(authority(&again), root);
    let book = std::fs::read(folder.file("shop.book")).unwrap();
    assert!(!book.windows(11).any(|w| w == b"PRIVATE KEY"));
    assert!(
        std::fs::read(folder.file("shop.book.keys"))
            .unwrap()
            .windows(11)
            .any(|w| w == b"PRIVATE KEY")
    );
}

/// Certificates that somebody else made: one that fits, one that ended, one of another name, one with another's key.
#[test]
fn a_supplied_certificate_is_held_against_its_name_its_key_and_the_day() {
    let folder = Folder::shop("supplied");
    let made = |file: &str, name: &str, from: i32, through: i32| {
        let key = rcgen::KeyPair::generate().unwrap();
        let mut params = rcgen::CertificateParams::new(vec![name.into()]).unwrap();
        params.not_before = rcgen::date_time_ymd(from, 1, 1);
        params.not_after = rcgen::date_time_ymd(through, 1, 1);
        let made = params.self_signed(&key).unwrap();
        std::fs::write(folder.file(&format!("{file}.crt")), made.pem()).unwrap();
        std::fs::write(folder.file(&format!("{file}.key")), key.serialize_pem()).unwrap();
        made.der().clone()
    };
    let good = made("good", "shop.test", 2020, 2090);
    made("old", "shop.test", 2020, 2021);
    made("early", "shop.test", 2090, 2095);
    made("other", "elsewhere.test", 2020, 2090);
    let desk = serve(&folder, &["--certificate", "good.crt", "--key", "good.key"]);
    let page = ask(&desk, &good, "shop.test", &get(&desk, "/in")).unwrap();
    assert!(page.starts_with("HTTP/1.1 200"), "{page}");
    assert!(
        plain(&desk, "/authority.crt").starts_with("HTTP/1.1 426"),
        "the shop's own is not in use"
    );
    drop(desk);
    std::fs::write(folder.file("bad.crt"), "no certificate").unwrap();
    for (certificate, key, said) in [
        ("old.crt", "old.key", "ended on 2021-01-01"),
        (
            "early.crt",
            "early.key",
            "Is the clock of this machine right?",
        ),
        ("other.crt", "other.key", "is not made out to `shop.test`"),
        ("good.crt", "other.key", "is not that of the certificate"),
        ("bad.crt", "good.key", "bad.crt"),
        ("none.crt", "good.key", "none.crt"),
        ("good.crt", "none.key", "none.key"),
    ] {
        let words = [
            "serve",
            "--port",
            "0",
            "--name",
            "shop.test",
            "--certificate",
            certificate,
            "--key",
            key,
        ];
        let no = folder.run(&words);
        let told = String::from_utf8_lossy(&no.stderr).into_owned();
        assert_eq!(no.status.code(), Some(2), "{certificate}: {told}");
        assert!(told.contains(said), "{certificate}: {told}");
    }
    for (words, said) in [
        (&["serve", "--certificate", "good.crt"][..], "needs its key"),
        (
            &["serve", "--certificate", "good.crt", "--key", "good.key"],
            "give it with --name",
        ),
        (
            &["serve", "--https", "--name", "example.com"],
            "`example.com` is neither",
        ),
        (&["serve", "--listen", "0.0.0.0"], "under which name"),
    ] {
        let no = folder.run(words);
        let told = String::from_utf8_lossy(&no.stderr).into_owned();
        assert_eq!(no.status.code(), Some(2), "{words:?}: {told}");
        assert!(
            told.contains(said) && told.contains("Nothing was served"),
            "{words:?}: {told}"
        );
    }
    // The page for phones.
    folder.done(&["print", "phones", "--out", "phones.pdf"]);
    assert!(
        std::fs::read(folder.file("phones.pdf"))
            .unwrap()
            .starts_with(b"%PDF-1.7")
    );
}
