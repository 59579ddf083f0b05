//! Random offsets in random broken texts: every question is answered or not, but nothing panics.

use crate::support::{Files, checked, samples};
use knotwright_checker::{Settings, Source};
use knotwright_editor::{
    Checked, HintOptions, World, actions, call_item, colors, completion, definition, files_renamed, fix_all,
    folds, highlights, hints, hover, incoming, lenses, linked, links, outgoing, prepare_rename, references,
    rename, selections, signature, symbols, tokens, tokens_within, workspace_symbols,
};
use knotwright_grammar::Span;
use proptest::prelude::*;
use std::sync::Arc;

/// Asks everything at `offset`.
fn ask(checked: &Checked, offset: u32, to: u32) {
    let files = Files::default();
    let world = World { files: &files.0, library: &files, is_wanted: &|| true };
    let range = Span { start: offset.min(to), end: offset.max(to) };
    hover(checked, offset);
    let _ = completion(checked, &world, offset);
    signature(checked, offset);
    definition(checked, offset);
    references(checked, &world, offset, true);
    highlights(checked, offset);
    linked(checked, offset);
    let _ = prepare_rename(checked, offset);
    let _ = rename(checked, &world, offset, "zz");
    selections(checked.source(), offset);
    tokens_within(checked, range);
    hints(checked, range, HintOptions::default());
    actions(checked, &world, range);
    actions(checked, &world, Span { end: range.start, ..range });
    call_item(checked, offset);
    incoming(checked, &world, offset);
    outgoing(checked, offset);
}

/// Asks everything that is about the whole file.
fn ask_all(checked: &Checked) {
    let own = [Arc::clone(checked.source())];
    let files = Files::default();
    let world = World { files: &own, library: &files, is_wanted: &|| true };
    symbols(checked.source());
    workspace_symbols(checked.source());
    folds(checked.source());
    tokens(checked);
    colors(checked.source());
    links(checked);
    lenses(checked);
    files_renamed(&world, &[("band.knot".into(), "a/band.knot".into())]);
    fix_all(checked, &world, &Settings::default());
}

/// Words, signs and other characters that a pattern could hold, and some it could not.
fn scraps() -> impl Strategy<Value = String> {
    let words = prop::sample::select(vec![
        "pattern",
        "\"T\"",
        "thread",
        "kelp",
        "foam",
        "#123456",
        "strands",
        "8",
        "4",
        "1",
        "0",
        "set",
        "{",
        "}",
        "\n",
        "take",
        "left",
        "right",
        "center",
        "from",
        ":",
        "forward",
        "backward",
        "forward-backward",
        "to",
        "edge",
        "over",
        "until",
        ",",
        "then",
        "both",
        "on",
        "inside",
        "motif",
        "fan",
        "(",
        ")",
        "work",
        "repeat",
        "for",
        "down",
        "up",
        "by",
        "rows",
        "leader",
        "\\",
        "/",
        "x",
        ".",
        "#",
        "expect",
        "start",
        "mirrored",
        "|",
        "mirror",
        "as",
        "--",
        "\"",
        "use",
        "café",
        "🧶",
        "\r\n",
        "section",
        "+",
        "-",
        "*",
        "gauge",
        "length",
        "cm",
        "99999999999",
        "meet",
        "offset",
    ]);
    prop::collection::vec(words, 0..60).prop_map(|words| words.join(" "))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn scraps_of_patterns(text in scraps(), offset in 0_u32..500, to in 0_u32..500) {
        let checked = checked(&text);
        ask(&checked, offset, to);
        ask_all(&checked);
    }

    #[test]
    fn samples_with_a_piece_torn_out(
        which in 0_usize..22, from in 0_usize..3000, torn in 0_usize..80, put in scraps(), offset in -40_i64..40,
    ) {
        let files = samples();
        let file = &files.0[which % files.0.len()];
        let mut from = from % file.text.len();
        let mut end = (from + torn).min(file.text.len());
        while !file.text.is_char_boundary(from) { from -= 1; }
        while !file.text.is_char_boundary(end) { end += 1; }
        let text = format!("{}{}{}", &file.text[..from], put, &file.text[end..]);
        let checked = Checked::new(Arc::new(Source::new(file.path.clone(), text)), &files, &Settings::default());
        let at = (from as i64 + offset).max(0) as u32;
        ask(&checked, at, at + 30);
    }
}
