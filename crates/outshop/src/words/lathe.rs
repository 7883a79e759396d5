//! Lathes.

use measure::{House, Size, show};
use shop::book::{Lathe, SwivelZero, ThreadDial};

/// What is known of it, a line each; what nobody said stands as that.
pub fn known(kept: &Lathe, house: House) -> Vec<(&'static str, Option<String>)> {
    let known = &kept.known;
    let size = |size: Option<Size>| size.map(|size| sized(size, house));
    vec![
        (LEADSCREW, known.leadscrew.clone()),
        (WHEELS, known.wheels.as_deref().map(numbers)),
        (STUD, known.stud.map(teeth)),
        (SPAN, known.span.map(teeth)),
        (SPINDLE, known.spindle_ratio.clone()),
        (THREAD_DIAL, known.thread_dial.map(dial)),
        (SPEEDS, known.speeds.as_deref().map(numbers)),
        (CROSS_READS, known.cross_reads.map(|it| it.word().into())),
        (CROSS, size(known.cross_graduation)),
        (COMPOUND, size(known.compound_graduation)),
        (SWING_BED, size(known.swing_bed)),
        (SWING_SLIDE, size(known.swing_slide)),
        (CENTERS, size(known.centers)),
        (SWIVEL, kept.taper.swivel_graduation.clone()),
        (ZERO, kept.taper.swivel_zero.map(|it| zero(it).into())),
        (SET_OVER, size(kept.taper.set_over)),
    ]
}

/// A size as a shop says it.
pub fn sized(size: Size, house: House) -> String {
    match (house, show::fraction_in(size)) {
        (House::Inch, Some(fraction)) => format!("{fraction} in"),
        _ => show::size(size, house),
    }
}

fn numbers(all: &[u32]) -> String {
    let all: Vec<String> = all.iter().map(u32::to_string).collect();
    all.join(", ")
}

fn teeth(count: u32) -> String {
    super::count(count as usize, "tooth", "teeth")
}

/// A thread dial.
pub fn dial(dial: ThreadDial) -> String {
    match dial {
        ThreadDial::None => "none".into(),
        ThreadDial::Wheel { teeth, lines } => {
            format!(
                "worm wheel of {teeth} teeth, {}",
                super::count(lines as usize, "line", "lines")
            )
        }
    }
}

/// A list that is none.
pub fn no_list(text: &str) -> String {
    format!("`{text}` is no list of whole numbers: such as 20, 24, 24, 30 was expected.")
}

/// Not a whole number.
pub fn no_number(text: &str) -> String {
    format!("`{text}` is not a number of teeth: a whole number was expected, such as 15.")
}

/// A thread dial that is none.
pub fn no_dial(text: &str) -> String {
    format!(
        "`{text}` is no thread dial: none, or the teeth of its worm wheel and the lines on its face, such as 16, 8, was expected."
    )
}

/// What a dial does not read.
pub fn no_reads(text: &str) -> String {
    format!("`{text}` is not what a cross-slide's dial reads: radius or diameter was expected.")
}

/// From where a swivel's scale counts.
pub fn zero(zero: SwivelZero) -> &'static str {
    match zero {
        SwivelZero::Bed => ZERO_BED,
        SwivelZero::Cross => ZERO_CROSS,
    }
}

/// Nowhere that a scale counts from.
pub fn no_zero(text: &str) -> String {
    format!("`{text}` is not where a swivel's scale reads nothing: bed or cross was expected.")
}

/// A field.
pub const SWIVEL: &str = "One graduation of the compound's swivel";
/// What it tells.
pub const SWIVEL_TELLS: &str = "with its unit: 1 deg, 0d30m";
/// A choice.
pub const ZERO: &str = "The swivel reads nothing";
/// A choice.
pub const ZERO_BED: &str = "with the slide along the bed";
/// A choice.
pub const ZERO_CROSS: &str = "with the slide along the cross-slide";
/// A field.
pub const SET_OVER: &str = "The tailstock goes over, each way";
/// What it tells.
pub const SET_OVER_TELLS: &str = "with its unit: 3/4 in";

/// Not a size.
pub fn no_size(text: &str, why: &str) -> String {
    format!("`{text}` is not a size with its unit: {why}")
}

/// How much of it was stated.
pub fn stated(known: usize, all: usize) -> String {
    match all - known {
        0 => "all of it stated".into(),
        left => format!("{left} of {all} not known"),
    }
}

/// What nobody said.
pub const NOT_KNOWN: &str = "not known";
/// None.
pub const NONE: &str = "No lathe is in this book yet.";
/// The page.
pub const TITLE: &str = "Lathes";
/// Under its title.
pub const LEAD: &str = "What each lathe is and has, as somebody stated it. What nobody stated is not known, and nothing is put in its place.";
/// A column.
pub const NUMBER: &str = "Number";
/// A column.
pub const LATHE: &str = "Lathe";
/// A column.
pub const STATED: &str = "Stated";
/// A section.
pub const KNOWN: &str = "What is known of it";
/// A form.
pub const ADD: &str = "Put a lathe in the book";
/// Its button.
pub const ADD_IT: &str = "Put it in";
/// A form.
pub const TELL: &str = "Say more of it";
/// What it tells.
pub const TELL_TELLS: &str = "What is left empty stays as it was.";
/// Its button.
pub const KEEP: &str = "Keep it";
/// A field.
pub const NAME: &str = "What the shop calls it";
/// What it tells.
pub const NAME_TELLS: &str = "such as the sixteen-inch by the window";
/// A field.
pub const LEADSCREW: &str = "Pitch of the leadscrew";
/// What it tells.
pub const LEADSCREW_TELLS: &str = "with its unit: 4 TPI, 6 mm";
/// A field.
pub const WHEELS: &str = "Teeth of the change wheels";
/// What it tells.
pub const WHEELS_TELLS: &str = "each wheel it has, two alike written twice: 24, 24, 30, 127";
/// A field.
pub const STUD: &str = "Room at a stud";
/// What it tells.
pub const STUD_TELLS: &str = "teeth that must be left between a wheel's rim and the stud beside it";
/// A field.
pub const SPAN: &str = "Span to the leadscrew";
/// What it tells.
pub const SPAN_TELLS: &str = "in teeth: twice the distance from the first driver's shaft, times the diametral pitch, or over the module";
/// A field.
pub const SPINDLE: &str = "Turns of the first driver to one of the spindle";
/// What it tells.
pub const SPINDLE_TELLS: &str = "mark both and turn by hand: 1, 1/2";
/// A field.
pub const THREAD_DIAL: &str = "Thread dial";
/// What it tells.
pub const THREAD_DIAL_TELLS: &str = "teeth of its worm wheel and lines on its face: 16, 8; or none";
/// A field.
pub const SPEEDS: &str = "Spindle speeds";
/// What it tells.
pub const SPEEDS_TELLS: &str = "turns a minute, back gear and direct: 30, 55, 90";
/// A choice.
pub const CROSS_READS: &str = "The cross-slide's dial reads";
/// A field.
pub const CROSS: &str = "One graduation of the cross-slide's dial";
/// What it tells.
pub const CROSS_TELLS: &str = "of what it reads: .001 in";
/// A field.
pub const COMPOUND: &str = "One graduation of the compound's dial";
/// What it tells.
pub const COMPOUND_TELLS: &str = "of the way the slide goes: .001 in";
/// A field.
pub const SWING_BED: &str = "Swing over the bed";
/// A field.
pub const SWING_SLIDE: &str = "Swing over the cross-slide";
/// A field.
pub const CENTERS: &str = "Length between centers";
/// What they tell.
pub const SIZE_TELLS: &str = "with its unit: 16 in";
/// A choice.
pub const READS_RADIUS: &str = "radius";
/// A choice.
pub const READS_DIAMETER: &str = "diameter";
