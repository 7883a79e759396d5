//! Cards to try: a job in the middle of its work, one with next to nothing on it, one far too long, and every sheet
//! of the catalogue with the first inputs of its evidence. All of it is invented.

use jiff::civil::date;
use measure::House;
use paper::{
    About, Answered, Block, Copied, Done, Fact, Feature, Form, FormPart, Hold, JobCard, JobPaper,
    LatheCard, LookedAt, Mark, Operation, Picture, Place, Ring, Ruling, Seen, Shelved, Signature,
    Sketch, ToolTag, Verdict, Worked,
};
use physics::{Given, STANDING, Sheet};

pub fn about(number: &str, title: &str) -> About {
    About {
        bars: number.to_owned(),
        title: title.into(),
        number: number.into(),
        shop: Some("Juniper Fork Railroad Museum".into()),
        as_of: date(2026, 5, 4),
        as_of_read: "Mon 4 May 2026".into(),
        shows: "the book through entry 118, hash 3fa94c11d0e2".into(),
        demonstration: Some(
            "A demonstration: all of it is invented. The book holds its today at Mon 4 May 2026."
                .into(),
        ),
        standing: STANDING.into(),
    }
}

/// A sheet worked with each row of its own evidence, in both houses.
pub fn sheets(id: &str) -> Vec<Sheet> {
    let rows = physics::evidence().expect("evidence reads");
    let mut all = Vec::new();
    for row in rows.iter().filter(|row| row.law == id) {
        let given: Vec<_> = row.inputs.iter().map(|(n, t)| Given::typed(n, t)).collect();
        for house in [House::Inch, House::Metric] {
            all.extend(physics::run(id, &given, house));
        }
    }
    all
}

pub fn seat() -> Sheet {
    let given = [
        ("found_half_angle", "44deg"),
        ("wanted_half_angle", "45deg"),
        ("land", "5/32in"),
        ("port", "2-1/4in"),
        ("wall", "1/2in"),
    ];
    let given = given.map(|(name, text)| Given::typed(name, text));
    physics::run("seat.correct", &given, House::Inch).expect("it can be worked")
}

pub fn picture() -> Picture {
    Picture {
        title: "A square".into(),
        told: "A square with its name.".into(),
        svg: "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"200\" height=\"100\" font-family=\"Arial\"><path d=\"M10 10h180v80h-180z\" fill=\"none\" stroke=\"black\"/><text x=\"20\" y=\"60\" font-size=\"20\">5/32 square</text></svg>".into(),
        paper: [11.0, 8.5],
    }
}

pub fn lathe(sheet: &Sheet) -> LatheCard {
    LatheCard {
        settings: None,
        about: about(sheet.card.id, sheet.card.title),
        worked: Worked::of(sheet).expect("our own page reads back"),
        order: Vec::new(),
        pictures: Vec::new(),
    }
}

fn seen(by: &str, on: &str, told: &str) -> Option<Seen> {
    Some(Seen {
        by: by.into(),
        on: on.into(),
        told: told.into(),
    })
}

pub fn operation(what: &str) -> Operation {
    Operation {
        what: what.into(),
        place: "bench".into(),
        engine: "cold and drained".into(),
        likely: "1 1/2 h".into(),
        range: "3/4 h to 3 h".into(),
        done: None,
        hold: None,
    }
}

/// A job in the middle of its work.
pub fn job() -> JobCard {
    let done = Done {
        by: "E. Marsh".into(),
        on: "Sat 2 May 2026".into(),
        hours: Some("1 1/4 h".into()),
        told: "Cap came off clean; bore 12 3/16 in over the studs.".into(),
    };
    let place = |place: &str, found: &str, left: Option<&str>| Place {
        place: place.into(),
        found: Some(found.into()),
        left: left.map(str::to_owned),
    };
    JobCard {
        about: about("J-001", "J-001: No. 14, right feed check: Re-cut seat and disc to 45°"),
        title: "Re-cut seat and disc to 45°".into(),
        facts: vec![
            Fact::of("Engine", "No. 14"),
            Fact::of("Part", "right feed check"),
            Fact::of("Ordered", "Sat 2 May 2026 by R. Okafor"),
            Fact::of("Promised", "Sat 9 May 2026"),
        ],
        found: vec![
            Fact::of("Finding", "F-001, found Fri 1 May 2026 by E. Marsh at the 31 inspection I-001"),
            Fact::of("Told", "Weeps back when the injector is shut off. Ring broken on the right side."),
        ],
        verdict: Some(Verdict {
            mark: Mark::Fails,
            said: "fails: a check valve that weeps back does not meet 230.57; land 5/32 in against a shop limit of 3/32 in".into(),
            rulings: vec![Ruling {
                title: "Feed water checks hold against the boiler".into(),
                says: "a check that does not hold is repaired".into(),
                rule: "item.feed-check, version 1".into(),
                section: "230.57(b) (2024)".into(),
                mark: "read in the text".into(),
            }],
        }),
        decision: vec![
            Fact::of("Route", "re-cut"),
            Fact::of("Signed", "Sat 2 May 2026 by R. Okafor"),
            Fact::of("Because", "The angles differ by a degree: lapping would take the land."),
        ],
        cautions: vec![
            "Isolate, drain and prove the line cold and without pressure before opening a valve.".into(),
            "Never use the disc as a lap.".into(),
        ],
        stop_points: vec!["A void opens under the seat: stop, do not chase it, show it to the officer.".into()],
        sizes: vec!["Half angle 45°, land 5/32 in, at most .0028 in off, square to the face".into()],
        make_first: vec!["A cast iron lap of 45° with a guide of .9985 in".into()],
        shelf: vec![Shelved { number: "T-003".into(), what: "Plug gauge, 45° seat".into(), shelf: "cabinet 2, drawer 4".into() }],
        features: vec![
            Feature {
                title: "Land of the seat".into(),
                how: "along the cone, with a loupe and scale".into(),
                taken: vec!["as found: read with a scale by E. Marsh".into()],
                places: vec![place("top", "5/32 in", None), place("right", "3/16 in", None), place("bottom", "5/32 in", None), place("left", "11/64 in", None)],
            },
            Feature {
                title: "Half angle of the seat".into(),
                how: "two balls and a depth micrometer".into(),
                taken: vec!["as found: read with a scale by E. Marsh".into()],
                places: vec![place("seat", "44 deg", Some("45 deg"))],
            },
            Feature {
                title: "Guide".into(),
                how: "telescoping gauge; clearance over the wings".into(),
                taken: vec!["as found: read with a scale by E. Marsh".into()],
                places: vec![place("upper", "1 1/64 in", None), place("lower", "12 3/16 in", None)],
            },
        ],
        papers: vec![
            JobPaper {
                kind: "Zero pressure proven".into(),
                told: Some("gauge at zero, cock open to the air".into()),
                by: "by E. Marsh, Sat 2 May 2026".into(),
                notes: vec![],
                chart: None,
            },
            JobPaper {
                kind: "Press chart".into(),
                told: Some("pressed from the inner end".into()),
                by: "by E. Marsh, Sun 3 May 2026".into(),
                notes: vec!["It ended within the fit's window, 3.2 to 12.4 tons.".into()],
                chart: Some(Sketch { svg: picture().svg, told: "tons against travel: 1in 4".into() }),
            },
            JobPaper {
                kind: "Leave for hot work".into(),
                told: None,
                by: "wanted before operation 3".into(),
                notes: vec![],
                chart: None,
            },
        ],
        blues: ["as cut", "120 grit", "220 grit", "320 grit"]
            .map(|after| Ring {
                what: format!("Seat: {after}"),
                told: "touches all round; ring 1/32 in".into(),
                by: "Sun 3 May 2026, E. Marsh".into(),
                sketch: Sketch { svg: picture().svg, told: format!("a ring {after}") },
            })
            .into(),
        cost: vec![
            Fact::of("Hours booked", "1 1/4 h"),
            Fact::of("Spent, by its papers", "$41.50 of 1 paper"),
        ],
        operations: vec![
            Operation { done: Some(done.clone()), ..operation("Shut both stops, drain the branch pipe, prove it without pressure, take off the cap") },
            Operation {
                done: Some(Done { on: "Sun 3 May 2026".into(), hours: None, told: String::new(), ..done.clone() }),
                hold: Some(Hold { look: "The wall behind the seat, and that no void shows".into(), who: "inspector".into(), cleared: seen("I. Vance", "Sun 3 May 2026", "Sound all round; no void.") }),
                ..operation("Set the body up true to the guide bore and cut the seat to 45°, no deeper than it cleans")
            },
            Operation {
                hold: Some(Hold { look: "The ring: whole, 1/32 in wide, on the middle of the land".into(), who: "inspector".into(), cleared: None }),
                place: "lathe".into(),
                ..operation("Turn the disc to 45°, lap each to its own master, then blue them together")
            },
            operation("Put together with a new joint, fill, and stop both ways"),
        ],
        proofs: vec![
            Answered { word: "blue".into(), asks: "A whole ring, each face on its own master".into(), answer: "held".into(), seen: seen("I. Vance", "Sun 3 May 2026", "Whole ring, .030 in wide.") },
            Answered { word: "steam-test".into(), asks: "Holds back at working pressure".into(), answer: String::new(), seen: None },
        ],
        knock_ons: vec![
            Answered { word: "lift".into(), asks: "The lift of the disc over the new seat".into(), answer: String::new(), seen: seen("E. Marsh", "Sun 3 May 2026", "3/8 in, as drawn") },
            Answered { word: "spindle".into(), asks: "Length of the stop's spindle".into(), answer: String::new(), seen: None },
        ],
        signatures: vec![
            Signature { capacity: "inspector".into(), name: Some("I. Vance".into()), on: Some("Mon 4 May 2026".into()) },
            Signature { capacity: "repairer".into(), name: None, on: None },
            Signature { capacity: "approver".into(), name: None, on: None },
        ],
        standing: vec!["Operation 3 is not done.".into(), "The proof steam-test is not made.".into()],
        sheets: vec![Copied::of("seat.correct", seat().to_text())],
        pictures: vec![picture()],
    }
}

/// A job about which almost nothing is known.
pub fn bare() -> JobCard {
    JobCard {
        about: About {
            shop: None,
            demonstration: None,
            ..about("J-002", "J-002")
        },
        title: "Look at it".into(),
        facts: vec![],
        found: vec![],
        verdict: None,
        decision: vec![],
        cautions: vec![],
        stop_points: vec![],
        sizes: vec![],
        make_first: vec![],
        shelf: vec![],
        features: vec![],
        papers: vec![],
        operations: vec![],
        blues: vec![],
        cost: vec![],
        proofs: vec![],
        knock_ons: vec![],
        signatures: vec![],
        standing: vec![],
        sheets: vec![],
        pictures: vec![],
    }
}

/// A job that goes on and on: so many operations, each fifth with a long note, and a note longer than a page.
pub fn long(steps: usize) -> JobCard {
    let note = |n: usize| "The flange was dressed and tried again. ".repeat(n);
    let operations = (1..=steps).map(|at| {
        let mut step = operation(&format!("Step {at} of many: {}", note(at % 3)));
        if at % 5 == 0 {
            step.done = Some(Done {
                by: "E. Marsh".into(),
                on: "Sat 2 May 2026".into(),
                hours: None,
                told: note(if at == 10 { 220 } else { 8 }),
            });
        }
        if at % 7 == 0 {
            step.hold = Some(Hold {
                look: note(2),
                who: "inspector".into(),
                cleared: None,
            });
        }
        step
    });
    let feature = |at: usize| Feature {
        title: format!("Bolt {at}"),
        how: "micrometer".into(),
        taken: vec!["as found: read with a scale by E. Marsh".into()],
        places: (1..=12)
            .map(|p| Place {
                place: format!("place {p}"),
                found: Some(format!("{at} {p}/16 in")),
                left: None,
            })
            .collect(),
    };
    let mut proofs = job().proofs;
    proofs[0].seen = seen("I. Vance", "Sun 3 May 2026", &note(150));
    JobCard {
        proofs,
        operations: operations.collect(),
        features: (1..=14).map(feature).collect(),
        sheets: Vec::new(),
        ..job()
    }
}

fn looked_at(number: usize, asks: &[&str]) -> LookedAt {
    LookedAt {
        number,
        text: format!(
            "Item {number}: take out the spindles of glass valves and cocks, and clean them."
        ),
        section: "230.53".into(),
        notes: vec!["Are all spindles out, and valves and passages clean?".into()],
        fitting: None,
        absent: false,
        asks: asks.iter().map(|ask| (*ask).to_owned()).collect(),
    }
}

/// A paper of an inspection with every kind of block, its items too many for one page.
pub fn form() -> Form {
    let words = ["condition", "what was seen", "who looked", "day"].map(str::to_owned);
    let mut items: Vec<_> = (1..=30).map(|at| looked_at(at, &[])).collect();
    items[1].asks = vec![
        "how much scale, and where".into(),
        "pressures".into(),
        "method".into(),
    ];
    items[2].fitting = Some("not said whether fitted: arch tubes".into());
    items[3].fitting = Some("not fitted, as E. Marsh said".into());
    items[3].absent = true;
    let part = |title: &str, whole, blocks| FormPart {
        title: title.into(),
        note: Some(format!("What to know of {title}.")),
        whole,
        blocks,
    };
    Form {
        close: false,
        about: about("14-31", "No. 14: a sheet for the 31"),
        over: "Sheet to write on".into(),
        title: "Inspection 31".into(),
        under: Some("No. 14".into()),
        shout: Some("Mind the gap".into()),
        facts: vec![
            Fact::of("Engine", "No. 14"),
            Fact::of("Log closed through", "Sun 3 May 2026"),
        ],
        governs: "The official form governs.".into(),
        careful: "Cautions".into(),
        cautions: vec!["Never strike a plug under pressure.".into()],
        parts: vec![
            part(
                "Before",
                false,
                vec![
                    Block::Points {
                        all: vec!["Write what was seen.".into()],
                    },
                    Block::Room {
                        rows: vec![vec!["begun".into(), "done".into()], vec!["place".into()]],
                        high: 11,
                    },
                    Block::Facts {
                        all: vec![Fact::of("Owner", "not in this book")],
                    },
                ],
            ),
            part("Items", false, vec![Block::Items { words, all: items }]),
            part(
                "Fields",
                false,
                vec![Block::Table {
                    shares: vec![2, 1, 3],
                    heads: ["Field", "Section", "Said"].map(str::to_owned).to_vec(),
                    rows: (1..=40)
                        .map(|at| {
                            vec![
                                Some(format!("Field {at}")),
                                Some("230.14".into()),
                                (at % 3 > 0).then(|| format!("said {at}")),
                            ]
                        })
                        .collect(),
                }],
            ),
            part(
                "Signed",
                true,
                vec![Block::Room {
                    rows: vec![vec!["inspector".into(), "day".into()]],
                    high: 14,
                }],
            ),
        ],
    }
}

/// The same, set close, with a close table and large figures.
pub fn close_form() -> Form {
    let mut close = form();
    close.close = true;
    close.under = None;
    close.shout = None;
    close.parts.push(FormPart::of(
        "Figures",
        vec![
            Block::Large {
                all: vec![
                    Fact::of("at the top of the water", "225.0 psig"),
                    Fact::of("in steam", "171.0 psig"),
                ],
            },
            Block::Lines {
                shares: vec![2, 1, 2],
                heads: ["Place", "What", "Finding"].map(str::to_owned).to_vec(),
                rows: (1..=50)
                    .map(|at| vec![Some(format!("Place {at}")), None, None])
                    .collect(),
                high: 6,
            },
        ],
    ));
    close
}

/// A tag with words enough for it, and one with too many.
pub fn tool_tags() -> [ToolTag; 2] {
    let tag = |what: &str, serves: &[&str]| ToolTag {
        about: about("T-014", "Tool tag: T-014"),
        what: what.into(),
        serves: serves.iter().map(|it| (*it).to_string()).collect(),
        belongs: vec!["tap rack, top".into(), "drawing 14-B-203".into()],
    };
    [
        tag(
            "staybolt tap 1-1/32 in, 12 threads",
            &["No. 14 left side staybolts, rows 3 and 4", "thread"],
        ),
        tag(
            "lap and master cone of soft gray iron, 45 deg half angle, with its driver and the stub that it is turned on, for the body seat",
            &[
                "No. 14 right feed check, No. 14 left feed check, No. 27 right feed check",
                "seat-land, seat-half-angle, seat-wall",
            ],
        ),
    ]
}
