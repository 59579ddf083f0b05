//! What is on a chart besides lines and ribbons.

use knotwright_color::Rgb;
use knotwright_numbers::ToNumber;
use serde::{Serialize, Serializer};

use crate::bead::Form;

/// Something on the chart, in pixels from the upper left corner. A strand's letter and color follow from its thread.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "sign", rename_all = "camelCase")]
pub enum ChartMark {
    /// A light stripe under a row, from its left upper corner.
    Stripe {
        /// Its corner and size.
        area: [f64; 4],
    },
    /// A line of text from where it begins.
    Text {
        /// The left end of its base line.
        at: [f64; 2],
        /// What it says.
        text: String,
        /// The height of its letters.
        size: f64,
        /// Whether it stands out.
        bold: bool,
    },
    /// The number of a position, in the middle above it.
    Position {
        /// The middle of its base line.
        at: [f64; 2],
        /// From 1.
        number: u32,
    },
    /// The name of a section, on a label across the strands.
    Label {
        /// The corner and size of the label.
        area: [f64; 4],
        /// What it says.
        text: String,
    },
    /// The number of a row, on a tag.
    Number {
        /// The tip of the tag.
        at: [f64; 2],
        /// From 1.
        number: u32,
        /// Whether the row begins at the left.
        rightward: bool,
    },
    /// A strand as it hangs.
    Hanging {
        /// The middle.
        at: [f64; 2],
        /// The number of its color: that of its thread, or of a further color of it.
        thread: u16,
    },
    /// The name of a thread.
    Name {
        /// The left end of its base line.
        at: [f64; 2],
        /// The thread.
        thread: u16,
    },
    /// A bead on the strands, over all else.
    Bead {
        /// The middle.
        at: [f64; 2],
        /// Half of its size on the chart, which is not its true one.
        radius: f64,
        /// Which bead, from 1.
        number: u32,
        /// Its color.
        color: String,
        /// What can be read on it.
        ink: String,
    },
    /// Where a strand goes on with a new piece of thread.
    Join {
        /// The middle.
        at: [f64; 2],
    },
    /// A ribbon that shows what its form means.
    Sample {
        /// The middle.
        at: [f64; 2],
        /// The form; in JSON its number in [`Form::ALL`].
        #[serde(serialize_with = "number")]
        form: Form,
    },
}

fn number<S: Serializer>(form: &Form, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_u32(Form::ALL.iter().position(|known| known == form).unwrap_or(0).to_u32())
}

impl ChartMark {
    pub(super) fn bead(at: [f64; 2], radius: f64, number: u32, color: Rgb) -> Self {
        Self::Bead { at, radius, number, color: color.to_string(), ink: color.ink().to_string() }
    }

    /// The same, further down.
    pub(super) fn lowered(mut self, by: f64) -> Self {
        match &mut self {
            Self::Stripe { area } | Self::Label { area, .. } => area[1] += by,
            Self::Text { at, .. }
            | Self::Position { at, .. }
            | Self::Number { at, .. }
            | Self::Hanging { at, .. }
            | Self::Name { at, .. }
            | Self::Bead { at, .. }
            | Self::Join { at }
            | Self::Sample { at, .. } => at[1] += by,
        }
        self
    }
}
