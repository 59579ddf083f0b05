//! What is above the rows: the title, the threads with their letters, and the forms that are there with their meaning.

use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

use crate::bead::Form;
use crate::{BandBead, BandThread, TyingScript, list_colors};

use super::ChartWords;
use super::grid::{ACROSS, BEAD};
use super::mark::ChartMark;
use super::numbered::wrap_text;

/// The height of its letters.
pub(super) const LEGEND: f64 = 11.0;
const LINE: f64 = 33.0;
/// The height of the letters of the title, from one line of it to the next, and the most lines.
const TITLE: f64 = 16.0;
const TITLE_LINE: f64 = 21.0;
const MOST_TITLE_LINES: usize = 6;
/// From the left edge.
const LEFT: f64 = 30.0;
/// About how wide a letter of the legend is.
const LETTER: f64 = 6.4;
const LONGEST_NAME: usize = 40;
/// Of a thread that changes color, at most this many colors are shown.
const MOST_COLORS: usize = 8;

/// What is on a chart that its legend explains.
pub(super) struct ChartSigns {
    /// How its knots are drawn.
    pub(super) forms: BTreeSet<Form>,
    /// Whether a strand is joined in it.
    pub(super) has_joins: bool,
    /// Whether an end is drawn shorter than it is.
    pub(super) shortens_ends: bool,
}

/// The legend of a chart of that width; and how high it is.
pub(super) fn draw_legend(
    script: &TyingScript,
    signs: &ChartSigns,
    words: &ChartWords,
    width: f64,
) -> (Vec<ChartMark>, f64) {
    let mut legend = Legend { marks: Vec::new(), x: LEFT, y: 40.0 - TITLE_LINE, width };
    for text in wrap_text(&script.title, width - LEFT, TITLE * 0.6).into_iter().take(MOST_TITLE_LINES) {
        legend.marks.push(ChartMark::Text {
            at: [LEFT - 12.0, legend.y + TITLE_LINE - 12.0],
            text,
            size: TITLE,
            bold: true,
        });
        legend.y += TITLE_LINE;
    }
    let colors = list_colors(&script.threads);
    for (number, thread) in script.threads.iter().enumerate() {
        let number = number.to_u16();
        let own = (0..).zip(&colors).filter(|(_, (of, _))| *of == number).map(|(color, _)| color);
        legend.thread(number, thread, &own.collect::<Vec<u16>>());
    }
    legend.y += LINE + 4.0;
    let counts = script.bead_counts();
    for ((number, bead), _) in (1..).zip(&script.beads).zip(counts).filter(|(_, count)| *count > 0) {
        legend.bead(number, bead);
    }
    let forms = &signs.forms;
    for form in forms {
        legend.marks.push(ChartMark::Sample { at: [LEFT, legend.y + LINE / 2.0], form: *form });
        legend.line(explain_form(*form, words), ACROSS + 6.0);
    }
    if signs.has_joins {
        legend.marks.push(ChartMark::Join { at: [LEFT, legend.y + LINE / 2.0] });
        legend.line(&words.joined, ACROSS + 6.0);
    }
    let is_tied = forms.iter().any(|form| *form != Form::Wished);
    let has_bricks =
        forms.iter().any(|form| !matches!(form, Form::LeaderShows | Form::StrandShows | Form::Wished));
    let notes = [Some(&words.ribbon), has_bricks.then_some(&words.order), Some(&words.side)];
    let notes = notes.into_iter().flatten().filter(|_| is_tied);
    legend.y += 6.0;
    for note in notes.chain(signs.shortens_ends.then_some(&words.ends)) {
        legend.y -= 14.0;
        legend.line(note, -12.0);
    }
    (legend.marks, legend.y + 14.0)
}

struct Legend {
    marks: Vec<ChartMark>,
    x: f64,
    y: f64,
    width: f64,
}

impl Legend {
    /// A thread with all its colors next to the one before, if there is room.
    fn thread(&mut self, number: u16, thread: &BandThread, colors: &[u16]) {
        let colors = &colors[..colors.len().min(MOST_COLORS)];
        let letters = thread.name.chars().count().min(LONGEST_NAME).to_f64();
        let beside = colors.len().saturating_sub(1).to_f64() * ACROSS;
        let wide = ACROSS + beside + letters * LETTER + 18.0;
        if self.x > LEFT && self.x + wide > self.width - 8.0 {
            self.x = LEFT;
            self.y += LINE;
        }
        let middle = self.y + LINE / 2.0;
        for (place, color) in colors.iter().enumerate() {
            let at = [self.x + place.to_f64() * ACROSS, middle];
            self.marks.push(ChartMark::Hanging { at, thread: *color });
        }
        self.marks.push(ChartMark::Name { at: [self.x + beside + 16.0, middle + 2.0], thread: number });
        self.x += wide;
    }

    /// A bead, on a line of its own.
    fn bead(&mut self, number: u32, bead: &BandBead) {
        let at = [LEFT, self.y + LINE / 2.0];
        self.marks.push(ChartMark::bead(at, BEAD, number, bead.color));
        let size = (bead.across * 10.0).round() / 10.0;
        self.line(&format!("{}, {size} mm", shorten_name(&bead.name)), 16.0);
    }

    /// A line of text, so far beside where samples are.
    fn line(&mut self, text: &str, beside: f64) {
        let at = [LEFT + beside, self.y + LINE / 2.0 + 4.0];
        self.marks.push(ChartMark::Text { at, text: text.to_owned(), size: LEGEND, bold: false });
        self.y += LINE;
    }
}

/// A name that has room.
pub(super) fn shorten_name(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    name.chars().take(LONGEST_NAME - 1).chain(['…']).collect()
}

pub(super) fn explain_form(form: Form, words: &ChartWords) -> &str {
    match form {
        Form::Forward => &words.forward,
        Form::Backward => &words.backward,
        Form::ForwardBackward => &words.forward_backward,
        Form::BackwardForward => &words.backward_forward,
        Form::LeaderShows => &words.leader_shows,
        Form::StrandShows => &words.strand_shows,
        Form::Wished => &words.wished,
    }
}
