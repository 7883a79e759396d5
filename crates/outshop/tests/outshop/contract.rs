//! The JSON that other programs lean on: its keys, its words, the catalogue of sheets.

use crate::run::Folder;

fn keys(value: &serde_json::Value) -> Vec<&str> {
    value
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect()
}

/// Design section 4: the keys of a sheet, of its inputs, steps and results.
#[test]
fn a_sheet_in_json_has_its_fixed_keys() {
    let folder = Folder::new("sheet");
    for words in [
        vec![
            "sheet",
            "seat.correct",
            "found_half_angle=44.2deg",
            "wanted_half_angle=45deg",
            "land=5/32in",
            "port=2in",
            "wall=.4in",
        ],
        vec![
            "sheet",
            "gauge.cone_two_balls",
            "large_ball=1in",
            "small_ball=3/4in",
            "top_difference=1.1in",
        ],
        vec![
            "sheet",
            "fit.hot_clearance",
            "diameter=1.5in",
            "materials=cast-iron,bronze",
            "rise=310F",
        ],
        vec!["sheet", "thread.acme", "diameter=1in", "tpi=5", "class=2G"],
    ] {
        let sheet = folder.json(&words);
        assert_eq!(sheet["sheet"], words[1]);
        for key in [
            "sheet", "law", "inputs", "results", "steps", "notices", "cautions", "sources",
        ] {
            assert!(!sheet[key].is_null(), "{words:?} lacks {key}");
        }
        for input in sheet["inputs"].as_array().unwrap() {
            assert_eq!(
                keys(input),
                ["name", "symbol", "entered", "value", "unit", "basis"]
            );
        }
        for step in sheet["steps"].as_array().unwrap() {
            assert_eq!(
                keys(step),
                ["formula", "substituted", "value", "unit", "source"]
            );
        }
        for (name, result) in sheet["results"].as_object().unwrap() {
            let shape = keys(result);
            let known = [
                vec!["value", "unit", "shown", "si"],
                vec!["text"],
                vec!["columns", "rows"],
            ];
            assert!(known.contains(&shape), "{words:?} {name}: {shape:?}");
        }
    }
}

/// A bare number takes the house unit, and the sheet says so.
#[test]
fn inch_and_metric_entry_of_one_size_give_one_answer() {
    let folder = Folder::new("house");
    let ask = |land: &str, house: &str| {
        folder.json(&[
            "sheet",
            "seat.correct",
            "found_half_angle=44deg",
            "wanted_half_angle=45deg",
            land,
            "port=2in",
            "--house",
            house,
        ])
    };
    let (inch, metric, bare) = (
        ask("land=1/4in", "inch"),
        ask("land=6.35mm", "inch"),
        ask("land=6.35", "metric"),
    );
    assert_eq!(
        inch["results"]["wedge"]["si"],
        metric["results"]["wedge"]["si"]
    );
    assert_eq!(
        inch["results"]["wedge"]["si"],
        bare["results"]["wedge"]["si"]
    );
    assert_eq!(bare["results"]["wedge"]["unit"], "mm");
    assert!(
        bare.to_string().contains("house unit"),
        "the sheet must say that a unit was taken"
    );
}

#[test]
fn due_in_json_has_its_fixed_keys() {
    let folder = Folder::new("due");
    folder.done(&["demo", "--no-serve", "--book", "d.book"]);
    let due = folder.json(&["due", "14", "--book", "d.book"]);
    for key in ["engine", "on", "clocks", "trains"] {
        assert!(!due[key].is_null(), "due lacks {key}");
    }
    for clock in due["clocks"].as_array().unwrap() {
        for key in [
            "rule",
            "version",
            "anchor",
            "counted_min",
            "counted_max",
            "limit",
            "left",
            "stops_on",
            "days",
        ] {
            assert!(clock.get(key).is_some(), "a clock lacks {key}: {clock}");
        }
        let (min, max) = (&clock["counted_min"], &clock["counted_max"]);
        assert!(max.is_null() || min.as_u64() <= max.as_u64(), "{clock}");
    }
    let all = folder.json(&["due", "--book", "d.book"]);
    assert_eq!(all.as_array().unwrap().len(), 3);
}

/// Sheets and their arguments are a promise: a change shows here and is judged before it is kept.
#[test]
fn the_catalogue_of_sheets_stands() {
    let folder = Folder::new("catalogue");
    insta::assert_json_snapshot!("catalogue", folder.json(&["sheet", "--list"]));
}
