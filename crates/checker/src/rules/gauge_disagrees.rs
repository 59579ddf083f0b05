//! A gauge whose lines cannot all be true.

use crate::contents::Contents;
use crate::other_unit::in_other_unit;
use crate::wording::{length, quoted};
use crate::{Checked, FileId, Finding, Mend, Place, Rule, Severity};
use knotwright_band::thread::{Figures, Model};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{GaugeBlock, Length, Swatch};
use std::ops::RangeInclusive;

pub(crate) static RULE: Rule = Rule {
    name: "gauge-disagrees",
    severity: Severity::Warning,
    tags: &[],
    summary: "Two lines of the gauge cannot both be true: one of them is of much thicker thread.",
    why: "Thread ties rows and knots in proportion to how thick it is. So each line of a gauge tells a thickness, by the \
          model that `measure` uses: a row is about 1.7 times as high, and a knot takes about 13 times that much thread. \
          Hands and threads differ, and honest lines may well tell twice the thickness of one another. Where one tells \
          more than four times that of another (common practice, no source), it is a slip: `32 cm` for `32 mm`, or a \
          decimal point. Every length and every thread would be wrong by as much.",
    example: r#"pattern "Herring run"

thread sea #173f5f
thread fin #9fb8c8

strands sea 3 fin

gauge {
  thickness 0.9 mm
  20 rows measure 32 cm
}

set {
  repeat 4 {
    take left 1: forward to edge
  }
}
"#,
    instead: r#"pattern "Herring run"

thread sea #173f5f
thread fin #9fb8c8

strands sea 3 fin

gauge {
  thickness 0.9 mm
  20 rows measure 32 mm
}

set {
  repeat 4 {
    take left 1: forward to edge
  }
}
"#,
};

/// How many times the thickness by one line may be that by another. A unit that is wrong makes it ten times or a tenth; what
/// is left is for hands and threads. Common practice, no source.
const MOST: f64 = 4.0;

/// Thread for bands, in millimeters: what a mend may make of it. Common practice, no source.
const USUAL: RangeInclusive<f64> = 0.2..=5.0;

/// A line of the gauge.
struct GaugeLine<'a> {
    span: Span,
    written: &'a Length,
    /// How thick the thread is by it, in millimeters.
    thickness: f64,
}

impl GaugeLine<'_> {
    fn fits(&self, other: &Self) -> bool {
        fit(self.thickness, other.thickness)
    }
}

fn fit(one: f64, other: f64) -> bool {
    one <= MOST * other && other <= MOST * one
}

pub(super) fn find(checked: &Checked, _: &Contents) -> Vec<Finding> {
    let mut statements = checked.source.parsed.tree.statements.iter().filter(|_| checked.sound);
    let Some(gauge) = statements.find_map(|statement| statement.get::<GaugeBlock>()) else {
        return Vec::new();
    };
    let lines = lines(gauge);
    let Some((wrong, other)) = disagreeing(&lines) else { return Vec::new() };
    let text = &checked.source.text;
    let by = |line: &GaugeLine| (quoted(line.span.of(text)), thick(line.thickness));
    let ((one, of_one), (another, of_other)) = (by(wrong), by(other));
    let message = format!(
        "By {one} the thread is about {of_one} thick, but by {another} about {of_other}: it cannot be both."
    );
    let place = |line: &GaugeLine| Place { file: FileId::CHECKED, span: line.span };
    let mut finding = Finding::new(&RULE, message)
        .at(place(wrong))
        .note(place(other), "this is of other thread")
        .help("Look at the units, the decimal points and the numbers of knots and rows; measure again if you are not sure.");
    // Of two lines, either may be wrong; of three, it is the one that differs from the others.
    let blamed = if lines.len() == 2 { vec![wrong, other] } else { vec![wrong] };
    finding.mends = blamed.into_iter().filter_map(|line| in_unit_that_fits(line, &lines, text)).collect();
    vec![finding]
}

/// As closely as thread is measured. By a line that is wrong it may be as fine as dust.
fn thick(millimeters: f64) -> String {
    if millimeters < 0.1 { format!("{millimeters:.2} mm") } else { length(millimeters) }
}

/// What each line tells of the thread, `tex` left out: that is only of its weight.
fn lines(gauge: &GaugeBlock) -> Vec<GaugeLine<'_>> {
    // The rows of a swatch are brick rows.
    let Figures { working, pitch, .. } = Model::new(1.0).figures(0.0);
    let statements = gauge.block.statements.iter();
    let lines = statements.filter_map(|statement| {
        let (written, each) = match statement.get::<Swatch>()? {
            Swatch::Thickness(written) => (written, 1.0),
            Swatch::Knots(number, written) => (written, f64::from(number.value) * working),
            Swatch::Rows(number, written) => (written, f64::from(number.value) * pitch),
            Swatch::Density(_) => return None,
        };
        Some(GaugeLine { span: statement.span, written, thickness: written.millimeters / each })
    });
    lines.collect()
}

/// A line that is wrong, and one that it does not fit. Of two lines the second is said to be wrong.
fn disagreeing<'a, 'l>(lines: &'a [GaugeLine<'l>]) -> Option<(&'a GaugeLine<'l>, &'a GaugeLine<'l>)> {
    let others = |line: &'a GaugeLine<'l>| lines.iter().filter(move |other| other.span != line.span);
    let misfits = |line: &'a GaugeLine<'l>| others(line).filter(move |other| !line.fits(other));
    let wrong = lines.iter().max_by_key(|line| misfits(line).count())?;
    Some((wrong, misfits(wrong).next()?))
}

/// The line with the only other unit with which all lines fit.
fn in_unit_that_fits(line: &GaugeLine, lines: &[GaugeLine], text: &str) -> Option<Mend> {
    in_other_unit(line.written, text, |millimeters| {
        let thickness = line.thickness * millimeters / line.written.millimeters;
        let mut others = lines.iter().filter(|other| other.span != line.span);
        USUAL.contains(&thickness) && others.all(|other| fit(thickness, other.thickness))
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by};

    const LINES: &str = "  thickness 0.9 mm\n  20 rows measure 32 cm\n";

    fn with(lines: &[&str]) -> String {
        RULE.example.replace(LINES, &lines.iter().map(|line| format!("  {line}\n")).collect::<String>())
    }

    /// What it points at, and what its mends write.
    fn told(lines: &[&str]) -> Vec<String> {
        let text = with(lines);
        let found = find_by(RULE.name, &text);
        assert_eq!(found.len(), 1, "{lines:?}");
        let mends = found[0].mends.iter().map(|mend| mend.edits[0].text.clone());
        assert!(found[0].mends.iter().all(|mend| !mend.certain));
        std::iter::once(found[0].place.span.of(&text).to_owned()).chain(mends).collect()
    }

    #[test]
    fn both_lines_are_told_and_what_thread_each_is_of() {
        let found = find_by(RULE.name, RULE.example);
        assert_eq!(
            found[0].message,
            "By `20 rows measure 32 cm` the thread is about 9.4 mm thick, but by `thickness 0.9 mm` about 0.9 mm: it cannot be both."
        );
        assert_eq!(told(&["thickness 0.9 mm", "20 rows measure 32 cm"]), ["20 rows measure 32 cm", "32 mm"]);
        let fine = find_by(RULE.name, &with(&["thickness 0.9 mm", "20 rows measure 1.1 mm"]));
        assert!(fine[0].message.contains("the thread is about 0.03 mm thick"), "{}", fine[0].message);
    }

    #[test]
    fn of_three_lines_the_one_that_differs_is_wrong() {
        let (thread, knots, rows) = ("thickness 0.9 mm", "10 knots use 105 mm", "20 rows measure 32 mm");
        assert_eq!(told(&["thickness 9 mm", knots, rows]), ["thickness 9 mm"]);
        assert_eq!(told(&[thread, "10 knots use 95 cm", rows]), ["10 knots use 95 cm", "95 mm"]);
        assert_eq!(told(&[thread, knots, "20 rows measure 3.2 mm"]), ["20 rows measure 3.2 mm", "3.2 cm"]);
        assert_eq!(told(&["10 knots use 105 mm", "20 rows measure 32 cm"])[1], "32 mm");
    }

    /// Loose and tight hands, soft and hard thread, and a few ways to misjudge how thick it is.
    #[test]
    fn what_hands_may_do_is_no_slip() {
        for (thickness, knots, rows) in [
            ("0.9 mm", "105 mm", "32 mm"),
            ("1.5 mm", "105 mm", "32 mm"),
            ("0.4 mm", "105 mm", "32 mm"),
            ("2 mm", "200 mm", "90 mm"),
            ("0.9 mm", "60 mm", "50 mm"),
            ("1 mm", "180 mm", "20 mm"),
            ("0.05 in", "6 in", "2 in"),
        ] {
            let lines = [
                format!("thickness {thickness}"),
                format!("10 knots use {knots}"),
                format!("20 rows measure {rows}"),
            ];
            assert_silent(RULE.name, &with(&lines.each_ref().map(String::as_str)));
        }
        assert_silent(RULE.name, &with(&["thickness 9 mm"]));
        assert_silent(RULE.name, &with(&["thickness 9 mm", "250 tex"]));
    }
}
