//! The rule sets that bind an engine on a day, and what they ask together.
//!
//! Every rule of every set holds. None takes another's place, so where two speak of one matter the stricter binds,
//! and a set that a shop wrote can ask more of an engine and never less.

use jiff::civil::Date;
use rules::{Asked, Origin, Rule, RuleSet, Rulebook, RulebookError, Ruling};

use crate::Refusal;
use crate::book::{Book, Edition, Locomotive, RulesBind};

/// The rule sets of one engine.
#[derive(Debug, Clone, Copy)]
pub struct Law<'a> {
    book: &'a Book,
    rules: &'a Rulebook,
    kept: &'a Locomotive,
}

/// One rule set that binds an engine on the day asked about.
#[derive(Debug, Clone, Copy)]
pub struct Bound<'a> {
    /// Its word.
    pub set: &'a str,
    /// Where it comes from.
    pub origin: Origin,
    /// The rules it holds.
    pub rules: &'a Rulebook,
    /// Which text of it, where the shop wrote it.
    pub edition: Option<u32>,
}

impl<'a> Law<'a> {
    /// The rule sets of an engine.
    ///
    /// # Arguments
    /// `rules`: the rulebook of this program; sets that the shop wrote are in the book.
    pub fn of(book: &'a Book, rules: &'a Rulebook, kept: &'a Locomotive) -> Law<'a> {
        Law { book, rules, kept }
    }

    /// Every set she was ever put under, that she was added under first.
    fn names(&self) -> Vec<&'a str> {
        let mut names = vec![self.kept.jurisdiction.as_str()];
        for told in &self.kept.rules_bound {
            if !names.contains(&told.set.as_str()) {
                names.push(&told.set);
            }
        }
        names
    }

    /// The last statement about one of her sets, if there is any.
    fn told(&self, set: &str) -> Option<&'a RulesBind> {
        self.kept.rules_bound.iter().rfind(|told| told.set == set)
    }

    fn binds(&self, set: &str, on: Date) -> bool {
        let first = set == self.kept.jurisdiction;
        match self.told(set) {
            None => first,
            Some(told) => {
                (first || told.from <= on) && told.through.is_none_or(|through| on <= through)
            }
        }
    }

    /// The sets that bind her on a day, that she was added under first.
    ///
    /// # Errors
    /// Input: no set binds her, one that does is not in the book or does not read, or the day lies before the set
    /// that must speak for her.
    pub fn sets(&self, on: Date) -> Result<Vec<Bound<'a>>, Refusal> {
        let mut bound: Vec<Bound<'a>> = Vec::new();
        let mut ahead = None;
        for set in self.names() {
            if !self.binds(set, on) {
                continue;
            }
            if self.rules.in_jurisdiction(set).next().is_some() {
                bound.push(Bound {
                    set,
                    origin: Origin::Law,
                    rules: self.rules,
                    edition: None,
                });
                continue;
            }
            let Some(kept) = self.book.rule_sets.get(set) else {
                return Err(Refusal::input(format!(
                    "The rule set `{set}` binds No. {} and is not in this book.",
                    self.kept.number
                ))
                .todo("take it in first: rule adopt FILE --from DAY"));
            };
            match kept.on(on) {
                Some((number, edition)) => {
                    let read = reads(set, edition, self.rules)?;
                    bound.push(Bound {
                        set,
                        origin: read.origin,
                        rules: &read.rules,
                        edition: Some(number),
                    });
                }
                None => ahead = ahead.or(kept.editions.first().map(|first| (set, first.from))),
            }
        }
        match (bound.iter().any(|b| b.origin.binds_as_law()), ahead) {
            (true, _) => Ok(bound),
            (false, Some((set, from))) => Err(Refusal::input(format!(
                "The rule set `{set}` of No. {} is in this book from {from} only; what bound {on} is not in it.",
                self.kept.number
            ))),
            (false, None) => Err(Refusal::input(format!(
                "No rule set but the shop's own binds No. {} on {on}: a jurisdiction was expected.",
                self.kept.number
            ))),
        }
    }

    /// Whether a set is among those that bind her on a day.
    ///
    /// # Errors
    /// As [`Law::sets`].
    pub fn is_under(&self, set: &str, on: Date) -> Result<bool, Refusal> {
        Ok(self.sets(on)?.iter().any(|bound| bound.set == set))
    }

    /// Every ruling that binds her on a day, set by set.
    ///
    /// # Errors
    /// As [`Law::sets`]; or the day lies before the coverage of this program's rulebook.
    pub fn in_force(&self, on: Date) -> Result<Vec<Ruling>, Refusal> {
        let mut all = Vec::new();
        for bound in self.sets(on)? {
            all.extend(bound.in_force(on)?);
        }
        Ok(all)
    }

    /// The clocks that bind her on a day, as [`Rulebook::clocks`]; those of several sets for one work together.
    ///
    /// # Errors
    /// As [`Law::in_force`].
    pub fn clocks(&self, on: Date) -> Result<Vec<Ruling>, Refusal> {
        let mut all: Vec<Ruling> = Vec::new();
        for bound in self.sets(on)? {
            if bound.is_silent() {
                continue;
            }
            for clock in bound.rules.clocks(bound.set, on)? {
                let like = |held: &Ruling| held.body.work() == clock.body.work();
                match all.iter().rposition(like) {
                    Some(at) => all.insert(at + 1, clock),
                    None => all.push(clock),
                }
            }
        }
        Ok(all)
    }

    /// The inspections her sets know on a day, each with its meaning.
    ///
    /// # Errors
    /// As [`Law::in_force`].
    pub fn inspections(&self, on: Date) -> Result<Vec<(&'a str, &'a str)>, Refusal> {
        let mut all: Vec<(&str, &str)> = Vec::new();
        for bound in self.sets(on)? {
            if bound.is_silent() {
                continue;
            }
            for (word, meaning) in bound.rules.inspections(bound.set, on)? {
                if all.iter().all(|(known, _)| *known != word) {
                    all.push((word, meaning));
                }
            }
        }
        Ok(all)
    }

    /// The items an inspection asks on a day, set by set, each as [`Rulebook::items`].
    ///
    /// # Errors
    /// As [`Law::in_force`].
    pub fn items(&self, inspection: &str, on: Date) -> Result<Vec<Ruling>, Refusal> {
        let mut all = Vec::new();
        for bound in self.sets(on)? {
            if !bound.is_silent() {
                all.extend(bound.rules.items(bound.set, inspection, on)?);
            }
        }
        Ok(all)
    }

    /// The limits on a quantity that bind her on a day under the circumstances told, of every set together: a
    /// reading must meet each of them.
    ///
    /// # Errors
    /// As [`Law::sets`]; or as [`Rulebook::limits`], where no set of hers has such a limit.
    pub fn limits(&self, quantity: &str, told: &[&str], on: Date) -> Result<Asked, Refusal> {
        let mut whole = Asked::default();
        let (mut known, mut unknown) = (false, None);
        for bound in self.sets(on)? {
            match bound.limits(quantity, told, on) {
                Ok(asked) => {
                    known = true;
                    whole.rulings.extend(asked.rulings);
                    whole.needs.extend(asked.needs);
                }
                Err(error @ RulebookError::Unknown { .. }) => unknown = unknown.or(Some(error)),
                Err(other) => return Err(other.into()),
            }
        }
        match (known, unknown) {
            (false, Some(error)) => Err(error.into()),
            _ => {
                whole.needs.sort_unstable();
                whole.needs.dedup();
                Ok(whole)
            }
        }
    }

    /// The version of a rule that bound a day, whichever set it is of.
    ///
    /// # Errors
    /// Input: there is no such rule, or none that day.
    pub fn ruling(&self, id: &str, on: Date) -> Result<Ruling, Refusal> {
        let kept = id.split_once('.').and_then(|(set, _)| {
            let kept = self.book.rule_sets.get(set)?;
            Some((set, kept.on(on)?.1))
        });
        match kept {
            Some((set, edition)) => Ok(reads(set, edition, self.rules)?.rules.ruling(id, on)?),
            None => Ok(self.rules.ruling(id, on)?),
        }
    }

    /// Whether any rule of any set she was ever put under is so, by its newest text.
    pub fn any(&self, is: impl Fn(&Rule) -> bool) -> bool {
        self.names().into_iter().any(|set| {
            let built_in = self.rules.in_jurisdiction(set);
            let newest = self.book.rule_sets.get(set).and_then(|kept| kept.newest());
            let kept = newest.and_then(|(_, edition)| edition.rules(self.rules).ok());
            let kept = kept.into_iter().flat_map(|read| read.rules.rules());
            built_in.chain(kept).any(&is)
        })
    }

    /// Whether she has service days: whether one of her sets says what one is.
    pub fn counts_service_days(&self) -> bool {
        self.any(|rule| rule.kind == rules::Kind::Definition)
    }

    /// The sets that bind her on a day, in words: `us-steam, juniper-fork (this shop's own)`.
    pub fn told_on(&self, on: Date) -> String {
        match self.sets(on) {
            Ok(bound) => {
                let names: Vec<_> = bound.iter().map(Bound::told).collect();
                names.join(", ")
            }
            Err(_) => self.kept.jurisdiction.clone(),
        }
    }
}

impl<'a> Bound<'a> {
    /// A set that the shop wrote and that holds no rule says nothing; the rulebook is asked and refuses by itself.
    fn is_silent(&self) -> bool {
        self.origin != Origin::Law && self.rules.rules().next().is_none()
    }

    /// Its rulings of a day.
    pub(crate) fn in_force(&self, on: Date) -> Result<Vec<Ruling>, RulebookError> {
        if self.is_silent() {
            return Ok(Vec::new());
        }
        self.rules.in_force(self.set, on)
    }

    /// Its limits on a quantity, as [`Rulebook::limits`].
    ///
    /// # Errors
    /// As there.
    pub fn limits(&self, quantity: &str, told: &[&str], on: Date) -> Result<Asked, RulebookError> {
        self.rules.limits(self.set, quantity, told, on)
    }

    /// As [`Bound::limits`], and nothing where it has none.
    ///
    /// # Errors
    /// As [`Rulebook::limits_if_any`].
    pub fn limits_if_any(
        &self,
        quantity: &str,
        told: &[&str],
        on: Date,
    ) -> Result<Option<Asked>, RulebookError> {
        self.rules.limits_if_any(self.set, quantity, told, on)
    }

    /// Its name, with what it is where it is not the rulebook of this program.
    pub fn told(&self) -> String {
        match self.origin {
            Origin::Law => self.set.to_string(),
            other => format!("{} ({})", self.set, other.told()),
        }
    }
}

fn reads<'e>(set: &str, edition: &'e Edition, rules: &Rulebook) -> Result<&'e RuleSet, Refusal> {
    edition.rules(rules).map_err(|why| {
        Refusal::input(format!(
            "The rule set `{set}` as taken in by entry {} does not read: {why}",
            edition.entry
        ))
    })
}

/// A rule by its id: of the rulebook of this program, or of the newest text of a set in the book.
///
/// # Errors
/// Input: there is none; names like it are offered.
pub fn rule<'a>(book: &'a Book, rules: &'a Rulebook, id: &str) -> Result<&'a Rule, Refusal> {
    let set = id.split_once('.').map_or(id, |(set, _)| set);
    let newest = book.rule_sets.get(set).and_then(|kept| kept.newest());
    match newest {
        Some((_, edition)) => Ok(reads(set, edition, rules)?.rules.rule(id)?),
        None => Ok(rules.rule(id)?),
    }
}
