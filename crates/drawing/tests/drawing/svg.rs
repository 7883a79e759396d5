//! The SVG: sound XML, fit for a page with a strict policy, and every figure equal to what its arrows span.

use crate::samples::{self, title};
use crate::svg_reader::{Dimension, dimensions, svg};
use drawing::Title;
use measure::{House, Length, math};
use roxmltree::Document;

/// The figures of a label in inches, with the error that their last place allows: the decimals, and the fraction
/// before them where there is one.
fn figures(label: &[String], house: House) -> Vec<(f64, f64)> {
    let all = label.join(" ");
    let words: Vec<&str> = all.split_whitespace().filter(|word| *word != "·").collect();
    // A tolerance stands after the size.
    let sizes: Vec<&str> = words
        .iter()
        .copied()
        .filter(|w| !w.starts_with(['±', '+', '-']))
        .collect();
    let last = sizes.last().unwrap().trim_matches(['(', ')', 'Ø', '°']);
    let places = last
        .split_once('.')
        .map_or(0, |(_, decimals)| decimals.len());
    let half = 0.5 / math::pow(10.0, f64::from(u32::try_from(places).unwrap()));
    let value: f64 = last.parse().unwrap();
    // A whole number and a fraction are exact.
    let exact = places == 0;
    let mut found = vec![match house {
        House::Inch => (value, if exact { 0.0 } else { half }),
        House::Metric => (
            Length::mm(value).to_inches(),
            Length::mm(half.min(0.0005)).to_inches(),
        ),
    }];
    if let Some(at) = words.iter().position(|word| word.contains('/')) {
        let (over, under) = words[at].split_once('/').unwrap();
        let part = over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap();
        let whole = words[..at]
            .last()
            .and_then(|word| word.parse::<f64>().ok())
            .unwrap_or(0.0);
        found.push((whole + part, 0.0));
    }
    found
}

fn length(dimension: &Dimension) -> f64 {
    let [(ax, ay), (bx, by)] = dimension.tips[..] else {
        panic!("{dimension:?}");
    };
    math::sqrt((ax - bx) * (ax - bx) + (ay - by) * (ay - by))
}

#[test]
fn every_figure_equals_what_its_arrows_span() {
    let mut measured = 0;
    for sample in samples::all() {
        let drawing = sample.drawing.unwrap();
        let house = drawing.house;
        for dimension in dimensions(&svg(&drawing)) {
            // Two points on paper, each written to a millionth of an inch.
            let reading = 3e-6 / dimension.times;
            match (dimension.tips.len(), dimension.radius) {
                (2, None) => {
                    // A computed size is rounded one way, by up to one in its last place; others to the nearest.
                    let one_way = ["seat outside", "sink", "wall after"]
                        .contains(&dimension.lines[0].as_str());
                    let times = if one_way { 2.0 } else { 1.0 };
                    // Of two limits the greater stands over the less, and the size lies between them.
                    let limits: Vec<_> = dimension
                        .lines
                        .iter()
                        .filter(|line| line.starts_with('Ø'))
                        .collect();
                    if let [most, least] = limits[..] {
                        let of = |line: &String| figures(std::slice::from_ref(line), house)[0];
                        let (most, least) = (of(most), of(least));
                        let spanned = length(&dimension) / dimension.times;
                        assert!(
                            most.0 > least.0
                                && spanned <= most.0 + most.1
                                && spanned >= least.0 - least.1
                        );
                        continue;
                    }
                    for (figure, error) in figures(&dimension.lines, house) {
                        let error = error * times;
                        let spanned = length(&dimension) / dimension.times;
                        assert!(
                            (spanned - figure).abs() <= error + reading,
                            "{}: {:?} spans {spanned}",
                            sample.name,
                            dimension.lines
                        );
                    }
                }
                (2, Some(radius)) => {
                    let spanned = 2.0 * math::asin(length(&dimension) / 2.0 / radius);
                    let figure = figures(&dimension.lines, House::Inch)[0].0;
                    assert!(
                        (spanned.to_degrees() - figure).abs() < 0.005 + 0.001,
                        "{}: {:?} spans {}",
                        sample.name,
                        dimension.lines,
                        spanned.to_degrees()
                    );
                }
                // A note with one arrow spans nothing; what the seat's says is proved in `seat`.
                (1, _) => continue,
                _ => panic!("{dimension:?}"),
            }
            measured += 1;
        }
    }
    assert!(measured > 80, "only {measured} dimensions were found");
}

#[test]
fn every_arrow_stands_over_a_corner_of_the_part() {
    for sample in samples::all() {
        for dimension in dimensions(&svg(&sample.drawing.unwrap())) {
            let [(ax, ay), (bx, by)] = dimension.tips[..] else {
                continue;
            };
            if dimension.radius.is_some() {
                continue;
            }
            // Upright and level dimensions; a slanting one is measured along its own line.
            for (tip, other, which) in [((ax, ay), by, 0), ((bx, by), ay, 0)]
                .into_iter()
                .chain([((ax, ay), bx, 1), ((bx, by), ax, 1)])
            {
                let level = if which == 0 {
                    tip.1 == other
                } else {
                    tip.0 == other
                };
                if !level {
                    continue;
                }
                let over = dimension.corners.iter().any(|corner| {
                    let away = if which == 0 {
                        corner.0 - tip.0
                    } else {
                        corner.1 - tip.1
                    };
                    away.abs() < 3e-6
                });
                assert!(over, "{}: {:?}", sample.name, dimension.lines);
            }
        }
    }
}

#[test]
fn a_page_with_a_strict_policy_can_hold_it() {
    for sample in samples::all() {
        let text = svg(&sample.drawing.unwrap());
        let document = Document::parse(&text).unwrap();
        for node in document.descendants().filter(roxmltree::Node::is_element) {
            assert!(!["script", "style", "image", "use", "a"].contains(&node.tag_name().name()));
            for attribute in node.attributes() {
                let name = attribute.name();
                assert!(name != "style" && name != "href" && name != "id", "{name}");
                assert!(!name.starts_with("on"), "{name}");
            }
        }
        let root = document.root_element();
        assert_eq!(root.attribute("viewBox").unwrap().split(' ').count(), 4);
        let first: Vec<&str> = root
            .children()
            .filter(roxmltree::Node::is_element)
            .take(2)
            .map(|node| node.tag_name().name())
            .collect();
        assert_eq!(first, ["title", "desc"]);
    }
}

#[test]
fn any_words_come_back_as_they_were() {
    let words = "Bolt & \"nut\" <A> 'é' Ø ½";
    let seat = samples::seat(1.5, 0.125, 44.0, 45.0);
    let named = Title {
        part: Some(words.to_owned()),
        number: Some("a\u{1}b".to_owned()),
        ..title(words)
    };
    let text = svg(&drawing::seat_section(&seat, House::Inch, named).unwrap());
    let document = Document::parse(&text).unwrap();
    let texts: Vec<&str> = document
        .descendants()
        .filter(|node| node.has_tag_name("text") || node.has_tag_name("title"))
        .filter_map(|node| node.text())
        .collect();
    assert_eq!(texts.iter().filter(|text| **text == words).count(), 3);
    assert!(texts.contains(&"a b"), "a control character is a blank");
}

#[test]
fn what_nobody_stated_is_said_so_and_advice_is_always_there() {
    let seat = samples::seat(1.5, 0.125, 44.0, 45.0);
    let text = svg(&drawing::seat_section(&seat, House::Inch, Title::default()).unwrap());
    assert!(text.matches(">not stated<").count() >= 9);
    assert!(text.contains(drawing::ADVICE));
    assert!(text.contains("Wall behind the seat: not known. Measure it before any cut."));
}

#[test]
fn a_text_too_long_for_its_place_is_cut_and_shows_that_it_is() {
    let seat = samples::seat(1.5, 0.125, 44.0, 45.0);
    let long = Title {
        part: Some("right feed check ".repeat(20)),
        ..title("Seat")
    };
    let text = svg(&drawing::seat_section(&seat, House::Inch, long).unwrap());
    let document = Document::parse(&text).unwrap();
    let cut = document
        .descendants()
        .filter(|node| node.has_tag_name("text"))
        .find(|node| node.text().is_some_and(|text| text.starts_with("right")))
        .unwrap();
    assert!(cut.text().unwrap().ends_with('…'));
    let right: f64 = ["x", "textLength"]
        .map(|name| cut.attribute(name).unwrap().parse::<f64>().unwrap())
        .iter()
        .sum();
    assert!(right < 11.0 * drawing::UNITS);
    let whole = document
        .descendants()
        .find(|node| node.has_tag_name("desc"))
        .unwrap();
    assert!(
        whole
            .text()
            .unwrap()
            .contains(&"right feed check ".repeat(20))
    );
}
