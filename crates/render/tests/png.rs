//! The picture as pixels.

mod bands;

use knotwright_color::{Rgb, distance};
use knotwright_render::{NoPng, Scene, SvgOptions, png, svg};
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
        || Pixmap::decode_png(&png(&Scene::of(&bands::band(&set, 2)), &options(6.0)).unwrap()).unwrap();
    let (first, second) = (paint(), paint());
    assert_eq!(first.data(), second.data());
    insta::assert_snapshot!(format!("{} x {}, {:016x}", first.width(), first.height(), hash(first.data())), @"53 x 147, 86b8cf7dd9085c84");
}

/// Knots are copied onto the strands; painting the whole SVG must look the same to within a quarter of a pixel.
#[test]
fn it_is_the_picture_that_the_svg_describes() {
    let set = bands::of_all_kinds();
    let scene = Scene::of(&bands::band(&set, 2));
    let copied = Pixmap::decode_png(&png(&scene, &options(10.0)).unwrap()).unwrap();
    let tree = Tree::from_str(&svg(&scene, &options(10.0)), &Options::default()).unwrap();
    let mut whole = Pixmap::new(copied.width(), copied.height()).unwrap();
    resvg::render(&tree, resvg::tiny_skia::Transform::identity(), &mut whole.as_mut());
    let apart = |(a, b): (&u8, &u8)| f64::from(a.abs_diff(*b));
    let mean = copied.data().iter().zip(whole.data()).map(apart).sum::<f64>() / copied.data().len() as f64;
    assert!(mean < 3.0, "{mean} of 255 apart on average");
}

#[test]
fn the_middle_of_a_knot_has_the_color_of_its_thread() {
    let set = bands::diagonal(3);
    let scene = Scene::of(&bands::reeds(&set, 1));
    let pixels = Pixmap::decode_png(&png(&scene, &options(30.0)).unwrap()).unwrap();
    let bead = scene.beads[0];
    let lit = pixels.pixel((bead.middle.x * 3.0) as u32 + 9, (bead.middle.y * 3.0) as u32 - 9).unwrap();
    let found = Rgb::new(lit.red(), lit.green(), lit.blue());
    let of = |thread: usize| distance(found, scene.colors[thread]);
    assert!(of(0) < of(1) && of(0) < of(2), "{found}");
}

#[test]
fn too_many_pixels_are_refused_with_their_number() {
    let set = bands::diagonal(24);
    let scene = Scene::of(&bands::band(&set, 2000));
    let refused = png(&scene, &options(100.0)).unwrap_err();
    let NoPng::TooLarge { width, height } = refused else { panic!("{refused:?}") };
    assert!(width > 2000 && height > 500_000);
}
