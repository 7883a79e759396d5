//! The first hour: what makes an empty book useful, in order, with what is done already and the form for what is next.

use maud::{Markup, html};
use measure::State;
use shop::locomotive::engines;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, first as say};

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let engines = engines(view.book);
    let first = engines.first().map(|(_, kept)| kept.number.as_str());
    let paper = engines.iter().any(|(_, e)| {
        !e.held_before.is_empty() || !e.days.is_empty() || !e.paper_counts.is_empty()
    });
    let closed = engines.iter().any(|(_, e)| e.log_through.is_some());
    // Of the newest set of each part alone: more of it is not read for this page.
    let mut sets = view
        .book
        .parts
        .values()
        .filter_map(|part| part.read.as_ref());
    let left = sets.any(|set| set.state == State::AsLeft);
    let copied = view.desk.backed()?.days.is_some();
    let own = view.desk.keys()?.passphrase(view.reader.id)?.is_some();
    let known = first.map(|number| format!("/engine/{number}/known"));
    let step = |done: bool, title: &str, why: &str, way: Option<(String, &str)>| {
        html! {
            li {
                h2 { (title) " " span class=(if done { "quiet small" } else { "need small" }) { (if done { say::DONE } else { say::TO_DO }) } }
                p { (why) }
                @if let Some((to, name)) = way { p { a href=(to) { (name) } } }
            }
        }
    };
    let to = |path: Option<&String>, hash: &str| path.map(|path| format!("{path}{hash}"));
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::WHY) }
        ul class="plain" {
            (step(own, say::PASSPHRASE, say::PASSPHRASE_WHY, Some(("/me".into(), words::door::SET_PASSPHRASE))))
            (step(!engines.is_empty(), say::ENGINE, say::ENGINE_WHY, first.map(|n| (format!("/engine/{n}"), say::HER_PAGE))))
            li { details open[engines.is_empty() || view.draft.is_of(ADD)] { summary { (say::ADD_ENGINE) } (add(view)) } }
            (step(view.book.persons.len() > 1, say::PEOPLE, say::PEOPLE_WHY, Some(("/people".into(), words::people::TITLE))))
            (step(paper, say::PAPER, say::PAPER_WHY, to(known.as_ref(), "#held").map(|to| (to, say::PAPER))))
            (step(closed, say::LOG, say::LOG_WHY, first.map(|n| (format!("/engine/{n}/log"), words::log::WHOLE_LOG))))
            li { p { a href="/log/import" { (say::IMPORT) } } }
            (step(closed && paper, say::LINEUP, say::LINEUP_WHY, first.map(|n| (format!("/ahead/{n}"), words::ahead::LOOK_AHEAD))))
            (step(!view.book.parts.is_empty(), say::PARTS, say::PARTS_WHY, to(known.as_ref(), "#parts").map(|to| (to, say::ADD_PART))))
            li { p { a href="/parts/import" { (say::IMPORT_PARTS) } } }
            (step(left, say::LEFT, say::LEFT_WHY, part(view)))
            (step(copied, say::COPY, say::COPY_WHY, Some(("/copies".into(), words::backup::COPIES))))
        }
    };
    Ok(Drawn::new("/", say::TITLE, body))
}

/// The first part there is, to measure.
fn part<'w>(view: &View<'_>) -> Option<(String, &'w str)> {
    let mut parts: Vec<_> = view.book.parts.values().collect();
    parts.sort_by(|a, b| a.name.cmp(&b.name));
    let part = parts.first()?;
    let number = kit::number(view.book, part.locomotive);
    Some((
        format!("{}#measure", kit::part_path(number, &part.name)),
        say::MEASURE,
    ))
}

const ADD: &str = "locomotive add";

fn add(view: &View<'_>) -> Markup {
    let sets: Vec<&str> = view.rules.jurisdictions().into_iter().collect();
    let chosen = view.draft.value(ADD, "rules");
    let ticked = |list: &str, word: &str| view.draft.value(ADD, &format!("fitting:{word}")) == list;
    let fields = html! {
        (kit::line(view, ADD, "number", say::NUMBER, ""))
        (kit::line(view, ADD, "wheels", say::WHEELS, say::WHEELS_SUCH_AS))
        (kit::line(view, ADD, "gauge", say::GAUGE, say::GAUGE_SUCH_AS))
        label for="add-rules" { (say::RULES) }
        select id="add-rules" name="rules" required {
            option value="" { (say::CHOOSE) }
            @for set in &sets { option value=(set) selected[chosen == *set] { (say::rules(set)) } }
        }
        (kit::line(view, ADD, "mawp", say::MAWP, say::MAWP_SUCH_AS))
        (kit::line(view, ADD, "axle_load", say::AXLE, say::IF_KNOWN))
        details { summary { (say::FITTINGS) }
            p class="quiet small" { (say::FITTINGS_WHY) }
            @for (word, meaning) in rules::words::FITTINGS {
                fieldset {
                    legend { (words::sentence(meaning)) }
                    @for (value, name) in [("", say::NOT_KNOWN), ("fitted", say::HAS), ("not_fitted", say::HAS_NOT)] {
                        label class="choice" { input type="radio" name=(format!("fitting:{word}")) value=(value) checked[ticked(value, word)]; span { (name) } }
                    }
                }
            }
        }
    };
    kit::form(view, ADD, say::ADD_ENGINE, &fields, say::ADD_HER)
}
