//! A sheet as plain text: for a terminal, and to be stored beside the entry it served.

use super::{STANDING, Sheet, Shown, ShownInput};

/// No line is longer: the page fits a terminal and a sheet of paper at a readable size.
pub const WIDTH: usize = 100;

impl Sheet {
    /// The whole sheet as a page of plain text, no line over [`WIDTH`] characters.
    pub fn to_text(&self) -> String {
        let mut page = Page::default();
        page.line(&format!(
            "WORKED SHEET  {} (version {})",
            self.card.id, self.card.version
        ));
        page.line(self.card.title);
        page.heading("Purpose");
        page.wrapped("  ", "  ", self.card.purpose);
        let assumed: Vec<&ShownInput> = self.assumed().collect();
        if !assumed.is_empty() {
            page.heading("ASSUMED, NOT GIVEN");
            for input in assumed {
                page.item(&format!(
                    "{} = {}. {}",
                    input.name, input.entered, input.basis
                ));
            }
        }
        page.heading("Formula");
        for line in self
            .card
            .formula
            .lines()
            .map(str::trim)
            .filter(|line| !line.is_empty())
        {
            page.wrapped("  ", "      ", line);
        }
        self.where_each(&mut page);
        page.heading("Worked");
        for step in &self.steps {
            page.wrapped("  ", "      ", &step.formula);
            page.wrapped("    = ", "        ", &step.substituted);
            let unit = spaced(step.unit);
            page.wrapped(
                "    = ",
                "        ",
                &format!("{}{unit}   [{}]", step.shown, step.source),
            );
        }
        page.heading("Results");
        self.results(&mut page);
        page.items("Notices", &self.notices);
        page.items("Cautions", &self.cautions);
        page.heading("Holds for");
        page.wrapped("  ", "  ", self.card.validity);
        page.items("Sources", &self.sources);
        page.line("");
        page.line(STANDING);
        page.text
    }

    fn where_each(&self, page: &mut Page) {
        page.heading("Where");
        for input in &self.inputs {
            let name = if input.name == input.symbol {
                String::new()
            } else {
                format!(" ({})", input.name)
            };
            page.wrapped(
                "  ",
                "      ",
                &format!("{}{name}: {}", input.symbol, input.meaning),
            );
            let value = match &input.value {
                Shown::Quantity { shown, unit, .. } => format!("{shown}{}", spaced(unit)),
                _ => String::new(),
            };
            // A value typed just as it is worked with is not said twice.
            let value = if value.is_empty() || value == input.entered {
                String::new()
            } else {
                format!(" = {value}")
            };
            page.given(
                &format!("{}{value}", input.entered),
                &input.basis.to_string(),
            );
        }
        for line in self
            .steps
            .iter()
            .filter_map(|step| self.card.line(&step.symbol))
        {
            page.wrapped(
                "  ",
                "      ",
                &format!("{}: {}", line.symbol, line.meaning),
            );
        }
        for name in &self.not_given {
            page.line(&format!("  {name}: not given"));
        }
    }

    fn results(&self, page: &mut Page) {
        for result in &self.results {
            match &result.value {
                Shown::Quantity { shown, unit, .. } => {
                    let value = format!("{} = {shown}{}", result.name, spaced(unit));
                    page.wrapped("  ", "      ", &format!("{value:<38} {}", result.meaning));
                }
                Shown::Text(text) => {
                    page.wrapped("  ", "      ", &format!("{}: {text}", result.name))
                }
                Shown::Table { columns, rows } => {
                    page.line(&format!("  {}:", result.name));
                    page.table(columns, rows);
                }
            }
        }
    }
}

/// A unit set off from its number; the degree sign stands close.
fn spaced(unit: &str) -> String {
    match unit {
        "" | "°" => unit.to_owned(),
        unit => format!(" {unit}"),
    }
}

/// Lines of `text`, broken at its spaces; runs of spaces are kept where the line is not broken.
fn broken(first: &str, rest: &str, text: &str) -> Vec<String> {
    let mut all = Vec::new();
    let mut line = first.to_owned();
    let mut empty = true;
    for word in text.split(' ') {
        let room = line.chars().count() + 1 + word.chars().count() <= WIDTH;
        if !empty && !room {
            all.push(std::mem::replace(&mut line, rest.to_owned()));
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    all.push(line);
    all
}

#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    fn heading(&mut self, heading: &str) {
        self.line("");
        self.line(heading);
    }

    fn item(&mut self, text: &str) {
        self.wrapped("  - ", "    ", text);
    }

    fn items<T: AsRef<str>>(&mut self, heading: &str, items: &[T]) {
        if items.is_empty() {
            return;
        }
        self.heading(heading);
        for item in items {
            self.item(item.as_ref());
        }
    }

    /// What was entered, and three blanks after it where it came from. A list too long for one line goes on under
    /// itself two blanks further in, and what it came from after it, so that both are read back whole.
    fn given(&mut self, said: &str, basis: &str) {
        let basis = format!("({basis})");
        let begins = basis
            .split(' ')
            .next()
            .map_or(0, |word| word.chars().count());
        if 6 + said.chars().count() + 3 + begins <= WIDTH {
            return self.wrapped("      ", "      ", &format!("{said}   {basis}"));
        }
        let mut lines = broken("      ", "        ", said);
        match lines.last_mut() {
            Some(last) if last.chars().count() + 3 + basis.chars().count() <= WIDTH => {
                last.push_str("   ");
                last.push_str(&basis);
            }
            _ => lines.extend(broken("        ", "        ", &basis)),
        }
        for line in lines {
            self.line(&line);
        }
    }

    fn wrapped(&mut self, first: &str, rest: &str, text: &str) {
        for line in broken(first, rest, text) {
            self.line(&line);
        }
    }

    fn table(&mut self, columns: &[String], rows: &[Vec<String>]) {
        let widths: Vec<usize> = (0..columns.len())
            .map(|at| {
                let cells = std::iter::once(columns)
                    .chain(rows.iter().map(Vec::as_slice))
                    .filter_map(|row| row.get(at));
                cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
            })
            .collect();
        let wide = 6 + widths.iter().map(|width| width + 2).sum::<usize>();
        if wide > WIDTH + 2 {
            return self.stanzas(columns, rows);
        }
        for row in std::iter::once(columns).chain(rows.iter().map(Vec::as_slice)) {
            let cells: Vec<String> = row
                .iter()
                .zip(&widths)
                .map(|(cell, width)| format!("{cell:<width$}"))
                .collect();
            self.wrapped("      ", "        ", &cells.join("  "));
        }
    }

    /// A table too wide for the page: a row at a time, each cell after the first under its heading.
    fn stanzas(&mut self, columns: &[String], rows: &[Vec<String>]) {
        for row in rows {
            for (at, (heading, cell)) in columns.iter().zip(row).enumerate() {
                if at == 0 {
                    self.wrapped("      ", "        ", cell);
                } else {
                    self.wrapped("        ", "          ", &format!("{heading}: {cell}"));
                }
            }
        }
    }
}
