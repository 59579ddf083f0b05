//! Measures as JSON. The form is `shared/schemas/measure-1.schema.json`.

use knotwright_band::thread::OwnThread;
use knotwright_maker::{
    FigureBasis, Measured, ProposedJoin, ProposedJoins, StrandPiece, first_strand, list_strands, round_length,
};
use knotwright_rewriter::write_join;
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct MeasuredJson<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    sets: u64,
    rows: u64,
    length_mm: f64,
    length_low_mm: f64,
    length_high_mm: f64,
    length_assumed: bool,
    width_mm: f64,
    stop: Option<MeasuredStop<'a>>,
    gauge: MeasuredGauge,
    ends_mm: f64,
    ends_assumed: bool,
    knots: u32,
    knot_mm: f64,
    skein_mm: f64,
    strands: Vec<MeasuredStrand<'a>>,
    pieces: Vec<MeasuredPiece<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    joined: Vec<MeasuredJoined<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    around: Vec<MeasuredAround<'a>>,
    colors: Vec<Color<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    beads: Vec<MeasuredBead<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    proposed: Option<MeasuredProposal>,
    evenness: Evenness,
    balance: Option<MeasuredBalance>,
}

#[derive(Serialize)]
struct MeasuredGauge {
    basis: &'static str,
    thickness_mm: Option<f64>,
    row_mm: f64,
    uncertainty: f64,
    length_uncertainty: f64,
}

#[derive(Serialize)]
struct MeasuredStrand<'a> {
    strand: usize,
    color: &'a str,
    working: u64,
    base: u64,
    idle_rows: u64,
    low_mm: f64,
    likely_mm: f64,
    high_mm: f64,
    cut_mm: f64,
}

#[derive(Serialize)]
struct MeasuredPiece<'a> {
    strands: Vec<usize>,
    color: &'a str,
    length_mm: f64,
    longer_than_skein: bool,
}

/// A thread with which a joined strand goes on.
#[derive(Serialize)]
struct MeasuredJoined<'a> {
    strand: usize,
    piece: u32,
    color: &'a str,
    low_mm: f64,
    likely_mm: f64,
    high_mm: f64,
    length_mm: f64,
    longer_than_skein: bool,
}

#[derive(Serialize)]
struct MeasuredAround<'a> {
    color: &'a str,
    count: u32,
    length_mm: f64,
}

/// Where to join strands so that no piece is too long.
#[derive(Serialize)]
struct MeasuredProposal {
    longest_mm: f64,
    joins: Vec<MeasuredJoin>,
    without_place: Vec<usize>,
}

#[derive(Serialize)]
struct MeasuredJoin {
    line: String,
    part: &'static str,
    set: Option<u64>,
    strand: usize,
    row: u64,
    length_mm: f64,
}

#[derive(Serialize)]
struct MeasuredStop<'a> {
    sets: u64,
    steps: usize,
    of: usize,
    length_mm: f64,
    strands: Vec<&'a str>,
}

#[derive(Serialize)]
struct MeasuredBead<'a> {
    bead: &'a str,
    size_mm: f64,
    count: u64,
}

#[derive(Serialize)]
struct Color<'a> {
    color: &'a str,
    strands: usize,
    pieces: usize,
    length_mm: f64,
}

#[derive(Serialize)]
struct Evenness {
    most_mm: f64,
    least_mm: f64,
    waste_cut_alike_mm: f64,
}

#[derive(Serialize)]
struct MeasuredBalance {
    turned: usize,
    longest_before_mm: f64,
    longest_after_mm: f64,
}

impl<'a> MeasuredJson<'a> {
    /// What is written of a measured band.
    pub(crate) fn new(
        path: &'a str,
        measured: &'a Measured,
        proposed: Option<(f64, &ProposedJoins)>,
    ) -> Self {
        Self {
            schema: "knotwright/measure/1",
            path,
            title: &measured.pattern.title.text,
            sets: measured.sets,
            rows: measured.whole.rows,
            length_mm: round_length(measured.length()),
            length_low_mm: round_length(measured.length() * (1.0 - measured.figures.length_uncertainty)),
            length_high_mm: round_length(measured.length() * (1.0 + measured.figures.length_uncertainty)),
            length_assumed: measured.length_assumed,
            width_mm: round_length(measured.width()),
            stop: measured.stop.as_ref().map(|at| MeasuredStop {
                sets: at.sets,
                steps: at.steps,
                of: at.of,
                length_mm: round_length(at.length),
                strands: at.threads.iter().map(|thread| measured.name(*thread)).collect(),
            }),
            gauge: gauge(measured),
            ends_mm: round_length(measured.held.ends),
            ends_assumed: measured.ends_assumed,
            knots: measured.held.knots,
            knot_mm: round_length(measured.held.knot),
            skein_mm: round_length(measured.skein.0),
            strands: of_strands(measured),
            pieces: pieces(measured),
            joined: joined(measured),
            around: around(measured),
            colors: colors(measured),
            beads: measured
                .bead_counts()
                .map(|(bead, count)| MeasuredBead {
                    bead: &bead.look.name,
                    size_mm: round_length(bead.across),
                    count,
                })
                .collect(),
            proposed: proposed.map(|(longest, joins)| proposal(measured, longest, joins)),
            evenness: evenness(measured),
            balance: measured.saving.map(|saving| MeasuredBalance {
                turned: saving.turned,
                longest_before_mm: round_length(saving.before),
                longest_after_mm: round_length(saving.after),
            }),
        }
    }
}

fn joined<'a>(measured: &'a Measured<'_>) -> Vec<MeasuredJoined<'a>> {
    let one = |piece: &StrandPiece| MeasuredJoined {
        strand: usize::from(piece.strand) + 1,
        piece: piece.number + 1,
        color: measured.name(piece.thread),
        low_mm: round_length(piece.need.low),
        likely_mm: round_length(piece.need.likely),
        high_mm: round_length(piece.need.high),
        length_mm: round_length(piece.cut),
        longer_than_skein: piece.cut > measured.skein.0,
    };
    measured.joined.iter().map(one).collect()
}

/// The threads that go around the ends.
fn around<'a>(measured: &'a Measured<'_>) -> Vec<MeasuredAround<'a>> {
    let one = |own: &OwnThread| MeasuredAround {
        color: measured.name(own.thread),
        count: own.count,
        length_mm: round_length(own.length),
    };
    measured.own.iter().map(one).collect()
}

fn proposal(measured: &Measured, longest: f64, proposed: &ProposedJoins) -> MeasuredProposal {
    let join = |join: &ProposedJoin| MeasuredJoin {
        line: write_join(&join.line, measured.pattern.strands.len()),
        part: join.line.at.part.word(),
        set: join.line.set.map(|set| set + 1),
        strand: usize::from(join.strand) + 1,
        row: join.row + 1,
        length_mm: round_length(join.cut),
    };
    MeasuredProposal {
        longest_mm: round_length(longest),
        joins: proposed.joins.iter().map(join).collect(),
        without_place: proposed.without_place.iter().map(|strand| usize::from(*strand) + 1).collect(),
    }
}

fn gauge(measured: &Measured) -> MeasuredGauge {
    let figures = measured.figures;
    MeasuredGauge {
        basis: match measured.basis {
            FigureBasis::Swatch => "swatch",
            FigureBasis::Thickness(_) => "thickness",
            FigureBasis::Assumed => "assumed",
        },
        thickness_mm: measured.gauge.thickness,
        row_mm: (figures.pitch * 1000.0).round() / 1000.0,
        uncertainty: figures.uncertainty,
        length_uncertainty: figures.length_uncertainty,
    }
}

fn of_strands<'a>(measured: &'a Measured<'_>) -> Vec<MeasuredStrand<'a>> {
    let strands = measured.whole.uses.iter().zip(&measured.lengths).zip(&measured.cuts).enumerate();
    let mut all = Vec::with_capacity(measured.cuts.len());
    for (strand, ((of, length), cut)) in strands {
        all.push(MeasuredStrand {
            strand: strand + 1,
            color: measured.thread_of(strand),
            working: of.working,
            base: of.base,
            idle_rows: of.idle_rows(measured.whole.rows),
            low_mm: round_length(length.low),
            likely_mm: round_length(length.likely),
            high_mm: round_length(length.high),
            cut_mm: round_length(*cut),
        });
    }
    all
}

fn pieces<'a>(measured: &'a Measured<'_>) -> Vec<MeasuredPiece<'a>> {
    let one = |cut: &knotwright_band::thread::Cut| MeasuredPiece {
        strands: list_strands(*cut).into_iter().map(|strand| usize::from(strand) + 1).collect(),
        color: measured.thread_of(usize::from(first_strand(*cut))),
        length_mm: round_length(cut.length()),
        longer_than_skein: cut.length() > measured.skein.0,
    };
    measured.pieces.iter().map(one).collect()
}

fn colors<'a>(measured: &'a Measured<'_>) -> Vec<Color<'a>> {
    let one = |(thread, strands, pieces, length)| Color {
        color: measured.name(thread),
        strands,
        pieces,
        length_mm: round_length(length),
    };
    measured.by_color().into_iter().map(one).collect()
}

fn evenness(measured: &Measured) -> Evenness {
    let cuts = &measured.cuts;
    Evenness {
        most_mm: round_length(cuts.iter().copied().fold(0.0, f64::max)),
        least_mm: round_length(cuts.iter().copied().fold(f64::INFINITY, f64::min)),
        waste_cut_alike_mm: round_length(measured.waste_cut_alike()),
    }
}
