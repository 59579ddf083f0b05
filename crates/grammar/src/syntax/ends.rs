//! The pieces of which the beginning and the end of a band are made.

use super::atoms::{Rule, length, name, name_among_others, number, word};
use super::fault::Fault;
use super::{Written, block, open};
use crate::Expected;
use crate::tree::{
    ClosingKnot, EndBead, LoopPiece, Number, PlainKnot, Plait, Slide, SplitBlock, Tassel, Twist, Wrap,
};
use chumsky::prelude::*;

/// `knot`
impl Written for PlainKnot {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        empty().map(|()| Self {})
    }
}

/// `plait N for LENGTH`
impl Written for Plait {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        number().then_ignore(word(|| "for")).then(length()).map(|(bundles, length)| Self { bundles, length })
    }
}

/// `twist for LENGTH`
impl Written for Twist {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        word(|| "for").ignore_then(length()).map(|length| Self { length })
    }
}

/// `wrap THREAD N turns`
impl Written for Wrap {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::Thread).then(turns()).map(|(thread, turns)| Self { thread, turns })
    }
}

/// `split N {`
impl Written for SplitBlock {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        number().then(open()).map(|(parts, open)| Self { parts, block: block(open) })
    }
}

/// `loop LENGTH`
impl Written for LoopPiece {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        length().map(|length| Self { length })
    }
}

/// `tassel LENGTH`
impl Written for Tassel {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        length().map(|length| Self { length })
    }
}

/// `bead NAME`
impl Written for EndBead {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::Bead).map(|bead| Self { bead })
    }
}

/// `closing knot`
impl Written for ClosingKnot {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        word(|| "knot").map(|_| Self {})
    }
}

/// `slide [THREAD] N turns`
impl Written for Slide {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name_among_others(|| Expected::Thread)
            .or_not()
            .then(turns())
            .map(|(thread, turns)| Self { thread, turns })
    }
}

fn turns<'t, F: Fault<'t>>() -> impl Rule<'t, Number, F> {
    number().then_ignore(word(|| "turns"))
}
