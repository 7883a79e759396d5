//! Spares: a ledger is the sum of its moves in whatever order they are entered, exact to the fraction; a count changes
//! nothing and is told until it is answered for.

use jiff::civil::Date;
use measure::{House, Size};
use proptest::prelude::*;
use shop::book::{
    Amount, Counted, LocomotiveId, Meta, SpareAdded, SpareCounted, SpareHeld, SpareId, SpareKnown,
    SpareReceived, SpareSettled, SpareUsed, Statement, UsedOn,
};
use shop::locomotive::{
    add_spare, count_spare, hold_spare, ledger, read_amount, receive_spare, settle_spare, use_spare,
};
use shop::{Class, Refusal};

use crate::world::{ADA, FOURTEEN, TODAY, World, later};

const BAR: SpareId = SpareId(7);

fn bar(counted: Counted) -> SpareAdded {
    SpareAdded {
        id: BAR,
        what: "bronze bar".into(),
        counted,
        known: SpareKnown {
            shelf: Some("bar rack".into()),
            least: Some(Amount(4)),
            ..SpareKnown::default()
        },
    }
}

fn came(many: i64) -> Statement {
    Statement::SpareReceived(SpareReceived {
        spare: BAR,
        many: Amount(many),
        from: "a foundry".into(),
        certificate: None,
        told: None,
    })
}

fn used(many: i64) -> Statement {
    Statement::SpareUsed(SpareUsed {
        spare: BAR,
        many: Amount(many),
        on: UsedOn::Engine {
            locomotive: FOURTEEN,
        },
        told: None,
    })
}

fn counted(many: i64) -> Statement {
    Statement::SpareCounted(SpareCounted {
        spare: BAR,
        many: Amount(many),
        told: None,
    })
}

/// Applies statements, each of its day, as entries in this order.
fn shelf(moves: &[(Date, Statement)]) -> World {
    let mut world = World::new();
    let mut seq = 10_000;
    let added = Statement::SpareAdded(bar(Counted::Pieces));
    for (on, statement) in std::iter::once(&(TODAY, added)).chain(moves) {
        seq += 1;
        let meta = Meta {
            seq,
            id: shop::book::EntryId(u128::from(seq)),
            batch: None,
            person: ADA,
            done_on: *on,
        };
        world.book.apply(meta, statement).unwrap();
    }
    world
}

fn a_move() -> impl Strategy<Value = (i64, Statement)> {
    let what = prop_oneof![
        (1i64..1_000).prop_map(came),
        (1i64..1_000).prop_map(used),
        (0i64..1_000).prop_map(counted),
    ];
    (0i64..30, what)
}

proptest! {
    #[test]
    fn a_ledger_is_the_sum_of_its_moves_in_any_order(
        moves in prop::collection::vec(a_move(), 0..12), turn in any::<prop::sample::Index>(), back in any::<bool>(),
    ) {
        let on = later(TODAY, 30);
        let dated: Vec<_> = moves.iter().map(|(day, it)| (later(TODAY, *day), it.clone())).collect();
        let mut otherwise = dated.clone();
        if !otherwise.is_empty() { let at = turn.index(otherwise.len()); otherwise.rotate_left(at); }
        if back { otherwise.reverse(); }
        let by_hand: i64 = moves.iter().map(|(_, it)| match it {
            Statement::SpareReceived(it) => it.many.0,
            Statement::SpareUsed(it) => -it.many.0,
            _ => 0,
        }).sum();
        let (one, other) = (shelf(&dated), shelf(&otherwise));
        let kept = |world: &World| ledger(&world.book, &world.book.spares[&BAR], on).there;
        prop_assert_eq!(kept(&one), Amount(by_hand));
        prop_assert_eq!(kept(&other), Amount(by_hand));
    }
}

fn no(asked: Result<Vec<Statement>, Refusal>, class: Class, says: &str) {
    let why = asked.unwrap_err();
    assert_eq!(why.class, class, "{why}");
    assert!(why.to_string().contains(says), "{why}");
}

#[test]
fn a_count_that_disagrees_is_told_until_somebody_answers_for_it() {
    let day = |days| later(TODAY, days);
    let mut moves = vec![(day(0), came(12)), (day(1), used(2)), (day(2), counted(9))];
    let world = shelf(&moves);
    let kept = &world.book.spares[&BAR];
    let now = ledger(&world.book, kept, day(3));
    // The ledger is not corrected by it.
    assert_eq!(now.there, Amount(10));
    let differs = now.differs.unwrap();
    assert_eq!((differs.ledger, differs.by), (Amount(10), Amount(-1)));
    // Before the count nobody knew.
    assert_eq!(ledger(&world.book, kept, day(1)).differs, None);
    // A use that was entered late and lies before the count explains it.
    moves.push((day(1), used(1)));
    let late = shelf(&moves);
    assert_eq!(
        ledger(&late.book, &late.book.spares[&BAR], day(3)).differs,
        None
    );
    // Or somebody answers for it, and it is written off.
    let settled = settle_spare(&world.book, BAR, "one broken", day(3)).unwrap();
    assert_eq!(
        settled,
        [Statement::SpareSettled(SpareSettled {
            spare: BAR,
            many: Amount(-1),
            because: "one broken".into()
        })]
    );
    moves.pop();
    moves.push((day(3), settled[0].clone()));
    let after = shelf(&moves);
    let now = ledger(&after.book, &after.book.spares[&BAR], day(3));
    assert_eq!((now.there, now.differs), (Amount(9), None));
    no(
        settle_spare(&after.book, BAR, "again", day(3)),
        Class::Refused,
        "Nothing of S-001 differs",
    );
    no(
        settle_spare(&world.book, BAR, " ", day(3)),
        Class::Input,
        "Say why",
    );
}

#[test]
fn below_the_least_is_told_and_so_is_more_used_than_came() {
    let world = shelf(&[(TODAY, came(5)), (TODAY, used(2))]);
    let now = ledger(&world.book, &world.book.spares[&BAR], TODAY);
    assert_eq!((now.free, now.short), (Amount(3), Some(Amount(1))));
    let world = shelf(&[(TODAY, used(2))]);
    let now = ledger(&world.book, &world.book.spares[&BAR], TODAY);
    assert_eq!(now.there, Amount(-2));
}

#[test]
fn how_many_is_exact_and_what_is_no_amount_is_refused() {
    let length = |text| read_amount(Counted::Length, text);
    let pieces = |text| read_amount(Counted::Pieces, text);
    // 144 in less 3 times 7-1/2 in, less 1/64 in for the last saw cut.
    let cut = length("7-1/2 in").unwrap().0 * 3 + length("1/64 in").unwrap().0;
    let left = Size::from_ticks(length("144 in").unwrap().0 - cut);
    assert_eq!(left, Size::parse("121 31/64 in").unwrap());
    assert_eq!(measure::show::fraction_in(left).unwrap(), "121 31/64");
    assert_eq!(Size::parse_in("121-31/64", House::Inch).unwrap(), left);
    assert_eq!(pieces(" 12 "), Ok(Amount(12)));
    for (wrong, says) in [
        (length("7-1/2"), "length with its unit"),
        (length("12 lb"), "length with its unit"),
        (length("-3 in"), "less than nothing"),
        (length("9000000 in"), "more than a shop holds"),
        (pieces("a few"), "whole number"),
        (pieces("2.5"), "whole number"),
        (pieces("-2"), "whole number"),
        (pieces("4000000000"), "more than a shop holds"),
    ] {
        let why = wrong.unwrap_err();
        assert_eq!(why.class, Class::Input);
        assert!(why.to_string().contains(says), "{why}");
    }
}

#[test]
fn what_cannot_be_said_of_a_spare_is_refused() {
    let world = shelf(&[(TODAY, came(5))]);
    let book = &world.book;
    let twice = SpareAdded {
        id: SpareId(8),
        ..bar(Counted::Length)
    };
    no(add_spare(book, twice), Class::Input, "already: S-001");
    let nowhere = SpareAdded {
        known: SpareKnown::default(),
        what: "glass".into(),
        ..bar(Counted::Pieces)
    };
    no(add_spare(book, nowhere), Class::Input, "where it lies");
    let Statement::SpareReceived(some) = came(1) else {
        panic!("it came")
    };
    no(
        receive_spare(
            book,
            SpareReceived {
                from: " ".into(),
                ..some.clone()
            },
        ),
        Class::Input,
        "from whom",
    );
    no(
        receive_spare(
            book,
            SpareReceived {
                many: Amount(0),
                ..some.clone()
            },
        ),
        Class::Input,
        "More than nothing",
    );
    no(
        receive_spare(
            book,
            SpareReceived {
                spare: SpareId(99),
                ..some
            },
        ),
        Class::Input,
        "no such spare",
    );
    let Statement::SpareUsed(some) = used(1) else {
        panic!("it was used")
    };
    let nobody = UsedOn::Engine {
        locomotive: LocomotiveId(99),
    };
    no(
        use_spare(book, SpareUsed { on: nobody, ..some }),
        Class::Input,
        "no such engine",
    );
    let held = SpareHeld {
        spare: BAR,
        job: shop::book::JobId(1),
        many: Amount(1),
    };
    no(hold_spare(book, held), Class::Input, "no such job");
    let gone = SpareCounted {
        spare: SpareId(99),
        many: Amount(1),
        told: None,
    };
    no(count_spare(book, gone), Class::Input, "no such spare");
}
