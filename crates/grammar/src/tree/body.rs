//! What the statements of `opening`, `set`, `closing` and motifs say, all but `take`.

use super::children::{Child, Due, Gives, Meaning};
use super::declared::{Declaration, Declared, Zone, declare};
use super::fields::{Field, fields};
use super::{Block, Chart, Expr, FaceKey, List, Name, Range, Series, StrandRef, Text, Translation, roles};
use crate::Span;
use crate::words::{Role, Word};

/// `meet center`
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meet {}

declare! {
    Body Meet "meet" {
        form: "meet center",
        help: "One knot between the two middle strands of one color.",
        begun: "meet center",
        stands: [Body],
        made_of: {  },
    }
}

/// `join STRAND [with COLOR] [in set N]`
#[derive(Debug, Clone, PartialEq)]
pub struct Join {
    /// The strand that goes on with a new piece of thread.
    pub strand: StrandRef,
    /// The thread of the new piece, if it is another one.
    pub thread: Option<Name>,
    /// The only set in which it is joined, counted from 1.
    pub set: Option<Box<Expr>>,
}

declare! {
    Body Join "join" {
        form: "join STRAND [with COLOR] [in set N]",
        help: "The strand goes on with a new piece of thread.",
        begun: "join ${1:left 3}",
        stands: [Body],
        made_of: { strand: strand(), thread: promise(), set: number_if_said(Meaning::WhichSet) },
    }
}

/// `on RANGE { }`
#[derive(Debug, Clone, PartialEq)]
pub struct OnBlock {
    /// The strands that exist in the block.
    pub range: Range,
    /// The block.
    pub block: Block,
}

declare! {
    Body OnBlock "on" {
        form: "on RANGE { ... }",
        help: "Within the braces only these strands exist.",
        begun: "on ${1:left 4} {\n  $0\n}",
        stands: [Body],
        holds: Body,
        made_of: { range: range(), block: block() },
    }
}

/// `both { }`
#[derive(Debug, Clone, PartialEq)]
pub struct BothBlock {
    /// What is tied, and then its mirror image.
    pub block: Block,
}

declare! {
    Body BothBlock "both" {
        form: "both { ... }",
        help: "The body, then its mirror image.",
        begun: "both {\n  $0\n}",
        stands: [Body],
        holds: Body,
        made_of: { block: block() },
    }
}

/// `mirrored { }`
#[derive(Debug, Clone, PartialEq)]
pub struct MirroredBlock {
    /// What is tied in its mirror image.
    pub block: Block,
}

declare! {
    Body MirroredBlock "mirrored" {
        form: "mirrored { ... }",
        help: "The mirror image of the body.",
        begun: "mirrored {\n  $0\n}",
        stands: [Body],
        holds: Body,
        made_of: { block: block() },
    }
}

/// `work NAME(args) [mirrored]`
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    /// The motif.
    pub motif: Name,
    /// Its arguments: a number, or a name that is a thread or a number.
    pub args: Vec<Expr>,
    /// The word `mirrored`, if it is there.
    pub mirrored: Option<Span>,
}

declare! {
    Body Work "work" {
        form: "work NAME(ARGUMENTS) [mirrored]",
        help: "Work a motif.",
        begun: "work ${1:motif}($2)",
        stands: [Body],
        made_of: { motif: calls(Due::Motif), args: arguments(), mirrored: plain() },
    }
}

/// `repeat N { }`
#[derive(Debug, Clone, PartialEq)]
pub struct RepeatBlock {
    /// How often.
    pub times: Expr,
    /// The block.
    pub block: Block,
}

declare! {
    Body RepeatBlock "repeat" {
        form: "repeat N { ... }",
        help: "Over again, N times.",
        begun: "repeat ${1:2} {\n  $0\n}",
        stands: [Body],
        holds: Body,
        made_of: { times: number(Meaning::Times), block: block() },
    }
}

/// `for K A down to B [by S] { }`
#[derive(Debug, Clone, PartialEq)]
pub struct ForBlock {
    /// The counting name.
    pub variable: Name,
    /// Its values.
    pub series: Box<Series>,
    /// The block.
    pub block: Block,
}

declare! {
    Body ForBlock "for" {
        form: "for NAME A down to B [by S] { ... }",
        help: "Over again, with a number that counts.",
        begun: "for ${1:step} ${2:4} down to ${3:1} {\n  $0\n}",
        stands: [Body],
        holds: Body,
        made_of: { series: series(), variable: gives(Gives::Counter), block: block() },
    }
}

/// `rows [offset] { }`
#[derive(Debug, Clone, PartialEq)]
pub struct RowsChart {
    /// The word `offset`, if it is there.
    pub offset: Option<Span>,
    /// The lines of the chart, with the place of the closing brace.
    pub chart: Chart,
}

declare! {
    Body RowsChart "rows" {
        form: "rows [offset] { ... }",
        help: "A chart in bricks, one row a line.",
        begun: "rows {\n  $0\n}",
        stands: [Body],
        holds: Rows,
        made_of: { offset: plain(), chart: chart() },
    }
}

/// `face [offset] LETTER COLOR, ... { }`
#[derive(Debug, Clone, PartialEq)]
pub struct FaceChart {
    /// The word `offset`, if it is there.
    pub offset: Option<Span>,
    /// What its letters stand for.
    pub keys: Vec<FaceKey>,
    /// The lines of the chart, with the place of the closing brace.
    pub chart: Chart,
}

declare! {
    Body FaceChart "face" {
        form: "face [offset] LETTER COLOR, ... { ... }",
        help: "What is to be seen: a letter for each knot, in bricks.",
        begun: "face ${1:k} ${2:kelp} {\n  $0\n}",
        stands: [Body],
        holds: Face,
        made_of: { offset: plain(), keys: keys(), chart: chart() },
    }
}

/// `leader STRAND [(COLOR)] { }`
#[derive(Debug, Clone, PartialEq)]
pub struct LeaderChart {
    /// The strand that leads.
    pub strand: StrandRef,
    /// The promised color.
    pub promise: Option<Name>,
    /// The lines of the chart.
    pub chart: Chart,
}

declare! {
    Body LeaderChart "leader" {
        form: "leader STRAND [(COLOR)] { ... }",
        help: "A chart of rows tied to and fro with one strand.",
        begun: "leader ${1:left 1} {\n  $0\n}",
        stands: [Body],
        holds: Leader,
        made_of: { strand: strand(), promise: promise(), chart: chart() },
    }
}

/// `section "title" [, LANGUAGE "title"] { }`
#[derive(Debug, Clone, PartialEq)]
pub struct SectionBlock {
    /// The heading.
    pub title: Text,
    /// The heading in other languages.
    pub others: Vec<Translation>,
    /// The block.
    pub block: Block,
}

declare! {
    Body SectionBlock "section" {
        form: r#"section "TITLE" [, LANGUAGE "TITLE"] { ... }"#,
        help: "A heading in the written instructions.",
        begun: "section \"${1:title}\" {\n  $0\n}",
        stands: [Body],
        holds: Body,
        made_of: { title: text(), others: translations(), block: block() },
    }
}

/// `note "text" [, LANGUAGE "text"]`
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// What it says.
    pub text: Text,
    /// What it says in other languages.
    pub others: Vec<Translation>,
}

declare! {
    Body Remark "note" {
        form: r#"note "TEXT" [, LANGUAGE "TEXT"]"#,
        help: "A remark in the written instructions.",
        begun: r#"note "$1""#,
        stands: [Body],
        made_of: { text: text(), others: translations() },
    }
}

/// `bead NAME on STRAND, STRAND`
#[derive(Debug, Clone, PartialEq)]
pub struct BeadPlace {
    /// Which bead.
    pub bead: Name,
    /// The strands that go through it, at least one.
    pub strands: Vec<StrandRef>,
}

declare! {
    Body BeadPlace "bead" {
        form: "bead NAME on STRAND, STRAND",
        help: "A bead on a strand, or on neighbors that go through one hole, before the next knot there.",
        begun: "bead ${1:bead} on ${2:left 1}",
        stands: [Body],
        made_of: { bead: calls(Due::Bead), strands: strands() },
    }
}

/// What an `expect` promises.
#[derive(Debug, Clone, PartialEq)]
pub enum Expect {
    /// `expect LIST`
    List(List),
    /// `expect start [mirrored]`
    Start {
        /// The word `mirrored`, if it is there.
        mirrored: Option<Span>,
    },
    /// `expect face mirror`, `turn` or `flip`
    Face(FaceSymmetry),
}

/// How a face looks the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FaceSymmetry {
    /// `mirror`: its left half mirrors the right one.
    Mirror,
    /// `turn`: it looks the same upside down.
    Turn,
    /// `flip`: its upper half mirrors the lower one.
    Flip,
}

declare! {
    Body Expect "expect" {
        form: "expect LIST | start [mirrored] | face mirror | face turn | face flip",
        help: "The strands hang like this here; or the face looks the same in a mirror, upside down or from below.",
        begun: "expect ${1:start}",
        stands: [Body],
    }
}

impl Expect {
    pub(crate) fn visit_children<'t>(&'t self, visit: &mut impl FnMut(Child<'t>)) {
        match self {
            Self::List(list) => roles::list(list, visit),
            Self::Start { mirrored: _ } | Self::Face(_) => {}
        }
    }
}
