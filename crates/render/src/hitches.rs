//! How each kind of knot is tied, as a drawing of three steps: the first half hitch, the second, and both pulled tight.
//!
//! Drawn from how the thread runs. In a half hitch the strand in hand goes over the taut strand, back under it, and comes
//! up through the loop, so that it lies over its own beginning. Whatever runs underneath is drawn first; each piece has a
//! rim in the color of the ground, which parts it from what it crosses.

use knotwright_band::Kind;

use crate::text::write_escaped;

/// All kinds, in the order in which they are explained.
pub(crate) const KINDS: [Kind; 4] =
    [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward];

/// A drawing's width and height, in pixels.
const SIZE: (u32, u32) = (330, 120);
/// From one step to the next, and how wide one is.
const STEP: u32 = 112;
const WIDE: u32 = 100;

/// A strand of thread is drawn in three strokes: a rim, its color, and light.
const HAND: [(&str, &str, &str); 3] =
    [("#fff", "13", "butt"), ("#0f4c5c", "9.5", "round"), ("#1f8297", "6", "round")];
const TAUT: [(&str, &str, &str); 3] =
    [("#fff", "13", "butt"), ("#7a5a25", "9.5", "round"), ("#e6bd6a", "6", "round")];

/// Pieces from the lowest to the highest: whether it is the strand in hand, and its line.
type Layers = &'static [(bool, &'static str)];

/// The first half hitch with the left strand in hand, open.
const FIRST: Layers = &[
    (true, "M84 64C98 56 96 36 80 34C66 33 54 36 46 42"),
    (false, "M66 4L56 116"),
    (true, "M20 4C18 38 28 60 54 64C68 66 78 67 84 64"),
    (true, "M46 42C34 50 34 66 36 82L40 108"),
];

/// The second half hitch from the left, under a first that is pulled tight.
const SECOND_FROM_LEFT: Layers = &[
    (true, "M84 84C98 76 96 56 80 54C66 53 54 56 46 62"),
    (false, "M68 4L56 116"),
    (true, "M48 26C20 34 18 78 54 84C68 86 78 87 84 84"),
    (true, "M46 62C34 70 34 80 36 92L40 114"),
    (true, "M18 4C22 16 34 18 48 19L76 27"),
];

/// The second half hitch from the right, under a first from the left that is pulled tight.
const SECOND_FROM_RIGHT: Layers = &[
    (true, "M36 84C22 76 24 56 40 54C54 53 68 56 76 62"),
    (false, "M60 4L64 116"),
    (true, "M76 28C102 34 102 78 68 84C54 86 44 87 36 84"),
    (true, "M76 62C88 70 88 80 86 92L82 114"),
    (true, "M18 4C22 16 34 18 46 19L76 28"),
];

/// Two half hitches from the left, pulled tight: the strands have changed places.
const TIGHT_CHANGED: Layers = &[
    (false, "M74 4C70 30 60 44 52 58C42 76 30 92 24 116"),
    (true, "M40 56L70 78C76 90 80 100 82 116"),
    (true, "M22 4C26 24 34 36 42 42L72 62"),
];

/// One from each side, pulled tight: each strand is where it was.
const TIGHT_TURNED: Layers = &[
    (false, "M62 4C58 30 56 44 56 58C56 76 62 92 70 116"),
    (true, "M76 60L42 72C32 84 26 98 22 116"),
    (true, "M22 4C26 24 32 38 42 46L76 60"),
];

/// The drawing of a kind of knot as one SVG document; `title` says what it is.
pub fn knot_drawing(kind: Kind, title: &str) -> String {
    let (width, height) = SIZE;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {width} {height}\">\n<title>"
    );
    write_escaped(&mut out, title);
    out.push_str("</title>\n<g fill=\"none\" stroke-linejoin=\"round\">\n");
    let steps = match kind {
        Kind::Forward | Kind::Backward => [FIRST, SECOND_FROM_LEFT, TIGHT_CHANGED],
        Kind::ForwardBackward | Kind::BackwardForward => [FIRST, SECOND_FROM_RIGHT, TIGHT_TURNED],
    };
    for (at, layers) in (0_u32..).zip(steps) {
        out.push_str(&step(at * STEP + 2, kind.left_works(), layers));
    }
    out.push_str("</g>\n</svg>\n");
    out
}

/// One step on a light ground, or its mirror image.
fn step(x: u32, from_left: bool, layers: Layers) -> String {
    let height = SIZE.1;
    let mirror =
        if from_left { String::new() } else { format!(" transform=\"translate({WIDE} 0) scale(-1 1)\"") };
    let mut out = format!(
        "<g transform=\"translate({x} 0)\">\n<rect width=\"{WIDE}\" height=\"{height}\" rx=\"8\" fill=\"#fff\"/>\n\
         <g{mirror}>\n"
    );
    for (is_hand, line) in layers {
        for (color, wide, cap) in if *is_hand { HAND } else { TAUT } {
            out.push_str(&format!(
                "<path d=\"{line}\" stroke=\"{color}\" stroke-width=\"{wide}\" stroke-linecap=\"{cap}\"/>\n"
            ));
        }
    }
    out.push_str("</g>\n</g>\n");
    out
}
