//! The words of the notation, from which completion, the editors' grammars and the docs draw. Those that begin statements
//! are declared next to the type of the statement.

use crate::tree::{Body, Declaration, EndPiece, Head, Zone};

/// One word of the notation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Word {
    /// As written.
    pub text: &'static str,
    /// What it is for.
    pub role: Role,
    /// How it is used, in the capitals of the notation's page.
    pub form: &'static str,
    /// One line of help.
    pub help: &'static str,
}

/// What a word is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// Begins a statement at the top of a file.
    Head,
    /// Begins a statement in `opening`, `set`, `closing` or a motif.
    Body,
    /// Begins a statement in `begin` or `finish`.
    EndPiece,
    /// A kind of knot. Reserved.
    Kind,
    /// Names a place, a direction or an extent. Reserved.
    Place,
    /// A word only within certain statements.
    Detail,
    /// A unit of length.
    Unit,
}

impl Role {
    /// Whether such a word begins a statement.
    pub fn begins_statement(self) -> bool {
        matches!(self, Self::Head | Self::Body | Self::EndPiece)
    }
}

const fn word(text: &'static str, role: Role, form: &'static str, help: &'static str) -> Word {
    Word { text, role, form, help }
}

/// The words that begin no statement, once for each of their roles. Some that do are among them, for what else they say.
const WITHIN: &[Word] = &[
    word("forward", Role::Kind, "forward EXTENT", "The left strand works; the two change places."),
    word("backward", Role::Kind, "backward EXTENT", "The right strand works; the two change places."),
    word(
        "forward-backward",
        Role::Kind,
        "forward-backward N",
        "The left strand works; each stays where it was.",
    ),
    word(
        "backward-forward",
        Role::Kind,
        "backward-forward N",
        "The right strand works; each stays where it was.",
    ),
    word("left", Role::Place, "left N", "The N-th from the left edge."),
    word("right", Role::Place, "right N", "The N-th from the right edge."),
    word("center", Role::Place, "center | center left | center right | center N", "The middle."),
    word("edge", Role::Place, "to edge", "The edge ahead of the strand in hand."),
    word("start", Role::Place, "expect start", "The order in which this part began."),
    word("from", Role::Place, "COLOR N from left | from right", "Counted from an edge."),
    word("mirror", Role::Place, "LIST | mirror", "The half before it, reflected."),
    word("over", Role::Place, "[N] over COLOR", "As long as the base strands are of this color."),
    word("until", Role::Place, "until COLOR", "Up to the next strand of this color."),
    word("to", Role::Place, "to PLACE | A to B | down to | up to", "Until the strand in hand hangs there."),
    word("by", Role::Place, "by S", "The step of a series."),
    word("inside", Role::Place, "on inside N", "All but N at each edge."),
    word("then", Role::Detail, "then RUNS", "The strand that hangs now where this `take` began."),
    word("as", Role::Detail, "as LABEL", "A label for the strand in hand."),
    word("down", Role::Detail, "A down to B [by S]", "A series that counts down."),
    word("up", Role::Detail, "A up to B [by S]", "A series that counts up."),
    word("of", Role::Detail, "COLOR N left of center", "Counted outward from the middle."),
    word(
        "offset",
        Role::Detail,
        "rows offset { ... }",
        "The chart begins with the knots between 2 and 3, 4 and 5, ...",
    ),
    word(
        "letters",
        Role::Detail,
        "letters \"TEXT\" [across] [height N]",
        "In `leader`: the rows that make letters.",
    ),
    word("across", Role::Detail, "letters \"TEXT\" across", "The letters lie across the band, upright."),
    word("height", Role::Detail, "letters \"TEXT\" height N", "How high capitals are, in knots."),
    word("mirrored", Role::Detail, "work NAME() mirrored | expect start mirrored", "The mirror image of it."),
    word("on", Role::Detail, "motif NAME() on N { ... }", "The width a motif is meant for."),
    word("edition", Role::Detail, "edition N", "The edition of the notation."),
    word("loose", Role::Detail, "start loose", "Every strand is a thread of its own."),
    word("turn", Role::Detail, "expect face turn", "The face looks the same upside down."),
    word("flip", Role::Detail, "expect face flip", "The upper half of the face mirrors the lower one."),
    word("folded", Role::Detail, "start folded pairs side-by-side | mirrored", "Threads are folded in two."),
    word(
        "loop",
        Role::Detail,
        "start loop LENGTH pairs side-by-side | mirrored",
        "Threads are folded and leave a loop.",
    ),
    word("pairs", Role::Detail, "pairs side-by-side | mirrored", "Which two strands are one thread."),
    word("side-by-side", Role::Detail, "pairs side-by-side", "1 with 2, 3 with 4, ..."),
    word("thickness", Role::Detail, "thickness LENGTH", "In a gauge: how thick the thread is."),
    word("knots", Role::Detail, "N knots use LENGTH", "In a gauge: how much thread knots use."),
    word("rows", Role::Detail, "N rows measure LENGTH", "In a gauge: how tall brick rows are."),
    word("use", Role::Detail, "N knots use LENGTH", "In a gauge: how much thread knots use."),
    word("measure", Role::Detail, "N rows measure LENGTH", "In a gauge: how tall brick rows are."),
    word("tex", Role::Detail, "N tex", "In a gauge: how heavy the thread is, in grams for a kilometer."),
    word("with", Role::Detail, "join STRAND with COLOR", "The new piece is of this thread."),
    word("turns", Role::Detail, "wrap THREAD N turns | slide N turns", "How often a thread goes around."),
    word("hole", Role::Detail, "bead NAME COLOR SIZE hole SIZE", "How wide the hole of a bead is."),
    word("mm", Role::Unit, "N mm", "Millimeters."),
    word("cm", Role::Unit, "N cm", "Centimeters."),
    word("m", Role::Unit, "N m", "Meters."),
    word("in", Role::Unit, "N in", "Inches of 25.4 mm."),
];

/// What words mean in a statement where that is not what they mean elsewhere, by the word that the statement begins with.
const WITHIN_STATEMENT: &[(&str, Word)] = &[
    (
        "meet",
        word(
            "center",
            Role::Place,
            "meet center",
            "Between the two middle strands, whose color is the same.",
        ),
    ),
    (
        "strands",
        word(
            "from",
            Role::Place,
            "strands from left LIST, from right LIST",
            "A list for each half, each from its edge to the middle.",
        ),
    ),
    (
        "strands",
        word("left", Role::Place, "from left LIST", "The left half, from the left edge to the middle."),
    ),
    (
        "strands",
        word("right", Role::Place, "from right LIST", "The right half, from the right edge to the middle."),
    ),
    (
        "use",
        word(
            "from",
            Role::Place,
            "use NAME, NAME from \"PATH\"",
            "The file that has these motifs, as seen from this one.",
        ),
    ),
    ("on", word("left", Role::Place, "on left N", "The N strands at the left edge.")),
    ("on", word("right", Role::Place, "on right N", "The N strands at the right edge.")),
    ("on", word("center", Role::Place, "on center N", "The N strands in the middle.")),
    ("on", word("to", Role::Place, "on A to B", "The strands from position A to position B.")),
    (
        "expect",
        word("start", Role::Place, "expect start [mirrored]", "As this opening, set or closing began."),
    ),
    ("bead", word("on", Role::Detail, "bead NAME on STRAND, STRAND", "The strands that go through it.")),
    ("plait", word("for", Role::Detail, "plait N for LENGTH", "How long the plait is.")),
    ("twist", word("for", Role::Detail, "twist for LENGTH", "How long the cord is.")),
    ("closing", word("knot", Role::Detail, "closing knot", "One knot ties both ends together.")),
    (
        "start",
        word("mirrored", Role::Detail, "pairs mirrored", "1 with the last, 2 with the last but one, ..."),
    ),
];

const COUNT: usize = Head::ALL.len() + Body::ALL.len() + EndPiece::ALL.len() + WITHIN.len();

const ALL: [Word; COUNT] = {
    let mut all = [WITHIN[0]; COUNT];
    let mut at = 0;
    while at < COUNT {
        let (body, ends) = (Head::ALL.len(), Head::ALL.len() + Body::ALL.len());
        all[at] = if at < body {
            Head::ALL[at].word
        } else if at < ends {
            Body::ALL[at - body].word
        } else if at < ends + EndPiece::ALL.len() {
            EndPiece::ALL[at - ends].word
        } else {
            WITHIN[at - ends - EndPiece::ALL.len()]
        };
        at += 1;
    }
    all
};

/// Every word of the notation, once for each of its roles: first those that begin statements.
pub const WORDS: &[Word] = &ALL;

/// A word in a statement that begins with the word `statement`: what it means there if that is special, or else what it
/// means in most places where it begins no statement.
pub fn find_within(text: &str, statement: &str) -> Option<&'static Word> {
    let own = WITHIN_STATEMENT.iter().find(|(begins, word)| *begins == statement && word.text == text);
    let entries = || WORDS.iter().filter(|word| word.text == text);
    let elsewhere = || entries().find(|word| !word.role.begins_statement());
    own.map(|(_, word)| word).or_else(elsewhere).or_else(|| entries().next())
}

/// The words that no thread, motif, parameter or label may be called. This list never grows.
pub const RESERVED: &[&str] = &[
    "left",
    "right",
    "center",
    "edge",
    "start",
    "from",
    "mirror",
    "over",
    "until",
    "to",
    "by",
    "inside",
    "forward",
    "backward",
    "forward-backward",
    "backward-forward",
];

/// Whether no thread, motif, parameter or label may be called so.
pub fn is_reserved(word: &str) -> bool {
    match word.len() {
        2 => matches!(word, "to" | "by"),
        4 => matches!(word, "left" | "edge" | "from" | "over"),
        5 => matches!(word, "right" | "start" | "until"),
        6 => matches!(word, "center" | "mirror" | "inside"),
        7 => word == "forward",
        8 => word == "backward",
        16 => matches!(word, "forward-backward" | "backward-forward"),
        _ => false,
    }
}

/// All statements, those at the top of a file first.
pub fn all_statements() -> impl Iterator<Item = &'static Declaration> {
    Head::ALL.iter().chain(Body::ALL).chain(EndPiece::ALL)
}

/// The statement that `word` begins, if it begins one. The words of `begin` and `finish` begin none: see [`find_in`].
pub fn find_statement(word: &str) -> Option<&'static Declaration> {
    Head::begun_by(word).or_else(|| Body::begun_by(word))
}

/// The statement of `begin` and `finish` that `word` begins there.
pub fn find_end_piece(word: &str) -> Option<&'static Declaration> {
    EndPiece::begun_by(word)
}

/// The statement that `word` begins in `zone`. A word may begin different ones in different places: `closing` begins a
/// knot in `finish` and a block at the top, and a `bead` is declared at the top and threaded elsewhere.
pub fn find_in(zone: Zone, word: &str) -> Option<&'static Declaration> {
    let named = || {
        let all = [Head::begun_by(word), Body::begun_by(word), EndPiece::begun_by(word)];
        all.into_iter().flatten()
    };
    let fitting = || named().find(|known| known.stands.contains(&zone));
    match zone {
        Zone::Any => named().find(|known| known.stands == [Zone::Body]).or_else(|| named().next()),
        // The words of the ends are words nowhere else.
        Zone::Ends => fitting().or_else(|| named().next()),
        _ => fitting().or_else(|| find_statement(word)),
    }
}
