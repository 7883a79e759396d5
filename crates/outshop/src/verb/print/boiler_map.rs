//! A survey of a sheet on paper, and the map of the staybolts.

use paper::{Block, Form, FormPart};
use shop::locomotive::engine;

use super::held::Figures;
use super::hers::Hers;
use super::report::{noted, points};
use crate::verb::boiler_map::{map_of, survey_of};
use crate::words::{self, boiler_map as say};
use crate::{Context, Failure};

/// How wide a picture is on paper, millimeters.
const WIDE: u8 = 170;

fn picture(svg: String, told: String) -> Block {
    // A page of type knows no color of the text round a picture.
    let svg = svg.replace("currentColor", "#000");
    Block::Code {
        svg,
        told,
        wide: WIDE,
    }
}

pub(super) fn survey(
    context: &mut Context,
    number: &str,
    component: &str,
) -> Result<Form, Failure> {
    let rules = context.rules()?;
    let (book, survey, read) = survey_of(context, number, component)?;
    let (_, kept) = engine(&book, number)?;
    let mut parts = vec![FormPart::of(
        say::COMES_TO,
        vec![points(say::survey(&survey, &read))],
    )];
    let pictures = say::pictures(&survey, &read);
    parts.push(noted(
        say::AS_READ,
        say::MARKS.into(),
        pictures
            .into_iter()
            .map(|map| picture(map.svg(), map.told))
            .collect(),
    ));
    let hers = Hers {
        over: say::OVER_SURVEY,
        title: say::survey_title(&kept.number, &survey.component),
        code: &format!("survey-{}", survey.component.replace(' ', "-")),
        cautions: say::SURVEY_CAUTIONS,
        parts,
        figures: Figures::of(&book, rules),
    };
    hers.form(context, &book, kept)
}

pub(super) fn stays(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let rules = context.rules()?;
    let (book, map) = map_of(context, number)?;
    let (_, kept) = engine(&book, number)?;
    let mut figures = Figures::of(&book, rules);
    figures.add_all(map.limits.iter().map(|it| &it.ruling));
    let mut parts = vec![FormPart::of(say::VERDICT, vec![points(say::map(&map))])];
    let renew = say::renew(&map);
    if !renew.is_empty() {
        parts.push(FormPart::of(say::TO_RENEW, vec![points(renew)]));
    }
    for sheet in &map.sheets {
        let drawn = say::stay_picture(sheet);
        let mut blocks = vec![picture(drawn.svg(), drawn.told)];
        let remarkable = say::remarkable(sheet);
        if !remarkable.is_empty() {
            blocks.push(points(remarkable));
        }
        parts.push(noted(
            &words::sentence(&sheet.sheet),
            say::STAY_MARKS.into(),
            blocks,
        ));
    }
    let hers = Hers {
        over: say::OVER_MAP,
        title: say::map_title(&kept.number),
        code: "staybolts",
        cautions: say::CAUTIONS,
        parts,
        figures,
    };
    hers.form(context, &book, kept)
}
