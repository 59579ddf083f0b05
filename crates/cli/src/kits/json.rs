//! Kits as JSON. The form is `shared/schemas/kit-1.schema.json`.

use knotwright_band::Kind;
use knotwright_band::pace::TimeSpan;
use knotwright_color::Eyes;
use knotwright_maker::{
    Bought, BoughtBead, Cue, CueMoment, Difficulty, Kit, KitBand, first_strand, list_strands, round_length,
};
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct KitJson<'a> {
    schema: &'static str,
    count: u32,
    colorway: Option<&'a str>,
    skein_mm: f64,
    skein_assumed: bool,
    tex: Option<f64>,
    price: Option<f64>,
    pace: PaceJson,
    buy: Vec<BuyJson<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    beads: Vec<KitBeadJson<'a>>,
    total: TotalJson,
    bands: Vec<KitBandJson<'a>>,
}

#[derive(Serialize)]
struct PaceJson {
    basis: &'static str,
    knot_s: f64,
    turning_s: f64,
    pick_up_s: f64,
}

#[derive(Serialize)]
struct BuyJson<'a> {
    thread: &'a str,
    color: String,
    label: Option<&'a str>,
    pieces: u64,
    length_mm: f64,
    skeins: u64,
    at_least: u64,
    too_long: u64,
    grams: Option<f64>,
    cost: Option<f64>,
}

#[derive(Serialize)]
struct KitBeadJson<'a> {
    bead: &'a str,
    color: String,
    label: Option<&'a str>,
    size_mm: f64,
    hole_mm: f64,
    count: u64,
}

#[derive(Serialize)]
struct TotalJson {
    length_mm: f64,
    skeins: u64,
    at_least: u64,
    too_long: u64,
    grams: Option<f64>,
    cost: Option<f64>,
}

#[derive(Serialize)]
struct KitBandJson<'a> {
    path: &'a str,
    title: &'a str,
    sets: u64,
    rows: u64,
    length_mm: f64,
    width_mm: f64,
    length_assumed: bool,
    pieces: Vec<KitPieceJson<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    around: Vec<KitAroundJson<'a>>,
    time: TimeJson,
    difficulty: DifficultyJson<'a>,
    cues: Vec<CueJson>,
}

#[derive(Serialize)]
struct KitAroundJson<'a> {
    thread: &'a str,
    count: u32,
    length_mm: f64,
}

#[derive(Serialize)]
struct KitPieceJson<'a> {
    strands: Vec<usize>,
    thread: &'a str,
    length_mm: f64,
}

#[derive(Serialize)]
struct TimeJson {
    knots: u64,
    turning_knots: u64,
    pick_ups: u64,
    set_up_s: f64,
    low_s: f64,
    likely_s: f64,
    high_s: f64,
}

#[derive(Serialize)]
struct DifficultyJson<'a> {
    strands: usize,
    threads: usize,
    kinds: Vec<&'static str>,
    longest_run: u64,
    pick_ups_in_a_set: Option<u64>,
    fewest_pick_ups_in_a_set: Option<u64>,
    alike: Vec<AlikeJson<'a>>,
}

#[derive(Serialize)]
struct AlikeJson<'a> {
    threads: [&'a str; 2],
    eyes: &'static str,
}

#[derive(Serialize)]
struct CueJson {
    at_s: f64,
    knots: u64,
    moment: &'static str,
    set: Option<u64>,
}

impl<'a> KitJson<'a> {
    /// What is written of a kit. `paths`: the files of its patterns.
    pub(crate) fn new(paths: &[&'a str], kit: &'a Kit<'_>) -> Self {
        let (options, total) = (&kit.options, kit.total());
        let (skein, skein_assumed) = kit.skein();
        Self {
            schema: "knotwright/kit/1",
            count: options.count,
            colorway: options.colorway.as_deref(),
            skein_mm: round_length(skein),
            skein_assumed,
            tex: kit.density().map(|density| density.tex),
            price: options.price,
            pace: PaceJson {
                basis: if options.pace.is_measured() { "measured" } else { "common-practice" },
                knot_s: rounded(options.pace.pace.knot),
                turning_s: rounded(options.pace.pace.turning),
                pick_up_s: rounded(options.pace.pace.pick_up),
            },
            buy: kit.bought.iter().map(buy).collect(),
            beads: kit.beads.iter().map(bead).collect(),
            total: TotalJson {
                length_mm: round_length(total.length),
                skeins: total.skeins,
                at_least: total.at_least,
                too_long: total.too_long,
                grams: total.grams.map(rounded),
                cost: total.cost.map(rounded),
            },
            bands: paths.iter().zip(&kit.bands).map(|(path, band)| band_json(path, band)).collect(),
        }
    }
}

fn bead(of: &BoughtBead) -> KitBeadJson<'_> {
    KitBeadJson {
        bead: &of.bead.look.name,
        color: of.bead.look.color.to_string(),
        label: of.label.as_deref(),
        size_mm: round_length(of.bead.across),
        hole_mm: round_length(of.bead.hole),
        count: of.count,
    }
}

/// To a hundredth.
fn rounded(number: f64) -> f64 {
    (number * 100.0).round() / 100.0
}

fn buy(of: &Bought) -> BuyJson<'_> {
    BuyJson {
        thread: &of.thread.name,
        color: of.thread.color.to_string(),
        label: of.label.as_deref(),
        pieces: of.pieces,
        length_mm: round_length(of.length),
        skeins: of.skeins.skeins,
        at_least: of.skeins.at_least,
        too_long: of.skeins.too_long,
        grams: of.grams.map(rounded),
        cost: of.cost.map(rounded),
    }
}

fn band_json<'a>(path: &'a str, band: &'a KitBand<'_>) -> KitBandJson<'a> {
    let measured = &band.measured;
    let piece = |cut: &knotwright_band::thread::Cut| KitPieceJson {
        strands: list_strands(*cut).into_iter().map(|strand| usize::from(strand) + 1).collect(),
        thread: measured.thread_of(usize::from(first_strand(*cut))),
        length_mm: round_length(cut.length()),
    };
    let joined = |piece: &knotwright_maker::StrandPiece| KitPieceJson {
        strands: vec![usize::from(piece.strand) + 1],
        thread: measured.name(piece.thread),
        length_mm: round_length(piece.cut),
    };
    let around = |own: &knotwright_band::thread::OwnThread| KitAroundJson {
        thread: measured.name(own.thread),
        count: own.count,
        length_mm: round_length(own.length),
    };
    KitBandJson {
        path,
        title: &measured.pattern.title.text,
        sets: measured.sets,
        rows: measured.whole.rows,
        length_mm: round_length(measured.length()),
        width_mm: round_length(measured.width()),
        length_assumed: measured.length_assumed,
        pieces: measured.pieces.iter().map(piece).chain(measured.joined.iter().map(joined)).collect(),
        around: measured.own.iter().map(around).collect(),
        time: time(band),
        difficulty: difficulty(&band.difficulty),
        cues: band.cues.iter().map(|of| cue(*of)).collect(),
    }
}

fn time(band: &KitBand) -> TimeJson {
    let TimeSpan { low, likely, high } = band.time.whole();
    TimeJson {
        knots: band.time.work.knots,
        turning_knots: band.time.work.turning,
        pick_ups: band.time.work.pick_ups,
        set_up_s: band.time.set_up.likely.round(),
        low_s: low.round(),
        likely_s: likely.round(),
        high_s: high.round(),
    }
}

fn difficulty(of: &Difficulty) -> DifficultyJson<'_> {
    let kind = |kind: &Kind| match kind {
        Kind::Forward => "forward",
        Kind::Backward => "backward",
        Kind::ForwardBackward => "forward-backward",
        Kind::BackwardForward => "backward-forward",
    };
    let eyes = |eyes: Eyes| match eyes {
        Eyes::Ordinary => "ordinary",
        Eyes::Protan => "protan",
        Eyes::Deutan => "deutan",
        Eyes::Tritan => "tritan",
    };
    DifficultyJson {
        strands: of.strands,
        threads: of.threads,
        kinds: of.kinds.iter().map(kind).collect(),
        longest_run: of.longest_run,
        pick_ups_in_a_set: of.pick_ups.map(|(written, _)| written),
        fewest_pick_ups_in_a_set: of.pick_ups.map(|(_, fewest)| fewest),
        alike: of
            .alike
            .iter()
            .map(|(one, other, by)| AlikeJson { threads: [one, other], eyes: eyes(*by) })
            .collect(),
    }
}

fn cue(of: Cue) -> CueJson {
    let (moment, set) = match of.moment {
        CueMoment::SetUp => ("set-up", None),
        CueMoment::Opening => ("opening", None),
        CueMoment::Set(number) => ("set", Some(number)),
        CueMoment::Closing => ("closing", None),
        CueMoment::Tied => ("tied", None),
    };
    CueJson { at_s: of.at.round(), knots: of.knots, moment, set }
}
