//! What an entry made late shows of days past, added to the answer of whichever verb made it.

use serde_json::{Value, json};
use shop::report::Ran;

use super::wrap;
use crate::Answer;
use crate::words::past as say;

/// The answer, with the days on which an engine ran against what is known now.
pub fn told(mut answer: Answer, past: Vec<(String, Ran)>) -> Answer {
    if past.is_empty() {
        return answer;
    }
    answer.text.push_str(&format!("{}\n", say::STAYS));
    for (number, ran) in &past {
        let line = say::ran(number, ran.day, &ran.against);
        answer
            .text
            .push_str(&format!("  - {}\n", wrap(&line, 4, 100)));
    }
    if let Value::Object(map) = &mut answer.json {
        let days: Vec<_> = past
            .iter()
            .map(|(number, ran)| json!({ "engine": number, "day": ran.day.to_string(), "against": ran.against }))
            .collect();
        map.insert("past".into(), json!(days));
    }
    answer
}

/// The same for a page; nothing where there is nothing to tell.
pub fn of(answer: &Answer) -> Option<&str> {
    let from = answer.text.find(say::STAYS)?;
    answer.text.get(from..)
}
