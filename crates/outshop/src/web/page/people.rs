//! People: who is authorised for what, by whom, until when; devices of the bench.

use maud::{Markup, html};
use shop::book::{Authority, Person};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::bench;
use crate::words::people as say;

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let officer = view.may(Authority::Approve);
    let devices = bench::devices(view, officer)?;
    let mut people: Vec<_> = view.book.persons.values().collect();
    people.sort_by(|a, b| a.name.cmp(&b.name));
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::WHY) }
        @for person in &people { (one(view, person)) }
        @if officer {
            details open[view.draft.is_of("person add")] { summary { (say::ADD) } (add(view)) }
            details open[view.draft.is_of("person authorise")] { summary { (say::GIVE) } (give(view, &people)) }
            details open[view.draft.is_of("person withdraw")] { summary { (say::TAKE) } (take(view, &people)) }
        } @else { p class="quiet small" { (say::OFFICER_SAYS) } }
        (devices)
        p { a href="/print/phones" { (crate::words::network::PRINT_PHONES) } }
    };
    Ok(Drawn::new("/people", say::TITLE, body))
}

fn one(view: &View<'_>, person: &Person) -> Markup {
    html! {
        section class="ruled" {
            h2 { (person.name) @if let Some(trade) = &person.trade { " " span class="quiet small" { (trade) } } }
            dl class="facts" { @for authority in Authority::ALL {
                @let held = person.holds(authority, view.on);
                dt { (authority.word()) }
                dd { @if held { b { (say::HELD) } " " } (say::standing(view.book, person, authority, view.on)) }
            } }
            @if !person.stated.is_empty() {
                details { summary { (say::HISTORY) } ul { @for kept in &person.stated {
                    li { (kit::worded(&say::stated(kept, kit::name(view.book, kept.by)))) " " span class="quiet small" { (say::entry(kept.entry)) } }
                } } }
            }
        }
    }
}

fn add(view: &View<'_>) -> Markup {
    const VERB: &str = "person add";
    let ticked = |word: &str| {
        let mut fields = view.draft.fields.iter();
        view.draft.is_of(VERB) && fields.any(|(name, value)| name == "may" && value == word)
    };
    let fields = html! {
        (kit::line(view, VERB, "name", say::NAME, ""))
        (kit::line(view, VERB, "trade", say::TRADE, say::TRADE_SUCH_AS))
        fieldset {
            legend { (say::MAY) }
            @for authority in Authority::ALL {
                label class="choice" { input type="checkbox" name="may" value=(authority.word()) checked[ticked(authority.word())]; span { (say::means(authority)) } }
            }
        }
        p class="quiet small" { (say::ADD_WHY) }
    };
    kit::form(view, VERB, say::ADD, &fields, say::ADD_IT)
}

fn which(view: &View<'_>, verb: &str, people: &[&Person]) -> Markup {
    let (who, what) = (kit::id(verb, "name"), kit::id(verb, "authority"));
    html! {
        label for=(who) { (say::NAME) }
        select id=(who) name="name" { @for person in people { option value=(person.name) selected[view.draft.value(verb, "name") == person.name] { (person.name) } } }
        label for=(what) { (say::AUTHORITY) }
        select id=(what) name="authority" { @for authority in Authority::ALL { option value=(authority.word()) selected[view.draft.value(verb, "authority") == authority.word()] { (say::means(authority)) } } }
    }
}

fn give(view: &View<'_>, people: &[&Person]) -> Markup {
    const VERB: &str = "person authorise";
    let fields = html! {
        (which(view, VERB, people))
        (kit::line(view, VERB, "document", say::DOCUMENT, say::DOCUMENT_SUCH_AS))
        (kit::day(view, VERB, "from", say::FROM))
        (kit::day(view, VERB, "until", say::UNTIL))
        (kit::line(view, VERB, "within", say::WITHIN, say::WITHIN_SUCH_AS))
        p class="quiet small" { (say::GIVE_WHY) }
    };
    kit::signed(view, VERB, say::GIVE, &fields, say::GIVE_IT)
}

fn take(view: &View<'_>, people: &[&Person]) -> Markup {
    const VERB: &str = "person withdraw";
    let fields = html! {
        (which(view, VERB, people))
        (kit::line(view, VERB, "because", say::BECAUSE, ""))
        (kit::day(view, VERB, "from", say::FROM))
    };
    kit::signed(view, VERB, say::TAKE, &fields, say::TAKE_IT)
}
