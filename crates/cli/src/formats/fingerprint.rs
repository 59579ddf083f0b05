//! A mark by which a service knows a finding again, although lines were added above it.

use crate::outcome::Outcome;
use std::collections::HashMap;

/// Gives each finding of one file its mark: made of the path, the rule and the message, and of how many alike stand
/// before it. Lines and columns are left out.
pub(super) struct Fingerprints<'a> {
    path: &'a str,
    seen: HashMap<u64, u64>,
}

impl<'a> Fingerprints<'a> {
    pub(super) fn of(outcome: &'a Outcome) -> Self {
        Self { path: &outcome.path, seen: HashMap::new() }
    }

    pub(super) fn next(&mut self, rule: &str, message: &str) -> String {
        let mark = fnv([self.path, rule, message].join("\0").as_bytes());
        let count = self.seen.entry(mark).or_default();
        *count += 1;
        format!("{mark:016x}-{count}")
    }
}

/// FNV-1a of 64 bits (Fowler, Noll, Vo; the constants are those of IETF draft-eastlake-fnv): the same on every
/// machine and in every version, which the hashes of the standard library do not promise.
fn fnv(bytes: &[u8]) -> u64 {
    bytes
        .iter()
        .fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::fnv;

    /// Test vectors of draft-eastlake-fnv, section "FNV-1a 64-bit" (from memory).
    #[test]
    fn the_hash_is_the_published_one() {
        assert_eq!(fnv(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv(b"foobar"), 0x8594_4171_f739_67e8);
    }
}
