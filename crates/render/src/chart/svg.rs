//! The chart as SVG.

use std::collections::BTreeSet;

use knotwright_color::Rgb;

use crate::bead::Form;
use crate::letters::of_threads;
use crate::path::Point;
use crate::xml::Xml;
use crate::{TyingScript, list_colors};

use super::grid::BESIDE;
use super::legend::{LEGEND, shorten_name};
use super::mark::ChartMark;
use super::pages::PageWindow;
use super::shapes::{ChartShape, hanging_end, knot_shape, tag_shape};
use super::{ChartOptions, WorkingChart};

pub(super) struct ChartWriter<'a> {
    chart: &'a WorkingChart,
    script: &'a TyingScript,
    options: &'a ChartOptions,
    letters: Vec<char>,
    /// Of each color, its thread and what it looks like.
    colors: Vec<(u16, Rgb)>,
    paper: PaperColors,
    xml: Xml,
}

/// The colors of the chart itself.
struct PaperColors {
    ground: Rgb,
    ink: Rgb,
    soft: Rgb,
    /// Of small numbers, which are to be read on paper, too.
    small: Rgb,
    stripe: Rgb,
}

impl PaperColors {
    fn of(ground: Rgb) -> Self {
        let ink = ground.ink();
        // Light is mixed: a little of it is seen on a dark ground, much must be taken from a light one.
        let share = if ink == Rgb::BLACK { 0.13 } else { 0.02 };
        // Mixed by that share, black on white still has a contrast of more than 4.5 (WCAG 2, 1.4.3).
        let small = ink.toward(ground, 0.14);
        Self { ground, ink, soft: ink.toward(ground, 0.42), small, stripe: ground.toward(ink, share) }
    }
}

impl<'a> ChartWriter<'a> {
    pub(super) fn write(
        chart: &'a WorkingChart,
        script: &'a TyingScript,
        options: &'a ChartOptions,
        window: PageWindow,
    ) -> String {
        let mut writer = Self::new(chart, script, options);
        writer.open(window);
        writer.all();
        writer.close(window)
    }

    /// Another part of a chart whose shapes are in the same page.
    pub(super) fn again(
        chart: &'a WorkingChart,
        script: &'a TyingScript,
        options: &'a ChartOptions,
        window: PageWindow,
    ) -> String {
        let mut writer = Self::new(chart, script, options);
        writer.open(window);
        writer.xml.reference("all", Point::default(), "");
        writer.close(window)
    }

    fn new(chart: &'a WorkingChart, script: &'a TyingScript, options: &'a ChartOptions) -> Self {
        let paper = PaperColors::of(options.ground);
        let letters = of_threads(&script.threads);
        let colors = list_colors(&script.threads);
        Self { chart, script, options, letters, colors, paper, xml: Xml::new(&options.prefix) }
    }

    fn open(&mut self, window: PageWindow) {
        self.xml.open_part(window.corner, window.size, &self.script.title);
    }

    fn close(mut self, window: PageWindow) -> String {
        if window.is_cut {
            self.margin(window);
        }
        self.xml.put("</svg>\n");
        self.xml.finish()
    }

    /// The numbers of the rows at the left of a page whose tags are on another.
    fn margin(&mut self, window: PageWindow) {
        let corner = window.corner;
        if window.begins_within() {
            let fill = format!(" fill=\"{}\"", self.paper.ground);
            self.rectangle(&[corner.x, corner.y, BESIDE - 3.0, window.size.y], &fill);
        }
        let attributes = format!(
            " text-anchor=\"end\" font-family=\"sans-serif\" font-size=\"11\" fill=\"{}\"",
            self.paper.small
        );
        for mark in &self.chart.marks {
            let ChartMark::Number { at: [_, y], number, rightward } = mark else { continue };
            let is_here = (corner.y..corner.y + window.size.y).contains(y);
            if is_here && (window.begins_within() || !rightward) {
                let at = Point::new(corner.x + BESIDE - 10.0, y + 3.8);
                self.xml.text(at, &number.to_string(), &attributes);
            }
        }
    }

    fn all(&mut self) {
        self.xml.begin("g", "all");
        let ink = self.paper.ink;
        self.xml.add(format_args!(" font-family=\"sans-serif\" font-size=\"11\" fill=\"{ink}\">\n"));
        let ground = self.paper.ground;
        let size = self.chart.size;
        self.rectangle(&[0.0, 0.0, size.x, size.y], &format!(" fill=\"{ground}\""));
        let (stripes, marks): (Vec<&ChartMark>, Vec<&ChartMark>) =
            self.chart.marks.iter().partition(|mark| matches!(mark, ChartMark::Stripe { .. }));
        let (beads, marks): (Vec<&ChartMark>, Vec<&ChartMark>) =
            marks.into_iter().partition(|mark| matches!(mark, ChartMark::Bead { .. }));
        stripes.into_iter().for_each(|mark| self.mark(mark));
        self.lines();
        let (joins, marks): (Vec<&ChartMark>, Vec<&ChartMark>) =
            marks.into_iter().partition(|mark| matches!(mark, ChartMark::Join { .. }));
        marks.into_iter().for_each(|mark| self.mark(mark));
        self.ribbons();
        beads.into_iter().for_each(|mark| self.mark(mark));
        joins.into_iter().for_each(|mark| self.mark(mark));
        self.xml.put("</g>\n");
    }

    fn lines(&mut self) {
        let (ink, soft) = (self.paper.ink, self.paper.soft);
        self.xml.put("<g fill=\"none\" stroke-linejoin=\"round\">\n");
        for cord in self.chart.blocks.iter().flat_map(|block| &block.cords) {
            let d = cord.path.svg();
            if self.options.color {
                let (color, _) = self.paint(cord.thread);
                self.xml.add(format_args!("<path d=\"{d}\" stroke=\"{soft}\" stroke-width=\"3.6\"/>"));
                self.xml.add(format_args!("<path d=\"{d}\" stroke=\"{color}\" stroke-width=\"2.2\"/>\n"));
            } else {
                self.xml.add(format_args!("<path d=\"{d}\" stroke=\"{ink}\" stroke-width=\"1.3\"/>\n"));
            }
        }
        self.ends();
        self.xml.put("</g>\n");
    }

    /// What is made at the ends: each strand with a rim, so that one sees which lies over which.
    fn ends(&mut self) {
        let (chart, ink, wide) = (self.chart, self.paper.ink, self.chart.thickness);
        for cord in &chart.ends {
            let d = cord.path.svg();
            let cap = if cord.is_turn { " stroke-linecap=\"round\"" } else { "" };
            let (inner, _) = self.paint(cord.thread);
            self.xml.add(format_args!("<path d=\"{d}\" stroke=\"{ink}\" stroke-width=\"{wide}\"{cap}/>"));
            let narrow = wide - 2.2;
            self.xml.add(format_args!(
                "<path d=\"{d}\" stroke=\"{inner}\" stroke-width=\"{narrow:.1}\"{cap}/>\n"
            ));
        }
    }

    fn mark(&mut self, mark: &ChartMark) {
        match mark {
            ChartMark::Stripe { area } => {
                let fill = format!(" fill=\"{}\"", self.paper.stripe);
                self.rectangle(area, &fill);
            }
            ChartMark::Text { at, text, size, bold } => self.text(*at, text, *size, *bold),
            ChartMark::Position { at, number } => {
                let attributes =
                    format!(" text-anchor=\"middle\" font-size=\"9.6\" fill=\"{}\"", self.paper.small);
                self.xml.text(point(*at), &number.to_string(), &attributes);
            }
            ChartMark::Label { area, text } => self.label(area, text),
            ChartMark::Number { at, number, rightward } => self.number(*at, *number, *rightward),
            ChartMark::Hanging { at, thread } => {
                self.xml.begin_at(point(*at));
                self.of_thread(&hanging_end(), *thread);
                self.xml.put("</g>\n");
            }
            ChartMark::Name { at, thread } => {
                let name = shorten_name(self.script.name(*thread));
                self.text(*at, &name, LEGEND, false);
            }
            ChartMark::Bead { at, radius, number, color, .. } => self.bead(*at, *radius, *number, color),
            ChartMark::Join { at } => self.join(*at),
            ChartMark::Sample { at, form } => {
                let ground = self.paper.ground;
                self.xml.begin_at(point(*at));
                self.outline(&knot_shape(*form), ground);
                self.xml.put("</g>\n");
            }
        }
    }

    /// A ring with the number of the bead.
    fn bead(&mut self, at: [f64; 2], radius: f64, number: u32, color: &str) {
        let color = color.parse().ok().filter(|_| self.options.color);
        let (fill, ink) = color.map_or((self.paper.ground, self.paper.ink), |fill: Rgb| (fill, fill.ink()));
        self.xml.put("<circle");
        self.xml.numbers(&[("cx", at[0]), ("cy", at[1]), ("r", radius)]);
        self.xml.add(format_args!(" fill=\"{fill}\" stroke=\"{}\" stroke-width=\"1.8\"/>", self.paper.ink));
        let attributes = format!(" text-anchor=\"middle\" font-weight=\"bold\" fill=\"{ink}\"");
        self.xml.text(point(at).plus(Point::new(0.0, 4.0), 1.0), &number.to_string(), &attributes);
    }

    /// A light dot with a dark stroke through it.
    fn join(&mut self, [x, y]: [f64; 2]) {
        let (ink, ground) = (self.paper.ink, self.paper.ground);
        self.xml.add(format_args!(
            "<g stroke=\"{ink}\" stroke-width=\"1.4\"><circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4.6\" fill=\"{ground}\"/>\
             <path d=\"M{:.1} {:.1}L{:.1} {:.1}\"/></g>\n",
            x - 3.2,
            y + 3.2,
            x + 3.2,
            y - 3.2
        ));
    }

    fn text(&mut self, at: [f64; 2], text: &str, size: f64, bold: bool) {
        let weight = if bold { " font-weight=\"bold\"" } else { "" };
        self.xml.text(point(at), text, &format!(" font-size=\"{size}\"{weight}"));
    }

    fn label(&mut self, area: &[f64; 4], text: &str) {
        let paint = format!(" rx=\"3\" fill=\"{}\" stroke=\"{}\"", self.paper.ground, self.paper.soft);
        self.rectangle(area, &paint);
        let middle = Point::new(area[0] + area[2] / 2.0, area[1] + area[3] / 2.0 + 4.0);
        self.xml.text(middle, text, " text-anchor=\"middle\" font-style=\"italic\"");
    }

    fn number(&mut self, at: [f64; 2], number: u32, rightward: bool) {
        let shape = tag_shape(rightward);
        self.xml.begin_at(point(at));
        self.xml.add(format_args!("<path d=\"{}\" fill=\"{}\"/>", shape.outline, self.paper.stripe));
        let weight = if number.is_multiple_of(10) { " font-weight=\"bold\"" } else { "" };
        let seat = point(shape.seat).plus(Point::new(0.0, 3.8), 1.0);
        self.xml.text(seat, &number.to_string(), &format!(" text-anchor=\"middle\"{weight}"));
        self.xml.put("</g>\n");
    }

    fn rectangle(&mut self, [x, y, width, height]: &[f64; 4], paint: &str) {
        self.xml.put("<rect");
        self.xml.numbers(&[("x", *x), ("y", *y), ("width", *width), ("height", *height)]);
        self.xml.add(format_args!("{paint}/>\n"));
    }

    /// Defines the ribbons that are there and draws every knot.
    fn ribbons(&mut self) {
        let knots = || self.chart.blocks.iter().flat_map(|block| &block.knots);
        let there: BTreeSet<(Form, u16)> = knots().map(|knot| (knot.form, knot.thread)).collect();
        self.xml.put("<defs>\n");
        for (form, thread) in there {
            self.xml.begin("g", &format!("{}{thread}", form.letter()));
            self.xml.put(">");
            match form {
                Form::Wished => self.wished(thread),
                _ => self.of_thread(&knot_shape(form), thread),
            }
            self.xml.put("</g>\n");
        }
        self.xml.put("</defs>\n<g>\n");
        for knot in knots() {
            self.xml.reference(&format!("{}{}", knot.form.letter(), knot.thread), knot.middle, "");
        }
        self.xml.put("</g>\n");
    }

    /// What nothing ties yet: pale, with a dashed outline, and nothing is seen through it.
    fn wished(&mut self, thread: u16) {
        let (shape, (fill, _)) = (knot_shape(Form::Wished), self.paint(thread));
        let pale = fill.toward(self.paper.ground, 0.5);
        let ink = self.paper.ink;
        self.xml.add(format_args!(
            "<path d=\"{}\" stroke=\"{}\" stroke-width=\"1\" stroke-dasharray=\"3 2\" fill=\"{pale}\"/>",
            shape.outline, self.paper.soft
        ));
        self.letter(&shape, thread, if self.options.color { pale.ink() } else { ink });
    }

    /// A shape in the color of a thread, with its letter.
    fn of_thread(&mut self, shape: &ChartShape, thread: u16) {
        let (fill, ink) = self.paint(thread);
        self.outline(shape, fill);
        self.letter(shape, thread, ink);
    }

    fn letter(&mut self, shape: &ChartShape, number: u16, ink: Rgb) {
        let thread = self.colors.get(usize::from(number)).map_or(u16::MAX, |(thread, _)| *thread);
        let letter = self.letters.get(usize::from(thread)).copied().unwrap_or('?');
        let at = point(shape.seat).plus(Point::new(0.0, 4.0), 1.0);
        let attributes = format!(" text-anchor=\"middle\" font-weight=\"bold\" fill=\"{ink}\"");
        self.xml.text(at, &letter.to_string(), &attributes);
    }

    fn outline(&mut self, shape: &ChartShape, fill: Rgb) {
        let (ink, d) = (self.paper.ink, &shape.outline);
        self.xml.add(format_args!(
            "<path d=\"{d}\" stroke=\"{ink}\" stroke-width=\"1.1\" stroke-linejoin=\"round\" fill=\"{fill}\"/>"
        ));
    }

    /// What is filled with a color, and the ink on it.
    fn paint(&self, number: u16) -> (Rgb, Rgb) {
        let color = self.colors.get(usize::from(number)).map(|(_, color)| *color);
        match color.filter(|_| self.options.color) {
            Some(color) => (color, color.ink()),
            None => (self.paper.ground, self.paper.ink),
        }
    }
}

fn point([x, y]: [f64; 2]) -> Point {
    Point::new(x, y)
}
