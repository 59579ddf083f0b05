//! How a band begins and ends: what is made of the strands before the first knot and after the last.

use super::children::{Child, Due};
use super::declared::{Declaration, Declared, Zone, declare};
use super::fields::{Field, fields};
use super::{Block, Chart, Length, Name, Number, roles};
use crate::words::{Role, Word};

/// `begin { ... }`
#[derive(Debug, Clone, PartialEq)]
pub struct BeginBlock {
    /// What is made, from the tip to the band: only pieces of an end and what is broken belong here.
    pub block: Block,
}

declare! {
    Head BeginBlock "begin" {
        form: "begin { ... }",
        help: "What is made of the strands before the first knot.",
        begun: "begin {\n  $0\n}",
        stands: [Top],
        single: true,
        holds: Ends,
        made_of: { block: block() },
    }
}

/// `finish { ... }`
#[derive(Debug, Clone, PartialEq)]
pub struct FinishBlock {
    /// What is made, from the band to the tip: only pieces of an end and what is broken belong here.
    pub block: Block,
}

declare! {
    Head FinishBlock "finish" {
        form: "finish { ... }",
        help: "What is made of the strands after the last knot.",
        begun: "finish {\n  $0\n}",
        stands: [Top],
        single: true,
        holds: Ends,
        made_of: { block: block() },
    }
}

/// `knot`
#[derive(Debug, Clone, PartialEq)]
pub struct PlainKnot {}

declare! {
    EndPiece PlainKnot "knot" {
        form: "knot",
        help: "One overhand knot of all strands.",
        begun: "knot",
        stands: [Ends],
        made_of: {},
    }
}

/// `plait N for LENGTH`
#[derive(Debug, Clone, PartialEq)]
pub struct Plait {
    /// Of how many bundles.
    pub bundles: Number,
    /// How long it is.
    pub length: Length,
}

declare! {
    EndPiece Plait "plait" {
        form: "plait N for LENGTH",
        help: "A plait of N bundles, as even as they come.",
        begun: "plait ${1:3} for ${2:6} cm",
        stands: [Ends],
        made_of: { bundles: plain(), length: plain() },
    }
}

/// `twist for LENGTH`
#[derive(Debug, Clone, PartialEq)]
pub struct Twist {
    /// How long it is.
    pub length: Length,
}

declare! {
    EndPiece Twist "twist" {
        form: "twist for LENGTH",
        help: "A cord: two bundles, twisted around each other.",
        begun: "twist for ${1:6} cm",
        stands: [Ends],
        made_of: { length: plain() },
    }
}

/// `wrap THREAD N turns`
#[derive(Debug, Clone, PartialEq)]
pub struct Wrap {
    /// What it is wrapped with: a piece of its own.
    pub thread: Name,
    /// How often it goes around.
    pub turns: Number,
}

declare! {
    EndPiece Wrap "wrap" {
        form: "wrap THREAD N turns",
        help: "A thread of its own goes around all strands.",
        begun: "wrap ${1:thread} ${2:8} turns",
        stands: [Ends],
        made_of: { thread: calls(Due::Thread), turns: plain() },
    }
}

/// `split N { ... }`
#[derive(Debug, Clone, PartialEq)]
pub struct SplitBlock {
    /// Into how many parts.
    pub parts: Number,
    /// What is made of each.
    pub block: Block,
}

declare! {
    EndPiece SplitBlock "split" {
        form: "split N { ... }",
        help: "N parts, as even as they come; each is made like this.",
        begun: "split ${1:2} {\n  $0\n}",
        stands: [Ends],
        holds: Ends,
        made_of: { parts: plain(), block: block() },
    }
}

/// `loop LENGTH`
#[derive(Debug, Clone, PartialEq)]
pub struct LoopPiece {
    /// Once around it.
    pub length: Length,
}

declare! {
    EndPiece LoopPiece "loop" {
        form: "loop LENGTH",
        help: "A loop, measured once around.",
        begun: "loop ${1:2} cm",
        stands: [Ends],
        made_of: { length: plain() },
    }
}

/// `tassel LENGTH`
#[derive(Debug, Clone, PartialEq)]
pub struct Tassel {
    /// What hangs free.
    pub length: Length,
}

declare! {
    EndPiece Tassel "tassel" {
        form: "tassel LENGTH",
        help: "What hangs free.",
        begun: "tassel ${1:2} cm",
        stands: [Ends],
        made_of: { length: plain() },
    }
}

/// `bead NAME`
#[derive(Debug, Clone, PartialEq)]
pub struct EndBead {
    /// Which bead.
    pub bead: Name,
}

declare! {
    EndPiece EndBead "bead" {
        form: "bead NAME",
        help: "A bead on all strands.",
        begun: "bead ${1:bead}",
        stands: [Ends],
        made_of: { bead: calls(Due::Bead) },
    }
}

/// `closing knot`
#[derive(Debug, Clone, PartialEq)]
pub struct ClosingKnot {}

declare! {
    EndPiece ClosingKnot "closing" {
        form: "closing knot",
        help: "One knot ties both ends of the band together.",
        begun: "closing knot",
        stands: [Ends],
        made_of: {},
    }
}

/// `slide [THREAD] N turns`
#[derive(Debug, Clone, PartialEq)]
pub struct Slide {
    /// What it is wound of, a piece of its own; if not said, the thread of the first strand.
    pub thread: Option<Name>,
    /// How often it goes around both ends.
    pub turns: Number,
}

declare! {
    EndPiece Slide "slide" {
        form: "slide [THREAD] N turns",
        help: "A thread of its own goes around both ends and slides along them.",
        begun: "slide ${1:8} turns",
        stands: [Ends],
        made_of: { thread: promise(), turns: plain() },
    }
}
