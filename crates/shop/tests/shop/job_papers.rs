//! Papers of a job: zero proven before a joint is opened, leave, and a press chart against its window.

use measure::{House, Ton};
use physics::Given;
use shop::Class::{Input, Refused};
use shop::book::{
    CardId, CardKept, JobPaper, JobPaperKept, JobPaperOf, PrintedSheet, QuarterHours,
};
use shop::job::{self, Before, Pressed};

use crate::flow::{self, JOB};
use crate::said::no;
use crate::world::{ADA, CAL, DOT, TODAY, World, later};

#[test]
fn no_step_opens_a_pressure_joint_before_zero_is_proven() {
    let mut world = flow::ordered();
    world.book.jobs.get_mut(&JOB).unwrap().papers.clear();
    let done = |world: &World| job::done(&world.book, JOB, 1, None, "opened", CAL, TODAY);
    no(
        done(&world),
        Refused,
        &["J-001", "nobody has signed", "zero"],
    );
    // Proved later than the work, it does not help; nor does leave for something else.
    let keep = |world: &World, kept, by| job::keep(&world.book, kept, by, TODAY);
    let zero = crate::world::zero_proven(JOB);
    no(
        keep(&world, zero.clone(), DOT),
        Refused,
        &["Dot Marsh", "`repair`"],
    );
    let silent = JobPaperKept {
        told: " ".into(),
        ..zero.clone()
    };
    no(keep(&world, silent, CAL), Input, &["which gauge"]);
    let leave = JobPaperKept {
        kind: JobPaper::HotWork,
        until: Some(TODAY),
        ..zero.clone()
    };
    no(
        keep(&world, leave.clone(), CAL),
        Refused,
        &["Cal Wren", "`approve`"],
    );
    let past = JobPaperKept {
        until: Some(later(TODAY, -1)),
        ..leave.clone()
    };
    no(keep(&world, past, ADA), Input, &["hot-work", "last day"]);
    let made = keep(&world, leave, ADA);
    world.enter(ADA, TODAY, made);
    no(done(&world), Refused, &["zero"]);
    let made = job::keep(&world.book, zero.clone(), CAL, later(TODAY, 1));
    world.enter(CAL, later(TODAY, 1), made);
    no(done(&world), Refused, &["zero"]);
    let made = keep(&world, zero, CAL);
    world.enter(CAL, TODAY, made);
    assert!(done(&world).is_ok());
}

#[test]
fn a_press_chart_is_read_and_held_against_its_window() {
    let world = flow::ordered();
    let of = |points: &[(&str, &str)], window: Option<(&str, &str)>| JobPaperKept {
        kind: JobPaper::PressChart,
        points: points
            .iter()
            .map(|(travel, tons)| ((*travel).to_string(), (*tons).to_string()))
            .collect(),
        window: window.map(|(least, most)| (least.into(), most.into())),
        ..crate::world::zero_proven(JOB)
    };
    let good = [("1/2in", "4"), ("1in", "8.5 tons"), ("1-1/2in", "13 1/2")];
    let read = |kept: &JobPaperKept| job::chart(kept).unwrap().pressed();
    assert_eq!(read(&of(&good, Some(("10", "20")))), Pressed::Within);
    assert_eq!(read(&of(&good, Some(("13.5", "20")))), Pressed::Within);
    assert_eq!(read(&of(&good, Some(("14", "20")))), Pressed::TooFew);
    assert_eq!(read(&of(&good, Some(("5", "13")))), Pressed::TooMany);
    assert_eq!(read(&of(&good, None)), Pressed::NoWindow);
    let fell = [("1/2in", "9"), ("1in", "8.5"), ("1-1/2in", "13")];
    assert_eq!(read(&of(&fell, Some(("10", "20")))), Pressed::Fell);
    let keep = |kept| job::keep(&world.book, kept, CAL, TODAY);
    no(
        keep(of(&good[..2], None)),
        Input,
        &["3 points", "2 were given"],
    );
    no(
        keep(of(&[("1in", "4"), ("1in", "5"), ("2in", "6")], None)),
        Input,
        &["must grow", "1in"],
    );
    no(
        keep(of(&[("1in", "lots"), ("2in", "5"), ("3in", "6")], None)),
        Input,
        &["lots", "tons"],
    );
    no(
        keep(of(&good, Some(("20", "10")))),
        Input,
        &["least", "most"],
    );
    let stray = JobPaperKept {
        kind: JobPaper::Purchase,
        ..of(&good, None)
    };
    no(keep(stray), Input, &["press-chart", "purchase"]);
}

/// A bushing sheet as it is kept: invented sizes, friction as the sheet asks.
fn bushing() -> PrintedSheet {
    let given = [
        ("eye", "6in"),
        ("eye_outside", "9in"),
        ("length", "5in"),
        ("pin_largest", "5.4985in"),
        ("running_clearance", ".0065in"),
        ("interference", ".006in"),
        ("bore", "5.49in"),
        ("materials", "steel,bronze"),
        ("friction", ".12"),
    ];
    let given = given.map(|(name, text)| Given::typed(name, text));
    let sheet = physics::run("fit.bushing", &given, House::Inch).unwrap();
    PrintedSheet {
        sheet: "fit.bushing".into(),
        text: sheet.to_text(),
    }
}

/// The least force is rounded up and the most down: 6237 lb are 3.1185 tons of 2000 lb and 2.7844 of 2240; 24949 lb are
/// 12.4745 and 11.1379.
#[test]
fn a_window_comes_from_the_sheet_that_the_job_keeps() {
    let mut world = flow::ordered();
    let plan = |world: &mut World, sheets| {
        world.book.jobs.get_mut(&JOB).unwrap().plan.sheets = sheets;
    };
    plan(&mut world, Vec::new());
    assert_eq!(job::window_sheet(&world.book.jobs[&JOB]), None);
    let kept = bushing();
    assert!(kept.text.contains("force_min = 6237 lbf"), "{}", kept.text);
    assert!(kept.text.contains("force_max = 24949 lbf"), "{}", kept.text);
    plan(&mut world, vec![kept]);
    let sheet = job::window_sheet(&world.book.jobs[&JOB]).unwrap();
    let tons = |least: &str, most: &str| (least.to_owned(), most.to_owned());
    assert_eq!(sheet.window(Ton::Short), tons("3.2", "12.4"));
    assert_eq!(sheet.window(Ton::Long), tons("2.8", "11.1"));
    let from = sheet.from(Ton::Short);
    assert_eq!((from.sheet.as_str(), from.version), ("fit.bushing", 1));
    // A typed window that differs is said, in both kinds of ton; one that agrees in either is not.
    assert_eq!(job::differs(&sheet, &tons("3.2", "12.4 tons")), None);
    assert_eq!(job::differs(&sheet, &tons("2.8", "11.1")), None);
    let other = job::differs(&sheet, &tons("10", "20")).unwrap();
    assert_eq!(other[0], (Ton::Short, tons("3.2", "12.4")));
    // A sheet that could not tell gives none.
    let mut blank = bushing();
    blank.text = blank
        .text
        .replace("force_min = ", "force_min: cannot tell, not ");
    plan(&mut world, vec![blank]);
    assert_eq!(job::window_sheet(&world.book.jobs[&JOB]), None);
}

#[test]
fn a_card_gives_the_window_and_its_revision_stays_what_it_was() {
    let mut world = flow::ordered();
    let card = |sheet: PrintedSheet, because: Option<&str>| CardKept {
        card: CardId(0xCA),
        sheet: sheet.sheet,
        given: Vec::new(),
        house: "inch".into(),
        text: sheet.text,
        because: because.map(str::to_owned),
    };
    let made = shop::lathe::keep_card(&world.book, card(bushing(), None));
    world.enter(CAL, TODAY, made);
    let then = job::window_card(&world.book, CardId(0xCA)).unwrap();
    let (window, from) = (then.window(Ton::Short), then.from(Ton::Short));
    assert_eq!(from.card, Some((CardId(0xCA), 1)));
    let mut other = bushing();
    other.text = other.text.replace("force_min = 6237", "force_min = 9000");
    let made = shop::lathe::keep_card(&world.book, card(other, Some("measured again")));
    world.enter(CAL, TODAY, made);
    let now = job::window_card(&world.book, CardId(0xCA)).unwrap();
    assert_ne!(now.window(Ton::Short), window);
    let kept = JobPaperKept {
        kind: JobPaper::PressChart,
        window: Some(window.clone()),
        window_from: Some(from),
        ..crate::world::zero_proven(JOB)
    };
    let held = job::sheet_of_chart(&world.book, &world.book.jobs[&JOB], &kept).unwrap();
    assert_eq!(held.window(Ton::Short), window);
    no(
        job::window_card(&world.book, CardId(0xCB)).map(|_| ()),
        Input,
        &["no such card"],
    );
    // A window belongs to a press chart and to no other paper.
    let stray = JobPaperKept {
        kind: JobPaper::Purchase,
        window: None,
        ..kept
    };
    no(
        job::keep(&world.book, stray, CAL, TODAY),
        Input,
        &["press-chart", "purchase"],
    );
}

#[test]
fn what_is_wanted_stands_before_what() {
    let mut world = flow::ordered();
    world.book.jobs.get_mut(&JOB).unwrap().papers.clear();
    let wanted = |world: &World| {
        let all = job::papers_wanted(&world.book, &world.book.jobs[&JOB], TODAY);
        all.into_iter()
            .map(|it| (it.kind, it.before))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        wanted(&world),
        [(JobPaper::ZeroProven, Before::Operation(1))]
    );
    let zero = crate::world::zero_proven(JOB);
    let made = job::keep(&world.book, zero.clone(), CAL, TODAY);
    world.enter(CAL, TODAY, made);
    assert_eq!(wanted(&world), []);
    // Leave that ran out while work is left is wanted again; what was given for longer is not.
    let ended = later(TODAY, -1);
    let paper = |until| JobPaperOf {
        kept: JobPaperKept {
            kind: JobPaper::HotWork,
            until: Some(until),
            ..zero.clone()
        },
        by: ADA,
        on: later(TODAY, -3),
        entry: 1,
    };
    let papers = |world: &mut World, until| {
        let job = world.book.jobs.get_mut(&JOB).unwrap();
        job.papers.push(paper(until));
    };
    papers(&mut world, ended);
    assert_eq!(wanted(&world), [(JobPaper::HotWork, Before::More(ended))]);
    papers(&mut world, TODAY);
    assert_eq!(wanted(&world), []);
}

/// Hours by person and place; money as it was written, each currency by itself, and what does not read told whole.
#[test]
fn what_a_job_cost_is_summed_as_it_was_written() {
    let mut world = flow::ordered();
    let kept = world.book.jobs.get_mut(&JOB).unwrap();
    kept.papers.clear();
    let hours = [Some(QuarterHours(10)), None, Some(QuarterHours(7))];
    let by = [CAL, CAL, DOT];
    for (at, (hours, by)) in hours.into_iter().zip(by).enumerate() {
        kept.operations[at].done = Some((TODAY, by, hours, String::new()));
        kept.plan.operations[at].place = if at == 0 { "engine" } else { "lathe" }.into();
    }
    let costs = [
        Some("$41.50"),
        Some("$1,208"),
        Some("12 USD"),
        Some("7.05 USD"),
        Some("41.50 for the hire of the gauge"),
        Some("1.250,00"),
        Some("12,5"),
        Some("about $5"),
        Some("-3"),
        Some("20"),
        None,
    ];
    for cost in costs {
        kept.papers.push(JobPaperOf {
            kept: JobPaperKept {
                kind: JobPaper::Purchase,
                told: "bar".into(),
                cost: cost.map(str::to_owned),
                ..crate::world::zero_proven(JOB)
            },
            by: CAL,
            on: TODAY,
            entry: 1,
        });
    }
    let cost = job::cost(kept);
    assert_eq!(cost.hours, QuarterHours(17));
    assert_eq!(cost.by_person[&CAL], QuarterHours(10));
    assert_eq!(cost.by_person[&DOT], QuarterHours(7));
    assert_eq!(cost.by_place["engine"], QuarterHours(10));
    assert_eq!(cost.by_place["lathe"], QuarterHours(7));
    assert_eq!(cost.unkept, [2]);
    let sums: Vec<_> = cost.money.iter().map(job::Sum::written).collect();
    assert_eq!(sums, ["$1249.50", "19.05 USD", "20"]);
    assert_eq!(
        cost.unread,
        [
            "41.50 for the hire of the gauge",
            "1.250,00",
            "12,5",
            "about $5",
            "-3"
        ]
    );
    assert_eq!(cost.unpriced, ["bar"]);
    assert!(!cost.is_empty());
}
