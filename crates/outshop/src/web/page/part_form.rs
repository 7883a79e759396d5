//! The forms of a part's page: a finding, a set of readings, more that is known of it.

use maud::{Markup, html};
use measure::{House, State};
use shop::book::{EngineState, Family, Feature, FeatureKind, Part, ReadingSet, Side};

use super::{View, kit};
use crate::words::{part as say, tag};

/// The unit that a bare number means here, beside the field and sent with it.
pub fn shown_unit(view: &View<'_>, feature: &Feature) -> Markup {
    let (unit, told) = match (feature.kind, view.house) {
        (FeatureKind::Angle, _) => ("deg", say::IN_DEGREES),
        (FeatureKind::Size, House::Inch) => ("in", say::IN_INCHES),
        (FeatureKind::Size, House::Metric) => ("mm", say::IN_MILLIMETERS),
    };
    html! { (kit::hidden(&format!("unit:{}", feature.name), unit)) p class="quiet small" { (told) } }
}

/// How readings were taken, and the line in which one that is questioned is insisted on.
fn how(view: &View<'_>, verb: &str) -> Markup {
    html! {
        details {
            summary { (say::HOW_TAKEN) }
            (kit::line(view, verb, "measured_by", say::MEASURED_BY, say::MEASURED_BY_TELLS))
            (kit::line(view, verb, "part_temperature", say::TEMPERATURE, say::TEMPERATURE_TELLS))
            (kit::line(view, verb, "supported", say::SUPPORTED, say::SUPPORTED_TELLS))
            @let field = kit::id(verb, "standing");
            label for=(field) { (say::STANDING) }
            select id=(field) name="standing" {
                option value="" { (say::NOT_SAID) }
                @for it in EngineState::ALL { option value=(it.word()) selected[view.draft.value(verb, "standing") == it.word()] { (say::standing(it)) } }
            }
        }
        (kit::line(view, verb, "insist", say::INSIST, say::INSIST_TELLS))
    }
}

/// Takes a set of readings outside a finding.
pub fn measure(
    view: &View<'_>,
    family: &Family,
    part: &Part,
    sets: &[&ReadingSet],
    number: &str,
) -> Markup {
    const VERB: &str = "reading take";
    if family.features.is_empty() {
        return html! {};
    }
    let left = view.draft.value(VERB, "as_left") == "yes";
    let fields = html! {
        (kit::hidden("engine", number)) (kit::hidden("part", &part.name))
        label class="choice" { input type="radio" name="as_left" value="" checked[!left]; span { (crate::words::state(State::AsFound)) } }
        label class="choice" { input type="radio" name="as_left" value="yes" checked[left]; span { (crate::words::state(State::AsLeft)) } }
        p class="quiet small" { (say::AS_WRITTEN) }
        @for feature in family.measured() {
            fieldset {
                legend { (feature.title) " " span class="quiet" { (feature.how) } }
                (shown_unit(view, feature))
                div class="grid2" { @for place in &feature.positions {
                    @let field = format!("at:{}@{place}", feature.name);
                    @let before = last_left(sets, &feature.name, place).map(|was| say::last_left(&was)).unwrap_or_default();
                    div { (kit::line(view, VERB, &field, place, &before)) }
                } }
            }
        }
        (how(view, VERB))
    };
    html! { section class="ruled" id="measure" { details open[view.draft.is_of(VERB) || sets.is_empty()] { summary { (say::MEASURE) } (kit::form(view, VERB, say::MEASURE, &fields, say::KEEP_READINGS)) } } }
}

/// Says more of a part.
pub fn tell(view: &View<'_>, family: &Family, part: &Part, number: &str) -> Markup {
    const VERB: &str = "part tell";
    let mut others: Vec<&str> = view
        .book
        .parts
        .values()
        .filter(|other| other.locomotive == part.locomotive && other.name != part.name)
        .map(|other| other.name.as_str())
        .collect();
    others.sort_unstable();
    let chosen = |field: &str, label: &str| {
        let id = kit::id(VERB, field);
        html! {
            label for=(id) { (label) }
            select id=(id) name=(field) {
                option value="" { (say::AS_IT_WAS) }
                @for name in &others { option value=(name) selected[view.draft.value(VERB, field) == *name] { (name) } }
            }
        }
    };
    let side = kit::id(VERB, "side");
    let fields = html! {
        (kit::hidden("engine", number)) (kit::hidden("part", &part.name))
        p class="quiet small" { (say::LEFT_AS_IT_WAS) }
        div class="grid2" {
            div {
                label for=(side) { (say::SIDE) }
                select id=(side) name="side" {
                    option value="" { (say::AS_IT_WAS) }
                    @for it in Side::ALL { option value=(it.word()) selected[view.draft.value(VERB, "side") == it.word()] { (it.word()) } }
                }
            }
            div { (kit::line(view, VERB, "axle", say::AXLE, say::AXLE_TELLS)) }
            div { (chosen("within", say::WITHIN)) }
            div { (chosen("mates", say::MATES)) }
            div { (kit::line(view, VERB, "at", say::AT, "")) }
            div { (kit::line(view, VERB, "material", say::MATERIAL, "")) }
            div { (kit::line(view, VERB, "drawing", say::DRAWING, "")) }
            div { (kit::line(view, VERB, "reach", say::REACH, say::SEMICOLONS)) }
            div { (kit::line(view, VERB, "also", say::ALSO, say::SEMICOLONS)) }
            div { (kit::line(view, VERB, "fitted_on", say::FITTED, say::DAY_OR_YEAR)) }
            div { (kit::line(view, VERB, "removed_on", say::REMOVED, say::DAY_OR_YEAR)) }
            div { (kit::line(view, VERB, "donor", say::DONOR, "")) }
        }
        (kit::line(view, VERB, &format!("fact:{}", shop::locomotive::LEAD_TIME), say::LEAD_TIME, say::LEAD_TIME_TELLS))
        @for fact in &family.facts {
            @let field = format!("fact:{}", fact.name);
            @if fact.choices.is_empty() { (kit::line(view, VERB, &field, &fact.name, &fact.title)) }
            @else {
                @let id = kit::id(VERB, &field);
                label for=(id) { (fact.name) " " span class="quiet" { (fact.title) } }
                select id=(id) name=(field) {
                    option value="" { (say::AS_IT_WAS) }
                    @for word in &fact.choices { option value=(word) selected[view.draft.value(VERB, &field) == word] { (word) } }
                }
            }
        }
        @for feature in family.measured() {
            fieldset {
                legend { (feature.title) }
                div class="grid2" { @for (word, label) in [("drawn", say::DRAWN), ("as_built", say::AS_BUILT), ("shop_limit", say::SHOP_LIMIT), ("step", say::STEP)] {
                    div { (kit::line(view, VERB, &format!("{word}:{}", feature.name), label, "")) }
                } }
            }
        }
        (kit::line(view, VERB, "document", say::DOCUMENT, say::DOCUMENT_TELLS))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::TELL) } (kit::form(view, VERB, say::TELL, &fields, say::TELL_IT)) } }
}

/// Records a finding.
pub fn record(
    view: &View<'_>,
    family: &Family,
    part: &Part,
    sets: &[&ReadingSet],
    number: &str,
) -> Markup {
    const VERB: &str = "finding record";
    let mut inspections: Vec<_> = view
        .book
        .inspections
        .values()
        .filter(|i| i.locomotive == part.locomotive && i.is_open())
        .collect();
    inspections.sort_by_key(|i| i.number);
    let ticked = |word: &str| {
        view.draft.is_of(VERB)
            && view
                .draft
                .fields
                .iter()
                .any(|(name, value)| name == "shows" && value == word)
    };
    let fields = html! {
        (kit::hidden("engine", number)) (kit::hidden("part", &part.name)) (kit::hidden("then", "finding"))
        (kit::lines(view, VERB, "told", say::SEEN, say::SEEN_TELLS))
        label for="record-at" { (say::FOUND_AT) }
        select id="record-at" name="at" {
            option value="" { (say::NO_INSPECTION) }
            @for i in &inspections {
                @let tag = tag::inspection(i.number);
                option value=(tag) selected[view.draft.value(VERB, "at") == tag] { (say::inspection(&i.kind, &tag)) }
            }
        }
        label for="record-occasion" { (say::OCCASION) }
        select id="record-occasion" name="occasion" {
            @for (word, means) in say::OCCASIONS { option value=(word) selected[view.draft.value(VERB, "occasion") == *word] { (means) } }
        }
        @if !family.conditions.is_empty() {
            fieldset {
                legend { (say::IT) }
                @for condition in &family.conditions { label class="choice" { input type="checkbox" name="shows" value=(condition.word) checked[ticked(&condition.word)]; span { (condition.title) } } }
            }
        }
        p class="quiet small" { (say::AS_WRITTEN) }
        @for feature in family.measured() {
            fieldset {
                legend { (feature.title) " " span class="quiet" { (feature.how) } }
                (shown_unit(view, feature))
                div class="grid2" { @for place in &feature.positions {
                    @let field = format!("at:{}@{place}", feature.name);
                    @let before = last_left(sets, &feature.name, place).map(|was| say::last_left(&was)).unwrap_or_default();
                    div { (kit::line(view, VERB, &field, place, &before)) }
                } }
            }
        }
    };
    let fields = html! { (fields) (how(view, VERB)) };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::RECORD) } (kit::form(view, VERB, say::RECORD, &fields, say::RECORD_IT)) } }
}

/// What was read at a place when it was last closed.
pub fn last_left(sets: &[&ReadingSet], feature: &str, place: &str) -> Option<String> {
    let left = |set: &&&ReadingSet| set.state == State::AsLeft;
    let sets = sets.iter().filter(left);
    sets.flat_map(|set| &set.readings)
        .find(|r| r.feature == feature && r.reading.position == place)
        .map(|r| r.reading.written())
}
