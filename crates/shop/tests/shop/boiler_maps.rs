//! Surveys of a boiler's sheets and maps of its staybolts.

use shop::ruled::boiler::Bears;

use crate::boiler::{bears, whole};
use crate::world::{DOT, FOURTEEN, TODAY, World};

// Surveys.

use shop::book::{BoilerSurveyed, StayRow, StaysMapped, StaysTold};
use shop::locomotive::{map_stays, take_survey, tell_stays};
use shop::ruled::boiler::{BoltMap, SurveyRead, Why, bolt_map, survey_read};
use shop::verdict::Verdict;

impl World {
    fn survey(&mut self, on: jiff::civil::Date, cells: &[&str]) {
        let told = surveyed(cells);
        let made = take_survey(&self.book, told, DOT, on);
        self.enter(DOT, on, made);
    }

    fn read(&self) -> SurveyRead {
        let read = survey_read(&self.book, self.rules, FOURTEEN, "first course", TODAY);
        read.unwrap().unwrap().1
    }
}

fn surveyed(cells: &[&str]) -> BoilerSurveyed {
    let wide = cells[0].split(' ').count();
    BoilerSurveyed {
        locomotive: FOURTEEN,
        component: "first course".into(),
        rows: (1..=cells.len()).map(|row| row.to_string()).collect(),
        columns: (1..=wide).map(|column| column.to_string()).collect(),
        cells: cells.iter().map(|row| (*row).to_owned()).collect(),
        unit: "in".into(),
        square: Some("6 in".into()),
        spot: Some("3/8 in".into()),
        source: "from the front seam, by ultrasound".into(),
    }
}

/// A course of 3/8 in, six years ago and now; one place loses fastest.
const THEN: &[&str] = &[
    ".380 .379 .381 .380",
    ".379 .378 .380 .379",
    ".380 .379 .378 .380",
];
const NOW: &[&str] = &[
    ".379 .378 .380 .379",
    ".378 .352 .379 .378",
    ".379 .378 .377 .379",
];

fn six_years() -> World {
    let mut world = whole();
    world.paper("1472", jiff::civil::date(2015, 3, 28), None);
    world.survey(jiff::civil::date(2020, 5, 2), THEN);
    world.survey(TODAY, NOW);
    world
}

#[test]
fn a_survey_is_paired_with_the_one_before_it_on_the_same_squares() {
    let read = six_years().read();
    assert_eq!(read.thinnest, Some((0.352, 1, 1)));
    assert_eq!(read.counts, [12, 0, 0]);
    let paired = read.paired.unwrap();
    // Plain arithmetic: .378 less .352 in six years; long-term rate as of API 510.
    assert!((paired.worst.0 - 0.026).abs() < 1e-9 && (paired.worst.1, paired.worst.2) == (1, 1));
    assert!((paired.years - 6.0).abs() < 0.01);
    let required = read.required.unwrap();
    // t = p R F / (T E), 180 psi: 0.2992 in.
    assert!((required - 180.0 * 20.0 * 4.0 / (55_000.0 * 117_304.0 / 134_062.0)).abs() < 1e-4);
    let (row, column, rate, left) = paired.first.unwrap();
    assert_eq!((row, column), (1, 1));
    assert!((left - (0.352 - required) / rate).abs() < 1e-6);
}

#[test]
fn the_next_survey_is_never_later_than_the_laws_day() {
    let world = six_years();
    let read = world.read();
    let (next, legal) = (read.next.unwrap(), read.legal.unwrap());
    assert!(next <= legal, "{next} {legal}");
    // Half of a long life lies beyond the law's fifteen years (49 CFR 230.17): the law's day is the next one.
    let mut world = whole();
    world.paper("1472", jiff::civil::date(2015, 3, 28), None);
    world.survey(
        jiff::civil::date(2020, 5, 2),
        &[".3700 .3701 .3701", ".3700 .3700 .3700"],
    );
    world.survey(TODAY, &[".3699 .3701 .3701", ".3700 .3700 .3700"]);
    let read = world.read();
    assert_eq!(read.next.unwrap(), read.legal.unwrap());
}

#[test]
fn a_strange_reading_is_flagged_and_counts() {
    let mut world = whole();
    world.component("first course", "", "", &[("as_built", "0.375 in")]);
    world.survey(
        TODAY,
        &[".372 .373 .371", ".372 .290 .373", ".371 .401 .372"],
    );
    let read = world.read();
    let why = |row, column| {
        read.doubtful
            .iter()
            .filter(|it| (it.row, it.column) == (row, column))
            .map(|it| it.why)
            .collect::<Vec<_>>()
    };
    assert_eq!(why(1, 1), [Why::FarFromNeighbors]);
    assert!(why(2, 1).contains(&Why::OverAsBuilt));
    assert_eq!(read.thinnest, Some((0.290, 1, 1)), "flagged, never dropped");
    // And the card is worked from it.
    let card = world.card();
    let line = card
        .lines
        .iter()
        .find(|line| line.component == "first course")
        .unwrap();
    assert!(
        line.thinnest.as_ref().unwrap().0.starts_with(".290"),
        "{:?}",
        line.thinnest
    );
}

/// The map of a sheet of one thickness is flat: nothing of it is thinner, nothing is doubtful, nothing was lost since a survey
/// that read the same, and what nobody read is no thinner than what everybody did.
#[test]
fn the_map_of_a_constant_sheet_is_flat() {
    let row = [".375"; 12].join(" ");
    let sheet = [row.as_str(); 12];
    let mut world = whole();
    world.component("first course", "", "", &[("as_built", "0.375 in")]);
    world.survey(jiff::civil::date(2020, 5, 2), &sheet);
    world.survey(TODAY, &sheet);
    let read = world.read();
    assert_eq!(read.counts, [144, 0, 0]);
    assert_eq!(read.thinnest.unwrap().0, 0.375);
    assert!(read.doubtful.is_empty());
    let paired = read.paired.unwrap();
    assert_eq!(paired.worst.0, 0.0);
    assert!(paired.first.is_none(), "{:?}", paired.first);
    let (least, ..) = read.unread.unwrap();
    assert!((least - 0.375).abs() < 1e-9, "{least}");
}

#[test]
fn a_square_that_was_not_read_leaves_only_a_bound() {
    let mut world = whole();
    world.survey(TODAY, &[".372 .373 .371", ".372 - .373"]);
    assert!(matches!(
        bears(&world.card(), "first course"),
        Bears::NotAbove(_)
    ));
    let mut world = whole();
    world.survey(TODAY, &[".372 .373 .371", ".372 x .373"]);
    assert!(matches!(
        bears(&world.card(), "first course"),
        Bears::Told(_)
    ));
}

#[test]
fn fewer_than_thirty_blocks_say_nothing_of_what_nobody_read() {
    assert!(six_years().read().unread.unwrap_err().contains("30 blocks"));
    let mut world = whole();
    let rows: Vec<String> = (0..12)
        .map(|row| {
            (0..12)
                .map(|column| format!(".3{:02}", 60 + (row * 7 + column * 5) % 17))
                .collect::<Vec<_>>()
                .join(" ")
        })
        .collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    world.survey(TODAY, &rows);
    let read = world.read();
    let (least, blocks, _) = read.unread.unwrap();
    assert_eq!(
        blocks, 36,
        "two squares a side are the largest blocks that give thirty"
    );
    assert!(
        least <= read.thinnest.unwrap().0,
        "it never raises anything"
    );
}

#[test]
fn a_survey_that_does_not_fit_is_refused() {
    let world = whole();
    let refused = |change: fn(&mut BoilerSurveyed)| {
        let mut told = surveyed(NOW);
        change(&mut told);
        take_survey(&world.book, told, DOT, TODAY)
            .unwrap_err()
            .to_string()
    };
    assert!(refused(|it| it.component = "smokebox".into()).contains("first course"));
    assert!(refused(|it| it.cells[1] = ".37 .36".into()).contains("2 squares"));
    assert!(refused(|it| it.cells[1] = ".37 .36 wide .35".into()).contains("`wide`"));
    assert!(refused(|it| it.unit = "cm".into()).contains("mm"));
    assert!(refused(|it| it.rows[1] = "1".into()).contains("twice"));
    assert!(refused(|it| it.source = String::new()).contains("who read them"));
}

// Staybolts.

fn mapped(pitch: &str) -> World {
    let mut world = World::new();
    for sheet in ["left side", "right side"] {
        let told = StaysMapped {
            locomotive: FOURTEEN,
            sheet: sheet.into(),
            rows: (1..=8u32)
                .map(|row| StayRow {
                    row: row.to_string(),
                    count: 10,
                    height: format!("{} in", 4 * row),
                    first: "4 in".into(),
                })
                .collect(),
            pitch: pitch.into(),
            kind: "rigid".into(),
            size: "1 in, 12 threads".into(),
            source: "drawing 14-B-6".into(),
        };
        let long_ago = crate::world::later(TODAY, -400);
        let made = map_stays(&world.book, told, DOT, long_ago);
        world.enter(DOT, long_ago, made);
        world.told_on(sheet, &[], "sound", None, long_ago);
    }
    world
}

impl World {
    fn told(&mut self, sheet: &str, which: &[(&str, u32)], state: &str, at: Option<&str>) {
        self.told_on(sheet, which, state, at, TODAY);
    }

    fn told_on(
        &mut self,
        sheet: &str,
        which: &[(&str, u32)],
        state: &str,
        at: Option<&str>,
        on: jiff::civil::Date,
    ) {
        let told = StaysTold {
            locomotive: FOURTEEN,
            sheet: sheet.into(),
            which: which
                .iter()
                .map(|(row, number)| ((*row).to_owned(), *number, *number))
                .collect(),
            state: state.into(),
            at: at.map(str::to_owned),
            kind: None,
            size: (state == "renewed").then(|| "1-1/32 in, 12 threads".to_owned()),
            told: "hammer and ear".into(),
        };
        let made = tell_stays(&self.book, told, DOT, on);
        self.enter(DOT, on, made);
    }

    fn bolts(&self) -> BoltMap {
        bolt_map(&self.book, self.rules, FOURTEEN, TODAY).unwrap()
    }
}

#[test]
fn broken_bolts_are_held_to_the_laws_distance_by_true_distance() {
    assert!(matches!(mapped("4 in").bolts().verdict, Verdict::Complies));
    // 49 CFR 230.39(a): six pitches of 4 in are exactly 24 in, which the rulebook takes as within.
    let mut world = mapped("4 in");
    world.told("left side", &[("3", 1)], "broken", None);
    assert!(
        matches!(world.bolts().verdict, Verdict::Complies),
        "one alone"
    );
    world.told("left side", &[("3", 7)], "telltale-leaks", None);
    let map = world.bolts();
    assert!((map.nearest.as_ref().unwrap().apart - 24.0).abs() < 1e-9);
    assert!(matches!(map.verdict, Verdict::Fails(_)));
    // A row up the straight line is a hair over 24 in: the root of 24 squared and 4 squared.
    let mut world = mapped("4 in");
    world.told("left side", &[("3", 1), ("4", 7)], "broken", None);
    let map = world.bolts();
    assert!((map.nearest.as_ref().unwrap().apart - 592f64.sqrt()).abs() < 1e-9);
    assert!(
        matches!(map.verdict, Verdict::Complies),
        "{:?}",
        map.verdict
    );
    // On two sheets this map has no distance.
    let mut world = mapped("4 in");
    world.told("left side", &[("3", 1)], "broken", None);
    world.told("right side", &[("3", 1)], "broken", None);
    assert!(matches!(world.bolts().verdict, Verdict::CannotTell(_)));
}

#[test]
fn four_broken_bolts_are_the_most_and_a_plugged_telltale_counts() {
    let mut world = mapped("40 in");
    let four = [("1", 1), ("3", 3), ("5", 5), ("7", 7)];
    world.told("left side", &four, "telltale-plugged", None);
    let map = world.bolts();
    assert_eq!(map.broken, 4);
    assert!(
        matches!(map.verdict, Verdict::Complies),
        "{:?}",
        map.verdict
    );
    world.told("left side", &[("8", 10)], "telltale-missing", None);
    assert!(matches!(world.bolts().verdict, Verdict::Fails(_)));
    world.told("left side", &[("8", 10)], "renewed", None);
    let map = world.bolts();
    assert_eq!(map.broken, 4);
    let renewed = map.sheets[0]
        .bolts
        .iter()
        .find(|bolt| bolt.renewed.is_some())
        .unwrap();
    assert_eq!(renewed.size, "1-1/32 in, 12 threads");
}

#[test]
fn a_broken_bolt_has_thirty_days_between_inspections_and_none_at_one() {
    let mut world = mapped("4 in");
    world.told("left side", &[("3", 1)], "broken", None);
    // 49 CFR 230.39(b): within 30 calendar days.
    let renew = &world.bolts().renew;
    assert_eq!(
        (renew[0].by, &renew[0].at_once),
        (crate::world::later(TODAY, 30), &None)
    );
    world.told("left side", &[("3", 1)], "broken", Some("31"));
    let renew = &world.bolts().renew;
    assert_eq!(renew[0].by, TODAY);
    assert!(renew[0].at_once.is_some());
    // Found at an inspection and said again between two: the day of the inspection still leaves none.
    world.told("left side", &[("3", 1)], "broken", None);
    assert_eq!(world.bolts().renew[0].by, TODAY);
    // Two within 24 in leave no days.
    let mut world = mapped("4 in");
    world.told("left side", &[("3", 1), ("3", 2)], "broken", None);
    assert!(world.bolts().renew.iter().all(|it| it.at_once.is_some()));
}

#[test]
fn to_say_again_that_a_bolt_is_broken_gains_no_days() {
    use crate::world::later;
    let found = later(TODAY, -20);
    let mut world = mapped("4 in");
    let say = |world: &mut World, state: &str, on| {
        world.told_on("left side", &[("3", 1)], state, None, on);
        world.bolts().renew.first().map(|it| (it.found, it.by))
    };
    let first = say(&mut world, "telltale-leaks", found);
    // 49 CFR 230.39(b): 30 calendar days after it is found.
    assert_eq!(first, Some((found, later(found, 30))));
    assert_eq!(
        say(&mut world, "broken", later(TODAY, -5)),
        first,
        "the same bolt, in other words"
    );
    assert_eq!(say(&mut world, "broken", TODAY), first);
    // Said of an earlier day afterwards, it only loses days.
    let before = later(TODAY, -27);
    assert_eq!(
        say(&mut world, "broken", before),
        Some((before, later(before, 30)))
    );
    // Renewed, then broken anew: a new spell with days of its own.
    assert_eq!(say(&mut world, "renewed", TODAY), None);
    assert_eq!(
        say(&mut world, "broken", TODAY),
        Some((TODAY, later(TODAY, 30)))
    );
}

#[test]
fn a_bolt_of_which_nobody_spoke_is_not_sound() {
    let mut world = mapped("4 in");
    let boiler = world.book.boilers.get_mut(&FOURTEEN).unwrap();
    boiler.stays[1].said.clear();
    let map = world.bolts();
    assert_eq!(map.unknown, 80);
    assert!(matches!(map.verdict, Verdict::CannotTell(_)));
    assert!(matches!(
        bolt_map(&World::new().book, world.rules, FOURTEEN, TODAY)
            .unwrap()
            .verdict,
        Verdict::CannotTell(_)
    ));
    let told = StaysTold {
        locomotive: FOURTEEN,
        sheet: "left side".into(),
        which: vec![("3".into(), 9, 11)],
        state: "sound".into(),
        at: None,
        kind: None,
        size: None,
        told: "hammer".into(),
    };
    assert!(
        tell_stays(&world.book, told, DOT, TODAY)
            .unwrap_err()
            .to_string()
            .contains("1 to 10")
    );
}
