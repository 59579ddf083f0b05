//! A word within a statement that is nearly one of the notation.

use super::fault::Account;
use super::statement;
use super::token::{In, Tok};
use crate::near::near;
use crate::words::{Role, WORDS};
use crate::{Problem, ProblemKind, TokenKind};

/// So many words before the place where a statement fails are tried, and so long a statement.
const MOST_WORDS: usize = 4;
const LONGEST: usize = 200;

/// The misspelled word because of which a statement fails at token `at`: with another one in its place it reads on. A
/// misspelled word is often taken for a name at first, so that the statement fails a little later.
pub(super) fn misspelled(at: usize, tokens: In) -> Option<Problem> {
    let last = at.min(tokens.len().checked_sub(1)?);
    let strange = (1..=last).rev().filter(|&index| is_strange(&tokens[index])).take(MOST_WORDS);
    let mut strange = strange.filter(|_| tokens.len() <= LONGEST);
    strange.find_map(|index| {
        let kind = ProblemKind::Misspelled { meant: meant(index, at, tokens)? };
        Some(Problem { span: tokens[index].span, kind })
    })
}

fn is_strange(tok: &Tok) -> bool {
    tok.kind == TokenKind::Word && WORDS.iter().all(|word| word.text != tok.text)
}

/// The one word nearest to that at `index` with which the statement fails later than at `at`, or not at all.
fn meant(index: usize, at: usize, tokens: In) -> Option<&'static str> {
    let within = WORDS.iter().filter(|word| !matches!(word.role, Role::Head | Role::Body));
    let mut fitting = near(tokens[index].text, within.map(|word| word.text));
    fitting.retain(|(_, word)| reads_on(word, index, (at, tokens)));
    match fitting[..] {
        [(_, word)] => Some(word),
        [(slips, word), (more, _), ..] if slips < more => Some(word),
        _ => None,
    }
}

fn reads_on(word: &str, index: usize, (at, tokens): (usize, In)) -> bool {
    let mut tokens = tokens.to_vec();
    tokens[index].text = word;
    statement::<Account>(&tokens).map_or_else(|account| account.at > at, |_| true)
}
