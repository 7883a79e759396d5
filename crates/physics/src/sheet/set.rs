//! A step of a sheet set as mathematics: the line, the numbers in place, the value, one below the other.

use super::Step;
use crate::formula::Shape;
use crate::formula::mathml::{block, escaped};

impl Step {
    /// The step in words: the line, then its numbers, then its value with its unit.
    pub fn spoken(&self) -> String {
        let (line, numbers) = (self.shape.spoken(), self.numbers.spoken());
        let unit = if self.unit == "°" {
            "degrees"
        } else {
            self.unit
        };
        let said = format!(
            "{line}; with numbers, {numbers}; which is {} {unit}",
            self.shown
        );
        said.trim_end().to_owned()
    }

    /// The step as one `<math>` element of MathML Core: a table whose equals signs stand below each other.
    pub fn mathml(&self) -> String {
        let (name, line) = sides(&self.shape);
        let unit = match self.unit {
            "" => String::new(),
            unit => format!("<mspace width=\"0.2em\"/><mtext>{}</mtext>", escaped(unit)),
        };
        let value = format!("<mrow><mn>{}</mn>{unit}</mrow>", escaped(&self.shown));
        let rows = [
            (name, line),
            (String::new(), self.numbers.mathml_part()),
            (String::new(), value),
        ];
        let rows: String = rows
            .iter()
            .map(|(left, right)| {
                format!("<mtr><mtd>{left}</mtd><mtd><mo>=</mo></mtd><mtd>{right}</mtd></mtr>")
            })
            .collect();
        block(&self.spoken(), &format!("<mtable>{rows}</mtable>"))
    }
}

/// A line parted at its sign of equality.
fn sides(line: &Shape) -> (String, String) {
    match line {
        Shape::Row { of } => match of.as_slice() {
            [name, Shape::Sign { sign: "=" }, rest @ ..] => {
                let right = Shape::Row { of: rest.to_vec() };
                (name.mathml_part(), right.mathml_part())
            }
            _ => (String::new(), line.mathml_part()),
        },
        other => (String::new(), other.mathml_part()),
    }
}
