//! The lathe card, filled from a worked sheet.

use drawing::Title;
use paper::{LatheCard, Worked};

use super::{about, drawn};
use crate::verb::ruled::Asked;
use crate::{Context, Failure};

pub(super) fn card(
    context: &mut Context,
    id: &str,
    given: &[(String, String)],
) -> Result<LatheCard, Failure> {
    let sheet = Asked::of(given).work(context, id)?;
    let worked = Worked::of(&sheet).ok_or_else(|| {
        Failure::Machine(format!(
            "The sheet {id} does not read back from its own page."
        ))
    })?;
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
    })
}
