//! The edits themselves: as few and as small as possible.

use knotwright_formatter::{Edit, apply_text_edits, format, format_text};
use knotwright_grammar::parse;

const WELL_SET: &str = "\
pattern \"Mooring line\"

thread kelp teal
thread foam #fff  -- the crest

strands 2 kelp 2 foam

set {
  both { take left 1: forward to center left }
  meet center
}
";

fn edits(text: &str) -> Vec<Edit> {
    format(text, &parse(text))
}

/// What each edit takes away and puts in its place.
fn shown(text: &str) -> Vec<(String, String)> {
    edits(text).into_iter().map(|edit| (edit.span.of(text).to_owned(), edit.text)).collect()
}

fn change(old: &str, new: &str) -> (String, String) {
    (old.to_owned(), new.to_owned())
}

#[test]
fn a_well_set_file_gives_none() {
    assert_eq!(edits(WELL_SET), []);
    assert_eq!(edits(&WELL_SET.replace('\n', "\r\n")), []);
    assert_eq!(edits(""), []);
}

#[test]
fn one_badly_spaced_line_gives_one_edit_on_that_line() {
    let text = WELL_SET.replace("take left 1: forward to", "take left  1 :forward   to");
    assert_eq!(shown(&text), [change("  1 :forward   ", " 1: forward ")]);
}

#[test]
fn one_wrong_indent_gives_one_edit_of_white_space() {
    let text = WELL_SET.replace("  meet", "\tmeet");
    assert_eq!(shown(&text), [change("\t", "  ")]);
}

#[test]
fn blank_lines_too_many_go_alone() {
    let text = WELL_SET.replace("teal\n", "teal\n\n\n  \n");
    assert_eq!(shown(&text), [change("\n  \n", "")]);
    assert_eq!(format_text(&text), WELL_SET.replace("teal\n", "teal\n\n"));
}

#[test]
fn white_space_in_a_blank_line_goes_alone() {
    let text = WELL_SET.replace("\n\nset", "\n  \nset");
    assert_eq!(shown(&text), [change("  ", "")]);
}

#[test]
fn every_badly_set_line_gives_its_own() {
    let text = WELL_SET.replace("thread ", "thread\t").replace("  meet center", "meet  center ");
    let expected = [change("\t", " "), change("\t", " "), change("meet  center ", "  meet center")];
    let found = shown(&text);
    assert_eq!(found[..2], expected[..2]);
    assert_eq!(found.len(), 3);
    assert_eq!(apply_text_edits(&text, &edits(&text)), WELL_SET);
}

#[test]
fn the_parts_of_an_edit_between_two_changes_are_copied() {
    let text = "strands  2 kelp  2 foam\n";
    assert_eq!(shown(text), [change("  2 kelp  ", " 2 kelp ")]);
}
