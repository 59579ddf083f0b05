//! The statements of `opening`, `set`, `closing` and motifs, all but `take`.

use super::atoms::{Rule, comma, in_parentheses, letter, name, number, text, translations, word};
use super::fault::Fault;
use super::list::list;
use super::number::{expr, series};
use super::strand::{promise, range, strand};
use super::{Written, block, chart, open};
use crate::tree::{
    BeadPlace, BeginBlock, BothBlock, ClosingBlock, Expect, Expr, FaceChart, FaceKey, FaceSymmetry,
    FinishBlock, ForBlock, GaugeBlock, Join, LeaderChart, Letters, Meet, MirroredBlock, OnBlock,
    OpeningBlock, Remark, RepeatBlock, RowsChart, SectionBlock, SetBlock, Work,
};
use crate::{Expected, NameFor, TextFor};
use chumsky::prelude::*;

/// Statements that are a word and a block.
macro_rules! plain_blocks {
    ($($type:ident),+) => {
        $(impl Written for $type {
            fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
                open().map(|open| Self { block: block(open) })
            }
        })+
    };
}

plain_blocks! { GaugeBlock, BeginBlock, FinishBlock, OpeningBlock, SetBlock, ClosingBlock, BothBlock, MirroredBlock }

/// `meet center`
impl Written for Meet {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        word(|| "center").map(|_| Meet {})
    }
}

/// `join STRAND [with COLOR] [in set N]`
impl Written for Join {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        strand()
            .then(word(|| "with").ignore_then(name(|| Expected::Thread)).or_not())
            .then(word(|| "in").ignore_then(word(|| "set")).ignore_then(expr()).or_not())
            .map(|((strand, thread), set)| Join { strand, thread, set: set.map(Box::new) })
    }
}

/// `on RANGE {`
impl Written for OnBlock {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        range().then(open()).map(|(range, open)| OnBlock { range, block: block(open) })
    }
}

/// `work NAME(args) [mirrored]`
impl Written for Work {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::Motif)
            .then(in_parentheses(args()))
            .then(word(|| "mirrored").or_not())
            .map(|((motif, args), mirrored)| Work { motif, args, mirrored })
    }
}

fn args<'t, F: Fault<'t>>() -> impl Rule<'t, Vec<Expr>, F> {
    expr().separated_by(comma()).collect()
}

/// `repeat N {`
impl Written for RepeatBlock {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        expr().then(open()).map(|(times, open)| RepeatBlock { times, block: block(open) })
    }
}

/// `for K A down to B [by S] {`
impl Written for ForBlock {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::NewName(NameFor::Counter)).then(series()).then(open()).map(
            |((variable, series), open)| ForBlock { variable, series: Box::new(series), block: block(open) },
        )
    }
}

/// `rows [offset] {`
impl Written for RowsChart {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        word(|| "offset").or_not().then(open()).map(|(offset, open)| RowsChart { offset, chart: chart(open) })
    }
}

/// `face [offset] LETTER COLOR, ... {`
impl Written for FaceChart {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        let key = letter(|| Expected::NewName(NameFor::Letter))
            .then(name(|| Expected::Thread))
            .map(|(letter, thread)| FaceKey { letter, thread });
        word(|| "offset")
            .or_not()
            .then(key.separated_by(comma()).collect())
            .then(open())
            .map(|((offset, keys), open)| FaceChart { offset, keys, chart: chart(open) })
    }
}

/// `leader STRAND [(COLOR)] {`
impl Written for LeaderChart {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        strand().then(promise().or_not()).then(open()).map(|((strand, promise), open)| LeaderChart {
            strand,
            promise,
            chart: chart(open),
        })
    }
}

/// `letters "text" [across] [height N]`
pub(super) fn letters<'t, F: Fault<'t>>() -> impl Rule<'t, Letters, F> {
    word(|| "letters")
        .ignore_then(text(|| Expected::Text(TextFor::Letters)))
        .then(word(|| "across").or_not())
        .then(word(|| "height").ignore_then(number()).or_not())
        .map(|((text, across), height)| Letters { text, across, height })
}

/// `section "title" [, LANGUAGE "title"] {`
impl Written for SectionBlock {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        text(|| Expected::Text(TextFor::Title))
            .then(translations(|| TextFor::Title))
            .then(open())
            .map(|((title, others), open)| SectionBlock { title, others, block: block(open) })
    }
}

/// `note "text" [, LANGUAGE "text"]`
impl Written for Remark {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        text(|| Expected::Text(TextFor::Reading))
            .then(translations(|| TextFor::Reading))
            .map(|(text, others)| Remark { text, others })
    }
}

/// `bead NAME on STRAND, STRAND`
impl Written for BeadPlace {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::Bead)
            .then_ignore(word(|| "on"))
            .then(strand().separated_by(comma()).at_least(1).collect())
            .map(|(bead, strands)| Self { bead, strands })
    }
}

/// `expect LIST`, `expect start [mirrored]`, `expect face mirror`, `turn` or `flip`
impl Written for Expect {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        let start = word(|| "start").ignore_then(word(|| "mirrored").or_not());
        let symmetry = choice((
            word(|| "mirror").to(FaceSymmetry::Mirror),
            word(|| "turn").to(FaceSymmetry::Turn),
            word(|| "flip").to(FaceSymmetry::Flip),
        ));
        // A thread may be called `face`, too.
        let face = word(|| "face").ignore_then(symmetry).map(Expect::Face);
        choice((start.map(|mirrored| Expect::Start { mirrored }), face, list().map(Expect::List)))
    }
}
