//! A book asked and written for one engine, the batches in it, and the bare reading of its entries.

use std::collections::BTreeMap;

use shop::book::{
    BatchId, FireId, FireLogged, LocomotiveAdded, LocomotiveId, LogClosed, RowKind, Statement,
};
use store::Store;

use crate::every_kind;
use crate::world::{ENGINE, Folder, OFFICER, TODAY, act, act_in, clean, fire, rows, shop, state};

/// A second engine of the invented shop.
const OTHER: LocomotiveId = LocomotiveId(0x27);

/// The shop with a second engine, whose number holds what a query must not stumble over.
fn two(folder: &Folder, name: &str) -> Store {
    let mut store = shop(&folder.file(name));
    let other = LocomotiveAdded {
        id: OTHER,
        number: "2'7\"%".into(),
        wheels: "4-6-0".into(),
        gauge: measure::Size::ZERO,
        jurisdiction: "us-steam".into(),
        mawp_psig: None,
        axle_load_lb: None,
        fittings: BTreeMap::new(),
    };
    state(&mut store, &act(2), Statement::LocomotiveAdded(other)).unwrap();
    store
}

fn of_other(number: u32) -> Statement {
    match fire(number) {
        Statement::FireLogged(it) => Statement::FireLogged(FireLogged {
            id: FireId(0xAF00 + u128::from(number)),
            locomotive: OTHER,
            ..it
        }),
        other => other,
    }
}

#[test]
fn written_for_one_engine_a_book_is_the_same() {
    let folder = Folder::new("one-engine");
    let (mut whole, mut part) = (two(&folder, "whole.book"), two(&folder, "part.book"));
    for number in 0..6 {
        let (engine, what) = if number % 2 == 0 {
            (ENGINE, fire(number))
        } else {
            (OTHER, of_other(number))
        };
        let act = act(0x100 + u128::from(number));
        state(&mut whole, &act, what.clone()).unwrap();
        let receipt = part
            .write_of(&act, engine, |book, by| {
                assert_eq!(by, OFFICER);
                assert!(book.locomotives.keys().eq([&engine]));
                Ok(vec![what.clone()])
            })
            .unwrap();
        // The same again gives the first answer, and another statement under its id is refused.
        let again = part.write_of(&act, engine, |_, _| Ok(vec![what.clone()]));
        assert_eq!(again.unwrap().entries, receipt.entries);
        assert!(
            part.write_of(&act, engine, |_, _| Ok(vec![fire(99)]))
                .is_err()
        );
    }
    assert_eq!(whole.head().unwrap(), part.head().unwrap());
    assert_eq!(
        rows(&folder.file("whole.book")),
        rows(&folder.file("part.book"))
    );
    clean(&part);
    // A fire that stands already is refused here too, though it was not read.
    let twice = part.write_of(&act(0x999), ENGINE, |_, _| Ok(vec![fire(0)]));
    assert!(twice.unwrap_err().to_string().contains("stands already"));
    clean(&part);
}

#[test]
fn an_engine_is_found_by_her_number_alone() {
    let folder = Folder::new("by-number");
    let store = two(&folder, "shop.book");
    assert_eq!(store.engine_of("14").unwrap(), Some(ENGINE));
    assert_eq!(store.engine_of("2'7\"%").unwrap(), Some(OTHER));
    for none in ["", "1", "%", "14' OR 1=1 --", "27"] {
        assert_eq!(store.engine_of(none).unwrap(), None, "{none}");
    }
}

#[test]
fn a_book_of_one_engine_holds_hers_and_what_is_nobodys() {
    let folder = Folder::new("hers");
    let mut store = two(&folder, "shop.book");
    state(&mut store, &act(0x100), fire(1)).unwrap();
    state(&mut store, &act(0x101), of_other(2)).unwrap();
    let closed = LogClosed {
        locomotive: OTHER,
        from: TODAY,
        through: TODAY,
    };
    state(&mut store, &act(0x102), Statement::LogClosed(closed)).unwrap();
    let (whole, hers) = (store.book().unwrap(), store.book_of(OTHER).unwrap());
    assert_eq!(hers.locomotives.get(&OTHER), whole.locomotives.get(&OTHER));
    assert_eq!(hers.logs.get(&OTHER), whole.logs.get(&OTHER));
    assert_eq!(hers.persons, whole.persons);
    assert_eq!(hers.families, whole.families);
    for row in hers.rows() {
        assert!(
            hers.row_engine(&row).is_none_or(|engine| engine == OTHER),
            "{row:?}"
        );
    }
    assert!(whole.rows().iter().any(|row| row.kind == RowKind::Part));
    // The fires of both, where both are asked for.
    let both = store.book_with_fires_of_each(&[ENGINE, OTHER]).unwrap();
    for engine in [ENGINE, OTHER] {
        assert_eq!(both.fires.of(engine).unwrap().count(), 1);
    }
    assert!(
        store
            .book_with_fires_of(ENGINE)
            .unwrap()
            .fires
            .of(OTHER)
            .is_none()
    );
}

#[test]
fn batches_are_listed_with_who_and_whether_they_were_taken_back() {
    let folder = Folder::new("batches");
    let mut store = two(&folder, "shop.book");
    assert_eq!(store.batches().unwrap(), []);
    for (batch, id, number) in [(0xB, 0x100, 1), (0xA, 0x101, 2), (0xB, 0x102, 3)] {
        state(&mut store, &act_in(batch, id), fire(number)).unwrap();
    }
    store
        .withdraw(&act(0x200), BatchId(0xA), "entered twice")
        .unwrap();
    let told: Vec<_> = store
        .batches()
        .unwrap()
        .into_iter()
        .map(|it| (it.id, it.entries, it.first, it.last, it.by, it.withdrawn))
        .collect();
    assert_eq!(
        told,
        [
            (BatchId(0xB), 2, 7, 9, OFFICER, false),
            (BatchId(0xA), 1, 8, 8, OFFICER, true),
        ]
    );
}

#[test]
fn a_bare_reading_reads_every_byte() {
    let folder = Folder::new("scan");
    let mut store = two(&folder, "shop.book");
    state(
        &mut store,
        &act_in(0xB, 0x100),
        every_kind::later_forms().remove(0),
    )
    .unwrap();
    let entries = store.entries().unwrap();
    let bytes: usize = entries
        .iter()
        .map(|e| {
            let texts = [
                &e.id,
                &e.device,
                &e.person,
                &e.done_on,
                &e.recorded_at,
                &e.kind,
                &e.body,
                &e.prev,
                &e.hash,
            ];
            let optional = [&e.batch, &e.supersedes];
            // The number and the form are whole numbers, eight bytes each.
            16 + texts.iter().map(|it| it.len()).sum::<usize>()
                + optional
                    .iter()
                    .filter_map(|it| it.as_ref())
                    .map(Vec::len)
                    .sum::<usize>()
        })
        .sum();
    assert_eq!(store.scan().unwrap(), (entries.len() as u64, bytes as u64));
}
