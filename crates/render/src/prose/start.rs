//! What comes before the first knot.

use super::document::{ProseBlock, ProseDocument};
use super::ends::needs_needle;
use super::html::write_figure;
use super::tell::{Teller, capitalize};
use super::words::fill_in;
use super::{CountFrom, ProseOptions};
use crate::hitches::KINDS;
use crate::{
    CutAtRepeat, CutPiece, JoinedPiece, Materials, Mirror, Named, OwnPiece, StatedBasis, StrandStart,
};
use knotwright_band::Kind;
use knotwright_color::Rgb;
use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

/// The title and what the author says.
pub(crate) fn write_head(teller: &Teller<'_>, options: &ProseOptions, document: &mut ProseDocument) {
    document.push(ProseBlock::Heading(1, teller.script.title.clone()));
    write_credits(teller, options, document);
}

/// What the author says, and whose it is.
pub(crate) fn write_credits(teller: &Teller<'_>, options: &ProseOptions, document: &mut ProseDocument) {
    let (script, words) = (teller.script, teller.words);
    script.about.iter().for_each(|text| document.text(text.clone()));
    let by =
        (!script.authors.is_empty()).then(|| fill_in(words.by, &[("names", &words.list(&script.authors))]));
    let license = script.license.as_ref().map(|license| fill_in(words.license, &[("license", license)]));
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
pub(crate) fn write_materials(teller: &Teller<'_>, document: &mut ProseDocument) {
    let Some(materials) = &teller.script.materials else { return };
    let words = teller.words;
    document.push(ProseBlock::Heading(2, words.materials.into()));
    document.text(describe_size(teller, materials));
    if materials.length_assumed {
        document.text(words.size_assumed);
    }
    document.text(words.cut);
    document.push(ProseBlock::List(cut_list(teller, materials)));
    let beads = bead_list(teller);
    if !beads.is_empty() {
        document.text(words.beads.buy);
        document.push(ProseBlock::List(beads));
    }
    describe_repeats(teller, materials).into_iter().for_each(|text| document.text(text));
    document.text(describe_reserve(teller, materials));
    document.text(describe_basis(teller, materials));
    document.text(describe_tools(teller));
}

/// Of threads that change color, where their pieces are cut, and how much that takes.
pub(crate) fn describe_repeats(teller: &Teller<'_>, materials: &Materials) -> Vec<String> {
    let words = teller.words;
    let of = |repeat: &CutAtRepeat| {
        let sentence = if repeat.is_folded { words.repeats_folded } else { words.repeats };
        let values = [
            ("color", teller.script.name(repeat.thread)),
            ("repeat", &words.length(&repeat.every)),
            ("length", &words.length(&repeat.needed)),
        ];
        fill_in(sentence, &values)
    };
    materials.repeats.iter().map(of).collect()
}

/// What is needed besides.
pub(crate) fn describe_tools(teller: &Teller<'_>) -> &'static str {
    if needs_needle(teller) { teller.words.tools_needle } else { teller.words.tools }
}

/// How large the band becomes.
pub(crate) fn describe_size(teller: &Teller<'_>, materials: &Materials) -> String {
    let words = teller.words;
    let counted = |text: &super::words::Counted, count: u64| {
        fill_in(text.of(count), &[("count", &teller.number(count))])
    };
    let values = [
        ("length", words.length(&materials.length)),
        ("width", words.length(&materials.width)),
        ("sets", counted(&words.sets, teller.script.times)),
        ("rows", counted(&words.rows, materials.rows)),
    ];
    let values = values.each_ref().map(|(name, value)| (*name, value.as_str()));
    let size = fill_in(words.size, &values);
    match materials.rows_of_set {
        Some(rows) => {
            format!("{size} {}", fill_in(words.size_overlaps, &[("rows", &counted(&words.rows, rows))]))
        }
        None => size,
    }
}

/// What the lengths hold besides the knots.
pub(crate) fn describe_reserve(teller: &Teller<'_>, materials: &Materials) -> String {
    let words = teller.words;
    let (script, is_loose) = (teller.script, teller.script.start == StrandStart::Loose);
    let sentence = match (&script.made.begin, &script.made.finish) {
        (None, None) if is_loose => words.reserve,
        (None, None) => words.reserve_folded,
        (Some(_), None) => words.ends.reserve_one,
        (None, Some(_)) if is_loose => words.ends.reserve_one,
        (_, Some(_)) => words.ends.reserve_both,
    };
    fill_in(sentence, &[("ends", &words.length(&materials.ends)), ("knot", &words.length(&materials.knot))])
}

/// What the lengths rest on.
pub(crate) fn describe_basis(teller: &Teller<'_>, materials: &Materials) -> String {
    let words = teller.words;
    let (sentence, thickness) = match &materials.basis {
        StatedBasis::Swatch => (words.from_swatch, ""),
        StatedBasis::Thickness(thickness) => (words.from_thickness, thickness.as_str()),
        StatedBasis::Assumed(thickness) => (words.from_nothing, thickness.as_str()),
    };
    let values = [("thickness", &*words.length(thickness)), ("percent", &materials.percent.to_string())];
    fill_in(sentence, &values)
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
        let mut items: Vec<String> = groups.map(|group| pieces_alike(teller, group)).collect();
        let joined: Vec<&JoinedPiece> =
            materials.joined.iter().filter(|piece| piece.thread == *thread).collect();
        let lengths: BTreeSet<&str> = joined.iter().map(|piece| piece.length.as_str()).collect();
        items.extend(lengths.into_iter().map(|length| {
            let alike: Vec<&JoinedPiece> =
                joined.iter().copied().filter(|piece| piece.length == length).collect();
            joined_pieces(teller, length, &alike)
        }));
        let own: Vec<&OwnPiece> = materials.own.iter().filter(|own| own.thread == *thread).collect();
        let lengths: Vec<&str> = own.iter().map(|own| own.length.as_str()).collect();
        let is_first = |at: usize| !lengths[..at].contains(&lengths[at]);
        items.extend((0..own.len()).filter(|at| is_first(*at)).map(|at| {
            let alike = own.iter().filter(|own| own.length == lengths[at]);
            own_pieces(teller, lengths[at], alike.map(|own| u64::from(own.count)).sum())
        }));
        let (name, items) = (script.name(*thread), words.list(&items));
        // Of one piece, the total is its length, only less exactly.
        let around: u64 = own.iter().map(|own| u64::from(own.count)).sum();
        if pieces.len().to_u64() + joined.len().to_u64() + around == 1 {
            return format!("{name}: {items}");
        }
        let total = words.length(total);
        fill_in(words.cut_line, &[("color", name), ("pieces", &items), ("total", &total)])
    };
    materials.totals.iter().map(line).collect()
}

/// A line a bead: how many, and how large.
pub(crate) fn bead_list(teller: &Teller<'_>) -> Vec<String> {
    let words = teller.words;
    let size = |millimeters: f64| words.length(&format!("{} mm", (millimeters * 10.0).round() / 10.0));
    let beads = teller.script.beads.iter().zip(teller.script.bead_counts()).filter(|(_, count)| *count > 0);
    let line = |(bead, count): (&crate::BandBead, u64)| {
        let values = [
            ("count", &*count.to_string()),
            ("bead", &bead.name),
            ("size", &size(bead.across)),
            ("hole", &size(bead.hole)),
        ];
        fill_in(words.beads.line, &values)
    };
    beads.map(line).collect()
}

/// Threads of one length with which joined strands go on.
fn joined_pieces(teller: &Teller<'_>, length: &str, pieces: &[&JoinedPiece]) -> String {
    let (words, count) = (teller.words, pieces.len().to_u64());
    let strands: Vec<String> = pieces.iter().map(|piece| (u16::from(piece.strand) + 1).to_string()).collect();
    let strands = fill_in(words.strand_numbers.of(count), &[("strands", &strands.join(", "))]);
    let values =
        [("count", &*teller.number(count)), ("length", &words.length(length)), ("strands", &strands)];
    fill_in(words.join.pieces.of(count), &values)
}

/// Threads of one length that go around an end.
fn own_pieces(teller: &Teller<'_>, length: &str, count: u64) -> String {
    let words = teller.words;
    let values = [("count", &*teller.number(count)), ("length", &words.length(length))];
    fill_in(words.ends.own_pieces.of(count), &values)
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
    let hanging = pieces.iter().map(|piece| piece.strands.len().to_u64()).sum();
    let strands = fill_in(words.strand_numbers.of(hanging), &[("strands", &words.list(&strands))]);
    let count = pieces.len().to_u64();
    let sentence = if is_folded { &words.folded_pieces } else { &words.pieces };
    let length = pieces.first().map_or("", |piece| piece.length.as_str());
    let values =
        [("count", &*teller.number(count)), ("length", &words.length(length)), ("strands", &strands)];
    fill_in(sentence.of(count), &values)
}

/// How to fasten and to sort the strands.
pub(crate) fn write_layout(teller: &Teller<'_>, options: &ProseOptions, document: &mut ProseDocument) {
    let (script, words) = (teller.script, teller.words);
    document.push(ProseBlock::Heading(2, words.layout.into()));
    let materials = script.materials.as_ref();
    let length = |of: Option<&String>| of.map_or_else(String::new, |length| words.length(length));
    let ends = length(materials.map(|materials| &materials.ends));
    let round = length(materials.and_then(|materials| materials.loop_length.as_ref()));
    let (sentence, pairs) = match &script.start {
        StrandStart::Loose => (words.hang_loose, None),
        StrandStart::Folded(pairs) => (words.hang_folded, Some(pairs)),
        StrandStart::Loop(pairs) => (words.hang_loop, Some(pairs)),
    };
    let sentence = if script.made.begin.is_some() { words.ends.fasten } else { sentence };
    // How long the ends are is not known before it is known how much thread is taken.
    if !script.has_wish() {
        document.text(fill_in(sentence, &[("ends", &ends), ("loop", &round)]));
    }
    if let Some(pairs) = pairs.filter(|pairs| !pairs.is_empty()) {
        let mut pairs =
            pairs.iter().map(|(one, other)| (*one.min(other), *one.max(other))).collect::<Vec<_>>();
        pairs.sort_unstable();
        let numbered = |(one, other): &(u8, u8)| format!("{}+{}", u16::from(*one) + 1, u16::from(*other) + 1);
        let pairs: Vec<String> = pairs.iter().map(numbered).collect();
        document.text(fill_in(words.pairs, &[("pairs", &words.list(&pairs))]));
    }
    describe_changes(teller).into_iter().for_each(|text| document.text(text));
    document.text(words.lay_out);
    let mut rows = vec![[words.head_left, words.head_right, words.head_thread].map(str::to_owned).to_vec()];
    let strands = script.strands.len();
    for (at, thread) in script.strands.iter().enumerate() {
        rows.push(vec![(at + 1).to_string(), (strands - at).to_string(), script.name(*thread).to_owned()]);
    }
    document.push(ProseBlock::Table(rows));
    let counting = match options.counting() {
        CountFrom::AsWritten => words.counting,
        CountFrom::FromRight => words.counting_from_right,
    };
    document.text(counting);
}

/// Of each thread that changes color along its length, its colors, and where its strands begin.
fn describe_changes(teller: &Teller<'_>) -> Vec<String> {
    let (script, words) = (teller.script, teller.words);
    let is_loose = script.start == StrandStart::Loose;
    let sentence = if is_loose { words.changes } else { words.changes_folded };
    let hangs = |thread: &u16| script.strands.contains(thread);
    let of = |(number, thread): (u16, &crate::BandThread)| {
        let colors: Vec<Rgb> = thread.shades.iter().map(|shade| shade.color).collect();
        let shade = |(shade, color): (&crate::ThreadShade, String)| {
            let length = words.length(&script.unit.finished(shade.length));
            fill_in(words.changes_for, &[("color", &color), ("length", &length)])
        };
        let colors: Vec<String> = thread.shades.iter().zip(words.name_colors(&colors)).map(shade).collect();
        fill_in(sentence, &[("color", script.name(number)), ("colors", &words.list(&colors))])
    };
    let changing = (0_u16..).zip(&script.threads).filter(|(_, thread)| !thread.shades.is_empty());
    changing.filter(|(number, _)| hangs(number)).map(of).collect()
}

/// How the knots that are there are tied.
pub(crate) fn write_knots(teller: &Teller<'_>, document: &mut ProseDocument) {
    let (words, kinds) = (teller.words, kinds(teller));
    if kinds.is_empty() && teller.script.has_wish() {
        return;
    }
    document.push(ProseBlock::Heading(2, words.knots.into()));
    document.text(words.hitch);
    let mut items: Vec<String> = kinds.iter().map(|kind| words.kind(*kind).how.to_owned()).collect();
    items.extend(meeting(teller).map(str::to_owned));
    document.push(ProseBlock::List(items));
    for kind in kinds {
        let name = words.kind(kind).name.to_owned();
        document.push(ProseBlock::Drawing { kind, title: drawing_title(teller, kind), name });
    }
}

/// How two strands are tied together, if any are: in a mirror, the right one ties.
fn meeting(teller: &Teller<'_>) -> Option<&'static str> {
    let met = |passage: &crate::Passage| {
        let at = passage.steps.iter().position(|step| step.named == Named::Meet)?;
        let knot = passage.ranges.get(at)?.start.to_usize();
        passage.piece.knots().get(knot).map(|knot| knot.kind)
    };
    let kind = teller.script.passages().find_map(met)?;
    Some(if kind == Kind::Backward { teller.words.meet_how_mirrored } else { teller.words.meet_how })
}

/// As figures of HTML, how each kind of knot that is there is tied.
pub(crate) fn write_figures(teller: &Teller<'_>) -> String {
    kinds(teller)
        .into_iter()
        .map(|kind| write_figure(kind, &drawing_title(teller, kind), teller.words.kind(kind).name))
        .collect()
}

fn drawing_title(teller: &Teller<'_>, kind: Kind) -> String {
    fill_in(teller.words.sheet.drawing, &[("kind", &capitalize(teller.words.kind(kind).name))])
}

/// The kinds of knots that are there.
fn kinds(teller: &Teller<'_>) -> Vec<Kind> {
    let script = teller.script;
    let is_there = |kind: &Kind| {
        let mut tied = script.passages().filter(|passage| passage.wish.is_none());
        tied.any(|passage| passage.piece.knots().iter().any(|knot| knot.kind == *kind))
    };
    let mut kinds = KINDS.to_vec();
    // Turning knots are described by halves of the others.
    let turns = is_there(&Kind::ForwardBackward) || is_there(&Kind::BackwardForward);
    kinds.retain(|kind| is_there(kind) || turns && kind.swaps());
    kinds
}
