//! Devices of the bench, codes, and saying again who one is.

/// The title of the page, and the way there.
pub const SWITCH: &str = "Change who is at this device";
/// The way there, in the head of a page.
pub const SWITCH_SHORT: &str = "Switch";
/// The device has no part in this.
pub const NOT_ENROLLED: &str = "This device is not enrolled, so a short code does not serve here. An officer enrols it on the page People; until then \
everybody signs in by passphrase.";
/// Nobody set one.
pub const NO_CODES: &str = "Nobody has set a code on this device yet: sign in by passphrase, then set one under your name.";
/// Heads the names.
pub const WHO_NOW: &str = "Who is it now?";
/// A field.
pub const CODE: &str = "Code";
/// A button.
pub const THAT_IS_ME: &str = "That is me";
/// Another way in.
pub const BY_PASSPHRASE: &str = "Sign in by passphrase instead";
/// Heads a list.
pub const DEVICES: &str = "Devices of the bench";
/// What they are.
pub const DEVICES_WHY: &str = "On an enrolled device a code of six figures serves in the place of the passphrase. It serves on that device alone, and \
five wrong guesses take it away. A device that is lost is revoked here: its codes are gone, and whoever was signed in on it is signed out.";
/// None.
pub const NO_DEVICES: &str = "None is enrolled.";
/// A mark.
pub const THIS_ONE: &str = "(this one)";
/// Heads a form.
pub const ENROL: &str = "Enrol this device";
/// When.
pub const ENROL_WHY: &str = "Do it on the device itself, if the shop answers for it. Give it a name that is written on it too.";
/// A field.
pub const DEVICE_NAME: &str = "Its name";
/// A button.
pub const ENROL_IT: &str = "Enrol it";
/// A refusal.
pub const OFFICER_ONLY: &str =
    "Only one who may approve enrols devices or takes them back. Nothing was changed.";
/// A refusal.
pub const NAME_NEEDED: &str =
    "A device needs a name of 1 to 40 letters, such as: bench phone 2. Nothing was changed.";
/// A refusal.
pub const NAME_TAKEN: &str = "A device of that name is enrolled already: give another name, or revoke that one first. Nothing was changed.";
/// A refusal.
pub const NO_SUCH_DEVICE: &str = "No device of that name is enrolled. Nothing was changed.";
/// Heads a page of refusal.
pub const NOT_DONE: &str = "That was not done";
/// Heads a form.
pub const OWN_CODE: &str = "Your code on this device";
/// A field.
pub const NEW_CODE: &str = "New code, six figures";
/// A button.
pub const SET_CODE: &str = "Set the code";
/// What a code must be.
pub const CODE_RULES: &str = "A code has six figures, not all alike and not in a row: 493817 would do, 123456 and 777777 would not. Nothing was changed.";
/// Who signs says again who they are.
pub const SIGN_WITH: &str = "Your passphrase, or your code on this device";
/// What stands above it.
pub const SIGNING: &str =
    "This is a signature: it says once more who you are, and stands under your name.";
/// Nothing given.
pub const SIGN_AGAIN: &str = "A signature says once more who signs: your passphrase, or your code on an enrolled device, was expected.";
/// Nothing to hold it against.
pub const NOTHING_SET: &str = "You have no passphrase yet, so nobody can tell that it is you who signs: set one under your name, then sign.";
/// Wrong.
pub const WRONG_PASSPHRASE: &str = "That is not your passphrase.";
/// Wrong.
pub const WRONG_CODE: &str = "That is not the code of this person on this device. After five wrong guesses it is taken away.";
/// Gone.
pub const CODE_SPENT: &str = "The code was guessed wrong too often and is taken away: use the passphrase, and set a new code under your name.";
/// None was set.
pub const NO_CODE: &str = "You have set no code on this device: use your passphrase.";

/// Where one is.
pub fn at_device(name: &str) -> String {
    format!("This is {name}. What is entered from now on is theirs who gives the code.")
}

/// Who enrolled it.
pub fn enrolled_by(name: &str) -> String {
    format!("enrolled by {name}")
}

/// A button.
pub fn revoke(name: &str) -> String {
    format!("Revoke {name}")
}

/// What a code is.
pub fn code_rules(device: &str) -> String {
    format!(
        "Six figures that serve on {device} in the place of your passphrase: to sign in, and to sign. Not a date, and not what opens your own phone. \
         It is kept beside the book as a hash, together with this device's own secret; it is never in the book."
    )
}
