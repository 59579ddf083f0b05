//! In the next set another strand leads.

use crate::wording::ordinal;
use crate::woven::Woven;
use crate::{Extent, Finding, Named, Place, Rule, Severity, Step};
use knotwright_band::Knot;
use knotwright_grammar::tree::Node;

pub(crate) static RULE: Rule = Rule {
    name: "leader-changes-side",
    severity: Severity::Warning,
    summary: "After the set the leader hangs elsewhere, so that another strand leads the next set.",
    why: "A leader goes across the band with every row. After an odd number of rows it hangs at the other edge; \
          the next set, which takes its leader at the same edge as before, then takes another strand. The leader is \
          cut several times as long as the others, and the letters would change their color. An even number of rows \
          brings it back.",
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

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let (Some(set), Some(part)) = (&woven.set, &woven.pattern.set) else { return Vec::new() };
    if woven.pattern.extent == Extent::Sets(1) {
        return Vec::new();
    }
    let mut findings: Vec<Finding> = Vec::new();
    for step in part.steps.iter().filter(|step| step.named == Named::Leader) {
        let place = head_of(woven, step);
        let Some(leader) = leader(&part.knots[step.knots.start as usize..step.knots.end as usize]) else {
            continue;
        };
        if set.order()[usize::from(leader)] != leader && findings.iter().all(|finding| finding.place != place)
        {
            findings.push(words(woven, set.order(), leader).at(place));
        }
    }
    findings
}

/// The strand that is in every knot of a row; unknown if there is but one knot.
fn leader(row: &[Knot]) -> Option<u8> {
    let (one, other) = (row.first()?, row.get(1)?);
    [one.working, one.base].into_iter().find(|strand| [other.working, other.base].contains(strand))
}

/// The `leader` statement around a row, up to its brace.
fn head_of(woven: &Woven, row: &Step) -> Place {
    let Some(source) = woven.pattern.sources().nth(row.place.file.0 as usize) else { return row.place };
    let around = source.parsed.tree.walk().find(|statement| {
        matches!(statement.node, Node::Leader { .. })
            && statement.span.start <= row.place.span.start
            && row.place.span.end <= statement.span.end
    });
    around.map_or(row.place, |statement| Place { span: statement.head, ..row.place })
}

fn words(woven: &Woven, order: &[u8], leader: u8) -> Finding {
    let begins = woven.set_threads();
    let name = |strand: u8| woven.name(begins[usize::from(strand)]);
    let now = order.iter().position(|&strand| strand == leader).unwrap_or(0);
    let message = format!(
        "After the set the leader ({}) hangs {} from the left; the next set begins with {} in its place.",
        name(leader),
        ordinal(now + 1),
        another(name(leader), name(order[usize::from(leader)]))
    );
    Finding::new(&RULE, message)
        .help("Add a row or take one away, so that the leader comes back to its edge.")
}

fn another(leader: &str, next: &str) -> String {
    if leader == next { format!("another {next}") } else { next.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{silent, told};

    #[test]
    fn it_is_told_where_the_leader_hangs_and_who_comes_next() {
        assert_eq!(
            told(RULE.name, RULE.example),
            [
                "After the set the leader (night) hangs fourth from the left; the next set begins with lamp in its place."
            ]
        );
    }

    #[test]
    fn an_even_number_of_rows_brings_it_back() {
        silent(RULE.name, RULE.instead);
    }

    #[test]
    fn a_set_that_is_tied_once_has_no_next() {
        silent(RULE.name, &RULE.example.replace("set {", "sets 1\n\nset {"));
    }
}
