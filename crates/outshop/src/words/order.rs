//! The order of the work on a lathe card.

/// The tool.
pub fn tool(form: &str, flat: &str) -> String {
    format!(
        "Tool of {form} form, flat at its end {flat}: on center height, square to the axis by the gauge."
    )
}

/// The diameter before the thread.
pub fn before(internal: bool, diameter: &str) -> String {
    if internal {
        format!("Bore to {diameter}, true and round.")
    } else {
        format!("Turn to {diameter}, true and round.")
    }
}

/// Written there.
pub const DIAMETERS: &[&str] = &["front", "middle", "back", "by"];

/// The groove at the end.
pub fn relief(relief: &str) -> String {
    format!("At the end of the thread: {relief}.")
}

/// What is set before the first cut.
pub fn set(straight: bool, angle: &str) -> String {
    let feed = if straight {
        "Feed straight in by the cross-slide".to_owned()
    } else {
        format!("Compound at {angle} from the cross feed")
    };
    format!(
        "{feed}. Wheels, half nuts and spindle as the settings say; half the speed for the first time through."
    )
}

/// The one zero.
pub fn zero(internal: bool) -> String {
    let end = if internal {
        " Mark on the bar where the thread ends."
    } else {
        ""
    };
    format!(
        "One zero: touch the work, set both dials to nothing there. The cross-slide comes back to that nothing for every cut.{end}"
    )
}

/// A thread that is there already.
pub const PICK_UP: &str = "Only where a thread is picked up: half nuts shut, the slack taken up the way it cuts, the spindle still; bring the tool into the groove by compound and cross-slide; that is the zero.";

/// The trial cut.
pub fn trial(tpi: &str, starts: &str) -> String {
    let starts = if starts == "1" {
        String::new()
    } else {
        format!(", {starts} starts")
    };
    format!(
        "Trial cut, a thousandth deep, over the whole length. It must show {tpi} threads in the inch{starts}, and the hand that is wanted."
    )
}

/// Written there.
pub const TRIAL: &[&str] = &["threads in the inch, counted", "hand", "by"];

/// The cuts up to the measurement.
pub fn first(straight: bool) -> String {
    format!(
        "Cuts, ticked off; the figure is the {} from the zero.",
        dial(straight)
    )
}

/// The cuts after it.
pub fn last(straight: bool) -> String {
    format!(
        "The rest by what was measured, not by this list alone; the spring passes take no new depth ({}).",
        dial(straight)
    )
}

fn dial(straight: bool) -> &'static str {
    if straight {
        "cross-slide's way"
    } else {
        "compound's way"
    }
}

/// A pass.
pub fn pass(number: &str, at: &str) -> String {
    format!("{number}: {at}")
}

/// Before the last cuts.
pub const MEASURE: &str =
    "Before the last cuts, clean and cold: over wires, by a thread micrometer, or with the mate.";
/// Written there.
pub const MEASURED: &[&str] = &["read", "wanted", "still to take", "by"];
/// Before it leaves the chuck.
pub const LEAVES: &str = "Before it leaves the chuck: the go end or the mate its whole length by hand, the not-go end no more than two turns; edges broken.";
/// Written there.
pub const LEFT: &[&str] = &["gauge or mate no.", "by", "day"];
