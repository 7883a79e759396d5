//! `boiler surveyed`, `boiler map`, `boiler stay`: what the newest survey of a sheet comes to, and the maps of the staybolts.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::book::{Book, StayRow, StaysMapped, StaysTold, Survey};
use shop::locomotive::{engine, map_stays, tell_stays};
use shop::ruled::boiler::{BoltMap, SurveyRead, bolt_map, survey_read};

use super::{saved, wrap};
use crate::words::{self, boiler_map as say};
use crate::{Answer, Context, Failure};

/// Enter where the staybolts of a sheet are.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MapStays {
    /// Her number.
    pub engine: String,
    /// The sheet: left side, crown.
    pub sheet: String,
    /// Each row: name=bolts@height+first, such as 3=18@14in+5in: 18 bolts, 14 in above the lower edge, the first 5 in from the left.
    #[serde(default)]
    pub rows: Vec<String>,
    /// From bolt to bolt along a row, such as 4in.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub pitch: String,
    /// What they are: rigid, hollow, flexible, flexible-drilled, radial.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub kind: String,
    /// Their size: 1 in, 12 threads.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub size: String,
    /// The drawing, or who measured it.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub source: String,
}

/// Say what was found or done at staybolts.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TellStays {
    /// Her number.
    pub engine: String,
    /// The sheet.
    pub sheet: String,
    /// What they are: sound, broken, telltale-leaks, telltale-plugged, telltale-missing, renewed.
    pub state: String,
    /// Which, a blank between: row:number or row:first-last, such as 3:10 or 3:9-12; every bolt of the sheet for all.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub which: String,
    /// How it was found or done.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub told: String,
    /// The inspection it was found at, by its kind: 31, annual.
    #[arg(long)]
    pub at: Option<String>,
    /// Its kind now, if it was renewed as another.
    #[arg(long)]
    pub kind: Option<String>,
    /// Its size now, if it was renewed.
    #[arg(long)]
    pub size: Option<String>,
}

pub(super) fn text_of(text: &Option<String>) -> Option<String> {
    text.as_deref()
        .map(str::trim)
        .filter(|text| !text.is_empty())
        .map(str::to_owned)
}

impl MapStays {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let mut rows = Vec::new();
        for typed in self
            .rows
            .iter()
            .flat_map(|typed| typed.lines())
            .filter(|line| !line.trim().is_empty())
        {
            let wrong = || Failure::Input(say::no_row(typed));
            let (row, rest) = typed.split_once('=').ok_or_else(wrong)?;
            let (count, rest) = rest.split_once('@').ok_or_else(wrong)?;
            let (height, first) = rest.split_once('+').ok_or_else(wrong)?;
            rows.push(StayRow {
                row: row.trim().to_owned(),
                count: count.trim().parse().map_err(|_| wrong())?,
                height: height.trim().to_owned(),
                first: first.trim().to_owned(),
            });
        }
        let bolts: u64 = rows.iter().map(|row| u64::from(row.count)).sum();
        let receipt = context.save_of(&self.engine, |book, by, on| {
            let (id, _) = engine(book, &self.engine)?;
            let told = StaysMapped {
                locomotive: id,
                sheet: self.sheet.clone(),
                rows: rows.clone(),
                pitch: self.pitch.trim().to_owned(),
                kind: self.kind.trim().to_owned(),
                size: self.size.trim().to_owned(),
                source: self.source.clone(),
            };
            map_stays(book, told, by, on)
        })?;
        Ok(saved(
            &receipt,
            say::mapped(&self.engine, self.sheet.trim(), bolts),
            json!({ "bolts": bolts }),
        ))
    }
}

impl TellStays {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let mut which = Vec::new();
        let every = self.which.trim() == say::ALL;
        for typed in self.which.split_whitespace().filter(|_| !every) {
            let wrong = || Failure::Input(say::no_bolt(typed));
            let (row, numbers) = typed.split_once(':').ok_or_else(wrong)?;
            let (first, last) = numbers.split_once('-').unwrap_or((numbers, numbers));
            let number = |text: &str| text.trim().parse::<u32>().map_err(|_| wrong());
            which.push((row.to_owned(), number(first)?, number(last)?));
        }
        if which.is_empty() && !every {
            return Err(Failure::Input(say::WHICH.into()));
        }
        let receipt = context.save_of(&self.engine, |book, by, on| {
            let (id, _) = engine(book, &self.engine)?;
            let told = StaysTold {
                locomotive: id,
                sheet: self.sheet.clone(),
                which: which.clone(),
                state: self.state.trim().to_owned(),
                at: text_of(&self.at),
                kind: text_of(&self.kind),
                size: text_of(&self.size),
                told: self.told.clone(),
            };
            tell_stays(book, told, by, on)
        })?;
        Ok(saved(
            &receipt,
            say::told(&self.engine, self.sheet.trim(), self.state.trim()),
            json!({}),
        ))
    }
}

/// The newest survey of a component, read.
///
/// # Errors
/// As [`survey_read`]; input if there is none.
pub fn survey_of(
    context: &mut Context,
    number: &str,
    component: &str,
) -> Result<(Book, Survey, SurveyRead), Failure> {
    let (on, rules) = (context.on()?, context.rules()?);
    let book = super::boiler::book_for(context, number, Some(component.trim()))?;
    let (id, _) = engine(&book, number)?;
    let read = survey_read(&book, rules, id, component.trim(), on)?;
    let (survey, read) = read.ok_or_else(|| Failure::Input(say::no_survey(number, component)))?;
    Ok((book, survey, read))
}

/// Shows the newest survey of a component.
///
/// # Errors
/// As [`survey_of`].
pub fn surveyed(context: &mut Context, number: &str, component: &str) -> Result<Answer, Failure> {
    let (_, survey, read) = survey_of(context, number, component)?;
    let mut text = format!("{}\n", say::survey_title(number, &survey.component));
    for said in say::survey(&survey, &read) {
        text.push_str(&format!("  {}\n", wrap(&said, 2, 118)));
    }
    let wide = survey
        .rows
        .iter()
        .map(|row| row.chars().count())
        .max()
        .unwrap_or(0);
    text.push_str(&format!(
        "  {:>wide$} {}\n",
        "",
        survey
            .columns
            .iter()
            .map(|it| format!("{it:>7}"))
            .collect::<String>()
    ));
    for (name, cells) in say::marked(&survey, &read) {
        let line: String = cells
            .iter()
            .map(|cell| format!("{:>7}", format!("{}{}", cell.said, say::letters(cell))))
            .collect();
        text.push_str(&format!("  {name:>wide$} {line}\n"));
    }
    text.push_str(&format!("  {}\n", say::LETTERS));
    let at = |row: usize, column: usize| json!({ "row": survey.rows.get(row), "column": survey.columns.get(column) });
    let value = json!({
        "component": survey.component, "on": survey.on.to_string(), "unit": survey.unit, "source": survey.source,
        "rows": survey.rows, "columns": survey.columns, "cells": survey.cells.iter().map(|row| row.split(' ').collect::<Vec<_>>()).collect::<Vec<_>>(),
        "read": read.counts[0], "not_read": read.counts[1], "no_plate": read.counts[2],
        "thinnest": read.thinnest.map(|(inches, row, column)| json!({ "inches": inches, "at": at(row, column) })),
        "required_inches": read.required,
        "doubtful": read.doubtful.iter().map(|it| json!({ "at": at(it.row, it.column), "why": say::why(it.why) })).collect::<Vec<_>>(),
        "paired": match &read.paired {
            Ok(paired) => json!({
                "before": paired.before.to_string(), "squares": paired.squares, "years": paired.years,
                "worst_loss_inches": paired.worst.0, "worst_at": at(paired.worst.1, paired.worst.2), "usual_loss_inches": paired.usual,
                "first": paired.first.map(|(row, column, rate, left)| json!({ "at": at(row, column), "inches_a_year": rate, "years_left": left })),
            }),
            Err(why) => json!({ "cannot_tell_needs": why }),
        },
        "legal": read.legal.map(|day| day.to_string()),
        "next": match &read.next { Ok(day) => json!(day.to_string()), Err(why) => json!({ "cannot_tell_needs": why }) },
        "least_unread": match &read.unread {
            Ok((inches, blocks, all)) => json!({ "inches": inches, "blocks": blocks, "blocks_in_all": all }),
            Err(why) => json!({ "cannot_tell_needs": why }),
        },
    });
    Ok(Answer::done(text, value))
}

/// The map of an engine's staybolts.
///
/// # Errors
/// As [`bolt_map`].
pub fn map_of(context: &mut Context, number: &str) -> Result<(Book, BoltMap), Failure> {
    let (on, rules) = (context.on()?, context.rules()?);
    let book = context.book_of(number)?;
    let (id, _) = engine(&book, number)?;
    let map = bolt_map(&book, rules, id, on)?;
    Ok((book, map))
}

/// Shows the map of an engine's staybolts.
///
/// # Errors
/// As [`map_of`].
pub fn stays(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let (_, map) = map_of(context, number)?;
    let mut text = format!("{}\n", say::map_title(number));
    for said in say::map(&map) {
        text.push_str(&format!("  {}\n", wrap(&said, 2, 118)));
    }
    for sheet in &map.sheets {
        text.push_str(&format!("  {}\n", words::sentence(&sheet.sheet)));
        for (row, letters) in say::rows(sheet) {
            text.push_str(&format!("    {row:>6} {letters}\n"));
        }
    }
    text.push_str(&format!("  {}\n", say::STAY_LETTERS));
    let sheets = map.sheets.iter().map(|sheet| {
        let bolts = sheet.bolts.iter().map(|bolt| {
            json!({
                "row": bolt.row, "number": bolt.number, "x": bolt.x, "y": bolt.y, "kind": bolt.kind, "size": bolt.size,
                "state": bolt.said.as_ref().map(|said| &said.state), "on": bolt.said.as_ref().map(|said| said.on.to_string()),
                "counts_as_broken": bolt.counts_as_broken(), "renewed": bolt.renewed.map(|day| day.to_string()),
            })
        });
        json!({ "sheet": sheet.sheet, "bolts": bolts.collect::<Vec<_>>() })
    });
    let value = json!({
        "verdict": map.verdict.words(), "broken": map.broken, "unknown": map.unknown,
        "nearest": map.nearest.as_ref().map(|pair| json!({ "sheet": pair.sheet, "one": pair.one, "other": pair.other, "inches": pair.apart })),
        "limits": map.limits.iter().map(|it| json!({ "rule": it.ruling.rule, "section": it.ruling.cite.section, "limit": it.limit, "verdict": it.verdict.words() })).collect::<Vec<_>>(),
        "renew": map.renew.iter().map(|it| json!({ "sheet": it.sheet, "bolt": it.bolt, "found": it.found.to_string(), "by": it.by.to_string(), "at_once": it.at_once, "rule": it.rule })).collect::<Vec<_>>(),
        "sheets": sheets.collect::<Vec<_>>(),
    });
    let code = u8::from(!matches!(map.verdict, shop::verdict::Verdict::Complies));
    Ok(Answer {
        text,
        json: value,
        code,
    })
}
