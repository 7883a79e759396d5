//! Who is authorised for what, by whom, until when; a hold point cleared on paper.

use jiff::civil::date;
use shop::Class::{Input, Refused};
use shop::book::{Authority, AuthorityStated, OnPaper, PersonId, Standing};
use shop::job;
use shop::locomotive::{state_authority, with_authority};

use crate::flow::{self, JOB};
use crate::said::no;
use crate::world::{ADA, BEN, CAL, DOT, ELI, TODAY, World, later};

fn stated(person: PersonId, given: bool, from: i64, through: Option<i64>) -> AuthorityStated {
    AuthorityStated {
        person,
        authority: Authority::Repair,
        given,
        from: later(TODAY, from),
        through: through.map(|days| later(TODAY, days)),
        within: None,
        document: "letter 7".into(),
    }
}

fn enter(world: &mut World, told: AuthorityStated) {
    let made = state_authority(&world.book, told, ADA, TODAY);
    world.enter(ADA, TODAY, made);
}

#[test]
fn an_authority_holds_from_its_first_day_through_its_last_and_not_a_day_longer() {
    let mut world = World::new();
    enter(&mut world, stated(ELI, true, 10, Some(40)));
    let may = |world: &World, days: i64| {
        let on = later(TODAY, days);
        with_authority(&world.book, ELI, Authority::Repair, "do it", on)
    };
    no(
        may(&world, 9),
        Refused,
        &["Eli Voss", "`repair`", "begins on"],
    );
    assert_eq!(may(&world, 10), Ok(()));
    assert_eq!(may(&world, 40), Ok(()));
    no(
        may(&world, 41),
        Refused,
        &[
            "Eli Voss",
            "`repair` ended on",
            "letter 7",
            "Cal Wren",
            "the authority anew",
        ],
    );
    // Taken back in the middle: from that day on, whatever was stated before.
    enter(&mut world, stated(ELI, false, 20, None));
    assert_eq!(may(&world, 19), Ok(()));
    no(may(&world, 20), Refused, &["taken back", "Ada Quill"]);
    // Given again without an end.
    enter(&mut world, stated(ELI, true, 30, None));
    no(may(&world, 29), Refused, &["taken back"]);
    assert_eq!(may(&world, 5000), Ok(()));
}

#[test]
fn what_somebody_was_added_with_stands_until_it_is_stated_anew() {
    let mut world = World::new();
    let holds =
        |world: &World, days| world.book.persons[&CAL].holds(Authority::Repair, later(TODAY, days));
    assert_eq!(
        world.book.persons[&CAL].standing(Authority::Repair, TODAY),
        Standing::Added
    );
    enter(&mut world, stated(CAL, true, 0, Some(30)));
    assert!(holds(&world, -1) && holds(&world, 30));
    // An end that is stated is an end: what they were added with does not come back behind it.
    assert!(!holds(&world, 31));
}

#[test]
fn only_an_officer_says_so_with_a_document_and_never_the_last_one_away() {
    let mut world = World::new();
    let book = &world.book;
    let state = |told, by| state_authority(book, told, by, TODAY);
    no(
        state(stated(ELI, true, 0, None), BEN),
        Refused,
        &["Ben Ostrow", "`approve`", "Ada Quill"],
    );
    let bare = |given| AuthorityStated {
        document: " ".into(),
        ..stated(CAL, given, 0, None)
    };
    no(state(bare(true), ADA), Input, &["which document"]);
    no(state(bare(false), ADA), Input, &["why"]);
    no(
        state(stated(ELI, true, 5, Some(4)), ADA),
        Input,
        &["before the first"],
    );
    no(
        state(stated(ELI, false, 0, None), ADA),
        Input,
        &["Eli Voss", "nothing to take back"],
    );
    no(
        state(stated(PersonId(1), true, 0, None), ADA),
        Input,
        &["no such person"],
    );
    let approve = |person, given, through: Option<i64>| AuthorityStated {
        authority: Authority::Approve,
        ..stated(person, given, 0, through)
    };
    no(
        state(approve(ADA, false, None), ADA),
        Refused,
        &["Ada Quill", "somebody else"],
    );
    no(
        state(approve(ADA, true, Some(365)), ADA),
        Refused,
        &["without an end"],
    );
    // One whose authority ends is nobody to leave it to.
    enter(&mut world, approve(DOT, true, Some(365)));
    let away = state_authority(&world.book, approve(ADA, false, None), ADA, TODAY);
    no(away, Refused, &["without an end"]);
    enter(&mut world, approve(DOT, true, None));
    enter(&mut world, approve(ADA, false, None));
    no(
        state_authority(&world.book, stated(ELI, true, 0, None), ADA, TODAY),
        Refused,
        &["Ada Quill", "taken back", "Dot Marsh"],
    );
}

#[test]
fn a_hold_point_is_cleared_on_paper_by_its_releaser_on_a_day_that_can_be() {
    let mut world = flow::ordered();
    let hold = world.book.jobs[&JOB]
        .plan
        .operations
        .iter()
        .position(|o| o.hold.is_some())
        .unwrap();
    let (at, done) = (u32::try_from(hold + 1).unwrap(), later(TODAY, -4));
    for step in 1..=at {
        let made = job::done(&world.book, JOB, step, None, "done", CAL, done);
        world.enter(CAL, done, made);
    }
    let paper = |days: i64, document: &str| {
        Some(OnPaper {
            day: later(TODAY, days),
            document: document.into(),
        })
    };
    let clear =
        |world: &World, paper, by| job::clear(&world.book, JOB, at, "whole", paper, by, TODAY);
    no(clear(&world, paper(-3, " "), ADA), Input, &["which paper"]);
    no(
        clear(&world, paper(-5, "job card"), ADA),
        Input,
        &["between the work"],
    );
    no(clear(&world, paper(1, "job card"), ADA), Input, &["today"]);
    // The paper changes nothing about who may: not the one who did the work, not one without the authority that day.
    no(clear(&world, paper(-3, "job card"), CAL), Refused, &[]);
    no(
        clear(&world, paper(-3, "job card"), ELI),
        Refused,
        &["Eli Voss"],
    );
    let made = clear(&world, paper(-3, "job card"), ADA);
    world.enter(ADA, TODAY, made);
    let state = &world.book.jobs[&JOB].operations[hold];
    assert_eq!(state.cleared, Some((TODAY, ADA, "whole".into())));
    assert_eq!(state.cleared_on_paper, paper(-3, "job card"));
    // The authority is asked of the day somebody looked.
    let short = AuthorityStated {
        person: BEN,
        authority: Authority::Inspect,
        given: true,
        from: date(2020, 1, 1),
        through: Some(later(TODAY, -1)),
        within: None,
        document: "letter".into(),
    };
    enter(&mut world, short);
    let asked = |on| with_authority(&world.book, BEN, Authority::Inspect, "look", on);
    assert_eq!(asked(later(TODAY, -1)), Ok(()));
    no(asked(TODAY), Refused, &["ended on"]);
}
