//! The picture as pixels.

mod bands;

use knotwright_color::{Rgb, color_distance};
use knotwright_numbers::ToNumber;
use knotwright_render::{NoPng, Scene, SvgOptions, draw_png, draw_svg, png_of_band};
use resvg::tiny_skia::Pixmap;
use resvg::usvg::{Options, Tree};

fn options(pixels_per_millimeter: f64) -> SvgOptions {
    SvgOptions { pixels_per_millimeter, ground: Some(Rgb::WHITE), ..SvgOptions::default() }
}

/// FNV-1a, 64 bits (Fowler, Noll & Vo; RFC 9923).
fn hash(bytes: &[u8]) -> u64 {
    let mix = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, mix)
}

#[test]
fn the_hash_is_the_published_one() {
    // The test vectors of RFC 9923: the empty string, "a" and "foobar".
    assert_eq!(hash(b""), 0xcbf2_9ce4_8422_2325);
    assert_eq!(hash(b"a"), 0xaf63_dc4c_8601_ec8c);
    assert_eq!(hash(b"foobar"), 0x8594_4171_f739_67e8);
}

/// The pixels, not the packed bytes, so that a new packer does not look like a new picture.
#[test]
fn pixels_are_the_same_every_time() {
    let set = bands::of_all_kinds();
    let paint =
        || Pixmap::decode_png(&draw_png(&Scene::of(&bands::band(&set, 2)), &options(6.0)).unwrap()).unwrap();
    let (first, second) = (paint(), paint());
    assert_eq!(first.data(), second.data());
    insta::assert_snapshot!(format!("{} x {}, {:016x}", first.width(), first.height(), hash(first.data())), @"53 x 147, 86b8cf7dd9085c84");
}

/// Knots are copied onto the strands; painting the whole SVG must look the same to within a quarter of a pixel.
#[test]
fn it_is_the_picture_that_the_svg_describes() {
    let set = bands::of_all_kinds();
    let scene = Scene::of(&bands::band(&set, 2));
    let copied = Pixmap::decode_png(&draw_png(&scene, &options(10.0)).unwrap()).unwrap();
    let tree = Tree::from_str(&draw_svg(&scene, &options(10.0)), &Options::default()).unwrap();
    let mut whole = Pixmap::new(copied.width(), copied.height()).unwrap();
    resvg::render(&tree, resvg::tiny_skia::Transform::identity(), &mut whole.as_mut());
    let apart = |(a, b): (&u8, &u8)| f64::from(a.abs_diff(*b));
    let mean = copied.data().iter().zip(whole.data()).map(apart).sum::<f64>() / copied.data().len().to_f64();
    assert!(mean < 3.0, "{mean} of 255 apart on average");
}

#[test]
fn the_middle_of_a_knot_has_the_color_of_its_thread() {
    let set = bands::diagonal(3);
    let scene = Scene::of(&bands::reeds(&set, 1));
    let pixels = Pixmap::decode_png(&draw_png(&scene, &options(30.0)).unwrap()).unwrap();
    let bead = scene.beads[0];
    let lit = pixels.pixel((bead.middle.x * 3.0).to_u32() + 9, (bead.middle.y * 3.0).to_u32() - 9).unwrap();
    let found = Rgb::new(lit.red(), lit.green(), lit.blue());
    let of = |thread: usize| color_distance(found, scene.colors[thread]);
    assert!(of(0) < of(1) && of(0) < of(2), "{found}");
}

#[test]
fn too_many_pixels_are_refused_with_their_number() {
    let set = bands::diagonal(24);
    let scene = Scene::of(&bands::band(&set, 2000));
    let refused = draw_png(&scene, &options(100.0)).unwrap_err();
    let NoPng::TooLarge { width, height } = refused else { panic!("{refused:?}") };
    assert!(width > 2000 && height > 500_000);
}

/// Of a long band, one time of what repeats is painted. What is copied lies at most half a pixel beside its place.
#[test]
fn a_long_band_is_put_together_from_what_it_repeats() {
    for (set, sets, scale) in [(bands::diagonal(4), 90, 6.0), (bands::diagonal(7), 150, 7.3)] {
        let band = bands::band(&set, sets);
        let read = |file: Vec<u8>| Pixmap::decode_png(&file).unwrap();
        let whole = read(draw_png(&Scene::of(&band), &options(scale)).unwrap());
        let copied = read(png_of_band(&band, &options(scale)).unwrap());
        assert_eq!(copied.width(), whole.width());
        assert!(copied.height().abs_diff(whole.height()) <= 1, "{} and {}", copied.height(), whole.height());
        assert_ne!(copied.data(), whole.data(), "nothing was copied");
        // By line, whether it looks like one of the three lines where it belongs.
        let line = copied.width().to_usize() * 4;
        let mean = |one: &[u8], other: &[u8]| {
            let apart = one.iter().zip(other).map(|(a, b)| u64::from(a.abs_diff(*b))).sum::<u64>();
            apart.to_f64() / one.len().to_f64()
        };
        let lines: Vec<&[u8]> = whole.data().chunks_exact(line).collect();
        let far = copied.data().chunks_exact(line).enumerate().map(|(at, line)| {
            let near = lines.iter().take(at + 2).skip(at.saturating_sub(1));
            near.map(|there| mean(line, there)).fold(f64::INFINITY, f64::min)
        });
        let worst = far.fold(0.0, f64::max);
        assert!(worst < 25.0, "a line is {worst} of 255 beside its place");
    }
}
