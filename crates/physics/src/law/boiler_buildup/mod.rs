//! `boiler.buildup`: whether wastage of an unstayed plate may be built up by weld, and whether leave is asked first.
//!
//! The rule's own numbers are arguments. The text leaves open whether its depth is that of the wastage or of the weld,
//! so the deeper of the two is taken.

use crate::answer::{Answer, Outcome, cannot_tell, less};
use crate::boiler;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const LAW: &str = "the rule's numbers (49 CFR 230.33(c))";
const DEEPER: &str =
    "the deeper of the wastage and of the weld that brings the plate back to what is required";

static CARD: Card = Card {
    id: "boiler.buildup",
    version: 1,
    title: "Building up wastage by weld",
    purpose: "For wastage on an unstayed surface: whether the plate left is enough to be built up at all, and whether area or \
        depth ask for leave first.",
    formula: "
        d = max(e, t_r - t)
        d_m = min(x * t_r, d_x)
        t_m = y * t_r
        k = t / t_r
        A_l = A_m - A",
    book_units: None,
    arguments: &[
        Argument::quantity("area", "A", Dimension::Area, "0.01 sq in", "2000 sq in", "area to be built up, all patches of the plate together and those built up before"),
        Argument::quantity("depth", "e", Dimension::Length, "0.001 in", "2 in", "greatest depth of the wastage"),
        Argument::quantity("required", "t_r", Dimension::Length, "0.05 in", "2 in", "least thickness that the allowed pressure requires here"),
        Argument::quantity("present", "t", Dimension::Length, "0.01 in", "2 in", "thinnest plate left under the wastage"),
        Argument::quantity("area_limit", "A_m", Dimension::Area, "1 sq in", "1000 sq in", "total area over which the rule asks for leave (49 CFR 230.33(c) gives it)").optional(),
        Argument::quantity("depth_share", "x", Dimension::Ratio, "0.01", "1", "share of the required thickness over which it does (49 CFR 230.33(c))").optional(),
        Argument::quantity("depth_limit", "d_x", Dimension::Length, "0.01 in", "2 in", "depth over which it does, whichever is the smaller (49 CFR 230.33(c))").optional(),
        Argument::quantity("least_share", "y", Dimension::Ratio, "0.1", "1", "share of the required thickness below which no weld may build it up (49 CFR 230.33(c))").optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity("deepest", "d", Dimension::Length, (4, 3), "depth that is compared", DEEPER).rounded(Rounding::Up),
        ResultSpec::quantity("depth_most", "d_m", Dimension::Length, (4, 3), "depth over which leave is asked", LAW).rounded(Rounding::Down),
        ResultSpec::quantity("least_present", "t_m", Dimension::Length, (4, 3), "thinnest plate that may be built up", LAW).rounded(Rounding::Up),
        ResultSpec::quantity("share_left", "k", Dimension::Ratio, (3, 3), "what is left of the required thickness", LAW).rounded(Rounding::Down),
        ResultSpec::quantity("spare_area", "A_l", Dimension::Area, (1, 0), "area still within the rule's own limit", LAW).rounded(Rounding::Down),
        ResultSpec::text("allowed", "whether it may be built up at all", LAW),
        ResultSpec::text("approval", "whether leave is asked first", LAW),
    ],
    branches: &["unstayed"],
    validity: "Unstayed surfaces of carbon steel. Alloy steel, more carbon than the rule names, cracks, flush patches and \
        stayed surfaces have rules of their own. The sheet does not ask whether the plate can be welded.",
    sources: &[Source {
        work: "U.S. Code of Federal Regulations, title 49, section 230.33",
        locator: "2015 edition, paragraph (c)",
        used_for: "which numbers bind; they are arguments. Whether its depth is of wastage or weld the text does not say",
    }],
    cautions: &[
        "Welding on a boiler is done by qualified welders to a qualified procedure and a national standard, on plate whose carbon is known.",
        "Leave is asked in writing and had before the arc is struck; this sheet gives none.",
        boiler::REVIEW,
        boiler::FORM_4,
        boiler::QUALIFIED,
        "Find why it wasted first: weld laid over a cause wastes again, under a surface that looks new.",
        "Measure by ultrasound around and under the pit: the thinnest place is seldom the deepest that can be seen.",
    ],
    closed_form: ClosedForm::Yes,
};

/// What is known of one question of the rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told {
    /// Within the rule's number; at the value itself, too.
    Within,
    /// Beyond it.
    Beyond,
    /// The rule's number was not given.
    Unknown,
}

/// Whether `value` is beyond what is allowed `at_most`; in one unit.
pub fn at_most(value: f64, at_most: Option<f64>) -> Told {
    // The dust of converting units must not condemn what stands exactly at its limit.
    match at_most {
        None => Told::Unknown,
        Some(limit) if value <= limit * (1.0 + 1e-12) => Told::Within,
        Some(_) => Told::Beyond,
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (area, depth) = (inputs.need_si("area")?, inputs.need_si("depth")?);
    let (required, present) = (inputs.need_si("required")?, inputs.need_si("present")?);
    let deepest = depth.max(less(required, present, Dimension::Length));
    let area_limit = inputs.si("area_limit");
    let (share, limit) = (inputs.si("depth_share"), inputs.si("depth_limit"));
    let depth_most = share
        .zip(limit)
        .map(|(share, limit)| (share * required).min(limit));
    let least = inputs.si("least_share").map(|share| share * required);
    let mut answer = Answer::new("unstayed")
        .with("deepest", Outcome::Si(deepest))
        .with("share_left", Outcome::Si(present / required));
    if let Some(most) = depth_most {
        answer = answer.with("depth_most", Outcome::Si(most));
    }
    if let Some(least) = least {
        answer = answer.with("least_present", Outcome::Si(least));
    }
    if let Some(limit) = area_limit {
        answer = answer.with(
            "spare_area",
            Outcome::Si(less(limit, area, Dimension::Area)),
        );
    }
    if deepest > depth {
        answer.notices.push("The weld that brings the plate back to what is required is deeper than the wastage said: that depth is compared.".into());
    }
    let allowed = match least.map(|least| at_most(least, Some(present))) {
        None => cannot_tell(&["least_share"]),
        Some(Told::Within) => "complies".to_owned(),
        Some(_) => "fails: too little plate is left to be built up".to_owned(),
    };
    // Either limit of depth alone is enough to ask for leave; both are wanted to say that none is asked.
    let by_depth =
        [share.map(|share| share * required), limit].map(|limit| at_most(deepest, limit));
    let by_area = at_most(area, area_limit);
    let said = approval(by_area, by_depth, inputs);
    Ok(answer.with("allowed", allowed).with("approval", said))
}

fn approval(by_area: Told, by_depth: [Told; 2], inputs: &Inputs) -> String {
    let mut why = Vec::new();
    if by_area == Told::Beyond {
        why.push("the area");
    }
    if by_depth.contains(&Told::Beyond) {
        why.push("the depth");
    }
    if !why.is_empty() {
        return format!(
            "fails without leave: {} asks for it first",
            why.join(" and ")
        );
    }
    let needs = inputs.wanting(&["area_limit", "depth_share", "depth_limit"]);
    if needs.is_empty() {
        "complies: neither area nor depth asks for leave".to_owned()
    } else {
        cannot_tell(&needs)
    }
}
