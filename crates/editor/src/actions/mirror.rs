//! Steps become their mirror image.

use super::Proposal;
use super::inline::in_braces;
use super::pieces::{Siblings, begins_line, dedented, indent};
use crate::site::tokens_in;
use crate::{Checked, TextEdit, World, apply_text_edits};
use knotwright_band::normal_form;
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_rewriter::line_end;
use std::sync::Arc;

/// The selected statements mirrored: in the words themselves where that is enough, else inside `mirrored { }`. The band is
/// another one afterwards, so only what the statements tie is proved: the mirror image of what they tied.
pub(super) fn selection(checked: &Checked, world: &World, range: Span) -> Option<Proposal> {
    let siblings = Siblings::of(checked, range).filter(|_| !range.is_empty() && (world.is_wanted)())?;
    let (_, piece) = siblings.piece(checked)?;
    let wanted = normal_form(&piece.mirrored());
    if !begins_line(checked.text(), siblings.span().start) || wanted == normal_form(&piece) {
        return None;
    }
    let ties_the_image = |edits: &[TextEdit]| {
        let (first, last) = (edits.first()?.span.start, siblings.span().start);
        let text = apply_text_edits(checked.text(), edits);
        let source = Arc::new(Source::new(checked.source().path.clone(), text));
        if !source.parsed.problems.is_empty() {
            return None;
        }
        let changed = Checked::new(source, world.library, checked.settings());
        let grown = changed.text().len() + siblings.span().len() - checked.text().len();
        let start = first.min(last);
        let now = Siblings::of(&changed, Span { start, end: start + knotwright_grammar::to_offset(grown) })?;
        (normal_form(&now.piece(&changed)?.1) == wanted).then_some(())
    };
    let ways = [in_words(checked, &siblings), in_mirrored(checked, &siblings)];
    let edits = ways.into_iter().find(|edits| ties_the_image(edits).is_some())?;
    Some(Proposal::new("Mirror these steps: left and right change places", edits))
}

/// Every word of a side or a direction replaced by the other.
fn in_words(checked: &Checked, siblings: &Siblings<'_>) -> Vec<TextEdit> {
    let other = |word: &str| {
        Some(match word {
            "left" => "right",
            "right" => "left",
            "forward" => "backward",
            "backward" => "forward",
            "forward-backward" => "backward-forward",
            "backward-forward" => "forward-backward",
            _ => return None,
        })
    };
    let tokens = tokens_in(checked.source(), siblings.span()).iter();
    tokens
        .filter_map(|token| {
            let text = other(token.span.of(checked.text()))?.to_owned();
            Some(TextEdit { span: token.span, text })
        })
        .collect()
}

fn in_mirrored(checked: &Checked, siblings: &Siblings<'_>) -> Vec<TextEdit> {
    let (text, span) = (checked.text(), siblings.span());
    let (end, here) = (line_end(text), indent(text, span.start));
    let lines: Vec<String> = span.of(text).lines().map(|line| dedented(line, here).to_owned()).collect();
    vec![TextEdit { span, text: in_braces("mirrored", &lines).join(&format!("{end}{here}")) }]
}
