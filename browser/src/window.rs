//! One window of a real browser: goes to pages, presses what a person presses, and tells what it saw.
//!
//! Everything waits at most a bounded time, and nothing leaves this machine.

use std::future::Future;
use std::time::Duration;

use base64::prelude::{BASE64_STANDARD, Engine};
use fantoccini::actions::{InputSource, KeyAction, KeyActions};
use fantoccini::error::CmdError;
use fantoccini::key::Key;
use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value, json};
use sha2::{Digest, Sha256};

use crate::Wrong;
use crate::driver::Driver;

/// How long a page may take to load, and whatever else is waited for on it.
const PAGE: Duration = Duration::from_secs(20);
/// How long a script of a test may run: the accessibility engine on a long page of a busy machine.
const SCRIPT: Duration = Duration::from_secs(40);
/// How often it is asked whether something is so by now.
const STEP: Duration = Duration::from_millis(20);
/// How long any one command of the driver may take.
const COMMAND: Duration = Duration::from_secs(60);

/// What the browser is started with: no window, no word to anybody but this machine.
const ARGUMENTS: &[&str] = &[
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-extensions",
    "--disable-sync",
    "--disable-features=OptimizationHints,MediaRouter,Translate",
    "--no-first-run",
    "--hide-scrollbars",
    "--force-color-profile=srgb",
    "--host-resolver-rules=MAP shop.test 127.0.0.2, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    "--proxy-server=http://127.0.0.1:9",
    "--proxy-bypass-list=127.0.0.1;shop.test",
];

/// A screen to look at pages on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// A phone, held upright.
    Phone,
    /// A wide screen.
    Desk,
}

impl Screen {
    /// Both.
    pub const ALL: [Screen; 2] = [Screen::Phone, Screen::Desk];

    /// Its width, in CSS pixels.
    pub fn width(self) -> u32 {
        match self {
            Screen::Phone => 390,
            Screen::Desk => 1280,
        }
    }

    /// Its height, in CSS pixels.
    pub fn height(self) -> u32 {
        match self {
            Screen::Phone => 844,
            Screen::Desk => 900,
        }
    }
}

/// A window.
#[derive(Debug)]
pub struct Window {
    client: Client,
    runtime: tokio::runtime::Runtime,
    screen: Screen,
    // Last, so that the browser is ended after everything that speaks with it.
    _driver: Driver,
}

impl Window {
    /// Opens a window of `OUTSHOP_CHROMIUM`, else of the browser that the driver finds.
    ///
    /// # Errors
    /// If browser or driver do not start.
    pub fn open(screen: Screen) -> Result<Window, Wrong> {
        Window::started(screen, None)
    }

    /// The same for a phone that was given a shop's authority: its certificate, in PEM. It vouches for nothing else.
    ///
    /// # Errors
    /// As [`Window::open`], or if that is no certificate.
    pub fn trusting(screen: Screen, authority: &str) -> Result<Window, Wrong> {
        Window::started(screen, Some(key_of(authority)?))
    }

    fn started(screen: Screen, trusts: Option<String>) -> Result<Window, Wrong> {
        let driver = Driver::start()?;
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .map_err(|why| format!("{why}."))?;
        let mut args: Vec<String> = ARGUMENTS.iter().map(ToString::to_string).collect();
        args.push(format!(
            "--user-data-dir={}",
            driver.folder.0.join("browser").display()
        ));
        if let Some(key) = trusts {
            args.push(format!("--ignore-certificate-errors-spki-list={key}"));
        }
        let mut options = json!({ "args": args });
        if let (Some(program), Some(options)) = (
            std::env::var("OUTSHOP_CHROMIUM").ok(),
            options.as_object_mut(),
        ) {
            options.insert("binary".into(), program.into());
        }
        let asked: Map<String, Value> = Map::from_iter([
            ("browserName".into(), "chrome".into()),
            ("goog:chromeOptions".into(), options),
            (
                "goog:loggingPrefs".into(),
                json!({ "browser": "ALL", "performance": "ALL" }),
            ),
            (
                "timeouts".into(),
                json!({ "pageLoad": PAGE.as_millis() as u64, "script": SCRIPT.as_millis() as u64 }),
            ),
        ]);
        let client = runtime
            .block_on(async {
                let mut builder = ClientBuilder::new(HttpConnector::new());
                builder.capabilities(asked);
                tokio::time::timeout(COMMAND, builder.connect(&driver.at)).await
            })
            .map_err(|_| "The browser did not start in time.".to_string())?
            .map_err(|why| format!("The browser did not start: {why}."))?;
        let mut window = Window {
            client,
            runtime,
            screen,
            _driver: driver,
        };
        window.look_on(screen)?;
        // The browser's own first page is not ours to judge.
        window.go("about:blank")?;
        window.notes("browser")?;
        window.notes("performance")?;
        Ok(window)
    }

    /// Looks on another screen from now on.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn look_on(&mut self, screen: Screen) -> Result<(), Wrong> {
        self.screen = screen;
        let phone = screen == Screen::Phone;
        self.command(
            "Emulation.setDeviceMetricsOverride",
            json!({ "width": screen.width(), "height": screen.height(), "deviceScaleFactor": 1, "mobile": phone }),
        )?;
        self.command(
            "Emulation.setTouchEmulationEnabled",
            json!({ "enabled": phone }),
        )?;
        Ok(())
    }

    /// The screen it is looked at on.
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// Whether pages may run scripts. Ours in tests run either way.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn scripts(&self, allowed: bool) -> Result<(), Wrong> {
        self.command(
            "Emulation.setScriptExecutionDisabled",
            json!({ "value": !allowed }),
        )?;
        Ok(())
    }

    /// Shows pages as they are printed, or as they are on a screen.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn as_printed(&self, printed: bool) -> Result<(), Wrong> {
        let media = if printed { "print" } else { "" };
        self.command("Emulation.setEmulatedMedia", json!({ "media": media }))?;
        Ok(())
    }

    /// Goes to an address and waits until it is loaded.
    ///
    /// # Errors
    /// If it is not loaded in time.
    pub fn go(&self, url: &str) -> Result<(), Wrong> {
        self.wait(self.client.goto(url), url)
    }

    /// Ends the tab in the middle of whatever it does, and opens another.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn kill_tab(&mut self) -> Result<(), Wrong> {
        self.wait(
            async {
                let other = self.client.new_window(true).await?.handle;
                self.client.close_window().await?;
                self.client.switch_to_window(other).await
            },
            "the tab",
        )?;
        self.look_on(self.screen)
    }

    /// The address it stands at.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn url(&self) -> Result<String, Wrong> {
        self.wait(self.client.current_url(), "the address")
            .map(|url| url.to_string())
    }

    /// Keeps a cookie for an address.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn keep(&self, url: &str, (name, value): (&str, &str)) -> Result<(), Wrong> {
        self.command(
            "Network.setCookie",
            json!({ "url": url, "name": name, "value": value, "httpOnly": true, "sameSite": "Strict" }),
        )?;
        Ok(())
    }

    /// The cookie that signs the reader in at an address, as name and value.
    ///
    /// # Errors
    /// If nobody is signed in there.
    pub fn session(&self, url: &str) -> Result<(String, String), Wrong> {
        let kept = self.command("Network.getCookies", json!({ "urls": [url] }))?;
        let cookie = &kept["cookies"][0];
        match (cookie["name"].as_str(), cookie["value"].as_str()) {
            (Some(name), Some(value)) => Ok((name.to_string(), value.to_string())),
            _ => Err(format!("Nobody is signed in at {url}: {kept}.")),
        }
    }

    /// Forgets every cookie.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn forget(&self) -> Result<(), Wrong> {
        self.command("Network.clearBrowserCookies", json!({}))?;
        Ok(())
    }

    /// Presses what a selector finds first.
    ///
    /// # Errors
    /// If nothing is found, or it cannot be pressed.
    pub fn press(&self, css: &str) -> Result<(), Wrong> {
        self.wait(
            async { self.client.find(Locator::Css(css)).await?.click().await },
            css,
        )
    }

    /// Presses what leads to another page, and waits until that is loaded.
    ///
    /// # Errors
    /// If nothing is found, or it leads nowhere in time.
    pub fn go_by(&self, css: &str) -> Result<(), Wrong> {
        self.leave(|| self.press(css), css)
    }

    /// Presses a key that leads to another page, and waits until that is loaded.
    ///
    /// # Errors
    /// If it leads nowhere in time.
    pub fn go_by_key(&self, key: Key) -> Result<(), Wrong> {
        self.leave(|| self.key(key, 1), "A key")
    }

    /// The page is marked before the act: one without the mark is another page.
    fn leave(&self, act: impl FnOnce() -> Result<(), Wrong>, what: &str) -> Result<(), Wrong> {
        self.ask("document.documentElement.dataset.left = 'yes'", Vec::new())?;
        act()?;
        self.until(
            "document.documentElement.dataset.left !== 'yes' && document.readyState === 'complete'",
        )
        .map_err(|why| format!("{what} was pressed and led nowhere. {why}"))
    }

    /// Waits until something is so on the page. A browser between two pages has none to ask: that is not yet so.
    ///
    /// # Errors
    /// If it is not so in time; with what the browser said to the last question, if it failed.
    pub fn until(&self, what: &str) -> Result<(), Wrong> {
        let script = format!("return !!({what})");
        let mut last = String::new();
        let so = async {
            loop {
                match self.client.execute(&script, Vec::new()).await {
                    Ok(Value::Bool(true)) => break,
                    Ok(_) => last.clear(),
                    Err(why) => last = format!(" {why}."),
                }
                tokio::time::sleep(STEP).await;
            }
        };
        self.runtime
            .block_on(async { tokio::time::timeout(PAGE, so).await })
            .map_err(|_| format!("It was not so in time: {what}.{last}"))
    }

    /// Writes in a field in place of what stood there.
    ///
    /// # Errors
    /// If there is no such field, or it takes no writing.
    pub fn write(&self, css: &str, text: &str) -> Result<(), Wrong> {
        self.wait(
            async {
                let field = self.client.find(Locator::Css(css)).await?;
                field.clear().await?;
                field.send_keys(text).await
            },
            css,
        )
    }

    /// Chooses from a list, by value or by what it says.
    ///
    /// # Errors
    /// If the list does not have it.
    pub fn choose(&self, css: &str, value: &str) -> Result<(), Wrong> {
        self.wait(
            async {
                let list = self.client.find(Locator::Css(css)).await?;
                match list.select_by_value(value).await {
                    Ok(()) => Ok(()),
                    Err(_) => list.select_by_label(value).await,
                }
            },
            css,
        )
    }

    /// Presses a key a number of times, as one act.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn key(&self, key: Key, times: usize) -> Result<(), Wrong> {
        let value: char = key.into();
        let mut keys = KeyActions::new("keys".into());
        for _ in 0..times {
            keys = keys
                .then(KeyAction::Down { value })
                .then(KeyAction::Up { value });
        }
        self.wait(self.client.perform_actions(keys), "the keys")
    }

    /// What a script gives, with arguments.
    ///
    /// # Errors
    /// If it fails.
    pub fn ask(&self, script: &str, args: Vec<Value>) -> Result<Value, Wrong> {
        self.wait(self.client.execute(script, args), "a script of the test")
    }

    /// What a script gives to its last argument, a function.
    ///
    /// # Errors
    /// If it fails, or does not give it in time.
    pub fn ask_later(&self, script: &str, args: Vec<Value>) -> Result<Value, Wrong> {
        self.wait(
            self.client.execute_async(script, args),
            "a script of the test",
        )
    }

    /// The text a person reads on the page.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn text(&self) -> Result<String, Wrong> {
        let text = self.ask("return document.body.innerText", Vec::new())?;
        text.as_str()
            .map(str::to_string)
            .ok_or("The page has no text.".into())
    }

    /// Asks a few times: a browser may say that a page is loaded and not have laid it out yet, and then it draws and
    /// prints nothing of it.
    fn patiently(&self, ask: impl Fn() -> Result<Vec<u8>, Wrong>) -> Result<Vec<u8>, Wrong> {
        for _ in 0..4 {
            if let Ok(got) = ask() {
                return Ok(got);
            }
            self.runtime
                .block_on(async { tokio::time::sleep(STEP).await });
        }
        ask()
    }

    /// The whole page as a picture, in PNG.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn picture(&self) -> Result<Vec<u8>, Wrong> {
        self.patiently(|| self.picture_now())
    }

    fn picture_now(&self) -> Result<Vec<u8>, Wrong> {
        let size = self.command("Page.getLayoutMetrics", json!({}))?["cssContentSize"].clone();
        let clip =
            json!({ "x": 0, "y": 0, "width": size["width"], "height": size["height"], "scale": 1 });
        let asked = json!({ "format": "png", "captureBeyondViewport": true, "clip": clip });
        data(&self.command("Page.captureScreenshot", asked)?)
    }

    /// The page on letter paper, in PDF.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn print(&self) -> Result<Vec<u8>, Wrong> {
        let margin = 0.5;
        let asked = json!({
            "paperWidth": 8.5, "paperHeight": 11, "printBackground": true, "marginTop": margin,
            "marginBottom": margin, "marginLeft": margin, "marginRight": margin
        });
        self.patiently(|| data(&self.command("Page.printToPDF", asked.clone())?))
    }

    /// What the browser noted of one kind since it was last asked: `browser` is its console, `performance`
    /// what went over the wire.
    ///
    /// # Errors
    /// If the browser does not answer.
    pub fn notes(&self, kind: &str) -> Result<Vec<Value>, Wrong> {
        let notes = self.issue("se/log", json!({ "type": kind }))?;
        Ok(notes.as_array().cloned().unwrap_or_default())
    }

    /// A command of the browser's own.
    fn command(&self, name: &str, params: Value) -> Result<Value, Wrong> {
        self.issue("goog/cdp/execute", json!({ "cmd": name, "params": params }))
    }

    fn issue(&self, path: &'static str, body: Value) -> Result<Value, Wrong> {
        self.wait(self.client.issue_cmd(Extension { path, body }), path)
    }

    fn wait<T>(
        &self,
        act: impl Future<Output = Result<T, CmdError>>,
        what: &str,
    ) -> Result<T, Wrong> {
        self.runtime
            .block_on(async { tokio::time::timeout(COMMAND, act).await })
            .map_err(|_| {
                format!(
                    "{what}: the browser took longer than {} s.",
                    COMMAND.as_secs()
                )
            })?
            .map_err(|why| format!("{what}: {why}."))
    }
}

/// The hash of a certificate's public key as Chromium is told whom to trust: SHA-256 of the key's own description in the
/// certificate (RFC 5280, 4.1: `subjectPublicKeyInfo`), in base64.
fn key_of(pem: &str) -> Result<String, Wrong> {
    let body: String = pem
        .lines()
        .filter(|line| !line.starts_with("-----"))
        .collect();
    let der = BASE64_STANDARD
        .decode(body.trim())
        .map_err(|why| format!("{why}."))?;
    let key = public_key(&der).ok_or("That is no certificate.")?;
    Ok(BASE64_STANDARD.encode(Sha256::digest(key)))
}

/// The seventh field of what is signed: version, serial number, algorithm, issuer, validity and subject come before it.
fn public_key(certificate: &[u8]) -> Option<&[u8]> {
    let (_, inside, _) = one(certificate)?;
    let (_, mut signed, _) = one(inside)?;
    for _ in 0..6 {
        signed = one(signed)?.2;
    }
    Some(one(signed)?.0)
}

/// The first element of DER: all of it, what is inside, and what follows.
fn one(der: &[u8]) -> Option<(&[u8], &[u8], &[u8])> {
    let first = usize::from(*der.get(1)?);
    let (head, length) = if first < 0x80 {
        (2, first)
    } else {
        let bytes = der.get(2..2 + (first - 0x80))?;
        let length = bytes
            .iter()
            .fold(0, |sum, byte| sum << 8 | usize::from(*byte));
        (2 + bytes.len(), length)
    };
    let end = head + length;
    Some((der.get(..end)?, der.get(head..end)?, der.get(end..)?))
}

fn data(answer: &Value) -> Result<Vec<u8>, Wrong> {
    let text = answer["data"]
        .as_str()
        .ok_or("The browser gave no picture.")?;
    BASE64_STANDARD
        .decode(text)
        .map_err(|why| format!("{why}."))
}

/// A command that this driver has beside those of the standard.
#[derive(Debug)]
struct Extension {
    path: &'static str,
    body: Value,
}

impl WebDriverCompatibleCommand for Extension {
    fn endpoint(
        &self,
        base: &url::Url,
        session: Option<&str>,
    ) -> Result<url::Url, url::ParseError> {
        base.join(&format!(
            "session/{}/{}",
            session.unwrap_or_default(),
            self.path
        ))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(self.body.to_string()))
    }
}
