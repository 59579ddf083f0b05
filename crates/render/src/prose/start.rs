//! What comes before the first knot.

use super::document::{Block, Document};
use super::tell::Teller;
use super::words::fill;
use super::{Counting, ProseOptions};
use crate::{Basis, CutPiece, Materials, Mirror, Named, Start};
use knotwright_band::Kind;

/// The title and what the author says.
pub(crate) fn head(teller: &Teller<'_>, options: &ProseOptions, document: &mut Document) {
    let (script, words) = (teller.script, teller.words);
    document.push(Block::Heading(1, script.title.clone()));
    script.about.iter().for_each(|text| document.text(text.clone()));
    let by = (!script.authors.is_empty()).then(|| fill(words.by, &[("names", &words.list(&script.authors))]));
    let license = script.license.as_ref().map(|license| fill(words.license, &[("license", license)]));
    let credit: Vec<String> = by.into_iter().chain(license).collect();
    if !credit.is_empty() {
        document.text(credit.join(" "));
    }
    match options.mirrored {
        Some(Mirror::Image) => document.text(words.mirrored_image),
        Some(Mirror::Picture) => document.text(words.mirrored_picture),
        None => {}
    }
}

/// What to buy and to cut.
pub(crate) fn materials(teller: &Teller<'_>, document: &mut Document) {
    let Some(materials) = &teller.script.materials else { return };
    let words = teller.words;
    document.push(Block::Heading(2, words.materials.into()));
    document.text(size(teller, materials));
    if materials.length_assumed {
        document.text(words.size_assumed);
    }
    document.text(words.cut);
    document.push(Block::List(cut_list(teller, materials)));
    document.text(reserve(teller, materials));
    document.text(basis(teller, materials));
    document.text(words.tools);
}

/// How large the band becomes.
pub(crate) fn size(teller: &Teller<'_>, materials: &Materials) -> String {
    let words = teller.words;
    let counted =
        |text: &super::words::Counted, count: u64| fill(text.of(count), &[("count", &teller.number(count))]);
    let values = [
        ("length", words.length(&materials.length)),
        ("width", words.length(&materials.width)),
        ("sets", counted(&words.sets, teller.script.times)),
        ("rows", counted(&words.rows, materials.rows)),
    ];
    let values = values.each_ref().map(|(name, value)| (*name, value.as_str()));
    fill(words.size, &values)
}

/// What the lengths hold beside the knots.
pub(crate) fn reserve(teller: &Teller<'_>, materials: &Materials) -> String {
    let words = teller.words;
    let is_loose = teller.script.start == Start::Loose;
    let sentence = if is_loose { words.reserve } else { words.reserve_folded };
    fill(sentence, &[("ends", &words.length(&materials.ends))])
}

/// What the lengths rest on.
pub(crate) fn basis(teller: &Teller<'_>, materials: &Materials) -> String {
    let words = teller.words;
    let (sentence, thickness) = match &materials.basis {
        Basis::Swatch => (words.from_swatch, ""),
        Basis::Thickness(thickness) => (words.from_thickness, thickness.as_str()),
        Basis::Assumed(thickness) => (words.from_nothing, thickness.as_str()),
    };
    let values = [("thickness", &*words.length(thickness)), ("percent", &materials.percent.to_string())];
    fill(sentence, &values)
}

/// A line a color: threads of one length together.
pub(crate) fn cut_list(teller: &Teller<'_>, materials: &Materials) -> Vec<String> {
    let (script, words) = (teller.script, teller.words);
    let of = |piece: &CutPiece| {
        piece.strands.first().and_then(|strand| script.strands.get(usize::from(*strand))).copied()
    };
    let line = |(thread, total): &(u16, String)| {
        let mut pieces: Vec<&CutPiece> =
            materials.pieces.iter().filter(|piece| of(piece) == Some(*thread)).collect();
        let alike = |piece: &CutPiece| (piece.strands.len(), piece.length.clone());
        let first = |piece: &CutPiece| {
            let like = |other: &&CutPiece| alike(other) == alike(piece);
            materials.pieces.iter().position(|other| of(other) == Some(*thread) && like(&other))
        };
        pieces.sort_by_key(|piece| first(piece));
        let groups = pieces.chunk_by(|one, other| alike(one) == alike(other));
        let told: Vec<String> = groups.map(|group| pieces_alike(teller, group)).collect();
        let values = [
            ("color", script.name(*thread)),
            ("pieces", &words.list(&told)),
            ("total", &words.length(total)),
        ];
        fill(words.cut_line, &values)
    };
    materials.totals.iter().map(line).collect()
}

fn pieces_alike(teller: &Teller<'_>, pieces: &[&CutPiece]) -> String {
    let words = teller.words;
    let is_folded = pieces.first().is_some_and(|piece| piece.strands.len() > 1);
    let strands: Vec<String> = pieces
        .iter()
        .map(|piece| {
            let numbers: Vec<String> =
                piece.strands.iter().map(|at| (u16::from(*at) + 1).to_string()).collect();
            numbers.join("+")
        })
        .collect();
    let hanging = pieces.iter().map(|piece| piece.strands.len() as u64).sum();
    let strands = fill(words.strand_numbers.of(hanging), &[("strands", &words.list(&strands))]);
    let count = pieces.len() as u64;
    let sentence = if is_folded { &words.folded_pieces } else { &words.pieces };
    let length = pieces.first().map_or("", |piece| piece.length.as_str());
    let values =
        [("count", &*teller.number(count)), ("length", &words.length(length)), ("strands", &strands)];
    fill(sentence.of(count), &values)
}

/// How to fasten and to sort the strands.
pub(crate) fn layout(teller: &Teller<'_>, options: &ProseOptions, document: &mut Document) {
    let (script, words) = (teller.script, teller.words);
    document.push(Block::Heading(2, words.layout.into()));
    let materials = script.materials.as_ref();
    let length = |of: Option<&String>| of.map_or_else(String::new, |length| words.length(length));
    let ends = length(materials.map(|materials| &materials.ends));
    let round = length(materials.and_then(|materials| materials.loop_length.as_ref()));
    let (sentence, pairs) = match &script.start {
        Start::Loose => (words.hang_loose, None),
        Start::Folded(pairs) => (words.hang_folded, Some(pairs)),
        Start::Loop(pairs) => (words.hang_loop, Some(pairs)),
    };
    document.text(fill(sentence, &[("ends", &ends), ("loop", &round)]));
    if let Some(pairs) = pairs.filter(|pairs| !pairs.is_empty()) {
        let mut pairs =
            pairs.iter().map(|(one, other)| (*one.min(other), *one.max(other))).collect::<Vec<_>>();
        pairs.sort_unstable();
        let told = |(one, other): &(u8, u8)| format!("{}+{}", u16::from(*one) + 1, u16::from(*other) + 1);
        let pairs: Vec<String> = pairs.iter().map(told).collect();
        document.text(fill(words.pairs, &[("pairs", &words.list(&pairs))]));
    }
    document.text(words.lay_out);
    let mut rows = vec![[words.head_left, words.head_right, words.head_thread].map(str::to_owned).to_vec()];
    let strands = script.strands.len();
    for (at, thread) in script.strands.iter().enumerate() {
        rows.push(vec![(at + 1).to_string(), (strands - at).to_string(), script.name(*thread).to_owned()]);
    }
    document.push(Block::Table(rows));
    let counting = match options.counting() {
        Counting::AsWritten => words.counting,
        Counting::FromRight => words.counting_from_right,
    };
    document.text(counting);
}

/// How the knots that are there are tied.
pub(crate) fn knots(teller: &Teller<'_>, document: &mut Document) {
    let words = teller.words;
    document.push(Block::Heading(2, words.knots.into()));
    document.text(words.hitch);
    let kinds = kinds(teller);
    let mut told: Vec<String> = kinds.iter().map(|kind| words.kind(*kind).how.to_owned()).collect();
    if teller.script.passages().any(|passage| passage.steps.iter().any(|step| step.named == Named::Meet)) {
        told.push(words.meet_how.to_owned());
    }
    document.push(Block::List(told));
}

/// The kinds of knots that are there.
fn kinds(teller: &Teller<'_>) -> Vec<Kind> {
    let script = teller.script;
    let is_there = |kind: &Kind| {
        script.passages().any(|passage| passage.piece.knots().iter().any(|knot| knot.kind == *kind))
    };
    let mut kinds = vec![Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward];
    // Turning knots are told by halves of the others.
    let turns = is_there(&Kind::ForwardBackward) || is_there(&Kind::BackwardForward);
    kinds.retain(|kind| is_there(kind) || turns && kind.swaps());
    kinds
}
