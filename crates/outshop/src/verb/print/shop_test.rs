//! One small shop that the tests of papers are set up with, and how they read a paper.

use std::ffi::OsString;
use std::path::PathBuf;

use ::paper::{Block, Form, LookedAt};

use crate::{Clock, Context, Globals, Ids, parse};

/// A book of its own in a folder that is taken away at the end; all in it is invented.
pub(super) struct Shop {
    folder: PathBuf,
    pub(super) context: Context,
    pub(super) globals: Globals,
}

impl Shop {
    pub(super) fn new(name: &str) -> Shop {
        let folder =
            std::env::temp_dir().join(format!("outshop-papers-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let globals = Globals {
            book: Some(folder.join("shop.book")),
            by: Some("Ada Quill".into()),
            ..Globals::default()
        };
        let now = Clock::Stated("2026-05-03T09:00".parse().unwrap());
        let ids = Ids::Seeded(name.into(), 0);
        let context = Context::stated(globals.clone(), now, ids);
        let mut shop = Shop {
            folder,
            context,
            globals,
        };
        for words in [
            &[
                "new",
                "--shop",
                "Trial Shop",
                "--zone",
                "America/Denver",
                "--officer",
                "Ada Quill",
            ][..],
            &[
                "locomotive",
                "add",
                "14",
                "--wheels",
                "2-8-0",
                "--gauge",
                "56 1/2 in",
                "--rules",
                "us-steam",
                "--not-fitted",
                "fusible-plugs",
                "--fitted",
                "tubular-glasses",
            ],
            &[
                "locomotive",
                "add",
                "803",
                "--wheels",
                "B-B",
                "--gauge",
                "56 1/2 in",
                "--rules",
                "us-diesel",
            ],
        ] {
            shop.says(words);
        }
        shop
    }

    pub(super) fn says(&mut self, words: &[&str]) {
        let all = ["outshop"].iter().chain(words).map(OsString::from);
        let (_, request) = parse(all).unwrap();
        self.context.speak(self.globals.clone());
        request
            .run(&mut self.context)
            .unwrap_or_else(|e| panic!("{words:?}: {e}"));
    }
}

impl Drop for Shop {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

pub(super) fn items(form: &Form) -> Vec<&LookedAt> {
    let blocks = form.parts.iter().flat_map(|part| &part.blocks);
    let all = blocks.filter_map(|block| match block {
        Block::Items { all, .. } => Some(all),
        _ => None,
    });
    all.flatten().collect()
}

pub(super) fn rows<'f>(form: &'f Form, title: &str) -> Vec<&'f Vec<Option<String>>> {
    let parts = form.parts.iter().filter(|part| part.title == title);
    let blocks = parts.flat_map(|part| &part.blocks);
    let all = blocks.filter_map(|block| match block {
        Block::Table { rows, .. } | Block::Lines { rows, .. } => Some(rows),
        _ => None,
    });
    all.flatten().collect()
}

/// Everything a paper says, run together.
pub(super) fn said(form: &Form) -> String {
    serde_json::to_string(form).unwrap()
}

/// Every box leaves 8 mm under its word, which takes 3 mm.
pub(super) fn has_room(form: &Form) {
    for block in form.parts.iter().flat_map(|part| &part.blocks) {
        if let Block::Room { rows, high } = block {
            assert!(*high >= 11 && !rows.is_empty(), "{rows:?}");
        }
    }
}
