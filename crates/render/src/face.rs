//! What is to be seen, without strands: a brick of its color for each knot. Knots that no strand can show are hatched.

use crate::path::Point;
use crate::xml::Xml;
use knotwright_color::Rgb;

/// Half a brick's width, and its height, in pixels.
const SIZE: Point = Point { x: 7.0, y: 10.0 };

/// Around a brick.
const RIM: &str = "#808080";

/// A face as it is drawn.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FacePicture {
    /// What the picture is called, for those who hear it; may be empty.
    pub title: String,
    /// How many strands the band has.
    pub strands: u8,
    /// How many rows the face has.
    pub rows: u32,
    /// Its knots.
    pub bricks: Vec<FaceBrick>,
}

/// A knot of a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FaceBrick {
    /// Its row, from 0.
    pub row: u32,
    /// Its gap, from 0.
    pub gap: u8,
    /// What is to be seen; `None` is whatever color, an outline.
    pub color: Option<Rgb>,
    /// Whether no strand can show it.
    pub is_hatched: bool,
}

/// Writes a face as one SVG document.
pub fn draw_face(face: &FacePicture) -> String {
    let mut xml = Xml::new("");
    let size = Point::new((f64::from(face.strands) + 1.0) * SIZE.x, f64::from(face.rows) * SIZE.y);
    // A rim is half outside its brick.
    xml.open_part(Point::new(-0.5, -0.5), size.plus(Point::new(1.0, 1.0), 1.0), &face.title);
    if face.bricks.iter().any(|brick| brick.is_hatched) {
        xml.put(HATCH);
    }
    for brick in &face.bricks {
        let fill = brick.color.map_or_else(|| "none".to_owned(), |color| color.to_string());
        put_brick(&mut xml, brick, &format!("fill=\"{fill}\" stroke=\"{RIM}\" stroke-width=\"0.5\""));
    }
    // Over all others, so that no neighbor hides its rim.
    for brick in face.bricks.iter().filter(|brick| brick.is_hatched) {
        put_brick(&mut xml, brick, "fill=\"url(#hatch)\" stroke=\"#c00\" stroke-width=\"1.2\"");
    }
    xml.put("</svg>\n");
    xml.finish()
}

/// Dark lines between light ones: one of the two stands out from any color.
const HATCH: &str = "<defs><pattern id=\"hatch\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\" \
                     patternTransform=\"rotate(45)\"><rect width=\"1.6\" height=\"4\" fill=\"#140c1c\"/>\
                     <rect x=\"1.6\" width=\"1\" height=\"4\" fill=\"#fff\"/></pattern></defs>\n";

fn put_brick(xml: &mut Xml, brick: &FaceBrick, paint: &str) {
    xml.put("<rect");
    let (x, y) = (f64::from(brick.gap) * SIZE.x, f64::from(brick.row) * SIZE.y);
    xml.numbers(&[("x", x), ("y", y), ("width", 2.0 * SIZE.x), ("height", SIZE.y), ("rx", 3.0)]);
    xml.add(format_args!(" {paint}/>"));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_face_that_cannot_be_tied_is_hatched() {
        let brick = |gap: u8, is_hatched: bool| FaceBrick {
            row: 0,
            gap,
            color: Some(Rgb::new(31, 93, 80)),
            is_hatched,
        };
        let face = |is_hatched: bool| FacePicture {
            title: "<tide>".into(),
            strands: 4,
            rows: 1,
            bricks: vec![brick(0, false), brick(2, is_hatched)],
        };
        let (plain, hatched) = (draw_face(&face(false)), draw_face(&face(true)));
        assert_eq!((plain.matches("<rect").count(), plain.matches("hatch").count()), (2, 0));
        assert_eq!(hatched.matches("fill=\"url(#hatch)\"").count(), 1);
        assert!(hatched.contains("<title>&lt;tide&gt;</title>"), "{hatched}");
    }
}
