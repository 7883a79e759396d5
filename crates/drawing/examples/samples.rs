//! Writes the sample drawings as SVG and DXF into the folder that is named, to be looked at and to be read by an
//! independent reader. With each DXF goes a list of the sizes that must be found in it.

use drawing::{Drawing, PageWidth};
use std::path::PathBuf;
use std::process::ExitCode;

#[path = "../tests/drawing/samples.rs"]
mod samples;

fn main() -> ExitCode {
    let Some(folder) = std::env::args().nth(1).map(PathBuf::from) else {
        eprintln!("name the folder into which the drawings are to be written");
        return ExitCode::from(2);
    };
    for sample in samples::all() {
        let laid = match sample
            .drawing
            .as_ref()
            .map_err(Clone::clone)
            .and_then(Drawing::lay_out)
        {
            Ok(laid) => laid,
            Err(why) => {
                eprintln!("{}: {why}", sample.name);
                return ExitCode::from(1);
            }
        };
        let page = |width| {
            sample
                .drawing
                .as_ref()
                .map_err(Clone::clone)?
                .for_page(width)
        };
        let (narrow, wide) = match (page(PageWidth::Narrow), page(PageWidth::Wide)) {
            (Ok(narrow), Ok(wide)) => (narrow, wide),
            (Err(why), _) | (_, Err(why)) => {
                eprintln!("{}: {why}", sample.name);
                return ExitCode::from(1);
            }
        };
        for (ending, text) in [
            ("narrow.svg", narrow.svg_view()),
            ("wide.svg", wide.svg_view()),
            ("svg", laid.svg()),
            ("dxf", laid.dxf()),
            ("sizes", sizes(&sample)),
        ] {
            let path = folder.join(format!("{}.{ending}", sample.name));
            if let Err(why) = std::fs::write(&path, text) {
                eprintln!("{} could not be written: {why}", path.display());
                return ExitCode::from(3);
            }
        }
        println!("{}", sample.name);
    }
    ExitCode::SUCCESS
}

/// The corners to be found, one a line.
fn sizes(sample: &samples::Sample) -> String {
    let line = |(x, y): (f64, f64)| format!("{x:.12} {y:.12}\n");
    sample.corners_in_file().into_iter().map(line).collect()
}
