//! Papers of a job: zero proven before a joint is opened, leave, and a press chart against its window.

use shop::Class::{Input, Refused};
use shop::book::{JobPaper, JobPaperKept};
use shop::job::{self, Pressed};

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
