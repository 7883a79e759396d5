//! `serve`: the pages of a book, on this machine only or, by https, in the shop's network.

use std::future::IntoFuture;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use clap::Args;
use rustls::server::ResolvesServerCert;
use rustls::sign::SingleCertAndKey;
use serde::Deserialize;
use serde_json::json;
use store::Keys;
use tokio::signal::unix::{Signal, SignalKind, signal};
use tokio_rustls::TlsAcceptor;

use crate::network::{Authority, Certificates, Secure, Supplied, fingerprint, vouches_for};
use crate::web::{Desk, one_time_link, router};
use crate::words::network as say;
use crate::{Answer, Clock, Context, Failure};

/// Serve the book's pages, on this machine only until told otherwise.
///
/// Beyond this machine the pages go by https alone. The certificate is the shop's own, which phones are given once
/// (`outshop print phones`), or one that is supplied.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Serve {
    /// The port; 0 takes any that is free.
    #[arg(long, default_value_t = PORT)]
    #[serde(default = "port")]
    pub port: u16,
    /// Serve by https on this machine too.
    #[arg(long)]
    #[serde(default)]
    pub https: bool,
    /// The address to listen on: this machine's own in the shop's network, or 0.0.0.0 for every one. By https.
    #[arg(long, value_name = "ADDRESS", default_value_t = HERE)]
    #[serde(default = "here")]
    pub listen: IpAddr,
    /// The name or address under which phones come, such as book.local. May be given again. By https.
    #[arg(long = "name", value_name = "NAME")]
    #[serde(default)]
    pub names: Vec<String>,
    /// A supplied certificate in PEM, with those above it, in the place of the shop's own.
    #[arg(long, value_name = "FILE")]
    #[serde(default)]
    pub certificate: Option<PathBuf>,
    /// Its private key, in PEM.
    #[arg(long, value_name = "FILE")]
    #[serde(default)]
    pub key: Option<PathBuf>,
}

/// The port where none is given.
pub const PORT: u16 = 4914;
/// The address where none is given: this machine only.
const HERE: IpAddr = IpAddr::V4(Ipv4Addr::LOCALHOST);

/// [`PORT`], where a request of JSON leaves it out.
pub fn port() -> u16 {
    PORT
}

fn here() -> IpAddr {
    HERE
}

impl Serve {
    /// On this machine only, without https.
    pub fn here(port: u16) -> Serve {
        Serve {
            port,
            https: false,
            listen: HERE,
            names: Vec::new(),
            certificate: None,
            key: None,
        }
    }

    /// Serves until told to stop.
    ///
    /// # Errors
    /// If the book does not open, the port is taken, or a certificate does not fit.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        serve(context, self, "", "")
    }

    /// What is shown to whoever connects; none without https.
    fn secured(&self, context: &mut Context) -> Result<Option<Secured>, Failure> {
        let supplied = match (&self.certificate, &self.key) {
            (None, None) => None,
            (Some(certificate), Some(key)) => Some(Supplied {
                certificate: certificate.clone(),
                key: key.clone(),
            }),
            _ => return Err(Failure::Input(say::BOTH.into())),
        };
        let here = self.listen.is_loopback() && self.names.is_empty() && supplied.is_none();
        if here && !self.https {
            return Ok(None);
        }
        // Phones hold certificates against their own clocks, so the machine's is asked, whatever day the book holds.
        let now = Clock::Machine.read("UTC")?.0.as_second();
        let mut names = self.names.clone();
        if names.is_empty() && self.listen.is_unspecified() {
            return Err(Failure::Input(say::WHICH_NAME.into()));
        }
        if let Some(supplied) = supplied {
            if names.is_empty() {
                return Err(Failure::Input(say::NAME_IT.into()));
            }
            let key = supplied.read(&names, now)?;
            let shows: Arc<dyn ResolvesServerCert> = Arc::new(SingleCertAndKey::from(key));
            return Ok(Some(Secured {
                shows,
                name: names.swap_remove(0),
                own: None,
            }));
        }
        if !self.listen.is_unspecified() {
            names.push(self.listen.to_string());
        }
        for also in ["localhost", "127.0.0.1"] {
            if !names.iter().any(|name| name == also) {
                names.push(also.into());
            }
        }
        if let Some(outside) = names.iter().find(|name| !vouches_for(name)) {
            return Err(Failure::Input(say::not_ours(outside)));
        }
        let authority = authority(context)?;
        let own = Own {
            pem: authority.pem().to_string(),
            fingerprint: fingerprint(authority.der()),
        };
        let name = names.first().cloned().unwrap_or_default();
        Ok(Some(Secured {
            shows: Arc::new(Certificates::of(authority, names, now)?),
            name,
            own: Some(own),
        }))
    }
}

/// What is needed to speak https.
struct Secured {
    shows: Arc<dyn ResolvesServerCert>,
    name: String,
    own: Option<Own>,
}

/// The shop's own certificate, as phones are given it.
struct Own {
    pem: String,
    fingerprint: String,
}

/// The shop's certificate authority, from the keys beside the book; made if there is none.
///
/// # Errors
/// If the book or its keys cannot be read or written.
pub fn authority(context: &mut Context) -> Result<Authority, Failure> {
    let shop = context.store()?.shop()?;
    let keys = Keys::beside(&context.path()?)?;
    let now = Clock::Machine.read("UTC")?.0.as_second();
    Authority::of(
        &keys,
        shop.as_ref().map_or("Shop", |s| s.name.as_str()),
        now,
    )
}

/// A host as it stands in an address: one of the longer kind in brackets.
fn host(name: &str) -> String {
    match name.parse::<IpAddr>() {
        Ok(IpAddr::V6(_)) => format!("[{name}]"),
        _ => name.to_string(),
    }
}

/// Serves a book until Ctrl-C or a request to end. First it prints `before`, the address, a one-time
/// link for whoever speaks, and `after`.
///
/// # Errors
/// If the book does not open, the port is taken, or a certificate does not fit.
pub fn serve(
    context: &mut Context,
    how: &Serve,
    before: &str,
    after: &str,
) -> Result<Answer, Failure> {
    let book = context.book()?;
    let path = context.path()?;
    let name = match context.by() {
        Ok(name) => name.to_string(),
        Err(_) => officer(&book, context.on()?)?,
    };
    let secured = how.secured(context)?;
    let port = how.port;
    // Every thread that answers keeps memory of its own for ever after: two answer as fast as a shop's machine can, and a
    // third page waits for a few thousandths of a second.
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .max_blocking_threads(2)
        .enable_all()
        .build()
        .map_err(|e| Failure::Machine(format!("The pages cannot be served: {e}.")))?;
    runtime.block_on(async {
        let address = SocketAddr::from((how.listen, port));
        let listener = tokio::net::TcpListener::bind(address).await.map_err(|e| {
            let place = if how.listen.is_loopback() { "of this machine".into() } else { format!("of {}", how.listen) };
            Failure::Machine(format!("Port {port} {place} cannot be listened on: {e}. Give another with --port; 0 takes any that is free."))
        })?;
        let at = listener.local_addr().map_err(|e| Failure::Machine(e.to_string()))?;
        // Heard from here on, before anybody is told that there is something to stop.
        let mut end = End::listen()?;
        let now = Clock::Machine.read("UTC")?.0.as_second();
        let link = one_time_link(context, &name, now)?;
        let url = match &secured {
            Some(secured) => {
                let place = format!("{}:{}", host(&secured.name), at.port());
                // The printed page for phones says where the desk is.
                Keys::beside(&path)?.set(DESK_AT, &place)?;
                format!("https://{place}")
            }
            None => format!("http://{at}"),
        };
        let own = secured.as_ref().and_then(|s| s.own.as_ref());
        let told = own.map_or(String::new(), |own| say::own_certificate(&own.fingerprint));
        print(&format!(
            "{before}{}\nSign in as {name}, once and within the hour: {url}{link}\n{told}{after}Stop with Ctrl-C.\n",
            say::served(&url, !how.listen.is_loopback())
        ));
        let (told, hears) = tokio::sync::oneshot::channel::<()>();
        let stop = async {
            let _ = hears.await;
        };
        let desk = Desk::of(path, None, secured.is_some());
        let mut pages = match secured {
            Some(secured) => {
                let acceptor = acceptor(secured.shows)?;
                let listener = Secure::on(listener, acceptor, secured.own.map(|own| own.pem))
                    .map_err(|e| Failure::Machine(e.to_string()))?;
                let pages = axum::serve(listener, router(desk)).with_graceful_shutdown(stop);
                tokio::spawn(pages.into_future())
            }
            None => {
                let pages = axum::serve(listener, router(desk)).with_graceful_shutdown(stop);
                tokio::spawn(pages.into_future())
            }
        };
        let ended = tokio::select! {
            ended = &mut pages => ended,
            () = end.asked() => {
                let _ = told.send(());
                // What is under way is finished; a browser that merely holds its line open is not waited for.
                match tokio::time::timeout(PATIENCE, &mut pages).await {
                    Ok(ended) => ended,
                    Err(_) => Ok(Ok(())),
                }
            }
        };
        match ended {
            Ok(Ok(())) => Ok(Answer::done("Stopped.\n", json!({ "served": at.to_string() }))),
            Ok(Err(e)) => Err(Failure::Machine(format!("The pages stopped: {e}."))),
            Err(e) => Err(Failure::Machine(format!("The pages stopped: {e}."))),
        }
    })
}

/// The setting beside the book that holds where the desk was last served by https.
pub const DESK_AT: &str = "desk-at";

fn acceptor(shows: Arc<dyn ResolvesServerCert>) -> Result<TlsAcceptor, Failure> {
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let mut config = rustls::ServerConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .map_err(|e| Failure::Machine(format!("https cannot be spoken: {e}.")))?
        .with_no_client_auth()
        .with_cert_resolver(shows);
    config.alpn_protocols = vec![b"http/1.1".to_vec()];
    Ok(TlsAcceptor::from(Arc::new(config)))
}

/// How long what is under way may take after the program was asked to end.
const PATIENCE: Duration = Duration::from_secs(3);

/// The two ways in which a program is asked to end.
struct End {
    keyboard: Signal,
    machine: Signal,
}

impl End {
    fn listen() -> Result<End, Failure> {
        let of = |kind| {
            signal(kind).map_err(|e| {
                Failure::Machine(format!("The program cannot hear when it is to stop: {e}."))
            })
        };
        Ok(End {
            keyboard: of(SignalKind::interrupt())?,
            machine: of(SignalKind::terminate())?,
        })
    }

    async fn asked(&mut self) {
        tokio::select! {
            _ = self.keyboard.recv() => {}
            _ = self.machine.recv() => {}
        }
    }
}

/// The first officer of the book, for a link when nobody is named.
fn officer(book: &shop::book::Book, on: jiff::civil::Date) -> Result<String, Failure> {
    let mut officers: Vec<_> = book
        .persons
        .values()
        .filter(|p| p.holds(shop::book::Authority::Approve, on))
        .map(|p| p.name.clone())
        .collect();
    officers.sort();
    officers
        .into_iter()
        .next()
        .ok_or_else(|| Failure::Input("Nobody in this book may approve; give --by NAME.".into()))
}

fn print(text: &str) {
    use std::io::Write;
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}
