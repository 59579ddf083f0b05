//! The smallest parsers: one token each.

use super::fault::Fault;
use super::token::{In, Tok};
use crate::tree::{Length, Name, Number, Text, Translation, Unit};
use crate::{Expected, ProblemKind, Span, TextFor, TokenKind, words};
use chumsky::prelude::*;
use smol_str::SmolStr;
use std::borrow::Cow;
use unicode_normalization::{UnicodeNormalization, is_nfc};

/// A parser of a part of one statement. All of them are values of nearly no size: building one costs nothing, so none
/// is kept. So that they stay so, a parser does not hold what it is to find but a function that says it (`|| "left"`).
pub(crate) trait Rule<'t, O, F: Fault<'t>>: Parser<'t, In<'t>, O, extra::Err<F>> + Copy {}

impl<'t, O, F: Fault<'t>, P: Parser<'t, In<'t>, O, extra::Err<F>> + Copy> Rule<'t, O, F> for P {}

/// Why a token will not do: something else was due that is asked for, or is not, or it is wrong in itself.
pub(crate) enum No {
    Due(Expected),
    Unasked,
    Wrong(ProblemKind),
}

/// One token that `read` accepts; `due` is what to ask for at the end of the statement.
pub(crate) fn token<'t, O, F: Fault<'t>, D: Into<Option<Expected>>>(
    due: impl Fn() -> D + Copy,
    read: impl Fn(&'t Tok<'t>) -> Result<O, No> + Copy,
) -> impl Rule<'t, O, F> {
    custom(move |input| {
        let at = *input.cursor().inner();
        match input.next_ref().map(read) {
            Some(Ok(value)) => Ok(value),
            Some(Err(No::Due(what))) => Err(F::due(at, what)),
            Some(Err(No::Unasked)) => Err(F::due(at, None)),
            Some(Err(No::Wrong(kind))) => Err(F::wrong(at, kind)),
            None => Err(F::due(at, due())),
        }
    })
}

/// This word of the notation, and no other.
pub(crate) fn word<'t, F: Fault<'t>>(text: impl Fn() -> &'static str + Copy) -> impl Rule<'t, Span, F> {
    let due = move || Expected::Word(text());
    token(due, move |tok| if tok.is(text()) { Ok(tok.span) } else { Err(No::Due(due())) })
}

/// One sign.
pub(crate) fn sign<'t, F: Fault<'t>>(
    sign: impl Fn() -> (TokenKind, Expected) + Copy,
) -> impl Rule<'t, Span, F> {
    let due = move || sign().1;
    token(due, move |tok| if tok.kind == sign().0 { Ok(tok.span) } else { Err(No::Due(due())) })
}

/// One sign, not asked for where it is missing.
pub(crate) fn perhaps<'t, F: Fault<'t>>(kind: impl Fn() -> TokenKind + Copy) -> impl Rule<'t, Span, F> {
    token(|| None, move |tok| if tok.kind == kind() { Ok(tok.span) } else { Err(No::Unasked) })
}

/// `,`, not asked for where it is missing.
pub(crate) fn comma<'t, F: Fault<'t>>() -> impl Rule<'t, Span, F> {
    perhaps(|| TokenKind::Comma)
}

/// `(` ... `)` around `inner`.
pub(crate) fn in_parentheses<'t, O, F: Fault<'t>>(inner: impl Rule<'t, O, F>) -> impl Rule<'t, O, F> {
    inner.delimited_by(
        sign(|| (TokenKind::OpenParen, Expected::OpenParen)),
        sign(|| (TokenKind::CloseParen, Expected::CloseParen)),
    )
}

/// A name where only a name will do: a reserved word is reported as such.
pub(crate) fn name<'t, F: Fault<'t>>(due: impl Fn() -> Expected + Copy) -> impl Rule<'t, Name, F> {
    token(due, move |tok| match named(tok) {
        Some(name) => Ok(name),
        None if tok.kind == TokenKind::Word => Err(No::Wrong(ProblemKind::ReservedName)),
        None => Err(No::Due(due())),
    })
}

/// A name where other words could stand too.
pub(crate) fn name_among_others<'t, F: Fault<'t>>(
    due: impl Fn() -> Expected + Copy,
) -> impl Rule<'t, Name, F> {
    token(due, move |tok| named(tok).ok_or_else(|| No::Due(due())))
}

/// A name of one letter.
pub(crate) fn letter<'t, F: Fault<'t>>(due: impl Fn() -> Expected + Copy) -> impl Rule<'t, Name, F> {
    let is_letter = |name: &Name| {
        let mut signs = name.text.chars();
        signs.next().is_some_and(char::is_alphabetic) && signs.next().is_none()
    };
    token(due, move |tok| named(tok).filter(is_letter).ok_or_else(|| No::Due(due())))
}

fn named(tok: &Tok) -> Option<Name> {
    let usable = tok.kind == TokenKind::Word && !words::is_reserved(tok.text);
    usable.then(|| Name { span: tok.span, text: normal(tok.text) })
}

/// The name in NFC.
fn normal(text: &str) -> SmolStr {
    if text.is_ascii() || is_nfc(text) { SmolStr::new(text) } else { text.nfc().collect() }
}

const LARGEST: u32 = 1_000_000_000;

/// A whole number.
pub(crate) fn number<'t, F: Fault<'t>>() -> impl Rule<'t, Number, F> {
    token(
        || Expected::Number,
        |tok| {
            if tok.kind != TokenKind::Number {
                return Err(No::Due(Expected::Number));
            }
            if tok.text.contains('.') {
                return Err(No::Wrong(ProblemKind::NotWhole));
            }
            match tok.text.parse() {
                Ok(value) if value <= LARGEST => Ok(Number { span: tok.span, value }),
                _ => Err(No::Wrong(ProblemKind::NumberTooLarge)),
            }
        },
    )
}

/// A number, whole or not, and a unit.
pub(crate) fn length<'t, F: Fault<'t>>() -> impl Rule<'t, Length, F> {
    amount().then(unit()).map(|((value, span), (unit, end))| Length {
        span: span.to(end),
        millimeters: millimeters(value, unit),
        unit,
    })
}

fn amount<'t, F: Fault<'t>>() -> impl Rule<'t, (f64, Span), F> {
    const DUE: Expected = Expected::Length;
    token(
        || DUE,
        |tok| match tok.kind {
            TokenKind::Number => match tok.text.parse() {
                Ok(value) if value <= f64::from(LARGEST) => Ok((value, tok.span)),
                _ => Err(No::Wrong(ProblemKind::NumberTooLarge)),
            },
            _ => Err(No::Due(DUE)),
        },
    )
}

fn unit<'t, F: Fault<'t>>() -> impl Rule<'t, (Unit, Span), F> {
    const DUE: Expected = Expected::Unit;
    token(
        || DUE,
        |tok| {
            let unit = match tok.text {
                "mm" => Unit::Millimeter,
                "cm" => Unit::Centimeter,
                "m" => Unit::Meter,
                "in" => Unit::Inch,
                _ => return Err(No::Due(DUE)),
            };
            Ok((unit, tok.span))
        },
    )
}

/// The international inch is 25.4 mm exactly (NIST SP 811, appendix B). It is multiplied as tenths, so that `6 in` is
/// 152.4 and not one bit less.
fn millimeters(value: f64, unit: Unit) -> f64 {
    match unit {
        Unit::Millimeter => value,
        Unit::Centimeter => value * 10.0,
        Unit::Meter => value * 1000.0,
        Unit::Inch => value * 254.0 / 10.0,
    }
}

/// A string.
pub(crate) fn text<'t, F: Fault<'t>>(due: impl Fn() -> Expected + Copy) -> impl Rule<'t, Text, F> {
    token(due, move |tok| match tok.kind {
        TokenKind::String => Ok(Text { span: tok.span, value: unescape(inside(tok.text)).into_owned() }),
        _ => Err(No::Due(due())),
    })
}

/// `, de "..."`, as often as one likes: the same in other languages. The checker looks at the tags.
pub(crate) fn translations<'t, F: Fault<'t>>(
    due: impl Fn() -> TextFor + Copy,
) -> impl Rule<'t, Vec<Translation>, F> {
    comma()
        .ignore_then(name(|| Expected::Language))
        .then(text(move || Expected::Text(due())))
        .map(|(language, text)| Translation { language, text })
        .repeated()
        .collect()
}

/// A thread's color, not looked up yet: `#1f5d50` or a name.
pub(crate) fn color<'t, F: Fault<'t>>() -> impl Rule<'t, Text, F> {
    const DUE: Expected = Expected::Color;
    token(
        || DUE,
        |tok| match tok.kind {
            TokenKind::Color if tok.text.bytes().skip(1).all(|byte| byte.is_ascii_hexdigit()) => {
                Ok(as_written(tok))
            }
            TokenKind::Word if !words::is_reserved(tok.text) => Ok(as_written(tok)),
            _ => Err(No::Due(DUE)),
        },
    )
}

fn as_written(tok: &Tok) -> Text {
    Text { span: tok.span, value: tok.text.to_owned() }
}

/// What is between the quotes.
pub(crate) fn inside(quoted: &str) -> &str {
    quoted.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).unwrap_or("")
}

/// `\"` and `\\` resolved; an unknown escape, reported elsewhere, stays as it is.
fn unescape(raw: &str) -> Cow<'_, str> {
    if !raw.contains('\\') {
        return raw.into();
    }
    let mut value = String::with_capacity(raw.len());
    let mut characters = raw.chars().peekable();
    while let Some(character) = characters.next() {
        match (character, characters.peek()) {
            ('\\', Some('"' | '\\')) => value.extend(characters.next()),
            _ => value.push(character),
        }
    }
    value.into()
}
