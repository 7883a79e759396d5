//! Words of the federal forms, and the places of a limit table: what an inspector may write, what a compressor or a
//! part of an axle is called.

use super::Word;

/// The words of condition on Form 1, as read on the blank federal form of 2015 and 2024.
pub const FORM_1_CONDITIONS: &[Word] = &[
    ("good", "no defect that can be found"),
    ("fair", "below the best, yet safe and within the law"),
    (
        "poor",
        "not within the law: to be put right before she is used",
    ),
    ("n/a", "she has no such thing"),
];

/// The words of condition on Form 4, as read on the blank federal form.
pub const FORM_4_CONDITIONS: &[Word] = &[
    ("new", "new at the survey"),
    ("good", "little wear or corrosion"),
    ("fair", "wear or corrosion plain to see"),
];

/// How an item of an inspection may be answered. Common practice, our own words: the law names none.
pub const ITEM_ANSWERS: &[Word] = &[
    ("complies", "looked at, and as the rule asks"),
    ("needs repair", "a defect was found and stands as a finding"),
    ("repaired", "a defect was found and put right"),
    ("renewed", "the part was renewed"),
    ("not fitted", "the engine has no such part"),
];

/// Words that name a row or column of a limit table.
pub const TABLE_WORDS: &[Word] = &[
    ("westinghouse-9-1/2", "Westinghouse 9 1/2 in"),
    ("westinghouse-11", "Westinghouse 11 in"),
    (
        "westinghouse-8-1/2-150",
        "Westinghouse 8 1/2 in cross compound, 150 cubic feet a minute",
    ),
    (
        "westinghouse-8-1/2-120",
        "Westinghouse 8 1/2 in, 120 cubic feet a minute",
    ),
    ("new-york-2a", "New York 2a"),
    ("new-york-6a", "New York 6a"),
    ("new-york-5b", "New York 5b"),
    ("iron", "iron"),
    ("steel", "steel"),
    ("single-shear", "sheared across one section"),
    ("double-shear", "sheared across two sections"),
    ("journal", "at the journal"),
    ("wheel-seat", "at the wheel seat"),
    ("center", "at the middle of the axle"),
];
