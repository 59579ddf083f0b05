//! The picture as text.

mod bands;

use knotwright_numbers::ToNumber;
use knotwright_render::{Band, Scene, StrandStart, SvgOptions, draw_svg};

fn picture(band: &Band<'_>) -> String {
    draw_svg(&Scene::of(band), &SvgOptions::default())
}

#[test]
fn one_set_of_three_strands() {
    let set = bands::diagonal(3);
    insta::assert_snapshot!(picture(&bands::reeds(&set, 1)));
}

#[test]
fn a_leaders_rows_from_a_loop() {
    let set = bands::led();
    let band = Band { start: StrandStart::Loop(vec![(0, 1), (2, 3)]), ..bands::band(&set, 1) };
    insta::assert_snapshot!(picture(&band));
}

#[test]
fn the_same_band_gives_the_same_bytes() {
    let set = bands::of_all_kinds();
    assert_eq!(picture(&bands::band(&set, 5)), picture(&bands::band(&set, 5)));
}

#[test]
fn each_further_set_adds_as_much_as_the_one_before() {
    let set = bands::diagonal(24);
    let size = |sets| picture(&bands::band(&set, sets)).len().to_f64();
    let (early, late) = (size(200) - size(100), size(1100) - size(1000));
    assert!((late / early - 1.0).abs() < 0.05, "{early} bytes, then {late}");
    let a_knot = late / (100.0 * 23.0);
    assert!(a_knot < 60.0, "{a_knot} bytes a knot");
}

#[test]
fn a_forms_shape_is_written_once() {
    let set = bands::diagonal(3);
    let shapes = |sets| picture(&bands::reeds(&set, sets)).matches("<linearGradient").count();
    assert_eq!(shapes(3), shapes(30));
}

#[test]
fn a_title_is_text_whatever_it_says() {
    let set = bands::diagonal(3);
    let mut band = bands::reeds(&set, 1);
    band.title = "</title><script>alert('x')</script> & \"tide\" \u{1}\u{ffff}".into();
    let picture = picture(&band);
    let written = "<title>&lt;/title&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;tide&quot;  </title>";
    assert!(picture.contains(written), "{}", picture.lines().nth(1).unwrap_or_default());
}

#[test]
fn a_prefix_is_before_every_name_and_cannot_break_out() {
    let set = bands::of_all_kinds();
    let options = SvgOptions { prefix: "a\"><b-1".into(), ..SvgOptions::default() };
    let picture = draw_svg(&Scene::of(&bands::band(&set, 1)), &options);
    for (mark, named) in [("id=\"", "ab-1"), ("href=\"#", "ab-1"), ("url(#", "ab-1")] {
        for after in picture.split(mark).skip(1) {
            assert!(after.starts_with(named), "{}", &after[..12]);
        }
    }
}

#[test]
fn knots_say_their_step_only_when_asked() {
    let set = bands::diagonal(3);
    let scene = Scene::of(&bands::reeds(&set, 2));
    assert!(!draw_svg(&scene, &SvgOptions::default()).contains("data-step"));
    let asked = draw_svg(&scene, &SvgOptions { steps: true, ..SvgOptions::default() });
    assert_eq!(asked.matches("data-step=\"1.0\"").count(), 2);
}

#[test]
fn the_ground_is_only_there_when_asked_for() {
    let set = bands::diagonal(3);
    let scene = Scene::of(&bands::reeds(&set, 1));
    assert!(!draw_svg(&scene, &SvgOptions::default()).contains("<rect"));
    let dark = SvgOptions { ground: Some("#14161a".parse().unwrap()), ..SvgOptions::default() };
    assert!(draw_svg(&scene, &dark).contains("<rect width=\"100%\" height=\"100%\" fill=\"#14161a\"/>"));
}
