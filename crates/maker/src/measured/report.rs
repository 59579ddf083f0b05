//! Measures for a person at a table with scissors: what is reported, however it is laid out.

use super::{Around, FigureBasis, Measured, Stop, list_strands};
use crate::escape_markdown;
use crate::lengths::LengthUnit;
use crate::{USUAL_LENGTH, USUAL_THICKNESS};
use knotwright_band::thread::{Cut, EndThread, OwnThread};
use knotwright_checker::USUAL_LANGUAGE;
use knotwright_numbers::ToNumber;
use knotwright_wording::digits::count;
use knotwright_wording::{both, length};

/// Where the report is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Medium {
    /// On a page, in an editor or a browser: what is wanted otherwise is written into the pattern.
    #[default]
    Page,
    /// At a terminal, where it can be typed as an option, too.
    Terminal,
}

/// What is reported of a measured band. Text of the pattern is in it unchanged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ThreadReport {
    /// The name of the band.
    pub title: String,
    /// How long and wide it becomes, and what that rests on: a sentence a line.
    pub head: Vec<String>,
    /// What to cut.
    pub tables: Vec<ReportTable>,
    /// How evenly thread is used, and what would help.
    pub advice: Vec<String>,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReportTable {
    /// What stands above it; nothing if it speaks for itself.
    pub caption: Option<&'static str>,
    /// The names of the columns, then the rows.
    pub rows: Vec<Vec<String>>,
    /// The columns with words; those with numbers end in line.
    pub words: &'static [usize],
}

/// What is reported of a measured band.
pub fn report_measured(measured: &Measured, unit: LengthUnit, reader: Medium) -> ThreadReport {
    let tables = [
        Some(strands_table(measured, unit)),
        folded_table(measured, unit),
        joined_table(measured, unit),
        own_table(measured, unit),
        Some(colors_table(measured, unit)),
        beads_table(measured),
    ];
    ThreadReport {
        title: measured.pattern.title.in_language(USUAL_LANGUAGE).to_owned(),
        head: head(measured, unit, reader),
        tables: tables.into_iter().flatten().collect(),
        advice: advice(measured, unit, reader),
    }
}

impl ThreadReport {
    /// As Markdown.
    pub fn markdown(&self) -> String {
        let mut parts = vec![format!("# {}", escape_markdown(&self.title))];
        parts.extend(self.head.iter().map(|line| escape_markdown(line)));
        for table in &self.tables {
            parts.extend(table.caption.map(escape_markdown));
            parts.push(table.markdown());
        }
        parts.extend(self.advice.iter().map(|line| escape_markdown(line)));
        parts.join("\n\n") + "\n"
    }
}

impl ReportTable {
    pub(crate) fn markdown(&self) -> String {
        let line = |cells: &[String]| {
            format!("| {} |", cells.iter().map(|cell| escape_markdown(cell)).collect::<Vec<_>>().join(" | "))
        };
        let mut rows = self.rows.iter();
        let head = rows.next().map_or(&[][..], Vec::as_slice);
        let rule = (0..head.len())
            .map(|column| if self.words.contains(&column) { ":--".to_owned() } else { "--:".to_owned() });
        let under = line(&rule.collect::<Vec<_>>());
        [line(head), under].into_iter().chain(rows.map(|row| line(row))).collect::<Vec<_>>().join("\n")
    }
}

fn head(measured: &Measured, unit: LengthUnit, reader: Medium) -> Vec<String> {
    let said = [
        Some(describe_size(measured, unit)),
        overlap(measured),
        measured.length_assumed.then(|| assumed(reader)),
        measured.around.map(|around| wrist(around, unit)),
        measured.stop.as_ref().map(|at| stop(measured, at, unit)),
        Some(describe_basis(measured, reader)),
        ends(measured, unit, reader),
        made(measured, unit),
        skein(measured, reader),
    ];
    said.into_iter().flatten().collect()
}

/// Why the rows of the sets do not add up.
fn overlap(measured: &Measured) -> Option<String> {
    let rows = count(measured.rows_of_set()?, "row");
    Some(format!("A set alone has {rows}; each begins in the last rows of the one before it."))
}

fn assumed(reader: Medium) -> String {
    let otherwise = match reader {
        Medium::Page => "write a line such as `length 18 cm`",
        Medium::Terminal => "use `--length`, `--sets` or `--wrist`, or write `length` in the pattern",
    };
    let usual = length(USUAL_LENGTH);
    format!(
        "The pattern does not say how long it is to be: this is for {usual}, or one set if that is longer (common \
         practice, no source). To change it, {otherwise}."
    )
}

fn wrist(around: Around, unit: LengthUnit) -> String {
    format!(
        "For a wrist of {}: with {} of room, less {} where it is closed, {} are to be knotted (room and closure: common \
         practice, no source).",
        unit.finished(around.wrist),
        unit.finished(around.room),
        unit.finished(around.closure),
        unit.finished(around.knotted())
    )
}

/// The place to stop within a set.
fn stop(measured: &Measured, at: &Stop, unit: LengthUnit) -> String {
    let names: Vec<&str> = at.threads.iter().map(|thread| measured.name(*thread)).collect();
    let groups = names.chunk_by(|one, other| one == other).map(|group| match group {
        [one] => (*one).to_owned(),
        [one, ..] => format!("{} {one}", group.len()),
        [] => String::new(),
    });
    let whole = match at.sets {
        0 => "stop in the first set".to_owned(),
        sets => format!("tie {} and stop in the next one", count(sets, "set")),
    };
    format!(
        "To come nearer to that length, {whole} after {} of its {}, where the strands hang {}: {}.",
        at.steps,
        count(at.of.to_u64(), "step"),
        groups.collect::<Vec<_>>().join(", "),
        unit.finished(at.length)
    )
}

/// As thread is sold: "8 m", "0.9 m".
pub(crate) fn meters(millimeters: f64) -> String {
    let text = format!("{:.1}", millimeters / 1000.0);
    format!("{} m", text.strip_suffix(".0").unwrap_or(&text))
}

/// Pieces that are longer than what thread is sold in.
fn skein(measured: &Measured, reader: Medium) -> Option<String> {
    let longer = measured.longer_than_skein();
    if longer.is_empty() {
        return None;
    }
    let numbers: Vec<String> = longer.iter().map(|strand| (strand + 1).to_string()).collect();
    let what = if longer.len() == 1 { "Strand" } else { "Strands" };
    let source = if measured.skein.1 { " (common practice, no source)" } else { "" };
    Some(format!(
        "{what} {} cannot be cut from a skein of {}{source}: look for longer skeins, tie fewer sets, or join {}; {} finds \
         the places.",
        both(&numbers),
        meters(measured.skein.0),
        if longer.len() == 1 { "it" } else { "them" },
        match reader {
            Medium::Terminal => format!("`--longest {:.0}cm`", measured.skein.0 / 10.0),
            Medium::Page => "\"Join the strands that are longer than a skein\" in an editor".to_owned(),
        }
    ))
}

/// How often the set is tied, and how large the band becomes.
pub(crate) fn describe_size(measured: &Measured, unit: LengthUnit) -> String {
    let sets = count(measured.sets, "set");
    let sets = if measured.pattern.set.is_some() { sets } else { "no set".to_owned() };
    let rows = count(measured.whole.rows, "row");
    let off = measured.figures.length_uncertainty;
    let sized = |millimeters: f64| {
        let between = unit.finished_between(millimeters * (1.0 - off), millimeters * (1.0 + off));
        format!("{} ({between})", unit.finished(millimeters))
    };
    format!("{sets}, {rows}: {} long, {} wide", sized(measured.length()), sized(measured.width()))
}

/// What the lengths rest on.
pub(crate) fn describe_basis(measured: &Measured, reader: Medium) -> String {
    let knows_better = match reader {
        Medium::Page => "To name one, write a line such as `gauge { thickness 1 mm }`.",
        Medium::Terminal => "To name one, write a `gauge` in the pattern, or use `--thickness`.",
    };
    let off = (measured.figures.uncertainty * 100.0).round();
    match measured.basis {
        FigureBasis::Swatch
            if measured.gauge.knots_use.is_some() && measured.gauge.rows_measure.is_some() =>
        {
            format!("Estimated from the swatch in the gauge; accurate to about {off}%.")
        }
        FigureBasis::Swatch => format!(
            "Estimated from the swatch in the gauge; accurate to about {off}%, as only knots and rows together say more: \
             measure both, `10 knots use ... mm` and `20 rows measure ... mm`."
        ),
        FigureBasis::Thickness(thickness) => format!(
            "Estimated for {thickness} mm thread; accurate to about {off}%. A swatch is better: tie one, and write \
             `10 knots use ... mm` and `20 rows measure ... mm` in the gauge."
        ),
        FigureBasis::Assumed => format!(
            "Estimated for {USUAL_THICKNESS} mm thread (the pattern names none); accurate to about {off}%. {knows_better}"
        ),
    }
}

fn ends(measured: &Measured, unit: LengthUnit, reader: Medium) -> Option<String> {
    let held = &measured.held;
    let ends = unit.finished(held.ends);
    let place = match (held.free, held.begin.is_some() || held.finish.is_some()) {
        (0, _) => return None,
        (1, true) => "at the other end",
        _ => "at each end",
    };
    let knots = match held.knots {
        1 => "A knot of all strands holds".to_owned(),
        _ => "Two knots of all strands hold".to_owned(),
    };
    let otherwise = match (measured.ends_assumed, reader) {
        (false, _) => "",
        (true, Medium::Page) => {
            " (the usual length, as the pattern gives none; to change it, write a line such as `ends 12 cm`)"
        }
        (true, Medium::Terminal) => {
            " (the usual length, as the pattern gives none; to change it, write `ends` in the pattern, or use `--ends`)"
        }
    };
    let knot = unit.finished(held.knot);
    Some(format!(
        "{ends} is left free {place}{otherwise}. {knots} the ends: {knot} of every strand for each (common practice, no source)."
    ))
}

/// What is made at the ends that the pattern describes.
fn made(measured: &Measured, unit: LengthUnit) -> Option<String> {
    let held = &measured.held;
    let takes =
        |what: &str, end: &EndThread| format!("{what} {} of every strand", unit.finished(end.of_each));
    let begin = held.begin.as_ref().map(|end| takes("The beginning takes", end));
    let verb = if begin.is_some() { "the end" } else { "The end takes" };
    let finish = held.finish.as_ref().map(|end| takes(verb, end));
    let said: Vec<String> = begin.into_iter().chain(finish).collect();
    (!said.is_empty())
        .then(|| format!("{} (plaits, twists and knots: common practice, no source).", both(&said)))
}

fn strands_table(measured: &Measured, unit: LengthUnit) -> ReportTable {
    let head = ["strand", "color", "ties", "is tied over", "idle rows", "needs", "cut"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for (strand, (of, length)) in measured.whole.uses.iter().zip(&measured.lengths).enumerate() {
        rows.push(vec![
            (strand + 1).to_string(),
            measured.thread_of(strand).to_owned(),
            of.working.to_string(),
            of.base.to_string(),
            of.idle_rows(measured.whole.rows).to_string(),
            unit.needed(length.low, length.high),
            unit.cut(measured.cuts.get(strand).copied().unwrap_or_default()),
        ]);
    }
    ReportTable { caption: None, rows, words: &[1] }
}

/// The threads that are folded in two, if there are some.
fn folded_table(measured: &Measured, unit: LengthUnit) -> Option<ReportTable> {
    let is_folded = |cut: &&Cut| matches!(cut, Cut::Folded { .. });
    measured.pieces.iter().find(is_folded)?;
    let caption = Some("Threads to cut; two strands are one thread, folded in its middle:");
    Some(ReportTable { caption, ..strand_rows(measured, unit) })
}

/// Every piece to cut.
pub(crate) fn cut_rows(measured: &Measured, unit: LengthUnit) -> ReportTable {
    let mut table = strand_rows(measured, unit);
    for piece in &measured.joined {
        let strand = format!("{}, piece {}", piece.strand + 1, piece.number + 1);
        table.rows.push(vec![strand, measured.name(piece.thread).to_owned(), unit.cut(piece.cut)]);
    }
    for (name, count, cut) in own_rows(measured, unit) {
        table.rows.extend((0..count).map(|_| vec!["around an end".to_owned(), name.clone(), cut.clone()]));
    }
    table
}

/// Every piece of which strands are.
fn strand_rows(measured: &Measured, unit: LengthUnit) -> ReportTable {
    let mut rows = vec![["strands", "color", "cut"].map(str::to_owned).to_vec()];
    for &cut in &measured.pieces {
        let of: Vec<String> = list_strands(cut).iter().map(|strand| (strand + 1).to_string()).collect();
        let name = measured.thread_of(usize::from(super::first_strand(cut))).to_owned();
        rows.push(vec![of.join(" and "), name, unit.cut(cut.length())]);
    }
    ReportTable { caption: None, rows, words: &[0, 1] }
}

/// The pieces of strands that are joined, if there are some.
fn joined_table(measured: &Measured, unit: LengthUnit) -> Option<ReportTable> {
    if measured.joined.is_empty() {
        return None;
    }
    let caption = Some(
        "Threads to cut for strands that are joined, each with 5 cm over at a join (common practice, no source):",
    );
    let mut rows = vec![["strand", "piece", "color", "needs", "cut"].map(str::to_owned).to_vec()];
    rows.extend(measured.of_joined_strands().map(|piece| {
        vec![
            (piece.strand + 1).to_string(),
            (piece.number + 1).to_string(),
            measured.name(piece.thread).to_owned(),
            unit.needed(piece.need.low, piece.need.high),
            unit.cut(piece.cut),
        ]
    }));
    Some(ReportTable { caption, rows, words: &[2] })
}

/// The threads that go around the ends, if there are some.
fn own_table(measured: &Measured, unit: LengthUnit) -> Option<ReportTable> {
    if measured.own.is_empty() {
        return None;
    }
    let caption = Some("Threads to cut that go around the ends:");
    let mut rows = vec![["color", "pieces", "cut"].map(str::to_owned).to_vec()];
    rows.extend(
        own_rows(measured, unit).into_iter().map(|(name, own, cut)| vec![name, own.to_string(), cut]),
    );
    Some(ReportTable { caption, rows, words: &[0] })
}

fn beads_table(measured: &Measured) -> Option<ReportTable> {
    let mut rows = vec![["bead", "size", "in all"].map(str::to_owned).to_vec()];
    rows.extend(measured.bead_counts().map(|(bead, count)| {
        let size = format!("{} mm", (bead.across * 10.0).round() / 10.0);
        vec![bead.look.name.to_string(), size, count.to_string()]
    }));
    (rows.len() > 1).then_some(ReportTable { caption: Some("Beads:"), rows, words: &[0] })
}

/// By thread that goes around an end: its name, how many pieces, how long each is cut.
fn own_rows(measured: &Measured, unit: LengthUnit) -> Vec<(String, u32, String)> {
    let row = |own: &OwnThread| (measured.name(own.thread).to_owned(), own.count, unit.cut(own.length));
    measured.own.iter().map(row).collect()
}

fn colors_table(measured: &Measured, unit: LengthUnit) -> ReportTable {
    let mut rows = vec![["color", "strands", "in all"].map(str::to_owned).to_vec()];
    for (thread, strands, _, length) in measured.by_color() {
        rows.push(vec![measured.name(thread).to_owned(), strands.to_string(), unit.bought(length)]);
    }
    ReportTable { caption: None, rows, words: &[0] }
}

/// How evenly thread is used, and what would help.
fn advice(measured: &Measured, unit: LengthUnit, reader: Medium) -> Vec<String> {
    if !measured.joined.is_empty() {
        return Vec::new();
    }
    let mut said: Vec<String> = evenly(measured, unit).into_iter().collect();
    if let Some(saving) = measured.saving {
        let command = match reader {
            Medium::Page => "`knotwright plan --balance`, at a terminal,",
            Medium::Terminal => "`knotwright plan --balance`",
        };
        said.push(format!(
            "If the other strand tied {} of each set that lie between two strands of one color, the longest strand \
             would be {} in place of {}: {command} writes that pattern.",
            count(saving.turned.to_u64(), "knot"),
            unit.cut(saving.after),
            unit.cut(saving.before)
        ));
    }
    said
}

/// How evenly thread is used; what is folded is cut at the length of both halves.
fn evenly(measured: &Measured, unit: LengthUnit) -> Option<String> {
    let is_folded = |cut: &Cut| matches!(cut, Cut::Folded { .. });
    let folded = measured.pieces.iter().filter(|cut| is_folded(cut)).count();
    let is_all = folded == measured.pieces.len();
    let pieces = || measured.pieces.iter().map(|cut| cut.length()).collect();
    let cuts: Vec<f64> = if folded > 0 && is_all { pieces() } else { measured.cuts.clone() };
    let most = (0..cuts.len()).max_by(|a, b| cuts[*a].total_cmp(&cuts[*b]).then(b.cmp(a))).unwrap_or(0);
    let least = (0..cuts.len()).min_by(|a, b| cuts[*a].total_cmp(&cuts[*b])).unwrap_or(0);
    let waste = measured.waste_cut_alike();
    let (alike, over) = (unit.cut(cuts.get(most).copied().unwrap_or_default()), unit.bought(waste));
    let is_even = waste < 10.0 * cuts.len().to_f64();
    let strands = |thread: usize| {
        let strands = measured.pieces.get(thread).map(|cut| list_strands(*cut)).unwrap_or_default();
        both(&strands.iter().map(|strand| (strand + 1).to_string()).collect::<Vec<_>>())
    };
    Some(match (folded, is_even) {
        (0, true) => format!("All strands need about the same: cut each at {alike}."),
        (0, false) => format!(
            "Strand {} needs most and strand {} least. To cut all alike, each at {alike}, would leave {over} over.",
            most + 1,
            least + 1
        ),
        (_, true) if is_all => {
            format!("All threads need about the same: cut each at {alike}, and fold it in its middle.")
        }
        (_, false) if is_all => format!(
            "The folded thread of strands {} needs most and that of strands {} least. To cut all threads alike, each at \
             {alike}, would leave {over} over.",
            strands(most),
            strands(least)
        ),
        (_, false) => format!("Strand {} needs most and strand {} least.", most + 1, least + 1),
        (_, true) => return None,
    })
}
