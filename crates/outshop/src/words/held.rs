//! Rules held against the official text by two people of the shop.

use jiff::civil::Date;

/// The mark of a figure that fewer than two people have held against the official text.
pub const NOT: &str = "not checked by this shop";
/// The same, told more gently, where one of two has.
pub fn not_with_one(who: &str, on: Date) -> String {
    format!(
        "{NOT}: {} found that it agrees, and a second person is needed",
        self::who(who, on)
    )
}

/// Who, when.
pub fn who(who: &str, on: Date) -> String {
    format!("{who} {}", super::day(on))
}

/// Two people stand behind it.
pub fn checked(people: &str) -> String {
    format!("checked by this shop against the official text: {people}")
}

/// Somebody found that it differs.
pub fn differs(who: &str, on: Date, against: &str, what: &str) -> String {
    format!(
        "DIFFERS FROM THE OFFICIAL TEXT, by {}, against {against}: {what}. It is {NOT}.",
        self::who(who, on),
        what = what.trim_end_matches('.')
    )
}

/// Neither or both were told.
pub const ONE_OF_TWO: &str =
    "Either that it agrees or that it differs was expected, with what you read there.";
/// A version that was there a moment ago.
pub const GONE: &str = "The rule is not there any more.";

/// What was entered.
pub fn stated(who: &str, id: &str, version: u32, agrees: bool, stands: &str) -> String {
    let found = if agrees {
        "agrees with"
    } else {
        "differs from"
    };
    format!(
        "{who} held {id}, version {version}: it {found} the official text. Now: {}.",
        stands.trim_end_matches('.')
    )
}

/// No rule begins so.
pub fn none_begins(begins: &str) -> String {
    format!(
        "No rule's id begins with `{begins}`: the beginning of one was expected, such as us-steam.limit."
    )
}

/// Over the rules of one standing: 0 differs, 1 one person, 2 checked, 3 nobody.
pub fn chapter(which: u8, many: usize, hidden: bool) -> String {
    let name = match which {
        0 => "Differ from the official text",
        1 => "Held by one person; a second is needed",
        2 => "Checked by this shop",
        _ => "Held by nobody",
    };
    let more = if hidden {
        " (list them: rule held --all)"
    } else {
        ""
    };
    format!("{name}: {many}{more}\n")
}

/// One line for many figures.
pub fn in_a_line(used: usize, not: usize, differ: &[&str]) -> Option<String> {
    if used == 0 {
        return None;
    }
    let mut said = Vec::new();
    if !differ.is_empty() {
        said.push(format!(
            "DIFFERS FROM THE OFFICIAL TEXT, as somebody of this shop found: {}.",
            differ.join(", ")
        ));
    }
    let open = not + differ.len();
    match (open, used) {
        (0, _) => {}
        (1, 1) => said.push(format!("The figure of law here is {NOT}.")),
        (open, used) if open == used => {
            said.push(format!("The {used} figures of law here are {NOT}."));
        }
        (open, used) => said.push(format!(
            "Of {used} figures of law here, {open} {} {NOT}.",
            if open == 1 { "is" } else { "are" }
        )),
    }
    (!said.is_empty()).then(|| said.join(" "))
}

/// The head of a part of a paper, and of a section of a page.
pub const HELD: &str = "Held against the official text";
/// What the mark means, on a paper.
pub const MEANS: &str = "A figure of law is checked by this shop once two of its people, each by themselves, have held it against the official text.";
/// That all were.
pub fn all_checked(many: usize) -> String {
    match many {
        1 => "The one figure of law on this paper is checked by this shop.".into(),
        many => format!("All {many} figures of law on this paper are checked by this shop."),
    }
}

/// Of a list on paper.
pub fn none_of(open: usize, used: usize) -> String {
    if open == used {
        format!(
            "{}: none of the {used} figures of law on this paper has been held by two people.",
            super::sentence(NOT)
        )
    } else {
        format!(
            "{}: {open} of the {used} figures of law on this paper.",
            super::sentence(NOT)
        )
    }
}

/// Where the list of those not checked would be the longer one.
pub const ALL_BUT_THESE: &str =
    "Held by nobody of this shop: every figure of law on this paper that is not named here.";

/// A rule by title and section.
pub fn named(title: &str, section: &str) -> String {
    format!("{title} ({section})")
}

/// A line of a paper: rules of one standing.
pub fn listed(stands: &str, rules: &[String]) -> String {
    format!("{}: {}.", super::sentence(stands), rules.join("; "))
}

/// On the page of a rule: nobody yet.
pub const NOBODY: &str = "Nobody of this shop has held this version against the official text yet.";
/// Asks.
pub const ASK: &str = "I held this version against the official text";
/// What the form means.
pub const ASK_MEANS: &str = "Open the official text, not this page, and compare section, figure, side and circumstances. Two people do so, each by themselves.";
/// A field.
pub const AGAINST: &str = "Which text, of which edition or day";
/// Such as.
pub const AGAINST_HINT: &str = "such as eCFR of 2026-11-01";
/// A field.
pub const SEEN: &str = "It says the same: what I read there";
/// Such as.
pub const SEEN_HINT: &str =
    "the section and its figure, in a few words; left empty where it differs";
/// A field.
pub const DIFFERS: &str = "It does not say the same: what differs";
/// Such as.
pub const DIFFERS_HINT: &str = "what the text has there; left empty where it agrees";
/// A button.
pub const SIGN: &str = "Sign what I found";
/// Who may.
pub const WHO_MAY: &str =
    "It takes the authority `inspect` to hold a rule against the official text.";
/// What was said of another wording.
pub fn of_another_wording(who: &str, on: Date) -> String {
    format!(
        "{} held this version as an earlier build of this program told it; it is told otherwise now, so that counts no more.",
        self::who(who, on)
    )
}

/// One person's word.
pub fn word(who: &str, on: Date, agrees: bool, against: &str, seen: &str, entry: u64) -> String {
    let found = if agrees { "agrees" } else { "DIFFERS" };
    format!(
        "{}: {found}, against {against}: {seen} (entry {entry})",
        self::who(who, on)
    )
}

/// How many stand how, over the rulebook.
pub fn counts(differ: usize, one: usize, checked: usize, nobody: usize) -> String {
    let mut said = Vec::new();
    if differ > 0 {
        said.push(format!("{differ} found to DIFFER from the official text"));
    }
    said.push(format!("{checked} checked by this shop"));
    if one > 0 {
        said.push(format!("{one} held by one person"));
    }
    said.push(format!("{nobody} {NOT}"));
    format!("Of the versions of these rules: {}.", said.join(", "))
}
/// A short mark in a list.
pub const CHECKED: &str = "checked by this shop";
/// A short mark in a list.
pub const ONE: &str = "held by one person";
/// A short mark in a list.
pub const DIFFERENT: &str = "DIFFERS FROM THE OFFICIAL TEXT";
