//! The canonical text of a pattern, as the least edits that lead there. There are no options.
//!
//! Only white space changes, and one comma: that before `then`. So the tree stays the same except for its places,
//! every comment stays, and a statement that does not parse stays byte for byte. The rules and the reasons for them
//! are in `docs/formatting.md`.
//!
//! There is no file and no terminal here: text in, edits out.
//!
//! How it goes: the tree says of each token in which column it stands should it begin a line ([`plan`]); the text
//! between two tokens is then rewritten ([`gap`]); what differs from the text becomes an edit ([`edit`]).

mod breaks;
mod edit;
mod gap;
mod kept;
mod parts;
mod piece;
mod plan;
mod spacing;

pub use edit::{Edit, apply_text_edits};

use knotwright_grammar::{Parsed, parse};

/// The edits that make `text` canonical, in order of place and apart from one another: at most one a line, and
/// none on a line that is well set. `parsed` is what [`parse`] made of `text`. Linear in the length of `text`.
pub fn format(text: &str, parsed: &Parsed) -> Vec<Edit> {
    if unread(parsed) {
        return Vec::new();
    }
    gap::edits(text, &plan::plan(text, parsed))
}

/// `text` in its canonical form.
///
/// ```
/// let text = "thread  kelp   teal\nset{\ntake left 1:forward 3 , then 2\n}\n";
/// let canonical = "thread kelp teal\nset {\n  take left 1: forward 3 then 2\n}\n";
/// assert_eq!(knotwright_formatter::format_text(text), canonical);
/// ```
pub fn format_text(text: &str) -> String {
    apply_text_edits(text, &format(text, &parse(text)))
}

/// Whether the file was not read at all: what its lines mean is not known, so none is touched.
fn unread(parsed: &Parsed) -> bool {
    parsed.problems.iter().any(|problem| problem.kind.is_of_whole_file())
}
