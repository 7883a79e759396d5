//! Blue checks of a seat while it is lapped: where it touches, how wide, after which grit; and what of that its close asks.
//!
//! A ring that goes all round proves that two faces meet, not that either is true: each is blued to its own master.

use measure::Size;

use crate::Refusal;
use crate::book::{BlueChecked, BlueSeen, BluedFace, Book, Job, RingWidth, Statement, Touch};
use crate::job::open;

/// The proof whose close asks for a ring. A family names it for the seats that are lapped.
pub const BLUE: &str = "blue";

/// Degrees of a whole turn.
const ROUND: u16 = 360;

/// States a blue check.
///
/// # Errors
/// Refused: the job is closed. Input: nothing is said of the grit, an arc is none, a width is none or its most is under
/// its least, there is no such photograph.
pub fn check_blue(book: &Book, new: BlueChecked) -> Result<Vec<Statement>, Refusal> {
    open(book, new.job)?;
    admit_blue(book, &new.seen)?;
    let after = new.seen.after.trim().to_owned();
    let told = new.seen.told.map(|told| told.trim().to_owned());
    Ok(vec![Statement::BlueChecked(BlueChecked {
        job: new.job,
        seen: BlueSeen {
            after,
            told: told.filter(|told| !told.is_empty()),
            ..new.seen
        },
    })])
}

/// What a blue check must say, new or put right.
///
/// # Errors
/// As [`check_blue`], but for the job.
pub fn admit_blue(book: &Book, new: &BlueSeen) -> Result<(), Refusal> {
    if new.after.trim().is_empty() {
        return Err(Refusal::input(
            "After which cut or grit it was blued was expected, such as 320 grit.",
        ));
    }
    for Touch { from, to } in &new.touches {
        if *from >= ROUND || *to > ROUND || from == to {
            return Err(Refusal::input(format!(
                "`{from}-{to}` is no arc: whole degrees from the front, such as 20-140, or 0-360 for all round, were expected."
            )));
        }
    }
    for (what, width) in [("measured", new.width), ("wanted", new.wanted)] {
        if let Some(RingWidth { least, most }) = width
            && (least <= Size::from_ticks(0) || most < least)
        {
            return Err(Refusal::input(format!(
                "The width {what} is none: the least, above nothing, and then the most was expected."
            )));
        }
    }
    if new.touches.is_empty() && new.width.is_some() {
        return Err(Refusal::input(
            "Where it touches nowhere there is no width: leave it out, or say where it touches.",
        ));
    }
    if new
        .photo
        .is_some_and(|photo| !book.photos.contains_key(&photo))
    {
        return Err(Refusal::input("There is no such photograph in this book."));
    }
    Ok(())
}

/// How many of the 360 degrees touch.
pub fn degrees(touches: &[Touch]) -> usize {
    (0..ROUND)
        .filter(|at| touches.iter().any(|one| holds(*one, *at)))
        .count()
}

/// Whether the degree from `at` to the next lies on an arc.
fn holds(Touch { from, to }: Touch, at: u16) -> bool {
    if from < to {
        from <= at && at < to
    } else {
        from <= at || at < to
    }
}

/// The newest check of a face.
pub fn newest(job: &Job, face: BluedFace) -> Option<&BlueSeen> {
    let mut seen = job.blues.iter().rev().map(|blue| &blue.seen);
    seen.find(|seen| seen.face == face)
}

/// The width that is wanted of a face, as it was stated last.
pub fn wanted(job: &Job, face: BluedFace) -> Option<RingWidth> {
    let seen = job.blues.iter().rev().map(|blue| &blue.seen);
    let mut of_face = seen.filter(|seen| seen.face == face);
    of_face.find_map(|seen| seen.wanted)
}

/// What of rings keeps a job from its close, one line each: the newest ring on the seat, and on every face that was blued,
/// goes all round and is as wide as was wanted. Nothing for a job that asks for no such proof.
pub fn missing_rings(job: &Job) -> Vec<String> {
    if !job.plan.proofs.iter().any(|proof| proof == BLUE) {
        return Vec::new();
    }
    let mut missing = Vec::new();
    for face in BluedFace::ALL {
        let word = face.word();
        let Some(blue) = newest(job, face) else {
            if face == BluedFace::Seat {
                missing.push(
                    "no blue check of the seat: where it touches, how wide the ring is and is to be".to_owned(),
                );
            }
            continue;
        };
        let round = degrees(&blue.touches);
        if round < usize::from(ROUND) {
            missing.push(format!(
                "the newest blue on the {word} touches {round} of 360 degrees, not all round"
            ));
        }
        match (blue.width, wanted(job, face)) {
            (_, None) => missing.push(format!(
                "how wide the ring on the {word} is to be was not stated"
            )),
            (None, _) => missing.push(format!(
                "the width of the newest ring on the {word} was not stated"
            )),
            (Some(width), Some(wanted)) => {
                if width.least < wanted.least || width.most > wanted.most {
                    missing.push(format!(
                        "the newest ring on the {word} is not as wide as was wanted"
                    ));
                }
            }
        }
    }
    missing
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arcs_are_counted_once_and_may_go_through_the_front() {
        let touch = |from, to| Touch { from, to };
        assert_eq!(degrees(&[]), 0);
        assert_eq!(degrees(&[touch(0, 360)]), 360);
        assert_eq!(degrees(&[touch(20, 140)]), 120);
        assert_eq!(degrees(&[touch(350, 10)]), 20);
        assert_eq!(degrees(&[touch(0, 180), touch(90, 270)]), 270);
        assert_eq!(degrees(&[touch(0, 180), touch(180, 360)]), 360);
        assert_eq!(degrees(&[touch(1, 360)]), 359);
    }
}
