//! The names of units, as they are typed.

use clap::ValueEnum;
use knotwright_maker::Unit;

/// In which unit lengths are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub(crate) enum UnitName {
    /// Millimeters
    Mm,
    /// Centimeters
    #[default]
    Cm,
    /// Inches
    In,
}

impl From<UnitName> for Unit {
    fn from(name: UnitName) -> Self {
        match name {
            UnitName::Mm => Self::Mm,
            UnitName::Cm => Self::Cm,
            UnitName::In => Self::In,
        }
    }
}
