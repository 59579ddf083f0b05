//! In the next set another strand leads.

use crate::wording::ordinal;
use crate::woven::Sound;
use crate::{Extent, Finding, Named, Place, Rule, Severity, Source, Step, Tag};
use knotwright_band::Knot;
use knotwright_grammar::Span;
use knotwright_grammar::tree::LeaderChart;
use knotwright_numbers::ToNumber;

use std::sync::Arc;

pub(crate) static RULE: Rule = Rule {
    name: "leader-changes-side",
    severity: Severity::Warning,
    tags: &[Tag::Open],
    summary: "After the set the leader hangs somewhere else, so another strand leads the next set.",
    why: "A leader goes across the band in every row. After an odd number of rows it hangs at the other edge. \
          The next set takes its leader at the same edge as before, and so takes another strand. The leader \
          is cut several times as long as the others, and the letters would change color. An even number of \
          rows brings the leader back.",
    example: r#"pattern "Night ferry"

thread night #1b2440
thread lamp #f2c14e

strands night 3 lamp

set {
  leader left 1 {
    . # .
    # . #
    . # .
  }
}
"#,
    instead: r#"pattern "Night ferry"

thread night #1b2440
thread lamp #f2c14e

strands night 3 lamp

set {
  leader left 1 {
    . # .
    # . #
    . # .
    . . .
  }
}
"#,
};

pub(super) fn find(sound: &Sound) -> Vec<Finding> {
    let Some(part) = &sound.pattern.set else { return Vec::new() };
    if sound.pattern.extent == Extent::Sets(1) {
        return Vec::new();
    }
    let order = part.piece.order();
    let mut heads = None;
    // By chart: its leader, and how many of its rows were tied.
    let mut charts: Vec<(Place, u8, usize)> = Vec::new();
    for step in part.steps.iter().filter(|step| step.named == Named::Leader) {
        let Some(leader) = leader(part.knots_of(step)) else { continue };
        if order[usize::from(leader)] != leader {
            let place = head_of(heads.get_or_insert_with(|| heads_of(sound)), step);
            match charts.iter_mut().find(|chart| chart.0 == place) {
                Some(chart) => chart.2 += 1,
                None => charts.push((place, leader, 1)),
            }
        }
    }
    // After one with an odd number of rows, all below begin at the other edge: that is one mistake.
    let odd = charts.iter().find(|chart| !chart.2.is_multiple_of(2)).or(charts.first());
    odd.map(|&(place, leader, _)| words(sound, order, leader).at(place)).into_iter().collect()
}

/// The strand that is in every knot of a row; unknown if there is but one knot.
fn leader(row: &[Knot]) -> Option<u8> {
    let (one, other) = (row.first()?, row.get(1)?);
    [one.working, one.base].into_iter().find(|strand| [other.working, other.base].contains(strand))
}

/// By file, the `leader` statements, in order: the whole of each and its first line.
fn heads_of(sound: &Sound) -> Vec<Vec<(Span, Span)>> {
    let heads = |source: &Arc<Source>| {
        let statements = source.parsed.tree.walk();
        let leaders = statements.filter(|statement| statement.is::<LeaderChart>());
        leaders.map(|statement| (statement.span, statement.head)).collect()
    };
    sound.pattern.sources().map(heads).collect()
}

/// The first line of the `leader` statement around a row.
fn head_of(heads: &[Vec<(Span, Span)>], row: &Step) -> Place {
    let place = row.place;
    let Some(heads) = heads.get(place.file.0.to_usize()) else { return place };
    let after = heads.partition_point(|(whole, _)| whole.start <= place.span.start);
    let around = after.checked_sub(1).map(|at| heads[at]).filter(|(whole, _)| place.span.end <= whole.end);
    around.map_or(place, |(_, head)| Place { span: head, ..place })
}

fn words(sound: &Sound, order: &[u8], leader: u8) -> Finding {
    let begins = sound.set_threads();
    let name = |strand: u8| sound.name(begins[usize::from(strand)]);
    let now = order.iter().position(|&strand| strand == leader).unwrap_or(0);
    let message = format!(
        "After the set, the leader ({}) hangs {} from the left; the next set begins with {} in its place.",
        name(leader),
        ordinal(now + 1),
        another(name(leader), name(order[usize::from(leader)]))
    );
    Finding::new(&RULE, message).help("Add or remove a row, so that the leader comes back to its edge.")
}

fn another(leader: &str, next: &str) -> String {
    if leader == next { format!("another {next}") } else { next.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn it_is_reported_where_the_leader_hangs_and_who_comes_next() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            [
                "After the set, the leader (night) hangs fourth from the left; the next set begins with lamp in its place."
            ]
        );
    }

    #[test]
    fn an_even_number_of_rows_brings_it_back() {
        assert_silent(RULE.name, RULE.instead);
    }

    #[test]
    fn a_set_that_is_tied_once_has_no_next() {
        assert_silent(RULE.name, &RULE.example.replace("set {", "sets 1\n\nset {"));
    }
}
