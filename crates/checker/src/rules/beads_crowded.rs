//! Beads that would lie in one another.

use crate::wording::length;
use crate::woven::Woven;
use crate::{Finding, PatternBead, Place, Rule, Severity};
use knotwright_band::beads::{BeadAt, BeadRoom, BeadSpot, bead_rooms, bead_spots};
use knotwright_band::thread::Figures;
use rustc_hash::FxHashSet as HashSet;

/// Among more beads none is compared with those beside it.
const MOST_BEADS: usize = 100_000;

pub(crate) static RULE: Rule = Rule {
    name: "beads-crowded",
    severity: Severity::Warning,
    tags: &[],
    summary: "Two beads have no room side by side, or between the same knots.",
    why: "A bead is mostly larger than a knot: 4 mm are three strands and two or three rows of thread of 0.9 mm. Where two \
          beads lie closer to each other than they are large, they push the knots apart and the band buckles. The places \
          come from the gauge; without one, from thread of 0.9 mm (common practice, no source). The finding appears only \
          if the beads have no room even if the rows become as tall as the gauge allows for: 20 %, or 7 % where rows were \
          measured.",
    example: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 2 mm

strands 6 kelp

set {
  take left 1: forward to edge
  bead pearl on left 1
  bead pearl on left 3
  take left 1: forward to edge
}
"#,
    instead: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 2 mm

strands 6 kelp

set {
  take left 1: forward to edge
  bead pearl on left 1
  take left 1: forward to edge
}
"#,
};

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let beads = &woven.pattern.beads;
    let (placed, places) = woven.beads();
    if placed.is_empty() || placed.len() > MOST_BEADS {
        return Vec::new();
    }
    let Some(figures) = woven.figures() else { return Vec::new() };
    let across = |bead: u16| beads.get(usize::from(bead)).map_or(0.0, |bead| bead.across);
    let knots = woven.laid.rows().iter().copied().zip(woven.laid.knot_gaps());
    let rooms = bead_rooms(knots, &placed);
    let pitch = figures.pitch * (1.0 + figures.length_uncertainty);
    let spots = bead_spots(&rooms, &placed, |bead| across(bead) / pitch);
    let laid = LaidBeads { figures, pitch, placed: &placed, spots: &spots, rooms: &rooms };
    let mut said: HashSet<(Place, Place)> = HashSet::default();
    let mut findings = Vec::new();
    for (one, other) in laid.crowded(&across) {
        let (first, second) = (places[one], places[other]);
        if said.insert((first.min(second), first.max(second))) {
            findings.push(
                words(&beads[usize::from(placed[other].bead)], figures)
                    .at(second)
                    .note(first, "the other bead"),
            );
        }
    }
    findings
}

/// Beads in their places.
struct LaidBeads<'a> {
    figures: Figures,
    /// As tall as a row may be.
    pitch: f64,
    placed: &'a [BeadAt],
    spots: &'a [BeadSpot],
    rooms: &'a [BeadRoom],
}

impl LaidBeads<'_> {
    /// Pairs of beads that lie in one another, the one that is threaded first before the other.
    fn crowded(&self, across: &impl Fn(u16) -> f64) -> Vec<(usize, usize)> {
        let down = |at: usize| self.spots[at].down * self.pitch;
        let size = |at: usize| across(self.placed[at].bead);
        let largest = (0..self.placed.len()).map(size).fold(0.0, f64::max);
        let mut order: Vec<usize> = (0..self.placed.len()).collect();
        order.sort_by(|one, other| down(*one).total_cmp(&down(*other)));
        let mut found = Vec::new();
        for (nth, &one) in order.iter().enumerate() {
            let near =
                order[nth + 1..].iter().copied().take_while(|&other| down(other) - down(one) < largest);
            for other in near {
                let room = f64::midpoint(size(one), size(other));
                let sideways = (self.spots[one].across - self.spots[other].across) * self.figures.width;
                let apart = sideways.hypot(down(one) - down(other));
                // Lengths are sums: what touches is not in one another.
                let overlap = apart + 1e-6 < room;
                if overlap || self.is_stack_too_tall(one, other, size(one) + size(other)) {
                    found.push((one.min(other), one.max(other)));
                }
            }
        }
        found
    }

    /// Whether two beads are on the same strands between the same knots, which leave less room than both are long.
    fn is_stack_too_tall(&self, one: usize, other: usize, long: f64) -> bool {
        let of = |at: usize| (self.rooms[at], self.placed[at].position, self.placed[at].strands);
        let (Some(above), Some(below)) = (self.rooms[one].above, self.rooms[one].below) else { return false };
        // Of strands that hang loose, one may be tied on above where another one was tied last.
        of(one) == of(other) && f64::from(below.saturating_sub(above)) * self.pitch < long
    }
}

fn words(bead: &PatternBead, figures: Figures) -> Finding {
    let message = format!(
        "There is no room for `{}` ({}) beside another bead: a row of this band is about {} tall, and a strand {} wide.",
        bead.look.name,
        length(bead.across),
        length(figures.pitch),
        length(figures.width)
    );
    Finding::new(&RULE, message)
        .help("Thread it some rows later or some strands farther, or take a smaller bead.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn two_beads_in_one_place_are_told_once() {
        let said = messages_of(RULE.name, RULE.example);
        assert_eq!(
            said,
            [
                "There is no room for `pearl` (4 mm) beside another bead: a row of this band is about 1.5 mm tall, and a strand \
              1.1 mm wide."
            ]
        );
    }

    #[test]
    fn small_beads_have_room_where_large_ones_have_none() {
        assert_silent(RULE.name, &RULE.example.replace("4 mm hole 2 mm", "2.2 mm hole 2 mm"));
    }

    #[test]
    fn two_on_one_strand_need_as_many_rows_as_they_are_long() {
        let text =
            RULE.instead.replace("bead pearl on left 1\n", "bead pearl on left 1\n  bead pearl on left 1\n");
        assert_eq!(messages_of(RULE.name, &text).len(), 1);
    }
}
