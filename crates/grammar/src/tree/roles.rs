//! What the fields of a statement are: each function says what one field is made of.

use super::{Block, Chart, FaceKey, List, Name, Run, StrandRef, Text, Then, Translation};
use super::{
    Child, Due, Expr, Extent, Gives, GoalPlace, ListItem, ListShape, Meaning, Range, Series, StrandBy,
};

/// What is nothing but a place, or is read by those who know the statement.
pub(super) fn plain<'t, T>(_: &'t T, _: &mut impl FnMut(Child<'t>)) {}

pub(super) fn text<'t>(text: &'t Text, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Text(text));
}

/// Texts in other languages.
pub(super) fn translations<'t>(others: &'t [Translation], visit: &mut impl FnMut(Child<'t>)) {
    others.iter().for_each(|other| visit(Child::Text(&other.text)));
}

/// What people call a thread or a bead.
pub(super) fn nickname<'t>(label: &'t Option<Box<Text>>, visit: &mut impl FnMut(Child<'t>)) {
    label.iter().for_each(|label| visit(Child::Text(label)));
}

pub(super) fn block<'t>(block: &'t Block, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Block(block));
}

/// What letters stand for; a letter is no name for others.
pub(super) fn keys<'t>(keys: &'t [FaceKey], visit: &mut impl FnMut(Child<'t>)) {
    keys.iter().for_each(|key| visit(Child::Calls(Due::Thread, &key.thread)));
}

pub(super) fn chart<'t>(chart: &'t Chart, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Chart(chart));
}

pub(super) fn gives<'t>(name: &'t Name, what: Gives, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Gives(what, name));
}

pub(super) fn gives_each<'t>(names: &'t [Name], what: Gives, visit: &mut impl FnMut(Child<'t>)) {
    names.iter().for_each(|name| visit(Child::Gives(what, name)));
}

/// The label of a strand, if it gets one.
pub(super) fn labels<'t>(label: &'t Option<Box<Name>>, visit: &mut impl FnMut(Child<'t>)) {
    label.iter().for_each(|label| visit(Child::Gives(Gives::Label, label)));
}

pub(super) fn calls<'t>(name: &'t Name, due: Due, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Calls(due, name));
}

/// A promised color, or a thread that may be left out.
pub(super) fn promise<'t>(thread: &'t Option<Name>, visit: &mut impl FnMut(Child<'t>)) {
    thread.iter().for_each(|thread| visit(Child::Calls(Due::Thread, thread)));
}

pub(super) fn number<'t>(number: &'t Expr, says: Meaning, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Number(says, number));
    names_in(number, visit);
}

/// A number that may be left out.
pub(super) fn number_if_said<'t>(
    number_said: &'t Option<Box<Expr>>,
    says: Meaning,
    visit: &mut impl FnMut(Child<'t>),
) {
    number_said.iter().for_each(|said| number(said, says, visit));
}

/// The names in a number.
fn names_in<'t>(number: &'t Expr, visit: &mut impl FnMut(Child<'t>)) {
    match number {
        Expr::Number(_) => {}
        Expr::Name(name) => visit(Child::Calls(Due::Number, name)),
        Expr::Operation(operation) => {
            names_in(&operation.left, visit);
            names_in(&operation.right, visit);
        }
        Expr::Group(group) => names_in(&group.inner, visit),
    }
}

/// The arguments of a motif: each is a number, or a name that may also be a thread.
pub(super) fn arguments<'t>(arguments: &'t [Expr], visit: &mut impl FnMut(Child<'t>)) {
    for (at, argument) in arguments.iter().enumerate() {
        visit(Child::Number(Meaning::Argument(at), argument));
        match argument {
            Expr::Name(name) => visit(Child::Calls(Due::Argument, name)),
            Expr::Number(_) | Expr::Operation(_) | Expr::Group(_) => names_in(argument, visit),
        }
    }
}

pub(super) fn series<'t>(series: &'t Series, visit: &mut impl FnMut(Child<'t>)) {
    number(&series.first, Meaning::First, visit);
    number(&series.last, Meaning::Last, visit);
    series.by.iter().for_each(|by| number(by, Meaning::By, visit));
}

pub(super) fn range<'t>(range: &'t Range, visit: &mut impl FnMut(Child<'t>)) {
    match range {
        Range::Left(count) => number(count, Meaning::AtEdge { right: false }, visit),
        Range::Right(count) => number(count, Meaning::AtEdge { right: true }, visit),
        Range::Center(count) => number(count, Meaning::InMiddle, visit),
        Range::Inside(count) => number(count, Meaning::AllBut, visit),
        Range::Between(first, last) => {
            number(first, Meaning::FirstPlace, visit);
            number(last, Meaning::LastPlace, visit);
        }
    }
}

pub(super) fn strand<'t>(strand: &'t StrandRef, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Strand(strand));
    match &strand.by {
        StrandBy::Left(place) => number(place, Meaning::Place { right: false }, visit),
        StrandBy::Right(place) => number(place, Meaning::Place { right: true }, visit),
        StrandBy::Color { color, number: nth, from } => {
            visit(Child::Calls(Due::Thread, color));
            number(nth, Meaning::Nth(*from), visit);
        }
        StrandBy::Label(label) => visit(Child::Calls(Due::Label, label)),
        StrandBy::CenterLeft | StrandBy::CenterRight | StrandBy::Center => {}
    }
}

/// The strands that something is on.
pub(super) fn strands<'t>(strands: &'t [StrandRef], visit: &mut impl FnMut(Child<'t>)) {
    strands.iter().for_each(|one| strand(one, visit));
}

pub(super) fn runs<'t>(runs: &'t [Run], visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::Runs(runs));
    for run in runs {
        visit(Child::Run(run));
        extent(&run.extent, visit);
    }
}

fn extent<'t>(extent: &'t Extent, visit: &mut impl FnMut(Child<'t>)) {
    match extent {
        Extent::Count { count, over } => {
            number(count, Meaning::Knots, visit);
            promise(over, visit);
        }
        Extent::Over(thread) | Extent::Until(thread) => visit(Child::Calls(Due::Thread, thread)),
        Extent::To(goal) => match &goal.place {
            GoalPlace::Left(place) => number(place, Meaning::Goal { right: false }, visit),
            GoalPlace::Right(place) => number(place, Meaning::Goal { right: true }, visit),
            GoalPlace::CenterLeft | GoalPlace::CenterRight | GoalPlace::Center | GoalPlace::Edge => {}
        },
        Extent::Series(of) => series(of, visit),
    }
}

pub(super) fn thens<'t>(thens: &'t [Then], visit: &mut impl FnMut(Child<'t>)) {
    for then in thens {
        visit(Child::Then(then));
        runs(&then.runs, visit);
    }
}

pub(super) fn list<'t>(list: &'t List, visit: &mut impl FnMut(Child<'t>)) {
    visit(Child::List(list));
    match &list.shape {
        ListShape::Plain(all) | ListShape::Mirror(all) => items(all, visit),
        ListShape::Halves(left, right) => {
            items(left, visit);
            items(right, visit);
        }
        ListShape::MirrorAround(half, middle) => {
            items(half, visit);
            item(middle, visit);
        }
    }
}

pub(super) fn items<'t>(items: &'t [ListItem], visit: &mut impl FnMut(Child<'t>)) {
    items.iter().for_each(|one| item(one, visit));
}

fn item<'t>(item: &'t ListItem, visit: &mut impl FnMut(Child<'t>)) {
    item.count.iter().for_each(|count| number(count, Meaning::Strands, visit));
    visit(Child::Calls(Due::Thread, &item.thread));
}
