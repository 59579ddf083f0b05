//! The numbers of a statement, and what each of them says.

use knotwright_checker::Known;
use knotwright_grammar::tree::{
    Counting, Expect, Expr, Extent, GoalPlace, List, ListItem, ListShape, Node, Operator, Range, Run, Series,
    StrandBy, StrandRef, Strands,
};
use smol_str::SmolStr;

/// What a number says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Meaning {
    /// A place from the left or the right.
    Place { right: bool },
    /// Which strand of a color.
    Nth(Counting),
    /// How many knots.
    Knots,
    /// The first number of a series.
    First,
    /// The last number of a series.
    Last,
    /// The step of a series.
    By,
    /// Where a run ends.
    Goal { right: bool },
    /// How many strands of a range, or where it begins and ends.
    Range(&'static str),
    /// How often a block is tied.
    Times,
    /// How many strands of a color in a list.
    Strands,
    /// An argument of a motif, counted from 0.
    Argument(usize),
}

/// The numbers of a statement without those of its block.
pub(crate) fn exprs(node: &Node) -> Vec<(&Expr, Meaning)> {
    let mut found = Vec::new();
    match node {
        Node::Take(take) => {
            strand(&take.strand, &mut found);
            runs(&take.runs, &mut found);
            take.thens.iter().for_each(|then| runs(&then.runs, &mut found));
        }
        Node::Leader { strand: by, .. } => strand(by, &mut found),
        Node::On { range, .. } => self::range(range, &mut found),
        Node::Repeat { times, .. } => found.push((times, Meaning::Times)),
        Node::For { series, .. } => self::series(series, &mut found),
        Node::Work(work) => {
            found.extend(work.args.iter().enumerate().map(|(at, expr)| (expr, Meaning::Argument(at))));
        }
        Node::Expect(Expect::List(list)) | Node::Strands(Strands::Across(list)) => {
            self::list(list, &mut found)
        }
        Node::Strands(Strands::FromEdges { left, right }) => items(left.iter().chain(right), &mut found),
        _ => {}
    }
    found
}

type Found<'t> = Vec<(&'t Expr, Meaning)>;

fn strand<'t>(strand: &'t StrandRef, found: &mut Found<'t>) {
    match &strand.by {
        StrandBy::Left(number) => found.push((number, Meaning::Place { right: false })),
        StrandBy::Right(number) => found.push((number, Meaning::Place { right: true })),
        StrandBy::Color { number, from, .. } => found.push((number, Meaning::Nth(*from))),
        StrandBy::CenterLeft | StrandBy::CenterRight | StrandBy::Center | StrandBy::Label(_) => {}
    }
}

fn runs<'t>(runs: &'t [Run], found: &mut Found<'t>) {
    for run in runs {
        match &run.extent {
            Extent::Count { count, .. } => found.push((count, Meaning::Knots)),
            Extent::Series(series) => self::series(series, found),
            Extent::To(goal) => match &goal.place {
                GoalPlace::Left(number) => found.push((number, Meaning::Goal { right: false })),
                GoalPlace::Right(number) => found.push((number, Meaning::Goal { right: true })),
                _ => {}
            },
            Extent::Over(_) | Extent::Until(_) => {}
        }
    }
}

fn series<'t>(series: &'t Series, found: &mut Found<'t>) {
    found.push((&series.first, Meaning::First));
    found.push((&series.last, Meaning::Last));
    found.extend(series.by.iter().map(|by| (by, Meaning::By)));
}

fn range<'t>(range: &'t Range, found: &mut Found<'t>) {
    match range {
        Range::Left(number) => found.push((number, Meaning::Range("so many strands at the left edge"))),
        Range::Right(number) => found.push((number, Meaning::Range("so many strands at the right edge"))),
        Range::Center(number) => found.push((number, Meaning::Range("so many strands in the middle"))),
        Range::Inside(number) => found.push((number, Meaning::Range("all but so many strands at each edge"))),
        Range::Between(first, last) => {
            found.push((first, Meaning::Range("the first place, from the left")));
            found.push((last, Meaning::Range("the last place, from the left")));
        }
    }
}

fn list<'t>(list: &'t List, found: &mut Found<'t>) {
    match &list.shape {
        ListShape::Plain(all) | ListShape::Mirror(all) => items(all.iter(), found),
        ListShape::Halves(left, right) => items(left.iter().chain(right), found),
        ListShape::MirrorAround(half, middle) => items(half.iter().chain(std::iter::once(middle)), found),
    }
}

fn items<'t>(items: impl Iterator<Item = &'t ListItem>, found: &mut Found<'t>) {
    found.extend(items.filter_map(|item| Some((item.count.as_ref()?, Meaning::Strands))));
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
