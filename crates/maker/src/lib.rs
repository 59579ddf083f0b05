//! What a maker asks of a checked pattern: how long it becomes and how much thread it takes, how it looks, how it is
//! written in words, and how it is tied with the fewest pick-ups.
//!
//! The program and the language server answer these questions alike. There is no file and no terminal here.

mod designed;
mod drawn;
mod escaped;
mod fewest;
mod joined_text;
mod kit;
mod lengths;
mod measured;
mod planned;
mod repeats;
mod rewritten;
mod room;
mod scripted;
mod tying;
mod whole_band;

pub use designed::{
    DesignedText, DrawnFace, FaceThread, ImprovableSet, NotDesigned, NotImprovable, write_part, write_pattern,
};
pub use drawn::{Look, SETS_TO_SEE, draw_pattern, scripted_to_see};
pub use escaped::escape_markdown;
pub use fewest::{Fewest, fewest_pick_ups};
pub use joined_text::{JoinedText, join_long_strands};
pub use kit::{
    BandTime, Bought, BoughtBead, BoughtTotal, Cue, CueMoment, CutAtColor, Difficulty, Kit, KitBand,
    KitError, KitOptions, KitReport, KitSection, in_hours, read_times, report_kit,
};
pub use knotwright_band::thread::{USUAL_SKEIN, USUAL_THICKNESS};
pub use knotwright_checker::{Held, USUAL_ENDS, USUAL_LENGTH};
pub use lengths::{LengthUnit, Typed, round_length};
pub use measured::{
    Around, FigureBasis, MeasureOptions, Measured, Medium, NotMeasured, NotProposed, PieceUse, ProposedJoin,
    ProposedJoins, ReportTable, Saving, Stop, StrandPiece, ThreadReport, first_strand, list_strands,
    propose_joins, report_measured, shared_out,
};
pub use planned::{PickUp, Planned, WhyAgain};
pub use rewritten::{left_out, not_rewritten};
pub use room::{MOST_KNOTS, too_large};
pub use scripted::{NoScript, band_threads, passage_of, recolor_script, script_of, script_sets};
pub use tying::{Instructed, Mirrored, TyingOptions};
pub use whole_band::{WholeBand, closing_after, count_beads};
