//! Putting entries right and taking batches back: only the head of a chain, only the same kind, never
//! what a later entry stands on.

use shop::book::{
    Authority, BatchId, LocomotiveAdded, PartAdded, PartId, PersonAdded, PersonId, Statement,
};
use store::{Act, By, Class, Store, StoreError};

use crate::every_kind::{self, fire_of};
use crate::world::{
    ENGINE, Folder, act, act_in, clean, fire, logged, raw, rows, shop, standing, state,
};

fn miles(store: &Store, number: u32) -> Option<u32> {
    let (engine, id) = match fire(number) {
        Statement::FireLogged(it) => (it.locomotive, it.id),
        other => panic!("{other:?}"),
    };
    let book = store.book_with_fires_of(engine).unwrap();
    book.fires.get(engine, id).unwrap().miles
}

/// Expects a refusal and the book as it was.
fn refused(
    store: &mut Store,
    class: Class,
    sentence: &str,
    what: impl FnOnce(&mut Store) -> Result<store::Receipt, StoreError>,
) {
    let before = standing(store);
    let said = what(store).unwrap_err();
    assert!(matches!(said, StoreError::Refused(_)), "{said}");
    assert_eq!(said.class(), class, "{said}");
    assert!(said.to_string().contains(sentence), "{said}");
    assert_eq!(standing(store), before);
    clean(store);
}

#[test]
fn a_correction_takes_the_place_of_what_it_puts_right_and_both_stay_readable() {
    let folder = Folder::new("right");
    let mut store = logged(&folder.file("shop.book"), 3);
    let wrong = store.entries().unwrap()[5].clone();
    let receipt = store
        .correct(&act(0x90), 6, " misread ", &fire_of(0, 77))
        .unwrap();
    assert_eq!(receipt.entries, (9, 9));
    assert_eq!(miles(&store, 0), Some(77));
    let entries = store.entries().unwrap();
    assert_eq!(entries[5], wrong);
    assert_eq!(entries[8].supersedes.as_deref(), Some(&wrong.id[..]));
    let kept = String::from_utf8(entries[8].body.clone()).unwrap();
    assert!(kept.contains(r#""because":"misread""#), "{kept}");
    // The engine shows that she was touched now, though the entry stands in an old place.
    assert_eq!(store.whole_book().unwrap().locomotives[&ENGINE].last, 9);
    clean(&store);
}

#[test]
fn only_the_head_of_a_chain_may_be_put_right() {
    let folder = Folder::new("chain");
    let mut store = logged(&folder.file("shop.book"), 2);
    store.correct(&act(0x90), 6, "one", &fire_of(0, 1)).unwrap();
    refused(
        &mut store,
        Class::Refused,
        "has been put right by entry 8",
        |s| s.correct(&act(0x91), 6, "two", &fire_of(0, 2)),
    );
    store.correct(&act(0x92), 8, "two", &fire_of(0, 2)).unwrap();
    refused(
        &mut store,
        Class::Refused,
        "has been put right by entry 9",
        |s| s.correct(&act(0x93), 8, "three", &fire_of(0, 3)),
    );
    store
        .correct(&act(0x94), 9, "three", &fire_of(0, 3))
        .unwrap();
    assert_eq!(miles(&store, 0), Some(3));
    clean(&store);
}

#[test]
fn another_kind_or_another_thing_or_nothing_is_refused() {
    let folder = Folder::new("kind");
    let mut store = logged(&folder.file("shop.book"), 2);
    let promise = every_kind::work()
        .into_iter()
        .find(|s| s.kind() == "run-promised")
        .unwrap();
    refused(
        &mut store,
        Class::Refused,
        "a `run-promised` cannot stand in its place",
        |s| s.correct(&act(0x90), 6, "slip", &promise),
    );
    refused(
        &mut store,
        Class::Refused,
        "never what it was said of",
        |s| s.correct(&act(0x90), 6, "slip", &fire_of(1, 5)),
    );
    refused(&mut store, Class::Input, "There is no entry 66", |s| {
        s.correct(&act(0x90), 66, "slip", &fire_of(0, 5))
    });
    refused(&mut store, Class::Input, "needs its reason", |s| {
        s.correct(&act(0x90), 6, "  ", &fire_of(0, 5))
    });
    // Another kind is refused for a corrected entry too.
    store
        .correct(&act(0x91), 6, "slip", &fire_of(0, 5))
        .unwrap();
    refused(
        &mut store,
        Class::Refused,
        "Entry 8 is a `fire-logged`",
        |s| s.correct(&act(0x90), 8, "slip", &promise),
    );
}

#[test]
fn a_correction_slipped_in_as_work_is_refused() {
    let folder = Folder::new("slip");
    let mut store = logged(&folder.file("shop.book"), 1);
    for statement in every_kind::all().into_iter().rev().take(2) {
        refused(&mut store, Class::Input, "is not entered like work", |s| {
            state(s, &act(0x90), statement)
        });
    }
}

#[test]
fn what_a_later_entry_stands_on_cannot_be_taken_back() {
    let folder = Folder::new("ground");
    let mut store = shop(&folder.file("shop.book"));
    let part = match &every_kind::shop()[4] {
        Statement::PartAdded(it) => PartAdded {
            id: PartId(0xFC2),
            name: "left feed check".into(),
            ..it.clone()
        },
        other => panic!("{other:?}"),
    };
    let part = Statement::PartAdded(part);
    state(&mut store, &act_in(3, 0x30), part).unwrap();
    let tool = match every_kind::work()
        .into_iter()
        .find(|s| s.kind() == "tooling-added")
    {
        Some(Statement::ToolingAdded(mut it)) => {
            it.part = PartId(0xFC2);
            it.job = None;
            Statement::ToolingAdded(it)
        }
        other => panic!("{other:?}"),
    };
    state(&mut store, &act(0x31), tool).unwrap();
    refused(
        &mut store,
        Class::Refused,
        "a later entry builds on it: entry 7 (tooling-added) speaks of a part",
        |s| s.withdraw(&act(0x32), BatchId(3), "wrong engine"),
    );
}

#[test]
fn a_correction_of_an_entry_whose_batch_is_withdrawn_holds_the_batch() {
    let folder = Folder::new("held");
    let mut store = logged(&folder.file("shop.book"), 1);
    state(&mut store, &act_in(3, 0x30), fire(9)).unwrap();
    store
        .correct(&act(0x31), 7, "slip", &fire_of(9, 3))
        .unwrap();
    refused(
        &mut store,
        Class::Refused,
        "entry 8 puts right an entry that is not there",
        |s| s.withdraw(&act(0x32), BatchId(3), "entered twice"),
    );
}

#[test]
fn a_withdrawn_batch_counts_no_more_and_stays_readable() {
    let folder = Folder::new("batch");
    let path = folder.file("shop.book");
    let mut store = logged(&path, 2);
    let never = rows(&path);
    state(&mut store, &act_in(3, 0x30), fire(9)).unwrap();
    state(&mut store, &act_in(3, 0x31), fire(10)).unwrap();
    assert_eq!(store.whole_book().unwrap().fires.len(), 4);
    let entries = store.entries().unwrap();
    store
        .withdraw(&act(0x32), BatchId(3), "entered twice")
        .unwrap();
    assert_eq!(rows(&path), never);
    assert_eq!(&store.entries().unwrap()[..9], &entries[..]);
    clean(&store);

    refused(&mut store, Class::Input, "no such batch", |s| {
        s.withdraw(&act(0x33), BatchId(9), "entered twice")
    });
    refused(&mut store, Class::Input, "needs its reason", |s| {
        s.withdraw(&act(0x33), BatchId(3), "")
    });
    refused(&mut store, Class::Refused, "withdrawn already", |s| {
        s.withdraw(&act(0x33), BatchId(3), "again")
    });
    refused(&mut store, Class::Input, "stands alone", |s| {
        s.withdraw(&act_in(5, 0x33), BatchId(3), "again")
    });
    // An offline device that still holds entries of that batch must be told, not left believing.
    refused(&mut store, Class::Refused, "has been withdrawn", |s| {
        state(s, &act_in(3, 0x34), fire(11))
    });
    refused(&mut store, Class::Refused, "has been withdrawn", |s| {
        s.correct(&act_in(3, 0x34), 6, "slip", &fire_of(0, 5))
    });
    refused(&mut store, Class::Refused, "counts no more", |s| {
        s.correct(&act(0x34), 8, "slip", &fire_of(9, 5))
    });
    refused(&mut store, Class::Refused, "cannot be put right", |s| {
        s.correct(&act(0x34), 10, "slip", &fire(9))
    });
}

#[test]
fn what_a_withdrawn_correction_had_put_right_can_be_put_right_anew() {
    let folder = Folder::new("undone");
    let mut store = logged(&folder.file("shop.book"), 1);
    let was = miles(&store, 0);
    store
        .correct(&act_in(3, 0x30), 6, "slip", &fire_of(0, 1))
        .unwrap();
    store
        .withdraw(&act(0x31), BatchId(3), "wrong sheet")
        .unwrap();
    assert_eq!(miles(&store, 0), was);
    store
        .correct(&act(0x32), 6, "slip", &fire_of(0, 2))
        .unwrap();
    assert_eq!(miles(&store, 0), Some(2));
    clean(&store);
}

#[test]
fn what_was_entered_again_holds_the_withdrawn_first() {
    // The same fire in a batch, withdrawn, and then by hand: it is there once.
    let folder = Folder::new("once");
    let mut store = logged(&folder.file("shop.book"), 1);
    state(&mut store, &act_in(3, 0x30), fire(9)).unwrap();
    store
        .withdraw(&act(0x31), BatchId(3), "import went wrong")
        .unwrap();
    state(&mut store, &act(0x32), fire(9)).unwrap();
    assert_eq!(store.whole_book().unwrap().fires.len(), 2);
    clean(&store);
}

#[test]
fn a_mended_fact_of_an_engine_is_asked_what_a_new_one_is() {
    let folder = Folder::new("engine");
    let mut store = logged(&folder.file("shop.book"), 1);
    let engine = match &every_kind::shop()[3] {
        Statement::LocomotiveAdded(it) => it.clone(),
        other => panic!("{other:?}"),
    };
    let elsewhere = Statement::LocomotiveAdded(LocomotiveAdded {
        jurisdiction: "nowhere".into(),
        ..engine.clone()
    });
    refused(&mut store, Class::Input, "no rulebook `nowhere`", |s| {
        s.correct(&act(0x90), 4, "card read again", &elsewhere)
    });
    let mended = Statement::LocomotiveAdded(LocomotiveAdded {
        mawp_psig: Some(175),
        fittings: Default::default(),
        ..engine
    });
    store
        .correct(&act(0x90), 4, "card read again", &mended)
        .unwrap();
    let book = store.whole_book().unwrap();
    let kept = &book.locomotives[&ENGINE];
    assert_eq!((kept.mawp_psig, kept.last), (Some(175), 7));
    clean(&store);
}

#[test]
fn who_mends_is_named_on_the_correction_and_who_did_it_on_the_thing() {
    let folder = Folder::new("who");
    let path = folder.file("shop.book");
    let mut store = shop(&path);
    let second = PersonAdded {
        id: PersonId(0xBE),
        name: "Bo Tansy".into(),
        may: vec![Authority::Inspect],
        trade: None,
    };
    state(&mut store, &act(0x20), Statement::PersonAdded(second)).unwrap();
    let finding = every_kind::write_up();
    state(&mut store, &act(0x21), finding.clone()).unwrap();
    let by_bo = Act {
        by: By::Name("Bo Tansy".into()),
        ..act(0x22)
    };
    let mended = match finding {
        Statement::FindingRecorded(mut it) => {
            it.told = "Cold above the check after all".into();
            Statement::FindingRecorded(it)
        }
        other => panic!("{other:?}"),
    };
    store
        .correct(&by_bo, 7, "felt the wrong pipe", &mended)
        .unwrap();
    let book = store.whole_book().unwrap();
    let kept = &book.findings[&every_kind::FINDING];
    assert_eq!(kept.found_by, crate::world::OFFICER);
    assert_eq!(
        (kept.told.as_str(), kept.last),
        ("Cold above the check after all", 8)
    );
    let person: String = raw(&path)
        .query_row("SELECT person FROM entry WHERE seq = 8", [], |row| {
            row.get(0)
        })
        .unwrap();
    assert_eq!(person, PersonId(0xBE).to_string());
    clean(&store);
}
