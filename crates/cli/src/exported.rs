//! All that was reckoned of a band, as JSON. Its form is `shared/schemas/band-1.schema.json`.

use crate::outcome::Spots;
use knotwright_band::orders::one_then;
use knotwright_band::{Layout, Piece};
use knotwright_checker::{Part, Pattern, Source};
use knotwright_maker::free_of_each;
use knotwright_maker::rounded;
use knotwright_maker::{Reckoning, colors_after};
use serde::{Serialize, Serializer};
use std::sync::Arc;

#[derive(Serialize)]
pub(crate) struct Exported<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    threads: Vec<Thread<'a>>,
    strands: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    opening: Option<Tied<'a>>,
    knots: Knots<'a>,
    order: Vec<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    closing: Option<Tied<'a>>,
    closes: Closes,
    #[serde(rename = "use")]
    uses: Vec<StrandUse<'a>>,
    rows: u64,
    length_mm: Option<f64>,
    sets: Option<u64>,
}

#[derive(Serialize)]
struct Thread<'a> {
    name: &'a str,
    color: String,
    label: Option<&'a str>,
}

#[derive(Serialize)]
struct Tied<'a> {
    knots: Knots<'a>,
    order: Vec<usize>,
}

#[derive(Serialize)]
struct Closes {
    colors_after: Option<u64>,
    strands_after: Option<u64>,
}

#[derive(Serialize)]
struct StrandUse<'a> {
    strand: usize,
    color: &'a str,
    working: u64,
    base: u64,
    idle_rows: u64,
    length_mm: Option<f64>,
}

#[derive(Serialize)]
struct Knot<'a> {
    row: u32,
    gap: usize,
    kind: &'static str,
    working: usize,
    base: usize,
    color: &'a str,
    line: u32,
    column: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<&'a str>,
}

/// The knots of a part; made one by one as they are written, for there may be millions.
struct Knots<'a> {
    part: Option<&'a Part>,
    rows: Vec<u32>,
    /// By position as the part begins, the thread that hangs there.
    names: Vec<&'a str>,
    spots: Spots<'a>,
    path: &'a str,
}

impl<'a> Exported<'a> {
    /// What is exported of a checked pattern; `files`: its own first.
    pub(crate) fn new(files: &'a [Arc<Source>], pattern: &'a Pattern, reckoning: &Reckoning) -> Self {
        let parts = Parts { files, pattern };
        let begins = reckoning.opening.order();
        let ends = one_then(begins, &reckoning.sets.order_after(reckoning.times.unwrap_or(1)));
        let all: Vec<u8> = (0..pattern.strands.len()).map(|strand| strand as u8).collect();
        let tied = |part, piece: &Piece, begins: &[u8]| Tied {
            knots: parts.knots(part, piece, begins),
            order: from_one(piece.order()),
        };
        let closing = pattern.closing.as_ref();
        Self {
            schema: "knotwright/band/1",
            path: files.first().map_or("", |file| &file.path),
            title: &pattern.title,
            threads: pattern.threads.iter().map(thread).collect(),
            strands: parts.names(&all),
            opening: pattern.opening.as_ref().map(|part| tied(Some(part), &reckoning.opening, &all)),
            knots: parts.knots(pattern.set.as_ref(), reckoning.sets.set(0), begins),
            order: from_one(reckoning.sets.set(0).order()),
            closing: closing.map(|part| tied(Some(part), &reckoning.closing, &ends)),
            closes: closes(reckoning),
            uses: parts.uses(reckoning),
            rows: reckoning.rows,
            length_mm: reckoning.figures.map(|figures| rounded(reckoning.rows as f64 * figures.pitch)),
            sets: reckoning.times,
        }
    }
}

fn thread(thread: &knotwright_checker::PatternThread) -> Thread<'_> {
    let knotwright_color::Rgb { red, green, blue } = thread.color;
    let color = format!("#{red:02x}{green:02x}{blue:02x}");
    Thread { name: &thread.name, color, label: thread.label.as_deref() }
}

/// After a run-in nothing is ever again as it was at the start.
fn closes(reckoning: &Reckoning) -> Closes {
    let repeats = reckoning.repeats.filter(|repeats| repeats.run_in == 0);
    Closes { colors_after: repeats.map(|of| of.colors), strands_after: repeats.map(|of| of.strands) }
}

struct Parts<'a> {
    files: &'a [Arc<Source>],
    pattern: &'a Pattern,
}

impl<'a> Parts<'a> {
    /// By position in `order`, the name of the thread.
    fn names(&self, order: &[u8]) -> Vec<&'a str> {
        let threads = &self.pattern.threads;
        let name = |thread: u16| threads.get(usize::from(thread)).map_or("", |thread| thread.name.as_str());
        colors_after(self.pattern, order).into_iter().map(name).collect()
    }

    fn knots(&self, part: Option<&'a Part>, piece: &Piece, begins: &[u8]) -> Knots<'a> {
        let path = self.files.first().map_or("", |file| &*file.path);
        let rows = Layout::of(piece).rows;
        Knots { part, rows, names: self.names(begins), spots: Spots::new(self.files), path }
    }

    fn uses(&self, reckoning: &Reckoning) -> Vec<StrandUse<'a>> {
        let ends = free_of_each(&self.pattern.start, self.pattern.ends.unwrap_or_default(), false);
        let all: Vec<u8> = (0..reckoning.uses.len()).map(|strand| strand as u8).collect();
        let strands = reckoning.uses.iter().zip(self.names(&all)).enumerate();
        let one = |(strand, (of, color)): (usize, (&knotwright_band::Use, &'a str))| StrandUse {
            strand: strand + 1,
            color,
            working: of.working,
            base: of.base,
            idle_rows: of.idle_rows(reckoning.rows),
            length_mm: reckoning
                .figures
                .map(|figures| rounded(figures.length(*of, reckoning.rows, ends).likely)),
        };
        strands.map(one).collect()
    }
}

impl<'a> Knots<'a> {
    fn iter(&self) -> impl Iterator<Item = Knot<'a>> + '_ {
        let steps = self.part.into_iter().flat_map(|part| part.steps.iter().map(move |step| (part, step)));
        steps.flat_map(move |(part, step)| {
            let spot = self.spots.of(step.place);
            let path = Some(spot.path).filter(|path| *path != self.path);
            let knots =
                part.knots.iter().zip(&self.rows).skip(step.knots.start as usize).take(step.knots.len());
            knots.map(move |(knot, row)| Knot {
                row: row + 1,
                gap: usize::from(knot.gap) + 1,
                kind: knotwright_rewriter::word(knot.kind),
                working: usize::from(knot.working) + 1,
                base: usize::from(knot.base) + 1,
                color: self.names.get(usize::from(knot.working)).copied().unwrap_or_default(),
                line: spot.line,
                column: spot.column,
                path,
            })
        })
    }
}

impl Serialize for Knots<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.iter())
    }
}

fn from_one(order: &[u8]) -> Vec<usize> {
    order.iter().map(|strand| usize::from(*strand) + 1).collect()
}
