//! The numbers of a statement, and what each of them says.

use knotwright_checker::Known;
use knotwright_grammar::tree::{Child, Expr, Meaning, Node, Operator};
use smol_str::SmolStr;

/// The numbers of a statement without those of its block, and what each of them says.
pub(crate) fn exprs(node: &Node) -> Vec<(&Expr, Meaning)> {
    let mut found = Vec::new();
    node.children(&mut |child| {
        if let Child::Number(says, number) = child {
            found.push((number, says));
        }
    });
    found
}

/// What an expression comes to; `None` if a name in it is not known, or it is out of all bounds.
pub(crate) fn value(expr: &Expr, names: &[(SmolStr, Known)]) -> Option<i64> {
    match expr {
        Expr::Number(number) => Some(i64::from(number.value)),
        Expr::Name(name) => match known(names, &name.text)? {
            Known::Number(number) => Some(number),
            _ => None,
        },
        Expr::Group(group) => value(&group.inner, names),
        Expr::Operation(operation) => {
            let (left, right) = (value(&operation.left, names)?, value(&operation.right, names)?);
            match operation.operator {
                Operator::Plus => left.checked_add(right),
                Operator::Minus => left.checked_sub(right),
                Operator::Times => left.checked_mul(right),
            }
        }
    }
}

/// What the innermost thing of that name is.
pub(crate) fn known(names: &[(SmolStr, Known)], name: &str) -> Option<Known> {
    names.iter().rev().find(|(known, _)| known == name).map(|(_, value)| *value)
}
