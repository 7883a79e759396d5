//! What a job card shows of the papers of a job, of its blue checks and of what it cost.

use jiff::civil::Date;
use measure::House;
use paper::{Fact, JobPaper, Ring, Sketch};
use shop::book::{Book, Job, JobPaper as Kind, JobPaperOf};
use shop::job::{chart, papers_wanted};

use crate::blue_ring::ring;
use crate::press_chart;
use crate::verb::name;
use crate::words::{self, blue as seen, job::cost as money, job::papers as say};

/// How a press chart is drawn in ink.
const INK: &str = "svg{font-family:Cabin} text{fill:#1f1d1a} line,polyline,rect{fill:none;stroke:#1f1d1a} .s-quiet{stroke:#5d574d} \
                   .dot{fill:#fff;stroke:#1f1d1a}";
/// How a ring of blue is.
const RING: &str = ".land{fill:none;stroke:#5d574d;stroke-width:2} .touch{fill:none;stroke:#1f1d1a;stroke-width:11} \
     .front{stroke:#1f1d1a;stroke-width:3}";

/// The papers kept, then those that are wanted.
pub(super) fn papers(book: &Book, job: &Job, on: Date) -> Vec<JobPaper> {
    let kept = job.papers.iter().map(|it| kept(book, job, it));
    let wanted = papers_wanted(book, job, on);
    let wanted = wanted.into_iter().map(|it| JobPaper {
        kind: words::sentence(say::kind(it.kind)),
        told: None,
        by: say::wanted_before(it.before),
        notes: Vec::new(),
        chart: None,
    });
    kept.chain(wanted).collect()
}

fn kept(book: &Book, job: &Job, it: &JobPaperOf) -> JobPaper {
    let mut notes = Vec::new();
    let mut drawn = None;
    if it.kept.kind == Kind::PressChart
        && let Ok(read) = chart(&it.kept)
    {
        notes.push(say::pressed(read.pressed(), it.kept.window.as_ref()));
        notes.extend(say::window_told(book, job, &it.kept));
        drawn = Some(Sketch {
            svg: press_chart::svg(&read, Some(INK)).into_string(),
            told: say::chart_told(&it.kept.points),
        });
    }
    JobPaper {
        kind: words::sentence(say::kind(it.kept.kind)),
        told: Some(say::told(&it.kept)),
        by: say::by(name(book, it.by), it.on),
        notes,
        chart: drawn,
    }
}

/// The rings, in the order made.
pub(super) fn blues(book: &Book, job: &Job, house: House) -> Vec<Ring> {
    let rings = job.blues.iter().map(|blue| {
        let it = &blue.seen;
        let told = it.told.as_ref();
        let told = told.map_or(String::new(), |told| format!("; {told}"));
        Ring {
            what: format!("{}: {}", words::sentence(it.face.word()), it.after),
            told: format!(
                "{}{}{told}",
                seen::round(&it.touches),
                seen::widths(it, house)
            ),
            by: seen::seen(blue.on, name(book, blue.by)),
            sketch: Sketch {
                svg: ring(&it.touches, &seen::picture(it), Some(RING)).into_string(),
                told: seen::picture(it),
            },
        }
    });
    rings.collect()
}

/// What it cost, as far as anybody kept it.
pub(super) fn cost(book: &Book, job: &Job) -> Vec<Fact> {
    let cost = shop::job::cost(job);
    let lines = money::lines(&cost, |person| name(book, person).to_owned());
    lines
        .into_iter()
        .map(|(what, told)| Fact::of(what, told))
        .collect()
}
