//! The settings of a lathe for a worked thread.

use measure::{House, Rounding, show};
use shop::lathe::{
    Between, HalfNuts, Infeed, Missing, SetOver, Speed, Swing, Swivel, TurningSpeed, Wheels,
};

use super::lathe::{self as say, sized};

/// What must be stated first, and how.
pub fn missing(number: &str, all: &[Missing]) -> String {
    let what: Vec<_> = all.iter().map(|one| field(*one).0.to_lowercase()).collect();
    let flags: Vec<_> = all
        .iter()
        .map(|one| format!("--{} …", field(*one).1))
        .collect();
    format!(
        "not known: state {} (`outshop lathe tell {number} {}`)",
        what.join(", "),
        flags.join(" ")
    )
}

fn field(one: Missing) -> (&'static str, &'static str) {
    match one {
        Missing::Leadscrew => (say::LEADSCREW, "leadscrew"),
        Missing::Wheels => (say::WHEELS, "wheels"),
        Missing::SpindleRatio => (say::SPINDLE, "spindle-ratio"),
        Missing::ThreadDial => (say::THREAD_DIAL, "thread-dial"),
        Missing::Speeds => (say::SPEEDS, "speeds"),
        Missing::CrossReads => ("What the cross-slide's dial reads", "cross-reads"),
        Missing::CrossGraduation => (say::CROSS, "cross-graduation"),
        Missing::CompoundGraduation => (say::COMPOUND, "compound-graduation"),
        Missing::SwingSlide => (say::SWING_SLIDE, "swing-slide"),
        Missing::SwivelGraduation => (say::SWIVEL, "swivel-graduation"),
        Missing::SwivelZero => ("Where the swivel's scale reads nothing", "swivel-zero"),
        Missing::SetOver => ("How far the tailstock goes over", "set-over"),
        Missing::Centers => (say::CENTERS, "centers"),
    }
}

/// The change wheels.
pub fn wheels(wheels: &Wheels) -> String {
    match wheels {
        Wheels::None(why) => format!("no train of its wheels can be set up: {why}"),
        Wheels::Train {
            best,
            exact,
            stud_known,
            span_known,
        } => {
            let mut told = if *exact {
                best.clone()
            } else {
                format!("NONE EXACT of 2 or 4 wheels; nearest {best}")
            };
            if !stud_known {
                told.push_str("; whether the wheels clear the studs is not known (15 teeth of room tried): state the room at a stud");
            }
            if !span_known {
                told.push_str("; whether the arm reaches is not known: state the span, or try the wheels first");
            }
            told
        }
    }
}

/// The half nuts.
pub fn half_nuts(nuts: &HalfNuts) -> String {
    match nuts {
        HalfNuts::NoDial => format!("no thread dial: they {SHUT}"),
        HalfNuts::NotExact => {
            format!("they {SHUT}: the train is not exact, so no line comes round right")
        }
        HalfNuts::CannotTell(why) => format!("cannot tell, so they {SHUT}: {why}"),
        HalfNuts::Dial {
            engage,
            usable,
            train_known,
        } => {
            let mut told = engage.clone();
            if *usable == 0 {
                told.push_str("; run the lathe back");
            }
            if !train_known {
                told.push_str("; only with wheels that cut this pitch exactly, which is not known");
            }
            told
        }
    }
}

const SHUT: &str = "stay shut until the thread is done, and the lathe is run back";

/// Full depth and each pass in graduations.
pub fn infeed(infeed: &Infeed, house: House) -> String {
    let shown = |count: f64| show::number(count, 1, Rounding::Nearest);
    let passes: Vec<String> = infeed.passes.iter().map(|count| shown(*count)).collect();
    format!(
        "{} graduations of {} from the touch to full depth; passes at {}",
        shown(infeed.full()),
        sized(infeed.graduation, house),
        passes.join(", ")
    )
}

/// By the cross-slide, with what its dial reads.
pub fn by_cross(told: &str, reads: &str) -> String {
    format!("fed straight in, dial reads {reads}: {told}")
}

/// The spindle.
pub fn speed(speed: Speed) -> String {
    let told = match speed.set {
        Some(set) => format!(
            "{set} turns a minute, at or below the {} of the sheet",
            speed.most
        ),
        None => format!(
            "NONE SLOW ENOUGH: its slowest is {}, the sheet has {}; turn the spindle by hand",
            speed.slowest, speed.most
        ),
    };
    match speed.by_runout {
        true => told,
        false => format!(
            "{told}; run-out and reaction time were not told, so whether you can stop in time is not known"
        ),
    }
}

/// Over the cross-slide.
pub fn swing(swing: Swing, number: &str, house: House) -> String {
    match swing {
        Swing::Clears(work, swing) => format!(
            "the thread's {} swings over the cross-slide ({}); what is larger on the piece was not told",
            sized(work, house),
            sized(swing, house)
        ),
        Swing::Fouls(work, swing) => format!(
            "DOES NOT SWING over the cross-slide: {} of work, {} of swing",
            sized(work, house),
            sized(swing, house)
        ),
        Swing::Outside => {
            "cannot tell: of an inside thread the outside of the piece is not told".into()
        }
        Swing::NotKnown => missing(number, &[Missing::SwingSlide]),
    }
}

/// Over the cross-slide, of a piece whose largest diameter is the sheet's.
pub fn swings(swing: Swing, number: &str, house: House) -> String {
    match swing {
        Swing::Clears(work, over) => format!(
            "{} swings over the cross-slide ({}); what is larger on the piece was not told",
            sized(work, house),
            sized(over, house)
        ),
        other => self::swing(other, number, house),
    }
}

/// The spindle for turning.
pub fn turning_speed(speed: TurningSpeed) -> String {
    match (speed.set, speed.later) {
        (Some(set), None) => format!(
            "{set} turns a minute, at or below the {} the sheet begins with",
            speed.begin
        ),
        (Some(set), Some(later)) => format!(
            "{set} turns a minute to begin with ({} by the sheet); {later} once tool and chip bear it (the sheet has {} at most)",
            speed.begin, speed.most
        ),
        (None, Some(later)) => format!(
            "none as slow as the {} the sheet begins with; {later} is within its {} at most: a light first cut",
            speed.begin, speed.most
        ),
        (None, None) => format!(
            "NONE SLOW ENOUGH: its slowest is {}, the sheet has {} at most",
            speed.slowest, speed.most
        ),
    }
}

/// One cut by the cross-slide.
pub fn cut(infeed: &Infeed, reads: &str, house: House) -> String {
    format!(
        "dial reads {reads}: {} graduations of {} from the touch",
        show::number(infeed.full(), 1, Rounding::Nearest),
        sized(infeed.graduation, house)
    )
}

/// The compound's swivel.
pub fn swivel(swivel: Swivel, house: House) -> String {
    let degrees = |of: f64| show::number(of, 2, Rounding::Nearest);
    let off = show::length(swivel.off, house, 4, Rounding::Nearest);
    format!(
        "{} degrees by its scale, which reads nothing {}; on its nearest line, {}, the diameter is off by {off} over the taper: prove it with blue before the last cuts",
        degrees(swivel.wanted),
        say::zero(swivel.zero),
        degrees(swivel.line)
    )
}

/// The tailstock set over.
pub fn set_over(over: SetOver, house: House) -> String {
    let wanted = show::length(over.wanted, house, 4, Rounding::Nearest);
    let most = sized(over.most, house);
    match over.reaches() {
        true => format!(
            "{wanted} over, of the {most} it goes; by an indicator on its barrel, and back to line afterward"
        ),
        false => format!("DOES NOT GO SO FAR: {wanted} wanted, it goes {most} each way"),
    }
}

/// The work between the centers.
pub fn between(between: Between, house: House) -> String {
    let work = show::length(between.work, house, 3, Rounding::Nearest);
    let most = sized(between.most, house);
    match between.goes_in() {
        true => format!("{work} of work, {most} between them"),
        false => format!("DOES NOT GO IN: {work} of work, {most} between them"),
    }
}

/// A sheet that is turned into no settings.
pub fn sets_nothing(sheet: &str) -> String {
    format!(
        "The sheet {sheet} is turned into no settings of a lathe: {} are, and {} take what it has. Leave the lathe out.",
        shop::lathe::SET.join(", "),
        shop::lathe::FILLED.join(", ")
    )
}

/// A lathe's own facts, gone into a sheet.
pub fn as_stated(number: &str) -> String {
    format!("{number}, as stated")
}

/// Over them.
pub fn title(number: &str, name: &str) -> String {
    format!("Settings for {number}, {name}")
}

/// A setting.
pub const CHANGE_WHEELS: &str = "Change wheels";
/// A setting.
pub const HALF_NUTS: &str = "Half nuts";
/// A setting.
pub const BY_COMPOUND: &str = "Infeed by the compound";
/// A setting.
pub const BY_CROSS_SLIDE: &str = "Infeed by the cross-slide";
/// A setting.
pub const SPINDLE_SPEED: &str = "Spindle speed";
/// A setting.
pub const CUT: &str = "One cut by the cross-slide";
/// A setting.
pub const SWIVEL: &str = "Compound's swivel";
/// A setting.
pub const SET_OVER: &str = "Tailstock";
/// A setting.
pub const BETWEEN: &str = "Between centers";
/// The tailstock cannot be told.
pub const NO_LENGTH: &str =
    "not known: tell the sheet the length of the whole work between centers";
/// A setting.
pub const SWING: &str = "Swing";
/// A field on the page of a sheet that asks what a lathe has.
pub const OF_LATHE: &str = "What is left empty, as stated of the lathe";
/// A field on the page of the sheet.
pub const FOR_LATHE: &str = "Settings for the lathe";
