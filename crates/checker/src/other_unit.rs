//! A length with another unit than was written: people slip from millimeters to centimeters.

use crate::{Edit, FileId, Mend, Place};
use knotwright_grammar::tree::{Length, Unit};

/// The units of the meter, and how many millimeters each has.
const METRIC: [(&str, f64, Unit); 3] =
    [("mm", 1.0, Unit::Millimeter), ("cm", 10.0, Unit::Centimeter), ("m", 1000.0, Unit::Meter)];

/// The mend that writes the only other unit with which the length is one that is `meant`, told in millimeters; `text`: that of
/// the file. Who measures in inches has no other.
pub(crate) fn in_other_unit(written: &Length, text: &str, meant: impl Fn(f64) -> bool) -> Option<Mend> {
    let (_, own, _) = METRIC.iter().find(|(.., unit)| *unit == written.unit)?;
    let others = METRIC.iter().filter(|(.., unit)| *unit != written.unit);
    let mut fitting = others.filter(|(_, each, _)| meant(written.millimeters / own * each));
    let (Some((unit, ..)), None) = (fitting.next(), fitting.next()) else { return None };
    let number = written.span.of(text).split_whitespace().next()?;
    let place = Place { file: FileId::CHECKED, span: written.span };
    let edit = Edit { place, text: format!("{number} {unit}") };
    Some(Mend { is_guess: true, ..Mend::new(format!("write `{}`", edit.text), vec![edit], false) })
}
