//! Single edits of a step after which a face is shown that it does not show: a word or number written otherwise, or the
//! other strand tying the knot. Each is tried on the text, and offered only if nothing else is wrong after it.

use super::search::Goal;
use crate::{Edit, Fact, FactKind, FileId, Finding, GivenUp, Library, Mend, Place, Source, Tag, analyze};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expr, Extent, KnotKind, Run, Statement, StrandBy, Take};
use knotwright_numbers::ToNumber;
use std::sync::Arc;

/// In a larger band an edit takes too long to try.
const MOST_KNOTS: u64 = 5_000;

/// The most edits that are tried in all.
const MOST_TRIED: usize = 240;

/// The most that are offered of each finding.
const MOST_OFFERED: usize = 3;

/// Tries edits on a text.
pub(crate) struct FaceMender<'a> {
    source: &'a Source,
    library: &'a dyn Library,
    given_up: &'a GivenUp,
    /// How many knots differ; knots that lie elsewhere count as one.
    wrong: usize,
    left: usize,
}

/// An edit, and what it does in words.
struct FaceCandidate {
    edit: Edit,
    title: String,
}

impl<'a> FaceMender<'a> {
    /// `None` if nothing but faces is to be mended in a text that is too large.
    pub(crate) fn new(goal: &Goal<'a>, faces: &[Fact], library: &'a dyn Library) -> Option<Self> {
        let wrong = faces.iter().map(knots_off).sum();
        (wrong > 0 && faces.iter().all(is_of_steps) && goal.knots <= MOST_KNOTS).then_some(Self {
            source: goal.script.source(),
            library,
            given_up: goal.given_up,
            wrong,
            left: MOST_TRIED,
        })
    }

    /// Adds what mends a finding about a step, or about all steps of a part.
    pub(crate) fn mend(&mut self, fact: &Fact, finding: &mut Finding) {
        let is_of_many = matches!(&fact.kind, FactKind::FaceDiffers { more, .. } if more.count > 0);
        let is_mended = !finding.mends.is_empty();
        if (is_mended && !is_of_many) || fact.place.file != FileId::CHECKED {
            return;
        }
        let tree = &self.source.parsed.tree;
        let is_meant = |statement: &&Statement| match &fact.kind {
            // Behind many it may be any step above.
            FactKind::FaceDiffers { .. } if is_of_many => statement.span.start <= fact.place.span.start,
            FactKind::FaceDiffers { .. } => {
                statement.span.start <= fact.place.span.start && fact.place.span.end <= statement.span.end
            }
            _ => true,
        };
        let takes =
            tree.walk().filter(is_meant).filter_map(|statement| Some((statement, statement.get::<Take>()?)));
        let all: Vec<FaceCandidate> =
            takes.flat_map(|(statement, take)| self.candidates(statement, take, fact)).collect();
        let mut found: Vec<(usize, FaceCandidate)> = Vec::new();
        for candidate in all {
            if self.left == 0 || self.given_up.is_so() {
                break;
            }
            self.left -= 1;
            found.extend(self.wrong_after(&candidate.edit).map(|wrong| (wrong, candidate)));
        }
        if is_mended {
            found.retain(|(wrong, _)| *wrong == 0);
            finding.mends.iter_mut().for_each(|mend| mend.certain &= found.is_empty());
        }
        let is_single = found.iter().filter(|(wrong, _)| *wrong == 0).count() == 1 && !is_mended;
        found.sort_by_key(|(wrong, _)| *wrong);
        finding.mends.extend(found.into_iter().take(MOST_OFFERED).map(|(wrong, candidate)| {
            let comes = match wrong {
                0 => "the face shows then".to_owned(),
                1 => "one knot differs then".to_owned(),
                wrong => format!("{wrong} knots differ then"),
            };
            let certain = is_single && wrong == 0;
            Mend::new(format!("{}: {comes}", candidate.title), vec![candidate.edit], certain)
        }));
    }

    /// How many knots differ after an edit, if they are fewer and all else is well.
    fn wrong_after(&self, edit: &Edit) -> Option<usize> {
        let (start, end) = (edit.place.span.start.to_usize(), edit.place.span.end.to_usize());
        let text = format!("{}{}{}", &self.source.text[..start], edit.text, &self.source.text[end..]);
        let analysis = analyze(Arc::new(Source::new(&*self.source.path, text)), self.library);
        let is_of_face = |finding: &Finding| finding.rule.has(Tag::OtherFace);
        let left: usize = analysis.faces().iter().map(knots_off).sum();
        (analysis.errors().iter().all(is_of_face) && (left == 0 || left < self.wrong)).then_some(left)
    }

    fn candidates(&self, statement: &Statement, take: &Take, fact: &Fact) -> Vec<FaceCandidate> {
        let mut all = Vec::new();
        if let FactKind::FaceDiffers { wished, other, nth, is_tied_once: true, .. } = &fact.kind
            && wished == other
        {
            all.extend(self.other_ties(statement, take, *nth));
        }
        let written = |span: Span| span.of(&self.source.text);
        let span = Span { start: take.strand.span.start, end: last_end(take) };
        for (start, word) in words_in(written(span)) {
            let start = span.start + start;
            let place =
                Place { file: FileId::CHECKED, span: Span { start, end: start + word.len().to_u32() } };
            all.extend(read_otherwise(word).into_iter().map(|read| FaceCandidate {
                title: format!("write `{read}` instead of `{word}`"),
                edit: Edit { place, text: read },
            }));
        }
        all
    }

    /// The step with the other strand of a knot tying it, if the step is a strand counted from an edge and one run.
    fn other_ties(&self, statement: &Statement, take: &Take, nth: u32) -> Option<FaceCandidate> {
        let ([Run { kind: Some((kind, _)), extent: Extent::Count { count, over: None }, .. }], true) =
            (take.runs.as_slice(), take.thens.is_empty() && take.label.is_none())
        else {
            return None;
        };
        let (side, from) = match &take.strand.by {
            StrandBy::Left(Expr::Number(number)) => ("left", number.value),
            StrandBy::Right(Expr::Number(number)) => ("right", number.value),
            _ => return None,
        };
        let Expr::Number(count) = count else { return None };
        let rest = count.value.checked_sub(nth + 1)?;
        let goes_right = matches!(kind, KnotKind::Forward | KnotKind::ForwardBackward);
        let swaps = matches!(kind, KnotKind::Forward | KnotKind::Backward);
        // Away from the edge it is counted from, numbers rise.
        let rises = goes_right == (side == "left");
        let moved =
            |by: u32| if rises { from.checked_add(by) } else { from.checked_sub(by).filter(|at| *at > 0) };
        let beside = moved(if swaps { nth + 1 } else { 1 })?;
        let after = if swaps { beside } else { from };
        let step = |at: u32, kind: KnotKind, knots: u32| {
            (knots > 0).then(|| format!("take {side} {at}: {} {knots}", word_of(kind)))
        };
        let indent = self.indent(statement.span.start);
        // What comes before the knot keeps its words.
        let head = Span { start: statement.span.start, end: take.runs[0].span.start }.of(&self.source.text);
        let before = (nth > 0).then(|| format!("{head}{} {nth}", word_of(*kind)));
        let steps = [before, step(beside, turned(*kind), 1), step(after, *kind, rest)];
        let text = steps.into_iter().flatten().collect::<Vec<_>>().join(&format!("\n{indent}"));
        let span = Span { start: statement.span.start, end: last_end(take) };
        Some(FaceCandidate {
            title: "let the other strand tie this knot".to_owned(),
            edit: Edit { place: Place { file: FileId::CHECKED, span }, text },
        })
    }

    /// What a line begins with before a statement.
    fn indent(&self, start: u32) -> &str {
        let before = &self.source.text[..start.to_usize()];
        let line = &before[before.rfind('\n').map_or(0, |end| end + 1)..];
        &line[..line.len() - line.trim_start().len()]
    }
}

/// How many knots a fact about a face finds fault with.
fn knots_off(fact: &Fact) -> usize {
    match &fact.kind {
        FactKind::FaceDiffers { more, .. } => 1 + more.count,
        _ => 1,
    }
}

/// Whether it is steps that a fact about a face finds fault with.
fn is_of_steps(fact: &Fact) -> bool {
    matches!(fact.kind, FactKind::FaceDiffers { .. } | FactKind::FaceKnots { .. })
}

fn last_end(take: &Take) -> u32 {
    let runs = take.runs.iter().chain(take.thens.iter().flat_map(|then| &then.runs));
    runs.map(|run| run.span.end).max().unwrap_or(take.strand.span.end)
}

/// The words and numbers of a text, and where they begin.
fn words_in(text: &str) -> Vec<(u32, &str)> {
    let is_word = |sign: char| sign.is_alphanumeric() || sign == '-' || sign == '_';
    let mut found = Vec::new();
    let mut begun = None;
    for (at, sign) in text.char_indices().chain([(text.len(), ' ')]) {
        match (begun, is_word(sign)) {
            (None, true) => begun = Some(at),
            (Some(start), false) => {
                found.push((start.to_u32(), &text[start..at]));
                begun = None;
            }
            _ => {}
        }
    }
    found
}

/// What may have been meant by a word of a step.
fn read_otherwise(word: &str) -> Vec<String> {
    let others: &[&str] = match word {
        "forward" => &["backward", "forward-backward"],
        "backward" => &["forward", "backward-forward"],
        "forward-backward" => &["backward-forward", "forward"],
        "backward-forward" => &["forward-backward", "backward"],
        "left" => &["right"],
        "right" => &["left"],
        _ => &[],
    };
    if let Ok(number) = word.parse::<u32>() {
        let near =
            [number.checked_sub(1), number.checked_add(1), number.checked_sub(2), number.checked_add(2)];
        return near.into_iter().flatten().filter(|near| *near > 0).map(|near| near.to_string()).collect();
    }
    others.iter().map(|other| (*other).to_owned()).collect()
}

fn turned(kind: KnotKind) -> KnotKind {
    match kind {
        KnotKind::Forward => KnotKind::Backward,
        KnotKind::Backward => KnotKind::Forward,
        KnotKind::ForwardBackward => KnotKind::BackwardForward,
        KnotKind::BackwardForward => KnotKind::ForwardBackward,
    }
}

fn word_of(kind: KnotKind) -> &'static str {
    match kind {
        KnotKind::Forward => "forward",
        KnotKind::Backward => "backward",
        KnotKind::ForwardBackward => "forward-backward",
        KnotKind::BackwardForward => "backward-forward",
    }
}
