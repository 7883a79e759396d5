//! Copies of the book: what was made, what is kept, what is wanting.

use std::path::Path;

use store::{Keep, LastCopy, Relation};

/// The title of the page.
pub const TITLE: &str = "Copies of the book";
/// The name of the way there.
pub const COPIES: &str = "Copies of the book";
/// Why there is such a page.
pub const WHY: &str = "The whole record of the shop is one file. A copy on a disk that lies somewhere else is what stands between it and a \
fire, a thief or a failed disk.";
/// Never copied.
pub const NEVER: &str = "This book was never copied: if this disk fails, everything in it is lost.";
/// A figure that makes no sense.
pub const NO_DAYS: &str =
    "A copy every 0 days cannot be kept: 1 or more was expected. Nothing was copied.";
/// No place to copy to.
pub const NO_FOLDER: &str = "Where should the copy go? Name a folder on another disk once, such as `outshop backup /media/stick`; it is \
remembered. Nothing was copied.";
/// The copy would die with the book.
pub const SAME_DISK: &str = "The copy lies on the same disk as the book. It helps against a slip of the hand; it does not help when the disk \
fails or the machine is stolen. Copy to another disk too.\n";
/// The keys are there.
pub const WITH_KEYS: &str =
    "Its keys came with it: passphrases hold, and the devices of the bench are known.";
/// They are not.
pub const NO_KEYS: &str = "No keys lie beside the copy: everybody signs in by a link at first and sets a passphrase anew, devices are \
enrolled again, and phones are given the new certificate.";
/// A drill without a book to hold the copy against.
pub const NO_BOOK_BESIDE: &str =
    "No book was named to hold it against (--book FILE); the copy was proved by itself.";
/// Heads a list.
pub const LAST: &str = "The last copies";
/// None of them.
pub const NONE_YET: &str = "None yet.";
/// Heads what to do.
pub const HOW: &str = "How a copy is made";
/// What to type.
pub const TYPE: &str = "At the machine the book lies on, while it is served or not:";
/// After that.
pub const AFTERWARDS: &str = "The folder is remembered; from then on the button below does the same, and so does `outshop backup` without a \
folder. The copy is opened, checked from entry 1 and held against the book before it gets its name. The keys beside the book are copied with it: \
keep the copies where only those go who may sign for the shop.";
/// Heads the drill.
pub const DRILL: &str = "Whether it could be restored";
/// What the drill is.
pub const DRILL_WHY: &str = "A copy that nobody ever opened is a hope. The drill makes the book again from a copy, checks it from entry 1, holds it \
against this book, and takes it away again:";
/// The button.
pub const DRILL_IT: &str = "Try the newest copy now";
/// The same without the page.
pub const OR_AT_MACHINE: &str = "Or at the machine:";
/// There is no copy.
pub const NOTHING_TO_DRILL: &str = "There is no copy yet that could be tried. Copy the book first.";
/// Heads the button.
pub const NOW: &str = "Copy now";
/// The button.
pub const COPY_IT: &str = "Copy the book now";
/// Who may.
pub const OFFICER_ONLY: &str = "Only one who may approve copies the book. Nothing was copied.";
/// No folder was named yet.
pub const FIRST_AT_MACHINE: &str = "The folder is named at the machine, once.";

/// A remembered folder that is not there: the stick is not in.
pub fn folder_gone(folder: &Path) -> String {
    format!(
        "The folder {} is not there: put the disk or stick in, or name another folder. Nothing was copied.",
        folder.display()
    )
}

/// Too long ago.
pub fn too_long(days: i64, every: u32) -> String {
    format!("The book was last copied {days} days ago; a copy every {every} days was asked for.")
}

/// A copy was made.
pub fn copied(book: &Path, keys: &Path) -> String {
    format!(
        "Copied to {}, with its keys in {}.",
        book.display(),
        keys.display()
    )
}

/// What the rule kept.
pub fn rule(keep: Keep) -> String {
    format!(
        "Kept in the folder: the {} newest copies, and the newest of each month before them for {} months.",
        keep.newest, keep.months
    )
}

/// What the rule did.
pub fn rotated(keep: Keep, gone: usize) -> String {
    format!(
        "{} {} taken away.",
        rule(keep),
        super::count(gone, "older copy was", "older copies were")
    )
}

/// A book was made again.
pub fn restored(copy: &Path, to: &Path) -> String {
    format!(
        "The book is restored to {} from {}.",
        to.display(),
        copy.display()
    )
}

/// The drill held.
pub fn drilled(copy: &Path) -> String {
    format!(
        "The copy {} opens, checks and restores to an equal book. That book was taken away again.",
        copy.display()
    )
}

/// How a copy stands to the present book.
pub fn against(relation: Relation) -> String {
    match relation {
        Relation::Equal => "It is the present book, entry for entry.".into(),
        Relation::Behind(1) => {
            "It is the present book but for the last entry, which was made since.".into()
        }
        Relation::Behind(n) => {
            format!("It is the present book but for the last {n} entries, which were made since.")
        }
        Relation::Parts(at) => format!(
            "IT IS NOT THE PRESENT BOOK: the two part at entry {at}. It is a copy of another book, or one of them was changed. Set both aside as \
             they are and find out which."
        ),
    }
}

/// One of the last copies.
pub fn one(day: &str, copy: &LastCopy) -> String {
    let same = if copy.same_disk {
        ", on the same disk as the book"
    } else {
        ""
    };
    format!(
        "{day}: to {}, through entry {}{same}",
        copy.place, copy.entry
    )
}

/// What to type for a copy.
pub fn type_copy(book: &str) -> String {
    format!("outshop backup FOLDER --book {book}")
}

/// What to type for a drill.
pub fn type_drill(book: &str) -> String {
    format!("outshop restore COPY --drill --book {book}")
}

/// What `new` says at its end.
pub fn first_day(book: &str) -> String {
    format!(
        "Copy it before the day is over, to a disk that lies somewhere else: outshop backup FOLDER --book {book}"
    )
}
