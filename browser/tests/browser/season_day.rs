//! A day of use of every demonstration engine, as its crew would hold it: on a phone, with scripts switched off, in the
//! morning the daily and in the evening the report. Counts the touches and the fields it takes when all is well.

use browser::{Desk, Screen, Window, audit};
use serde_json::Value;

use crate::shop;

const PASSPHRASE: &str = "blue ring of contact";

struct Crew {
    window: Window,
    desk: Desk,
    touches: usize,
    written: usize,
}

impl Crew {
    fn goes(&self, path: &str) {
        self.window.go(&self.desk.url(path)).unwrap();
    }

    fn ask(&self, script: &str) -> Value {
        self.window.ask(script, Vec::new()).unwrap()
    }

    fn text(&self) -> String {
        self.window.text().unwrap()
    }

    fn touches(&mut self, css: &str) {
        self.touches += 1;
        self.window.press(css).unwrap();
    }

    fn writes(&mut self, css: &str, text: &str) {
        self.written += 1;
        self.window.write(css, text).unwrap();
    }

    /// Sends a form that must be taken.
    fn sends(&mut self, css: &str) {
        self.touches += 1;
        self.window.go_by(css).unwrap();
        assert_eq!(shop::alert(&self.window), "", "{css} was refused");
    }

    fn nothing_wrong(&self) {
        let wrong = audit(&self.window, &self.desk.at, false).unwrap();
        assert!(wrong.is_empty(), "{wrong:#?}");
    }

    /// The items that are open, by the names of their choices.
    fn items(&self) -> Vec<String> {
        let names = self.ask("return [...document.querySelectorAll('form.day input[value=good]')].map(it => it.name)");
        let names = names.as_array().unwrap().iter();
        names
            .map(|name| name.as_str().unwrap().to_string())
            .collect()
    }

    /// Answers every open item, the second one *fair*, and closes: words of before are touched, where there are some.
    fn morning(&mut self, number: &str) -> (usize, usize) {
        self.goes(&format!("/day/{number}"));
        self.nothing_wrong();
        (self.touches, self.written) = (0, 0);
        for (at, name) in self.items().iter().enumerate() {
            let seen = name.replace(":how", ":seen");
            let again = format!("label:has(input[name='{name}'][value^='good: '])");
            let there = format!("return document.querySelector(\"{again}\") !== null");
            if at != 1 && self.ask(&there) == Value::Bool(true) {
                self.touches(&again);
                continue;
            }
            let how = if at == 1 { "fair" } else { "good" };
            self.touches(&format!("label:has(input[name='{name}'][value='{how}'])"));
            let words = if at == 0 {
                "178 psig, as it should be"
            } else {
                "looked at, as it should be"
            };
            self.writes(&format!("input[name='{seen}']"), words);
        }
        self.writes("form.day input[name=sign_with]", PASSPHRASE);
        self.sends("form.day button[name=close]");
        let said = self.text();
        assert!(
            said.contains("is closed and signed by Ada Quill"),
            "{number}: {said}"
        );
        (self.touches, self.written)
    }

    /// The crew writes one thing up; somebody who may inspect looks.
    fn evening(&mut self, number: &str) {
        let form = "form.day:has(input[value='writeup report'])";
        self.writes(
            &format!("{form} input[name='symptoms:1:what']"),
            "a knock under load",
        );
        self.writes(
            &format!("{form} input[name='symptoms:1:where']"),
            "left side, leading end",
        );
        self.touches(&format!(
            "{form} label:has(input[name='symptoms:1:heat'][value=hot])"
        ));
        self.touches(&format!(
            "{form} label:has(input[name='symptoms:1:wait'][value=yes])"
        ));
        self.sends(&format!("{form} button"));
        let said = self.text();
        assert!(
            said.contains("a knock under load, left side, leading end, hot"),
            "{said}"
        );
        self.nothing_wrong();
        let link = self.ask(
            "return document.querySelector('a.need[href^=\"/write-up/\"]').getAttribute('href')",
        );
        self.goes(link.as_str().unwrap());
        self.nothing_wrong();
        self.touches("label:has(input[name=no_defect])");
        self.writes("textarea[name=seen]", "tried with the bar: no play");
        self.sends("main form button");
        self.goes(&format!("/day/{number}"));
        assert!(
            !self.text().contains("nobody has looked"),
            "{}",
            self.text()
        );
    }
}

#[test]
fn a_day_of_each_engine_is_held_on_a_phone() {
    let mut desk = Desk::demonstration().unwrap();
    let (name, value) = desk.sign_in().unwrap();
    let window = Window::open(Screen::Phone).unwrap();
    window.scripts(false).unwrap();
    window.keep(&desk.url("/in"), (&name, &value)).unwrap();
    let mut crew = Crew {
        window,
        desk,
        touches: 0,
        written: 0,
    };
    crew.goes("/me");
    shop::sets_passphrase(&crew.window, PASSPHRASE);
    for number in ["14", "27", "803"] {
        let (touches, written) = crew.morning(number);
        // An item takes one touch and its words; one touch and the passphrase more close: nothing answers them all.
        assert_eq!(touches, written, "{number}");
        crew.evening(number);
    }
}
