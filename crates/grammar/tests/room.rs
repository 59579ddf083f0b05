//! How much room the tree takes. An editor holds every statement of a file, and moves them along with each edit before
//! them: what is seldom written is kept apart, so that what is often written stays small.

use knotwright_grammar::Token;
use knotwright_grammar::tree::{Run, Statement};

#[test]
fn what_there_is_much_of_is_small() {
    let bytes = [size_of::<Token>(), size_of::<Statement>(), size_of::<Run>()];
    let most = [12, 144, 72];
    assert!(bytes.iter().zip(most).all(|(bytes, most)| *bytes <= most), "{bytes:?} of {most:?}");
}
