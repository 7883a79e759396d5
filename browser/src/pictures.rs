//! Pictures of every page for people to look at: on a phone and at a desk, with scripts and without, and on paper.

use std::fmt::Write;
use std::path::Path;
use std::process::Command;

use crate::{Desk, Screen, Visit, Window, Wrong, audit, visits};

/// Takes them into a folder, with a list to look at them by; gives what is wrong with the pages, page by page. Only
/// pages whose path begins with one of `begin` are looked at, all of them if it is empty.
///
/// # Errors
/// If the desk or the browser fails, or the folder cannot be written.
pub fn pictures(folder: &Path, begin: &[String]) -> Result<Vec<String>, Wrong> {
    let mut desk = Desk::demonstration()?;
    let cookie = desk.sign_in()?;
    let mut all = visits(&desk)?;
    if !begin.is_empty() {
        all.retain(|visit| begin.iter().any(|start| visit.path.starts_with(start)));
    }
    let mut window = Window::open(Screen::Phone)?;
    let mut wrong = Vec::new();
    write(&folder.join("index.html"), list(&all).as_bytes())?;
    for screen in Screen::ALL {
        window.look_on(screen)?;
        for scripts in [true, false] {
            window.scripts(scripts)?;
            let kind = kind(screen, scripts);
            for visit in &all {
                window.visit(&desk, visit, &cookie)?;
                write(
                    &folder.join(kind).join(format!("{}.png", visit.name())),
                    &window
                        .picture()
                        .map_err(|why| format!("{}: {why}", visit.path))?,
                )?;
                let found = audit(&window, &desk.at, false)?;
                wrong.extend(
                    found
                        .into_iter()
                        .filter(|note| !visit.is_expected(note))
                        .map(|note| format!("{kind} {}: {note}", visit.path)),
                );
            }
        }
    }
    window.scripts(true)?;
    for visit in &all {
        window.visit(&desk, visit, &cookie)?;
        let paper = folder.join("paper").join(format!("{}.pdf", visit.name()));
        write(&paper, &window.print()?)?;
        // Where the tool is not there the PDF is looked at as it is.
        let _ = Command::new("pdftoppm")
            .args(["-png", "-r", "60"])
            .arg(&paper)
            .arg(paper.with_extension(""))
            .status();
    }
    Ok(wrong)
}

fn kind(screen: Screen, scripts: bool) -> &'static str {
    match (screen, scripts) {
        (Screen::Phone, true) => "phone",
        (Screen::Phone, false) => "phone-without-scripts",
        (Screen::Desk, true) => "desk",
        (Screen::Desk, false) => "desk-without-scripts",
    }
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Wrong> {
    let failed = |why| format!("{} could not be written: {why}.", path.display());
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(failed)?;
    }
    std::fs::write(path, bytes).map_err(failed)
}

/// A page that lists the pictures.
fn list(all: &[Visit]) -> String {
    let mut page = String::from(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Pictures</title><h1>Pictures of every page</h1><table>\n",
    );
    for visit in all {
        let name = visit.name();
        let _ = write!(
            page,
            "<tr><td>{} <td>{}",
            visit.status,
            visit.path.replace('&', "&amp;").replace('<', "&lt;")
        );
        for screen in Screen::ALL {
            for scripts in [true, false] {
                let kind = kind(screen, scripts);
                let _ = write!(page, " <td><a href=\"{kind}/{name}.png\">{kind}</a>");
            }
        }
        let _ = writeln!(page, " <td><a href=\"paper/{name}.pdf\">paper</a>");
    }
    page.push_str("</table></html>\n");
    page
}
