//! A word within a statement that is nearly one of the notation.

use super::fault::Account;
use super::statement;
use super::token::{In, Tok};
use crate::near::near;
use crate::tree::Zone;
use crate::words::WORDS;
use crate::{Problem, ProblemKind, TokenKind};

/// The most words that are tried before the place where a statement fails, beside one behind it, and the longest
/// statement, in tokens.
const MOST_WORDS: usize = 4;
const LONGEST: usize = 200;

/// The misspelled word because of which a statement fails at token `at`: with another one in its place it reads on. A
/// misspelled word is often taken for a name at first, so that the statement fails a little later.
pub(super) fn misspelled(at: usize, tokens: In, zone: Zone) -> Option<Problem> {
    let last = at.min(tokens.len().checked_sub(1)?);
    let before = (1..=last).rev().filter(|&index| is_strange(&tokens[index])).take(MOST_WORDS);
    // `a | b | mirro` fails at the second bar.
    let behind = (last + 1..tokens.len()).filter(|&index| is_strange(&tokens[index])).take(1);
    let mut strange = before.chain(behind).filter(|_| tokens.len() <= LONGEST);
    strange.find_map(|index| {
        let kind = ProblemKind::Misspelled { meant: meant(index, at, tokens, zone)? };
        Some(Problem { span: tokens[index].span, kind })
    })
}

fn is_strange(tok: &Tok) -> bool {
    tok.kind == TokenKind::Word && WORDS.iter().all(|word| word.text != tok.text)
}

/// The one word nearest to that at `index` with which the statement fails later than at `at`, or not at all.
fn meant(index: usize, at: usize, tokens: In, zone: Zone) -> Option<&'static str> {
    let within = WORDS.iter().filter(|word| !word.role.begins_statement());
    let mut fitting = near(tokens[index].text, within.map(|word| word.text));
    fitting.retain(|(_, word)| fails_at(word, index, tokens, zone).is_none_or(|failed| failed > at));
    match fitting[..] {
        [(_, word)] => Some(word),
        [(slips, word), (more, _), ..] if slips < more => Some(word),
        _ => None,
    }
}

/// The token at which the statement fails with `word` in place of the token at `index`; `None` if it does not.
fn fails_at(word: &str, index: usize, tokens: In, zone: Zone) -> Option<usize> {
    let mut tokens = tokens.to_vec();
    tokens[index].text = word;
    statement::<Account>(&tokens, zone).err().map(|account| account.at)
}
