//! The text of a pattern that shows a face.

use super::DrawnFace;
use crate::rewritten::not_rewritten;
use knotwright_checker::{Library, NoLibrary, PartKind, Pattern, Report, Settings, Source, check};
use knotwright_designer::{Designed, WishedFace};
use knotwright_rewriter::{LeftOut, NewBody, Original, RewriteError, rewrite, with_strands};
use std::sync::Arc;

/// Why there is no such text.
#[derive(Debug, Clone, PartialEq)]
pub enum NotDesigned {
    /// It cannot be rewritten.
    Rewriting(RewriteError),
    /// Its text shows another face. This is a bug.
    NotShown,
}

impl std::fmt::Display for NotDesigned {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Rewriting(error) => f.write_str(&not_rewritten(error)),
            Self::NotShown => f.write_str(
                "the new text does not show the face, so it is not shown; this is a bug in Knotwright",
            ),
        }
    }
}

impl From<RewriteError> for NotDesigned {
    fn from(error: RewriteError) -> Self {
        Self::Rewriting(error)
    }
}

/// The text of a pattern that shows a face.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignedText {
    /// The whole text.
    pub text: String,
    /// What stood in the part before and is gone.
    pub left_out: LeftOut,
}

/// A pattern of its own that shows a face, once, or over and over if it `closes`.
///
/// # Errors
/// [`NotDesigned`].
pub fn write_pattern(
    drawn: &DrawnFace,
    title: &str,
    designed: &Designed,
    closes: bool,
) -> Result<DesignedText, NotDesigned> {
    let draft = Arc::new(Source::new("design", draft(drawn, title, designed, closes)));
    let pattern = tied(&draft, &NoLibrary)?;
    // In the new pattern, threads that no strand is of are left out, and the others have other numbers.
    let number = |color: u16| {
        let name = drawn.threads.get(usize::from(color)).map(|thread| thread.name.as_str());
        let mut threads = (0..).zip(&pattern.threads);
        threads.find(|(_, thread)| Some(thread.name.as_str()) == name).map_or(u16::MAX, |(number, _)| number)
    };
    let start = designed.start.iter().map(|color| number(*color)).collect();
    let original = Original { source: &draft, pattern: &pattern, library: &NoLibrary };
    write_part(
        original,
        PartKind::Set,
        &drawn.face.recolored(number),
        &Designed { start, ..designed.clone() },
    )
}

/// A pattern with a part that is tied as designed. The colors of the face are threads of the pattern. If nothing is tied
/// before it, its strands hang as designed; otherwise they must be left so.
///
/// # Errors
/// [`NotDesigned`].
pub fn write_part(
    original: Original<'_>,
    kind: PartKind,
    face: &WishedFace,
    designed: &Designed,
) -> Result<DesignedText, NotDesigned> {
    let library = original.library;
    let mut source = Arc::new(original.source.clone());
    let mut pattern = original.pattern.clone();
    if pattern.parts().all(|(other, _)| other >= kind) && pattern.strands != designed.start {
        let (text, report) = with_strands(original, &designed.start)?;
        source = Arc::new(Source::new(source.path.clone(), text));
        pattern = report.pattern.ok_or(RewriteError::Unsound)?;
    }
    let original = Original { source: &source, pattern: &pattern, library };
    let piece = designed.piece(face);
    let rows = rewrite(original, &[(kind, NewBody::Rows { piece: piece.clone() })])?;
    let steps = rewrite(original, &[(kind, NewBody::Steps { piece, headings: Vec::new() })])?;
    let shorter = if steps.text.lines().count() < rows.text.lines().count() { steps } else { rows };
    let (text, left_out) = (shorter.text, shorter.left_out);
    let tied = tied(&Arc::new(Source::new(source.path.clone(), text.as_str())), library)?;
    match shows(&tied, kind, face, designed) {
        true => Ok(DesignedText { text, left_out }),
        false => Err(NotDesigned::NotShown),
    }
}

/// Whether a part shows the face, but for the knots that were given up.
fn shows(pattern: &Pattern, kind: PartKind, face: &WishedFace, designed: &Designed) -> bool {
    let hung = pattern.threads_before(kind);
    let color = |strand: u8| hung.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
    let differs = pattern.part(kind).and_then(|part| face.differs(&part.piece, color));
    differs.is_some_and(|differs| differs == designed.given_up)
}

fn tied(source: &Arc<Source>, library: &dyn Library) -> Result<Pattern, NotDesigned> {
    let Report { pattern, .. } = check(Arc::clone(source), library, &Settings::default());
    Ok(pattern.ok_or(RewriteError::Unsound)?)
}

/// The head, and a set with the face and some step. Threads that no strand is of are left out; so is what is given up.
fn draft(drawn: &DrawnFace, title: &str, designed: &Designed, closes: bool) -> String {
    let title = title.replace('\\', "\\\\").replace('"', "\\\"");
    let mut text = format!("pattern \"{title}\"\n\n");
    for (number, thread) in (0_u16..).zip(&drawn.threads) {
        if designed.start.contains(&number) {
            text += &format!("thread {} {}\n", thread.name, thread.color);
        }
    }
    let first = designed.start.first().and_then(|color| drawn.threads.get(usize::from(*color)));
    let first = first.map_or("", |thread| thread.name.as_str());
    text += &format!("\nstrands {} {first}\n", designed.start.len());
    text += if closes { "\n" } else { "\nsets 1\n\n" };
    let (rows, letters) = drawn.in_letters(&designed.given_up, '?');
    let keys: Vec<String> = letters.iter().map(|(letter, name)| format!("{letter} {name}")).collect();
    text += &format!("set {{\n  face {} {{\n", keys.join(", "));
    rows.iter().for_each(|row| text += &format!("    {row}\n"));
    text + "  }\n  take left 1: forward 1\n}\n"
}
