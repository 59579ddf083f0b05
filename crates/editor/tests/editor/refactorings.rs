//! Changes that authors ask for by name: what each makes of a text. That none of them changes the band, unless it says so, is
//! tested on all samples in `actions`.

use crate::actions::{after, done, offered, selected};
use crate::support::Files;
use knotwright_editor::{World, code_actions};
use knotwright_grammar::Span;

#[test]
fn a_motif_is_written_out_with_its_arguments() {
    let text = "motif fan(size) {\n  -- inward\n  take left 1: forward size\n  take left 1: forward size - 1\n}\n\n\
                set {\n  work fan(3)\n  wo‸rk fan(1 + 1)\n}\n";
    assert_eq!(
        after(text, "Write out the motif").unwrap(),
        "motif fan(size) {\n  -- inward\n  take left 1: forward size\n  take left 1: forward size - 1\n}\n\n\
         set {\n  work fan(3)\n  take left 1: forward (1 + 1)\n  take left 1: forward (1 + 1) - 1\n}\n"
    );
    let once = "motif fan() {\n  take left 1: forward 3\n  take left 1: forward 2\n}\n\nset {\n  both { wo‸rk fan() }\n}\n";
    assert_eq!(
        after(once, "Write out the motif").unwrap(),
        "set {\n  both {\n    take left 1: forward 3\n    take left 1: forward 2\n  }\n}\n",
        "a motif that nothing works any more goes"
    );
    let mirrored = "motif fan() {\n  take left 1: forward 3\n}\n\nset {\n  wo‸rk fan() mirrored\n}\n";
    assert_eq!(
        after(mirrored, "Write out the motif").unwrap(),
        "set {\n  mirrored {\n    take left 1: forward 3\n  }\n}\n"
    );
}

#[test]
fn strands_longer_than_a_skein_are_joined() {
    let text = "sets 900\n\ns‸et {\n  -- to and fro\n  take left 1: forward to edge\n  take left 1: forward to edge\n}\n";
    let joined = after(text, "longer than a skein").unwrap();
    let is_join = |line: &&str| line.starts_with("  join ");
    assert!(joined.lines().filter(is_join).count() > 2, "{joined}");
    let rest: Vec<&str> = joined.lines().filter(|line| !is_join(line)).collect();
    assert_eq!(rest.join("\n") + "\n", text.replace('‸', ""), "all else is as it was");
    assert_eq!(after(&text.replace("900", "9"), "longer than a skein"), None, "no strand is");
}

#[test]
fn what_is_said_again_and_again_becomes_a_repeat_and_back() {
    let long = "set {\n  take left 1: forward 3\n  take right 1: backward 3\n  ta‸ke left 1: forward 3\n  take right 1:  backward 3\n}\n";
    let short = "set {\n  repeat 2 {\n    take left 1: forward 3\n    take right 1: backward 3\n  }\n}\n";
    assert_eq!(after(long, "repeat 2").unwrap(), short);
    assert_eq!(
        after(&short.replace("repeat", "re‸peat"), "`repeat` out").unwrap(),
        "set {\n  take left 1: forward 3\n  take right 1: backward 3\n  take left 1: forward 3\n  take right 1: backward 3\n}\n"
    );
    let three = "set {\n  ta‸ke left 1: forward 7\n  take left 1: forward 7\n  take left 1: forward 7\n}\n";
    assert_eq!(after(three, "repeat 3").unwrap(), "set {\n  repeat 3 { take left 1: forward 7 }\n}\n");
    let two = "set {\n  ta‸ke left 1: forward 7\n  take left 1: forward 7\n}\n";
    assert_eq!(after(two, "`repeat"), None, "two short lines say it as well");
    assert!(
        after(&two.replace("ta‸ke", "«take").replace("7\n}", "7»\n}"), "repeat 2").is_some(),
        "unless somebody asks"
    );
}

#[test]
fn promises_are_written_where_there_are_none() {
    assert_eq!(
        after("set {\n  ta‸ke left 1: forward 3\n}\n", "Promise the color").unwrap(),
        "set {\n  take left 1 (kelp): forward 3\n}\n"
    );
    assert_eq!(
        after("set {\n  «both { take left 3 as lead: forward 1 }\n  meet center\n  take left 1: forward 1»\n}\n", "Promise the colors of 2 strands").unwrap(),
        "set {\n  both { take left 3 (foam) as lead: forward 1 }\n  meet center\n  take left 1 (kelp): forward 1\n}\n"
    );
    let turns = "set {\n  repeat 4 { ta‸ke left 1: forward 3 }\n}\n";
    assert_eq!(after(turns, "Promise the color"), None, "it is another color each time");
}

#[test]
fn how_the_strands_hang_is_promised_below_a_step() {
    assert_eq!(
        after(
            "set {\n  ta‸ke left 1: forward 3 -- in\n  take right 1: backward 3\n}\n",
            "how the strands hang"
        )
        .unwrap(),
        "set {\n  take left 1: forward 3 -- in\n  expect kelp foam sand kelp sand foam 2 kelp\n  take right 1: backward 3\n}\n"
    );
    assert_eq!(
        after("set {\n  take left 1: forward 7\n  ta‸ke right 1: backward 7\n}\n", "how the strands hang")
            .unwrap(),
        "set {\n  take left 1: forward 7\n  take right 1: backward 7\n  expect start\n}\n"
    );
}

#[test]
fn a_value_in_a_motif_becomes_a_parameter() {
    let text =
        "motif fan() {\n  take left 1: forward ‸3\n}\n\nset {\n  work fan()\n  both { work fan() }\n}\n";
    assert_eq!(
        after(text, "parameter of `fan`").unwrap(),
        "motif fan(count) {\n  take left 1: forward count\n}\n\nset {\n  work fan(3)\n  both { work fan(3) }\n}\n"
    );
    let thread = "motif fan(count) {\n  take left 1 (k‸elp): forward count\n}\n\nset {\n  work fan(3)\n}\n";
    assert_eq!(
        after(thread, "parameter of `fan`").unwrap(),
        "motif fan(count, shade) {\n  take left 1 (shade): forward count\n}\n\nset {\n  work fan(3, kelp)\n}\n"
    );
    assert_eq!(after("set {\n  take left 1: forward ‸3\n}\n", "parameter"), None, "not in a set");
}

#[test]
fn a_motif_that_other_files_work_keeps_its_parameters() {
    let library = "motif fan() {\n  take left 1: forward 3\n}\n";
    let user =
        "pattern \"Pier\"\nthread a red\nstrands 4 a\nuse fan from \"fans.knot\"\nset {\n  work fan()\n}\n";
    let files = Files::new(&[("fans.knot", library), ("pier.knot", user)]);
    let at = library.find('3').unwrap();
    let world =
        World { files: &files.0, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    let titles = code_actions(&files.checked("fans.knot"), &world, Span::new(at, at));
    assert!(titles.iter().all(|action| !action.title.contains("parameter")), "{titles:?}");
}

#[test]
fn a_motif_that_another_file_has_is_brought_from_there() {
    let head = "pattern \"Pier\"\nthread a red\nstrands 4 a\n";
    let user = format!("{head}\nset {{\n  work fan()\n}}\n");
    let library = "motif fan() {\n  take left 1: forward 3\n}\n";
    // The third cannot be used here: it would use this file in turn.
    let circular = "use wave from \"../pier.knot\"\nmotif fan() {\n  work wave()\n}\n";
    let files = Files::new(&[("pier.knot", &user), ("lib/fans.knot", library), ("lib/loop.knot", circular)]);
    let world =
        World { files: &files.0, library: &files, is_wanted: &|| true, onlooker: &knotwright_editor::Nobody };
    let checked = files.checked("pier.knot");
    let at = user.find("fan()").unwrap();
    let actions = code_actions(&checked, &world, Span::new(at, at));
    let brings: Vec<_> = actions.iter().filter(|action| action.title.starts_with("Use `fan`")).collect();
    assert_eq!(brings[0].title, "Use `fan` from \"lib/fans.knot\"");
    assert_eq!(brings.len(), 1, "{brings:?}");
    assert!(brings[0].finding.is_some(), "it answers the finding");
    assert_eq!(
        done(&checked, brings[0]),
        format!("{head}\nuse fan from \"lib/fans.knot\"\n\nset {{\n  work fan()\n}}\n")
    );
}

#[test]
fn two_threads_exchange_their_colors_and_threads_are_sorted() {
    let (checked, _) = selected("set {\n  take left 1: forward 1‸\n}\n");
    let text = checked.text();
    let (foam, sand) = (text.find("thread foam").unwrap(), text.find("thread sand").unwrap());
    let exchange = offered(&checked, Span::new(foam, sand + 3));
    let exchange =
        exchange.iter().find(|action| action.title == "Exchange the colors of `foam` and `sand`").unwrap();
    let after = done(&checked, exchange);
    assert!(after.contains("thread foam goldenrod\nthread sand #f4f1e8\n"), "{after}");
    assert!(
        offered(&checked, Span::new(foam, foam)).iter().all(|action| !action.title.contains("Sort")),
        "they are"
    );
    let mixed = text.replace(
        "thread foam #f4f1e8\nthread sand goldenrod\n",
        "thread sand goldenrod -- dry\nthread foam #f4f1e8\n",
    );
    let mixed = crate::support::checked(&mixed);
    let sort = offered(&mixed, Span::new(foam, foam))
        .into_iter()
        .find(|action| action.title.contains("Sort"))
        .unwrap();
    let sorted = done(&mixed, &sort);
    assert!(
        sorted.contains("\"deep kelp\"\nthread foam #f4f1e8\nthread sand goldenrod -- dry\n"),
        "{sorted}"
    );
}

#[test]
fn steps_are_mirrored_and_say_that_the_band_changes() {
    assert_eq!(
        after(
            "set {\n  «take left 1: forward 3\n  take center left: backward-forward 1»\n}\n",
            "Mirror these steps"
        )
        .unwrap(),
        "set {\n  take right 1: backward 3\n  take center right: forward-backward 1\n}\n"
    );
    assert_eq!(
        after("set {\n  «rows {\n    \\ . . .\n  }»\n  take left 1: forward 1\n}\n", "Mirror these steps")
            .unwrap(),
        "set {\n  mirrored {\n    rows {\n      \\ . . .\n    }\n  }\n  take left 1: forward 1\n}\n"
    );
    assert_eq!(
        after("set {\n  «both { take left 1: forward 3 }»\n}\n", "Mirror these steps"),
        None,
        "it is its own mirror image"
    );
}
