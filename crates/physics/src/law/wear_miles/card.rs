//! The card: what is asked, what is answered, and where it comes from.

use super::answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::limit::figure;
use crate::wear::{CAUTIONS, ROOM, SIGN, SPREAD, STUDENT, Symbols, WEARS};
use measure::{Dimension, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "wear.miles";
/// The one branch.
pub const OPENINGS: &str = "openings";

const RATES: &str = "each opening's wear over its thousands of miles, every opening counted alike";
const MILES: &str = "room over rate";
const DAYS: &str = "miles to the limit over miles a service day";

/// What the openings give to the formula.
pub const SYMBOLS: Symbols = Symbols::of(
    RATES,
    "openings without an as-left reading or without miles",
    "sum of their rates in a thousand miles",
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Wear of one feature by the miles run, and the miles it leaves",
    purpose: "The same openings as in wear.forecast, by the miles run between them in place of service days: how fast it \
        wears in a thousand miles, how many miles are left to the shop's limit and to the law's, and how many service days \
        those are at her miles a service day. What wears with every turn of a wheel may go by miles; what wears with heat, \
        scale and hours under steam may go by days. Which of the two goes better with a part is not guessed: both stand.",
    formula: "
        n = n_g - n_w
        r = u / n
        s = sqrt(q / (n - 1))
        e = t * s * sqrt(1 + 1 / n)
        M_s = max(0, z * (m_s - x))
        M_r = max(0, z * (m_r - x))
        L_s = 1000 * M_s / g
        L_r = 1000 * M_r / g
        K_s = 1000 * M_s / (g + e)
        K_r = 1000 * M_r / (g + e)
        D_s = 1000 * M_s / (g * y)
        D_r = 1000 * M_r / (g * y)",
    book_units: None,
    arguments: &[
        WEARS,
        Argument::list("as_left", Dimension::Length, "0 in", "100 in", (1, 24), "what the feature was left at, at each opening but the newest, oldest first; ? where nobody wrote it down").with_gaps(),
        Argument::list("as_found", Dimension::Length, "0 in", "100 in", (1, 24), "what it was found at, at the opening after each of those, in the same order"),
        Argument::list("miles", Dimension::Count, "1", "2000000", (1, 24), "miles run between the two, in the same order; ? where a day's miles are not in the log").with_gaps(),
        Argument::quantity("present", "x", Dimension::Length, "0 in", "100 in", "the reading the forecast starts from: as it is left now, at the same place"),
        figure("shop_limit", "m_s", Dimension::Length, "0 in", "100 in", "the shop's own limit for the reading"),
        figure("rule_limit", "m_r", Dimension::Length, "0 in", "100 in", "the limit of the law in force for the reading"),
        Argument::quantity("miles_a_day", "y", Dimension::Ratio, "0.1", "2000", "miles she makes in a service day").optional(),
        Argument::quantity("confidence", "p", Dimension::Ratio, "0.5", "0.999", "how sure the interval is to be, both sides together").optional(),
    ],
    table_values: &[
        SYMBOLS.given,
        SYMBOLS.without,
        SYMBOLS.sum,
        SYMBOLS.squares,
        SYMBOLS.t,
        SYMBOLS.reckoned,
        SIGN,
    ],
    lines: &[
        Symbol::of("M_s", Dimension::Length, "room to the shop's limit", ROOM),
        Symbol::of("M_r", Dimension::Length, "room to the rule's limit", ROOM),
    ],
    results: &[
        ResultSpec::quantity("counted", "n", Dimension::Ratio, (0, 0), "openings that give a rate", RATES),
        ResultSpec::text("direction", "which way the readings went", RATES),
        ResultSpec::quantity("rate", "r", Dimension::Length, (6, 5), "mean wear in a thousand miles; with a minus where the readings went the other way", RATES).rounded(Rounding::Up),
        ResultSpec::quantity("spread", "s", Dimension::Length, (6, 5), "standard deviation of the openings' rates", SPREAD).rounded(Rounding::Up),
        ResultSpec::quantity("interval", "e", Dimension::Length, (6, 5), "either way from the mean rate: where the rate to the next opening lies, at the confidence", STUDENT).rounded(Rounding::Up),
        ResultSpec::quantity("miles_to_shop_limit", "L_s", Dimension::Ratio, (0, 0), "miles to the shop's limit at the mean rate", MILES).rounded(Rounding::Down),
        ResultSpec::quantity("miles_to_rule_limit", "L_r", Dimension::Ratio, (0, 0), "miles to the rule's limit at the mean rate", MILES).rounded(Rounding::Down),
        ResultSpec::quantity("soonest_shop_limit", "K_s", Dimension::Ratio, (0, 0), "miles to the shop's limit at the fast end of the interval", MILES).rounded(Rounding::Down),
        ResultSpec::quantity("soonest_rule_limit", "K_r", Dimension::Ratio, (0, 0), "miles to the rule's limit at the fast end of the interval", MILES).rounded(Rounding::Down),
        ResultSpec::quantity("days_to_shop_limit", "D_s", Dimension::Ratio, (0, 0), "service days to the shop's limit, by miles", DAYS).rounded(Rounding::Down),
        ResultSpec::quantity("days_to_rule_limit", "D_r", Dimension::Ratio, (0, 0), "service days to the rule's limit, by miles", DAYS).rounded(Rounding::Down),
        ResultSpec::table("openings", "every opening with its rate", RATES),
    ],
    branches: &[OPENINGS],
    validity: "One feature at one place, read the same way each time, and miles of every day between two openings: an opening \
        with one day's miles wanting gives no rate, for fewer miles make the wear look faster and more make it look slower, \
        and neither is known. Miles in and out of the shop that nobody logs are in no rate. The openings are taken as draws \
        from one normal spread, which nobody can show from two or three: the interval is wide because so little is known. \
        Service days by miles hold for days like those her miles a day were counted on.",
    sources: &[
        Source {
            work: "NIST/SEMATECH e-Handbook of Statistical Methods",
            locator: "1.3.5.2 confidence limits for the mean",
            used_for: "the interval; recalled, as in wear.forecast",
        },
        Source {
            work: "Abramowitz and Stegun, Handbook of Mathematical Functions",
            locator: "26.7.3 and 26.7.4",
            used_for: "Student's t with whole degrees of freedom; recalled, and held against scipy",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "that wear is reckoned by miles run beside days in service",
        },
    ],
    cautions: CAUTIONS,
    closed_form: ClosedForm::No(
        "The rates of the openings and Student's t are worked outside the formula; each value found stands on the sheet.",
    ),
};
