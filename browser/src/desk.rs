//! The built program, served as a shop serves it: on this machine and asked over plain HTTP, or over https as a phone in
//! the shop comes to it.

use std::collections::HashMap;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::time::Duration;

use crate::Wrong;
use crate::driver::{Folder, Group};

/// One answer over plain HTTP.
#[derive(Debug)]
pub struct Answer {
    /// Its status.
    pub status: u16,
    /// Its headers, one a line.
    pub head: String,
    /// Its body.
    pub body: String,
}

/// The name under which a desk is served by https: nobody's, and one that the shop's authority vouches for (RFC 2606).
const NAME: &str = "shop.test";
/// The address of this machine's own that it is served on.
const ADDRESS: &str = "127.0.0.2";

/// A served book, stopped and taken away at the end.
#[derive(Debug)]
pub struct Desk {
    group: Option<Group>,
    /// Host and port.
    pub at: String,
    /// The path that signs its first reader in, once.
    pub link: String,
    /// Whether it is served by https.
    secure: bool,
    folder: Folder,
    cookie: String,
}

/// The built program: `OUTSHOP_PROGRAM`, else beside the folder that cargo built this test in.
fn program() -> Result<PathBuf, Wrong> {
    if let Some(path) = std::env::var_os("OUTSHOP_PROGRAM") {
        return Ok(path.into());
    }
    let ours = std::env::current_exe().map_err(|why| format!("{why}."))?;
    ours.ancestors()
        .skip(1)
        .take(2)
        .map(|folder| folder.join("outshop"))
        .find(|path| path.is_file())
        .ok_or("The program is not built: `cargo build --release -p outshop` first, or run `cargo xtask test`.".into())
}

impl Desk {
    /// Makes the demonstration book and serves it.
    ///
    /// # Errors
    /// If it cannot be made or served.
    pub fn demonstration() -> Result<Desk, Wrong> {
        Desk::of(&[("Ada Quill", "2026-05-16T09:00", &["demo", "--no-serve"])])
    }

    /// Makes a book by verbs, each with who speaks and when, and serves it.
    ///
    /// # Errors
    /// If a verb fails, or the book cannot be served.
    pub fn of(verbs: &[(&str, &str, &[&str])]) -> Result<Desk, Wrong> {
        Desk::made(verbs, false)
    }

    /// The same, served by https under a name of the shop's network, with the shop's own authority.
    ///
    /// # Errors
    /// As [`Desk::of`].
    pub fn by_https(verbs: &[(&str, &str, &[&str])]) -> Result<Desk, Wrong> {
        Desk::made(verbs, true)
    }

    fn made(verbs: &[(&str, &str, &[&str])], secure: bool) -> Result<Desk, Wrong> {
        let folder = Folder::new("book")?;
        for (by, now, words) in verbs {
            let output = command(&folder, by)?
                .env("OUTSHOP_NOW", now)
                .args(*words)
                .output()
                .map_err(|why| format!("{words:?}: {why}."))?;
            if !output.status.success() {
                let said = String::from_utf8_lossy(&output.stderr).into_owned();
                return Err(format!("{words:?}: {said}"));
            }
        }
        let (group, at, link) = serve(&folder, "Ada Quill", secure, "0")?;
        Ok(Desk {
            group: Some(group),
            at,
            link,
            secure,
            folder,
            cookie: String::new(),
        })
    }

    /// Stops serving: what a phone meets without a signal.
    pub fn stops(&mut self) {
        self.group = None;
    }

    /// Serves again at the place where it was served before; gives the new one-time link.
    ///
    /// # Errors
    /// If it cannot be served there.
    pub fn serves_again(&mut self) -> Result<(), Wrong> {
        self.stops();
        let port = self.at.rsplit(':').next().unwrap_or_default().to_string();
        let (group, _, link) = serve(&self.folder, "Ada Quill", self.secure, &port)?;
        (self.group, self.link) = (Some(group), link);
        Ok(())
    }

    /// Does a verb as somebody, at the machine the book lies on.
    ///
    /// # Errors
    /// If it fails.
    pub fn does(&self, by: &str, words: &[&str]) -> Result<(), Wrong> {
        let output = command(&self.folder, by)?
            .args(words)
            .output()
            .map_err(|why| format!("{words:?}: {why}."))?;
        if output.status.success() {
            Ok(())
        } else {
            Err(String::from_utf8_lossy(&output.stderr).into_owned())
        }
    }

    /// The certificate of the shop's own authority, in PEM, as whoever comes without https is given it.
    ///
    /// # Errors
    /// If it is not given.
    pub fn authority(&self) -> Result<String, Wrong> {
        let port = self.at.rsplit(':').next().unwrap_or_default();
        let asked = || -> std::io::Result<String> {
            let mut line = TcpStream::connect(format!("{ADDRESS}:{port}"))?;
            line.set_read_timeout(Some(Duration::from_secs(20)))?;
            write!(
                line,
                "GET /authority.crt HTTP/1.1\r\nHost: {}\r\n\r\n",
                self.at
            )?;
            let mut answer = String::new();
            line.read_to_string(&mut answer)?;
            Ok(answer)
        };
        let answer = asked().map_err(|why| format!("/authority.crt: {why}."))?;
        let (_, pem) = answer
            .split_once("\r\n\r\n")
            .ok_or("No certificate came.")?;
        Ok(pem.to_string())
    }

    /// What a reading verb answers in JSON.
    ///
    /// # Errors
    /// If it gives none.
    pub fn json(&self, words: &[&str]) -> Result<serde_json::Value, Wrong> {
        let output = command(&self.folder, "Ada Quill")?
            .args(words)
            .arg("--json")
            .output()
            .map_err(|why| format!("{words:?}: {why}."))?;
        serde_json::from_slice(&output.stdout).map_err(|why| format!("{words:?}: {why}."))
    }

    /// The address of a path.
    pub fn url(&self, path: &str) -> String {
        let scheme = if self.secure { "https" } else { "http" };
        format!("{scheme}://{}{path}", self.at)
    }

    /// Signs in over plain HTTP by the one-time link; gives the session's cookie as name and value.
    ///
    /// # Errors
    /// If the link does not sign in.
    pub fn sign_in(&mut self) -> Result<(String, String), Wrong> {
        let answer = self.post(&self.link.clone(), "")?;
        let cookie = answer
            .head
            .lines()
            .find_map(|line| line.strip_prefix("set-cookie: "))
            .and_then(|line| line.split(';').next())
            .ok_or_else(|| format!("The link gave no session: {}.", answer.status))?;
        self.cookie = cookie.to_string();
        let (name, value) = cookie.split_once('=').ok_or("The cookie has no value.")?;
        Ok((name.to_string(), value.to_string()))
    }

    /// Asks for a page.
    ///
    /// # Errors
    /// If the program does not answer.
    pub fn get(&self, path: &str) -> Result<Answer, Wrong> {
        self.ask("GET", path, "")
    }

    /// Sends a form.
    ///
    /// # Errors
    /// If the program does not answer.
    pub fn post(&self, path: &str, body: &str) -> Result<Answer, Wrong> {
        self.ask("POST", path, body)
    }

    /// Asks for a paper in somebody's session; gives the bytes of a PDF that was handed out.
    ///
    /// # Errors
    /// If the program does not answer with one.
    pub fn paper(&self, path: &str, (name, value): &(String, String)) -> Result<Vec<u8>, Wrong> {
        let answer = self.asked("GET", path, &format!("{name}={value}"), "")?;
        let end = answer.windows(4).position(|four| four == b"\r\n\r\n");
        let (head, body) = answer.split_at(end.map_or(0, |end| end + 4));
        let head = String::from_utf8_lossy(head).to_lowercase();
        if head.starts_with("http/1.1 200") && head.contains("content-type: application/pdf") {
            Ok(body.to_vec())
        } else {
            Err(format!("GET {path} gave no PDF: {head}"))
        }
    }

    fn ask(&self, method: &str, path: &str, body: &str) -> Result<Answer, Wrong> {
        let answer = self.asked(method, path, &self.cookie, body)?;
        let answer = String::from_utf8_lossy(&answer);
        let (head, body) = answer
            .split_once("\r\n\r\n")
            .ok_or_else(|| format!("{method} {path}: no whole answer came."))?;
        let status = head
            .split(' ')
            .nth(1)
            .and_then(|word| word.parse().ok())
            .ok_or_else(|| format!("{method} {path}: the answer has no status."))?;
        Ok(Answer {
            status,
            head: head.replace("\r\n", "\n"),
            body: body.to_string(),
        })
    }

    /// What came over the wire.
    fn asked(&self, method: &str, path: &str, cookie: &str, body: &str) -> Result<Vec<u8>, Wrong> {
        let asked = || -> std::io::Result<Vec<u8>> {
            let mut stream = TcpStream::connect(&self.at)?;
            stream.set_read_timeout(Some(Duration::from_secs(20)))?;
            let text = format!(
                "{method} {path} HTTP/1.1\r\nHost: {at}\r\nOrigin: http://{at}\r\nConnection: close\r\nCookie: {cookie}\r\n\
                 Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
                body.len(),
                at = self.at
            );
            stream.write_all(text.as_bytes())?;
            let mut answer = Vec::new();
            stream.read_to_end(&mut answer)?;
            Ok(answer)
        };
        asked().map_err(|why| format!("{method} {path}: {why}."))
    }

    /// Memory the program holds now, in kB, where the machine tells it: what is its own, and that with the pages of its
    /// own file that happen to be mapped, which the machine takes back when it likes.
    pub fn memory_kb(&self) -> Option<(u64, u64)> {
        let text =
            std::fs::read_to_string(format!("/proc/{}/status", self.group.as_ref()?.id())).ok()?;
        let fields: HashMap<_, _> = text.lines().filter_map(|l| l.split_once(':')).collect();
        let kb =
            |name| -> Option<u64> { fields.get(name)?.split_whitespace().next()?.parse().ok() };
        Some((kb("RssAnon")?, kb("VmRSS")?))
    }
}

/// The program on the folder's book.
fn command(folder: &Folder, by: &str) -> Result<Command, Wrong> {
    let mut command = Command::new(program()?);
    command
        .current_dir(&folder.0)
        .env_clear()
        .env("OUTSHOP_BOOK", "shop.book")
        .env("OUTSHOP_BY", by);
    Ok(command)
}

/// Serves the folder's book on a port, 0 for a free one; gives host and port, and the path of the link.
fn serve(
    folder: &Folder,
    by: &str,
    secure: bool,
    port: &str,
) -> Result<(Group, String, String), Wrong> {
    let mut serving = command(folder, by)?;
    serving
        .args(["serve", "--port", port])
        .stdout(Stdio::piped())
        .stderr(Stdio::null());
    if secure {
        serving.args(["--listen", ADDRESS, "--name", NAME]);
    }
    let mut group = Group::start(&mut serving)?;
    let line = group.line("/in/")?;
    let (at, link) = line
        .split_once("://")
        .and_then(|(_, url)| url.split_once('/'))
        .ok_or_else(|| format!("The program's line has no address: {line}"))?;
    let link = link.split_whitespace().next().unwrap_or_default();
    Ok((group, at.to_string(), format!("/{link}")))
}
