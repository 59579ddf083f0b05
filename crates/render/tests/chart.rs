//! The working chart.

mod bands;

use knotwright_band::{Kind, Piece};
use knotwright_render::{Band, ChartOptions, chart};

fn black_and_white() -> ChartOptions {
    ChartOptions { color: false, ..ChartOptions::default() }
}

/// Where a form of a thread is used: the `x` and `y` of every use.
fn places(chart: &str, name: &str) -> Vec<String> {
    let begin = format!("<use href=\"#{name}\" ");
    let uses = chart.split(&begin).skip(1);
    uses.filter_map(|rest| Some(rest.split_once("/>")?.0.to_owned())).collect()
}

#[test]
fn a_set_with_all_kinds() {
    let set = bands::of_all_kinds();
    insta::assert_snapshot!(chart(&bands::band(&set, 1), &ChartOptions::default()));
}

#[test]
fn a_leaders_rows_in_black_and_white() {
    let set = bands::led();
    insta::assert_snapshot!(chart(&bands::band(&set, 1), &black_and_white()));
}

#[test]
fn kinds_differ_in_shape_not_only_in_color() {
    let outline = |kind| {
        let set = Piece::tie(2, [(0, kind)]).unwrap();
        let chart = chart(&bands::band(&set, 1), &black_and_white());
        let (_, shape) = chart.split_once("<defs>").unwrap();
        shape.split_once(" d=\"").unwrap().1.split_once('"').unwrap().0.to_owned()
    };
    let mut outlines =
        [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward].map(outline).to_vec();
    outlines.sort_unstable();
    outlines.dedup();
    assert_eq!(outlines.len(), 4);
}

#[test]
fn without_color_there_is_black_white_and_gray_only() {
    let set = bands::diagonal(3);
    let chart = chart(&bands::reeds(&set, 2), &black_and_white());
    for color in chart.split("\"#").skip(1).filter_map(|rest| rest.split('"').next()) {
        let gray = color.len() == 3 && color.chars().all(|digit| color.starts_with(digit));
        let known = ["ffffff", "000000", "f1efe9"].contains(&color);
        // What is no color is the name of a ribbon.
        assert!(gray || known || color.len() < 3, "{color}");
    }
}

#[test]
fn the_legend_tells_of_the_kinds_that_are_there_and_of_no_other() {
    let set = bands::diagonal(3);
    let forward = chart(&bands::reeds(&set, 1), &ChartOptions::default());
    assert!(forward.contains(">forward: left over right"));
    for absent in ["backward:", "forward-backward:", "leader"] {
        assert!(!forward.contains(absent), "{absent}");
    }
    let led = bands::led();
    let led = chart(&bands::band(&led, 1), &ChartOptions::default());
    assert!(led.contains("the leader ties on the strand") && led.contains("the strand ties on the leader"));
    assert!(!led.contains("forward:"));
}

#[test]
fn rows_are_numbered_from_one_on_both_sides() {
    let set = bands::diagonal(4);
    let chart = chart(&bands::band(&set, 2), &ChartOptions::default());
    // Three knots in a diagonal are three rows, the next set adds two. 1 to 4 are the positions above as well.
    assert_eq!(chart.matches(">5</text>").count(), 2);
    assert_eq!(chart.matches(">1</text>").count(), 3);
    assert_eq!(chart.matches(">6</text>").count(), 0);
}

#[test]
fn every_knot_has_a_ribbon_in_its_place() {
    let set = bands::diagonal(3);
    let chart = chart(&bands::reeds(&set, 3), &ChartOptions::default());
    for thread in ["f0", "f1", "f2"] {
        let places = places(&chart, thread);
        assert_eq!(places.len(), 2);
        assert_ne!(places[0], places[1]);
    }
}

#[test]
fn the_order_below_is_that_of_the_strands_at_the_end() {
    let set = bands::diagonal(3);
    let chart = chart(&bands::reeds(&set, 1), &ChartOptions::default());
    // The first bold text is the title.
    let letters: String =
        chart.split("font-weight=\"bold\">").skip(2).filter_map(|rest| rest.chars().next()).take(6).collect();
    assert_eq!(letters, "RSDSDR", "reed sand dusk hang there at the start, sand dusk reed at the end");
}

#[test]
fn names_are_text_whatever_they_say() {
    let set = bands::diagonal(3);
    let mut band = bands::reeds(&set, 1);
    band.threads[1].name = "<img src=x onerror=alert(1)>".into();
    band.title = "a & b".into();
    let chart = chart(&band, &ChartOptions::default());
    assert!(!chart.contains("<img"));
    assert!(chart.contains("&lt;img src=x onerror=alert(1)&gt;"));
    assert!(chart.contains("<title>a &amp; b</title>"));
}

#[test]
fn a_long_chart_grows_with_its_knots() {
    let set = bands::diagonal(24);
    let size = |sets| chart(&bands::band(&set, sets), &ChartOptions::default()).len() as f64;
    let (early, late) = (size(200) - size(100), size(1100) - size(1000));
    assert!((late / early - 1.0).abs() < 0.06, "{early} bytes, then {late}");
}

#[test]
fn nothing_to_tie_is_a_chart_without_rows() {
    let nothing = Piece::empty(3);
    let empty = Band { strands: Vec::new(), ..bands::band(&nothing, 0) };
    for band in [bands::reeds(&nothing, 1), empty] {
        let chart = chart(&band, &ChartOptions::default());
        assert!(chart.ends_with("</svg>\n"));
        assert!(!chart.contains("<use"));
    }
}
