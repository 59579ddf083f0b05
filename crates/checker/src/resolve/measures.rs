//! Swatch, length and ends: numbers that a band could have.

use crate::facts::Facts;
use crate::{FactKind, FileId, Gauge, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Length, Node, Number, Swatch};

// Common practice, no source: no thread for bands is thicker than 20 mm or finer than 0.05 mm, no knot uses
// 10 cm of it, no row is 4 cm high.
const THICKNESS: (f64, f64) = (0.05, 20.0);
const KNOT: (f64, f64) = (0.2, 100.0);
const ROW: (f64, f64) = (0.05, 40.0);
/// The longest band, and the longest ends, in millimeters.
const LONGEST: f64 = 100_000.0;
const LONGEST_ENDS: f64 = 10_000.0;

fn place(span: Span) -> Place {
    Place { file: FileId(0), span }
}

/// A length, in millimeters, if it is one that a `what` can have.
pub(super) fn length(what: &'static str, written: &Length, facts: &mut Facts) -> Option<f64> {
    let most = if what == "length" { LONGEST } else { LONGEST_ENDS };
    measured(what, written.span, (written.millimeters, written.millimeters, (0.0, most)), facts)
}

/// Keeps `whole` if `each`, what it comes to for one, lies within the bounds.
fn measured(
    what: &'static str,
    span: Span,
    (whole, each, (least, most)): (f64, f64, (f64, f64)),
    facts: &mut Facts,
) -> Option<f64> {
    if whole <= 0.0 {
        facts.say(place(span), FactKind::ZeroMeasure { what });
        return None;
    }
    if each < least || each > most || !each.is_finite() {
        facts.say(place(span), FactKind::ImplausibleMeasure { what, millimeters: whole });
        return None;
    }
    Some(whole)
}

/// The author's swatch.
pub(super) fn gauge(block: &Block, facts: &mut Facts) -> Gauge {
    let mut gauge = Gauge::default();
    let mut seen: [Option<Span>; 3] = [None; 3];
    for statement in &block.statements {
        let Node::Swatch(swatch) = &statement.node else { continue };
        let (slot, name) = match swatch {
            Swatch::Thickness(_) => (0, "thickness"),
            Swatch::Knots(..) => (1, "knots use"),
            Swatch::Rows(..) => (2, "rows measure"),
        };
        if let Some(first) = seen[slot] {
            let first = place(first);
            facts.say(place(statement.span), FactKind::Repeated { statement: name, first });
            continue;
        }
        seen[slot] = Some(statement.span);
        match swatch {
            Swatch::Thickness(written) => {
                let one = (written.millimeters, written.millimeters, THICKNESS);
                gauge.thickness = measured(name, written.span, one, facts);
            }
            Swatch::Knots(number, written) => gauge.knots_use = per(name, (number, written), KNOT, facts),
            Swatch::Rows(number, written) => gauge.rows_measure = per(name, (number, written), ROW, facts),
        }
    }
    gauge
}

/// So many, and what they come to.
fn per(
    what: &'static str,
    (number, written): (&Number, &Length),
    bounds: (f64, f64),
    facts: &mut Facts,
) -> Option<(u32, f64)> {
    if number.value == 0 {
        facts.say(place(number.span), FactKind::ZeroMeasure { what });
        return None;
    }
    let each = written.millimeters / f64::from(number.value);
    let whole = measured(what, written.span, (written.millimeters, each, bounds), facts)?;
    Some((number.value, whole))
}
