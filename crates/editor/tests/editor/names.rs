//! Definition, references, highlights, rename, linked editing, calls, and paths that follow their files.

use crate::support::{Files, HEAD, at, checked_samples, cursor, in_set, samples};
use knotwright_checker::Source;
use knotwright_editor::{
    Checked, FileEdit, NameIndex, TextEdit, World, apply_text_edits, call_item, document_highlights,
    files_renamed, find_definition, find_references, incoming_calls, linked_editing_ranges, outgoing_calls,
    prepare_rename, rename,
};
use knotwright_numbers::ToNumber;
use std::sync::Arc;

fn alone(files: &Files) -> World<'_> {
    World { files: &files.0, library: files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody }
}

fn done(text: &str, edits: &[FileEdit]) -> String {
    let edits: Vec<TextEdit> =
        edits.iter().map(|edit| TextEdit { span: edit.span, text: edit.text.clone() }).collect();
    apply_text_edits(text, &edits)
}

fn renamed(marked: &str, new: &str) -> Result<String, String> {
    let (checked, offset) = at(marked);
    let files = Files::default();
    let edits = rename(&checked, &alone(&files), offset, new).map_err(|refusal| refusal.0)?;
    Ok(done(checked.text(), &edits))
}

const FAN: &str = "motif fan(size, hue) {\n  for step size down to 1 {\n    take left 1 (hue) as lead: forward step\n    \
                   take lead: backward step\n  }\n}\nset {\n  work fan(3, kelp)\n}\n";

#[test]
fn a_name_leads_to_where_it_is_given() {
    for (mark, given) in [
        ("size d‸own", "size, hue"),
        ("(hu‸e)", "hue) {"),
        ("forward ste‸p", "step size"),
        ("take lea‸d", "lead:"),
        ("work fa‸n", "fan(size"),
        ("kel‸p)", "kelp #1f"),
    ] {
        let plain = mark.replace('‸', "");
        let (checked, offset) = at(&format!("{HEAD}{FAN}").replacen(&plain, mark, 1));
        let found = if plain == "size down" { None } else { find_definition(&checked, offset) };
        let Some(found) = found else { continue };
        assert_eq!(found.span.start.to_usize(), checked.text().find(given).unwrap(), "{mark}");
    }
}

#[test]
fn a_label_lives_in_its_block() {
    let (checked, offset) = in_set(
        "repeat 2 {\n  take left 1 as le‸ad: forward 1\n  take lead: forward 1\n}\ntake lead: forward 1",
    );
    assert_eq!(document_highlights(&checked, offset).len(), 2);
    assert_eq!(linked(&checked, offset), 2);
}

/// How many places are edited as one, where there is no other file.
fn linked(checked: &Checked, offset: u32) -> usize {
    linked_editing_ranges(checked, &alone(&Files::default()), offset).len()
}

#[test]
fn names_are_edited_as_one_unless_another_file_uses_them() {
    let (counter, offset) = in_set("for ste‸p 3 down to 1 { take left step: forward 1 }");
    assert_eq!(linked(&counter, offset), 2);
    let (thread, offset) = in_set("take left 1 (ke‸lp): forward 1");
    assert_eq!(linked(&thread, offset), 3, "where it is declared, hung and promised");
    let (unknown, offset) = in_set("take left 1 (wra‸ck): forward 1");
    assert_eq!(linked(&unknown, offset), 0);
    let library = "motif fan() {\n  take left 1: forward 3\n}\nmotif own() {\n  work own()\n}\n";
    let user = "use fan from \"fans.knot\"\nset {\n  work fan()\n}\n";
    let files = Files::new(&[("fans.knot", library), ("pier.knot", user)]);
    let linked = |path: &str, name: &str| {
        let checked = files.checked(path);
        let offset = checked.text().find(name).unwrap().to_u32();
        linked_editing_ranges(&checked, &alone(&files), offset).len()
    };
    assert_eq!(
        [linked("fans.knot", "own"), linked("fans.knot", "fan"), linked("pier.knot", "fan")],
        [2, 0, 0]
    );
}

#[test]
fn renaming_changes_every_place() {
    let text = format!("{HEAD}{FAN}");
    let sized = renamed(&text.replacen("fan(size", "fan(s‸ize", 1), "reach").unwrap();
    assert_eq!(sized, text.replace("fan(size", "fan(reach").replace("step size", "step reach"));
    let kelp = renamed(&text.replacen("thread kelp", "thread ke‸lp", 1), "wrack").unwrap();
    assert_eq!(kelp, text.replace("kelp", "wrack").replace("deep wrack", "deep kelp"));
}

#[test]
fn a_name_that_is_taken_or_none_is_refused_with_a_reason() {
    let text = format!("{HEAD}{FAN}");
    let reason =
        |mark: &str, new: &str| renamed(&text.replacen(&mark.replace('‸', ""), mark, 1), new).unwrap_err();
    assert_eq!(reason("thread ke‸lp", "foam"), "`foam` is already the name of a thread.");
    assert_eq!(reason("fan(s‸ize", "lead"), "`lead` is already the name of a label.");
    assert_eq!(reason("thread ke‸lp", "left"), "`left` is a word of the notation and cannot be a name.");
    assert_eq!(
        reason("thread ke‸lp", "2x"),
        "`2x` is not a name: use a letter, then letters, digits, `-` and `_`."
    );
    assert_eq!(
        reason("thread ke‸lp", "a b"),
        "`a b` is not a name: use a letter, then letters, digits, `-` and `_`."
    );
    assert!(reason("‸take left 1 (hue)", "x").starts_with("Only threads"));
}

#[test]
fn names_are_given_in_nfc() {
    let text = renamed(
        &HEAD.replacen("thread ke‸lp", "", 1).replacen("thread kelp", "thread ke‸lp", 1),
        "cafe\u{301}",
    )
    .unwrap();
    assert!(text.contains("thread caf\u{e9} #1f5d50"), "{text}");
}

#[test]
fn a_motif_is_renamed_in_all_files() {
    let (text, offset) = cursor("pattern \"L\"\nmotif f‸an() {\n  meet center\n}\n");
    let files = Files::new(&[
        ("lib.knot", &text),
        (
            "a.knot",
            "pattern \"A\"\nuse fan from \"lib.knot\"\nthread x red\nstrands 4 x\nset {\n  work fan()\n}\n",
        ),
        ("b.knot", "pattern \"B\"\nmotif fan() {\n}\n"),
    ]);
    let edits = rename(&files.checked("lib.knot"), &alone(&files), offset, "wing").unwrap();
    let places: Vec<(&str, u32)> = edits.iter().map(|edit| (edit.path.as_str(), edit.span.start)).collect();
    assert_eq!(places, [("a.knot", 16), ("a.knot", 74), ("lib.knot", 18)]);
    // From where it is used the same comes out.
    let checked = files.checked("a.knot");
    assert_eq!(rename(&checked, &alone(&files), 16, "wing").unwrap(), edits);
    assert_eq!(find_references(&checked, &alone(&files), 74, true).len(), 3);
    assert_eq!(find_definition(&checked, 74).unwrap().path, "lib.knot");
}

#[test]
fn renaming_there_and_back_changes_nothing() {
    for checked in checked_samples() {
        let files = samples();
        let world = alone(&files);
        let mut seen = std::collections::HashSet::new();
        for mention in checked.names().mentions() {
            if !seen.insert(mention.symbol) {
                continue;
            }
            let (_, old) = prepare_rename(&checked, mention.span.start).unwrap();
            let there = rename(&checked, &world, mention.span.start, "zz-new").unwrap();
            assert!(!there.is_empty());
            let moved: Vec<Arc<Source>> = files
                .0
                .iter()
                .map(|file| {
                    let own: Vec<FileEdit> =
                        there.iter().filter(|edit| edit.path == file.path).cloned().collect();
                    Arc::new(Source::new(file.path.clone(), done(&file.text, &own)))
                })
                .collect();
            let moved = Files(moved);
            let before = there
                .iter()
                .filter(|edit| edit.path == checked.source().path && edit.span.start < mention.span.start);
            let shift: i64 = before.map(|edit| edit.text.len().to_i64() - edit.span.len().to_i64()).sum();
            let again = moved.checked(&checked.source().path);
            assert_eq!(again.findings(&moved).len(), checked.findings(&files).len());
            let back = rename(&again, &alone(&moved), (i64::from(mention.span.start) + shift).to_u32(), &old)
                .unwrap();
            for (file, old) in moved.0.iter().zip(&files.0) {
                let own: Vec<FileEdit> = back.iter().filter(|edit| edit.path == file.path).cloned().collect();
                assert_eq!(done(&file.text, &own), &*old.text);
            }
        }
    }
}

#[test]
fn every_name_of_every_sample_is_given_somewhere() {
    for checked in checked_samples() {
        let names: &NameIndex = checked.names();
        for mention in names.mentions() {
            assert!(names.symbol(mention).given.is_some(), "{}", names.symbol(mention).name);
        }
    }
}

#[test]
fn paths_follow_files_that_are_renamed() {
    let files =
        Files::new(&[("a/band.knot", "use fan from \"a/lib.knot\"\n"), ("a/lib.knot", "motif fan() {\n}\n")]);
    let one = |old: &str, new: &str| files_renamed(&alone(&files), &[(old.into(), new.into())]);
    assert_eq!(one("a/lib.knot", "a/b/shapes.knot")[0].text, "b/shapes.knot");
    assert_eq!(one("a/band.knot", "band.knot").len(), 0, "the path is written as it would be from there");
    assert_eq!(one("other.knot", "x.knot"), []);
}

#[test]
fn calls_go_both_ways() {
    let files = Files::new(&[
        ("lib.knot", "pattern \"L\"\nmotif fan() {\n  meet center\n}\nmotif wing() {\n  work fan()\n}\n"),
        (
            "a.knot",
            "pattern \"A\"\nuse fan from \"lib.knot\"\nthread x red\nstrands 4 x\nset {\n  work fan()\n  work fan()\n}\n",
        ),
    ]);
    let checked: Checked = files.checked("lib.knot");
    let callers: Vec<(String, usize)> = incoming_calls(&checked, &alone(&files), 18)
        .into_iter()
        .map(|call| (call.item.name, call.spans.len()))
        .collect();
    assert_eq!(callers, [("wing".into(), 1), ("set".into(), 2)]);
    let band = files.checked("a.knot");
    let set = band.text().find("set").unwrap().to_u32();
    assert_eq!(call_item(&band, set).unwrap().name, "set");
    let called = outgoing_calls(&band, set);
    assert_eq!((called[0].item.path.as_str(), called[0].spans.len()), ("lib.knot", 2));
}

#[test]
fn a_bead_is_renamed_wherever_it_is_threaded() {
    let text = format!(
        "{}finish {{\nbead pearl\nknot\n}}\nset {{\nbead pearl on left 1\nmeet center\n}}\n",
        HEAD.replace("strands", "bead pearl white 4 mm hole 2 mm\nbead shell tan 4 mm hole 2 mm\nstrands")
    );
    let marked = |place: &str| text.replacen(place, &place.replace("pearl", "pea‸rl"), 1);
    for place in ["bead pearl white", "bead pearl\nknot", "bead pearl on"] {
        let new = renamed(&marked(place), "drop").unwrap();
        assert_eq!(new.matches("drop").count(), 3, "{new}");
        // A thread may be called like a bead.
        assert!(renamed(&marked(place), "kelp").is_ok());
        assert!(renamed(&marked(place), "shell").is_err());
    }
}
