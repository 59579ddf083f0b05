//! How much thread to cut.

use crate::message::LengthsMessage;
use knotwright_checker::{Extent, Pattern};
use knotwright_maker::TyingOptions;

/// For as many sets as the pattern says, if the page does not wish for another number.
pub(crate) fn lengths(pattern: &Pattern, sets: Option<u32>) -> LengthsMessage {
    let extent = sets.map(Extent::Sets);
    match (TyingOptions { extent, ..TyingOptions::default() }).report(pattern) {
        Ok(report) => LengthsMessage {
            about: report.head,
            threads: report.threads.into_iter().map(|of| (of.thread, of.pieces, of.in_all)).collect(),
        },
        Err(reason) => LengthsMessage {
            about: vec![format!("The thread cannot be measured: {reason}.")],
            threads: Vec::new(),
        },
    }
}
