//! One mistake in a sample is one finding, if what follows from it is found by other rules.

mod support;

use knotwright_checker::{Finding, Settings, Source, check};
use knotwright_grammar::apply_edits;
use std::sync::Arc;
use support::{Shared, patterns};

fn findings(text: &str) -> Vec<Finding> {
    check(Arc::new(Source::new("band.knot", text)), &Shared, &Settings::default()).findings
}

/// What somebody writes in a sample instead of what stands there.
struct Slip(&'static str, &'static str, &'static str);

fn sample(name: &str) -> String {
    patterns().into_iter().find(|pattern| pattern.0 == format!("{name}.knot")).expect("a sample").1
}

impl Slip {
    /// The sample as it is, and with the slip.
    fn texts(&self) -> (String, String) {
        let right = sample(self.0);
        assert!(right.contains(self.1), "{}: {}", self.0, self.1);
        let wrong = right.replacen(self.1, self.2, 1);
        (right, wrong)
    }
}

#[track_caller]
fn assert_one_each(slips: &[Slip]) {
    let mut floods = String::new();
    for slip in slips {
        let found = findings(&slip.texts().1);
        if found.len() != 1 {
            let said: Vec<String> = found
                .iter()
                .map(|finding| format!("  {}: {}\n", finding.rule.name, finding.message))
                .collect();
            floods += &format!("{}: {:?}\n{}", slip.0, slip.1, said.concat());
        }
    }
    assert_eq!(floods, "");
}

/// Whether one of the mends makes the text as it was.
fn comes_back(Slip(name, right, wrong): &Slip) -> bool {
    let slip = Slip(name, right, wrong);
    let (right, wrong) = slip.texts();
    let mends = findings(&wrong).into_iter().flat_map(|finding| finding.mends);
    let mut mended = mends.map(|mend| {
        apply_edits(&wrong, mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str())))
            .expect("the edits fit")
    });
    mended.any(|mended| mended == right)
}

#[test]
fn a_step_that_used_a_name_and_was_forgotten_is_one_finding() {
    assert_one_each(&[
        Slip("ferry-light", "  take light 1 from left as ferry: forward to edge\n", ""),
        Slip("ferry-light", "  take ferry: backward to edge\n", ""),
        Slip("garden-gate", "  both { take left 1 (frame): forward-backward 1 }\n", ""),
        Slip("garden-gate", "    both { take left 1 (color): forward to center left }\n", ""),
        Slip("kelp-forest", "    both { take center left: backward reach }\n", ""),
        Slip("gulls", "    both { on left 8 { work wing() } }\n", ""),
        Slip("kiln-tiles", "  work tile(7)\n", ""),
        Slip("kiln-tiles", "  both { on left 7 { work half-tile(7) } }\n", ""),
    ]);
    // What is not used any more is told beside it.
    let found =
        findings(&Slip("garden-gate", "  both { take left 1 (frame): forward-backward 1 }\n", "").texts().1);
    let is_told = found[0].notes.iter().any(|note| note.text.contains("`frame`"));
    assert!(is_told, "{found:#?}");
}

#[test]
fn an_expect_that_is_itself_wrong_is_one_finding_and_comes_back() {
    let slips = [
        Slip("garden-vine", "expect start mirrored", "expect start"),
        Slip(
            "garden-vine",
            "  expect start mirrored\n  work leaf-and-stem() mirrored\n",
            "  work leaf-and-stem() mirrored\n  expect start mirrored\n",
        ),
        Slip(
            "ferry-light",
            "  expect 2 night 2 tide 2 wake light\n  take ferry: backward to edge\n",
            "  take ferry: backward to edge\n  expect 2 night 2 tide 2 wake light\n",
        ),
    ];
    assert_one_each(&slips);
    for slip in &slips {
        assert!(comes_back(slip), "{}: {:#?}", slip.1, findings(&slip.texts().1));
    }
}

/// Two colors that touch only where the strands drift are no mistake of their own.
#[test]
fn colors_that_touch_where_a_set_drifts_are_not_said() {
    assert_one_each(&[
        Slip("headland-path", "     \\ \\ \\ \\\n    \\ \\ \\ \\\n", "     > \\ \\ \\\n    \\ \\ \\ \\\n"),
        Slip("headland-path", "    / / / /\n", ""),
    ]);
}

/// Where a step ties nothing, knots are missing.
#[test]
fn a_step_that_ties_nothing_and_the_hole_it_leaves_are_one_finding() {
    let slips = [
        Slip(
            "lamp-moth",
            "both { take left 6 (wing): forward-backward 1 }",
            "both { take left 6 (wing): forward-backward 0 }",
        ),
        Slip("orchard-swing", "take left 1: forward to edge", "take left 1: backward to edge"),
        Slip("sailcloth", "take left 1: forward to edge", "take left 1: backward to edge"),
    ];
    assert_one_each(&slips);
}

/// A mark that spoils the chart's halves spoils the picture, too.
#[test]
fn a_mark_that_breaks_both_the_chart_and_the_picture_is_one_finding() {
    assert_one_each(&[
        Slip("paper-lanterns", "     > > < <\n    / / x", "     > > < .\n    / / x"),
        Slip("paper-lanterns", "     > > < <\n    / / x", "     . > < <\n    / / x"),
    ]);
}

#[test]
fn a_strand_lost_from_folded_pairs_is_one_finding() {
    assert_one_each(&[
        Slip("rock-pools", "from left slate sand pool", "from left sand pool"),
        Slip(
            "breakwater",
            "strands deep swell foam rock | mirror",
            "strands deep swell foam rock rock foam swell",
        ),
    ]);
}

#[test]
fn a_mirror_forgotten_in_strands_of_folded_pairs_is_one_finding_and_certain() {
    for name in ["mooring-lines", "weathercock"] {
        let right = sample(name);
        let wrong = right.replacen(" | mirror\n", "\n", 1);
        assert_ne!(right, wrong, "{name}");
        let found = findings(&wrong);
        assert_eq!(found.len(), 1, "{name}: {found:?}");
        assert_eq!(found[0].rule.name, "pairs-do-not-match", "{name}");
        let first = &found[0].mends[0];
        assert_eq!(
            first.title, "write `| mirror` at the end of `strands`: all the rest holds then",
            "{name}"
        );
        assert!(first.certain, "{name}");
        let edits = first.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        assert_eq!(apply_edits(&wrong, edits), Some(right), "{name}");
    }
}

/// The mirror of a list that is one would be twice as wide.
#[test]
fn of_strands_that_mirror_themselves_around_one_that_one_is_doubled_and_that_is_a_guess() {
    let text = "pattern \"Slack tide\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nthread sand #d8b878\n\
        strands kelp foam sand foam kelp\nstart folded pairs mirrored\nset {\n  take left 1 (kelp): forward to edge\n}\n";
    let found = findings(text);
    let mends: Vec<_> = found[0].mends.iter().map(|mend| (mend.title.as_str(), mend.certain)).collect();
    assert!(mends.contains(&("write `2 sand` instead of `sand` in `strands`", false)), "{mends:?}");
    assert!(!mends.iter().any(|(title, certain)| *certain || title.contains("mirror")), "{mends:?}");
}

/// Without knots that tell, any of the ways may be meant.
#[test]
fn where_folded_pairs_may_be_meant_otherwise_no_mend_is_certain() {
    let text = "pattern \"Slack tide\"\nthread kelp #1f5d50\nthread foam #f4f1e8\n\
        strands kelp foam foam\nstart folded pairs mirrored\nset {\n  take left 1: forward-backward 1\n  \
        take left 2: forward-backward 1\n}\n";
    let found = findings(text);
    let titles: Vec<&str> = found[0].mends.iter().map(|mend| mend.title.as_str()).collect();
    assert_eq!(titles, ["write `| mirror` at the end of `strands`", "write `start loose`"]);
    assert!(!found[0].mends.iter().any(|mend| mend.certain));
}

/// What cannot be read stays wrong after a mend of a step: the mend does not say that all holds then.
#[test]
fn a_mend_beside_a_line_that_does_not_read_says_what_stays() {
    let right = sample("orchard-hearts");
    let wrong = right
        .replacen("take left 2 (blossom): backward 1", "take left 2 (blossom): backward 2", 1)
        .replacen("length 15 cm", "length 15 cm 3", 1);
    let found = findings(&wrong);
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!(found[1].mends[0].title, "write `1` instead of `2`: this holds then; one other mistake stays");
    let claims = |title: &str| title.contains("every promise") || title.contains("all the rest");
    assert!(!found[1].mends.iter().any(|mend| mend.certain || claims(&mend.title)));
}

fn first_titles(found: &[Finding]) -> Vec<&str> {
    found.iter().map(|one| one.mends.first().map_or("", |mend| mend.title.as_str())).collect()
}

/// All steps that call a motif agree: its own number is wrong.
#[test]
fn a_wrong_width_of_a_motif_is_one_finding_at_its_number() {
    let slips = [
        Slip("garden-vine", "leaf-and-stem() on 12", "leaf-and-stem() on 21"),
        Slip("kelp-forest", "motif edge-rings() on 6", "motif edge-rings() on 9"),
    ];
    assert_one_each(&slips);
    for slip in slips {
        let (right, wrong) = slip.texts();
        let found = findings(&wrong);
        assert!(found[0].message.ends_with(" hang wherever it is worked."), "{}", found[0].message);
        let number = wrong.find(slip.2).expect("the slip") + slip.2.rfind(' ').expect("a number") + 1;
        assert_eq!(found[0].place.span.start as usize, number);
        let first = &found[0].mends[0];
        assert!(first.certain, "{}", first.title);
        let edits = first.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        assert_eq!(apply_edits(&wrong, edits), Some(right));
    }
}

/// The steps after it tie rightly, and the set closes: the list is wrong.
#[test]
fn an_expect_with_two_colors_exchanged_is_one_finding_with_the_list_as_it_hangs() {
    let slips = [
        Slip("orchard-hearts", "expect 2 apple blossom apple", "expect apple blossom 2 apple"),
        Slip("orchard-hearts", "expect apple blossom apple", "expect blossom 2 apple"),
        Slip("lamp-moth", "expect 2 night wing 2 night", "expect night wing 3 night"),
        Slip("lamp-moth", "expect night 2 wing", "expect wing night wing"),
    ];
    assert_one_each(&slips);
    for slip in slips {
        let (right, wrong) = slip.texts();
        let found = findings(&wrong);
        let list = slip.1.trim_end_matches('|').trim_end();
        assert!(first_titles(&found)[0].starts_with(&format!("write `{list}")), "{:?}", first_titles(&found));
        let edits = found[0].mends[0].edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        assert_eq!(apply_edits(&wrong, edits), Some(right));
        assert!(!found[0].mends.iter().any(|mend| mend.certain));
    }
}
