//! A machine that takes no more: a child process may write files of so many blocks only.

use std::path::Path;
use std::process::Command;

use store::{Class, Store};

use crate::world::{Folder, act, clean, fire, logged, standing, state};

const BOOK: &str = "OUTSHOP_TEST_FULL_BOOK";

/// Run by [`a_disk_that_takes_no_more`] in a child that may not write large files; by itself it writes
/// to a book with room and meets no end.
#[test]
fn child_writes_until_the_disk_says_no() {
    let Some(path) = std::env::var_os(BOOK) else {
        let folder = Folder::new("room");
        assert_eq!(until_no(&folder.file("shop.book"), 20), None);
        return;
    };
    let said = until_no(Path::new(&path), 5000).expect("the disk never said no");
    println!("SAID {said}");
}

fn until_no(path: &Path, most: u32) -> Option<String> {
    let mut store = logged(path, 1);
    for number in 1..most {
        let before = standing(&store);
        match state(&mut store, &act(0x1000 + u128::from(number)), fire(number)) {
            Ok(receipt) => println!("ACK {}", receipt.entries.1),
            Err(said) => {
                assert_eq!(said.class(), Class::Machine);
                assert_eq!(standing(&store), before);
                return Some(said.to_string());
            }
        }
    }
    None
}

#[test]
fn a_disk_that_takes_no_more() {
    for blocks in [400, 1000] {
        let folder = Folder::new("limit");
        let path = folder.file("shop.book");
        // The limit counts blocks of 512 bytes (POSIX `ulimit -f`); past it the write fails instead of
        // stopping the process, as the signal is not taken.
        let child = Command::new("sh")
            .arg("-c")
            .arg(format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$@\""))
            .arg("sh")
            .arg(std::env::current_exe().unwrap())
            .args([
                "--exact",
                "full::child_writes_until_the_disk_says_no",
                "--nocapture",
            ])
            .env(BOOK, &path)
            .output()
            .unwrap();
        let text = String::from_utf8_lossy(&child.stdout).into_owned();
        assert!(
            child.status.success(),
            "{text}{}",
            String::from_utf8_lossy(&child.stderr)
        );
        let said = text.lines().find_map(|l| l.strip_prefix("SAID ")).unwrap();
        assert!(
            said.contains("was not saved") || said.contains("Nothing was saved"),
            "{said}"
        );
        let last = text
            .lines()
            .filter_map(|l| l.strip_prefix("ACK "))
            .next_back();
        let last: u64 = last.unwrap().parse().unwrap();

        let mut store = Store::open(&path).unwrap();
        clean(&store);
        assert_eq!(store.head().unwrap().0, last);
        // With room again, work goes on.
        state(&mut store, &act(0x90), fire(9_000)).unwrap();
        clean(&store);
    }
}
