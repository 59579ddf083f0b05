//! Measured bands: for people, for programs, for spreadsheets.

mod csv;
mod json;

pub(crate) use csv::{HEADER, csv};
pub(crate) use json::Json;

use crate::table::table;
use crate::visible::on_one_line;
use knotwright_maker::{Measured, Reader, ToldTable, Unit, told};

/// For a person. Text from the pattern is made visible.
pub(crate) fn text(measured: &Measured, unit: Unit) -> String {
    let told = told(measured, unit, Reader::Terminal);
    let lines = |lines: &[String]| lines.iter().map(|line| format!("{line}\n")).collect::<String>();
    let mut parts = vec![format!("{}\n{}", on_one_line(&told.title), lines(&told.head))];
    parts.extend(told.tables.iter().map(laid_out));
    parts.push(lines(&told.advice));
    parts.join("\n")
}

fn laid_out(of: &ToldTable) -> String {
    let caption = of.caption.map(|caption| format!("{caption}\n")).unwrap_or_default();
    caption + &table(&of.rows, of.words)
}
