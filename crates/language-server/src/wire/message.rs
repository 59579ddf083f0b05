//! Bodies to messages.

use serde_json::{Map, Value};
use tower_lsp::jsonrpc::{Error, Id, Request, Response};

/// What a client sent.
#[derive(Debug)]
pub(crate) enum Message {
    /// A request, or a notification: then it has no id.
    Request(Request),
    /// The answer to a request of ours.
    Response(Response),
}

/// Reads a body.
///
/// # Errors
/// It is no message: the answer that says so.
pub(crate) fn read(body: &[u8]) -> Result<Message, Box<Response>> {
    let value = json(body).ok_or_else(|| refusal(Id::Null, Error::parse_error()))?;
    let Value::Object(mut object) = value else { return Err(refusal(Id::Null, Error::invalid_request())) };
    let id = object.get("id").and_then(|id| serde_json::from_value::<Id>(id.clone()).ok());
    let refused = || refusal(id.clone().unwrap_or_default(), Error::invalid_request());
    if object.get("jsonrpc").and_then(Value::as_str) != Some("2.0") {
        return Err(refused());
    }
    match object.remove("method") {
        Some(Value::String(method)) if id.is_some() || !object.contains_key("id") => {
            Ok(Message::Request(request(method, id, object)))
        }
        Some(_) => Err(refused()),
        None => match serde_json::from_value(Value::Object(object)) {
            Ok(response) => Ok(Message::Response(response)),
            Err(_) => Err(refused()),
        },
    }
}

fn request(method: String, id: Option<Id>, mut object: Map<String, Value>) -> Request {
    let mut request = Request::build(method);
    if let Some(params) = object.remove("params").filter(|params| !params.is_null()) {
        request = request.params(params);
    }
    match id {
        Some(id) => request.id(id).finish(),
        None => request.finish(),
    }
}

fn refusal(id: Id, error: Error) -> Box<Response> {
    Box::new(Response::from_error(id, error))
}

/// Editors that hold their text in UTF-16 may send half of a surrogate pair, which is no text. It is read as U+FFFD,
/// which is as long in every encoding, so that all places stay where they are.
fn json(body: &[u8]) -> Option<Value> {
    serde_json::from_slice(body).ok().or_else(|| serde_json::from_slice(&without_lone_halves(body)).ok())
}

fn without_lone_halves(body: &[u8]) -> Vec<u8> {
    let mut out = body.to_vec();
    let mut at = 0;
    while at < out.len() {
        match escape(&out, at) {
            None if out[at] == b'\\' => at += 2,
            None => at += 1,
            Some(0xd800..=0xdbff) if matches!(escape(&out, at + 6), Some(0xdc00..=0xdfff)) => at += 12,
            Some(unit) => {
                if (0xd800..=0xdfff).contains(&unit) {
                    out[at + 2..at + 6].copy_from_slice(b"fffd");
                }
                at += 6;
            }
        }
    }
    out
}

/// The code unit of a `\uXXXX` at this place.
fn escape(body: &[u8], at: usize) -> Option<u16> {
    let escape = body.get(at..at + 6)?;
    let digits = escape.strip_prefix(b"\\u").filter(|digits| digits.iter().all(u8::is_ascii_hexdigit))?;
    u16::from_str_radix(str::from_utf8(digits).ok()?, 16).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn params(body: &str) -> Value {
        match read(body.as_bytes()) {
            Ok(Message::Request(request)) => request.params().cloned().unwrap_or_default(),
            other => panic!("{other:?}"),
        }
    }

    fn refused(body: &str) -> (Id, i64) {
        match read(body.as_bytes()) {
            Err(response) => (response.id().clone(), response.error().unwrap().code.code()),
            Ok(message) => panic!("{message:?}"),
        }
    }

    #[test]
    fn half_a_surrogate_pair_becomes_one_sign() {
        let text =
            r#"{"jsonrpc":"2.0","method":"m","params":["a\ud83db","\ude00","\ud83d\ude00","\\ud83d"]}"#;
        assert_eq!(params(text), serde_json::json!(["a\u{fffd}b", "\u{fffd}", "\u{1f600}", "\\ud83d"]));
    }

    #[test]
    fn what_is_no_message_is_refused_with_its_id_if_it_has_one() {
        assert_eq!(refused("{"), (Id::Null, -32700));
        assert_eq!(refused("[]"), (Id::Null, -32600));
        assert_eq!(refused(r#"{"jsonrpc":"2.0","method":7,"id":3}"#), (Id::Number(3), -32600));
        assert_eq!(refused(r#"{"method":"m","id":"x"}"#), (Id::String("x".into()), -32600));
        assert_eq!(refused(r#"{"jsonrpc":"2.0","method":"m","id":{}}"#), (Id::Null, -32600));
        assert_eq!(refused(r#"{"jsonrpc":"2.0"}"#), (Id::Null, -32600));
    }
}
