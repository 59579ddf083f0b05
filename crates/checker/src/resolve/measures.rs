//! Swatch, length and ends: numbers that a band could have.

use crate::facts::Facts;
use crate::{FactKind, FileId, Place};
use knotwright_band::thread::{Gauge, LinearDensity};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Length, Number, Swatch};
use std::ops::RangeInclusive;

/// Something that is measured, and what one of it can come to, in millimeters.
struct Measurable {
    what: &'static str,
    each: RangeInclusive<f64>,
}

// Common practice, no source: no thread for bands is thicker than 20 mm or finer than 0.05 mm, no knot uses
// 10 cm of it, no row is 4 cm high.
const THICKNESS: Measurable = Measurable { what: "thickness", each: 0.05..=20.0 };
const KNOT: Measurable = Measurable { what: "knots use", each: 0.2..=100.0 };
const ROW: Measurable = Measurable { what: "rows measure", each: 0.05..=40.0 };
/// The heaviest thread, in tex: a cord of 10 mm. Common practice, no source.
const HEAVIEST: u32 = 100_000;
/// No bead for bands is smaller than half a millimeter or larger than 60 mm. Common practice, no source.
const BEAD: Measurable = Measurable { what: "bead", each: 0.5..=60.0 };
const HOLE: Measurable = Measurable { what: "hole", each: 0.1..=60.0 };
const TEX: &str = "tex";
/// The longest band, and the longest ends, in millimeters.
const LONGEST: f64 = 100_000.0;
const LONGEST_ENDS: f64 = 10_000.0;

fn place(span: Span) -> Place {
    Place { file: FileId::CHECKED, span }
}

/// A length, in millimeters, if it is one that a `what` can have.
pub(super) fn read_length(what: &'static str, written: &Length, facts: &mut Facts) -> Option<f64> {
    let most = if what == "length" { LONGEST } else { LONGEST_ENDS };
    measured(&Measurable { what, each: 0.0..=most }, written, 1, facts)
}

/// How large a bead is, in millimeters.
pub(super) fn read_bead(written: &Length, facts: &mut Facts) -> Option<f64> {
    measured(&BEAD, written, 1, facts)
}

/// How wide the hole of a bead is, in millimeters.
pub(super) fn read_hole(written: &Length, facts: &mut Facts) -> Option<f64> {
    measured(&HOLE, written, 1, facts)
}

/// The length of `number` of them, in millimeters, if one could be that long.
fn measured(of: &Measurable, written: &Length, number: u32, facts: &mut Facts) -> Option<f64> {
    let (what, whole) = (of.what, written.millimeters);
    if whole <= 0.0 {
        facts.say(place(written.span), FactKind::ZeroMeasure { what });
        return None;
    }
    if !of.each.contains(&(whole / f64::from(number))) {
        facts.say(place(written.span), FactKind::ImplausibleMeasure { what, millimeters: whole });
        return None;
    }
    Some(whole)
}

/// The author's swatch.
pub(super) fn read_gauge(block: &Block, facts: &mut Facts) -> Gauge {
    let mut gauge = Gauge::default();
    let mut seen: [Option<Span>; 4] = [None; 4];
    for statement in &block.statements {
        let Some(swatch) = statement.get::<Swatch>() else { continue };
        let (slot, what) = match swatch {
            Swatch::Thickness(_) => (0, THICKNESS.what),
            Swatch::Knots(..) => (1, KNOT.what),
            Swatch::Rows(..) => (2, ROW.what),
            Swatch::Density(_) => (3, TEX),
        };
        if let Some(first) = seen[slot] {
            let first = place(first);
            facts.say(place(statement.span), FactKind::Repeated { statement: what, first });
            continue;
        }
        seen[slot] = Some(statement.span);
        match swatch {
            Swatch::Thickness(written) => gauge.thickness = measured(&THICKNESS, written, 1, facts),
            Swatch::Knots(number, written) => gauge.knots_use = per(&KNOT, number, written, facts),
            Swatch::Rows(number, written) => gauge.rows_measure = per(&ROW, number, written, facts),
            Swatch::Density(tex) => gauge.density = density(tex, facts),
        }
    }
    gauge
}

/// How heavy thread is, if one could be.
fn density(tex: &Number, facts: &mut Facts) -> Option<LinearDensity> {
    match tex.value {
        0 => facts.say(place(tex.span), FactKind::ZeroMeasure { what: TEX }),
        heavy if heavy > HEAVIEST => {
            facts.say(place(tex.span), FactKind::ImplausibleDensity { tex: heavy });
        }
        usual => return Some(LinearDensity { tex: usual.into() }),
    }
    None
}

/// A number of things, and the length they come to.
fn per(of: &Measurable, number: &Number, written: &Length, facts: &mut Facts) -> Option<(u32, f64)> {
    if number.value == 0 {
        facts.say(place(number.span), FactKind::ZeroMeasure { what: of.what });
        return None;
    }
    let whole = measured(of, written, number.value, facts)?;
    Some((number.value, whole))
}
