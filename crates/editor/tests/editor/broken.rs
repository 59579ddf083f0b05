//! Random offsets in random broken texts: every question is answered or not, but nothing panics.

use crate::support::{Files, checked, samples};
use knotwright_checker::{Settings, Source};
use knotwright_editor::{
    Checked, HintOptions, World, call_item, code_actions, code_lenses, completion, document_colors,
    document_highlights, document_links, document_symbols, files_renamed, find_definition, find_references,
    fix_all, folding_ranges, hover, incoming_calls, inlay_hints, linked_editing_ranges, outgoing_calls,
    prepare_rename, rename, selection_ranges, semantic_tokens, signature_help, tokens_within,
    workspace_symbols,
};
use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use std::sync::Arc;

/// Asks everything at `offset`.
fn ask(checked: &Checked, offset: u32, to: u32) {
    let files = Files::default();
    let world =
        World { files: &files.0, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    let range = Span { start: offset.min(to), end: offset.max(to) };
    hover(checked, offset);
    let _ = completion(checked, &world, offset);
    signature_help(checked, offset);
    find_definition(checked, offset);
    find_references(checked, &world, offset, true);
    document_highlights(checked, offset);
    linked_editing_ranges(checked, &world, offset);
    let _ = prepare_rename(checked, offset);
    let _ = rename(checked, &world, offset, "zz");
    selection_ranges(checked.source(), offset);
    tokens_within(checked.source(), range);
    inlay_hints(checked, range, HintOptions::default());
    code_actions(checked, &world, range);
    code_actions(checked, &world, Span { end: range.start, ..range });
    call_item(checked, offset);
    incoming_calls(checked, &world, offset);
    outgoing_calls(checked, offset);
}

/// Asks everything that is about the whole file.
fn ask_all(checked: &Checked) {
    let own = [Arc::clone(checked.source())];
    let files = Files::default();
    let world =
        World { files: &own, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    document_symbols(checked.source());
    workspace_symbols(checked.source());
    folding_ranges(checked.source());
    semantic_tokens(checked.source());
    document_colors(checked.source());
    document_links(checked);
    code_lenses(checked);
    files_renamed(&world, &[("band.knot".into(), "a/band.knot".into())]);
    fix_all(checked, &world);
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
        let at = (from.to_i64() + offset).max(0).to_u32();
        ask(&checked, at, at + 30);
    }
}
