//! Many colors brought to a few.

use crate::Rgb;
use palette::{IntoColor, Oklab};
use std::collections::BTreeMap;

/// After this many rounds the centers hardly move any more.
const MOST_ROUNDS: usize = 64;

/// At most `most` colors that stand for all of the samples, those that stand for more of them first; `most` is at least 1.
///
/// If the samples have no more colors than that, it is those. Otherwise k-means in Oklab, a space in which distances are as
/// far as they look (B. Ottosson, A perceptual color space for image processing, 2020). It begins with the most frequent
/// color and then, each time, with the one that is worst stood for; so the same samples have the same answer.
pub fn gather_colors(samples: &[Rgb], most: usize) -> Vec<Rgb> {
    let mut counts: BTreeMap<Rgb, f64> = BTreeMap::new();
    samples.iter().for_each(|color| *counts.entry(*color).or_default() += 1.0);
    let mut colors: Vec<Counted> =
        counts.into_iter().map(|(color, count)| Counted::new(color, count)).collect();
    colors.sort_by(|one, other| other.count.total_cmp(&one.count));
    if colors.len() <= most.max(1) {
        return colors.into_iter().map(|counted| counted.color).collect();
    }
    let mut centers = first_centers(&colors, most.max(1));
    let mut own = vec![usize::MAX; colors.len()];
    for _ in 0..MOST_ROUNDS {
        let now: Vec<usize> = colors.iter().map(|counted| nearest_to(counted.lab, &centers)).collect();
        if now == own {
            break;
        }
        own = now;
        for (number, center) in centers.iter_mut().enumerate() {
            let members =
                || colors.iter().zip(&own).filter(|(_, own)| **own == number).map(|(counted, _)| counted);
            let count: f64 = members().map(|counted| counted.count).sum();
            if count > 0.0 {
                let sum = |channel: usize| {
                    members().map(|counted| counted.lab[channel] * counted.count).sum::<f64>()
                };
                *center = std::array::from_fn(|channel| sum(channel) / count);
            }
        }
    }
    by_count(&colors, &own, &centers)
}

/// The number of the color that looks most like this one, the first of two alike; 0 if there are none.
pub fn find_nearest(color: Rgb, among: &[Rgb]) -> usize {
    let among: Vec<_> = among.iter().map(|color| lab(*color)).collect();
    nearest_to(lab(color), &among)
}

struct Counted {
    color: Rgb,
    lab: [f64; 3],
    count: f64,
}

impl Counted {
    fn new(color: Rgb, count: f64) -> Self {
        Self { color, lab: lab(color), count }
    }
}

fn first_centers(colors: &[Counted], most: usize) -> Vec<[f64; 3]> {
    let mut centers: Vec<[f64; 3]> = colors.iter().take(1).map(|counted| counted.lab).collect();
    while centers.len() < most {
        let worth = |counted: &&Counted| {
            let own = centers[nearest_to(counted.lab, &centers)];
            counted.count * distance(counted.lab, own)
        };
        let worst = colors.iter().max_by(|one, other| worth(one).total_cmp(&worth(other)));
        centers.extend(worst.map(|counted| counted.lab));
    }
    centers
}

/// The centers as colors, without those that stand for nothing or look the same in eight bits.
fn by_count(colors: &[Counted], own: &[usize], centers: &[[f64; 3]]) -> Vec<Rgb> {
    let mut counted: Vec<(f64, Rgb)> = Vec::new();
    for (number, center) in centers.iter().enumerate() {
        let members = colors.iter().zip(own).filter(|(_, own)| **own == number);
        let count: f64 = members.map(|(counted, _)| counted.count).sum();
        let color = rgb(*center);
        match counted.iter_mut().find(|(_, other)| *other == color) {
            Some((all, _)) => *all += count,
            None if count > 0.0 => counted.push((count, color)),
            None => {}
        }
    }
    counted.sort_by(|one, other| other.0.total_cmp(&one.0));
    counted.into_iter().map(|(_, color)| color).collect()
}

fn nearest_to(lab: [f64; 3], among: &[[f64; 3]]) -> usize {
    let distances = among.iter().map(|other| distance(lab, *other)).enumerate();
    distances.min_by(|one, other| one.1.total_cmp(&other.1)).map_or(0, |(number, _)| number)
}

/// The square of how far apart they are.
fn distance(one: [f64; 3], other: [f64; 3]) -> f64 {
    one.iter().zip(other).map(|(one, other)| (one - other) * (one - other)).sum()
}

fn lab(color: Rgb) -> [f64; 3] {
    let lab: Oklab<f64> = color.encoded().into_linear::<f64>().into_color();
    [lab.l, lab.a, lab.b]
}

fn rgb([l, a, b]: [f64; 3]) -> Rgb {
    let light: palette::LinSrgb<f64> = Oklab::new(l, a, b).into_color();
    Rgb::from_linear([light.red, light.green, light.blue])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colors_are_where_their_author_put_them() {
        // B. Ottosson, 2020: white is (1, 0, 0); pure red, by his own code, (0.628, 0.225, 0.126).
        let near = |one: [f64; 3], other: [f64; 3]| one.iter().zip(other).all(|(a, b)| (a - b).abs() < 6e-4);
        assert!(near(lab(Rgb::WHITE), [1.0, 0.0, 0.0]));
        assert!(near(lab(Rgb::new(255, 0, 0)), [0.628, 0.225, 0.126]), "{:?}", lab(Rgb::new(255, 0, 0)));
        for color in [Rgb::new(12, 200, 77), Rgb::new(250, 1, 99), Rgb::BLACK] {
            assert_eq!(rgb(lab(color)), color);
        }
    }

    #[test]
    fn few_colors_stay_and_many_gather_around_those_that_are_there_most() {
        let (sea, sand) = (Rgb::new(20, 90, 120), Rgb::new(220, 190, 120));
        assert_eq!(gather_colors(&[sand, sea, sea], 4), [sea, sand]);
        let mut samples = vec![sea; 50];
        samples.extend(vec![sand; 30]);
        samples.extend((0..10).map(|step| Rgb::new(15 + step, 88, 118)));
        let found = gather_colors(&samples, 2);
        assert_eq!(found.len(), 2);
        assert_eq!((find_nearest(sea, &found), find_nearest(sand, &found)), (0, 1));
        assert!(gather_colors(&samples, 0).len() == 1 && gather_colors(&[], 3).is_empty());
    }
}
