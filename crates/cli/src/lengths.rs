//! How long a band is to be, of what thread, and in which unit that is told: as it is typed.

use clap::{Args, ValueEnum};
use knotwright_checker::Extent;
use knotwright_maker::{Typed, Unit};

/// What can be typed about the measures of a band.
#[derive(Debug, Clone, Args)]
pub(crate) struct LengthArguments {
    /// So long is the knotted part to be, to the nearest whole set: `15cm`
    #[arg(long, value_name = "LENGTH", conflicts_with = "sets")]
    length: Option<Typed>,

    /// So many times the set is tied
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    sets: Option<u32>,

    /// So thick is the thread, in place of what the pattern's gauge says: `0.9mm`
    #[arg(long, value_name = "LENGTH")]
    thickness: Option<Typed>,

    /// So much is left free at each end: `10cm`
    #[arg(long, value_name = "LENGTH")]
    ends: Option<Typed>,

    /// In which unit lengths are told
    #[arg(long, value_enum, default_value_t, value_name = "UNIT")]
    unit: UnitName,
}

impl LengthArguments {
    /// How long it is to be.
    pub(crate) fn extent(&self) -> Option<Extent> {
        self.length.map(|length| Extent::Length(length.0)).or(self.sets.map(Extent::Sets))
    }

    /// How thick the thread is, in millimeters.
    pub(crate) fn thickness(&self) -> Option<f64> {
        self.thickness.map(|thickness| thickness.0)
    }

    /// What is left free at each end, in millimeters.
    pub(crate) fn ends(&self) -> Option<f64> {
        self.ends.map(|ends| ends.0)
    }

    /// In which unit lengths are told.
    pub(crate) fn unit(&self) -> Unit {
        self.unit.into()
    }
}

/// In which unit lengths are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum UnitName {
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
