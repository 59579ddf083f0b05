//! Text to tokens, without loss: every byte is in a token or is white space between two.
//!
//! White space is the space, the tab and one byte-order mark at the very start. A name follows Unicode
//! XID (UAX 31) with `-` inside: a `-` belongs to a name only between two characters of it, so `size-1`
//! is one name and `a--b` is a name, two signs and a name. `--` is a comment at a line's start or after
//! white space.

use crate::{Span, Token, TokenKind};
use std::ops::Range;
use unicode_ident::{is_xid_continue, is_xid_start};

/// The tokens of a text of at most `u32::MAX` bytes, in order.
pub fn lex(text: &str) -> Vec<Token> {
    // Hardly a text has shorter ones, with the white space between: a list that had to grow would be there twice.
    let mut tokens = Vec::with_capacity(text.len() / 3 + 1);
    let mut lexer = Lexer::new(text, 0);
    lexer.lex_to(text.len(), &mut tokens);
    tokens
}

/// The tokens of some lines of a text; `None` if those do not end where a token does.
pub(crate) fn lex_part(text: &str, lines: Range<usize>) -> Option<Vec<Token>> {
    let mut tokens = Vec::new();
    let mut lexer = Lexer::new(text, lines.start);
    lexer.lex_to(lines.end, &mut tokens);
    (lexer.at == lines.end).then_some(tokens)
}

struct Lexer<'t> {
    text: &'t str,
    bytes: &'t [u8],
    at: usize,
    /// The token before.
    previous: Span,
}

impl<'t> Lexer<'t> {
    /// Begins at the start of a line.
    fn new(text: &'t str, start: usize) -> Self {
        let at = if start == 0 && text.starts_with('\u{feff}') { 3 } else { start };
        Self { text, bytes: text.as_bytes(), at, previous: Span::default() }
    }

    /// Goes on to `end`, if a token ends there, or to the end of that token.
    fn lex_to(&mut self, end: usize, tokens: &mut Vec<Token>) {
        while self.at < end
            && let Some(token) = self.next()
        {
            self.previous = token.span;
            tokens.push(token);
        }
    }

    fn next(&mut self) -> Option<Token> {
        self.skip_while(|byte| matches!(byte, b' ' | b'\t'));
        let start = self.at;
        let first = self.peek(0)?;
        let kind = match first {
            b'a'..=b'z' | b'A'..=b'Z' => self.word(),
            b'0'..=b'9' => self.number(),
            b'\n' | b'\r' => self.newline(),
            b'"' => self.string(),
            b'#' => self.hash(),
            b'-' => self.dash(),
            _ => match single(first) {
                Some(kind) => self.skip(1, kind),
                None => self.other(),
            },
        };
        Some(Token { kind, span: Span::new(start, self.at) })
    }

    fn peek(&self, ahead: usize) -> Option<u8> {
        self.bytes.get(self.at + ahead).copied()
    }

    fn skip_while(&mut self, is_of_it: impl Fn(u8) -> bool) {
        self.at += self.bytes[self.at..].iter().take_while(|byte| is_of_it(**byte)).count();
    }

    fn skip(&mut self, bytes: usize, kind: TokenKind) -> TokenKind {
        self.at += bytes;
        kind
    }

    fn char_at(&self, at: usize) -> Option<char> {
        self.text.get(at..).and_then(|rest| rest.chars().next())
    }

    fn word(&mut self) -> TokenKind {
        loop {
            self.skip_while(is_ascii_name);
            match self.peek(0) {
                Some(b'-') if self.continues(self.at + 1) => self.at += 1,
                Some(0x80..) if self.continues(self.at) => self.at += self.char_len(),
                _ => return TokenKind::Word,
            }
        }
    }

    /// Whether a character that goes on with a name is at `at`.
    fn continues(&self, at: usize) -> bool {
        match self.bytes.get(at) {
            Some(byte) if byte.is_ascii() => is_ascii_name(*byte),
            _ => self.char_at(at).is_some_and(is_xid_continue),
        }
    }

    fn char_len(&self) -> usize {
        self.char_at(self.at).map_or(1, char::len_utf8)
    }

    fn number(&mut self) -> TokenKind {
        self.digits();
        if self.peek(0) == Some(b'.') && self.peek(1).is_some_and(|byte| byte.is_ascii_digit()) {
            self.at += 1;
            self.digits();
        }
        TokenKind::Number
    }

    fn digits(&mut self) {
        self.skip_while(|byte| byte.is_ascii_digit());
    }

    fn newline(&mut self) -> TokenKind {
        let both = self.peek(0) == Some(b'\r') && self.peek(1) == Some(b'\n');
        self.skip(if both { 2 } else { 1 }, TokenKind::Newline)
    }

    fn string(&mut self) -> TokenKind {
        let start = self.at;
        self.at += 1;
        loop {
            self.skip_while(|byte| !matches!(byte, b'"' | b'\\' | b'\n' | b'\r'));
            match self.peek(0) {
                Some(b'"') => return self.skip(1, TokenKind::String),
                Some(b'\\') if matches!(self.peek(1), None | Some(b'\n' | b'\r')) => self.at += 1,
                Some(b'\\') => self.at += 2,
                _ => return self.unclosed(start),
            }
        }
    }

    /// A string that is not closed takes the rest of its line. Where a title is due, a `{` at the end is left
    /// out: it still opens a block.
    fn unclosed(&mut self, start: usize) -> TokenKind {
        let mut rest = self.bytes[start..self.at].trim_ascii_end();
        if matches!(self.previous.of(self.text), "section" | "colorway") {
            rest = rest.strip_suffix(b"{").unwrap_or(rest).trim_ascii_end();
        }
        self.at = start + rest.len();
        TokenKind::Unknown
    }

    fn hash(&mut self) -> TokenKind {
        self.at += 1;
        if !self.peek(0).is_some_and(|byte| byte.is_ascii_hexdigit()) {
            return TokenKind::Mark;
        }
        self.skip_while(|byte| byte.is_ascii_alphanumeric());
        TokenKind::Color
    }

    fn dash(&mut self) -> TokenKind {
        let free = self.at == 0
            || matches!(self.bytes[self.at - 1], b' ' | b'\t' | b'\n' | b'\r')
            || (self.at == 3 && self.text.starts_with('\u{feff}'));
        if !free || self.peek(1) != Some(b'-') {
            return self.skip(1, TokenKind::Minus);
        }
        self.skip_while(|byte| !matches!(byte, b'\n' | b'\r'));
        TokenKind::Comment
    }

    /// A name that begins with a letter beyond ASCII, or a run of signs that the notation does not know.
    fn other(&mut self) -> TokenKind {
        if self.char_at(self.at).is_some_and(is_xid_start) {
            return self.word();
        }
        while self.is_unknown() {
            self.at += self.char_len();
        }
        TokenKind::Unknown
    }

    fn is_unknown(&self) -> bool {
        match self.char_at(self.at) {
            None | Some(' ' | '\t' | '\n' | '\r' | '"' | '#' | '-') => false,
            Some(c) if c.is_ascii() => {
                !c.is_ascii_alphanumeric() && u8::try_from(c).is_ok_and(|byte| single(byte).is_none())
            }
            Some(c) => !is_xid_start(c),
        }
    }
}

/// Whether an ASCII sign goes on with a name.
fn is_ascii_name(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte == b'_'
}

/// The tokens that are one sign each.
fn single(byte: u8) -> Option<TokenKind> {
    Some(match byte {
        b'{' => TokenKind::OpenBrace,
        b'}' => TokenKind::CloseBrace,
        b'(' => TokenKind::OpenParen,
        b')' => TokenKind::CloseParen,
        b',' => TokenKind::Comma,
        b':' => TokenKind::Colon,
        b'|' => TokenKind::Pipe,
        b'+' => TokenKind::Plus,
        b'*' => TokenKind::Star,
        b'\\' | b'/' | b'<' | b'>' | b'.' => TokenKind::Mark,
        _ => return None,
    })
}
