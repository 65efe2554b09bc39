//! What a browser test needs. A toolbox: not every test takes every tool.
#![allow(dead_code)]

mod device;
mod driver;
mod page;
#[path = "../../../xtask/src/server.rs"]
mod server;
mod watch;

pub use device::{Scheme, Size};
pub use driver::Engine;

use driver::Driver;
use server::Site;
use std::cell::{Cell, RefCell};
use std::future::Future;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{RecvTimeoutError, Sender};
use std::time::{Duration, Instant};
use thirtyfour::WebDriver;
use tokio::runtime::Runtime;

/// The folder below which the site is served: never the top, since a host may put it anywhere.
const FOLDER: &str = "/some/folder/";

/// How long to wait for something that should happen at once. Long, for a machine that does other things too.
const PATIENCE: Duration = Duration::from_secs(15);

/// No test takes as long, on a machine however busy: one that does hangs, and ends the run with its name.
const WHOLE_TEST: Duration = Duration::from_secs(900);

/// A browser with a fresh profile, on a server of its own. All of it ends when this is dropped.
pub struct Browser {
    // Dropped in this order.
    session: Option<WebDriver>,
    runtime: Runtime,
    driver: Driver,
    site: RefCell<Option<Site>>,
    address: String,
    /// A copy of the site of its own, which a test may change.
    copy: Option<PathBuf>,
    profile: Option<PathBuf>,
    /// Where it saves files.
    files: PathBuf,
    engine: Engine,
    size: Cell<Size>,
    scheme: Cell<Scheme>,
    watched: RefCell<watch::Watched>,
    // Last: it watches the ending of the others too.
    _deadline: Sender<()>,
}

/// Ends the run if what it gives is not dropped in time: a hang must not eat the hours of whoever waits for it.
fn deadline() -> Sender<()> {
    let (alive, watch) = std::sync::mpsc::channel();
    let test = std::thread::current().name().unwrap_or("a test").to_string();
    std::thread::spawn(move || {
        if watch.recv_timeout(WHOLE_TEST) == Err(RecvTimeoutError::Timeout) {
            eprintln!("{test} hangs: it took longer than {} s", WHOLE_TEST.as_secs());
            std::process::exit(101);
        }
    });
    alive
}

impl Browser {
    /// Opens the site's first page and waits until it is ready.
    #[track_caller]
    pub fn open() -> Browser {
        let browser = Browser::blank();
        browser.goto("");
        browser
    }

    /// Opens an empty page, for a test that arranges something before the site loads.
    #[track_caller]
    pub fn blank() -> Browser {
        Browser::with(Engine::Chromium, None, Shown::Site)
    }

    /// As [`Browser::open`], in another browser. What Chromium alone can do (sizes, colours, languages, console,
    /// network) is not there for the others.
    #[track_caller]
    pub fn open_in(engine: Engine) -> Browser {
        let browser = Browser::with(engine, None, Shown::Site);
        browser.goto("");
        browser
    }

    /// Opens the page of one file, from the disk and without a server.
    #[track_caller]
    pub fn open_one_file_in(engine: Engine) -> Browser {
        let browser = Browser::with(engine, None, Shown::OneFile);
        browser.goto("");
        browser
    }

    /// As [`Browser::blank`], for the page of one file.
    #[track_caller]
    pub fn blank_one_file() -> Browser {
        Browser::with(Engine::Chromium, None, Shown::OneFile)
    }

    /// As [`Browser::open`], on a copy of the site that the test may change: see [`Browser::copy`].
    #[track_caller]
    pub fn open_on_a_copy() -> Browser {
        let copy = made("copies").join(fresh_name());
        let _ = std::fs::create_dir_all(&copy);
        for file in std::fs::read_dir(top().join("dist")).expect("no dist/: run `cargo xtask build` first") {
            let path = file.expect("a file of dist/").path();
            std::fs::copy(&path, copy.join(path.file_name().expect("a name"))).expect("a copy of the site");
        }
        let browser = Browser::with(Engine::Chromium, None, Shown::Copy(copy));
        browser.goto("");
        browser
    }

    /// As [`Browser::open`], on a profile that outlives the browser: see [`Browser::kill_and_restart`].
    #[track_caller]
    pub fn open_to_be_killed() -> Browser {
        let profile = made("profiles").join(fresh_name());
        let browser = Browser::with(Engine::Chromium, Some(profile), Shown::Site);
        browser.goto("");
        browser
    }

    #[track_caller]
    fn with(engine: Engine, profile: Option<PathBuf>, shown: Shown) -> Browser {
        let deadline = deadline();
        let (address, site, copy) = shown.ready();
        let files = made("files").join(fresh_name());
        std::fs::create_dir_all(&files).expect("a folder for files");
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
        let opened = || {
            let driver = Driver::start(engine, &files);
            let session = runtime.block_on(driver.session(profile.as_deref(), &files));
            session.map(|session| (driver, session))
        };
        // Once more if it fails: a browser that did not start says nothing about the site.
        let (driver, session) = opened().or_else(|_| opened()).expect("a browser");
        let browser = Browser {
            session: Some(session),
            runtime,
            driver,
            address,
            site: RefCell::new(site),
            copy,
            profile,
            files,
            engine,
            size: Cell::new(Size::TABLET),
            scheme: Cell::new(Scheme::Light),
            watched: RefCell::default(),
            _deadline: deadline,
        };
        if engine == Engine::Chromium {
            browser.resize(Size::TABLET);
            browser.set_scheme(Scheme::Light);
        }
        browser
    }

    /// Ends the browser as a crash or a power cut of the program would, without a word to the page, and opens
    /// another on the same profile and the same site. Only after [`Browser::open_to_be_killed`].
    #[track_caller]
    pub fn kill_and_restart(&mut self) {
        self.kill_and_restart_beside();
        self.goto("");
    }

    /// The same, but what opens is a picture of the site: its stores can be looked at before the program runs.
    #[track_caller]
    pub fn kill_and_restart_beside(&mut self) {
        let profile = self.profile.clone().expect("a kept profile");
        let process = process_of(&profile).expect("a browser that runs");
        let killed = Command::new("kill").args(["-9", &process.to_string()]).status();
        assert!(killed.is_ok_and(|status| status.success()), "kill -9 {process}");
        while process_of(&profile).is_some() {
            std::thread::sleep(Duration::from_millis(5));
        }
        if let Some(session) = self.session.take() {
            let _ = self.runtime.block_on(session.quit());
        }
        let session = self.runtime.block_on(self.driver.session(Some(&profile), &self.files));
        self.session = Some(session.expect("a browser on the kept profile"));
        self.resize(self.size.get());
        let picture = self.address() + "icon-192.png";
        self.run(self.session().goto(picture.as_str())).expect("a picture of the site");
    }

    /// The address of the site's first page.
    pub fn address(&self) -> String {
        self.address.clone()
    }

    /// The folder of the site that this browser alone looks at. Only after [`Browser::open_on_a_copy`].
    #[track_caller]
    pub fn copy(&self) -> &Path {
        self.copy.as_deref().expect("a copy of the site")
    }

    /// What draws the pages.
    pub fn engine(&self) -> Engine {
        self.engine
    }

    /// The folder that this browser alone saves files into.
    pub fn files(&self) -> &Path {
        &self.files
    }

    /// Ends the server: whatever the browser still shows comes from the device.
    pub fn stop_serving(&self) {
        self.site.replace(None);
    }

    /// Waits for `ask` to give a value. While it does not, the browser is made to paint: a headless one may
    /// rest for seconds, and what watches sizes waits for a frame.
    ///
    /// Panics after 15 s with the last error.
    #[track_caller]
    pub fn until<T>(&self, what: &str, mut ask: impl FnMut() -> Result<T, String>) -> T {
        let start = Instant::now();
        loop {
            match ask() {
                Ok(value) => return value,
                Err(error) if start.elapsed() > PATIENCE => panic!("waited for {what}: {error}"),
                Err(_) => self.paint(),
            }
        }
    }

    fn paint(&self) {
        if self.engine != Engine::Chromium {
            std::thread::sleep(Duration::from_millis(20));
            return;
        }
        let smallest = serde_json::json!({ "format": "jpeg", "quality": 1, "optimizeForSpeed": true });
        let _ = self.run(self.session().cdp().send_raw("Page.captureScreenshot", smallest));
        std::thread::sleep(Duration::from_millis(10));
    }

    /// thirtyfour's own view of the session, for what the harness lacks; see [`Browser::run`].
    pub fn session(&self) -> &WebDriver {
        self.session.as_ref().expect("open until dropped")
    }

    /// Waits for one of thirtyfour's commands.
    pub fn run<F: Future>(&self, command: F) -> F::Output {
        self.runtime.block_on(command)
    }
}

/// What a browser looks at.
enum Shown {
    Site,
    /// A copy of it in this folder, for a test that changes it.
    Copy(PathBuf),
    /// The page of one file.
    OneFile,
}

impl Shown {
    /// Its address, with the server and the copy that it needs.
    #[track_caller]
    fn ready(self) -> (String, Option<Site>, Option<PathBuf>) {
        if let Shown::OneFile = self {
            let file = made("one-file").join("bathbook.html");
            assert!(file.is_file(), "no {}: run `cargo xtask build` first", file.display());
            return (format!("file://{}", file.display()), None, None);
        }
        let copy = if let Shown::Copy(folder) = self { Some(folder) } else { None };
        let dist = copy.clone().unwrap_or_else(|| top().join("dist"));
        assert!(dist.join("index.html").is_file(), "no dist/: run `cargo xtask build` first");
        let site = Site::start(&dist, 0, FOLDER).expect("a port to serve the site on");
        (site.address(), Some(site), copy)
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        if std::thread::panicking() {
            self.leave_evidence();
        }
        if let Some(session) = self.session.take() {
            let _ = self.runtime.block_on(session.quit());
        }
        for folder in [&self.profile, &self.copy].into_iter().flatten().chain([&self.files]) {
            let _ = std::fs::remove_dir_all(folder);
        }
    }
}

/// A name that nothing else of this run has.
fn fresh_name() -> String {
    static COUNT: AtomicUsize = AtomicUsize::new(0);
    format!("{}-{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed))
}

/// The browser's own process, not one of its helpers, that runs on a profile.
fn process_of(profile: &Path) -> Option<u32> {
    let profile = format!("--user-data-dir={}", profile.display());
    let is_it = |process: &u32| {
        let line = std::fs::read(format!("/proc/{process}/cmdline")).unwrap_or_default();
        let mut words = line.split(|byte| *byte == 0).peekable();
        let is_chromium = words.peek().is_some_and(|name| !name.ends_with(b"chromedriver"));
        let words: Vec<_> = words.collect();
        is_chromium
            && words.contains(&profile.as_bytes())
            && !words.iter().any(|word| word.starts_with(b"--type="))
    };
    let processes = std::fs::read_dir("/proc").ok()?.flatten();
    processes.filter_map(|entry| entry.file_name().to_str()?.parse().ok()).find(is_it)
}

/// The top of the project.
fn top() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A folder in Cargo's target folder, made if it is missing.
pub fn made(folder: &str) -> PathBuf {
    let target =
        std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| top().join("target"), |dir| top().join(dir));
    let folder = target.join(folder);
    std::fs::create_dir_all(&folder).expect("a folder in target/");
    folder
}

/// Records a figure for `cargo xtask figures` to print.
pub fn figure(name: &str, value: impl std::fmt::Display, unit: &str) {
    let path = made("figures").join("browser.tsv");
    let file = std::fs::OpenOptions::new().create(true).append(true).open(path);
    let line = format!("{name}\t{value}\t{unit}\n");
    file.and_then(|mut file| file.write_all(line.as_bytes())).expect("target/figures");
}
