//! Writing down how it was left: knock-ons, signatures, the close of a job, the release.

mod day;
mod movement;
mod particular;
mod put_right;
mod shop_rule;

use jiff::civil::Date;
use measure::House;
use rules::Rulebook;

pub use day::{Daily, DayItem, How, NewDay, daily_of, start_day};
pub use movement::{decide_move, end_move, move_rules};
pub use particular::{PARTICULARS, state_particular};
pub use put_right::{Mend, put_right};
pub use shop_rule::{ANOTHER_CERTIFIES, SHOP_RULES, WALL_AHEAD, WALL_DATES, state_shop_rule};

use crate::Refusal;
use crate::book::{
    Authority, Book, Feature, Job, JobClosed, JobId, KnockOnAnswered, LocomotiveId, PersonId,
    Released, Signed, Statement,
};
use crate::job::open;
use crate::locomotive::{engine_of, family, with_authority};
use crate::proof::missing_rings;
use crate::report::stops;
use crate::route::house;
use crate::verdict::{Judgement, Question, Verdict, judge};

/// Says what was found at a knock-on.
///
/// # Errors
/// Refused: the job is closed, the person may neither inspect nor repair, nothing is told. Input: the
/// job has no such knock-on.
pub fn knock_on(
    book: &Book,
    job: JobId,
    word: &str,
    seen: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = open(book, job)?;
    if with_authority(book, by, Authority::Repair, "look at a knock-on", on).is_err() {
        with_authority(book, by, Authority::Inspect, "look at a knock-on", on)?;
    }
    if !kept.plan.knock_ons.iter().any(|k| k == word) {
        return Err(Refusal::input(format!(
            "J-{:03} has no knock-on `{word}`: {} were expected.",
            kept.number,
            kept.plan.knock_ons.join(", ")
        )));
    }
    if seen.trim().is_empty() {
        return Err(Refusal::refused("Say what was found there."));
    }
    Ok(vec![Statement::KnockOnAnswered(KnockOnAnswered {
        job,
        knock_on: word.into(),
        seen: seen.trim().into(),
    })])
}

/// Signs a job as inspector, repairer or approver.
///
/// # Errors
/// Refused: the job is closed, the person has not the authority, a rule of the shop asks for another person, or the
/// work is not complete.
pub fn sign(
    book: &Book,
    rules: &Rulebook,
    job: JobId,
    capacity: Authority,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = book
        .jobs
        .get(&job)
        .ok_or_else(|| Refusal::input("There is no such job in this book."))?;
    if let Some((day, ..)) = &kept.closed
        && stale_signatures(book, kept).is_empty()
    {
        return Err(Refusal::refused(format!(
            "J-{:03} was closed on {day}.",
            kept.number
        )));
    }
    with_authority(
        book,
        by,
        capacity,
        &format!("sign as {}", capacity.signer()),
        on,
    )?;
    shop_rule::another_certifies(book, kept, capacity, by, on)?;
    let missing = unmet_work(book, rules, kept, on, house(book))?;
    if !missing.is_empty() {
        return Err(Refusal::refused(format!(
            "J-{:03} cannot be signed: the work is not complete.",
            kept.number
        ))
        .todos(missing));
    }
    Ok(vec![Statement::Signed(Signed {
        job,
        capacity,
        stated: Some(what_is_signed(book, kept, capacity)),
    })])
}

/// What somebody signs who signs a job as it stands, in words: it is shown before and kept with the signature.
pub fn what_is_signed(book: &Book, job: &Job, capacity: Authority) -> String {
    let engine = book.locomotives.get(&job.locomotive);
    let engine = engine.map_or("?", |e| e.number.as_str());
    let done = job.operations.iter().filter(|o| o.done.is_some()).count();
    let held = job.proofs.values().filter(|(passed, ..)| *passed).count();
    let readings = match job.left.len() {
        0 => "no reading as left".to_string(),
        1 => "1 reading as left".to_string(),
        n => format!("{n} readings as left"),
    };
    format!(
        "As {}: J-{:03} of No. {engine}, {}; {done} of {} operations done, {held} of {} proofs held, {readings}; as it stands at entry {}.",
        capacity.signer(),
        job.number,
        job.plan.title,
        job.operations.len(),
        job.plan.proofs.len(),
        job.work.max(job.last)
    )
}

/// The verdict on how a job left its part, in the reader's units: as-left readings, and the conditions its
/// proofs did not clear.
///
/// # Errors
/// As [`judge`].
pub fn as_left(
    book: &Book,
    rules: &Rulebook,
    job: &Job,
    on: Date,
    house: House,
) -> Result<Judgement, Refusal> {
    let finding = book
        .findings
        .get(&job.plan.finding)
        .ok_or_else(|| Refusal::input("There is no such finding."))?;
    let part = book
        .parts
        .get(&finding.part)
        .ok_or_else(|| Refusal::input("There is no such part."))?;
    let family = family(book, &part.family)?;
    let stands = |word: &&String| {
        let proof = family.condition(word).map(|c| c.cleared_by.as_str());
        !proof
            .and_then(|p| job.proofs.get(p))
            .is_some_and(|(passed, ..)| *passed)
    };
    let conditions: Vec<String> = finding.conditions.iter().filter(stands).cloned().collect();
    let mut judged = judge(
        book,
        rules,
        Question {
            part,
            readings: &job.left,
            conditions: &conditions,
            on,
            house,
        },
    )?;
    // A finding that was only a condition, and whose condition is proved gone, has no limit left to meet.
    let only_condition = judged.lines.iter().all(|line| !line.law);
    if only_condition && !finding.conditions.is_empty() && conditions.is_empty() {
        judged.verdict = Verdict::Complies;
    }
    Ok(judged)
}

/// What is missing of the work itself, one line each.
fn unmet_work(
    book: &Book,
    rules: &Rulebook,
    job: &Job,
    on: Date,
    house: House,
) -> Result<Vec<String>, Refusal> {
    let mut missing = Vec::new();
    for (at, (plan, state)) in job.plan.operations.iter().zip(&job.operations).enumerate() {
        if state.done.is_none() {
            missing.push(format!("operation {} is not done: {}", at + 1, plan.what));
        } else if let Some(hold) = &plan.hold
            && state.cleared.is_none()
        {
            missing.push(format!(
                "the hold point after operation {} is not cleared: {}",
                at + 1,
                hold.look
            ));
        }
    }
    let finding = book.findings.get(&job.plan.finding);
    let part = finding.and_then(|f| book.parts.get(&f.part));
    let family = part.map(|part| family(book, &part.family)).transpose()?;
    for proof in &job.plan.proofs {
        match job.proofs.get(proof) {
            None => {
                let is = family.and_then(|it| it.proof(proof));
                let is = is.map(|it| format!(": {}", it.title)).unwrap_or_default();
                missing.push(format!("the proof `{proof}` is not made{is}"));
            }
            Some((false, told, ..)) => {
                missing.push(format!("the proof `{proof}` did not hold: {told}"))
            }
            Some(_) => {}
        }
    }
    missing.extend(missing_rings(job));
    if let Some(family) = family {
        let found = |name: &str| {
            let mut readings = finding.iter().flat_map(|f| &f.readings);
            readings.any(|reading| reading.feature == name)
        };
        let left = |feature: &Feature, place: &String| {
            let mut all = job.left.iter();
            all.any(|r| r.feature == feature.name && r.reading.position == *place)
        };
        // A clearance left and read on the pair stands for its two sizes, where the finding did not read them.
        let answered = |name: &String| {
            let of_it = family.differences.iter();
            let mut of_it = of_it.filter(|d| [&d.larger, &d.smaller].contains(&name));
            !found(name)
                && of_it.any(|d| {
                    let pair = family.on_the_pair(d);
                    pair.is_some_and(|pair| pair.positions.iter().all(|place| left(pair, place)))
                })
        };
        let asked = |feature: &&Feature| {
            (!feature.left_only_if_found || found(&feature.name)) && !answered(&feature.name)
        };
        for feature in family.measured().filter(asked) {
            let unread: Vec<&str> = feature
                .positions
                .iter()
                .filter(|place| !left(feature, place))
                .map(String::as_str)
                .collect();
            if !unread.is_empty() {
                missing.push(format!(
                    "no as-left reading of the {} at {}",
                    feature.title,
                    unread.join(", ")
                ));
            }
        }
    }
    for word in job
        .plan
        .knock_ons
        .iter()
        .filter(|w| !job.knock_ons.contains_key(*w))
    {
        let is = family.and_then(|it| it.knock_on(word));
        let is = is.map(|it| format!(": {}", it.title)).unwrap_or_default();
        missing.push(format!("the knock-on `{word}` was not looked at{is}"));
    }
    if missing.is_empty() {
        match as_left(book, rules, job, on, house)?.verdict {
            Verdict::Complies => {}
            Verdict::Fails(by) => {
                missing.extend(by.into_iter().map(|b| format!("as left it fails: {b}")))
            }
            Verdict::CannotTell(needs) => missing.extend(
                needs
                    .into_iter()
                    .map(|n| format!("as left, cannot tell: needs {n}")),
            ),
        }
    }
    Ok(missing)
}

/// Everything that keeps a job from closing, one line each, in the reader's units.
///
/// # Errors
/// As [`judge`].
pub fn unmet(
    book: &Book,
    rules: &Rulebook,
    job: &Job,
    on: Date,
    house: House,
) -> Result<Vec<String>, Refusal> {
    let mut missing = unmet_work(book, rules, job, on, house)?;
    for capacity in Authority::ALL {
        if !job.signatures.iter().any(|s| s.capacity == capacity) {
            missing.push(format!("not signed by the {}", capacity.signer()));
        }
    }
    missing.extend(stale_signatures(book, job));
    Ok(missing)
}

/// Signatures that are older than the last change to the work or to what was found, one line each. A
/// job that was put right after its close must be signed again.
pub fn stale_signatures(book: &Book, job: &Job) -> Vec<String> {
    let found = book.findings.get(&job.plan.finding).map_or(0, |f| f.entry);
    let changed = job.work.max(found);
    job.signatures
        .iter()
        .filter(|signed| signed.entry < changed)
        .map(|signed| {
            format!(
                "the {}'s signature of {} is older than the last change to the work",
                signed.capacity.signer(),
                signed.on
            )
        })
        .collect()
}

/// Closes a job.
///
/// # Errors
/// Refused, naming each thing that is missing.
pub fn close_job(
    book: &Book,
    rules: &Rulebook,
    job: JobId,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = open(book, job)?;
    with_authority(book, by, Authority::Approve, "close a job", on)?;
    let missing = unmet(book, rules, kept, on, house(book))?;
    if !missing.is_empty() {
        return Err(Refusal::refused(format!(
            "J-{:03} cannot be closed: {} missing.",
            kept.number,
            missing.len()
        ))
        .todos(missing));
    }
    let judged = as_left(book, rules, kept, on, house(book))?;
    Ok(vec![Statement::JobClosed(JobClosed {
        job,
        verdict: judged.verdict.words(),
        rulings: judged.rulings(),
    })])
}

/// Hands an engine to service.
///
/// # Errors
/// Refused: no authority; something in this book stops her, each thing named; or her log is not closed through the
/// day before.
pub fn release(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "release an engine", on)?;
    let kept = engine_of(book, engine)?;
    let stopped: Vec<String> = stops(book, rules, engine, on)?
        .into_iter()
        .map(|s| s.why)
        .collect();
    if !stopped.is_empty() {
        return Err(Refusal::refused(format!(
            "No. {} cannot be released on {on}: {} in the way.",
            kept.number,
            stopped.len()
        ))
        .todos(stopped));
    }
    if !crate::locomotive::Law::of(book, rules, kept).counts_service_days() {
        return Err(Refusal::refused(format!(
            "A release in this book vouches for a log of steam, and No. {} has none.",
            kept.number
        ))
        .todo("what hands her to service is her daily inspection, closed and signed"));
    }
    let Some(log_through) = kept.log_through else {
        return Err(Refusal::refused(format!(
            "No. {} cannot be released: her log has never been closed.",
            kept.number
        )));
    };
    // Whoever releases her says through when her log is closed: through the day before, or days are left in doubt.
    let eve = on.yesterday().unwrap_or(on);
    if log_through < eve {
        return Err(Refusal::refused(format!(
            "No. {} cannot be released on {on}: her log is closed through {log_through} only.",
            kept.number
        ))
        .todo(format!(
            "close it through {eve}, the day before, or through {on}"
        )));
    }
    Ok(vec![Statement::Released(Released {
        locomotive: engine,
        log_through,
    })])
}
