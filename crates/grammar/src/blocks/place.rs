//! Which statements may stand where.

use crate::Belongs;
use crate::near::near;
use crate::tree::{Declaration, Zone};
use crate::words;

/// What the block of a statement with this first word holds, if the statement is in `zone`.
pub(crate) fn within(zone: Zone, word: Option<&str>) -> Zone {
    let holds = word.and_then(|word| words::find_in(zone, word)).and_then(|known| known.holds);
    holds.unwrap_or(if word.is_some() && zone == Zone::Body { Zone::Body } else { Zone::Any })
}

/// The statement word most like an unknown one, among those that may be in `zone`.
pub(crate) fn nearest(zone: Zone, unknown: &str) -> Option<&'static str> {
    let candidates = || {
        let known =
            words::all_statements().filter(|known| known.may_stand(zone)).map(|known| known.word.text);
        known.chain((zone == Zone::Gauge).then_some("thickness"))
    };
    let nearest = near(unknown, candidates()).first().map(|&(_, word)| word)?;
    // Who writes `lead` has not finished `leader`, rather than missed a letter of `bead`.
    let is_begun = |word: &&str| unknown.len() > 3 && word.starts_with(unknown);
    Some(candidates().filter(is_begun).min_by_key(|word| word.len()).unwrap_or(nearest))
}

/// Where a statement belongs that is elsewhere.
pub(crate) fn belongs(known: &Declaration) -> Belongs {
    if known.may_stand(Zone::Body) {
        Belongs::Body
    } else if known.may_stand(Zone::Ends) {
        Belongs::Ends
    } else {
        Belongs::Top
    }
}
