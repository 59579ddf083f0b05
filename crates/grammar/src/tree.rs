//! The syntax tree: what was written, with every place kept, before anything is looked up.

mod body;
mod chart;
mod children;
mod declared;
mod ends;
mod fields;
mod head;
mod names;
mod roles;
mod tying;
mod values;
mod walk;

pub use body::{
    BeadPlace, BothBlock, Expect, FaceChart, FaceSymmetry, ForBlock, Join, LeaderChart, Meet, MirroredBlock,
    OnBlock, Remark, RepeatBlock, RowsChart, SectionBlock, Work,
};
pub use chart::{Chart, ChartRow, FaceKey, Letters, Mark, Sign};
pub use children::{Child, Due, Gives, Meaning};
pub use declared::{Declaration, Declared, Said, Zone};
pub use ends::{
    BeginBlock, ClosingKnot, EndBead, FinishBlock, LoopPiece, PlainKnot, Plait, Slide, SplitBlock, Tassel,
    Twist, Wrap,
};
pub(crate) use fields::Field;
pub use head::{
    About, Author, BandLength, Bead, BeadSize, ClosingBlock, ColorChanges, ColorwayBlock, EndLength,
    GaugeBlock, Import, License, List, ListItem, ListShape, Motif, OpeningBlock, Pairs, SetBlock, SetCount,
    Start, Strands, Swatch, Thread, Title, WrittenShade,
};
pub use names::{NameVisitor, visit_names};
pub use tying::{Counting, Extent, Goal, GoalPlace, KnotKind, Range, Run, StrandBy, StrandRef, Take, Then};
pub use values::{
    Direction, Expr, Group, Length, Name, Number, Operation, Operator, Series, Text, Translation, Unit,
};
pub use walk::Walk;

use crate::Span;
use crate::syntax::{Fault, In, written};
use declared::closed;

/// A whole file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tree {
    /// Head statements and `opening`, `set`, `closing`, in the order they stand.
    pub statements: Vec<Statement>,
}

/// One statement, blocks included.
#[derive(Debug, Clone, PartialEq)]
pub struct Statement {
    /// From the first word to the last byte of the statement, its block and `then` lines included.
    pub span: Span,
    /// From the first word to the end of its own line (or of its run-on), `{` included.
    pub head: Span,
    /// What it says.
    pub node: Node,
}

/// What a statement says. Which statements there are, the closed enums [`Head`], [`Body`] and [`EndPiece`] say: no code matches
/// them with a wildcard, so that a new statement does not compile until everyone has an answer to it. Who asks for one
/// statement only asks [`Statement::get`].
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// A statement at the top of a file. The lines of a colorway are of this kind too: they are `thread`s.
    Head(Head),
    /// A statement of `opening`, `set`, `closing`, a motif, or a block in them.
    Body(Body),
    /// A statement of `begin` and `finish`, and of a `split` in them.
    EndPiece(EndPiece),
    /// One line of a gauge. It begins with no word of its own.
    Swatch(Swatch),
    /// A statement that does not parse; the problem is in the list of problems. Positions are unknown after it.
    Broken(Broken),
}

closed! {
    /// The statements at the top of a file.
    pub enum Head {
        Pattern(Title),
        About(About),
        Author(Author),
        License(License),
        Use(Import),
        Thread(Thread),
        Bead(Bead),
        Colorway(ColorwayBlock),
        Strands(Strands),
        Start(Start),
        Gauge(GaugeBlock),
        Length(BandLength),
        Sets(SetCount),
        Ends(EndLength),
        Motif(Motif),
        Begin(BeginBlock),
        Finish(FinishBlock),
        Opening(OpeningBlock),
        Set(SetBlock),
        Closing(ClosingBlock),
    }
}

closed! {
    /// The statements of `opening`, `set`, `closing`, motifs, and all blocks in them.
    pub enum Body {
        Take(Take),
        On(OnBlock),
        Both(BothBlock),
        Mirrored(MirroredBlock),
        Work(Work),
        Repeat(RepeatBlock),
        For(ForBlock),
        Rows(RowsChart),
        Leader(LeaderChart),
        Section(SectionBlock),
        Note(Remark),
        Meet(Meet),
        Join(Join),
        Expect(Expect),
        Face(FaceChart),
        Bead(BeadPlace),
    }
}

closed! {
    /// The statements of `begin` and `finish`. Their words are words nowhere else.
    pub enum EndPiece {
        Knot(PlainKnot),
        Plait(Plait),
        Twist(Twist),
        Wrap(Wrap),
        Split(SplitBlock),
        Loop(LoopPiece),
        Tassel(Tassel),
        Closing(ClosingKnot),
        Slide(Slide),
        Bead(EndBead),
    }
}

impl Node {
    /// What its text is in other languages.
    pub fn translations(&self) -> &[Translation] {
        let title = self.get::<Title>().map(|title| &title.others);
        let about = || self.get::<About>().map(|about| &about.others);
        let thread = || self.get::<Thread>().map(|thread| &thread.others);
        let bead = || self.get::<Bead>().map(|bead| &bead.others);
        let section = || self.get::<SectionBlock>().map(|section| &section.others);
        let note = || self.get::<Remark>().map(|note| &note.others);
        let others = title.or_else(about).or_else(thread).or_else(bead).or_else(section).or_else(note);
        others.map_or(&[], Vec::as_slice)
    }
}

impl Statement {
    /// Whether it is a step: whether it can tie something, by itself or by what is in its block. A section does not
    /// count, as it only gives a heading to the steps in it.
    pub fn is_step(&self) -> bool {
        let Node::Body(body) = &self.node else { return false };
        match body {
            Body::Take(_)
            | Body::Meet(_)
            | Body::On(_)
            | Body::Both(_)
            | Body::Mirrored(_)
            | Body::Work(_)
            | Body::Repeat(_)
            | Body::For(_)
            | Body::Rows(_)
            | Body::Leader(_) => true,
            Body::Section(_)
            | Body::Note(_)
            | Body::Join(_)
            | Body::Expect(_)
            | Body::Face(_)
            | Body::Bead(_) => false,
        }
    }
}

/// Braces and what is between.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// The `{`.
    pub open: Span,
    /// The `}`; `None` if it is missing (the block then ends where the indentation says).
    pub close: Option<Span>,
    /// The statements within.
    pub statements: Vec<Statement>,
}

/// What does not parse.
#[derive(Debug, Clone, PartialEq)]
pub struct Broken {
    /// The block it opens, if its line ends in `{`.
    pub block: Option<Block>,
}
