//! Instructions as Markdown.

use super::document::ProseBlock;
use knotwright_band::Kind;
use knotwright_wording::printable;

pub(super) fn write_markdown(blocks: &[ProseBlock], drawings: Option<&dyn Fn(Kind) -> String>) -> String {
    let mut writer = Writer { out: String::new(), markers: Vec::new(), in_steps: false, drawings };
    blocks.iter().for_each(|block| writer.block(block));
    writer.out
}

struct Writer<'a> {
    out: String,
    /// By depth, how wide the marker of the last step there was: what belongs to it is indented as much.
    markers: Vec<usize>,
    /// Whether the line before is a step.
    in_steps: bool,
    /// By kind of knot the file of its drawing, if there is one.
    drawings: Option<&'a dyn Fn(Kind) -> String>,
}

impl Writer<'_> {
    fn block(&mut self, block: &ProseBlock) {
        match block {
            ProseBlock::Heading(level, text) => {
                self.markers.clear();
                self.blank();
                self.out.push_str(&format!("{} {}\n", "#".repeat(usize::from(*level)), escaped(text)));
            }
            ProseBlock::Text(text) => {
                self.markers.clear();
                self.blank();
                self.out.push_str(&format!("{}\n", paragraph(text)));
            }
            ProseBlock::List(items) => {
                self.blank();
                items.iter().for_each(|item| self.out.push_str(&format!("- {}\n", paragraph(item))));
            }
            ProseBlock::Table(rows) => self.table(rows),
            ProseBlock::Step { depth, number, text } => self.step(*depth, *number, text),
            ProseBlock::Drawing { kind, title, .. } => {
                if let Some(file) = self.drawings {
                    self.blank();
                    self.out.push_str(&format!("![{}]({})\n", escaped(title), file(*kind)));
                }
            }
            ProseBlock::Aside { depth, text, loud } => {
                self.blank();
                let mark = if *loud { "**" } else { "*" };
                let indent = " ".repeat(self.markers.iter().take(*depth).sum());
                self.out.push_str(&format!("{indent}{mark}{}{mark}\n", escaped(text)));
            }
        }
    }

    fn step(&mut self, depth: usize, number: u64, text: &str) {
        self.markers.truncate(depth);
        let indent = " ".repeat(self.markers.iter().sum());
        let marker = format!("{number}. ");
        if !self.in_steps {
            self.blank();
        }
        self.out.push_str(&format!("{indent}{marker}{}\n", paragraph(text)));
        self.markers.push(marker.len());
        self.in_steps = true;
    }

    fn table(&mut self, rows: &[Vec<String>]) {
        self.blank();
        for (number, row) in rows.iter().enumerate() {
            let cells: Vec<String> = row.iter().map(|cell| escaped(cell)).collect();
            self.out.push_str(&format!("| {} |\n", cells.join(" | ")));
            if number == 0 {
                self.out.push_str(&format!("|{}\n", " --- |".repeat(row.len())));
            }
        }
    }

    fn blank(&mut self) {
        self.in_steps = false;
        if !self.out.is_empty() && !self.out.ends_with("\n\n") {
            self.out.push('\n');
        }
    }
}

/// Text that Markdown reads as letters.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for letter in text.chars().filter_map(printable) {
        match letter {
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '#' | '~' | '&' | '$' => {
                out.push('\\');
                out.push(letter);
            }
            letter => out.push(letter),
        }
    }
    out.trim().to_owned()
}

/// Text at the start of a line, where also a dash or a number would be more than letters.
fn paragraph(text: &str) -> String {
    let text = escaped(text);
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    match text.as_bytes() {
        [b'-' | b'+' | b'=', ..] => format!("\\{text}"),
        bytes if digits > 0 && matches!(bytes.get(digits), Some(b'.' | b')')) => {
            format!("{}\\{}", &text[..digits], &text[digits..])
        }
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CommonMark 0.31.2, section 2.4: a backslash before ASCII punctuation makes it a letter.
    #[test]
    fn what_comes_from_a_pattern_is_no_markup() {
        assert_eq!(
            escaped("<b> *a* _b_ [c](d) `e` | # & \\ \u{7}x"),
            "\\<b\\> \\*a\\* \\_b\\_ \\[c\\](d) \\`e\\` \\| \\# \\& \\\\  x"
        );
        assert_eq!(paragraph("- no list"), "\\- no list");
        assert_eq!(paragraph("12. no list"), "12\\. no list");
        assert_eq!(paragraph("12 strands"), "12 strands");
    }

    #[test]
    fn steps_below_steps_are_indented_by_the_marker() {
        let step = |depth, number| ProseBlock::Step { depth, number, text: "Tie.".into() };
        let look = ProseBlock::Aside { depth: 0, text: "Look.".into(), loud: false };
        let text =
            write_markdown(&[step(0, 9), step(0, 10), step(1, 1), step(1, 2), look, step(0, 11)], None);
        assert_eq!(text, "9. Tie.\n10. Tie.\n    1. Tie.\n    2. Tie.\n\n*Look.*\n\n11. Tie.\n");
    }
}
