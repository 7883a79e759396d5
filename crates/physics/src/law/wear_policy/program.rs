//! The dynamic program: from the last opening back to the first, the act that is cheapest from there on.
//!
//! Nothing here knows a length: metal is counted in whole cuts, wear in whole parts of a cut.

/// What may be done to a part at an opening, or where it stopped the engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act {
    /// Left as it is.
    Leave,
    /// Cut back to true, by as few cuts as clear the wear, and one at least.
    Cut,
    /// Bushed or renewed: full metal, no wear.
    Renew,
}

/// A part and what it costs to keep, all in whole cuts, whole parts of a cut, and hours.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// Parts of wear that one cut clears; one at least.
    pub parts: usize,
    /// Cuts left in a new part.
    pub new_cuts: usize,
    /// Wear that a limit allows, in parts.
    pub wear_limit: usize,
    /// Wear from one opening to the next: parts, and their chance. The chances add up to 1.
    pub wear: Vec<(usize, f64)>,
    /// Hours to leave it, to cut it, to renew it.
    pub hours: [f64; 3],
    /// Hours more where the act is forced between openings.
    pub forced: f64,
    /// Openings in the horizon; as many stretches of service follow them.
    pub openings: usize,
}

/// A part at one moment: cuts left in it, and wear since it was last true.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct State {
    /// Whole cuts left.
    pub cuts: usize,
    /// Wear since the last cut, in parts.
    pub wear: usize,
}

/// What is expected from some state on.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Expected {
    /// Hours.
    pub hours: f64,
    /// Stops out of turn.
    pub stops: f64,
}

/// A way to choose: given the opening, counted from 0, whether it is forced, the state, and which acts can be done.
pub type Rule<'a> = &'a dyn Fn(usize, bool, State) -> Act;

/// The chosen act at every opening and state, and what it is expected to cost.
#[derive(Debug, Clone)]
pub struct Plan {
    width: usize,
    /// One layer for each opening: the act of each state.
    layers: Vec<Vec<Act>>,
    /// What is expected from each state at the first opening.
    first: Vec<Expected>,
}

impl Plan {
    /// The act at one opening, counted from 0.
    pub fn act(&self, opening: usize, state: State) -> Option<Act> {
        let layer = self.layers.get(opening)?;
        layer.get(state.cuts * self.width + state.wear).copied()
    }

    /// What is expected from `state` at the first opening.
    pub fn expected(&self, state: State) -> Expected {
        let at = state.cuts * self.width + state.wear;
        self.first.get(at).copied().unwrap_or_default()
    }
}

impl Model {
    /// The wear at which a part with `cuts` left must not run on: the limit, or the metal itself where that is less.
    pub fn limit(&self, cuts: usize) -> usize {
        self.wear_limit.min(cuts * self.parts)
    }

    /// The state after `act`; none where it cannot be done.
    pub fn after(&self, act: Act, state: State) -> Option<State> {
        match act {
            Act::Leave => (state.wear <= self.limit(state.cuts)).then_some(state),
            Act::Cut => {
                let takes = state.wear.div_ceil(self.parts).max(1);
                let cuts = state.cuts.checked_sub(takes)?;
                Some(State { cuts, wear: 0 })
            }
            Act::Renew => Some(State {
                cuts: self.new_cuts,
                wear: 0,
            }),
        }
    }

    fn cost(&self, act: Act) -> f64 {
        let [leave, cut, renew] = self.hours;
        match act {
            Act::Leave => leave,
            Act::Cut => cut,
            Act::Renew => renew,
        }
    }

    /// The states there are, and how many wears each number of cuts has a place for.
    fn states(&self) -> (usize, impl Iterator<Item = State> + '_) {
        let width = self.wear_limit + 1;
        let all = (0..=self.new_cuts)
            .flat_map(move |cuts| (0..width).map(move |wear| State { cuts, wear }));
        (width, all)
    }

    /// The cheapest plan of all.
    pub fn cheapest(&self) -> Plan {
        self.worked(None)
    }

    /// What a rule laid down beforehand is expected to cost. Where it names an act that cannot be done, the part is renewed.
    pub fn by_rule(&self, rule: Rule) -> Plan {
        self.worked(Some(rule))
    }

    fn worked(&self, rule: Option<Rule>) -> Plan {
        let (width, _) = self.states();
        let mut next = vec![Expected::default(); width * (self.new_cuts + 1)];
        let mut layers = Vec::with_capacity(self.openings);
        for opening in (0..self.openings).rev() {
            // What follows each state once the act is done: a stretch of service, and the next opening.
            let (_, states) = self.states();
            let runs: Vec<Expected> = states
                .map(|state| self.service(opening, state, &next, width, rule))
                .collect();
            let (_, states) = self.states();
            let (acts, now) = states
                .map(|state| {
                    self.choose(opening, false, state, rule, &|after| {
                        runs.get(after.cuts * width + after.wear)
                            .copied()
                            .unwrap_or_default()
                    })
                })
                .unzip();
            layers.push(acts);
            next = now;
        }
        layers.reverse();
        Plan {
            width,
            layers,
            first: next,
        }
    }

    /// What is expected from the stretch of service after `opening` and from all that follows.
    fn service(
        &self,
        opening: usize,
        from: State,
        next: &[Expected],
        width: usize,
        rule: Option<Rule>,
    ) -> Expected {
        let limit = self.limit(from.cuts);
        let mut sum = Expected::default();
        for (wear, chance) in &self.wear {
            let worn = from.wear + wear;
            let then = if worn <= limit {
                next.get(from.cuts * width + worn)
                    .copied()
                    .unwrap_or_default()
            } else {
                // It stops at the limit, is put right there, and wears what is left of the stretch.
                let stopped = State {
                    cuts: from.cuts,
                    wear: limit,
                };
                let (_, put_right) = self.choose(opening, true, stopped, rule, &|after| {
                    let wear = (worn - limit).min(self.limit(after.cuts));
                    next.get(after.cuts * width + wear)
                        .copied()
                        .unwrap_or_default()
                });
                Expected {
                    hours: put_right.hours + self.forced,
                    stops: put_right.stops + 1.0,
                }
            };
            sum.hours += chance * then.hours;
            sum.stops += chance * then.stops;
        }
        sum
    }

    /// The act in one state and what is expected with it. A part stopped at its limit is not left.
    fn choose(
        &self,
        opening: usize,
        forced: bool,
        state: State,
        rule: Option<Rule>,
        then: &dyn Fn(State) -> Expected,
    ) -> (Act, Expected) {
        let with = |act: Act| {
            let allowed = !(forced && act == Act::Leave);
            let after = self.after(act, state).filter(|_| allowed)?;
            let then = then(after);
            Some((
                act,
                Expected {
                    hours: self.cost(act) + then.hours,
                    stops: then.stops,
                },
            ))
        };
        if let Some(rule) = rule
            && let Some(chosen) = with(rule(opening, forced, state))
        {
            return chosen;
        }
        let renewed = with(Act::Renew).unwrap_or((Act::Renew, Expected::default()));
        if rule.is_some() {
            return renewed;
        }
        // Among equals the one that takes least away: leave before cut, cut before renew.
        [Act::Leave, Act::Cut]
            .into_iter()
            .rev()
            .filter_map(with)
            .fold(renewed, |best, one| {
                let dust = 1e-12 * best.1.hours.abs();
                if one.1.hours <= best.1.hours + dust {
                    one
                } else {
                    best
                }
            })
    }
}
