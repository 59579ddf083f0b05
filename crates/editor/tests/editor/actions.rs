//! Code actions: what they are, and that none of them changes the band.

use crate::support::{Files, HEAD, checked, checked_samples, samples};
use knotwright_band::{Cell, normal_form};
use knotwright_checker::{NoLibrary, Part, Pattern, Settings, Severity, Source};
use knotwright_editor::{
    Action, ActionKind, Checked, TextEdit, World, apply_text_edits, code_actions, fix_all,
};
use knotwright_grammar::Span;
use std::sync::Arc;

/// The text between `«` and `»` is selected; `‸` is a cursor.
pub(crate) fn selected(marked: &str) -> (Checked, Span) {
    let text = format!("{HEAD}{marked}");
    let (start, end) = match (text.find('«'), text.find('»')) {
        (Some(start), Some(end)) => (start, end - '«'.len_utf8()),
        _ => (text.find('‸').unwrap(), text.find('‸').unwrap()),
    };
    (checked(&text.replace(['«', '»', '‸'], "")), Span::new(start, end))
}

pub(crate) fn done(checked: &Checked, action: &Action) -> String {
    let edits: Vec<TextEdit> =
        action.edits.iter().map(|edit| TextEdit { span: edit.span, text: edit.text.clone() }).collect();
    apply_text_edits(checked.text(), &edits)
}

pub(crate) fn offered(checked: &Checked, range: Span) -> Vec<Action> {
    let files = Files::default();
    code_actions(
        checked,
        &World {
            files: &files.0,
            library: &files,
            is_wanted: &|| true,
            onlooker: &knotwright_editor::Nobody,
        },
        range,
    )
}

/// The body after the action of that title.
pub(crate) fn after(marked: &str, title: &str) -> Option<String> {
    let (checked, range) = selected(marked);
    let action = offered(&checked, range).into_iter().find(|action| action.title.contains(title))?;
    Some(done(&checked, &action)[HEAD.len()..].to_owned())
}

#[test]
fn steps_become_a_chart_and_a_chart_steps() {
    let steps = "set {\n  both { take left 1: forward 3 }\n  meet center\n}\n";
    let chart = "set {\n  rows {\n    \\ . . /\n     \\ . /\n    . \\ / .\n     . \\ .\n  }\n}\n";
    assert_eq!(after(&steps.replace("set {", "s‸et {"), "as a chart").unwrap(), chart);
    assert_eq!(
        after(&chart.replace("rows {", "ro‸ws {"), "as steps").unwrap(),
        "set {\n  take right 1: backward 3\n  take left 1: forward 4\n}\n"
    );
}

#[test]
fn letters_become_rows() {
    let letters = "set {\n  leader left 1 {\n    . # . . . . .\n    let‸ters \"L\" height 6\n    . . . . . . .\n  }\n}\n";
    assert_eq!(
        after(letters, "Write the letters as rows").unwrap(),
        "set {\n  leader left 1 {\n    . # . . . . .\n    # # # # # # .\n    # . . . . . .\n    # . . . . . .\n    \
         # . . . . . .\n    . . . . . . .\n    . . . . . . .\n    . . . . . . .\n  }\n}\n"
    );
    assert_eq!(after(&letters.replace("let‸ters", "letters").replace(". #", ". ‸#"), "as rows"), None);
}

#[test]
fn a_wish_is_tied_and_the_face_holds_it_from_then_on() {
    let wish = "set {\n  fa‸ce k kelp, f foam, s sand {\n    k f s k\n     ? ? ?\n  }\n}\n";
    let tied = after(wish, "Tie this face, with no turning knots").unwrap();
    assert!(
        tied.starts_with("set {\n  face k kelp, f foam, s sand {\n    k f s k\n     ? ? ?\n  }\n"),
        "{tied}"
    );
    let found = checked(&format!("{HEAD}{tied}"));
    let errors = found.findings(&NoLibrary).iter().filter(|finding| finding.severity == Severity::Error);
    assert_eq!(errors.count(), 0, "{tied}");
    assert_eq!(found.pattern().unwrap().set.as_ref().unwrap().piece.knots().len(), 7);
    let given_up = wish.replace("k f s k", "f f s k");
    assert_eq!(after(&given_up, "Tie this face"), None, "the first two strands are kelp");
    assert_eq!(after(&tied.replace("face k", "fa‸ce k"), "Tie this face"), None, "it is tied");
}

#[test]
fn the_same_face_is_tied_with_fewer_turning_knots() {
    let files = samples();
    let world =
        World { files: &files.0, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    let checked =
        checked_samples().into_iter().find(|checked| checked.text().contains("\"Orchard hearts\"")).unwrap();
    let at =
        Span::new(checked.text().find("\nset {").unwrap() + 1, checked.text().find("\nset {").unwrap() + 1);
    let fewer = |is_wanted: &dyn Fn() -> bool| {
        let actions = code_actions(&checked, &World { is_wanted, ..world }, at);
        actions.into_iter().find(|action| action.title.starts_with("Fewer turning knots for this face"))
    };
    let action = fewer(&|| true).unwrap();
    let title = "Fewer turning knots for this face: 15 instead of 22 (proved to be the fewest)";
    assert!(action.title.starts_with(title) && action.title.contains("left out"), "{}", action.title);
    assert!(fewer(&|| false).is_none(), "whoever does not want it any longer waits for nothing");
}

#[test]
fn strands_are_picked_up_less_often_and_what_is_lost_is_said() {
    let restless = "set {\n  repeat 3 {\n    take left 1: forward 1\n    take right 1: backward 1\n    \
                    take left 2: forward 1\n  }\n}\n";
    let titles = |marked: &str| {
        let (checked, range) = selected(marked);
        let titles = offered(&checked, range).into_iter().map(|action| action.title);
        titles.filter(|title| title.contains("pick-up")).collect::<Vec<_>>()
    };
    let plain = titles(&restless.replace("set {", "s‸et {"));
    assert!(plain[0].starts_with("Tie the same band with ") && !plain[0].contains("left out"), "{plain:?}");
    let commented = restless.replace("set {", "s‸et {\n  -- the tide comes in");
    assert!(titles(&commented)[0].ends_with("(left out of the new text: 1 comment)"));
    assert!(
        titles(&restless.replace("take right", "ta‸ke right")).is_empty(),
        "not wherever the cursor goes"
    );
    let after = after(&restless.replace("set {", "s‸et {"), "pick-up").unwrap();
    assert!(titles(&after.replace("set {", "s‸et {")).is_empty(), "there is nothing more to gain: {after}");
}

#[test]
fn part_of_a_block_becomes_a_chart_on_its_own_strands() {
    let text = "set {\n  on 3 to 6 {\n    «take left 2: forward-backward 2»\n    meet center\n  }\n}\n";
    assert_eq!(
        after(text, "as a chart").unwrap(),
        "set {\n  on 3 to 6 {\n    rows offset {\n       >\n      . .\n       >\n    }\n    meet center\n  }\n}\n"
    );
}

#[test]
fn nothing_that_would_be_lost_becomes_a_chart() {
    for kept in [
        "note \"mind the gap\"",
        "expect 2 kelp foam sand | mirror",
        "meet center\n  -- a remark",
        "section \"a\" { meet center }",
    ] {
        assert_eq!(after(&format!("s‸et {{\n  {kept}\n  meet center\n}}\n"), "as a chart"), None, "{kept}");
    }
    assert_eq!(
        after("s‸et {\n  leader left 1 {\n    . . # . . . .\n  }\n}\n", "as a chart"),
        None,
        "such rows lie straight"
    );
}

#[test]
fn a_series_becomes_a_list_and_a_list_a_series() {
    let series = "set {\n  take left 1: forward 5 down to 1 by 2, forward-backward 1\n}\n";
    let list = "set {\n  take left 1: forward 5, forward-backward 1\n    then forward 3, forward-backward 1\n    \
                then forward 1, forward-backward 1\n}\n";
    assert_eq!(after(&series.replace("take", "ta‸ke"), "as a list").unwrap(), list);
    assert_eq!(after(&list.replace("take", "ta‸ke"), "as a series").unwrap(), series);
    let takes = "set {\n  take left 1: forward 3\n  ta‸ke left 1: forward 2\n  take left 1: forward 1\n  meet center\n}\n";
    assert!(after(takes, "as a series").is_none(), "meet center is an error here: nothing is offered");
    let takes = takes.replace("  meet center\n", "");
    assert_eq!(after(&takes, "as a series").unwrap(), "set {\n  take left 1: forward 3 down to 1\n}\n");
    let uneven = takes.replace("forward 1", "forward 0");
    assert!(after(&uneven, "as a series").is_none());
}

#[test]
fn two_mirrored_pieces_become_both() {
    assert_eq!(
        after("set {\n  ta‸ke left 1: forward 3\n  take right 1: backward 3\n}\n", "both").unwrap(),
        "set {\n  both { take left 1: forward 3 }\n}\n"
    );
    assert_eq!(
        after(
            "set {\n  «take left 1: forward 3\n  take left 1: forward 2\n  take right 1: backward 3\n  take right 1: backward 2»\n}\n",
            "both"
        )
        .unwrap(),
        "set {\n  both {\n    take left 1: forward 3\n    take left 1: forward 2\n  }\n}\n"
    );
    assert_eq!(after("set {\n  ta‸ke left 1: forward 3\n  take right 1: backward 2\n}\n", "both"), None);
}

#[test]
fn a_selection_becomes_a_motif_with_what_it_needs_from_outside() {
    assert_eq!(
        after(
            "set {\n  for size 3 down to 2 {\n    «both {\n      take left 1: forward size\n    }»\n  }\n}\n",
            "motif"
        )
        .unwrap(),
        "motif piece(size) on 8 {\n  both {\n    take left 1: forward size\n  }\n}\n\n\
         set {\n  for size 3 down to 2 {\n    work piece(size)\n  }\n}\n"
    );
    let label = "set {\n  take left 1 as lead: forward 1\n  «take lead: backward 1»\n}\n";
    assert_eq!(after(label, "motif"), None, "a label does not go along");
    assert_eq!(after("set {\n  «take left 1: forward 1\n  expect start»\n}\n", "motif"), None);
}

#[test]
fn counts_and_extents_change_places() {
    let body = |extent: &str| format!("set {{\n  both {{ take left 1: for‸ward {extent} }}\n}}\n");
    assert_eq!(after(&body("to center left"), "Write `3` instead").unwrap(), body("3").replace('‸', ""));
    // There and back: every set begins with the same colors.
    let back = |extent: &str| format!("set {{\n  take left 2: for‸ward {extent}, backward 1\n}}\n");
    assert_eq!(after(&back("until sand"), "Write `1` instead").unwrap(), back("1").replace('‸', ""));
    assert_eq!(after(&body("until sand"), "Write `2` instead"), None, "the next set would differ");
    assert_eq!(after(&body("3"), "Write `to center left`").unwrap(), body("to center left").replace('‸', ""));
    assert_eq!(after(&body("1"), "Write `over kelp`").unwrap(), body("over kelp").replace('‸', ""));
    assert_eq!(after(&body("2"), "Write `over kelp`"), None);
    // Each set begins with other colors: what is over foam in the first set is something else in the next.
    assert_eq!(after("set {\n  take left 2: for‸ward 1\n}\n", "Write `over foam`"), None);
}

#[test]
fn an_error_in_the_file_leaves_only_fixes() {
    let (checked, range) = selected("set {\n  take left 1: for‸ward 3\n  take left 9: forward 1\n}\n");
    assert!(offered(&checked, range).iter().all(|action| action.kind == ActionKind::Fix));
}

#[test]
fn a_warning_can_be_allowed_and_is_gone_then() {
    let text =
        HEAD.replace("strands", "thread tar black\nstrands") + "set {\n  take left 1: forward to edge\n}\n";
    for text in [text.clone(), text.replace("thread tar black", "thread tar black  -- as night")] {
        let checked = checked(&text);
        let at = text.find("thread tar").unwrap() + 7;
        let found = offered(&checked, Span::new(at, at));
        let allow = found.iter().find(|action| action.title == "Allow `unused-thread` here").unwrap();
        let allowed = crate::support::checked(&done(&checked, allow));
        let rules: Vec<&str> = allowed.findings(&NoLibrary).iter().map(|finding| finding.rule.name).collect();
        assert!(
            !rules.contains(&"unused-thread") && !rules.contains(&"allow-without-effect"),
            "{}",
            allowed.text()
        );
    }
}

#[test]
fn mends_of_findings_are_offered_and_made_together() {
    let text =
        format!("{HEAD}set {{\n  take left 1 (klep): forward 3\n  take left 2: forward 1 over fom\n}}\n");
    let broken = checked(&text);
    let at = text.find("klep").unwrap();
    let found = offered(&broken, Span::new(at, at));
    assert!(
        found.iter().any(|action| action.finding == Some(0) && done(&broken, action).contains("(kelp)")),
        "{found:?}"
    );
}

#[test]
fn all_that_is_certain_is_mended_at_once() {
    let files = Files::default();
    let world =
        World { files: &files.0, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    let text =
        format!("{HEAD}set {{\n  both {{ take left 1 (kelp): forward-backward 1 }}\n  meet center\n}}\n");
    let clean = checked(&text);
    assert_eq!(fix_all(&clean, &world), None);
    let broken = checked(&text.replace("(kelp)", "(klep)"));
    let all = fix_all(&broken, &world).expect("one name is wrong, and another is near");
    assert_eq!(done(&broken, &all), text);
    let unsure = checked(&text.replace("(kelp)", "(klep)").replace("meet", "met"));
    assert_eq!(fix_all(&unsure, &world), None, "{:#?}", unsure.findings(&files));
}

#[test]
fn the_title_of_every_fix_begins_with_a_capital() {
    for slip in
        ["take left 1: foward 1", "take left 1: forward 9", "take left 1 forward 1", "take center: forward 1"]
    {
        let (broken, whole) = selected(&format!("set {{\n  «{slip}»\n}}\n"));
        let mut fixes = offered(&broken, whole);
        fixes.retain(|action| action.kind == ActionKind::Fix);
        assert!(!fixes.is_empty(), "{slip}");
        assert!(fixes.iter().all(|fix| fix.title.starts_with(char::is_uppercase)), "{slip}: {fixes:?}");
    }
}

#[test]
fn a_misspelled_word_is_put_right() {
    let (broken, range) = selected("set {\n  take ri‸gt 2: forward 1\n  take left 1: foward 1\n}\n");
    let mended = offered(&broken, range).into_iter().find(|action| action.finding == Some(0)).unwrap();
    assert_eq!(
        done(&broken, &mended)[HEAD.len()..],
        *"set {\n  take right 2: forward 1\n  take left 1: foward 1\n}\n"
    );
}

fn band(part: Option<&Part>) -> Option<Vec<Cell>> {
    let part = part?;
    Some(normal_form(&part.piece))
}

/// By strand, the name of its thread: threads may be declared in another order.
fn hung(pattern: &Pattern) -> Vec<&str> {
    pattern.strands.iter().map(|&thread| pattern.threads[usize::from(thread)].name.as_str()).collect()
}

#[test]
fn every_rewriting_of_every_sample_is_the_same_band() {
    let files = samples();
    let world =
        World { files: &files.0, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    let mut kinds = std::collections::BTreeMap::<String, usize>::new();
    for checked in checked_samples() {
        let mut places: Vec<Span> = Vec::new();
        for statement in checked.source().parsed.tree.walk().step_by(3) {
            let start = Span { end: statement.span.start, ..statement.span };
            places.extend([start, statement.span]);
        }
        for place in places {
            for action in code_actions(&checked, &world, place) {
                assert!(action.title.starts_with(char::is_uppercase), "{}", action.title);
                // A mirror image is another band, and its title says so; one that shows a face is only held to that.
                let promises = matches!(action.kind, ActionKind::Rewrite | ActionKind::Extract);
                let is_another = ["Mirror", "Tie this face", "Fewer turning"];
                if !promises || is_another.iter().any(|title| action.title.starts_with(title)) {
                    continue;
                }
                let text = done(&checked, &action);
                let again = Checked::new(
                    Arc::new(Source::new(checked.source().path.clone(), text)),
                    &files,
                    &Settings::default(),
                );
                assert!(again.source().parsed.problems.is_empty(), "{}", again.text());
                assert!(again.findings(&files).iter().all(|finding| finding.severity == Severity::Warning));
                let (before, after) = (checked.pattern().unwrap(), again.pattern().unwrap());
                assert_eq!(band(before.set.as_ref()), band(after.set.as_ref()), "{}", again.text());
                assert_eq!(hung(before), hung(after));
                *kinds.entry(action.title.split(' ').take(3).collect::<Vec<_>>().join(" ")).or_default() += 1;
            }
        }
    }
    assert!(kinds.len() >= 9, "all sorts of changes are offered somewhere: {kinds:?}");
}

#[test]
fn for_nobody_nothing_is_tried() {
    let files = Files::default();
    let (checked, range) = selected("s‸et {\n  both { take left 1: forward 3 }\n  meet center\n}\n");
    let world = World {
        files: &files.0,
        library: &files,
        is_wanted: &|| false,
        onlooker: &knotwright_editor::Nobody,
    };
    let rewrites = |actions: Vec<Action>| actions.iter().any(|action| action.kind == ActionKind::Rewrite);
    assert!(rewrites(offered(&checked, range)) && !rewrites(code_actions(&checked, &world, range)));
    let across = "pattern \"Pier\"\nthread kelp #1f5d50\nthread sand #f3e3b8\nthread coral #e2725b\n\
                  thread night #0b1030\nstrands kelp coral sand night\nset {\n  take left 1: forwrad 3\n  \
                  repeat 3 { take left 1: forward 3 }\n  expect start\n}\n";
    let broken = self::checked(across);
    let wanted = World { is_wanted: &|| true, ..world };
    assert!(fix_all(&broken, &wanted).is_some());
    assert!(fix_all(&broken, &world).is_none());
}
