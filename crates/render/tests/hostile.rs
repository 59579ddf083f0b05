//! No band makes a panic, and every picture can be read back.

mod bands;

use knotwright_band::ends::{BandEnds, EndWork};
use knotwright_band::{Kind, Piece};
use knotwright_color::Rgb;
use knotwright_render::{
    Band, BandPart, BandThread, ChartOptions, KnotSize, NamedColors, Scene, StrandStart, SvgOptions,
    TerminalOptions, TyingScript, contact_sheet, draw_chart, draw_png, draw_svg, draw_terminal,
};
use proptest::prelude::*;

fn kind() -> impl Strategy<Value = Kind> {
    prop::sample::select(vec![Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward])
}

fn start() -> impl Strategy<Value = StrandStart> {
    let pairs = || prop::collection::vec((any::<u8>(), 0..9_u8), 0..6);
    prop_oneof![
        Just(StrandStart::Loose),
        pairs().prop_map(StrandStart::Folded),
        pairs().prop_map(StrandStart::Loop)
    ]
}

/// Pieces of an end, whether anybody can make them or not.
fn works() -> impl Strategy<Value = Option<Vec<EndWork>>> {
    let one = prop_oneof![
        Just(EndWork::Knot),
        Just(EndWork::ClosingKnot),
        (any::<u8>(), length()).prop_map(|(bundles, length)| EndWork::Plait { bundles, length }),
        length().prop_map(|length| EndWork::Twist { length }),
        length().prop_map(|length| EndWork::Loop { length }),
        length().prop_map(|length| EndWork::Tassel { length }),
        (any::<u16>(), any::<u32>()).prop_map(|(thread, turns)| EndWork::Wrap { thread, turns }),
        (any::<u16>(), any::<u32>()).prop_map(|(thread, turns)| EndWork::Slide { thread, turns }),
    ];
    let nested = one.prop_recursive(2, 8, 3, |inner| {
        (any::<u8>(), prop::collection::vec(inner, 0..3))
            .prop_map(|(parts, works)| EndWork::Split { parts, works })
    });
    prop::option::of(prop::collection::vec(nested, 0..4))
}

fn length() -> impl Strategy<Value = f64> {
    prop_oneof![0.2..3.0, Just(0.0), Just(-1.0), Just(f64::NAN), Just(f64::INFINITY), Just(1e300)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_band_can_be_drawn(
        strands in 0..9_usize,
        steps in prop::collection::vec((0..8_u8, kind()), 0..20),
        threads in prop::collection::vec(any::<u16>(), 0..9),
        (width, pitch, thickness) in (length(), length(), length()),
        start in start(),
        (begin, finish) in (works(), works()),
        title in ".*",
    ) {
        let steps = steps.into_iter().filter(|(gap, _)| usize::from(*gap) + 1 < strands);
        let piece = Piece::tie(strands, steps).unwrap();
        let band = Band {
            title,
            threads: vec![BandThread { name: "sea".into(), color: Rgb::BLACK, shades: Vec::new() }],
            beads: Vec::new(),
            strands: threads.into_iter().chain(std::iter::repeat(0)).take(strands).collect(),
            gauge: KnotSize { width, pitch, thickness },
            start,
            taken: None,
            made: BandEnds { begin, finish, is_image: false },
            parts: vec![BandPart { piece: &piece, steps: &[], wish: None, beads: Vec::new(), set: 0 }; 2],
        };
        let scene = Scene::of(&band);
        let options = SvgOptions { pixels_per_millimeter: 1.0, ..SvgOptions::default() };
        let picture = draw_svg(&scene, &options);
        resvg::usvg::Tree::from_str(&picture, &resvg::usvg::Options::default()).unwrap();
        prop_assert!(!picture.contains("\"NaN") && !picture.contains("\"inf"));
        let sheet = contact_sheet(&band, &[NamedColors { name: band.title.clone(), threads: Vec::new() }], &options);
        let script = bands::script(&piece, 2, band.threads.clone(), band.strands.clone());
        let script = TyingScript { title: band.title.clone(), made: band.made.clone(), ..script };
        for written in [sheet, draw_chart(&script, &ChartOptions::default())] {
            resvg::usvg::Tree::from_str(&written, &resvg::usvg::Options::default()).unwrap();
            prop_assert!(!written.contains("\"NaN") && !written.contains("\"inf"));
        }
        for color in [true, false] {
            draw_terminal(&band, &TerminalOptions { columns: 9, color, legend: true });
        }
        // What is too large is refused; nothing else may fail.
        let _ = draw_png(&scene, &options);
    }
}
