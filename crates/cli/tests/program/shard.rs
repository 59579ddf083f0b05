//! `check --shard`

use crate::stage::{BROKEN, Stage};

#[test]
fn the_machines_together_check_every_file_once() {
    let names: Vec<String> = (0..11).map(|number| format!("bands/{number:02}.knot")).collect();
    let files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), BROKEN)).collect();
    let stage = Stage::with(&files);
    let shown = |shard: &str| {
        let said = stage.run(&["check", "--format", "short", "--shard", shard, "bands"]);
        assert_eq!(said.code, 1, "{said:?}");
        said.out.lines().map(|line| line.split(':').next().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let dealt = ["1/3", "2/3", "3/3"].map(shown);
    assert_eq!(dealt.each_ref().map(Vec::len), [4, 4, 3]);
    assert_eq!(dealt[1], ["bands/01.knot", "bands/04.knot", "bands/07.knot", "bands/10.knot"]);
    let mut all = dealt.concat();
    all.sort();
    assert_eq!(all, names);
}

#[test]
fn a_machine_without_files_is_content_and_its_report_is_whole() {
    let stage = Stage::with(&[("a.knot", BROKEN)]);
    let said = stage.run(&["check", "--shard", "2/2", "--format", "sarif", "."]);
    assert_eq!((said.code, said.err.as_str()), (0, "0 files checked: all is well\n"), "{said:?}");
    assert!(serde_json::from_str::<serde_json::Value>(&said.out).is_ok(), "{}", said.out);
}

#[test]
fn a_machine_that_is_none_is_refused() {
    let stage = Stage::with(&[("a.knot", BROKEN)]);
    for (shard, why) in [("4/3", "machine 4 of 3 is none"), ("0/3", "counted from 1"), ("two", "`2/5`")] {
        let said = stage.run(&["check", "--shard", shard, "."]);
        assert!(said.code == 2 && said.err.contains(why), "{said:?}");
    }
    let said = stage.run_with_input(&["check", "--shard", "1/2", "-"], BROKEN);
    assert!(said.code == 2 && said.err.contains("`--shard`"), "{said:?}");
}
