//! A valve disc with its stem, turned from the solid.

use super::need;
use super::thread::{ThreadCall, roots};
use super::turned::{Turned, along, axis, diameter};
use crate::error::DrawingError;
use crate::geometry::{Path, Point};
use crate::hatch::Lean;
use crate::label::{Kept, Label, Tolerance};
use crate::layer::Layer;
use crate::sheet::Drawing;
use crate::title::Title;
use crate::view::{Dimension, Side, View};
use measure::{Angle, House, Length, math};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

/// A disc with a conical face and a stem behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct TurnedDisc {
    /// Diameter of the nose, where the cone starts.
    pub nose: Kept,
    /// Diameter over all, where the cone ends.
    pub outside: Kept,
    /// Half angle of the face, from the axis.
    pub half_angle: Angle,
    /// How far the half angle may be off either way, where somebody has said so.
    pub half_angle_within: Option<Angle>,
    /// Length of the cylinder behind the cone.
    pub rim: Kept,
    /// Diameter of the stem.
    pub stem: Kept,
    /// Length of the stem behind the disc.
    pub stem_length: Kept,
    /// Chamfer at 45 degrees on the back of the rim and the end of the stem, if there is to be one.
    pub chamfer: Option<Length>,
    /// The thread at the end of the stem, if it has one.
    pub thread: Option<StemThread>,
}

/// A thread at the end of a stem.
#[derive(Clone, Debug, PartialEq)]
pub struct StemThread {
    /// Length of full thread, from the end of the stem.
    pub length: Kept,
    /// What it is, and its limits.
    pub call: ThreadCall,
}

/// The disc, its upper half in section.
///
/// # Errors
/// [`DrawingError::Size`] when a size is not above nothing, the nose or the stem is no smaller than the outside, or a
/// chamfer is larger than what it is cut from.
pub fn turned_disc(disc: &TurnedDisc, house: House, title: Title) -> Result<Drawing, DrawingError> {
    let nose = need::kept("the nose", disc.nose, house)? / 2.0;
    let stem = need::kept("the stem", disc.stem, house)? / 2.0;
    need::kept("the outside of the disc", disc.outside, house)?;
    let outside = need::more(
        "the outside of the disc",
        disc.outside.size,
        disc.nose.size,
        "more than the nose",
        house,
    )? / 2.0;
    need::more(
        "the outside of the disc",
        disc.outside.size,
        disc.stem.size,
        "more than the stem",
        house,
    )?;
    let half_angle = need::half_angle("the half angle of the face", disc.half_angle)?;
    let rim = need::kept("the rim", disc.rim, house)?;
    let stem_length = need::kept("the length of the stem", disc.stem_length, house)?;
    let chamfer = disc
        .chamfer
        .map(|chamfer| need::size("the chamfer", chamfer, house))
        .transpose()?;
    if let Some(given) = disc.chamfer {
        let least = rim.min(stem_length).min(stem).min(outside - stem);
        need::more(
            "what is left to chamfer",
            Length::inches(least),
            given,
            "more than the chamfer",
            house,
        )?;
    }

    let cone = (outside - nose) / math::tan(half_angle);
    let back = cone + rim;
    let end = back + stem_length;
    let corner = |x: f64, radius: f64| match chamfer {
        Some(c) => vec![Point::new(x - c, radius), Point::new(x, radius - c)],
        None => vec![Point::new(x, radius)],
    };
    let mut profile = vec![Point::new(0.0, nose), Point::new(cone, outside)];
    profile.extend(corner(back, outside));
    profile.push(Point::new(back, stem));
    profile.extend(corner(end, stem));

    let mut view = View::new("Disc, upper half in section");
    Turned {
        outside: profile,
        bore: Vec::new(),
        lean: Lean::Right,
        covered: None,
        filled: false,
    }
    .draw(&mut view);
    let mut key = vec![(Layer::Outline, "edge"), (Layer::Center, "axis")];
    if let Some(thread) = &disc.thread {
        threaded(&mut view, thread, end, [stem, stem_length], house)?;
        key.push((Layer::Thread, "root of the thread"));
    }
    axis(&mut view, 0.0, end);
    let (front, shoulder) = (Point::new(0.0, nose), Point::new(cone, outside));
    diameter(
        &mut view,
        front,
        Side::Left,
        "nose",
        disc.nose.within,
        house,
    );
    diameter(
        &mut view,
        shoulder,
        Side::Left,
        "disc",
        disc.outside.within,
        house,
    );
    let tail = Point::new(end - chamfer.unwrap_or(0.0), stem);
    diameter(
        &mut view,
        tail,
        Side::Right,
        "stem\ndatum A",
        disc.stem.within,
        house,
    );
    let inset = chamfer.unwrap_or(0.0);
    let (rim_back, stem_end) = (
        Point::new(back, outside - inset),
        Point::new(end, stem - inset),
    );
    // The cone and the length over all follow from the other sizes.
    let follows = Some(Tolerance::Reference);
    for (from, to, word, within) in [
        (front, shoulder, "cone ", follows),
        (shoulder, rim_back, "rim ", disc.rim.within),
        (rim_back, stem_end, "stem ", disc.stem_length.within),
        (front, stem_end, "over all ", follows),
    ] {
        along(&mut view, from, to, Side::Below, word, within, house);
    }
    let angle = Label::angle_within(Angle::radians(half_angle), disc.half_angle_within);
    view.dimensions
        .push(face(front, shoulder, half_angle, angle));
    if let Some(given) = disc.chamfer {
        let label = Label::length(given, house)
            .over("× 45°")
            .over("rim and stem");
        view.leader(
            Point::new(back - inset / 2.0, outside - inset / 2.0),
            FRAC_PI_4,
            label,
        );
    }
    Ok(Drawing {
        house,
        title,
        views: vec![view],
        key,
        notes: vec![
            "Before it leaves the chuck: face to stem by an indicator; the angle by its own master and thin blue; the \
             thread by its nut."
                .to_owned(),
            "The half angle of the face is from the axis.".to_owned(),
            "Turn face and stem at one setting, so that the face is square to the stem.".to_owned(),
            "The disc is never the lap for its own seat: each face goes to its own master first."
                .to_owned(),
        ],
    })
}

/// The thread at the end of the stem, with its call-out. The stem is drawn at its own size; the thread's crest may lie
/// under it.
fn threaded(
    view: &mut View,
    thread: &StemThread,
    end: f64,
    [stem, stem_length]: [f64; 2],
    house: House,
) -> Result<(), DrawingError> {
    let (minor, major) = thread.call.radii(false, house)?;
    need::more(
        "the stem",
        Length::inches(2.0 * stem),
        Length::inches(2.0 * major - 1e-6),
        "no less than its thread",
        house,
    )?;
    let long = need::kept("the length of the thread", thread.length, house)?;
    let room = Length::inches(stem_length);
    need::more(
        "the length of the stem",
        room,
        thread.length.size,
        "more than its thread is long",
        house,
    )?;
    let from = end - long;
    roots(view, from, end, minor, &[1.0, -1.0]);
    // Where the full thread ends is a thin line across it.
    view.line(
        Layer::Thread,
        Path::line(Point::new(from, -stem), Point::new(from, stem)),
    );
    let length = Label::kept(thread.length.size, thread.length.within, "", house);
    let call = thread.call.label(house);
    let call = call.over(format!("full for {}", length.lines.join(" · ")));
    view.leader(Point::new(end - long / 2.0, stem), FRAC_PI_2, call);
    Ok(())
}

/// The half angle of a face that opens from left to right, measured in the air before it.
pub(super) fn face(front: Point, shoulder: Point, half_angle: f64, label: Label) -> Dimension {
    Dimension::Angle {
        vertex: shoulder,
        start: PI,
        sweep: half_angle,
        drawn: [0.0, (shoulder - front).length()],
        label,
    }
}
