//! "Which limit is it for the main pin?" The limits on one quantity under the circumstances told, and the questions
//! still open. What is not told is never guessed: a limit that hangs on it is not given.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::near::near;
use crate::{Body, Rulebook, RulebookError, Ruling, words};

/// The answer to a question for a limit.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Asked {
    /// The rulings that hold under what was told. None, with no needs, means: no limit on file.
    pub rulings: Vec<Ruling>,
    /// What must be told before the other limits on this quantity hold or fall away, each once.
    pub needs: Vec<&'static str>,
}

impl Rulebook {
    /// The limits on a quantity that bound a day under the circumstances told.
    ///
    /// # Arguments
    /// `quantity`: as `side-rod-bore-over-pin`. `told`: answers of `words::QUESTIONS` that are true of the thing
    /// measured, in any order; more may be told than any limit asks.
    ///
    /// # Errors
    /// When no limit of the jurisdiction is on such a quantity, a word is not known, or two answers are told to one
    /// question.
    pub fn limits(
        &self,
        jurisdiction: &str,
        quantity: &str,
        told: &[&str],
        on: Date,
    ) -> Result<Asked, RulebookError> {
        // The likest words are looked for here only: that takes longer than the answer.
        self.limits_if_any(jurisdiction, quantity, told, on)?
            .ok_or_else(|| {
                let quantities = self
                    .in_jurisdiction(jurisdiction)
                    .flat_map(|r| &r.versions)
                    .filter_map(|v| v.body.measures().map(|(q, _)| q));
                RulebookError::Unknown {
                    id: quantity.to_owned(),
                    near: near(quantity, quantities),
                }
            })
    }

    /// As [`Rulebook::limits`], and nothing where no rule in force that day limits the quantity.
    ///
    /// # Errors
    /// As [`Rulebook::limits`], but for that one.
    pub fn limits_if_any(
        &self,
        jurisdiction: &str,
        quantity: &str,
        told: &[&str],
        on: Date,
    ) -> Result<Option<Asked>, RulebookError> {
        let mut answers: BTreeMap<&str, &str> = BTreeMap::new();
        for word in told {
            let Some((question, _)) = words::question(word) else {
                let like = near(word, words::circumstances());
                return Err(RulebookError::Circumstance {
                    problem: format!(
                        "no rule knows the circumstance `{word}`{}",
                        like.first()
                            .map_or_else(String::new, |w| format!("; did you mean `{w}`?"))
                    ),
                });
            };
            if let Some(other) = answers.insert(question.asks, word)
                && other != *word
            {
                return Err(RulebookError::Circumstance {
                    problem: format!(
                        "`{other}` and `{word}` cannot both be true: tell one, {}",
                        question.asks
                    ),
                });
            }
        }
        let mut found = Asked::default();
        let mut known = false;
        let of_it = |body: &Body| body.measures().is_some_and(|(of, _)| of == quantity);
        for ruling in self.in_force_where(jurisdiction, on, of_it)? {
            let Some((_, when)) = ruling.body.measures() else {
                continue;
            };
            known = true;
            let mut open = Vec::new();
            let mut against = false;
            for word in when {
                let Some((question, _)) = words::question(word) else {
                    continue;
                };
                match answers.get(question.asks) {
                    None => open.push(question.asks),
                    Some(told) => against |= told != word,
                }
            }
            if against {
                continue;
            }
            if open.is_empty() {
                found.rulings.push(ruling);
            } else {
                found.needs.extend(open);
            }
        }
        if !known {
            return Ok(None);
        }
        found.needs.sort_unstable();
        found.needs.dedup();
        Ok(Some(found))
    }
}
