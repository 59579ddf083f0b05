//! How much thread to cut.

use crate::message::Lengths;
use knotwright_checker::{Extent, Pattern};
use knotwright_maker::Tying;

/// For as many sets as the pattern says, if the page does not wish for another number.
pub(crate) fn lengths(pattern: &Pattern, sets: Option<u32>) -> Lengths {
    let extent = sets.map(Extent::Sets);
    match (Tying { extent, ..Tying::default() }).told(pattern) {
        Ok(told) => Lengths {
            about: told.head,
            threads: told.threads.into_iter().map(|of| (of.thread, of.pieces, of.in_all)).collect(),
        },
        Err(reason) => Lengths {
            about: vec![format!("How much thread it takes is not known: {reason}.")],
            threads: Vec::new(),
        },
    }
}
