//! What a choice of work moves beside what it mends: a line that says which sizes and which limits, and the tree of it.

use drawing::Move;
use maud::{Markup, PreEscaped, html};
use shop::ruled::knock_on::{Changed, changed_by};

use crate::verb::tires::tree;
use crate::words::{self, moves as say};

/// What a choice on a part of a family moves; nothing where no size is known to move.
pub fn of_choice(family: &str, route: &str) -> Option<Markup> {
    let all = changed_by(family, route).ok()?;
    if all.is_empty() {
        return None;
    }
    Some(html! { @for changed in &all {
        div { (say::changed(changed)) }
        @if !changed.limits().is_empty() {
            div { (say::TOUCHES) " " @for (at, rule) in changed.limits().iter().enumerate() { @if at > 0 { ", " } a href=(format!("/rule/{rule}")) { (rule) } } }
        }
        @let drawn = tree_of(changed);
        details class="in" { summary { (say::DRAWN) } div class="drawn map" tabindex="0" role="group" aria-label=(drawn.told) { (PreEscaped(drawn.svg())) } }
    } })
}

fn tree_of(changed: &Changed) -> drawing::MoveTree {
    let top = Move {
        deep: 0,
        words: words::sentence(&changed.words),
        amount: say::way(changed),
        up: changed.up,
        limit: words::tires::limit(&changed.limits),
    };
    tree(say::DRAWN, top, None, changed.up, &changed.moved)
}
