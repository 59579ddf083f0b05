//! Rings around some knots, and arrows at the rows they lie in: a light line in a dark one, which is seen on every color.

use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

use crate::path::{Path, Point};

use super::Writer;
use super::knots::SHADOW;

impl Writer<'_> {
    /// Draws the rings and the arrows, if any knot is marked.
    pub(super) fn marks(&mut self) {
        let beads = self.options.marked.iter().filter_map(|number| self.scene.beads.get(*number));
        let places: Vec<Point> = beads.map(|bead| bead.middle).collect();
        if places.is_empty() {
            return;
        }
        self.ring();
        self.xml.put("<g>\n");
        places.iter().for_each(|place| self.xml.reference("ring", *place, ""));
        self.xml.put("</g>\n");
        let rows: BTreeSet<i64> = places.iter().map(|place| (place.y * 100.0).to_i64()).collect();
        rows.into_iter().for_each(|row| self.arrows(row.to_f64() / 100.0));
    }

    /// Where strands go on with a new piece of thread: a light dot with a dark stroke through it.
    pub(super) fn joins(&mut self) {
        if self.scene.joins.is_empty() {
            return;
        }
        let (radius, line) = (self.scene.thickness * 0.36, self.scene.thickness * 0.12);
        self.xml.put("<defs>\n");
        self.xml.begin("g", "join");
        self.xml.add(format_args!(" fill=\"#fff\" stroke=\"{SHADOW}\""));
        self.xml.numbers(&[("stroke-width", line)]);
        self.xml.put("><circle");
        self.xml.numbers(&[("r", radius)]);
        self.xml.put("/><path d=\"");
        let mut stroke = Path::at(Point::new(-radius, radius).scaled(0.7));
        stroke.line(Point::new(radius, -radius).scaled(0.7));
        self.xml.path(&stroke);
        self.xml.put("\"/></g>\n</defs>\n<g>\n");
        for place in self.scene.joins.clone() {
            self.xml.reference("join", place, "");
        }
        self.xml.put("</g>\n");
    }

    fn ring(&mut self) {
        let (thickness, radius) = (self.scene.thickness, self.scene.cell.x * 0.78);
        self.xml.put("<defs>\n");
        self.xml.begin("g", "ring");
        self.xml.put(" fill=\"none\">");
        for (color, width) in [(SHADOW, 0.5), ("#fff", 0.24)] {
            self.xml.add(format_args!("<circle stroke=\"{color}\""));
            self.xml.numbers(&[("r", radius), ("stroke-width", thickness * width)]);
            self.xml.put("/>");
        }
        self.xml.put("</g>\n</defs>\n");
    }

    /// At both sides of a row.
    fn arrows(&mut self, y: f64) {
        let (size, width) = (self.scene.thickness, self.scene.size.x);
        let line = size * 0.16;
        for (base, tip) in [(line, size * 1.3), (width - line, width - size * 1.3)] {
            let mut path = Path::at(Point::new(base, y - size * 0.6));
            path.line(Point::new(tip, y));
            path.line(Point::new(base, y + size * 0.6));
            self.xml.put("<path d=\"");
            self.xml.path(&path);
            self.xml.add(format_args!("Z\" fill=\"#fff\" stroke=\"{SHADOW}\" stroke-linejoin=\"round\""));
            self.xml.numbers(&[("stroke-width", line * 2.0)]);
            self.xml.put("/>\n");
        }
    }
}
