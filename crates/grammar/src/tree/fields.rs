//! What trees are built of: how every place in them moves along with an edit before it, and where a statement has its
//! block or its chart.

use super::*;
use smol_str::SmolStr;

/// What a tree is built of, down to single places.
pub(crate) trait Field {
    /// Moves every place in it by that many bytes.
    fn shift(&mut self, by: i32);

    /// The block that it is or has.
    fn block(&self) -> Option<&Block> {
        None
    }

    /// As [`block`](Self::block), to be changed.
    fn block_mut(&mut self) -> Option<&mut Block> {
        None
    }

    /// The chart that it is or has.
    fn chart(&self) -> Option<&Chart> {
        None
    }

    /// As [`chart`](Self::chart), to be changed.
    fn chart_mut(&mut self) -> Option<&mut Chart> {
        None
    }
}

/// Types that are made of these fields, all of them: one that is left out does not compile.
macro_rules! fields {
    ($($type:ident { $($field:ident),* })+) => {
        $(impl Field for $type {
            #[allow(unused_variables)]
            fn shift(&mut self, by: i32) {
                let Self { $($field),* } = self;
                $($field.shift(by);)*
            }

            fn block(&self) -> Option<&Block> {
                let Self { $($field),* } = self;
                None$(.or_else(|| $field.block()))*
            }

            fn block_mut(&mut self) -> Option<&mut Block> {
                let Self { $($field),* } = self;
                None$(.or_else(|| $field.block_mut()))*
            }

            fn chart(&self) -> Option<&Chart> {
                let Self { $($field),* } = self;
                None$(.or_else(|| $field.chart()))*
            }

            fn chart_mut(&mut self) -> Option<&mut Chart> {
                let Self { $($field),* } = self;
                None$(.or_else(|| $field.chart_mut()))*
            }
        })+
    };
}
pub(crate) use fields;

impl Field for u32 {
    fn shift(&mut self, by: i32) {
        *self = self.wrapping_add_signed(by);
    }
}

impl Field for Span {
    fn shift(&mut self, by: i32) {
        self.start.shift(by);
        self.end.shift(by);
    }
}

impl<T: Field> Field for Option<T> {
    fn shift(&mut self, by: i32) {
        self.iter_mut().for_each(|some| some.shift(by));
    }

    fn block(&self) -> Option<&Block> {
        self.as_ref()?.block()
    }

    fn block_mut(&mut self) -> Option<&mut Block> {
        self.as_mut()?.block_mut()
    }
}

impl<T: Field> Field for Box<T> {
    fn shift(&mut self, by: i32) {
        (**self).shift(by);
    }
}

impl<T: Field> Field for Vec<T> {
    fn shift(&mut self, by: i32) {
        self.iter_mut().for_each(|one| one.shift(by));
    }
}

/// What has no place in it.
macro_rules! placeless {
    ($($type:ty),+) => {
        $(impl Field for $type {
            fn shift(&mut self, _: i32) {}
        })+
    };
}

placeless! { bool, f64, String, SmolStr, Counting, Direction, KnotKind, Operator, Pairs, Sign, Unit }

/// A number as written has a place and a value; only the place moves.
impl Field for Number {
    fn shift(&mut self, by: i32) {
        let Self { span, value: _ } = self;
        span.shift(by);
    }
}

fields! {
    Statement { span, head, node }
    Broken { block }
    ChartRow { span, marks, whole, letters }
    Letters { text, across, height }
    FaceKey { letter, thread }
    ColorChanges { length, further }
    WrittenShade { color, length }
    Mark { offset, sign }
    List { span, shape }
    ListItem { count, thread }
    Then { word, runs }
    StrandRef { span, by }
    Run { span, kind, extent }
    Goal { span, place }
    Text { span, value }
    Translation { language, text }
    Name { span, text }
    Length { span, millimeters, unit }
    Group { span, inner }
    BeadSize { across, hole }
    Operation { left, operator, right }
    Series { first, direction, last, by }
}

impl<A: Field, B: Field> Field for (A, B) {
    fn shift(&mut self, by: i32) {
        self.0.shift(by);
        self.1.shift(by);
    }
}

impl Field for Block {
    fn shift(&mut self, by: i32) {
        let Self { open, close, statements } = self;
        open.shift(by);
        close.shift(by);
        statements.shift(by);
    }

    fn block(&self) -> Option<&Block> {
        Some(self)
    }

    fn block_mut(&mut self) -> Option<&mut Block> {
        Some(self)
    }
}

impl Field for Chart {
    fn shift(&mut self, by: i32) {
        let Self { open, close, rows } = self;
        open.shift(by);
        close.shift(by);
        rows.shift(by);
    }

    fn chart(&self) -> Option<&Chart> {
        Some(self)
    }

    fn chart_mut(&mut self) -> Option<&mut Chart> {
        Some(self)
    }
}

impl Field for Node {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Head(head) => head.shift(by),
            Self::Body(body) => body.shift(by),
            Self::EndPiece(piece) => piece.shift(by),
            Self::Swatch(swatch) => swatch.shift(by),
            Self::Broken(broken) => broken.shift(by),
        }
    }

    fn block(&self) -> Option<&Block> {
        match self {
            Self::Head(head) => head.block(),
            Self::Body(body) => body.block(),
            Self::EndPiece(piece) => piece.block(),
            Self::Broken(broken) => broken.block(),
            Self::Swatch(_) => None,
        }
    }

    fn block_mut(&mut self) -> Option<&mut Block> {
        match self {
            Self::Head(head) => head.block_mut(),
            Self::Body(body) => body.block_mut(),
            Self::EndPiece(piece) => piece.block_mut(),
            Self::Broken(broken) => broken.block_mut(),
            Self::Swatch(_) => None,
        }
    }

    fn chart(&self) -> Option<&Chart> {
        match self {
            Self::Head(head) => head.chart(),
            Self::Body(body) => body.chart(),
            Self::EndPiece(piece) => piece.chart(),
            Self::Swatch(_) | Self::Broken(_) => None,
        }
    }

    fn chart_mut(&mut self) -> Option<&mut Chart> {
        match self {
            Self::Head(head) => head.chart_mut(),
            Self::Body(body) => body.chart_mut(),
            Self::EndPiece(piece) => piece.chart_mut(),
            Self::Swatch(_) | Self::Broken(_) => None,
        }
    }
}

impl Field for Expect {
    fn shift(&mut self, by: i32) {
        match self {
            Self::List(list) => list.shift(by),
            Self::Start { mirrored } => mirrored.shift(by),
            Self::Face(_) => {}
        }
    }
}

impl Field for Strands {
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

impl Field for ListShape {
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

impl Field for Swatch {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Thickness(length) => length.shift(by),
            Self::Knots(count, length) | Self::Rows(count, length) => {
                count.shift(by);
                length.shift(by);
            }
            Self::Density(tex) => tex.shift(by),
        }
    }
}

impl Field for Start {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Loose | Self::Folded(_) => {}
            Self::Loop(length, _) => length.shift(by),
        }
    }
}

impl Field for Range {
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

impl Field for StrandBy {
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

impl Field for Extent {
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

impl Field for GoalPlace {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Left(number) | Self::Right(number) => number.shift(by),
            Self::CenterLeft | Self::CenterRight | Self::Center | Self::Edge => {}
        }
    }
}

impl Field for Expr {
    fn shift(&mut self, by: i32) {
        match self {
            Self::Number(number) => number.shift(by),
            Self::Name(name) => name.shift(by),
            Self::Operation(operation) => operation.shift(by),
            Self::Group(group) => group.shift(by),
        }
    }
}
