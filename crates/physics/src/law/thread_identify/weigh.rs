//! How every thread of the lists is weighed against the readings, and said in words.

use crate::error::SheetError;
use crate::thread::series::{Standard, standards};
use measure::{Angle, Length, Rounding, show};

/// What *none of these* weighs: a reading three steps off.
pub const NONE: f64 = 9.0;

/// Which of the two was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The screw.
    External,
    /// The nut or the hole.
    Internal,
}

impl Side {
    /// The side a word names.
    pub fn from_word(word: &str) -> Option<Side> {
        [Side::External, Side::Internal]
            .into_iter()
            .find(|side| side.word() == word)
    }

    /// The word that names the side.
    pub fn word(self) -> &'static str {
        match self {
            Side::External => "external",
            Side::Internal => "internal",
        }
    }
}

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Readings {
    /// Of a screw or of a hole.
    pub side: Side,
    /// Distance between neighbouring crests as it was counted.
    pub pitch: Length,
    /// Travel in one turn, where it was measured.
    pub lead: Option<Length>,
    /// Major diameter.
    pub major: Option<Length>,
    /// Root of a screw, bore of a nut.
    pub minor: Option<Length>,
    /// Pitch diameter.
    pub pitch_diameter: Option<Length>,
    /// Angle of one flank.
    pub flank: Option<Angle>,
    /// Change of diameter over length.
    pub taper: Option<f64>,
}

/// A thread of the lists beside the readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Size, pitch, form and the series it stands in.
    pub name: String,
    /// What the pitch reading should be: the pitch, or the lead where two starts were taken for one.
    pub measured_pitch: Length,
    /// The pitch.
    pub pitch: Length,
    /// How many starts.
    pub starts: u32,
    /// Basic major diameter; of a taper thread, at the small end.
    pub major: Length,
    /// Basic pitch diameter.
    pub pitch_diameter: Length,
    /// Basic root of a screw or bore of a nut.
    pub minor: Length,
    /// Angle of one flank.
    pub flank: Angle,
    /// Change of diameter over length.
    pub taper: f64,
    /// The squares of the steps, added.
    pub weight: f64,
}

/// The proportions of a form, in pitches of diameter: pitch diameter, root and bore under the major.
struct Form {
    flank: f64,
    pitch_diameter: f64,
    root: f64,
    bore: f64,
    taper: f64,
}

fn form(word: &str) -> Option<Form> {
    let (flank, pitch_diameter, root, bore, taper) = match word {
        "unified" | "metric" => (30.0, 0.649_519, 1.190_785, 1.082_532, 0.0),
        "sharp-v" => (30.0, 0.866_025, 1.732_051, 1.732_051, 0.0),
        "whitworth" | "bsp" => (27.5, 0.640_327, 1.280_654, 1.280_654, 0.0),
        "acme" => (14.5, 0.5, 1.0, 1.0, 0.0),
        "stub-acme" => (14.5, 0.3, 0.6, 0.6, 0.0),
        "npt" => (30.0, 0.8, 1.6, 1.6, 1.0 / 16.0),
        _ => return None,
    };
    Some(Form {
        flank,
        pitch_diameter,
        root,
        bore,
        taper,
    })
}

/// Every thread of the lists, the likeliest first. Sizes within a quarter inch of the readings only:
/// no wear explains more.
///
/// # Errors
/// A table of series that cannot be read.
pub fn candidates(sheet: &'static str, readings: &Readings) -> Result<Vec<Candidate>, SheetError> {
    let mut all: Vec<Candidate> = Vec::new();
    for standard in standards(sheet)? {
        for starts in [1, 2] {
            let Some(one) = candidate(standard, starts, readings) else {
                continue;
            };
            // One thread in several series is one candidate.
            let twin = all.iter_mut().find(|known| {
                known.starts == one.starts
                    && known.flank == one.flank
                    && (known.pitch.to_m() - one.pitch.to_m()).abs() < 1e-9
                    && (known.major.to_m() - one.major.to_m()).abs() < 1e-9
                    && (known.pitch_diameter.to_m() - one.pitch_diameter.to_m()).abs() < 1e-9
            });
            match twin {
                Some(known) => {
                    known.name = format!("{}, {}", known.name, standard.series);
                    known.weight = known.weight.min(one.weight);
                }
                None => all.push(one),
            }
        }
    }
    all.sort_by(|a, b| {
        a.weight
            .total_cmp(&b.weight)
            .then_with(|| a.name.cmp(&b.name))
    });
    Ok(all)
}

fn candidate(standard: &Standard, starts: u32, readings: &Readings) -> Option<Candidate> {
    let form_of = form(&standard.form)?;
    let pitch = standard.pitch;
    let at = |pitches: f64, from: f64| Length::m(from - pitches * pitch.to_m());
    let major = if form_of.taper > 0.0 {
        // The standard gives the pitch diameter at the small end; the crests stand 0.8 pitch over it.
        let d = standard.diameter.to_inches();
        let end = d - (0.05 * d + 1.1) * pitch.to_inches();
        Length::inches(end + 0.8 * pitch.to_inches())
    } else {
        standard.diameter
    };
    let minor = match readings.side {
        Side::External => form_of.root,
        Side::Internal => form_of.bore,
    };
    let (measured_pitch, single) = match (starts, readings.lead) {
        // The lead was measured, so the pitch reading is the pitch.
        (_, Some(_)) => (pitch, false),
        (1, None) => (pitch, true),
        (_, None) => (Length::m(f64::from(starts) * pitch.to_m()), false),
    };
    let words = if starts == 1 { "" } else { ", two starts" };
    let mut one = Candidate {
        name: format!(
            "{} - {} {}{words}: {}",
            standard.size, standard.named_pitch, standard.form, standard.series
        ),
        measured_pitch,
        pitch,
        starts,
        major,
        pitch_diameter: at(form_of.pitch_diameter, major.to_m()),
        minor: at(minor, major.to_m()),
        flank: Angle::degrees(form_of.flank),
        taper: form_of.taper,
        weight: 0.0,
    };
    let far = |reading: Option<Length>, listed: Length| {
        reading.is_some_and(|r| (r.to_m() - listed.to_m()).abs() > Length::inches(0.25).to_m())
    };
    if far(readings.major, one.major) || far(readings.minor, one.minor) {
        return None;
    }
    let usual = ["UNC", "UNF", "BSW", "BSF", "Acme", "NPT", "BSP", "M coarse"];
    let rare = if usual.contains(&standard.series.as_str()) {
        0.0
    } else {
        0.3
    };
    let doubled = if single || readings.lead.is_some() {
        0.0
    } else {
        2.0
    };
    one.weight = rare
        + doubled
        + one
            .steps(readings)
            .iter()
            .map(|step| step * step)
            .sum::<f64>();
    Some(one)
}

impl Candidate {
    /// How many steps each reading stands off: pitch, lead, major, pitch diameter, minor, flank, taper.
    fn steps(&self, readings: &Readings) -> [f64; 7] {
        let ratio = readings.pitch.to_m() / self.measured_pitch.to_m() - 1.0;
        let lead = readings.lead.map_or(0.0, |lead| {
            let wanted = f64::from(self.starts) * self.pitch.to_m();
            (lead.to_m() / wanted - 1.0) / 0.03
        });
        let worn = |reading: Option<Length>, listed: Length, share: f64| {
            reading.map_or(0.0, |reading| {
                self.worn(readings.side, reading, listed, share)
            })
        };
        let minor = match (readings.side, readings.minor) {
            (_, None) => 0.0,
            (Side::Internal, Some(bore)) => self.worn(Side::Internal, bore, self.minor, 0.12),
            (Side::External, Some(root)) => {
                (root.to_m() - self.minor.to_m()) / (0.05 * self.pitch.to_m())
            }
        };
        let flank = readings
            .flank
            .map_or(0.0, |flank| flank.to_degrees() - self.flank.to_degrees());
        let taper = readings
            .taper
            .map_or(0.0, |taper| (taper - self.taper) / 0.01);
        [
            ratio / 0.015,
            lead,
            worn(readings.major, self.major, 0.12),
            worn(readings.pitch_diameter, self.pitch_diameter, 0.08),
            minor,
            flank,
            taper,
        ]
    }

    /// Steps a diameter stands off: `share` of the pitch a step in the way wear goes, three thousandths
    /// in the other. A taper thread's diameters run on over its length, which is no wear.
    fn worn(&self, side: Side, reading: Length, listed: Length, share: f64) -> f64 {
        let metal = match side {
            Side::External => reading.to_m() - listed.to_m(),
            Side::Internal => listed.to_m() - reading.to_m(),
        };
        let along = self.taper * 8.0 * self.pitch.to_m();
        if metal > 0.0 {
            (metal - along).max(0.0) / Length::inches(0.003).to_m()
        } else {
            metal / (share * self.pitch.to_m())
        }
    }

    /// How far each reading stands off, in words.
    pub fn off(&self, readings: &Readings) -> String {
        let mut said = vec![format!(
            "pitch {:+.1} %",
            100.0 * (readings.pitch.to_m() / self.measured_pitch.to_m() - 1.0)
        )];
        for (name, reading, listed) in [
            ("major", readings.major, self.major),
            ("pitch dia.", readings.pitch_diameter, self.pitch_diameter),
            ("minor", readings.minor, self.minor),
        ] {
            if let Some(reading) = reading {
                let off = reading.to_inches() - listed.to_inches();
                let sign = if off < 0.0 { "" } else { "+" };
                said.push(format!(
                    "{name} {sign}{}",
                    show::number(off, 4, Rounding::Nearest)
                ));
            }
        }
        if let Some(flank) = readings.flank {
            said.push(format!(
                "flank {:+.1} deg",
                flank.to_degrees() - self.flank.to_degrees()
            ));
        }
        if let Some(taper) = readings.taper {
            said.push(format!("taper {:+.2} in/ft", 12.0 * (taper - self.taper)));
        }
        said.join("; ")
    }

    /// What wear would have to have done, or that it cannot have.
    pub fn wear(&self, readings: &Readings) -> String {
        let mut said = Vec::new();
        let metal = |reading: Length, listed: Length| match readings.side {
            Side::External => reading.to_inches() - listed.to_inches(),
            Side::Internal => listed.to_inches() - reading.to_inches(),
        };
        for (name, reading, listed) in [
            ("crests", readings.major, self.major),
            ("flanks", readings.pitch_diameter, self.pitch_diameter),
        ] {
            let Some(reading) = reading else { continue };
            let metal = metal(reading, listed);
            let along = self.taper * 8.0 * self.pitch.to_inches();
            if metal > along + 0.003 {
                said.push(format!("no wear adds {metal:.4} in of metal at the {name}"));
            } else if metal < -0.0005 {
                said.push(format!("{name} worn {:.4} in on the diameter", -metal));
            }
        }
        if said.is_empty() {
            said.push("nothing to explain".to_owned());
        }
        said.join("; ")
    }

    /// What would settle whether it is this thread at all.
    pub fn doubt(&self, readings: &Readings) -> String {
        if self.starts > 1 && readings.lead.is_none() {
            "count the ends of the thread".to_owned()
        } else if readings.taper.is_none() && self.taper > 0.0 {
            "measure the major diameter at two places".to_owned()
        } else if readings.flank.is_none() {
            format!(
                "try a {:.0} degree gauge against the light",
                2.0 * self.flank.to_degrees()
            )
        } else if readings.pitch_diameter.is_none() {
            "measure the pitch diameter over wires".to_owned()
        } else {
            "try it in a known mate".to_owned()
        }
    }

    /// The measurement that tells this thread from `other`: that in which they stand furthest apart, of
    /// those not taken yet.
    pub fn against(&self, other: &Candidate, readings: &Readings) -> String {
        let between = format!("between {} and {}: ", self.name, other.name);
        let apart = |a: Length, b: Length| (a.to_inches() - b.to_inches()).abs();
        let angle = (self.flank.to_degrees() - other.flank.to_degrees()).abs();
        let effective = apart(self.pitch_diameter, other.pitch_diameter);
        let (a, b) = (1.0 / self.pitch.to_inches(), 1.0 / other.pitch.to_inches());
        let said = if self.starts != other.starts {
            "count the ends of the thread, or measure how far one turn goes".to_owned()
        } else if (self.taper - other.taper).abs() > 0.0 && readings.taper.is_none() {
            "measure the major diameter at two places: one of them is a taper thread".to_owned()
        } else if angle > 1.0 && readings.flank.is_none() {
            format!(
                "the angle: {:.0} against {:.0} degrees, by a gauge of each on a clean, unworn flank",
                2.0 * self.flank.to_degrees(),
                2.0 * other.flank.to_degrees()
            )
        } else if (a - b).abs() > 1e-6 {
            // Over this length the two counts are half a thread apart, which anybody can see.
            let length = (0.5 / (a - b).abs()).max(0.25);
            format!(
                "count the threads over {length:.2} in or more: there the two are half a thread apart"
            )
        } else if effective > 0.002 && readings.pitch_diameter.is_none() {
            format!("the pitch diameter over wires: they differ by {effective:.4} in")
        } else if apart(self.major, other.major) > 0.002 {
            "the major diameter at an unworn place, under a nut or at the end".to_owned()
        } else {
            "the depth of the thread and the shape of its root, by a cast".to_owned()
        };
        between + &said
    }
}
