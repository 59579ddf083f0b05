//! The knots: every form once, every form in a thread's color once, and then only where.

use std::collections::BTreeSet;

use knotwright_color::Rgb;

use crate::bead::{self, Form};
use crate::path::{Path, Point};
use crate::wrap::Wrap;

use super::Writer;
use super::gradient::Stop;

/// A warm dark, softer than black on every color.
pub(super) const SHADOW: &str = "#140c1c";

/// Light on a round thread, from its upper rim to its lower.
const ACROSS: [Stop<'_>; 6] = [
    (0, "#000", 25),
    (120_000, "#fff", 5),
    (340_000, "#fff", 42),
    (600_000, "#fff", 0),
    (750_000, "#000", 8),
    (1_000_000, "#000", 50),
];

/// Darker towards the ends, where it bends away.
const ALONG: [Stop<'_>; 4] =
    [(0, "#000", 40), (280_000, "#000", 0), (720_000, "#000", 0), (1_000_000, "#000", 40)];

/// The color of a thread's rim.
pub fn rim_color(color: Rgb) -> Rgb {
    color.toward(Rgb::BLACK, 0.72)
}

impl Writer<'_> {
    /// Defines the forms that are there and draws every knot.
    pub(super) fn knots(&mut self) {
        self.xml.put("<defs>\n");
        self.forms();
        self.xml.put("</defs>\n<g>\n");
        for bead in &self.scene.beads {
            let name = format!("{}{}", bead.form.letter(), bead.thread);
            if self.options.steps {
                let step = format!(" data-step=\"{}.{}\"", bead.part, bead.step);
                self.xml.reference(&name, bead.middle, &step);
            } else {
                self.xml.reference(&name, bead.middle, "");
            }
        }
        self.xml.put("</g>\n");
    }

    fn forms(&mut self) {
        let scene = self.scene;
        let there: BTreeSet<(Form, u16)> = scene.beads.iter().map(|bead| (bead.form, bead.thread)).collect();
        let mut before = None;
        for (form, thread) in there {
            if before != Some(form) {
                self.form(form);
                before = Some(form);
            }
            self.colored(form, thread);
        }
    }

    /// A form in whatever color it is used.
    pub(super) fn form(&mut self, form: Form) {
        let name = form.letter().to_string();
        match form {
            Form::Wished => self.lozenge(&name),
            _ => self.symbol(&name, &bead::place_wraps(form, self.scene.cell)),
        }
    }

    /// Pale, with a dashed rim, and nothing is seen through it.
    fn lozenge(&mut self, name: &str) {
        let cell = self.scene.cell;
        let outline = [bead::place_lozenge(cell)];
        self.xml.begin("g", name);
        self.xml.put(">");
        self.paths(&outline, "fill=\"#fff\"", 0.0);
        self.paths(&outline, "fill-opacity=\".5\"", 0.0);
        let dash = format!("{:.2} {:.2}", cell.x * 0.16, cell.x * 0.1);
        let rim = format!(
            "fill=\"none\" stroke=\"currentColor\" stroke-opacity=\".7\" stroke-dasharray=\"{dash}\""
        );
        self.paths(&outline, &rim, cell.x * 0.06);
        self.xml.put("</g>\n");
    }

    fn colored(&mut self, form: Form, thread: u16) {
        let (color, letter) = (self.scene.color(thread), form.letter());
        self.xml.begin("g", &format!("{letter}{thread}"));
        self.xml.add(format_args!(" fill=\"{color}\" color=\"{}\">", rim_color(color)));
        self.xml.reference(&letter.to_string(), Point::default(), "");
        self.xml.put("</g>\n");
    }

    /// Wraps of one thread, in whatever color they are used.
    pub(super) fn symbol(&mut self, name: &str, wraps: &[Wrap]) {
        for (index, wrap) in wraps.iter().enumerate() {
            let ends = |half: Point| (wrap.middle.plus(half, -1.0), wrap.middle.plus(half, 1.0));
            let (upper, lower) = ends(wrap.across);
            self.gradient(&format!("{name}-{index}a"), upper, lower, &ACROSS);
            let (left, right) = ends(wrap.along);
            self.gradient(&format!("{name}-{index}b"), left, right, &ALONG);
        }
        self.xml.begin("g", name);
        self.xml.put(">");
        self.around(wraps);
        for (index, wrap) in wraps.iter().enumerate() {
            self.wrap(&format!("{name}-{index}"), wrap);
        }
        self.xml.put("</g>\n");
    }

    /// The shadow and the rim of the whole, under all of its wraps, so that it stands apart from its neighbors.
    fn around(&mut self, wraps: &[Wrap]) {
        let thickness = self.scene.thickness;
        let fall = Point::new(thickness * 0.04, thickness * 0.08);
        let lines = |by: Point| wraps.iter().map(|wrap| wrap.outline(by)).collect::<Vec<_>>();
        self.paths(
            &lines(fall),
            &format!("fill=\"none\" stroke=\"{SHADOW}\" stroke-opacity=\".2\""),
            thickness * 0.3,
        );
        self.paths(&lines(Point::default()), "fill=\"none\" stroke=\"currentColor\"", thickness * 0.12);
    }

    fn wrap(&mut self, name: &str, wrap: &Wrap) {
        let (thickness, prefix) = (self.scene.thickness, self.xml.prefix().to_owned());
        let outline = [wrap.outline(Point::default())];
        self.paths(&outline, "", 0.0);
        self.paths(&outline, &format!("fill=\"url(#{prefix}{name}a)\""), 0.0);
        self.paths(&outline, &format!("fill=\"url(#{prefix}{name}b)\""), 0.0);
        let plies = wrap.plies(thickness * 0.46);
        self.paths(&plies, "fill=\"none\" stroke=\"#000\" stroke-opacity=\".13\"", thickness * 0.06);
    }

    /// Lines as one path, with a stroke of that width if it is not 0.
    fn paths(&mut self, lines: &[Path], paint: &str, stroke: f64) {
        self.xml.put("<path d=\"");
        lines.iter().for_each(|line| self.xml.path(line));
        self.xml.put("\"");
        if !paint.is_empty() {
            self.xml.add(format_args!(" {paint}"));
        }
        if stroke > 0.0 {
            self.xml.numbers(&[("stroke-width", stroke)]);
        }
        self.xml.put("/>");
    }
}
