//! After every kind of error the book is what it was; and each error says what, what was not saved or
//! changed, and what to do.

use std::path::PathBuf;

use shop::Refusal;
use shop::book::{RunId, RunPromised, Statement};
use store::{Act, By, Class, Store, StoreError};

use crate::every_kind;
use crate::world::{ENGINE, Folder, act, clean, fire, logged, raw, rows, standing, state};

type Attempt = (&'static str, Class, fn(&mut Store) -> StoreError);

fn by(name: &str) -> Act {
    Act {
        by: By::Name(name.into()),
        ..act(0x90)
    }
}

const ATTEMPTS: &[Attempt] = &[
    ("a verb that refuses", Class::Refused, |store| {
        let no = |_: &_, _| Err(Refusal::refused("An item is open.").todo("answer it"));
        store.write(&act(0x90), no).unwrap_err()
    }),
    ("a verb that is given nonsense", Class::Input, |store| {
        let no = |_: &_, _| Err(Refusal::input("`fifty-six` is no length."));
        store.write(&act(0x90), no).unwrap_err()
    }),
    (
        "a verb that had seen an older state",
        Class::Refused,
        |store| {
            // What the person saw is an argument of the verb, and the verb is asked inside the one write.
            let seen = store.whole_book().unwrap().locomotives[&ENGINE].last;
            state(store, &act(0x91), fire(100)).unwrap();
            let release = |book: &shop::book::Book, _| {
                if book.locomotives[&ENGINE].last > seen {
                    return Err(Refusal::refused("No. 14 has changed since you looked."));
                }
                Ok(vec![fire(101)])
            };
            store.write(&act(0x90), release).unwrap_err()
        },
    ),
    ("a verb that has nothing to say", Class::Input, |store| {
        store.write(&act(0x90), |_, _| Ok(Vec::new())).unwrap_err()
    }),
    ("a stranger", Class::Input, |store| {
        state(store, &by("Nobody Known"), fire(100)).unwrap_err()
    }),
    ("a thing that stands already", Class::Refused, |store| {
        state(store, &act(0x90), fire(0)).unwrap_err()
    }),
    ("a thing nobody has made", Class::Refused, |store| {
        let promise = Statement::RunPromised(RunPromised {
            id: RunId(1),
            locomotive: shop::book::LocomotiveId(0x999),
            day: jiff::civil::date(2026, 6, 1),
            what: "a run".into(),
        });
        state(store, &act(0x90), promise).unwrap_err()
    }),
    ("the second of two statements", Class::Refused, |store| {
        let both = [fire(100), fire(0)];
        let said = store.write(&act(0x90), |_, _| Ok(both.to_vec()));
        said.unwrap_err()
    }),
    ("an id with another body", Class::Refused, |store| {
        state(store, &act(0x1000), fire(100)).unwrap_err()
    }),
    ("a correction of nothing", Class::Input, |store| {
        let instead = every_kind::fire_of(0, 1);
        store.correct(&act(0x90), 99, "slip", &instead).unwrap_err()
    }),
    ("a correction by a stranger", Class::Input, |store| {
        let instead = every_kind::fire_of(0, 1);
        let by = by("Nobody Known");
        store.correct(&by, 6, "slip", &instead).unwrap_err()
    }),
    ("a withdrawal of nothing", Class::Input, |store| {
        let batch = shop::book::BatchId(1);
        store.withdraw(&act(0x90), batch, "slip").unwrap_err()
    }),
    ("a copy over a file that is there", Class::Input, |store| {
        store.copy_to(store.path()).unwrap_err()
    }),
    (
        "a new book over a file that is there",
        Class::Input,
        |store| Store::create(store.path()).err().unwrap(),
    ),
];

#[test]
fn nothing_that_fails_leaves_a_trace() {
    for (name, class, attempt) in ATTEMPTS {
        let folder = Folder::new("trace");
        let path = folder.file("shop.book");
        let mut store = logged(&path, 3);
        let mut before = (standing(&store), rows(&path));
        let said = attempt(&mut store);
        assert_eq!(said.class(), *class, "{name}: {said}");
        if name.contains("older state") {
            // The other entry went in, and that is all.
            assert_eq!(store.head().unwrap().0, before.0.0.0 + 1);
            before = (standing(&store), rows(&path));
        }
        assert_eq!((standing(&store), rows(&path)), before, "{name}");
        clean(&store);
        // What failed holds nobody up.
        state(&mut store, &act(0xA0), fire(200)).expect(name);
        clean(&store);
    }
}

#[test]
fn a_book_that_somebody_else_is_writing_to_is_busy_and_unharmed() {
    let folder = Folder::new("busy");
    let path = folder.file("shop.book");
    let mut store = logged(&path, 2);
    let before = standing(&store);
    let other = raw(&path);
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let said = state(&mut store, &act(0x90), fire(9)).unwrap_err();
    assert!(matches!(said, StoreError::Busy), "{said}");
    assert_eq!(said.class(), Class::Machine);
    // Reading goes on meanwhile.
    assert_eq!(standing(&store), before);
    clean(&store);
    other.execute_batch("ROLLBACK").unwrap();
    state(&mut store, &act(0x90), fire(9)).unwrap();
    clean(&store);
}

#[test]
fn two_writers_take_turns() {
    let folder = Folder::new("turns");
    let path = folder.file("shop.book");
    let mut one = logged(&path, 0);
    let mut two = Store::open(&path).unwrap();
    for number in 0..10 {
        let store = if number % 2 == 0 { &mut one } else { &mut two };
        let receipt = state(store, &act(0x2000 + u128::from(number)), fire(number)).unwrap();
        assert_eq!(receipt.entries.0, 6 + u64::from(number));
    }
    assert_eq!(standing(&one), standing(&two));
    clean(&one);
    clean(&two);
}

#[test]
fn a_check_sees_one_moment_of_a_book_that_grows() {
    let folder = Folder::new("moment");
    let path = folder.file("shop.book");
    let mut store = logged(&path, 30);
    let reader = Store::open(&path).unwrap();
    std::thread::scope(|scope| {
        let writer = scope.spawn(move || {
            for number in 0..300 {
                let id = 0x3000 + u128::from(number);
                state(&mut store, &act(id), fire(100 + number)).unwrap();
            }
            store
        });
        while !writer.is_finished() {
            clean(&reader);
        }
        let store = writer.join().unwrap();
        assert_eq!(standing(&store), standing(&reader));
    });
    clean(&reader);
}

/// Every error, one of each; the match below keeps the list whole.
fn one_of_each() -> Vec<StoreError> {
    let path = PathBuf::from("shop.book");
    vec![
        StoreError::Refused(Refusal::refused("J-001 cannot be signed.").todo("clear the hold")),
        StoreError::Absent(path.clone()),
        StoreError::Exists(path.clone()),
        StoreError::Foreign {
            path: path.clone(),
            why: "it is empty".into(),
        },
        StoreError::Newer {
            path: path.clone(),
            found: 9,
            known: 1,
        },
        StoreError::Network(path.clone()),
        StoreError::Damaged {
            path,
            why: "it ends too soon".into(),
        },
        StoreError::Full("no room".into()),
        StoreError::Busy,
        StoreError::OtherBody { seq: 4 },
        StoreError::Database("no such thing".into()),
    ]
}

/// What, what was not saved or changed, what to do, and the class.
fn asked(error: &StoreError) -> ([&'static str; 3], Class) {
    match error {
        // The shell adds that nothing was saved: a refusal says the rest.
        StoreError::Refused(_) => (
            ["J-001 cannot be signed.", "", "\n  - clear the hold"],
            Class::Refused,
        ),
        // Nothing was there that could have been changed.
        StoreError::Absent(_) => (
            ["There is no book at shop.book.", "", "`outshop new`"],
            Class::Input,
        ),
        StoreError::Exists(_) => (
            [
                "shop.book exists already",
                "never overwrites",
                "Give a name that is free.",
            ],
            Class::Input,
        ),
        StoreError::Foreign { .. } => (
            [
                "shop.book is not a book of this program: it is empty.",
                "It was not changed.",
                "Name the right file.",
            ],
            Class::Machine,
        ),
        StoreError::Newer { .. } => (
            [
                "layout 9; this build knows 1",
                "It was not changed.",
                "Use the newer program.",
            ],
            Class::Machine,
        ),
        StoreError::Network(_) => (
            [
                "lies on a network share",
                "Nothing was saved there.",
                "Keep the book on",
            ],
            Class::Machine,
        ),
        StoreError::Damaged { .. } => (
            [
                "is damaged: it ends too soon.",
                "Nothing was changed.",
                "the last backup",
            ],
            Class::Machine,
        ),
        StoreError::Full(_) => (
            [
                "The disk is full (no room).",
                "The entry was not saved",
                "Make room",
            ],
            Class::Machine,
        ),
        StoreError::Busy => (
            ["by somebody else", "The entry was not saved", "try again"],
            Class::Machine,
        ),
        StoreError::OtherBody { .. } => (
            [
                "Entry 4 has this id already",
                "Nothing was saved.",
                "Look at that entry",
            ],
            Class::Refused,
        ),
        StoreError::Database(_) => (
            ["no such thing", "Nothing was saved.", "run `outshop check`"],
            Class::Machine,
        ),
    }
}

#[test]
fn each_error_says_what_and_what_not_and_what_to_do() {
    let all = one_of_each();
    let kinds: std::collections::HashSet<_> = all.iter().map(std::mem::discriminant).collect();
    assert_eq!(kinds.len(), 11);
    for error in &all {
        let text = error.to_string();
        let (parts, class) = asked(error);
        for part in parts {
            assert!(text.contains(part), "`{part}` in `{text}`");
        }
        assert_eq!(error.class(), class, "{text}");
        assert!(
            !text.contains("  -") || matches!(error, StoreError::Refused(_)),
            "{text}"
        );
    }
}

#[test]
fn a_person_is_asked_for_by_the_book_and_not_made_up() {
    let folder = Folder::new("person");
    let path = folder.file("shop.book");
    let mut store = Store::create(&path).unwrap();
    let named = act(1);
    assert_eq!(
        state(&mut store, &named, fire(0)).unwrap_err().class(),
        Class::Input
    );
    assert_eq!(store.head().unwrap().0, 0);
    assert!(store.whole_book().unwrap().persons.is_empty());
}
