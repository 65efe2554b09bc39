//! The program that drives Chromium.

use serde_json::json;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
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
/// killed, and leaves nothing behind.
const WHILE_WATCHED: &str = "trap '' INT; chromedriver --port=0 & read -r _; kill $!";

/// A running driver, ended when dropped.
pub struct Driver {
    watch: Child,
    /// Open while the driver is wanted.
    wanted: Option<ChildStdin>,
    /// Kept open, or the driver would fail to write to it.
    _output: BufReader<ChildStdout>,
    port: u16,
}

impl Driver {
    /// Starts a driver on a port that it chooses itself: no two tests can want the same.
    pub fn start() -> Driver {
        let mut watch = Command::new("sh")
            .args(["-c", WHILE_WATCHED])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a shell");
        let wanted = watch.stdin.take();
        let mut output = BufReader::new(watch.stdout.take().expect("its output"));
        let mut line = String::new();
        let port = loop {
            line.clear();
            let read = output.read_line(&mut line).unwrap_or(0);
            assert!(
                read > 0,
                "chromedriver did not start: `cargo xtask test` installs it where it is missing"
            );
            // "ChromeDriver was started successfully on port 12345."
            if let Some((_, port)) = line.split_once("successfully on port ") {
                break port.trim().trim_end_matches('.').parse().expect("a port");
            }
        };
        Driver { watch, wanted, _output: output, port }
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
