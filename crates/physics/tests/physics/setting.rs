//! Formulas as they are set: read back from the setting and from the spoken words, each gives the tree
//! it was made of; brackets are neither missing nor doubled; the MathML is well formed and Core only.

use crate::valid;
use measure::House;
use physics::formula::{Expression, Function, Number, Operation, Shape, expression, formula};
use physics::{catalogue, run};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// Reads a setting back by the rules of the page: a product binds tighter than a sum, a sign tighter
/// than a product, and nothing is looked at but what a reader of the page sees.
struct Page<'a> {
    parts: &'a [Shape],
    at: usize,
}

fn read(shape: &Shape) -> Expression {
    let parts = match shape {
        Shape::Row { of } => of.as_slice(),
        other => std::slice::from_ref(other),
    };
    let mut page = Page { parts, at: 0 };
    let read = page.sum();
    assert_eq!(page.at, parts.len(), "not all was read: {shape:?}");
    read
}

impl Page<'_> {
    fn sign(&mut self, wanted: &str) -> bool {
        let found =
            matches!(self.parts.get(self.at), Some(Shape::Sign { sign }) if *sign == wanted);
        self.at += usize::from(found);
        found
    }

    fn sum(&mut self) -> Expression {
        let mut left = self.product();
        loop {
            let operation = if self.sign("+") {
                Operation::Add
            } else if self.sign("\u{2212}") {
                Operation::Subtract
            } else {
                return left;
            };
            left = Expression::Binary(operation, Box::new(left), Box::new(self.product()));
        }
    }

    fn product(&mut self) -> Expression {
        let mut left = self.signed();
        while self.sign("×") {
            left = Expression::Binary(Operation::Multiply, Box::new(left), Box::new(self.signed()));
        }
        left
    }

    /// Brackets in a row hold a sum, a sign, or a product beside a product or after a sign.
    fn brackets_are_needed(&self) {
        let Shape::Brackets { of } = &self.parts[self.at] else {
            return;
        };
        let Shape::Row { of: inside } = &**of else {
            panic!("needless brackets: {of:?}");
        };
        let is = |part: Option<&Shape>, signs: &[&str]| matches!(part, Some(Shape::Sign { sign }) if signs.contains(sign));
        let product = !inside.iter().any(|part| is(Some(part), &["+", "\u{2212}"]));
        let before = self.at.checked_sub(1).and_then(|at| self.parts.get(at));
        let beside = is(before, &["×"]) || is(self.parts.get(self.at + 1), &["×"]);
        let before_that = self.at.checked_sub(2).and_then(|at| self.parts.get(at));
        let after_sign =
            is(before, &["\u{2212}"]) && (self.at < 2 || is(before_that, &["+", "\u{2212}", "×"]));
        assert!(
            !product || beside || after_sign,
            "needless brackets: {inside:?}"
        );
    }

    fn signed(&mut self) -> Expression {
        if self.sign("\u{2212}") {
            return Expression::Negative(Box::new(self.signed()));
        }
        self.brackets_are_needed();
        let whole = whole(&self.parts[self.at]);
        self.at += 1;
        // A function without brackets must be the last thing before a plus or minus.
        let bare = matches!(&self.parts[self.at - 1],
            Shape::Call { of, .. } if !matches!(**of, Shape::Brackets { .. }));
        assert!(!bare || !matches!(self.parts.get(self.at), Some(Shape::Sign { sign: "×" })));
        whole
    }
}

fn call(word: &str, arguments: Vec<Expression>) -> Expression {
    let word = word.replace("arc", "a");
    Expression::Call(Function::from_word(&word).unwrap(), arguments)
}

fn whole(shape: &Shape) -> Expression {
    match shape {
        Shape::Number { text } => Expression::Number(Number {
            text: text.clone(),
            value: text.parse().unwrap(),
        }),
        Shape::Degrees { of } => {
            assert!(matches!(**of, Shape::Number { .. }));
            whole(of)
        }
        Shape::Symbol { base, sub } => {
            let low = sub.iter().map(|s| format!("_{}", s.replace(',', "_")));
            Expression::Symbol(base.clone() + &low.collect::<String>())
        }
        Shape::Pi => Expression::Pi,
        Shape::Fraction { above, below } => {
            no_needless_brackets(above);
            no_needless_brackets(below);
            Expression::Binary(
                Operation::Divide,
                Box::new(read(above)),
                Box::new(read(below)),
            )
        }
        Shape::Root { index, of } => {
            no_needless_brackets(of);
            call(
                if index.is_some() { "cbrt" } else { "sqrt" },
                vec![read(of)],
            )
        }
        Shape::Power { base, exponent } => {
            no_needless_brackets(exponent);
            // What is raised is one letter, one number, one pair of bars, or in brackets.
            assert!(matches!(
                **base,
                Shape::Number { .. }
                    | Shape::Symbol { .. }
                    | Shape::Pi
                    | Shape::Absolute { .. }
                    | Shape::Brackets { .. }
            ));
            Expression::Binary(
                Operation::Power,
                Box::new(whole(base)),
                Box::new(read(exponent)),
            )
        }
        Shape::Brackets { of } => {
            no_needless_brackets(of);
            // One letter or number needs no brackets but after a function.
            let one = matches!(
                **of,
                Shape::Number { .. } | Shape::Symbol { .. } | Shape::Pi
            );
            assert!(!one, "needless brackets: {shape:?}");
            read(of)
        }
        Shape::Absolute { of } => {
            no_needless_brackets(of);
            call("abs", vec![read(of)])
        }
        Shape::Call { word, of } => match &**of {
            Shape::Brackets { of } => match &**of {
                Shape::List { of } => call(word, of.iter().map(read).collect()),
                one => {
                    no_needless_brackets(one);
                    call(word, vec![read(one)])
                }
            },
            bare => call(word, vec![whole(bare)]),
        },
        Shape::Row { .. } | Shape::Sign { .. } | Shape::List { .. } => {
            panic!("stands where one thing should: {shape:?}")
        }
    }
}

fn no_needless_brackets(shape: &Shape) {
    assert!(
        !matches!(shape, Shape::Brackets { .. }),
        "doubled brackets: {shape:?}"
    );
}

/// Reads the spoken words back, by ear: only the words, no punctuation.
struct Ear<'a> {
    words: Vec<&'a str>,
    at: usize,
}

fn heard(text: &str) -> Expression {
    let words = text.split_whitespace().map(|w| w.trim_end_matches(','));
    let mut ear = Ear {
        words: words.collect(),
        at: 0,
    };
    let read = ear.sum();
    assert_eq!(ear.at, ear.words.len(), "not all was heard: {text}");
    read
}

impl Ear<'_> {
    fn says(&mut self, phrase: &str) -> bool {
        let wanted: Vec<&str> = phrase.split(' ').collect();
        let found = self.words[self.at..].starts_with(&wanted);
        self.at += if found { wanted.len() } else { 0 };
        found
    }

    fn must(&mut self, phrase: &str) {
        assert!(
            self.says(phrase),
            "{phrase} at {} of {:?}",
            self.at,
            self.words
        );
    }

    fn sum(&mut self) -> Expression {
        let mut left = self.product();
        loop {
            let operation = if self.says("plus") {
                Operation::Add
            } else if self.says("minus") {
                Operation::Subtract
            } else {
                return left;
            };
            left = Expression::Binary(operation, Box::new(left), Box::new(self.product()));
        }
    }

    fn product(&mut self) -> Expression {
        let mut left = self.signed();
        while self.says("times") {
            left = Expression::Binary(Operation::Multiply, Box::new(left), Box::new(self.signed()));
        }
        left
    }

    fn signed(&mut self) -> Expression {
        if self.says("minus") {
            return Expression::Negative(Box::new(self.signed()));
        }
        let left = self.raised();
        if !self.says("over") {
            return left;
        }
        Expression::Binary(Operation::Divide, Box::new(left), Box::new(self.raised()))
    }

    fn raised(&mut self) -> Expression {
        let base = Box::new(self.thing());
        let number = |text: &str| {
            Box::new(Expression::Number(Number {
                text: text.to_owned(),
                value: text.parse().unwrap(),
            }))
        };
        if self.says("squared") {
            Expression::Binary(Operation::Power, base, number("2"))
        } else if self.says("cubed") {
            Expression::Binary(Operation::Power, base, number("3"))
        } else if self.says("to the power of all of") {
            let exponent = self.sum();
            self.must("end of power");
            Expression::Binary(Operation::Power, base, Box::new(exponent))
        } else if self.says("to the power") {
            Expression::Binary(Operation::Power, base, Box::new(self.thing()))
        } else {
            *base
        }
    }

    fn closed(&mut self, end: &str) -> Expression {
        let inside = self.sum();
        self.must(end);
        inside
    }

    fn list(&mut self) -> Vec<Expression> {
        let mut items = vec![self.sum()];
        while self.says("and") {
            items.push(self.sum());
        }
        self.must("end of list");
        items
    }

    fn thing(&mut self) -> Expression {
        if self.says("open bracket") {
            return self.closed("close bracket");
        }
        if self.says("the fraction") {
            let above = self.closed("all over");
            let below = self.closed("end of fraction");
            return Expression::Binary(Operation::Divide, Box::new(above), Box::new(below));
        }
        if self.says("the size of") {
            return call("abs", vec![self.closed("end of size")]);
        }
        if self.says("the least of") {
            return call("min", self.list());
        }
        if self.says("the greatest of") {
            return call("max", self.list());
        }
        if self.says("the value") {
            let value = self.closed("rounded to");
            let places = self.closed("decimal places");
            return call("round", vec![value, places]);
        }
        for (kind, word) in [("square", "sqrt"), ("cube", "cbrt")] {
            if self.says(&format!("the {kind} root of all of")) {
                return call(word, vec![self.closed("end of root")]);
            }
            if self.says(&format!("the {kind} root of")) {
                return call(word, vec![self.thing()]);
            }
        }
        for (name, word) in [
            ("arc sine", "asin"),
            ("arc cosine", "acos"),
            ("arc tangent", "atan"),
            ("sine", "sin"),
            ("cosine", "cos"),
            ("tangent", "tan"),
        ] {
            if self.says(&format!("the {name} of")) {
                return call(word, vec![self.thing()]);
            }
        }
        let word = self.words[self.at];
        self.at += 1;
        if word == "pi" {
            return Expression::Pi;
        }
        if let Ok(value) = word.parse() {
            self.says("degrees");
            let text = word.to_owned();
            return Expression::Number(Number { text, value });
        }
        self.must("sub");
        let low = self.words[self.at].replace('-', "_");
        self.at += 1;
        Expression::Symbol(format!("{word}_{low}"))
    }
}

/// Every element and attribute of MathML Core that a formula may use (W3C, MathML Core, sections 2 and 3).
const CORE: [(&str, &[&str]); 14] = [
    ("math", &["display", "alttext"]),
    ("mrow", &[]),
    ("mi", &[]),
    ("mn", &[]),
    ("mo", &["form", "separator"]),
    ("mtext", &[]),
    ("mspace", &["width"]),
    ("mfrac", &[]),
    ("msqrt", &[]),
    ("mroot", &[]),
    ("msup", &[]),
    ("msub", &[]),
    ("mtable", &[]),
    ("mtr", &[]),
];

fn is_core(text: &str) {
    let page = roxmltree::Document::parse(text).unwrap_or_else(|e| panic!("{e}: {text}"));
    for node in page.descendants().filter(roxmltree::Node::is_element) {
        let name = node.tag_name().name();
        let known = CORE.iter().find(|(known, _)| *known == name);
        let allowed = known.map_or_else(
            || {
                assert_eq!(name, "mtd");
                [].as_slice()
            },
            |(_, allowed)| allowed,
        );
        for attribute in node.attributes() {
            assert!(
                allowed.contains(&attribute.name()),
                "{name} {}",
                attribute.name()
            );
        }
        let children = node.children().filter(roxmltree::Node::is_element).count();
        match name {
            "mfrac" | "msup" | "msub" | "mroot" => assert_eq!(children, 2, "{text}"),
            "mi" | "mn" | "mo" | "mtext" | "mspace" => assert_eq!(children, 0, "{text}"),
            _ => {}
        }
    }
}

/// Formulas as a person would set and say them.
#[test]
fn common_formulas_are_said_one_way() {
    for (text, spoken) in [
        (
            "alpha = atan(a / b) / 2",
            "alpha equals the fraction the arc tangent of the fraction a all over b, end of fraction all over 2, end of fraction",
        ),
        (
            "w = l * sin(abs(a_w - a_f))",
            "w equals l times the sine of the size of a sub w minus a sub f, end of size",
        ),
        ("P = 1 / n", "capital P equals 1 over n"),
        (
            "d1 = D2_min - P / 2",
            "d sub 1 equals capital D sub 2-min minus the fraction capital P all over 2, end of fraction",
        ),
        (
            "A = pi * d^2 / 4",
            "capital A equals the fraction pi times d squared all over 4, end of fraction",
        ),
        (
            "y = max(0, g_i - g_o)",
            "y equals the greatest of 0 and g sub i minus g sub o, end of list",
        ),
        ("s = sin(45)", "s equals the sine of 45 degrees"),
        ("Delta = -x", "capital delta equals minus x"),
    ] {
        let read = formula(text).unwrap();
        assert_eq!(read.lines[0].shape().spoken(), spoken);
    }
}

#[test]
fn common_formulas_are_set_as_on_paper() {
    let set = |text: &str| expression(text).unwrap().shape().mathml_part();
    assert_eq!(
        set("(a + b) / (c)"),
        "<mfrac><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mi>c</mi></mfrac>"
    );
    assert_eq!(set("theta_max"), "<msub><mi>θ</mi><mi>max</mi></msub>");
    assert_eq!(
        set("D2_min"),
        "<msub><mi>D</mi><mrow><mn>2</mn><mo separator=\"true\">,</mo><mi>min</mi></mrow></msub>"
    );
    assert_eq!(
        set("cbrt(x + 1)"),
        "<mroot><mrow><mi>x</mi><mo>+</mo><mn>1</mn></mrow><mn>3</mn></mroot>"
    );
    assert!(set("tan(44 - a)").contains("<mn>44</mn><mo form=\"postfix\">°</mo>"));
    assert!(
        !set("tan(2 * a)").contains('°'),
        "of a product nobody can say which part is the angle"
    );
    assert!(!set("atan(0.5)").contains('°'));
}

/// On one sheet two names must not come to look alike.
#[test]
fn no_two_names_of_a_card_look_alike() {
    for entry in catalogue() {
        let mut seen = BTreeMap::new();
        for line in entry.card.tree().unwrap().lines {
            let used = line.expression.symbols().into_iter().map(str::to_owned);
            for name in used.chain([line.name.clone()]) {
                let look = Expression::Symbol(name.clone()).shape().mathml_part();
                let first = seen.entry(look).or_insert_with(|| name.clone());
                assert_eq!(*first, name, "{}", entry.card.id);
            }
        }
    }
}

#[test]
fn every_step_of_every_sheet_is_core_mathml_and_reads_back() {
    for entry in catalogue() {
        for (given, _) in valid(entry, 20, House::Inch) {
            for step in run(entry.card.id, &given, House::Inch).unwrap().steps {
                is_core(&step.mathml());
                assert_eq!(read(&step.numbers), expression(&step.substituted).unwrap());
                assert_eq!(heard(&step.numbers.spoken()), read(&step.numbers));
                assert!(step.spoken().contains(&step.shown));
                assert_eq!(serde_json::to_value(&step.shape).unwrap()["kind"], "row");
            }
        }
    }
}

fn trees() -> impl Strategy<Value = Expression> {
    let leaf = prop_oneof![
        (0u32..100_000).prop_map(|n| {
            let text = format!("{}.{:03}", n / 1000, n % 1000);
            let value = text.parse().unwrap();
            Expression::Number(Number { value, text })
        }),
        (2u8..5).prop_map(|n| Expression::Number(Number {
            text: n.to_string(),
            value: f64::from(n)
        })),
        "[b-d]_[a-d](_[0-9])?".prop_map(Expression::Symbol),
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
        let functions = prop::sample::select(Function::ALL.map(|(f, _)| f).to_vec());
        prop_oneof![
            inner
                .clone()
                .prop_map(|e| Expression::Negative(Box::new(e))),
            (operations, inner.clone(), inner.clone()).prop_map(|(o, a, b)| Expression::Binary(
                o,
                Box::new(a),
                Box::new(b)
            )),
            (functions, inner.clone(), inner).prop_map(|(f, a, b)| {
                let given = if f.arguments().0 == 2 {
                    vec![a, b]
                } else {
                    vec![a]
                };
                Expression::Call(f, given)
            }),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn what_is_set_reads_back_as_the_same_tree(tree in trees()) {
        let shape = tree.shape();
        prop_assert_eq!(&read(&shape), &tree, "{}", shape.spoken());
    }

    #[test]
    fn what_is_said_is_heard_as_the_same_tree(tree in trees()) {
        let spoken = tree.shape().spoken();
        prop_assert_eq!(&heard(&spoken), &tree, "{}", spoken);
    }

    #[test]
    fn what_is_set_is_core_mathml(tree in trees()) {
        is_core(&tree.shape().mathml());
    }
}
