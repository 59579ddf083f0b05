//! Edits: which bytes give way to which text.

use knotwright_grammar::{Span, apply_edits};

/// One change to a text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Edit {
    /// What is replaced; an empty span inserts.
    pub span: Span,
    /// The new text.
    pub text: String,
}

/// `text` with all of `edits` applied, in whatever order they are given. If two overlap, or one does not fit the text, the
/// text stays as it is.
pub fn apply_text_edits(text: &str, edits: &[Edit]) -> String {
    let edits = edits.iter().map(|edit| (edit.span, edit.text.as_str()));
    apply_edits(text, edits).unwrap_or_else(|| text.to_owned())
}

/// Gathers edits from left to right and joins those that touch one line.
pub(crate) struct Edits<'a> {
    text: &'a str,
    list: Vec<Edit>,
}

impl<'a> Edits<'a> {
    pub(crate) fn new(text: &'a str) -> Self {
        Self { text, list: Vec::new() }
    }

    /// Puts `new` in the place of `old`, if that is a change.
    pub(crate) fn replace(&mut self, old: Span, new: &str) {
        if old.of(self.text) == new {
            return;
        }
        if let Some(last) = self.list.last_mut() {
            let between = Span { start: last.span.end, end: old.start }.of(self.text);
            if !between.contains(['\n', '\r']) {
                last.text.push_str(between);
                last.text.push_str(new);
                last.span.end = old.end;
                return;
            }
        }
        self.list.push(Edit { span: old, text: new.to_owned() });
    }

    /// Puts as many spaces in the place of `old`, if that is a change.
    pub(crate) fn space(&mut self, old: Span, spaces: usize) {
        let written = old.of(self.text);
        if written.len() != spaces || written.bytes().any(|byte| byte != b' ') {
            self.replace(old, &" ".repeat(spaces));
        }
    }

    pub(crate) fn done(self) -> Vec<Edit> {
        self.list
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn edit(start: usize, end: usize, text: &str) -> Edit {
        Edit { span: Span::new(start, end), text: text.to_owned() }
    }

    #[test]
    fn edits_that_do_not_fit_change_nothing() {
        assert_eq!(apply_text_edits("a  b\nc", &[edit(1, 3, " "), edit(4, 5, "\n\n")]), "a b\n\nc");
        assert_eq!(apply_text_edits("kelp", &[edit(0, 1, "K"), edit(2, 9, "x")]), "kelp");
    }

    #[test]
    fn joins_edits_of_one_line_only() {
        let mut edits = Edits::new("a  b  c\n  d");
        edits.replace(Span::new(1, 3), " ");
        edits.replace(Span::new(4, 6), " ");
        edits.replace(Span::new(8, 10), "");
        assert_eq!(edits.done(), [edit(1, 6, " b "), edit(8, 10, "")]);
    }
}
