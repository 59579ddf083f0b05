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
    let candidates =
        words::all_statements().filter(|known| known.may_stand(zone)).map(|known| known.word.text);
    let candidates = candidates.chain((zone == Zone::Gauge).then_some("thickness"));
    near(unknown, candidates).first().map(|&(_, word)| word)
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
