//! Listens for https. Who comes without it is told where to go, and can fetch the shop's certificate.

use std::io;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::mpsc;
use tokio_rustls::TlsAcceptor;
use tokio_rustls::server::TlsStream;

use crate::words::network as say;

/// How long somebody may take to begin: a line that is held open and never used must not add up.
const PATIENCE: Duration = Duration::from_secs(10);
/// How many may be beginning at once.
const AT_ONCE: usize = 64;
/// Bytes of a head without https that are read at most.
const MOST_HEAD: usize = 8192;
/// The first byte of a TLS record that begins a handshake (RFC 8446, section 5.1: content type 22).
const HANDSHAKE: u8 = 0x16;

/// A listener that hands over lines on which https has begun.
pub struct Secure {
    begun: mpsc::Receiver<(TlsStream<TcpStream>, SocketAddr)>,
    at: SocketAddr,
}

impl Secure {
    /// Listens on; `certificate` is what is handed to whoever comes without https, where the shop has one of its own.
    ///
    /// # Errors
    /// If the machine does not say where it listens.
    pub fn on(
        listener: TcpListener,
        acceptor: TlsAcceptor,
        certificate: Option<String>,
    ) -> io::Result<Secure> {
        let at = listener.local_addr()?;
        let (give, begun) = mpsc::channel(16);
        let certificate = Arc::new(certificate);
        tokio::spawn(async move {
            let room = Arc::new(tokio::sync::Semaphore::new(AT_ONCE));
            loop {
                let Ok(place) = room.clone().acquire_owned().await else {
                    return;
                };
                let (line, from) = match listener.accept().await {
                    Ok(come) => come,
                    // Out of file handles, or a line broken at once: others are still to be heard.
                    Err(_) => {
                        tokio::time::sleep(Duration::from_millis(50)).await;
                        continue;
                    }
                };
                let (give, acceptor, certificate) =
                    (give.clone(), acceptor.clone(), certificate.clone());
                tokio::spawn(async move {
                    let begun = tokio::time::timeout(PATIENCE, begin(line, acceptor, &certificate));
                    if let Ok(Some(line)) = begun.await {
                        let _ = give.send((line, from)).await;
                    }
                    drop(place);
                });
            }
        });
        Ok(Secure { begun, at })
    }
}

async fn begin(
    mut line: TcpStream,
    acceptor: TlsAcceptor,
    certificate: &Option<String>,
) -> Option<TlsStream<TcpStream>> {
    let mut first = [0; 1];
    if line.peek(&mut first).await.ok()? == 0 {
        return None;
    }
    if first == [HANDSHAKE] {
        return acceptor.accept(line).await.ok();
    }
    let mut head = Vec::new();
    let mut piece = [0; 512];
    // A head comes in pieces; whoever hangs up before it is read would break the line under the answer.
    while !head.windows(4).any(|end| end == b"\r\n\r\n") && head.len() < MOST_HEAD {
        match line.read(&mut piece).await.ok()? {
            0 => break,
            read => head.extend_from_slice(piece.get(..read)?),
        }
    }
    let answer = without(&String::from_utf8_lossy(&head), certificate.as_deref());
    let _ = line.write_all(answer.as_bytes()).await;
    let _ = line.shutdown().await;
    None
}

/// What is said to whoever comes without https: the certificate, which is no secret, or where to go.
fn without(head: &str, certificate: Option<&str>) -> String {
    let path = head.split(' ').nth(1).unwrap_or("/");
    let host = head
        .lines()
        .find_map(|line| {
            line.to_ascii_lowercase()
                .starts_with("host:")
                .then(|| line.get(5..))
        })
        .flatten()
        .map(str::trim)
        .filter(|host| {
            let plain = |c: char| c.is_ascii_alphanumeric() || ".-:[]".contains(c);
            !host.is_empty() && host.chars().all(plain)
        });
    let reply = |status: &str, kind: &str, more: &str, body: &str| {
        format!(
            "HTTP/1.1 {status}\r\ncontent-type: {kind}\r\ncontent-length: {}\r\n{more}cache-control: no-store\r\n\
             x-content-type-options: nosniff\r\ncontent-security-policy: default-src 'none'; frame-ancestors 'none'\r\nconnection: close\r\n\r\n{body}",
            body.len()
        )
    };
    match (path, certificate) {
        (say::CERTIFICATE_PATH, Some(certificate)) => reply(
            "200 OK",
            "application/x-x509-ca-cert",
            "content-disposition: attachment; filename=\"shop.crt\"\r\n",
            certificate,
        ),
        _ => reply(
            "426 Upgrade Required",
            "text/html; charset=utf-8",
            "upgrade: TLS/1.2\r\n",
            &say::come_by_https(host, certificate.is_some()),
        ),
    }
}

impl axum::serve::Listener for Secure {
    type Io = TlsStream<TcpStream>;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Self::Io, Self::Addr) {
        match self.begun.recv().await {
            Some(begun) => begun,
            // Whoever listens is gone with the program.
            None => std::future::pending().await,
        }
    }

    fn local_addr(&self) -> io::Result<Self::Addr> {
        Ok(self.at)
    }
}

#[cfg(test)]
mod tests {
    use super::without;

    #[test]
    fn who_comes_without_https_gets_the_certificate_and_the_way_and_nothing_else() {
        let certificate = without(
            "GET /authority.crt HTTP/1.1\r\nHost: shop.test:4914\r\n\r\n",
            Some("PEM"),
        );
        assert!(
            certificate.starts_with("HTTP/1.1 200 OK\r\ncontent-type: application/x-x509-ca-cert")
        );
        assert!(certificate.ends_with("\r\n\r\nPEM"));
        let way = without(
            "GET /engine/14 HTTP/1.1\r\nHost: shop.test:4914\r\n\r\n",
            Some("PEM"),
        );
        assert!(way.starts_with("HTTP/1.1 426 "), "{way}");
        assert!(
            way.contains("href=\"https://shop.test:4914/\"") && !way.contains("engine"),
            "{way}"
        );
        // A host that is no host is not repeated.
        let odd = without("GET / HTTP/1.1\r\nHost: \"><b>\r\n\r\n", None);
        assert!(
            !odd.contains("<b>") && !odd.contains("authority.crt"),
            "{odd}"
        );
        assert!(without("", None).starts_with("HTTP/1.1 426 "));
    }
}
