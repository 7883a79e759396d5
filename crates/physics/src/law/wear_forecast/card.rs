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
pub const ID: &str = "wear.forecast";
/// The one branch.
pub const OPENINGS: &str = "openings";

const RATES: &str = "each opening's wear over its service days, every opening counted alike";
const DAYS: &str = "room over rate";
const CHANCE: &str = "chance that Student's t, with one degree of freedom fewer than openings, lies beyond (rate to \
    reach the limit less mean rate) over b";
const MIRROR: &str = "one rate over the other";

/// What the openings give to the formula.
pub const SYMBOLS: Symbols = Symbols::of(
    RATES,
    "openings without an as-left reading or without service days",
    "sum of their rates a service day",
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Wear of one feature across its openings, and the service days it leaves",
    purpose: "From what a feature was left at, what it was found at next time, and the service days between: how fast it \
        wears, how sure that is from so few openings, how many service days are left to the shop's limit and to the law's, \
        and the chance of reaching them before it is opened again.",
    formula: "
        n = n_g - n_w
        r = u / n
        s = sqrt(q / (n - 1))
        c = t * s / sqrt(n)
        b = s * sqrt(1 + 1 / n)
        e = t * b
        M_s = max(0, z * (m_s - x))
        M_r = max(0, z * (m_r - x))
        L_s = M_s / g
        L_r = M_r / g
        K_s = M_s / (g + e)
        K_r = M_r / (g + e)
        w_s = M_s / d
        w_r = M_r / d
        k = g / f",
    book_units: None,
    arguments: &[
        WEARS,
        Argument::list("as_left", Dimension::Length, "0 in", "100 in", (1, 24), "what the feature was left at, at each opening but the newest, oldest first; ? where nobody wrote it down").with_gaps(),
        Argument::list("as_found", Dimension::Length, "0 in", "100 in", (1, 24), "what it was found at, at the opening after each of those, in the same order"),
        Argument::list("days", Dimension::Count, "1", "20000", (1, 24), "service days between the two, in the same order; ? where no log was kept").with_gaps(),
        Argument::quantity("present", "x", Dimension::Length, "0 in", "100 in", "the reading the forecast starts from: as it is left now, at the same place"),
        figure("shop_limit", "m_s", Dimension::Length, "0 in", "100 in", "the shop's own limit for the reading"),
        figure("rule_limit", "m_r", Dimension::Length, "0 in", "100 in", "the limit of the law in force for the reading"),
        Argument::quantity("days_ahead", "d", Dimension::Count, "1", "20000", "service days until it is opened next").optional(),
        Argument::quantity("confidence", "p", Dimension::Ratio, "0.5", "0.999", "how sure the intervals are to be, both sides together").optional(),
        Argument::quantity("mirror_rate", "f", Dimension::Length, "0.0000001 in", "1 in", "rate of its mirror on the other side of the engine, a service day, from a sheet of its own").optional(),
        Argument::quantity("mirror_factor", "v", Dimension::Ratio, "1.1", "20", "how many times its mirror it may wear before somebody looks why").optional(),
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
        Symbol::of("b", Dimension::Length, "spread to reckon with for the rate to the next opening: that of the openings, and that of their mean", SPREAD),
        Symbol::of("M_s", Dimension::Length, "room to the shop's limit", ROOM),
        Symbol::of("M_r", Dimension::Length, "room to the rule's limit", ROOM),
    ],
    results: &[
        ResultSpec::quantity("counted", "n", Dimension::Ratio, (0, 0), "openings that give a rate", RATES),
        ResultSpec::text("direction", "which way the readings went", RATES),
        ResultSpec::quantity("rate", "r", Dimension::Length, (7, 6), "mean wear in one service day; with a minus where the readings went the other way", RATES).rounded(Rounding::Up),
        ResultSpec::quantity("spread", "s", Dimension::Length, (7, 6), "standard deviation of the openings' rates", SPREAD).rounded(Rounding::Up),
        ResultSpec::quantity("mean_interval", "c", Dimension::Length, (7, 6), "either way from the mean rate: where the true mean lies, at the confidence", STUDENT).rounded(Rounding::Up),
        ResultSpec::quantity("interval", "e", Dimension::Length, (7, 6), "either way from the mean rate: where the rate to the next opening lies, at the confidence", STUDENT).rounded(Rounding::Up),
        ResultSpec::quantity("days_to_shop_limit", "L_s", Dimension::Ratio, (0, 0), "service days to the shop's limit at the mean rate", DAYS).rounded(Rounding::Down),
        ResultSpec::quantity("days_to_rule_limit", "L_r", Dimension::Ratio, (0, 0), "service days to the rule's limit at the mean rate", DAYS).rounded(Rounding::Down),
        ResultSpec::quantity("soonest_shop_limit", "K_s", Dimension::Ratio, (0, 0), "service days to the shop's limit at the fast end of the interval", DAYS).rounded(Rounding::Down),
        ResultSpec::quantity("soonest_rule_limit", "K_r", Dimension::Ratio, (0, 0), "service days to the rule's limit at the fast end of the interval", DAYS).rounded(Rounding::Down),
        ResultSpec::quantity("rate_to_shop_limit", "w_s", Dimension::Length, (7, 6), "the rate that would reach the shop's limit just at the next opening", DAYS).rounded(Rounding::Down),
        ResultSpec::quantity("rate_to_rule_limit", "w_r", Dimension::Length, (7, 6), "the rate that would reach the rule's limit just at the next opening", DAYS).rounded(Rounding::Down),
        ResultSpec::quantity("chance_shop_limit", "", Dimension::Ratio, (3, 3), "chance of reaching the shop's limit before the next opening", CHANCE).rounded(Rounding::Up),
        ResultSpec::quantity("chance_rule_limit", "", Dimension::Ratio, (3, 3), "chance of reaching the rule's limit before the next opening", CHANCE).rounded(Rounding::Up),
        ResultSpec::quantity("mirror_ratio", "k", Dimension::Ratio, (2, 2), "its rate over that of its mirror", MIRROR),
        ResultSpec::text("mirror", "how it stands to its mirror", MIRROR),
        ResultSpec::table("openings", "every opening with its rate", RATES),
    ],
    branches: &[OPENINGS],
    validity: "One feature at one place, read the same way each time, worn much as it will be worn again. The openings are \
        taken as draws from one normal spread, which nobody can show from two or three: the interval is wide because so \
        little is known, and a new lubricant, driver or load makes a new history. An opening without its as-left reading \
        or its service days gives no rate and is named. An outlier (Grubbs' test, either side, 5 percent) is marked and \
        never dropped. More wear at one opening makes the mean rate greater and every life at it shorter; the interval \
        may still grow narrower, where that opening comes nearer to the others.",
    sources: &[
        Source {
            work: "NIST/SEMATECH e-Handbook of Statistical Methods",
            locator: "1.3.5.2 confidence limits for the mean; 1.3.5.17 Grubbs' test",
            used_for: "the interval of the mean and the test for one outlier; recalled, with its printed cases held in tests",
        },
        Source {
            work: "Table of Grubbs' test (scribd.com 249116410)",
            locator: "critical values at 0.05, 3 to 100 readings",
            used_for: "how far from the mean an opening stands out; ten of them held in tests",
        },
        Source {
            work: "Abramowitz and Stegun, Handbook of Mathematical Functions",
            locator: "26.7.3 and 26.7.4",
            used_for: "Student's t with whole degrees of freedom; recalled, and held against scipy",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "that twice the wear of its mirror makes a shop look for the cause",
        },
    ],
    cautions: CAUTIONS,
    closed_form: ClosedForm::No(
        "The rates of the openings, Student's t and its chances are worked outside the formula; each value found stands on the sheet.",
    ),
};
