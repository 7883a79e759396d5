//! All that this program has a version of a rule say, line by line: what a person holds against the official text,
//! and by which it is seen later whether the same still stands here.
//!
//! Our own reading, the mark and the edition read are left out: they say how we came to it, not what it comes to.

use crate::body::Bands;
use crate::{
    AtValue, Axis, Body, Calendar, Compare, Count, CountUnit, Definition, Filing, Item, Keep,
    Limit, LimitFormula, LimitTable, MonthEnd, Retention, Side, Span, Version, WhicheverFirst,
};

impl Version {
    /// What this version says, one `word: what` a line. Two versions of which this is the same say the same. It is
    /// stored with the word of whoever held it against the law, so its shape is changed only where the law's words
    /// that it tells are.
    pub fn as_told(&self) -> String {
        let mut told = Told(String::new());
        told.line("section", &self.cite.section);
        told.line("source", &self.cite.source);
        told.line("in force from", &self.in_force.to_string());
        told.line("kind", self.body.kind().word());
        told.body(&self.body);
        told.0
    }
}

struct Told(String);

impl Told {
    fn line(&mut self, word: &str, what: &str) {
        // A line is a line, whatever stands in it.
        let what: Vec<_> = what.split_whitespace().collect();
        self.0.push_str(&format!("{word}: {}\n", what.join(" ")));
    }

    fn some(&mut self, word: &str, what: Option<&str>) {
        if let Some(what) = what {
            self.line(word, what);
        }
    }

    fn all(&mut self, word: &str, what: &[String]) {
        for one in what {
            self.line(word, one);
        }
    }

    // Each kind is taken apart by name, so that a fact added to it cannot be forgotten here.
    fn body(&mut self, body: &Body) {
        match body {
            Body::Definition(Definition {
                term,
                together,
                fireless,
            }) => {
                self.line("term", term);
                self.all("together", together);
                self.all("fireless", fireless);
            }
            Body::Count(it) => self.count(it),
            Body::Calendar(it) => self.calendar(it),
            Body::WhicheverFirst(it) => self.whichever(it),
            Body::Limit(it) => self.limit(it),
            Body::LimitTable(it) => self.table(it),
            Body::LimitFormula(it) => self.formula(it),
            Body::Item(it) => self.item(it),
            Body::Filing(it) => self.filing(it),
            Body::Retention(Retention { what, keep, at }) => {
                self.line("paper", what);
                let keep = match keep {
                    Keep::Days(days) => format!("{days} days"),
                    Keep::LifeOfBoiler => "the life of the boiler".into(),
                    Keep::WhileCurrent => "while current".into(),
                    Keep::NoPeriodInText => "no period in the text".into(),
                };
                self.line("kept", &keep);
                self.all("at", at);
            }
        }
    }

    fn count(&mut self, it: &Count) {
        let Count {
            unit: of,
            due_after,
            inspection,
            restarted_by,
            restarted_by_items,
            cautious,
        } = it;
        self.line("work", inspection);
        self.line("due after", &format!("{due_after} {}", unit(*of)));
        self.all("restarted by", restarted_by);
        self.all("restarted by item", restarted_by_items);
        if let Some(cautious) = cautious {
            let told = format!("{}: {}", span(cautious.span), cautious.why);
            self.line("cautious", &told);
        }
    }

    fn calendar(&mut self, it: &Calendar) {
        let Calendar {
            span: within,
            inspection,
            restarted_by,
            from,
            only_if,
            at_once,
            out_of_use,
        } = it;
        self.line("work", inspection);
        self.line("within", &span(*within));
        self.line("from", from);
        self.all("restarted by", restarted_by);
        if let Some(fact) = only_if {
            self.line("only if", &format!("{} is {}", fact.fact, fact.is));
        }
        self.all("at once", at_once);
        if let Some(credit) = out_of_use {
            let told = format!("{} days or more, {}", credit.least_days, credit.section);
            self.line("out of use", &told);
        }
    }

    fn whichever(&mut self, it: &WhicheverFirst) {
        let WhicheverFirst {
            counts,
            calendar,
            first_start,
            inspection,
            restarted_by,
        } = it;
        self.line("work", inspection);
        for arm in counts {
            self.line(
                "due after",
                &format!("{} {}", arm.due_after, unit(arm.unit)),
            );
        }
        if let Some(arm) = calendar {
            let told = format!("{} from {}", span(arm.span), arm.from);
            self.line("within", &told);
        }
        if let Some(first) = first_start {
            let within = span(first.within);
            let told = format!(
                "{}, at latest {}, within {within}",
                first.event, first.at_latest
            );
            self.line("first start", &told);
        }
        self.all("restarted by", restarted_by);
    }

    fn limit(&mut self, it: &Limit) {
        let Limit {
            quantity,
            subject,
            measured,
            when,
            compare,
            value: _, // it is `written`, read
            written,
            at_value,
            unit,
            grounds,
            together_with,
        } = it;
        self.held((quantity, subject, measured), when, *compare, *at_value);
        self.line("value", written);
        self.line("unit", unit);
        self.grounds(*grounds);
        self.some("together with", together_with.as_deref());
    }

    fn table(&mut self, it: &LimitTable) {
        let LimitTable {
            quantity,
            subject,
            measured,
            when,
            compare,
            at_value,
            unit,
            grounds,
            rows,
            columns,
            cells,
        } = it;
        self.held((quantity, subject, measured), when, *compare, *at_value);
        self.line("unit", unit);
        self.grounds(*grounds);
        self.axis("rows", rows);
        if let Some(columns) = columns {
            self.axis("columns", columns);
        }
        for (label, row) in rows.labels().iter().zip(cells) {
            let row: Vec<_> = row.iter().map(|(written, _)| written.as_str()).collect();
            self.line("row", &format!("{label} | {}", row.join(" | ")));
        }
    }

    fn axis(&mut self, word: &str, it: &Axis) {
        let Axis { name, unit, bands } = it;
        let bands = match bands {
            // The labels say the edges, and whether the last band is open.
            Bands::Edges { .. } => it.labels(),
            Bands::Words(words) => words.clone(),
        };
        self.line(word, &format!("{name}, {unit} | {}", bands.join(" | ")));
    }

    fn formula(&mut self, it: &LimitFormula) {
        let LimitFormula {
            quantity,
            subject,
            measured,
            when,
            compare,
            at_value,
            unit,
            grounds,
            written,
            facts,
            formula: _, // it is `written`, read
        } = it;
        self.held((quantity, subject, measured), when, *compare, *at_value);
        self.line("formula", written);
        self.line("unit", unit);
        self.grounds(*grounds);
        for fact in facts {
            let told = format!("{}, {}: {}", fact.name, fact.unit, fact.meaning);
            self.line("fact", &told);
        }
    }

    fn held(
        &mut self,
        (quantity, subject, measured): (&str, &str, &str),
        when: &[String],
        compare: Compare,
        at_value: AtValue,
    ) {
        self.line("quantity", quantity);
        self.line("of", subject);
        self.line("measured", measured);
        self.all("when", when);
        self.line("compare", compare.word());
        let at = match at_value {
            AtValue::Passes => "passes",
            AtValue::Fails => "fails",
        };
        self.line("at the value", at);
    }

    fn grounds(&mut self, grounds: bool) {
        self.line("grounds her", if grounds { "yes" } else { "no" });
    }

    fn item(&mut self, it: &Item) {
        let Item {
            inspections,
            occasion,
            order: _, // our own, for the list
            listed,
            at_start_of_day,
            text,
            question,
            except,
            limits,
            fitting,
            needs,
            section,
        } = it;
        self.all("inspection", inspections);
        self.some("occasion", occasion.as_deref());
        self.line("text", text);
        self.line("asks", question);
        self.line("item's section", section);
        self.line("on a list", if *listed { "yes" } else { "no" });
        self.line("start of day", if *at_start_of_day { "yes" } else { "no" });
        self.some("except", except.as_deref());
        self.all("held against", limits);
        self.some("only with", fitting.as_deref());
        self.all("needs", needs);
    }

    fn filing(&mut self, it: &Filing) {
        let Filing {
            what,
            when,
            to,
            contents,
            signed_by,
            inspections,
        } = it;
        self.line("paper", what);
        let side = match when.before_or_after {
            Side::Before => "before",
            Side::After => "after",
        };
        let within = when.span.map_or("at once".into(), span);
        self.line("when", &format!("{within} {side} {}", when.of));
        self.all("to", to);
        self.all("holds", contents);
        self.all("signed by", signed_by);
        self.all("inspection", inspections);
    }
}

fn unit(unit: CountUnit) -> &'static str {
    match unit {
        CountUnit::ServiceDay => "service days",
        CountUnit::Annual => "annual inspections",
        CountUnit::DayOfUse => "days of use",
    }
}

fn span(span: Span) -> String {
    let short = |end| match end {
        MonthEnd::LastDay => "the last day of a short month",
        MonthEnd::FirstOfNext => "the first day after a short month",
    };
    match span {
        Span::Days(n) => format!("{n} days"),
        Span::Months(n, end) => format!("{n} months, {}", short(end)),
        Span::Years(n, end) => format!("{n} years, {}", short(end)),
    }
}
