//! Tokens as `docs/grammar.ebnf` sees them: its four rules about lines, implemented independently.

use crate::earley::Symbol;
use crate::grammar::Part;
use knotwright_grammar::{Token, TokenKind, lex, words};

/// One word or sign of a sentence.
#[derive(Debug, Clone, PartialEq)]
pub struct Sign {
    pub kind: TokenKind,
    pub text: String,
}

/// The rules of which one sign is a whole sentence.
pub const WHOLE: [&str; 7] = ["Letter", "Name", "Whole", "Decimal", "HexColor", "String", "LineEnd"];

impl Symbol for Sign {
    fn fits(&self, part: &Part) -> bool {
        match part {
            Part::Literal(text) => self.kind != TokenKind::String && self.text == *text,
            Part::Rule(name) => match name.as_str() {
                // Hyphens and digits stand in words, too.
                "Letter" => self.kind == TokenKind::Word && is_letter(&self.text),
                "Name" => self.kind == TokenKind::Word && !words::RESERVED.contains(&self.text.as_str()),
                "Whole" => self.kind == TokenKind::Number && !self.text.contains('.'),
                "Decimal" => self.kind == TokenKind::Number && self.text.contains('.'),
                "HexColor" => self.kind == TokenKind::Color,
                "String" => self.kind == TokenKind::String,
                "LineEnd" => self.kind == TokenKind::Newline,
                _ => false,
            },
            _ => false,
        }
    }
}

fn is_letter(text: &str) -> bool {
    let mut letters = text.chars();
    letters.next().is_some_and(char::is_alphabetic) && letters.next().is_none()
}

/// The signs of a text, its lines put in order.
pub fn signs(text: &str) -> Vec<Sign> {
    let sign = |token: &Token| Sign { kind: token.kind, text: token.span.of(text).to_owned() };
    let all: Vec<Sign> =
        lex(text).iter().filter(|token| token.kind != TokenKind::Comment).map(sign).collect();
    let mut out: Vec<Sign> = Vec::new();
    let mut first_of_statement = None;
    let (mut in_chart, mut in_face) = (false, false);
    for (at, sign) in all.iter().enumerate() {
        let next = all[at..].iter().find(|next| next.kind != TokenKind::Newline);
        if sign.kind == TokenKind::Newline && !ends_line(out.last(), next, first_of_statement.as_deref()) {
            continue;
        }
        in_chart = match sign.kind {
            TokenKind::OpenBrace => matches!(first_of_statement.as_deref(), Some("rows" | "leader")),
            TokenKind::CloseBrace => false,
            _ => in_chart,
        };
        in_face = match sign.kind {
            TokenKind::OpenBrace => first_of_statement.as_deref() == Some("face"),
            TokenKind::CloseBrace => false,
            _ => in_face,
        };
        match sign.kind {
            TokenKind::Newline | TokenKind::OpenBrace | TokenKind::CloseBrace => first_of_statement = None,
            _ if first_of_statement.is_none() => first_of_statement = Some(sign.text.clone()),
            _ => {}
        }
        match sign.text.strip_prefix('x') {
            Some(rest) if in_chart && rest.bytes().all(|byte| byte == b'x') => {
                let one = Sign { kind: sign.kind, text: "x".to_owned() };
                out.extend(std::iter::repeat_n(one, sign.text.len()));
            }
            _ if in_face && sign.kind == TokenKind::Word => {
                out.extend(
                    sign.text.chars().map(|letter| Sign { kind: sign.kind, text: letter.to_string() }),
                );
            }
            _ => out.push(sign.clone()),
        }
    }
    out
}

fn ends_line(before: Option<&Sign>, next: Option<&Sign>, first: Option<&str>) -> bool {
    let (Some(before), Some(next)) = (before, next) else {
        return before.is_none_or(|sign| sign.kind != TokenKind::Newline);
    };
    match before.kind {
        TokenKind::Newline => false,
        TokenKind::Comma | TokenKind::Pipe => {
            next.kind == TokenKind::Word && words::find_statement(&next.text).is_some()
        }
        _ => next.text != "then" || first != Some("take"),
    }
}

/// The signs as text: a space between two, and lines broken where they may be.
pub fn text(bits: &[String], mut break_here: impl FnMut() -> bool) -> String {
    let mut out = String::new();
    let mut first = None;
    for (at, bit) in bits.iter().enumerate() {
        out.push_str(bit);
        let ends = bit.contains(['\n', '\r']) || bit == "{" || bit == "}";
        first = if ends { None } else { first.or(Some(bit.as_str())) };
        let next = bits.get(at + 1).map_or("", |next| next.as_str());
        let listed = matches!(bit.as_str(), "," | "|") && words::find_statement(next).is_none();
        let may_break = listed || (next == "then" && first == Some("take"));
        out.push_str(if may_break && break_here() { "  -- so\n\n    " } else { " " });
    }
    out
}
