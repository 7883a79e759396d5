//! A landed form never changes: every body in `past/forms` still reads, and writes the same bytes.
//!
//! A new form is landed by hand: `OUTSHOP_LAND_FORMS=1 cargo test -p store forms` writes the examples
//! that are missing and never touches one that is there.

use std::path::{Path, PathBuf};

use serde_json::Value;
use shop::book::Statement;

use crate::every_kind;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/past/forms")
}

/// Every example on file: kind, form, body as it lies there, and the file's name.
fn examples() -> Vec<(String, u32, String, String)> {
    let mut found = Vec::new();
    for file in std::fs::read_dir(folder()).unwrap() {
        let file = file.unwrap();
        let name = file.file_name().into_string().unwrap();
        // `fire-logged.1.json`, or `fire-logged.1.bare.json` for one in which facts are missing.
        let mut words = name.split('.');
        let kind = words.next().unwrap().to_string();
        let form = words.next().unwrap().parse().unwrap();
        let body = std::fs::read_to_string(file.path()).unwrap();
        found.push((kind, form, body, name));
    }
    found.sort();
    found
}

fn land(name: &str, statement: &Statement) {
    let path = folder().join(name);
    if !path.exists() && std::env::var_os("OUTSHOP_LAND_FORMS").is_some() {
        std::fs::write(&path, statement.body().unwrap()).unwrap();
    }
    assert!(
        path.exists(),
        "{name} has not landed: see the top of this file"
    );
}

#[test]
fn every_kind_has_an_example_in_its_present_form() {
    let all = every_kind::all();
    for (kind, form) in Statement::KINDS {
        let statement = all.iter().find(|s| s.kind() == *kind).expect(kind);
        land(&format!("{kind}.{form}.json"), statement);
    }
    for statement in every_kind::later_forms() {
        let (kind, form) = (statement.kind(), statement.form());
        assert!(form > 1, "{kind}");
        land(&format!("{kind}.{form}.json"), &statement);
    }
    for statement in every_kind::bare() {
        let (kind, form) = (statement.kind(), statement.form());
        land(&format!("{kind}.{form}.bare.json"), &statement);
    }
}

#[test]
fn every_landed_body_reads_and_writes_the_same_bytes() {
    let examples = examples();
    assert!(examples.len() >= Statement::KINDS.len());
    for (kind, form, body, name) in examples {
        let statement =
            Statement::read(&kind, form, &body).unwrap_or_else(|e| panic!("{name}: {e}"));
        assert_eq!(statement.kind(), kind, "{name}");
        if statement.form() == form {
            assert_eq!(statement.body().unwrap(), body, "{name}");
        }
    }
}

/// Whether a float is anywhere in it.
fn float(value: &Value) -> bool {
    match value {
        Value::Number(number) => !(number.is_i64() || number.is_u64()),
        Value::Array(all) => all.iter().any(float),
        Value::Object(all) => all.values().any(float),
        Value::String(inner) => serde_json::from_str(inner).is_ok_and(|v: Value| match v {
            // A body inside a body, as a correction has; a reading's `1.25` is text and stays text.
            Value::Object(_) | Value::Array(_) => float(&v),
            _ => false,
        }),
        Value::Null | Value::Bool(_) => false,
    }
}

#[test]
fn no_body_holds_a_float() {
    assert!(float(&serde_json::json!({"a": [{"b": 1.0}]})));
    assert!(float(&serde_json::json!({"body": "{\"b\":1e3}"})));
    assert!(!float(
        &serde_json::json!({"a": ["1.25", 3, -4, null, true]})
    ));
    for (_, _, body, name) in examples() {
        assert!(!float(&serde_json::from_str(&body).unwrap()), "{name}");
    }
    for statement in every_kind::all().iter().chain(&every_kind::bare()) {
        let body = statement.body().unwrap();
        assert!(!float(&serde_json::from_str(&body).unwrap()), "{body}");
    }
}

#[test]
fn a_form_nobody_knows_and_a_body_that_does_not_fit_are_refused_in_words() {
    let said = Statement::read("fire-logged", 9, "{}").unwrap_err();
    assert_eq!(
        said.to_string(),
        "this build does not know the statement `fire-logged` in form 9"
    );
    let said = Statement::read("signed", 1, "{\"job\":\"x\"}").unwrap_err();
    assert!(
        said.to_string()
            .starts_with("the body of a `signed` does not read: ")
    );
}
