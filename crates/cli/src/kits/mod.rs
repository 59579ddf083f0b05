//! Kits: for people, for programs, for spreadsheets.

mod csv;
mod json;

pub(crate) use csv::csv;
pub(crate) use json::KitJson;

use crate::measures::lay_out;
use crate::visible::on_one_line;
use knotwright_maker::{KitReport, KitSection};

/// For a person. Text from the patterns is made visible.
pub(crate) fn text(report: &KitReport) -> String {
    let mut parts = vec![format!("{}\n", on_one_line(&report.title))];
    parts.extend(report.sections.iter().map(section));
    parts.push(format!("{}\n", report.caution));
    parts.join("\n")
}

fn section(of: &KitSection) -> String {
    let head: String = of.head.iter().map(|line| format!("{line}\n")).collect();
    let tables: Vec<String> = of.tables.iter().map(lay_out).collect();
    format!("{}\n{head}\n{}", on_one_line(&of.title), tables.join("\n"))
}
