//! `steam.blowdown`: how much of the water must be blown down for what is dissolved in it not to pass a limit.

use crate::answer::{Answer, Outcome};
use crate::boiler::REVIEW;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use measure::{Dimension, Flow, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const BALANCE: &str = "what comes in with the feed goes out with the blowdown; steam carries none";

/// A share of the water or the steam.
const fn share(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Ratio, (4, 4), meaning, BALANCE)
        .rounded(Rounding::Up)
}

/// Water in an hour.
const fn flow(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Flow, (0, 0), meaning, BALANCE)
        .rounded(Rounding::Up)
}

static CARD: Card = Card {
    id: "steam.blowdown",
    version: 1,
    title: "Blowing down by share",
    purpose: "Steam leaves and what was dissolved stays. From what is dissolved in the feed and the most allowed in the boiler: how \
        many times the feed may be thickened, and how much water must be blown down, as a share of the feed and of the steam.",
    formula: "
        c = s / f
        q_f = f / s
        q_s = f / (s - f)
        B = S * q_s
        F = S + B
        k = n / f
        l = s - n",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "feed",
            "f",
            Dimension::Ratio,
            "0.1",
            "10000",
            "dissolved in the feed as it enters the boiler, in parts per million, or by its conductivity",
        ),
        figure(
            "limit",
            "s",
            Dimension::Ratio,
            "10",
            "50000",
            "the most allowed in the boiler, in the same measure, by whoever treats the water; the figure itself passes",
        ),
        Argument::quantity(
            "now",
            "n",
            Dimension::Ratio,
            "0",
            "100000",
            "in the boiler now, in the same measure, a cooled sample",
        )
        .optional(),
        Argument::quantity(
            "steam",
            "S",
            Dimension::Flow,
            "1 lb/h",
            "200000 lb/h",
            "steam made in an hour, as she works",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "cycles",
            "c",
            Dimension::Ratio,
            (2, 2),
            "times the feed may be thickened",
            BALANCE,
        )
        .rounded(Rounding::Down),
        share("of_feed", "q_f", "blowdown as a share of the feed"),
        share("of_steam", "q_s", "blowdown as a share of the steam"),
        flow("blowdown", "B", "water to be blown down in an hour"),
        flow(
            "feed_needed",
            "F",
            "feed in an hour: the steam and the blowdown",
        ),
        ResultSpec::quantity(
            "cycles_now",
            "k",
            Dimension::Ratio,
            (2, 2),
            "times the water is thickened now",
            BALANCE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Ratio,
            (0, 0),
            "what the water now keeps of the limit; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text(
            "complies",
            "how the water now stands to the limit given",
            FIGURE,
        ),
    ],
    branches: &["blowdown"],
    validity: "Water that is changed as fast as it thickens, as over a long day; one measure for feed, boiler and limit. Steam that \
        carries water over takes some along, and the boiler thickens less. Two shares are in use and differ: of the feed, and \
        of the steam; say which.",
    sources: &[
        Source {
            work: "UFC 3-240-13FN, Industrial Water Treatment Operation and Maintenance",
            locator: "3-1.6, equations 5 to 8 with their example (read at buildingcriteria1.tpub.com, page 62)",
            used_for: "cycles, share of the feed, blowdown and feed",
        },
        Source {
            work: "Yamatho Supply, Calculate boiler water blowdown flow",
            locator: "yamathosupply.com/blogs/news/calculate-boiler-water-blowdown-flow, example",
            used_for: "the share of the steam, by another hand",
        },
    ],
    cautions: &[
        "Blow down with the glass in view, one person at the valve who does nothing else, and nobody where it discharges.",
        "Hot water and mud: know where the muffler or the pit leads, and who walks there.",
        "Less blowing than this lets a boiler prime and carry water into cylinders; limits and treatment are set by whoever answers for the water.",
        REVIEW,
    ],
    closed_form: ClosedForm::Yes,
};

/// The share of the feed that is blown down where the feed may thicken from one figure to another.
pub fn of_feed(feed: f64, limit: f64) -> f64 {
    feed / limit
}

/// The same as a share of the steam.
pub fn of_steam(feed: f64, limit: f64) -> f64 {
    feed / (limit - feed)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let feed = inputs.need_si("feed")?;
    let (limit, now) = (inputs.si("limit"), inputs.si("now"));
    let mut answer = Answer::new("blowdown");
    if let Some(limit) = limit {
        if limit <= feed {
            return Err(SheetError::impossible(
                CARD.id,
                "the feed holds as much as the boiler may: no blowing down is enough",
                "a feed below the limit, both in one measure",
            ));
        }
        let share = of_steam(feed, limit);
        answer = answer
            .with("cycles", Outcome::Si(limit / feed))
            .with("of_feed", Outcome::Si(of_feed(feed, limit)))
            .with("of_steam", Outcome::Si(share));
        if let Some(steam) = inputs.si("steam") {
            answer = answer
                .with("blowdown", Flow::kg_per_s(steam * share))
                .with("feed_needed", Flow::kg_per_s(steam + steam * share));
        }
    } else {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    if let Some(now) = now {
        answer = answer.with("cycles_now", Outcome::Si(now / feed));
        if let Some(limit) = limit {
            answer = answer.with("left", Outcome::Si(limit - now));
        }
    }
    let held = Held::default().hold(
        "dissolved in the boiler",
        (now, "now"),
        Bound::AtMost,
        (limit, "limit"),
    );
    Ok(answer.with("complies", held.words()))
}
