//! Every word a reader sees on a page, and words that more than one screen or paper says.
//!
//! A page holds markup and asks here for what it says, so that all of it can be read, weighed and put right
//! in one place. One file a page group; no markup in any of them. What the law, a family of parts or a verb
//! says of the work comes from there, whole.

pub mod ahead;
pub mod apart;
pub mod backup;
pub mod boiler;
pub mod blue;
pub mod boiler_map;
pub mod before;
pub mod card;
pub mod bench;
pub mod boiler_work;
pub mod calendar;
pub mod dates;
pub mod handed_on;
pub mod day;
pub mod drawing;
pub mod door;
pub mod duties;
pub mod engine;
pub mod find;
pub mod finding;
pub mod first;
pub mod form;
pub mod held;
pub mod hydro;
pub mod inspection;
pub mod instrument;
pub mod job;
pub mod lathe;
pub mod letter;
pub mod log;
pub mod look;
pub mod moved;
pub mod network;
pub mod order;
pub mod page;
pub mod paper;
pub mod part;
pub mod part_list;
pub mod particular;
pub mod past;
pub mod people;
pub mod plan;
pub mod pocket;
pub mod print;
pub mod rule;
pub mod setting;
pub mod sheet;
pub mod spare;
pub mod moves;
pub mod survey;
pub mod tires;
pub mod year_work;
pub mod tool;
pub mod trouble;
pub mod wall;
pub mod wear;
pub mod work;
pub mod yearly;

use jiff::civil::{Date, DateTime};

/// Stands under every number someone may trust with their life.
pub const STANDING: &str =
    "Advice only. The law in force, the code, the drawing and the responsible officer govern.";

/// Where nothing is on record.
pub const NOT_WRITTEN: &str = "not written";

/// A day as people read it: `Sat 16 May 2026`.
pub fn day(date: Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// A day on a scale whose year is plain: `16 May`.
pub fn short_day(date: Date) -> String {
    date.strftime("%-d %b").to_string()
}

/// A day and an hour of the log, or that nobody wrote it down.
pub fn moment(at: Option<DateTime>) -> String {
    at.map_or(NOT_WRITTEN.into(), |at| {
        format!("{} {}", day(at.date()), at.strftime("%H:%M"))
    })
}

/// `1 service day`, `2 service days`.
pub fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 {
        format!("1 {one}")
    } else {
        format!("{n} {many}")
    }
}

/// About so many re-cuts.
pub fn re_cuts(n: i64) -> String {
    let cuts = count(usize::try_from(n).unwrap_or(0), "re-cut", "re-cuts");
    format!("about {cuts}")
}

/// A sentence begins with a capital.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

/// `No. 14`.
pub fn engine(number: &str) -> String {
    format!("No. {number}")
}

/// Of a state of readings.
pub fn state(state: measure::State) -> &'static str {
    match state {
        measure::State::AsFound => "as found",
        measure::State::AsLeft => "as left",
    }
}

/// The numbers people call things by.
pub mod tag {
    /// `F-004`.
    pub fn finding(number: u32) -> String {
        format!("F-{number:03}")
    }

    /// `J-002`.
    pub fn job(number: u32) -> String {
        format!("J-{number:03}")
    }

    /// `I-001`.
    pub fn inspection(number: u32) -> String {
        format!("I-{number:03}")
    }

    /// `W-003`.
    pub fn write_up(number: u32) -> String {
        format!("W-{number:03}")
    }

    /// `P-002`.
    pub fn photo(number: u32) -> String {
        format!("P-{number:03}")
    }

    /// `S-012`.
    pub fn spare(number: u32) -> String {
        format!("S-{number:03}")
    }

    /// `LA-001`.
    pub fn lathe(number: u32) -> String {
        format!("LA-{number:03}")
    }

    /// `C-001`.
    pub fn card(number: u32) -> String {
        format!("C-{number:03}")
    }

    /// `L-004`.
    pub fn letter(number: u32) -> String {
        format!("L-{number:03}")
    }

    /// `T-007`.
    pub fn tool(number: u32) -> String {
        format!("T-{number:03}")
    }
}
