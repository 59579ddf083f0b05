//! The strands at a spot: the same as the tied part says, and with names, ranges and mirrors as they are there.

use knotwright_checker::{FileId, Known, NoLibrary, PartKind, Pattern, Settings, Source, Spot, View, check};
use knotwright_grammar::tree::Statement;
use knotwright_numbers::ToNumber;
use std::sync::Arc;

const TEXT: &str = r#"pattern "Slipway"
thread rope #c8a165
thread tar #222222
strands 2 rope 2 tar | mirror
motif fan(size, hue) {
  take left 1 as lead: forward size down to 1
  expect hue
}
opening { take left 1: forward to edge }
set {
  on right 4 { mirrored { work fan(3, tar) } }
  take left 2: backward 1
}
"#;

fn tied() -> Pattern {
    check(Arc::new(Source::new("band.knot", TEXT)), &NoLibrary, &Settings::default()).pattern.unwrap()
}

/// The spot before statement `index` of the last block that begins before `text`.
fn spot(text: &str, index: usize) -> Spot {
    let at = TEXT.find(text).unwrap();
    let block = TEXT[..at].rfind('{').unwrap().to_u32();
    Spot { file: FileId::CHECKED, block, index }
}

fn more(text: &str) -> Vec<Statement> {
    let source = Source::new("more", format!("set {{\n{text}\n}}\n"));
    source.parsed.tree.statements[0].node.block().unwrap().statements.clone()
}

fn look(at: Spot, text: &str) -> View {
    tied().look(at, &more(text)).unwrap()
}

#[test]
fn a_motif_is_seen_as_it_is_worked_first() {
    let view = look(spot("expect hue", 1), "");
    assert_eq!((view.part, view.within, view.mirrored), (PartKind::Set, (4, 7), true));
    let known: Vec<_> = view.names.iter().map(|(name, value)| (name.as_str(), *value)).collect();
    assert_eq!(known[..2], [("size", Known::Number(3)), ("hue", Known::Thread(1))]);
    // The lead went three to the left of the band, the next ones after it.
    assert_eq!(known[2], ("lead", Known::Position(4)));
    assert_eq!(view.order, [0, 1, 2, 3, 7, 6, 5, 4]);
}

#[test]
fn the_set_begins_as_the_opening_left_it() {
    let view = look(spot("on right", 0), "");
    assert_eq!(view.knots, 0);
    assert_eq!(view.threads, [0, 1, 1, 1, 1, 0, 0, 0]);
}

#[test]
fn more_statements_are_tied_before_the_look() {
    let view = look(spot("on right", 2), "take left 3: forward 2, forward 0");
    assert_eq!(view.held, Some(4));
    assert!(view.fits);
    assert!(!look(spot("on right", 2), "take left 8: forward 1").fits);
    assert!(!look(spot("on right", 2), "take left 9: forward 1").fits);
}

#[test]
fn what_is_never_tied_is_never_seen() {
    assert_eq!(tied().look(Spot { file: FileId::CHECKED, block: 7, index: 0 }, &[]), None);
}
