//! Lengths as they are typed and printed. Everything is computed in millimeters.

use knotwright_numbers::ToNumber;
use knotwright_render::StatedUnit;
use std::str::FromStr;

/// A length that was typed, above zero, in millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typed(
    /// Millimeters.
    pub f64,
);

/// No band, and no thread for one, is as long as this: one kilometer.
const LONGEST: f64 = 1e6;

impl FromStr for Typed {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let unit_at = text.find(|sign: char| !sign.is_ascii_digit() && sign != '.').unwrap_or(text.len());
        let (number, unit) = text.split_at(unit_at);
        // An inch is 25.4 mm exactly (ISO 31-1; international yard and pound agreement, 1959).
        let each = match unit.trim() {
            "mm" => 1.0,
            "cm" => 10.0,
            "m" => 1000.0,
            "in" => 25.4,
            _ => {
                return Err("write a number and a unit, `mm`, `cm`, `m` or `in`: `15cm`, \"6 in\"".to_owned());
            }
        };
        let number: f64 = number.parse().map_err(|_| format!("`{number}` is not a number"))?;
        let length = number * each;
        if !(length > 0.0 && length <= LONGEST) {
            return Err("a length must be above zero, and at most a kilometer".to_owned());
        }
        Ok(Self(length))
    }
}

/// In which unit lengths are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LengthUnit {
    /// Millimeters
    Mm,
    /// Centimeters
    #[default]
    Cm,
    /// Inches
    In,
}

impl LengthUnit {
    /// As closely as a band is measured: to a millimeter, to a tenth of an inch.
    pub fn finished(self, millimeters: f64) -> String {
        self.stated().finished(millimeters)
    }

    /// A length and a longer one, as a band is measured, or as closely as it takes to tell them apart and the longer one to
    /// a twentieth: whoever asks for it as it is said must get it.
    pub fn told_apart(self, shorter: f64, longer: f64) -> (String, String) {
        let (each, unit, usual) = match self {
            Self::Mm => (1.0, "mm", 0),
            Self::Cm => (10.0, "cm", 1),
            Self::In => (25.4, "in", 1),
        };
        let said = |digits: usize| {
            let of = |millimeters: f64| format!("{:.digits$} {unit}", millimeters / each);
            (of(shorter), of(longer))
        };
        let is_close = |digits: &usize| {
            let step = each / 10_f64.powi(digits.to_i32());
            let (shorter_said, longer_said) = said(*digits);
            shorter_said != longer_said && ((longer / step).round() * step - longer).abs() <= longer / 20.0
        };
        said((usual..usual + 3).find(is_close).unwrap_or(usual + 3))
    }

    /// The unit in which instructions say lengths.
    pub fn stated(self) -> StatedUnit {
        match self {
            Self::Mm => StatedUnit::Millimeter,
            Self::Cm => StatedUnit::Centimeter,
            Self::In => StatedUnit::Inch,
        }
    }

    /// The size of something finished that may be smaller or larger: `12.0 to 18.0 cm`.
    pub fn finished_between(self, least: f64, most: f64) -> String {
        between(&self.finished(least), self.finished(most))
    }

    /// What a strand needs, to a centimeter or half an inch and never too narrow: `61 to 89 cm`.
    pub fn needed(self, least: f64, most: f64) -> String {
        let (step, unit) = match self {
            Self::Mm => (10.0, 1.0),
            Self::Cm => (10.0, 10.0),
            Self::In => (12.7, 25.4),
        };
        let said = |millimeters: f64| match self {
            Self::Mm => format!("{:.0} mm", millimeters / unit),
            Self::Cm => format!("{:.0} cm", millimeters / unit),
            Self::In => format!("{:.1} in", millimeters / unit),
        };
        between(&said((least / step + 1e-6).floor() * step), said(up(most, step)))
    }

    /// A length to cut, in millimeters: the next whole 5 cm or 2 in, so that few lengths differ and none is too short.
    pub fn to_cut(self, millimeters: f64) -> f64 {
        match self {
            Self::Mm | Self::Cm => up(millimeters, 50.0),
            Self::In => up(millimeters, 50.8),
        }
    }

    /// A length to cut (see [`LengthUnit::to_cut`]).
    pub fn cut(self, millimeters: f64) -> String {
        let millimeters = self.to_cut(millimeters);
        match self {
            Self::Mm => format!("{millimeters:.0} mm"),
            Self::Cm => format!("{:.0} cm", millimeters / 10.0),
            Self::In => format!("{:.0} in", millimeters / 25.4),
        }
    }

    /// Lengths to cut: `65 to 90 cm`, or one if they are the same.
    pub fn cut_between(self, least: f64, most: f64) -> String {
        between(&self.cut(least), self.cut(most))
    }

    /// Thread of one color, in what it is bought by: meters or yards (of 36 in), to a tenth and never too short.
    pub fn bought(self, millimeters: f64) -> String {
        match self {
            Self::Mm | Self::Cm => format!("{:.1} m", up(millimeters, 100.0) / 1000.0),
            Self::In => format!("{:.1} yd", up(millimeters, 91.44) / 914.4),
        }
    }
}

/// Two lengths of one unit, or one if they are the same.
fn between(least: &str, most: String) -> String {
    let number = least.split(' ').next().unwrap_or_default();
    if *least == most { most } else { format!("{number} to {most}") }
}

/// The next whole number of steps; a hair more than a whole number is that number.
fn up(millimeters: f64, step: f64) -> f64 {
    let steps = (millimeters / step - 1e-6).ceil();
    // Nothing is zero, and not minus zero.
    if steps > 0.0 { steps * step } else { 0.0 }
}

/// To a tenth of a millimeter, for other programs: no thread is measured more closely.
pub fn round_length(millimeters: f64) -> f64 {
    (millimeters * 10.0).round() / 10.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_is_a_number_and_a_unit() {
        let typed = |text: &str| text.parse::<Typed>().ok().map(|typed| typed.0);
        assert_eq!(typed("15cm"), Some(150.0));
        assert_eq!(typed(" 6 in "), Some(6.0 * 25.4));
        assert_eq!(typed("0.9mm"), Some(0.9));
        for bad in ["15", "cm", "0 mm", "-3 cm", "1e9m", "2 km", "nan cm", "1.2.3 cm", "99999 m", ""] {
            assert_eq!(typed(bad), None, "{bad}");
        }
    }

    #[test]
    fn a_longer_length_never_looks_like_a_shorter_one() {
        let apart = |unit: LengthUnit, shorter, longer| {
            let (shorter, longer) = unit.told_apart(shorter, longer);
            format!("{shorter}, {longer}")
        };
        assert_eq!(apart(LengthUnit::Cm, 14.0, 20.8), "1.4 cm, 2.1 cm");
        assert_eq!(apart(LengthUnit::Cm, 12.2, 15.3), "1.2 cm, 1.5 cm");
        assert_eq!(apart(LengthUnit::Cm, 4.4, 5.4), "0.44 cm, 0.54 cm");
        assert_eq!(apart(LengthUnit::Cm, 2.7, 3.0), "0.27 cm, 0.30 cm");
        assert_eq!(apart(LengthUnit::In, 29.3, 30.4), "1.15 in, 1.20 in");
        assert_eq!(apart(LengthUnit::Mm, 0.02, 0.03), "0.02 mm, 0.03 mm");
    }

    #[test]
    fn thread_is_never_cut_shorter_than_needed() {
        assert_eq!(LengthUnit::Cm.cut(950.0), "95 cm");
        assert_eq!(LengthUnit::Cm.cut(950.1), "100 cm");
        assert_eq!(LengthUnit::Mm.cut(951.0), "1000 mm");
        assert_eq!(LengthUnit::In.cut(914.4), "36 in");
        assert_eq!(LengthUnit::In.cut(915.0), "38 in");
        assert_eq!(LengthUnit::Cm.cut(0.0), "0 cm");
        assert_eq!(LengthUnit::Cm.cut_between(601.0, 890.0), "65 to 90 cm");
        assert_eq!(LengthUnit::Mm.cut_between(601.0, 608.0), "650 mm");
        assert_eq!(LengthUnit::Cm.needed(608.0, 890.1), "60 to 90 cm");
        assert_eq!(LengthUnit::Mm.needed(600.0, 600.0), "600 mm");
        assert_eq!(LengthUnit::In.needed(609.6, 914.5), "24.0 to 36.5 in");
        assert_eq!(LengthUnit::Cm.bought(1840.0), "1.9 m");
        assert_eq!(LengthUnit::In.bought(914.4), "1.0 yd");
    }
}
