//! The settings of a lathe for a worked sheet, as every door tells them.

use measure::House;
use physics::Sheet;
use serde_json::{Value, json};
use shop::book::{Book, Lathe};
use shop::lathe::{FILLED, Swing, TAPER, THREAD, TURNING, Told, settings, taper, turning};
use shop::locomotive::lathe;

use crate::Failure;
use crate::words::{setting as say, tag};

/// One setting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// Of what.
    pub what: &'static str,
    /// What to set, or what is missing.
    pub said: String,
    /// Whether a person must state something first.
    pub missing: bool,
}

/// The settings of one lathe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ForLathe {
    /// Whose they are.
    pub title: String,
    /// Its number.
    pub number: String,
    /// Line by line.
    pub settings: Vec<Setting>,
}

impl ForLathe {
    /// Works them.
    ///
    /// # Errors
    /// No lathe of that number, or a sheet that is turned into no settings.
    pub fn of(
        book: &Book,
        number: &str,
        sheet: &Sheet,
        house: House,
    ) -> Result<Option<ForLathe>, Failure> {
        let (_, kept) = lathe(book, number)?;
        let number = tag::lathe(kept.number);
        let settings = match sheet.card.id {
            // What the lathe has went into the sheet itself.
            id if FILLED.contains(&id) => return Ok(None),
            TURNING => of_turning(&number, kept, sheet, house)?,
            TAPER => of_taper(&number, kept, sheet, house)?,
            THREAD => of_thread(&number, kept, sheet, house)?,
            id => return Err(Failure::Input(say::sets_nothing(id))),
        };
        Ok(Some(ForLathe {
            title: say::title(&number, &kept.name),
            number,
            settings,
        }))
    }

    /// Below the sheet.
    pub fn text(&self) -> String {
        let lines = self.settings.iter();
        let lines = lines.map(|it| format!("  {}: {}\n", it.what, it.said));
        format!("\n{}\n{}", self.title, lines.collect::<String>())
    }

    /// Beside the sheet.
    pub fn json(&self) -> Value {
        let all = self.settings.iter();
        let all =
            all.map(|it| json!({ "setting": it.what, "says": it.said, "not_known": it.missing }));
        json!({ "lathe": self.number, "title": self.title, "settings": all.collect::<Vec<_>>() })
    }
}

fn of_thread(
    number: &str,
    kept: &Lathe,
    sheet: &Sheet,
    house: House,
) -> Result<Vec<Setting>, Failure> {
    let told = settings(&kept.known, sheet)?;
    let mut all = vec![
        line(number, say::CHANGE_WHEELS, &told.wheels, say::wheels),
        line(number, say::HALF_NUTS, &told.half_nuts, say::half_nuts),
    ];
    if let Some(compound) = &told.compound {
        all.push(line(number, say::BY_COMPOUND, compound, |it| {
            say::infeed(it, house)
        }));
    }
    all.push(line(
        number,
        say::BY_CROSS_SLIDE,
        &told.cross,
        |(it, reads)| say::by_cross(&say::infeed(it, house), reads.word()),
    ));
    all.push(line(number, say::SPINDLE_SPEED, &told.speed, |it| {
        say::speed(*it)
    }));
    all.push(swing(told.swing, say::swing(told.swing, number, house)));
    Ok(all)
}

fn of_turning(
    number: &str,
    kept: &Lathe,
    sheet: &Sheet,
    house: House,
) -> Result<Vec<Setting>, Failure> {
    let told = turning(&kept.known, sheet)?;
    Ok(vec![
        line(number, say::SPINDLE_SPEED, &told.speed, |it| {
            say::turning_speed(*it)
        }),
        line(number, say::CUT, &told.cut, |(it, reads)| {
            say::cut(it, reads.word(), house)
        }),
        swing(told.swing, say::swings(told.swing, number, house)),
    ])
}

fn of_taper(
    number: &str,
    kept: &Lathe,
    sheet: &Sheet,
    house: House,
) -> Result<Vec<Setting>, Failure> {
    let told = taper(kept, sheet)?;
    let mut all = vec![line(number, say::SWIVEL, &told.swivel, |it| {
        say::swivel(*it, house)
    })];
    match &told.set_over {
        Some(over) => all.push(line(number, say::SET_OVER, over, |it| {
            say::set_over(*it, house)
        })),
        None => all.push(Setting {
            what: say::SET_OVER,
            said: say::NO_LENGTH.into(),
            missing: true,
        }),
    }
    if let Some(between) = &told.between {
        all.push(line(number, say::BETWEEN, between, |it| {
            say::between(*it, house)
        }));
    }
    all.push(swing(told.swing, say::swings(told.swing, number, house)));
    Ok(all)
}

fn swing(swing: Swing, said: String) -> Setting {
    Setting {
        what: say::SWING,
        said,
        missing: swing == Swing::NotKnown,
    }
}

fn line<T>(
    number: &str,
    what: &'static str,
    told: &Told<T>,
    say_it: impl FnOnce(&T) -> String,
) -> Setting {
    match told {
        Ok(it) => Setting {
            what,
            said: say_it(it),
            missing: false,
        },
        Err(missing) => Setting {
            what,
            said: say::missing(number, missing),
            missing: true,
        },
    }
}
