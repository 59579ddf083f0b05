//! A rewritten pattern: what there is to say about it.

use knotwright_checker::Tag;
use knotwright_numbers::ToNumber;
use knotwright_rewriter::{LeftOut, NoPlace, RewriteError};
use knotwright_wording::{both, digits::count};

/// What is not in the new text.
/// `None` if nothing is gone.
pub fn left_out(gone: LeftOut) -> Option<String> {
    let LeftOut { comments, notes, expects, motifs } = gone;
    let parts: Vec<String> =
        [(comments, "comment"), (notes, "note"), (expects, "promise"), (motifs, "motif")]
            .into_iter()
            .filter(|(gone, _)| *gone > 0)
            .map(|(gone, what)| count(gone.to_u64(), what))
            .collect();
    (!parts.is_empty()).then(|| format!("left out of the new text: {}", both(&parts)))
}

/// Why a pattern is not rewritten, in words.
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
        RewriteError::NoPlace(NoPlace { line, is_bead }) => {
            let line = line.map_or_else(|| "a line of another file".to_owned(), |line| format!("line {line}"));
            match is_bead {
                true => format!(
                    "the bead of {line} is on several strands, and in the new order one of them has its next knot before \
                     another has its last: the bead has no place. Thread it on one strand, or take the line out and \
                     write it again where it is to be"
                ),
                false => format!(
                    "the join of {line} has no place in the new order. Take the line out, and let \
                     `knotwright measure --longest` find a new place afterwards"
                ),
            }
        }
        RewriteError::NoPart(part) => format!("it has no `{}`", part.word()),
        RewriteError::Unsound => "it has errors; fix what `knotwright check` reports first".to_owned(),
        RewriteError::TooLarge => "written so, it would be larger than 16 MiB, and no such file is read".to_owned(),
        RewriteError::NotProved(Some(error)) if error.rule.has(Tag::Limit) => {
            format!("written so, it would be too large to be read again: {}", error.message.trim_end_matches('.'))
        }
        RewriteError::OtherWidth | RewriteError::NotProved(_) => {
            "the new text does not tie the same band, so it is not shown; this is a bug in Knotwright"
                .to_owned()
        }
    }
}
