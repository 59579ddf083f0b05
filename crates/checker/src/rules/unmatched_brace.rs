//! A brace without its partner.

use crate::rephrase::{Orphans, Twins};
use crate::wording::{number, quoted};
use crate::{FileId, Finding, Place, Rule, Severity, Source};
use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "unmatched-brace",
    severity: Severity::Error,
    tags: &[],
    summary: "A `{` is never closed, or a `}` closes nothing.",
    why: "Each `{` opens a block, and each `}` closes the last open one. If one is missing, the indentation \
          shows where the block should end, so that the rest of the file can still be read. If a line that opens a \
          block stands there twice, leave one of them out. If it is lost, a `}` is left, and the indentation shows \
          where the block began.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4 {
    take left 1: forward to edge
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 4 {
    take left 1: forward to edge
  }
}
"#,
};

pub(super) fn never_closed() -> Finding {
    Finding::new(&RULE, "This `{` is never closed.")
        .help("Write `}` on a line of its own where the block ends.")
}

/// The text ends within blocks, of which these are the `{`, outermost first.
pub(super) fn open_at_end(opened: &[Span], file: FileId, source: &Source) -> Finding {
    let Some(&first) = opened.first() else { return never_closed() };
    let line = Span { end: first.end, ..first.whole_lines(&source.text) }.of(&source.text).trim();
    let message = match opened.len() {
        1 => format!("The file ends, but the block of {} is still open.", quoted(line)),
        many => format!("The file ends, but {} blocks are still open.", number(many.to_u64())),
    };
    let help = match opened.len() {
        1 => "Write `}` on a line of its own where the block ends.",
        _ => "Write a `}` for each of them, on a line of its own where the block ends.",
    };
    let finding = Finding::new(&RULE, message).help(help);
    let finding = finding.note(Place { file, span: first }, "the first of them begins here");
    Finding { unfinished: true, ..finding }
}

/// A line that opens a block stands twice, and only one of the blocks is closed.
pub(crate) fn twice(Twins { first, second }: Twins, file: FileId, source: &Source) -> Finding {
    let line = quoted(second.of(&source.text));
    Finding::new(&RULE, format!("{line} stands here twice, and one of the two blocks is never closed."))
        .at(Place { file, span: second })
        .note(Place { file, span: first }, "the same line")
        .help("Leave one of the two lines out, or write `}` where its block ends.")
}

/// Lines are indented like those of a block, and a `}` ends them.
pub(crate) fn never_opened(Orphans { first, close, .. }: Orphans, file: FileId) -> Finding {
    Finding::new(&RULE, "No line opens the block that begins here.")
        .at(Place { file, span: first })
        .note(Place { file, span: close }, "this `}` closes nothing")
        .help("Write the line that opens it above, or leave out the `}`.")
}

pub(super) fn closes_nothing() -> Finding {
    Finding::new(&RULE, "This `}` closes nothing: no block is open here.")
        .help("Delete it, or check whether a `{` is missing above.")
}
