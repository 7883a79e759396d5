//! Every verb has every door: what is typed and what comes as JSON is one and the same request.
//!
//! Long because: one example of every verb, and whoever adds a verb adds one.

use std::ffi::OsString;

use outshop::{Request, parse, verbs};

/// One example of every verb, typed and as JSON. A verb without one fails the test below.
const DOORS: &[(&[&str], &str)] = &[
    (&["demo", "--no-serve"], r#"{"demo":{"no_serve":true}}"#),
    (
        &[
            "new",
            "--shop",
            "A",
            "--zone",
            "America/Denver",
            "--officer",
            "B",
        ],
        r#"{"new":{"shop":"A","zone":"America/Denver","officer":"B"}}"#,
    ),
    (&["serve", "--port", "0"], r#"{"serve":{"port":0}}"#),
    (&["check"], r#"{"check":{}}"#),
    (&["print", "phones"], r#"{"print":{"phones":{}}}"#),
    (
        &["print", "boiler-card", "14"],
        r#"{"print":{"boiler-card":{"engine":"14"}}}"#,
    ),
    (
        &[
            "boiler",
            "enter",
            "14",
            "second course",
            "--kind",
            "course",
            "--place",
            "barrel",
            "--source",
            "drawing 211",
            "thickness=.571in",
        ],
        r#"{"boiler":{"enter":{"engine":"14","component":"second course","kind":"course","place":"barrel","source":"drawing 211","facts":["thickness=.571in"]}}}"#,
    ),
    (
        &["boiler", "import", "14", "boiler.csv"],
        r#"{"boiler":{"import":{"engine":"14","file":"boiler.csv"}}}"#,
    ),
    (
        &["boiler", "card", "14"],
        r#"{"boiler":{"card":{"engine":"14"}}}"#,
    ),
    (
        &["boiler", "test-day", "14"],
        r#"{"boiler":{"test-day":{"engine":"14"}}}"#,
    ),
    (&["yearly"], r#"{"yearly":{}}"#),
    (
        &["tires", "14", "--clean-up", "1/32in", "--lead-weeks", "40"],
        r#"{"tires":{"engine":"14","clean_up":"1/32in","lead_weeks":40}}"#,
    ),
    (
        &["print", "tires", "14", "--clean-up", "1/32in"],
        r#"{"print":{"tires":{"engine":"14","clean_up":"1/32in"}}}"#,
    ),
    (
        &["boiler", "sign", "14", "--because", "survey of 2026"],
        r#"{"boiler":{"sign":{"engine":"14","because":"survey of 2026"}}}"#,
    ),
    (&["boiler", "kinds"], r#"{"boiler":"kinds"}"#),
    (
        &[
            "boiler",
            "survey",
            "14",
            "second course",
            "--unit",
            "in",
            "bottom=.571 -",
        ],
        r#"{"boiler":{"survey":{"engine":"14","component":"second course","unit":"in","rows":["bottom=.571 -"]}}}"#,
    ),
    (
        &["boiler", "surveyed", "14", "second course"],
        r#"{"boiler":{"surveyed":{"engine":"14","component":"second course"}}}"#,
    ),
    (
        &[
            "boiler",
            "map",
            "14",
            "left side",
            "--pitch",
            "4in",
            "--kind",
            "rigid",
            "1=18@6in+5in",
        ],
        r#"{"boiler":{"map":{"engine":"14","sheet":"left side","pitch":"4in","kind":"rigid","rows":["1=18@6in+5in"]}}}"#,
    ),
    (
        &[
            "boiler",
            "stay",
            "14",
            "left side",
            "broken",
            "--which",
            "3:10-11",
            "--told",
            "dull",
            "--at",
            "annual",
        ],
        r#"{"boiler":{"stay":{"engine":"14","sheet":"left side","state":"broken","which":"3:10-11","told":"dull","at":"annual"}}}"#,
    ),
    (
        &["boiler", "stays", "14"],
        r#"{"boiler":{"stays":{"engine":"14"}}}"#,
    ),
    (
        &["print", "survey", "14", "second course"],
        r#"{"print":{"survey":{"engine":"14","component":"second course"}}}"#,
    ),
    (
        &["print", "stay-map", "14"],
        r#"{"print":{"stay-map":{"engine":"14"}}}"#,
    ),
    (&["backup", "copy.book"], r#"{"backup":{"to":"copy.book"}}"#),
    (
        &["restore", "copy.book", "--drill"],
        r#"{"restore":{"copy":"copy.book","drill":true}}"#,
    ),
    (
        &["entry", "show", "4"],
        r#"{"entry":{"show":{"number":4}}}"#,
    ),
    (&["entry", "list"], r#"{"entry":"list"}"#),
    (
        &[
            "entry",
            "correct",
            "4",
            "--because",
            "copied wrong",
            "miles=14",
        ],
        r#"{"entry":{"correct":{"number":4,"because":"copied wrong","changes":["miles=14"]}}}"#,
    ),
    (&["entry", "batches"], r#"{"entry":"batches"}"#),
    (
        &["entry", "withdraw", "e81ff9f3", "--because", "wrong year"],
        r#"{"entry":{"withdraw":{"batch":"e81ff9f3","because":"wrong year"}}}"#,
    ),
    (
        &["person", "add", "C", "--may", "inspect,repair"],
        r#"{"person":{"add":{"name":"C","may":["inspect","repair"]}}}"#,
    ),
    (&["person", "list"], r#"{"person":"list"}"#),
    (
        &[
            "person",
            "authorise",
            "C",
            "inspect",
            "--document",
            "letter 4",
            "--until",
            "2027-12-31",
        ],
        r#"{"person":{"authorise":{"name":"C","authority":"inspect","document":"letter 4","until":"2027-12-31"}}}"#,
    ),
    (
        &["person", "withdraw", "C", "inspect", "--because", "left"],
        r#"{"person":{"withdraw":{"name":"C","authority":"inspect","because":"left"}}}"#,
    ),
    (
        &["person", "show", "C"],
        r#"{"person":{"show":{"name":"C"}}}"#,
    ),
    (
        &[
            "locomotive",
            "add",
            "14",
            "--wheels",
            "2-8-0",
            "--gauge",
            "56 1/2 in",
            "--rules",
            "us-steam",
        ],
        r#"{"locomotive":{"add":{"number":"14","wheels":"2-8-0","gauge":"56 1/2 in","rules":"us-steam"}}}"#,
    ),
    (
        &[
            "locomotive",
            "held",
            "14",
            "annual",
            "2025-11-08",
            "--document",
            "Form 3",
        ],
        r#"{"locomotive":{"held":{"engine":"14","kind":"annual","day":"2025-11-08","document":"Form 3"}}}"#,
    ),
    (
        &[
            "locomotive",
            "day",
            "14",
            "enters-service",
            "1951-06-01",
            "--document",
            "card",
        ],
        r#"{"locomotive":{"day":{"engine":"14","what":"enters-service","day":"1951-06-01","document":"card"}}}"#,
    ),
    (
        &[
            "locomotive",
            "fact",
            "803",
            "brake-schedule",
            "26-l",
            "--document",
            "plate",
        ],
        r#"{"locomotive":{"fact":{"engine":"803","fact":"brake-schedule","value":"26-l","document":"plate"}}}"#,
    ),
    (
        &[
            "locomotive",
            "out-of-use",
            "803",
            "--from",
            "2025-11-03",
            "--through",
            "2025-12-19",
            "--told",
            "back bay",
        ],
        r#"{"locomotive":{"out-of-use":{"engine":"803","from":"2025-11-03","through":"2025-12-19","told":"back bay"}}}"#,
    ),
    (
        &[
            "locomotive",
            "rules",
            "14",
            "juniper-fork",
            "--from",
            "2026-06-01",
            "--document",
            "order 4",
        ],
        r#"{"locomotive":{"rules":{"engine":"14","set":"juniper-fork","from":"2026-06-01","document":"order 4"}}}"#,
    ),
    (
        &["shop", "state", "owner", "the society", "--engine", "14"],
        r#"{"shop":{"state":{"what":"owner","says":"the society","engine":"14"}}}"#,
    ),
    (&["shop", "show"], r#"{"shop":"show"}"#),
    (
        &[
            "move", "decide", "14", "--under", "in-yard", "--from", "track 4", "--to", "the shop",
            "--how", "in-tow", "--mph", "10", "--limits", "none",
        ],
        r#"{"move":{"decide":{"engine":"14","under":"in-yard","from":"track 4","to":"the shop","how":"in-tow","mph":10,"limits":"none"}}}"#,
    ),
    (
        &["move", "end", "14", "--how", "arrived", "--told", "track 2"],
        r#"{"move":{"end":{"engine":"14","how":"arrived","told":"track 2"}}}"#,
    ),
    (
        &["move", "list", "14"],
        r#"{"move":{"list":{"engine":"14"}}}"#,
    ),
    (&["locomotive", "list"], r#"{"locomotive":"list"}"#),
    (
        &["locomotive", "show", "14"],
        r#"{"locomotive":{"show":{"engine":"14"}}}"#,
    ),
    (
        &[
            "part",
            "add",
            "14",
            "check",
            "--family",
            "check-valve",
            "--fact",
            "seat-design=matched",
        ],
        r#"{"part":{"add":{"engine":"14","name":"check","family":"check-valve","facts":["seat-design=matched"]}}}"#,
    ),
    (
        &[
            "part",
            "tell",
            "14",
            "check",
            "--side",
            "right",
            "--within",
            "boiler",
            "--fitted",
            "1998-04",
            "--as-built",
            "seat-wall=.5in",
        ],
        r#"{"part":{"tell":{"engine":"14","part":"check","side":"right","within":"boiler","fitted_on":"1998-04","as_built":["seat-wall=.5in"]}}}"#,
    ),
    (
        &["part", "tree", "14"],
        r#"{"part":{"tree":{"engine":"14"}}}"#,
    ),
    (
        &["part", "wear", "14", "check", "--a-year", "40"],
        r#"{"part":{"wear":{"engine":"14","part":"check","a_year":40}}}"#,
    ),
    (
        &[
            "part",
            "plan",
            "14",
            "check",
            "seat-wall",
            "--with",
            "hours_leave=2",
        ],
        r#"{"part":{"plan":{"engine":"14","part":"check","size":"seat-wall","with":["hours_leave=2"]}}}"#,
    ),
    (
        &["inspect", "before", "14", "annual", "--lead", "60"],
        r#"{"inspect":{"before":{"engine":"14","kind":"annual","lead":60}}}"#,
    ),
    (
        &["print", "before", "14", "annual"],
        r#"{"print":{"before":{"engine":"14","kind":"annual"}}}"#,
    ),
    (
        &["part", "fit-out", "14", "--main-axle", "3", "--write"],
        r#"{"part":{"fit-out":{"engine":"14","main_axle":3,"write":true}}}"#,
    ),
    (
        &["part", "import", "parts.csv", "--engine", "14"],
        r#"{"part":{"import":{"file":"parts.csv","engine":"14"}}}"#,
    ),
    (
        &["part", "adopt", "wheelset"],
        r#"{"part":{"adopt":{"families":["wheelset"]}}}"#,
    ),
    (
        &[
            "boiler-work",
            "--work",
            "weld",
            "--area",
            "stayed",
            "--flush-patch",
            "no",
        ],
        r#"{"boiler-work":{"work":"weld","area":"stayed","flush_patch":"no"}}"#,
    ),
    (
        &["family", "check", "whistle.toml"],
        r#"{"family":{"check":{"file":"whistle.toml"}}}"#,
    ),
    (
        &["family", "adopt", "whistle.toml"],
        r#"{"family":{"adopt":{"file":"whistle.toml"}}}"#,
    ),
    (
        &["instrument", "add", "M-12", "--what", "outside micrometer"],
        r#"{"instrument":{"add":{"number":"M-12","what":"outside micrometer"}}}"#,
    ),
    (
        &[
            "instrument",
            "check",
            "M-12",
            "--against",
            "blocks",
            "--good",
        ],
        r#"{"instrument":{"check":{"number":"M-12","against":"blocks","good":true}}}"#,
    ),
    (&["instrument", "list"], r#"{"instrument":"list"}"#),
    (
        &["instrument", "show", "M-12"],
        r#"{"instrument":{"show":{"number":"M-12"}}}"#,
    ),
    (
        &[
            "photo",
            "add",
            "ring.jpg",
            "--told",
            "a full ring",
            "--engine",
            "14",
            "--part",
            "check",
        ],
        r#"{"photo":{"add":{"file":"ring.jpg","told":"a full ring","engine":"14","part":"check"}}}"#,
    ),
    (
        &["photo", "list", "14"],
        r#"{"photo":{"list":{"engine":"14"}}}"#,
    ),
    (
        &["photo", "get", "P-001", "ring.jpg"],
        r#"{"photo":{"get":{"number":"P-001","to":"ring.jpg"}}}"#,
    ),
    (
        &["part", "show", "14", "check"],
        r#"{"part":{"show":{"engine":"14","part":"check"}}}"#,
    ),
    (&["part", "family"], r#"{"part":{"family":{}}}"#),
    (
        &[
            "reading",
            "take",
            "14",
            "check",
            "--as-left",
            "--standing",
            "hot",
            "--insist",
            "new body",
            "seat-land@front=3/32in",
        ],
        r#"{"reading":{"take":{"engine":"14","part":"check","readings":["seat-land@front=3/32in"],"as_left":true,"standing":"hot","insist":"new body"}}}"#,
    ),
    (
        &[
            "reading",
            "take",
            "14",
            "check",
            "--finding",
            "F-005",
            "seat-land@front=3/32in",
        ],
        r#"{"reading":{"take":{"engine":"14","part":"check","readings":["seat-land@front=3/32in"],"finding":"F-005"}}}"#,
    ),
    (
        &[
            "tooling", "add", "lap", "--engine", "14", "--part", "check", "--shelf", "2",
        ],
        r#"{"tooling":{"add":{"what":"lap","engine":"14","part":"check","shelf":"2"}}}"#,
    ),
    (
        &["find", "5/32", "seat"],
        r#"{"find":{"words":["5/32","seat"]}}"#,
    ),
    (
        &[
            "spare",
            "add",
            "glass",
            "--counted",
            "pieces",
            "--shelf",
            "2",
            "--least",
            "4",
        ],
        r#"{"spare":{"add":{"what":"glass","counted":"pieces","shelf":"2","least":"4"}}}"#,
    ),
    (
        &[
            "lathe",
            "add",
            "sixteen-inch",
            "--leadscrew",
            "4 TPI",
            "--wheels",
            "24, 24, 48",
            "--thread-dial",
            "none",
            "--cross-reads",
            "diameter",
        ],
        r#"{"lathe":{"add":{"name":"sixteen-inch","leadscrew":"4 TPI","wheels":"24, 24, 48","thread_dial":"none","cross_reads":"diameter"}}}"#,
    ),
    (
        &["lathe", "tell", "LA-001", "--speeds", "30, 55"],
        r#"{"lathe":{"tell":{"number":"LA-001","speeds":"30, 55"}}}"#,
    ),
    (&["lathe", "list"], r#"{"lathe":"list"}"#),
    (
        &[
            "card",
            "keep",
            "thread.cutting",
            "tpi=8",
            "--lathe",
            "LA-001",
        ],
        r#"{"card":{"keep":{"sheet":"thread.cutting","given":["tpi=8"],"lathe":"LA-001"}}}"#,
    ),
    (&["card", "list"], r#"{"card":"list"}"#),
    (
        &["card", "show", "C-001"],
        r#"{"card":{"show":{"number":"C-001"}}}"#,
    ),
    (
        &["card", "read", "C-001 R1"],
        r#"{"card":{"read":{"code":"C-001 R1"}}}"#,
    ),
    (
        &["print", "card", "C-001"],
        r#"{"print":{"card":{"card":"C-001"}}}"#,
    ),
    (
        &[
            "blue",
            "J-001",
            "seat",
            "--after",
            "320 grit",
            "--touches",
            "all round",
        ],
        r#"{"blue":{"job":"J-001","face":"seat","after":"320 grit","touches":"all round"}}"#,
    ),
    (
        &["lathe", "show", "LA-001"],
        r#"{"lathe":{"show":{"number":"LA-001"}}}"#,
    ),
    (
        &["spare", "tell", "S-001", "--material", "bronze"],
        r#"{"spare":{"tell":{"number":"S-001","material":"bronze"}}}"#,
    ),
    (
        &["spare", "receive", "S-001", "12", "--from", "a foundry"],
        r#"{"spare":{"receive":{"number":"S-001","many":"12","from":"a foundry"}}}"#,
    ),
    (
        &["spare", "use", "S-001", "2", "--job", "J-001"],
        r#"{"spare":{"use":{"number":"S-001","many":"2","job":"J-001"}}}"#,
    ),
    (
        &["spare", "hold", "S-001", "2", "--job", "J-001"],
        r#"{"spare":{"hold":{"number":"S-001","many":"2","job":"J-001"}}}"#,
    ),
    (
        &["spare", "count", "S-001", "9"],
        r#"{"spare":{"count":{"number":"S-001","many":"9"}}}"#,
    ),
    (
        &["spare", "settle", "S-001", "--because", "broken"],
        r#"{"spare":{"settle":{"number":"S-001","because":"broken"}}}"#,
    ),
    (
        &["spare", "list", "--short"],
        r#"{"spare":{"list":{"short":true}}}"#,
    ),
    (
        &["spare", "show", "S-001"],
        r#"{"spare":{"show":{"number":"S-001"}}}"#,
    ),
    (
        &[
            "letter",
            "log",
            "from",
            "a foundry",
            "--what",
            "poured",
            "--dated",
            "2026-05-01",
            "--they-promise",
            "bar",
            "--until",
            "2026-06-01",
        ],
        r#"{"letter":{"log":{"way":"from","whom":"a foundry","what":"poured","dated":"2026-05-01","they_promise":"bar","until":"2026-06-01"}}}"#,
    ),
    (
        &[
            "letter", "answer", "L-001", "--told", "it came", "--letter", "L-002",
        ],
        r#"{"letter":{"answer":{"number":"L-001","told":"it came","letter":"L-002"}}}"#,
    ),
    (
        &["letter", "list", "--open"],
        r#"{"letter":{"list":{"open":true}}}"#,
    ),
    (
        &["letter", "show", "L-001"],
        r#"{"letter":{"show":{"number":"L-001"}}}"#,
    ),
    (
        &["tooling", "list", "--feature", "seat-land"],
        r#"{"tooling":{"list":{"feature":"seat-land"}}}"#,
    ),
    (
        &[
            "tooling",
            "tell",
            "T-001",
            "--feature",
            "seat-land",
            "--drawing",
            "14-B-9",
        ],
        r#"{"tooling":{"tell":{"number":"T-001","features":["seat-land"],"drawing":"14-B-9"}}}"#,
    ),
    (
        &[
            "tooling",
            "check",
            "T-001",
            "--against",
            "sine bar",
            "--good",
        ],
        r#"{"tooling":{"check":{"number":"T-001","against":"sine bar","good":true}}}"#,
    ),
    (
        &["tooling", "move", "T-001", "--shelf", "3"],
        r#"{"tooling":{"move":{"number":"T-001","shelf":"3"}}}"#,
    ),
    (
        &["tooling", "take-out", "T-001", "--because", "worn"],
        r#"{"tooling":{"take-out":{"number":"T-001","because":"worn"}}}"#,
    ),
    (
        &["tooling", "show", "T-001"],
        r#"{"tooling":{"show":{"number":"T-001"}}}"#,
    ),
    (
        &["print", "tool-tag", "T-001"],
        r#"{"print":{"tool-tag":{"tool":"T-001"}}}"#,
    ),
    (
        &[
            "steam",
            "log",
            "14",
            "--lit",
            "2026-05-02T06:30",
            "--miles",
            "28",
        ],
        r#"{"steam":{"log":{"engine":"14","lit":"2026-05-02T06:30","miles":28}}}"#,
    ),
    (
        &[
            "steam",
            "days",
            "14",
            "2026-05-02..2026-05-04",
            "2026-05-09",
            "--told",
            "wall calendar",
        ],
        r#"{"steam":{"days":{"engine":"14","days":["2026-05-02..2026-05-04","2026-05-09"],"told":"wall calendar"}}}"#,
    ),
    (
        &[
            "steam",
            "import",
            "log.csv",
            "--engine",
            "14",
            "--dates",
            "day-month",
            "--write",
            "--leave-out",
        ],
        r#"{"steam":{"import":{"file":"log.csv","engine":"14","dates":"day-month","write":true,"leave_out":true}}}"#,
    ),
    (
        &[
            "steam",
            "counted",
            "14",
            "27",
            "--from",
            "2026-05-01",
            "--through",
            "2026-05-31",
            "--document",
            "paper log",
        ],
        r#"{"steam":{"counted":{"engine":"14","service_days":27,"from":"2026-05-01","through":"2026-05-31","document":"paper log"}}}"#,
    ),
    (
        &["steam", "close", "14", "--through", "2026-05-02"],
        r#"{"steam":{"close":{"engine":"14","through":"2026-05-02"}}}"#,
    ),
    (
        &["steam", "promise", "14", "2026-05-09", "train"],
        r#"{"steam":{"promise":{"engine":"14","day":"2026-05-09","what":"train"}}}"#,
    ),
    (
        &["steam", "show", "14"],
        r#"{"steam":{"show":{"engine":"14"}}}"#,
    ),
    (
        &["due", "14", "--why"],
        r#"{"due":{"engine":"14","why":true}}"#,
    ),
    (
        &[
            "due",
            "14",
            "--ahead",
            "--hold",
            "31=2026-05-20",
            "--run",
            "2026-06-06=charter",
        ],
        r#"{"due":{"engine":"14","ahead":true,"hold":["31=2026-05-20"],"run":["2026-06-06=charter"]}}"#,
    ),
    (&["due", "--dates"], r#"{"due":{"dates":true}}"#),
    (
        &["print", "calendar", "--engine", "14", "--out", "a.ics"],
        r#"{"print":{"calendar":{"engine":"14","out":"a.ics"}}}"#,
    ),
    (
        &["print", "worksheet", "14", "31", "--out", "sheet.pdf"],
        r#"{"print":{"worksheet":{"engine":"14","kind":"31","out":"sheet.pdf"}}}"#,
    ),
    (
        &["print", "inspection", "I-001"],
        r#"{"print":{"inspection":{"inspection":"I-001"}}}"#,
    ),
    (
        &["print", "duties", "14"],
        r#"{"print":{"duties":{"engine":"14"}}}"#,
    ),
    (
        &["print", "year", "14", "2025"],
        r#"{"print":{"year":{"engine":"14","year":"2025"}}}"#,
    ),
    (
        &["print", "hydro", "14"],
        r#"{"print":{"hydro":{"engine":"14"}}}"#,
    ),
    (
        &["print", "boiler-work", "J-001", "stayed-repair"],
        r#"{"print":{"boiler-work":{"job":"J-001","kind":"stayed-repair"}}}"#,
    ),
    (
        &["print", "tag", "14", "--over"],
        r#"{"print":{"tag":{"engine":"14","over":true}}}"#,
    ),
    (
        &["print", "job", "J-001", "--out", "card.pdf"],
        r#"{"print":{"job":{"job":"J-001","out":"card.pdf"}}}"#,
    ),
    (
        &["print", "sheet", "seat.correct", "land=5/32in", "--over"],
        r#"{"print":{"sheet":{"id":"seat.correct","arguments":["land=5/32in"],"over":true}}}"#,
    ),
    (
        &["print", "sheet", "seat.correct", "--job", "J-001"],
        r#"{"print":{"sheet":{"id":"seat.correct","job":"J-001"}}}"#,
    ),
    (
        &["print", "drawing", "disc", "nose=2in", "--out", "disc.dxf"],
        r#"{"print":{"drawing":{"drawing":"disc","arguments":["nose=2in"],"out":"disc.dxf"}}}"#,
    ),
    (
        &["inspect", "open", "14", "31"],
        r#"{"inspect":{"open":{"engine":"14","kind":"31"}}}"#,
    ),
    (
        &[
            "inspect", "answer", "I-001", "3", "--good", "--seen", "whole",
        ],
        r#"{"inspect":{"answer":{"inspection":"I-001","item":"3","good":true,"seen":"whole"}}}"#,
    ),
    (
        &["inspect", "show", "I-001"],
        r#"{"inspect":{"show":{"inspection":"I-001"}}}"#,
    ),
    (
        &[
            "inspect",
            "anchor",
            "I-001",
            "2026-04-11",
            "--why",
            "the day of its last item",
        ],
        r#"{"inspect":{"anchor":{"inspection":"I-001","day":"2026-04-11","why":"the day of its last item"}}}"#,
    ),
    (
        &[
            "inspect",
            "filed",
            "14",
            "us-steam.form-3.after-annual",
            "--about",
            "I-001",
            "--told",
            "mailed",
        ],
        r#"{"inspect":{"filed":{"engine":"14","rule":"us-steam.form-3.after-annual","about":"I-001","told":"mailed"}}}"#,
    ),
    (
        &["inspect", "papers", "14"],
        r#"{"inspect":{"papers":{"engine":"14"}}}"#,
    ),
    (
        &["inspect", "put-away", "I-001", "--because", "rained off"],
        r#"{"inspect":{"put-away":{"inspection":"I-001","because":"rained off"}}}"#,
    ),
    (
        &["inspect", "close", "I-001"],
        r#"{"inspect":{"close":{"inspection":"I-001"}}}"#,
    ),
    (
        &[
            "inspect",
            "day",
            "14",
            "2=good: both clear",
            "5=defect@right feed check: weeps",
            "--close",
        ],
        r#"{"inspect":{"day":{"engine":"14","items":[{"item":"2","how":"good","seen":"both clear"},{"item":"5","how":"defect","at":"right feed check","seen":"weeps"}],"close":true}}}"#,
    ),
    (
        &[
            "writeup",
            "report",
            "14",
            "knocks; where=left motion; heat=hot; pressure=140psig; wait=no",
        ],
        r#"{"writeup":{"report":{"engine":"14","symptoms":[{"what":"knocks","where":"left motion","heat":"hot","pressure":"140psig","wait":"no"}]}}}"#,
    ),
    (
        &["writeup", "report", "14", "--nothing"],
        r#"{"writeup":{"report":{"engine":"14","nothing":true}}}"#,
    ),
    (
        &[
            "writeup",
            "answer",
            "W-001",
            "--no-defect",
            "--seen",
            "tight",
        ],
        r#"{"writeup":{"answer":{"write_up":"W-001","no_defect":true,"seen":"tight"}}}"#,
    ),
    (
        &["writeup", "list", "14"],
        r#"{"writeup":{"list":{"engine":"14"}}}"#,
    ),
    (
        &[
            "finding",
            "lift",
            "F-001",
            "--name",
            "A",
            "--office",
            "B",
            "--day",
            "2026-05-04",
            "--document",
            "C",
        ],
        r#"{"finding":{"lift":{"finding":"F-001","name":"A","office":"B","day":"2026-05-04","document":"C"}}}"#,
    ),
    (
        &[
            "finding",
            "record",
            "14",
            "check",
            "--told",
            "weeps",
            "--at",
            "I-001",
            "--shows",
            "weeps-back",
        ],
        r#"{"finding":{"record":{"engine":"14","part":"check","told":"weeps","at":"I-001","shows":["weeps-back"]}}}"#,
    ),
    (
        &["finding", "show", "F-001"],
        r#"{"finding":{"show":{"finding":"F-001"}}}"#,
    ),
    (
        &["finding", "opens", "F-001", "us-steam.clock.plugged-flue"],
        r#"{"finding":{"opens":{"finding":"F-001","rule":"us-steam.clock.plugged-flue"}}}"#,
    ),
    (
        &["finding", "apart", "14"],
        r#"{"finding":{"apart":{"engine":"14"}}}"#,
    ),
    (&["finding", "list"], r#"{"finding":{"list":{}}}"#),
    (
        &["decide", "F-001", "re-cut", "--because", "worn"],
        r#"{"decide":{"finding":"F-001","route":"re-cut","because":"worn"}}"#,
    ),
    (
        &["job", "make", "F-001"],
        r#"{"job":{"make":{"finding":"F-001"}}}"#,
    ),
    (
        &["job", "show", "J-001"],
        r#"{"job":{"show":{"job":"J-001"}}}"#,
    ),
    (
        &["job", "sheets", "J-001"],
        r#"{"job":{"sheets":{"job":"J-001"}}}"#,
    ),
    (
        &[
            "job",
            "paper",
            "J-001",
            "zero-proven",
            "--told",
            "cock open",
        ],
        r#"{"job":{"paper":{"job":"J-001","kind":"zero-proven","told":"cock open"}}}"#,
    ),
    (
        &[
            "job",
            "paper",
            "J-001",
            "press-chart",
            "--told",
            "pressed",
            "--points",
            "1in 4; 2in 8; 3in 12",
            "--ton",
            "short",
            "--card",
            "C-001",
        ],
        r#"{"job":{"paper":{"job":"J-001","kind":"press-chart","told":"pressed","points":"1in 4; 2in 8; 3in 12","ton":"short","card":"C-001"}}}"#,
    ),
    (
        &["job", "done", "J-001", "1"],
        r#"{"job":{"done":{"job":"J-001","operation":1}}}"#,
    ),
    (
        &["job", "clear", "J-001", "1", "--seen", "true"],
        r#"{"job":{"clear":{"job":"J-001","operation":1,"seen":"true"}}}"#,
    ),
    (
        &["job", "knock-on", "J-001", "disc-lift", "--seen", "7/16"],
        r#"{"job":{"knock-on":{"job":"J-001","knock_on":"disc-lift","seen":"7/16"}}}"#,
    ),
    (
        &["job", "close", "J-001"],
        r#"{"job":{"close":{"job":"J-001"}}}"#,
    ),
    (
        &["prove", "J-001", "blue", "--passed", "--told", "unbroken"],
        r#"{"prove":{"job":"J-001","proof":"blue","passed":true,"told":"unbroken"}}"#,
    ),
    (
        &["sign", "J-001", "--as", "repairer"],
        r#"{"sign":{"job":"J-001","as":"repairer"}}"#,
    ),
    (&["release", "14"], r#"{"release":{"engine":"14"}}"#),
    (
        &["sheet", "seat.correct", "land=1in"],
        r#"{"sheet":{"id":"seat.correct","arguments":["land=1in"]}}"#,
    ),
    (
        &[
            "sheet",
            "boiler.seam",
            "pitch=7in",
            "--rules",
            "us-steam",
            "--so",
            "steel-plate",
            "--fact",
            "rivet=steel",
        ],
        r#"{"sheet":{"id":"boiler.seam","arguments":["pitch=7in"],"rules":"us-steam","so":["steel-plate"],"facts":["rivet=steel"]}}"#,
    ),
    (
        &["sheet", "thread.cutting", "tpi=8", "--lathe", "LA-001"],
        r#"{"sheet":{"id":"thread.cutting","arguments":["tpi=8"],"lathe":"LA-001"}}"#,
    ),
    (
        &["rule", "us-steam.clock.31"],
        r#"{"rule":{"id":"us-steam.clock.31"}}"#,
    ),
    (
        &[
            "rule",
            "side-rod-bore-over-pin",
            "--reading",
            "5/32in",
            "--uncertainty",
            ".001in",
            "--so",
            "main-pin",
            "--fact",
            "axle-load=36500lb",
            "--engine",
            "14",
            "--rules",
            "us-steam",
        ],
        r#"{"rule":{"id":"side-rod-bore-over-pin","reading":"5/32in","uncertainty":".001in","so":["main-pin"],"facts":["axle-load=36500lb"],"engine":"14","rules":"us-steam"}}"#,
    ),
    (
        &[
            "rule",
            "hold",
            "us-steam.clock.31",
            "--against",
            "eCFR of 2026-05-01",
            "--agrees",
            "230.14(a), 31 service days",
            "--version",
            "1",
        ],
        r#"{"rule":{"hold":{"id":"us-steam.clock.31","against":"eCFR of 2026-05-01","agrees":"230.14(a), 31 service days","version":1}}}"#,
    ),
    (
        &["rule", "held", "us-steam.clock", "--all"],
        r#"{"rule":{"held":{"begins":"us-steam.clock","all":true}}}"#,
    ),
    (
        &[
            "shop",
            "require",
            "another-certifies",
            "--because",
            "minute 4",
        ],
        r#"{"shop":{"require":{"rule":"another-certifies","because":"minute 4"}}}"#,
    ),
    (
        &["shop", "drop", "another-certifies", "--because", "minute 9"],
        r#"{"shop":{"drop":{"rule":"another-certifies","because":"minute 9"}}}"#,
    ),
    (&["shop", "rules"], r#"{"shop":"rules"}"#),
    (
        &["rule", "check", "ours.toml"],
        r#"{"rule":{"check":{"file":"ours.toml"}}}"#,
    ),
    (
        &["rule", "adopt", "ours.toml", "--from", "2026-06-01"],
        r#"{"rule":{"adopt":{"file":"ours.toml","from":"2026-06-01"}}}"#,
    ),
];

fn typed(words: &[&str]) -> Request {
    let all = ["outshop"].iter().chain(words).map(OsString::from);
    parse(all)
        .map(|(_, request)| request)
        .unwrap_or_else(|e| panic!("{words:?}: {e}"))
}

#[test]
fn both_doors_ask_the_same() {
    for (words, json) in DOORS {
        assert_eq!(typed(words), Request::from_json(json).unwrap(), "{words:?}");
    }
}

#[test]
fn no_verb_lacks_a_door() {
    let shown: Vec<String> = DOORS.iter().map(|(words, _)| words.join(" ")).collect();
    for verb in verbs() {
        let there = shown
            .iter()
            .any(|words| *words == verb || words.starts_with(&format!("{verb} ")));
        assert!(there, "the verb `{verb}` has no example of its doors");
    }
}

/// The words of the arguments hang together: no option is defined twice, none clashes.
#[test]
fn every_verb_has_help() {
    for verb in verbs() {
        let words: Vec<&str> = verb.split(' ').chain(["--help"]).collect();
        let all = ["outshop"].iter().chain(&words).map(OsString::from);
        let said = parse(all).unwrap_err();
        assert_eq!(said.kind(), clap::error::ErrorKind::DisplayHelp, "{verb}");
        let text = said.to_string();
        assert!(
            text.lines().next().is_some_and(|line| line.len() > 8),
            "{verb} says nothing of itself"
        );
    }
}
