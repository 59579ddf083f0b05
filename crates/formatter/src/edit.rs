//! Edits: which bytes give way to which text.

use knotwright_grammar::Span;

/// One change to a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The bytes that go.
    pub span: Span,
    /// What comes in their place.
    pub text: String,
}

/// `text` with all of `edits` done. They stand in order and apart from one another, as
/// [`format`](crate::format) gives them; one that does not fit the text is left out.
pub fn apply(text: &str, edits: &[Edit]) -> String {
    let mut out = String::with_capacity(text.len());
    let mut done = 0;
    for edit in edits {
        let (start, end) = (edit.span.start as usize, edit.span.end as usize);
        if let (Some(before), Some(_)) = (text.get(done..start), text.get(start..end)) {
            out.push_str(before);
            out.push_str(&edit.text);
            done = end;
        }
    }
    out.push_str(&text[done..]);
    out
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
    fn applies_in_order() {
        assert_eq!(apply("a  b\nc", &[edit(1, 3, " "), edit(4, 5, "\n\n")]), "a b\n\nc");
    }

    #[test]
    fn leaves_out_what_does_not_fit() {
        assert_eq!(apply("kelp", &[edit(2, 9, "x")]), "kelp");
        assert_eq!(apply("ä", &[edit(1, 2, "x")]), "ä");
        assert_eq!(apply("kelp", &[edit(2, 3, "L"), edit(1, 2, "E")]), "keLp");
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
