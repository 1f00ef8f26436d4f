//! A phone for the journeys: the built site served on this machine, and Chromium looking at it.
//!
//! `cargo xtask test` builds the site and says where it is in `PAILWISE_DIST`, and where the
//! driver is in `CHROMEDRIVER`.

mod site;

use std::error::Error;
use std::fs;
use std::io::{BufRead, BufReader};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::json;
use thirtyfour::prelude::*;
use thirtyfour::support::sleep;

pub use site::{Site, built};

/// What goes wrong in a journey ends it.
pub type Outcome<T = ()> = Result<T, Box<dyn Error + Send + Sync>>;

/// Every place of the app, as it stands after the `#` of an address.
pub const PLACES: [&str; 13] = [
    "mix",
    "floor",
    "floor/load",
    "floor/ready",
    "floor/after",
    "floor/hand-over",
    "clock",
    "products",
    "products/phone",
    "products/share",
    "products/share/invented-base",
    "products/edit/invented-base",
    "practice",
];

/// Chromium at the size of a phone.
pub struct Phone {
    // Ended first: a browser that is gone is not waited for by what asks it to go.
    process: Process,
    driver: WebDriver,
}

/// The driver with the browser it started; both end when this is dropped, whatever happened.
struct Process(Child);

impl Drop for Process {
    fn drop(&mut self) {
        // The whole group, so that no browser outlives a failed journey.
        let group = format!("-{}", self.0.id());
        let _ = Command::new("kill").args(["-KILL", "--", &group]).status();
        let _ = self.0.wait();
    }
}

impl Phone {
    /// A fresh phone with nothing stored, of a size, preferring a language.
    ///
    /// # Errors
    /// When the driver or the browser does not start.
    pub async fn start(width: u32, height: u32, language: &str) -> Outcome<Self> {
        Self::with_profile(width, height, language, None).await
    }

    /// A phone that keeps what it keeps in a folder, and is the same phone when it is started there
    /// again.
    ///
    /// # Errors
    /// As [`Phone::start`].
    pub async fn with_profile(
        width: u32,
        height: u32,
        language: &str,
        profile: Option<&Path>,
    ) -> Outcome<Self> {
        let program = std::env::var("CHROMEDRIVER").unwrap_or_else(|_| "chromedriver".to_owned());
        let mut process = Command::new(&program)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .process_group(0)
            .spawn()
            .map(Process)
            .map_err(|error| format!("{program}: {error}: run this with `cargo xtask test`"))?;
        let lines = BufReader::new(process.0.stdout.take().ok_or("no output of the driver")?);
        let port = port(lines).ok_or("the driver did not say its port")?;
        let mut chrome = DesiredCapabilities::chrome();
        for arg in [
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--disable-dev-shm-usage",
            &format!("--accept-lang={language}"),
        ] {
            chrome.add_arg(arg)?;
        }
        if let Some(profile) = profile {
            chrome.add_arg(&format!("--user-data-dir={}", profile.display()))?;
        }
        let driver = WebDriver::new(format!("http://127.0.0.1:{port}"), chrome).await?;
        let phone = Self { process, driver };
        phone.resize(width, height).await?;
        Ok(phone)
    }

    /// Turns it into a phone of another size.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn resize(&self, width: u32, height: u32) -> Outcome {
        let size = json!({
            "width": width, "height": height, "deviceScaleFactor": 1, "mobile": true
        });
        self.driver.cdp().send_raw("Emulation.setDeviceMetricsOverride", size).await?;
        Ok(())
    }

    /// Opens an address and waits for the app to stand.
    ///
    /// # Errors
    /// When it does not within ten seconds.
    pub async fn open(&self, address: &str) -> Outcome {
        self.go(address).await?;
        self.settled().await
    }

    /// Opens an address, whatever is there.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn go(&self, address: &str) -> Outcome {
        self.driver.goto(address).await?;
        Ok(())
    }

    /// Loads the page again.
    ///
    /// # Errors
    /// As [`Phone::open`].
    pub async fn reload(&self) -> Outcome {
        self.driver.refresh().await?;
        self.settled().await
    }

    /// Waits for the app to stand, with all that it writes a moment later.
    ///
    /// # Errors
    /// When it does not.
    async fn settled(&self) -> Outcome {
        self.element("h1").await?;
        self.until("return String(!!document.querySelector('[aria-busy]'))", "false").await
    }

    /// The first element that a CSS selector finds, waited for.
    ///
    /// # Errors
    /// When there is none within ten seconds.
    pub async fn element(&self, css: &str) -> Outcome<WebElement> {
        let found = self
            .driver
            .query(By::Css(css))
            .wait(Duration::from_secs(10), Duration::from_millis(50));
        Ok(found.first().await?)
    }

    /// The text of that element.
    ///
    /// # Errors
    /// As [`Phone::element`].
    pub async fn text(&self, css: &str) -> Outcome<String> {
        self.settled().await?;
        Ok(self.element(css).await?.text().await?)
    }

    /// Waits until the text of an element is something else than it was, and says what.
    ///
    /// # Errors
    /// When it has not changed within five seconds.
    pub async fn changed(&self, css: &str, from: &str) -> Outcome<String> {
        for _ in 0..100 {
            let now = self.text(css).await?;
            if now != from {
                return Ok(now);
            }
            sleep(Duration::from_millis(50)).await;
        }
        Err(format!("{css} still says {from:?}").into())
    }

    /// Opens the question that a field stands in, if it stands in one, and types into it, in place of what was there.
    ///
    /// # Errors
    /// When there is no such field, or it cannot be typed into.
    pub async fn type_into(&self, id: &str, text: &str) -> Outcome {
        self.element(&format!("#{id}")).await?;
        let open = format!(
            "const around = document.getElementById('{id}').closest('details'); \
             if (around) around.open = true"
        );
        self.driver.execute(&open, Vec::new()).await?;
        let field = self.element(&format!("#{id}")).await?;
        field.scroll_into_view().await?;
        field.click().await?;
        field.send_keys(Key::Control + "a").await?;
        if text.is_empty() {
            field.send_keys(Key::Delete + "").await?;
        } else {
            field.send_keys(text).await?;
        }
        Ok(())
    }

    /// Taps the first element of a selector whose text contains something.
    ///
    /// # Errors
    /// When there is none.
    pub async fn tap(&self, css: &str, containing: &str) -> Outcome {
        self.element(css).await?;
        for element in self.driver.find_all(By::Css(css)).await? {
            let text = element.prop("textContent").await?.unwrap_or_default();
            if text.contains(containing) {
                element.scroll_into_view().await?;
                element.click().await?;
                return Ok(());
            }
        }
        Err(format!("no {css} says {containing:?}").into())
    }

    /// What a script returns, as text.
    ///
    /// # Errors
    /// When it fails or returns something else.
    pub async fn script(&self, script: &str) -> Outcome<String> {
        Ok(self.driver.execute(script, Vec::new()).await?.convert()?)
    }

    /// What a script hands to its last argument, a function, as text.
    ///
    /// # Errors
    /// When it fails, or hands over something else.
    pub async fn later(&self, script: &str) -> Outcome<String> {
        Ok(self.driver.execute_async(script, Vec::new()).await?.convert()?)
    }

    /// Whether a CSS selector finds nothing.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn none(&self, css: &str) -> Outcome<bool> {
        Ok(self.driver.find_all(By::Css(css)).await?.is_empty())
    }

    /// Waits until a script says something.
    ///
    /// # Errors
    /// When it does not within five seconds.
    pub async fn until(&self, script: &str, wanted: &str) -> Outcome {
        let mut said = String::new();
        for _ in 0..100 {
            said = self.script(script).await?;
            if said == wanted {
                return Ok(());
            }
            sleep(Duration::from_millis(50)).await;
        }
        Err(format!("{script} says {said:?}, not {wanted:?}").into())
    }

    /// Waits until an element says something among other things.
    ///
    /// # Errors
    /// As [`Phone::until`].
    pub async fn until_holds(&self, css: &str, part: &str) -> Outcome {
        let script = format!(
            "const at = document.querySelector({css:?}); \
             return String(at !== null && at.textContent.includes({part:?}))"
        );
        self.until(&script, "true").await
    }

    /// Puts a value into a field that opens a picker of its own, such as a date or a time.
    ///
    /// # Errors
    /// When there is no such field.
    pub async fn set(&self, id: &str, value: &str) -> Outcome {
        self.element(&format!("#{id}")).await?;
        self.script(&format!(
            "const field = document.getElementById('{id}'); field.value = '{value}'; \
             for (const kind of ['input', 'change']) \
             field.dispatchEvent(new Event(kind, {{ bubbles: true }})); return ''"
        ))
        .await?;
        Ok(())
    }

    /// Has it prefer a theme, `light` or `dark`.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn in_theme(&self, theme: &str) -> Outcome {
        let features = json!([{ "name": "prefers-color-scheme", "value": theme }]);
        let media = json!({ "media": "", "features": features });
        self.driver.cdp().send_raw("Emulation.setEmulatedMedia", media).await?;
        Ok(())
    }

    /// Makes it a slow phone on a slow line: its work takes as many times as long, and the line
    /// has a megabit and a half a second and 150 ms to an answer.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn slow(&self, times: u32) -> Outcome {
        let cdp = self.driver.cdp();
        cdp.send_raw("Network.enable", json!({})).await?;
        let line = json!({
            "offline": false, "latency": 150,
            "downloadThroughput": 1.6e6 / 8.0, "uploadThroughput": 750e3 / 8.0
        });
        cdp.send_raw("Network.emulateNetworkConditions", line).await?;
        cdp.send_raw("Emulation.setCPUThrottlingRate", json!({ "rate": times })).await?;
        Ok(())
    }

    /// Lets the site of an address notify.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn allow_notifications(&self, address: &str) -> Outcome {
        let origin = address.trim_end_matches('/');
        let allowed = json!({ "origin": origin, "permissions": ["notifications"] });
        self.driver.cdp().send_raw("Browser.grantPermissions", allowed).await?;
        Ok(())
    }

    /// Moves it to a time zone by its name in the IANA data.
    ///
    /// # Errors
    /// When the browser does not answer, or knows no such zone.
    pub async fn in_zone(&self, zone: &str) -> Outcome {
        let zone = json!({ "timezoneId": zone });
        self.driver.cdp().send_raw("Emulation.setTimezoneOverride", zone).await?;
        Ok(())
    }

    /// How many CSS pixels the page is wider than the screen.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn overhang(&self) -> Outcome<i64> {
        let script = "return document.documentElement.scrollWidth - window.innerWidth";
        Ok(self.driver.execute(script, Vec::new()).await?.convert()?)
    }

    /// Runs a script in every page before the page's own.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn before_every_page(&self, script: &str) -> Outcome {
        let source = json!({ "source": script });
        self.driver.cdp().send_raw("Page.addScriptToEvaluateOnNewDocument", source).await?;
        Ok(())
    }

    /// Has the page's process killed, and opens an address in another tab, with a script before
    /// every page there.
    ///
    /// # Errors
    /// As [`Phone::open`].
    pub async fn crash(&self, address: &str, script: &str) -> Outcome {
        let doomed = self.driver.window().await?;
        let next = self.driver.new_tab().await?;
        self.driver.switch_to_window(doomed).await?;
        let cdp = self.driver.cdp();
        let crash = cdp.send_raw("Page.crash", json!({}));
        // The process that should answer is the one that dies.
        let _ = tokio::time::timeout(Duration::from_secs(2), crash).await;
        self.driver.switch_to_window(next).await?;
        self.before_every_page(script).await?;
        self.resize(390, 844).await?;
        self.open(address).await
    }

    /// Picks a file in the file field of an id.
    ///
    /// # Errors
    /// When there is no such field.
    pub async fn choose_file(&self, id: &str, file: &Path) -> Outcome {
        let field = self.element(&format!("#{id}")).await?;
        field.send_keys(file.display().to_string()).await?;
        Ok(())
    }

    /// Has the browser put what it downloads into a folder.
    ///
    /// # Errors
    /// When it does not answer.
    pub async fn download_into(&self, folder: &Path) -> Outcome {
        let to = json!({ "behavior": "allow", "downloadPath": folder.display().to_string() });
        self.driver.cdp().send_raw("Browser.setDownloadBehavior", to).await?;
        Ok(())
    }

    /// A picture of the whole page, as PNG.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn whole_page(&self) -> Outcome<Vec<u8>> {
        self.settled().await?;
        // A picture is taken without scrolling there, so all of it is laid out.
        let rule = ".answer-rest > .card { content-visibility: visible }";
        self.script(&format!("document.styleSheets[0].insertRule('{rule}'); return ''")).await?;
        let all = json!({ "format": "png", "captureBeyondViewport": true });
        let answer = self.driver.cdp().send_raw("Page.captureScreenshot", all).await?;
        Ok(STANDARD.decode(answer["data"].as_str().ok_or("there is no picture")?)?)
    }

    /// A picture of the screen with an element at its top, as PNG; what was done last and what is
    /// told are out of the way.
    ///
    /// # Errors
    /// When there is no such element.
    pub async fn screen_at(&self, css: &str) -> Outcome<Vec<u8>> {
        self.settled().await?;
        self.element(css).await?;
        self.script(&format!(
            "document.querySelector('.undo .button-quiet')?.click(); \
             for (const notice of document.querySelectorAll('.notice')) notice.hidden = true; \
             document.activeElement?.blur(); \
             document.querySelector('{css}').scrollIntoView(); return ''"
        ))
        .await?;
        sleep(Duration::from_millis(300)).await;
        Ok(self.driver.screenshot_as_png().await?)
    }

    /// A picture of an element, as PNG.
    ///
    /// # Errors
    /// As [`Phone::element`].
    pub async fn picture(&self, css: &str) -> Outcome<Vec<u8>> {
        let element = self.element(css).await?;
        element.scroll_into_view().await?;
        Ok(element.screenshot_as_png().await?)
    }

    /// Prints the page into a file, as a printer would have it, and says how many sheets it takes.
    ///
    /// # Errors
    /// When the browser does not answer, or the file cannot be written.
    pub async fn printed(&self, file: &Path) -> Outcome<usize> {
        let paper = json!({ "paperWidth": 8.5, "paperHeight": 11.0, "printBackground": true });
        let answer = self.driver.cdp().send_raw("Page.printToPDF", paper).await?;
        let data = answer["data"].as_str().ok_or("nothing was printed")?;
        let pdf = STANDARD.decode(data)?;
        fs::write(file, &pdf)?;
        let page = b"/Type /Page";
        let ends =
            |window: &[u8]| window.starts_with(page) && window.get(page.len()) != Some(&b's');
        Ok(pdf.windows(page.len() + 1).filter(|window| ends(window)).count())
    }

    /// Opens an address in a second tab, and goes there.
    ///
    /// # Errors
    /// As [`Phone::open`].
    pub async fn open_second_tab(&self, address: &str) -> Outcome {
        let tab = self.driver.new_tab().await?;
        self.driver.switch_to_window(tab).await?;
        self.open(address).await
    }

    /// Goes to the first tab.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn first_tab(&self) -> Outcome {
        let tabs = self.driver.windows().await?;
        let first = tabs.first().ok_or("no tab is open")?;
        Ok(self.driver.switch_to_window(first.clone()).await?)
    }

    /// Kills the browser as a dead battery does: nothing is asked, nothing is written any more.
    pub fn kill(self) {
        let Self { driver, process } = self;
        drop(process);
        // There is nobody left to say goodbye to.
        std::mem::forget(driver);
    }

    /// Ends the browser.
    ///
    /// # Errors
    /// When it does not answer.
    pub async fn quit(self) -> Outcome {
        let Self { driver, process } = self;
        driver.quit().await?;
        drop(process);
        Ok(())
    }
}

/// An empty folder of a test's own under another.
///
/// # Errors
/// When it cannot be made.
pub fn folder(under: &str, name: &str) -> Outcome<PathBuf> {
    let folder = Path::new(under).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder)?;
    Ok(folder)
}

/// The text of a file that is still being written.
///
/// # Errors
/// When there is none within five seconds.
pub async fn saved(file: &Path) -> Outcome<String> {
    for _ in 0..100 {
        if let Some(text) = fs::read_to_string(file).ok().filter(|text| !text.is_empty()) {
            return Ok(text);
        }
        sleep(Duration::from_millis(50)).await;
    }
    Err(format!("{} was not saved", file.display()).into())
}

fn port(lines: impl BufRead) -> Option<u16> {
    lines.lines().map_while(Result::ok).find_map(|line| {
        let (_, port) = line.split_once("started successfully on port ")?;
        port.trim_end_matches('.').parse().ok()
    })
}
