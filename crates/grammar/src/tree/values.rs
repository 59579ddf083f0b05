//! Texts, names, numbers and lengths, as written.

use crate::Span;
use smol_str::SmolStr;

/// A string: its place with the quotes, its value without.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where, quotes included.
    pub span: Span,
    /// What it says, escapes resolved.
    pub value: String,
}

/// What a text for people is in another language: `, de "Ebbe"`.
#[derive(Debug, Clone, PartialEq)]
pub struct Translation {
    /// The language, by its tag (BCP 47) as written.
    pub language: Name,
    /// What it is there.
    pub text: Text,
}

/// A name, in NFC.
#[derive(Debug, Clone, PartialEq)]
pub struct Name {
    /// Where.
    pub span: Span,
    /// The name in NFC; two names are one if these are equal.
    pub text: SmolStr,
}

/// A whole number as written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number {
    /// Where.
    pub span: Span,
    /// Its value, at most 1,000,000,000.
    pub value: u32,
}

/// `15 cm`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Length {
    /// Where, the unit included.
    pub span: Span,
    /// In millimeters.
    pub millimeters: f64,
    /// As written.
    pub unit: Unit,
}

/// The units of length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// `mm`
    Millimeter,
    /// `cm`
    Centimeter,
    /// `m`
    Meter,
    /// `in`: 25.4 mm
    Inch,
}

/// A number that may have to be computed.
#[derive(Debug, Clone, PartialEq)]
pub enum Expr {
    /// `4`
    Number(Number),
    /// `size`
    Name(Box<Name>),
    /// `size - 1`
    Operation(Box<Operation>),
    /// `( ... )`
    Group(Box<Group>),
}

/// A number in parentheses.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// With the parentheses.
    pub span: Span,
    /// What is between.
    pub inner: Expr,
}

/// Two numbers and a sign between.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// The left hand.
    pub left: Expr,
    /// The sign.
    pub operator: Operator,
    /// The right hand.
    pub right: Expr,
}

/// `*` binds more tightly than `+` and `-`; equals bind from the left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `*`
    Times,
}

impl Expr {
    /// Where it stands.
    pub fn span(&self) -> Span {
        match self {
            Self::Number(number) => number.span,
            Self::Name(name) => name.span,
            Self::Operation(operation) => operation.left.span().to(operation.right.span()),
            Self::Group(group) => group.span,
        }
    }
}

/// `A down to B [by S]`, `A up to B [by S]`
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// The first number.
    pub first: Expr,
    /// Which way.
    pub direction: Direction,
    /// The last number, reached or not passed.
    pub last: Expr,
    /// The step; 1 if not written.
    pub by: Option<Expr>,
}

/// Which way a series counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// `down to`
    Down,
    /// `up to`
    Up,
}
