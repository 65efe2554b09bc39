//! The device that the browser pretends to be, and pictures of what it shows.

use super::{Browser, made};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use thirtyfour::common::print::PrintParameters;

/// A screen, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    pub width: u32,
    pub height: u32,
    /// Dots per CSS pixel.
    pub density: f64,
    /// Touch instead of a mouse, and a phone's way with the viewport.
    pub mobile: bool,
}

impl Size {
    pub const TABLET: Size = Size { width: 1180, height: 820, density: 1.0, mobile: false };
    pub const PHONE: Size = Size { width: 390, height: 844, density: 2.0, mobile: true };
    pub const DESK: Size = Size { width: 1440, height: 900, density: 1.0, mobile: false };
    /// The sizes that every screen is looked at in.
    pub const ALL: [Size; 3] = [Size::TABLET, Size::PHONE, Size::DESK];
}

/// The colours that the user asks of every page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scheme {
    Light,
    Dark,
}

impl Scheme {
    pub const BOTH: [Scheme; 2] = [Scheme::Light, Scheme::Dark];

    fn name(self) -> &'static str {
        match self {
            Scheme::Light => "light",
            Scheme::Dark => "dark",
        }
    }
}

impl Browser {
    /// A command of Chromium's own protocol, for what has no helper.
    #[track_caller]
    pub fn chromium(&self, command: &str, parameters: Value) -> Value {
        self.run(self.session().cdp().send_raw(command, parameters))
            .unwrap_or_else(|e| panic!("{command}: {e}"))
    }

    #[track_caller]
    pub fn resize(&self, size: Size) {
        let Size { width, height, density, mobile } = size;
        let metrics =
            json!({ "width": width, "height": height, "deviceScaleFactor": density, "mobile": mobile });
        self.chromium("Emulation.setDeviceMetricsOverride", metrics);
        self.chromium("Emulation.setTouchEmulationEnabled", json!({ "enabled": mobile }));
        self.size.set(size);
    }

    #[track_caller]
    pub fn set_scheme(&self, scheme: Scheme) {
        self.scheme.set(scheme);
        self.media("");
    }

    /// Shows the page as it would be printed.
    #[track_caller]
    pub fn as_printed(&self, printed: bool) {
        self.media(if printed { "print" } else { "" });
    }

    fn media(&self, media: &str) {
        let features = json!([{ "name": "prefers-color-scheme", "value": self.scheme.get().name() }]);
        self.chromium("Emulation.setEmulatedMedia", json!({ "media": media, "features": features }));
    }

    /// A processor that many times slower than this one; 1 is back to normal.
    #[track_caller]
    pub fn slow_down(&self, times: f64) {
        self.chromium("Emulation.setCPUThrottlingRate", json!({ "rate": times }));
    }

    /// Cuts the page off from the network, or joins it again.
    #[track_caller]
    pub fn set_offline(&self, offline: bool) {
        self.chromium("Network.enable", json!({}));
        let wire =
            json!({ "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 });
        self.chromium("Network.emulateNetworkConditions", wire);
    }

    /// Lets files be saved from now on, into a folder of this test's own.
    #[track_caller]
    pub fn downloads(&self) -> PathBuf {
        let folder = made("downloads").join(super::fresh_name());
        std::fs::create_dir_all(&folder).expect("target/downloads");
        let allowed = json!({ "behavior": "allow", "downloadPath": folder });
        self.chromium("Browser.setDownloadBehavior", allowed);
        folder
    }

    /// Waits until a file of this ending is saved there, whole.
    #[track_caller]
    pub fn downloaded(&self, folder: &Path, ending: &str) -> PathBuf {
        self.until(&format!("a file .{ending}"), || {
            let files = std::fs::read_dir(folder).map_err(|error| error.to_string())?;
            let mut paths = files.flatten().map(|entry| entry.path());
            let saved = paths.find(|path| path.extension().is_some_and(|it| it == ending));
            // It is made under this name once it is whole.
            saved.filter(|path| path.metadata().is_ok_and(|it| it.len() > 0)).ok_or("not yet".into())
        })
    }

    /// Runs a script of the test's own in every page before the site's own: a browser with something amiss.
    #[track_caller]
    pub fn before_each_page(&self, script: &str) {
        self.chromium("Page.enable", json!({}));
        self.chromium("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script }));
    }

    /// The user's language, such as `de-DE`: what the page reads from the browser, after the next load.
    #[track_caller]
    pub fn set_language(&self, language: &str) {
        let agent = self.eval("navigator.userAgent");
        let agent = json!({ "userAgent": agent, "acceptLanguage": language });
        self.chromium("Emulation.setUserAgentOverride", agent);
        self.chromium("Emulation.setLocaleOverride", json!({ "locale": language }));
    }

    /// A picture of the screen: `target/screens/NAME-WIDTHxHEIGHT-SCHEME.png`.
    #[track_caller]
    pub fn screenshot(&self, name: &str) {
        let Size { width, height, .. } = self.size.get();
        let file = format!("{name}-{width}x{height}-{}.png", self.scheme.get().name());
        self.picture(&made("screens").join(file));
    }

    /// A picture of the whole page, however long: `target/screens/NAME-whole-WIDTHxHEIGHT-SCHEME.png`.
    #[track_caller]
    pub fn screenshot_whole(&self, name: &str) {
        let size = self.size.get();
        let height = self.eval("document.documentElement.scrollHeight").as_u64().unwrap_or(0) as u32;
        self.resize(Size { height: height.max(size.height), ..size });
        self.size.set(size);
        self.screenshot(&format!("{name}-whole"));
        self.resize(size);
    }

    /// A picture of the screen in each of the three sizes, light and dark; then the size and colours are as before.
    #[track_caller]
    pub fn screenshot_everywhere(&self, name: &str) {
        let before = (self.size.get(), self.scheme.get());
        for (size, scheme) in Size::ALL.into_iter().flat_map(|size| Scheme::BOTH.map(|scheme| (size, scheme)))
        {
            self.resize(size);
            self.set_scheme(scheme);
            self.assert_fits();
            self.screenshot(name);
        }
        self.resize(before.0);
        self.set_scheme(before.1);
    }

    /// Nothing sticks out sideways. Against the wanted width: a phone's layout grows to its widest content.
    #[track_caller]
    pub fn assert_fits(&self) {
        let width = self.size.get().width;
        self.until(&format!("the page to fit {width} px"), || {
            let wide =
                self.script("return document.documentElement.scrollWidth", json!([]))?.as_u64().unwrap_or(0);
            if wide <= u64::from(width) { Ok(()) } else { Err(format!("it is {wide} px wide")) }
        });
    }

    /// The page printed on paper: a PDF.
    #[track_caller]
    pub fn printed(&self) -> Vec<u8> {
        self.run(self.session().print_page(PrintParameters::default())).expect("a PDF")
    }

    fn picture(&self, file: &Path) {
        // Two frames later, what answers to sizes and colours has answered.
        self.paint();
        let picture = self.run(self.session().screenshot_as_png()).expect("a picture");
        std::fs::write(file, picture).expect("target/screens");
    }

    /// For a test that is failing: a picture and the console.
    pub(super) fn leave_evidence(&self) {
        let test = std::thread::current().name().unwrap_or("test").replace("::", "-");
        if let Ok(picture) = self.run(self.session().screenshot_as_png()) {
            let _ = std::fs::write(made("screens/failed").join(format!("{test}.png")), picture);
        }
        for entry in self.console() {
            eprintln!("console: {entry}");
        }
    }
}
