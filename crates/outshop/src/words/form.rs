//! What is said of a form that does not read.

/// A form without a verb.
pub const NO_VERB: &str = "The form does not say what it asks. Nothing was saved.";

/// A verb that is not for pages.
pub fn not_for_pages(verb: &str) -> String {
    format!("A page cannot ask for `{verb}`. Nothing was saved.")
}

/// A field that should be a number.
pub fn not_a_number(value: &str) -> String {
    format!("`{value}` is not a whole number. Nothing was saved.")
}

/// A file named in a form.
pub const NO_FILE: &str = "A page does not read files of the machine the book lies on: a file is sent by a page that asks for one. Nothing was saved.";
