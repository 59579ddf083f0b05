//! What is made of the strands before the first knot and after the last.

use super::Writer;
use super::knots::{SHADOW, rim_color};
use crate::scene::EndCord;

impl Writer<'_> {
    /// Line by line: what lies over something else comes after it.
    pub(super) fn ends(&mut self) {
        let scene = self.scene;
        for cords in scene.ends.iter().filter(|cords| !cords.is_empty()) {
            self.xml.put("<g fill=\"none\" stroke-linejoin=\"round\">\n");
            self.ends_shadow(cords);
            cords.iter().for_each(|cord| self.end_cord(cord));
            self.xml.put("</g>\n");
        }
    }

    fn ends_shadow(&mut self, cords: &[EndCord]) {
        self.xml.add(format_args!("<path stroke=\"{SHADOW}\" stroke-opacity=\".3\""));
        self.xml.numbers(&[("stroke-width", self.scene.thickness * 1.3)]);
        self.xml.put(" d=\"");
        cords.iter().for_each(|cord| self.xml.path(&cord.path));
        self.xml.put("\"/>\n");
    }

    /// A rim, the thread, and light on it; a turn casts a shadow on what it goes around.
    fn end_cord(&mut self, cord: &EndCord) {
        let (color, thickness) = (self.scene.color(cord.thread), self.scene.thickness);
        if cord.is_turn {
            self.end_line(cord, &format!("{SHADOW}\" stroke-opacity=\".22"), thickness * 1.3);
        }
        self.end_line(cord, &rim_color(color).to_string(), thickness * 0.98);
        self.end_line(cord, &color.to_string(), thickness * 0.82);
        self.end_line(cord, "#fff\" stroke-opacity=\".24", thickness * 0.2);
    }

    fn end_line(&mut self, cord: &EndCord, stroke: &str, width: f64) {
        self.xml.add(format_args!("<path stroke=\"{stroke}\""));
        self.xml.numbers(&[("stroke-width", width)]);
        if cord.is_turn {
            self.xml.put(" stroke-linecap=\"round\"");
        }
        self.xml.put(" d=\"");
        self.xml.path(&cord.path);
        self.xml.put("\"/>\n");
    }
}
