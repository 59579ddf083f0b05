//! A review as a comment under a change: a table of what changed, the details folded away.

use super::phrases::{cause, gist, has_details, heading, name, summary, wrong};
use super::{ChangeKind, Review, ReviewRow};
use crate::compared::{markdown_of_changes, plain};
use crate::markup::escaped;

/// A comment on GitHub has at most 65,536 letters; what is left is for what stands around it.
const MOST_LETTERS: usize = 60_000;

/// More rows than this are not in the table.
const MOST_ROWS: usize = 200;

/// The whole review. `report` is where the pictures are, for the link to them.
pub(crate) fn markdown(review: &Review, report: Option<&str>) -> String {
    let mut out = format!("{}\n", plain(&summary(review)));
    if let Some(report) = report.filter(|_| !review.rows.is_empty()) {
        out += &format!("\n[Before and after, in pictures](<{}>)\n", address(report));
    }
    if !review.rows.is_empty() {
        out += "\n| pattern | what changed |\n| --- | --- |\n";
    }
    for row in review.rows.iter().take(MOST_ROWS) {
        out += &format!("| **{}** {} | {} |\n", heading(row.kind), plain(&name(row)), plain(&gist(row)));
    }
    let more = review.rows.len().saturating_sub(MOST_ROWS);
    if more > 0 {
        out += &format!("\nand {more} more\n");
    }
    for of in &review.causes {
        out += &format!("\n{}\n", plain(&cause(of)));
    }
    let mut left_out = 0;
    for row in review.rows.iter().filter(|row| has_details(row.kind) && row.kind != ChangeKind::Words) {
        let folded = folded(row);
        if out.len() + folded.len() < MOST_LETTERS {
            out += &folded;
        } else {
            left_out += 1;
        }
    }
    if left_out > 0 {
        out += &format!(
            "\nThe details of {left_out} more are left out here; `knotwright review` has them all.\n"
        );
    }
    out
}

fn folded(row: &ReviewRow) -> String {
    let mut body: String = wrong(row).iter().map(|line| format!("\n- {}\n", plain(line))).collect();
    if let Some(compared) = row.compared() {
        body += &markdown_of_changes(compared);
    }
    if body.is_empty() {
        return body;
    }
    format!("\n<details><summary>{}</summary>\n{body}\n</details>\n", escaped(&name(row)))
}

/// An address, without the signs that would end it.
fn address(typed: &str) -> String {
    typed.chars().filter(|sign| !sign.is_control() && !matches!(sign, '<' | '>' | '\\' | '\n')).collect()
}
