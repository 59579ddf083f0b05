//! Why a statement does not parse: not recorded at all on the first try, recorded in full on the second.
//!
//! Nearly all statements parse, so the first try carries an error of no size. Only a statement that fails is
//! parsed again, with [`Account`].

use super::token::{In, Tok};
use crate::{Expected, ProblemKind};
use chumsky::DefaultExpected;
use chumsky::error::{Error, LabelError};
use chumsky::span::SimpleSpan;
use chumsky::util::MaybeRef;

/// An error of the statement parsers.
pub(crate) trait Fault<'t>: Error<'t, In<'t>> + 't {
    /// `what` was due at token `at`; nothing, if it is not worth reporting.
    fn due(at: usize, what: impl Into<Option<Expected>>) -> Self;
    /// Something is wrong with token `at` itself.
    fn wrong(at: usize, kind: ProblemKind) -> Self;
}

/// The error of the first try.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Silent;

impl<'t> Fault<'t> for Silent {
    fn due(_: usize, _: impl Into<Option<Expected>>) -> Self {
        Self
    }

    fn wrong(_: usize, _: ProblemKind) -> Self {
        Self
    }
}

impl<'t> Error<'t, In<'t>> for Silent {}

impl<'t> LabelError<'t, In<'t>, DefaultExpected<'t, Tok<'t>>> for Silent {
    fn expected_found<E: IntoIterator<Item = DefaultExpected<'t, Tok<'t>>>>(
        _: E,
        _: Option<MaybeRef<'t, Tok<'t>>>,
        _: SimpleSpan<usize>,
    ) -> Self {
        Self
    }
}

/// The error of the second try.
#[derive(Debug, Clone)]
pub(crate) struct Account {
    /// The token that was found; one past the last at the statement's end.
    pub(crate) at: usize,
    /// What was due there.
    pub(crate) expected: Vec<Expected>,
    /// What is wrong with the token itself, if that is known.
    pub(crate) wrong: Option<ProblemKind>,
}

impl<'t> Fault<'t> for Account {
    fn due(at: usize, what: impl Into<Option<Expected>>) -> Self {
        Self { at, expected: what.into().into_iter().collect(), wrong: None }
    }

    fn wrong(at: usize, kind: ProblemKind) -> Self {
        Self { at, expected: Vec::new(), wrong: Some(kind) }
    }
}

impl<'t> Error<'t, In<'t>> for Account {
    /// Of two errors the one further on knows more; at one place they complete each other.
    fn merge(mut self, other: Self) -> Self {
        match self.at.cmp(&other.at) {
            std::cmp::Ordering::Less => return other,
            std::cmp::Ordering::Greater => return self,
            std::cmp::Ordering::Equal => {}
        }
        for what in other.expected {
            if !self.expected.contains(&what) {
                self.expected.push(what);
            }
        }
        self.wrong = self.wrong.or(other.wrong);
        self
    }
}

impl<'t> LabelError<'t, In<'t>, DefaultExpected<'t, Tok<'t>>> for Account {
    fn expected_found<E: IntoIterator<Item = DefaultExpected<'t, Tok<'t>>>>(
        expected: E,
        _: Option<MaybeRef<'t, Tok<'t>>>,
        span: SimpleSpan<usize>,
    ) -> Self {
        let end = expected.into_iter().any(|one| matches!(one, DefaultExpected::EndOfInput));
        Self::due(span.start, end.then_some(Expected::LineEnd))
    }
}
