//! Everything computed about a band, as JSON. Its form is `shared/schemas/band-1.schema.json`.

use crate::ends::{ExportedPiece, bead_name, exported};
use crate::outcome::Spots;
use knotwright_band::beads::BeadAt;
use knotwright_band::{Join, Layout, Piece, ThreadWalk};
use knotwright_checker::{JoinedStrand, Part, PartKind, Pattern, PatternBead, Source};
use knotwright_designer::WishedKnot;
use knotwright_maker::{Held, USUAL_ENDS, WholeBand, count_beads, round_length, scripted_to_see};
use knotwright_numbers::ToNumber;
use knotwright_render::{Scene, list_colors};
use serde::{Serialize, Serializer};
use std::collections::BTreeMap;
use std::sync::Arc;

#[derive(Serialize)]
pub(crate) struct Exported<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    titles: BTreeMap<&'a str, &'a str>,
    threads: Vec<ExportedThread<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    beads: Vec<ExportedBead<'a>>,
    strands: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    begin: Option<Vec<ExportedPiece<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    opening: Option<ExportedTied<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    face: Option<ExportedFace<'a>>,
    knots: ExportedKnots<'a>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    threaded: Vec<ExportedThreading<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    joins: Vec<ExportedJoin<'a>>,
    order: Vec<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    closing: Option<ExportedTied<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    finish: Option<Vec<ExportedPiece<'a>>>,
    closes: Closes,
    #[serde(rename = "use")]
    uses: Vec<StrandUse<'a>>,
    rows: u64,
    length_mm: Option<f64>,
    sets: Option<u64>,
}

#[derive(Serialize)]
struct ExportedThread<'a> {
    name: &'a str,
    color: String,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    shades: Vec<ExportedShade>,
    label: Option<&'a str>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    labels: BTreeMap<&'a str, &'a str>,
}

/// One color of a thread that changes color.
#[derive(Serialize)]
struct ExportedShade {
    color: String,
    length_mm: f64,
}

#[derive(Serialize)]
struct ExportedBead<'a> {
    #[serde(flatten)]
    look: ExportedThread<'a>,
    size_mm: f64,
    hole_mm: f64,
    /// In the whole band; `None` if it is not known how often the set is tied.
    count: Option<u64>,
}

/// A bead on the strands of a part.
#[derive(Serialize)]
struct ExportedThreading<'a> {
    bead: &'a str,
    /// How many knots of the part are tied before it.
    after_knots: u32,
    /// The positions of its strands.
    positions: Vec<usize>,
    line: u32,
    column: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<&'a str>,
}

#[derive(Serialize)]
struct ExportedTied<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    face: Option<ExportedFace<'a>>,
    knots: ExportedKnots<'a>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    threaded: Vec<ExportedThreading<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    joins: Vec<ExportedJoin<'a>>,
    order: Vec<usize>,
}

/// A strand that goes on with a new piece of thread.
#[derive(Serialize)]
struct ExportedJoin<'a> {
    strand: usize,
    position: usize,
    /// How many knots of the part are tied before.
    after: u32,
    /// Of the new piece.
    color: &'a str,
    /// The only set in which it is joined.
    set: Option<u64>,
    line: u32,
    column: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<&'a str>,
}

/// What a part says is to be seen.
#[derive(Serialize)]
struct ExportedFace<'a> {
    /// Whether its steps show it; otherwise nothing ties it yet.
    tied: bool,
    rows: u32,
    knots: Vec<ExportedMark<'a>>,
}

#[derive(Serialize)]
struct ExportedMark<'a> {
    row: u32,
    gap: usize,
    /// `None`: whatever color.
    color: Option<&'a str>,
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
struct ExportedKnot<'a> {
    row: u32,
    gap: usize,
    kind: &'static str,
    working: usize,
    base: usize,
    color: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    shade: Option<usize>,
    line: u32,
    column: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<&'a str>,
}

/// The knots of a part; made one by one as they are written, for there may be millions.
struct ExportedKnots<'a> {
    part: Option<&'a Part>,
    rows: Vec<u32>,
    /// By position as the part begins, the thread that hangs there; where strands go on with other threads, by knot, the
    /// thread that is seen.
    names: Vec<&'a str>,
    is_by_knot: bool,
    /// By knot, which of the colors of its thread it shows, from 1; empty if no thread changes color.
    shades: Vec<Option<usize>>,
    spots: Spots<'a>,
    path: &'a str,
}

impl<'a> ExportedFace<'a> {
    fn of(pattern: &'a Pattern, kind: PartKind) -> Option<Self> {
        let face = pattern.face(kind)?;
        let name = |color: u16| pattern.threads.get(usize::from(color)).map(|thread| thread.name.as_str());
        let mark = |knot: &WishedKnot| ExportedMark {
            row: knot.row + 1,
            gap: usize::from(knot.gap) + 1,
            color: knot.color.and_then(name),
        };
        let knots = face.knots().iter().map(mark).collect();
        Some(Self { tied: !pattern.is_wish(kind), rows: face.rows(), knots })
    }
}

impl<'a> Exported<'a> {
    /// What is exported of a checked pattern; `files`: its own first.
    pub(crate) fn new(files: &'a [Arc<Source>], pattern: &'a Pattern, whole: &WholeBand) -> Self {
        let parts = ExportedParts { files, pattern, shades: shown_shades(pattern) };
        let begins = whole.opening.threads_after(&pattern.strands);
        let ends = whole.threads_after(pattern, whole.times.unwrap_or(1));
        let tied = |kind, part, piece: &Piece, begins: &[u16]| ExportedTied {
            face: ExportedFace::of(pattern, kind),
            knots: parts.knots(part, kind, piece, begins),
            threaded: parts.threaded(part),
            joins: parts.joins(part, piece, begins),
            order: from_one(piece.order()),
        };
        let made = |works: &Option<Vec<_>>| works.as_ref().map(|works| exported(works, pattern));
        let closing = pattern.closing.as_ref();
        Self {
            schema: "knotwright/band/1",
            path: files.first().map_or("", |file| &file.path),
            title: &pattern.title.text,
            titles: pattern.title.others.iter().collect(),
            threads: pattern.threads.iter().map(thread).collect(),
            beads: beads(pattern, whole),
            strands: parts.names(&pattern.strands),
            begin: made(&pattern.made.begin),
            opening: pattern
                .opening
                .as_ref()
                .map(|part| tied(PartKind::Opening, Some(part), &whole.opening, &pattern.strands)),
            face: ExportedFace::of(pattern, PartKind::Set),
            knots: parts.knots(pattern.set.as_ref(), PartKind::Set, whole.sets.set(0), &begins),
            threaded: parts.threaded(pattern.set.as_ref()),
            joins: parts.joins(pattern.set.as_ref(), whole.sets.set(0), &begins),
            order: from_one(whole.sets.set(0).order()),
            closing: closing.map(|part| tied(PartKind::Closing, Some(part), &whole.closing, &ends)),
            finish: made(&pattern.made.finish),
            closes: closes(whole),
            uses: parts.uses(whole),
            rows: whole.rows,
            length_mm: whole.figures.map(|figures| round_length(whole.rows.to_f64() * figures.pitch)),
            sets: whole.times,
        }
    }
}

fn thread(thread: &knotwright_checker::PatternThread) -> ExportedThread<'_> {
    let shade = |shade: &knotwright_checker::Shade| ExportedShade {
        color: shade.color.to_string(),
        length_mm: round_length(shade.length),
    };
    ExportedThread {
        name: &thread.name,
        color: thread.color.to_string(),
        shades: thread.shades.iter().map(shade).collect(),
        label: thread.label.as_deref(),
        labels: thread.labels.iter().collect(),
    }
}

/// The beads of a pattern, and how many of each the band has.
fn beads<'a>(pattern: &'a Pattern, whole: &WholeBand) -> Vec<ExportedBead<'a>> {
    let counts = whole.times.map(|times| count_beads(pattern, whole, times));
    let bead = |(number, bead): (usize, &'a PatternBead)| ExportedBead {
        look: thread(&bead.look),
        size_mm: round_length(bead.across),
        hole_mm: round_length(bead.hole),
        count: counts.as_ref().and_then(|counts| counts.get(number).copied()),
    };
    pattern.beads.iter().enumerate().map(bead).collect()
}

/// After a run-in nothing is ever again as it was at the start.
fn closes(whole: &WholeBand) -> Closes {
    let repeats = whole.repeats.filter(|repeats| repeats.run_in == 0);
    Closes { colors_after: repeats.map(|of| of.colors), strands_after: repeats.map(|of| of.strands) }
}

struct ExportedParts<'a> {
    files: &'a [Arc<Source>],
    pattern: &'a Pattern,
    shades: ShownShades,
}

/// By opening, first set and closing, and by knot, which of the colors of its thread is seen; none where it has but one.
type ShownShades = [Vec<Option<usize>>; 3];

fn shown_shades(pattern: &Pattern) -> ShownShades {
    let mut found = ShownShades::default();
    let changes = pattern.threads.iter().any(|thread| !thread.shades.is_empty());
    let Some(script) = changes.then(|| scripted_to_see(pattern, None, None).ok()).flatten() else {
        return found;
    };
    let colors = list_colors(&script.threads);
    // Of a thread, its first color has its own number, and the further ones have those after all threads.
    let shade = |number: u16| {
        let (thread, _) = *colors.get(usize::from(number))?;
        let changes = pattern.threads.get(usize::from(thread)).is_some_and(|of| !of.shades.is_empty());
        let before = colors.iter().take(usize::from(number)).filter(|(of, _)| *of == thread).count();
        changes.then_some(before + 1)
    };
    let sets =
        u32::from(script.opening.is_some())..u32::from(script.opening.is_some()) + script.times.to_u32();
    for bead in Scene::of(&script.band()).beads {
        let kind = match bead.part {
            part if part < sets.start => PartKind::Opening,
            part if part == sets.start && !sets.is_empty() => PartKind::Set,
            part if part >= sets.end => PartKind::Closing,
            _ => continue,
        };
        found[kind as usize].push(shade(bead.thread));
    }
    found
}

impl<'a> ExportedParts<'a> {
    /// By position, the name of the thread.
    fn names(&self, hang: &[u16]) -> Vec<&'a str> {
        let threads = &self.pattern.threads;
        let name = |&thread: &u16| threads.get(usize::from(thread)).map_or("", |thread| thread.name.as_str());
        hang.iter().map(name).collect()
    }

    fn knots(
        &self,
        part: Option<&'a Part>,
        kind: PartKind,
        piece: &Piece,
        begins: &[u16],
    ) -> ExportedKnots<'a> {
        let shades = self.shades[kind as usize].clone();
        let path = self.files.first().map_or("", |file| &*file.path);
        let rows = Layout::of(piece).rows;
        let names = match piece.changes_threads() {
            true => {
                self.names(&piece.threads_of_knots(begins).into_iter().map(|of| of.0).collect::<Vec<_>>())
            }
            false => self.names(begins),
        };
        let is_by_knot = piece.changes_threads();
        ExportedKnots { part, rows, names, is_by_knot, shades, spots: Spots::new(self.files), path }
    }

    fn joins(&self, part: Option<&'a Part>, piece: &Piece, begins: &[u16]) -> Vec<ExportedJoin<'a>> {
        let (spots, own) = (Spots::new(self.files), self.files.first().map_or("", |file| &*file.path));
        let joined = part.map_or(&[][..], |part| &part.joins);
        let mut walk = ThreadWalk::new(piece, begins);
        let mut of = |(join, joined): (&Join, &JoinedStrand)| {
            walk.go_to(join.knot);
            let spot = spots.of(joined.place);
            ExportedJoin {
                strand: usize::from(join.strand) + 1,
                position: usize::from(joined.at) + 1,
                after: join.knot,
                color: self.names(&[walk.of(join.strand)]).first().copied().unwrap_or_default(),
                set: join.set.map(|set| set + 1),
                line: spot.line,
                column: spot.column,
                path: Some(spot.path).filter(|path| *path != own),
            }
        };
        piece.joins().iter().zip(joined).map(&mut of).collect()
    }

    fn threaded(&self, part: Option<&'a Part>) -> Vec<ExportedThreading<'a>> {
        let (spots, own) = (Spots::new(self.files), self.files.first().map_or("", |file| &*file.path));
        let of = |part: &'a Part, at: BeadAt| {
            let spot = spots.of(part.steps[at.step.to_usize()].place);
            let first = usize::from(at.position) + 1;
            ExportedThreading {
                bead: bead_name(self.pattern, at.bead),
                after_knots: at.before,
                positions: (first..first + usize::from(at.strands)).collect(),
                line: spot.line,
                column: spot.column,
                path: Some(spot.path).filter(|path| *path != own),
            }
        };
        part.into_iter()
            .flat_map(|part| part.beads().map(move |at| (part, at)))
            .map(|(part, at)| of(part, at))
            .collect()
    }

    fn uses(&self, whole: &WholeBand) -> Vec<StrandUse<'a>> {
        let ends = self.pattern.ends.unwrap_or(USUAL_ENDS);
        let length = |of: &knotwright_band::Use| {
            let figures = whole.figures?;
            let held = Held::of(self.pattern, figures, ends, false).of_each;
            Some(round_length(figures.length(*of, whole.rows, held).likely))
        };
        let strands = whole.uses.iter().zip(self.names(&self.pattern.strands)).enumerate();
        let one = |(strand, (of, color)): (usize, (&knotwright_band::Use, &'a str))| StrandUse {
            strand: strand + 1,
            color,
            working: of.working,
            base: of.base,
            idle_rows: of.idle_rows(whole.rows),
            length_mm: length(of),
        };
        strands.map(one).collect()
    }
}

impl<'a> ExportedKnots<'a> {
    fn iter(&self) -> impl Iterator<Item = ExportedKnot<'a>> + '_ {
        let steps = self.part.into_iter().flat_map(|part| part.steps.iter().map(move |step| (part, step)));
        steps.flat_map(move |(part, step)| {
            let spot = self.spots.of(step.place);
            let path = Some(spot.path).filter(|path| *path != self.path);
            let knots = part
                .piece
                .knots()
                .iter()
                .zip(&self.rows)
                .enumerate()
                .skip(step.knots.start.to_usize())
                .take(step.knots.len());
            knots.map(move |(number, (knot, row))| ExportedKnot {
                row: row + 1,
                gap: usize::from(knot.gap) + 1,
                kind: knotwright_rewriter::write_kind(knot.kind),
                working: usize::from(knot.working) + 1,
                base: usize::from(knot.base) + 1,
                color: self
                    .names
                    .get(if self.is_by_knot { number } else { usize::from(knot.working) })
                    .copied()
                    .unwrap_or_default(),
                shade: self.shades.get(number).copied().flatten(),
                line: spot.line,
                column: spot.column,
                path,
            })
        })
    }
}

impl Serialize for ExportedKnots<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.iter())
    }
}

fn from_one(order: &[u8]) -> Vec<usize> {
    order.iter().map(|strand| usize::from(*strand) + 1).collect()
}
