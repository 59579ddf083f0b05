//! Who may look, what the page may do, and that it ends with its owner.

use futures_util::StreamExt;
use knotwright_checker::{NoLibrary, Report, Settings, Source, check};
use knotwright_preview::{Owner, Preview, Recolor, Spot};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::sync::Arc;
use std::time::Duration;
use tokio_tungstenite::connect_async;
use tokio_tungstenite::tungstenite::client::IntoClientRequest;
use tokio_tungstenite::tungstenite::http::StatusCode;
use tokio_tungstenite::tungstenite::{Error, Message};

/// A pattern that is on no disk.
struct Shelf;

impl Owner for Shelf {
    fn look(&self) -> Option<Arc<Report>> {
        let source = Source::new(
            "reeds.knot",
            "pattern \"<b>Reeds</b>\"\nthread mud tan\nstrands 2 mud\nset {\n  take left 9: forward 1\n}\n",
        );
        Some(Arc::new(check(Arc::new(source), &NoLibrary, &Settings::default())))
    }

    fn show(&self, _: Spot) -> Option<String> {
        None
    }

    fn recolor(&self, _: Recolor) -> String {
        String::new()
    }
}

fn started() -> Preview {
    Preview::start(Arc::new(Shelf)).unwrap()
}

/// Host (with port) and path of an address.
fn split(address: &str) -> (&str, &str) {
    let rest = address.strip_prefix("http://").unwrap();
    rest.split_at(rest.find('/').unwrap())
}

/// The whole answer to a request with these headers.
fn asked(address: &str, path: &str, headers: &str) -> String {
    let (host, _) = split(address);
    let mut stream = TcpStream::connect(host).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
    write!(stream, "GET {path} HTTP/1.1\r\n{headers}Connection: close\r\n\r\n").unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    answer
}

#[test]
fn whoever_has_the_address_sees_the_page_and_nothing_else_runs_in_it() {
    let preview = started();
    let (host, path) = split(preview.address());
    let answer = asked(preview.address(), path, &format!("Host: {host}\r\n"));
    assert!(answer.starts_with("HTTP/1.1 200"), "{answer}");
    let policy = answer.lines().find_map(|line| line.strip_prefix("content-security-policy: ")).unwrap();
    assert!(policy.starts_with("default-src 'none'; script-src 'self'; style-src 'self';"), "{policy}");
    assert!(!policy.contains("unsafe"), "{policy}");
    for name in ["localhost", "[::1]"] {
        // Another port: an editor elsewhere may pass ours on under another.
        let answer = asked(preview.address(), path, &format!("Host: {name}:8080\r\n"));
        assert!(answer.starts_with("HTTP/1.1 200"), "{name}: {answer}");
    }
}

#[test]
fn a_wrong_secret_is_refused() {
    let preview = started();
    let (host, path) = split(preview.address());
    let other = path.replace(|sign: char| sign.is_ascii_digit(), "a");
    for path in ["/", "/line", "/main.js", &other, &format!("{other}line"), &path[..path.len() - 2]] {
        let answer = asked(preview.address(), path, &format!("Host: {host}\r\n"));
        assert!(answer.starts_with("HTTP/1.1 403"), "{path}: {answer}");
    }
    assert_ne!(started().address(), preview.address());
}

#[test]
fn a_name_that_was_made_to_point_here_is_refused() {
    let preview = started();
    let (host, path) = split(preview.address());
    let port = host.rsplit_once(':').unwrap().1;
    for name in [
        "evil.example",
        "localhost.evil.example",
        "127.0.0.1.evil.example",
        "evil.example@localhost",
        "0.0.0.0",
    ] {
        let answer = asked(preview.address(), path, &format!("Host: {name}:{port}\r\n"));
        assert!(answer.starts_with("HTTP/1.1 403"), "{name}: {answer}");
    }
    assert!(!asked(preview.address(), path, "").starts_with("HTTP/1.1 2"), "without a name");
}

/// Opens the line as a page from `origin` does.
async fn line(
    address: &str,
    origin: Option<&str>,
) -> Result<impl StreamExt<Item = Result<Message, Error>> + use<>, Error> {
    let mut request = format!("{}line", address.replace("http://", "ws://")).into_client_request()?;
    if let Some(origin) = origin {
        request.headers_mut().insert("Origin", origin.parse().unwrap());
    }
    Ok(connect_async(request).await?.0)
}

fn refused<T>(opened: Result<T, Error>) -> bool {
    matches!(opened, Err(Error::Http(response)) if response.status() == StatusCode::FORBIDDEN)
}

#[tokio::test]
async fn the_line_is_for_our_own_page() {
    let preview = started();
    let (host, _) = split(preview.address());
    for origin in ["http://evil.example", "null", "https://localhost", "http://localhost:1", "file://"] {
        assert!(refused(line(preview.address(), Some(origin)).await), "{origin}");
    }
    assert!(refused(line(preview.address(), None).await), "a page always says where it comes from");
    assert!(line(preview.address(), Some(&format!("http://{host}"))).await.is_ok());
}

#[tokio::test]
async fn it_ends_with_its_owner() {
    let preview = started();
    let address = preview.address().to_owned();
    let (host, _) = split(&address);
    let mut line = line(&address, Some(&format!("http://{host}"))).await.unwrap();
    let first = tokio::time::timeout(Duration::from_secs(20), line.next()).await.unwrap().unwrap().unwrap();
    assert!(first.to_text().unwrap().contains("\"kind\""), "{first:?}");
    drop(preview);
    let rest = tokio::time::timeout(Duration::from_secs(20), line.collect::<Vec<_>>()).await;
    assert!(rest.is_ok(), "the line is closed");
    assert!(TcpStream::connect(host).is_err(), "nobody listens any more");
}
