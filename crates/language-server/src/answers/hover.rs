//! What is shown next to a token: always in words, with a picture where one is wanted.

use crate::documents::Snapshot;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use knotwright_editor::{self as editor, Picture};
use knotwright_maker::escape_markdown;
use tower_lsp::ls_types::{Hover, HoverContents, MarkupContent, MarkupKind, Position};

/// VS Code cuts a hover that is longer, and the picture with it.
const LONGEST: usize = 99_000;

/// What there is to say about the token at a position.
pub(crate) fn hover(snapshot: &Snapshot, at: Position) -> Option<Hover> {
    let found = editor::hover(snapshot.checked(), snapshot.offset(at))?;
    let facts = &snapshot.setting.facts;
    let contents = match facts.markdown {
        false => MarkupContent { kind: MarkupKind::PlainText, value: plain(&found.text) },
        true => {
            let picture = found.picture.filter(|_| facts.shows_pictures());
            MarkupContent { kind: MarkupKind::Markdown, value: markdown(&found.text, picture.as_ref()) }
        }
    };
    Some(Hover { contents: HoverContents::Markup(contents), range: Some(snapshot.range(found.span)) })
}

fn plain(paragraphs: &[String]) -> String {
    paragraphs.iter().map(|text| text.replace('`', "")).collect::<Vec<_>>().join("\n\n")
}

fn markdown(paragraphs: &[String], picture: Option<&Picture>) -> String {
    let words = paragraphs.iter().map(|text| escape_markdown(text)).collect::<Vec<_>>().join("\n\n");
    let Some(picture) = picture else { return words };
    let data = STANDARD.encode(&picture.svg);
    let whole = format!("![{}](data:image/svg+xml;base64,{data})\n\n{words}", escape_markdown(&picture.alt));
    if whole.len() < LONGEST { whole } else { words }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_that_would_be_cut_is_left_out() {
        let picture = |bytes: usize| Picture { svg: "x".repeat(bytes), alt: "a band".to_owned() };
        let words = ["A band.".to_owned()];
        assert!(
            markdown(&words, Some(&picture(100))).starts_with("![a band](data:image/svg+xml;base64,eHh4")
        );
        assert_eq!(markdown(&words, Some(&picture(75_000))), "A band.");
    }
}
