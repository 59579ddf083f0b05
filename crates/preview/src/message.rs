//! What goes over the line: what the page receives, and what it asks.

use crate::changes::PieceChange;
use knotwright_render::{ChartMark, ChartShape};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What the page receives.
#[derive(Debug, Serialize)]
#[serde(tag = "kind", rename_all = "camelCase")]
pub(crate) enum PageMessage {
    /// What the band is made of now.
    Band(Numbered<Box<BandMessage>>),
    /// How its threads are to be shown.
    Colors(Numbered<Colors>),
    /// How much thread to cut.
    Lengths(LengthsMessage),
    /// What is said of the newest text.
    Findings(Numbered<Findings>),
    /// The steps under the cursor.
    Cursor { steps: Vec<StepName> },
    /// How to start the picture again when whoever holds the text is gone.
    Home { again: String },
    /// A sentence that answers something.
    Said { text: String },
}

/// What the page may ask about, with the number of the look that it comes from: the page says that number again when it asks.
#[derive(Debug, Serialize)]
pub(crate) struct Numbered<T> {
    look: u64,
    #[serde(flatten)]
    told: T,
}

impl<T> Numbered<T> {
    pub(crate) fn new(look: u64, told: T) -> Self {
        Self { look, told }
    }
}

/// An opening, a set or a closing: `o`, `s`, `c`. Where strands are joined in it: `O`, `S`, `C`.
pub(crate) type PartLetter = char;

/// A step: of which kind of part, and which of its steps; or which of its joins.
pub(crate) type StepName = (PartLetter, u32);

/// A band. Knots are numbers, in pieces; only pieces that the page does not have are sent.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(crate) struct BandMessage {
    pub(crate) title: String,
    /// By starting position, the thread.
    pub(crate) strands: Vec<u16>,
    pub(crate) rows: u32,
    /// How often the set is tied here.
    pub(crate) sets: u64,
    pub(crate) parts: Vec<PartMessage>,
    pub(crate) pieces: Vec<PieceChange>,
    /// The beads, over all else.
    pub(crate) beads: Vec<BeadMessage>,
    /// What is done between the knots, in the order of tying.
    pub(crate) asides: Vec<AsideMessage>,
    /// The sentences that say what to do there, each of them once.
    pub(crate) sentences: Vec<String>,
    /// What surrounds the knots, if it is not as it was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) frame: Option<BandFrame>,
    /// The working chart, if it is asked for and not as it was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) chart: Option<ChartMessage>,
}

/// A bead in its place.
#[derive(Debug, PartialEq, Serialize)]
pub(crate) struct BeadMessage {
    /// Its middle: from the first position in positions, and from the line above the first row in rows.
    pub(crate) at: [f64; 2],
    /// Half of its size, in tenths of a millimeter.
    pub(crate) radius: f64,
    pub(crate) color: String,
    pub(crate) rim: String,
    /// How many knots are tied before it.
    pub(crate) after: u32,
    /// The part and the step in which it is threaded; those at the ends have none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) step: Option<[u32; 2]>,
}

/// A bead is threaded, or a strand goes on with a new piece of thread.
#[derive(Debug, PartialEq, Serialize)]
pub(crate) struct AsideMessage {
    /// The part in which it is done.
    pub(crate) part: u32,
    /// How many knots of that part are tied before it.
    pub(crate) after: u32,
    pub(crate) name: StepName,
    /// The number of the sentence that says what to do.
    pub(crate) says: usize,
    /// The positions from the first of these up to the other are taken for it.
    pub(crate) positions: [u8; 2],
    /// The thread that hangs there afterwards, if it is another one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) thread: Option<u16>,
}

/// A part in its place.
#[derive(Debug, Serialize)]
pub(crate) struct PartMessage {
    pub(crate) kind: PartLetter,
    /// Of sets, which: from 1.
    pub(crate) number: u64,
    /// The row of its first.
    pub(crate) row: u32,
    /// The name of its piece.
    pub(crate) piece: u32,
}

/// Measures, the strands above and below the knots, and what a knot looks like. In tenths of a millimeter.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct BandFrame {
    pub(crate) cell: [f64; 2],
    /// The middle of the first position, and the line one row above the first row.
    pub(crate) corner: [f64; 2],
    /// The size of the picture without any knots.
    pub(crate) size: [f64; 2],
    /// How far strands fade in from the top, and out towards the bottom.
    pub(crate) fade: [f64; 2],
    pub(crate) thickness: f64,
    /// The strands as they run where nothing is tied: the thread, and the line as in SVG. Those that join two strands
    /// come first; after them, by position, one a strand.
    pub(crate) cords: Vec<(u16, String)>,
    /// What is made of the strands above and below, in the order in which it is drawn; below as if nothing were tied.
    /// The thread, the line as in SVG, and whether it goes around others: then it is round at both ends.
    pub(crate) ends: [Vec<(u16, String, bool)>; 2],
    /// What holds a loop together: middle, half its size, thread.
    pub(crate) neck: Option<([f64; 2], [f64; 2], u16)>,
    /// By form: an SVG document with `{color}` and `{rim}`.
    pub(crate) stencils: Vec<String>,
    /// Half the size of a stencil.
    pub(crate) half: [f64; 2],
}

/// The working chart, in pixels from its upper left corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub(crate) struct ChartMessage {
    pub(crate) size: [f64; 2],
    pub(crate) cell: [f64; 2],
    /// Opening, sets that differ and closing, one under the other.
    pub(crate) blocks: Vec<ChartBlockMessage>,
    /// By part, the block that shows it.
    pub(crate) block_of: Vec<Option<u32>>,
    /// What is made of the strands above the blocks and below them: the thread, and the line as in SVG.
    pub(crate) ends: Vec<(u16, String, bool)>,
    /// How thick a strand is there.
    pub(crate) thickness: f64,
    pub(crate) marks: Vec<ChartMark>,
    pub(crate) shapes: ChartShapes,
}

/// What is drawn once for all parts that are tied just like it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct ChartBlockMessage {
    /// The first part that it shows.
    pub(crate) part: u32,
    /// By knot of that part, the middle of its ribbon.
    pub(crate) places: Vec<[f64; 2]>,
    /// The strands under the knots: the thread, and the line as in SVG.
    pub(crate) cords: Vec<(u16, String)>,
}

/// The shapes that a chart is made of.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct ChartShapes {
    /// By form.
    pub(crate) ribbons: Vec<ChartShape>,
    pub(crate) hanging: ChartShape,
    /// One that shows to the left, one that shows to the right.
    pub(crate) tags: [ChartShape; 2],
}

/// The threads as this page wants to see them.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub(crate) struct Colors {
    pub(crate) threads: Vec<ThreadMessage>,
    /// The further colors of threads that change color along their length; they are numbered on after the threads.
    pub(crate) shades: Vec<ShadeMessage>,
    /// The names of the colorways.
    pub(crate) colorways: Vec<String>,
}

/// A thread.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct ThreadMessage {
    pub(crate) name: String,
    /// On a chart.
    pub(crate) letter: char,
    /// Its color in the file.
    pub(crate) color: String,
    /// The color that is shown: perhaps tried, perhaps as other eyes see it.
    pub(crate) shown: String,
    /// Of its rim.
    pub(crate) rim: String,
    /// Of letters on it.
    pub(crate) ink: String,
    /// Whether another color is tried.
    pub(crate) tried: bool,
}

/// A further color of a thread.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct ShadeMessage {
    /// The number of its thread.
    pub(crate) of: u16,
    /// The color that is shown.
    pub(crate) shown: String,
    /// Of its rim.
    pub(crate) rim: String,
    /// Of letters on it.
    pub(crate) ink: String,
}

/// How much thread to cut, in the words of the page on thread.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct LengthsMessage {
    /// How long the band becomes and what that rests on, or why its thread cannot be measured: a sentence each.
    pub(crate) about: Vec<String>,
    /// By thread: its number, how many pieces of which length, how much of it in all.
    pub(crate) threads: Vec<(u16, String, String)>,
}

/// What is said of the newest text.
#[derive(Debug, Serialize)]
pub(crate) struct Findings {
    pub(crate) list: Vec<FindingMessage>,
    /// The first step that does not tie; everything from there on is of an older text.
    pub(crate) broken: Option<StepName>,
    /// Why there is no picture of a text without errors.
    pub(crate) trouble: Option<String>,
}

/// One finding.
#[derive(Debug, Serialize)]
pub(crate) struct FindingMessage {
    pub(crate) error: bool,
    pub(crate) rule: &'static str,
    pub(crate) message: String,
    pub(crate) help: Option<String>,
    /// The file, if it is not the pattern's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) file: Option<String>,
    /// As people count.
    pub(crate) line: u32,
}

/// What the page asks. Steps, findings and threads are those of a look that it was told of, which need not be the newest.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "camelCase")]
pub(crate) enum PageRequest {
    /// To be shown the band otherwise.
    Wish(ViewOptions),
    /// To be led to a step.
    Show { step: StepName, look: u64 },
    /// To be led to a finding.
    Finding { number: usize, look: u64 },
    /// That a tried color be written into the file.
    Write { thread: u16, look: u64 },
}

impl PageRequest {
    /// The look that it is about, if it is about one.
    pub(crate) fn look(&self) -> Option<u64> {
        match self {
            Self::Show { look, .. } | Self::Finding { look, .. } | Self::Write { look, .. } => Some(*look),
            Self::Wish(_) => None,
        }
    }
}

/// How a page wants to see the band.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub(crate) struct ViewOptions {
    /// How many sets; as many as the pattern says, or its thread is cut for, if it is not said.
    pub(crate) sets: Option<u32>,
    /// In the colors of which colorway.
    pub(crate) colorway: Option<String>,
    /// As which eyes see it.
    pub(crate) vision: Option<VisionChoice>,
    /// Whether it shows the working chart.
    pub(crate) chart: bool,
    /// By number of the thread, another color.
    pub(crate) tried: BTreeMap<String, String>,
}

/// Eyes that lack one kind of cone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum VisionChoice {
    Protan,
    Deutan,
    Tritan,
}
