//! Colors that change along a line: light on thread, and ends that fade.

use crate::path::Point;

use super::Writer;

/// A place along the line in millionths, a color, an opacity in hundredths.
pub(super) type Stop<'a> = (u32, &'a str, u32);

impl Writer<'_> {
    /// Defines a gradient from one point to another.
    pub(super) fn gradient(&mut self, name: &str, from: Point, to: Point, stops: &[Stop<'_>]) {
        let xml = &mut self.xml;
        xml.begin("linearGradient", name);
        xml.put(" gradientUnits=\"userSpaceOnUse\"");
        xml.numbers(&[("x1", from.x), ("y1", from.y), ("x2", to.x), ("y2", to.y)]);
        xml.put(">");
        for &(place, color, opacity) in stops {
            let opacity = f64::from(opacity.min(100)) / 100.0;
            let place = f64::from(place) / 1e6;
            xml.add(format_args!("<stop offset=\"{place}\" stop-color=\"{color}\""));
            if opacity < 1.0 {
                xml.add(format_args!(" stop-opacity=\"{opacity}\""));
            }
            xml.put("/>");
        }
        xml.put("</linearGradient>\n");
    }
}
