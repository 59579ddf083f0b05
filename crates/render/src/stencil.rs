//! One knot by itself, for those who paint many knots on their own.

use crate::bead::{Form, measure_reach};
use crate::path::Point;
use crate::scene::Scene;
use crate::svg::{one_knot, rim_of};
use knotwright_color::Rgb;

/// A color that stands for the thread's in a stencil until it is replaced.
const STAND_IN: Rgb = Rgb::new(0x3e, 0x01, 0xc7);

/// The picture of one knot, its colors left open.
#[derive(Debug, Clone, PartialEq)]
pub struct Stencil {
    /// What the knot looks like.
    pub form: Form,
    /// An SVG document; `{color}` and `{rim}` stand where the thread's color and that of its rim belong.
    pub svg: String,
    /// Half of its width and height; the knot's middle is its middle.
    pub half: Point,
}

/// A stencil of every form, for cells of that size and strands of that thickness.
pub fn cut_stencils(cell: Point, thickness: f64) -> Vec<Stencil> {
    let half = measure_reach(cell);
    let scene = Scene { colors: vec![STAND_IN], cell, thickness, ..Scene::default() };
    let stencil = |form: Form| {
        let svg = one_knot(&scene, form, 0, half);
        let svg = svg.replace(&STAND_IN.to_string(), "{color}");
        Stencil { form, svg: svg.replace(&rim_of(STAND_IN).to_string(), "{rim}"), half }
    };
    Form::ALL.into_iter().map(stencil).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stencil_leaves_both_colors_open_and_nothing_else() {
        for stencil in cut_stencils(Point { x: 11.5, y: 15.3 }, 7.65) {
            assert_eq!(stencil.svg.matches("{color}").count(), 1, "{:?}", stencil.form);
            assert_eq!(stencil.svg.matches("{rim}").count(), 1, "{:?}", stencil.form);
            assert_eq!(stencil.svg.matches('{').count(), 2, "{:?}", stencil.form);
        }
    }
}
