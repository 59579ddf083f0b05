//! `design`: from a picture, a text or a pattern to knots. What is printed is tied by the program itself and compared, knot
//! by knot, with what was asked for.

use crate::stage::{Said, Stage};
use serde_json::Value;

const KELP: [u8; 4] = [0x1f, 0x5d, 0x50, 0xff];
const FOAM: [u8; 4] = [0xf4, 0xf1, 0xe8, 0xff];
const CORAL: [u8; 4] = [0xe2, 0x72, 0x5b, 0xff];

/// A PNG of this many pixels.
fn png(width: u32, height: u32, color: impl Fn(u32, u32) -> [u8; 4]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    let pixels: Vec<u8> =
        (0..height).flat_map(|y| (0..width).map(move |x| (x, y))).flat_map(|(x, y)| color(x, y)).collect();
    encoder.write_header().unwrap().write_image_data(&pixels).unwrap();
    bytes
}

/// The knots of a pattern: row and gap from 1, and the color that shows.
fn seen(stage: &Stage, text: &str) -> Vec<(u64, u64, String)> {
    let said = stage.run_with_input(&["export", "-"], text);
    assert_eq!(said.code, 0, "{said:?}");
    let band: Value = serde_json::from_str(&said.out).unwrap();
    let colors: std::collections::BTreeMap<&str, &str> = (band["threads"].as_array().unwrap().iter())
        .map(|thread| (thread["name"].as_str().unwrap(), thread["color"].as_str().unwrap()))
        .collect();
    let knot = |knot: &Value| {
        let color = colors[knot["color"].as_str().unwrap()].to_owned();
        (knot["row"].as_u64().unwrap(), knot["gap"].as_u64().unwrap(), color)
    };
    let mut knots: Vec<_> = band["knots"].as_array().unwrap().iter().map(knot).collect();
    knots.sort();
    knots
}

fn hex([red, green, blue, _]: [u8; 4]) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// What is printed has no error and is set as the formatter sets it.
fn assert_good(stage: &Stage, said: &Said) {
    assert_eq!(said.code, 0, "{said:?}");
    assert_eq!(stage.run_with_input(&["check", "-"], &said.out).code, 0, "{}", said.out);
    assert_eq!(stage.run_with_input(&["format", "-"], &said.out).out, said.out);
}

#[test]
fn a_picture_becomes_a_band_that_shows_it() {
    let stage = Stage::with(&[]);
    // A buoy: a disc in the middle. Each pixel is four times as large as it need be.
    let color = |x: u32, y: u32| {
        if (x / 4).abs_diff(5).pow(2) + (y / 4).abs_diff(5).pow(2) < 12 { CORAL } else { FOAM }
    };
    stage.write("harbor-buoy.png", png(48, 48, color));
    for close in [false, true] {
        let mut arguments = vec!["design", "harbor-buoy.png", "--strands", "12", "--rows", "12"];
        arguments.extend(close.then_some("--close"));
        let said = stage.run(&arguments);
        assert_good(&stage, &said);
        assert!(said.out.starts_with("pattern \"Harbor buoy\"\n"), "{}", said.out);
        assert_eq!(said.out.contains("expect start"), close);
        assert!(said.err.contains("turning knot") && said.err.contains("it is proved"), "{}", said.err);
        let wished: Vec<_> = (0..12_u32)
            .flat_map(|row| (row % 2..11).step_by(2).map(move |gap| (row, gap)))
            .map(|(row, gap)| {
                (u64::from(row) + 1, u64::from(gap) + 1, hex(color((gap + 1) * 4, row * 4 + 2)))
            })
            .collect();
        assert_eq!(seen(&stage, &said.out), wished);
    }
}

#[test]
fn letters_become_a_band() {
    let stage = Stage::with(&[]);
    let said = stage.run(&["design", "--letters", "AHOY", "--close"]);
    assert_good(&stage, &said);
    assert!(said.out.contains("pattern \"AHOY\"") && said.out.contains("expect start"), "{}", said.out);
    let knots = seen(&stage, &said.out);
    let ink = knots.iter().filter(|(.., color)| color == "#eef3ea").count();
    assert!(ink > 40 && ink < knots.len() / 2, "{ink} of {}", knots.len());
    let narrow = stage.run(&["design", "--letters", "AHOY", "--strands", "6"]);
    assert!(narrow.code == 2 && narrow.err.contains("need at least 11 strands"), "{narrow:?}");
}

/// Two turning knots that take back one another, in each row.
const WASTEFUL: &str = "\
pattern \"Low tide\"
thread kelp #1f5d50
thread sand #e3c888
strands kelp sand kelp sand

set {
  rows {
    > <
     >
    > <
     <
  }
  expect start
}
";

#[test]
fn the_same_face_with_fewer_turning_knots() {
    let stage = Stage::with(&[("low-tide.knot", WASTEFUL)]);
    for start in ["free", "given", "even"] {
        let said = stage.run(&["design", "low-tide.knot", "--improve", "--start", start]);
        if start == "even" {
            continue;
        }
        assert_good(&stage, &said);
        assert_eq!(seen(&stage, &said.out), seen(&stage, WASTEFUL));
        assert!(
            said.err.contains("a set instead of 6") || said.err.contains("stays as it is"),
            "{}",
            said.err
        );
    }
    assert_eq!(stage.read("low-tide.knot"), WASTEFUL);
}

/// Strands that alternate, and a wish in the set.
const WISH: &str = "\
pattern \"Slack tide\"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam kelp foam

set {
  face k kelp, f foam {
    k k f
     k f
    f f k
     f ?
  }
  expect start
}
";

#[test]
fn a_wish_is_tied_and_the_face_holds_it_from_then_on() {
    let stage = Stage::with(&[("wish.knot", WISH)]);
    let found = stage.run(&["check", "wish.knot"]);
    assert!(found.code == 0 && found.out.contains("face-not-tied"), "{found:?}");
    let said = stage.run(&["design", "wish.knot"]);
    assert_good(&stage, &said);
    assert!(said.out.starts_with(WISH.split("  expect").next().unwrap()), "{}", said.out);
    assert!(said.out.ends_with("  expect start\n}\n"), "{}", said.out);
    let slipped = said.out.replacen("    f f k", "    f f f", 1);
    let found = stage.run_with_input(&["check", "-"], &slipped);
    assert!(found.code == 1 && found.out.contains("face-differs"), "{found:?}");
    assert_eq!(stage.run_with_input(&["design", "-"], &said.out).code, 2, "it is tied already");
}

#[test]
fn a_wish_that_cannot_be_tied_is_an_error_until_the_strands_are_free() {
    let stage = Stage::with(&[]);
    let wish = WISH.replace("strands kelp foam kelp foam kelp foam", "strands 4 kelp 2 foam");
    let found = stage.run_with_input(&["check", "-"], &wish);
    assert!(found.code == 1 && found.out.contains("face-cannot-be-tied"), "{found:?}");
    let said = stage.run_with_input(&["design", "-"], &wish);
    assert!(said.code == 1 && said.err.contains('#'), "{said:?}");
    assert_good(&stage, &stage.run_with_input(&["design", "-", "--start", "free"], &wish));
    let nearest = stage.run_with_input(&["design", "-", "--nearest"], &wish);
    assert_good(&stage, &nearest);
    assert!(nearest.out.matches('?').count() > 1, "{}", nearest.out);
}

#[test]
fn what_cannot_be_tied_is_shown_or_tied_as_near_as_can_be() {
    let stage = Stage::with(&[]);
    // Three colors at random: after a few rows no strand of the right color is near.
    let color = |x: u32, y: u32| [KELP, FOAM, CORAL][((x * 7 + y * 13 + x * y * 5) % 11 % 3) as usize];
    stage.write("foam.png", png(8, 12, color));
    let said = stage.run(&["design", "foam.png", "--strands", "8", "--rows", "12"]);
    assert_eq!((said.code, said.out.as_str()), (1, ""), "{said:?}");
    assert!(
        said.err.contains("cannot be tied") && said.err.contains('#') && said.err.contains("--nearest"),
        "{said:?}"
    );
    for (more, how) in [
        (&["--close"][..], " in a set that closes, however the strands hang at the start"),
        (
            &["--close", "--start", "even"],
            " in a set that closes with strands that hang alike from both edges",
        ),
        (&[], ", however the strands hang at the start"),
    ] {
        let said = stage.run(&[&["design", "foam.png", "--strands", "8", "--rows", "12"], more].concat());
        let first = said.err.lines().next().unwrap();
        assert_eq!(first, format!("error: this face cannot be tied{how}: that is proved"));
    }
    let said = stage.run(&["design", "foam.png", "--strands", "8", "--rows", "12", "--nearest"]);
    assert_good(&stage, &said);
    assert!(said.err.contains("of another color"), "{}", said.err);
}

#[test]
fn the_knots_that_cannot_are_hatched_in_a_picture() {
    let stage = Stage::with(&[]);
    let wish = WISH.replace("strands kelp foam kelp foam kelp foam", "strands 4 kelp 2 foam");
    let hatched = |arguments: &[&str], text: &str| {
        let said =
            stage.run_with_input(&[&["design", "-", "--picture", "face.svg"], arguments].concat(), text);
        (said, stage.read("face.svg").matches("fill=\"url(#hatch)\"").count())
    };
    let (said, cannot) = hatched(&[], &wish);
    assert_eq!((said.code, cannot), (1, said.err.lines().take(5).collect::<String>().matches('#').count()));
    assert!(cannot > 0, "{said:?}");
    let (said, given_up) = hatched(&["--nearest"], &wish);
    assert_eq!((said.code, given_up), (0, cannot), "{said:?}");
    let (said, none) = hatched(&[], WISH);
    assert_eq!((said.code, none), (0, 0), "{said:?}");
    assert!(stage.read("face.svg").contains("<title>Slack tide</title>"));
    let said = stage.run_with_input(&["design", "-", "--picture", "face.png"], &wish);
    assert_eq!(said.code, 1);
    assert!(std::fs::read(stage.path("face.png")).unwrap().starts_with(b"\x89PNG"));
}

#[test]
fn the_same_face_in_another_size() {
    let stage = Stage::with(&[("low-tide.knot", WASTEFUL)]);
    let said = stage.run(&["design", "low-tide.knot", "--improve", "--strands", "8", "--rows", "10"]);
    assert_good(&stage, &said);
    assert!(
        said.out.starts_with("pattern \"Low tide\"\n") && said.out.contains("expect start"),
        "{}",
        said.out
    );
    let seen = seen(&stage, &said.out);
    assert_eq!((seen.len(), seen.iter().map(|(row, ..)| *row).max()), (35, Some(10)));
    assert!(said.err.contains("4 strands and 4 rows; here it has 8 and 10"), "{}", said.err);
    let wide = stage.run(&["design", "low-tide.knot", "--improve", "--strands", "12"]);
    assert!(wide.err.contains("here it has 12 and 12"), "it keeps its shape: {}", wide.err);
    assert_good(&stage, &wide);
}

#[test]
fn threads_come_from_a_palette_and_colors_are_few() {
    let stage = Stage::with(&[(
        "threads.knot",
        "pattern \"Threads\"\nthread moss #1f5d51\nthread milk #f4f1e9\nthread brick #b22222\n",
    )]);
    let color = |x: u32, y: u32| [KELP, FOAM, CORAL][((x + y) / 6 % 3) as usize];
    stage.write("strips.png", png(24, 24, color));
    let said =
        stage.run(&["design", "strips.png", "--palette", "threads.knot", "--strands", "8", "--nearest"]);
    assert_good(&stage, &said);
    assert!(
        said.out.contains("thread moss #1f5d51") && said.out.contains("thread brick #b22222"),
        "{}",
        said.out
    );
    let said = stage.run(&["design", "strips.png", "--colors", "2", "--strands", "8", "--nearest"]);
    assert_eq!(said.out.matches("\nthread ").count(), 2, "{}", said.out);
}

#[test]
fn bad_input_is_refused_in_one_sentence() {
    let stage = Stage::with(&[
        ("a.png", "no picture"),
        ("low-tide.knot", WASTEFUL),
        ("none.knot", "pattern \"None\"\n"),
    ]);
    stage.write("dot.png", png(2, 2, |_, _| KELP));
    stage.write("broken.png", &png(8, 8, |_, _| KELP)[..40]);
    for (arguments, about) in [
        (&["design", "a.png"][..], "not a PNG"),
        (&["design", "broken.png"], "cannot be read"),
        (&["design", "none.png"], "no such file"),
        (&["design", "dot.png", "--strands", "1"], "--strands"),
        (&["design", "dot.png", "--colors", "40"], "--colors"),
        (&["design", "dot.png", "--rows", "0"], "--rows"),
        (&["design", "dot.png", "--start", "given"], "--improve"),
        (&["design", "dot.png", "--improve"], "takes a pattern"),
        (&["design", "dot.png", "--strands", "200", "--rows", "9000"], "at most 20000"),
        (&["design", "dot.png", "--palette", "none.knot"], "declares no thread"),
        (&["design", "low-tide.knot"], "--improve"),
        (&["design", "low-tide.knot", "--rows", "4"], "for a picture"),
        (&["design", "low-tide.knot", "--improve", "--rows", "4", "--start", "given"], "no start yet"),
        (&["design", "dot.png", "--picture", "face.jpeg"], "`.svg` or `.png`"),
        (&["design", "--letters", "\u{1f30a}"], "no letter"),
        (&["design", "--letters", "A{"], "title"),
        (&["design"], "required"),
        #[cfg(unix)]
        (&["design", "/dev/zero"], "neither a file nor a folder"),
        #[cfg(unix)]
        (&["design", "dot.png", "--palette", "/dev/zero"], "neither a file nor a folder"),
    ] {
        let said = stage.run(arguments);
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{arguments:?}: {said:?}");
        assert!(said.err.contains(about), "{arguments:?}: {}", said.err);
    }
}
