//! Sheets that ask what a lathe has: what was stated of one goes in for what nobody typed.

use crate::book::{LatheKnown, ThreadDial};

/// What is stated of a lathe for the arguments of this sheet; nothing for a sheet that asks nothing of a lathe.
pub fn fills(known: &LatheKnown, sheet: &str) -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    let mut say = |name, said: Option<String>| all.extend(said.map(|said| (name, said)));
    match sheet {
        "lathe.change_gears" => {
            let wheels = known.wheels.as_ref().map(|wheels| {
                let each: Vec<String> = wheels.iter().map(u32::to_string).collect();
                each.join(",")
            });
            say("leadscrew", known.leadscrew.clone());
            say("gears", wheels);
            say("spindle_ratio", known.spindle_ratio.clone());
            say("stud", known.stud.map(|teeth| teeth.to_string()));
            say("span", known.span.map(|teeth| teeth.to_string()));
        }
        "lathe.thread_dial" => {
            say("leadscrew", known.leadscrew.clone());
            if let Some(ThreadDial::Wheel { teeth, lines }) = known.thread_dial {
                say("wheel", Some(teeth.to_string()));
                say("lines", Some(lines.to_string()));
            }
        }
        _ => {}
    }
    all
}

/// Sheets that ask what a lathe has.
pub const FILLED: [&str; 2] = ["lathe.change_gears", "lathe.thread_dial"];
