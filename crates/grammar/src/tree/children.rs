//! What a statement is made of: names that it gives and calls, numbers and what they say, texts, lists, knots, blocks. One
//! look at these serves the checker, the search for names, hover, selection and all else that need not know which
//! statement it is.

use super::{Block, Chart, Counting, Expr, List, Name, Run, StrandRef, Text, Then};

/// One thing of which a statement is made. A thing with others in it comes before them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Child<'t> {
    /// A name that the statement gives.
    Gives(Gives, &'t Name),
    /// A name that it calls.
    Calls(Due, &'t Name),
    /// A number, and what it says. The names in it come after it.
    Number(Meaning, &'t Expr),
    /// A text for people, or a path.
    Text(&'t Text),
    /// A strand.
    Strand(&'t StrandRef),
    /// All that a strand ties; each run comes after it.
    Runs(&'t [Run]),
    /// Knots of one kind.
    Run(&'t Run),
    /// A `then` with what the strand ties.
    Then(&'t Then),
    /// Strands by color.
    List(&'t List),
    /// Statements in braces.
    Block(&'t Block),
    /// The lines of a chart.
    Chart(&'t Chart),
}

/// What a name is given to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Gives {
    /// A thread; in a colorway the name calls one of the file.
    Thread,
    /// A bead.
    Bead,
    /// A motif of this file.
    Motif,
    /// A motif of another file.
    Import,
    /// A parameter of a motif: a number or a thread.
    Parameter,
    /// The counting name of a `for`.
    Counter,
    /// A strand.
    Label,
}

/// What a name must stand for where it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Due {
    /// A thread.
    Thread,
    /// A bead.
    Bead,
    /// A number.
    Number,
    /// A label.
    Label,
    /// A motif.
    Motif,
    /// A thread or a number: the argument of a motif.
    Argument,
}

/// What a number says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meaning {
    /// A place from the left or the right.
    Place {
        /// Whether it is counted from the right.
        right: bool,
    },
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
    Goal {
        /// Whether it is counted from the right.
        right: bool,
    },
    /// How many strands at an edge.
    AtEdge {
        /// Whether it is the right edge.
        right: bool,
    },
    /// How many strands in the middle.
    InMiddle,
    /// How many strands at each edge are left out.
    AllBut,
    /// The first place of a range, from the left.
    FirstPlace,
    /// The last place of a range, from the left.
    LastPlace,
    /// How often a block is tied.
    Times,
    /// In which set, counted from 1.
    WhichSet,
    /// How many strands of a color in a list.
    Strands,
    /// An argument of a motif, counted from 0.
    Argument(usize),
}

#[cfg(test)]
mod tests {
    use super::{Child, Due};

    fn called(text: &str) -> Vec<(Due, String)> {
        let parsed = crate::parse(&format!("motif m(a, n) {{\n  {text}\n}}\n"));
        assert_eq!(parsed.problems, [], "{text}");
        let mut found = Vec::new();
        for statement in parsed.tree.walk() {
            statement.node.children(&mut |child| {
                if let Child::Calls(due, name) = child {
                    found.push((due, name.text.to_string()));
                }
            });
        }
        found
    }

    #[test]
    fn every_name_is_reported_in_its_place_with_what_it_must_be() {
        let visit = |text: &str, names: &[(Due, &str)]| {
            let names: Vec<_> = names.iter().map(|&(due, name)| (due, name.to_owned())).collect();
            assert_eq!(called(text), names, "{text}");
        };
        use Due::{Argument, Label, Motif, Number, Thread};
        visit(
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
        visit(
            "take crest: forward until foam\n  then n",
            &[(Label, "crest"), (Thread, "foam"), (Number, "n")],
        );
        visit("work fans(a, (n + 1) * k)", &[(Motif, "fans"), (Argument, "a"), (Number, "n"), (Number, "k")]);
        visit(
            "for i a down to b by c {\n    on i to n {\n      meet center\n    }\n  }",
            &[(Number, "a"), (Number, "b"), (Number, "c"), (Number, "i"), (Number, "n")],
        );
        visit("expect (n) foam kelp | mirror", &[(Number, "n"), (Thread, "foam"), (Thread, "kelp")]);
    }
}
