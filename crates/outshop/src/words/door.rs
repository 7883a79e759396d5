//! Signing in and out, and the reader's own page.

/// The title of the door.
pub const SIGN_IN: &str = "Sign in";
/// Asks.
pub const WHO: &str = "Who is at the desk?";
/// Why it is asked, and how to come in the first time.
pub const WHY: &str = "Every entry is somebody's. The first time, use the link that the program prints when it starts.";
/// A field.
pub const NAME: &str = "Name";
/// A field.
pub const PASSPHRASE: &str = "Passphrase";
/// A name and a passphrase that do not fit.
pub const WRONG: &str =
    "That name and passphrase do not go together, or none has been set yet. Nothing was changed.";
/// Too many wrong guesses: how long to wait, and who need not.
pub fn wait(seconds: i64) -> String {
    let long = match seconds {
        1 => "1 second".to_string(),
        2..120 => format!("{seconds} seconds"),
        _ => format!("{} minutes", (seconds + 59) / 60),
    };
    format!(
        "Too many wrong passphrases for this name: wait {long}, then try again. Whoever is at the machine itself need not \
         wait: `outshop serve` prints a link that signs in at once. Nothing was changed."
    )
}

/// What a link is good for.
pub const LINK_WORKS: &str = "The link works once, on this machine, within the hour.";
/// A link that was used, or is too old.
pub const SPENT: &str = "This link is spent";
/// What to do about it.
pub const SPENT_WHY: &str = "A link works once and for an hour. Start the program again for a new one, or sign in with a passphrase.";
/// Heads a form.
pub const SET_PASSPHRASE: &str = "Set a passphrase";
/// What a passphrase must be, and what setting one does.
pub const PASSPHRASE_RULES: &str = "Twelve characters or more. It ends every other session of yours. It is kept beside the book as a hash, never in it.";
/// A field.
pub const NEW_PASSPHRASE: &str = "New passphrase";
/// A button.
pub const SET_IT: &str = "Set it";
/// Heads a form.
pub const UNITS: &str = "Units you read in";
/// What they change, and what they do not.
pub const UNITS_MEAN: &str = "What somebody wrote stays as it was written; the same in your units stands after it in brackets. Your choice changes no reading, no limit and no verdict.";
/// A choice.
pub const UNITS_OF_SHOP: &str = "as the shop does";
/// A choice.
pub const UNITS_INCH: &str = "inches";
/// A choice.
pub const UNITS_METRIC: &str = "millimeters";
/// A button.
pub const READ_SO: &str = "Read so";
/// A form without a choice.
pub const NO_UNITS: &str =
    "Which units? The shop's, inches or millimeters were expected. Nothing was saved.";
/// Heads a form by which an officer lets somebody in.
pub const LET_IN: &str = "Let somebody in";
/// When that is wanted.
pub const LET_IN_WHY: &str = "For someone who has no passphrase yet, or has lost it: a link that signs them in once, at this desk. Every entry they make is theirs.";
/// A button.
pub const MAKE_LINK: &str = "Make a link";
/// A link that could not be made.
pub const NO_LINK: &str = "No link was made";
/// Why not.
pub const OFFICER_ONLY: &str =
    "Only one who may approve lets others in. Nothing was made; ask the responsible officer.";
/// What to do with a link.
pub const HAND_OVER: &str = "Hand the desk over to them and let them follow it; what is signed from then on is theirs. They set a passphrase on their own page, under their name.";
/// A form that is no form.
pub const TOO_LONG: &str = "The form was too long. Nothing was saved.";
/// A passphrase that is too short.
pub const TOO_SHORT: &str = "A passphrase needs twelve characters or more. Nothing was saved.";
/// A form sent by another site.
pub const FROM_ELSEWHERE: &str = "That came from another page";
/// What that means.
pub const FROM_ELSEWHERE_WHY: &str =
    "The act was asked for by a page that is not this book's. Nothing was saved.";

/// Asks the person of a link; ends with a question mark in the head of the page.
pub fn sign_in_as(name: &str) -> String {
    format!("Sign in as {name}")
}

/// The same as a question.
pub fn sign_in_as_asked(name: &str) -> String {
    format!("Sign in as {name}?")
}

/// Heads the page of a link.
pub fn link_for(name: &str) -> String {
    format!("A link for {name}")
}

/// What a person may do in this book.
pub fn may(authorities: &[&str]) -> String {
    if authorities.is_empty() {
        "Holds no authority in this book.".into()
    } else {
        format!("May {}.", authorities.join(", "))
    }
}
