//! Letters: what is promised by when, and that nothing promised is lost.

use shop::book::{
    Letter, LetterAnswered, LetterId, LetterLogged, LocomotiveId, Promised, Statement, Way,
};
use shop::locomotive::{LetterStanding, answer_letter, letter_stands, log_letter, open_letters};
use shop::{Class, Refusal};

use crate::world::{ADA, FOURTEEN, TODAY, TWENTY_SEVEN, World, later};

fn letter(id: u128, days: Option<i64>) -> LetterLogged {
    LetterLogged {
        id: LetterId(id),
        way: Way::From,
        with: "a foundry".into(),
        what: "the pattern came".into(),
        locomotive: Some(FOURTEEN),
        finding: None,
        job: None,
        promised: Some(Promised {
            ours: false,
            what: "two castings".into(),
            until: days.map(|days| later(TODAY, days)),
        }),
    }
}

fn kept(world: &World, id: u128) -> &Letter {
    &world.book.letters[&LetterId(id)]
}

#[test]
fn a_promise_is_open_until_its_day_overdue_after_it_and_answered_once_said() {
    let mut world = World::new();
    for (id, days) in [(1, Some(10)), (2, Some(3)), (3, None)] {
        let logged = log_letter(&world.book, letter(id, days), TODAY);
        world.enter(ADA, TODAY, logged);
    }
    let stands = |world: &World, days| letter_stands(kept(world, 1), later(TODAY, days));
    assert_eq!(stands(&world, 10), LetterStanding::Open);
    assert_eq!(stands(&world, 11), LetterStanding::Overdue);
    let open = |world: &World, days, only| {
        let all = open_letters(&world.book, later(TODAY, days), only);
        all.iter().map(|(it, _)| it.number).collect::<Vec<_>>()
    };
    // Overdue first, then by day, then what has no day.
    assert_eq!(open(&world, 5, None), [2, 1, 3]);
    assert_eq!(open(&world, 5, Some(TWENTY_SEVEN)), [0; 0]);
    let answer = LetterAnswered {
        letter: LetterId(1),
        by: None,
        told: "both came".into(),
    };
    let said = answer_letter(&world.book, answer.clone());
    world.enter(ADA, later(TODAY, 12), said);
    // On a day before the answer it was still owed.
    assert_eq!(stands(&world, 11), LetterStanding::Overdue);
    assert_eq!(stands(&world, 12), LetterStanding::Answered);
    no(
        answer_letter(&world.book, answer),
        Class::Refused,
        "was answered on",
    );
}

fn no(asked: Result<Vec<Statement>, Refusal>, class: Class, says: &str) {
    let why = asked.unwrap_err();
    assert_eq!(why.class, class, "{why}");
    assert!(why.to_string().contains(says), "{why}");
}

#[test]
fn a_letter_that_says_nothing_or_of_nobody_is_refused() {
    let mut world = World::new();
    let log = |it: LetterLogged| log_letter(&world.book, it, TODAY);
    no(
        log(LetterLogged {
            with: " ".into(),
            ..letter(1, None)
        }),
        Class::Input,
        "with somebody",
    );
    no(
        log(LetterLogged {
            what: String::new(),
            ..letter(1, None)
        }),
        Class::Input,
        "says something",
    );
    no(
        log(LetterLogged {
            locomotive: Some(LocomotiveId(99)),
            ..letter(1, None)
        }),
        Class::Input,
        "no such engine",
    );
    no(
        log(letter(1, Some(-1))),
        Class::Input,
        "before the letter itself",
    );
    let nothing = Promised {
        ours: true,
        what: " ".into(),
        until: None,
    };
    no(
        log(LetterLogged {
            promised: Some(nothing),
            ..letter(1, None)
        }),
        Class::Input,
        "what is promised",
    );
    let plain = LetterLogged {
        promised: None,
        ..letter(1, None)
    };
    let logged = log(plain);
    world.enter(ADA, TODAY, logged);
    let answer = |by| LetterAnswered {
        letter: LetterId(1),
        by,
        told: "it came".into(),
    };
    no(
        answer_letter(&world.book, answer(None)),
        Class::Refused,
        "promises nothing",
    );
    no(
        answer_letter(&world.book, answer(Some(LetterId(1)))),
        Class::Input,
        "does not answer itself",
    );
    let silent = LetterAnswered {
        told: " ".into(),
        ..answer(None)
    };
    no(
        answer_letter(&world.book, silent),
        Class::Input,
        "what came of it",
    );
}
