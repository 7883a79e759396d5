//! The lathe card, filled from a worked sheet.

use drawing::Title;
use paper::{Copied, Fact, LatheCard, OnLathe, Worked};
use shop::locomotive::card;

use super::{about, drawn, order};
use crate::verb::card as verb;
use crate::verb::name;
use crate::verb::ruled::Asked;
use crate::verb::setting::ForLathe;
use crate::words::{card as say, tag};
use crate::{Context, Failure};

pub(super) fn worked(
    context: &mut Context,
    id: &str,
    given: &[(String, String)],
) -> Result<LatheCard, Failure> {
    let asked = Asked::of(given);
    let sheet = asked.work(context, id)?;
    let worked = Worked::of(&sheet).ok_or_else(|| {
        Failure::Machine(format!(
            "The sheet {id} does not read back from its own page."
        ))
    })?;
    let settings = match &asked.lathe {
        Some(number) => {
            let told = ForLathe::of(&context.book()?, number, &sheet, context.house())?;
            told.map(|told| {
                let lines = told.settings.iter();
                OnLathe {
                    settings: lines.map(|it| Fact::of(it.what, &it.said)).collect(),
                    title: told.title,
                }
            })
        }
        None => None,
    };
    let mut worked = worked;
    worked.notices.push(say::NOT_KEPT.into());
    let about = about(context, id, sheet.card.title.to_string())?;
    let title = Title {
        shop: about.shop.clone(),
        as_of: Some(about.as_of.to_string()),
        ..Title::default()
    };
    Ok(LatheCard {
        pictures: drawn::of_sheet(&sheet, &title),
        order: order::of(&worked),
        about,
        worked,
        settings,
    })
}

/// A card that the book keeps, in its newest revision and as it was printed when it was kept.
pub(super) fn kept(context: &mut Context, number: &str) -> Result<LatheCard, Failure> {
    let book = context.book()?;
    let (_, kept) = card(&book, number)?;
    let (at, newest) = kept
        .newest()
        .ok_or_else(|| Failure::Machine(say::NOT_THERE.into()))?;
    let code = verb::code(kept.number, at);
    let (text, settings) = parted(&newest.text);
    let worked = Copied::of(&kept.sheet, text).worked.ok_or_else(|| {
        Failure::Machine(format!(
            "The sheet {} does not read back from its own page.",
            kept.sheet
        ))
    })?;
    let said = say::revision_on_card(at, newest, name(&book, newest.by));
    let mut about = about(
        context,
        &tag::card(kept.number),
        format!("{}: {}", tag::card(kept.number), worked.title),
    )?;
    about.bars.clone_from(&code);
    let title = Title {
        shop: about.shop.clone(),
        number: Some(tag::card(kept.number)),
        revision: Some(at.to_string()),
        as_of: Some(newest.on.to_string()),
        ..Title::default()
    };
    // Drawn only where the sheet, worked again, reads as it was kept.
    let again = verb::Worked::of(
        context,
        &kept.sheet,
        &verb::given(newest),
        verb::house(newest),
    );
    let pictures = match again {
        Ok(again) if again.text() == newest.text => drawn::of_sheet(&again.sheet, &title),
        _ => Vec::new(),
    };
    let mut worked = worked;
    worked.notices.insert(0, said);
    Ok(LatheCard {
        order: order::of(&worked),
        about,
        worked,
        settings,
        pictures,
    })
}

/// The sheet as printed, and the settings that stand under it.
fn parted(text: &str) -> (&str, Option<OnLathe>) {
    let Some((sheet, settings)) = text.split_once("\nSettings for ") else {
        return (text, None);
    };
    let mut lines = settings.lines();
    let title = format!("Settings for {}", lines.next().unwrap_or_default());
    let facts = lines.filter_map(|line| line.trim().split_once(": "));
    let settings = facts.map(|(what, said)| Fact::of(what, said)).collect();
    (sheet, Some(OnLathe { title, settings }))
}
