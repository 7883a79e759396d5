//! A reading held against a limit, on the rule's own page: a form that asks and enters nothing, and the answer.

use std::collections::BTreeMap;

use maud::{Markup, html};
use rules::{
    Axis, Bands, Body, Rule as LawRule, words::QUESTIONS, words::Question, words::question,
};
use shop::locomotive::engine;
use shop::verdict::{Answered, Checked, Fineness, Verdict};

use super::{View, kit};
use crate::Failure;
use crate::verb::rule::Rule;
use crate::web::trouble;
use crate::words::{self, rule as say};

/// A fact that some limit on the quantity hangs on.
struct Wanted {
    name: String,
    unit: String,
    meaning: String,
    words: Vec<String>,
}

/// The form and, once a reading is given, the answer; nothing for a rule that is no limit.
pub fn draw(view: &View<'_>, rule: &LawRule) -> Markup {
    let Some((quantity, own)) = rule
        .versions
        .last()
        .and_then(|version| version.body.measures())
    else {
        return html! {};
    };
    let asked = questions(view, rule, quantity);
    let facts = facts(view, rule, quantity);
    let asks = !view.asked("reading").is_empty();
    let answer = asks.then(|| answered(view, rule, quantity, &asked, &facts));
    html! {
        @match &answer {
            Some(Ok(answered)) => (told(view, answered)),
            Some(Err(failure)) => (trouble::said(&failure.to_string())),
            None => {}
        }
        (form(view, rule, own, &asked, &facts, asks))
    }
}

/// The questions that decide between the limits on a quantity.
fn questions(view: &View<'_>, rule: &LawRule, quantity: &str) -> Vec<&'static Question> {
    let mut asks: Vec<&str> = Vec::new();
    for other in view.rules.in_jurisdiction(&rule.jurisdiction) {
        for version in &other.versions {
            if let Some((of, when)) = version.body.measures()
                && of == quantity
            {
                asks.extend(when.iter().filter_map(|w| question(w)).map(|(q, _)| q.asks));
            }
        }
    }
    let all = QUESTIONS.iter();
    all.filter(|question| asks.contains(&question.asks))
        .collect()
}

/// The facts that tables and formulas on a quantity hang on, each once.
fn facts(view: &View<'_>, rule: &LawRule, quantity: &str) -> Vec<Wanted> {
    let mut all: BTreeMap<String, Wanted> = BTreeMap::new();
    let mut add = |name: &str, unit: &str, meaning: &str, words: Vec<String>| {
        let name = name.replace('_', "-");
        all.entry(name.clone()).or_insert_with(|| Wanted {
            name,
            unit: unit.into(),
            meaning: meaning.into(),
            words,
        });
    };
    let axis_words = |axis: &Axis| match &axis.bands {
        Bands::Words(words) => words.clone(),
        Bands::Edges { .. } => Vec::new(),
    };
    let others = view.rules.in_jurisdiction(&rule.jurisdiction);
    let on_it = others
        .filter_map(|other| other.versions.last())
        .map(|version| &version.body)
        .filter(|body| body.measures().is_some_and(|(of, _)| of == quantity));
    for body in on_it {
        match body {
            Body::LimitTable(table) => {
                for axis in [Some(&table.rows), table.columns.as_ref()]
                    .into_iter()
                    .flatten()
                {
                    add(&axis.name, &axis.unit, "", axis_words(axis));
                }
            }
            Body::LimitFormula(formula) => {
                for fact in &formula.facts {
                    add(&fact.name, &fact.unit, &fact.meaning, Vec::new());
                }
            }
            _ => {}
        }
    }
    all.into_values().collect()
}

fn answered(
    view: &View<'_>,
    rule: &LawRule,
    quantity: &str,
    asked: &[&Question],
    facts: &[Wanted],
) -> Result<Answered, Failure> {
    let filled = |name: &str| {
        Some(view.asked(name))
            .filter(|v| !v.is_empty())
            .map(str::to_string)
    };
    let number = view.asked("engine");
    let kept = if number.is_empty() {
        None
    } else {
        Some(engine(view.book, number)?.1)
    };
    let names = 0..asked.len();
    let asks = Rule {
        id: Some(quantity.to_string()),
        list: false,
        act: None,
        reading: filled("reading"),
        uncertainty: filled("uncertainty"),
        so: names.filter_map(|n| filled(&format!("so-{n}"))).collect(),
        facts: facts
            .iter()
            .filter_map(|f| {
                Some(format!(
                    "{}={}",
                    f.name,
                    filled(&format!("fact-{}", f.name))?
                ))
            })
            .collect(),
        engine: filled("engine"),
        rules: Some(rule.jurisdiction.clone()),
    };
    asks.answered(view.book, view.rules, kept, view.on, view.house)
}

fn told(view: &View<'_>, answered: &Answered) -> Markup {
    html! {
        section class="ruled" {
            h2 { (say::ANSWER) }
            p { (kit::verdict(&answered.verdict)) " " (say::because(&answered.verdict)) }
            dl class="facts" {
                @if let Some(reading) = &answered.reading { dt { (say::READ) } dd class="fig" { (reading) } }
                dt { (say::WITHIN_WHAT) } dd { (answered.uncertainty.as_deref().unwrap_or(say::NOT_STATED)) }
                @for line in &answered.from_book { dt { (say::FROM_BOOK) } dd { (line) } }
                @for asks in &answered.open { dt { (say::TELL) } dd { (kit::worded(&say::tell(asks))) } }
            }
            @for one in &answered.lines { (line(one)) }
            (kit::held(view, answered.lines.iter().map(|one| &one.ruling)))
        }
    }
}

fn line(one: &Checked) -> Markup {
    html! {
        dl class="facts" {
            dt { (say::LIMIT) } dd class="fig" { (one.limit.as_deref().unwrap_or(say::NOT_KNOWN)) }
            dt { (say::OF) } dd { (one.subject) ", " (one.measured) }
            dt { (say::STANDS_IN) } dd { a href=(format!("/rule/{}", one.ruling.rule)) { (one.ruling.title) } " " span class="quiet" { (one.ruling.cite) } }
            dt { (say::VERDICT) } dd { (kit::verdict(&one.verdict)) " " (say::because(&one.verdict)) }
            @if let Some(left) = &one.left { dt { (say::LEFT) } dd class="fig" { (left) } }
        }
        @if one.fineness == Fineness::Within { p class="need" { (words::sentence(say::WITHIN)) } }
        @if one.grounds && matches!(one.verdict, Verdict::Fails(_)) { p class="need" { (words::sentence(say::GROUNDS)) } }
    }
}

fn form(
    view: &View<'_>,
    rule: &LawRule,
    own: &[String],
    asked: &[&Question],
    facts: &[Wanted],
    asks: bool,
) -> Markup {
    // Until something is asked, the rule's own circumstances stand.
    let chosen = |n: usize, word: &str| {
        let told = view.asked(&format!("so-{n}"));
        if asks {
            told == word
        } else {
            own.iter().any(|w| w == word)
        }
    };
    html! {
        form class="act" method="get" action=(format!("/rule/{}", rule.id)) {
            h2 { (say::HOLD) }
            p class="quiet small" { (say::NOT_ENTERED) }
            label for="limit-reading" { (say::THE_READING) " " span class="quiet" { (say::READING_SUCH_AS) } }
            input type="text" id="limit-reading" name="reading" value=(view.asked("reading")) autocomplete="off";
            label for="limit-uncertainty" { (say::UNCERTAINTY) " " span class="quiet" { (say::UNCERTAINTY_HINT) } }
            input type="text" id="limit-uncertainty" name="uncertainty" value=(view.asked("uncertainty")) autocomplete="off";
            label for="limit-engine" { (say::ENGINE) " " span class="quiet" { (say::ENGINE_HINT) } }
            select id="limit-engine" name="engine" {
                option value="" { (say::NO_ENGINE) }
                (kit::engine_options(view, view.asked("engine")))
            }
            @for (n, question) in asked.iter().enumerate() {
                label for=(format!("limit-so-{n}")) { (words::sentence(question.asks)) }
                select id=(format!("limit-so-{n}")) name=(format!("so-{n}")) {
                    option value="" { (say::NOT_TOLD) }
                    @for (word, meaning) in question.answers { option value=(word) selected[chosen(n, word)] { (meaning) } }
                }
            }
            @for fact in facts {
                @let name = format!("fact-{}", fact.name);
                label for=(name) { (say::fact(&fact.name, &fact.unit)) " " span class="quiet" { (fact.meaning) } }
                @if fact.words.is_empty() {
                    input type="text" id=(name) name=(name) value=(view.asked(&name)) autocomplete="off";
                } @else {
                    select id=(name) name=(name) {
                        option value="" { (say::NOT_TOLD) }
                        @for word in &fact.words { option value=(word) selected[view.asked(&name) == word] { (rules::words::meaning(rules::words::TABLE_WORDS, word).unwrap_or(word)) } }
                    }
                }
            }
            button { (say::JUDGE) }
        }
    }
}
