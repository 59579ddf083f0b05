//! Beads in pictures: in their true size, at their places, and told in every form.

mod bands;

use knotwright_band::{Kind, Piece};
use knotwright_render::{
    Band, BandBead, ChartMark, ChartOptions, Event, Mirror, Named, Passage, Scene, Step, SvgOptions,
    TerminalOptions, TyingScript, WorkingChart, draw_chart, draw_svg, draw_terminal, png_of_band,
};

fn bead(name: &str, color: &str, across: f64) -> BandBead {
    BandBead { name: name.into(), color: color.parse().unwrap(), across, hole: 1.0 }
}

/// Bricks on four strands, two rows and a row between; a bead rests at the left edge, another on the middle two.
fn script(times: u64) -> TyingScript {
    use Kind::Forward as F;
    let piece = Piece::tie(4, [(0, F), (2, F), (1, F), (0, F), (2, F), (1, F)]).unwrap();
    let step = |from, named| Step { within: (0, 3), from, named };
    let passage = Passage {
        ranges: vec![0..2, 2..2, 2..2, 2..6],
        steps: vec![
            step(0, Named::Row),
            step(0, Named::Bead { bead: 0, strands: 1 }),
            step(1, Named::Bead { bead: 1, strands: 2 }),
            step(0, Named::Row),
        ],
        events: (0..4).map(Event::Step).collect(),
        ..bands::passage(&piece)
    };
    let beads = vec![bead("sea pearl", "#f4efe6", 4.0), bead("shell", "#d98b6a", 2.0)];
    TyingScript { period: vec![passage], beads, ..bands::plain_script(&piece, times) }
}

#[test]
fn a_bead_lies_in_its_true_size_between_its_knots() {
    let scene = Scene::of(&script(1).band());
    let [pearl, shell] = scene.threaded[..] else { panic!("{:?}", scene.threaded) };
    assert_eq!((pearl.radius, shell.radius), (20.0, 10.0), "tenths of a millimeter");
    // The edge rests in the second row, whose knots lie in the middle.
    let row = |row: u32| scene.beads.iter().find(|knot| knot.row == row).unwrap().middle.y;
    assert!((pearl.middle.y - row(1)).abs() < 1e-9);
    assert!((shell.middle.y - f64::midpoint(row(0), row(1))).abs() < 1e-9);
    // The middle two are half a position on either side.
    let middle = scene.beads.iter().find(|knot| knot.gap == 1).unwrap().middle.x;
    assert!((shell.middle.x - middle).abs() < 1e-9);
    assert!((pearl.middle.x - (middle - 1.5 * scene.cell.x)).abs() < 1e-9);
    assert!(pearl.middle.x > pearl.radius, "the picture has room for it");
    assert_eq!(Scene::of(&script(3).band()).threaded.len(), 6);
}

#[test]
fn beads_change_nothing_else_in_the_picture() {
    let with = script(2);
    let mut without = with.clone();
    without.period[0].steps.iter_mut().for_each(|step| step.named = Named::Row);
    let (with, without) = (Scene::of(&with.band()), Scene::of(&without.band()));
    assert_eq!((with.beads, with.cords, with.size), (without.beads, without.cords, without.size));
}

#[test]
fn every_picture_shows_them() {
    let script = script(2);
    let band: Band<'_> = script.band();
    let svg = draw_svg(&Scene::of(&band), &SvgOptions { steps: true, ..SvgOptions::default() });
    assert_eq!(svg.matches("href=\"#bead").count(), 4);
    assert!(svg.contains("data-step=\"1.2\""), "a step of its own");
    let bare = Band { parts: Vec::new(), ..band.clone() };
    let options = SvgOptions { pixels_per_millimeter: 4.0, ..SvgOptions::default() };
    assert!(png_of_band(&band, &options).unwrap().len() > png_of_band(&bare, &options).unwrap().len());
    let letters = draw_terminal(&band, &TerminalOptions::default());
    assert!(
        letters.contains("1 sea pearl") && letters.matches('2').count() == 3,
        "two and the legend: {letters}"
    );
    let blocks = draw_terminal(&band, &TerminalOptions { color: true, ..TerminalOptions::default() });
    assert!(blocks.contains("sea pearl") && blocks.contains("38;2;244;239;230"), "{blocks}");
}

#[test]
fn the_chart_has_rings_with_numbers_and_names_them() {
    let chart = WorkingChart::of(&script(2), &ChartOptions::default());
    let ring = |mark: &ChartMark| match mark {
        ChartMark::Bead { number, at, .. } => Some((*number, at[1] > chart.legend)),
        _ => None,
    };
    let rings: Vec<(u32, bool)> = chart.marks.iter().filter_map(ring).collect();
    // The set is drawn once; both beads are in the legend, too.
    assert_eq!(rings.iter().filter(|(_, is_below)| *is_below).count(), 2);
    assert_eq!(
        rings.iter().filter(|(_, is_below)| !*is_below).map(|(number, _)| *number).collect::<Vec<_>>(),
        [1, 2]
    );
    let black = draw_chart(&script(2), &ChartOptions { color: false, ..ChartOptions::default() });
    assert!(black.contains("sea pearl, 4 mm") && !black.contains("#f4efe6"));
}

#[test]
fn in_a_mirror_they_are_on_the_other_side() {
    let mirrored = script(1).mirrored(Mirror::Image).unwrap();
    let places = |script: &TyingScript| {
        script.period[0].beads().map(|bead| (bead.position, bead.strands)).collect::<Vec<_>>()
    };
    assert_eq!(places(&script(1)), [(0, 1), (1, 2)]);
    assert_eq!(places(&mirrored), [(3, 1), (1, 2)]);
    // The same picture from the right: the beads stay where they are.
    assert_eq!(places(&script(1).mirrored(Mirror::Picture).unwrap()), [(0, 1), (1, 2)]);
}

#[test]
fn they_are_counted_over_all_sets() {
    assert_eq!(script(12).bead_counts(), [12, 12]);
    assert_eq!(script(0).bead_counts(), [0, 0]);
}
