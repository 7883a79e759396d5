//! Leave, cut or renew over the years: the sheet `wear.policy`, with what the book has of each of its arguments and what it
//! lacks, named with what would settle it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{House, Rounding, Size, State, Unit, show};
use physics::{Basis, Given, Sheet};
use rules::Rulebook;

use super::forecast::{Forecast, Wear, inches, quantity, wear};
use super::hours::{self, plain};
use super::opening::Reading;
use crate::Refusal;
use crate::book::{Book, Family, Part, PartId, Route, Rung};
use crate::locomotive::{family, part_of};

/// The sheet that is worked.
pub const SHEET: &str = "wear.policy";

/// One argument of the sheet.
#[derive(Debug, Clone)]
pub struct Stands {
    /// Its name.
    pub name: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// What the book has, or somebody typed, and where from.
    pub given: Option<Given>,
    /// What would settle it, where the book does not have it.
    pub settles: String,
}

/// The plan of one size.
#[derive(Debug, Clone)]
pub struct Plan {
    /// What it is.
    pub title: String,
    /// Every argument, in the sheet's order.
    pub stands: Vec<Stands>,
    /// The sheet, where nothing is missing; or why it does not work.
    pub sheet: Option<Result<Sheet, String>>,
}

/// Which sizes of a part have steps to plan over.
pub fn planned(family: &Family) -> Vec<&Rung> {
    family.rungs.iter().collect()
}

/// The plan of a size. What is `typed` stands in place of what the book has.
///
/// # Errors
/// Input: the family plans no such size, or as [`wear`].
pub fn plan(
    book: &Book,
    rules: &Rulebook,
    (id, size): (PartId, &str),
    typed: &BTreeMap<String, String>,
    on: Date,
    reader: House,
    a_year: Option<u32>,
) -> Result<Plan, Refusal> {
    let part = part_of(book, id)?;
    let family = family(book, &part.family)?;
    let rung = family.rungs.iter().find(|rung| rung.size == size);
    let rung = rung.ok_or_else(|| {
        let known: Vec<_> = family.rungs.iter().map(|rung| rung.size.as_str()).collect();
        let known = match known.is_empty() {
            true => "the family names none".to_string(),
            false => format!("{} were expected", known.join(", ")),
        };
        Refusal::input(format!(
            "There is no plan of cuts for the {size} of a {}: {known}.",
            family.family
        ))
    })?;
    let told = wear(book, rules, id, on, reader, a_year)?;
    let forecast = told.forecasts.iter().find(|it| it.name == size);
    let known = Known {
        book,
        part,
        family,
        rung,
        told: &told,
        forecast,
        on,
    };
    let card = physics::find(SHEET)
        .map_err(|why| Refusal::input(why.to_string()))?
        .card;
    let mut stands = Vec::new();
    for argument in card.arguments {
        let (given, settles) = match typed.get(argument.name) {
            Some(text) => (Some(Given::typed(argument.name, text)), String::new()),
            None => match known.of(argument.name) {
                Ok((text, basis)) => (
                    Some(Given {
                        name: argument.name.into(),
                        text,
                        basis,
                    }),
                    String::new(),
                ),
                Err(settles) => (None, settles),
            },
        };
        stands.push(Stands {
            name: argument.name,
            meaning: argument.meaning,
            given,
            settles,
        });
    }
    let given: Option<Vec<Given>> = stands.iter().map(|it| it.given.clone()).collect();
    let sheet =
        given.map(|given| physics::run(SHEET, &given, reader).map_err(|why| why.to_string()));
    let title = family
        .feature(size)
        .map_or(size, |feature| &feature.title)
        .to_string();
    Ok(Plan {
        title,
        stands,
        sheet,
    })
}

struct Known<'k> {
    book: &'k Book,
    part: &'k Part,
    family: &'k Family,
    rung: &'k Rung,
    told: &'k Wear,
    forecast: Option<&'k Forecast>,
    on: Date,
}

type Found = Result<(String, Basis), String>;

impl Known<'_> {
    /// What the book has of an argument; or what would settle it.
    fn of(&self, argument: &str) -> Found {
        match argument {
            "metal" => {
                let (day, _, left) = self.surface()?;
                let basis = Basis::Reading(format!("as left on {day}, less {}", self.limit()?.1));
                Ok((inches(self.past(left)?), basis))
            }
            "wear" => {
                let (_, since, left) = self.surface()?;
                let (day, state, now) = since;
                if state == State::AsLeft {
                    return Ok(("0 in".into(), Basis::Reading(format!("as left on {day}"))));
                }
                let went = match self.larger() {
                    true => now.checked_sub(left),
                    false => left.checked_sub(now),
                };
                let went = went.ok_or("readings of one part")?.max(Size::ZERO);
                Ok((inches(went), Basis::Reading(format!("as found on {day}"))))
            }
            "new_metal" => {
                let built = self.told_size(|told| told.as_built.as_deref());
                let built = built.ok_or("the size as built: `part tell --as-built`")?;
                let basis = Basis::Drawing(format!("as built, less {}", self.limit()?.1));
                Ok((inches(self.past(built)?), basis))
            }
            "step" => {
                let step = self.told_size(|told| told.step.as_deref());
                let step = step.ok_or("what one cut usually takes: `part tell --step`")?;
                Ok((inches(step), Basis::Drawing("as the part has it".into())))
            }
            "wear_limit" => Err("how much it may wear from one cut to the next: the officer's figure, or a limit on what mates with it".into()),
            "wear_mean" | "wear_spread" => {
                let (days, why) = self.stretch()?;
                let forecast = self.forecast.ok_or("a reading as found after one as left")?;
                let (result, needs) = match argument {
                    "wear_mean" => ("rate", "an opening with its as left and its service days"),
                    _ => ("spread", "a second opening with its as left and its service days"),
                };
                let rate = quantity(&forecast.sheet, result).ok_or(needs)?.max(0.0);
                let over = Unit::Inch.from_si(rate) * f64::from(days);
                let text = format!("{} in", show::number(over, 5, Rounding::Up));
                Ok((text, Basis::Found(format!("wear.forecast: {result}, times {days} service days ({why})"))))
            }
            "hours_leave" => self.hours(self.family.routes.iter().find(|route| route.carries)),
            "hours_cut" => self.hours(self.family.route(&self.rung.cut)),
            "hours_renew" => self.hours(self.family.route(&self.rung.renew)),
            "hours_forced" => Err("hours more where it stops her between openings: taking down out of turn, lost days as the shop counts them".into()),
            "openings" => {
                let (days, _) = self.stretch()?;
                let whole = self.told.coming.ahead.iter().find(|ahead| ahead.what == "1472");
                let whole = whole.ok_or("the service days left to her 1472")?;
                let openings = (whole.days / days).clamp(1, 60);
                let basis = Basis::Found(format!("{} service days to the 1472, {days} from opening to opening", whole.days));
                Ok((openings.to_string(), basis))
            }
            _ => Err("this".into()),
        }
    }

    fn larger(&self) -> bool {
        self.forecast.is_some_and(|forecast| forecast.larger)
    }

    /// The size as it was last left, with its day, and the newest reading.
    fn surface(&self) -> Result<(Date, Reading, Size), String> {
        let need = "a reading as left, and one as found after it";
        let forecast = self.forecast.ok_or(need)?;
        let (day, state, now) = forecast.now;
        if state == State::AsLeft {
            return Ok((day, forecast.now, now));
        }
        let left = forecast.openings.last().and_then(|opening| opening.left);
        let (day, left) = left.ok_or(need)?;
        Ok((day, forecast.now, left))
    }

    /// The limit met first, and whose it is.
    fn limit(&self) -> Result<(Size, &'static str), String> {
        let forecast = self
            .forecast
            .ok_or("a reading as found after one as left")?;
        let law = forecast
            .rule_limit
            .as_ref()
            .map(|(size, _)| (*size, "the law's limit"));
        let ours = forecast.shop_limit.map(|size| (size, "our shop limit"));
        let all = law.into_iter().chain(ours);
        let first = match forecast.larger {
            true => all.min_by_key(|(size, _)| *size),
            false => all.max_by_key(|(size, _)| *size),
        };
        first.ok_or_else(|| "the size that condemns it: `part tell --shop-limit`".into())
    }

    /// What lies between a size and its limit.
    fn past(&self, size: Size) -> Result<Size, String> {
        let (limit, _) = self.limit()?;
        let between = match self.larger() {
            true => limit.checked_sub(size),
            false => size.checked_sub(limit),
        };
        Ok(between.ok_or("sizes of one part")?.max(Size::ZERO))
    }

    fn told_size(&self, of: impl Fn(&crate::book::FeatureTold) -> Option<&str>) -> Option<Size> {
        let told = self.part.features.get(&self.rung.size)?;
        Size::parse(of(told)?).ok()
    }

    /// Service days from one annual to the next.
    fn stretch(&self) -> Result<(u32, String), String> {
        let (a_year, whose) = self.told.coming.a_year.as_ref().ok_or(
            "the service days she makes in a year: typed here, or the log of the last 365 days closed",
        )?;
        Ok(((*a_year).max(1), format!("a year, {whose}")))
    }

    /// The likely hours of a way: our own where closed jobs have them, else the family's.
    fn hours(&self, route: Option<&Route>) -> Found {
        let route = route.ok_or("the hours of that way")?;
        if let Some((own, jobs)) =
            hours::own(self.book, &self.family.family, &route.word, None, self.on)
        {
            let [_, likely, _] = own;
            return Ok((
                plain(likely),
                Basis::Reading(format!("{}: median of {jobs} closed jobs", route.title)),
            ));
        }
        let [_, likely, _] = route.hours();
        if likely.0 == 0 {
            return Err(format!(
                "hours to {}, looking and measuring counted",
                route.title
            ));
        }
        Ok((
            plain(likely),
            Basis::Table(format!("{}, as the family has it", route.title)),
        ))
    }
}
