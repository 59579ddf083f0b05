//! Prints a rewritten pattern, with what there is to say about it.

use crate::bands::BandFile;
use crate::terminal::{CommandResult, Exit, Out, Terminal};
use knotwright_checker::PartKind;
use knotwright_maker::{left_out, not_rewritten};
use knotwright_rewriter::{NewBody, Original, rewrite};

/// Prints the pattern with these parts rewritten; prints nothing if that cannot be done.
///
/// # Errors
/// The output cannot be written.
pub(crate) fn print_rewritten(
    band: &BandFile,
    bodies: &[(PartKind, NewBody)],
    terminal: &Terminal,
    out: &mut Out,
) -> CommandResult {
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
