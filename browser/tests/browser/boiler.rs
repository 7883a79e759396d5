//! Her boiler by hand, on a phone with scripts switched off: a component entered, a survey, a bolt broken and renewed; and
//! what is refused comes back filled in.

use browser::Desk;

use crate::shop::{ADA, ENGINE, NEW};
use crate::walk::Hand;

fn hand() -> Hand {
    const NOW: &str = "2026-01-10T09:00";
    let shop = [NEW, &["--demonstration", "2026-05-16"]].concat();
    let map = [
        "boiler",
        "map",
        "14",
        "left side sheet",
        "--pitch",
        "4in",
        "--kind",
        "rigid",
        "--size",
        "1 in, 12 threads",
        "--source",
        "drawing 14-B-6",
        "1=6@6in+6in",
        "2=6@10in+6in",
    ];
    let desk = Desk::of(&[(ADA, NOW, &shop), (ADA, NOW, ENGINE), (ADA, NOW, &map)]).unwrap();
    Hand::of(desk)
}

impl Hand {
    fn at(&self, path: &str) {
        self.window.go(&self.desk.url(path)).unwrap();
    }

    /// What stands in a field of a form.
    fn typed(&self, verb: &str, name: &str) -> String {
        let field = format!(
            "form:has(input[name=verb][value='{verb}']) :is(input, textarea, select)[name='{name}']"
        );
        let script = "return document.querySelector(arguments[0]).value";
        let value = self.window.ask(script, vec![field.into()]).unwrap();
        value.as_str().unwrap().to_owned()
    }
}

#[test]
fn a_component_a_survey_and_a_bolt_are_entered_by_hand() {
    const ENTER: &str = "boiler enter";
    const TAKE: &str = "boiler survey";
    const TELL: &str = "boiler stay";
    let hand = hand();
    hand.at("/engine/14/boiler");
    assert!(hand.text().contains("cannot tell"));

    // A wall without its unit is refused, and all that was typed stays.
    hand.write(ENTER, "component", "second course");
    hand.choose(ENTER, "kind", "course");
    hand.choose(ENTER, "place", "barrel");
    hand.write(ENTER, "facts", "thickness=.649\nradius=35-11/16in");
    hand.write(ENTER, "source", "drawing 14-B-2");
    hand.send(ENTER);
    assert!(hand.alert().contains("thickness"), "{}", hand.alert());
    assert_eq!(hand.typed(ENTER, "component"), "second course");
    assert_eq!(hand.typed(ENTER, "kind"), "course");
    assert_eq!(hand.typed(ENTER, "place"), "barrel");
    assert!(hand.typed(ENTER, "facts").contains("radius=35-11/16in"));
    hand.write(ENTER, "facts", "thickness=.649in\nradius=35-11/16in");
    hand.done(ENTER);
    assert!(hand.text().contains("second course"));
    assert!(
        hand.text().contains("seam_kind"),
        "what is missing is named"
    );

    // A survey whose rows do not fit, then one that does.
    hand.at("/engine/14/boiler/second%20course");
    hand.write(TAKE, "columns", "1, 2, 3");
    hand.write(TAKE, "rows", "12=.684 .683 .683\n6=.660 .612");
    hand.write(TAKE, "unit", "in");
    hand.write(TAKE, "source", "from the front seam, ultrasound U-1");
    hand.send(TAKE);
    assert!(hand.alert().contains("2 squares"), "{}", hand.alert());
    assert!(hand.typed(TAKE, "rows").contains("6=.660 .612"));
    hand.write(TAKE, "rows", "12=.684 .683 .683\n6=.660 .612 -");
    hand.done(TAKE);
    let text = hand.text();
    assert!(text.contains("0.612 in, row 6, column 2"), "{text}");
    assert!(text.contains("1 not read"), "{text}");

    // A bolt is broken; renewed it wants a size.
    hand.at("/engine/14/stays");
    let tell = |which: &str, state: &str, told: &str| {
        hand.write(TELL, "which", which);
        hand.choose(TELL, "state", state);
        hand.write(TELL, "told", told);
    };
    tell("all", "sound", "hammered dry");
    hand.done(TELL);
    tell("2:3", "broken", "dull under the hammer");
    hand.done(TELL);
    assert!(hand.text().contains("its last day is"), "{}", hand.text());
    tell("2:3", "renewed", "driven both ends");
    hand.send(TELL);
    assert!(hand.alert().contains("has a size"), "{}", hand.alert());
    assert_eq!(hand.typed(TELL, "which"), "2:3");
    assert_eq!(hand.typed(TELL, "state"), "renewed");
    hand.write(TELL, "size", "1-1/32 in, 12 threads");
    hand.done(TELL);
    let text = hand.text();
    assert!(!text.contains("its last day is"), "{text}");
    assert!(text.contains("Row 2, number 3"), "{text}");
}

#[test]
fn a_cut_that_does_not_read_stays_in_its_field() {
    let hand = hand();
    hand.at("/engine/14/tires?clean_up=thin&lead_weeks=40");
    assert!(hand.alert().contains("clean-up"), "{}", hand.alert());
    let script = "return document.querySelector('#tires-clean-up').value";
    assert_eq!(hand.window.ask(script, Vec::new()).unwrap(), "thin");
    assert!(hand.text().contains("8 of her 8 driving tires"));
    // A gauge six feet under the water of a test at 225 psig shows 2.6 psi more, and two more by its own error.
    hand.at("/engine/14/hydro?head=6ft&error=2psi");
    assert!(hand.text().contains("229.6 psig"), "{}", hand.text());
    hand.at("/engine/14/hydro?head=6ft&error=");
    assert!(!hand.alert().is_empty());
}

/// 49 CFR 230.72(c) and (d): the same reading of a reservoir's wall, 0.25 in on a radius of 10 in at 140 psig, strength unknown.
#[test]
fn a_reservoir_is_not_judged_before_its_seam_was_said() {
    let hand = hand();
    let at = |seam: &str| {
        hand.at(&format!(
            "/sheet/air.reservoir?engine=14&pressure=140psig&radius=10in&strength=unknown&wall=.25in&seam={seam}"
        ));
        hand.text()
    };
    let unsaid = at("");
    assert!(hand.alert().contains("needs seam"), "{unsaid}");
    assert!(!unsaid.contains("0.1412 in") && !unsaid.contains("0.2848 in"));
    let none = at("none");
    assert!(
        none.contains("0.1412 in") && !none.contains("fails: wall"),
        "{none}"
    );
    let lap = at("lap");
    assert!(
        lap.contains("0.2848 in") && lap.contains("fails: wall"),
        "{lap}"
    );
}
