//! `take`: a strand, and the knots it ties.

use super::Written;
use super::atoms::{No, Rule, comma, name, sign, token, word};
use super::fault::Fault;
use super::number::{expr, rest_of_series};
use super::strand::{extent, goal, promise, strand};
use super::token::In;
use crate::tree::{Direction, Expr, Extent, KnotKind, Run, Series, Take, Then};
use crate::{Expected, NameFor, Span, TokenKind};
use chumsky::prelude::*;

/// `take STRAND [(COLOR)] [as LABEL]: RUNS [then RUNS]...`
impl Written for Take {
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F> {
        strand()
            .then(promise().or_not())
            .then(
                word(|| "as").ignore_then(name(|| Expected::NewName(NameFor::Label))).map(Box::new).or_not(),
            )
            .then_ignore(sign(|| (TokenKind::Colon, Expected::Colon)))
            .then(runs())
            .then(then().repeated().collect::<Vec<_>>())
            .map(|((((strand, promise), label), runs), thens)| Take { strand, promise, label, runs, thens })
    }

    fn objection<'t, F: Fault<'t>>(&self, tokens: In<'t>) -> Option<F> {
        objection(self, tokens)
    }
}

/// `then RUNS`; a comma before it does no harm.
fn then<'t, F: Fault<'t>>() -> impl Rule<'t, Then, F> {
    let bare = extent_of_run().map_with(|extent_of_run, extra| Run {
        span: extent(extra.slice()),
        kind: None,
        extent: extent_of_run,
    });
    comma()
        .or_not()
        .ignore_then(word(|| "then"))
        .then(with_more(choice((run(), bare))))
        .map(|(word, runs)| Then { word, runs })
}

fn runs<'t, F: Fault<'t>>() -> impl Rule<'t, Vec<Run>, F> {
    with_more(run())
}

/// `first`, and by commas more runs.
fn with_more<'t, F: Fault<'t>>(first: impl Rule<'t, Run, F>) -> impl Rule<'t, Vec<Run>, F> {
    let more = comma().ignore_then(run()).repeated();
    first.map(|run| vec![run]).foldl(more, |mut runs, run| {
        runs.push(run);
        runs
    })
}

/// KIND EXTENT
fn run<'t, F: Fault<'t>>() -> impl Rule<'t, Run, F> {
    kind().then(extent_of_run()).map_with(|(kind, extent_of_run), extra| Run {
        span: extent(extra.slice()),
        kind: Some(kind),
        extent: extent_of_run,
    })
}

fn kind<'t, F: Fault<'t>>() -> impl Rule<'t, (KnotKind, Span), F> {
    const DUE: Expected = Expected::Kind;
    token(
        || DUE,
        |tok| {
            let kind = match tok.text {
                "forward" => KnotKind::Forward,
                "backward" => KnotKind::Backward,
                "forward-backward" => KnotKind::ForwardBackward,
                "backward-forward" => KnotKind::BackwardForward,
                _ => return Err(No::Due(DUE)),
            };
            Ok((kind, tok.span))
        },
    )
}

fn extent_of_run<'t, F: Fault<'t>>() -> impl Rule<'t, Extent, F> {
    let over = || word(|| "over").ignore_then(name(|| Expected::Thread));
    choice((
        over().map(Extent::Over),
        word(|| "until").ignore_then(name(|| Expected::Thread)).map(Extent::Until),
        word(|| "to").ignore_then(goal()).map(Extent::To),
        expr()
            .then(choice((rest_of_series().map(AfterCount::Series), over().or_not().map(AfterCount::Over))))
            .map(|(first, rest)| rest.onto(first)),
    ))
}

enum AfterCount {
    Series((Direction, Expr, Option<Expr>)),
    Over(Option<crate::tree::Name>),
}

impl AfterCount {
    fn onto(self, first: Expr) -> Extent {
        match self {
            Self::Over(over) => Extent::Count { count: first, over },
            Self::Series((direction, last, by)) => {
                Extent::Series(Box::new(Series { first, direction, last, by }))
            }
        }
    }
}

/// What a run by itself cannot know: a series stands once in a `take` and without `then`, and a turning kind
/// stays on one neighbor, so that it has no `over`, `until` or `to`.
fn objection<'t, F: Fault<'t>>(take: &Take, tokens: In<'t>) -> Option<F> {
    let index = |span: Span| tokens.partition_point(|tok| tok.span.start < span.start);
    let mut series = false;
    let mut kind = KnotKind::Forward;
    for run in take.runs.iter().chain(take.thens.iter().flat_map(|then| &then.runs)) {
        kind = run.kind.map_or(kind, |(kind, _)| kind);
        if let Extent::Series(found) = &run.extent {
            if series {
                return Some(F::due(index(found.first.span()), Expected::NumberNoSeries));
            }
            series = true;
        }
        if let (true, Some(passing)) = (turns(kind), passing(run, tokens)) {
            return Some(F::due(index(passing), Expected::NumberOfTurns));
        }
    }
    let then = take.thens.first().filter(|_| series)?;
    Some(F::due(index(then.word), Expected::LineEndNoThen))
}

fn turns(kind: KnotKind) -> bool {
    matches!(kind, KnotKind::ForwardBackward | KnotKind::BackwardForward)
}

/// The word that moves the strand in hand past others: `over`, `until` or `to`.
fn passing(run: &Run, tokens: In) -> Option<Span> {
    if matches!(run.extent, Extent::Count { over: None, .. } | Extent::Series(_)) {
        return None;
    }
    let start = tokens.partition_point(|tok| tok.span.start < run.span.start);
    let mut rest = tokens[start..].iter();
    rest.find(|tok| ["over", "until", "to"].contains(&tok.text)).map(|tok| tok.span)
}
