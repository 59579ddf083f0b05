//! How long a picture takes: 100,000 knots are to be laid out and written in under a second.

use knotwright_band::{Kind, Piece};
use knotwright_render::{Band, BandPart, BandThread, KnotSize, Scene, StrandStart, SvgOptions, draw_svg};

fn main() {
    divan::main();
}

#[divan::bench(args = [1, 40, 4000])]
fn svg_of_a_diagonal_of_24_strands(bencher: divan::Bencher<'_, '_>, sets: usize) {
    let piece = Piece::tie(24, (0..23).map(|gap| (gap, Kind::Forward))).unwrap_or_else(|_| Piece::empty(24));
    let band = Band {
        title: String::new(),
        threads: vec![BandThread { name: "kelp".into(), color: Default::default(), shades: Vec::new() }],
        beads: Vec::new(),
        strands: vec![0; 24],
        gauge: KnotSize::default(),
        start: StrandStart::Loose,
        made: Default::default(),
        taken: None,
        parts: vec![BandPart { piece: &piece, steps: &[], wish: None, beads: Vec::new(), set: 0 }; sets],
    };
    bencher
        .counter(divan::counter::ItemsCount::new(sets * 23))
        .bench(|| draw_svg(&Scene::of(&band), &SvgOptions::default()));
}
