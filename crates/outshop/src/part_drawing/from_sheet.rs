//! What a worked sheet gives of a drawing: the same figures under the drawing's own names.

use physics::handed_on::HandedOn;
use physics::{Sheet, Shown};

use super::kinds::Kind;
use crate::verb::handed_on::Step;

/// Sheets that give the limits of both members of a thread, and the form's name as it stands on a print.
const THREADS: [(&str, &str); 5] = [
    ("thread.unified", "Unified"),
    ("thread.whitworth", "Whitworth"),
    ("thread.acme", "Acme"),
    ("thread.stub_acme", "Stub Acme"),
    ("thread.metric", "M"),
];

/// What this sheet gives of this drawing; nothing where it gives none.
pub fn gives(kind: &str, sheet: &Sheet) -> Vec<HandedOn> {
    let from = Source(sheet);
    match (kind, sheet.card.id) {
        ("nut", "thread.mate") => from.mate("external"),
        ("disc", "thread.mate") => from.mate("internal"),
        ("nut" | "disc", id) if THREADS.iter().any(|(known, _)| *known == id) => {
            from.standard(if kind == "nut" {
                "internal"
            } else {
                "external"
            })
        }
        ("bushing", "fit.bushing") => [
            from.result("bushing_outside", "outside"),
            from.entered("bore", "bore"),
            from.result("bore_after", "bore_after"),
            from.entered("length", "length"),
        ]
        .into_iter()
        .flatten()
        .collect(),
        ("plug-gauge", "fit.iso" | "fit.inch_class") => [
            from.result("hole_min", "go"),
            from.result("hole_max", "not_go"),
        ]
        .into_iter()
        .flatten()
        .collect(),
        ("mandrel", "lathe.taper") => ["small", "large", "length"]
            .into_iter()
            .filter_map(|name| from.entered(name, name))
            .collect(),
        ("disc" | "seat-lap" | "disc-lap", "seat.correct") => from
            .entered("wanted_half_angle", "half_angle")
            .into_iter()
            .collect(),
        ("seat", "seat.correct") => [
            "port",
            "land",
            "found_half_angle",
            "wanted_half_angle",
            "wall",
        ]
        .into_iter()
        .filter_map(|name| from.entered(name, name))
        .collect(),
        _ => Vec::new(),
    }
}

/// The hand and the starts, where one of the sheets before was told them.
pub fn hand_and_starts(kind: &Kind, steps: &[Step]) -> Vec<HandedOn> {
    let told = ["hand", "starts"].into_iter();
    let takes = |name: &&str| kind.sizes.iter().any(|size| size.name == *name);
    let found = told.filter(takes).filter_map(|name| {
        let mut steps = steps.iter().rev();
        steps.find_map(|step| {
            let mut inputs = step.sheet.inputs.iter();
            let input = inputs.find(|input| {
                input.name == name && !matches!(input.basis, physics::Basis::Assumed(_))
            })?;
            Some(HandedOn {
                name,
                text: input.entered.clone(),
                whence: format!("{name} as entered in {}", step.sheet.card.id),
            })
        })
    });
    found.collect()
}

/// A sheet from which something is handed on.
struct Source<'s>(&'s Sheet);

impl Source<'_> {
    fn id(&self) -> &'static str {
        self.0.card.id
    }

    fn text(&self, name: &str) -> Option<&str> {
        let found = self.0.inputs.iter().find(|input| input.name == name)?;
        Some(found.entered.trim())
    }

    fn entered(&self, name: &str, to: &'static str) -> Option<HandedOn> {
        Some(HandedOn {
            name: to,
            text: self.text(name)?.to_owned(),
            whence: format!("{name} as entered in {}", self.id()),
        })
    }

    fn shown(&self, name: &str) -> Option<String> {
        match self.0.result(name)? {
            Shown::Quantity { shown, unit, .. } => Some(format!("{shown} {unit}")),
            _ => None,
        }
    }

    fn result(&self, name: &str, to: &'static str) -> Option<HandedOn> {
        Some(HandedOn {
            name: to,
            text: self.shown(name)?,
            whence: format!("{name} of {}", self.id()),
        })
    }

    /// The limits of a diameter from the results of these names, either of which the sheet may lack.
    fn limits(&self, to: &'static str, least: &str, most: &str) -> Option<HandedOn> {
        let (text, whence) = match (self.shown(least), self.shown(most)) {
            (Some(low), Some(high)) => (format!("{low} to {high}"), format!("{least}, {most}")),
            (Some(low), None) => (format!("{low} or over"), least.to_owned()),
            (None, Some(high)) => (format!("{high} or under"), most.to_owned()),
            (None, None) => return None,
        };
        Some(HandedOn {
            name: to,
            text,
            whence: format!("{whence} of {}", self.id()),
        })
    }

    /// The new member for an old one of this side: its limits for use hot, where those were worked.
    fn mate(&self, old: &str) -> Vec<HandedOn> {
        if self.text("side") != Some(old) {
            return Vec::new();
        }
        let hot = |name: &str| {
            let hot = format!("{name}_hot");
            if self.shown(&hot).is_some() {
                hot
            } else {
                name.to_owned()
            }
        };
        let one_sided = |to, name: &str| {
            // Of a nut not less, of a screw not more.
            match old {
                "external" => self.limits(to, &hot(name), ""),
                _ => self.limits(to, "", &hot(name)),
            }
        };
        let pitch = match self.shown("pitch_min") {
            Some(_) => self.limits("thread_pitch", &hot("pitch_min"), &hot("pitch_max")),
            None => one_sided("thread_pitch", "pitch_near"),
        };
        let (tpi, form) = (
            self.text("tpi").unwrap_or_default(),
            self.text("form").unwrap_or_default(),
        );
        [
            Some(HandedOn {
                name: "thread",
                text: format!("{tpi} TPI {form}, to its mate"),
                whence: format!("form and tpi as entered in {}", self.id()),
            }),
            one_sided("thread_major", "major_limit"),
            pitch,
            one_sided("thread_minor", "minor_limit"),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// One member of a standard thread.
    fn standard(&self, side: &str) -> Vec<HandedOn> {
        let name = THREADS.iter().find(|(id, _)| *id == self.id());
        let Some((_, form)) = name else {
            return Vec::new();
        };
        let text = |name: &str| self.text(name).unwrap_or_default();
        let (diameter, class) = (text("diameter"), text("class"));
        let named = match *form {
            "M" => format!(
                "M{} x {}, {class}",
                diameter.trim_end_matches("mm").trim(),
                text("pitch")
            ),
            form => format!("{diameter} - {} {form} {class}", text("tpi")),
        };
        let limits = |to, what: &str| {
            let of = |end: &str| format!("{side}_{what}_{end}");
            self.limits(to, &of("min"), &of("max"))
        };
        [
            Some(HandedOn {
                name: "thread",
                text: named,
                whence: format!("as entered in {}", self.id()),
            }),
            limits("thread_major", "major"),
            limits("thread_pitch", "pitch"),
            limits("thread_minor", "minor"),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}
