//! Sample drawings, of seats from steep to flat and from tiny to large, of discs and of laps. All invented.

use drawing::geometry::{Path, Point, Vertex};
use drawing::hatch::Lean;
use drawing::{
    Collar, DiscLap, Drawing, DrawingError, Kept, Label, LapFace, Layer, Lead, Limits, Mandrel,
    Mark, NutBody, PlugGauge, RivetedSeam, SeamRow, SeatLap, SeatSection, SeatStated, Side,
    StemThread, ThreadCall, Title, Tolerance, TurnedBushing, TurnedDisc, TurnedNut, View, lap_face,
    lap_for_disc, mandrel, plug_gauge, riveted_seam, seat_lap, seat_section, turned_bushing,
    turned_disc, turned_nut,
};
use measure::{Angle, House, Length};

/// One sample.
pub struct Sample {
    /// Its name, also of its files.
    pub name: &'static str,
    /// The drawing.
    pub drawing: Result<Drawing, DrawingError>,
    /// Corners that the DXF must have on its layer OUTLINE, inches of the part, worked out here by themselves.
    pub corners: Vec<(f64, f64)>,
}

impl Sample {
    /// The corners in the unit in which the DXF has them, that of the house.
    pub fn corners_in_file(&self) -> Vec<(f64, f64)> {
        let metric = self
            .drawing
            .as_ref()
            .is_ok_and(|drawing| drawing.house == House::Metric);
        // By definition an inch is 25.4 mm.
        let times = if metric { 25.4 } else { 1.0 };
        let one = |(x, y): &(f64, f64)| (x * times, y * times);
        self.corners.iter().map(one).collect()
    }
}

/// A title block with something in most of its places.
pub fn title(drawing: &str) -> Title {
    Title {
        shop: Some("Juniper Fork Railroad Museum".to_owned()),
        drawing: drawing.to_owned(),
        part: Some("No. 14, right feed check".to_owned()),
        number: Some("D-014".to_owned()),
        material: Some("gray iron body, bronze disc".to_owned()),
        quantity: Some("1".to_owned()),
        finish: None,
        edges: Some("break .010".to_owned()),
        as_of: Some("2026-05-02".to_owned()),
        revision: Some("1".to_owned()),
        mate: Some("seat of No. 14, right feed check".to_owned()),
        unless: Some("±.005".to_owned()),
        runout: Some(".001".to_owned()),
        sheets: vec!["seat.correct".to_owned()],
    }
}

/// A seat with everything known; sizes in inches, angles in degrees.
pub fn seat(port: f64, land: f64, found: f64, wanted: f64) -> SeatSection {
    SeatSection {
        port: Length::inches(port),
        land: Length::inches(land),
        found_half_angle: Angle::degrees(found),
        wanted_half_angle: Angle::degrees(wanted),
        wall: None,
        body_outside: None,
        disc_outside: None,
        stated: SeatStated::default(),
    }
}

fn inches(value: f64) -> Option<Length> {
    Some(Length::inches(value))
}

fn seat_sample(name: &'static str, seat: SeatSection, house: House) -> Sample {
    let port = seat.port.to_inches() / 2.0;
    let land = seat.land.to_inches();
    let (found, wanted) = (
        seat.found_half_angle.to_radians(),
        seat.wanted_half_angle.to_radians(),
    );
    let out = port + land * measure::math::sin(found);
    let top = land * measure::math::cos(found);
    let rise = (out - port) / measure::math::tan(wanted);
    let (inner, outer) = if wanted >= found {
        (0.0, rise)
    } else {
        (top - rise, top)
    };
    Sample {
        name,
        drawing: seat_section(&seat, house, title("Valve seat, before and after")),
        corners: vec![(port, inner), (out, outer), (-port, inner), (-out, outer)],
    }
}

/// All of them.
pub fn all() -> Vec<Sample> {
    let usual = SeatSection {
        wall: inches(0.25),
        body_outside: inches(2.25),
        ..seat(1.5, 0.125, 43.0, 45.0)
    };
    let closed = SeatSection {
        wall: inches(0.3125),
        body_outside: inches(2.5),
        disc_outside: inches(1.75),
        ..seat(1.25, 0.1875, 48.0, 45.0)
    };
    vec![
        seat_sample("seat-opened", usual.clone(), House::Inch),
        seat_sample("seat-closed", closed, House::Inch),
        seat_sample("seat-metric", usual, House::Metric),
        seat_sample(
            "seat-steep",
            SeatSection {
                wall: inches(0.5),
                ..seat(1.0, 0.25, 14.0, 15.0)
            },
            House::Inch,
        ),
        seat_sample(
            "seat-flat",
            SeatSection {
                wall: inches(0.1),
                body_outside: inches(3.0),
                ..seat(2.0, 0.1875, 72.0, 75.0)
            },
            House::Inch,
        ),
        seat_sample("seat-tiny-land", seat(0.75, 0.02, 44.5, 45.0), House::Inch),
        seat_sample(
            "seat-big-body",
            SeatSection {
                wall: inches(1.0),
                body_outside: inches(14.0),
                disc_outside: inches(6.6),
                ..seat(6.0, 0.1875, 40.0, 45.0)
            },
            House::Inch,
        ),
        seat_sample(
            "seat-unknown-wall",
            seat(1.5, 0.125, 52.0, 45.0),
            House::Inch,
        ),
        seat_sample(
            "seat-much-metal",
            SeatSection {
                wall: inches(0.75),
                body_outside: inches(3.0),
                ..seat(1.5, 0.25, 30.0, 45.0)
            },
            House::Inch,
        ),
        seat_sample(
            "seat-true",
            SeatSection {
                wall: inches(0.25),
                body_outside: inches(2.25),
                ..seat(1.5, 0.125, 45.0, 45.0)
            },
            House::Inch,
        ),
        disc_sample("disc", House::Inch, 45.0, inches(1.0 / 32.0)),
        disc_sample("disc-metric-steep", House::Metric, 20.0, None),
        seat_lap_sample(),
        disc_lap_sample(),
        ring_sample(),
        close_disc_sample(),
        bushing_sample(),
        plain_bushing_sample(),
        plug_gauge_sample(),
        mandrel_sample(),
        nut_sample("nut-hexagon", true, House::Inch),
        nut_sample("nut-round-metric", false, House::Metric),
        threaded_disc_sample(),
        lap_face_sample(),
    ]
    .into_iter()
    .chain(seam_samples())
    .collect()
}

/// A ring on a hub, seen from the end and cut: circles, a slot with round ends, and two parts lined opposite ways.
/// Drawn by hand, so that what the other samples do not use is read by others too.
fn ring_sample() -> Sample {
    let mut view = View::new("Ring on its hub, cut");
    let (hub, ring) = (
        Path::circle(Point::ORIGIN, 1.0),
        Path::circle(Point::ORIGIN, 1.5),
    );
    let bore = Path::circle(Point::ORIGIN, 0.5);
    view.marks
        .push(Mark::Hatch(vec![ring.clone(), hub.clone()], Lean::Left));
    view.marks
        .push(Mark::Hatch(vec![hub.clone(), bore.clone()], Lean::Right));
    for path in [hub, ring, bore] {
        view.line(Layer::Outline, path);
    }
    let slot = |x: f64, y: f64, bulge: f64| Vertex {
        at: Point::new(x, y),
        bulge,
    };
    view.line(
        Layer::Outline,
        Path {
            vertices: vec![
                slot(-0.25, -0.125, 0.0),
                slot(0.25, -0.125, 1.0),
                slot(0.25, 0.125, 0.0),
                slot(-0.25, 0.125, 1.0),
            ],
            closed: true,
        },
    );
    let label = |inches: f64| Label::diameter(Length::inches(inches), House::Inch);
    let close = Tolerance::Either(Length::inches(0.0005));
    let size = Label::kept(Length::inches(3.0), Some(close), "Ø ", House::Inch);
    view.linear(
        Point::new(-1.5, 0.0),
        Point::new(1.5, 0.0),
        Side::Below,
        size,
    );
    view.linear(
        Point::new(-1.0, 0.0),
        Point::new(1.0, 0.0),
        Side::Above,
        label(2.0),
    );
    Sample {
        name: "ring",
        drawing: Ok(Drawing {
            house: House::Inch,
            title: title("Ring on its hub"),
            views: vec![view],
            key: vec![
                (Layer::Outline, "edge"),
                (Layer::Hatch, "metal cut through"),
            ],
            notes: vec!["The ring is lined one way, the hub the other.".to_owned()],
        }),
        corners: vec![(-0.25, -0.125), (0.25, 0.125)],
    }
}

fn disc_sample(
    name: &'static str,
    house: House,
    half_angle: f64,
    chamfer: Option<Length>,
) -> Sample {
    let disc = TurnedDisc {
        nose: Length::inches(1.375).into(),
        outside: Length::inches(1.8125).into(),
        half_angle: Angle::degrees(half_angle),
        half_angle_within: None,
        rim: Length::inches(0.3125).into(),
        stem: Length::inches(0.625).into(),
        stem_length: Length::inches(2.0).into(),
        chamfer,
        thread: None,
    };
    let cone = (1.8125 - 1.375) / 2.0 / measure::math::tan_deg(half_angle);
    let cut = chamfer.map_or(0.0, Length::to_inches);
    Sample {
        name,
        drawing: turned_disc(&disc, house, title("Disc with stem")),
        corners: vec![
            (0.0, 0.6875),
            (cone, 0.90625),
            (cone + 0.3125, 0.90625 - cut),
            (cone + 0.3125, 0.3125),
            (cone + 2.3125, -(0.3125 - cut)),
        ],
    }
}

fn seat_lap_sample() -> Sample {
    let lap = SeatLap {
        small: Length::inches(1.4).into(),
        large: Length::inches(1.9).into(),
        half_angle: Angle::degrees(45.0),
        half_angle_within: None,
        back: Length::inches(0.5).into(),
        pilot: Length::inches(1.25).into(),
        pilot_length: Length::inches(1.0).into(),
        spindle: Length::inches(0.5).into(),
        drive_length: Length::inches(1.5).into(),
    };
    Sample {
        name: "seat-lap",
        drawing: seat_lap(&lap, House::Inch, title("Seat lap with pilot")),
        corners: vec![
            (-1.0, 0.625),
            (0.0, 0.7),
            (0.25, 0.95),
            (0.75, -0.95),
            (2.25, 0.25),
        ],
    }
}

fn disc_lap_sample() -> Sample {
    let lap = DiscLap {
        outside: Length::inches(2.5).into(),
        length: Length::inches(1.0).into(),
        mouth: Length::inches(2.0).into(),
        half_angle: Angle::degrees(45.0),
        half_angle_within: None,
        bore: Length::inches(1.25).into(),
    };
    Sample {
        name: "disc-lap",
        drawing: lap_for_disc(&lap, House::Inch, title("Lap for the disc")),
        corners: vec![(0.0, 1.25), (0.625, 0.625), (1.0, 1.0), (1.0, -1.25)],
    }
}

/// A disc with every kind of tolerance.
fn close_disc_sample() -> Sample {
    let inches = Length::inches;
    let disc = TurnedDisc {
        nose: Kept::within(inches(1.375), Tolerance::Either(inches(0.005))),
        outside: Kept::within(
            inches(1.8125),
            Tolerance::OverUnder(inches(0.0), inches(0.005)),
        ),
        half_angle: Angle::degrees(45.0),
        half_angle_within: Some(Angle::degrees(0.25)),
        rim: Kept::within(inches(0.3125), Tolerance::Either(inches(0.01))),
        stem: Kept::within(
            inches(0.625),
            Tolerance::Limits(inches(0.6235), inches(0.625)),
        ),
        stem_length: Kept::reference(inches(2.0)),
        chamfer: Some(inches(1.0 / 32.0)),
        thread: None,
    };
    Sample {
        name: "disc-close",
        drawing: turned_disc(&disc, House::Inch, title("Disc with stem")),
        corners: vec![(0.0, 0.6875), (0.21875, 0.90625), (2.53125, -0.28125)],
    }
}

fn bushing_sample() -> Sample {
    let inches = Length::inches;
    let bushing = TurnedBushing {
        outside: Kept::within(
            inches(3.2515),
            Tolerance::OverUnder(inches(0.0005), inches(0.0)),
        ),
        bore: Kept::within(inches(2.5), Tolerance::Either(inches(0.001))),
        bore_after: Some(Kept::within(
            inches(2.508),
            Tolerance::Limits(inches(2.507), inches(2.509)),
        )),
        length: inches(3.0).into(),
        collar: Some(Collar {
            outside: inches(3.75).into(),
            thickness: inches(0.25).into(),
        }),
        lead: Some(Lead {
            length: inches(0.25),
            half_angle: Angle::degrees(15.0),
        }),
    };
    // Plane geometry: the lead is .25 tan 15 degrees deep.
    let deep = 0.25 * measure::math::tan_deg(15.0);
    Sample {
        name: "bushing-collar",
        drawing: turned_bushing(&bushing, House::Inch, title("Bushing, main rod, back end")),
        corners: vec![
            (0.0, 1.875),
            (0.25, 1.62575),
            (3.0, -1.62575),
            (3.25, 1.62575 - deep),
            (3.25, 1.25),
        ],
    }
}

fn plain_bushing_sample() -> Sample {
    let bushing = TurnedBushing {
        outside: Length::mm(60.0).into(),
        bore: Length::mm(48.0).into(),
        bore_after: None,
        length: Length::mm(55.0).into(),
        collar: None,
        lead: None,
    };
    let inches = |mm: f64| mm / 25.4;
    Sample {
        name: "bushing-plain-metric",
        drawing: turned_bushing(&bushing, House::Metric, title("Bushing")),
        corners: vec![
            (0.0, inches(30.0)),
            (inches(55.0), inches(24.0)),
            (inches(55.0), -inches(30.0)),
        ],
    }
}

fn plug_gauge_sample() -> Sample {
    let inches = Length::inches;
    let gauge = PlugGauge {
        go: Kept::within(
            inches(2.507),
            Tolerance::OverUnder(inches(0.0002), inches(0.0)),
        ),
        go_length: inches(1.5).into(),
        not_go: Kept::within(
            inches(2.509),
            Tolerance::OverUnder(inches(0.0), inches(0.0002)),
        ),
        not_go_length: inches(0.75).into(),
        handle: inches(1.25).into(),
        handle_length: inches(3.5).into(),
    };
    Sample {
        name: "plug-gauge",
        drawing: plug_gauge(&gauge, House::Inch, title("Plug gauge for the bore")),
        corners: vec![(0.0, 1.2535), (1.5, 0.625), (5.0, -1.2545), (5.75, 1.2545)],
    }
}

fn mandrel_sample() -> Sample {
    let inches = Length::inches;
    let given = Mandrel {
        small: inches(2.4995).into(),
        large: inches(2.503).into(),
        length: inches(6.0).into(),
        ends: inches(1.75).into(),
        end_length: inches(1.0).into(),
    };
    Sample {
        name: "mandrel",
        drawing: mandrel(&given, House::Inch, title("Mandrel for the bushing")),
        corners: vec![(0.0, 0.875), (1.0, 1.24975), (7.0, 1.2515), (8.0, -0.875)],
    }
}

/// The internal limits of 3/4-12 Unified as an old stem asked for them; invented.
fn call(named: &str, least: [f64; 3], most: [Option<f64>; 3]) -> ThreadCall {
    let limits = |at: usize| Limits {
        least: inches(least[at]),
        most: most[at].map(Length::inches),
    };
    ThreadCall {
        named: named.to_owned(),
        major: limits(0),
        pitch: limits(1),
        minor: limits(2),
    }
}

fn nut_sample(name: &'static str, hexagon: bool, house: House) -> Sample {
    let thread = call(
        "3/4-12 Unified\nright hand",
        [0.7560, 0.6995, 0.6600],
        [None, Some(0.7035), Some(0.6700)],
    );
    let size = Kept::within(
        Length::inches(1.25),
        Tolerance::OverUnder(Length::inches(0.0), Length::inches(0.01)),
    );
    let nut = TurnedNut {
        body: if hexagon {
            NutBody::Hexagon(size)
        } else {
            NutBody::Round(size)
        },
        length: Length::inches(0.875).into(),
        thread,
    };
    Sample {
        name,
        drawing: turned_nut(&nut, house, title("Gland nut for the old stem")),
        corners: vec![(0.0, 0.625), (0.875, -0.625), (0.0, 0.33), (0.875, 0.33)],
    }
}

fn threaded_disc_sample() -> Sample {
    let inches = Length::inches;
    let disc = TurnedDisc {
        nose: Length::inches(1.375).into(),
        outside: Kept::within(inches(1.8125), Tolerance::Either(inches(0.002))),
        half_angle: Angle::degrees(45.0),
        half_angle_within: Some(Angle::degrees(0.1)),
        rim: inches(0.3125).into(),
        stem: Kept::within(
            inches(0.75),
            Tolerance::OverUnder(inches(0.0), inches(0.002)),
        ),
        stem_length: inches(3.0).into(),
        chamfer: Some(inches(1.0 / 32.0)),
        thread: Some(StemThread {
            length: inches(1.5).into(),
            call: ThreadCall {
                named: "3/4-10 Unified 2A\nright hand".to_owned(),
                major: Limits {
                    least: Some(inches(0.7353)),
                    most: Some(inches(0.7482)),
                },
                pitch: Limits {
                    least: Some(inches(0.6773)),
                    most: Some(inches(0.6832)),
                },
                minor: Limits {
                    least: None,
                    most: Some(inches(0.6291)),
                },
            },
        }),
    };
    let cone = (1.8125 - 1.375) / 2.0;
    Sample {
        name: "disc-threaded",
        drawing: turned_disc(&disc, House::Inch, title("Disc with threaded stem")),
        corners: vec![(0.0, 0.6875), (cone, 0.90625), (cone + 3.3125, 0.34375)],
    }
}

fn lap_face_sample() -> Sample {
    let face = LapFace {
        port: Length::inches(1.75),
        outside: Length::inches(1.984),
        outside_stated: Some("1.9840".to_owned()),
        half_angle: Angle::degrees(45.0),
    };
    // Past the land by .35 of its width, .117, but no less than .06 of the port's radius, .875: by .0525.
    let (small, large) = (0.875 - 0.0525, 0.992 + 0.0525);
    Sample {
        name: "lap-face",
        drawing: lap_face(&face, House::Inch, title("Lap for the seat")),
        corners: vec![
            (small, -0.0525),
            (large, large - 0.875),
            (-large, large - 0.875),
        ],
    }
}

/// A seam of invented sizes, inches; rows outermost first, the last `double` of them through both straps.
pub fn seam(
    pitch: f64,
    sizes: [f64; 2],
    strap: Option<f64>,
    rows: &[u32],
    double: usize,
) -> RivetedSeam {
    let [plate, rivet] = sizes.map(Length::inches);
    let single = rows.len() - double;
    RivetedSeam {
        pitch: Length::inches(pitch),
        plate,
        strap: strap.map(Length::inches),
        rivet,
        rows: rows
            .iter()
            .enumerate()
            .map(|(at, rivets)| SeamRow {
                rivets: *rivets,
                both_straps: at >= single,
            })
            .collect(),
        teeth: false,
        row_spacing: None,
        edge: None,
        weakest: Some("plate tears at row 1".to_owned()),
    }
}

fn seam_samples() -> Vec<Sample> {
    let told = RivetedSeam {
        row_spacing: inches(2.0),
        edge: inches(1.25),
        ..seam(6.5, [0.375, 0.8125], Some(0.3125), &[1, 2, 2], 2)
    };
    let tooth = RivetedSeam {
        teeth: true,
        ..seam(16.0, [0.625, 0.9375], Some(0.4375), &[1, 2, 3, 4, 4], 2)
    };
    [
        (
            "seam-lap-single",
            seam(1.625, [0.25, 0.6875], None, &[1], 0),
            House::Inch,
        ),
        (
            "seam-lap-double",
            seam(2.875, [0.3125, 0.75], None, &[1, 1], 0),
            House::Inch,
        ),
        (
            "seam-lap-triple-metric",
            seam(3.25, [0.375, 0.8125], None, &[1, 1, 1], 0),
            House::Metric,
        ),
        (
            "seam-butt-double",
            seam(4.875, [0.375, 0.875], Some(0.3125), &[1, 2], 1),
            House::Inch,
        ),
        ("seam-butt-triple", told, House::Inch),
        (
            "seam-butt-quadruple",
            seam(15.0, [0.5, 0.9375], Some(0.4375), &[1, 2, 4, 4], 2),
            House::Inch,
        ),
        ("seam-saw-tooth", tooth, House::Inch),
    ]
    .into_iter()
    .map(|(name, seam, house)| {
        // The section: the plate's own edge, and that of the narrow strap on it, its last row one edge distance within.
        // Edges one and a half rivets off, rows two and a half, where nothing is told.
        let (plate, rivet) = (seam.plate.to_inches(), seam.rivet.to_inches());
        let told =
            |length: Option<Length>, usual: f64| length.map_or(usual * rivet, Length::to_inches);
        let twice = seam.rows.iter().filter(|row| row.both_straps).count() as f64;
        let narrow = 2.0 * told(seam.edge, 1.5) + (twice - 1.0) * told(seam.row_spacing, 2.5);
        let mut corners = vec![(0.0, 0.0), (0.0, plate)];
        if let Some(strap) = seam.strap {
            corners.push((narrow, plate + strap.to_inches()));
        }
        Sample {
            name,
            drawing: riveted_seam(&seam, house, title("Riveted seam")),
            corners,
        }
    })
    .collect()
}
