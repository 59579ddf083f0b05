//! Words for what a parser could have read. They are made here, last; all other code compares the typed value.

use knotwright_grammar::{Expected, NameFor, TextFor};

/// What could have stood there, as it is read in a sentence: "a number", "`left`". More than one of it if any of them
/// could.
pub fn expected_words(expected: Expected) -> Vec<String> {
    let words: &[&str] = match expected {
        Expected::Word(word) => return vec![format!("`{word}`")],
        Expected::Statement => &["a statement"],
        Expected::StatementNoBrace => &["a statement (the `{` belongs at the end of the line above)"],
        Expected::LineEnd => &["the end of the line"],
        Expected::LineEndNoThen => &["the end of the line (a `take` with a series has no `then`)"],
        Expected::Space => &["a space (one on each side of the sign)"],
        Expected::SpaceBeforeComment => &["a space (the `--` of a comment has one before it)"],
        Expected::OpenBrace => &["`{`"],
        Expected::CloseBrace => &["`}`"],
        Expected::OpenParen => &["`(`"],
        Expected::CloseParen => &["`)`"],
        Expected::Comma => &["`,`"],
        Expected::Colon => &["`:`"],
        Expected::Pipe => &["`|`"],
        Expected::FirstEdition => &["`1`"],
        Expected::Number => &["a number"],
        Expected::NumberNoSeries => &["a plain number (a `take` has one series at most)"],
        Expected::NumberOfTurns => &["a plain number (such a knot stays on one neighbor)"],
        Expected::Length => &["a length (such as `12 cm`)"],
        Expected::Unit => &["`mm`", "`cm`", "`m`", "`in`"],
        Expected::Color => &["a color (such as `#1f5d50` or `goldenrod`)"],
        Expected::Kind => &["a kind of knot (such as `forward`)"],
        Expected::Language => &["a language (such as `de`)"],
        Expected::Text(purpose) => &[text(purpose)],
        Expected::Thread => &["a thread"],
        Expected::Strand => &["a thread", "a label"],
        Expected::Bead => &["the name of a bead"],
        Expected::Motif => &["the name of a motif"],
        Expected::NewName(purpose) => &[new_name(purpose)],
    };
    words.iter().map(|&word| word.to_owned()).collect()
}

fn text(purpose: TextFor) -> &'static str {
    match purpose {
        TextFor::Reading => "a text in quotes",
        TextFor::Title => "a title in quotes",
        TextFor::Label | TextFor::BeadLabel => "a label in quotes",
        TextFor::Colorway => "a name in quotes",
        TextFor::Path => "a path in quotes",
        TextFor::Letters => "letters in quotes",
    }
}

fn new_name(purpose: NameFor) -> &'static str {
    match purpose {
        NameFor::Thread => "a name for the thread",
        NameFor::Bead => "a name for the bead",
        NameFor::Motif => "a name for the motif",
        NameFor::Parameter => "a name for a parameter",
        NameFor::Counter => "a name that counts",
        NameFor::Label => "a label",
        NameFor::Letter => "a letter",
    }
}
