//! A pattern written anew: printed, with what there is to say about it.

use crate::bands::Band;
use crate::terminal::{Answer, Exit, Out, Terminal};
use knotwright_maker::{left_out, not_rewritten};
use knotwright_rewriter::{Body, Original, Part, rewrite};

/// Writes the pattern with these parts anew. Nothing is written if it cannot be done.
///
/// # Errors
/// The output cannot be written.
pub(crate) fn write_anew(band: &Band, bodies: &[(Part, Body)], terminal: &Terminal, out: &mut Out) -> Answer {
    let original =
        Original { source: &band.files[0], pattern: &band.pattern, library: &band.file.home.library };
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
            terminal.error(format_args!("{}: {}", band.file.shown, not_rewritten(&error)));
            Ok(Exit::Findings)
        }
    }
}
