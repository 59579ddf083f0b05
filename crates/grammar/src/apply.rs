//! Edits applied to a text.

use crate::Span;
use knotwright_numbers::ToNumber;

/// `text` with each span replaced by its new text. The edits may be in any order; an empty span inserts. All of them are
/// applied or none: `None` if two overlap, or if one does not fit the text.
pub fn apply_edits<'e>(text: &str, edits: impl IntoIterator<Item = (Span, &'e str)>) -> Option<String> {
    let mut edits: Vec<(Span, &str)> = edits.into_iter().collect();
    edits.sort_by_key(|(span, _)| *span);
    let mut out = String::with_capacity(text.len() + edits.iter().map(|(_, new)| new.len()).sum::<usize>());
    let mut done = 0;
    for (span, new) in edits {
        let (start, end) = (span.start.to_usize(), span.end.to_usize());
        out.push_str(text.get(done..start)?);
        out.push_str(new);
        text.get(start..end)?;
        done = end;
    }
    out.push_str(&text[done..]);
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn applied(text: &str, edits: &[(usize, usize, &str)]) -> Option<String> {
        apply_edits(text, edits.iter().map(|&(start, end, new)| (Span::new(start, end), new)))
    }

    #[test]
    fn edits_may_be_in_any_order() {
        let mended = applied("take left 1: forward 4", &[(21, 22, "5"), (5, 9, "right")]);
        assert_eq!(mended.as_deref(), Some("take right 1: forward 5"));
        assert_eq!(applied("ab", &[(1, 1, "-"), (2, 2, "!")]).as_deref(), Some("a-b!"));
        assert_eq!(applied("ab", &[]).as_deref(), Some("ab"));
    }

    #[test]
    fn all_are_applied_or_none() {
        let text = "take left 1: forward 4";
        assert_eq!(applied(text, &[(5, 9, "a"), (8, 10, "b")]), None, "they overlap");
        assert_eq!(applied(text, &[(0, 4, "meet"), (21, 99, "5")]), None, "one does not fit");
        assert_eq!(applied("\u{e9}", &[(1, 2, "e")]), None, "half a letter");
        assert_eq!(applied("kelp", &[(3, 2, "")]), None, "it ends before it begins");
    }
}
