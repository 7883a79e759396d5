//! The formula grammar: what it reads, what it refuses, and that printing and reading are inverse.

use physics::formula::{
    EvaluateError, Expression, Function, Number, Operation, evaluate, expression, formula,
    significant,
};
use proptest::prelude::*;

fn value(text: &str) -> f64 {
    evaluate(&expression(text).unwrap(), &|_| None).unwrap()
}

/// Arithmetic anyone can check in the head.
#[test]
fn arithmetic_follows_the_order_of_the_page() {
    for (text, expected) in [
        ("2 + 3 * 4", 14.0),
        ("(2 + 3) * 4", 20.0),
        ("8 - 3 - 2", 3.0),
        ("8 / 4 / 2", 1.0),
        ("2^3^2", 512.0),
        ("-2^2", -4.0),
        ("2^-1", 0.5),
        ("2 * -3", -6.0),
        ("--2", 2.0),
        ("sqrt(9)", 3.0),
        ("cbrt(-27)", -3.0),
        ("abs(3 - 5)", 2.0),
        ("min(3, 1, 2)", 1.0),
        ("max(3, 1, 2)", 3.0),
        ("sin(30)", 0.5),
        ("cos(60)", 0.5),
        ("tan(45)", 1.0),
        ("asin(0.5)", 30.0),
        ("acos(0.5)", 60.0),
        ("atan(1)", 45.0),
        (".5 + .25", 0.75),
        ("round(0.61875, 4)", 0.6188),
        ("round(0.00625, 4)", 0.0063),
        ("round(-2.5, 0)", -3.0),
        ("round(0.6187499, 4)", 0.6187),
    ] {
        assert!(
            (value(text) - expected).abs() < 1e-12,
            "{text} = {}",
            value(text)
        );
    }
    assert_eq!(value("pi"), std::f64::consts::PI);
}

#[test]
fn what_cannot_be_read_is_said_in_words() {
    for (text, part) in [
        ("2 +", "read 'the end', expected a number, a name or '('"),
        ("2 3", "read '3', expected a sign or the end"),
        ("(2", "read 'the end', expected ')'"),
        ("1.2.3", "read '1.2.3', expected a plain decimal number"),
        ("sin 30", "read '3', expected '(' after a function"),
        ("sin(1, 2)", "sin takes 1 to 1 arguments, read 2"),
        ("max(1)", "max takes 2 to 8 arguments, read 1"),
        ("2 ? 3", "read '?', expected a sign or the end"),
        ("", "read 'the end'"),
    ] {
        let said = expression(text).unwrap_err().to_string();
        assert!(said.contains(part), "{text}: {said}");
    }
    assert!(
        formula("a = 1\nb 2")
            .unwrap_err()
            .to_string()
            .contains("expected '='")
    );
    assert!(
        formula("sin = 2")
            .unwrap_err()
            .to_string()
            .contains("not a function's")
    );
    let deep = "(".repeat(5000) + "1" + &")".repeat(5000);
    assert!(expression(&deep).unwrap_err().to_string().contains("deep"));
    assert!(
        expression(&"-".repeat(5000))
            .unwrap_err()
            .to_string()
            .contains("deep")
    );
    assert!(
        expression(&"2^".repeat(5000))
            .unwrap_err()
            .to_string()
            .contains("deep")
    );
}

#[test]
fn what_has_no_answer_is_said_in_words() {
    for text in ["1 / 0", "sqrt(-1)", "asin(1.1)", "(-2)^0.5"] {
        let tree = expression(text).unwrap();
        assert!(
            matches!(
                evaluate(&tree, &|_| None),
                Err(EvaluateError::NoAnswer { .. })
            ),
            "{text}"
        );
    }
    let unknown = evaluate(&expression("a + 1").unwrap(), &|_| None).unwrap_err();
    assert_eq!(unknown.to_string(), "a has no value");
}

#[test]
fn numbers_are_put_in_place_of_letters() {
    let tree = expression("a * (b - c)^2").unwrap();
    let put = tree.substituted(&|symbol| match symbol {
        "a" => Some(0.125),
        "b" => Some(-3.0),
        _ => Some(1.0 / 3.0),
    });
    assert_eq!(put.to_string(), "0.125 * (-3 - 0.333333333)^2");
}

#[test]
fn significant_figures_are_plain_and_short() {
    for (value, text) in [
        (0.0, "0"),
        (44.000_000_000_01, "44"),
        (0.001_767_766_952_966, "0.00176776695"),
        (9.999_999_999_6, "10"),
        (123_456_789_012.0, "123456789012"),
        (-0.1 - 0.2, "-0.3"),
        (0.000_006_3, "0.0000063"),
    ] {
        assert_eq!(significant(value), text);
    }
}

fn trees() -> impl Strategy<Value = Expression> {
    let leaf = prop_oneof![
        (0u32..100_000).prop_map(|n| {
            let text = format!("{}.{:03}", n / 1000, n % 1000);
            Expression::Number(Number {
                value: text.parse().unwrap(),
                text,
            })
        }),
        "[a-d]_[a-d]".prop_map(Expression::Symbol),
        Just(Expression::Pi),
    ];
    leaf.prop_recursive(5, 40, 3, |inner| {
        let operations = prop::sample::select(vec![
            Operation::Add,
            Operation::Subtract,
            Operation::Multiply,
            Operation::Divide,
            Operation::Power,
        ]);
        prop_oneof![
            inner
                .clone()
                .prop_map(|e| Expression::Negative(Box::new(e))),
            (operations, inner.clone(), inner.clone()).prop_map(|(o, a, b)| Expression::Binary(
                o,
                Box::new(a),
                Box::new(b)
            )),
            inner
                .clone()
                .prop_map(|a| Expression::Call(Function::Sin, vec![a])),
            (inner.clone(), inner).prop_map(|(a, b)| Expression::Call(Function::Max, vec![a, b])),
        ]
    })
}

proptest! {
    #[test]
    fn printing_and_reading_are_inverse(tree in trees()) {
        let text = tree.to_string();
        prop_assert_eq!(expression(&text), Ok(tree), "{}", text);
    }

    #[test]
    fn no_text_makes_the_reader_fall_over(text in "[-+*/^() a-d0-9.,=]{0,60}") {
        let _ = expression(&text);
        let _ = formula(&text);
    }
}
