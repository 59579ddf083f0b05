//! Weight by length, ISO 1144.

/// Linear density of a thread, kept in tex: grams a kilometer (ISO 1144, the tex system).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct LinearDensity {
    /// Grams a kilometer.
    pub tex: f64,
}

/// English cotton count times tex: 840 yards a pound, with the yard of 0.9144 m and the pound of 0.45359237 kg.
const COTTON: f64 = 453_592.37 / (840.0 * 0.9144);

impl LinearDensity {
    /// From denier, grams in 9 kilometers.
    pub fn from_denier(denier: f64) -> Self {
        Self { tex: denier / 9.0 }
    }

    /// From the metric count Nm, kilometers a kilogram.
    pub fn from_metric_count(count: f64) -> Self {
        Self { tex: 1000.0 / count }
    }

    /// From the English cotton count Ne, hanks of 840 yards a pound.
    pub fn from_cotton_count(count: f64) -> Self {
        Self { tex: COTTON / count }
    }

    /// Grams in 9 kilometers.
    pub fn denier(self) -> f64 {
        self.tex * 9.0
    }

    /// Kilometers a kilogram, Nm.
    pub fn metric_count(self) -> f64 {
        1000.0 / self.tex
    }

    /// Hanks of 840 yards a pound, Ne.
    pub fn cotton_count(self) -> f64 {
        COTTON / self.tex
    }

    /// What this many millimeters weigh, in grams.
    pub fn grams(self, millimeters: f64) -> f64 {
        self.tex * millimeters / 1e6
    }
}
