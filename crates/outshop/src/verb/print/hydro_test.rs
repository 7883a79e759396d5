//! The sheet of the hydrostatic and the steam test, held against the rulebook.

use super::hydro;
use super::shop_test::{Shop, has_room, rows, said};

/// 49 CFR 230.36(b): 25 percent above MAWP, metal between 70 and 120 degrees F; 230.37: 95 to 100 percent in steam.
#[test]
fn the_pressures_of_the_day_are_those_of_the_law() {
    let mut shop = Shop::new("hydro");
    shop.says(&[
        "locomotive",
        "add",
        "27",
        "--wheels",
        "2-6-2",
        "--gauge",
        "36 in",
        "--rules",
        "us-steam",
        "--mawp",
        "160psig",
    ]);
    let form = hydro::paper(&mut shop.context, "27").unwrap();
    let worked: Vec<String> = rows(&form, "Pressures and figures of the day")
        .iter()
        .map(|row| row.iter().flatten().cloned().collect::<Vec<_>>().join(": "))
        .collect();
    for (what, pressure) in [
        ("hydrostatic test at the top", "200.0 psi"),
        ("least the steam test", "152.0 psi"),
        ("most it is made at", "160.0 psi"),
    ] {
        assert!(
            worked
                .iter()
                .any(|row| row.contains(what) && row.contains(pressure)),
            "{what}: {worked:?}"
        );
    }
    let text = said(&form);
    for words in [
        "70",
        "120",
        "25 percent above MAWP",
        "230.36(b)",
        "230.37",
        "230.40(a)",
        "counts as broken",
    ] {
        assert!(text.contains(words), "{words}");
    }
    // 230.36(c), 230.32(b)(3), 230.40(a)(1): inside, outside, every bolt; 230.37: in steam.
    let looked: Vec<&str> = rows(&form, "What is looked at")
        .iter()
        .filter_map(|row| row.first()?.as_deref())
        .collect();
    for section in ["230.32(b)(3)", "230.40(a)(1)", "230.37"] {
        assert!(
            looked.iter().any(|row| row.contains(section)),
            "{section}: {looked:?}"
        );
    }
    let leaks = form
        .parts
        .iter()
        .find(|part| part.title == "Leaks, by place");
    let leaks = leaks.and_then(|part| part.blocks.first());
    assert!(matches!(leaks, Some(paper::Block::Room { rows, .. }) if rows.len() >= 6));
    has_room(&form);
    let printed = form.print().unwrap();
    assert!(printed.oddities.is_empty());
    assert!(printed.pages <= 2, "one sheet of paper: {}", printed.pages);
}

#[test]
fn without_an_allowed_pressure_none_of_the_day_is_told() {
    let mut shop = Shop::new("hydro-unstated");
    let form = hydro::paper(&mut shop.context, "14").unwrap();
    let text = said(&form);
    assert!(
        text.contains("cannot tell the pressures of the day"),
        "{text}"
    );
    let worked = rows(&form, "Pressures and figures of the day");
    assert!(
        worked
            .iter()
            .flat_map(|row| row.iter().flatten())
            .all(|it| !it.contains("psig")),
        "{worked:?}"
    );
    let refused = hydro::paper(&mut shop.context, "803")
        .unwrap_err()
        .to_string();
    assert!(
        refused.contains("ask for no hydrostatic test of a boiler"),
        "{refused}"
    );
}
