//! Every sheet there is, in one table written out by hand, and the one way to work any of them.

use crate::answer::Answer;
use crate::card::Card;
use crate::error::SheetError;
use crate::evidence;
use crate::given::{Given, Inputs};
use crate::law;
use crate::sheet::Sheet;
use crate::work::Worked;
use measure::House;

/// One law in the catalogue.
#[derive(Debug)]
pub struct Entry {
    /// Its card.
    pub card: &'static Card,
    /// Its own function, behind arguments that have been read.
    pub answer: fn(&Inputs) -> Result<Answer, SheetError>,
    /// Its evidence, as the CSV file beside it.
    pub evidence: &'static str,
}

static CATALOGUE: &[Entry] = &[
    law::seat_correct::ENTRY,
    law::seat_lap::ENTRY,
    law::seat_contact::ENTRY,
    law::valve_lift::ENTRY,
    law::gauge_cone_two_balls::ENTRY,
    law::gauge_cone_one_ball::ENTRY,
    law::gauge_taper_two_rollers::ENTRY,
    law::gauge_sine_bar::ENTRY,
    law::gauge_pressure::ENTRY,
    law::fit_hot_clearance::ENTRY,
    law::fit_iso::ENTRY,
    law::fit_inch_class::ENTRY,
    law::fit_press::ENTRY,
    law::fit_bushing::ENTRY,
    law::fit_shrink::ENTRY,
    law::fit_tire::ENTRY,
    law::fit_taper_draw::ENTRY,
    law::lathe_change_gears::ENTRY,
    law::lathe_thread_dial::ENTRY,
    law::lathe_turning::ENTRY,
    law::lathe_taper::ENTRY,
    law::lathe_stock::ENTRY,
    law::thread_acme::ENTRY,
    law::thread_unified::ENTRY,
    law::thread_whitworth::ENTRY,
    law::thread_bore::ENTRY,
    law::thread_strength::ENTRY,
    law::thread_wires::ENTRY,
    law::screw_torque::ENTRY,
    law::joint_bolts::ENTRY,
    law::thread_square::ENTRY,
    law::thread_sharp_v::ENTRY,
    law::thread_stub_acme::ENTRY,
    law::thread_npt::ENTRY,
    law::thread_bsp::ENTRY,
    law::thread_plug::ENTRY,
    law::thread_metric::ENTRY,
    law::thread_staybolt::ENTRY,
    law::thread_identify::ENTRY,
    law::thread_cutting::ENTRY,
    law::thread_mate::ENTRY,
    law::steam_saturation::ENTRY,
    law::steam_flow::ENTRY,
    law::steam_pipe::ENTRY,
    law::steam_evaporation::ENTRY,
    law::steam_blowdown::ENTRY,
    law::steam_calorimeter::ENTRY,
    law::steam_fuel::ENTRY,
    law::steam_safety_valve::ENTRY,
    law::steam_valve_setting::ENTRY,
    law::steam_valve_stamp::ENTRY,
    law::steam_tractive_effort::ENTRY,
    law::boiler_seam::ENTRY,
    law::boiler_shell::ENTRY,
    law::boiler_ligament::ENTRY,
    law::boiler_stay::ENTRY,
    law::boiler_screw_stay::ENTRY,
    law::boiler_stayed_plate::ENTRY,
    law::boiler_brace::ENTRY,
    law::boiler_segment::ENTRY,
    law::boiler_tube::ENTRY,
    law::boiler_crown_bar::ENTRY,
    law::boiler_hydro::ENTRY,
    law::boiler_water_level::ENTRY,
    law::boiler_buildup::ENTRY,
    law::boiler_remaining_life::ENTRY,
    law::boiler_least_wall::ENTRY,
    law::boiler_survey::ENTRY,
    law::boiler_governing::ENTRY,
    law::boiler_tube_rolling::ENTRY,
    law::running_clearance::ENTRY,
    law::running_tire_limit::ENTRY,
    law::running_tire_set::ENTRY,
    law::running_axle::ENTRY,
    law::running_tender_axle::ENTRY,
    law::running_side_bearing::ENTRY,
    law::running_safety_connection::ENTRY,
    law::running_equalizer::ENTRY,
    law::running_wheel_gauge::ENTRY,
    law::running_lateral::ENTRY,
    law::running_leaf_spring::ENTRY,
    law::air_reservoir::ENTRY,
    law::air_leakage::ENTRY,
    law::air_piston_travel::ENTRY,
    law::running_rod_centers::ENTRY,
    law::running_heights::ENTRY,
    law::running_knock_on::ENTRY,
    law::running_drawbar::ENTRY,
    law::running_piston_clearance::ENTRY,
    law::running_quarter::ENTRY,
    law::air_orifice::ENTRY,
    law::air_brake_rigging::ENTRY,
    law::wear_forecast::ENTRY,
    law::wear_line::ENTRY,
    law::wear_miles::ENTRY,
    law::wear_openings::ENTRY,
    law::wear_policy::ENTRY,
    law::cast_babbitt::ENTRY,
];

/// Every law, in the order of the catalogue.
pub fn catalogue() -> &'static [Entry] {
    CATALOGUE
}

/// The law called `id`.
///
/// # Errors
/// [`SheetError::UnknownSheet`], with the ids that look most like the one asked for.
pub fn find(id: &str) -> Result<&'static Entry, SheetError> {
    CATALOGUE
        .iter()
        .find(|entry| entry.card.id == id)
        .ok_or_else(|| SheetError::UnknownSheet {
            id: id.chars().take(60).collect(),
            near: near(id),
        })
}

/// Works the sheet `id` with the arguments given; a bare number takes the unit of `house`, which is
/// also the house the results are printed for.
///
/// # Errors
/// A sentence: unknown sheet or argument, a missing one, text that cannot be read, a value out of
/// the law's range, or values that cannot all be true.
pub fn run(id: &str, args: &[Given], house: House) -> Result<Sheet, SheetError> {
    let worked = Worked::new(find(id)?, args, house)?;
    let unproven = evidence::unproven_notices(worked.card, &worked.answer);
    Sheet::compose(&worked, unproven)
}

/// The one or two ids nearest to what was asked for, if they are near at all; the second only where
/// it is about as near as the first.
fn near(id: &str) -> Vec<String> {
    let asked: Vec<char> = id.chars().take(60).collect();
    let mut ranked: Vec<(usize, &str)> = CATALOGUE
        .iter()
        .map(|entry| {
            (
                distance(&asked, &entry.card.id.chars().collect::<Vec<_>>()),
                entry.card.id,
            )
        })
        .filter(|(far, known)| *far <= known.len() / 2 || known.split('.').any(|part| part == id))
        .collect();
    ranked.sort_unstable();
    let nearest = ranked.first().map_or(0, |(far, _)| *far);
    ranked
        .into_iter()
        .take(2)
        .filter(|(far, _)| *far <= nearest + 1)
        .map(|(_, known)| known.to_owned())
        .collect()
}

/// How many letters must be changed, added or dropped to make one word of the other.
fn distance(a: &[char], b: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.iter().enumerate() {
        let mut next = vec![i + 1];
        for (j, to) in b.iter().enumerate() {
            let cell = |row: &[usize], at: usize| row.get(at).copied().unwrap_or(usize::MAX - 1);
            let change = cell(&row, j) + usize::from(from != to);
            let best = change.min(cell(&row, j + 1) + 1).min(cell(&next, j) + 1);
            next.push(best);
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}
