//! What we keep: engines, their parts, tooling and people, found by the words people use.

mod boiler;
mod boiler_kinds;
mod boiler_map;
mod describe;
mod find;
mod held;
mod fit_out;
mod instrument;
mod lathe;
mod law;
mod letter;
mod make;
mod people;
mod photo;
mod question;
mod reading;
mod rule_sets;
mod shape;
mod spare;
mod squares;
mod tool;
mod tree;
mod wear;

pub use crate::book::{LEAD_TIME, Lead, MOST_LEAD_DAYS, lead_days, lead_of, lead_weeks, read_lead};
pub use boiler::{admit_boiler, enter_boiler};
pub use boiler_kinds::{
    BOILER_KINDS, BOILER_PLACES, BoilerKind, FactAs, FactOf, WHOLE, boiler_kind,
};
pub use boiler_map::{
    MOST_READINGS, STAY_KINDS, STAY_STATES, admit_map, admit_survey, admit_survey_head, admit_told,
    is_square, map_stays, row_faults, take_survey, tell_stays,
};
pub use describe::{span, tell_part};
pub use find::{
    card, engine, engine_of, engines, finding, finding_of, inspection, job, lathe, letter, part,
    part_of, person, photo, plain_number, spare, tooling,
};
pub use fit_out::{Place as FitOutPlace, fit_out, places};
pub use held::{
    Checking, NewHolding, checking, checking_of, held_before_it_changed, hold_rule, holdings,
};
pub use instrument::{
    Doubt, Doubted, add_instrument, check_instrument, doubted, doubts, instrument, last_check,
    names,
};
pub(crate) use lathe::admit_lathe;
pub use lathe::{add_lathe, tell_lathe};
pub use law::{Bound, Law, rule};
pub use letter::{
    Standing as LetterStanding, answer_letter, letter_stands, log_letter, open_letters,
};
pub use make::{
    NewBook, NewEngine, NewPart, add_engine, add_part, adopt_families, family, held_before,
    new_book, take_readings,
};
pub(crate) use people::said;
pub use people::{add_person, state_authority, with_authority};
pub use photo::{add_photo, media_of};
pub(crate) use question::resolution;
pub use question::{Taking, admit as admit_readings, questions};
pub(crate) use reading::size_of;
pub use reading::{Value, check_readings, newest_of, value};
pub(crate) use rule_sets::admit_bind;
pub use rule_sets::{adopt_rules, bind_rules, read_rules};
pub use shape::{Shape, shape};
pub(crate) use spare::admit_spare;
pub use spare::{
    Differs, Ledger, add_spare, count_spare, hold_spare, ledger, read_amount, receive_spare,
    settle_spare, tell_spare, use_spare,
};
pub use squares::{Cell, Followed, Searched, Squares, followed, middle, searched, years};
pub(crate) use tool::fits_tool;
pub use tool::{
    NewTooling, add_tooling, check_tooling, last_tool_check, move_tooling, take_out_tooling,
    tell_tooling,
};
pub use tree::{InTree, above_of, below, is_within, mates, mirror, tree};
pub use wear::{AsItIs, Worn, as_it_is, end, governing, worn};

/// What was told, without blanks about it; nothing where nothing was.
fn filled(told: Option<String>) -> Option<String> {
    let told = told.map(|told| told.trim().to_string());
    told.filter(|told| !told.is_empty())
}
