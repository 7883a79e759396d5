//! The settings of a lathe for a worked thread, as every door tells them.

use measure::House;
use physics::Sheet;
use serde_json::{Value, json};
use shop::book::Book;
use shop::lathe::{Swing, Told, settings};
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
    /// No lathe of that number, or a sheet that is no thread's.
    pub fn of(book: &Book, number: &str, sheet: &Sheet, house: House) -> Result<ForLathe, Failure> {
        let (_, kept) = lathe(book, number)?;
        let number = tag::lathe(kept.number);
        let told = settings(&kept.known, sheet)?;
        let mut all = vec![
            line(&number, say::CHANGE_WHEELS, &told.wheels, say::wheels),
            line(&number, say::HALF_NUTS, &told.half_nuts, say::half_nuts),
        ];
        if let Some(compound) = &told.compound {
            let said = line(&number, say::BY_COMPOUND, compound, |it| {
                say::infeed(it, house)
            });
            all.push(said);
        }
        all.push(line(
            &number,
            say::BY_CROSS_SLIDE,
            &told.cross,
            |(it, reads)| say::by_cross(&say::infeed(it, house), reads.word()),
        ));
        all.push(line(&number, say::SPINDLE_SPEED, &told.speed, |it| {
            say::speed(*it)
        }));
        all.push(Setting {
            what: say::SWING,
            said: say::swing(told.swing, &number, house),
            missing: told.swing == Swing::NotKnown,
        });
        Ok(ForLathe {
            title: say::title(&number, &kept.name),
            number,
            settings: all,
        })
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
