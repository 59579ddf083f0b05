//! What the words for a mistake say to write: offered if less is wrong with it.

use super::reread::{Reread, Rereader, WrongAt};
use crate::rules::unknown_name::said_for;
use crate::{Edit, Fact, FactKind, FileId, Finding, Mend, Place, Source, Uncalled, UnknownName, rules};
use knotwright_grammar::tree::{
    Direction, Due, Expr, Extent, ForBlock, Import, Motif, Series, Statement, Strands, Take, Thread, Work,
};
use knotwright_grammar::{Span, Token, TokenKind};
use knotwright_numbers::ToNumber;

/// How many mistakes get such mends.
const MOST_FINDINGS: usize = 4;

/// Adds to the first of `findings` what their words say, if there is less wrong with it.
pub(crate) fn add_remedies(findings: &mut [Finding], facts: &[Fact], rereader: &Rereader) {
    let wrong = findings.len();
    let mut left = MOST_FINDINGS;
    for finding in findings {
        if left == 0 {
            break;
        }
        let is_its = |fact: &&Fact| fact.place == finding.place && rules::rule_of(fact) == finding.rule;
        let Some(fact) = facts.iter().find(is_its).filter(|_| finding.place.file == FileId::CHECKED) else {
            continue;
        };
        let is_number = matches!(fact.kind, FactKind::PastEdge { .. });
        let is_usual = matches!(fact.kind, FactKind::MotifMeantForOther { .. });
        let said = Said { mends: proposed(fact, rereader), is_number, is_usual };
        if said.mends.is_empty() {
            continue;
        }
        left -= 1;
        add(finding, said, wrong, rereader);
    }
}

/// What the words for a mistake say.
struct Said {
    mends: Vec<Mend>,
    /// Whether they only write other numbers.
    is_number: bool,
    /// Whether people make such slips: then the only mend after which all holds is certain.
    is_usual: bool,
}

fn add(finding: &mut Finding, proposed: Said, wrong: usize, rereader: &Rereader) {
    let own = WrongAt::of(finding);
    let better = |mend: Mend| {
        let reread = rereader.after(&mend.edits)?;
        let is_better = reread.count() < wrong && !reread.contains(&own.clone().after(&mend.edits));
        is_better.then_some((mend, reread))
    };
    let mut better: Vec<(Mend, Reread)> = proposed.mends.into_iter().filter_map(better).collect();
    better.sort_by_key(|(_, reread)| (reread.count(), !reread.holds()));
    let holds = |mend: &Mend| rereader.after(&mend.edits).is_some_and(|reread| reread.holds());
    if let [(only, reread)] = &mut better[..]
        && proposed.is_usual
        && reread.holds()
        && !finding.mends.iter().any(holds)
    {
        *only = only.clone().proved();
    }
    if better.iter().any(|(_, reread)| reread.holds()) && !better[0].0.is_guess {
        finding.mends.iter_mut().for_each(|mend| mend.certain = false);
    }
    if better.is_empty() {
        return;
    }
    // A number is among what the search has tried, and in its order already.
    let ties = |first: &Mend| match better.iter().find(|(mend, _)| mend.edits == first.edits) {
        Some((_, reread)) => reread.ties(),
        None => rereader.after(&first.edits).is_some_and(|reread| reread.ties()),
    };
    let is_mended = proposed.is_number && finding.mends.first().is_some_and(ties);
    let is_sure = finding.mends.first().is_some_and(|first| first.certain);
    let is_new = |mend: &Mend| finding.mends.iter().all(|other| other.edits != mend.edits);
    let (guesses, said): (Vec<_>, Vec<_>) =
        better.into_iter().map(|(mend, _)| mend).filter(is_new).partition(|mend| mend.is_guess);
    let at = if is_mended { finding.mends.len() } else { usize::from(is_sure) };
    finding.mends.splice(at..at, said);
    finding.mends.extend(guesses);
}

fn proposed(fact: &Fact, rereader: &Rereader) -> Vec<Mend> {
    let source = rereader.source();
    match &fact.kind {
        FactKind::NoMiddleOne { .. } => middle(source, fact.place),
        FactKind::PastEdge { wanted, tied, is_computed: false, .. } if *tied > 0 => {
            to_the_edge(source, fact.place, *wanted, *tied)
        }
        FactKind::SeriesAway { .. } => turned_series(source, fact.place),
        // It is misspelled then, or that one is.
        FactKind::UnknownName(UnknownName { uncalled: Some(Uncalled { is_alike: true, .. }), .. }) => {
            Vec::new()
        }
        FactKind::UnknownName(UnknownName { due: Due::Thread, name, again, .. }) => {
            let said = said_otherwise(source, name, fact.place, again);
            said.map_or_else(|| declared_thread(source, name), |mend| vec![mend])
        }
        FactKind::MotifMeantForOther { width, .. } => vec![Mend::write(&width.to_string(), fact.place)],
        FactKind::MotifDoesNotFit { width, defined, .. } => {
            let number = width_of_motif(source, *defined);
            let write = |number| Mend { is_guess: true, ..Mend::write(&format!("on {width}"), number) };
            number.map(write).into_iter().collect()
        }
        FactKind::UnknownName(UnknownName { due: Due::Motif, name, .. }) => {
            used(rereader, name).or_else(|| declared_motif(source, name, fact.place)).into_iter().collect()
        }
        _ => Vec::new(),
    }
}

/// `on N` of the motif whose name is there.
fn width_of_motif(source: &Source, name: Place) -> Option<Place> {
    let mut motifs = source.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Motif>());
    let motif = motifs.find(|motif| name.file == FileId::CHECKED && motif.name.span == name.span)?;
    let number = motif.width.as_ref()?.span;
    let on = tokens(source, Span { start: name.span.end, end: number.start }).last()?;
    Some(place(on.span.to(number)))
}

fn place(span: Span) -> Place {
    Place { file: FileId::CHECKED, span }
}

fn tokens(source: &Source, span: Span) -> &[Token] {
    let all = &source.parsed.tokens;
    let first = all.partition_point(|token| token.span.start < span.start);
    let end = all.partition_point(|token| token.span.end <= span.end);
    &all[first..end.max(first)]
}

fn middle(source: &Source, at: Place) -> Vec<Mend> {
    let center = tokens(source, at.span).iter().find(|token| token.span.of(&source.text) == "center");
    let write =
        |center: &Token| ["center left", "center right"].map(|word| Mend::write(word, place(center.span)));
    center.map(write).into_iter().flatten().collect()
}

/// `forward 9` with five strands ahead: `5`, or `to edge`.
fn to_the_edge(source: &Source, at: Place, wanted: u64, tied: u64) -> Vec<Mend> {
    let run = tokens(source, at.span);
    let number = run.iter().find(|token| token.kind == TokenKind::Number);
    let Some(number) = number.filter(|number| number.span.of(&source.text) == wanted.to_string()) else {
        return Vec::new();
    };
    let mut mends = vec![Mend::write(&tied.to_string(), place(number.span))];
    let is_plain = run.last() == Some(number) && run.len() <= 2;
    let swaps = run.iter().any(|token| matches!(token.span.of(&source.text), "forward" | "backward"));
    mends.extend((is_plain && swaps).then(|| Mend::write("to edge", place(number.span))));
    mends
}

/// `2 down to 7`: `2 up to 7`, or `7 down to 2`.
fn turned_series(source: &Source, at: Place) -> Vec<Mend> {
    let is_it = |series: &&Series| {
        at.span.start <= series.first.span().start && series.last.span().end <= at.span.end
    };
    let Some(series) = source.parsed.tree.walk().filter_map(series_of).find(is_it) else { return Vec::new() };
    let (first, last) = (series.first.span(), series.last.span());
    let [said, other] = match series.direction {
        Direction::Down => ["down", "up"],
        Direction::Up => ["up", "down"],
    };
    let (from, to) = (first.of(&source.text), last.of(&source.text));
    let write = |text: String| Mend::write(&text, place(first.to(last)));
    vec![write(format!("{from} {other} to {to}")), write(format!("{to} {said} to {from}"))]
}

/// The series of a loop, or the only one of a step.
fn series_of(statement: &Statement) -> Option<&Series> {
    if let Some(counting) = statement.get::<ForBlock>() {
        return Some(&counting.series);
    }
    statement.get::<Take>()?.runs.iter().find_map(|run| match &run.extent {
        Extent::Series(series) => Some(&**series),
        _ => None,
    })
}

/// A word that people put into a list of threads, and that is none: `a, b and c`, `a b mirrored`, `expect closed`.
fn said_otherwise(source: &Source, name: &str, first: Place, again: &[Place]) -> Option<Mend> {
    let text = said_for(name)?;
    let title = if text.is_empty() { format!("leave out `{name}`") } else { format!("write `{text}`") };
    let edit = |Place { span, .. }: Place| {
        let before = &source.text[..span.start.to_usize()];
        // Nothing is left of a word but the space before it.
        let start =
            if text.is_empty() { before.trim_end_matches([' ', ',']).len().to_u32() } else { span.start };
        Edit { place: place(Span { start, end: span.end }), text: text.to_owned() }
    };
    let edits = std::iter::once(first).chain(again.iter().copied()).map(edit).collect();
    Some(Mend::new(title, edits, false))
}

/// Colors for a thread that is declared in passing; its author will choose another.
const COLORS: [&str; 5] = ["gray", "teal", "coral", "gold", "orchid"];

fn declared_thread(source: &Source, name: &str) -> Vec<Mend> {
    let statements = &source.parsed.tree.statements;
    let threads = statements.iter().filter_map(|statement| Some((statement, statement.get::<Thread>()?)));
    let is_taken = |color: &&str| threads.clone().any(|(_, thread)| thread.color.value == **color);
    let own = knotwright_color::color_names().into_iter().find(|known| *known == name);
    let color = own.or_else(|| COLORS.into_iter().find(|color| !is_taken(color))).unwrap_or(COLORS[0]);
    let line = format!("thread {name} {color}");
    let edit = match threads.clone().next_back() {
        Some((last, _)) => {
            let end = line_end(source, last.span.end);
            Some((Span { start: end, end }, format!("\n{line}")))
        }
        None => statements.iter().find(|statement| statement.is::<Strands>()).map(|strands| {
            let start = strands.span.start;
            (Span { start, end: start }, format!("{line}\n\n"))
        }),
    };
    let mend = edit.map(|(span, text)| {
        let edits = vec![Edit { place: place(span), text }];
        Mend { is_guess: true, ..Mend::new(format!("declare it: write `{line}`"), edits, false) }
    });
    mend.into_iter().collect()
}

fn line_end(source: &Source, at: u32) -> u32 {
    Span { start: at, end: at }.whole_lines(&source.text).end
}

/// A motif of a file that is used already, brought along.
fn used(rereader: &Rereader, name: &str) -> Option<Mend> {
    let source = rereader.source();
    let mut imports = source.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Import>());
    imports.find_map(|Import { names, path }| {
        let opened = rereader.library().open(&source.path, &path.value).ok()?;
        let mut motifs =
            opened.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Motif>());
        motifs.find(|motif| motif.name.text == name)?;
        let end = names.last()?.span.end;
        let edits = vec![Edit { place: place(Span { start: end, end }), text: format!(", {name}") }];
        let title = format!("use `{name}` from \"{}\"", path.value);
        Some(Mend { is_guess: true, ..Mend::new(title, edits, false) })
    })
}

/// An empty motif of that name, before what ties.
fn declared_motif(source: &Source, name: &str, at: Place) -> Option<Mend> {
    let mut works = source.parsed.tree.walk().filter_map(|statement| statement.get::<Work>());
    let work = works.find(|work| work.motif.span == at.span)?;
    let sort = |argument: &Expr| if matches!(argument, Expr::Name(_)) { "shade" } else { "count" };
    let numbered = |(nth, argument)| {
        format!("{}{}", sort(argument), if nth == 0 { String::new() } else { format!("{}", nth + 1) })
    };
    let params: Vec<String> = work.args.iter().enumerate().map(numbered).collect();
    let before = source.parsed.tree.statements.iter().find(|statement| {
        statement.node.block().is_some_and(|block| block.open.start < at.span.start)
            && statement.span.end > at.span.start
    })?;
    let motif = format!("motif {name}({}) {{", params.join(", "));
    let start = before.span.start;
    let edits = vec![Edit { place: place(Span { start, end: start }), text: format!("{motif}\n}}\n\n") }];
    Some(Mend { is_guess: true, ..Mend::new(format!("declare it: write `{motif} }}`"), edits, false) })
}
