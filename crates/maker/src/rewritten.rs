//! A pattern written anew: what there is to say about it.

use crate::measured::counted;
use knotwright_rewriter::{LeftOut, RewriteError};

/// What is not in the new text.
/// `None` if nothing is gone.
pub fn left_out(gone: LeftOut) -> Option<String> {
    let LeftOut { comments, notes, expects, motifs } = gone;
    let parts: Vec<String> =
        [(comments, "comment"), (notes, "note"), (expects, "promise"), (motifs, "motif")]
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, what)| counted(count as u64, what))
            .collect();
    let (last, before) = parts.split_last()?;
    let listed = if before.is_empty() { last.clone() } else { format!("{} and {last}", before.join(", ")) };
    Some(format!("left out of the new text: {listed}"))
}

/// Why a pattern is not written anew, in words.
pub fn not_rewritten(error: &RewriteError) -> String {
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
