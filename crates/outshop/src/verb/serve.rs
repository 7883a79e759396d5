//! `serve`: the local pages of a book, on this machine only.

use std::future::IntoFuture;
use std::net::{Ipv4Addr, SocketAddr};
use std::time::Duration;

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use tokio::signal::unix::{Signal, SignalKind, signal};

use crate::web::{Desk, one_time_link, router};
use crate::{Answer, Clock, Context, Failure};

/// Serve the book's pages on this machine.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Serve {
    /// The port; 0 takes any that is free.
    #[arg(long, default_value_t = PORT)]
    #[serde(default = "port")]
    pub port: u16,
}

/// The port where none is given.
pub const PORT: u16 = 4914;

/// [`PORT`], where a request of JSON leaves it out.
pub fn port() -> u16 {
    PORT
}

impl Serve {
    /// Serves until told to stop.
    ///
    /// # Errors
    /// If the book does not open or the port is taken.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        serve(context, self.port, "", "")
    }
}

/// Serves a book until Ctrl-C or a request to end. First it prints `before`, the address, a one-time
/// link for whoever speaks, and `after`.
///
/// # Errors
/// If the book does not open or the port is taken.
pub fn serve(
    context: &mut Context,
    port: u16,
    before: &str,
    after: &str,
) -> Result<Answer, Failure> {
    let book = context.book()?;
    let path = context.path()?;
    let name = match context.by() {
        Ok(name) => name.to_string(),
        Err(_) => officer(&book)?,
    };
    // Every thread that answers keeps memory of its own for ever after: two answer as fast as a shop's machine can, and a
    // third page waits for a few thousandths of a second.
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .max_blocking_threads(2)
        .enable_all()
        .build()
        .map_err(|e| Failure::Machine(format!("The pages cannot be served: {e}.")))?;
    runtime.block_on(async {
        let address = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
        let listener = tokio::net::TcpListener::bind(address).await.map_err(|e| {
            Failure::Machine(format!("Port {port} of this machine cannot be listened on: {e}. Give another with --port; 0 takes any that is free."))
        })?;
        let at = listener.local_addr().map_err(|e| Failure::Machine(e.to_string()))?;
        // Heard from here on, before anybody is told that there is something to stop.
        let mut end = End::listen()?;
        let now = Clock::Machine.read("UTC")?.0.as_second();
        let link = one_time_link(context, &name, now)?;
        say(&format!(
            "{before}Served at http://{at} on this machine only.\nSign in as {name}, once and within the hour: http://{at}{link}\n{after}Stop with Ctrl-C.\n"
        ));
        let (told, hears) = tokio::sync::oneshot::channel::<()>();
        let pages = axum::serve(listener, router(Desk::of(path, None))).with_graceful_shutdown(async {
            let _ = hears.await;
        });
        let mut pages = tokio::spawn(pages.into_future());
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
fn officer(book: &shop::book::Book) -> Result<String, Failure> {
    let mut officers: Vec<_> = book
        .persons
        .values()
        .filter(|p| p.may.contains(&shop::book::Authority::Approve))
        .map(|p| p.name.clone())
        .collect();
    officers.sort();
    officers
        .into_iter()
        .next()
        .ok_or_else(|| Failure::Input("Nobody in this book may approve; give --by NAME.".into()))
}

fn say(text: &str) {
    use std::io::Write;
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}
