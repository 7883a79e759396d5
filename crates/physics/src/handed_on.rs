//! Which sheet a worked sheet leads to, and what of it goes into that one: from a worn thread's readings to the
//! table of cuts without a figure typed twice. Every value that is handed on says where it came from, and what is not
//! known of the sheets before stays to be said.

use crate::catalogue::find;
use crate::law::thread_acme::clearance;
use crate::sheet::{Sheet, Shown};
use measure::{Length, Rounding, show};

const IDENTIFY: &str = "thread.identify";
const MATE: &str = "thread.mate";
const CUTTING: &str = "thread.cutting";

/// Sheets of the limits of a thread, and the form they are of, in the words of [`CUTTING`].
const LIMITS: [(&str, &str); 6] = [
    ("thread.unified", "unified"),
    ("thread.whitworth", "whitworth"),
    ("thread.acme", "acme"),
    ("thread.stub_acme", "stub-acme"),
    ("thread.square", "square"),
    ("thread.sharp_v", "sharp-v"),
];

/// A sheet worked before, and which line of its list was taken, counted from one, where a list was offered.
#[derive(Debug, Clone, Copy)]
pub struct Before<'s> {
    /// As it was worked.
    pub sheet: &'s Sheet,
    /// The line taken.
    pub taken: Option<usize>,
}

/// A sheet that may come next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Next {
    /// Its id.
    pub sheet: &'static str,
    /// What is done there, in words.
    pub what: String,
    /// The line of the list that is taken by going there, counted from one.
    pub taken: Option<usize>,
}

/// A value for an argument of the next sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HandedOn {
    /// The argument.
    pub name: &'static str,
    /// What goes in, written as a shop writes it.
    pub text: String,
    /// Which value of which sheet it is.
    pub whence: String,
}

/// What a line of the list of [`IDENTIFY`] names.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Line {
    name: String,
    tpi: String,
    form: String,
    starts: u32,
}

/// The sheets that this one leads to, in the order of the work; none where it is the last.
pub fn leads_to(sheet: &Sheet) -> Vec<Next> {
    let plain = |id: &'static str, what: &str| Next {
        sheet: id,
        what: what.to_owned(),
        taken: None,
    };
    match sheet.card.id {
        IDENTIFY => (1..)
            .map_while(|at| Some((at, row(sheet, at)?)))
            .filter_map(|(at, name)| Some((at, line(&name)?)))
            .filter(|(_, line)| takes(MATE, "form", &line.form))
            .map(|(at, line)| Next {
                sheet: MATE,
                what: format!("Make its mate, taken as {}", line.name),
                taken: Some(at),
            })
            .collect(),
        MATE => vec![plain(CUTTING, "Cut the new one")],
        "seat.correct" => vec![plain("seat.lap", "Lap it")],
        "fit.bushing" => vec![plain("lathe.turning", "Turn the outside")],
        id if LIMITS.iter().any(|(limits, _)| *limits == id) => {
            vec![plain(CUTTING, "Cut it")]
        }
        _ => Vec::new(),
    }
}

/// What goes into the sheet `to` from those worked before it, the first one first. Nothing where the last of them does
/// not lead there.
pub fn handed_on(to: &str, before: &[Before<'_>]) -> Vec<HandedOn> {
    let Some(last) = before.last() else {
        return Vec::new();
    };
    let sheet = last.sheet;
    if !leads_to(sheet).iter().any(|next| next.sheet == to) {
        return Vec::new();
    }
    let mut all = match sheet.card.id {
        IDENTIFY => of_readings(last),
        MATE => of_mate(sheet, before),
        "seat.correct" => Vec::from_iter(entered(sheet, "wanted_half_angle", "half_angle")),
        "fit.bushing" => known([
            result(sheet, "bushing_outside", "diameter"),
            entered(sheet, "length", "length"),
            metal(sheet, 1, to),
        ]),
        _ => of_limits(sheet),
    };
    // What the next sheet does not ask cannot be given to it.
    let asks = |name: &str| find(to).is_ok_and(|entry| entry.card.argument(name).is_some());
    all.retain(|one| asks(one.name));
    all
}

/// What must be remembered at the sheet `to` of the sheets before, and no argument of it takes.
pub fn remarks(to: &str, before: &[Before<'_>]) -> Vec<String> {
    let mut said = Vec::new();
    let identified = before.iter().find(|one| one.sheet.card.id == IDENTIFY);
    let Some(one) = identified.filter(|_| [MATE, CUTTING].contains(&to)) else {
        return said;
    };
    if let Some(line) = taken(one) {
        said.push(format!(
            "The thread was taken as {} from the list of {IDENTIFY}. A list proves nothing: settle it on the part \
             before the first chip.",
            line.name
        ));
        if line.starts > 1 {
            said.push(format!(
                "Taken as {} starts: each is cut by itself, a pitch from the next, at the same depth.",
                line.starts
            ));
        }
    }
    match input(one.sheet, "hand") {
        Some("left") => said.push(
            "Left hand, as told of the old one: the carriage goes from the headstock outward, and the tool leans the \
             other way."
                .to_owned(),
        ),
        Some(_) => {}
        None => said.push("Which hand the old one is was not told. Look before the wheels are set.".to_owned()),
    }
    said
}

/// The readings of a worn thread, and the form that a person took from the list.
fn of_readings(before: &Before<'_>) -> Vec<HandedOn> {
    let sheet = before.sheet;
    let mut all = Vec::new();
    if let (Some(line), Some(at)) = (taken(before), before.taken) {
        let whence = format!("line {at} of the list of {IDENTIFY}");
        let from_list = |name, text| HandedOn {
            name,
            text,
            whence: whence.clone(),
        };
        all.push(from_list("form", line.form));
        all.push(from_list("tpi", line.tpi));
    }
    for name in ["side", "pitch_diameter", "major", "minor"] {
        all.extend(entered(sheet, name, name));
    }
    all
}

/// The new member of a pair: the other side than the old one's, at its limit with the most metal.
fn of_mate(sheet: &Sheet, before: &[Before<'_>]) -> Vec<HandedOn> {
    let mut all = known([
        entered(sheet, "form", "form"),
        entered(sheet, "tpi", "tpi"),
        metal(sheet, 0, CUTTING),
    ]);
    let new = match input(sheet, "side") {
        Some("external") => Some("internal"),
        Some("internal") => Some("external"),
        _ => None,
    };
    all.extend(new.map(|side| HandedOn {
        name: "side",
        text: side.to_owned(),
        whence: format!("the other than the old one's in {MATE}"),
    }));
    all.extend(size(sheet, new == Some("internal")));
    // The list counts starts; the mate's limits do not hang on them, the cut does.
    let counted = before.iter().find_map(|one| {
        let line = taken(one)?;
        (line.starts > 1 || input(one.sheet, "lead").is_some()).then_some(line.starts)
    });
    all.extend(counted.map(|starts| HandedOn {
        name: "starts",
        text: starts.to_string(),
        whence: format!("the line taken from the list of {IDENTIFY}"),
    }));
    all
}

/// The diameter at which the new member's thread is cut: for use hot where that was worked.
fn size(sheet: &Sheet, of_a_nut: bool) -> Option<HandedOn> {
    let (name, si) = ["major_limit_hot", "major_limit"]
        .into_iter()
        .find_map(|name| Some((name, number(sheet, name)?)))?;
    let major = Length::m(si).to_inches();
    // The sheet of cutting adds a nut's clearance where the form has one, so it is taken off here.
    let has_clearance = ["acme", "stub-acme"].contains(&input(sheet, "form")?);
    let clear = match sheet.inputs.iter().find(|one| one.name == "tpi") {
        Some(one) if of_a_nut && has_clearance => match &one.value {
            Shown::Quantity { value, .. } => clearance(*value).to_inches(),
            _ => return None,
        },
        _ => 0.0,
    };
    let less = if clear > 0.0 {
        format!(" less the form's clearance, which {CUTTING} adds")
    } else {
        String::new()
    };
    let text = show::number(major - clear, 4, Rounding::Nearest);
    Some(HandedOn {
        name: "diameter",
        text: format!("{text} in"),
        whence: format!("{name} of {MATE}{less}"),
    })
}

/// A thread of a standard: its form, pitch, diameter and starts.
fn of_limits(sheet: &Sheet) -> Vec<HandedOn> {
    let form = LIMITS.iter().find(|(id, _)| *id == sheet.card.id);
    let mut all = known([
        form.map(|(id, form)| HandedOn {
            name: "form",
            text: (*form).to_owned(),
            whence: format!("the sheet {id}"),
        }),
        entered(sheet, "diameter", "diameter"),
        entered(sheet, "tpi", "tpi"),
    ]);
    // What was taken for granted before is not handed on as if somebody had said it.
    let starts = sheet.inputs.iter().find(|one| one.name == "starts");
    if starts.is_some_and(|one| matches!(one.basis, crate::given::Basis::Entered)) {
        all.extend(entered(sheet, "starts", "starts"));
    }
    all
}

/// Those that there are.
fn known<const N: usize>(all: [Option<HandedOn>; N]) -> Vec<HandedOn> {
    all.into_iter().flatten().collect()
}

/// An argument as it was entered, for the argument `to` of the next sheet.
fn entered(sheet: &Sheet, name: &str, to: &'static str) -> Option<HandedOn> {
    Some(HandedOn {
        name: to,
        text: input(sheet, name)?.to_owned(),
        whence: format!("{name} as entered in {}", sheet.card.id),
    })
}

/// A result as the sheet shows it, for the argument `to` of the next sheet.
fn result(sheet: &Sheet, name: &str, to: &'static str) -> Option<HandedOn> {
    let Some(Shown::Quantity { shown, unit, .. }) = sheet.result(name) else {
        return None;
    };
    Some(HandedOn {
        name: to,
        text: format!("{shown} {unit}").trim().to_owned(),
        whence: format!("{name} of {}", sheet.card.id),
    })
}

/// One of the metals of a sheet, where the next sheet knows it.
fn metal(sheet: &Sheet, at: usize, to: &str) -> Option<HandedOn> {
    let metal = input(sheet, "materials")?.split(',').nth(at)?.trim();
    takes(to, "material", metal).then(|| HandedOn {
        name: "material",
        text: metal.to_owned(),
        whence: format!("materials as entered in {}", sheet.card.id),
    })
}

/// Whether an argument of a sheet takes a word.
fn takes(sheet: &str, argument: &str, word: &str) -> bool {
    let argument = find(sheet).map(|entry| entry.card.argument(argument));
    argument.is_ok_and(|one| one.is_some_and(|one| one.choices().contains(&word)))
}

fn input<'s>(sheet: &'s Sheet, name: &str) -> Option<&'s str> {
    let one = sheet.inputs.iter().find(|one| one.name == name)?;
    Some(one.entered.trim())
}

fn number(sheet: &Sheet, name: &str) -> Option<f64> {
    match sheet.result(name)? {
        Shown::Quantity { si, .. } => *si,
        _ => None,
    }
}

fn taken(before: &Before<'_>) -> Option<Line> {
    line(&row(before.sheet, before.taken?)?)
}

/// The thread in a line of the list, counted from one.
fn row(sheet: &Sheet, at: usize) -> Option<String> {
    let Some(Shown::Table { rows, .. }) = sheet.result("candidates") else {
        return None;
    };
    rows.get(at.checked_sub(1)?)?.first().cloned()
}

/// `3/4 in - 12 TPI unified, two starts: 12UN, left hand` taken apart; none for what is no thread by its pitch in
/// threads per inch.
fn line(name: &str) -> Option<Line> {
    let (thread, _) = name.split_once(": ")?;
    let (_, thread) = thread.rsplit_once(" - ")?;
    let (thread, starts) = match thread.strip_suffix(", two starts") {
        Some(thread) => (thread, 2),
        None => (thread, 1),
    };
    let (tpi, form) = thread.split_once(" TPI ")?;
    Some(Line {
        name: name.to_owned(),
        tpi: tpi.to_owned(),
        form: form.to_owned(),
        starts,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::given::Given;
    use crate::run;
    use measure::House;

    fn worked(id: &str, given: &[(&str, &str)]) -> Sheet {
        let given: Vec<Given> = given.iter().map(|(n, v)| Given::typed(n, v)).collect();
        run(id, &given, House::Inch).unwrap_or_else(|why| panic!("{why}"))
    }

    fn of<'c>(all: &'c [HandedOn], name: &str) -> Option<&'c str> {
        let one = all.iter().find(|one| one.name == name)?;
        Some(&one.text)
    }

    const WORN: [(&str, &str); 5] = [
        ("side", "external"),
        ("tpi", "12"),
        ("major", ".740in"),
        ("pitch_diameter", ".6935in"),
        ("flank_angle", "30"),
    ];

    #[test]
    fn a_worn_thread_is_handed_on_to_its_cut() {
        let readings = worked(IDENTIFY, &WORN);
        let next = leads_to(&readings);
        let unified = next.iter().find(|next| next.what.contains("unified"));
        let taken = unified.and_then(|next| next.taken);
        let first = Before {
            sheet: &readings,
            taken,
        };
        let into_mate = handed_on(MATE, &[first]);
        assert_eq!(of(&into_mate, "form"), Some("unified"));
        assert_eq!(of(&into_mate, "tpi"), Some("12"));
        assert_eq!(of(&into_mate, "pitch_diameter"), Some(".6935in"));
        assert_eq!(
            of(&into_mate, "clearance"),
            None,
            "a choice is never made for anybody"
        );

        let mut given: Vec<_> = into_mate
            .iter()
            .map(|c| (c.name, c.text.as_str()))
            .collect();
        given.extend([("clearance", ".006in"), ("materials", "bronze,steel")]);
        let mate = worked(MATE, &given);
        let second = Before {
            sheet: &mate,
            taken: None,
        };
        let into_cut = handed_on(CUTTING, &[first, second]);
        assert_eq!(
            of(&into_cut, "side"),
            Some("internal"),
            "the mate of a screw is a nut"
        );
        assert_eq!(
            of(&into_cut, "diameter"),
            Some("0.7460 in"),
            ".740 and .006"
        );
        assert_eq!(of(&into_cut, "material"), Some("bronze"));
        assert_eq!(of(&into_cut, "starts"), None, "nobody counted them");
        let said = remarks(CUTTING, &[first, second]).join(" ");
        assert!(
            said.contains("taken as 3/4 in") && said.contains("hand"),
            "{said}"
        );
    }

    #[test]
    fn an_acme_nut_is_bored_to_its_limit_once_the_form_has_added_its_clearance() {
        let mate = worked(
            MATE,
            &[
                ("form", "acme"),
                ("tpi", "4"),
                ("side", "external"),
                ("pitch_diameter", "1.1104in"),
                ("clearance", ".008in"),
                ("major", "1.246in"),
            ],
        );
        let one = Before {
            sheet: &mate,
            taken: None,
        };
        let into = handed_on(CUTTING, &[one]);
        // 1.246 and .008, less the .020 that a coarse Acme nut stands over its screw (ASME B1.5).
        assert_eq!(of(&into, "diameter"), Some("1.2340 in"));
    }

    #[test]
    fn every_line_of_the_list_in_threads_per_inch_is_taken_apart() {
        let two = line("3/4 in - 4 1/2 TPI acme, two starts: Acme, left hand");
        let two = two.unwrap_or_else(|| panic!("it names a thread"));
        assert_eq!(
            (two.tpi.as_str(), two.form.as_str(), two.starts),
            ("4 1/2", "acme", 2)
        );
        assert_eq!(line("none of these"), None);
        assert_eq!(line("M20 - 2.5 mm metric: M coarse"), None);
    }

    #[test]
    fn nothing_is_handed_on_to_a_sheet_that_does_not_follow() {
        let readings = worked(IDENTIFY, &WORN);
        let one = Before {
            sheet: &readings,
            taken: Some(1),
        };
        assert!(handed_on("lathe.taper", &[one]).is_empty());
        assert!(handed_on(MATE, &[]).is_empty());
        // Without a line taken no form is handed on, and the readings are.
        let none = Before {
            sheet: &readings,
            taken: None,
        };
        let into = handed_on(MATE, &[none]);
        assert_eq!(of(&into, "form"), None);
        assert_eq!(of(&into, "major"), Some(".740in"));
    }
}
