//! The drawings that there are: what each takes and how it is drawn.

use drawing::{
    Collar, DiscLap, Drawing, DrawingError, Lead, Mandrel, NutBody, PlugGauge, SeatLap,
    SeatSection, SeatStated, StemThread, ThreadCall, Title, TurnedBushing, TurnedDisc, TurnedNut,
};
use measure::House;

use super::given::Given;

/// What stands for a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// A length alone, of what is shown and not made.
    Plain,
    /// An angle alone.
    PlainAngle,
    /// A length, and how closely it is kept.
    Kept,
    /// An angle, and how far it may be off.
    Angle,
    /// Limits of a thread's diameter.
    Limits,
    /// Words.
    Text,
}

/// A size that a drawing takes.
pub struct Size {
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// How it is written.
    pub takes: Takes,
    /// Whether nothing can be drawn without it.
    pub required: bool,
}

/// A drawing that can be asked for.
pub struct Kind {
    /// The word for it.
    pub word: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What it takes.
    pub sizes: &'static [Size],
    /// Sizes of which one at least must be said.
    pub one_of: &'static [&'static str],
    /// Draws it.
    pub draw: fn(&Given, House, Title) -> Result<Drawing, DrawingError>,
}

const fn size(name: &'static str, takes: Takes, meaning: &'static str) -> Size {
    Size {
        name,
        meaning,
        takes,
        required: true,
    }
}

/// The same of one that may be left out.
const fn or_not(name: &'static str, takes: Takes, meaning: &'static str) -> Size {
    Size {
        required: false,
        ..size(name, takes, meaning)
    }
}

use Takes::{Angle as ANGLE, Kept as KEPT, Limits as LIMITS, Plain, PlainAngle, Text};

/// All of them, in the order of the list.
pub const KINDS: [Kind; 8] = [
    Kind {
        word: "seat",
        title: "Valve seat, before and after",
        sizes: &[
            size(
                "port",
                Plain,
                "diameter of the port, at the inner edge of the land",
            ),
            size("land", Plain, "length of the land as found, along the cone"),
            size(
                "found_half_angle",
                PlainAngle,
                "half angle found, from the axis",
            ),
            size(
                "wanted_half_angle",
                PlainAngle,
                "half angle wanted, from the axis",
            ),
            or_not("wall", Plain, "metal behind the seat, along the axis"),
            or_not("body_outside", Plain, "outside of the body"),
            or_not("disc_outside", Plain, "outside of the disc"),
        ],
        one_of: &[],
        draw: |given, house, title| {
            let seat = SeatSection {
                port: given.length("port"),
                land: given.length("land"),
                found_half_angle: given.angle("found_half_angle"),
                wanted_half_angle: given.angle("wanted_half_angle"),
                wall: given.maybe("wall"),
                body_outside: given.maybe("body_outside"),
                disc_outside: given.maybe("disc_outside"),
                stated: SeatStated::default(),
            };
            drawing::seat_section(&seat, house, title)
        },
    },
    Kind {
        word: "disc",
        title: "Valve disc",
        sizes: &[
            size("nose", KEPT, "diameter of the nose, where the cone starts"),
            size("outside", KEPT, "diameter over all"),
            size("half_angle", ANGLE, "half angle of the face, from the axis"),
            size("rim", KEPT, "length of the cylinder behind the cone"),
            size("stem", KEPT, "diameter of the stem"),
            size("stem_length", KEPT, "length of the stem behind the disc"),
            or_not("chamfer", Plain, "chamfer at 45 degrees"),
            or_not(
                "thread",
                Text,
                "the thread at the end of the stem, such as 3/4-10 Unified 2A",
            ),
            or_not("hand", Text, "its hand: right or left"),
            or_not("starts", Text, "its starts"),
            or_not(
                "thread_length",
                KEPT,
                "length of full thread, from the end of the stem",
            ),
            or_not(
                "thread_major",
                LIMITS,
                "limits of its major diameter: .7353 to .7482, .7482 or under",
            ),
            or_not("thread_pitch", LIMITS, "limits of its pitch diameter"),
            or_not("thread_minor", LIMITS, "limits of its minor diameter"),
        ],
        one_of: &[],
        draw: |given, house, title| {
            let thread = given.text("thread").map(|named| StemThread {
                length: given.kept("thread_length"),
                call: call(given, named),
            });
            let disc = TurnedDisc {
                nose: given.kept("nose"),
                outside: given.kept("outside"),
                half_angle: given.angle("half_angle"),
                half_angle_within: given.angle_within("half_angle"),
                rim: given.kept("rim"),
                stem: given.kept("stem"),
                stem_length: given.kept("stem_length"),
                chamfer: given.maybe("chamfer"),
                thread,
            };
            drawing::turned_disc(&disc, house, title)
        },
    },
    Kind {
        word: "nut",
        title: "Nut",
        sizes: &[
            size("thread", Text, "the thread, such as 3/4-12 Unified"),
            or_not("hand", Text, "its hand: right or left"),
            or_not("starts", Text, "its starts"),
            size(
                "thread_major",
                LIMITS,
                "limits of its major diameter: .7560 or over, .7560 to .7800",
            ),
            or_not(
                "thread_pitch",
                LIMITS,
                "limits of its pitch diameter: .6995 to .7035",
            ),
            size(
                "thread_minor",
                LIMITS,
                "limits of its minor diameter, the bore",
            ),
            size("length", KEPT, "length of the nut"),
            or_not(
                "across_flats",
                KEPT,
                "across its flats, where it is a hexagon",
            ),
            or_not(
                "outside",
                KEPT,
                "diameter of its outside, where it is round",
            ),
        ],
        one_of: &["across_flats", "outside"],
        draw: |given, house, title| {
            let flats = given.maybe_kept("across_flats");
            // Where neither is said the outside is drawn as nothing, and refused by its name.
            let body = flats.map_or(NutBody::Round(given.kept("outside")), NutBody::Hexagon);
            let nut = TurnedNut {
                body,
                length: given.kept("length"),
                thread: call(given, given.text("thread").unwrap_or_default()),
            };
            drawing::turned_nut(&nut, house, title)
        },
    },
    Kind {
        word: "bushing",
        title: "Bushing, as turned",
        sizes: &[
            size(
                "outside",
                KEPT,
                "diameter of the outside that goes into the eye",
            ),
            size("bore", KEPT, "diameter of the bore before pressing"),
            or_not(
                "bore_after",
                KEPT,
                "diameter to which the bore is brought after pressing",
            ),
            size("length", KEPT, "length in the eye, without the collar"),
            or_not("collar", KEPT, "diameter of the collar"),
            or_not("collar_thickness", KEPT, "thickness of the collar"),
            or_not(
                "lead_length",
                Plain,
                "length of the lead by which it enters",
            ),
            or_not("lead_angle", PlainAngle, "angle of the lead, from the axis"),
        ],
        one_of: &[],
        draw: |given, house, title| {
            let collar = given.maybe_kept("collar").map(|outside| Collar {
                outside,
                thickness: given.kept("collar_thickness"),
            });
            let lead = given.maybe("lead_length").map(|length| Lead {
                length,
                half_angle: given.angle("lead_angle"),
            });
            let bushing = TurnedBushing {
                outside: given.kept("outside"),
                bore: given.kept("bore"),
                bore_after: given.maybe_kept("bore_after"),
                length: given.kept("length"),
                collar,
                lead,
            };
            drawing::turned_bushing(&bushing, house, title)
        },
    },
    Kind {
        word: "plug-gauge",
        title: "Plug gauge",
        sizes: &[
            size("go", KEPT, "diameter of the end that must enter"),
            size("go_length", KEPT, "length of that end"),
            size("not_go", KEPT, "diameter of the end that must not"),
            size("not_go_length", KEPT, "length of that end"),
            size("handle", KEPT, "diameter of the handle, less than both"),
            size("handle_length", KEPT, "length of the handle"),
        ],
        one_of: &[],
        draw: |given, house, title| {
            let gauge = PlugGauge {
                go: given.kept("go"),
                go_length: given.kept("go_length"),
                not_go: given.kept("not_go"),
                not_go_length: given.kept("not_go_length"),
                handle: given.kept("handle"),
                handle_length: given.kept("handle_length"),
            };
            drawing::plug_gauge(&gauge, house, title)
        },
    },
    Kind {
        word: "mandrel",
        title: "Mandrel",
        sizes: &[
            size("small", KEPT, "diameter at the small end of the body"),
            size("large", KEPT, "diameter at its large end"),
            size("length", KEPT, "length of the body"),
            size("ends", KEPT, "diameter of the reduced ends"),
            size("end_length", KEPT, "length of each of them"),
        ],
        one_of: &[],
        draw: |given, house, title| {
            let mandrel = Mandrel {
                small: given.kept("small"),
                large: given.kept("large"),
                length: given.kept("length"),
                ends: given.kept("ends"),
                end_length: given.kept("end_length"),
            };
            drawing::mandrel(&mandrel, house, title)
        },
    },
    Kind {
        word: "seat-lap",
        title: "Lap for a seat",
        sizes: &[
            size("small", KEPT, "small diameter of the cone"),
            size("large", KEPT, "large diameter of the cone"),
            size("half_angle", ANGLE, "half angle of the cone, from the axis"),
            size("back", KEPT, "length of the cylinder behind the cone"),
            size("pilot", KEPT, "diameter of the pilot"),
            size("pilot_length", KEPT, "length of the pilot before the lap"),
            size("spindle", KEPT, "diameter of the spindle"),
            size("drive_length", KEPT, "length of the spindle behind the lap"),
        ],
        one_of: &[],
        draw: |given, house, title| {
            let lap = SeatLap {
                small: given.kept("small"),
                large: given.kept("large"),
                half_angle: given.angle("half_angle"),
                half_angle_within: given.angle_within("half_angle"),
                back: given.kept("back"),
                pilot: given.kept("pilot"),
                pilot_length: given.kept("pilot_length"),
                spindle: given.kept("spindle"),
                drive_length: given.kept("drive_length"),
            };
            drawing::seat_lap(&lap, house, title)
        },
    },
    Kind {
        word: "disc-lap",
        title: "Lap for a disc",
        sizes: &[
            size("outside", KEPT, "diameter over all"),
            size("length", KEPT, "length over all"),
            size(
                "mouth",
                KEPT,
                "diameter of the mouth, where the cone is widest",
            ),
            size("half_angle", ANGLE, "half angle of the cone, from the axis"),
            size("bore", KEPT, "diameter of the bore behind the cone"),
        ],
        one_of: &[],
        draw: |given, house, title| {
            let lap = DiscLap {
                outside: given.kept("outside"),
                length: given.kept("length"),
                mouth: given.kept("mouth"),
                half_angle: given.angle("half_angle"),
                half_angle_within: given.angle_within("half_angle"),
                bore: given.kept("bore"),
            };
            drawing::lap_for_disc(&lap, house, title)
        },
    },
];

/// A thread with its hand and its starts in words; what nobody stated is said so.
fn call(given: &Given, named: &str) -> ThreadCall {
    let hand = given.text("hand").map_or_else(
        || "HAND NOT STATED".to_owned(),
        |hand| format!("{hand} hand"),
    );
    let starts = match given.text("starts") {
        None => String::new(),
        Some("1") => ", 1 start".to_owned(),
        Some(starts) => format!(", {starts} starts"),
    };
    ThreadCall {
        named: format!("{named}\n{hand}{starts}"),
        major: given.limits("thread_major"),
        pitch: given.limits("thread_pitch"),
        minor: given.limits("thread_minor"),
    }
}
