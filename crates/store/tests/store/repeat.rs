//! The same act sent twice, as a phone with poor signal does: the first answer comes again, once.

use shop::book::{BatchId, EntryId, Statement};
use store::{Act, By, StoreError};

use crate::every_kind;
use crate::world::{
    Folder, OFFICER, act, act_in, clean, fire, logged, shop, standing, state, verb,
};

#[test]
fn the_same_id_and_body_gives_the_first_answer_again() {
    let folder = Folder::new("again");
    let mut store = shop(&folder.file("shop.book"));
    let first = state(&mut store, &act(0x77), fire(1)).unwrap();
    assert!(!first.repeated);
    // More is entered meanwhile: the answer is still the first one, not the newest state of the book.
    for number in 2..6 {
        state(&mut store, &act(0x1000 + u128::from(number)), fire(number)).unwrap();
    }
    let before = standing(&store);
    let again = state(&mut store, &act(0x77), fire(1)).unwrap();
    assert!(again.repeated);
    assert_eq!((again.entries, again.head), (first.entries, first.head));
    assert_eq!(standing(&store), before);
    clean(&store);
}

#[test]
fn an_act_of_several_statements_repeats_as_a_whole() {
    let folder = Folder::new("several");
    let path = folder.file("shop.book");
    let mut store = shop(&path);
    let before = standing(&store);
    let first = Act {
        by: By::Id(OFFICER),
        ..act(1)
    };
    let made = every_kind::shop();
    let again = store.write(&first, verb(&made)).unwrap();
    assert_eq!((again.entries, again.repeated), ((1, 5), true));
    assert_eq!(again.head, before.0.1);
    // A part of it, or more than it, is not the same.
    let mut more = made.clone();
    more.push(fire(1));
    for other in [&made[..4], &made[..1], &more[..]] {
        let said = store.write(&first, verb(other)).unwrap_err();
        assert!(matches!(said, StoreError::OtherBody { seq: 1 }), "{said}");
    }
    assert_eq!(standing(&store), before);
    clean(&store);
}

#[test]
fn a_verb_that_numbers_things_is_asked_with_the_book_as_it_stood() {
    let folder = Folder::new("then");
    let mut store = shop(&folder.file("shop.book"));
    // This verb says how many days the fires of the book touched; asked again today, it would say another number.
    let count = |book: &shop::book::Book, _| {
        Ok(vec![Statement::RunPromised(shop::book::RunPromised {
            id: shop::book::RunId(5),
            locomotive: crate::world::ENGINE,
            day: jiff::civil::date(2026, 6, 1),
            what: format!(
                "run after {} days",
                book.logs.values().map(|log| log.most.len()).sum::<usize>()
            ),
        })])
    };
    let first = store.write(&act(0x77), count).unwrap();
    state(&mut store, &act(0x78), fire(1)).unwrap();
    let again = store.write(&act(0x77), count).unwrap();
    assert_eq!((again.head, again.repeated), (first.head, true));
}

#[test]
fn the_same_id_with_anything_else_is_refused() {
    let folder = Folder::new("other");
    let mut store = logged(&folder.file("shop.book"), 3);
    let before = standing(&store);
    let one = 0x1000;
    let mut another_day = act(one);
    another_day.done_on = jiff::civil::date(2026, 5, 2);
    for (act, statement) in [
        (act(one), fire(9)),
        (another_day, fire(0)),
        (act_in(4, one), fire(0)),
        (act(one + 1), fire(0)),
    ] {
        let said = state(&mut store, &act, statement).unwrap_err();
        assert!(matches!(said, StoreError::OtherBody { .. }), "{said}");
        assert_eq!(said.class(), store::Class::Refused);
    }
    assert_eq!(standing(&store), before);
    clean(&store);
}

#[test]
fn the_device_and_the_hour_may_differ_when_it_is_sent_again() {
    let folder = Folder::new("device");
    let mut store = logged(&folder.file("shop.book"), 1);
    let mut late = act(0x1000);
    late.device = "desk".into();
    late.recorded_at = "2026-05-04T07:00:00-06:00".into();
    assert!(state(&mut store, &late, fire(0)).unwrap().repeated);
}

#[test]
fn corrections_and_withdrawals_repeat_too() {
    let folder = Folder::new("amend");
    let mut store = logged(&folder.file("shop.book"), 3);
    state(&mut store, &act_in(4, 0x40), fire(50)).unwrap();
    let right = every_kind::fire_of(0, 77);
    let mended = store.correct(&act(0x90), 6, "misread", &right).unwrap();
    let taken = store
        .withdraw(&act(0x91), BatchId(4), "entered twice")
        .unwrap();
    state(&mut store, &act(0x92), fire(60)).unwrap();
    let before = standing(&store);

    let again = store.correct(&act(0x90), 6, "misread", &right).unwrap();
    assert!(again.repeated);
    assert_eq!((again.entries, again.head), (mended.entries, mended.head));
    let again = store
        .withdraw(&act(0x91), BatchId(4), "entered twice")
        .unwrap();
    assert!(again.repeated);
    assert_eq!((again.entries, again.head), (taken.entries, taken.head));

    // The same ids with something else to say.
    let other = every_kind::fire_of(0, 78);
    for said in [
        store.correct(&act(0x90), 6, "misread", &other).unwrap_err(),
        store.correct(&act(0x90), 6, "other", &right).unwrap_err(),
        store
            .correct(&act(0x1000), 7, "misread", &every_kind::fire_of(1, 5))
            .unwrap_err(),
        store.withdraw(&act(0x91), BatchId(4), "other").unwrap_err(),
        state(&mut store, &act(0x90), right.clone()).unwrap_err(),
        state(&mut store, &act(0x91), right).unwrap_err(),
    ] {
        assert!(matches!(said, StoreError::OtherBody { .. }), "{said}");
    }
    assert_eq!(standing(&store), before);
    clean(&store);
}

#[test]
fn an_id_made_by_the_book_for_a_second_statement_is_taken_too() {
    let folder = Folder::new("second");
    let mut store = shop(&folder.file("shop.book"));
    let second = String::from_utf8(store.entries().unwrap()[1].id.clone()).unwrap();
    let id: EntryId = second.parse().unwrap();
    let before = standing(&store);
    let said = state(&mut store, &act(id.0), fire(1)).unwrap_err();
    assert!(matches!(said, StoreError::OtherBody { seq: 2 }), "{said}");
    assert_eq!(standing(&store), before);
}
