//! LetterTrouble as it is found: typed values with places and numbers. The words are added in `rules/`, where every
//! kind of fact is answered without a wildcard, so that a new one does not compile until a rule speaks for it.
//!
//! Positions and strands in facts count from 1 in the range they are counted in, as a person counts them.

#![expect(missing_docs, reason = "the sentence over each variant explains its fields")]

use crate::{BeadInTheWay, EndsTrouble, Place};
use knotwright_grammar::tree::{Due, FaceSymmetry};
use knotwright_lettering::LetterTrouble;
use smol_str::SmolStr;

/// One trouble and its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact {
    /// Where it is said.
    pub place: Place,
    /// The `work` statements that led into the motif it is in, outermost first.
    pub through: Vec<Place>,
    /// Whether it is met in a mirror image: the left of the text is the right of the band there.
    pub mirrored: bool,
    /// What it is.
    pub kind: FactKind,
}

/// From which side a position is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// From the left.
    Left,
    /// From the right.
    Right,
}

/// Threads by position, from the left of a range. A name that is not known is empty.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ThreadOrders {
    /// As they were promised.
    pub promised: Vec<SmolStr>,
    /// As they hang.
    pub hung: Vec<SmolStr>,
    /// The strands that hang where others were promised.
    pub astray: Vec<Sighting>,
}

/// Where a strand is and how it came there.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighting {
    /// Its position from the left in the whole band, from 1.
    pub position: usize,
    /// Its thread.
    pub thread: SmolStr,
    /// The statement that last moved it; `None` if it hangs where it started.
    pub last_moved: Option<Place>,
}

/// Knots that show another color than a face promises, besides the first one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MoreKnots {
    /// How many there are.
    pub count: usize,
    /// How many knots the face has.
    pub of: usize,
    /// Where the next few are tied.
    pub places: Vec<Place>,
}

/// A name that stands for nothing where it is called first.
#[derive(Debug, Clone, PartialEq)]
pub struct UnknownName {
    /// What it must stand for.
    pub due: Due,
    /// The name.
    pub name: SmolStr,
    /// What was surely meant.
    pub nearest: Option<SmolStr>,
    /// Where it is called again.
    pub again: Vec<Place>,
    /// A name that is given and never called: one of the two may be what is misspelled.
    pub uncalled: Option<Uncalled>,
}

/// A name that is given and never called.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncalled {
    /// The name.
    pub name: SmolStr,
    /// Where it is given.
    pub place: Place,
    /// Whether it is like the one that is called; otherwise it is only the one that is left over.
    pub is_alike: bool,
}

/// Why a strand cannot be joined in one set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JoinSetTrouble {
    /// It is not joined in the set, but in the opening or the closing.
    NoSet,
    /// There is no set of that number.
    NotASet { number: i64 },
    /// No more sets are tied.
    Beyond { sets: u32 },
    /// It would go on with another thread.
    OtherThread,
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum FactKind {
    // The head
    /// The first statement is not `pattern` (the place is the first statement, or the empty file).
    NoPattern,
    /// A statement that may stand once stands again.
    Repeated { statement: &'static str, first: Place },
    /// A thread, motif, parameter or label has the name of another in its name space.
    NameTaken { name: SmolStr, first: Place },
    /// Neither `#rgb`, `#rrggbb` nor a CSS name.
    UnknownColor { written: String, nearest: Option<&'static str> },
    /// Something is wrong with how far a color of a thread goes.
    ColorLength(ColorLengthTrouble),
    /// There is something to tie, but no `strands`.
    NoStrands,
    /// There are `strands`, but nothing to tie.
    NothingTied,
    /// Fewer than 2 strands.
    TooFewStrands { count: usize },
    /// More than 200 strands.
    TooManyStrands { count: u64 },
    /// The halves at a `|` differ in number.
    UnequalHalves { left: usize, right: usize },
    /// A count of 0 in a list.
    CountOfZero,
    /// Both `length` and `sets`.
    LengthAndSets { first: Place },
    /// `length` without a `set`, `sets 0`, a length, gauge or number of rows or knots of zero.
    ZeroMeasure { what: &'static str },
    /// A thickness, use or measure that no thread has (a thickness above 20 mm, 10 knots in 1 m ...).
    ImplausibleMeasure { what: &'static str, millimeters: f64 },
    /// No thread weighs as much.
    ImplausibleDensity { tex: u32 },
    /// `start folded` or `loop` with an odd number of strands.
    OddPairs { strands: usize },
    /// Two strands that are said to be one thread have different threads.
    PairsDisagree { left: usize, right: usize, left_thread: SmolStr, right_thread: SmolStr },

    /// `start loop` says what `begin` is there for.
    LoopBesideBegin { begin: Place },
    /// `ends` says what is left free, and both ends say it themselves.
    EndsBesideBlocks { begin: Place, finish: Place },
    /// Something that cannot be made of an end.
    Ends(EndsTrouble),

    /// A hole that is as wide as the bead.
    BeadAllHole { across: f64, hole: f64 },
    /// A hole that these strands do not go through.
    BeadHole(BeadInTheWay),

    // Names
    /// A name that stands for nothing.
    UnknownName(UnknownName),
    /// A thread where a number is due.
    NotANumber { name: SmolStr, given: Option<Place> },
    /// A number where a thread is due.
    NotAThread { name: SmolStr, given: Option<Place> },
    /// Too few or too many arguments.
    ArgumentCount { motif: SmolStr, wanted: usize, given: usize, defined: Place },
    /// A motif works itself, by way of these.
    MotifWorksItself { motif: SmolStr, by_way_of: Vec<SmolStr> },
    /// Motifs worked in one another, deeper than can be followed (`deepest` works).
    WorkTooDeep { motif: SmolStr, deepest: usize },
    /// A motif of another file names a thread of its own file, which hangs in no pattern that works the motif: a
    /// thread comes in as a parameter.
    ThreadOfOtherFile { name: SmolStr, motif: SmolStr },
    /// A motif of another file names a bead of its own file, whose size this pattern does not say.
    BeadOfOtherFile { name: SmolStr, motif: SmolStr },
    /// A motif `on N` that is worked among `width` strands wherever it is worked.
    MotifMeantForOther { motif: SmolStr, wanted: usize, width: usize },
    /// A motif `on N` worked where there are not N strands.
    MotifDoesNotFit { motif: SmolStr, wanted: usize, width: usize, defined: Place },

    // Other files
    /// There is no such file.
    ImportMissing { path: String },
    /// The file lies outside the workspace.
    ImportOutside { path: String },
    /// The file cannot be read.
    ImportUnreadable { path: String, reason: String },
    /// Files use one another in a circle.
    ImportCircular {
        path: String,
        /// Where the other files of the circle use one another.
        others: Vec<Place>,
    },
    /// The file has no such motif.
    ImportLacks { path: String, motif: SmolStr, nearest: Option<SmolStr> },

    // Strands and places
    /// `left N`, `right N`, `to left N` outside 1..=width.
    PlaceNotThere { number: i64, side: Side, width: usize },
    /// `center left` or `meet center` in a range with an odd number of strands.
    NoMiddleTwo { width: usize },
    /// `center` in a range with an even number of strands.
    NoMiddleOne { width: usize },
    /// Fewer strands of a color than asked for.
    ColorNotThere { thread: SmolStr, number: i64, there: usize },
    /// A label's strand that hangs outside the range.
    LabelOutside { label: SmolStr, sighting: Sighting },
    /// A range that does not lie within the strands: wider than they are, or from 3 to 1.
    RangeNotThere { wanted: String, width: usize },
    /// A range of fewer than 2 strands.
    RangeTooNarrow { strands: i64 },
    /// `center N` that cannot lie in the middle: one of `n`, `width` is even, the other odd.
    RangeOffCenter { strands: usize, width: usize },
    /// `then`, or a series, after a strand named by color or label.
    NotByPlace { word: &'static str },

    /// Strands that are to go through one bead, and are no neighbors; positions from the left of the band.
    BeadStrandsApart { positions: Vec<usize> },

    // Tying
    /// The strand in hand is not of the promised color. `nearest`: where the nearest strand of that color hangs in
    /// the range, counted from the left of the band as `found` is.
    BrokenPromise { promised: SmolStr, found: Sighting, nearest: Option<usize> },
    /// A run goes on past the edge: `tied` of `wanted` could be tied. `is_computed`: the number does not stand there, it comes
    /// of names or of a series.
    PastEdge { wanted: u64, tied: u64, side: Side, is_computed: bool },
    /// A goal that lies the other way.
    WrongWay { at: usize, goal: usize },
    /// A base strand of another color than promised: the `nth` knot of the run.
    BaseIsOther { promised: SmolStr, found: Sighting, nth: u64 },
    /// `over COLOR` whose first neighbor is another, or `until COLOR` that begins at it. At least one knot is due.
    NothingToTie { word: &'static str, thread: SmolStr, found: Option<Sighting> },
    /// `until COLOR` that comes to the edge before it.
    UntilNever { thread: SmolStr },
    /// A count below 0.
    NegativeCount { value: i64 },
    /// `1 down to 4`, `4 up to 1`.
    SeriesAway { first: i64, last: i64, down: bool },
    /// `by 0` or less.
    StepNotPositive { value: i64 },
    /// A number that comes to more than 1,000,000,000.
    NumberTooLarge,
    /// `meet center` or `x` between two colors.
    TwoColors { left: Sighting, right: Sighting },
    /// A chart row of the wrong length.
    RowLength { marks: usize, wanted: usize, width: usize },
    /// `letters` that cannot be made of the strands that the leader crosses.
    CannotLetter { trouble: LetterTrouble },
    /// A `face` or an `expect face` that does not stand directly in an opening, a set or a closing.
    FaceElsewhere { word: &'static str },
    /// A letter of a face that stands for no thread, and where it stands again.
    FaceLetterUnknown { letter: char, again: Vec<Place> },
    /// There are other knots than in the face, which begins at `head`: how many of each. `mark`: which of the face is the
    /// first without its knot; `None` if a knot lies where the face has none.
    FaceKnots { wished: usize, tied: usize, mark: Option<Place>, head: Place },
    /// A knot shows another thread than the face (`mark`: where it says so) promises; `other`: the thread that it is tied
    /// over; `nth`: which of its step it is, from 0; `is_tied_once`: what is written there ties this knot and no other; `more`:
    /// the others of its part that do.
    FaceDiffers {
        wished: SmolStr,
        found: SmolStr,
        other: SmolStr,
        mark: Place,
        nth: u32,
        is_tied_once: bool,
        more: MoreKnots,
    },
    /// The face cannot be tied with these strands: these marks, at least, meet none of their color.
    FaceCannotBeTied { marks: Vec<Place>, are_fewest: bool },
    /// The face does not look the same as promised: that many knots are off.
    FaceUneven { symmetry: FaceSymmetry, off: usize },
    /// A strand that is joined again (where it was `first`; `None`: by the same statement, a set later) before it is tied.
    JoinedTwice { first: Option<Place> },
    /// A joined strand that has no knot after it.
    JoinWithoutKnot { position: usize },
    /// A set in which a strand cannot be joined.
    JoinSet(JoinSetTrouble),
    /// A leader that does not hang at an edge.
    LeaderNotAtEdge { position: usize, width: usize },
    /// `expect LIST` with more or fewer strands than the range.
    ExpectLength { listed: usize, width: usize },
    /// An `expect` that does not hold. `position` is the first that differs, from the left of the range. The threads by
    /// position, as promised and as they hang; both empty where nobody reads them.
    ExpectFails { position: usize, promised: SmolStr, found: Sighting, orders: ThreadOrders },
    /// `expect start` in a motif.
    ExpectStartInMotif,
    /// More than 10,000,000 knots in one opening, set or closing.
    TooManyKnots,
    /// Loops and motifs in it that run on, and tie next to nothing.
    TooManyPasses,
    /// More steps, headings and notes in it than there is room for.
    TooMuchMemory,
}

/// What is wrong with how far a color of a thread goes. `instead`: how far all its other colors go, in millimeters.
#[derive(Debug, Clone, PartialEq)]
pub enum ColorLengthTrouble {
    /// A length after the only color.
    Alone {
        /// From the end of the color to that of the length.
        after: Place,
    },
    /// No length.
    Missing {
        /// What would be alike.
        instead: Option<f64>,
    },
    /// A length of zero.
    Zero {
        /// What would be alike.
        instead: Option<f64>,
    },
    /// No thread is like that.
    Implausible {
        /// How far it goes.
        millimeters: f64,
    },
}
