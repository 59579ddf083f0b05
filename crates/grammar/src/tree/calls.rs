//! The names that a statement calls: threads, numbers, labels, motifs. Those that it gives are not among them.

use super::{
    Expect, Expr, Extent, GoalPlace, List, ListItem, ListShape, Name, Node, Range, Run, Series, StrandBy,
    Strands,
};

/// What a name must stand for where it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Due {
    /// A thread.
    Thread,
    /// A number.
    Number,
    /// A label.
    Label,
    /// A motif.
    Motif,
    /// A thread or a number: the argument of a motif.
    Argument,
}

impl Node {
    /// Tells every name that the statement itself calls, in the order they stand. The statements in its block are asked
    /// for theirs.
    pub fn calls<'t>(&'t self, told: &mut impl FnMut(Due, &'t Name)) {
        match self {
            Self::Strands(Strands::Across(list)) | Self::Expect(Expect::List(list)) => in_list(list, told),
            Self::Strands(Strands::FromEdges { left, right }) => in_items(left.iter().chain(right), told),
            Self::Take(take) => {
                in_strand(&take.strand.by, told);
                take.promise.iter().for_each(|promise| told(Due::Thread, promise));
                in_runs(&take.runs, told);
                take.thens.iter().for_each(|then| in_runs(&then.runs, told));
            }
            Self::Leader { strand, promise, .. } => {
                in_strand(&strand.by, told);
                promise.iter().for_each(|promise| told(Due::Thread, promise));
            }
            Self::On { range, .. } => in_range(range, told),
            Self::Repeat { times, .. } => in_number(times, told),
            Self::For { series, .. } => in_series(series, told),
            Self::Work(work) => {
                told(Due::Motif, &work.motif);
                for argument in &work.args {
                    match argument {
                        Expr::Name(name) => told(Due::Argument, name),
                        expr => in_number(expr, told),
                    }
                }
            }
            _ => {}
        }
    }
}

fn in_strand<'t>(by: &'t StrandBy, told: &mut impl FnMut(Due, &'t Name)) {
    match by {
        StrandBy::Left(number) | StrandBy::Right(number) => in_number(number, told),
        StrandBy::Color { color, number, .. } => {
            told(Due::Thread, color);
            in_number(number, told);
        }
        StrandBy::Label(label) => told(Due::Label, label),
        StrandBy::CenterLeft | StrandBy::CenterRight | StrandBy::Center => {}
    }
}

fn in_runs<'t>(runs: &'t [Run], told: &mut impl FnMut(Due, &'t Name)) {
    for run in runs {
        match &run.extent {
            Extent::Count { count, over } => {
                in_number(count, told);
                over.iter().for_each(|over| told(Due::Thread, over));
            }
            Extent::Over(thread) | Extent::Until(thread) => told(Due::Thread, thread),
            Extent::To(goal) => match &goal.place {
                GoalPlace::Left(number) | GoalPlace::Right(number) => in_number(number, told),
                GoalPlace::CenterLeft | GoalPlace::CenterRight | GoalPlace::Center | GoalPlace::Edge => {}
            },
            Extent::Series(series) => in_series(series, told),
        }
    }
}

fn in_range<'t>(range: &'t Range, told: &mut impl FnMut(Due, &'t Name)) {
    match range {
        Range::Left(number) | Range::Right(number) | Range::Center(number) | Range::Inside(number) => {
            in_number(number, told);
        }
        Range::Between(first, last) => {
            in_number(first, told);
            in_number(last, told);
        }
    }
}

fn in_series<'t>(series: &'t Series, told: &mut impl FnMut(Due, &'t Name)) {
    in_number(&series.first, told);
    in_number(&series.last, told);
    series.by.iter().for_each(|by| in_number(by, told));
}

fn in_list<'t>(list: &'t List, told: &mut impl FnMut(Due, &'t Name)) {
    match &list.shape {
        ListShape::Plain(all) | ListShape::Mirror(all) => in_items(all.iter(), told),
        ListShape::Halves(left, right) => in_items(left.iter().chain(right), told),
        ListShape::MirrorAround(half, middle) => in_items(half.iter().chain([middle]), told),
    }
}

fn in_items<'t>(items: impl Iterator<Item = &'t ListItem>, told: &mut impl FnMut(Due, &'t Name)) {
    for item in items {
        item.count.iter().for_each(|count| in_number(count, told));
        told(Due::Thread, &item.thread);
    }
}

fn in_number<'t>(expr: &'t Expr, told: &mut impl FnMut(Due, &'t Name)) {
    match expr {
        Expr::Number(_) => {}
        Expr::Name(name) => told(Due::Number, name),
        Expr::Operation(operation) => {
            in_number(&operation.left, told);
            in_number(&operation.right, told);
        }
        Expr::Group(group) => in_number(&group.inner, told),
    }
}

#[cfg(test)]
mod tests {
    use super::Due;

    fn called(text: &str) -> Vec<(Due, String)> {
        let parsed = crate::parse(&format!("motif m(a, n) {{\n  {text}\n}}\n"));
        assert_eq!(parsed.problems, [], "{text}");
        let mut found = Vec::new();
        for statement in parsed.tree.walk() {
            statement.node.calls(&mut |due, name| found.push((due, name.text.to_string())));
        }
        found
    }

    #[test]
    fn every_name_is_told_in_its_place_with_what_it_must_be() {
        let told = |text: &str, names: &[(Due, &str)]| {
            let names: Vec<_> = names.iter().map(|&(due, name)| (due, name.to_owned())).collect();
            assert_eq!(called(text), names, "{text}");
        };
        use Due::{Argument, Label, Motif, Number, Thread};
        told(
            "take foam n from left (kelp) as crest: forward n - 1 over sand, backward to left b",
            &[
                (Thread, "foam"),
                (Number, "n"),
                (Thread, "kelp"),
                (Number, "n"),
                (Thread, "sand"),
                (Number, "b"),
            ],
        );
        told(
            "take crest: forward until foam\n  then n",
            &[(Label, "crest"), (Thread, "foam"), (Number, "n")],
        );
        told("work fans(a, (n + 1) * k)", &[(Motif, "fans"), (Argument, "a"), (Number, "n"), (Number, "k")]);
        told(
            "for i a down to b by c {\n    on i to n {\n      meet center\n    }\n  }",
            &[(Number, "a"), (Number, "b"), (Number, "c"), (Number, "i"), (Number, "n")],
        );
        told("expect (n) foam kelp | mirror", &[(Number, "n"), (Thread, "foam"), (Thread, "kelp")]);
    }
}
