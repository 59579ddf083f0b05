//! A length that is less than that of one set.

use crate::other_unit::in_other_unit;
use crate::wording::length;
use crate::woven::Woven;
use crate::{Extent, FileId, Finding, Place, Rule, Severity};
use knotwright_band::thread::Figures;
use knotwright_band::{Growth, Sets};
use knotwright_grammar::tree::{BandLength, Length};
use knotwright_numbers::ToNumber;
use knotwright_wording::digits::count;
use std::ops::RangeInclusive;

pub(crate) static RULE: Rule = Rule {
    name: "shorter-than-set",
    severity: Severity::Warning,
    tags: &[],
    summary: "The length is less than that of the band with one set.",
    why: "`length` is filled with as many sets as come nearest to it, at least one. A length that one set is surely longer \
          than, as far as the gauge can be trusted (7% if rows were measured, otherwise 20%), is usually a slip: `14 mm` \
          for `14 cm`. No thread can be cut for it: `measure`, `write`, `sheet` and `kit` refuse such a band.",
    example: r#"pattern "Mooring line"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 3 foam

length 4 mm

set {
  repeat 4 {
    take left 1: forward to edge
  }
}
"#,
    instead: r#"pattern "Mooring line"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 3 foam

length 4 cm

set {
  repeat 4 {
    take left 1: forward to edge
  }
}
"#,
};

/// What bands are for is as long as this, from a key to a waist, in millimeters. Common practice, no source.
const USUAL: RangeInclusive<f64> = 20.0..=1500.0;

pub(super) fn find(woven: &Woven) -> Vec<Finding> {
    one_set(woven).and_then(|one_set| Some(words(woven, one_set, written(woven)?))).into_iter().collect()
}

/// The band with one set.
#[derive(Clone, Copy)]
struct OneSet {
    rows: u64,
    figures: Figures,
}

/// The band with one set, if it is longer than it is to be.
fn one_set(woven: &Woven) -> Option<OneSet> {
    let pattern = woven.pattern;
    let Extent::Length(wanted) = pattern.extent else { return None };
    let (gauge, set) = (pattern.gauge.or_usual(), woven.set.as_ref()?);
    // What is laid has one set or more. Mostly it is not even as long as it is to be, and nothing is followed for that.
    let may_be = |straight: f64| {
        gauge.figures(straight).is_ok_and(|figures| figures.is_shorter(wanted, woven.laid.height().into()))
    };
    if !may_be(0.0) && !may_be(1.0) {
        return None;
    }
    let first = || Sets::alike(set.clone());
    let growth = Growth::new(&woven.opening, woven.sets().unwrap_or(&first()));
    let figures = gauge.figures(growth.straight_part(&woven.opening, &woven.closing)).ok()?;
    let rows = growth.height_with(1, &woven.closing);
    figures.is_shorter(wanted, rows).then_some(OneSet { rows, figures })
}

/// Where the pattern says how long it becomes.
fn written<'a>(woven: &Woven<'a>) -> Option<&'a Length> {
    let mut statements = woven.source.parsed.tree.statements.iter();
    statements.find_map(|statement| Some(&statement.get::<BandLength>()?.length))
}

fn words(woven: &Woven, one_set: OneSet, written: &Length) -> Finding {
    let said = written.span.of(&woven.source.text);
    let figures = one_set.figures;
    let long = length(one_set.rows.to_f64() * figures.pitch);
    let rows = count(one_set.rows, "row");
    let place = Place { file: FileId::CHECKED, span: written.span };
    let message =
        format!("The band is to be {said} long, but with one set it has {rows} and is about {long} long.");
    let mut finding = Finding::new(&RULE, message).at(place).help(format!(
        "Look at the unit: `mm`, `cm`, `m` or `in`. Ask for {long} or more, or write `sets 1` instead to tie the set once."
    ));
    let is_meant = |wanted: f64| USUAL.contains(&wanted) && !figures.is_shorter(wanted, one_set.rows);
    finding.mends.extend(in_other_unit(written, &woven.source.text, is_meant));
    finding
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};

    fn with(line: &str) -> String {
        RULE.example.replace("length 4 mm", line)
    }

    #[test]
    fn it_is_said_how_long_one_set_is_and_which_unit_may_be_meant() {
        let found = find_by(RULE.name, RULE.example);
        assert_eq!(found.len(), 1);
        let finding = &found[0];
        assert_eq!(
            finding.message,
            "The band is to be 4 mm long, but with one set it has 9 rows and is about 1.4 cm long."
        );
        assert_eq!(finding.place.span.of(RULE.example), "4 mm");
        let titles: Vec<&str> = finding.mends.iter().map(|mend| mend.title.as_str()).collect();
        assert_eq!(titles, ["write `4 cm`"]);
        assert!(finding.mends.iter().all(|mend| !mend.certain));
    }

    #[test]
    fn a_unit_is_only_proposed_if_a_band_may_be_that_long() {
        let mends = |line: &str| -> Vec<String> {
            let found = find_by(RULE.name, &with(line));
            assert_eq!(found.len(), 1, "{line}");
            found
                .into_iter()
                .flat_map(|finding| finding.mends)
                .map(|mend| mend.edits[0].text.clone())
                .collect()
        };
        assert_eq!(mends("length 1 cm"), ["1 m"]);
        assert_eq!(mends("length 1.9 mm"), <[&str; 0]>::default());
        assert_eq!(mends("length 0.4 in"), <[&str; 0]>::default());
    }

    #[test]
    fn about_one_set_is_one_set() {
        // Nine rows of thread that nobody measured: 13.8 mm, and at least 11.
        for line in ["length 14 mm", "length 13 mm", "length 12 mm", "sets 1", ""] {
            assert_silent(RULE.name, &with(line));
        }
        let measured = "gauge {\n  18 rows measure 28 mm\n}\n";
        assert_silent(RULE.name, &with(&format!("{measured}length 13.5 mm")));
        assert_eq!(messages_of(RULE.name, &with(&format!("{measured}length 12 mm"))).len(), 1);
    }

    #[test]
    fn the_opening_and_the_closing_count() {
        let around = |line: &str| {
            let part = |word: &str| {
                format!("{word} {{\n  repeat 12 {{\n    take left 1: forward to edge\n  }}\n}}\n")
            };
            format!(
                "{}\n{}",
                with(line).replace("set {", &format!("{}set {{", part("opening"))),
                part("closing")
            )
        };
        assert_silent(RULE.name, &with("length 4 cm"));
        assert_eq!(messages_of(RULE.name, &around("length 4 cm")).len(), 1);
        assert_silent(RULE.name, &around("length 9 cm"));
    }
}
