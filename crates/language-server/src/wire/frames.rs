//! Bytes to frames. Whatever comes, the next frame that is one is found again.

use knotwright_numbers::ToNumber;
use std::io;
use tokio::io::{AsyncBufRead, AsyncBufReadExt, AsyncReadExt};

/// A body larger than this is not read: no client sends one, and no pattern is half as large.
const LARGEST_BODY: usize = 256 << 20;
/// For at most this much is room made before it has arrived.
const LARGEST_TRUSTED: usize = 1 << 20;
/// A line longer than this is no header.
const LONGEST_LINE: u64 = 8 << 10;
const LENGTH: &[u8] = b"content-length:";

/// What came.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum WireFrame {
    /// The body of a frame.
    Body(Vec<u8>),
    /// Something that is no frame, and why.
    Garbage(&'static str),
}

/// Reads frames.
pub(crate) struct Frames<R> {
    input: R,
    line: Vec<u8>,
}

impl<R: AsyncBufRead + Unpin> Frames<R> {
    pub(crate) fn new(input: R) -> Self {
        Self { input, line: Vec::new() }
    }

    /// The next frame; `None` at the end of the input, also if that comes within a frame.
    pub(crate) async fn next(&mut self) -> io::Result<Option<WireFrame>> {
        let mut length = None;
        let mut garbage = false;
        loop {
            if !self.read_line().await? {
                return Ok(None);
            }
            match header(&self.line) {
                Header::Length(bytes) => length = Some(bytes),
                Header::Other => garbage |= length.is_none(),
                Header::BadLength => {
                    return Ok(Some(WireFrame::Garbage("the Content-Length is not a number of bytes")));
                }
                Header::End => match length {
                    Some(bytes) => return self.body(bytes).await,
                    None if garbage => return Ok(Some(WireFrame::Garbage("there is no Content-Length"))),
                    None => {}
                },
            }
        }
    }

    async fn read_line(&mut self) -> io::Result<bool> {
        self.line.clear();
        let mut limited = (&mut self.input).take(LONGEST_LINE);
        Ok(limited.read_until(b'\n', &mut self.line).await? > 0)
    }

    async fn body(&mut self, bytes: usize) -> io::Result<Option<WireFrame>> {
        let mut body = Vec::with_capacity(bytes.min(LARGEST_TRUSTED));
        let read = (&mut self.input).take(bytes.to_u64()).read_to_end(&mut body).await?;
        Ok((read == bytes).then_some(WireFrame::Body(body)))
    }
}

enum Header {
    Length(usize),
    BadLength,
    Other,
    End,
}

/// What a line of a header says. A length may come after the rest of a body that was longer than announced.
fn header(line: &[u8]) -> Header {
    let line = line.trim_ascii();
    if line.is_empty() {
        return Header::End;
    }
    let at = line.windows(LENGTH.len()).rposition(|part| part.eq_ignore_ascii_case(LENGTH));
    let Some(at) = at else { return Header::Other };
    let number = str::from_utf8(&line[at + LENGTH.len()..]).ok().map(str::trim);
    match number.and_then(|number| number.parse().ok()) {
        Some(bytes) if bytes <= LARGEST_BODY => Header::Length(bytes),
        _ => Header::BadLength,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn body(text: &str) -> WireFrame {
        WireFrame::Body(text.as_bytes().to_vec())
    }

    async fn all(input: &str) -> Vec<WireFrame> {
        let mut frames = Frames::new(input.as_bytes());
        let mut all = Vec::new();
        while let Some(frame) = frames.next().await.unwrap() {
            all.push(frame);
        }
        all
    }

    #[tokio::test]
    async fn headers_may_come_in_any_order_and_case() {
        let input = "Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length: 2\r\n\r\n{}\
                     CONTENT-LENGTH:3\nX-Own: 1\n\n[1]";
        assert_eq!(all(input).await, [body("{}"), body("[1]")]);
    }

    #[tokio::test]
    async fn after_garbage_the_next_frame_is_found() {
        let garbage = |why| WireFrame::Garbage(why);
        let input = "hello\r\n\r\nContent-Length: x\r\nContent-Length: 2\r\n\r\n{}";
        let (none, bad) = ("there is no Content-Length", "the Content-Length is not a number of bytes");
        assert_eq!(all(input).await, [garbage(none), garbage(bad), body("{}")]);
        let short = "Content-Length: 2\r\n\r\n{}{}Content-Length: 2\r\n\r\n[]";
        assert_eq!(all(short).await, [body("{}"), body("[]")]);
    }

    #[tokio::test]
    async fn a_length_beyond_all_reason_is_not_waited_for() {
        let input = "Content-Length: 99999999999\r\n\r\nContent-Length: 2\r\n\r\n{}";
        assert_eq!(all(input).await.last(), Some(&body("{}")));
    }

    #[tokio::test]
    async fn the_end_within_a_frame_is_the_end() {
        assert_eq!(all("Content-Length: 20\r\n\r\n{}").await, []);
        assert_eq!(all("Content-Len").await, []);
    }
}
