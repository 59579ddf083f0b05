//! Measures as JSON. The form is `shared/schemas/measure-1.schema.json`.

use knotwright_band::thread::cut_alike;
use knotwright_maker::{Basis, Measured, first, rounded, strands};
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct Json<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    sets: u64,
    rows: u64,
    length_mm: f64,
    width_mm: f64,
    gauge: Gauge,
    ends_mm: f64,
    ends_assumed: bool,
    strands: Vec<Strand<'a>>,
    pieces: Vec<Piece<'a>>,
    colors: Vec<Color<'a>>,
    evenness: Evenness,
    balance: Option<Balance>,
}

#[derive(Serialize)]
struct Gauge {
    basis: &'static str,
    thickness_mm: Option<f64>,
    row_mm: f64,
    uncertainty: f64,
    reserve: f64,
}

#[derive(Serialize)]
struct Strand<'a> {
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
struct Piece<'a> {
    strands: Vec<usize>,
    color: &'a str,
    length_mm: f64,
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
struct Balance {
    turned: usize,
    longest_before_mm: f64,
    longest_after_mm: f64,
}

impl<'a> Json<'a> {
    /// What is written of a measured band.
    pub(crate) fn new(path: &'a str, measured: &'a Measured) -> Self {
        Self {
            schema: "knotwright/measure/1",
            path,
            title: &measured.pattern.title,
            sets: measured.sets,
            rows: measured.reckoning.rows,
            length_mm: rounded(measured.length()),
            width_mm: rounded(measured.width()),
            gauge: gauge(measured),
            ends_mm: rounded(measured.ends),
            ends_assumed: measured.ends_assumed,
            strands: of_strands(measured),
            pieces: pieces(measured),
            colors: colors(measured),
            evenness: evenness(measured),
            balance: measured.saving.map(|saving| Balance {
                turned: saving.turned,
                longest_before_mm: rounded(saving.before),
                longest_after_mm: rounded(saving.after),
            }),
        }
    }
}

fn gauge(measured: &Measured) -> Gauge {
    let figures = measured.figures;
    Gauge {
        basis: match measured.basis {
            Basis::Swatch => "swatch",
            Basis::Thickness(_) => "thickness",
            Basis::Assumed => "assumed",
        },
        thickness_mm: measured.pattern.gauge.thickness,
        row_mm: (figures.pitch * 1000.0).round() / 1000.0,
        uncertainty: figures.uncertainty,
        reserve: figures.reserve,
    }
}

fn of_strands(measured: &Measured) -> Vec<Strand<'_>> {
    let strands = measured.reckoning.uses.iter().zip(&measured.lengths).enumerate();
    let one =
        |(strand, (of, length)): (usize, (&knotwright_band::Use, &knotwright_band::thread::Length))| Strand {
            strand: strand + 1,
            color: measured.thread_of(strand),
            working: of.working,
            base: of.base,
            idle_rows: of.idle_rows(measured.reckoning.rows),
            low_mm: rounded(length.low),
            likely_mm: rounded(length.likely),
            high_mm: rounded(length.high),
            cut_mm: rounded(length.cut),
        };
    strands.map(one).collect()
}

fn pieces(measured: &Measured) -> Vec<Piece<'_>> {
    let one = |cut: &knotwright_band::thread::Cut| Piece {
        strands: strands(*cut).into_iter().map(|strand| usize::from(strand) + 1).collect(),
        color: measured.thread_of(usize::from(first(*cut))),
        length_mm: rounded(cut.length()),
    };
    measured.pieces.iter().map(one).collect()
}

fn colors(measured: &Measured) -> Vec<Color<'_>> {
    let name =
        |thread: u16| measured.pattern.threads.get(usize::from(thread)).map_or("", |of| of.name.as_str());
    let one = |(thread, strands, pieces, length)| Color {
        color: name(thread),
        strands,
        pieces,
        length_mm: rounded(length),
    };
    measured.by_color().into_iter().map(one).collect()
}

fn evenness(measured: &Measured) -> Evenness {
    let cuts = measured.cuts();
    Evenness {
        most_mm: rounded(cuts.iter().copied().fold(0.0, f64::max)),
        least_mm: rounded(cuts.iter().copied().fold(f64::INFINITY, f64::min)),
        waste_cut_alike_mm: rounded(cut_alike(&cuts)),
    }
}
