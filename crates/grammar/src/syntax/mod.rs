//! One statement's tokens to its node. All that is known of the parser library lies in this folder.
//!
//! The parsers are values of no size, put together while compiling, so that there is nothing to build, to
//! keep or to share for each file or statement. A statement comes with the `{` that ends its line; what stands in
//! the block is filled in later by [`blocks`](crate::blocks).

mod atoms;
mod body;
mod fault;
mod head;
mod list;
mod misspelled;
mod number;
mod strand;
mod take;
mod token;

pub(crate) use atoms::inside;
pub(crate) use fault::Account;
pub(crate) use token::Tok;

use crate::tree::{Block, Chart, Node};
use crate::{Problem, ProblemKind, Span, TokenKind};
use atoms::{Rule, sign};
use fault::{Fault, Silent};
use misspelled::misspelled;
use token::In;

/// What the statement says, or what is wrong with it.
pub(crate) fn parse(tokens: In) -> Result<Node, Account> {
    statement::<Silent>(tokens).or_else(|Silent| statement::<Account>(tokens))
}

fn statement<'t, F: Fault<'t>>(tokens: In<'t>) -> Result<Node, F> {
    let Some(first) = tokens.first() else { return Err(F::due(0, "a statement")) };
    match first.text {
        "take" => take_statement(tokens),
        "expect" => whole(body::expect(), tokens),
        "on" => whole(body::on(), tokens),
        "both" => whole(body::plain("both", Node::Both), tokens),
        "mirrored" => whole(body::plain("mirrored", Node::Mirrored), tokens),
        "work" => whole(body::work(), tokens),
        "meet" => whole(body::meet(), tokens),
        "repeat" => whole(body::repeat(), tokens),
        "for" => whole(body::for_each(), tokens),
        "rows" => whole(body::rows(), tokens),
        "leader" => whole(body::leader(), tokens),
        "section" => whole(body::section(), tokens),
        "note" => whole(body::note(), tokens),
        _ => head_statement(first, tokens),
    }
}

fn head_statement<'t, F: Fault<'t>>(first: &Tok, tokens: In<'t>) -> Result<Node, F> {
    match first.text {
        "thread" => whole(head::thread(), tokens),
        "strands" => whole(head::strands(), tokens),
        "pattern" => whole(head::pattern(), tokens),
        "about" => whole(head::about(), tokens),
        "author" => whole(head::author(), tokens),
        "license" => whole(head::license(), tokens),
        "colorway" => whole(head::colorway(), tokens),
        "gauge" => whole(body::plain("gauge", Node::Gauge), tokens),
        "length" => whole(head::band_length(), tokens),
        "sets" => whole(head::sets(), tokens),
        "ends" => whole(head::ends(), tokens),
        "start" => whole(head::start(), tokens),
        "use" => whole(head::import(), tokens),
        "motif" => whole(head::motif(), tokens),
        "opening" => whole(body::plain("opening", Node::Opening), tokens),
        "set" => whole(body::plain("set", Node::Set), tokens),
        "closing" => whole(body::plain("closing", Node::Closing), tokens),
        "thickness" => whole(head::swatch(), tokens),
        _ if first.kind == TokenKind::Number => whole(head::swatch(), tokens),
        _ => Err(F::due(0, "a statement")),
    }
}

fn take_statement<'t, F: Fault<'t>>(tokens: In<'t>) -> Result<Node, F> {
    let take = whole(take::take(), tokens)?;
    match take::objection(&take, tokens) {
        None => Ok(Node::Take(take)),
        Some(fault) => Err(fault),
    }
}

/// Runs `rule` over all tokens.
fn whole<'t, O, F: Fault<'t>>(rule: impl Rule<'t, O, F>, tokens: In<'t>) -> Result<O, F> {
    let (value, faults) = rule.parse(tokens).into_output_errors();
    match (value, faults.into_iter().next()) {
        (Some(value), None) => Ok(value),
        (_, Some(fault)) => Err(fault),
        (None, None) => Err(F::due(0, "a statement")),
    }
}

/// The `{` that ends the line.
fn open<'t, F: Fault<'t>>() -> impl Rule<'t, Span, F> {
    sign(TokenKind::OpenBrace, "`{`")
}

fn block(open: Span) -> Block {
    Block { open, close: None, statements: Vec::new() }
}

fn chart(open: Span) -> Chart {
    Chart { open, close: None, rows: Vec::new() }
}

/// The problem that an account tells of.
pub(crate) fn problem(account: Account, tokens: In) -> Problem {
    if account.wrong.is_none()
        && let Some(problem) = misspelled(account.at, tokens)
    {
        return problem;
    }
    let end = tokens.last().map_or(0, |last| last.span.end);
    let span = tokens.get(account.at).map_or(Span { start: end, end }, |tok| tok.span);
    let kind = account.wrong.unwrap_or(ProblemKind::Unexpected { expected: account.expected });
    Problem { span, kind }
}
