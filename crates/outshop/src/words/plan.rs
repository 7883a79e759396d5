//! Leave, cut or renew over the years.

/// The head of the page, before the part.
pub fn head(size: &str) -> String {
    format!("{}: leave, cut or renew", super::sentence(size))
}

/// A link on the part's page.
pub fn link(size: &str) -> String {
    format!("Leave, cut or renew over the years: {size}")
}

/// Under the head.
pub const LEAD: &str = "What to do at each opening so that the hours come out least, stops out of turn counted in, beside renewing always and cutting always. It advises; the decision is made in a finding.";
/// A form.
pub const GOES_IN: &str = "What goes in";
/// Before what would settle it.
pub const NEEDS: &str = "Needs";
/// Under a field the book fills.
pub fn from(basis: &str) -> String {
    format!("from the book: {basis}")
}
/// A button.
pub const WORK_IT: &str = "Work the plan";
/// Under the form.
pub const SUPPOSED: &str = "What is typed here stands in place of what the book has, and is saved nowhere; the address of the page keeps it.";
/// A section.
pub const COMES_OUT: &str = "What it comes to";

/// Nothing is worked.
pub fn cannot_tell(size: &str) -> String {
    format!("{}: cannot tell: these are missing.", super::sentence(size))
}

/// One that is missing.
pub fn missing(name: &str, meaning: &str, settles: &str) -> String {
    format!("{name} ({meaning}): needs {settles}")
}

/// An argument that is none.
pub fn no_argument(name: &str, known: &[&str]) -> String {
    format!(
        "`{name}` is no argument of the plan: {} were expected.",
        known.join(", ")
    )
}

/// What the plan does now and what it saves, in sentences.
pub fn says(now: &str, expected: &str, renew: &str, cut: &str, stops: &str) -> String {
    format!(
        "At this opening: {now}. Over the horizon {expected} h are expected with {stops} stops out of turn; renewing always takes {renew} h, the smallest cut always {cut} h."
    )
}
