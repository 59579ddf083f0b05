//! The parts of a statement as compact text.

use knotwright_grammar::Span;
use knotwright_grammar::tree::*;
use std::fmt::Display;

pub fn opt(before: &str, value: Option<impl Display>) -> String {
    value.map_or(String::new(), |value| format!("{before}{value}"))
}

pub fn others_of(others: &[Translation]) -> String {
    others.iter().map(|other| format!(", {} {:?}", other.language.text, other.text.value)).collect()
}

pub fn mirrored(word: Option<Span>) -> &'static str {
    if word.is_some() { " mirrored" } else { "" }
}

pub fn names(names: &[Name]) -> String {
    names.iter().map(|name| name.text.as_str()).collect::<Vec<_>>().join(" ")
}

pub fn length(length: &Length) -> String {
    format!("{}mm", length.millimeters)
}

pub fn start_of(start: &Start) -> String {
    match start {
        Start::Loose => "loose".into(),
        Start::Folded(pairs) => format!("folded {pairs:?}"),
        Start::Loop(size, pairs) => format!("loop {} {pairs:?}", length(size)),
    }
}

pub fn expr(expr: &Expr) -> String {
    match expr {
        Expr::Number(number) => number.value.to_string(),
        Expr::Name(name) => name.text.to_string(),
        Expr::Group(group) => self::expr(&group.inner),
        Expr::Operation(operation) => {
            let sign = match operation.operator {
                Operator::Plus => "+",
                Operator::Minus => "-",
                Operator::Times => "*",
            };
            format!("({sign} {} {})", self::expr(&operation.left), self::expr(&operation.right))
        }
    }
}

pub fn series_of(series: &Series) -> String {
    let by = opt(" by ", series.by.as_ref().map(expr));
    format!("{}..{:?}..{}{by}", expr(&series.first), series.direction, expr(&series.last))
}

pub fn items(items: &[ListItem]) -> String {
    items.iter().map(item).collect::<Vec<_>>().join(" ")
}

fn item(item: &ListItem) -> String {
    match &item.count {
        Some(count) => format!("{}x{}", expr(count), item.thread.text),
        None => item.thread.text.to_string(),
    }
}

pub fn shape(list: &List) -> String {
    match &list.shape {
        ListShape::Plain(all) => format!("[{}]", items(all)),
        ListShape::Halves(left, right) => format!("[{}] | [{}]", items(left), items(right)),
        ListShape::Mirror(half) => format!("[{}] | mirror", items(half)),
        ListShape::MirrorAround(half, middle) => format!("[{}] | {} | mirror", items(half), item(middle)),
    }
}

pub fn strand_of(strand: &StrandRef) -> String {
    match &strand.by {
        StrandBy::Left(number) => format!("left {}", expr(number)),
        StrandBy::Right(number) => format!("right {}", expr(number)),
        StrandBy::CenterLeft => "center-left".into(),
        StrandBy::CenterRight => "center-right".into(),
        StrandBy::Center => "center".into(),
        StrandBy::Color { color, number, from } => format!("{} {} {from:?}", color.text, expr(number)),
        StrandBy::Label(name) => format!("label {}", name.text),
    }
}

pub fn promise_of(promise: &Option<Name>) -> String {
    promise.as_ref().map_or(String::new(), |name| format!(" ({})", name.text))
}

pub fn range_of(range: &Range) -> String {
    match range {
        Range::Left(number) => format!("left {}", expr(number)),
        Range::Right(number) => format!("right {}", expr(number)),
        Range::Center(number) => format!("center {}", expr(number)),
        Range::Inside(number) => format!("inside {}", expr(number)),
        Range::Between(first, last) => format!("{} to {}", expr(first), expr(last)),
    }
}

pub fn take_of(take: &Take) -> String {
    let label = opt(" as ", take.label.as_ref().map(|name| &name.text));
    let thens: String = take.thens.iter().map(|then| format!(" then {}", runs(&then.runs))).collect();
    format!(
        "take {}{}{label}: {}{thens}",
        strand_of(&take.strand),
        promise_of(&take.promise),
        runs(&take.runs)
    )
}

fn runs(runs: &[Run]) -> String {
    runs.iter().map(run).collect::<Vec<_>>().join(", ")
}

fn run(run: &Run) -> String {
    let kind = run.kind.map_or("(same)".into(), |(kind, _)| format!("{kind:?}"));
    let extent = match &run.extent {
        Extent::Count { count, over } => {
            format!("{}{}", expr(count), opt(" over ", over.as_ref().map(|name| &name.text)))
        }
        Extent::Over(name) => format!("over {}", name.text),
        Extent::Until(name) => format!("until {}", name.text),
        Extent::To(goal) => format!("to {}", place(&goal.place)),
        Extent::Series(series) => series_of(series),
    };
    format!("{kind} {extent}")
}

fn place(place: &GoalPlace) -> String {
    match place {
        GoalPlace::Left(number) => format!("left {}", expr(number)),
        GoalPlace::Right(number) => format!("right {}", expr(number)),
        GoalPlace::CenterLeft => "center-left".into(),
        GoalPlace::CenterRight => "center-right".into(),
        GoalPlace::Center => "center".into(),
        GoalPlace::Edge => "edge".into(),
    }
}
