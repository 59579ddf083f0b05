//! The statements at the top of a file.

use super::atoms::{
    No, Rule, color, comma, in_parentheses, length, name, number, text, token, translations, word,
};
use super::fault::Fault;
use super::{Written, block, open};
use crate::tree::{
    About, Author, BandLength, Bead, BeadSize, ColorChanges, ColorwayBlock, EndLength, Import, License,
    Motif, Name, Number, Pairs, SetCount, Start, Strands, Swatch, Thread, Title, WrittenShade,
};
use crate::{Expected, NameFor, TextFor};
use chumsky::prelude::*;

/// `pattern "title" [, LANGUAGE "title"] [edition N]`
impl Written for Title {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        let edition = word(|| "edition").ignore_then(first_edition());
        text(|| Expected::Text(TextFor::Title))
            .then(translations(|| TextFor::Title))
            .then(edition.or_not())
            .map(|((title, others), edition)| Title { title, others, edition })
    }
}

/// The number of an edition; newer ones than this never come here.
fn first_edition<'t, F: Fault<'t>>() -> impl Rule<'t, Number, F> {
    token(
        || Expected::FirstEdition,
        |tok| match tok.text {
            "1" => Ok(Number { span: tok.span, value: 1 }),
            _ => Err(No::Due(Expected::FirstEdition)),
        },
    )
}

/// `about "..." [, LANGUAGE "..."]`
impl Written for About {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        text(|| Expected::Text(TextFor::Reading))
            .then(translations(|| TextFor::Reading))
            .map(|(text, others)| About { text, others })
    }
}

/// `author "..."`
impl Written for Author {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        text(|| Expected::Text(TextFor::Reading)).map(|text| Author { text })
    }
}

/// `license "..."`
impl Written for License {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        text(|| Expected::Text(TextFor::Reading)).map(|text| License { text })
    }
}

/// `thread NAME COLOR [LENGTH, COLOR LENGTH ...] ["label"] [, LANGUAGE "label"]`
impl Written for Thread {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::NewName(NameFor::Thread))
            .then(color())
            .then(changes())
            .then(text(|| Expected::Text(TextFor::Label)).or_not())
            .then(translations(|| TextFor::Label))
            .map(|((((name, color), changes), label), others)| Thread {
                name,
                color,
                changes,
                label: label.map(Box::new),
                others,
            })
    }
}

/// `bead NAME COLOR SIZE hole SIZE ["label"] [, LANGUAGE "label"]`
impl Written for Bead {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        let size = length().then_ignore(word(|| "hole")).then(length());
        name(|| Expected::NewName(NameFor::Bead))
            .then(color())
            .then(size.map(|(across, hole)| Box::new(BeadSize { across, hole })))
            .then(text(|| Expected::Text(TextFor::BeadLabel)).or_not())
            .then(translations(|| TextFor::BeadLabel))
            .map(|((((name, color), size), label), others)| Bead {
                name,
                color,
                size,
                label: label.map(Box::new),
                others,
            })
    }
}

/// ` [LENGTH], COLOR LENGTH ...`. After the comma, the label in another language may follow as well.
fn changes<'t, F: Fault<'t>>() -> impl Rule<'t, Option<Box<ColorChanges>>, F> {
    let shade = color().then(length()).map(|(color, length)| WrittenShade { color, length });
    let further = comma().ignore_then(shade).repeated().collect::<Vec<_>>();
    length().or_not().then(further).map(|(length, further)| {
        let is_written = length.is_some() || !further.is_empty();
        is_written.then(|| Box::new(ColorChanges { length, further }))
    })
}

/// `colorway "name" {`
impl Written for ColorwayBlock {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        text(|| Expected::Text(TextFor::Colorway))
            .then(open())
            .map(|(name, open)| ColorwayBlock { name, block: block(open) })
    }
}

/// `strands ...`
impl Written for Strands {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        super::list::strands()
    }
}

/// One line of a gauge.
pub(crate) fn swatch<'t, F: Fault<'t>>() -> impl Rule<'t, Swatch, F> {
    let knots = word(|| "knots").ignore_then(word(|| "use")).ignore_then(length());
    let rows = word(|| "rows").ignore_then(word(|| "measure")).ignore_then(length());
    choice((
        word(|| "thickness").ignore_then(length()).map(Swatch::Thickness),
        number().then(knots).map(|(count, length)| Swatch::Knots(count, length)),
        number().then(rows).map(|(count, length)| Swatch::Rows(count, length)),
        number().then_ignore(word(|| "tex")).map(Swatch::Density),
    ))
}

/// `length LENGTH`
impl Written for BandLength {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        length().map(|length| BandLength { length })
    }
}

/// `sets N`
impl Written for SetCount {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        number().map(|count| SetCount { count })
    }
}

/// `ends LENGTH`
impl Written for EndLength {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        length().map(|length| EndLength { length })
    }
}

/// `start loose`, `start folded pairs ...`, `start loop LENGTH pairs ...`
impl Written for Start {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        let folded = word(|| "folded").ignore_then(pairs()).map(Start::Folded);
        let looped = word(|| "loop").ignore_then(length()).then(pairs());
        choice((
            word(|| "loose").map(|_| Start::Loose),
            folded,
            looped.map(|(length, pairs)| Start::Loop(length, pairs)),
        ))
    }
}

fn pairs<'t, F: Fault<'t>>() -> impl Rule<'t, Pairs, F> {
    word(|| "pairs").ignore_then(choice((
        word(|| "side-by-side").map(|_| Pairs::SideBySide),
        word(|| "mirrored").map(|_| Pairs::Mirrored),
    )))
}

/// `use NAME, NAME from "path"`
impl Written for Import {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::Motif)
            .separated_by(comma())
            .at_least(1)
            .collect::<Vec<_>>()
            .then_ignore(word(|| "from"))
            .then(text(|| Expected::Text(TextFor::Path)))
            .map(|(names, path)| Import { names, path })
    }
}

/// `motif NAME(params) [on N] {`
impl Written for Motif {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        name(|| Expected::NewName(NameFor::Motif))
            .then(in_parentheses(params()))
            .then(word(|| "on").ignore_then(number()).or_not())
            .then(open())
            .map(|(((name, params), width), open)| Motif { name, params, width, block: block(open) })
    }
}

fn params<'t, F: Fault<'t>>() -> impl Rule<'t, Vec<Name>, F> {
    name(|| Expected::NewName(NameFor::Parameter)).separated_by(comma()).collect()
}
