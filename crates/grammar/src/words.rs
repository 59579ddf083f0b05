//! The words of the notation: one table, from which completion, the editors' grammars and the docs draw.

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
    /// A kind of knot. Reserved.
    Kind,
    /// Names a place, a direction or an extent. Reserved.
    Place,
    /// A word only within certain statements.
    Detail,
    /// A unit of length.
    Unit,
}

const fn word(text: &'static str, role: Role, form: &'static str, help: &'static str) -> Word {
    Word { text, role, form, help }
}

/// Every word of the notation, once for each of its roles.
pub const WORDS: &[Word] = &[
    word(
        "pattern",
        Role::Head,
        r#"pattern "TITLE" [edition N]"#,
        "Names the pattern; the first line of a file.",
    ),
    word("about", Role::Head, r#"about "TEXT""#, "A paragraph about the pattern."),
    word("author", Role::Head, r#"author "TEXT""#, "Who made the pattern."),
    word("license", Role::Head, r#"license "TEXT""#, "What others may do with the pattern."),
    word(
        "thread",
        Role::Head,
        r#"thread NAME COLOR ["LABEL"]"#,
        "A thread and its color, `#rrggbb` or a CSS name.",
    ),
    word("colorway", Role::Head, r#"colorway "NAME" { thread ... }"#, "The same pattern in other colors."),
    word("strands", Role::Head, "strands LIST", "Who hangs where at the start, from left to right."),
    word("gauge", Role::Head, "gauge { ... }", "How thick the thread is and how much the knots take up."),
    word("length", Role::Head, "length LENGTH", "How long the knotted part becomes."),
    word("sets", Role::Head, "sets N", "How often the set is tied."),
    word("ends", Role::Head, "ends LENGTH", "What is left free at each end."),
    word(
        "start",
        Role::Head,
        "start loose | folded PAIRS | loop LENGTH PAIRS",
        "How the strands hang at the start.",
    ),
    word("use", Role::Head, r#"use NAME, NAME from "PATH""#, "Motifs of another file."),
    word(
        "motif",
        Role::Head,
        "motif NAME(PARAMETERS) [on N] { ... }",
        "A named piece, to be worked by name.",
    ),
    word("opening", Role::Head, "opening { ... }", "Tied once, at the start."),
    word("set", Role::Head, "set { ... }", "Tied over and over."),
    word("closing", Role::Head, "closing { ... }", "Tied once, at the end."),
    word("take", Role::Body, "take STRAND [(COLOR)] [as LABEL]: RUNS", "Take one strand in hand and tie."),
    word("meet", Role::Body, "meet center", "One knot between the two middle strands of one color."),
    word("on", Role::Body, "on RANGE { ... }", "Within the braces only these strands exist."),
    word("both", Role::Body, "both { ... }", "The body, then its mirror image."),
    word("mirrored", Role::Body, "mirrored { ... }", "The mirror image of the body."),
    word("work", Role::Body, "work NAME(ARGUMENTS) [mirrored]", "Work a motif."),
    word("repeat", Role::Body, "repeat N { ... }", "Over again, N times."),
    word("for", Role::Body, "for NAME A down to B [by S] { ... }", "Over again, with a number that counts."),
    word("rows", Role::Body, "rows [offset] { ... }", "A chart in bricks, one row a line."),
    word(
        "leader",
        Role::Body,
        "leader STRAND [(COLOR)] { ... }",
        "A chart of rows tied to and fro with one strand.",
    ),
    word("section", Role::Body, r#"section "TITLE" { ... }"#, "A heading in the written instructions."),
    word("note", Role::Body, r#"note "TEXT""#, "A remark in the written instructions."),
    word("expect", Role::Body, "expect LIST | start [mirrored]", "The strands hang like this here."),
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
    word(
        "from",
        Role::Place,
        "COLOR N from left | from right",
        "Counted from an edge; or where something comes from.",
    ),
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
    word("mirrored", Role::Detail, "work NAME() mirrored | expect start mirrored", "The mirror image of it."),
    word("on", Role::Detail, "motif NAME() on N { ... }", "The width a motif is meant for."),
    word("edition", Role::Detail, "edition N", "The edition of the notation."),
    word("loose", Role::Detail, "start loose", "Every strand is a thread of its own."),
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
    word("knots", Role::Detail, "N knots use LENGTH", "In a gauge: how much thread knots take up."),
    word("rows", Role::Detail, "N rows measure LENGTH", "In a gauge: how long brick rows are."),
    word("use", Role::Detail, "N knots use LENGTH", "In a gauge: how much thread knots take up."),
    word("measure", Role::Detail, "N rows measure LENGTH", "In a gauge: how long brick rows are."),
    word("mm", Role::Unit, "N mm", "Millimeters."),
    word("cm", Role::Unit, "N cm", "Centimeters."),
    word("m", Role::Unit, "N m", "Meters."),
    word("in", Role::Unit, "N in", "Inches of 25.4 mm."),
];

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

/// The words that begin statements, those at the top of a file first.
pub fn statements() -> impl Iterator<Item = &'static Word> {
    WORDS.iter().filter(|word| matches!(word.role, Role::Head | Role::Body))
}

/// The statement that `word` begins, if it begins one.
pub fn statement(word: &str) -> Option<&'static Word> {
    statements().find(|known| known.text == word)
}
