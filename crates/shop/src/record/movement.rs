//! The move of an engine that does not comply: who decided, from where to where, how, how fast, under which limits, and
//! who was told. It lets no clock run on, lifts nothing that stops her, and is no release.
//!
//! What the rules ask of such a move is read from her own rule set (`move.decision`, `movement.yard-speed` and so on);
//! where that has none, nothing here says that she may be moved.

use jiff::civil::Date;
use measure::Fraction;
use rules::{Body, Outcome, Rulebook, Ruling};

use crate::Refusal;
use crate::book::{
    Authority, Book, Locomotive, LocomotiveId, MoveDecided, MoveEnd, MoveEnded, MoveId, MoveUnder,
    MovedHow, Occasion, PersonId, RulingRef, Statement,
};
use crate::finding::unlifted;
use crate::locomotive::{Law, engine_of, said, with_authority};
use crate::report::stops;

/// The rule that such a move stands on, and the one of the speed of a yard move, by the ends of their ids.
const DECISION: &str = "move.decision";
const YARD: &str = "movement.yard-speed";

/// The rules behind a move of an engine on a day: of the decision, then the one that speaks of this move.
///
/// # Errors
/// Refused: her rule sets have none.
pub fn move_rules(
    law: &Law<'_>,
    kept: &Locomotive,
    under: &MoveUnder,
    on: Date,
) -> Result<Vec<Ruling>, Refusal> {
    let sets = law.sets(on)?;
    let rule = |set: &str, end: &str| law.ruling(&format!("{set}.{end}"), on).ok();
    let Some((set, decision)) = sets
        .iter()
        .find_map(|bound| Some((bound.set, rule(bound.set, DECISION)?)))
    else {
        return Err(Refusal::refused(format!(
            "The rules of No. {} ({}) have nothing in this book of a move while she does not comply.",
            kept.number,
            law.told_on(on)
        ))
        .todo("read the section of her rules, and ask the authority before she is moved"));
    };
    let own = match under {
        MoveUnder::ToRepair => "move.notice",
        MoveUnder::InYard => YARD,
        MoveUnder::OnFromRoad => "move.road-fault",
        MoveUnder::SpecialNotice { .. } => "move.special-notice",
    };
    let mut all = vec![decision];
    match (rule(set, own), under) {
        (Some(own), _) => all.push(own),
        (None, MoveUnder::ToRepair) => {}
        (None, _) => {
            return Err(Refusal::refused(format!(
                "The rulebook {set} has no rule `{own}` for such a move on {on}."
            )));
        }
    }
    Ok(all)
}

/// Decides that an engine which does not comply can be moved safely. The one who enters it decides.
///
/// # Errors
/// Refused: the person may not approve; nothing in the book stops her; a move of hers has not ended; her rules know no
/// such move, or not one made so; it is faster than a yard move may be; a special notice is not lifted and the move
/// does not stand on it. Input: a place, limits, the top speed, who was told or the inspection for the tag is missing.
pub fn decide_move(
    book: &Book,
    rules: &Rulebook,
    new: MoveDecided,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "decide on a move", on)?;
    let kept = engine_of(book, new.locomotive)?;
    let her = format!("No. {}", kept.number);
    if let Some(open) = kept.on_the_move() {
        return Err(Refusal::refused(format!(
            "The move of {her} decided on {}, from {} to {}, has not ended.",
            open.on, open.decided.from, open.decided.to
        ))
        .todo("enter first how that move ended"));
    }
    let rulings = move_rules(&Law::of(book, rules, kept), kept, &new.under, on)?;
    let defects: Vec<String> = stops(book, rules, new.locomotive, on)?
        .into_iter()
        .filter(|stop| !stop.is_inspection())
        .map(|stop| stop.why)
        .collect();
    if defects.is_empty() {
        return Err(Refusal::refused(format!(
            "Nothing in this book says that {her} does not comply: no such move is decided without what is wrong with her."
        ))
        .todo("record the finding first"));
    }
    stands_on(book, &new, &her, on)?;
    let clean = MoveDecided {
        from: new.from.trim().into(),
        to: new.to.trim().into(),
        limits: new.limits.trim().into(),
        told: new.told.as_deref().and_then(said),
        defects,
        rulings: rulings.iter().map(RulingRef::from).collect(),
        ..new
    };
    let missing = missing(&clean, on);
    if !missing.is_empty() {
        return Err(
            Refusal::input(format!("Not all is said of the move of {her}.")).todos(missing),
        );
    }
    how_it_goes(&clean, &rulings, &her)?;
    Ok(vec![Statement::MoveDecided(clean)])
}

/// Whether a special notice stands in the way, or is what the move stands on.
fn stands_on(book: &Book, new: &MoveDecided, her: &str, on: Date) -> Result<(), Refusal> {
    let of_her = book
        .findings
        .iter()
        .filter(|(_, f)| f.locomotive == new.locomotive);
    let mut notices = of_her.filter(|(_, f)| unlifted(f, on).is_some());
    match &new.under {
        MoveUnder::SpecialNotice { finding, .. } => {
            let known = book.findings.get(finding);
            let known = known.filter(|f| f.locomotive == new.locomotive && f.occasion == Occasion::SpecialNotice);
            let known = known.ok_or_else(|| {
                Refusal::input(format!("That is no special notice of {her}: the finding that hangs on it was expected."))
            })?;
            if unlifted(known, on).is_none() {
                return Err(Refusal::refused(format!(
                    "The special notice of F-{:03} is lifted: the move does not stand on it.",
                    known.number
                )));
            }
            Ok(())
        }
        _ => match notices.next() {
            Some((_, held)) => Err(Refusal::refused(format!(
                "{her} stands under the special notice of F-{:03}, which is not lifted: she moves only as that notice allows.",
                held.number
            ))
            .todo("say what the notice allows, and decide the move under it")),
            None => Ok(()),
        },
    }
}

/// What is not said of a move, one line each.
fn missing(new: &MoveDecided, on: Date) -> Vec<String> {
    let mut missing = Vec::new();
    let mut ask = |lacks: bool, what: &str| {
        if lacks {
            missing.push(format!("{what} is missing"));
        }
    };
    ask(new.from.is_empty(), "from where");
    ask(new.to.is_empty(), "to where");
    ask(
        new.top_mph == 0,
        "the top speed in miles an hour, more than 0,",
    );
    ask(
        new.limits.is_empty(),
        "what else limits the move, or in so many words that nothing does,",
    );
    let yard = new.under == MoveUnder::InYard;
    ask(
        !yard && new.told.is_none(),
        "who was told in writing, engineers and all in the cabs,",
    );
    if let MoveUnder::SpecialNotice { allows, .. } = &new.under {
        ask(allows.trim().is_empty(), "what the special notice allows");
    }
    if new.under == MoveUnder::ToRepair && new.inspected.is_none() {
        ask(true, "who inspected her, where and when, for the tag,");
    }
    if let Some(it) = &new.inspected {
        ask(it.who.trim().is_empty(), "who inspected her");
        ask(it.place.trim().is_empty(), "where she was inspected");
        if it.on > on {
            missing.push(format!(
                "she was inspected by {on} at the latest; {} was given",
                it.on
            ));
        }
    }
    missing
}

/// Whether the rules let such a move be made so.
fn how_it_goes(new: &MoveDecided, rulings: &[Ruling], her: &str) -> Result<(), Refusal> {
    let with_train = new.how == MovedHow::WithTrain;
    if with_train && matches!(new.under, MoveUnder::ToRepair | MoveUnder::InYard) {
        let cite = rulings
            .first()
            .map_or(String::new(), |r| r.cite.to_string());
        return Err(Refusal::refused(format!(
            "{her} is moved lite or in tow, not with her train ({cite})."
        )));
    }
    let yard = rulings.iter().find(|ruling| ruling.rule.ends_with(YARD));
    if new.under == MoveUnder::InYard
        && let Some(ruling) = yard
        && let Body::Limit(limit) = &ruling.body
        && let Outcome::Fails { .. } = limit.judge_number(Fraction::from(i128::from(new.top_mph)))
    {
        return Err(Refusal::refused(format!(
            "A yard move goes at {} {} at most ({}); {} was given.",
            limit.written, limit.unit, ruling.cite, new.top_mph
        )));
    }
    Ok(())
}

/// Says how the move of an engine ended. It is a fact, not a decision, and takes no authority.
///
/// # Errors
/// Refused: no move of hers is open. Input: nothing says where she stands.
pub fn end_move(
    book: &Book,
    locomotive: LocomotiveId,
    end: MoveEnd,
    told: &str,
) -> Result<Vec<Statement>, Refusal> {
    let kept = engine_of(book, locomotive)?;
    let Some(open) = kept.on_the_move() else {
        return Err(Refusal::refused(format!(
            "No move of No. {} is open; there is nothing to end.",
            kept.number
        )));
    };
    if told.trim().is_empty() {
        return Err(Refusal::input("Where she stands now was expected."));
    }
    let id: MoveId = open.decided.id;
    Ok(vec![Statement::MoveEnded(MoveEnded {
        locomotive,
        id,
        end,
        told: told.trim().into(),
    })])
}
