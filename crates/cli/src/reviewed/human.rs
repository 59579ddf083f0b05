//! A review for a person at a terminal.

use super::phrases::{cause, circumstances, gist, has_details, heading, name, summary, wrong};
use super::{ChangeKind, Review, ReviewRow};
use crate::compared::changes;

/// The whole review.
pub(crate) fn human(review: &Review) -> String {
    let mut out = summary(review) + "\n";
    for kind in ChangeKind::TOLD {
        let mut rows = review.of_kind(kind).peekable();
        if rows.peek().is_some() {
            out += &format!("\n{}\n", heading(kind));
            rows.for_each(|row| out += &said(row));
        }
    }
    if !review.causes.is_empty() {
        out += "\nLibraries and settings\n";
        review.causes.iter().for_each(|of| out += &format!("  {}\n", cause(of)));
    }
    out
}

fn said(row: &ReviewRow) -> String {
    if !has_details(row.kind) {
        return format!("  {}: {}\n", name(row), gist(row));
    }
    let mut out = format!("  {}", name(row));
    match circumstances(row) {
        of if of.is_empty() => out += "\n",
        of => out += &format!(" ({})\n", of.join("; ")),
    }
    wrong(row).iter().for_each(|line| out += &format!("    {line}\n"));
    if let Some(compared) = row.compared() {
        if row.looks_the_same() {
            out += "    It looks the same, but is tied with other knots.\n";
        }
        let lines = changes(compared);
        let lines = lines.lines().filter(|line| !line.is_empty());
        lines.for_each(|line| out += &format!("    {line}\n"));
    }
    out
}
