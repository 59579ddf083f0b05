//! Who may look, what the page may do, and that it ends with its owner.

use futures_util::StreamExt;
use knotwright_checker::{NoLibrary, Report, Settings, Source, check};
use knotwright_preview::{Destination, Owner, Preview, PreviewPlace, Recolor};
use std::io::{self, Read, Write};
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

    fn again(&self) -> String {
        "Put it back on the shelf.".to_owned()
    }

    fn show(&self, _: Destination) -> Option<String> {
        None
    }

    fn recolor(&self, _: Recolor) -> String {
        String::new()
    }
}

fn started() -> Preview {
    Preview::start(Arc::new(Shelf)).unwrap()
}

/// Whether something becomes true within a minute: what another thread does takes as long as the machine is busy.
fn soon(mut is_so: impl FnMut() -> bool) -> bool {
    (0..6000).any(|_| {
        std::thread::sleep(Duration::from_millis(10));
        is_so()
    })
}

/// A page that stayed open finds its picture again; whoever else has the port in the meantime keeps it.
#[test]
fn it_is_served_again_where_it_was() {
    let first = started();
    let (address, place) = (first.address().to_owned(), first.place().to_string());
    let again = || PreviewPlace::read(&place);
    assert_eq!(again().as_ref(), Some(first.place()));
    let beside = Preview::start_at(Arc::new(Shelf), again()).unwrap();
    assert_ne!(beside.address(), address, "the port is taken");
    drop(first);
    let back = soon(|| Preview::start_at(Arc::new(Shelf), again()).unwrap().address() == address);
    assert!(back, "the port is not free again");
}

#[test]
fn what_is_no_place_is_not_believed() {
    let secret = "0123456789abcdef0123456789abcdef";
    for text in [
        "",
        "80",
        &format!("0 {secret}"),
        &format!("70000 {secret}"),
        "8080 ../../x",
        &format!("80 {secret}0"),
    ] {
        assert_eq!(PreviewPlace::read(text), None, "{text}");
    }
}

/// Host (with port) and path of an address.
fn split(address: &str) -> (&str, &str) {
    let rest = address.strip_prefix("http://").unwrap();
    rest.split_at(rest.find('/').unwrap())
}

/// The whole answer to a request with these headers.
fn try_to_ask(address: &str, path: &str, headers: &str) -> io::Result<String> {
    let (host, _) = split(address);
    let mut stream = TcpStream::connect(host)?;
    stream.set_read_timeout(Some(Duration::from_secs(20)))?;
    write!(stream, "GET {path} HTTP/1.1\r\n{headers}Connection: close\r\n\r\n")?;
    let mut answer = String::new();
    stream.read_to_string(&mut answer)?;
    Ok(answer)
}

fn asked(address: &str, path: &str, headers: &str) -> String {
    try_to_ask(address, path, headers).unwrap()
}

/// Whether the page of this address, with its secret, is still there. That its port answers says nothing: the
/// page of another test may have been given the same port since.
fn is_served(address: &str) -> bool {
    let (host, path) = split(address);
    try_to_ask(address, path, &format!("Host: {host}\r\n"))
        .is_ok_and(|answer| answer.starts_with("HTTP/1.1 200"))
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
    assert!(is_served(&address));
    drop(preview);
    let rest = tokio::time::timeout(Duration::from_secs(20), line.collect::<Vec<_>>()).await;
    assert!(rest.is_ok(), "the line is closed");
    // Line and port are let go by two tasks, in either order.
    let ended = soon(|| !is_served(&address));
    assert!(ended, "nobody serves it any more");
}
