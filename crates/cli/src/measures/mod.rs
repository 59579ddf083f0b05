//! Measured bands: for people, for programs, for spreadsheets.

mod csv;
mod json;

pub(crate) use csv::{HEADER, csv, field};
pub(crate) use json::MeasuredJson;

use crate::table::table;
use crate::visible::on_one_line;
use knotwright_maker::{LengthUnit, Measured, Medium, ReportTable, report_measured};

/// For a person. Text from the pattern is made visible.
pub(crate) fn text(measured: &Measured, unit: LengthUnit) -> String {
    let reported = report_measured(measured, unit, Medium::Terminal);
    let lines = |lines: &[String]| lines.iter().map(|line| format!("{line}\n")).collect::<String>();
    let mut parts = vec![format!("{}\n{}", on_one_line(&reported.title), lines(&reported.head))];
    parts.extend(reported.tables.iter().map(lay_out));
    parts.push(lines(&reported.advice));
    parts.join("\n")
}

/// A table for a terminal. Text from the pattern is made visible.
pub(crate) fn lay_out(of: &ReportTable) -> String {
    let row = |row: &Vec<String>| row.iter().map(|cell| on_one_line(cell)).collect();
    let rows: Vec<Vec<String>> = of.rows.iter().map(row).collect();
    let caption = of.caption.map(|caption| format!("{caption}\n")).unwrap_or_default();
    caption + &table(&rows, of.words)
}
