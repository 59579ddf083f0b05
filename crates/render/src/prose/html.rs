//! Instructions as elements of HTML.

use super::document::Block;
use crate::text::escaped;

pub(super) fn write(blocks: &[Block], deeper: u8) -> String {
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
    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(level, text) => {
                self.close(0);
                let level = (level + self.deeper).min(6);
                self.out.push_str(&format!("<h{level}>"));
                escaped(&mut self.out, text);
                self.out.push_str(&format!("</h{level}>\n"));
            }
            Block::Text(text) => {
                self.close(0);
                self.element("p", text);
            }
            Block::List(items) => {
                self.close(0);
                self.out.push_str("<ul>\n");
                items.iter().for_each(|item| self.element("li", item));
                self.out.push_str("</ul>\n");
            }
            Block::Table(rows) => self.table(rows),
            Block::Step { depth, number, text } => self.step(*depth, *number, text),
            Block::Aside { depth, text, .. } => {
                self.close(*depth);
                self.out.push_str("<p class=\"look\">");
                escaped(&mut self.out, text);
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
        escaped(&mut self.out, text);
    }

    fn table(&mut self, rows: &[Vec<String>]) {
        self.close(0);
        self.out.push_str("<table>\n");
        for (number, row) in rows.iter().enumerate() {
            self.out.push_str("<tr>");
            for cell in row {
                self.out.push_str(if number == 0 { "<th scope=\"col\">" } else { "<td>" });
                escaped(&mut self.out, cell);
                self.out.push_str(if number == 0 { "</th>" } else { "</td>" });
            }
            self.out.push_str("</tr>\n");
        }
        self.out.push_str("</table>\n");
    }

    fn element(&mut self, name: &str, text: &str) {
        self.out.push_str(&format!("<{name}>"));
        escaped(&mut self.out, text);
        self.out.push_str(&format!("</{name}>\n"));
    }

    /// Ends lists until so many are open.
    fn close(&mut self, keep: usize) {
        while self.open > keep {
            self.out.push_str("</li>\n</ol>\n");
            self.open -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_lie_in_the_items_they_belong_to() {
        let step = |depth, number, text: &str| Block::Step { depth, number, text: text.into() };
        let look = Block::Aside { depth: 0, text: "<look>".into(), loud: false };
        let html = write(&[step(0, 1, "a"), step(1, 1, "b"), step(1, 2, "c"), look, step(0, 2, "d")], 0);
        assert_eq!(
            html,
            "<ol start=\"1\">\n<li>a<ol start=\"1\">\n<li>b</li>\n<li>c</li>\n</ol>\n</li>\n</ol>\n\
             <p class=\"look\">&lt;look&gt;</p>\n<ol start=\"2\">\n<li>d</li>\n</ol>\n"
        );
    }
}
