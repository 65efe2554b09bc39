//! The program that drives Chromium.

use serde_json::json;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::mpsc;
use std::time::Duration;
use thirtyfour::common::capabilities::desiredcapabilities::Capabilities;
use thirtyfour::error::WebDriverResult;
use thirtyfour::{DesiredCapabilities, WebDriver};

/// Run headless, and keep to the site: Chromium's own look-ups would drown the page's requests.
const FLAGS: [&str; 12] = [
    "--headless=new",
    // Chromium ends when the driver does, however that comes about.
    "--remote-debugging-pipe",
    // Chromium's sandbox refuses to run as root, as it does in a container. It opens nothing but our own page.
    "--no-sandbox",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-quic",
    "--disable-search-engine-choice-screen",
    "--no-first-run",
    "--window-size=1180,820",
    "--lang=en-US",
];

/// Runs the driver until nobody holds the other end of its input: so it ends with the tests even if they are
/// killed, and leaves nothing behind. The shell lets go of the output, so that a driver that dies is seen.
const WHILE_WATCHED: &str = "trap '' INT; chromedriver --port=0 & exec >&-; read -r _; kill $!";

/// A driver that has not said its port by then never will.
const START: Duration = Duration::from_secs(30);

/// A running driver, ended when dropped.
pub struct Driver {
    watch: Child,
    /// Open while the driver is wanted.
    wanted: Option<ChildStdin>,
    /// Kept open, or the driver would fail to write to it.
    _output: Option<BufReader<ChildStdout>>,
    port: u16,
}

impl Driver {
    /// Starts a driver on a port that it chooses itself: no two tests can want the same. One that dies or says
    /// nothing is started anew, twice: its port may be taken by another program in the meantime.
    pub fn start() -> Driver {
        (0..3).find_map(|_| Driver::started()).expect(
            "chromedriver did not start three times: `cargo xtask test` installs it where it is missing",
        )
    }

    fn started() -> Option<Driver> {
        let mut watch = Command::new("sh")
            .args(["-c", WHILE_WATCHED])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a shell");
        let wanted = watch.stdin.take();
        let mut output = BufReader::new(watch.stdout.take().expect("its output"));
        let (said, heard) = mpsc::channel();
        std::thread::spawn(move || {
            // "ChromeDriver was started successfully on port 12345."
            let port = output.by_ref().lines().map_while(Result::ok).find_map(|line| {
                let (_, port) = line.split_once("successfully on port ")?;
                port.trim().trim_end_matches('.').parse::<u16>().ok()
            });
            let _ = said.send(port.map(|port| (port, output)));
        });
        let mut driver = Driver { watch, wanted, _output: None, port: 0 };
        // A driver that is dropped here is ended.
        let (port, output) = heard.recv_timeout(START).ok().flatten()?;
        (driver.port, driver._output) = (port, Some(output));
        Some(driver)
    }

    /// Opens a browser with a profile in this folder, or a fresh one that goes with it.
    pub async fn session(&self, profile: Option<&Path>) -> WebDriverResult<WebDriver> {
        let mut wanted = Capabilities::from(DesiredCapabilities::chromium());
        wanted.set("browserName", "chrome")?;
        let mut flags: Vec<String> = FLAGS.map(String::from).to_vec();
        flags.extend(profile.map(|folder| format!("--user-data-dir={}", folder.display())));
        wanted.set("goog:chromeOptions", json!({ "args": flags }))?;
        wanted.set("goog:loggingPrefs", json!({ "browser": "ALL", "performance": "ALL" }))?;
        WebDriver::new(format!("http://127.0.0.1:{}", self.port), wanted).await
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        self.wanted = None;
        let _ = self.watch.wait();
    }
}
