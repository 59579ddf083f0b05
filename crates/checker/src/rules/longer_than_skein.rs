//! A strand of more thread than a skein has.

use crate::wording::ordinal;
use crate::woven::Woven;
use crate::{Extent, FileId, Finding, Place, Rule, Severity, StartForm};
use knotwright_band::thread::{Figures, USUAL_SKEIN, sets_for};
use knotwright_band::{Growth, Piece, Sets, total_uses};
use knotwright_grammar::tree::{BandLength, SetCount};
use knotwright_numbers::ToNumber;
use knotwright_wording::both;

pub(crate) static RULE: Rule = Rule {
    name: "longer-than-skein",
    severity: Severity::Warning,
    tags: &[],
    summary: "A strand takes more thread than there is in a skein.",
    why: "A skein often has 8 m of thread (common practice, no source), and a strand that ties much in a long band takes \
          more. It can go on with a new piece at a `join`; you can tie a shorter band; or your thread comes on a spool, \
          and you allow the warning. It appears only where the pattern says how long it becomes (`length` or `sets`) and \
          joins no strand, and where the knots alone take that much by the lowest estimate. A folded thread counts with \
          both of its strands. `knotwright measure` computes with your own skein (`--skein 5m`), and with the ends.",
    example: r#"pattern "Harbor wall"

thread kelp #1f5d50
thread sand goldenrod

strands kelp 3 sand

sets 300

set {
  take left 1: forward to edge
  take right 1: backward to edge
}
"#,
    instead: r#"pattern "Harbor wall"

thread kelp #1f5d50
thread sand goldenrod

strands kelp 3 sand

sets 100

set {
  take left 1: forward to edge
  take right 1: backward to edge
}
"#,
};

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    let longest = needs(woven).unwrap_or_default();
    let longer: Vec<usize> = (0..longest.len()).filter(|&strand| longest[strand] > USUAL_SKEIN).collect();
    let Some(most) = longer.iter().map(|&strand| longest[strand]).reduce(f64::max) else { return Vec::new() };
    vec![words(&longer, most).at(place(woven))]
}

/// By strand, the least that the thread takes of which it is made, in millimeters; `None` if nobody says how long the band
/// becomes, or if strands go on with new pieces.
fn needs(woven: &Woven) -> Option<Vec<f64>> {
    let pattern = woven.pattern;
    if pattern.extent == Extent::Open || pattern.wished_part().is_some() || woven.joins().next().is_some() {
        return None;
    }
    let figures = woven.figures()?;
    let none = Sets::alike(Piece::empty(pattern.strands.len()));
    let sets = if woven.set.is_some() { woven.sets()? } else { &none };
    let growth = Growth::new(&woven.opening, sets);
    let rows = |times: u64| growth.height_with(times, &woven.closing);
    let times = times(pattern.extent, figures, rows)?;
    let height = rows(times);
    let mut pieces = sets.run_in().iter().chain(sets.period()).chain([&woven.opening, &woven.closing]);
    if pieces.all(|piece| piece.straight().is_empty()) && is_surely_short(figures, height) {
        return None;
    }
    let uses = total_uses(&woven.opening, sets, times, &woven.closing);
    let alone: Vec<f64> = uses.iter().map(|used| figures.length(*used, height, 0.0).low).collect();
    let mut needs = alone.clone();
    if let StartForm::Folded(pairs) | StartForm::Loop(_, pairs) = &pattern.start {
        for (one, other) in pairs.iter().map(|&(one, other)| (usize::from(one), usize::from(other))) {
            if let (Some(first), Some(second)) = (alone.get(one), alone.get(other)) {
                // Cut twice as long as the longer half.
                (needs[one], needs[other]) = (2.0 * first.max(*second), 2.0 * first.max(*second));
            }
        }
    }
    Some(needs)
}

/// Whether a skein has enough for two strands that tie a knot in every row. Only in a straight row may a strand have
/// several.
fn is_surely_short(figures: Figures, height: u64) -> bool {
    let a_row = figures.working.max(figures.base).max(figures.idle);
    2.0 * a_row * height.to_f64() < USUAL_SKEIN
}

fn times(extent: Extent, figures: Figures, rows: impl Fn(u64) -> u64) -> Option<u64> {
    match extent {
        Extent::Open => None,
        Extent::Sets(sets) => Some(sets.into()),
        Extent::Length(length) => sets_for(length / figures.pitch, rows).ok(),
    }
}

/// Where the pattern says how long it becomes.
fn place(woven: &Woven) -> Place {
    let says = |statement: &&knotwright_grammar::tree::Statement| {
        statement.is::<BandLength>() || statement.is::<SetCount>()
    };
    let said = woven.source.parsed.tree.statements.iter().find(says);
    said.map_or_else(|| woven.head(), |statement| Place { file: FileId::CHECKED, span: statement.span })
}

/// Of more, only their number is told.
const MOST_NAMED: usize = 6;

fn words(longer: &[usize], most: f64) -> Finding {
    let meters = |millimeters: f64| format!("{} m", (millimeters / 1000.0).floor());
    let takes = format!("at least {}", meters(most));
    let message = match longer {
        [strand] => format!(
            "The {} strand from the left takes {takes} of thread in a band of this length, and a skein often has {}.",
            ordinal(strand + 1),
            meters(USUAL_SKEIN)
        ),
        many if many.len() <= MOST_NAMED => {
            let named: Vec<String> = many.iter().map(|strand| ordinal(strand + 1)).collect();
            format!(
                "The {} strand from the left take up to {takes} of thread each in a band of this length, and a skein often \
                 has {}.",
                both(&named),
                meters(USUAL_SKEIN)
            )
        }
        many => format!(
            "{} of the strands take up to {takes} of thread each in a band of this length, and a skein often has {}.",
            many.len(),
            meters(USUAL_SKEIN)
        ),
    };
    Finding::new(&RULE, message).help(
        "Let `knotwright measure --longest 8m --write` join them, tie a shorter band, or allow this if your thread is longer.",
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_strand_that_needs_more_is_named() {
        let said = messages_of(RULE.name, RULE.example);
        assert_eq!(said.len(), 1, "{said:?}");
        assert!(said[0].starts_with("The first strand from the left takes at least "), "{said:?}");
    }

    #[test]
    fn nothing_is_said_where_the_length_is_not_known_or_the_strand_is_joined() {
        assert_silent(RULE.name, &RULE.example.replace("sets 300\n\n", ""));
        assert_silent(RULE.name, &RULE.example.replace("set {", "set {\n  join left 1 in set 150"));
        assert_silent(
            RULE.name,
            &RULE.example.replace("sets 300", "sets 300  -- allow longer-than-skein: it is on a spool"),
        );
    }

    #[test]
    fn a_length_counts_as_well_as_sets_and_thick_thread_is_longer() {
        let text = |length: &str| RULE.example.replace("sets 300", length);
        assert_silent(RULE.name, &text("length 15 cm"));
        assert_eq!(messages_of(RULE.name, &text("length 4 m")).len(), 1);
        let thick = text("gauge {\n  thickness 3 mm\n}\nsets 100");
        assert_eq!(messages_of(RULE.name, &thick).len(), 1);
    }

    #[test]
    fn a_folded_thread_counts_with_both_strands() {
        let loose =
            RULE.example.replace("strands kelp 3 sand", "strands 4 kelp").replace("sets 300", "sets 100");
        let folded = loose.replace("sets", "start folded pairs mirrored\nsets");
        let count = |text: &str| messages_of(RULE.name, text).len();
        assert_eq!((count(&loose), count(&folded)), (0, 1));
    }
}
