//! How long a band is to be, of what thread, and in which unit that is printed: as typed.

use crate::in_range::at_least;
use clap::{Args, ValueEnum};
use knotwright_checker::Extent;
use knotwright_maker::{LengthUnit, Typed};

/// What can be typed about the measures of a band.
#[derive(Debug, Clone, Args)]
pub(crate) struct LengthArguments {
    /// The length of the knotted part: as many sets are tied as come nearest to it, at least one: `15cm`
    #[arg(long, value_name = "LENGTH", conflicts_with = "sets")]
    length: Option<Typed>,

    /// How often to tie the set
    #[arg(long, value_name = "N", value_parser = at_least(1_u32))]
    sets: Option<u32>,

    /// The wrist that the band is for: the knots go around it with room for two fingers, less what the ends close
    #[arg(long, value_name = "LENGTH", conflicts_with_all = ["length", "sets"])]
    wrist: Option<Typed>,

    /// The thickness of the thread, instead of the pattern's gauge: `0.9mm`
    #[arg(long, value_name = "LENGTH")]
    thickness: Option<Typed>,

    /// The length to leave free at each end: `10cm`
    #[arg(long, value_name = "LENGTH")]
    ends: Option<Typed>,

    /// The unit for lengths
    #[arg(long, value_enum, default_value_t, value_name = "UNIT")]
    unit: UnitName,
}

impl LengthArguments {
    /// How long it is to be.
    pub(crate) fn extent(&self) -> Option<Extent> {
        self.length.map(|length| Extent::Length(length.0)).or(self.sets.map(Extent::Sets))
    }

    /// The wrist that it is for, in millimeters.
    pub(crate) fn wrist(&self) -> Option<f64> {
        self.wrist.map(|wrist| wrist.0)
    }

    /// How thick the thread is, in millimeters.
    pub(crate) fn thickness(&self) -> Option<f64> {
        self.thickness.map(|thickness| thickness.0)
    }

    /// What is left free at each end, in millimeters.
    pub(crate) fn ends(&self) -> Option<f64> {
        self.ends.map(|ends| ends.0)
    }

    /// The unit for lengths.
    pub(crate) fn unit(&self) -> LengthUnit {
        self.unit.into()
    }
}

/// The unit for lengths.
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

impl From<UnitName> for LengthUnit {
    fn from(name: UnitName) -> Self {
        match name {
            UnitName::Mm => Self::Mm,
            UnitName::Cm => Self::Cm,
            UnitName::In => Self::In,
        }
    }
}
