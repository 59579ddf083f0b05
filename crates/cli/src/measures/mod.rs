//! Measured bands: for people, for programs, for spreadsheets.

mod csv;
mod json;

pub(crate) use csv::{HEADER, csv, field};
pub(crate) use json::MeasuredJson;

use crate::table::table;
use crate::visible::on_one_line;
use knotwright_maker::{LengthUnit, Measured, Medium, ProposedJoins, ReportTable, report_measured};

/// For a person. Text from the pattern is made visible.
pub(crate) fn text(measured: &Measured, proposed: Option<(f64, &ProposedJoins)>, unit: LengthUnit) -> String {
    let reported = report_measured(measured, unit, Medium::Terminal);
    let lines = |lines: &[String]| lines.iter().map(|line| format!("{line}\n")).collect::<String>();
    let mut parts = vec![format!("{}\n{}", on_one_line(&reported.title), lines(&reported.head))];
    parts.extend(reported.tables.iter().map(lay_out));
    if !reported.advice.is_empty() {
        parts.push(lines(&reported.advice));
    }
    parts.extend(proposed.map(|(longest, joins)| joins_text(measured, joins, longest, unit)));
    parts.join("\n")
}

/// Where strands are to be joined, for a person.
fn joins_text(measured: &Measured, proposed: &ProposedJoins, longest: f64, unit: LengthUnit) -> String {
    let head = format!("To have no piece longer than {}:\n", unit.cut(longest));
    let lines = proposed.said(measured, longest, unit);
    head + &lines.iter().map(|line| format!("  {}\n", on_one_line(line))).collect::<String>()
}

/// A table for a terminal. Text from the pattern is made visible.
pub(crate) fn lay_out(of: &ReportTable) -> String {
    let row = |row: &Vec<String>| row.iter().map(|cell| on_one_line(cell)).collect();
    let rows: Vec<Vec<String>> = of.rows.iter().map(row).collect();
    let caption = of.caption.map(|caption| format!("{caption}\n")).unwrap_or_default();
    caption + &table(&rows, of.words)
}
