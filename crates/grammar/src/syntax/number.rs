//! Numbers that may have to be computed, and series of them.

use super::atoms::{Rule, name_among_others, number, perhaps, sign, word};
use super::fault::Fault;
use super::token::In;
use crate::tree::{Direction, Expr, Group, Operation, Operator, Series};
use crate::{Expected, TokenKind};
use chumsky::input::InputRef;
use chumsky::prelude::*;

/// Sums and products of numbers, names and parentheses.
pub(crate) fn expr<'t, F: Fault<'t>>() -> impl Rule<'t, Expr, F> {
    let sum = choice((
        operator(|| TokenKind::Plus, || Operator::Plus),
        operator(|| TokenKind::Minus, || Operator::Minus),
    ));
    chain(chain(factor(), operator(|| TokenKind::Star, || Operator::Times)), sum)
}

/// `part`s with signs between; equals bind from the left.
fn chain<'t, F: Fault<'t>>(
    part: impl Rule<'t, Expr, F>,
    operator: impl Rule<'t, Operator, F>,
) -> impl Rule<'t, Expr, F> {
    part.foldl(operator.then(part).repeated(), |left, (operator, right)| {
        Expr::Operation(Box::new(Operation { left, operator, right }))
    })
}

/// A sign between numbers; not asked for where it is missing.
fn operator<'t, F: Fault<'t>>(
    kind: impl Fn() -> TokenKind + Copy,
    operator: impl Fn() -> Operator + Copy,
) -> impl Rule<'t, Operator, F> {
    perhaps(kind).map(move |_| operator())
}

fn factor<'t, F: Fault<'t>>() -> impl Rule<'t, Expr, F> {
    choice((
        number().map(Expr::Number),
        name_among_others(|| Expected::Number).map(Box::new).map(Expr::Name),
        group(),
    ))
}

/// `( ... )`, called again for each parenthesis, so that the parser need not contain itself.
pub(crate) fn group<'t, F: Fault<'t>>() -> impl Rule<'t, Expr, F> {
    custom(group_within::<F>)
}

fn group_within<'t, F: Fault<'t>>(input: &mut InputRef<'t, '_, In<'t>, extra::Err<F>>) -> Result<Expr, F> {
    let open = input.parse(sign(|| (TokenKind::OpenParen, Expected::Number)))?;
    let inner = input.parse(expr())?;
    let close = input.parse(sign(|| (TokenKind::CloseParen, Expected::CloseParen)))?;
    Ok(Expr::Group(Box::new(Group { span: open.to(close), inner })))
}

/// `down to B [by S]`, `up to B [by S]`: a series without its first number.
pub(crate) fn rest_of_series<'t, F: Fault<'t>>() -> impl Rule<'t, (Direction, Expr, Option<Expr>), F> {
    let direction = choice((word(|| "down").map(|_| Direction::Down), word(|| "up").map(|_| Direction::Up)));
    direction
        .then_ignore(word(|| "to"))
        .then(expr())
        .then(word(|| "by").ignore_then(expr()).or_not())
        .map(|((direction, last), by)| (direction, last, by))
}

/// `A down to B [by S]`, `A up to B [by S]`
pub(crate) fn series<'t, F: Fault<'t>>() -> impl Rule<'t, Series, F> {
    expr().then(rest_of_series()).map(|(first, (direction, last, by))| Series { first, direction, last, by })
}
