//! `serve`: the local pages of a book, on this machine only.

use std::net::{Ipv4Addr, SocketAddr};

use clap::Args;
use serde::Deserialize;
use serde_json::json;

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

const PORT: u16 = 4914;

fn port() -> u16 {
    PORT
}

impl Serve {
    /// Serves until told to stop.
    ///
    /// # Errors
    /// If the book does not open or the port is taken.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        serve(context, self.port, "")
    }
}

/// Serves a book, first printing `before`, the address and a one-time link for whoever speaks.
///
/// # Errors
/// If the book does not open or the port is taken.
pub fn serve(context: &mut Context, port: u16, before: &str) -> Result<Answer, Failure> {
    let book = context.book()?;
    let path = context.path()?;
    let name = match context.by() {
        Ok(name) => name.to_string(),
        Err(_) => officer(&book)?,
    };
    let now = Clock::Machine.read("UTC")?.0.as_second();
    let link = one_time_link(context, &name, now)?;
    let desk = Desk::of(path, None);
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .map_err(|e| Failure::Machine(format!("The pages cannot be served: {e}.")))?;
    runtime.block_on(async move {
        let address = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
        let listener = tokio::net::TcpListener::bind(address).await.map_err(|e| {
            Failure::Machine(format!("Port {port} of this machine cannot be listened on: {e}. Give another with --port."))
        })?;
        let at = listener.local_addr().map_err(|e| Failure::Machine(e.to_string()))?;
        say(&format!(
            "{before}Served at http://{at} on this machine only.\nSign in as {name}, once and within the hour: http://{at}{link}\nStop with Ctrl-C.\n"
        ));
        let stop = async {
            let _ = tokio::signal::ctrl_c().await;
        };
        axum::serve(listener, router(desk))
            .with_graceful_shutdown(stop)
            .await
            .map_err(|e| Failure::Machine(format!("The pages stopped: {e}.")))?;
        Ok(Answer::done("Stopped.\n", json!({ "served": at.to_string() })))
    })
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
