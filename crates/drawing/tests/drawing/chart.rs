//! Maps of squares: marks beside one another, and room for what is written.

use drawing::{Marked, Square, SquareMap};

fn map(row: &str, column: &str, mark: Square, again: bool) -> String {
    let cell = Marked {
        said: ".571".into(),
        mark,
        again,
    };
    SquareMap {
        told: "a sheet".into(),
        columns: vec![column.into()],
        rows: vec![(row.into(), vec![cell])],
    }
    .svg()
}

/// A number of an attribute, of the first that has this beginning.
fn number(svg: &str, after: &str) -> f64 {
    let from = svg.split_once(after).unwrap().1;
    from.split('"').next().unwrap().parse().unwrap()
}

#[test]
fn a_doubtful_square_that_is_thin_is_drawn_as_thin() {
    for mark in [Square::Thin, Square::Thinnest] {
        let (sure, doubtful) = (map("6", "4", mark, false), map("6", "4", mark, true));
        // All that is drawn of the sure one is drawn of the doubtful one, and a filled corner more.
        let mut more: Vec<&str> = doubtful.lines().collect();
        for line in sure.lines().filter(|line| !line.contains("<text")) {
            let at = more.iter().position(|it| *it == line);
            more.remove(at.unwrap_or_else(|| panic!("{mark:?} lost {line}")));
        }
        assert!(
            more.iter()
                .any(|line| line.contains("fill=\"currentColor\"")),
            "{more:?}"
        );
        assert!(doubtful.contains(".571?") && !sure.contains('?'));
    }
}

#[test]
fn long_names_have_room() {
    let long = "bottom, beside the blow-off";
    let svg = map(long, "8", Square::Plain, false);
    // The name ends before its square; of a face like this no letter is wider than .6 of its size on the mean.
    let (square, name) = (number(&svg, "<rect x=\""), long.len() as f64 * 15.0 * 0.55);
    assert!(square > name, "{square} {name}");
    let wide = map("6", "behind the dome", Square::Plain, false);
    assert!(
        number(&wide, "<rect x=\"") < 60.0,
        "short names take little"
    );
    let rect = wide.split_once("<rect").unwrap().1;
    assert!(number(rect, "width=\"") > "behind the dome".len() as f64 * 8.0);
}

/// XML 1.0, section 2.2: a control character stands in no document, escaped or not.
#[test]
fn names_are_text_whatever_is_in_them() {
    let svg = map("a & b", "<4\u{1}>", Square::Plain, false);
    assert!(svg.contains(">a &amp; b</text>"), "{svg}");
    assert!(svg.contains(">&lt;4 &gt;</text>"), "{svg}");
}
