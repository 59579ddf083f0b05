//! What is wrong with joins in the tied band: a strand that has no knot to hold its new piece, or that is joined twice at
//! once; and sets in which nothing can be joined.

use crate::facts::Facts;
use crate::resolve::Script;
use crate::tie::Tied;
use crate::{Extent, Fact, FactKind, JoinSetTrouble, Part, PartKind, Source};
use knotwright_band::Join;
use knotwright_grammar::tree;
use knotwright_numbers::ToNumber;

/// Whether strands are joined somewhere in a file.
pub(crate) fn has_join(source: &Source) -> bool {
    source.says_join() && source.parsed.tree.walk().any(|statement| statement.is::<tree::Join>())
}

/// What is wrong with joins in a band of which nothing else is wrong.
pub(crate) fn check_joins(script: &Script, tied: &Tied) -> Vec<Fact> {
    let parts = [&tied.opening, &tied.set, &tied.closing];
    if parts.iter().all(|part| part.as_ref().is_none_or(|part| part.joins.is_empty())) {
        return Vec::new();
    }
    let band = Joins { parts, extent: script.head.extent };
    let mut facts = Facts::default();
    for kind in PartKind::ALL {
        let Some(part) = band.part(kind) else { continue };
        for (number, join) in part.piece.joins().iter().enumerate() {
            let Some(joined) = part.joins.get(number) else { continue };
            if let Some(trouble) = band.wrong_set(kind, join) {
                facts.say(joined.place, FactKind::JoinSet(trouble));
                continue;
            }
            match band.after(kind, number) {
                NextKnot::Knot => {}
                NextKnot::Join(again, place) => {
                    let first = joined.place;
                    let is_the_same = place == first;
                    if again.set.is_none() || join.set.is_none() || again.set == join.set {
                        facts.say(place, FactKind::JoinedTwice { first: (!is_the_same).then_some(first) });
                    }
                }
                NextKnot::Nothing => {
                    facts.say(
                        joined.place,
                        FactKind::JoinWithoutKnot { position: usize::from(joined.at) + 1 },
                    );
                }
            }
        }
    }
    facts.into_list()
}

/// What comes after a join, for its strand.
enum NextKnot {
    Knot,
    /// Another join, and where it stands.
    Join(Join, crate::Place),
    Nothing,
}

struct Joins<'a> {
    parts: [&'a Option<Part>; 3],
    extent: Extent,
}

impl Joins<'_> {
    fn part(&self, kind: PartKind) -> Option<&Part> {
        self.parts[kind as usize].as_ref()
    }

    fn wrong_set(&self, kind: PartKind, join: &Join) -> Option<JoinSetTrouble> {
        let set = join.set?;
        match self.extent {
            _ if kind != PartKind::Set => Some(JoinSetTrouble::NoSet),
            Extent::Sets(sets) if set >= u64::from(sets) => Some(JoinSetTrouble::Beyond { sets }),
            _ => None,
        }
    }

    /// What comes for the strand of a join after it, in its part and in those that follow.
    fn after(&self, kind: PartKind, number: usize) -> NextKnot {
        let Some(part) = self.part(kind) else { return NextKnot::Nothing };
        let join = part.piece.joins()[number];
        let after = first_in(part, join.strand, join.knot, number + 1);
        let Some(mut at) = after.is_nothing().then(|| position(part, join.strand)) else { return after };
        let sets = match (kind, self.extent) {
            (PartKind::Closing, _) => 0,
            (PartKind::Set, Extent::Sets(sets)) => {
                u64::from(sets).saturating_sub(join.set.map_or(1, |set| set + 1))
            }
            (PartKind::Opening, Extent::Sets(sets)) => u64::from(sets),
            (PartKind::Opening | PartKind::Set, _) => u64::MAX,
        };
        // A strand that comes back to where it hung without a knot never has one.
        let most = part.piece.strands().to_u64() + 1;
        if let Some(set) = self.part(PartKind::Set) {
            for _ in 0..sets.min(most) {
                let after = first_in(set, at, 0, 0);
                if !after.is_nothing() {
                    return after;
                }
                at = position(set, at);
            }
        }
        match self.part(PartKind::Closing).filter(|_| kind != PartKind::Closing) {
            Some(closing) => first_in(closing, at, 0, 0),
            None => NextKnot::Nothing,
        }
    }
}

impl NextKnot {
    fn is_nothing(&self) -> bool {
        matches!(self, Self::Nothing)
    }
}

/// What comes first for a strand of a part, from some knot and some join on.
fn first_in(part: &Part, strand: u8, knot: u32, join: usize) -> NextKnot {
    let is_its = |join: &(usize, &Join)| join.1.strand == strand;
    let joins = part.piece.joins().iter().enumerate().skip(join);
    let again = joins.clone().find(is_its).map(|(number, join)| (number, *join));
    let from = Join { knot, strand, thread: None, set: None };
    match (part.piece.knot_after(&from), again) {
        (Some(knot), Some((_, join))) if knot < join.knot => NextKnot::Knot,
        (_, Some((number, join))) => {
            part.joins.get(number).map_or(NextKnot::Knot, |joined| NextKnot::Join(join, joined.place))
        }
        (Some(_), None) => NextKnot::Knot,
        (None, None) => NextKnot::Nothing,
    }
}

/// Where a strand of a part hangs after it.
fn position(part: &Part, strand: u8) -> u8 {
    part.piece.order().iter().position(|&other| other == strand).unwrap_or_default().to_u8()
}
