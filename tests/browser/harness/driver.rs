//! The browsers, and the programs that drive them.

use serde_json::json;
use std::ffi::OsStr;
use std::io::{BufRead, BufReader, Read};
use std::net::{TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::mpsc;
use std::time::{Duration, Instant};
use thirtyfour::common::capabilities::desiredcapabilities::Capabilities;
use thirtyfour::error::WebDriverResult;
use thirtyfour::{DesiredCapabilities, WebDriver};

/// What draws the pages. Each has its browser: Chromium itself, Firefox, and the small one that comes with WebKitGTK.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    Chromium,
    Firefox,
    /// Needs a screen, and so is run within `xvfb-run`.
    WebKit,
}

impl Engine {
    /// The driver. All but Chromium’s are started as the head of a group, which ends with all that it started.
    fn command(self, port: u16) -> Vec<String> {
        let words: &[&str] = match self {
            Engine::Chromium => &["chromedriver"],
            Engine::Firefox => &["setsid", "geckodriver"],
            Engine::WebKit => &["setsid", "WebKitWebDriver"],
        };
        words.iter().map(|word| word.to_string()).chain([format!("--port={port}")]).collect()
    }

    /// What the driver finds set. WebKit's browser saves files at home, and can be asked for no other place; and it
    /// has no language, whatever this machine speaks, so that the page meets that too.
    fn surroundings(self, files: &Path) -> Vec<(&'static str, &OsStr)> {
        match self {
            // The last: as root, and in a container, it refuses otherwise. It opens nothing but our own page.
            Engine::WebKit => vec![
                ("HOME", files.as_os_str()),
                ("LC_ALL", OsStr::new("C")),
                ("WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS", OsStr::new("1")),
            ],
            _ => Vec::new(),
        }
    }

    /// What the browser is to be like, with files saved into `files`.
    fn wanted(self, profile: Option<&Path>, files: &Path) -> WebDriverResult<Capabilities> {
        match self {
            Engine::Chromium => {
                let mut wanted = Capabilities::from(DesiredCapabilities::chromium());
                wanted.set("browserName", "chrome")?;
                let mut flags: Vec<String> = FLAGS.map(String::from).to_vec();
                flags.extend(profile.map(|folder| format!("--user-data-dir={}", folder.display())));
                let files = json!({ "download.default_directory": files });
                wanted.set("goog:chromeOptions", json!({ "args": flags, "prefs": files }))?;
                wanted.set("goog:loggingPrefs", json!({ "browser": "ALL", "performance": "ALL" }))?;
                Ok(wanted)
            }
            Engine::Firefox => {
                let mut wanted = Capabilities::new();
                let settings = json!({
                    // Into a folder of our own, without asking.
                    "browser.download.folderList": 2,
                    "browser.download.dir": files,
                    "browser.download.useDownloadDir": true,
                });
                let flags = ["-headless", "--width=1180", "--height=820"];
                wanted.set("browserName", "firefox")?;
                wanted.set("moz:firefoxOptions", json!({ "args": flags, "prefs": settings }))?;
                Ok(wanted)
            }
            // The driver's own choice: the browser that comes with it.
            Engine::WebKit => Ok(Capabilities::new()),
        }
    }
}

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
const WHILE_WATCHED: &str = "trap '' INT; \"$@\" & exec >&-; read -r _; kill -- -$! || kill $!";

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
    engine: Engine,
}

impl Driver {
    /// Starts a driver on a port that it chooses itself: no two tests can want the same. One that dies or says
    /// nothing is started anew, twice: its port may be taken by another program in the meantime.
    pub fn start(engine: Engine, files: &Path) -> Driver {
        (0..3).find_map(|_| Driver::started(engine, files)).unwrap_or_else(|| {
            panic!(
                "the driver of {engine:?} did not start three times: \
                 `cargo xtask test` or `cargo xtask browsers` installs it where it is missing"
            )
        })
    }

    fn started(engine: Engine, files: &Path) -> Option<Driver> {
        // WebKit's driver does not say which port it chose.
        let chosen = match engine {
            Engine::WebKit => TcpListener::bind(("127.0.0.1", 0)).ok()?.local_addr().ok()?.port(),
            _ => 0,
        };
        let mut watch = Command::new("sh")
            .args(["-c", WHILE_WATCHED, "sh"])
            .args(engine.command(chosen))
            .envs(engine.surroundings(files))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a shell");
        let wanted = watch.stdin.take();
        let mut output = BufReader::new(watch.stdout.take().expect("its output"));
        let (said, heard) = mpsc::channel();
        // A driver that is dropped here is ended.
        let mut driver = Driver { watch, wanted, _output: None, port: chosen, engine };
        if chosen != 0 {
            let start = Instant::now();
            while TcpStream::connect(("127.0.0.1", chosen)).is_err() {
                if start.elapsed() > START {
                    return None;
                }
                std::thread::sleep(Duration::from_millis(20));
            }
            driver._output = Some(output);
            return Some(driver);
        }
        std::thread::spawn(move || {
            // "ChromeDriver was started successfully on port 12345.", "… Listening on 127.0.0.1:12345"
            let port = output.by_ref().lines().map_while(Result::ok).find_map(|line| {
                let (_, port) = line
                    .split_once("successfully on port ")
                    .or_else(|| line.split_once("Listening on 127.0.0.1:"))?;
                port.trim().trim_end_matches('.').parse::<u16>().ok()
            });
            let _ = said.send(port.map(|port| (port, output)));
        });
        let (port, output) = heard.recv_timeout(START).ok().flatten()?;
        (driver.port, driver._output) = (port, Some(output));
        Some(driver)
    }

    /// Opens a browser with a profile in this folder, or a fresh one that goes with it, which saves files into
    /// another. Only Chromium takes a profile.
    pub async fn session(&self, profile: Option<&Path>, files: &Path) -> WebDriverResult<WebDriver> {
        let wanted = self.engine.wanted(profile, files)?;
        WebDriver::new(format!("http://127.0.0.1:{}", self.port), wanted).await
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        self.wanted = None;
        let _ = self.watch.wait();
    }
}
