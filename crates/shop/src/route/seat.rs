//! The sheets of a conical seat and its guide, worked from a finding's readings.
//!
//! Arithmetic that a law already knows stays in the law: this file chooses which readings govern and
//! reads the answers.

use measure::{House, Length, Size, show};
use physics::{Basis, Given, Sheet, Shown};

use super::Feasible;
use crate::book::{Family, FeatureReading, Part, Worst};
use crate::locomotive::{Value, value};

/// What the sheets gave.
pub struct Worked {
    /// Sheets worked.
    pub sheets: Vec<Sheet>,
    /// Sheets wanted but not worked, and what they need.
    pub wanting: Vec<String>,
    /// Whether seat and disc are meant to have one angle; nobody may guess it.
    design: Option<String>,
    /// What the seat itself wants, without which no route can spend its metal.
    seat_wanting: Vec<String>,
    seat: Option<Seat>,
}

struct Seat {
    wedge: Length,
    sink: Length,
    method: String,
    wanted: String,
    wall: Option<Size>,
    wall_limit: Option<Size>,
    hot_clearance: Option<Length>,
}

/// What is asked before any route may spend the metal of a seat.
const DESIGN: &str =
    "the design of the seat: cut to one angle with its disc, or on purpose to two (`seat-design`)";
/// Why no route brings a seat to the angle of its disc where the two were cut apart on purpose.
const TWO_ANGLES: &str = "seat and disc are cut to two angles on purpose: the difference is not corrected away. Dress each \
    face to its own angle, against its own master, and lap only to a line of contact";

/// What cutting or lapping the seat would come to.
pub struct After {
    pub feasible: Feasible,
    pub metal: Option<String>,
    pub sizes: Vec<String>,
}

/// Works every sheet that the family's features and the part's facts allow.
pub fn work(family: &Family, part: &Part, readings: &[FeatureReading], house: House) -> Worked {
    let mut worked = Worked {
        sheets: Vec::new(),
        wanting: Vec::new(),
        design: part.facts.get("seat-design").cloned(),
        seat_wanting: Vec::new(),
        seat: None,
    };
    if family.feature(ANGLE).is_none() {
        return worked;
    }
    let hot = hot_clearance(&mut worked, family, part, readings, house);
    let Some(sheet) = correct(&mut worked, family, part, readings, house) else {
        return worked;
    };
    let number = |name: &str| si(&sheet, name);
    if let (Some(wedge), Some(sink)) = (number("wedge"), number("axial_sink")) {
        let wall = governing(family, readings, "seat-wall", Worst::Smallest).map(|(size, _)| size);
        let facts = part.features.get("seat-wall");
        worked.seat = Some(Seat {
            wedge: Length::m(wedge),
            sink: Length::m(sink),
            method: text(&sheet, "method"),
            wanted: part.facts.get("seat-angle").cloned().unwrap_or_default(),
            wall,
            wall_limit: facts
                .and_then(|f| f.shop_limit.as_deref())
                .and_then(|t| Size::parse(t).ok()),
            hot_clearance: hot,
        });
    }
    worked.sheets.insert(0, sheet);
    worked
}

fn correct(
    worked: &mut Worked,
    family: &Family,
    part: &Part,
    readings: &[FeatureReading],
    house: House,
) -> Option<Sheet> {
    let mut needs = Vec::new();
    let wanted = part.facts.get("seat-angle");
    let read = wanted.and_then(|t| measure::entered_with_unit(t, measure::Dimension::Angle).ok());
    match (wanted, &read) {
        (None, _) => {
            needs.push("seat-angle, the half angle the seat is to have".to_string());
        }
        (Some(text), None) => needs.push(format!("seat-angle as an angle; `{text}` is none")),
        _ => {}
    }
    needs.extend(angles_not_read(family, readings));
    let angle = read.and_then(|wanted| furthest(family, readings, wanted.si));
    let land = governing(family, readings, "seat-land", Worst::Largest);
    if land.is_none() {
        needs.push("the land of the seat at every place".to_string());
    }
    let (Some(wanted), Some((angle, angle_at)), Some((_, land))) = (wanted, angle, land) else {
        worked.seat_wanting = needs;
        return None;
    };
    let drawing = || Basis::Drawing(format!("facts of the {}", part.name));
    let mut given = vec![
        Given {
            name: "found_half_angle".into(),
            text: angle,
            basis: Basis::Reading(format!("as found, {angle_at}")),
        },
        Given {
            name: "wanted_half_angle".into(),
            text: wanted.clone(),
            basis: drawing(),
        },
        Given {
            name: "land".into(),
            text: land,
            basis: Basis::Reading("as found, the largest of all places".into()),
        },
    ];
    if let Some(port) = part.facts.get("port") {
        given.push(Given {
            name: "port".into(),
            text: port.clone(),
            basis: drawing(),
        });
    }
    if let Some((_, wall)) = governing(family, readings, "seat-wall", Worst::Smallest) {
        given.push(Given {
            name: "wall".into(),
            text: wall,
            basis: Basis::Reading("as found, the smallest of all places".into()),
        });
    }
    if let Some(design) = part.facts.get("seat-design") {
        given.push(Given {
            name: "design".into(),
            text: design.clone(),
            basis: drawing(),
        });
    }
    run(&mut worked.seat_wanting, "seat.correct", &given, house)
}

fn hot_clearance(
    worked: &mut Worked,
    family: &Family,
    part: &Part,
    readings: &[FeatureReading],
    house: House,
) -> Option<Length> {
    let materials = part.facts.get("guide-materials");
    let rise = part.facts.get("hot-rise");
    let bore = governing(family, readings, "guide-bore", Worst::Largest);
    let mut needs = Vec::new();
    for (missing, what) in [
        (materials.is_none(), "guide-materials, outer and inner"),
        (rise.is_none(), "hot-rise, how much hotter the valve gets"),
        (bore.is_none(), "the bore of the guide at every place"),
    ] {
        if missing {
            needs.push(what);
        }
    }
    let (Some(materials), Some(rise), Some((_, bore))) = (materials, rise, bore) else {
        worked.wanting.push(format!(
            "sheet fit.hot_clearance cannot tell: needs {}",
            needs.join("; ")
        ));
        return None;
    };
    let facts = || Basis::Drawing(format!("facts of the {}", part.name));
    let given = [
        Given {
            name: "diameter".into(),
            text: bore,
            basis: Basis::Reading("as found, the largest of all places".into()),
        },
        Given {
            name: "materials".into(),
            text: materials.clone(),
            basis: facts(),
        },
        Given {
            name: "rise".into(),
            text: rise.clone(),
            basis: facts(),
        },
    ];
    let sheet = run(&mut worked.wanting, "fit.hot_clearance", &given, house)?;
    let needed = si(&sheet, "needed_clearance").map(Length::m);
    worked.sheets.push(sheet);
    needed
}

fn run(wanting: &mut Vec<String>, id: &str, given: &[Given], house: House) -> Option<Sheet> {
    match physics::run(id, given, house) {
        Ok(sheet) => Some(sheet),
        Err(e) => {
            wanting.push(format!("what the sheet asks: {e}"));
            None
        }
    }
}

fn result<'s>(sheet: &'s Sheet, name: &str) -> Option<&'s Shown> {
    sheet
        .results
        .iter()
        .find(|r| r.name == name)
        .map(|r| &r.value)
}

fn si(sheet: &Sheet, name: &str) -> Option<f64> {
    match result(sheet, name) {
        Some(Shown::Quantity { si, .. }) => *si,
        _ => None,
    }
}

fn text(sheet: &Sheet, name: &str) -> String {
    match result(sheet, name) {
        Some(Shown::Text(text)) => text.clone(),
        _ => String::new(),
    }
}

/// The feature whose readings say how far the seat is off.
const ANGLE: &str = "seat-half-angle";

/// The places where the angle of the seat was not read, one line each; one line where it was nowhere.
fn angles_not_read(family: &Family, readings: &[FeatureReading]) -> Vec<String> {
    let places = family.feature(ANGLE).map_or(&[][..], |f| &f.positions[..]);
    let is_read = |place: &&String| {
        let mut of_seat = readings.iter().filter(|r| r.feature == ANGLE);
        of_seat.any(|r| r.reading.position == **place)
    };
    let missing: Vec<_> = places.iter().filter(|place| !is_read(place)).collect();
    if missing.len() == places.len() {
        return vec!["the half angle of the seat, as found".to_string()];
    }
    missing
        .into_iter()
        .map(|place| format!("the half angle of the seat at {place}, as found"))
        .collect()
}

/// The reading of the seat's angle furthest from the wanted one, as written, with its place; nothing
/// where a place was not read, for that one may be the furthest.
fn furthest(family: &Family, readings: &[FeatureReading], wanted: f64) -> Option<(String, String)> {
    if !angles_not_read(family, readings).is_empty() {
        return None;
    }
    let feature = family.feature(ANGLE)?;
    let mut worst: Option<(f64, String, String)> = None;
    for reading in readings.iter().filter(|r| r.feature == ANGLE) {
        let written = reading.reading.written();
        let off = (value(feature, &written).ok()?.key() - wanted).abs();
        if worst.as_ref().is_none_or(|(known, ..)| off > *known) {
            worst = Some((off, written, reading.reading.position.clone()));
        }
    }
    worst.map(|(_, text, place)| (text, place))
}

/// The governing reading of a size that was read at every place: the size, and how it was written.
fn governing(
    family: &Family,
    readings: &[FeatureReading],
    name: &str,
    worst: Worst,
) -> Option<(Size, String)> {
    let feature = family.feature(name)?;
    let mut read = Vec::new();
    for place in &feature.positions {
        let reading = readings
            .iter()
            .find(|r| r.feature == name && r.reading.position == *place)?;
        let written = reading.reading.written();
        let Value::Size(size) = value(feature, &written).ok()? else {
            return None;
        };
        read.push((size, written));
    }
    match worst {
        Worst::Largest => read.into_iter().max_by_key(|(size, _)| *size),
        Worst::Smallest => read.into_iter().min_by_key(|(size, _)| *size),
    }
}

impl Worked {
    /// What it would come to if the seat were brought to its angle by a route that can move at most
    /// `most_wedge` at one edge, in the reader's units.
    pub fn seat_after(&self, most_wedge: Option<&str>, house: House) -> After {
        let none = |feasible| After {
            feasible,
            metal: None,
            sizes: Vec::new(),
        };
        // Matched cones and cones cut apart on purpose need opposite repairs, so this is asked first: before the
        // seat is measured, and whatever it measures.
        match self.design.as_deref() {
            Some("matched") => {}
            Some(_) => return none(Feasible::No(TWO_ANGLES.into())),
            None => {
                let mut needs = vec![DESIGN.to_string()];
                needs.extend(self.seat_wanting.iter().cloned());
                return none(Feasible::CannotTell(needs));
            }
        }
        let Some(seat) = &self.seat else {
            return none(Feasible::CannotTell(self.seat_wanting.clone()));
        };
        let up = |length: Length| fine(length, house, show::Rounding::Up);
        let down = |inches| fine(Length::inches(inches), house, show::Rounding::Down);
        if let Some((text, most)) =
            most_wedge.and_then(|text| Some((text, Size::parse(text).ok()?)))
            && seat.wedge.to_m() > most.length().to_m()
        {
            return none(Feasible::No(format!(
                "the seat needs {} moved at one edge, and this way moves {} at most",
                up(seat.wedge),
                show::size_as_written(text, most, house)
            )));
        }
        let (Some(wall), Some(limit)) = (seat.wall, seat.wall_limit) else {
            let mut needs = Vec::new();
            if seat.wall.is_none() {
                needs.push("the metal behind the seat at every place".to_string());
            }
            if seat.wall_limit.is_none() {
                needs.push("a shop limit for the metal behind the seat".to_string());
            }
            return none(Feasible::CannotTell(needs));
        };
        let before = wall.length().to_inches() - limit.length().to_inches();
        let after = before - seat.sink.to_inches();
        let metal = format!(
            "spends {} of the metal behind the seat; {} left above the shop limit (now {})",
            up(seat.sink),
            down(after),
            down(before),
        );
        if after < 0.0 {
            let mut no = none(Feasible::No(format!(
                "the metal behind the seat would pass the shop limit: {metal}"
            )));
            no.metal = Some(metal);
            return no;
        }
        let mut sizes = vec![
            format!(
                "seat to {} half angle: {} to come off at one edge, disc sinks {}",
                seat.wanted,
                up(seat.wedge),
                up(seat.sink)
            ),
            format!("method by the sheet: {}", seat.method),
            format!("stop at {} behind the seat", show::size(limit, house)),
        ];
        if let Some(clearance) = seat.hot_clearance {
            sizes.push(format!("disc stem in its guide: at least {} cold clearance for heat, besides its running clearance", up(clearance)));
        }
        After {
            feasible: Feasible::Yes,
            metal: Some(metal),
            sizes,
        }
    }
}

/// As fine as a micrometer reads: the tenth of a thousandth of an inch, or the micron.
fn fine(length: Length, house: House, rounding: show::Rounding) -> String {
    let decimals = match house {
        House::Inch => 4,
        House::Metric => 3,
    };
    show::length(length, house, decimals, rounding)
}
