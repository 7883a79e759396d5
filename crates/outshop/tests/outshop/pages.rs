//! The pages as served: signing in, strict headers, forms that lose nothing, the same entry at every door.
//!
//! Long because: one list of every page, and whoever adds a page adds a line.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};

use crate::run::Folder;

/// A served book, as a rule the demonstration, stopped at the end.
pub struct Served {
    child: Child,
    at: String,
    link: String,
    pub folder: Folder,
    cookie: String,
}

/// Serves `d.book`: the process, its address, the path of its link.
fn serve(folder: &Folder) -> (Child, String, String) {
    let mut command = folder.command(&["serve", "--port", "0", "--book", "d.book"]);
    command.env_remove("OUTSHOP_NOW");
    started(command)
}

fn started(mut command: Command) -> (Child, String, String) {
    let mut child = command
        .env_remove("OUTSHOP_BY")
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let mut url = |start: &str| {
        let line = lines
            .by_ref()
            .map(Result::unwrap)
            .find(|line| line.contains(start))
            .unwrap();
        let from = line.find("http://127.0.0.1:").unwrap() + "http://".len();
        line[from..].split(' ').next().unwrap().to_string()
    };
    let at = url("Served at");
    let link = url("Sign in as").strip_prefix(&at).unwrap().to_string();
    (child, at, link)
}

/// One answer.
pub struct Page {
    pub status: u16,
    pub head: String,
    pub body: String,
}

impl Page {
    /// The first cookie that an answer sets, without what is said of it.
    pub fn cookie(&self) -> String {
        let mut lines = self.head.lines();
        let set = lines
            .find_map(|line| line.strip_prefix("set-cookie: "))
            .unwrap();
        set.split(';').next().unwrap().to_string()
    }
}

impl Served {
    fn demonstration(name: &str) -> Served {
        let folder = Folder::new(name);
        folder.done(&["demo", "--no-serve", "--book", "d.book"]);
        let (child, at, link) = serve(&folder);
        Served {
            child,
            at,
            link,
            folder,
            cookie: String::new(),
        }
    }

    /// Ends the server and starts another on the same book; gives the new link.
    fn serve_again(&mut self) -> String {
        let _ = self.child.kill();
        let _ = self.child.wait();
        let (child, at, link) = serve(&self.folder);
        (self.child, self.at) = (child, at);
        link
    }

    /// Serves a folder's own book at a stated time.
    pub fn of_book(folder: Folder, now: &str) -> Served {
        let mut command = folder.command(&["serve", "--port", "0"]);
        command.env("OUTSHOP_NOW", now);
        let (child, at, link) = started(command);
        Served {
            child,
            at,
            link,
            folder,
            cookie: String::new(),
        }
        .let_in()
    }

    /// Ada Quill sets the passphrase of these tests and goes on with the new session.
    pub fn sets_passphrase(&mut self) {
        let page = self.post("/me", "passphrase=blue+ring+of+contact");
        assert_eq!(page.status, 303, "{}", page.body);
        self.cookie = page.cookie();
    }

    /// What the next request carries.
    pub fn cookie(&self) -> String {
        self.cookie.clone()
    }

    /// Ends the server and gives its folder back.
    pub fn leaves(mut self) -> Folder {
        let _ = self.child.kill();
        let _ = self.child.wait();
        std::mem::replace(&mut self.folder, Folder::new("left"))
    }

    /// Speaks as whoever a cookie is of.
    pub fn sign_in_with(&mut self, cookie: &str) {
        self.cookie = cookie.to_string();
    }

    pub fn signed_in(name: &str) -> Served {
        Served::demonstration(name).let_in()
    }

    fn let_in(mut self) -> Served {
        let served = &mut self;
        let page = served.post(&served.link, "");
        assert_eq!(page.status, 303, "{}", page.body);
        served.cookie = page.cookie();
        self
    }

    fn ask(&self, method: &str, path: &str, origin: Option<&str>, body: &str) -> Page {
        self.send(method, path, origin, FORM, body.as_bytes())
    }

    /// Sends a form that holds a file, as a browser does (RFC 7578).
    pub fn upload(&self, path: &str, fields: &[(&str, &str)], file: Option<(&str, &[u8])>) -> Page {
        let mut body = Vec::new();
        for (name, value) in fields {
            let part = format!(
                "--edge\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"
            );
            body.extend_from_slice(part.as_bytes());
        }
        if let Some((name, bytes)) = file {
            let part = format!(
                "--edge\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\n\
                 Content-Type: application/octet-stream\r\n\r\n"
            );
            body.extend_from_slice(part.as_bytes());
            body.extend_from_slice(bytes);
            body.extend_from_slice(b"\r\n");
        }
        body.extend_from_slice(b"--edge--\r\n");
        let origin = format!("http://{}", self.at);
        let kind = "multipart/form-data; boundary=edge";
        self.send("POST", path, Some(&origin), kind, &body)
    }

    fn send(
        &self,
        method: &str,
        path: &str,
        origin: Option<&str>,
        kind: &str,
        body: &[u8],
    ) -> Page {
        let mut stream = TcpStream::connect(&self.at).unwrap();
        let origin = origin.map_or(String::new(), |origin| format!("Origin: {origin}\r\n"));
        let text = format!(
            "{method} {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nCookie: {}\r\n{origin}\
             Content-Type: {kind}\r\nContent-Length: {}\r\n\r\n",
            self.at,
            self.cookie,
            body.len()
        );
        stream.write_all(text.as_bytes()).unwrap();
        // A server that has read enough may answer and hang up before all is sent.
        let _ = stream.write_all(body);
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        let answer = String::from_utf8_lossy(&answer);
        let (head, body) = answer.split_once("\r\n\r\n").unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        Page {
            status,
            head: head.replace("\r\n", "\n"),
            body: body.to_string(),
        }
    }

    pub fn get(&self, path: &str) -> Page {
        self.ask("GET", path, None, "")
    }

    pub fn post(&self, path: &str, body: &str) -> Page {
        self.ask("POST", path, Some(&format!("http://{}", self.at)), body)
    }

    pub fn head(&self) -> String {
        self.folder.json(&["check", "--book", "d.book"])["head"]["hash"]
            .as_str()
            .unwrap()
            .to_string()
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// What a form carries by which Ada Quill signs, once she has set her passphrase.
pub const SIGNED: &str = "&sign_with=blue+ring+of+contact";

/// How a browser sends a form without a file.
const FORM: &str = "application/x-www-form-urlencoded";

const ROUTES: &[&str] = &[
    "/",
    "/engine/14",
    "/engine/27",
    "/engine/14/log",
    "/engine/27/log?year=2024",
    "/log/import",
    "/log/import?engine=14",
    "/parts/import",
    "/parts/import?engine=14",
    "/engine/14?place=motion",
    "/engine/14?part=feed",
    "/engine/14/part/right%20feed%20check",
    "/inspection/I-001",
    "/finding/F-001",
    "/finding/F-004",
    "/finding/F-005",
    "/job/J-001",
    "/job/J-002",
    "/day/14",
    "/day/27",
    "/day/803",
    "/ahead/27",
    "/ahead/27?hold=31&day=2026-05-27&rday=2026-06-06&run=charter",
    "/ahead/14?hold=F-002&day=2026-05-20",
    "/dates",
    "/dates?engine=27",
    "/work",
    "/sheets",
    "/boiler-work",
    "/boiler-work?work=weld&area=unstayed&change=repair&carbon=0.22&engine=27",
    "/boiler-work?carbon=much",
    "/sheet/seat.correct",
    "/sheet/seat.correct?found_half_angle=43deg&wanted_half_angle=45deg&land=5/32in&port=2in",
    "/sheet/seat.correct?found_half_angle=43deg",
    "/sheet/running.clearance",
    "/sheet/running.clearance?engine=14&pair=main-pin&bore=6.08in&pin=6in",
    "/sheet/running.clearance?rules=us-steam&pair=knuckle-pin&gap=.02in",
    "/sheet/air.reservoir?rules=us-steam&pressure=140psig",
    "/sheet/running.tender_axle?engine=14&axle_load=30500lb&journal=4.7in,4-5/8in&ends=collar&collar=3/8in",
    "/sheet/running.equalizer?arms=18in,18in,20in,25in,18in,20in&boxes=odd-levers&load=5000lb&load_at=0",
    "/sheet/joint.bolts?pressure=180psig&gasket_outside=24in&gasket_inside=22in&gasket=corrugated-copper&bolts=24",
    "/sheet/thread.acme?diameter=1in&tpi=5&class=2G",
    "/sheet/thread.identify?side=external&major=.982in&tpi=8&pitch_diameter=.917in",
    "/sheet/thread.identify?side=external",
    "/sheet/thread.staybolt?present_diameter=.99in&tpi=12&sheet_thicknesses=3/8in,1/2in&length=4in",
    "/sheet/thread.mate?from=thread.identify%3Fside%3Dexternal%26tpi%3D12%26major%3D.740in%26taken%3D1",
    "/sheet/thread.cutting?form=unified&tpi=8&diameter=1in&side=external&material=steel&lathe=LA-001",
    "/cards",
    "/cards?code=C-001+R1",
    "/cards?code=nothing",
    "/card/C-001",
    "/find?q=C-001+R1",
    "/find?q=J-001+E1",
    "/drawings",
    "/drawing/nut",
    "/drawing/nut?from=thread.unified%3Fdiameter%3D1in%26tpi%3D8%26class%3D2&length=1in&outside=2in",
    "/drawing/mandrel?small=2.4995in",
    "/rulebook",
    "/rulebook?q=annual",
    "/rule/us-steam.clock.31",
    "/rule/us-steam.tire.thickness",
    "/rule/us-steam.tire.thickness?reading=1.5in&engine=14&fact-center-diameter=44in",
    "/rule/us-steam.rod.side.bore-over-other-pin?reading=11%2F64in",
    "/me",
    "/people",
    "/copies",
    "/first-hour",
    "/engine/14/known",
    "/engine/803/known",
];

/// The sheets that a finding's page shows worked are opened by the law of her engine: where her rules have the figure, no
/// sheet lacks it.
#[test]
fn a_sheet_opened_from_a_finding_has_the_figures_of_law() {
    let served = Served::signed_in("sheets-of-findings");
    let mut asking = 0;
    for number in 1..=99 {
        let page = served.get(&format!("/finding/F-{number:03}"));
        if page.status != 200 {
            break;
        }
        for link in page.body.split("href=\"").skip(1) {
            let link = link.split('"').next().unwrap().replace("&amp;", "&");
            let Some((id, asked)) = link
                .strip_prefix("/sheet/")
                .and_then(|it| it.split_once('?'))
            else {
                continue;
            };
            if shop::ruled::figures_of(id).is_empty() {
                assert!(!asked.contains("engine="), "{link}");
                continue;
            }
            assert!(asked.contains("engine="), "F-{number:03}: {link}");
            // A link with readings in it, and not the empty form.
            if asked.contains('&') {
                asking += 1;
                let sheet = served.get(&link).body;
                for figure in shop::ruled::figures_of(id) {
                    let lacks = sheet.contains(&format!("needs {figure}"));
                    let none = sheet.contains("no limit on file");
                    assert!(!lacks || none, "F-{number:03}: {link} lacks {figure}");
                }
            }
        }
    }
    assert!(
        asking >= 1,
        "no finding of the demonstration has a worked sheet of the law"
    );
}

#[test]
fn every_page_says_what_governs_and_loads_nothing_from_outside() {
    let served = Served::signed_in("routes");
    for route in ROUTES {
        let page = served.get(route);
        assert_eq!(page.status, 200, "{route}");
        assert!(
            page.body.contains("Advice only."),
            "{route} does not say what governs"
        );
        assert!(
            page.body
                .contains("A demonstration: all of it is invented."),
            "{route} does not say it is a demonstration"
        );
        // The names of the languages of drawings and formulas are names, not addresses that are loaded.
        let body = page
            .body
            .replace("xmlns=\"http://www.w3.org/2000/svg\"", "")
            .replace("xmlns=\"http://www.w3.org/1998/Math/MathML\"", "");
        for forbidden in [
            "<script",
            " style=",
            "http://",
            "https://",
            "onclick",
            "javascript:",
        ] {
            assert!(!body.contains(forbidden), "{route} holds {forbidden}");
        }
        assert!(
            page.head
                .contains("content-security-policy: default-src 'none'"),
            "{route}: {}",
            page.head
        );
        assert!(
            page.body.contains("<html lang=\"en\">") && page.body.contains("<title>"),
            "{route}"
        );
        assert_eq!(
            page.body.matches("<h1").count(),
            1,
            "{route}: one heading says what the page is"
        );
    }
    let lost = served.get("/nothing/here");
    assert_eq!(lost.status, 404);
    assert!(lost.body.contains("Ways out") && lost.body.contains("Nothing was changed"));
    for missing in [
        "/finding/F-999",
        "/engine/99",
        "/day/99",
        "/write-up/W-999",
        "/ahead/99",
        "/dates?engine=99",
        "/rule/none",
        "/sheet/none",
        "/drawing/none",
        "/card/C-999",
        "/drawing/nut?from=fit.iso%3Fsize%3D1in%26fit%3DH7%2Fg6",
        "/sheet/fit.iso?from=thread.identify%3Fside%3Dexternal%26tpi%3D12%26major%3D.740in",
    ] {
        let page = served.get(missing);
        assert_eq!(page.status, 404, "{missing}");
        assert!(page.body.contains("Ways out"), "{missing}");
    }
}

#[test]
fn nobody_reads_without_signing_in_and_a_link_works_once() {
    let served = Served::demonstration("door");
    for route in ROUTES {
        assert_eq!(served.get(route).status, 303, "{route} is open to anybody");
    }
    assert_eq!(served.post("/do", "verb=release&engine=27").status, 303);
    // Looking at the link does not spend it; following it does.
    assert_eq!(served.get(&served.link).status, 200);
    assert_eq!(served.get(&served.link).status, 200);
    assert_eq!(served.post(&served.link, "").status, 303);
    assert_eq!(served.get(&served.link).status, 410);
    assert_eq!(served.post(&served.link, "").status, 410);
    let wrong = served.post("/in", "name=Ada+Quill&passphrase=guess");
    assert_eq!(wrong.status, 422);
    assert!(wrong.body.contains("Nothing was changed"));
}

#[test]
fn a_passphrase_signs_in_and_ends_older_sessions() {
    let mut served = Served::signed_in("passphrase");
    assert_eq!(served.post("/me", "passphrase=short").status, 422);
    let set = served.post("/me", "passphrase=blue+ring+of+contact");
    assert_eq!(set.status, 303, "{}", set.body);
    assert_eq!(served.get("/").status, 303, "the old session is still open");
    let signed = served.post("/in", "name=Ada+Quill&passphrase=blue+ring+of+contact");
    assert_eq!(signed.status, 303);
    let cookie = signed
        .head
        .lines()
        .find_map(|line| line.strip_prefix("set-cookie: "))
        .unwrap();
    assert!(
        cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"),
        "{cookie}"
    );
    served.cookie = cookie.split(';').next().unwrap().to_string();
    assert_eq!(served.get("/").status, 200);
    assert_eq!(served.post("/out", "").status, 303);
    assert_eq!(served.get("/").status, 303);
}

/// Five wrong ones are free; then a wait, the same for a name that is nobody's, and for the right
/// passphrase too. A link from the machine itself needs no wait and ends it.
#[test]
fn guessing_has_to_wait_and_a_link_does_not() {
    let mut served = Served::signed_in("guesses");
    assert_eq!(
        served.post("/me", "passphrase=blue+ring+of+contact").status,
        303
    );
    let guess = |served: &Served, name: &str, passphrase: &str| {
        served.post("/in", &format!("name={name}&passphrase={passphrase}"))
    };
    let mut words = Vec::new();
    for name in ["Ada+Quill", "Nobody+Known", "Ben+Ostrow"] {
        for _ in 0..5 {
            let page = guess(&served, name, "wrong");
            assert_eq!(page.status, 422, "{name}: {}", alert(&page));
            words.push(alert(&page).to_string());
        }
        let page = guess(&served, name, "blue+ring+of+contact");
        assert_eq!(page.status, 429, "{name}: {}", alert(&page));
        assert!(page.head.contains("\nretry-after: "), "{}", page.head);
        assert!(
            alert(&page).contains("wait") && alert(&page).contains("outshop serve"),
            "{}",
            alert(&page)
        );
    }
    words.dedup();
    assert_eq!(
        words.len(),
        1,
        "the answer tells who is in the book: {words:?}"
    );
    // Another server of the same book knows of it: the count lies beside the book.
    let again = served.serve_again();
    assert_eq!(guess(&served, "Ada+Quill", "wrong").status, 429);
    assert_eq!(served.post(&again, "").status, 303);
    assert_eq!(
        guess(&served, "Ada+Quill", "blue+ring+of+contact").status,
        303
    );
    assert_eq!(guess(&served, "Nobody+Known", "wrong").status, 429);
}

#[test]
fn another_site_can_make_nobody_act() {
    let served = Served::signed_in("origin");
    let head = served.head();
    for origin in [None, Some("http://elsewhere.example"), Some("null")] {
        let page = served.ask("POST", "/do", origin, "verb=release&engine=27");
        assert_eq!(page.status, 403, "{origin:?}");
        assert!(page.body.contains("Nothing was saved"));
    }
    assert_eq!(served.head(), head);
}

#[test]
fn a_refused_form_comes_back_as_it_was_filled_in() {
    let mut served = Served::signed_in("forms");
    let head = served.head();
    // Input: a size without its unit.
    let body = "verb=finding+record&back=/engine/14/part/right%2520feed%2520check&engine=14&part=right+feed+check\
                &occasion=write-up&told=weeps+again%2C+hot&shows=weeps-back&at:seat-land@front=5/32";
    let page = served.post("/do", body);
    assert_eq!(page.status, 422, "{}", page.body);
    for kept in [
        "weeps again, hot",
        "value=\"5/32\"",
        "has no unit",
        "Nothing was saved",
    ] {
        assert!(
            page.body.contains(kept),
            "the form lost {kept}: {}",
            alert(&page)
        );
    }
    // Refused: the release of an engine that something stops.
    let body = "verb=release&back=/engine/14&engine=14";
    let page = served.post("/do", body);
    assert_eq!(page.status, 422, "a signature without saying who signs");
    served.sets_passphrase();
    let page = served.post("/do", &format!("{body}{SIGNED}"));
    assert!(
        !page.body.contains("ring of contact"),
        "a passphrase came back in a page"
    );
    assert_eq!(page.status, 409);
    assert!(page.body.contains("cannot be released"));
    assert_eq!(served.head(), head, "a refused form moved the head");
}

/// A place touched, a name sought, a word of the rulebook: plain links and forms, and what they find.
#[test]
fn places_names_and_rules_are_found() {
    let served = Served::signed_in("find");
    let motion = served.get("/engine/14?place=motion").body;
    let parts = |page: &str| {
        page.split("id=\"parts\"")
            .nth(1)
            .unwrap()
            .split("<form")
            .next()
            .unwrap()
            .to_string()
    };
    assert!(parts(&motion).contains("right crosshead") && parts(&motion).contains("F-004"));
    assert!(!parts(&motion).contains("tire") && !parts(&motion).contains("feed check"));
    let feed = served.get("/engine/14?part=Feed").body;
    assert!(parts(&feed).contains("left feed check") && !parts(&feed).contains("crosshead"));
    assert!(parts(&served.get("/engine/14?place=cab").body).contains("no part of hers there"));
    let rules = served.get("/rulebook?q=annual").body;
    assert!(rules.contains("Stops No. 14 today.") && !rules.contains("Tire thickness"));
    assert!(
        served
            .get("/job/J-002")
            .body
            .contains("Next: the hold point after operation 1.")
    );
}

/// A figure of law comes into a sheet by the engine's rules, with its rule and section, on the page as at the command line;
/// the engine's own axle load chooses the tire's.
#[test]
fn a_sheet_gets_its_figures_of_law() {
    let served = Served::signed_in("ruled");
    let typed = "pair=main-pin&bore=6.08in&pin=6in";
    let page = served
        .get(&format!("/sheet/running.clearance?engine=14&{typed}"))
        .body;
    assert!(page.contains("us-steam.rod.main.bore-over-pin, version 1, 230.96(f)"));
    assert!(page.contains("complies") && page.contains("not checked"));
    let without = served
        .get(&format!("/sheet/running.clearance?{typed}"))
        .body;
    assert!(
        without.contains("cannot tell: needs limit")
            && without.contains("Figures of law left out: limit.")
    );
    let knuckle = served
        .get("/sheet/running.clearance?rules=us-steam&pair=knuckle-pin&gap=.02in")
        .body;
    assert!(knuckle.contains("no limit on file in us-steam for pair knuckle-pin."));
    let tire = served
        .get("/sheet/running.tire_limit?engine=14&center_diameter=56in")
        .body;
    assert!(
        tire.contains("us-steam.tire.thickness") && tire.contains("No. 14, as the book has her")
    );
}

/// Rules a shop wrote stand apart from the law's, with their origin; the example and its figures are invented.
#[test]
fn the_shops_own_rules_are_listed_as_its_own() {
    let served = Served::signed_in("own-rules");
    assert!(
        !served
            .get("/rulebook")
            .body
            .contains("Rules this shop wrote")
    );
    let file = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../docs/examples/own-limits.toml"
    );
    let say = |words: &[&str]| {
        let mut all = words.to_vec();
        all.extend(["--book", "d.book"]);
        let mut command = served.folder.command(&all);
        let output = command.env_remove("OUTSHOP_NOW").output().unwrap();
        assert!(output.status.success(), "{output:?}");
    };
    say(&["rule", "adopt", file, "--from", "2026-03-01"]);
    say(&[
        "locomotive",
        "rules",
        "14",
        "juniper-fork",
        "--from",
        "2026-03-01",
        "--document",
        "order 4",
    ]);
    let page = served.get("/rulebook").body;
    let own = page.split("Rules this shop wrote").nth(1).unwrap();
    for said in [
        "This shop&#39;s own: no law.",
        "Standing rules of the Juniper Fork shop",
        "for it answers the chief mechanical officer",
        "Under it today: No. 14.",
        "Text 1, holds from Sun 1 Mar 2026; taken in by Ada Quill",
        "/rule/juniper-fork.clock.31",
        "Version 1, from",
    ] {
        let plain = said.replace("&#39;", "'");
        assert!(
            own.contains(said) || own.contains(&plain),
            "`{said}` is not there: {own}"
        );
    }
    let law = page.split("Rules this shop wrote").next().unwrap();
    assert!(!law.contains("juniper-fork"), "{law}");
    let rule = served.get("/rule/juniper-fork.crosshead.vertical").body;
    assert!(
        rule.contains("own: no law.") && rule.contains("at most 3/16 in"),
        "{rule}"
    );
    assert!(rule.contains("Shop order 4") && rule.contains("Below, at and above the value"));
    // Sought among both.
    assert!(
        served
            .get("/rulebook?q=brick+arch")
            .body
            .contains("/rule/juniper-fork.31.brick")
    );
    // Her page names the sets, and her clocks of both.
    let engine = served.get("/engine/14").body;
    assert!(
        engine.contains("us-steam, juniper-fork (this shop"),
        "{engine}"
    );
    assert!(engine.contains("/rule/juniper-fork.clock.31"), "{engine}");
    // A finding past our limit and within the law's is told so.
    assert_eq!(served.get("/rule/juniper-fork.nothing").status, 404);
}

/// Who reads in millimetres sees them beside what the law and the bench wrote, and the same verdict.
#[test]
fn a_reader_chooses_units_and_no_verdict_changes() {
    let served = Served::signed_in("units");
    let head = served.head();
    let path = "/finding/F-004";
    let inch = served.get(path).body;
    assert!(inch.contains("at most 1/4 in<") && inch.contains("17/64 in · .265625 in"));
    assert_eq!(served.post("/me/units", "house=furlong").status, 422);
    assert_eq!(served.post("/me/units", "house=metric").status, 303);
    let metric = served.get(path).body;
    assert!(metric.contains("at most 1/4 in (6.35 mm)"), "{metric}");
    assert!(metric.contains("17/64in (6.746875 mm)"));
    let verdicts = |page: &str| {
        ["verdict fails", "verdict complies", "verdict unknown"]
            .map(|shape| page.matches(shape).count())
    };
    assert_eq!(verdicts(&metric), verdicts(&inch));
    // The choice is the reader's: the book does not know of it, and the shop's is a click away.
    assert_eq!(served.head(), head);
    assert_eq!(served.post("/me/units", "house=shop").status, 303);
    assert_eq!(served.get(path).body, inch);
    // The command line asks the same of its own option.
    let typed = |house: &str| {
        let words = [
            "finding", "show", "F-004", "--house", house, "--book", "d.book",
        ];
        let output = served.folder.command(&words).output().unwrap();
        let text = String::from_utf8(output.stdout).unwrap();
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(typed("metric").contains("limit at most 1/4 in (6.35 mm)"));
    assert!(typed("inch").contains("limit at most 1/4 in ["));
}

/// Making, replacing, copying or serving a book is for the machine's own command line.
#[test]
fn a_form_cannot_reach_the_machine() {
    let served = Served::signed_in("reach");
    let head = served.head();
    for body in [
        "verb=demo&no_serve=yes",
        "verb=backup&to=/tmp/elsewhere.book",
        "verb=new&shop=a&zone=UTC&officer=b",
        "verb=serve&port=0",
        "verb=check&fold_anew=yes",
        "verb=entry+correct&number=1&because=x&changes=shop%3Dy",
        "verb=nothing",
        "shop=none",
    ] {
        let page = served.post("/do", body);
        assert_eq!(page.status, 422, "{body}: {}", alert(&page));
    }
    assert_eq!(served.head(), head);
}

/// Invariant: command line, form and JSON give the same entry body and the same error words.
#[test]
fn the_same_entry_comes_through_every_door() {
    let mut served = Served::signed_in("same");
    served.sets_passphrase();
    let seen = served
        .folder
        .json(&["finding", "show", "F-004", "--book", "d.book"])["last"]
        .as_u64()
        .unwrap();
    let body = format!(
        "verb=decide&back=/finding/F-004&finding=F-004&route=shim&because=in+time+for+the+charter&seen_entry={seen}{SIGNED}"
    );
    let page = served.post("/do", &body);
    assert_eq!(page.status, 303, "{}", alert(&page));
    let through_form = newest(&served.folder, "d.book");

    served
        .folder
        .done(&["demo", "--no-serve", "--book", "e.book"]);
    let words = [
        "decide",
        "F-004",
        "shim",
        "--because",
        "in time for the charter",
        "--by",
        "Ada Quill",
        "--book",
        "e.book",
    ];
    let output = served
        .folder
        .command(&words)
        .env_remove("OUTSHOP_NOW")
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    assert_eq!(
        newest(&served.folder, "e.book")["body"],
        through_form["body"]
    );

    // And the same no: decided already.
    let refused = served.post("/do", &body.replace(&format!("&seen_entry={seen}"), ""));
    let output = served
        .folder
        .command(&words)
        .env_remove("OUTSHOP_NOW")
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    let first = said.lines().next().unwrap();
    assert_eq!((refused.status, output.status.code()), (409, Some(1)));
    assert!(refused.body.contains(first), "{first}: {}", alert(&refused));
}

fn newest(folder: &Folder, book: &str) -> serde_json::Value {
    let head = folder.json(&["check", "--book", book])["head"]["entry"]
        .as_u64()
        .unwrap();
    folder.json(&["entry", "show", &head.to_string(), "--book", book])
}

/// What a page says is wrong, without the rest of it.
fn alert(page: &Page) -> &str {
    let from = page.body.find("role=\"alert\"").unwrap_or(0);
    page.body[from..].split("</div>").next().unwrap_or_default()
}

/// A paper is the file that the verb writes, under the same strict headers; one that is not there is a page of words.
#[test]
fn papers_are_handed_out() {
    let served = Served::signed_in("papers");
    let seat =
        "/sheet/seat.correct?found_half_angle=44deg&wanted_half_angle=45deg&land=5%2F32in&port=2in";
    for page in ["/job/J-001", seat] {
        let link = format!("href=\"/print{}", page.split('?').next().unwrap());
        assert!(served.get(page).body.contains(&link), "{page}");
        let paper = served.get(&format!("/print{page}"));
        assert_eq!(paper.status, 200, "{page}: {}", paper.head);
        assert!(paper.body.starts_with("%PDF-1.7"), "{page}");
        for header in [
            "content-type: application/pdf",
            "content-disposition: inline; filename=",
            "content-security-policy: default-src 'none'",
        ] {
            assert!(paper.head.contains(header), "{page}: {}", paper.head);
        }
    }
    for (page, paper) in [
        ("/inspection/I-001", "/print/worksheet/14/annual"),
        ("/inspection/I-001", "/print/inspection/I-001"),
        ("/engine/14", "/print/worksheet/14/31"),
        ("/engine/14", "/print/tag/14"),
        ("/engine/803", "/print/worksheet/803/periodic"),
        ("/move/803", "/print/tag/803"),
        ("/engine/14/papers", "/print/duties/14"),
        ("/engine/803/papers", "/print/duties/803"),
        ("/engine/14/boiler", "/print/boiler-card/14"),
    ] {
        let link = format!("href=\"{paper}\"");
        assert!(served.get(page).body.contains(&link), "{page}: {paper}");
        let answer = served.get(paper);
        assert!(answer.body.starts_with("%PDF-1.7"), "{paper}");
    }
    for (page, said) in [
        ("/print/inspection/I-999", "There is no inspection"),
        ("/print/worksheet/14/weekly", "is not a kind of inspection"),
        ("/print/tag/999", "There is no engine"),
        ("/print/job/J-999", "There is no job"),
        ("/print/sheet/seat.correct?land=wide", "wide"),
        ("/print/nothing", "no such page"),
    ] {
        let paper = served.get(page);
        assert!(
            (400..500).contains(&paper.status),
            "{page}: {}",
            paper.status
        );
        assert!(paper.body.contains(said), "{page}: {}", paper.body);
    }
}
