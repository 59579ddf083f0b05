//! Instructions as elements of HTML.

use super::document::ProseBlock;
use crate::hitches::{KINDS, knot_drawing};
use crate::text::write_escaped;
use knotwright_band::Kind;

pub(super) fn write_html(blocks: &[ProseBlock], deeper: u8) -> String {
    let mut writer = Writer { out: String::new(), open: 0, deeper };
    blocks.iter().for_each(|block| writer.block(block));
    writer.close(0);
    writer.out
}

struct Writer {
    out: String,
    /// Lists of steps that are open, one in the other; in each an item is open.
    open: usize,
    deeper: u8,
}

impl Writer {
    fn block(&mut self, block: &ProseBlock) {
        match block {
            ProseBlock::Heading(level, text) => {
                self.close(0);
                let level = (level + self.deeper).min(6);
                self.out.push_str(&format!("<h{level}>"));
                write_escaped(&mut self.out, text);
                self.out.push_str(&format!("</h{level}>\n"));
            }
            ProseBlock::Text(text) => {
                self.close(0);
                self.element("p", text);
            }
            ProseBlock::List(items) => {
                self.close(0);
                self.out.push_str("<ul>\n");
                items.iter().for_each(|item| self.element("li", item));
                self.out.push_str("</ul>\n");
            }
            ProseBlock::Table(rows) => self.table(rows),
            ProseBlock::Step { depth, number, text } => self.step(*depth, *number, text),
            ProseBlock::Drawing { kind, title, name } => {
                self.close(0);
                self.out.push_str(&write_figure(*kind, title, name));
            }
            ProseBlock::Aside { depth, text, .. } => {
                self.close(*depth);
                self.out.push_str("<p class=\"look\">");
                write_escaped(&mut self.out, &join_places(text));
                self.out.push_str("</p>\n");
            }
        }
    }

    fn step(&mut self, depth: usize, number: u64, text: &str) {
        self.close(depth + 1);
        if self.open == depth + 1 {
            self.out.push_str("</li>\n<li>");
        } else {
            self.out.push_str(&format!("<ol start=\"{number}\">\n<li>"));
            self.open += 1;
        }
        write_escaped(&mut self.out, &join_places(text));
    }

    fn table(&mut self, rows: &[Vec<String>]) {
        self.close(0);
        let (head, body) = rows.split_at(rows.len().min(1));
        self.out.push_str("<table>\n<thead>\n");
        head.iter().for_each(|row| self.row(row, "<th scope=\"col\">", "</th>"));
        self.out.push_str("</thead>\n<tbody>\n");
        body.iter().for_each(|row| self.row(row, "<td>", "</td>"));
        self.out.push_str("</tbody>\n</table>\n");
    }

    fn row(&mut self, cells: &[String], begin: &str, end: &str) {
        self.out.push_str("<tr>");
        for cell in cells {
            self.out.push_str(begin);
            write_escaped(&mut self.out, cell);
            self.out.push_str(end);
        }
        self.out.push_str("</tr>\n");
    }

    fn element(&mut self, name: &str, text: &str) {
        self.out.push_str(&format!("<{name}>"));
        write_escaped(&mut self.out, &join_places(text));
        self.out.push_str(&format!("</{name}>\n"));
    }

    /// Ends lists until only `keep` are open.
    fn close(&mut self, keep: usize) {
        while self.open > keep {
            self.out.push_str("</li>\n</ol>\n");
            self.open -= 1;
        }
    }
}

/// Two numbers with a dash between them (`4\u{2013}5`) stay on one line: a line may end after a dash (Unicode Standard Annex
/// 14, class BA), but not next to a word joiner.
fn join_places(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    let mut before = ' ';
    while let Some(letter) = letters.next() {
        let is_range = letter == '\u{2013}'
            && before.is_ascii_digit()
            && letters.peek().is_some_and(char::is_ascii_digit);
        if is_range {
            out.push_str("\u{2060}\u{2013}\u{2060}")
        } else {
            out.push(letter)
        }
        before = letter;
    }
    out
}

/// How a kind of knot is tied, with what it is called below. The sheet's script finds it by the number of its kind.
pub(crate) fn write_figure(kind: Kind, title: &str, name: &str) -> String {
    let number = KINDS.iter().position(|known| *known == kind).unwrap_or_default();
    let mut out = format!("<figure data-kind=\"{number}\">{}<figcaption>", knot_drawing(kind, title));
    write_escaped(&mut out, name);
    out.push_str("</figcaption></figure>\n");
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pair_of_places_is_not_broken() {
        assert_eq!(
            join_places("at 4\u{2013}5 and 10\u{2013}11"),
            "at 4\u{2060}\u{2013}\u{2060}5 and 10\u{2060}\u{2013}\u{2060}11"
        );
        for text in ["red \u{2013} or 3\u{2013}", "\u{2013}4", "a\u{2013}5", ""] {
            assert_eq!(join_places(text), text);
        }
    }

    /// Only a head of its own comes again on every page of paper.
    #[test]
    fn a_table_has_a_head() {
        let rows = [["from <left>", "thread"], ["1", "kelp"]];
        let rows = rows.map(|row| row.map(str::to_owned).to_vec()).to_vec();
        assert_eq!(
            write_html(&[ProseBlock::Table(rows)], 0),
            "<table>\n<thead>\n<tr><th scope=\"col\">from &lt;left&gt;</th><th scope=\"col\">thread</th></tr>\n</thead>\n\
             <tbody>\n<tr><td>1</td><td>kelp</td></tr>\n</tbody>\n</table>\n"
        );
    }

    #[test]
    fn lists_lie_in_the_items_they_belong_to() {
        let step = |depth, number, text: &str| ProseBlock::Step { depth, number, text: text.into() };
        let look = ProseBlock::Aside { depth: 0, text: "<look>".into(), loud: false };
        let html = write_html(&[step(0, 1, "a"), step(1, 1, "b"), step(1, 2, "c"), look, step(0, 2, "d")], 0);
        assert_eq!(
            html,
            "<ol start=\"1\">\n<li>a<ol start=\"1\">\n<li>b</li>\n<li>c</li>\n</ol>\n</li>\n</ol>\n\
             <p class=\"look\">&lt;look&gt;</p>\n<ol start=\"2\">\n<li>d</li>\n</ol>\n"
        );
    }
}
