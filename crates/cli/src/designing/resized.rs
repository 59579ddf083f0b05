//! The face of a pattern in another size.

use super::{DesignJob, FaceSize, explain_no_face};
use crate::bands::BandFile;
use crate::terminal::{Failure, Terminal};
use knotwright_designer::{DesignStart, DesignTask, WishedFace};
use knotwright_maker::{DrawnFace, FaceThread, ImprovableSet};
use knotwright_numbers::ToNumber;

/// What is wanted of a face in another size.
pub(crate) struct ResizedFace {
    pub(crate) size: FaceSize,
    pub(crate) start: DesignStart,
    pub(crate) closes: bool,
}

impl ResizedFace {
    /// A new pattern that shows the face of the set of another in this size.
    ///
    /// # Errors
    /// Nothing of it can be improved, or the size is no size for a band.
    pub(crate) fn job(self, band: &BandFile, terminal: &Terminal) -> Result<DesignJob, Failure> {
        let Self { size, start, closes } = self;
        let set =
            ImprovableSet::of(&band.pattern).map_err(|reason| DesignJob::not_improvable(band, reason))?;
        let (strands, rows) = other_size(&set.face, size);
        let face = set.face.resampled(strands, rows).map_err(explain_no_face)?;
        terminal.say(format_args!(
            "{}: its face has {} strands and {} rows; here it has {strands} and {rows}, in a new pattern with its title and \
             threads, and with nothing else of it",
            band.file.shown,
            set.face.strands(),
            set.face.rows()
        ));
        let task = DesignTask { face: face.clone(), start, closes: closes || set.comes_again };
        let drawn = DrawnFace { face, threads: FaceThread::all(&band.pattern) };
        Ok(DesignJob::beginning(drawn, task, band.pattern.title.text.clone()))
    }
}

/// How many strands and rows: what was not said, so that the face keeps its shape.
fn other_size(face: &WishedFace, size: FaceSize) -> (usize, usize) {
    let (strands, rows) = (f64::from(face.strands()), f64::from(face.rows()));
    let wide = size.strands.map_or_else(
        || (strands * f64::from(size.rows.unwrap_or_default()) / rows).round().clamp(2.0, 200.0).to_usize(),
        usize::from,
    );
    // An odd number of rows only if the face has one: the next set begins in bricks as this one.
    let high = || (rows * wide.to_f64() / strands / 2.0).round().max(1.0).to_usize() * 2;
    (wide, size.rows.map_or_else(high, ToNumber::to_usize))
}
