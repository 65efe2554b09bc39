//! A server of static files on this machine only, below any folder, as a plain host would serve them.
//! The browser tests include this file too.

use std::io;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::thread::{self, JoinHandle};
use tiny_http::{Header, Method, Request, Response, Server};

/// A running server; dropping it ends it.
pub struct Site {
    server: Arc<Server>,
    workers: Vec<JoinHandle<()>>,
    prefix: String,
}

impl Site {
    /// Serves `folder` below `prefix`, which begins and ends with a slash. Port 0 takes a free one.
    pub fn start(folder: &Path, port: u16, prefix: &str) -> io::Result<Site> {
        let server = Arc::new(Server::http(("127.0.0.1", port)).map_err(io::Error::other)?);
        let work = || {
            let (server, folder, prefix) = (Arc::clone(&server), folder.to_path_buf(), prefix.to_string());
            // `recv` fails when the server is told to end.
            thread::spawn(
                move || while server.recv().is_ok_and(|request| answer(request, &folder, &prefix)) {},
            )
        };
        let workers = (0..4).map(|_| work()).collect();
        Ok(Site { server, workers, prefix: prefix.to_string() })
    }

    /// The address of the folder, with its closing slash.
    pub fn address(&self) -> String {
        let port = self.server.server_addr().to_ip().map_or(0, |address| address.port());
        format!("http://127.0.0.1:{port}{}", self.prefix)
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        for _ in &self.workers {
            self.server.unblock();
        }
        for worker in self.workers.drain(..) {
            let _ = worker.join();
        }
    }
}

/// Always true: a visitor who goes away early is no reason to stop.
fn answer(request: Request, folder: &Path, prefix: &str) -> bool {
    let body = match request.method() {
        Method::Get | Method::Head => file(request.url(), folder, prefix),
        _ => None,
    };
    let _ = match body {
        Some((path, bytes)) => {
            let kind = mime_guess::from_path(path).first_or_octet_stream();
            let mut response = Response::from_data(bytes);
            for (name, value) in [("Content-Type", kind.essence_str()), ("Cache-Control", "no-cache")] {
                if let Ok(header) = Header::from_bytes(name, value) {
                    response.add_header(header);
                }
            }
            request.respond(response)
        }
        None => request.respond(Response::from_string("not found").with_status_code(404)),
    };
    true
}

/// The file that an address means, never outside the folder.
pub fn file(url: &str, folder: &Path, prefix: &str) -> Option<(PathBuf, Vec<u8>)> {
    let path = url.split(['?', '#']).next()?.strip_prefix(prefix)?;
    let path = Path::new(if path.is_empty() { "index.html" } else { path });
    let within = path.components().all(|part| matches!(part, Component::Normal(_)));
    let path = within.then(|| folder.join(path))?;
    let bytes = std::fs::read(&path).ok()?;
    Some((path, bytes))
}
