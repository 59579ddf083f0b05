//! What is under the chart: the threads with their letters, and the forms that are there with their meaning.

use crate::bead::Form;
use crate::path::Point;
use crate::xml::Xml;

use super::{Chart, ChartWords, ribbon};

const LINE: f64 = 32.0;
const LONGEST_NAME: usize = 40;

/// How high it is.
pub(super) fn height(chart: &Chart<'_>) -> f64 {
    lines(chart) as f64 * LINE + 14.0
}

fn lines(chart: &Chart<'_>) -> usize {
    let notes = 1 + usize::from(has_bricks(chart)) + usize::from(!chart.grid.led.is_empty());
    chart.band.threads.len() + ribbon::forms(chart).len() + notes
}

fn has_bricks(chart: &Chart<'_>) -> bool {
    chart.knots.iter().any(|knot| knot.leader.is_none())
}

pub(super) fn draw(chart: &Chart<'_>, xml: &mut Xml) {
    let mut lines = Lines { x: chart.grid.size(0.0).x / 2.0 - 170.0, y: chart.grid.bottom() + 40.0 };
    for (index, (thread, letter)) in chart.band.threads.iter().zip(&chart.letters).enumerate() {
        let (fill, ink) = chart.paint(index as u16);
        let at = lines.next(xml, &short(&thread.name));
        xml.begin_at(at);
        ribbon::shape(xml, Form::LeaderShows, &format!(" fill=\"{fill}\""));
        xml.text(Point::new(0.0, 4.0), &letter.to_string(), &format!(" font-weight=\"bold\" fill=\"{ink}\""));
        xml.put("</g>\n");
    }
    for form in ribbon::forms(chart) {
        let at = lines.next(xml, meaning(form, &chart.options.words));
        xml.begin_at(at);
        ribbon::shape(xml, form, " fill=\"#fff\"");
        xml.put("</g>\n");
    }
    if !chart.grid.led.is_empty() {
        let at = lines.next(xml, &chart.options.words.side);
        xml.triangle(at, 7.0);
    }
    lines.next(xml, &chart.options.words.ribbon);
    if has_bricks(chart) {
        lines.next(xml, &chart.options.words.order);
    }
}

struct Lines {
    x: f64,
    y: f64,
}

impl Lines {
    /// Writes a line of text; says where its sign goes.
    fn next(&mut self, xml: &mut Xml, text: &str) -> Point {
        let at = Point::new(self.x, self.y + LINE / 2.0);
        xml.text(at.plus(Point::new(28.0, 4.0), 1.0), text, " text-anchor=\"start\"");
        self.y += LINE;
        at
    }
}

fn short(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    name.chars().take(LONGEST_NAME - 1).chain(['…']).collect()
}

fn meaning(form: Form, words: &ChartWords) -> &str {
    match form {
        Form::Forward => &words.forward,
        Form::Backward => &words.backward,
        Form::ForwardBackward => &words.forward_backward,
        Form::BackwardForward => &words.backward_forward,
        Form::LeaderShows => &words.leader_shows,
        Form::StrandShows => &words.strand_shows,
    }
}
