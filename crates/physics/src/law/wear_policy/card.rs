//! The card: what is asked, what is answered, and where it comes from.

use super::answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::wear::CAUTIONS;
use measure::{Dimension, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "wear.policy";
/// The one branch.
pub const PLAN: &str = "plan";

const PROGRAM: &str = "dynamic program, from the last opening back to the first";
const SAVED: &str = "one plan less the other";
const THREE: &str = "mean and spread, put on three values";

/// Hours of the plan.
pub const CHEAPEST: Symbol = Symbol::named("h_e", "h", "expected hours of the plan", PROGRAM);
/// Hours of renewing always.
pub const RENEWING: Symbol = Symbol::named(
    "h_r",
    "h",
    "expected hours of renewing at every opening",
    PROGRAM,
);
/// Hours of cutting always.
pub const CUTTING: Symbol = Symbol::named(
    "h_c",
    "h",
    "expected hours of the smallest cut at every opening",
    PROGRAM,
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Leave, cut or renew: what to do at each opening so that the hours come out least",
    purpose: "A part that wears and can be cut back to true a few times before it is bushed or renewed. For every opening in \
        the horizon, by the metal that is left and the wear since the last cut: which act is expected to take the fewest \
        hours from there on, stops out of turn counted in; and what renewing every time or cutting every time would take.",
    formula: "
        W = w + sqrt(3) * s
        D_r = h_r - h_e
        D_c = h_c - h_e
        E = h_e / o",
    book_units: None,
    arguments: &[
        Argument::quantity("metal", "a", Dimension::Length, "0 in", "5 in", "metal left above the size that condemns it, from the surface as it was last cut"),
        Argument::quantity("wear", "y", Dimension::Length, "0 in", "2 in", "wear since that cut, as found now; 0 where it is as cut"),
        Argument::quantity("new_metal", "a_n", Dimension::Length, "0.002 in", "5 in", "metal of a new part or bush above the size that condemns it"),
        Argument::quantity("step", "c", Dimension::Length, "0.002 in", "1 in", "metal that the smallest cut takes, and the wear that it clears"),
        Argument::quantity("wear_limit", "l", Dimension::Length, "0.001 in", "2 in", "wear since the last cut that a limit of the law or of the shop allows; the figure itself passes"),
        Argument::quantity("wear_mean", "w", Dimension::Length, "0 in", "2 in", "wear expected from one opening to the next: the rate times the service days"),
        Argument::quantity("wear_spread", "s", Dimension::Length, "0 in", "1 in", "standard deviation of that; 0 only where wear is the same every time"),
        Argument::quantity("hours_leave", "b_l", Dimension::Ratio, "0", "2000", "hours to look at it, measure it and leave it"),
        Argument::quantity("hours_cut", "b_c", Dimension::Ratio, "0", "2000", "hours to cut it"),
        Argument::quantity("hours_renew", "b_r", Dimension::Ratio, "0", "2000", "hours to bush or renew it"),
        Argument::quantity("hours_forced", "b_f", Dimension::Ratio, "0", "5000", "hours more where it stops the engine between openings: taking down out of turn, lost days as the shop counts them"),
        Argument::quantity("openings", "o", Dimension::Count, "1", "60", "openings in the horizon, this one counted; a stretch of service follows each"),
    ],
    table_values: &[CHEAPEST, RENEWING, CUTTING],
    lines: &[],
    results: &[
        ResultSpec::text("now", "what the plan does at this opening", PROGRAM),
        ResultSpec::table("plan", "what the plan does at each opening, by the cuts left, wherever the plan can come to", PROGRAM),
        ResultSpec::quantity("expected", "", Dimension::Ratio, (1, 1), "hours the plan is expected to take over the horizon", PROGRAM).rounded(Rounding::Up),
        ResultSpec::quantity("stops", "", Dimension::Ratio, (2, 2), "stops out of turn to be expected with the plan", PROGRAM).rounded(Rounding::Up),
        ResultSpec::quantity("renew_always", "", Dimension::Ratio, (1, 1), "hours where it is renewed at every opening", PROGRAM).rounded(Rounding::Up),
        ResultSpec::quantity("renew_stops", "", Dimension::Ratio, (2, 2), "stops out of turn to be expected then", PROGRAM).rounded(Rounding::Up),
        ResultSpec::quantity("cut_always", "", Dimension::Ratio, (1, 1), "hours where the smallest cut is taken at every opening, and it is renewed where none is left", PROGRAM).rounded(Rounding::Up),
        ResultSpec::quantity("cut_stops", "", Dimension::Ratio, (2, 2), "stops out of turn to be expected then", PROGRAM).rounded(Rounding::Up),
        ResultSpec::quantity("saved_on_renewing", "D_r", Dimension::Ratio, (1, 1), "hours the plan saves on renewing always", SAVED).rounded(Rounding::Down),
        ResultSpec::quantity("saved_on_cutting", "D_c", Dimension::Ratio, (1, 1), "hours the plan saves on cutting always", SAVED).rounded(Rounding::Down),
        ResultSpec::quantity("hours_an_opening", "E", Dimension::Ratio, (2, 2), "hours of the plan for each opening", PROGRAM).rounded(Rounding::Up),
        ResultSpec::quantity("hard_wear", "W", Dimension::Length, (4, 3), "wear of a hard stretch, one in six", THREE).rounded(Rounding::Up),
        ResultSpec::table("stretch", "the wear of one stretch that was reckoned with, and its chance", THREE),
    ],
    branches: &[PLAN],
    validity: "The model, in words. Metal is counted in whole smallest cuts, what is over is not counted; wear is counted in \
        eighths of a cut. At each opening the part is left, or cut, or renewed. A cut takes as few steps as clear the wear, \
        one at least, and the same hours whatever the steps. Renewing gives a new part's metal and no wear. Each stretch wears the mean, or the mean and more or \
        less 1.732 spreads, with chances 4, 1 and 1 in 6, whatever came before; wear does not turn back, and what falls \
        between two eighths is shared between them so that the mean stays. A part must not wear past the limit, nor past \
        its metal: it then stops the engine in mid stretch, is cut or renewed there with the forced hours on top, and wears \
        the rest of the stretch; a second stop in one stretch is not counted. Every opening comes in its turn, hours are \
        alike over the years and none is discounted, and what metal is left after the last stretch is worth nothing: towards \
        the end of the horizon the plan spends metal that a shop would keep, so read its first openings and set the horizon \
        long. What a cut does to mating parts is not in it unless its hours are.",
    sources: &[
        Source {
            work: "R. Bellman, Dynamic Programming",
            locator: "the principle of optimality (recalled, not read)",
            used_for: "working from the last opening back; held in tests against every plan tried one by one",
        },
        Source {
            work: "Three-point rule of Gauss and Hermite",
            locator: "nodes 0 and 1.732, weights 2/3 and 1/6 (recalled; held against numpy)",
            used_for: "a normal spread put on three values of the same mean and deviation",
        },
    ],
    cautions: CAUTIONS,
    closed_form: ClosedForm::No(
        "The hours come out of a search over every act at every opening; the formula only sets them beside each other.",
    ),
};
