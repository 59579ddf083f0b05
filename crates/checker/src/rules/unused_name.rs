//! A parameter or a counting name that nothing uses.

use crate::contents::Contents;
use crate::reading::{is_library, words};
use crate::wording::number;
use crate::{Checked, Edit, FileId, Finding, Mend, Place, Rule, Severity, Source, Tag};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Direction, Expr, ForBlock, Motif, Name, Series, Statement, Work};
use rustc_hash::FxHashMap as HashMap;

pub(crate) static RULE: Rule = Rule {
    name: "unused-name",
    severity: Severity::Warning,
    tags: &[Tag::Symptom, Tag::Unused],
    summary: "A motif has a parameter, or `for` a counting name, that nothing in its block uses.",
    why: "A parameter lets a motif differ from place to place, and a counting name from pass to pass. If nothing in the \
          block uses it, all come out the same: either a number or a thread is written where the name was meant, or \
          the name is a leftover. A counting name that only counts says the same as `repeat`.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  for n 3 down to 1 {
    take left 1: forward to edge
  }
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  repeat 3 {
    take left 1: forward to edge
  }
}
"#,
};

/// More passes are counted by nobody.
const MOST_PASSES: u32 = 1_000_000;

pub(super) fn find(checked: &Checked, contents: &Contents) -> Vec<Finding> {
    let source = checked.source;
    let given: Vec<Given> = contents.naming.iter().flat_map(|statement| given_by(statement)).collect();
    if given.is_empty() {
        return Vec::new();
    }
    // A word counts wherever it stands in the block, in a line that does not parse, too.
    let names = given.iter().map(|given| (given.name.text.as_str(), Vec::new()));
    let mut uses: HashMap<&str, Vec<u32>> = names.collect();
    for (span, word) in words(source) {
        if let Some(places) = uses.get_mut(&*word) {
            places.push(span.start);
        }
    }
    let is_used = |given: &&Given| {
        let places = uses.get(given.name.text.as_str()).map_or(&[][..], Vec::as_slice);
        let next = places.get(places.partition_point(|&place| place < given.block.start));
        next.is_some_and(|&place| place < given.block.end)
    };
    let is_whole = source.parsed.problems.is_empty();
    given.iter().filter(|given| !is_used(given)).map(|given| given.words(source, is_whole)).collect()
}

/// A name that is known in a block.
struct Given<'a> {
    name: &'a Name,
    by: By<'a>,
    block: Span,
}

enum By<'a> {
    /// A motif; which of its parameters.
    Motif(&'a Motif, usize),
    /// A `for` that begins at this byte.
    Count(&'a ForBlock, u32),
}

fn given_by(statement: &Statement) -> Vec<Given<'_>> {
    let block = |open: Span| Span { start: open.start, end: statement.span.end };
    if let Some(motif) = statement.get::<Motif>() {
        let given = |(at, name)| {
            let block = block(motif.block.open);
            Given { name, by: By::Motif(motif, at), block }
        };
        return motif.params.iter().enumerate().map(given).collect();
    }
    let count = statement.get::<ForBlock>().map(|count| {
        let by = By::Count(count, statement.span.start);
        Given { name: &count.variable, by, block: block(count.block.open) }
    });
    count.into_iter().collect()
}

impl Given<'_> {
    fn words(&self, source: &Source, is_whole: bool) -> Finding {
        let name = &self.name.text;
        let (message, help, mend) = match self.by {
            By::Motif(motif, at) => (
                format!("Nothing in the motif `{}` uses its parameter `{name}`.", motif.name.text),
                format!(
                    "Write `{name}` where it was meant, or leave it out here and wherever the motif is worked."
                ),
                leave_out(source, motif, at),
            ),
            By::Count(count, start) => (
                format!("Nothing in this block uses the counting name `{name}`: every pass is the same."),
                format!("Write `{name}` where it was meant, or `repeat` instead."),
                repeat(count, start),
            ),
        };
        let mut finding =
            Finding::new(&RULE, message).at(Place { file: FileId::CHECKED, span: self.name.span }).help(help);
        finding.mends.extend(mend.filter(|_| is_whole));
        finding
    }
}

/// `repeat` as often as a series counts, if its numbers are plain.
fn repeat(count: &ForBlock, start: u32) -> Option<Mend> {
    let Series { first, direction, last, by } = &*count.series;
    let plain = |expr: &Expr| if let Expr::Number(number) = expr { Some(number.value) } else { None };
    let (first, last) = (plain(first)?, plain(last)?);
    let by_plain = by.as_ref().map_or(Some(1), plain).filter(|&by| by > 0)?;
    let range = match direction {
        Direction::Down => first.checked_sub(last)?,
        Direction::Up => last.checked_sub(first)?,
    };
    let times = (range / by_plain).checked_add(1).filter(|&times| times <= MOST_PASSES)?;
    let end = by.as_ref().unwrap_or(&count.series.last).span().end;
    let place = Place { file: FileId::CHECKED, span: Span { start, end } };
    let title = format!("write `repeat {times}`: the same is tied {} times", number(u64::from(times)));
    let edits = vec![Edit { place, text: format!("repeat {times}") }];
    Some(Mend::new(title, edits, false))
}

/// A parameter left out of a motif and of every `work` of it. Not of a library: other files work its motifs, too.
fn leave_out(source: &Source, motif: &Motif, at: usize) -> Option<Mend> {
    let works = source.parsed.tree.walk().filter_map(|statement| statement.get::<Work>());
    let works: Vec<&Work> = works.filter(|work| work.motif.text == motif.name.text).collect();
    if is_library(source) || works.iter().any(|work| work.args.len() != motif.params.len()) {
        return None;
    }
    let params: Vec<Span> = motif.params.iter().map(|name| name.span).collect();
    let mut cuts = vec![without(&params, at)?];
    for work in works {
        let args: Vec<Span> = work.args.iter().map(Expr::span).collect();
        cuts.push(without(&args, at)?);
    }
    cuts.sort_unstable();
    let edit = |span| Edit { place: Place { file: FileId::CHECKED, span }, text: String::new() };
    let title = format!("leave out the parameter `{}`: the same is tied then", motif.params[at].text);
    Some(Mend::new(title, cuts.into_iter().map(edit).collect(), false))
}

/// What is to be cut for one item of a list with commas.
fn without(items: &[Span], at: usize) -> Option<Span> {
    let own = *items.get(at)?;
    Some(match (at.checked_sub(1).and_then(|before| items.get(before)), items.get(at + 1)) {
        (Some(before), _) => Span { start: before.end, end: own.end },
        (None, Some(next)) => Span { start: own.start, end: next.start },
        (None, None) => own,
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};
    use knotwright_numbers::ToNumber;

    fn mended(text: &str) -> String {
        let mut mended = text.to_owned();
        for edit in find_by(RULE.name, text)[0].mends[0].edits.iter().rev() {
            let span = edit.place.span;
            mended.replace_range(span.start.to_usize()..span.end.to_usize(), &edit.text);
        }
        mended
    }

    #[test]
    fn a_counting_name_becomes_a_repeat() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            ["Nothing in this block uses the counting name `n`: every pass is the same."]
        );
        assert_eq!(mended(RULE.example), RULE.instead);
        let by_two = RULE.example.replace("3 down to 1", "1 up to 6 by 2");
        assert_eq!(mended(&by_two), RULE.instead);
    }

    #[test]
    fn a_parameter_is_left_out_wherever_the_motif_is_worked() {
        let text = |params: &str, args: &str| {
            format!(
                "pattern \"A\"\nthread kelp #1f5d50\nstrands 4 kelp\nmotif fan({params}) {{ take left 1: forward size }}\n\
                 set {{ work fan({args}) }}\n"
            )
        };
        for (params, args) in [("size, hue", "3, kelp"), ("hue, size", "kelp, 3")] {
            assert_eq!(
                messages_of(RULE.name, &text(params, args)),
                ["Nothing in the motif `fan` uses its parameter `hue`."]
            );
            assert_eq!(mended(&text(params, args)), text("size", "3"));
        }
        assert_silent(RULE.name, &text("size", "3"));
    }

    #[test]
    fn a_library_gets_no_mend_as_others_work_its_motifs() {
        let library = "pattern \"Fans\"\nmotif fan(size, hue) { take left 1: forward size }\n";
        assert_eq!(find_by(RULE.name, library)[0].mends, []);
    }

    #[test]
    fn a_name_is_used_in_a_block_further_in_or_in_a_line_that_does_not_parse() {
        assert_silent(
            RULE.name,
            &RULE.example.replace("take left 1: forward to edge", "repeat 1 { take left 1: forward n }"),
        );
        let broken = RULE.example.replace("forward to edge", "forwrd n");
        assert_eq!(messages_of(RULE.name, &broken), [""; 0]);
    }
}
