//! A job, step by step.

use jiff::civil::Date;

/// A summary.
pub const CLEARED_ON_PAPER: &str = "It was cleared in person, on paper";
/// When.
pub const ON_PAPER_MEANS: &str = "Entered later by the one who cleared it, under their own name: the day they looked and the paper that shows it. Their \
authority is asked of that day.";
/// A field.
pub const WHICH_PAPER: &str = "Which paper";
/// A field.
pub const CLEARED_ON: &str = "Cleared on";

/// Beside a hold point that was cleared with a pencil and entered later.
pub fn on_paper(paper: &shop::book::OnPaper) -> String {
    format!(
        " in person on {}, on paper: {}",
        super::day(paper.day),
        paper.document
    )
}

/// A section.
pub const CAUTIONS: &str = "Cautions";
/// Under it.
pub const STOP: &str = "Stop and ask";
/// A section.
pub const WORKED_TO: &str = "Worked to";
/// No sheet.
pub const BY_HAND: &str =
    "No sheet is on file for this route: sizes are worked by hand and checked by the officer.";
/// The same where sheets are kept with it.
pub const BY_THESE: &str = "No size to work to was decided with it. These sheets were; the size is taken from them by the one who works, and checked.";
/// Tooling to be made.
pub const MADE_FIRST: &str = "Made first";
/// A section.
pub const OPERATIONS: &str = "Operations";
/// A step that stops.
pub const HOLD_POINT: &str = "Hold point";
/// The same, passed.
pub const HOLD_CLEARED: &str = "Hold point cleared";
/// A field.
pub const SEEN: &str = "What was seen";
/// Who may not fill it in.
pub const NOT_THE_DOER: &str = "not by the one who did the work";
/// A button.
pub const CLEAR_IT: &str = "Clear it";
/// A field.
pub const HOURS: &str = "Hours";
/// How hours are written.
pub const HOURS_SUCH_AS: &str = "such as 2 1/2; leave blank if nobody kept them";
/// A field.
pub const TOLD: &str = "What there is to say";
/// A button.
pub const IT_IS_DONE: &str = "It is done";
/// A section.
pub const PROOFS: &str = "Proofs";
/// A field.
pub const PROOF: &str = "Proof";
/// Of a proof.
pub const HELD: &str = "held";
/// Of a proof.
pub const DID_NOT_HOLD: &str = "did not hold";
/// A trial of a proof that was made again since.
pub const EARLIER_TRIAL: &str = "an earlier trial, made again since";
/// What a proof is and how it is made.
pub fn proof_is(title: &str, how: &str) -> String {
    format!("{}. {}.", super::sentence(title), super::sentence(how))
}
/// A proof or a knock-on among others to choose from, by its word and what it is.
pub fn choice(word: &str, title: Option<&str>) -> String {
    title.map_or_else(|| word.to_string(), |title| format!("{word}: {title}"))
}
/// Of a proof.
pub const TO_BE_MADE: &str = "to be made";
/// Over a choice.
pub const IT: &str = "It";
/// What a proof tells.
pub const PROOF_TELLS: &str = "pressure, how long, where it wept or that it did not";
/// A form.
pub const RECORD_PROOF: &str = "Record a proof";
/// A button.
pub const RECORD_IT: &str = "Record it";
/// A section.
pub const AS_LEFT: &str = "As left";
/// A column.
pub const WHAT: &str = "What";
/// A column.
pub const PLACE: &str = "Place";
/// A column.
pub const AS_FOUND: &str = "As found";
/// How readings are written.
pub const AS_WRITTEN: &str =
    "As written, with its unit: 5/32in, .399in, 45deg. Leave a place blank to come back to it.";
/// A form, folded.
pub const TAKE_LEFT: &str = "Take as-left readings";
/// The same form.
pub const LEFT_READINGS: &str = "As-left readings";
/// A button.
pub const KEEP_THEM: &str = "Keep them";
/// Before the work is done.
pub const LEFT_LATER: &str = "Taken when every operation is done.";
/// A section.
pub const KNOCK_ONS: &str = "Knock-ons";
/// Of a knock-on.
pub const TO_BE_LOOKED_AT: &str = "to be looked at";
/// A field.
pub const WHICH: &str = "Which";
/// A field.
pub const FOUND_THERE: &str = "What was found there";
/// A form.
pub const LOOKED_AT: &str = "A knock-on was looked at";
/// A button.
pub const KEEP_IT: &str = "Keep it";
/// A section.
pub const SIGNATURES: &str = "Signatures";
/// Of a capacity.
pub const NOT_SIGNED: &str = "not signed";
/// Over what is missing.
pub const BEFORE_CLOSING: &str = "Before it can be closed";
/// Nothing is.
pub const NOTHING_MISSING: &str = "Nothing is missing.";
/// A field.
pub const SIGN_AS: &str = "Sign as";
/// A button.
pub const SIGN: &str = "Sign";
/// A form.
pub const CLOSE_JOB: &str = "Close the job";
/// Its button.
pub const CLOSE_IT: &str = "Close it";
/// Where nothing was read.
pub const NO_READING: &str = "-";

/// What the job waits for, one thing at a time.
pub mod next {
    /// After the work.
    pub const PROOFS: &str = "record the proofs";
    /// After the proofs.
    pub const LEFT: &str = "take the as-left readings";
    /// After the readings.
    pub const KNOCK_ONS: &str = "look at what the change touches";
    /// After all work.
    pub const SIGN: &str = "sign, then close";

    /// An operation.
    pub fn operation(at: usize) -> String {
        format!("operation {at}")
    }

    /// A hold point.
    pub fn hold(at: usize) -> String {
        format!("the hold point after operation {at}")
    }
}

/// Leads to the next thing.
pub fn next(what: &str) -> String {
    format!("Next: {what}.")
}

/// The head of the page.
pub fn head(tag: &str, title: &str) -> String {
    format!("{tag}: {title}")
}

/// Before the number of its finding.
pub fn of(engine: &str) -> String {
    format!("No. {engine}, for ")
}

/// Who ordered it, and for when.
pub fn ordered(on: Date, by: &str, promised: Option<Date>) -> String {
    let promised = promised.map_or(String::new(), |day| {
        format!("; promised for {}", super::day(day))
    });
    format!(". Ordered {} by {by}{promised}.", super::day(on))
}

/// A sheet of the design.
pub fn printed(sheet: &str) -> String {
    format!("Sheet {sheet}, as printed")
}

/// Where an operation is done, in what state the engine is, how long it takes.
pub fn operation(place: &str, engine: &str, hours: &str) -> String {
    format!("{place}; engine {engine}; {hours}")
}

/// That it is done.
pub fn done(on: Date, by: &str, hours: Option<&str>, told: &str) -> String {
    let hours = hours.map_or(String::new(), |hours| format!(", {hours}"));
    let told = if told.is_empty() {
        String::new()
    } else {
        format!(": {told}")
    };
    format!("Done {} by {by}{hours}{told}", super::day(on))
}

/// By whom a hold point was passed, or a proof made, and what was seen.
pub fn seen(on: Date, by: &str, seen: &str) -> String {
    format!("{} by {by}: {seen}", super::day(on))
}

/// What a hold point asks, and of whom.
pub fn look(look: &str, by: &str) -> String {
    format!(": {look} ({by})")
}

/// A form.
pub fn clear(operation: usize) -> String {
    format!("Clear the hold point after operation {operation}")
}

/// A form.
pub fn is_done(operation: usize) -> String {
    format!("Operation {operation} is done")
}

/// What was read there before.
pub fn was(read: &str) -> String {
    format!("was {read}")
}

/// Who looked, and when.
pub fn by(on: Date, name: &str) -> String {
    format!("{} by {name}", super::day(on))
}

/// Who signed, and when.
pub fn signed(name: &str, on: Date) -> String {
    format!("{name}, {}", super::day(on))
}

/// That it is closed, and how it was left.
pub fn closed(on: Date, by: &str, verdict: &str) -> String {
    format!("Closed {} by {by}; as left it {verdict}.", super::day(on))
}

/// A form.
pub fn sign_as(name: &str) -> String {
    format!("Sign as {name}")
}

/// Papers of a job.
pub mod papers {
    use jiff::civil::Date;
    use shop::book::{Book, Job, JobPaper, JobPaperKept, JobPaperOf, WindowFrom};
    use shop::job::{Before, Pressed, differs, sheet_of_chart};

    use crate::words::{day, tag};

    /// A section.
    pub const TITLE: &str = "Papers and permits";
    /// None.
    pub const NONE: &str = "None kept yet.";
    /// A form.
    pub const KEEP: &str = "Keep a paper";
    /// Its button.
    pub const KEEP_IT: &str = "Sign and keep it";
    /// A form of its own.
    pub const PROVE_ZERO: &str = "Prove that it holds no pressure";
    /// What it asks.
    pub const ZERO_ASKED: &str = "A step that comes opens a joint that may hold pressure. Nothing is loosened before this is signed.";
    /// A field.
    pub const HOW: &str = "How zero was proven";
    /// What it tells.
    pub const HOW_TELLS: &str = "gauge, cock open to the air, what is shut and locked";
    /// Its button.
    pub const SIGN_ZERO: &str = "Sign: zero is proven";
    /// A field.
    pub const KIND: &str = "What it is";
    /// A field.
    pub const SAYS: &str = "What it says";
    /// A field.
    pub const DOCUMENT: &str = "The paper, its name or number";
    /// A field.
    pub const UNTIL: &str = "Leave is given until";
    /// A field.
    pub const COST: &str = "What it cost";
    /// A field.
    pub const POINTS: &str = "Press chart: travel and tons";
    /// What it tells.
    pub const POINTS_TELL: &str = "a point a line, such as 1-1/2in 13";
    /// A field.
    pub const LEAST: &str = "Least tons the fit allows";
    /// A field.
    pub const MOST: &str = "Most tons";
    /// What can hurt.
    pub const CAUTIONS: [&str; 4] = [
        "Zero pressure is proven at the joint itself: a gauge may stick and a shut valve may leak. Each person who works sets their own lock.",
        "Nobody goes into a boiler, tank or smokebox whose air was not tested, without somebody outside who stays there. The local code and its licensed people govern.",
        "Hot work: what burns is taken away or covered, and somebody watches for fire until well after the last spark. The local code governs.",
        "A press let go under load throws what it holds: nobody in line with it.",
    ];

    /// A field.
    pub const TON: &str = "The press gauge reads";
    /// What it may read: a word, and what it is.
    pub const TON_CHOICES: [(&str, &str); 3] = [
        ("", "not said: type the window"),
        ("short", "tons of 2000 lb: take the window from the sheet"),
        ("long", "tons of 2240 lb: take the window from the sheet"),
    ];
    /// A field.
    pub const CARD: &str = "The card that keeps the sheet, where the job does not";
    /// What it tells.
    pub const CARD_TELLS: &str = "such as C-001";

    /// What the job's own sheet gives.
    pub fn sheet_gives(sheet: &shop::job::WindowSheet<'_>) -> String {
        let each = measure::Ton::ALL.map(|ton| {
            let (least, most) = sheet.window(ton);
            format!("{least} to {most} tons of {} lb", ton.pounds())
        });
        format!(
            "{} (version {}), as this job keeps it, gives the window of a press chart: {}.",
            sheet.sheet,
            sheet.version,
            each.join(", or ")
        )
    }

    /// Beside the chart.
    pub const TONS: &str = "tons";
    /// Under it.
    pub const TRAVEL: &str = "travel";

    /// What a kind is.
    pub fn kind(kind: JobPaper) -> &'static str {
        match kind {
            JobPaper::ZeroProven => "zero pressure proven",
            JobPaper::LockOut => "locked out",
            JobPaper::ConfinedSpace => "leave to go inside",
            JobPaper::HotWork => "leave for hot work",
            JobPaper::Certificate => "material and heat certificate",
            JobPaper::OutsideReport => "report from outside",
            JobPaper::Weld => "weld procedure and welder",
            JobPaper::PressChart => "press chart, tons against travel",
            JobPaper::Purchase => "bought for the job",
        }
    }

    /// A paper in a line.
    pub fn line(it: &JobPaperOf, name: &str) -> String {
        format!("{}; {}", told(&it.kept), by(name, it.on))
    }

    /// What a paper says.
    pub fn told(kept: &JobPaperKept) -> String {
        let document = kept.document.as_ref();
        let document = document.map_or(String::new(), |it| format!(", {it}"));
        let until = kept.until;
        let until = until.map_or(String::new(), |until| format!(", until {}", day(until)));
        let cost = kept.cost.as_ref();
        let cost = cost.map_or(String::new(), |it| format!(", cost {it}"));
        format!("{}{document}{until}{cost}", kept.told)
    }

    /// Who kept it, and when.
    pub fn by(name: &str, on: Date) -> String {
        format!("by {name}, {}", day(on))
    }

    /// Before what a paper is wanted.
    pub fn wanted_before(before: Before) -> String {
        match before {
            Before::Operation(at) => format!("wanted before operation {at}"),
            Before::More(until) => {
                format!("wanted before more of it: its last day was {}", day(until))
            }
            Before::Close => "wanted before the job is closed".into(),
        }
    }

    /// Of a card or a page.
    pub const WANTED: &str = "Wanted";

    /// Where the window of a chart comes from, and where a typed one is another than the sheet's.
    pub fn window_told(book: &Book, job: &Job, kept: &JobPaperKept) -> Vec<String> {
        let mut all = Vec::new();
        if let Some(from) = &kept.window_from {
            all.push(window_from(book, job, from));
        }
        let sheet = sheet_of_chart(book, job, kept);
        let other = sheet
            .as_ref()
            .zip(kept.window.as_ref())
            .and_then(|(sheet, typed)| Some((sheet, differs(sheet, typed)?)));
        if let Some((sheet, windows)) = other {
            let each = windows.map(|(ton, (least, most))| {
                format!("{least} to {most} tons of {} lb", ton.pounds())
            });
            all.push(format!(
                "The window that was typed is not that of {} (version {}): {}. Ask which holds.",
                sheet.sheet,
                sheet.version,
                each.join(", or ")
            ));
        }
        all
    }

    /// The sheet that a window is held against, who keeps it, and which ton.
    pub fn window_from(book: &Book, job: &Job, from: &WindowFrom) -> String {
        let keeps = from
            .card
            .and_then(|(id, revision)| Some((book.cards.get(&id)?, revision)))
            .map_or_else(
                || format!("as {} keeps it", tag::job(job.number)),
                |(card, revision)| format!("card {} R{revision}", tag::card(card.number)),
            );
        format!(
            "Window by {} (version {}), {keeps}; tons of {} lb.",
            from.sheet,
            from.version,
            from.ton.pounds()
        )
    }

    /// The points of a chart, for those who do not see it.
    pub fn chart_told(points: &[(String, String)]) -> String {
        let each: Vec<_> = points
            .iter()
            .map(|(travel, tons)| format!("{travel} {tons}"))
            .collect();
        format!("tons against travel: {}", each.join("; "))
    }

    /// How a press went.
    pub fn pressed(how: Pressed, window: Option<&(String, String)>) -> String {
        let window = window.map_or(String::new(), |(least, most)| {
            format!(", {least} to {most} tons")
        });
        match how {
            Pressed::Within => format!("It ended within the fit's window{window}."),
            Pressed::TooFew => format!(
                "It ended under the fit's window{window}: it may turn. Stop, measure again."
            ),
            Pressed::TooMany => format!(
                "It ended over the fit's window{window}: eye or bushing may be hurt. Stop, measure again."
            ),
            Pressed::Fell => {
                "Tons fell on the way: something gave, or the gauge did. Stop, look.".into()
            }
            Pressed::NoWindow => {
                "No window was stated: the sheet fit.press or fit.bushing gives the least and the most.".into()
            }
        }
    }

    /// The chart, for those who do not see it.
    pub fn chart(points: usize) -> String {
        format!("tons against travel at {points} points; the list beside it has each")
    }
}

/// What a job cost.
pub mod cost {
    use shop::book::PersonId;
    use shop::job::{Cost, Sum};

    /// A section.
    pub const TITLE: &str = "What it cost";
    /// Nothing is known of it.
    pub const NONE: &str = "No hours and no money are on file yet.";

    /// Line by line: a word, and what is said.
    pub fn lines(cost: &Cost, name: impl Fn(PersonId) -> String) -> Vec<(&'static str, String)> {
        let mut all = Vec::new();
        if !cost.by_person.is_empty() {
            let people = cost.by_person.iter();
            let mut people: Vec<_> = people.map(|(id, h)| format!("{} {h}", name(*id))).collect();
            people.sort();
            let places: Vec<_> = cost
                .by_place
                .iter()
                .map(|(at, h)| format!("{at} {h}"))
                .collect();
            all.push(("Hours booked", cost.hours.to_string()));
            all.push(("By person", people.join("; ")));
            all.push(("By place of work", places.join("; ")));
        }
        if !cost.unkept.is_empty() {
            let steps: Vec<_> = cost.unkept.iter().map(ToString::to_string).collect();
            let steps = steps.join(", ");
            all.push((
                "Not counted",
                format!("operation {steps}: done, and nobody kept its hours"),
            ));
        }
        if !cost.money.is_empty() {
            let sums: Vec<_> = cost.money.iter().map(sum).collect();
            all.push(("Spent, by its papers", sums.join("; ")));
        }
        if !cost.unread.is_empty() {
            all.push((
                "Not added",
                format!("as written: {}", cost.unread.join("; ")),
            ));
        }
        if !cost.unpriced.is_empty() {
            all.push(("No cost on file", cost.unpriced.join("; ")));
        }
        all
    }

    fn sum(it: &Sum) -> String {
        let of = crate::words::count(it.figures, "paper", "papers");
        if it.currency.is_empty() {
            return format!("{} of {of}, no currency written", it.written());
        }
        format!("{} of {of}", it.written())
    }
}

/// A kind of paper that is none.
pub fn no_paper(typed: &str, known: &[&str]) -> String {
    format!(
        "`{typed}` is no paper of a job: {} were expected.",
        known.join(", ")
    )
}

/// A point that does not read.
pub fn no_point(typed: &str) -> String {
    format!(
        "`{typed}` is no point of a press chart: travel and tons were expected, such as 1-1/2in 13."
    )
}

/// A window with one end.
pub const HALF_WINDOW: &str = "A window has a least and a most; one was given.";

/// A ton that is none.
pub fn no_ton(typed: &str) -> String {
    format!(
        "`{typed}` is no ton that a press gauge reads: short (2000 lb) or long (2240 lb) was expected."
    )
}

/// No kept sheet gives the window of a job's press chart.
pub fn no_window_sheet(job: &str) -> String {
    format!(
        "{job} keeps no sheet of fit.press or fit.bushing that tells the tons: name the card that keeps one, or type the least and the most."
    )
}

/// A paper was kept.
pub fn paper_kept(job: &str, kind: shop::book::JobPaper) -> String {
    format!("{job}: {} is kept.", papers::kind(kind))
}
