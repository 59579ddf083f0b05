//! What to prepare for a band, or for a class that ties many: thread to buy, pieces to cut, time, and what makes it hard.
//!
//! Everything that is bought or cut is listed from a measured band in [`shopping`]; whatever else a band is made of (beads,
//! cords, clasps) belongs there, too.

mod cues;
mod difficulty;
mod report;
mod shopping;
mod span;
mod timed;

pub use cues::{Cue, CueMoment};
pub use difficulty::Difficulty;
pub use report::{KitReport, KitSection, report_kit};
pub use shopping::{Bought, BoughtBead, BoughtTotal, CutAtColor};
pub use span::in_hours;
pub use timed::{BandTime, read_times};

use crate::lengths::LengthUnit;
use crate::measured::{MeasureOptions, Measured, NotMeasured};
use crate::scripted::named_colorway;
use knotwright_band::pace::FittedPace;
use knotwright_band::thread::LinearDensity;
use knotwright_checker::{Pattern, PatternThread};

/// What a kit is for. Lengths in millimeters.
#[derive(Debug, Clone)]
pub struct KitOptions {
    /// How long the bands are, of what thread, and how long a skein is.
    pub measure: MeasureOptions,
    /// How many of each band.
    pub count: u32,
    /// In the colors of which colorway.
    pub colorway: Option<String>,
    /// How heavy the thread is, whatever the patterns say.
    pub density: Option<LinearDensity>,
    /// What a skein costs, in whatever money.
    pub price: Option<f64>,
    /// How fast the maker ties.
    pub pace: FittedPace,
}

/// What to prepare.
#[derive(Debug)]
pub struct Kit<'a> {
    /// Every pattern.
    pub bands: Vec<KitBand<'a>>,
    /// What to buy for all of them.
    pub bought: Vec<Bought>,
    /// The beads to buy for all of them.
    pub beads: Vec<BoughtBead>,
    /// What it was made for.
    pub options: KitOptions,
}

/// One pattern of a kit.
#[derive(Debug)]
pub struct KitBand<'a> {
    /// Its band.
    pub measured: Measured<'a>,
    /// Its threads, in the colors of the colorway.
    pub threads: Vec<PatternThread>,
    /// How long it takes to tie one.
    pub time: BandTime,
    /// What makes it hard.
    pub difficulty: Difficulty,
    /// When each part begins.
    pub cues: Vec<Cue>,
}

impl<'a> KitBand<'a> {
    /// What to know of one pattern; ask [`too_large`](crate::too_large) first.
    ///
    /// # Errors
    /// In words: it cannot be measured, or has no such colorway.
    pub fn new(pattern: &'a Pattern, options: &KitOptions) -> Result<Self, KitError> {
        let threads = match &options.colorway {
            Some(name) => named_colorway(pattern, name).map_err(KitError::Colorway)?.threads.clone(),
            None => pattern.threads.clone(),
        };
        let measured = Measured::new(pattern, options.measure).map_err(KitError::NotMeasured)?;
        let time = BandTime::of(&measured, &options.pace);
        let difficulty = Difficulty::of(&measured, &threads);
        let cues = cues::list_cues(&measured, &options.pace);
        Ok(Self { measured, threads, time, difficulty, cues })
    }

    /// How heavy its thread is, if anybody says so.
    pub(crate) fn density(&self, options: &KitOptions) -> Option<LinearDensity> {
        options.density.or(self.measured.pattern.gauge.density)
    }
}

impl<'a> Kit<'a> {
    /// All that some bands need.
    pub fn new(bands: Vec<KitBand<'a>>, options: KitOptions) -> Self {
        let bought = shopping::list_bought(&bands, &options);
        let beads = shopping::list_beads(&bands, &options);
        Self { bands, bought, beads, options }
    }

    /// What to buy in all.
    pub fn total(&self) -> BoughtTotal {
        BoughtTotal::of(&self.bought)
    }

    /// How heavy the thread of all patterns is, if it is known of each and the same.
    pub fn density(&self) -> Option<LinearDensity> {
        let mut all = self.bands.iter().map(|band| band.density(&self.options));
        let first = all.next().flatten()?;
        all.all(|other| other == Some(first)).then_some(first)
    }

    /// How long a skein is, in millimeters, and whether nobody said so.
    pub fn skein(&self) -> (f64, bool) {
        let usual = (crate::USUAL_SKEIN, true);
        self.bands.first().map_or(usual, |band| band.measured.skein)
    }
}

/// Why there is no kit.
#[derive(Debug, Clone, PartialEq)]
pub enum KitError {
    /// The band is not measured.
    NotMeasured(NotMeasured),
    /// There is no such colorway; in words.
    Colorway(String),
}

impl KitError {
    /// In words.
    pub fn said(&self, unit: LengthUnit) -> String {
        match self {
            Self::NotMeasured(reason) => reason.said(unit),
            Self::Colorway(reason) => reason.clone(),
        }
    }
}
