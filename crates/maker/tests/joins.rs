//! Strands that are joined: in the samples, and wherever `measure --longest` would join them.

mod folder;

use folder::{SampleFolder, sample_sources};
use knotwright_band::thread::JOIN_OVER;
use knotwright_checker::{Extent, Pattern, Settings, Source, check};
use knotwright_maker::{
    LengthUnit, MeasureOptions, Measured, ProposedJoin, StrandPiece, join_long_strands, propose_joins,
    script_sets,
};
use knotwright_numbers::ToNumber;
use knotwright_render::Scene;
use knotwright_rewriter::{Original, SpotAt};
use std::sync::Arc;

fn pattern(source: &Arc<Source>) -> Option<Pattern> {
    check(Arc::clone(source), &SampleFolder, &Settings::default()).pattern.filter(Pattern::is_whole)
}

fn samples() -> Vec<(Arc<Source>, Pattern)> {
    let read = |source: Arc<Source>| {
        let pattern = pattern(&source).filter(|pattern| pattern.wished_part().is_none())?;
        Some((source, pattern))
    };
    sample_sources().into_iter().filter_map(read).collect()
}

/// As long as its strands need pieces.
fn long(pattern: &Pattern) -> MeasureOptions {
    let is_set = pattern.set.is_some();
    MeasureOptions { extent: is_set.then_some(Extent::Length(3000.0)), ..MeasureOptions::default() }
}

/// The pieces of a strand, less what is over at its joins, are what the strand needs.
fn come_to_the_need(pieces: &[StrandPiece], whole: f64) {
    let all: f64 = pieces.iter().map(|piece| piece.need.likely).sum();
    let over = 2.0 * JOIN_OVER * (pieces.len().to_f64() - 1.0);
    assert!((all - over - whole).abs() < 1e-6 * whole, "{all} less {over} for {whole}");
    assert!(pieces.iter().all(|piece| piece.cut >= piece.need.high), "{pieces:?}");
}

#[test]
fn no_piece_of_a_sample_is_longer_than_the_limit_and_together_they_are_the_need() {
    let (mut joined, mut whole, mut parted, mut refused) = (0, 0, 0, 0);
    for (source, pattern) in samples() {
        let wish = long(&pattern);
        let Ok(before) = Measured::new(&pattern, wish) else { continue };
        let most = before.cuts.iter().copied().fold(0.0, f64::max);
        for longest in [most * 0.7, most * 0.45] {
            let library = SampleFolder;
            let original = Original { source: &source, pattern: &pattern, library: &library };
            let answer = join_long_strands(original, wish, longest);
            let answer = match answer {
                Ok(answer) => answer,
                Err(why) => {
                    assert!(!why.contains("bug"), "{}: {why}", source.path);
                    refused += 1;
                    continue;
                }
            };
            (joined, whole) = (joined + answer.proposed.joins.len(), whole + 1);
            let new = Arc::new(Source::new(source.path.clone(), answer.text.clone()));
            let again = pattern_of(&new);
            let after = Measured::new(&again, wish).unwrap();
            for (pieces, of) in after.strand_pieces.iter().zip(&before.lengths) {
                assert!(pieces.iter().all(|piece| piece.cut <= longest), "{}: {pieces:?}", source.path);
                come_to_the_need(pieces, of.likely);
            }
            assert!(after.pieces.iter().all(|piece| piece.length() <= longest), "{}", source.path);
            let mut rows: Vec<u64> = answer.proposed.joins.iter().map(|join| join.row).collect();
            rows.sort_unstable();
            assert!(rows.windows(2).all(|pair| pair[1] - pair[0] >= 6), "{}: {rows:?}", source.path);
            let is_whole = |join: &ProposedJoin| join.line.at.at == SpotAt::Above;
            if answer.proposed.joins.iter().all(is_whole) {
                assert_eq!(without_joins(&answer.text), without_joins(&source.text), "{}", source.path);
            } else {
                parted += 1;
                assert!(adds_lines_only(&source.text, &answer.text), "{}\n{}", source.path, answer.text);
            }
            looks_the_same(&pattern, &again);
        }
    }
    // A leader hangs at an edge whenever a line can join it, and a line in a motif would join a strand more than once.
    assert!(
        whole >= 34 && parted >= 16 && joined > 400,
        "{joined} joins in {whole} samples ({parted} parted), and {refused} were not joined"
    );
}

fn pattern_of(source: &Arc<Source>) -> Pattern {
    pattern(source).unwrap_or_else(|| panic!("{} has errors:\n{}", source.path, source.text))
}

/// The lines of a text but those that join.
fn without_joins(text: &str) -> Vec<&str> {
    text.lines().map(str::trim).filter(|line| !line.starts_with("join ")).collect()
}

/// Whether all lines of a text are lines of another one, in order; how often a `repeat` is tied may differ.
fn adds_lines_only(text: &str, longer: &str) -> bool {
    let is_repeat = |line: &str| line.trim_start().starts_with("repeat ");
    let mut lines = longer.lines();
    text.lines().all(|line| lines.any(|other| other == line || is_repeat(line) && is_repeat(other)))
}

/// What is seen does not change where strands go on with their own thread.
fn looks_the_same(before: &Pattern, after: &Pattern) {
    let seen = |pattern: &Pattern| {
        let script = script_sets(pattern, Some(3), 3).unwrap();
        let scene = Scene::of(&script.band());
        (scene.beads, scene.cords)
    };
    assert_eq!(seen(before), seen(after), "{}", before.title.text);
}

const LINE: &str = "pattern \"Line\"\nthread kelp #1f5d50\nthread sand goldenrod\n\
                    strands kelp sand kelp sand kelp sand\ngauge {\n  thickness 1 mm\n}\nsets 40\n";

fn line(body: &str) -> Pattern {
    let source = Arc::new(Source::new("line.knot", format!("{LINE}{body}")));
    pattern_of(&source)
}

#[test]
fn a_piece_of_another_thread_is_cut_of_that_thread() {
    let pattern = line(
        "set {\n  take left 1: forward to edge\n}\nclosing {\n  join left 3 with sand\n  take left 1: forward to edge\n}\n",
    );
    let measured = Measured::new(&pattern, MeasureOptions::default()).unwrap();
    let [piece] = measured.joined[..] else { panic!("one strand is joined: {:?}", measured.joined) };
    assert_eq!(measured.name(piece.thread), "sand");
    // Strands hang after 40 sets as they began, 40 places further on around the band.
    assert_eq!(usize::from(piece.strand), (40 + 2) % 6);
    come_to_the_need(
        &measured.strand_pieces[usize::from(piece.strand)],
        measured.lengths[usize::from(piece.strand)].likely,
    );
    let sand: f64 = measured.by_color().iter().find(|of| measured.name(of.0) == "sand").unwrap().3;
    let cut: f64 = [1, 3, 5].iter().map(|strand| measured.strand_pieces[*strand][0].cut).sum();
    assert!((sand - cut - piece.cut).abs() < 1e-6, "{sand}, {cut} and {}", piece.cut);
}

#[test]
fn a_join_in_every_set_cuts_a_piece_for_every_set() {
    let pattern = line("set {\n  join left 3\n  take left 1: forward to edge\n}\n");
    let measured = Measured::new(&pattern, MeasureOptions::default()).unwrap();
    assert_eq!(measured.joined.len(), 40);
    for (pieces, whole) in measured.strand_pieces.iter().zip(&measured.lengths) {
        come_to_the_need(pieces, whole.likely);
    }
}

#[test]
fn a_strand_is_joined_where_it_is_tied_over_away_from_the_edges() {
    let text = format!("{LINE}set {{\n  take left 1: forward to edge\n}}\n").replace("sets 40", "sets 200");
    let pattern = pattern_of(&Arc::new(Source::new("line.knot", text)));
    let measured = Measured::new(&pattern, MeasureOptions::default()).unwrap();
    let longest = measured.cuts.iter().copied().fold(0.0, f64::max) * 0.6;
    let proposed = propose_joins(&measured, longest, LengthUnit::Cm).unwrap();
    assert!(!proposed.joins.is_empty() && proposed.without_place.is_empty(), "{proposed:?}");
    for join in &proposed.joins {
        assert!((2..4).contains(&join.line.position), "{join:?}");
        assert!(join.cut <= longest, "{join:?}");
    }
    // Late, although a strand is at such a place every six sets only, and no other may be joined beside it.
    assert!(proposed.joins.iter().all(|join| join.cut > longest * 0.75), "{proposed:?}");
}

#[test]
fn what_cannot_be_joined_is_said_and_not_written() {
    // The leader of these rows is tied over nowhere.
    let text = format!("{LINE}set {{\n  leader left 1 {{\n    . . . . .\n    . . . . .\n  }}\n}}\n");
    let source = Arc::new(Source::new("line.knot", text));
    let pattern = pattern_of(&source);
    let measured = Measured::new(&pattern, MeasureOptions::default()).unwrap();
    let longest = measured.cuts[0] * 0.5;
    let proposed = propose_joins(&measured, longest, LengthUnit::Cm).unwrap();
    assert_eq!(proposed.without_place, [0]);
    let wish = MeasureOptions::default();
    let said = join_long_strands(
        Original { source: &source, pattern: &pattern, library: &SampleFolder },
        wish,
        longest,
    )
    .unwrap_err();
    assert!(said.starts_with("Strand 1 cannot be joined so that no piece is longer than"), "{said}");
    assert!(propose_joins(&measured, 150.0, LengthUnit::Cm).is_err(), "shorter than its ends and joins");
}

#[test]
fn folded_threads_are_halved_before_they_are_joined() {
    let text = LINE.replace(
        "strands kelp sand kelp sand kelp sand",
        "strands kelp sand kelp | mirror\nstart folded pairs mirrored",
    );
    let source =
        Arc::new(Source::new("line.knot", format!("{text}set {{\n  take left 1: forward to edge\n}}\n")));
    let pattern = pattern_of(&source);
    let wish = MeasureOptions::default();
    let longest =
        Measured::new(&pattern, wish).unwrap().pieces.iter().map(|cut| cut.length()).fold(0.0, f64::max);
    let answer = join_long_strands(
        Original { source: &source, pattern: &pattern, library: &SampleFolder },
        wish,
        longest * 0.6,
    )
    .unwrap();
    let again = pattern_of(&Arc::new(Source::new("line.knot", answer.text)));
    let after = Measured::new(&again, wish).unwrap();
    assert!(after.pieces.iter().all(|cut| cut.length() <= longest * 0.6), "{:?}", after.pieces);
}
