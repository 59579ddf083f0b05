//! One statement's tokens to its node. All that is known of the parser library is in this folder.
//!
//! The parsers are values of almost no size, put together while compiling, so that there is nothing to build, to keep or
//! to share for each file or statement. The first word says which statement it is ([`Head::read`], [`Body::read`]); what
//! comes after it is read by its [`Written::rule`]. A statement comes with the `{` that ends its line; what is in
//! the block is filled in later by [`blocks`](crate::blocks).
//!
//! Nearly all statements parse, so the first try carries an error of no size; only a statement that fails is parsed again
//! with an account of what was expected where ([`fault`]). What was expected is a value ([`Expected`]) that others
//! compare; the words for it are made by the checker's rules.

mod atoms;
mod body;
mod ends;
mod fault;
mod head;
mod list;
mod misspelled;
mod number;
mod strand;
mod take;
mod token;

pub(crate) use atoms::inside;
pub(crate) use fault::{Account, Fault};
pub(crate) use token::{In, Tok};

use crate::tree::{Block, Body, Chart, Declared, EndPiece, Head, Letters, Node, Zone};
use crate::{Expected, Problem, ProblemKind, Span, TokenKind};
use atoms::{Rule, sign, word};
use chumsky::Parser as _;
use fault::Silent;
use misspelled::misspelled;

/// What a statement of this zone says, or what is wrong with it.
pub(crate) fn parse(tokens: In, zone: Zone) -> Result<Node, Account> {
    statement::<Silent>(tokens, zone).or_else(|Silent| statement::<Account>(tokens, zone))
}

/// The letters that a line of a leader stands for, or what is wrong with it.
pub(crate) fn parse_letters(tokens: In) -> Result<Letters, Account> {
    whole(body::letters::<Account>(), tokens)
}

fn statement<'t, F: Fault<'t>>(tokens: In<'t>, zone: Zone) -> Result<Node, F> {
    let Some(first) = tokens.first() else { return Err(F::due(0, Expected::Statement)) };
    let piece = || EndPiece::read(first.text, tokens);
    let body = || Body::read(first.text, tokens);
    let head = || Head::read(first.text, tokens);
    let read = match zone {
        Zone::Ends => piece().or_else(body).or_else(head),
        Zone::Top | Zone::Colorway | Zone::Gauge => head().or_else(body).or_else(piece),
        Zone::Body | Zone::Rows | Zone::Leader | Zone::Face | Zone::Any => {
            body().or_else(head).or_else(piece)
        }
    };
    if let Some(read) = read {
        return read;
    }
    if first.kind == TokenKind::Number || first.is("thickness") {
        return whole(head::swatch(), tokens).map(Node::Swatch);
    }
    Err(F::due(0, Expected::Statement))
}

/// A statement that begins with a word of its own.
pub(crate) trait Written: Declared + Sized {
    /// What comes after that word.
    fn rule<'t, F: Fault<'t>>() -> impl Rule<'t, Self, F>;

    /// Why what was read will not do, where only the whole of it can show that.
    fn objection<'t, F: Fault<'t>>(&self, _: In<'t>) -> Option<F> {
        None
    }
}

/// The statement that these tokens are, whose first word was seen.
pub(crate) fn written<'t, S: Written, F: Fault<'t>>(tokens: In<'t>) -> Result<S, F> {
    let said = whole(word(|| S::WORD).ignore_then(S::rule()), tokens)?;
    match said.objection(tokens) {
        None => Ok(said),
        Some(fault) => Err(fault),
    }
}

/// Runs `rule` over all tokens.
fn whole<'t, O, F: Fault<'t>>(rule: impl Rule<'t, O, F>, tokens: In<'t>) -> Result<O, F> {
    let (value, faults) = rule.parse(tokens).into_output_errors();
    match (value, faults.into_iter().next()) {
        (Some(value), None) => Ok(value),
        (_, Some(fault)) => Err(fault),
        (None, None) => Err(F::due(0, Expected::Statement)),
    }
}

/// The `{` that ends the line.
fn open<'t, F: Fault<'t>>() -> impl Rule<'t, Span, F> {
    sign(|| (TokenKind::OpenBrace, Expected::OpenBrace))
}

fn block(open: Span) -> Block {
    Block { open, close: None, statements: Vec::new() }
}

fn chart(open: Span) -> Chart {
    Chart { open, close: None, rows: Vec::new() }
}

/// The problem that an account describes.
pub(crate) fn problem(account: Account, tokens: In, zone: Zone) -> Problem {
    if account.wrong.is_none()
        && let Some(problem) = misspelled(account.at, tokens, zone)
    {
        return problem;
    }
    let end = tokens.last().map_or(0, |last| last.span.end);
    let span = tokens.get(account.at).map_or(Span { start: end, end }, |tok| tok.span);
    let kind = account.wrong.unwrap_or(ProblemKind::Unexpected { expected: account.expected });
    Problem { span, kind }
}
