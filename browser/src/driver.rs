//! The driver of the browser as a child process that never outlives its owner.

use std::io::{BufRead, BufReader};
use std::os::unix::process::CommandExt;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use std::time::Duration;

use rustix::process::{Pid, Signal, kill_process_group};

use crate::Wrong;

/// How long the driver may take to say its port.
const START: Duration = Duration::from_secs(20);

/// A folder of its own in the machine's place for passing files, taken away at the end.
#[derive(Debug)]
pub struct Folder(pub PathBuf);

impl Folder {
    /// Makes one.
    ///
    /// # Errors
    /// If it cannot be made.
    pub fn new(name: &str) -> Result<Folder, Wrong> {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let path = std::env::temp_dir().join(format!(
            "outshop-browser-{name}-{}-{count}",
            std::process::id()
        ));
        std::fs::create_dir_all(&path)
            .map_err(|why| format!("{} could not be made: {why}.", path.display()))?;
        Ok(Folder(path))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// A program and all that it starts, ended with their owner, also when a test panics.
#[derive(Debug)]
pub struct Group(Child);

impl Group {
    /// Starts a program at the head of a process group of its own.
    ///
    /// # Errors
    /// If it does not start.
    pub fn start(command: &mut Command) -> Result<Group, Wrong> {
        let program = command.get_program().to_string_lossy().into_owned();
        command
            .process_group(0)
            .stdin(Stdio::null())
            .spawn()
            .map(Group)
            .map_err(|why| format!("{program} could not be started: {why}."))
    }

    /// The id of the program.
    pub fn id(&self) -> u32 {
        self.0.id()
    }

    /// The first line on its standard output that holds `mark`. What it says later is read and dropped, so
    /// that it never waits for us.
    ///
    /// # Errors
    /// If it ends, or says nothing of the kind in time.
    pub fn line(&mut self, mark: &'static str) -> Result<String, Wrong> {
        let out = self
            .0
            .stdout
            .take()
            .ok_or("The program's output is not ours to read.")?;
        let (say, hear) = mpsc::channel();
        std::thread::spawn(move || {
            for line in BufReader::new(out).lines().map_while(Result::ok) {
                if line.contains(mark) {
                    let _ = say.send(line);
                }
            }
        });
        hear.recv_timeout(START)
            .map_err(|_| format!("The program ended, or did not say `{mark}` in time."))
    }
}

impl Drop for Group {
    fn drop(&mut self) {
        if let Some(pid) = i32::try_from(self.0.id()).ok().and_then(Pid::from_raw) {
            let _ = kill_process_group(pid, Signal::KILL);
        }
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// A running driver.
#[derive(Debug)]
pub struct Driver {
    // Ended before its folder is taken away: fields are dropped in order.
    _group: Group,
    /// Where it listens.
    pub at: String,
    /// Where the browser keeps its profile.
    pub folder: Folder,
}

impl Driver {
    /// Starts `OUTSHOP_CHROMEDRIVER`, else `chromedriver` on the path, on a port that is free.
    ///
    /// # Errors
    /// If there is none, or it does not start: what to do about it.
    pub fn start() -> Result<Driver, Wrong> {
        let program = std::env::var_os("OUTSHOP_CHROMEDRIVER").unwrap_or("chromedriver".into());
        let folder = Folder::new("profile")?;
        let mut command = Command::new(program);
        command
            .arg("--port=0")
            .env("HOME", &folder.0)
            .stdout(Stdio::piped())
            .stderr(Stdio::null());
        let mut group = Group::start(&mut command).map_err(|why| {
            format!(
                "{why} Install a browser and its driver of one version (Debian: `apt-get install chromium chromium-driver`), \
                 or name them in OUTSHOP_CHROMIUM and OUTSHOP_CHROMEDRIVER; `cargo xtask test --no-browser` leaves these tests out."
            )
        })?;
        const MARK: &str = "started successfully on port ";
        let line = group.line(MARK)?;
        let port: String = line
            .split(MARK)
            .nth(1)
            .unwrap_or_default()
            .chars()
            .take_while(char::is_ascii_digit)
            .collect();
        Ok(Driver {
            _group: group,
            at: format!("http://127.0.0.1:{port}"),
            folder,
        })
    }
}
