//! `thread.cutting`: a thread by a single point on a hand lathe: depth, travel of the compound, passes,
//! the tool's end and flank clearances, the relief groove, and how fast a person can let it run.
//!
//! # Passes
//!
//! Of chips of equal area the k-th of N passes stands at the square root of k/N of the depth. The form
//! used here makes the first lighter, as two makers print it: pass k stands at
//! `sqrt(phi / (N - 1))` of the depth, phi being 0.3, 1, 2, 3 ... Two passes without infeed follow,
//! for the spring of work and tool.
//!
//! # Clearances
//!
//! A tool's side must clear the helix where that is steepest, which is at the smaller diameter: the
//! root of a screw, the bore of a nut. The trailing side may be lower by the helix at the larger
//! diameter. On coarse internal threads the leading side is the one forgotten.
//!
//! # Speed
//!
//! Between the end of the thread and a shoulder there is so much run-out; one turn takes the tool on
//! by one lead; a person needs so long to withdraw it and open the nut. That bounds the speed more
//! often than the metal does.

mod card;
mod passes;

pub use card::ENTRY;
pub use passes::{count, schedule};

use crate::answer::{Answer, Assumption, Outcome, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::lathe_turning::turns;
use crate::law::thread_acme::clearance;
use crate::thread::limits::rounded;
use crate::thread::{has_core, lead_angle, starts};
use measure::{Angle, Length, Rounding, math, show};

/// The proportions of one form for a tool, in pitches.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Form {
    depth: f64,
    flat: f64,
    radius: f64,
    flank: f64,
    /// Whether the form has Acme's clearance at its root.
    clear: bool,
}

fn form(word: &str, internal: bool) -> Option<Form> {
    let (depth, flat, radius, flank, clear) = match word {
        "unified" if internal => (0.541_266, 0.125, 0.0, 30.0, false),
        "unified" => (0.649_519, 0.125, 0.0, 30.0, false),
        "sharp-v" => (0.866_025, 0.0, 0.0, 30.0, false),
        "whitworth" => (0.640_327, 0.0, 0.137_329, 27.5, false),
        "acme" => (0.5, 0.3707, 0.0, 14.5, true),
        "stub-acme" => (0.3, 0.4224, 0.0, 14.5, true),
        "square" => (0.5, 0.5, 0.0, 0.0, false),
        _ => return None,
    };
    Some(Form {
        depth,
        flat,
        radius,
        flank,
        clear,
    })
}

/// Surface speed for threading with a tool of high-speed steel, feet a minute: a third of the lower
/// turning speed. Source: T.O. tables of turning speeds as listed (docslib 5103932); the third is
/// common practice.
fn speed(material: &str) -> Option<f64> {
    Some(match material {
        "steel" => 33.0,
        "cast-steel" => 23.0,
        "stainless" => 20.0,
        "cast-iron" => 33.0,
        "bronze" | "brass" => 83.0,
        _ => return None,
    })
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let internal = inputs.word("side") == Some("internal");
    let form = inputs.need_word("form", |word| form(word, internal))?;
    let material = inputs.word("material").unwrap_or_default();
    let surface = inputs.need_word("material", speed)?;
    let pitch = 1.0 / tpi;
    has_core(card::ID, diameter, Length::inches(pitch))?;
    let mut assumptions = Vec::new();
    let starts = starts(inputs, &mut assumptions);
    let infeed = inputs.si("infeed_angle").unwrap_or_else(|| {
        let under = (form.flank - 0.5_f64).max(0.0).to_radians();
        assumptions.push(Assumption {
            argument: "infeed_angle",
            text: "half a degree under the flank",
            si: under,
            why: "the compound stands a little under the flank so that the trailing flank is shaved; a \
                  square thread is plunged straight in",
        });
        under
    });
    let clear = if form.clear {
        clearance(tpi).to_inches()
    } else {
        0.0
    };
    let depth = form.depth * pitch + clear / 2.0;
    let large = diameter.to_inches() + if internal { clear } else { 0.0 };
    let small = large - 2.0 * depth;
    if small < 0.2 * large {
        return Err(SheetError::impossible(
            card::ID,
            format!("a thread {depth:.4} in deep on {large:.4} in"),
            "a depth that leaves a core",
        ));
    }
    let helix = |at: f64| lead_angle(starts * pitch, at).to_degrees();
    let side = card::SIDE_CLEARANCE;
    let passes = count(tpi, inputs.word("form").unwrap_or_default(), material);
    let inches = Length::inches;
    // As the tables of flats are made: the difference of two figures of four places.
    let flat = rounded(form.flat * pitch, 4) - rounded(0.259 * clear, 4);
    let mut answer = Answer::new(if internal { "internal" } else { "external" })
        .with("depth", inches(depth))
        .with("infeed_travel", inches(depth / math::cos(infeed)))
        .with("passes", Outcome::Si(f64::from(passes)))
        .with("tool_flat", inches(flat))
        .with("tip_radius", inches(form.radius * pitch))
        .with(
            "diameter_before",
            inches(if internal { small } else { large }),
        )
        .with("lead_angle_minor", Angle::degrees(helix(small)))
        .with("leading_clearance", Angle::degrees(helix(small) + side))
        .with("trailing_clearance", Angle::degrees(side - helix(large)))
        .with("relief_width", inches(2.0 * pitch))
        .with("relief_depth", inches(depth + 0.005))
        .with("rpm_by_speed", Outcome::Si(turns(surface, large)))
        .with("relief", relief(internal, pitch, small, large));
    if let (Some(runout), Some(time)) = (inputs.length("runout"), inputs.si("reaction_time")) {
        let limit = 60.0 * runout.to_inches() / (starts * pitch * time);
        answer = answer.with("rpm_limit", Outcome::Si(limit));
    }
    answer
        .results
        .push(("pass_table", pass_table(depth, infeed, passes)));
    let value = |symbol, value, row: &str| TableValue::inch_book(symbol, value, row);
    let by_form = "by the form and side";
    answer.table_values = vec![
        value(card::DEPTH, form.depth, by_form),
        value(card::FLAT, form.flat, by_form),
        value(card::RADIUS, form.radius, by_form),
        value(
            card::CLEAR,
            clear,
            "clearance of the form on the diameter, by pitch",
        ),
        value(
            card::LARGE,
            large,
            "nominal diameter, for an Acme nut with its clearance",
        ),
        value(
            card::SPEED,
            surface,
            "ft/min by the metal, a third of turning, common practice",
        ),
    ];
    answer.assumptions = assumptions;
    answer.notices = notices(inputs, internal, side - helix(large));
    Ok(answer)
}

fn notices(inputs: &Inputs, internal: bool, trailing: f64) -> Vec<String> {
    let mut notices = Vec::new();
    if internal {
        notices.push(
            "Internal: the helix is steepest at the bore. Feeding by the compound moves the tip along \
             the axis: to a shoulder, mark its end position or feed straight."
                .to_owned(),
        );
        notices.push(
            "Keep a steel bar's overhang under four of its diameters, and bore true before threading."
                .to_owned(),
        );
    }
    if trailing < 0.0 {
        notices.push(
            "The trailing side needs less than no clearance: it leans under the tool with the helix. \
             Grind it so, or tilt the tool."
                .to_owned(),
        );
    }
    if inputs.length("runout").is_none() || inputs.si("reaction_time").is_none() {
        notices.push(
            "Run-out and reaction time not told: no limit of speed is given. Try the stop with the tool \
             clear of the work."
                .to_owned(),
        );
    }
    if matches!(inputs.word("material"), Some("brass" | "bronze")) {
        notices.push("Brass and bronze grab: no top rake on the tool.".to_owned());
    }
    notices.push(
        "The passes are for a hand lathe and high-speed steel: take what the set-up bears, and measure \
         over wires or with the mate before the last ones."
            .to_owned(),
    );
    notices
}

fn relief(internal: bool, pitch: f64, small: f64, large: f64) -> String {
    let shown = |inches: f64| show::number(inches, 3, Rounding::Nearest);
    let (narrow, wide) = (shown(1.5 * pitch), shown(2.0 * pitch));
    if internal {
        format!(
            "groove {narrow} to {wide} in wide, bored to {} in",
            show::number(large + 0.010, 3, Rounding::Up)
        )
    } else {
        format!(
            "groove {narrow} to {wide} in wide, turned to {} in",
            show::number(small - 0.010, 3, Rounding::Down)
        )
    }
}

fn pass_table(depth: f64, infeed: f64, passes: u32) -> Outcome {
    let columns = ["pass", "cut, in", "depth, in", "compound, in"];
    let shown = |inches: f64| show::number(inches, 4, Rounding::Nearest);
    let mut before = 0.0;
    let mut rows = Vec::new();
    for (at, depth) in schedule(depth, passes).into_iter().enumerate() {
        rows.push(vec![
            (at + 1).to_string(),
            shown(depth - before),
            shown(depth),
            shown(depth / math::cos(infeed)),
        ]);
        before = depth;
    }
    for which in ["spring", "spring"] {
        let travel = shown(depth / math::cos(infeed));
        rows.push(vec![which.to_owned(), shown(0.0), shown(depth), travel]);
    }
    Outcome::Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows,
    }
}
