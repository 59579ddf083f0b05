//! Measures for a person at a table with scissors: what is told, however it is laid out.

use super::by_thread::by_thread;
use super::{Basis, Measured, ThreadCut, USUAL_THICKNESS, strands};
use crate::escaped;
use crate::lengths::Unit;
use knotwright_band::thread::{Cut, cut_alike};

/// Where what is told is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Reader {
    /// On a page, in an editor or a browser: what is wanted otherwise is written into the pattern.
    #[default]
    Page,
    /// At a terminal, where it can be typed as an option, too.
    Terminal,
}

/// What is told of a measured band. Text of the pattern stands in it as it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// The name of the band.
    pub title: String,
    /// How long and wide it becomes, and what that rests on: a sentence a line.
    pub head: Vec<String>,
    /// What to cut.
    pub tables: Vec<ToldTable>,
    /// The same thread by thread, for where there is no room for tables.
    pub threads: Vec<ThreadCut>,
    /// How evenly thread is used, and what would help.
    pub advice: Vec<String>,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldTable {
    /// What stands above it; nothing if it speaks for itself.
    pub caption: Option<&'static str>,
    /// The names of the columns, then the rows.
    pub rows: Vec<Vec<String>>,
    /// The columns with words; those with numbers end in line.
    pub words: &'static [usize],
}

/// What is told of a measured band.
pub fn told(measured: &Measured, unit: Unit, reader: Reader) -> Told {
    let tables = [
        Some(strands_table(measured, unit)),
        folded_table(measured, unit),
        Some(colors_table(measured, unit)),
    ];
    Told {
        title: measured.pattern.title.clone(),
        head: vec![size(measured, unit), basis(measured, reader), ends(measured, (unit, reader))],
        tables: tables.into_iter().flatten().collect(),
        threads: by_thread(measured, unit),
        advice: advice(measured, (unit, reader)),
    }
}

impl Told {
    /// As Markdown.
    pub fn markdown(&self) -> String {
        let mut parts = vec![format!("# {}", escaped(&self.title))];
        parts.extend(self.head.iter().map(|line| escaped(line)));
        for table in &self.tables {
            parts.extend(table.caption.map(escaped));
            parts.push(table.markdown());
        }
        parts.extend(self.advice.iter().map(|line| escaped(line)));
        parts.join("\n\n") + "\n"
    }
}

impl ToldTable {
    fn markdown(&self) -> String {
        let line = |cells: &[String]| {
            format!("| {} |", cells.iter().map(|cell| escaped(cell)).collect::<Vec<_>>().join(" | "))
        };
        let mut rows = self.rows.iter();
        let head = rows.next().map_or(&[][..], Vec::as_slice);
        let rule = (0..head.len())
            .map(|column| if self.words.contains(&column) { ":--".to_owned() } else { "--:".to_owned() });
        let under = line(&rule.collect::<Vec<_>>());
        [line(head), under].into_iter().chain(rows.map(|row| line(row))).collect::<Vec<_>>().join("\n")
    }
}

fn size(measured: &Measured, unit: Unit) -> String {
    let sets = counted(measured.sets, "set");
    let sets = if measured.pattern.set.is_some() { sets } else { "no set".to_owned() };
    let rows = counted(measured.reckoning.rows, "row");
    let (length, width) = (unit.finished(measured.length()), unit.finished(measured.width()));
    format!("{sets}, {rows}: {length} long, {width} wide")
}

fn basis(measured: &Measured, reader: Reader) -> String {
    let knows_better = match reader {
        Reader::Page => "A line in it knows better, such as `gauge { thickness 1 mm }`.",
        Reader::Terminal => "A `gauge` in it, or `--thickness`, knows better.",
    };
    let off = (measured.figures.uncertainty * 100.0).round();
    match measured.basis {
        Basis::Swatch => format!("Reckoned from the swatch in the gauge, good to about {off} %."),
        Basis::Thickness(thickness) => format!(
            "Reckoned from thread {thickness} mm thick, good to about {off} %. A swatch is better: tie some knots, and \
             write `10 knots use ... mm` in the gauge."
        ),
        Basis::Assumed => format!(
            "The pattern says nothing of its thread: taken to be {USUAL_THICKNESS} mm thick, and good to about {off} % \
             if it is. {knows_better}"
        ),
    }
}

fn ends(measured: &Measured, (unit, reader): (Unit, Reader)) -> String {
    let ends = unit.finished(measured.ends);
    let otherwise = match (measured.ends_assumed, reader) {
        (false, _) => "",
        (true, Reader::Page) => {
            ", as the pattern does not say; a line such as `ends 12 cm` in it says otherwise"
        }
        (true, Reader::Terminal) => {
            ", as the pattern does not say; `ends` in it, or `--ends`, says otherwise"
        }
    };
    format!("{ends} is left free at each end{otherwise}.")
}

fn strands_table(measured: &Measured, unit: Unit) -> ToldTable {
    let head = ["strand", "color", "ties", "is tied over", "idle rows", "needs", "cut"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for (strand, (of, length)) in measured.reckoning.uses.iter().zip(&measured.lengths).enumerate() {
        rows.push(vec![
            (strand + 1).to_string(),
            measured.thread_of(strand).to_owned(),
            of.working.to_string(),
            of.base.to_string(),
            of.idle_rows(measured.reckoning.rows).to_string(),
            unit.cut_between(length.low, length.high),
            unit.cut(length.cut),
        ]);
    }
    ToldTable { caption: None, rows, words: &[1] }
}

/// The threads that are folded in two, if there are some.
fn folded_table(measured: &Measured, unit: Unit) -> Option<ToldTable> {
    let is_folded = |cut: &&Cut| matches!(cut, Cut::Folded { .. });
    measured.pieces.iter().find(is_folded)?;
    let mut rows = vec![["strands", "color", "cut"].map(str::to_owned).to_vec()];
    for &cut in &measured.pieces {
        let of: Vec<String> = strands(cut).iter().map(|strand| (strand + 1).to_string()).collect();
        let name = measured.thread_of(usize::from(super::first(cut))).to_owned();
        rows.push(vec![of.join(" and "), name, unit.cut(cut.length())]);
    }
    let caption = Some("Threads to cut; two strands are one thread, folded in its middle:");
    Some(ToldTable { caption, rows, words: &[0, 1] })
}

fn colors_table(measured: &Measured, unit: Unit) -> ToldTable {
    let mut rows = vec![["color", "strands", "in all"].map(str::to_owned).to_vec()];
    for (thread, strands, _, length) in measured.by_color() {
        let name = measured.pattern.threads.get(usize::from(thread)).map_or("", |of| of.name.as_str());
        rows.push(vec![name.to_owned(), strands.to_string(), unit.bought(length)]);
    }
    ToldTable { caption: None, rows, words: &[0] }
}

/// How evenly thread is used, and what would help.
fn advice(measured: &Measured, (unit, reader): (Unit, Reader)) -> Vec<String> {
    let cuts = measured.cuts();
    let most = (0..cuts.len()).max_by(|a, b| cuts[*a].total_cmp(&cuts[*b]).then(b.cmp(a))).unwrap_or(0);
    let least = (0..cuts.len()).min_by(|a, b| cuts[*a].total_cmp(&cuts[*b])).unwrap_or(0);
    let waste = cut_alike(&cuts);
    let alike = unit.cut(cuts.get(most).copied().unwrap_or_default());
    let mut said = vec![if waste < 10.0 * cuts.len() as f64 {
        format!("All strands need about the same: cut each at {alike}.")
    } else {
        format!(
            "Strand {} needs most and strand {} least. To cut all alike, each at {alike}, would leave {} over.",
            most + 1,
            least + 1,
            unit.bought(waste)
        )
    }];
    if let Some(saving) = measured.saving {
        let command = match reader {
            Reader::Page => "`knotwright plan --balance`, at a terminal,",
            Reader::Terminal => "`knotwright plan --balance`",
        };
        said.push(format!(
            "If the other strand tied {} of each set that lie between two strands of one color, the longest strand \
             would be {} in place of {}: {command} writes that pattern.",
            counted(saving.turned as u64, "knot"),
            unit.cut(saving.after),
            unit.cut(saving.before)
        ));
    }
    said
}

/// `1 set`, `2 sets`.
pub fn counted(count: u64, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
