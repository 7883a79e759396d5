//! The page and the JSON: order, width, and the words that must stand on them.

use crate::{typed, valid};
use measure::House;
use physics::{Basis, Given, STANDING, catalogue, run};

#[test]
fn every_page_reads_in_order_and_keeps_its_width() {
    let headings = [
        "\nPurpose\n",
        "\nFormula\n",
        "\nWhere\n",
        "\nWorked\n",
        "\nResults\n",
        "\nCautions\n",
        "\nSources\n",
    ];
    for entry in catalogue() {
        for house in [House::Inch, House::Metric] {
            for (given, _) in valid(entry, 30, house) {
                let text = run(entry.card.id, &given, house).unwrap().to_text();
                let places: Vec<usize> = headings
                    .iter()
                    .map(|h| text.find(h).unwrap_or_else(|| panic!("{h}\n{text}")))
                    .collect();
                assert!(places.is_sorted(), "{text}");
                assert_eq!(text.trim_end().lines().last(), Some(STANDING));
                for line in text.lines() {
                    assert!(line.chars().count() <= 100, "{line}");
                    assert_eq!(line, line.trim_end());
                }
                // A long list may be broken after a comma.
                let flat: Vec<&str> = text.split_whitespace().collect();
                let flat = flat.join(" ");
                for one in &given {
                    assert!(
                        flat.contains(&one.text),
                        "{} is not on the page as typed",
                        one.text
                    );
                }
                for name in entry.card.arguments.iter().map(|a| a.name) {
                    assert!(text.contains(name), "{name}");
                }
            }
        }
    }
}

#[test]
fn the_json_has_the_promised_keys() {
    for entry in catalogue() {
        let (given, _) = valid(entry, 1, House::Inch).remove(0);
        let json = run(entry.card.id, &given, House::Inch).unwrap().to_json();
        let keys: Vec<&str> = json
            .as_object()
            .unwrap()
            .keys()
            .map(String::as_str)
            .collect();
        assert_eq!(
            keys,
            [
                "sheet", "law", "inputs", "results", "steps", "notices", "cautions", "sources"
            ]
        );
        assert_eq!(json["sheet"], entry.card.id);
        for input in json["inputs"].as_array().unwrap() {
            for key in ["name", "symbol", "entered", "value", "unit", "basis"] {
                assert!(
                    input.get(key).is_some_and(|v| !v.is_null()),
                    "{key} in {input}"
                );
            }
        }
        for spec in entry.card.results {
            let result = &json["results"][spec.name];
            let quantity = ["value", "unit", "shown", "si"]
                .iter()
                .all(|k| !result[*k].is_null());
            let table = !result["columns"].is_null() && !result["rows"].is_null();
            assert!(
                quantity || table || result["text"].is_string(),
                "{}: {result}",
                spec.name
            );
        }
        for step in json["steps"].as_array().unwrap() {
            for key in ["formula", "substituted", "value", "unit", "source"] {
                assert!(
                    step.get(key).is_some_and(|v| !v.is_null()),
                    "{key} in {step}"
                );
            }
        }
    }
}

/// The catalogue tells a caller all it needs to form a request.
#[test]
fn a_card_as_json_lists_arguments_and_results() {
    for entry in catalogue() {
        let json = entry.card.to_json();
        assert_eq!(json["sheet"], entry.card.id);
        for argument in json["arguments"].as_array().unwrap() {
            let counted = argument["dimension"].is_string() && argument["range"].is_array();
            let worded = argument["choices"]
                .as_array()
                .is_some_and(|c| !c.is_empty());
            assert!(counted != worded, "{argument}");
        }
        let names: Vec<&str> = json["results"]
            .as_array()
            .unwrap()
            .iter()
            .map(|r| r["name"].as_str().unwrap())
            .collect();
        assert_eq!(
            names,
            entry
                .card
                .results
                .iter()
                .map(|r| r.name)
                .collect::<Vec<_>>()
        );
    }
}

#[test]
fn a_basis_and_a_missing_unit_are_said() {
    let mut given = typed(&[
        ("found_half_angle", "44deg"),
        ("wanted_half_angle", "45"),
        ("land", "1/8 in"),
        ("port", "2"),
    ]);
    given.push(Given {
        name: "wall".to_owned(),
        text: "1/4 in".to_owned(),
        basis: Basis::Ruling {
            rule: "shop-7".to_owned(),
            version: "2".to_owned(),
        },
    });
    let sheet = run("seat.correct", &given, House::Inch).unwrap();
    let text = sheet.to_text();
    assert!(
        text.contains("port: '2' has no unit; taken as 2 in, by the house."),
        "{text}"
    );
    assert!(
        text.contains("(entered without a unit, house unit taken)"),
        "{text}"
    );
    assert!(text.contains("(ruling: shop-7, version 2)"), "{text}");
    assert!(text.contains("    = 0.125 * sin(abs(45 - 44))\n"), "{text}");
    let json = sheet.to_json();
    assert_eq!(json["inputs"][0]["entered"], "44deg");
    assert_eq!(json["inputs"][0]["unit"], "°");
}
