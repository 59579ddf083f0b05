//! What the statements at the top of a file say of threads, strands and sizes.

use super::{Expr, Length, Name, Number, Text};
use crate::Span;

/// `thread NAME COLOR ["label"]`
#[derive(Debug, Clone, PartialEq)]
pub struct Thread {
    /// Its name.
    pub name: Name,
    /// Its color as written, `#1f5d50`, `#fff` or a CSS name; looked up later.
    pub color: Text,
    /// What people call it.
    pub label: Option<Text>,
}

/// Who hangs where.
#[derive(Debug, Clone, PartialEq)]
pub enum Strands {
    /// `strands LIST`
    Across(List),
    /// `strands from left LIST, from right LIST`: each from its edge to the center.
    FromEdges {
        /// From the left edge inward.
        left: Vec<ListItem>,
        /// From the right edge inward.
        right: Vec<ListItem>,
    },
}

/// Strands by color, from left to right.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Where.
    pub span: Span,
    /// How it is put together.
    pub shape: ListShape,
}

/// How a list is put together. No part is empty.
#[derive(Debug, Clone, PartialEq)]
pub enum ListShape {
    /// `a 2 b c`
    Plain(Vec<ListItem>),
    /// `a b | c d`: a center mark; the halves must be equal in number.
    Halves(Vec<ListItem>, Vec<ListItem>),
    /// `a b | mirror`
    Mirror(Vec<ListItem>),
    /// `a b | c | mirror`: `c` is one strand alone in the middle.
    MirrorAround(Vec<ListItem>, ListItem),
}

/// `3 kelp`, `kelp` or `(size - 1) kelp`
#[derive(Debug, Clone, PartialEq)]
pub struct ListItem {
    /// How many, if written: a number, or an expression in parentheses.
    pub count: Option<Expr>,
    /// The thread, or a parameter that stands for one.
    pub thread: Name,
}

/// One line of a gauge.
#[derive(Debug, Clone, PartialEq)]
pub enum Swatch {
    /// `thickness LENGTH`
    Thickness(Length),
    /// `N knots use LENGTH`
    Knots(Number, Length),
    /// `N rows measure LENGTH`
    Rows(Number, Length),
}

/// How the strands hang at the start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Start {
    /// `start loose`
    Loose,
    /// `start folded pairs ...`
    Folded(Pairs),
    /// `start loop LENGTH pairs ...`
    Loop(Length, Pairs),
}

/// Which two strands are one thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pairs {
    /// 1 with 2, 3 with 4, ...
    SideBySide,
    /// 1 with n, 2 with n - 1, ...
    Mirrored,
}
