//! What a file says, and what each trap of a table is answered with.
//!
//! Workbooks are made by another library (rust_xlsxwriter 0.102), so that the reader is held against what it did
//! not write itself. All logs here are invented.

use jiff::civil::{DateTime, date};
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook, Worksheet};
use shop::book::Stood;
use shop::clock::LogLine;

use super::{Logbook, MOST_BYTES, MOST_LINES, Order, Told, read};

fn told(order: Option<Order>) -> Told {
    Told {
        engine: Some("14".into()),
        order,
        sheet: None,
    }
}

fn lines(bytes: &[u8], told: &Told) -> Logbook {
    read("the log", bytes, told).unwrap_or_else(|no| panic!("{no}"))
}

fn no(bytes: &[u8]) -> String {
    match read("the log", bytes, &told(None)) {
        Err(failure) => {
            assert_eq!(failure.code(), 2, "{failure}");
            failure.to_string()
        }
        Ok(read) => panic!("taken: {read:?}"),
    }
}

/// The only line of a table, read.
fn only(bytes: &[u8], order: Option<Order>) -> LogLine {
    let mut all = lines(bytes, &told(order)).lines;
    assert_eq!(all.len(), 1);
    all.pop().unwrap().unwrap_or_else(|no| panic!("{no:?}"))
}

/// Why the only line of a table is refused.
fn refused(bytes: &[u8], order: Option<Order>) -> String {
    let mut all = lines(bytes, &told(order)).lines;
    assert_eq!(all.len(), 1);
    all.pop().unwrap().unwrap_err().why
}

fn at(text: &str) -> Option<DateTime> {
    Some(text.parse().unwrap())
}

#[test]
fn columns_stand_in_any_order_under_words_of_the_trade() {
    let text = "A title of the page\n\nMiles;PRESSURE-UP;Fire lit;remarks;Date;fire_out;Pressure gone;Offered for use\n\
                34;08:10;5:30;rain;2026-05-02;24:00;1:15 next day;yes\n";
    let read = lines(text.as_bytes(), &told(None));
    assert_eq!(read.not_read, ["remarks"]);
    let line = read.lines[0].clone().unwrap();
    assert_eq!(line.place, 4);
    assert_eq!(line.day, Some(date(2026, 5, 2)));
    assert_eq!(line.lit, at("2026-05-02T05:30"));
    assert_eq!(line.up, at("2026-05-02T08:10"));
    // 24:00 is the end of the day (ISO 8601:2004, 4.2.3; from memory).
    assert_eq!(line.out, at("2026-05-03T00:00"));
    assert_eq!(line.gone, at("2026-05-03T01:15"));
    assert_eq!((line.miles, line.offered), (Some(34), Some(true)));
    assert_eq!(line.told, "the log, line 4");
}

#[test]
fn days_and_times_are_read_as_written_and_never_guessed() {
    let of =
        |written: &str, order| only(format!("date\tlit\n{written}\t6:30\n").as_bytes(), order).day;
    let second = Some(date(2026, 5, 2));
    for written in [
        "2026-05-02",
        "2026/5/2",
        "2 May 2026",
        "May 2, 2026",
        "2-may-2026",
    ] {
        assert_eq!(of(written, None), second, "{written}");
    }
    assert_eq!(of("02/05/2026", Some(Order::DayMonth)), second);
    assert_eq!(of("05/02/2026", Some(Order::MonthDay)), second);
    assert_eq!(of("2.5.2026", Some(Order::DayMonth)), second);
    let not =
        |written: &str, order| refused(format!("date\tlit\n{written}\t6:30\n").as_bytes(), order);
    for written in ["03/04/2026", "13/04/2026", "3-4-2026"] {
        let said = not(written, None);
        assert!(
            said.contains("nobody said whether the day or the month stands first"),
            "{said}"
        );
    }
    assert!(not("05/13/2026", Some(Order::DayMonth)).contains("no calendar has"));
    assert!(not("2026-02-29", None).contains("no calendar has"));
    assert!(not("02/05/26", Some(Order::DayMonth)).contains("four digits"));
    for written in ["soon", "2026-05", "46144", "2026-05-02-03", "٢-5-2026"] {
        assert!(not(written, None).contains("which is no day"), "{written}");
    }
    let hour = |written: &str| {
        only(
            format!("date\tlit\n2026-05-02\t{written}\n").as_bytes(),
            None,
        )
        .lit
    };
    for (written, is) in [
        ("06:30", "2026-05-02T06:30"),
        ("6:30:15", "2026-05-02T06:30:15"),
        ("6:30 AM", "2026-05-02T06:30"),
        ("12:05 am", "2026-05-02T00:05"),
        ("12:05 p.m.", "2026-05-02T12:05"),
        ("11:59 PM", "2026-05-02T23:59"),
        ("2026-05-03T06:30", "2026-05-03T06:30"),
        ("3 May 2026 6:30 am", "2026-05-03T06:30"),
    ] {
        assert_eq!(hour(written), at(is), "{written}");
    }
    let not = |written: &str| {
        refused(
            format!("date\tlit\n2026-05-02\t{written}\n").as_bytes(),
            None,
        )
    };
    for written in [
        "0630",
        "6.30",
        "25:00",
        "24:01",
        "6:60",
        "13:00 PM",
        "0:30 am",
        "6:30Z",
        "6:30-06:00",
        "morning",
        "6:3",
    ] {
        let said = not(written);
        assert!(
            said.contains("no time") || said.contains("no day"),
            "{written}: {said}"
        );
    }
    assert!(not("2026-05-02 6:30 next day").contains("either was expected"));
    assert!(refused(b"lit,up\n6:30,\n", None).contains("no day for it"));
}

#[test]
fn an_end_before_its_beginning_is_not_taken_for_the_day_after() {
    let said = refused(b"date,lit,out\n2026-05-02,06:00,01:00\n", None);
    assert!(
        said.contains("write `01:00 next day` or its own day"),
        "{said}"
    );
    let line = only(
        b"date,lit,out,fire out date\n2026-05-02,06:00,01:00,2026-05-03\n",
        None,
    );
    assert_eq!(line.out, at("2026-05-03T01:00"));
    let line = only(b"date,lit,out\n2026-12-31,06:00,01:00 next day\n", None);
    assert_eq!(line.out, at("2027-01-01T01:00"));
    let line = only(b"date,lit,out\n2028-02-28,06:00,01:00 next day\n", None);
    assert_eq!(line.out, at("2028-02-29T01:00"));
}

#[test]
fn what_a_day_was_may_be_said_without_times() {
    let of = |word: &str| {
        only(
            format!("date,service day\n2026-05-02,{word}\n").as_bytes(),
            None,
        )
        .stood
    };
    assert_eq!(of("yes"), Some(Stood::ServiceDay));
    assert_eq!(of("X"), Some(Stood::ServiceDay));
    assert_eq!(of("no"), Some(Stood::NoServiceDay));
    assert_eq!(of("cannot tell"), Some(Stood::CannotTell));
    assert_eq!(of("?"), Some(Stood::CannotTell));
    assert_eq!(of(""), None);
    assert!(
        refused(b"date,service day\n2026-05-02,maybe\n", None).contains("yes, no or cannot tell")
    );
    assert!(refused(b"date,lit,miles\n2026-05-02,6:00,28.5\n", None).contains("whole miles"));
    assert!(refused(b"date,lit,miles\n2026-05-02,6:00,-3\n", None).contains("whole miles"));
    assert!(refused(b"date,lit,offered\n2026-05-02,6:00,1\n", None).contains("yes or no"));
}

#[test]
fn lines_that_are_blank_or_the_heading_again_are_passed_over() {
    let text = "date,lit\r\n2026-05-02,6:00\r\n,\r\n , \r\ndate,lit\r\n2026-05-03,6:00\r\n";
    let read = lines(text.as_bytes(), &told(None));
    assert_eq!((read.lines.len(), read.passed_over), (2, 3));
    // With the mark some programs begin a text with.
    let marked = format!("\u{FEFF}{text}");
    assert_eq!(lines(marked.as_bytes(), &told(None)).lines.len(), 2);
    // A value over two lines does not shift the count of lines.
    let read = lines(
        b"date,lit,remarks\n2026-05-02,6:00,\"two\nlines\"\n2026-05-03,6:00,\n",
        &told(None),
    );
    assert_eq!(read.lines[1].as_ref().unwrap().place, 4);
}

#[test]
fn a_line_without_an_engine_takes_the_one_named_for_the_file() {
    let text = b"engine,date,lit\n27,2026-05-02,6:00\n,2026-05-03,6:00\n";
    let engines = |told: &Told| -> Vec<Result<String, String>> {
        let lines = lines(text, told).lines.into_iter();
        lines
            .map(|l| l.map(|l| l.engine).map_err(|no| no.why))
            .collect()
    };
    assert_eq!(engines(&told(None)), [Ok("27".into()), Ok("14".into())]);
    let nobody = engines(&Told::default());
    assert!(nobody[1].as_ref().unwrap_err().contains("names no engine"));
}

#[test]
fn a_file_that_is_none_is_refused_in_a_sentence() {
    for (bytes, says) in [
        (&b""[..], "is empty"),
        (b"   \n \n", "nothing but blanks"),
        (b"%PDF-1.7 ...", "a PDF"),
        (
            b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1",
            "old binary kind, or one with a password",
        ),
        (
            b"PK\x03\x04 and no more",
            "cut short, damaged or no workbook",
        ),
        (b"\xFF\xFEd\0a\0t\0e\0", "UTF-16"),
        (b"<html><table>", "page or XML"),
        (b"date,lit\n2026-05-02,6:00\0\n", "line 2 holds a zero byte"),
        (
            b"date,lit\n2026-05-02,6:00\n2026-05-03,6:00 caf\xE9\n",
            "line 3 does not read",
        ),
        (
            b"date,lit,remarks\n2026-05-02,6:00,\"cut he",
            "never closes it",
        ),
        (b"date,lit\n", "no line under it"),
        (
            b"when,what\n2026-05-02,6:00\n",
            "no heading that is understood",
        ),
        (
            b"date,lit,fire lit\n2026-05-02,6:00,6:00\n",
            "two columns of one meaning, `lit` and `fire lit`",
        ),
        (
            b"date,miles\n2026-05-02,4\n",
            "no column that says what happened",
        ),
    ] {
        let said = no(bytes);
        assert!(said.contains(says), "{said}");
        assert!(said.ends_with("Nothing was saved."), "{said}");
    }
    assert!(no(&vec![b'x'; MOST_BYTES + 1]).contains("too large"));
    let many = format!("date,lit\n{}", "2026-05-02,6:00\n".repeat(MOST_LINES + 1));
    assert!(no(many.as_bytes()).contains("more than 20000 lines"));
    let wide = format!("date,lit{}\n", ",x".repeat(300));
    assert!(no(wide.as_bytes()).contains("columns in line 1"));
    let named = Told {
        sheet: Some("May".into()),
        ..told(None)
    };
    let said = read("the log", b"date,lit\n2026-05-02,6:00\n", &named).unwrap_err();
    assert!(said.to_string().contains("no workbook"));
}

#[test]
fn a_line_of_another_width_is_refused_and_the_others_stand() {
    let text = b"date,lit,miles\n2026-05-02,6:00,4\n2026-05-03,6:00\n2026-05-04,6:00,5,6\n";
    let read = lines(text, &told(None));
    assert!(read.lines[0].is_ok());
    for line in &read.lines[1..] {
        assert!(
            line.as_ref()
                .unwrap_err()
                .why
                .contains("values and the table 3")
        );
    }
}

/// A workbook of one sheet, as another library writes it.
fn workbook(fill: impl Fn(&mut Worksheet)) -> Vec<u8> {
    let mut book = Workbook::new();
    fill(book.add_worksheet());
    book.save_to_buffer().unwrap()
}

fn heading(sheet: &mut Worksheet) {
    let words = [
        "Engine",
        "Date",
        "Fire lit",
        "Pressure up",
        "Fire out",
        "Pressure gone",
        "Miles",
        "Offered for use",
    ];
    for (column, word) in (0..).zip(words) {
        sheet.write(0, column, word).unwrap();
    }
}

#[test]
fn a_workbook_says_days_and_times_as_cells() {
    let bytes = workbook(|sheet| {
        heading(sheet);
        let day = Format::new().set_num_format("d mmm yyyy");
        let hour = Format::new().set_num_format("hh:mm");
        let both = Format::new().set_num_format("yyyy-mm-dd hh:mm");
        sheet.write(1, 0, 14).unwrap();
        sheet
            .write_with_format(1, 1, ExcelDateTime::from_ymd(2026, 5, 2).unwrap(), &day)
            .unwrap();
        for (column, h, m) in [(2, 5, 30), (3, 8, 10), (4, 17, 0)] {
            let time = ExcelDateTime::from_hms(h, m, 0).unwrap();
            sheet.write_with_format(1, column, time, &hour).unwrap();
        }
        let gone = ExcelDateTime::from_ymd(2026, 5, 3)
            .unwrap()
            .and_hms(1, 20, 0)
            .unwrap();
        sheet.write_with_format(1, 5, gone, &both).unwrap();
        sheet.write(1, 6, 34).unwrap();
        sheet.write(1, 7, true).unwrap();
        // Lines 3 and 4 are blank, and the next one is text as in a CSV.
        for (column, text) in (0..).zip(["27", "2026-05-09", "6:00", "8:30", "16:45", "21:00"]) {
            sheet.write(4, column, text).unwrap();
        }
    });
    let read = lines(&bytes, &Told::default());
    let line = read.lines[0].clone().unwrap();
    assert_eq!((line.engine.as_str(), line.place), ("14", 2));
    assert_eq!(line.lit, at("2026-05-02T05:30"));
    assert_eq!(line.up, at("2026-05-02T08:10"));
    assert_eq!(line.out, at("2026-05-02T17:00"));
    assert_eq!(line.gone, at("2026-05-03T01:20"));
    assert_eq!((line.miles, line.offered), (Some(34), Some(true)));
    let line = read.lines[1].clone().unwrap();
    assert_eq!((line.engine.as_str(), line.place), ("27", 5));
    assert_eq!(line.out, at("2026-05-09T16:45"));
}

/// Every minute of a day, as the fraction a workbook keeps it as, comes back as that minute.
#[test]
fn a_fraction_of_a_day_is_the_minute_that_was_written() {
    for minute in 0..24 * 60 {
        let cell = super::Cell::Serial {
            value: f64::from(minute) / 1440.0,
            since_1904: false,
            length: false,
        };
        let read = super::moment::moment(&cell, None, Some(date(2026, 5, 2)))
            .unwrap()
            .unwrap();
        let (hour, left) = (minute / 60, minute % 60);
        assert_eq!(read, date(2026, 5, 2).at(hour as i8, left as i8, 0, 0));
    }
}

/// independent: the calendar of calamine 0.38 (`to_ymd_hms_milli`), in both systems of days.
#[test]
fn both_systems_of_days_are_read() {
    let cell = |value: f64, since_1904| super::Cell::Serial {
        value,
        since_1904,
        length: false,
    };
    let of = |value, since_1904| super::moment::day(&cell(value, since_1904), None);
    for since_1904 in [false, true] {
        for number in (61..60_000).step_by(7) {
            let value = f64::from(number);
            let theirs = calamine::ExcelDateTime::new(
                value,
                calamine::ExcelDateTimeType::DateTime,
                since_1904,
            );
            let (year, month, day, ..) = theirs.to_ymd_hms_milli();
            let theirs = date(year as i16, month as i8, day as i8);
            assert_eq!(of(value, since_1904), Ok(Some(theirs)), "{value}");
        }
    }
    assert_eq!(of(0.0, true), Ok(Some(date(1904, 1, 1))));
    // 29 February 1900 never was, and what stands before it is as a rule a time or a number that lost its way.
    for value in [60.0, 1.0, 0.25] {
        assert!(of(value, false).unwrap_err().contains("1900"), "{value}");
    }
    for value in [-1.0, f64::NAN, f64::INFINITY, 1e12] {
        assert!(
            of(value, false).unwrap_err().contains("no calendar has"),
            "{value}"
        );
    }
    assert!(
        of(44_197.5, false)
            .unwrap_err()
            .contains("a time beside the day")
    );
    let length = super::Cell::Serial {
        value: 1.25,
        since_1904: false,
        length: true,
    };
    let said = super::moment::moment(&length, None, Some(date(2026, 5, 2))).unwrap_err();
    assert!(said.contains("a day or more"), "{said}");
}

/// The same cells in a workbook that says it counts from 1904: four years and a day later (1,462 days).
#[test]
fn a_workbook_that_counts_from_1904_is_read_so() {
    use std::io::{Read, Write};
    let bytes = workbook(|sheet| {
        heading(sheet);
        let day = Format::new().set_num_format("yyyy-mm-dd");
        let hour = Format::new().set_num_format("hh:mm");
        sheet.write(1, 0, 14).unwrap();
        let written = ExcelDateTime::from_ymd(2022, 5, 1).unwrap();
        sheet.write_with_format(1, 1, written, &day).unwrap();
        let time = ExcelDateTime::from_hms(5, 30, 0).unwrap();
        sheet.write_with_format(1, 2, time, &hour).unwrap();
    });
    let mut from = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
    let mut to = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let mut changed = 0;
    for at in 0..from.len() {
        let mut file = from.by_index(at).unwrap();
        let name = file.name().unwrap().to_string();
        let mut body = Vec::new();
        file.read_to_end(&mut body).unwrap();
        if name == "xl/workbook.xml" {
            let text = String::from_utf8(body).unwrap();
            changed += text.matches("<workbookPr ").count();
            body = text
                .replace("<workbookPr ", "<workbookPr date1904=\"1\" ")
                .into_bytes();
        }
        to.start_file(name, zip::write::SimpleFileOptions::default())
            .unwrap();
        to.write_all(&body).unwrap();
    }
    assert_eq!(changed, 1);
    let bytes = to.finish().unwrap().into_inner();
    let line = lines(&bytes, &Told::default()).lines[0].clone().unwrap();
    assert_eq!(line.lit, at("2026-05-02T05:30"));
}

#[test]
fn what_a_workbook_hides_is_refused_and_not_guessed() {
    let line = |put: &dyn Fn(&mut Worksheet)| {
        let bytes = workbook(|sheet| {
            heading(sheet);
            for (column, text) in (0..).zip(["14", "2026-05-09", "6:00", "8:30", "16:45", "21:00"])
            {
                sheet.write(1, column, text).unwrap();
            }
            put(sheet);
        });
        lines(&bytes, &Told::default()).lines
    };
    let why = |put: &dyn Fn(&mut Worksheet)| line(put).pop().unwrap().unwrap_err().why;
    assert!(line(&|_| {})[0].is_ok());
    let said = why(&|sheet| {
        let _ = sheet.write(1, 1, 46_151).unwrap();
    });
    assert!(said.contains("bare number 46151"), "{said}");
    let said = why(&|sheet| {
        let _ = sheet.write(1, 2, 0.25).unwrap();
    });
    assert!(said.contains("bare number 0.25"), "{said}");
    let said = why(&|sheet| {
        let _ = sheet.write(1, 0, 14.5).unwrap();
    });
    assert!(said.contains("no number of an engine"), "{said}");
    let said = why(&|sheet| {
        let _ = sheet.write(1, 6, 28.5).unwrap();
    });
    assert!(said.contains("whole miles"), "{said}");
    // One day merged over two lines: whose is the second?
    let merged = line(&|sheet| {
        sheet
            .merge_range(1, 1, 2, 1, "2026-05-09", &Format::new())
            .unwrap();
        for (column, text) in [(0, "27"), (2, "6:00"), (4, "16:00")] {
            sheet.write(2, column, text).unwrap();
        }
    });
    assert!(merged[0].is_ok());
    let said = &merged[1].as_ref().unwrap_err().why;
    assert!(said.contains("merged with another cell"), "{said}");
}

#[test]
fn of_several_sheets_one_must_be_named() {
    let mut book = Workbook::new();
    for name in ["2025", "2026"] {
        let sheet = book.add_worksheet().set_name(name).unwrap();
        heading(sheet);
        for (column, text) in (0..).zip(["14", &format!("{name}-05-09"), "6:00"]) {
            sheet.write(1, column, text).unwrap();
        }
    }
    let bytes = book.save_to_buffer().unwrap();
    assert!(no(&bytes).contains("several sheets, `2025`, `2026`: say which"));
    let of = |sheet: &str| Told {
        sheet: Some(sheet.into()),
        ..Told::default()
    };
    let day = lines(&bytes, &of("2026")).lines[0].clone().unwrap().day;
    assert_eq!(day, Some(date(2026, 5, 9)));
    let said = read("the log", &bytes, &of("May")).unwrap_err().to_string();
    assert!(
        said.contains("no sheet `May`: it has `2025`, `2026`"),
        "{said}"
    );
}

#[test]
fn a_workbook_that_is_cut_or_spoilt_is_refused() {
    let whole = workbook(|sheet| {
        heading(sheet);
        sheet.write(1, 0, "14").unwrap();
    });
    let mut refusals = 0;
    for cut in (4..whole.len()).step_by(97) {
        if let Err(failure) = read("the log", &whole[..cut], &Told::default()) {
            assert_eq!(failure.code(), 2);
            refusals += 1;
        }
    }
    assert_eq!(refusals, (4..whole.len()).step_by(97).count());
    // Bytes turned over anywhere: taken or refused, never worse.
    for at in (4..whole.len()).step_by(31) {
        let mut spoilt = whole.clone();
        spoilt[at] ^= 0x55;
        if let Err(failure) = read("the log", &spoilt, &Told::default()) {
            assert_eq!(failure.code(), 2);
        }
    }
}

/// An archive of the given files, some of them swelling to what they do not look like.
fn archive(files: &[(&str, usize)]) -> Vec<u8> {
    use std::io::Write;
    let mut zip = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let how = zip::write::SimpleFileOptions::default();
    for (name, zeros) in files {
        zip.start_file(*name, how).unwrap();
        let chunk = vec![b' '; 1 << 20];
        let mut left = *zeros;
        while left > 0 {
            let now = left.min(chunk.len());
            zip.write_all(&chunk[..now]).unwrap();
            left -= now;
        }
    }
    zip.finish().unwrap().into_inner()
}

#[test]
fn an_archive_that_is_no_workbook_or_swells_is_refused() {
    assert!(no(&archive(&[("a.txt", 3)])).contains("an archive and no workbook"));
    assert!(no(&archive(&[("content.xml", 3)])).contains("workbook of another kind"));
    let swells = archive(&[
        ("xl/workbook.xml", 10),
        ("xl/worksheets/sheet1.xml", 80 << 20),
    ]);
    assert!(swells.len() < MOST_BYTES);
    assert!(no(&swells).contains("unpacks to more than"));
    assert!(no(&archive(&[("xl/workbook.xml", 10)])).contains("cut short, damaged or no workbook"));
}

/// A value in the last corner of a sheet, which as a table would fill the memory of any machine.
#[test]
fn a_far_corner_costs_nothing() {
    let far_row = workbook(|sheet| {
        heading(sheet);
        sheet.write(1, 0, "14").unwrap();
        sheet.write(1_048_575, 0, "14").unwrap();
    });
    assert_eq!(lines(&far_row, &Told::default()).lines.len(), 2);
    let far_column = workbook(|sheet| {
        heading(sheet);
        sheet.write(1, 16_383, "x").unwrap();
    });
    assert!(no(&far_column).contains("in column 16384 of line 2"));
}

/// Every table in `docs/log-files.md` is answered as it says there.
#[test]
fn the_examples_of_the_page_are_true() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/log-files.md");
    let page = std::fs::read_to_string(path).unwrap();
    let mut seen = 0;
    for block in page.split("```csv ").skip(1) {
        let (head, rest) = block.split_once('\n').unwrap();
        let (table, _) = rest.split_once("```").unwrap();
        let (head, order) = match head.split_once(" dates=") {
            Some((head, "day-month")) => (head, Some(Order::DayMonth)),
            Some((_, other)) => panic!("{other}"),
            None => (head, None),
        };
        let (what, says) = head.split_once('=').unwrap();
        let read = read("the log", table.as_bytes(), &told(order));
        match what {
            "taken" => {
                let lines = read.unwrap().lines;
                assert_eq!(lines.len(), says.parse::<usize>().unwrap());
                assert!(lines.iter().all(Result::is_ok), "{lines:?}");
            }
            "refused" => {
                for line in read.unwrap().lines {
                    let why = line.unwrap_err().why;
                    assert!(why.contains(says), "{why}");
                }
            }
            "wrong" => assert!(read.unwrap_err().to_string().contains(says)),
            other => panic!("{other}"),
        }
        seen += 1;
    }
    assert_eq!(seen, 7);
    // And every word over a column that it names is known.
    let columns = page
        .lines()
        .filter(|line| line.starts_with("| ") && !line.starts_with("| column"));
    for line in columns {
        let words = line.split('|').nth(2).unwrap().replace(" (or day)", "");
        for word in words.split(',') {
            assert!(super::columns::is_known(word), "{word}");
        }
    }
}
