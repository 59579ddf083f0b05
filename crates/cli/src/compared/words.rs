//! A comparison for a person.

use super::thread::is_with_one_set;
use super::{Compared, Detail, PartChange, Verdict};
use crate::visible::on_one_line;
use knotwright_band::Kind;
use knotwright_band::compare::UpTo;
use knotwright_maker::LengthUnit;
use knotwright_numbers::ToNumber;
use knotwright_wording::digits;

/// The most letters of a text that are shown.
const LONGEST_TEXT: usize = 80;

/// The most knots of each sort that are listed.
const MOST_LISTED: usize = 12;

/// The whole answer.
pub(crate) fn text(compared: &Compared) -> String {
    format!("{}\n{}", verdict(compared), changes(compared))
}

/// What changed, without the names of the two.
pub(crate) fn changes(compared: &Compared) -> String {
    let mut out = String::new();
    for part in compared.parts.iter().filter(|part| part.is_change()) {
        out += &format!("\n{}\n", headline(part));
        listed(part).iter().for_each(|line| out += &format!("  {line}\n"));
        follows(part).iter().for_each(|line| out += &format!("  {line}\n"));
    }
    for line in besides(compared) {
        out += &format!("\n{line}\n");
    }
    if !compared.details.is_empty() {
        let lines: Vec<String> = compared.details.iter().map(detail).collect();
        out += &format!("\n{}\n", lines.join("\n"));
    }
    out
}

/// One sentence.
pub(super) fn verdict(compared: &Compared) -> String {
    let [one, other] = [&compared.one, &compared.other].map(|band| on_one_line(&band.file.shown));
    let strands = [&compared.one, &compared.other].map(|band| band.pattern.strands.len());
    match compared.verdict {
        Verdict::Same => format!("{one} and {other} are the same band."),
        Verdict::SameLook => {
            format!("{one} and {other} look the same, but are tied with other knots.")
        }
        Verdict::Different if strands[0] != strands[1] => {
            format!("{one} and {other} are different bands: {} strands, and {}.", strands[0], strands[1])
        }
        Verdict::Different => format!("{one} and {other} are different bands."),
    }
}

/// `set: 2 knots changed, 1 added`.
pub(crate) fn headline(part: &PartChange) -> String {
    let edits = &part.edits;
    let counts = [
        (edits.changed.len(), "changed"),
        (edits.moved.len(), "moved"),
        (edits.removed.len(), "removed"),
        (edits.added.len(), "added"),
    ];
    let mut said = Vec::new();
    for (count, what) in counts.into_iter().filter(|(count, _)| *count > 0) {
        let count = if said.is_empty() { digits::count(count.to_u64(), "knot") } else { count.to_string() };
        said.push(format!("{count} {what}"));
    }
    let said = if said.is_empty() { "the same knots, in other colors".to_owned() } else { said.join(", ") };
    let least = if edits.fewest { "" } else { " (there may be fewer: the bands are very different)" };
    format!("{}: {said}{least}", part.part.word())
}

/// The knots, row by row.
pub(super) fn listed(part: &PartChange) -> Vec<String> {
    let edits = &part.edits;
    let kind = |band: usize, knot: u32| kind(part.pieces[band].knots()[knot.to_usize()].kind);
    let mut lines = Vec::new();
    let changed = edits
        .changed
        .iter()
        .map(|&(a, b)| format!("changed  {}: {}, now {}", place(part, 0, a), kind(0, a), kind(1, b)));
    let moved = edits
        .moved
        .iter()
        .map(|&(a, b)| format!("moved    {}: {}, now {}", place(part, 0, a), kind(0, a), gap(part, 1, b)));
    let removed = edits.removed.iter().map(|&a| format!("removed  {}: {}", place(part, 0, a), kind(0, a)));
    let added = edits.added.iter().map(|&b| format!("added    {}: {}", place(part, 1, b), kind(1, b)));
    for (count, sort) in [
        (edits.changed.len(), changed.take(MOST_LISTED).collect::<Vec<_>>()),
        (edits.moved.len(), moved.take(MOST_LISTED).collect()),
        (edits.removed.len(), removed.take(MOST_LISTED).collect()),
        (edits.added.len(), added.take(MOST_LISTED).collect()),
    ] {
        let more = count - sort.len();
        lines.extend(sort);
        if more > 0 {
            lines.push(format!("         and {more} more"));
        }
    }
    lines
}

fn place(part: &PartChange, band: usize, knot: u32) -> String {
    format!("row {}, {}", part.rows[band][knot.to_usize()] + 1, gap(part, band, knot))
}

fn gap(part: &PartChange, band: usize, knot: u32) -> String {
    let gap = part.pieces[band].knots()[knot.to_usize()].gap;
    format!("between places {} and {}", gap + 1, gap + 2)
}

fn kind(kind: Kind) -> &'static str {
    knotwright_rewriter::write_kind(kind)
}

/// What follows from the edits of a part.
pub(super) fn follows(part: &PartChange) -> Vec<String> {
    let follows = &part.follows;
    let places = |positions: &mut dyn Iterator<Item = u8>| {
        positions.map(|position| (position + 1).to_string()).collect::<Vec<_>>().join(", ")
    };
    let mut said = Vec::new();
    if !follows.start.is_empty() {
        said.push(format!("It begins with other colors at {}.", places(&mut follows.start.iter().copied())));
    }
    if !follows.moved.is_empty() {
        let moved = places(&mut follows.moved.iter().map(|moved| moved.position));
        let from = follows.from_row.map_or(String::new(), |row| format!(" from row {} on", row + 1));
        said.push(format!("Strands change places{from}: in the end, another strand hangs at {moved}."));
    }
    if follows.recolored > 0 {
        let knots = digits::count(follows.recolored.to_u64(), "knot");
        let show = if follows.recolored == 1 { "shows" } else { "show" };
        said.push(format!("{knots} that both bands have {show} another color."));
    }
    said
}

/// What is to be said of the whole.
pub(super) fn besides(compared: &Compared) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(set) = compared.later_set {
        said.push(format!(
            "The first sets are alike; set {} is not, as strands are picked by color.",
            set + 1
        ));
    }
    if let Some(up_to) = &compared.up_to {
        said.push(same_up_to(compared, up_to));
    }
    if !compared.threads.is_empty() {
        let one = |change: &super::ThreadChange| {
            let length =
                |length: f64| if length > 0.0 { LengthUnit::Cm.cut(length) } else { "none".to_owned() };
            let (before, after) = (length(change.before), length(change.after));
            format!("{} {before}, now {after}", compared.palette.name(change.color))
        };
        let changes: Vec<String> = compared.threads.iter().map(one).collect();
        let one_set = is_with_one_set(&compared.one, &compared.other);
        let with = if one_set { ", with one set" } else { "" };
        said.push(format!("Thread to cut{with}: {}.", changes.join("; ")));
    }
    said
}

/// `Title: "Low tide", now "High tide".`
pub(crate) fn detail(detail: &Detail) -> String {
    let what = match &detail.name {
        Some(part) if detail.is_about_tying() => format!("{} in the {part}", detail.what),
        Some(name) => format!("{} {}", detail.what, on_one_line(name)),
        None => detail.what.to_owned(),
    };
    let mut letters = what.chars();
    let what: String =
        letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
    match (detail.before.as_deref().map(shortened), detail.after.as_deref().map(shortened)) {
        (Some(before), Some(after)) => format!("{what}: {before}, now {after}."),
        (Some(before), None) => format!("{what}: {before}, removed."),
        (None, Some(after)) => format!("{what}: {after}, added."),
        (None, None) => format!("{what}: changed."),
    }
}

/// The beginning of a long text.
fn shortened(text: &str) -> String {
    let line = on_one_line(text);
    match line.char_indices().nth(LONGEST_TEXT) {
        Some((end, _)) => format!("{} ...", line[..end].trim_end()),
        None => line,
    }
}

fn same_up_to(compared: &Compared, up_to: &UpTo) -> String {
    let mut how = Vec::new();
    if up_to.mirrored {
        how.push("is mirrored".to_owned());
    }
    let exchanged: Vec<String> = up_to
        .recolored
        .iter()
        .filter(|(from, to)| from != to)
        .map(|(from, to)| format!("{} for {}", compared.palette.name(*to), compared.palette.name(*from)))
        .collect();
    if !exchanged.is_empty() {
        how.push(format!("has other colors ({})", exchanged.join(", ")));
    }
    if let Some(turned) = &up_to.turned {
        let sets = if turned.sets > 0 {
            format!(", {} later", digits::count(turned.sets, "set"))
        } else {
            String::new()
        };
        how.push(format!("begins in row {} of the first{sets}", turned.row + 1));
    }
    format!("The second set is the first one again, but {}.", how.join(" and "))
}
