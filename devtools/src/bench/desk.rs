//! Each kind of page of the demonstration book as served, against a page that needs no book, and what
//! the serving process holds in memory afterwards.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use store::Store;

use super::{Folder, built, ratio, took};
use crate::Stop;
use crate::columns::columns;

/// How often each page is asked for.
const TIMES: usize = 200;
/// How often each paper is asked for.
const CARDS: usize = 40;
/// The papers, each set in type when it is asked for.
const PAPERS: [&str; 2] = ["/print/job/J-001", "/print/job/J-001/seat.correct"];
/// What each page is held against: served by the same process, and without the book.
const PLAIN: &str = "/asset/desk.css";
/// Pages looked through for links, at most.
const MOST: usize = 600;

/// The table of times, and the memory; a sentence where nothing can be timed.
///
/// # Errors
/// The machine's.
pub fn bench(root: &Path) -> Result<String, Stop> {
    let folder = Folder::new("desk")?;
    let program = match built(root) {
        Ok(program) => program,
        Err(why) => return Ok(format!("The desk was not timed: {why}\n")),
    };
    let book = folder.file("demo.book");
    match timed(&program, &book) {
        Ok(text) => Ok(text),
        Err(why) => Ok(format!("The desk was not timed: {why}\n")),
    }
}

fn timed(program: &Path, book: &Path) -> Result<String, String> {
    let mut desk = Desk::serve(program, book, &["demo", "--port", "0"])?;
    let fresh = desk.resident()?;
    let pages = desk.pages()?;
    let plain = desk.times_of(PLAIN, TIMES)?;
    let mut loads = Vec::new();
    for _ in 0..TIMES {
        let (time, read) = took(|| Store::open(book).and_then(|store| store.book()));
        read.map_err(|why| why.to_string())?;
        loads.push(time);
    }
    let row = |what: String, bytes: usize, times: &Times| {
        vec![
            what,
            format!("{:.1}", bytes as f64 / 1024.0),
            ms(times.middle),
            ms(times.slow),
            ratio(times.middle, plain.middle),
        ]
    };
    let loads = Times::of(loads);
    let mut rows = vec![
        row(PLAIN.to_string(), desk.get(PLAIN)?.len(), &plain),
        row("(open and load the book)".into(), 0, &loads),
    ];
    let mut worst = Duration::ZERO;
    for page in pages.values() {
        let times = desk.times_of(&page.path, TIMES)?;
        worst = worst.max(times.slow);
        rows.push(row(page.path.clone(), page.bytes, &times));
    }
    let heading = ["page", "kB", "p50 ms", "p99 ms", "ratio"];
    let pages = desk.resident()?;
    let mut cards = Vec::new();
    for path in PAPERS {
        // The first one finds the typesetter cold.
        let (first, card) = took(|| desk.get(path));
        let bytes = card?.len();
        let mut cells = row(path.to_string(), bytes, &desk.times_of(path, CARDS)?);
        cells.insert(2, ms(first));
        cards.push(cells);
    }
    Ok(format!(
        "The desk, the largest page of each kind asked {TIMES} times over one line (ratio to {PLAIN}):\n{}\
         Slowest p99 {} ms. The serving process holds {fresh:.1} MB when it begins, {pages:.1} MB after all this.\n\
         \nPapers, each asked {CARDS} times (ratio to {PLAIN}):\n{}\
         The serving process holds {:.1} MB after them.\n",
        columns(&heading, &[], &rows),
        ms(worst),
        columns(
            &["paper", "kB", "first ms", "p50 ms", "p99 ms", "ratio"],
            &[],
            &cards
        ),
        desk.resident()?
    ))
}

/// Milliseconds, to two places.
pub fn ms(time: Duration) -> String {
    format!("{:.2}", time.as_secs_f64() * 1e3)
}

/// The middle and the slow end of many times.
pub struct Times {
    /// Half were faster.
    pub middle: Duration,
    /// One in a hundred was slower.
    pub slow: Duration,
}

impl Times {
    /// Of times as they came.
    pub fn of(mut times: Vec<Duration>) -> Times {
        times.sort_unstable();
        let at = |share: usize| times.get(times.len() * share / 100).copied();
        Times {
            middle: at(50).unwrap_or_default(),
            slow: at(99).unwrap_or_default(),
        }
    }
}

/// A page of one kind.
struct Page {
    path: String,
    bytes: usize,
}

/// The served demonstration and one signed-in client of it; ended with it.
pub struct Desk {
    child: Child,
    at: String,
    cookie: String,
    line: BufReader<TcpStream>,
}

impl Desk {
    /// The program serving a book by these words, and a client of it that is signed in.
    ///
    /// # Errors
    /// Why it does not serve.
    pub fn serve(program: &Path, book: &Path, words: &[&str]) -> Result<Desk, String> {
        let mut command = Command::new(program);
        command
            .args(words)
            .env_remove("OUTSHOP_NOW")
            .env_remove("OUTSHOP_BY")
            .env("OUTSHOP_BOOK", book)
            .stdin(Stdio::null())
            .stdout(Stdio::piped());
        let mut child = command.spawn().map_err(|why| why.to_string())?;
        let out = child.stdout.take().ok_or("it says nothing")?;
        let signs_in = BufReader::new(out)
            .lines()
            .map_while(Result::ok)
            .find(|line| line.starts_with("Sign in as"));
        let link = signs_in
            .as_deref()
            .and_then(|line| line.split_once("http://"));
        let found = link.and_then(|(_, link)| link.split_once('/'));
        let Some((at, link)) = found else {
            let _ = child.kill();
            let _ = child.wait();
            return Err("`demo` printed no link to sign in with".into());
        };
        let stream = TcpStream::connect(at).map_err(|why| why.to_string());
        let mut desk = Desk {
            child,
            at: at.to_string(),
            cookie: String::new(),
            line: BufReader::new(stream?),
        };
        // A small request waits for nothing.
        let _ = desk.line.get_ref().set_nodelay(true);
        let (head, _) = desk.ask("POST", &format!("/{link}"))?;
        let cookie = head.lines().find_map(|l| l.strip_prefix("set-cookie: "));
        let cookie = cookie.and_then(|c| c.split(';').next());
        desk.cookie = cookie.ok_or("the link did not sign in")?.to_string();
        Ok(desk)
    }

    /// One request and its answer: the head and the body.
    fn ask(&mut self, method: &str, path: &str) -> Result<(String, String), String> {
        let (head, body) = self.asked(method, path)?;
        Ok((head, String::from_utf8_lossy(&body).into_owned()))
    }

    /// The same with the body as it came.
    fn asked(&mut self, method: &str, path: &str) -> Result<(String, Vec<u8>), String> {
        self.sent(method, path, "")
    }

    /// One request with a body of its own.
    fn sent(&mut self, method: &str, path: &str, body: &str) -> Result<(String, Vec<u8>), String> {
        let text = format!(
            "{method} {path} HTTP/1.1\r\nHost: {at}\r\nOrigin: http://{at}\r\nCookie: {}\r\nContent-Length: {}\r\n\r\n{body}",
            self.cookie,
            body.len(),
            at = self.at
        );
        let said = |why: std::io::Error| format!("{path}: {why}");
        self.line
            .get_mut()
            .write_all(text.as_bytes())
            .map_err(said)?;
        let mut head = String::new();
        while !head.ends_with("\r\n\r\n") {
            if self.line.read_line(&mut head).map_err(said)? == 0 {
                return Err(format!("{path}: the line was closed"));
            }
        }
        let length = head
            .lines()
            .find_map(|line| line.strip_prefix("content-length: "))
            .and_then(|length| length.trim().parse().ok())
            .unwrap_or(0);
        let mut body = vec![0; length];
        self.line.read_exact(&mut body).map_err(said)?;
        Ok((head, body))
    }

    /// A page that must be there.
    pub fn get(&mut self, path: &str) -> Result<Vec<u8>, String> {
        let (head, body) = self.asked("GET", path)?;
        if head.starts_with("HTTP/1.1 200") {
            Ok(body)
        } else {
            let first = head.lines().next().unwrap_or_default();
            Err(format!("{path} answered {first}"))
        }
    }

    /// How long it takes to get pages that must be there, one after the other.
    ///
    /// # Errors
    /// Why one is not got.
    pub fn times(&mut self, paths: impl Iterator<Item = String>) -> Result<Times, String> {
        let mut times = Vec::new();
        for path in paths {
            let (time, body) = took(|| self.get(&path));
            body?;
            times.push(time);
        }
        Ok(Times::of(times))
    }

    /// The same of one page, over and over.
    ///
    /// # Errors
    /// As [`Desk::times`].
    pub fn times_of(&mut self, path: &str, many: usize) -> Result<Times, String> {
        self.times(std::iter::repeat_n(path.to_string(), many))
    }

    /// Hands in what a device kept, and gives what became of it.
    ///
    /// # Errors
    /// Why it is not taken.
    pub fn hand_in(&mut self, kept: &str) -> Result<Vec<u8>, String> {
        let (head, body) = self.sent("POST", "/bench/send", kept)?;
        if head.starts_with("HTTP/1.1 200") {
            Ok(body)
        } else {
            Err(String::from_utf8_lossy(&body).into_owned())
        }
    }

    /// Follows every link from the first page; of each kind of page, the largest.
    fn pages(&mut self) -> Result<BTreeMap<String, Page>, String> {
        let mut kinds: BTreeMap<String, Page> = BTreeMap::new();
        let mut seen = BTreeSet::from(["/".to_string()]);
        let mut next = VecDeque::from(["/".to_string()]);
        while let Some(path) = next.pop_front() {
            let (head, body) = self.ask("GET", &path)?;
            if !head.starts_with("HTTP/1.1 200") || !head.contains("text/html") {
                continue;
            }
            for link in links(&body) {
                if seen.len() < MOST && seen.insert(link.clone()) {
                    next.push_back(link);
                }
            }
            let page = Page {
                bytes: body.len(),
                path,
            };
            match kinds.get(&kind(&page.path)) {
                Some(known) if known.bytes >= page.bytes => {}
                _ => {
                    kinds.insert(kind(&page.path), page);
                }
            }
        }
        Ok(kinds)
    }

    /// What the serving process holds in memory, in MB.
    fn resident(&self) -> Result<f64, String> {
        let path = format!("/proc/{}/status", self.child.id());
        let text = std::fs::read_to_string(&path).map_err(|why| format!("{path}: {why}"))?;
        text.lines()
            .find_map(|line| line.strip_prefix("VmRSS:")?.trim().strip_suffix("kB"))
            .and_then(|kb| kb.trim().parse::<f64>().ok())
            .map(|kb| kb / 1024.0)
            .ok_or_else(|| format!("{path} does not tell the memory"))
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// The pages of this desk that a page leads to.
fn links(body: &str) -> Vec<String> {
    body.split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|link| link.starts_with('/') && !link.starts_with("/asset/"))
        .map(|link| link.split('#').next().unwrap_or(link).replace("&amp;", "&"))
        .collect()
}

/// The kind of a page: its path with every name in it left out, and whether something is asked of it.
fn kind(path: &str) -> String {
    let (path, asked) = path
        .split_once('?')
        .map_or((path, ""), |(path, _)| (path, "?"));
    let named: Vec<&str> = path
        .trim_start_matches('/')
        .split('/')
        .enumerate()
        .map(|(at, word)| if at % 2 == 1 { "*" } else { word })
        .collect();
    format!("/{}{asked}", named.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_of_one_kind_differ_only_in_names() {
        assert_eq!(kind("/"), "/");
        assert_eq!(kind("/engine/14/part/left%20check"), "/engine/*/part/*");
        assert_eq!(kind("/sheet/thread.acme?tpi=4"), "/sheet/*?");
        let body =
            r##"<a href="/engine/14">x</a><link href="/asset/desk.css"><a href="#page">y</a>"##;
        assert_eq!(links(body), ["/engine/14"]);
    }

    #[test]
    fn the_slow_end_is_the_hundredth_of_a_hundred() {
        let times = Times::of((1..=200).rev().map(Duration::from_millis).collect());
        assert_eq!(times.middle, Duration::from_millis(101));
        assert_eq!(times.slow, Duration::from_millis(199));
    }
}
