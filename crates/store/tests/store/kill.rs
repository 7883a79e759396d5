//! Two hundred kills: whatever was acknowledged before the process died is in the book, and it is whole.
//!
//! A killed process leaves what it wrote to the machine. A power cut may not; against that stand the
//! full synchronising asserted in the crate and the word of the disk, which no test here can prove.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use jiff::civil::date;
use shop::book::{LogClosed, Statement};
use store::Store;

use crate::world::{Dice, ENGINE, Folder, act, clean, fire, shop, state};

const BOOK: &str = "OUTSHOP_TEST_KILL_BOOK";

/// Run by [`two_hundred_kills`] in a child that is killed; by itself it enters twenty and stops.
#[test]
fn child_writes_until_it_is_killed() {
    match std::env::var_os(BOOK) {
        Some(path) => {
            let mut store = Store::open(Path::new(&path)).unwrap();
            write(&mut store, u64::MAX, std::io::stdout());
        }
        None => {
            let folder = Folder::new("alive");
            let mut store = shop(&folder.file("shop.book"));
            let mut said = Vec::new();
            write(&mut store, 20, &mut said);
            assert_eq!(said.split(|byte| *byte == b'\n').count(), 21);
            assert_eq!(store.head().unwrap().0, 25);
            clean(&store);
        }
    }
}

/// Enters one statement after another, and says the number of each once the book has taken it.
fn write(store: &mut Store, count: u64, mut out: impl Write) {
    let first = store.head().unwrap().0 + 1;
    for seq in first..first.saturating_add(count) {
        // Mostly entries that leave the state as large as it was, so that the loop stays quick.
        let statement = if seq % 8 == 0 {
            fire(u32::try_from(seq).unwrap())
        } else {
            Statement::LogClosed(LogClosed {
                locomotive: ENGINE,
                from: date(2026, 1, 1),
                through: date(2026, 4, 1 + (seq % 30) as i8),
            })
        };
        let receipt = state(store, &act(0x1_0000 + u128::from(seq)), statement).unwrap();
        writeln!(out, "ACK {} {}", receipt.entries.1, receipt.head).unwrap();
        out.flush().unwrap();
    }
}

#[test]
fn two_hundred_kills() {
    let mut dice = Dice::new(200);
    let (mut acknowledged, mut in_time) = (0, 0);
    for _ in 0..10 {
        let folder = Folder::new("kill");
        let path = folder.file("shop.book");
        drop(shop(&path));
        for _ in 0..20 {
            let mut child = Command::new(std::env::current_exe().unwrap())
                .args([
                    "--exact",
                    "kill::child_writes_until_it_is_killed",
                    "--nocapture",
                ])
                .env(BOOK, &path)
                .stdout(Stdio::piped())
                .stderr(Stdio::null())
                .spawn()
                .unwrap();
            std::thread::sleep(Duration::from_millis(3 + dice.below(60)));
            // On this machine's kind of system this is signal 9, which no process can answer.
            child.kill().unwrap();
            let output = child.wait_with_output().unwrap();
            assert!(!output.status.success(), "it was to be killed");
            let text = String::from_utf8_lossy(&output.stdout).into_owned();

            let store = Store::open(&path).unwrap();
            clean(&store);
            let entries = store.entries().unwrap();
            let mut any = false;
            // A last line cut off in the middle was not heard by anybody.
            for line in text.split_inclusive('\n').filter(|l| l.ends_with('\n')) {
                let Some(said) = line.trim_end().strip_prefix("ACK ") else {
                    continue;
                };
                let (seq, hash) = said.split_once(' ').unwrap();
                let entry = &entries[seq.parse::<usize>().unwrap() - 1];
                assert_eq!(entry.digest().to_string(), hash);
                acknowledged += 1;
                any = true;
            }
            in_time += u32::from(any);
        }
    }
    // Most children must have lived long enough to be cut off while writing.
    assert!(in_time >= 100, "{in_time} of 200 had begun");
    assert!(acknowledged >= 500, "{acknowledged}");
}
