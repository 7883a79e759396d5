//! Worked sheets.

/// The head of the list.
pub const WORKED_SHEETS: &str = "Worked sheets";
/// What they are.
pub const LEAD: &str = "Each prints what goes in and where it came from, the formula, the numbers in place, the result, and what it rests on. A second person with a pencil can redo it.";
/// What the first word of a sheet's id stands for, in the order of the list.
pub const SUBJECTS: &[(&str, &str)] = &[
    ("thread", "Threads"),
    ("screw", "Screws under load"),
    ("joint", "Joints with a gasket"),
    ("seat", "Seats"),
    ("valve", "Valves"),
    ("fit", "Fits and bushings"),
    ("gauge", "Gauging"),
    ("lathe", "At the lathe"),
    ("boiler", "The boiler"),
    ("steam", "Steam"),
    ("air", "Air and brakes"),
    ("running", "Running gear"),
    ("cast", "Casting"),
    ("wear", "Wear"),
];
/// Sheets of no subject that is listed.
pub const OTHERS: &str = "Others";
/// Before it is worked.
pub const FILL_IN: &str =
    "Fill in what is known and work it. A bare number takes the house unit, and the sheet says so.";
/// A form.
pub const GOES_IN: &str = "What goes in";
/// A choice.
pub const NOT_SAID: &str = "not said";
/// A button.
pub const WORK_IT: &str = "Work it";
/// A section.
pub const RESULTS: &str = "Results";
/// A section.
pub const WHERE_FROM: &str = "Where each came from";
/// A section.
pub const WORKED: &str = "Worked";
/// A section.
pub const CAUTIONS: &str = "Cautions";
/// A section.
pub const SOURCES: &str = "Sources";
/// A section.
pub const DRAWN: &str = "Drawn to scale";
/// The title of a drawing.
pub const SEAT: &str = "Valve seat, before and after";
/// The title of a drawing.
pub const LAP: &str = "Lap for the seat: its working face";
/// The title of a drawing.
pub const BUSHING: &str = "Bushing for a rod eye, as turned";
/// The title of a drawing.
pub const SEAM: &str = "Riveted seam";

/// Why a sheet that was kept is not drawn.
pub const NOT_AS_KEPT: &str = "Not drawn: worked again with the facts of today, the sheet would not read as the one kept here, and that one governs.";

/// Before a line of working.
pub fn equals(text: &str) -> String {
    format!("= {text}")
}

/// A choice of whose boiler card.
pub const BOILER_OF: &str = "Engine whose boiler card is taken";
/// What happens then.
pub const BOILER_HINT: &str =
    "what each component bears is then put in as her card has it; what you type stands";
/// A choice of whose rules.
pub const LAW_ENGINE: &str = "Engine whose rules give the figures of law";
/// What happens then.
pub const LAW_HINT: &str =
    "each is then put in with its rule, version and section; what you type stands";
/// A choice of whose rules.
pub const LAW_RULES: &str = "Or a rulebook, of no engine";
/// Beside an argument.
pub const OF_LAW: &str = "; a figure of law, which the rulebook gives where it has one";

/// Figures of law that nobody gave.
pub fn law_left_out(names: &[&str]) -> String {
    format!(
        "Figures of law left out: {}. Say engine=NUMBER or rules=us-steam, and the rulebook puts them in.",
        names.join(", ")
    )
}

/// An engine or a rulebook was said to a sheet that asks neither.
pub fn no_law(sheet: &str) -> String {
    format!("The sheet {sheet} asks for no figure of law: leave the engine and the rulebook out.")
}

/// What an argument is called, and whether it is needed.
pub fn argument(name: &str, required: bool) -> String {
    if required {
        name.into()
    } else {
        format!("{name}, may be left out")
    }
}

/// Which words it takes.
pub fn choices(words: &[&str]) -> String {
    format!("Words: {}", words.join(", "))
}

/// A value with its unit.
pub fn value(shown: &str, unit: &str) -> String {
    if unit.is_empty() {
        shown.into()
    } else {
        format!("{shown} {unit}")
    }
}

/// Why there is no drawing.
pub fn not_drawn(why: &str) -> String {
    format!("This case cannot be drawn: {why}")
}

/// What a drawing waits for.
pub fn needs(name: &str) -> String {
    format!("it needs {name}")
}
