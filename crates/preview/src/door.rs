//! Who may come in.
//!
//! The server listens on this machine only, but every page that is open in a browser here can try to talk to it. So:
//! the address holds a secret; the request must name this machine by one of its own names (another name that was made
//! to point here is a trick); and the line is opened only by a page that came from here.

use axum::extract::Request;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::fmt::Write;

/// A secret of 128 bits, in hexadecimal digits.
///
/// # Errors
/// The system gives no chance.
pub(crate) fn secret() -> std::io::Result<String> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes).map_err(std::io::Error::other)?;
    Ok(bytes.iter().fold(String::new(), |mut out, byte| {
        let _ = write!(out, "{byte:02x}");
        out
    }))
}

/// Lets a request in, or refuses it.
pub(crate) async fn guard(request: Request, next: Next) -> Response {
    let Some(host) = this_machine(request.headers()).map(str::to_owned) else {
        return (
            StatusCode::FORBIDDEN,
            "Open this page under the name of this computer: localhost or 127.0.0.1.",
        )
            .into_response();
    };
    if !comes_from_here(request.headers(), &host) {
        return (StatusCode::FORBIDDEN, "Pages from other sites get no answer.").into_response();
    }
    let mut response = next.run(request).await;
    close(response.headers_mut(), &host);
    response
}

/// The host that is asked, if it is one of this machine's own names. The port may be another: editors on other machines
/// pass ours on.
fn this_machine(headers: &HeaderMap) -> Option<&str> {
    let host = headers.get(header::HOST)?.to_str().ok()?;
    let (name, port) = host.rsplit_once(':').filter(|(_, port)| !port.ends_with(']')).unwrap_or((host, "80"));
    let is_ours = matches!(name, "127.0.0.1" | "localhost" | "[::1]");
    (is_ours && port.parse::<u16>().is_ok()).then_some(host)
}

/// Whether the page that asks, if it is a page, came from here. A line is opened by a page, and a page says so.
fn comes_from_here(headers: &HeaderMap, host: &str) -> bool {
    let opens_line = headers.contains_key(header::UPGRADE);
    match headers.get(header::ORIGIN) {
        Some(origin) => origin.as_bytes() == format!("http://{host}").as_bytes(),
        None => !opens_line,
    }
}

/// What the page may do: run our scripts, show our style, pictures that it made itself, and talk to us.
///
/// There is no `frame-ancestors`: the page is made to be framed by an editor, whose own pages have schemes and hosts of
/// all sorts. Whoever frames it must know the secret, and whoever knows the secret can read all of it anyway.
fn close(headers: &mut HeaderMap, host: &str) {
    let policy = format!(
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src blob: data:; connect-src 'self' ws://{host}; \
         base-uri 'none'; form-action 'none'"
    );
    if let Ok(policy) = HeaderValue::from_str(&policy) {
        headers.insert(header::CONTENT_SECURITY_POLICY, policy);
    }
    headers.insert(header::X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
}
