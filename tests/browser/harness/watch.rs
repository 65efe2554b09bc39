//! What the page said on the console and asked of the network since it opened.

use super::Browser;
use serde_json::Value;

#[derive(Default)]
pub struct Watched {
    console: Vec<String>,
    requests: Vec<String>,
}

impl Browser {
    /// All entries of the console so far, of every kind, those of refused requests and broken policy included.
    pub fn console(&self) -> Vec<String> {
        // Reading the log empties it.
        for entry in self.run(self.session().get_log("browser")).unwrap_or_default() {
            self.watched.borrow_mut().console.push(format!("{} {}", entry.level, entry.message));
        }
        self.watched.borrow().console.clone()
    }

    /// The addresses of all requests and sockets that the tabs have opened so far, answered or not.
    #[track_caller]
    pub fn requests(&self) -> Vec<String> {
        for entry in self.run(self.session().get_log("performance")).expect("the log of the network") {
            let Ok(entry) = serde_json::from_str::<Value>(&entry.message) else { continue };
            let (event, details) = (&entry["message"]["method"], &entry["message"]["params"]);
            let url = match event.as_str() {
                Some("Network.requestWillBeSent") => &details["request"]["url"],
                Some("Network.webSocketCreated") => &details["url"],
                _ => continue,
            };
            self.watched.borrow_mut().requests.extend(url.as_str().map(str::to_string));
        }
        self.watched.borrow().requests.clone()
    }

    /// The console is clean, and nobody but the site's own host has been asked for anything.
    #[track_caller]
    pub fn assert_quiet(&self) {
        assert_eq!(self.console(), Vec::<String>::new(), "the console should be clean");
        let requests = self.requests();
        assert!(requests.iter().any(|url| url.ends_with(".wasm")), "the watch saw no program: {requests:?}");
        let own = |url: &String| {
            url.starts_with(&self.address()) || url.starts_with("data:") || url.starts_with("blob:")
        };
        let outside: Vec<_> = requests.into_iter().filter(|url| !own(url)).collect();
        assert_eq!(outside, Vec::<String>::new(), "requests to others");
    }
}
