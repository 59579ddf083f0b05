//! `explain`

use crate::stage::Stage;

#[test]
fn every_rule_of_the_list_has_a_page() {
    let stage = Stage::with(&[]);
    let list = stage.run(&["explain"]);
    assert_eq!(list.code, 0);
    let names: Vec<&str> = list.out.lines().map(|line| line.split(' ').next().unwrap()).collect();
    assert!(names.len() > 30 && names.contains(&"broken-promise"), "{}", list.out);
    for name in ["broken-promise", names[0], names[names.len() - 1]] {
        let page = stage.run(&["explain", name]);
        assert!(page.code == 0 && page.out.contains(name) && page.out.contains("pattern \""), "{}", page.out);
    }
}

#[test]
fn an_unknown_rule_is_a_mistake() {
    let said = Stage::with(&[]).run(&["explain", "broken-premise"]);
    assert_eq!((said.code, said.out.as_str()), (2, ""));
    assert!(
        said.err.contains("no rule `broken-premise`") && said.err.contains("broken-promise"),
        "{}",
        said.err
    );
}
