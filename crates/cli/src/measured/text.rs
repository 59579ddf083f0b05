//! Measures for a person at a table with scissors.

use super::{Basis, Measured, USUAL_THICKNESS, strands};
use crate::lengths::Unit;
use crate::table::table;
use crate::visible::on_one_line;
use knotwright_band::thread::{Cut, cut_alike};

/// The whole answer. Text from the pattern is made visible.
pub(crate) fn text(measured: &Measured, unit: Unit) -> String {
    let mut parts = vec![head(measured, unit), strands_table(measured, unit)];
    parts.extend(folded_table(measured, unit));
    parts.push(colors_table(measured, unit));
    parts.push(advice(measured, unit));
    parts.join("\n")
}

fn head(measured: &Measured, unit: Unit) -> String {
    let sets = counted(measured.sets, "set");
    let sets = if measured.pattern.set.is_some() { sets } else { "no set".to_owned() };
    let rows = counted(measured.reckoning.rows, "row");
    let (length, width) = (unit.finished(measured.length()), unit.finished(measured.width()));
    let title = on_one_line(&measured.pattern.title);
    format!(
        "{title}\n{sets}, {rows}: {length} long, {width} wide\n{}\n{}\n",
        basis(measured),
        ends(measured, unit)
    )
}

fn basis(measured: &Measured) -> String {
    let off = (measured.figures.uncertainty * 100.0).round();
    match measured.basis {
        Basis::Swatch => format!("Reckoned from the swatch in the gauge, good to about {off} %."),
        Basis::Thickness(thickness) => format!(
            "Reckoned from thread {thickness} mm thick, good to about {off} %. A swatch is better: tie some knots, and \
             write `10 knots use ... mm` in the gauge."
        ),
        Basis::Assumed => format!(
            "The pattern says nothing of its thread: taken to be {USUAL_THICKNESS} mm thick, and good to about {off} % \
             if it is. `--thickness` or a `gauge` knows better."
        ),
    }
}

fn ends(measured: &Measured, unit: Unit) -> String {
    let ends = unit.finished(measured.ends);
    if measured.ends_assumed {
        format!("{ends} is left free at each end, as the pattern does not say; `--ends` says otherwise.")
    } else {
        format!("{ends} is left free at each end.")
    }
}

fn strands_table(measured: &Measured, unit: Unit) -> String {
    let head = ["strand", "color", "ties", "is tied over", "idle rows", "needs", "cut"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for (strand, (of, length)) in measured.reckoning.uses.iter().zip(&measured.lengths).enumerate() {
        rows.push(vec![
            (strand + 1).to_string(),
            measured.thread_of(strand).to_owned(),
            of.working.to_string(),
            of.base.to_string(),
            of.idle_rows(measured.reckoning.rows).to_string(),
            range(unit, length.low, length.high),
            unit.cut(length.cut),
        ]);
    }
    table(&rows, &[1])
}

/// `61 to 89 cm`.
fn range(unit: Unit, low: f64, high: f64) -> String {
    let low = unit.cut(low);
    format!("{} to {}", low.split(' ').next().unwrap_or_default(), unit.cut(high))
}

/// The threads that are folded in two, if there are some.
fn folded_table(measured: &Measured, unit: Unit) -> Option<String> {
    let is_folded = |cut: &&Cut| matches!(cut, Cut::Folded { .. });
    measured.pieces.iter().find(is_folded)?;
    let mut rows = vec![["strands", "color", "cut"].map(str::to_owned).to_vec()];
    for &cut in &measured.pieces {
        let of: Vec<String> = strands(cut).iter().map(|strand| (strand + 1).to_string()).collect();
        let name = measured.thread_of(usize::from(super::first(cut))).to_owned();
        rows.push(vec![of.join(" and "), name, unit.cut(cut.length())]);
    }
    Some(format!(
        "Threads to cut; two strands are one thread, folded in its middle:\n{}",
        table(&rows, &[0, 1])
    ))
}

fn colors_table(measured: &Measured, unit: Unit) -> String {
    let mut rows = vec![["color", "strands", "in all"].map(str::to_owned).to_vec()];
    for (thread, strands, _, length) in measured.by_color() {
        let name = measured.pattern.threads.get(usize::from(thread)).map_or("", |of| of.name.as_str());
        rows.push(vec![name.to_owned(), strands.to_string(), unit.bought(length)]);
    }
    table(&rows, &[0])
}

/// How evenly thread is used, and what would help.
fn advice(measured: &Measured, unit: Unit) -> String {
    let cuts = measured.cuts();
    let most = (0..cuts.len()).max_by(|a, b| cuts[*a].total_cmp(&cuts[*b]).then(b.cmp(a))).unwrap_or(0);
    let least = (0..cuts.len()).min_by(|a, b| cuts[*a].total_cmp(&cuts[*b])).unwrap_or(0);
    let waste = cut_alike(&cuts);
    let alike = unit.cut(cuts.get(most).copied().unwrap_or_default());
    let mut said = if waste < 10.0 * cuts.len() as f64 {
        format!("All strands need about the same: cut each at {alike}.\n")
    } else {
        format!(
            "Strand {} needs most and strand {} least. To cut all alike, each at {alike}, would leave {} over.\n",
            most + 1,
            least + 1,
            unit.bought(waste)
        )
    };
    if let Some(saving) = measured.saving {
        said += &format!(
            "If the other strand tied {} of each set that lie between two strands of one color, the longest strand \
             would be {} in place of {}: `knotwright plan --balance` writes that pattern.\n",
            counted(saving.turned as u64, "knot"),
            unit.cut(saving.after),
            unit.cut(saving.before)
        );
    }
    said
}

/// `1 set`, `2 sets`.
pub(crate) fn counted(count: u64, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
