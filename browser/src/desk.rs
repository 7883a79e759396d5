//! The built program, served as a shop serves it, and asked over plain HTTP.

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

/// A served book, stopped and taken away at the end.
#[derive(Debug)]
pub struct Desk {
    group: Group,
    /// Host and port.
    pub at: String,
    /// The path that signs its first reader in, once.
    pub link: String,
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
        let (group, at, link) = serve(&folder, "Ada Quill")?;
        Ok(Desk {
            group,
            at,
            link,
            folder,
            cookie: String::new(),
        })
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
        format!("http://{}{path}", self.at)
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

    /// Memory the program holds now, in kB, where the machine tells it.
    pub fn resident_kb(&self) -> Option<u64> {
        let text = std::fs::read_to_string(format!("/proc/{}/status", self.group.id())).ok()?;
        let fields: HashMap<_, _> = text.lines().filter_map(|l| l.split_once(':')).collect();
        fields.get("VmRSS")?.split_whitespace().next()?.parse().ok()
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

/// Serves the folder's book on a free port; gives host and port, and the path of the link.
fn serve(folder: &Folder, by: &str) -> Result<(Group, String, String), Wrong> {
    let mut serving = command(folder, by)?;
    serving
        .args(["serve", "--port", "0"])
        .stdout(Stdio::piped())
        .stderr(Stdio::null());
    let mut group = Group::start(&mut serving)?;
    let line = group.line("/in/")?;
    let (at, link) = line
        .split_once("http://")
        .and_then(|(_, url)| url.split_once('/'))
        .ok_or_else(|| format!("The program's line has no address: {line}"))?;
    let link = link.split_whitespace().next().unwrap_or_default();
    Ok((group, at.to_string(), format!("/{link}")))
}
