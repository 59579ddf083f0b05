//! What lies where in the picture.

mod bands;

use knotwright_band::ends::{BandEnds, EndWork};
use knotwright_band::{Kind, Piece};
use knotwright_render::{
    Band, BandPart, EndCord, Form, Mirror, PathStretch, Point, Scene, StrandStart, TyingScript,
};
use std::collections::BTreeSet;

fn end(path: &knotwright_render::Path) -> Point {
    match path.stretches.last() {
        None => path.start,
        Some(PathStretch::Line(to) | PathStretch::Curve(_, _, to)) => *to,
    }
}

#[test]
fn knots_lie_in_bricks_of_the_gauge() {
    let set = bands::of_all_kinds();
    let mut band = bands::band(&set, 2);
    band.gauge.width = 1.5;
    band.gauge.pitch = 2.0;
    let scene = Scene::of(&band);
    let first = scene.beads[0].middle;
    for bead in &scene.beads {
        // Tenths of a millimeter: a position is 15, a row 20.
        assert!((bead.middle.x - first.x - 15.0 * f64::from(bead.gap)).abs() < 1e-9);
        assert!((bead.middle.y - first.y - 20.0 * f64::from(bead.row)).abs() < 1e-9);
        assert_eq!((bead.row + u32::from(bead.gap)) % 2, 0);
    }
    assert_eq!(scene.rows, 4);
}

#[test]
fn every_kind_has_its_form_and_the_working_strands_color() {
    let set = bands::of_all_kinds();
    let mut band = bands::band(&set, 1);
    band.strands = vec![0, 1, 2, 3, 4];
    let seen: Vec<(Form, u16)> = Scene::of(&band).beads.iter().map(|bead| (bead.form, bead.thread)).collect();
    // Forward changes strands 0 and 1; then the right one of the two at gap 1, strand 2, works.
    let expected =
        [(Form::Forward, 0), (Form::ForwardBackward, 2), (Form::BackwardForward, 2), (Form::Backward, 4)];
    assert_eq!(seen, expected);
}

#[test]
fn rows_of_a_leader_lie_straight_and_say_who_shows() {
    use Form::{LeaderShows, StrandShows};
    let set = bands::led();
    let scene = Scene::of(&bands::band(&set, 1));
    let rows: Vec<u32> = scene.beads.iter().map(|bead| bead.row).collect();
    assert_eq!(rows, [0, 0, 0, 1, 1, 1]);
    let forms: Vec<Form> = scene.beads.iter().map(|bead| bead.form).collect();
    assert_eq!(forms, [LeaderShows, StrandShows, LeaderShows, LeaderShows, StrandShows, LeaderShows]);
}

#[test]
fn every_strand_leaves_the_band_where_it_hangs() {
    let set = bands::diagonal(5);
    let mut band = bands::band(&set, 2);
    band.strands = vec![0, 1, 2, 3, 4];
    let scene = Scene::of(&band);
    let mut tips: Vec<(f64, u16)> = scene.cords.iter().map(|cord| (end(&cord.path).x, cord.thread)).collect();
    tips.sort_by(|a, b| a.0.total_cmp(&b.0));
    // A diagonal takes the left strand to the right edge: twice, and 2 3 4 0 1 hang there.
    assert_eq!(tips.iter().map(|tip| tip.1).collect::<Vec<_>>(), [2, 3, 4, 0, 1]);
}

#[test]
fn sets_interlock() {
    let set = bands::diagonal(8);
    let rows = |sets| Scene::of(&bands::band(&set, sets)).rows;
    // Seven knots in one diagonal are seven rows alone, but add two a set.
    assert_eq!([rows(1), rows(2), rows(3)], [7, 9, 11]);
}

#[test]
fn knots_know_their_part_and_step() {
    let set = bands::of_all_kinds();
    let steps = [0..2, 2..2, 2..4];
    let part = BandPart { piece: &set, steps: &steps, wish: None, beads: Vec::new(), set: 0 };
    let band = Band { parts: vec![part; 2], ..bands::band(&set, 0) };
    let known: Vec<_> = Scene::of(&band).beads.iter().map(|bead| (bead.part, bead.step)).collect();
    assert_eq!(known, [(0, 0), (0, 0), (0, 2), (0, 2), (1, 0), (1, 0), (1, 2), (1, 2)]);
}

#[test]
fn pairs_are_joined_above_the_band() {
    let set = bands::led();
    let with = |start| Scene::of(&Band { start, ..bands::band(&set, 1) });
    let folded = with(StrandStart::Folded(vec![(0, 1), (2, 3)]));
    assert_eq!(folded.cords.len(), 4 + 2, "a turn for every pair");
    assert_eq!(folded.fade.above, 0.0, "nothing is free above");
    assert_eq!(folded.neck, None);
    let looped = with(StrandStart::Loop(vec![(0, 3), (1, 2)]));
    assert!(looped.neck.is_some());
    assert!(looped.size.y > folded.size.y);
    let loose = with(StrandStart::Loose);
    assert!(loose.fade.above > 0.0);
    assert_eq!(loose.cords.len(), 4);
}

#[test]
fn a_piece_of_another_width_is_left_out() {
    let (three, four) = (bands::diagonal(3), bands::diagonal(4));
    let mut band = bands::band(&three, 1);
    band.parts.push(BandPart { piece: &four, steps: &[], wish: None, beads: Vec::new(), set: 0 });
    assert_eq!(Scene::of(&band).beads.len(), 2);
}

#[test]
fn a_band_without_knots_is_only_its_strands() {
    let nothing = Piece::tie(4, std::iter::empty::<(u8, Kind)>()).unwrap();
    let scene = Scene::of(&bands::band(&nothing, 1));
    assert!(scene.beads.is_empty());
    assert_eq!(scene.cords.len(), 4);
}

/// A band of six strands with these ends.
fn with_ends(begin: Vec<EndWork>, finish: Vec<EndWork>, start: StrandStart) -> Scene {
    let set = Piece::tie(6, (0..5).map(|gap| (gap, Kind::Forward))).unwrap();
    let made = BandEnds { begin: Some(begin), finish: Some(finish), is_image: false };
    Scene::of(&Band { start, made, strands: vec![0, 1, 2, 2, 1, 0], ..bands::band(&set, 1) })
}

#[test]
fn ends_are_drawn_where_they_are_made() {
    let plait = EndWork::Plait { bundles: 3, length: 30.0 };
    let scene =
        with_ends(vec![EndWork::Tassel { length: 10.0 }, plait.clone()], vec![plait], StrandStart::Loose);
    let [above, below] = &scene.ends;
    let lowest = |cords: &[EndCord]| cords.iter().map(|cord| cord.path.start.y).fold(0.0, f64::max);
    assert!(lowest(above) <= scene.top, "the beginning is above the knots");
    let last = scene.top + (f64::from(scene.rows) + 1.0) * scene.cell.y;
    assert!(below.iter().all(|cord| cord.path.start.y >= last - 1.0), "the end is below them");
    // Every thread is in both, and the picture is as high as what is drawn: 4 cm above, 3 cm below.
    for cords in [above, below] {
        let threads: BTreeSet<u16> = cords.iter().map(|cord| cord.thread).collect();
        assert_eq!(threads.into_iter().collect::<Vec<_>>(), [0, 1, 2]);
    }
    assert!(scene.top > 400.0 && scene.size.y - last > 300.0, "{} {}", scene.top, scene.size.y - last);
    assert_eq!((scene.fade.above, scene.fade.below), (0.0, 0.0), "what is cut has tips");
}

/// In a mirror, the right bundle begins; all else is where the mirror shows it.
#[test]
fn the_ends_of_a_mirrored_band_are_drawn_mirrored() {
    let pieces = || {
        let inner = vec![EndWork::Plait { bundles: 3, length: 20.0 }, EndWork::Bead { bead: 0, length: 6.0 }];
        Some(vec![EndWork::Twist { length: 10.0 }, EndWork::Split { parts: 2, works: inner }])
    };
    let set = Piece::tie(8, (0..7).map(|gap| (gap, Kind::Forward))).unwrap();
    let made = BandEnds { begin: pieces(), finish: pieces(), is_image: false };
    let mut script = TyingScript { made, ..bands::plain_script(&set, 1) };
    (script.threads, script.strands) = (vec![script.threads[0].clone(); 8], (0..8).collect());
    let mirrored = script.clone().mirrored(Mirror::Image).unwrap();
    let [plain, image] = [&script, &mirrored].map(|script| Scene::of(&script.band()));
    assert_eq!(plain.size, image.size);
    let near = |one: f64, other: f64| (one - other).abs() < 0.2;
    for (cords, images) in plain.ends.iter().zip(&image.ends) {
        assert_eq!(cords.len(), images.len());
        for (cord, image) in cords.iter().zip(images) {
            let (from, to) = (cord.path.start, image.path.start);
            assert_eq!(cord.thread, image.thread);
            assert!(
                near(plain.size.x - from.x, to.x) && near(from.y, to.y),
                "{from:?} is not seen at {to:?}"
            );
            let (from, to) = (end(&cord.path), end(&image.path));
            assert!(
                near(plain.size.x - from.x, to.x) && near(from.y, to.y),
                "{from:?} is not seen at {to:?}"
            );
        }
    }
    assert_eq!(plain.threaded.len(), 4);
    for (bead, image) in plain.threaded.iter().zip(&image.threaded) {
        assert!(near(plain.size.x - bead.middle.x, image.middle.x), "{bead:?} is not seen at {image:?}");
    }
}

#[test]
fn a_wrap_goes_around_as_often_as_it_says_in_its_own_thread() {
    let wrap = EndWork::Wrap { thread: 1, turns: 7 };
    let turns = |work: EndWork| {
        let scene = with_ends(vec![EndWork::Knot], vec![work], StrandStart::Loose);
        let threads = |cord: &EndCord| cord.is_turn.then_some(cord.thread);
        scene.ends[1].iter().filter_map(threads).collect::<Vec<u16>>()
    };
    assert_eq!(turns(wrap.clone()), [1; 7]);
    assert_eq!(turns(EndWork::Split { parts: 2, works: vec![wrap] }), [1; 14], "once for each part");
}

#[test]
fn folded_threads_are_one_line_around_their_loop() {
    let start = StrandStart::Folded(vec![(0, 5), (1, 4), (2, 3)]);
    let scene = with_ends(vec![EndWork::Loop { length: 20.0 }], vec![EndWork::Knot], start);
    // Each thread is drawn once from its left strand around the loop, and once from its right strand to it.
    assert_eq!(scene.ends[0].len(), 6);
    let tip = scene.ends[0].iter().flat_map(|cord| &cord.path.stretches);
    let highest = tip.map(|stretch| match stretch {
        PathStretch::Line(to) | PathStretch::Curve(_, _, to) => to.y,
    });
    assert!(highest.fold(f64::MAX, f64::min) < scene.top - 60.0, "the loop is above the band");
}
