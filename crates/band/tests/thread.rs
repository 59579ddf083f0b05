//! Thread lengths, against integration, a standard and trying everything.

mod support;

use knotwright_band::thread::*;
use knotwright_band::{Growth, Piece, Sets, Use, count_uses};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use support::*;

fn near(found: f64, wanted: f64, off: f64) -> bool {
    (found - wanted).abs() <= off
}

/// The length of a curve, by many short chords.
fn length_of(curve: impl Fn(f64) -> [f64; 3]) -> f64 {
    let steps = 200_000;
    let chord = |at: usize| {
        let (a, b) = (curve(at.to_f64() / steps.to_f64()), curve((at + 1).to_f64() / steps.to_f64()));
        a.iter().zip(b).map(|(a, b)| (b - a).powi(2)).sum::<f64>().sqrt()
    };
    (0..steps).map(chord).sum()
}

/// Source: the arc length of a helix, integrated numerically here.
#[test]
fn two_turns_of_a_helix_are_in_the_working_strands_use() {
    let model = Model { thickness: 0.9, softness: 0.8, aspect: 1.2 };
    let e = 0.9 * 0.8;
    let helix = length_of(|t| {
        let angle = 4.0 * std::f64::consts::PI * t;
        [e * angle.cos(), e * angle.sin(), 2.0 * e * t]
    });
    let figures = model.figures(0.0);
    let path = length_of(|t| [figures.width * t, figures.pitch * t, 0.0]);
    assert!(near(figures.working, helix + 1.2 * e + path / 2.0, 1e-6));
    assert!(near(figures.base, 1.1 * path, 1e-6));
}

/// In units of e: the figures of the model as its makers give them, to the digits they give.
#[test]
fn default_figures() {
    let figures = Model { thickness: 1.0, softness: 1.0, aspect: 4.0 / 3.0 }.figures(0.0);
    let found = [figures.width, figures.pitch, figures.working, figures.base, figures.idle];
    for (found, wanted) in found.into_iter().zip([1.5, 2.0, 15.2, 2.75, 2.1]) {
        assert!(near(found, wanted, 0.05), "{found} for {wanted}");
    }
    let ratio = |used: f64| used / figures.pitch;
    assert!(near(ratio(figures.working), 7.6, 0.05));
    assert!(near(ratio(figures.base), 1.4, 0.05));
    assert!(near(ratio((figures.working + figures.base) / 2.0), 4.5, 0.05));
}

/// Source: ISO 1144 (tex system), values to four digits: denier is grams in 9 km, the metric count kilometers a kilogram, and the
/// cotton count hanks of 840 yards a pound.
#[test]
fn threads_weigh_what_the_standard_says() {
    let (hank, pound) = (840.0 * 914.4, 453.592_37);
    for (tex, denier, metric, cotton) in [(30.0, 270.0, 33.33, 19.68), (250.0, 2250.0, 4.0, 2.362)] {
        let thread = LinearDensity { tex };
        assert!(near(thread.grams(1e6), tex, 1e-9));
        assert!(near(thread.grams(9e6), denier, 1e-9));
        assert!(near(1000.0 / thread.grams(1e6), metric, 0.005));
        assert!(near(pound / thread.grams(hank), cotton, 0.005));
    }
}

/// All bricks of two rows, forward ones above backward ones.
fn bricks(strands: usize) -> Piece {
    let above = (0..strands.to_u8() - 1).step_by(2).map(|gap| (gap, KINDS[0]));
    let below = (1..strands.to_u8() - 1).step_by(2).map(|gap| (gap, KINDS[1]));
    Piece::tie(strands, above.chain(below)).unwrap()
}

/// Common practice, no source: a wrist band of 12 strands is cut at about 36 in (91 cm) a strand.
#[test]
fn a_wrist_band_of_twelve_strands_is_cut_near_36_inches() {
    let figures = Gauge { thickness: Some(0.9), ..Gauge::default() }.figures(0.0).unwrap();
    let set = bricks(12);
    let growth = Growth::new(&Piece::empty(12), &Sets::alike(set.clone()));
    let sets = sets_for(150.0 / figures.pitch, |sets| growth.height(sets)).unwrap();
    let mut all = Piece::empty(12);
    for _ in 0..sets {
        all = all.then(&set).unwrap();
    }
    let needs: Vec<StrandLength> = count_uses(&all)
        .into_iter()
        .map(|strand| figures.length(strand, growth.height(sets), 200.0))
        .collect();
    let mean = |of: fn(&StrandLength) -> f64| needs.iter().map(of).sum::<f64>() / 12.0;
    let inches_36 = 914.4;
    assert!(near(mean(|l| l.likely) / inches_36, 1.0, 0.15), "{}", mean(|l| l.likely));
    assert!(mean(|l| l.low) < inches_36 && inches_36 < mean(|l| l.high));
}

#[test]
fn a_swatch_goes_before_the_thickness() {
    let by_thickness = Gauge { thickness: Some(2.0), ..Gauge::default() };
    let with_rows = Gauge { rows_measure: Some((20, 32.0)), ..by_thickness };
    let with_both = Gauge { knots_use: Some((10, 105.0)), ..with_rows };
    let figures = with_rows.figures(0.0).unwrap();
    let plain = by_thickness.figures(0.0).unwrap();
    assert!(near(figures.pitch, 1.6, 1e-12));
    assert!(near(figures.working / plain.working, 1.6 / plain.pitch, 1e-12), "scaled along");
    assert_eq!(
        (figures.uncertainty, figures.length_uncertainty),
        (0.20, 0.07),
        "rows alone say how long, not how much"
    );
    let both = with_both.figures(0.0).unwrap();
    assert!(near(both.working, 10.5, 1e-12) && near(both.pitch, 1.6, 1e-12));
    assert_eq!(both.base, figures.base);
    assert_eq!((both.uncertainty, both.length_uncertainty), (0.07, 0.07));
}

/// A swatch of knots alone scales rows and use alike, so that thread by length of band stays what the model says.
#[test]
fn knots_alone_do_not_narrow_thread_by_length() {
    let by_length = |ten_knots: f64| {
        let swatch = Gauge { knots_use: Some((10, ten_knots)), ..Gauge::default() };
        let figures = swatch.figures(0.0).unwrap();
        assert_eq!((figures.uncertainty, figures.length_uncertainty), (0.20, 0.20));
        (figures.working + figures.base) / 2.0 / figures.pitch
    };
    assert!(near(by_length(60.0), by_length(150.0), 1e-9));
}

/// A knot covers the same area in a leader's row as among bricks: a place in a row of bricks has a knot in every
/// second row, one in a leader's row in each.
#[test]
fn knots_of_a_leader_lie_wider_and_cover_the_same_area() {
    let model = Model { thickness: 1.0, softness: 1.0, aspect: 4.0 / 3.0 };
    let (bricks, leader) = (model.figures(0.0), model.figures(1.0));
    assert!(near(leader.width, 2.5, 1e-9) && near(leader.pitch, 2.4, 1e-9));
    assert!(near(leader.width * leader.pitch, 2.0 * bricks.width * bricks.pitch, 1e-9));
    let half = model.figures(0.5);
    assert!(near(half.width, 2.0, 1e-9) && near(half.pitch, 2.2, 1e-9), "half of the rows");
    let swatch = Gauge { rows_measure: Some((20, 48.0)), ..Gauge::default() };
    assert!(near(swatch.figures(1.0).unwrap().width, 2.5, 1e-9), "a swatch is tied like the band");
}

/// Common practice, no source: what two overhand knots of all strands take, for usual thread of 0.9 mm.
#[test]
fn knots_that_hold_the_ends_take_thread() {
    let figures = Model::new(0.9).figures(0.0);
    for (strands, wanted) in [(6, 43.0), (12, 61.0), (20, 79.0)] {
        let two = 2.0 * figures.overhand(strands);
        assert!(near(two / wanted, 1.0, 0.05), "{strands}: {two}");
    }
}

#[test]
fn thread_by_length_of_band_does_not_depend_on_thickness() {
    let strand = Use { working: 40, base: 30, tied_rows: 70, ..Use::default() };
    let by_length = |thickness: f64| {
        let figures = Model::new(thickness).figures(0.0);
        figures.used(strand, 90) / (90.0 * figures.pitch)
    };
    assert!(near(by_length(0.5), by_length(2.0), 1e-9));
}

#[test]
fn a_gauge_of_nothing_is_refused() {
    let zero = Gauge { thickness: Some(0.0), ..Gauge::default() };
    assert_eq!(zero.figures(0.0), Err(MeasureError::NotPositive(Quantity::Thickness)));
    let no_knots = Gauge { knots_use: Some((0, 105.0)), ..Gauge::default() };
    assert_eq!(no_knots.figures(0.0), Err(MeasureError::NotPositive(Quantity::KnotsUse)));
    let no_height = Gauge { rows_measure: Some((20, f64::NAN)), ..Gauge::default() };
    assert_eq!(no_height.figures(0.0), Err(MeasureError::NotPositive(Quantity::RowsMeasure)));
    assert_eq!(Gauge::default().figures(0.0), Err(MeasureError::NoGauge));
}

#[test]
fn sets_for_a_length() {
    let height = |sets: u64| 5 + 4 * sets;
    assert_eq!(sets_for(9.0, height), Ok(1));
    assert_eq!(sets_for(14.9, height), Ok(2));
    assert_eq!(sets_for(15.1, height), Ok(3));
    assert_eq!(sets_for(15.0, height), Ok(2), "halfway: the fewer");
    assert_eq!(sets_for(8.9, height), Ok(1), "one is the fewest");
    assert_eq!(sets_for(30.0, |_| 8), Err(MeasureError::DoesNotGrow));
    assert_eq!(sets_for(0.0, height), Err(MeasureError::NotPositive(Quantity::Length)));
    assert_eq!(sets_for(4e12 + 5.0, height), Ok(1_000_000_000_000));
}

/// The least thread over all ways to pair strands of one color, with at most one single strand a color.
fn least_folded(needs: &[(u16, f64)]) -> f64 {
    let Some((&(color, need), rest)) = needs.split_first() else { return 0.0 };
    let odd = needs.iter().filter(|other| other.0 == color).count() % 2 == 1;
    let without = |at: usize| [&rest[..at], &rest[at + 1..]].concat();
    let paired = (0..rest.len())
        .filter(|&at| rest[at].0 == color)
        .map(|at| 2.0 * need.max(rest[at].1) + least_folded(&without(at)));
    // Once it is single, the rest of its color is even.
    let single = odd.then(|| need + least_folded(rest));
    paired.chain(single).fold(f64::INFINITY, f64::min)
}

proptest! {
    #[test]
    fn no_other_pairs_take_less_thread(needs in prop::collection::vec((0_u16..3, 1_u16..50), 0..9)) {
        let needs: Vec<(u16, f64)> = needs.into_iter().map(|(color, need)| (color, f64::from(need))).collect();
        let (colors, lengths): (Vec<u16>, Vec<f64>) = needs.iter().copied().unzip();
        let cuts = fold_strands(&lengths, &colors);
        prop_assert_eq!(cuts.iter().map(|cut| cut.length()).sum::<f64>(), least_folded(&needs));
        let mut strands: Vec<u8> = cuts.iter().flat_map(|cut| match *cut {
            Cut::Single { strand, .. } => vec![strand],
            Cut::Folded { strands: (a, b), .. } => vec![a, b],
        }).collect();
        strands.sort_unstable();
        prop_assert_eq!(strands, (0..needs.len().to_u8()).collect::<Vec<_>>());
    }

    #[test]
    fn many_measured_strands_give_their_own_figures(
        (working, base, idle) in (0.7_f64..1.4, 0.7_f64..1.4, 0.7_f64..1.4),
        counts in prop::collection::vec((1_u64..200, 1_u64..200, 1_u64..200), 30..60),
    ) {
        let model = Model::new(1.0).figures(0.0);
        let truth = Figures { working: model.working * working, base: model.base * base, idle: model.idle * idle, ..model };
        let measured: Vec<StrandSample> = counts.iter().map(|&(working, base, idle)| {
            let strand = Use { working, base, tied_rows: working + base, ..Use::default() };
            let height = working + base + idle;
            StrandSample { strand, height, used: truth.used(strand, height) }
        }).collect();
        let fitted = fit_figures(model, &measured);
        prop_assert!(near(fitted.working / truth.working, 1.0, 0.03), "{fitted:?} {truth:?}");
        for m in &measured {
            prop_assert!(near(fitted.used(m.strand, m.height) / m.used, 1.0, 0.06));
        }
    }
}

#[test]
fn one_measured_strand_moves_the_model_and_none_leaves_it() {
    let model = Model::new(1.0).figures(0.0);
    assert_eq!(fit_figures(model, &[]), model);
    let strand = Use { working: 100, base: 100, tied_rows: 200, ..Use::default() };
    let measured = StrandSample { strand, height: 200, used: 1.2 * model.used(strand, 200) };
    let fitted = fit_figures(model, &[measured]);
    assert!(near(fitted.used(strand, 200) / measured.used, 1.0, 0.02));
    assert_eq!(fitted.idle, model.idle, "nothing was said about idle rows");
}

#[test]
fn cutting_alike_wastes_what_the_others_do_not_need() {
    assert_eq!(cut_alike(&[30.0, 50.0, 45.0]), 25.0);
    assert_eq!(cut_alike(&[]), 0.0);
}
