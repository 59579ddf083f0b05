//! How far apart two colors look.

use palette::color_difference::Ciede2000;
use palette::white_point::D65;
use palette::{IntoColor, Lab, LinSrgb};

use crate::{Eyes, Rgb};
use std::cell::RefCell;
use std::collections::HashMap;

/// Two threads nearer than this (CIEDE2000) look alike in a band.
///
/// Our own choice, no source. Smooth patches side by side can be distinguished from about 1 on; but thread is round
/// and shaded, a knot is two millimetres wide, and the hand that ties must name the strand by lamplight.
pub const LOOK_ALIKE_BELOW: f64 = 8.0;

/// Two colors that are hard to tell apart, and for whom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LookAlike {
    /// The eyes that have trouble: ordinary ones if they do, else those that have the most.
    pub eyes: Eyes,
    /// How far apart the two look to these eyes (CIEDE2000), below [`LOOK_ALIKE_BELOW`].
    pub distance: f64,
    /// How far apart they look to each of [`Eyes::ALL`], in that order.
    pub to_all: [f64; 4],
}

/// How far apart two colors look to ordinary eyes: CIEDE2000 (CIE 142-2001) with weights of 1 under D65.
pub fn color_distance(a: Rgb, b: Rgb) -> f64 {
    lab(a).difference(lab(b))
}

/// CIEDE2000 between two colors of CIE L\*a\*b\* under D65.
pub fn lab_distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    Lab::<D65, f64>::from(a).difference(Lab::from(b))
}

/// A color as each of [`Eyes::ALL`] sees it. Seeing costs more than comparing: whoever compares many sees each once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen([Lab<D65, f64>; 4]);

/// How many colors are remembered before all are forgotten.
const MOST_REMEMBERED: usize = 1000;

thread_local! {
    /// Colors that were seen. Patterns of one house share their colors, and seeing one takes longer than all else that is
    /// asked of it.
    static SEEN: RefCell<HashMap<Rgb, Seen>> = RefCell::default();
}

impl Seen {
    /// The color as all eyes see it.
    pub fn by_all(color: Rgb) -> Self {
        SEEN.with_borrow_mut(|seen| {
            if seen.len() >= MOST_REMEMBERED {
                seen.clear();
            }
            *seen.entry(color).or_insert_with(|| Self(Eyes::ALL.map(|eyes| lab(eyes.see(color)))))
        })
    }

    /// Whether lightness alone keeps the two apart for all eyes, which is quicker to see than the whole distance.
    ///
    /// The weight of lightness S_L in CIEDE2000 is 1.747 at most, at L* = 0 and 100, and what else adds to the distance is
    /// never negative, as |R_T| is 2 at most: so the distance is at least the difference of L* / 1.75.
    fn is_plainly_apart(&self, other: &Self) -> bool {
        self.0.iter().zip(&other.0).all(|(a, b)| (a.l - b.l).abs() > 1.75 * LOOK_ALIKE_BELOW)
    }

    /// How far apart the two look to each of [`Eyes::ALL`] (CIEDE2000).
    fn distances(&self, other: &Self) -> [f64; 4] {
        std::array::from_fn(|eyes| self.0[eyes].difference(other.0[eyes]))
    }
}

/// Whether two colors are hard to tell apart, to ordinary eyes or to others.
pub fn look_alike(a: &Seen, b: &Seen) -> Option<LookAlike> {
    if a.is_plainly_apart(b) {
        return None;
    }
    let to_all = a.distances(b);
    let [ordinary, ..] = to_all;
    let hardest = Eyes::ALL.into_iter().zip(to_all).min_by(|x, y| x.1.total_cmp(&y.1))?;
    let (eyes, distance) = if ordinary < LOOK_ALIKE_BELOW { (Eyes::Ordinary, ordinary) } else { hardest };
    (distance < LOOK_ALIKE_BELOW).then_some(LookAlike { eyes, distance, to_all })
}

fn lab(color: Rgb) -> Lab<D65, f64> {
    let [red, green, blue] = color.linear();
    LinSrgb::new(red, green, blue).into_color()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn color(name: &str) -> Rgb {
        name.parse().unwrap()
    }

    /// CSS colors, computed with PyPI `colour-science` 0.4.7: sRGB_to_XYZ, XYZ_to_Lab, delta_E "CIE 2000", before
    /// and after the matrices of Machado et al.
    #[test]
    fn distances_agree_with_a_reference_library() {
        let cases = [
            ("firebrick", "forestgreen", [67.0, 22.3, 5.4, 61.5]),
            ("seagreen", "teal", [18.1, 21.1, 23.3, 3.2]),
            ("olive", "chocolate", [32.1, 1.5, 6.7, 23.3]),
            ("navy", "black", [29.7, 28.8, 28.7, 18.2]),
        ];
        for (a, b, expected) in cases {
            for (eyes, expected) in Eyes::ALL.into_iter().zip(expected) {
                let found = color_distance(eyes.see(color(a)), eyes.see(color(b)));
                assert!((found - expected).abs() < 0.06, "{a} {b} {eyes:?}: {found}, not {expected}");
            }
        }
    }

    #[test]
    fn names_whose_eyes_have_trouble() {
        let eyes =
            |a, b| look_alike(&Seen::by_all(color(a)), &Seen::by_all(color(b))).map(|found| found.eyes);
        assert_eq!(eyes("white", "ivory"), Some(Eyes::Ordinary));
        assert_eq!(eyes("firebrick", "forestgreen"), Some(Eyes::Deutan));
        assert_eq!(eyes("olive", "chocolate"), Some(Eyes::Protan));
        assert_eq!(eyes("seagreen", "teal"), Some(Eyes::Tritan));
        assert_eq!(eyes("navy", "black"), None);
        assert_eq!(eyes("teal", "teal"), Some(Eyes::Ordinary));
    }

    #[test]
    fn the_order_of_two_colors_does_not_matter() {
        let (a, b) = (color("coral"), color("tomato"));
        let (a, b) = (Seen::by_all(a), Seen::by_all(b));
        assert_eq!(look_alike(&a, &b), look_alike(&b, &a));
    }

    /// The short way never hides a pair: every pair of CSS colors that it leaves out is apart to all eyes.
    #[test]
    fn what_lightness_keeps_apart_is_apart() {
        let seen: Vec<Seen> =
            crate::color_names().into_iter().map(|name| Seen::by_all(color(name))).collect();
        for (at, a) in seen.iter().enumerate() {
            for b in &seen[..at] {
                assert!(
                    !a.is_plainly_apart(b) || a.distances(b).iter().all(|apart| *apart > LOOK_ALIKE_BELOW)
                );
            }
        }
    }
}
