//! A pattern written anew: printed, with what there is to say about it.

use crate::bands::Band;
use crate::terminal::{Answer, Exit, Out, Terminal};
use knotwright_rewriter::{Body, LeftOut, Original, Part, RewriteError, rewrite};

/// Writes the pattern with these parts anew. Nothing is written if it cannot be done.
///
/// # Errors
/// The output cannot be written.
pub(crate) fn write_anew(band: &Band, bodies: &[(Part, Body)], terminal: &Terminal, out: &mut Out) -> Answer {
    let original =
        Original { source: &band.report.files[0], pattern: &band.pattern, library: &band.file.home.library };
    match rewrite(original, bodies) {
        Ok(rewritten) => {
            out.write_text(&rewritten.text)?;
            out.flush()?;
            if let Some(said) = left_out(rewritten.left_out) {
                terminal.say(format_args!("{}: {said}", band.file.shown));
            }
            if bodies.iter().any(|(_, body)| !body.piece().straight().is_empty()) {
                terminal.say(format_args!(
                    "{}: the rows of its leader are written in bricks; the knots are the same, but are drawn and \
                     counted in other rows",
                    band.file.shown
                ));
            }
            Ok(Exit::Clean)
        }
        Err(error) => {
            terminal.error(format_args!("{}: {}", band.file.shown, said(&error)));
            Ok(Exit::Findings)
        }
    }
}

/// What is not in the new text.
fn left_out(gone: LeftOut) -> Option<String> {
    let LeftOut { comments, notes, expects, motifs } = gone;
    let parts: Vec<String> =
        [(comments, "comment"), (notes, "note"), (expects, "promise"), (motifs, "motif")]
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, what)| crate::measured::counted(count as u64, what))
            .collect();
    let (last, before) = parts.split_last()?;
    let listed = if before.is_empty() { last.clone() } else { format!("{} and {last}", before.join(", ")) };
    Some(format!("left out of the new text: {listed}"))
}

fn said(error: &RewriteError) -> String {
    match error {
        RewriteError::SetsDiffer => {
            "its set picks strands by color, and the next set takes other places than the first; steps by place would \
             tie another band. Let the set end as it began (`expect start`), or pick the strands by place"
                .to_owned()
        }
        RewriteError::ClosingsDiffer => {
            "its closing picks strands by color, and after another number of sets it takes other places; steps by \
             place would tie another band. Pick its strands by place"
                .to_owned()
        }
        RewriteError::NoPart(part) => format!("it has no `{}`", part.word()),
        RewriteError::Unsound => "it has errors; mend what `knotwright check` says first".to_owned(),
        RewriteError::OtherWidth | RewriteError::NotProved(_) => {
            "the new text does not tie the same band, so it is not given out; this is a mistake of this program"
                .to_owned()
        }
    }
}
