//! Beads on the strands: round, with light from above, and the rims of the hole where the thread goes in and out.

use super::Writer;
use super::knots::{SHADOW, rim_color};
use crate::path::Point;
use crate::threaded::ThreadedBead;
use std::collections::BTreeSet;

/// What a bead is drawn as once, to be used at each place: its number, and its size in hundredths of a millimeter.
type BeadLook = (u16, u64);

impl Writer<'_> {
    /// Over the knots, as beads are thicker than they.
    pub(super) fn threaded(&mut self) {
        if self.scene.threaded.is_empty() {
            return;
        }
        let looks: BTreeSet<BeadLook> = self.scene.threaded.iter().map(look).collect();
        self.xml.put("<defs>\n");
        looks.into_iter().for_each(|look| self.bead_form(look));
        self.xml.put("</defs>\n<g>\n");
        for bead in &self.scene.threaded {
            let step = match self.options.steps && bead.part != u32::MAX {
                true => format!(" data-step=\"{}.{}\"", bead.part, bead.step),
                false => String::new(),
            };
            self.xml.reference(&name(look(bead)), bead.middle, &step);
        }
        self.xml.put("</g>\n");
    }

    fn bead_form(&mut self, of: BeadLook) {
        let radius = crate::threaded::from_hundredths(of.1) / 2.0;
        let color = self.scene.bead_color(of.0);
        self.xml.begin("g", &name(of));
        self.xml.put(">");
        let fall = Point::new(radius * 0.08, radius * 0.14);
        self.disk(fall, radius * 1.04, &format!("fill=\"{SHADOW}\" fill-opacity=\".28\""));
        self.disk(Point::default(), radius, &format!("fill=\"{}\"", rim_color(color)));
        self.disk(Point::default(), radius * 0.94, &format!("fill=\"{color}\""));
        self.disk(Point::new(0.0, radius * 0.3), radius * 0.62, "fill=\"#000\" fill-opacity=\".07\"");
        self.disk(
            Point::new(-radius * 0.16, -radius * 0.22),
            radius * 0.66,
            "fill=\"#fff\" fill-opacity=\".16\"",
        );
        self.disk(
            Point::new(-radius * 0.3, -radius * 0.38),
            radius * 0.24,
            "fill=\"#fff\" fill-opacity=\".7\"",
        );
        self.xml.put("</g>\n");
    }

    fn disk(&mut self, middle: Point, radius: f64, paint: &str) {
        self.xml.put("<circle");
        self.xml.numbers(&[("cx", middle.x), ("cy", middle.y), ("r", radius)]);
        self.xml.add(format_args!(" {paint}/>"));
    }
}

fn look(bead: &ThreadedBead) -> BeadLook {
    (bead.bead, crate::threaded::in_hundredths(bead.radius * 2.0))
}

fn name((bead, size): BeadLook) -> String {
    format!("bead{bead}-{size}")
}
