//! The plain function: every way in which a riveted seam can come apart, and the load at which it does.
//!
//! Rows are counted from the outside, where the plate comes in with its whole load, to the edge of the plate. A plate
//! that tears at a row must also be let go by every rivet outside of that row; where no plate tears, every rivet must
//! let go. A rivet lets go by shearing or by crushing what it bears on. Straps carry what the rivets outside have given
//! them, so they tear at a row together with the rivets inside of it. That is all; lap, butt and saw-tooth seams differ
//! in their rows alone.
//!
//! Inches, psi and pounds throughout.

use std::f64::consts::PI;
use std::ops::Range;

/// What a rivet of a row goes through.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Through {
    /// The two plates of a lap: sheared once.
    Lap,
    /// The plate and the wide strap: sheared once.
    OneStrap,
    /// The plate and both straps: sheared twice.
    BothStraps,
}

/// One row, within one unit of length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Row {
    /// Rivets in it.
    pub rivets: u32,
    /// What they go through.
    pub through: Through,
}

/// A seam over one unit of its length.
#[derive(Debug, Clone, PartialEq)]
pub struct Seam {
    /// Unit of length: the pitch of the row with the widest spacing.
    pub pitch: f64,
    /// Thickness of the plate.
    pub plate: f64,
    /// Thickness of one strap; nothing in a lap.
    pub strap: f64,
    /// Diameter of the driven rivet, which is that of the hole.
    pub rivet: f64,
    /// Tensile strength of plate and straps.
    pub tensile: f64,
    /// Strength of a rivet sheared once, on its area.
    pub shear: f64,
    /// Strength of a rivet sheared twice, on the same one area; nothing in a lap.
    pub shear_double: f64,
    /// Crushing strength of plate and straps.
    pub crushing: f64,
    /// The rows, outermost first.
    pub rows: Vec<Row>,
    /// Whether the wide strap is cut to teeth, so that its width at the outer rows is not the unit of length.
    pub teeth: bool,
}

/// How a rivet lets go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It shears.
    Shears,
    /// It crushes what it bears on.
    Crushes,
}

/// What gives way in one mode, counted.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// Plates torn: 1, or 0.
    pub plates: u32,
    /// Holes in the row where the plate tears.
    pub plate_holes: u32,
    /// Straps torn: 0, 1 or 2.
    pub straps: u32,
    /// Holes in the row where they tear.
    pub strap_holes: u32,
    /// Rivets sheared once.
    pub single: u32,
    /// Rivets sheared twice.
    pub double: u32,
    /// Rivets that crush the plate.
    pub crush_plate: u32,
    /// Strap thicknesses that rivets crush: a rivet in both straps counts two.
    pub crush_strap: u32,
}

/// One way to come apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Mode {
    /// In words, rows counted from the outside: *plate tears at row 2, row 1 shears*.
    pub name: String,
    /// What gives way.
    pub tally: Tally,
    /// The load over one unit of length, lbf.
    pub load: f64,
}

impl Seam {
    /// Strength of the solid plate over one unit of length, lbf.
    pub fn solid(&self) -> f64 {
        self.pitch * self.plate * self.tensile
    }

    /// Area of a driven rivet, square inches.
    pub fn rivet_area(&self) -> f64 {
        PI * self.rivet * self.rivet / 4.0
    }

    /// The load of what `tally` counts, lbf.
    pub fn load(&self, tally: &Tally) -> f64 {
        let net = |holes: u32| self.pitch - f64::from(holes) * self.rivet;
        let (plates, straps) = (f64::from(tally.plates), f64::from(tally.straps));
        plates * net(tally.plate_holes) * self.plate * self.tensile
            + straps * net(tally.strap_holes) * self.strap * self.tensile
            + f64::from(tally.single) * self.rivet_area() * self.shear
            + f64::from(tally.double) * self.rivet_area() * self.shear_double
            + f64::from(tally.crush_plate) * self.rivet * self.plate * self.crushing
            + f64::from(tally.crush_strap) * self.rivet * self.strap * self.crushing
    }

    /// Every mode, in the order: plate row by row, all rivets, straps row by row. A mode in which plate and strap both
    /// tear comes last, and only where it is weaker than all of these.
    ///
    /// Sources: the quadruple butt seam's modes and the rule of the least, Report of the Boiler Code Committee (a
    /// state's tentative boiler safety orders, p. 102); lap, double and triple seams from memory, by the same count.
    /// That straps can tear is plane statics; the published lists leave it out, for straps as thick as they ask.
    pub fn modes(&self) -> Vec<Mode> {
        let all = self.rows.len();
        let mut modes = Vec::new();
        for (row, with) in self.rows.iter().enumerate() {
            for fates in self.choices(0..row) {
                let mut tally = Tally {
                    plates: 1,
                    plate_holes: with.rivets,
                    ..Tally::default()
                };
                self.let_go(0..row, fates, &mut tally);
                let mut parts = vec![format!("plate tears at row {}", row + 1)];
                parts.extend(self.said(0..row, fates));
                modes.push(self.mode(parts, tally));
            }
        }
        for fates in self.choices(0..all) {
            let mut tally = Tally::default();
            self.let_go(0..all, fates, &mut tally);
            let parts = self.said(0..all, fates);
            modes.push(self.mode(parts, tally));
        }
        for row in 0..all {
            modes.extend(self.straps_tear(row, None));
        }
        let least = weakest(&modes).map_or(f64::INFINITY, |mode| mode.load);
        let both = (0..all).flat_map(|strap| (0..all).map(move |plate| (strap, plate)));
        let both: Vec<Mode> = both
            .filter_map(|(strap, plate)| self.straps_tear(strap, Some(plate)))
            .collect();
        modes.extend(
            weakest(&both)
                .filter(|mode| mode.load < least * (1.0 - 1e-9))
                .cloned(),
        );
        modes
    }

    /// Straps tear at `row`; so does the plate at `plate_row`, if there is one, and the rivets between let go as they
    /// do most easily. None where no strap is.
    fn straps_tear(&self, row: usize, plate_row: Option<usize>) -> Option<Mode> {
        let torn = self.rows.get(row)?;
        let (straps, word) = match torn.through {
            Through::Lap => return None,
            Through::OneStrap if self.teeth => return None,
            Through::OneStrap => (1, "wide strap tears"),
            Through::BothStraps => (2, "both straps tear"),
        };
        let plate = plate_row.and_then(|at| self.rows.get(at));
        let between = row + 1..plate_row.unwrap_or(self.rows.len());
        let fates = [
            self.easiest(Through::OneStrap),
            self.easiest(Through::BothStraps),
        ];
        let mut tally = Tally {
            plates: u32::from(plate.is_some()),
            plate_holes: plate.map_or(0, |plate| plate.rivets),
            straps,
            strap_holes: torn.rivets,
            ..Tally::default()
        };
        self.let_go(between.clone(), fates, &mut tally);
        let mut parts = vec![format!("{word} at row {}", row + 1)];
        parts.extend(plate_row.map(|at| format!("plate at row {}", at + 1)));
        parts.extend(self.said(between, fates));
        Some(self.mode(parts, tally))
    }

    fn mode(&self, parts: Vec<String>, tally: Tally) -> Mode {
        Mode {
            name: parts.join(", "),
            load: self.load(&tally),
            tally,
        }
    }

    /// The fates that the rivets of `rows` can have, those sheared once and those sheared twice each alike.
    fn choices(&self, rows: Range<usize>) -> Vec<[Fate; 2]> {
        let of = |twice: bool| {
            if self.some(rows.clone(), twice).is_empty() {
                vec![Fate::Shears]
            } else {
                vec![Fate::Shears, Fate::Crushes]
            }
        };
        let (once, twice) = (of(false), of(true));
        once.iter()
            .flat_map(|first| twice.iter().map(|second| [*first, *second]))
            .collect()
    }

    /// Those of `rows` whose rivets are sheared twice, or once, counted from 1.
    fn some(&self, rows: Range<usize>, twice: bool) -> Vec<usize> {
        let numbered = self.rows.iter().enumerate();
        numbered
            .filter(|(at, row)| rows.contains(at) && (row.through == Through::BothStraps) == twice)
            .map(|(at, _)| at + 1)
            .collect()
    }

    fn let_go(&self, rows: Range<usize>, fates: [Fate; 2], tally: &mut Tally) {
        for row in self.rows.iter().take(rows.end).skip(rows.start) {
            match (row.through, fates) {
                (Through::BothStraps, [_, Fate::Shears]) => tally.double += row.rivets,
                (Through::BothStraps, _) if 2.0 * self.strap < self.plate => {
                    tally.crush_strap += 2 * row.rivets;
                }
                (Through::BothStraps, _) => tally.crush_plate += row.rivets,
                (_, [Fate::Shears, _]) => tally.single += row.rivets,
                (Through::OneStrap, _) if self.strap < self.plate => {
                    tally.crush_strap += row.rivets
                }
                _ => tally.crush_plate += row.rivets,
            }
        }
    }

    /// How a rivet through these lets go at the least load.
    fn easiest(&self, through: Through) -> Fate {
        let (shear, bears) = match through {
            Through::Lap => (self.shear, self.plate),
            Through::OneStrap => (self.shear, self.plate.min(self.strap)),
            Through::BothStraps => (self.shear_double, self.plate.min(2.0 * self.strap)),
        };
        if self.rivet_area() * shear <= self.rivet * bears * self.crushing {
            Fate::Shears
        } else {
            Fate::Crushes
        }
    }

    /// What the rivets of `rows` do, in words: those sheared once, then those sheared twice.
    fn said(&self, rows: Range<usize>, fates: [Fate; 2]) -> Vec<String> {
        let mut groups = [
            (self.some(rows.clone(), false), fates[0]),
            (self.some(rows, true), fates[1]),
        ]
        .into_iter()
        .filter(|(some, _)| !some.is_empty())
        .collect::<Vec<_>>();
        if let [(once, first), (twice, second)] = groups.as_slice()
            && first == second
        {
            groups = vec![([once.as_slice(), twice].concat(), *first)];
        }
        let say = |(some, fate): (Vec<usize>, Fate)| {
            let (many, alone) = match fate {
                Fate::Shears => ("shear", "shears"),
                Fate::Crushes => ("crush", "crushes"),
            };
            match some.as_slice() {
                all if all.len() == self.rows.len() => format!("all rivets {many}"),
                [first, .., last] => format!("rows {first}-{last} {many}"),
                [one] => format!("row {one} {alone}"),
                [] => String::new(),
            }
        };
        groups.into_iter().map(say).collect()
    }
}

/// The first of the weakest.
pub fn weakest(modes: &[Mode]) -> Option<&Mode> {
    modes
        .iter()
        .reduce(|least, mode| if mode.load < least.load { mode } else { least })
}
