//! The picture in a terminal.

mod bands;

use knotwright_band::Piece;
use knotwright_band::ends::EndWork;
use knotwright_render::{Band, TerminalOptions, draw_terminal};
use unicode_width::UnicodeWidthStr;

/// The text without its SGR sequences, which are all that may steer the terminal.
fn plain(text: &str) -> String {
    let mut parts = text.split("\x1b[");
    let mut plain = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (steer, rest) = part.split_once('m').expect("a sequence that ends");
        assert!(steer.chars().all(|c| c.is_ascii_digit() || c == ';'), "{steer:?}");
        plain.push_str(rest);
    }
    plain
}

fn widest(text: &str) -> usize {
    plain(text).lines().map(UnicodeWidthStr::width).max().unwrap_or(0)
}

#[test]
fn letters_lie_in_bricks_and_are_explained() {
    let set = bands::diagonal(3);
    let text = draw_terminal(&bands::reeds(&set, 3), &TerminalOptions::default());
    insta::assert_snapshot!(text, @"
    R
      R
    S
      S
    D
      D

    R reed
    S sand
    D dusk
    ");
}

#[test]
fn half_blocks_show_the_colors_of_the_threads() {
    let set = bands::diagonal(3);
    let text =
        draw_terminal(&bands::reeds(&set, 1), &TerminalOptions { color: true, columns: 12, legend: false });
    // The middle of the first knot: reed, #4a7c59, a little darker where the point is not its very middle.
    assert!(text.contains("▀") && text.contains("\x1b[38;2;7"), "{text:?}");
    assert!(text.lines().all(|line| line.ends_with("\x1b[0m") || !line.contains('\x1b')));
    insta::assert_snapshot!(plain(&text));
}

#[test]
fn no_line_is_wider_than_the_terminal() {
    let set = bands::diagonal(60);
    let mut band = bands::band(&set, 1);
    band.threads[0].name = "海".repeat(50);
    for color in [true, false] {
        for columns in [1, 2, 3, 7, 20, 59, 60, 119, 120, 500] {
            let text = draw_terminal(&band, &TerminalOptions { columns, color, legend: true });
            let most = if color && columns < 2 { 2 } else { columns };
            assert!(widest(&text) <= most, "{} in {columns}", widest(&text));
        }
    }
}

#[test]
fn what_does_not_fit_beside_is_shown_below() {
    let set = bands::diagonal(10);
    let text =
        draw_terminal(&bands::band(&set, 1), &TerminalOptions { columns: 4, color: false, legend: false });
    for panel in ["1-5:", "5-9:", "9-10"] {
        assert!(text.contains(panel), "{text}");
    }
    assert_eq!(text.matches('R').count(), 9, "every knot is shown once");
}

#[test]
fn a_name_cannot_steer_the_terminal() {
    let set = bands::diagonal(3);
    let mut band = bands::reeds(&set, 1);
    band.threads[0].name = "reed\x1b]0;owned\x07\u{202e}\r\n\u{9b}2J".into();
    for color in [true, false] {
        let text = draw_terminal(&band, &TerminalOptions { color, ..TerminalOptions::default() });
        assert!(plain(&text).contains("reed]0;owned2J\n"));
        assert!(!text.contains(['\x07', '\r', '\u{9b}', '\u{202e}']));
    }
}

#[test]
fn nothing_to_tie_is_no_panic() {
    let nothing = Piece::empty(3);
    let empty = Band { strands: Vec::new(), threads: Vec::new(), ..bands::band(&nothing, 0) };
    for color in [true, false] {
        let options = TerminalOptions { color, ..TerminalOptions::default() };
        draw_terminal(&bands::reeds(&nothing, 1), &options);
        assert_eq!(draw_terminal(&empty, &options).trim(), "");
    }
}

/// What is thinner than a line of text is said, and no line is longer than the terminal.
#[test]
fn ends_are_said_in_words() {
    let set = bands::diagonal(3);
    let mut band = bands::reeds(&set, 1);
    band.made.begin =
        Some(vec![EndWork::Tassel { length: 20.0 }, EndWork::Plait { bundles: 3, length: 60.0 }]);
    band.made.finish = Some(vec![EndWork::Wrap { thread: 0, turns: 7 }]);
    let text = draw_terminal(&band, &TerminalOptions::default());
    assert!(text.starts_with("begin: tassel 2 cm, plait 3 for 6 cm\n"), "{text}");
    assert!(text.contains("\nfinish: wrap reed 7 turns\n"), "{text}");
    let narrow = draw_terminal(&band, &TerminalOptions { columns: 16, ..TerminalOptions::default() });
    assert!(narrow.starts_with("begin: tassel 2\ncm, plait 3 for\n6 cm\n"), "{narrow}");
}
