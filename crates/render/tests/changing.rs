//! Threads that change color along their length, as they are drawn.

mod bands;

use knotwright_band::thread::Model;
use knotwright_band::{Join, Kind, Piece};
use knotwright_color::{Eyes, Rgb};
use knotwright_numbers::ToNumber;
use knotwright_render::{
    Band, BandPart, BandThread, ChartOptions, Scene, StrandStart, TerminalOptions, ThreadShade, ThreadTaken,
    TyingScript, WorkingChart, chart_text, draw_chart, draw_terminal,
};

const DARK: Rgb = Rgb { red: 10, green: 20, blue: 60 };
const LIGHT: Rgb = Rgb { red: 220, green: 230, blue: 250 };

/// As far of one color as ten knots take, and then as far of another.
fn dusk() -> BandThread {
    let length = 10.0 * Model::new(0.9).figures(0.0).working;
    let shades = [DARK, LIGHT].map(|color| ThreadShade { color, length }).to_vec();
    BandThread { name: "dusk".into(), color: DARK, shades }
}

fn taken(before: f64) -> Option<ThreadTaken> {
    Some(ThreadTaken { figures: Model::new(0.9).figures(0.0), before })
}

/// Two strands; the left one turns over the right one, again and again.
fn turning() -> Piece {
    Piece::tie(2, vec![(0, Kind::ForwardBackward); 5]).unwrap()
}

fn band(set: &Piece, sets: usize) -> Band<'_> {
    let mut threads = vec![dusk()];
    threads.extend(bands::threads(&[("sand", "#f4e1c0")]));
    Band { threads, strands: vec![0, 1], taken: taken(0.0), ..bands::band(set, sets) }
}

fn script(set: &Piece, sets: u64) -> TyingScript {
    let mut threads = vec![dusk()];
    threads.extend(bands::threads(&[("sand", "#f4e1c0")]));
    TyingScript { taken: taken(0.0), ..bands::script(set, sets, threads, vec![0, 1]) }
}

fn shown(band: &Band<'_>) -> Vec<Rgb> {
    let scene = Scene::of(band);
    scene.beads.iter().map(|bead| scene.color(bead.thread)).collect()
}

fn changes_at(colors: &[Rgb]) -> usize {
    colors.iter().position(|color| *color != colors[0]).unwrap_or(colors.len())
}

/// A row is idle between two knots of one gap: it takes 1.05 of a pitch more.
#[test]
fn a_knot_has_the_color_that_its_strand_has_come_to() {
    let set = turning();
    let colors = shown(&band(&set, 4));
    let figures = Model::new(0.9).figures(0.0);
    let each = figures.working + figures.idle;
    let last_dark = (10.0 * figures.working / each).ceil().to_usize();
    assert_eq!(changes_at(&colors), last_dark, "{colors:?}");
    assert_eq!((colors[0], colors[last_dark]), (DARK, LIGHT));
    // What comes before the first knot is used up first.
    let later = Band { taken: taken(each * 3.0), ..band(&set, 4) };
    assert_eq!(changes_at(&shown(&later)), last_dark - 3);
    // Of the other half of a folded thread, the colors come in the opposite order.
    let folded = Band { strands: vec![1, 0], start: StrandStart::Folded(vec![(0, 1)]), ..band(&set, 1) };
    let works_right = Piece::tie(2, vec![(0, Kind::BackwardForward); 5]).unwrap();
    assert_eq!(shown(&Band { parts: vec![part(&works_right)], ..folded.clone() })[0], LIGHT);
    // A new piece of thread is not folded.
    let joined = works_right.clone().with_joins(vec![Join { knot: 0, strand: 1, thread: None, set: None }]);
    assert_eq!(shown(&Band { parts: vec![part(&joined)], ..folded })[0], DARK);
    // Where nothing is known of the lengths, it is its first color.
    let unknown = Band { taken: None, ..band(&set, 4) };
    assert!(shown(&unknown).iter().all(|color| *color == DARK));
}

fn part(piece: &Piece) -> BandPart<'_> {
    BandPart { piece, steps: &[], wish: None, beads: Vec::new(), set: 0 }
}

#[test]
fn a_new_piece_of_thread_begins_again_at_its_first_color() {
    let joined = |knot, thread, set| turning().with_joins(vec![Join { knot, strand: 0, thread, set }]);
    let numbered = |piece: &Piece| {
        let whole = band(piece, 4);
        let parts = whole.parts.iter().zip(0..).map(|(part, set)| BandPart { set, ..part.clone() }).collect();
        shown(&Band { parts, ..whole })
    };
    let plain = numbered(&turning());
    assert_eq!(plain[11], LIGHT);
    let again = numbered(&joined(1, None, Some(2)));
    assert_eq!((&again[..11], again[11]), (&plain[..11], DARK));
    // Another thread, which then stays.
    let other = numbered(&joined(2, Some(1), None));
    assert_eq!(other[..2], plain[..2]);
    assert!(other[2..].iter().all(|color| *color == "#f4e1c0".parse().unwrap()));
    // A thread that changes color only after a join.
    let late = joined(0, Some(0), Some(1));
    let whole = Band { strands: vec![1, 1], ..band(&late, 4) };
    let parts = whole.parts.iter().zip(0..).map(|(part, set)| BandPart { set, ..part.clone() }).collect();
    let late = shown(&Band { parts, ..whole });
    assert_eq!((late[5], late[14]), (DARK, LIGHT));
}

#[test]
fn the_strand_under_the_knots_changes_where_they_do() {
    let set = turning();
    let scene = Scene::of(&band(&set, 4));
    let colors = |number: u16| scene.color(number);
    let of_dusk: Vec<_> =
        scene.cords.iter().filter(|cord| [DARK, LIGHT].contains(&colors(cord.thread))).collect();
    let change = changes_at(&shown(&band(&set, 4)));
    let far = |down: f64| (down - scene.beads[change].middle.y).abs() < 1e-6;
    assert!(far(of_dusk[1].path.start.y), "it goes on in another color at the knot that has it");
    assert_eq!((colors(of_dusk[0].thread), colors(of_dusk[1].thread)), (DARK, LIGHT));
}

#[test]
fn a_plait_at_the_end_goes_on_in_the_colors_of_its_strands() {
    use knotwright_band::ends::{BandEnds, EndWork};
    let set = turning();
    let plait = vec![EndWork::Twist { length: 400.0 }];
    let made = BandEnds { begin: None, finish: Some(plait), is_image: false };
    let scene = Scene::of(&Band { made, ..band(&set, 1) });
    let colors: std::collections::BTreeSet<u16> = scene.ends[1].iter().map(|cord| cord.thread).collect();
    assert_eq!(
        colors.into_iter().map(|number| scene.color(number)).filter(|of| [DARK, LIGHT].contains(of)).count(),
        2
    );
}

#[test]
fn sets_of_other_colors_are_drawn_apart_on_a_chart_in_color_alone() {
    let set = turning();
    let blocks = |color, sets| {
        let options = ChartOptions { color, ..ChartOptions::default() };
        WorkingChart::of(&script(&set, sets), &options).blocks.len()
    };
    assert_eq!((blocks(true, 3), blocks(false, 3)), (3, 1), "dark, dark and light, light");
    let chart = draw_chart(&script(&set, 4), &ChartOptions::default());
    assert!(chart.contains(&LIGHT.to_string()) && chart.contains(&DARK.to_string()));
    let text = chart_text(&script(&set, 4), &ChartOptions::default(), 80);
    assert!(text.contains("\u{d7} 4"), "{text}");
}

#[test]
fn a_terminal_and_other_eyes_see_the_colors_that_come() {
    let set = turning();
    let options = TerminalOptions { color: true, ..TerminalOptions::default() };
    let inks = |color: Rgb| format!("38;2;{};{};{}m\u{2588}", color.red, color.green, color.blue);
    let text = draw_terminal(&band(&set, 4), &options);
    assert!(text.contains(&inks(DARK)) && text.contains(&inks(LIGHT)), "the legend has both: {text:?}");
    let letters = draw_terminal(&band(&set, 4), &TerminalOptions::default());
    assert_eq!(letters.matches('D').count(), 21, "twenty knots of one thread, and its name");
    let seen = shown(&band(&set, 4).seen_by(Eyes::Protan));
    assert_eq!(seen[10], Eyes::Protan.see(LIGHT));
}
