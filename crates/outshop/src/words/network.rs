//! The shop's network: https, the shop's certificate, what a phone is told.

/// Where the shop's certificate is fetched.
pub const CERTIFICATE_PATH: &str = "/authority.crt";

/// The page for who comes without https. It is the one page that needs no sign-in, and says nothing of the book.
pub fn come_by_https(host: Option<&str>, own: bool) -> String {
    let way = host.map_or(String::new(), |host| {
        format!("<p><a href=\"https://{host}/\">Go on to https://{host}/</a></p>")
    });
    let fetch = if own {
        format!(
            "<p>First time on this phone? <a href=\"{CERTIFICATE_PATH}\">Fetch the shop's certificate</a>, compare its fingerprint with the one on \
             the printed page, and only then trust it.</p>"
        )
    } else {
        String::new()
    };
    format!(
        "<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <title>This desk speaks https</title></head><body><main><h1>This desk speaks https</h1>\
         <p>What you type here must not cross the network in the open.</p>{way}{fetch}</main></body></html>"
    )
}

/// Served beyond this machine without a private name.
pub fn not_ours(name: &str) -> String {
    format!(
        "The shop's certificate authority vouches for private addresses, and for names that end in .local, .lan, .internal, .home.arpa or .test; \
         `{name}` is neither. Give another with --name, or a certificate of its own with --certificate and --key. Nothing was served."
    )
}

/// A certificate without its key, or a key without its certificate.
pub const BOTH: &str = "A supplied certificate needs its key, and a key its certificate: give both --certificate and --key. Nothing was served.";
/// A supplied certificate, and no name to hold it against.
pub const NAME_IT: &str = "A supplied certificate is made out to a name: give it with --name, as phones are to type it. Nothing was served.";
/// Listening everywhere needs a name that phones can type.
pub const WHICH_NAME: &str = "Who listens on every address must say under which name or address phones come: give --name. Nothing was served.";

/// What `serve` says first.
pub fn served(at: &str, beyond: bool) -> String {
    if beyond {
        format!("Served at {at} to every device of the network that reaches this machine.")
    } else {
        format!("Served at {at} on this machine only.")
    }
}

/// What `serve` says of the certificate.
pub fn own_certificate(fingerprint: &str) -> String {
    format!(
        "Phones must be given the shop's certificate once: outshop print phones. Its SHA-256 fingerprint:\n  {fingerprint}\n"
    )
}

/// The way to the printed page.
pub const PRINT_PHONES: &str = "The page for phones: the shop's certificate, to print";
/// The title of the printed page.
pub const PHONES: &str = "This phone and the shop's book";
/// Small over it.
pub const PHONES_OVER: &str = "To be pinned up beside the bench";
/// What it is for.
pub const PHONES_GOVERNS: &str = "A phone trusts the shop's own desk only after it was given the shop's certificate, once. Do it at the desk, with \
this page in your hand.";
/// The word over the cautions.
pub const CAREFUL: &str = "Before you trust it";
/// Cautions.
pub const CAUTIONS: [&str; 3] = [
    "Compare every pair of the fingerprint with this page. If one differs, stop: somebody else may be answering in the desk's place. Tell the officer.",
    "The certificate vouches for this shop's own network alone; it cannot pass for a bank or a mail service. Still, give it to phones the shop \
     answers for, and take it off again when a phone leaves the shop.",
    "The key of the authority lies beside the book. Whoever copies that file could pass for the desk: keep backups where only officers go.",
];
/// A part.
pub const FETCH: &str = "1. Fetch it";
/// Steps.
pub fn fetch(at: Option<&str>) -> Vec<String> {
    match at {
        Some(at) => vec![
            "Join the shop's network with the phone.".into(),
            format!(
                "Point the camera at the square code, or type http://{at}{CERTIFICATE_PATH} with http and not https. The file shop.crt is fetched."
            ),
        ],
        None => vec![
            "Join the shop's network with the phone.".into(),
            format!(
                "Type http://, the address of the desk, and {CERTIFICATE_PATH}; with http and not https. The file shop.crt is fetched."
            ),
        ],
    }
}
/// A part.
pub const COMPARE: &str = "2. Compare it";
/// Names of facts.
pub const FINGERPRINT: &str = "SHA-256";
/// Names of facts.
pub const ADDRESS: &str = "The desk";
/// A part.
pub const INSTALL: &str = "3. Let the phone trust it";
/// How. Where menus stand differs between phones and from year to year.
pub const STEPS: [&str; 3] = [
    "Android: Settings, search for “CA certificate”, install it from the file. The phone warns that the network may be watched; that is what any \
     certificate of this kind could do, and why the fingerprint was compared.",
    "iPhone and iPad: allow the profile to be downloaded, install it under Settings, General, VPN & Device Management; then switch it on under \
     General, About, Certificate Trust Settings.",
    "A computer: open the file and put it among the trusted root authorities, or into the browser's own list.",
];
/// What the menus are worth.
pub const MENUS: &str = "The names of menus are from memory and change with the years; search the settings for “certificate”.";
/// A part.
pub const THEN: &str = "4. Come in";
/// How.
pub fn then(at: Option<&str>) -> Vec<String> {
    let at = at.map_or("the desk's address with https".into(), |at| {
        format!("https://{at}/")
    });
    vec![
        format!("Open {at} and sign in. There must be no warning now; if there is one, go no further."),
        "An officer enrols the phone on the page People; then each person sets a short code of their own on it.".into(),
    ]
}
/// What the square code is.
pub fn code_told(at: &str) -> String {
    format!("A square code that holds the address http://{at}{CERTIFICATE_PATH}")
}
