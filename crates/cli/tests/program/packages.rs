//! What those use who make packages: the manual.

use crate::stage::Stage;

#[test]
fn every_command_has_a_page_of_the_manual() {
    let stage = Stage::with(&[]);
    assert_eq!(stage.run(&["man", "--all", "."]).code, 0);
    let help = stage.run(&["--help"]).out;
    let commands = help.split("Commands:").nth(1).unwrap().split("\n\n").next().unwrap();
    let commands = commands.lines().filter_map(|line| line.strip_prefix("  ")?.split(' ').next());
    let commands: Vec<&str> = commands.filter(|name| !name.is_empty() && *name != "help").collect();
    assert!(commands.contains(&"check") && commands.contains(&"man"), "{help}");
    for name in &commands {
        let page = stage.read(&format!("knotwright-{name}.1"));
        assert!(page.contains(".SH SYNOPSIS") && page.contains("Example"), "{page}");
    }
    assert_eq!(stage.names().len(), commands.len() + 1, "and one of the whole: {:?}", stage.names());
}

#[test]
fn pages_for_a_folder_that_is_not_there_are_refused_by_its_name() {
    let said = Stage::with(&[]).run(&["man", "--all", "none"]);
    assert!(said.code == 2 && said.err.contains("none: "), "{said:?}");
}
