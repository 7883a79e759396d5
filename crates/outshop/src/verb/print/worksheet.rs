//! The sheet an inspector carries: every item of an inspection of this engine, with room for what was seen.

use std::collections::BTreeSet;

use jiff::civil::Date;
use paper::{Block, Fact, Form, FormPart, LookedAt};
use rules::{Body, Item, Origin, Ruling, words as rulewords};
use shop::book::{Book, Locomotive, LocomotiveId, Statement};
use shop::clock::{Clock, State, due};
use shop::locomotive::{Bound, Law, engine};

use super::about;
use super::held::Figures;
use crate::verb::entry::stated;
use crate::verb::rule::said;
use crate::words::{self, paper as say};
use crate::{Context, Failure};

/// Limits that would take more letters than this are not written out beside an item; their number is.
const MOST_LETTERS: usize = 420;

pub(super) fn paper(context: &mut Context, number: &str, kind: &str) -> Result<Form, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let (id, kept) = engine(&book, number)?;
    let law = Law::of(&book, rules, kept);
    let kind = kind.trim();
    // What the inspection would ask if it were opened on this day; an unknown kind is refused here.
    let asked = shop::inspection::items(&law, kind, on)?;
    let rulings = law.items(kind, on)?;
    let known = law.inspections(on)?;
    let sets = law.sets(on)?;
    let who = if kept.fittings.is_empty() {
        String::new()
    } else {
        stated_by(context, &book, id)?
    };
    let about = about(
        context,
        &code(&format!("{}-{kind}", kept.number)),
        format!(
            "{}, {}",
            say::sheet_title(kind),
            words::engine(&kept.number)
        ),
    )?;
    let due = due(&book, rules, id, on)?;
    let mut figures = Figures::of(&book, rules);
    figures.add_all(&rulings);
    figures.add_all(due.iter().map(|clock| &clock.ruling));
    let means = meaning(&known, kind);
    let mut parts = vec![
        FormPart::on_one_page(say::WHEN_WHERE, vec![room(say::WHEN_BOXES, 11)]),
        FormPart::of(say::CLOCKS, vec![clocks(&due)]),
        FormPart::on_one_page(say::FILLED_IN, vec![Block::Points { all: how(&sets) }]),
    ];
    let lists = Lists {
        law,
        kept,
        on,
        who: &who,
        listed: rulings
            .iter()
            .filter(|r| matches!(&r.body, Body::Item(it) if it.listed))
            .map(|r| r.set.as_str())
            .collect(),
    };
    let mut at = 0;
    let mut begun: Option<(String, Vec<LookedAt>)> = None;
    for (asked, ruling) in asked.iter().zip(&rulings) {
        let Body::Item(item) = &ruling.body else {
            continue;
        };
        at += 1;
        let own = own_list(item, kind);
        let list = say::list(own, meaning(&known, own), &told(&sets, &ruling.set));
        let looked = lists.item(at, &asked.text, item, ruling)?;
        for limit in &item.limits {
            figures.add(&law.ruling(limit, on)?);
        }
        match &mut begun {
            Some((held, all)) if *held == list => all.push(looked),
            _ => {
                let full = begun.replace((list, vec![looked]));
                parts.extend(full.map(items));
            }
        }
    }
    parts.extend(begun.map(items));
    let found = Block::Room {
        rows: vec![strings(say::DEFECT_BOXES); 4],
        high: 14,
    };
    parts.push(FormPart::on_one_page(say::DEFECTS_FOUND, vec![found]));
    parts.push(FormPart::on_one_page(
        say::SIGNED,
        vec![room(say::SHEET_SIGNERS, 13)],
    ));
    parts.extend(figures.part());
    let of = Fact::of(say::KIND, say::kind(kind, means));
    Ok(Form {
        close: false,
        about,
        over: say::SHEET.into(),
        title: say::sheet_title(kind),
        under: Some(words::engine(&kept.number)),
        shout: None,
        facts: facts(&law, kept, Some(of), &rulings, on)?,
        governs: figures.governs(),
        careful: say::CAUTIONS.into(),
        cautions: strings(say::AT_WORK),
        parts,
    })
}

/// Words as a card takes them.
pub(super) fn strings(all: &[&str]) -> Vec<String> {
    all.iter().map(|one| (*one).to_owned()).collect()
}

/// Boxes to write in.
pub(super) fn room(rows: &[&[&str]], high: u8) -> Block {
    Block::Room {
        rows: rows.iter().map(|row| strings(row)).collect(),
        high,
    }
}

/// A text as a barcode can hold it and a file may be named: what neither takes is left out.
pub(super) fn code(text: &str) -> String {
    text.chars()
        .filter(|c| c.is_ascii_alphanumeric() || "-.".contains(*c))
        .collect()
}

/// What stands at the head of every paper of an engine; what it is of, such as the kind of inspection, after her number.
///
/// # Errors
/// As [`Law::sets`].
pub(super) fn facts(
    law: &Law<'_>,
    kept: &Locomotive,
    of: Option<Fact>,
    rulings: &[Ruling],
    on: Date,
) -> Result<Vec<Fact>, Failure> {
    let engine = say::engine(&kept.number, &kept.wheels);
    let mut facts = vec![Fact::of(say::ENGINE, engine)];
    facts.extend(of);
    for bound in law.sets(on)? {
        let of_set = || rulings.iter().filter(|r| r.set == bound.set);
        let sources: BTreeSet<&str> = of_set().map(|r| r.cite.source.as_str()).collect();
        for key in sources {
            let editions: BTreeSet<&str> = of_set()
                .filter(|r| r.cite.source == key)
                .map(|r| r.cite.edition.as_str())
                .collect();
            let title = bound.rules.sources().get(key);
            let title = title.map_or(key, |source| source.title.as_str());
            let editions: Vec<_> = editions.into_iter().collect();
            let law = say::law(title, &editions.join("; "));
            if bound.origin == Origin::Law {
                facts.push(Fact::of(say::LAW, law));
            } else {
                facts.push(Fact::of(bound.told(), law));
            }
        }
    }
    if law.counts_service_days() {
        let mawp = kept.mawp_psig.map_or(say::NOT_STATED.into(), say::psi);
        let log = kept
            .log_through
            .map_or(say::NEVER_CLOSED.into(), words::day);
        facts.push(Fact::of(say::MAWP, mawp));
        facts.push(Fact::of(say::LOG, log));
    } else {
        facts.push(Fact::of(say::LOG, say::NO_LOG));
    }
    Ok(facts)
}

fn how(sets: &[Bound<'_>]) -> Vec<String> {
    let mut all = strings(say::HOW);
    // The words were read on Form 1, which is of steam locomotives.
    if sets.iter().any(|bound| bound.set == "us-steam") {
        all.push(say::conditions(rulewords::FORM_1_CONDITIONS));
    }
    all
}

fn clocks(due: &[Clock]) -> Block {
    let rows = due.iter().map(|clock| {
        let state = match clock.state {
            State::Runs => say::RUNS,
            State::Stops => say::STOPS,
            State::CannotTell(_) => say::CANNOT_TELL,
            State::EachDay => say::EACH_DAY,
        };
        // While it runs, what is left says enough; what stops her, or may, is said in full.
        let told = match (&clock.state, clock.left) {
            (State::Runs, Some(left)) => say::left(left, clock.unit),
            _ => clock.why.clone(),
        };
        vec![
            Some(clock.inspection.clone()),
            Some(state.to_owned()),
            Some(told),
            Some(clock.ruling.cite.section.clone()),
        ]
    });
    Block::Table {
        shares: vec![5, 3, 16, 4],
        heads: strings(say::CLOCK_HEADS),
        rows: rows.collect(),
    }
}

/// The smallest inspection on whose own list an item stands, of those this one contains.
fn own_list<'i>(item: &'i Item, kind: &str) -> &'i str {
    let contained = item
        .inspections
        .iter()
        .filter(|own| rulewords::contains(kind, own) || kind == own.as_str());
    contained
        .min_by_key(|own| rulewords::rank(own).unwrap_or(usize::MAX))
        .map_or("", String::as_str)
}

pub(super) fn items((title, all): (String, Vec<LookedAt>)) -> FormPart {
    let items = Block::Items {
        words: say::ITEM_BOXES.map(str::to_owned),
        all,
    };
    FormPart::of(title, vec![items])
}

/// What an inspection's word means, if any set of hers says so.
pub(super) fn meaning<'m>(known: &[(&str, &'m str)], word: &str) -> &'m str {
    let found = known.iter().find(|(known, _)| *known == word);
    found.map_or("", |(_, meaning)| meaning)
}

/// What a set is, where it is not the law inside this program.
fn told(sets: &[Bound<'_>], set: &str) -> String {
    let bound = sets.iter().find(|bound| bound.set == set);
    let own = bound.filter(|bound| bound.origin != Origin::Law);
    own.map_or(String::new(), Bound::told)
}

/// What the items of one sheet are read against.
pub(super) struct Lists<'l> {
    pub(super) law: Law<'l>,
    pub(super) kept: &'l Locomotive,
    pub(super) on: Date,
    /// Who stated her fittings.
    pub(super) who: &'l str,
    /// The sets that have lists at all, so that standing on none says something.
    pub(super) listed: BTreeSet<&'l str>,
}

impl Lists<'_> {
    pub(super) fn item(
        &self,
        number: usize,
        text: &str,
        item: &Item,
        ruling: &Ruling,
    ) -> Result<LookedAt, Failure> {
        let mut notes = vec![item.question.clone()];
        if item.at_start_of_day {
            notes.push(say::START_OF_DAY.into());
        }
        if self.listed.contains(ruling.set.as_str()) && !item.listed {
            notes.push(say::TEXT_ONLY.into());
        }
        notes.extend(item.except.as_deref().map(say::except));
        let mut limits = Vec::new();
        for limit in &item.limits {
            let limit = self.law.ruling(limit, self.on)?;
            limits.push(say::limit(&said(&limit.body), &limit.cite.section));
        }
        if limits.iter().map(String::len).sum::<usize>() > MOST_LETTERS {
            notes.push(say::limits(limits.len(), &ruling.rule));
        } else {
            notes.extend(say::held_against(&limits));
        }
        let (fitting, absent) = match &item.fitting {
            None => (None, false),
            Some(word) => {
                let meaning = rulewords::meaning(rulewords::FITTINGS, word).unwrap_or(word);
                match self.kept.fittings.get(word) {
                    None => (Some(say::not_said(meaning)), false),
                    Some(true) => (Some(say::fitted(meaning, self.who)), false),
                    Some(false) => (Some(say::absent(meaning, self.who)), true),
                }
            }
        };
        let asks = item.needs.iter().filter(|_| !absent).map(|need| {
            rulewords::meaning(rulewords::NEEDS, need)
                .unwrap_or(need)
                .to_owned()
        });
        Ok(LookedAt {
            number,
            text: text.to_owned(),
            section: item.section.clone(),
            notes,
            fitting,
            absent,
            asks: asks.collect(),
        })
    }
}

/// Who stated what is known of an engine, when, in which entry; the newest that put it right, if any did.
pub(super) fn stated_by(
    context: &mut Context,
    book: &Book,
    id: LocomotiveId,
) -> Result<String, Failure> {
    let mut told = say::SAYS_THE_BOOK.to_owned();
    let store = context.store()?;
    let added = store.entries_of("locomotive-added")?;
    // What puts an entry right always comes after it.
    for entry in added.into_iter().chain(store.entries_of("correction")?) {
        let Some((Statement::LocomotiveAdded(it), day)) = stated(&entry) else {
            continue;
        };
        let person = String::from_utf8_lossy(&entry.person).parse();
        if let (true, Ok(person)) = (it.id == id, person) {
            let name = crate::verb::name(book, person);
            told = say::says(name, day, entry.number());
        }
    }
    Ok(told)
}
