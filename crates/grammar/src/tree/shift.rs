//! The same tree in a text in which something before it has become longer or shorter.

use super::*;

/// What has places in it.
pub(crate) trait Shift {
    /// Moves every place by so many bytes.
    fn shift(&mut self, by: i32);
}

impl Shift for u32 {
    fn shift(&mut self, by: i32) {
        *self = self.wrapping_add_signed(by);
    }
}

impl Shift for Span {
    fn shift(&mut self, by: i32) {
        self.start.shift(by);
        self.end.shift(by);
    }
}

impl<T: Shift> Shift for Option<T> {
    fn shift(&mut self, by: i32) {
        self.iter_mut().for_each(|some| some.shift(by));
    }
}

impl<T: Shift> Shift for Box<T> {
    fn shift(&mut self, by: i32) {
        (**self).shift(by);
    }
}

impl<T: Shift> Shift for Vec<T> {
    fn shift(&mut self, by: i32) {
        self.iter_mut().for_each(|one| one.shift(by));
    }
}

/// Types of which these fields have places in them.
macro_rules! shift_fields {
    ($($type:ident { $($field:ident),+ })+) => {
        $(impl Shift for $type {
            fn shift(&mut self, by: i32) {
                $(self.$field.shift(by);)+
            }
        })+
    };
}

shift_fields! {
    Statement { span, head, node }
    Block { open, close, statements }
    Motif { name, params, width, block }
    Work { motif, args, mirrored }
    Chart { open, close, rows }
    ChartRow { span, marks }
    Mark { offset }
    Thread { name, color, label }
    List { span, shape }
    ListItem { count, thread }
    Take { strand, promise, label, runs, thens }
    Then { word, runs }
    StrandRef { span, by }
    Goal { span, place }
    Text { span }
    Name { span }
    Number { span }
    Length { span }
    Group { span, inner }
    Operation { left, right }
    Series { first, last, by }
}

impl Shift for Node {
    fn shift(&mut self, to: i32) {
        match self {
            Self::Pattern { title, edition } => {
                title.shift(to);
                edition.shift(to);
            }
            Self::About(text) | Self::Author(text) | Self::License(text) | Self::Note(text) => text.shift(to),
            Self::Thread(thread) => thread.shift(to),
            Self::Colorway { name: text, block } | Self::Section { title: text, block } => {
                text.shift(to);
                block.shift(to);
            }
            Self::Strands(strands) => strands.shift(to),
            Self::Swatch(swatch) => swatch.shift(to),
            Self::Length(length) | Self::Ends(length) => length.shift(to),
            Self::Sets(number) => number.shift(to),
            Self::Start(start) => start.shift(to),
            Self::Use { names, path } => {
                names.shift(to);
                path.shift(to);
            }
            Self::Motif(motif) => motif.shift(to),
            Self::Gauge(block)
            | Self::Opening(block)
            | Self::Set(block)
            | Self::Closing(block)
            | Self::Both(block)
            | Self::Mirrored(block) => block.shift(to),
            Self::Take(take) => take.shift(to),
            Self::Meet => {}
            Self::On { range, block } => {
                range.shift(to);
                block.shift(to);
            }
            Self::Work(work) => work.shift(to),
            Self::Repeat { times, block } => {
                times.shift(to);
                block.shift(to);
            }
            Self::For { variable, series, block } => {
                variable.shift(to);
                series.shift(to);
                block.shift(to);
            }
            Self::Rows { offset, chart } => {
                offset.shift(to);
                chart.shift(to);
            }
            Self::Leader { strand, promise, chart } => {
                strand.shift(to);
                promise.shift(to);
                chart.shift(to);
            }
            Self::Expect(expect) => expect.shift(to),
            Self::Broken { block } => block.shift(to),
        }
    }
}

impl Shift for Expect {
    fn shift(&mut self, by: i32) {
        match self {
            Self::List(list) => list.shift(by),
            Self::Start { mirrored } => mirrored.shift(by),
        }
    }
}

impl Shift for Strands {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Across(list) => list.shift(by),
            Self::FromEdges { left, right } => {
                left.shift(by);
                right.shift(by);
            }
        }
    }
}

impl Shift for ListShape {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Plain(all) | Self::Mirror(all) => all.shift(by),
            Self::Halves(left, right) => {
                left.shift(by);
                right.shift(by);
            }
            Self::MirrorAround(half, middle) => {
                half.shift(by);
                middle.shift(by);
            }
        }
    }
}

impl Shift for Swatch {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Thickness(length) => length.shift(by),
            Self::Knots(count, length) | Self::Rows(count, length) => {
                count.shift(by);
                length.shift(by);
            }
        }
    }
}

impl Shift for Start {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Loose | Self::Folded(_) => {}
            Self::Loop(length, _) => length.shift(by),
        }
    }
}

impl Shift for Range {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Left(number) | Self::Right(number) | Self::Center(number) | Self::Inside(number) => {
                number.shift(by);
            }
            Self::Between(first, last) => {
                first.shift(by);
                last.shift(by);
            }
        }
    }
}

impl Shift for StrandBy {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Left(number) | Self::Right(number) => number.shift(by),
            Self::CenterLeft | Self::CenterRight | Self::Center => {}
            Self::Color { color, number, from: _ } => {
                color.shift(by);
                number.shift(by);
            }
            Self::Label(name) => name.shift(by),
        }
    }
}

impl Shift for Run {
    fn shift(&mut self, by: i32) {
        self.span.shift(by);
        self.kind.iter_mut().for_each(|(_, span)| span.shift(by));
        self.extent.shift(by);
    }
}

impl Shift for Extent {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Count { count, over } => {
                count.shift(by);
                over.shift(by);
            }
            Self::Over(name) | Self::Until(name) => name.shift(by),
            Self::To(goal) => goal.shift(by),
            Self::Series(series) => series.shift(by),
        }
    }
}

impl Shift for GoalPlace {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Left(number) | Self::Right(number) => number.shift(by),
            Self::CenterLeft | Self::CenterRight | Self::Center | Self::Edge => {}
        }
    }
}

impl Shift for Expr {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Number(number) => number.shift(by),
            Self::Name(name) => name.shift(by),
            Self::Operation(operation) => operation.shift(by),
            Self::Group(group) => group.shift(by),
        }
    }
}
