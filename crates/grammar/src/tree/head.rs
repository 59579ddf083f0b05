//! What the statements at the top of a file say.

use super::children::{Child, Gives};
use super::declared::{Declaration, Declared, Zone, declare};
use super::fields::{Field, fields};
use super::{Block, Chart, Expr, Length, Name, Number, Text, Translation, roles};
use crate::Span;
use crate::words::{Role, Word};

/// `pattern "title" [, LANGUAGE "title"] [edition N]`
#[derive(Debug, Clone, PartialEq)]
pub struct Title {
    /// The title.
    pub title: Text,
    /// The title in other languages.
    pub others: Vec<Translation>,
    /// The edition of the notation, if given.
    pub edition: Option<Number>,
}

declare! {
    Head Title "pattern" {
        form: r#"pattern "TITLE" [, LANGUAGE "TITLE"] [edition N]"#,
        help: "Names the pattern; the first line of a file.",
        begun: r#"pattern "${1:title}""#,
        stands: [Top],
        single: true,
        made_of: { title: text(), others: translations(), edition: plain() },
    }
}

/// `about "..." [, LANGUAGE "..."]`
#[derive(Debug, Clone, PartialEq)]
pub struct About {
    /// What it says.
    pub text: Text,
    /// What it says in other languages.
    pub others: Vec<Translation>,
}

declare! {
    Head About "about" {
        form: r#"about "TEXT" [, LANGUAGE "TEXT"]"#,
        help: "A paragraph about the pattern.",
        begun: r#"about "$1""#,
        stands: [Top],
        made_of: { text: text(), others: translations() },
    }
}

/// `author "..."`
#[derive(Debug, Clone, PartialEq)]
pub struct Author {
    /// What it says.
    pub text: Text,
}

declare! {
    Head Author "author" {
        form: r#"author "TEXT""#,
        help: "Who made the pattern.",
        begun: r#"author "$1""#,
        stands: [Top],
        made_of: { text: text() },
    }
}

/// `license "..."`
#[derive(Debug, Clone, PartialEq)]
pub struct License {
    /// What it says.
    pub text: Text,
}

declare! {
    Head License "license" {
        form: r#"license "TEXT""#,
        help: "What others may do with the pattern.",
        begun: r#"license "$1""#,
        stands: [Top],
        single: true,
        made_of: { text: text() },
    }
}

/// `thread NAME COLOR [LENGTH, COLOR LENGTH ...] ["label"] [, LANGUAGE "label"]`
#[derive(Debug, Clone, PartialEq)]
pub struct Thread {
    /// Its name.
    pub name: Name,
    /// Its color as written, `#1f5d50`, `#fff` or a CSS name; looked up later. Of one that changes color, the first.
    pub color: Text,
    /// How its color changes along its length, if that is written; seldom, so kept apart.
    pub changes: Option<Box<ColorChanges>>,
    /// What people call it; seldom written, so kept apart.
    pub label: Option<Box<Text>>,
    /// What people call it in other languages.
    pub others: Vec<Translation>,
}

declare! {
    Head Thread "thread" {
        form: r#"thread NAME COLOR [LENGTH, COLOR LENGTH ...] ["LABEL"] [, LANGUAGE "LABEL"]"#,
        help: "A thread and its color, `#rrggbb` or a CSS name; or its colors along its length, over and over.",
        begun: "thread ${1:name} ${2:#808080}",
        stands: [Top, Colorway],
        made_of: {
            name: gives(Gives::Thread),
            color: plain(),
            changes: plain(),
            label: nickname(),
            others: translations(),
        },
    }
}

/// ` LENGTH, COLOR LENGTH ...`: how a thread goes on after the name of its first color.
#[derive(Debug, Clone, PartialEq)]
pub struct ColorChanges {
    /// How far the first color goes.
    pub length: Option<Length>,
    /// The colors that follow, before the first one comes again.
    pub further: Vec<WrittenShade>,
}

/// One color of a thread that changes color, and how far it goes.
#[derive(Debug, Clone, PartialEq)]
pub struct WrittenShade {
    /// The color as written.
    pub color: Text,
    /// How far it goes.
    pub length: Length,
}

impl Thread {
    /// Its colors as they are written, each with how far it goes if that is written.
    pub fn colors(&self) -> impl Iterator<Item = (&Text, Option<&Length>)> {
        let changes = self.changes.as_deref();
        let first = (&self.color, changes.and_then(|changes| changes.length.as_ref()));
        let further = changes.map_or(&[][..], |changes| &changes.further);
        std::iter::once(first).chain(further.iter().map(|shade| (&shade.color, Some(&shade.length))))
    }
}

/// `bead NAME COLOR SIZE hole SIZE ["label"] [, LANGUAGE "label"]`
#[derive(Debug, Clone, PartialEq)]
pub struct Bead {
    /// Its name.
    pub name: Name,
    /// Its color as written; looked up later.
    pub color: Text,
    /// How large it is.
    pub size: Box<BeadSize>,
    /// What people call it.
    pub label: Option<Box<Text>>,
    /// What people call it in other languages.
    pub others: Vec<Translation>,
}

declare! {
    Head Bead "bead" {
        form: r#"bead NAME COLOR SIZE hole SIZE ["LABEL"] [, LANGUAGE "LABEL"]"#,
        help: "A bead: its color, how large it is, and how wide its hole is.",
        begun: "bead ${1:name} ${2:#808080} ${3:4} mm hole ${4:1.5} mm",
        stands: [Top],
        made_of: {
            name: gives(Gives::Bead),
            color: plain(),
            size: plain(),
            label: nickname(),
            others: translations(),
        },
    }
}

/// How large a bead is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeadSize {
    /// From side to side, and from one end of its hole to the other.
    pub across: Length,
    /// How wide its hole is.
    pub hole: Length,
}

/// `colorway "name" { thread ... }`
#[derive(Debug, Clone, PartialEq)]
pub struct ColorwayBlock {
    /// Its name.
    pub name: Text,
    /// Its threads: only [`Thread`] and what is broken belong here.
    pub block: Block,
}

declare! {
    Head ColorwayBlock "colorway" {
        form: r#"colorway "NAME" { thread ... }"#,
        help: "The same pattern in other colors.",
        begun: "colorway \"${1:name}\" {\n  $0\n}",
        stands: [Top],
        holds: Colorway,
        made_of: { name: text(), block: block() },
    }
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

declare! {
    Head Strands "strands" {
        form: "strands LIST",
        help: "Who hangs where at the start, from left to right.",
        begun: "strands ${1:name}",
        stands: [Top],
        single: true,
    }
}

impl Strands {
    pub(crate) fn visit_children<'t>(&'t self, visit: &mut impl FnMut(Child<'t>)) {
        match self {
            Self::Across(list) => roles::list(list, visit),
            Self::FromEdges { left, right } => {
                roles::items(left, visit);
                roles::items(right, visit);
            }
        }
    }
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

/// `gauge { ... }`
#[derive(Debug, Clone, PartialEq)]
pub struct GaugeBlock {
    /// Its lines: only [`Swatch`]es and what is broken belong here.
    pub block: Block,
}

declare! {
    Head GaugeBlock "gauge" {
        form: "gauge { ... }",
        help: "How thick the thread is and how much the knots take up.",
        begun: "gauge {\n  thickness ${1:0.9} mm\n}",
        stands: [Top],
        single: true,
        holds: Gauge,
        made_of: { block: block() },
    }
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
    /// `N tex`
    Density(Number),
}

/// `length LENGTH`
#[derive(Debug, Clone, PartialEq)]
pub struct BandLength {
    /// How long the knotted part becomes.
    pub length: Length,
}

declare! {
    Head BandLength "length" {
        form: "length LENGTH",
        help: "How long the knotted part becomes.",
        begun: "length ${1:15} cm",
        stands: [Top],
        single: true,
        made_of: { length: plain() },
    }
}

/// `sets N`
#[derive(Debug, Clone, PartialEq)]
pub struct SetCount {
    /// How often the set is tied.
    pub count: Number,
}

declare! {
    Head SetCount "sets" {
        form: "sets N",
        help: "How often the set is tied.",
        begun: "sets ${1:8}",
        stands: [Top],
        single: true,
        made_of: { count: plain() },
    }
}

/// `ends LENGTH`
#[derive(Debug, Clone, PartialEq)]
pub struct EndLength {
    /// What is left free at each end.
    pub length: Length,
}

declare! {
    Head EndLength "ends" {
        form: "ends LENGTH",
        help: "What is left free at each end.",
        begun: "ends ${1:12} cm",
        stands: [Top],
        single: true,
        made_of: { length: plain() },
    }
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

declare! {
    Head Start "start" {
        form: "start loose | folded PAIRS | loop LENGTH PAIRS",
        help: "How the strands hang at the start.",
        begun: "start ${1:loose}",
        stands: [Top],
        single: true,
    }
}

impl Start {
    pub(crate) fn visit_children<'t>(&'t self, _: &mut impl FnMut(Child<'t>)) {}
}

/// Which two strands are one thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pairs {
    /// 1 with 2, 3 with 4, ...
    SideBySide,
    /// 1 with n, 2 with n - 1, ...
    Mirrored,
}

/// `use NAME, NAME from "path"`
#[derive(Debug, Clone, PartialEq)]
pub struct Import {
    /// The motifs, at least one.
    pub names: Vec<Name>,
    /// The file.
    pub path: Text,
}

declare! {
    Head Import "use" {
        form: r#"use NAME, NAME from "PATH""#,
        help: "Motifs of another file.",
        begun: r#"use ${1:motif} from "${2:path}""#,
        stands: [Top],
        made_of: { names: gives_each(Gives::Import), path: text() },
    }
}

/// `motif NAME(params) [on N] { }`
#[derive(Debug, Clone, PartialEq)]
pub struct Motif {
    /// Its name.
    pub name: Name,
    /// Its parameters; empty where the parentheses are.
    pub params: Vec<Name>,
    /// The width it is meant for.
    pub width: Option<Number>,
    /// What it ties.
    pub block: Block,
}

declare! {
    Head Motif "motif" {
        form: "motif NAME(PARAMETERS) [on N] { ... }",
        help: "A named piece, to be worked by name.",
        begun: "motif ${1:name}($2) {\n  $0\n}",
        stands: [Top],
        holds: Body,
        made_of: { name: gives(Gives::Motif), params: gives_each(Gives::Parameter), width: plain(), block: block() },
    }
}

/// `opening { }`
#[derive(Debug, Clone, PartialEq)]
pub struct OpeningBlock {
    /// What is tied.
    pub block: Block,
}

declare! {
    Head OpeningBlock "opening" {
        form: "opening { ... }",
        help: "Tied once, at the start.",
        begun: "opening {\n  $0\n}",
        stands: [Top],
        single: true,
        holds: Body,
        made_of: { block: block() },
    }
}

/// `set { }`
#[derive(Debug, Clone, PartialEq)]
pub struct SetBlock {
    /// What is tied.
    pub block: Block,
}

declare! {
    Head SetBlock "set" {
        form: "set { ... }",
        help: "Tied over and over.",
        begun: "set {\n  $0\n}",
        stands: [Top],
        single: true,
        holds: Body,
        made_of: { block: block() },
    }
}

/// `closing { }`
#[derive(Debug, Clone, PartialEq)]
pub struct ClosingBlock {
    /// What is tied.
    pub block: Block,
}

declare! {
    Head ClosingBlock "closing" {
        form: "closing { ... }",
        help: "Tied once, at the end.",
        begun: "closing {\n  $0\n}",
        stands: [Top],
        single: true,
        holds: Body,
        made_of: { block: block() },
    }
}
