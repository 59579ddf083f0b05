//! Weight by length, ISO 1144.

/// Linear density of a thread, kept in tex: grams a kilometer (ISO 1144, the tex system).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct LinearDensity {
    /// Grams a kilometer.
    pub tex: f64,
}

impl LinearDensity {
    /// What this many millimeters weigh, in grams.
    pub fn grams(self, millimeters: f64) -> f64 {
        self.tex * millimeters / 1e6
    }
}
