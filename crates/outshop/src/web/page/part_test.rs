//! What a part's page asks of the book does not grow with the book.

use std::ffi::OsString;
use std::path::PathBuf;

use crate::web::form::Draft;
use crate::web::{Desk, page};
use crate::{Clock, Context, Globals, Ids, parse};

/// A book of engines, each with so many parts measured so many times; taken away at the end.
struct Grown(PathBuf);

impl Grown {
    fn of(engines: u32, parts: u32, sets: u32) -> Grown {
        let name = format!("outshop-grown-{engines}-{}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        std::fs::create_dir_all(&folder).unwrap();
        let grown = Grown(folder);
        let globals = Globals {
            book: Some(grown.book()),
            by: Some("Ada Quill".into()),
            ..Globals::default()
        };
        let ids = Ids::Seeded(format!("grown {engines}"), 0);
        let mut context = Context::stated(globals.clone(), grown.clock(), ids);
        let mut says = |words: &[&str]| {
            let all = ["outshop"].iter().chain(words).map(OsString::from);
            let (_, request) = parse(all).unwrap();
            context.speak(globals.clone());
            let answer = request.run(&mut context);
            answer.unwrap_or_else(|why| panic!("{words:?}: {why}"));
        };
        says(&[
            "new",
            "--shop",
            "Trial",
            "--zone",
            "America/Denver",
            "--officer",
            "Ada Quill",
        ]);
        for engine in 0..engines {
            let number = (14 + engine).to_string();
            says(&[
                "locomotive",
                "add",
                &number,
                "--wheels",
                "2-8-0",
                "--gauge",
                "56 1/2 in",
                "--rules",
                "us-steam",
            ]);
            for part in 0..parts {
                let name = format!("bushing {part}");
                says(&[
                    "part",
                    "add",
                    &number,
                    &name,
                    "--family",
                    "rod-bushing",
                    "--fact",
                    "pin=main-rod",
                ]);
                for set in 0..sets {
                    let bore = format!("bore@middle=5.{}in", 500 + set);
                    let pin = format!("pin@middle=5.{}in", 490 - set);
                    says(&["reading", "take", &number, &name, &bore, &pin]);
                }
            }
        }
        grown
    }

    fn book(&self) -> PathBuf {
        self.0.join("shop.book")
    }

    fn clock(&self) -> Clock {
        Clock::Stated("2026-05-03T09:00".parse().unwrap())
    }

    /// Statements asked for the page of the last part, who reads it included.
    fn asked(&self, path: &str) -> u64 {
        let desk = Desk::of(self.book(), Some(self.clock()), false);
        let book = desk.context(None).book_of_shop().unwrap();
        let id = *book.persons.keys().next().unwrap();
        let session = desk.begin(id, "Ada Quill", None).unwrap();
        let mut headers = axum::http::HeaderMap::new();
        for (_, cookie) in session.0 {
            if cookie.to_str().unwrap().starts_with("outshop_desk") {
                headers.insert(axum::http::header::COOKIE, cookie);
            }
        }
        let (asked, status) = store::counted(|| {
            let reader = desk.reader(&headers).unwrap().unwrap();
            page::draw(&desk, &reader, path, "", &Draft::default()).status()
        });
        assert_eq!(status, 200);
        asked
    }
}

impl Drop for Grown {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

#[test]
fn a_parts_page_asks_as_much_of_a_large_book_as_of_a_small_one() {
    let path = "/engine/14/part/bushing%200";
    let small = Grown::of(1, 1, 1).asked(path);
    let large = Grown::of(3, 8, 6).asked(path);
    assert_eq!(small, large);
    assert!(small > 4, "nothing was counted: {small}");
    assert!(small <= 25, "{small} statements");
}
