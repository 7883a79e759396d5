//! What the shop's work must hold: counts, clocks, verdicts, refusals, and the flow from end to end.

#![allow(
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop at the first surprise, helpers included"
)]

#[path = "shop/ahead.rs"]
mod ahead;
#[path = "shop/ahead_whole.rs"]
mod ahead_whole;
#[path = "shop/asked_first.rs"]
mod asked_first;
#[path = "shop/asked_for.rs"]
mod asked_for;
#[path = "shop/boiler_work.rs"]
mod boiler_work;
#[path = "shop/boiler.rs"]
mod boiler;
#[path = "shop/boiler_maps.rs"]
mod boiler_maps;
#[path = "shop/boiler_missing.rs"]
mod boiler_missing;
#[path = "shop/carried.rs"]
mod carried;
#[path = "shop/clocks.rs"]
mod clocks;
#[path = "shop/day.rs"]
mod day;
#[path = "shop/diesel.rs"]
mod diesel;
#[path = "shop/families.rs"]
mod families;
#[path = "shop/family_demands.rs"]
mod family_demands;
#[path = "shop/flow.rs"]
mod flow;
#[path = "shop/held.rs"]
mod held;
#[path = "shop/late.rs"]
mod late;
#[path = "shop/limits.rs"]
mod limits;
#[path = "shop/log_lines.rs"]
mod log_lines;
#[path = "shop/memory.rs"]
mod memory;
#[path = "shop/metal.rs"]
mod metal;
#[path = "shop/local_rules.rs"]
mod local_rules;
#[path = "shop/history.rs"]
mod history;
#[path = "shop/missing_clocks.rs"]
mod missing_clocks;
#[path = "shop/missing_parts.rs"]
mod missing_parts;
#[path = "shop/moves.rs"]
mod moves;
#[path = "shop/one_more_set.rs"]
mod one_more_set;
#[path = "shop/own_work.rs"]
mod own_work;
#[path = "shop/papers.rs"]
mod papers;
#[path = "shop/people.rs"]
mod people;
#[path = "shop/release.rs"]
mod release;
#[path = "shop/refusals.rs"]
mod refusals;
#[path = "shop/refusals_of_work.rs"]
mod refusals_of_work;
#[path = "shop/ruled.rs"]
mod ruled;
#[path = "shop/said.rs"]
mod said;
#[path = "shop/service_day.rs"]
mod service_day;
#[path = "shop/tires.rs"]
mod tires;
#[path = "shop/verdict.rs"]
mod verdict;
#[path = "shop/world.rs"]
mod world;
#[path = "shop/filled.rs"]
mod filled;
#[path = "shop/job_papers.rs"]
mod job_papers;
#[path = "shop/wear.rs"]
mod wear;
#[path = "shop/spares.rs"]
mod spares;
#[path = "shop/letters.rs"]
mod letters;
#[path = "shop/lathe_settings.rs"]
mod lathe_settings;
#[path = "shop/lathes.rs"]
mod lathes;
