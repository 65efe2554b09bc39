//! A server of static files on this machine only, below any folder, as a plain host would serve them.
//! The browser tests include this file too.
//!
//! Our own, so that each connection has a thread and ends with its answer: tiny_http 0.12 lets one wait without
//! end where several come at once.

use std::io::{self, BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// A browser asks in far less.
const LONGEST_REQUEST: u64 = 64 * 1024;
/// Who has asked nothing by then does not come back: browsers open connections in advance.
const PATIENCE: Duration = Duration::from_secs(60);

/// A running server; dropping it ends it.
pub struct Site {
    address: SocketAddr,
    ended: Arc<AtomicBool>,
    listener: Option<JoinHandle<()>>,
    prefix: String,
}

impl Site {
    /// Serves `folder` below `prefix`, which begins and ends with a slash. Port 0 takes a free one.
    pub fn start(folder: &Path, port: u16, prefix: &str) -> io::Result<Site> {
        let listener = TcpListener::bind(("127.0.0.1", port))?;
        let (address, ended) = (listener.local_addr()?, Arc::new(AtomicBool::new(false)));
        let (folder, below, is_over) = (folder.to_path_buf(), prefix.to_string(), Arc::clone(&ended));
        let listen = move || {
            for connection in listener.incoming() {
                if is_over.load(Ordering::SeqCst) {
                    return;
                }
                let (folder, below, is_over) = (folder.clone(), below.clone(), Arc::clone(&is_over));
                // A visitor who goes away early is no reason to stop.
                thread::spawn(move || {
                    connection.and_then(|connection| answer(&connection, &folder, &below, &is_over))
                });
            }
        };
        Ok(Site { address, ended, listener: Some(thread::spawn(listen)), prefix: prefix.to_string() })
    }

    /// The address of the folder, with its closing slash.
    pub fn address(&self) -> String {
        format!("http://{}{}", self.address, self.prefix)
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        self.ended.store(true, Ordering::SeqCst);
        // The listener looks up at the next connection.
        let _ = TcpStream::connect(self.address);
        if let Some(listener) = self.listener.take() {
            let _ = listener.join();
        }
    }
}

fn answer(connection: &TcpStream, folder: &Path, prefix: &str, is_over: &AtomicBool) -> io::Result<()> {
    connection.set_read_timeout(Some(PATIENCE))?;
    let mut request = BufReader::new(connection.take(LONGEST_REQUEST));
    let mut first = String::new();
    request.read_line(&mut first)?;
    // What else the browser says changes nothing here, but is read before it is answered.
    let mut line = String::new();
    while request.read_line(&mut line)? > 2 {
        line.clear();
    }
    if is_over.load(Ordering::SeqCst) {
        // A connection opened in advance, and used when the server had ended.
        return Ok(());
    }
    let mut words = first.split_ascii_whitespace();
    let (method, url) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    let found = if matches!(method, "GET" | "HEAD") { file(url, folder, prefix) } else { None };
    let (status, kind, body) = match &found {
        Some((path, body)) => {
            let kind = mime_guess::from_path(path).first_or_octet_stream();
            ("200 OK", kind.essence_str().to_string(), body.as_slice())
        }
        None => ("404 Not Found", "text/plain".to_string(), b"not found".as_slice()),
    };
    let mut connection = connection;
    write!(
        connection,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\n\
         Connection: close\r\n\r\n",
        body.len()
    )?;
    if method != "HEAD" {
        connection.write_all(body)?;
    }
    connection.flush()
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
