//! The day of the hydrostatic test and of the steam test after it, on one sheet of paper: on its face what is due, the
//! pressures, the gauges and what complies or fails; on its back leaks by place, the outcome, who signs.

use paper::{Block, Fact, Form, FormPart};
use shop::locomotive::{Law, engine};

use super::about;
use super::held::Figures;
use super::report::{noted, points};
use super::worksheet::{code, facts, room, strings};
use crate::verb::test_day::{Gauge, Line, TestDay, test_day};
use crate::words::{self, hydro as say, paper as papers};
use crate::{Context, Failure};

/// How high a row for a pencil is, millimeters.
const ROW: u8 = 7;

pub(super) fn paper(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let (on, rules, house) = (context.on()?, context.rules()?, context.house());
    let book = context.book_of(number)?;
    let (id, kept) = engine(&book, number)?;
    let law = Law::of(&book, rules, kept);
    let day = test_day(&book, rules, id, kept, on, house)?
        .ok_or_else(|| Failure::Input(say::none_asked(&kept.number)))?;
    let title = say::title(&kept.number);
    let about = about(
        context,
        &code(&format!("{}-hydro", kept.number)),
        title.clone(),
    )?;
    let mut figures = Figures::of(&book, rules);
    figures.add_all(&day.used);
    // Her title, her pressures and her clocks say the rest of what stands at the head of a paper.
    let mut heads = facts(&law, kept, None, &day.used, on)?;
    heads.retain(|fact| ![papers::ENGINE, papers::MAWP, papers::LOG].contains(&fact.word.as_str()));
    let mut parts = vec![
        why(&day),
        pressures(&day),
        gauges(&day),
        judged(&day),
        read(),
        leaks(&day),
        FormPart::on_one_page(say::OUTCOME, vec![room(say::OUTCOME_BOXES, 11)]),
    ];
    let follow: Vec<_> = day.papers.iter().map(Line::told).collect();
    let mut signed = vec![say::SIGNERS.to_owned()];
    if !follow.is_empty() {
        signed.push(format!("{}.", follow.join("; ")));
    }
    parts.push(FormPart::on_one_page(
        say::PAPERS,
        vec![points(signed), room(say::SIGNER_BOXES, 13)],
    ));
    // What this shop has not checked stands in the sentence over the cautions; its list would cost a second sheet.
    Ok(Form {
        about,
        over: say::OVER.into(),
        title,
        // The title names her; a line less keeps it to one sheet of paper.
        under: None,
        shout: None,
        facts: heads,
        governs: figures.governs(),
        careful: papers::CAUTIONS.into(),
        cautions: strings(say::CAUTIONS),
        parts,
        close: true,
    })
}

/// What asks for the day, each with its rule.
fn why(day: &TestDay) -> FormPart {
    let rows = day.why.iter();
    let rows = rows.map(|line| vec![Some(line.what.clone()), Some(line.section.clone())]);
    let lines = Block::Lines {
        shares: vec![11, 2],
        heads: strings(say::WHY_HEADS),
        rows: rows.collect(),
        high: 4,
    };
    FormPart::of(say::WHY, vec![lines])
}

/// The pressures, each with its rule; why there are none.
fn pressures(day: &TestDay) -> FormPart {
    let all = day.pressures.iter().map(|line| {
        let what = say::figure(&line.what, &line.section);
        Fact::of(what, line.value.as_deref().unwrap_or_default())
    });
    let block = if day.pressures.is_empty() {
        points(day.notices.clone())
    } else {
        Block::Large { all: all.collect() }
    };
    noted(say::PRESSURES, say::PRESSURES_NOTE.into(), vec![block])
}

/// The gauges on file with their corrections, and room for others.
fn gauges(day: &TestDay) -> FormPart {
    let told = |it: &Result<String, String>| match it {
        Ok(says) | Err(says) => Some(says.clone()),
    };
    let known = day.gauges.iter().map(|gauge: &Gauge| {
        vec![
            Some(format!("{}; {}", gauge.what, gauge.tried)),
            told(&gauge.error),
            told(&gauge.head),
            // What cannot be told yet is worked by hand here.
            gauge.shows.clone().ok(),
        ]
    });
    let mut rows: Vec<_> = known.collect();
    while rows.len() < say::LEAST_GAUGES {
        rows.push(vec![Some(say::GAUGE_UNKNOWN.into()), None, None, None]);
    }
    let heads = [say::GAUGE].into_iter().chain(say::GAUGE_BOXES);
    let lines = Block::Lines {
        shares: vec![11, 4, 4, 4],
        heads: heads.map(words::sentence).collect(),
        rows,
        high: 8,
    };
    FormPart {
        note: day.ladder.clone(),
        ..FormPart::of(say::GAUGES, vec![lines])
    }
}

/// Everything that complies or fails, with its rule, and two words to ring.
fn judged(day: &TestDay) -> FormPart {
    let rows = day.judged.iter().map(|line| {
        let value = line.value.as_ref();
        let what = value.map_or(line.what.clone(), |value| format!("{}: {value}", line.what));
        vec![
            Some(what),
            Some(line.section.clone()),
            Some(say::RING.into()),
            None,
        ]
    });
    let lines = Block::Lines {
        shares: vec![25, 8, 8, 17],
        heads: strings(say::JUDGED_HEADS),
        rows: rows.collect(),
        high: ROW,
    };
    FormPart::of(say::JUDGED, vec![lines])
}

/// Readings while the water stands.
fn read() -> FormPart {
    let lines = Block::Lines {
        shares: vec![3, 4, 4, 6, 4, 4],
        heads: strings(say::READ_HEADS),
        rows: vec![vec![None; say::READ_HEADS.len()]; say::READ_ROWS],
        high: ROW,
    };
    FormPart::on_one_page(say::READ, vec![lines])
}

/// A line for each place, and more for what nobody thought of.
fn leaks(day: &TestDay) -> FormPart {
    let places = day.places.iter().map(|it| Some(words::sentence(it)));
    let more = std::iter::repeat_n(None, say::MORE_LEAKS);
    let rows = places
        .chain(more)
        .map(|place| vec![place, None, None, None]);
    let whose = if day.entered {
        say::PLACES_HERS
    } else {
        say::PLACES_ANY
    };
    let lines = Block::Lines {
        shares: vec![8, 5, 7, 6],
        heads: strings(say::LEAK_HEADS),
        rows: rows.collect(),
        high: 6,
    };
    noted(
        say::LEAKS,
        format!("{whose} {}", say::LEAKS_NOTE),
        vec![lines],
    )
}
