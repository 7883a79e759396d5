//! The lathe card, filled from a worked sheet.

use drawing::Title;
use paper::{Fact, LatheCard, OnLathe, Worked};

use super::{about, drawn};
use crate::verb::ruled::Asked;
use crate::verb::setting::ForLathe;
use crate::{Context, Failure};

pub(super) fn card(
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
            let lines = told.settings.iter();
            Some(OnLathe {
                settings: lines.map(|it| Fact::of(it.what, &it.said)).collect(),
                title: told.title,
            })
        }
        None => None,
    };
    let about = about(context, id, sheet.card.title.to_string())?;
    let title = Title {
        shop: about.shop.clone(),
        as_of: Some(about.as_of.to_string()),
        ..Title::default()
    };
    Ok(LatheCard {
        pictures: drawn::of_sheet(&sheet, &title),
        about,
        worked,
        settings,
    })
}
