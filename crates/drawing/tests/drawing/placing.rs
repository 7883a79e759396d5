//! No text lies on a text, on an edge, on an arrow's line or on lined metal, whatever the sizes.

use crate::samples::{self, seat, title};
use drawing::geometry::{Bounds, Path, Point};
use drawing::hatch::Lean;
use drawing::{
    Collar, DiscLap, Drawing, Kept, Label, Laid, LapFace, Layer, Lead, Limits, Mandrel, Mark,
    NutBody, PIXELS, PageWidth, PlugGauge, RivetedSeam, SeatLap, SeatSection, Shape, Side,
    StemThread, Text, ThreadCall, Tolerance, TurnedBushing, TurnedDisc, TurnedNut, View, lap_face,
    lap_for_disc, mandrel, plug_gauge, riveted_seam, seat_lap, seat_section, turned_bushing,
    turned_disc, turned_nut,
};
use measure::{Angle, House, Length};
use proptest::prelude::*;

/// The box of a line of text: as wide as it is set, as high as its capitals.
fn of(text: &Text) -> Bounds {
    Bounds::of(
        text.at,
        text.at + Point::new(text.width, text.height * 0.72),
    )
}

/// Points along a path, a hundredth of an inch apart, so that nothing here rests on the program's own tests of
/// lines against boxes.
fn along(path: &Path) -> Vec<Point> {
    path.segments()
        .flat_map(|segment| {
            let steps = (segment.length() / 0.01).ceil().max(1.0);
            (0..=steps as u32)
                .map(|step| segment.at(f64::from(step) / steps))
                .collect::<Vec<_>>()
        })
        .collect()
}

fn check(drawing: &Drawing) -> Result<(), String> {
    check_laid(&drawing.lay_out().map_err(|why| why.to_string())?, 0.4)?;
    for width in [PageWidth::Narrow, PageWidth::Wide] {
        let laid = drawing.for_page(width).map_err(|why| why.to_string())?;
        check_laid(&laid, 0.0).map_err(|why| format!("{width:?}: {why}"))?;
        let least = all_texts(&laid)
            .iter()
            .map(|text| text.height)
            .fold(9.0, f64::min);
        if least * PIXELS < 14.0 {
            return Err(format!("{width:?}: type of {} pixels", least * PIXELS));
        }
    }
    Ok(())
}

fn check_laid(laid: &Laid, margin: f64) -> Result<(), String> {
    let texts = texts(laid);
    let paper = Bounds::of(Point::ORIGIN, Point::new(laid.width, laid.height)).grown(-margin);
    for (number, (text, words)) in texts.iter().enumerate() {
        if !paper.encloses(*text) {
            return Err(format!("`{words}` leaves the border"));
        }
        for (other, others) in &texts[number + 1..] {
            if text.overlaps(*other) {
                return Err(format!("`{words}` lies on `{others}`"));
            }
        }
    }
    for view in &laid.views {
        let edges = view.items.iter().filter_map(|item| match &item.shape {
            Shape::Path(path) => Some(along(path)),
            Shape::Solid([a, b, c]) => Some(along(&Path::closed([*a, *b, *c]))),
            Shape::Text(_) => None,
        });
        let lines = view
            .dimensions
            .iter()
            .flat_map(|placed| placed.lines.iter().chain(&placed.extensions))
            .map(along);
        let dots: Vec<Point> = edges.chain(lines).flatten().collect();
        for (text, words) in &texts {
            if let Some(dot) = dots.iter().find(|dot| text.holds(**dot)) {
                return Err(format!("`{words}` is crossed at {dot:?} in {}", view.name));
            }
        }
    }
    Ok(())
}

/// Every text on the sheet with its box.
fn texts(laid: &Laid) -> Vec<(Bounds, String)> {
    let texts = all_texts(laid).into_iter();
    texts.map(|text| (of(&text), text.words)).collect()
}

fn all_texts(laid: &Laid) -> Vec<Text> {
    let items = laid.views.iter().flat_map(|view| &view.items);
    let plain = items
        .chain(&laid.frame)
        .filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.clone()),
            _ => None,
        });
    let dimensions = laid
        .views
        .iter()
        .flat_map(|view| &view.dimensions)
        .flat_map(|placed| placed.texts());
    plain.chain(dimensions).collect()
}

#[test]
fn the_samples_are_clear() {
    for sample in samples::all() {
        check(&sample.drawing.unwrap()).unwrap_or_else(|why| panic!("{}: {why}", sample.name));
    }
}

#[test]
fn the_check_can_fail() {
    let drawing = seat_section(&seat(1.5, 0.125, 43.0, 45.0), House::Inch, title("Seat")).unwrap();
    let good = drawing.lay_out().unwrap();
    check_laid(&good, 0.4).unwrap();
    let moved = |to: Bounds| {
        let mut laid = good.clone();
        laid.views[0].dimensions[0].text = to;
        check_laid(&laid, 0.4).unwrap_err()
    };
    let other = good.views[0].dimensions[1].text;
    assert!(moved(other).contains("lies on"));
    let far = Bounds::around(Point::new(0.2, 5.0), 1.0, 0.2);
    assert!(moved(far).contains("leaves the border"));
    let axis = good.views[0].to_paper.point(Point::ORIGIN);
    assert!(moved(Bounds::around(axis, 1.0, 0.2)).contains("is crossed at"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn seats_of_any_size_are_clear(
        port in 0.1_f64..12.0, slim in 0.01_f64..0.4, found in 10.0_f64..80.0, off in -15.0_f64..15.0,
        wall in proptest::option::of(0.05_f64..2.0), body in proptest::option::of(1.05_f64..3.0),
        disc in proptest::option::of(1.0_f64..1.6), metric in any::<bool>(),
    ) {
        let land = port * slim;
        let wanted = (found + off).clamp(10.0, 80.0);
        let outside = port + 2.0 * land;
        let given = SeatSection {
            // Thick enough for any cut of this land.
            wall: wall.map(|wall| Length::inches(land * 6.0 * (1.0 + wall))),
            body_outside: body.map(|body| Length::inches(outside * body)),
            disc_outside: disc.map(|disc| Length::inches(outside * disc)),
            ..seat(port, land, found, wanted)
        };
        let house = if metric { House::Metric } else { House::Inch };
        let drawing = seat_section(&given, house, title("Valve seat, before and after")).unwrap();
        if let Err(why) = check(&drawing) {
            return Err(TestCaseError::fail(why));
        }
    }

    #[test]
    fn discs_of_any_size_are_clear(
        outside in 0.2_f64..10.0, nose in 0.3_f64..0.95, stem in 0.1_f64..0.7, half_angle in 10.0_f64..80.0,
        rim in 0.05_f64..0.6, long in 0.3_f64..4.0, chamfer in any::<bool>(), metric in any::<bool>(),
    ) {
        let inches = Length::inches;
        let disc = TurnedDisc {
            nose: inches(outside * nose).into(),
            outside: inches(outside).into(),
            half_angle: Angle::degrees(half_angle),
            half_angle_within: None,
            rim: inches(outside * rim).into(),
            stem: inches(outside * stem).into(),
            stem_length: inches(outside * long).into(),
            chamfer: chamfer.then(|| inches(outside * rim.min(stem / 2.0).min((1.0 - stem) / 2.0).min(long) * 0.3)),
            thread: None,
        };
        let house = if metric { House::Metric } else { House::Inch };
        if let Err(why) = check(&turned_disc(&disc, house, title("Disc with stem")).unwrap()) {
            return Err(TestCaseError::fail(why));
        }
    }

    #[test]
    fn laps_of_any_size_are_clear(
        large in 0.2_f64..10.0, slim in 0.05_f64..0.5, half_angle in 10.0_f64..80.0, pilot in 0.3_f64..0.98,
        spindle in 0.2_f64..0.9, long in prop::array::uniform3(0.1_f64..2.0), metric in any::<bool>(),
    ) {
        let inches = Length::inches;
        let small = large * (1.0 - slim);
        let house = if metric { House::Metric } else { House::Inch };
        let lap = SeatLap {
            small: inches(small).into(),
            large: inches(large).into(),
            half_angle: Angle::degrees(half_angle),
            half_angle_within: None,
            back: inches(large * long[0]).into(),
            pilot: inches(small * pilot).into(),
            pilot_length: inches(large * long[1]).into(),
            spindle: inches(small * pilot * spindle).into(),
            drive_length: inches(large * long[2]).into(),
        };
        let hollow = DiscLap {
            outside: inches(large * 1.4).into(),
            // Always longer than the cone, which is half of `large - small` over the tangent.
            length: inches(large * (long[0] + 0.5 * slim / measure::math::tan_deg(half_angle))).into(),
            mouth: inches(large).into(),
            half_angle: Angle::degrees(half_angle),
            half_angle_within: None,
            bore: inches(small).into(),
        };
        for drawing in [
            seat_lap(&lap, house, title("Seat lap with pilot")).unwrap(),
            lap_for_disc(&hollow, house, title("Lap for the disc")).unwrap(),
        ] {
            if let Err(why) = check(&drawing) {
                return Err(TestCaseError::fail(why));
            }
        }
    }

    #[test]
    fn bushings_and_gauges_of_any_size_and_tolerance_are_clear(
        outside in 0.3_f64..8.0, bore in 0.3_f64..0.95, long in 0.2_f64..3.0, collar in any::<bool>(), lead in any::<bool>(),
        which in prop::array::uniform3(0_u8..5), metric in any::<bool>(),
    ) {
        let inches = Length::inches;
        let kept = |size: f64, which: u8| Kept {
            size: inches(size),
            within: match which {
                0 => None,
                1 => Some(Tolerance::Either(inches(0.00025))),
                2 => Some(Tolerance::OverUnder(inches(0.0012), inches(0.0))),
                3 => Some(Tolerance::Limits(inches(size - 0.001), inches(size + 0.001))),
                _ => Some(Tolerance::Reference),
            },
        };
        let house = if metric { House::Metric } else { House::Inch };
        let wall = outside * (1.0 - bore) / 2.0;
        let bushing = TurnedBushing {
            outside: kept(outside, which[0]),
            bore: kept(outside * bore, which[1]),
            bore_after: None,
            length: kept(outside * long, which[2]),
            collar: collar.then(|| Collar { outside: kept(outside * 1.2, which[1]), thickness: kept(outside * 0.1, which[2]) }),
            lead: lead.then(|| Lead { length: inches((wall * 1.5).min(outside * long * 0.3)), half_angle: Angle::degrees(15.0) }),
        };
        let gauge = PlugGauge {
            go: kept(outside, which[0]),
            go_length: inches(outside * long).into(),
            not_go: kept(outside + 0.002, which[1]),
            not_go_length: inches(outside * long / 2.0).into(),
            handle: inches(outside * bore).into(),
            handle_length: inches(outside * 1.5).into(),
        };
        let slim = Mandrel {
            small: kept(outside, which[1]),
            large: kept(outside + 0.003, which[2]),
            length: inches(outside * (1.0 + long)).into(),
            ends: inches(outside * bore).into(),
            end_length: inches(outside * 0.4).into(),
        };
        for drawing in [
            turned_bushing(&bushing, house, title("Bushing")).unwrap(),
            plug_gauge(&gauge, house, title("Plug gauge")).unwrap(),
            mandrel(&slim, house, title("Mandrel")).unwrap(),
        ] {
            if let Err(why) = check(&drawing) {
                return Err(TestCaseError::fail(why));
            }
        }
    }

    #[test]
    fn threads_of_any_size_are_clear(
        major in 0.25_f64..6.0, fine in 0.02_f64..0.2, thick in 1.05_f64..3.0, long in 0.3_f64..3.0,
        hexagon in any::<bool>(), open in any::<bool>(), metric in any::<bool>(),
    ) {
        let inches = Length::inches;
        let limits = |size: f64| Limits {
            least: Some(inches(size)),
            most: (!open).then(|| inches(size + 0.004)),
        };
        let call = |under: f64| ThreadCall {
            named: "1 1/4-5 stub Acme, to its mate\nleft hand, 2 starts".to_owned(),
            major: limits(major - under),
            pitch: limits(major * (1.0 - fine / 2.0) - under),
            minor: limits(major * (1.0 - fine) - under),
        };
        let house = if metric { House::Metric } else { House::Inch };
        let body = inches(major * thick).into();
        let nut = TurnedNut {
            body: if hexagon { NutBody::Hexagon(body) } else { NutBody::Round(body) },
            length: inches(major * long).into(),
            thread: call(0.0),
        };
        let disc = TurnedDisc {
            nose: inches(major * thick * 1.05).into(),
            outside: inches(major * thick * 1.3).into(),
            half_angle: Angle::degrees(45.0),
            half_angle_within: None,
            rim: inches(major * 0.4).into(),
            stem: inches(major).into(),
            stem_length: inches(major * (1.0 + long)).into(),
            chamfer: None,
            thread: Some(StemThread { length: inches(major * long).into(), call: call(0.005) }),
        };
        for drawing in [
            turned_nut(&nut, house, title("Nut")).unwrap(),
            turned_disc(&disc, house, title("Disc with threaded stem")).unwrap(),
        ] {
            if let Err(why) = check(&drawing) {
                return Err(TestCaseError::fail(why));
            }
        }
    }

    #[test]
    fn lap_faces_of_any_size_are_clear(
        port in 0.1_f64..12.0, slim in 0.01_f64..0.6, half_angle in 10.0_f64..80.0, metric in any::<bool>(),
    ) {
        let face = LapFace {
            port: Length::inches(port),
            outside: Length::inches(port * (1.0 + slim)),
            outside_stated: None,
            half_angle: Angle::degrees(half_angle),
        };
        let house = if metric { House::Metric } else { House::Inch };
        if let Err(why) = check(&lap_face(&face, house, title("Lap for the seat")).unwrap()) {
            return Err(TestCaseError::fail(why));
        }
    }

    /// Any label at all, long or of many lines, on the sides of a plain block, finds a place or is refused in words.
    #[test]
    fn long_texts_are_clear(
        wide in 0.2_f64..6.0, high in 0.2_f64..3.0,
        words in prop::collection::vec("[A-Za-z0-9 .]{0,28}[a-z]", 5), lines in 1_usize..4,
    ) {
        let mut view = View::new("Block");
        let (far, top) = (Point::new(wide, 0.0), Point::new(0.0, high));
        let corner = far + top;
        let block = Path::closed([Point::ORIGIN, far, corner, top]);
        view.marks.push(Mark::Hatch(vec![block.clone()], Lean::Right));
        view.line(Layer::Outline, block);
        let label = |at: usize| (1..lines).fold(Label::words(words[at].clone()), |label, _| label.over(words[4].clone()));
        view.linear(Point::ORIGIN, far, Side::Below, label(0));
        view.linear(top, corner, Side::Above, label(1));
        view.linear(Point::ORIGIN, top, Side::Left, label(2));
        view.linear(far, corner, Side::Right, label(3));
        view.leader(corner, 0.8, label(4));
        let drawing = Drawing { house: House::Inch, title: title("Block"), views: vec![view], key: Vec::new(), notes: Vec::new() };
        if let Err(why) = check(&drawing) {
            return Err(TestCaseError::fail(why));
        }
    }

    #[test]
    fn seams_of_any_kind_and_size_are_clear(
        rivet in 0.5_f64..1.25, slack in 1.3_f64..4.0, plate in 0.2_f64..1.0, strap in 0.6_f64..1.2,
        kind in 0_usize..7, spaced in any::<bool>(), metric in any::<bool>(),
    ) {
        let (rows, double): (&[u32], usize) = [
            (&[1_u32][..], 0), (&[1, 1], 0), (&[1, 1, 1], 0), (&[1, 2], 1), (&[1, 2, 2], 2), (&[1, 2, 4, 4], 2),
            (&[1, 2, 3, 4, 5, 5], 2),
        ][kind];
        let most = f64::from(rows.iter().copied().max().unwrap_or(1));
        let told = |times: f64| spaced.then(|| Length::inches(rivet * times));
        let seam = RivetedSeam {
            teeth: kind == 6,
            row_spacing: told(2.25),
            edge: told(1.6),
            ..samples::seam(most * rivet * slack, [plate, rivet], (double > 0).then_some(plate * strap), rows, double)
        };
        let house = if metric { House::Metric } else { House::Inch };
        if let Err(why) = check(&riveted_seam(&seam, house, title("Riveted seam")).unwrap()) {
            return Err(TestCaseError::fail(why));
        }
    }
}
