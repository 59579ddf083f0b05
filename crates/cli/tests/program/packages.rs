//! What those use who make packages: the manual and the completions.

use crate::stage::Stage;
use std::process::Command;

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

#[cfg(unix)]
#[test]
fn bash_completes_the_commands() {
    let stage = Stage::with(&[]);
    stage.write("completions", stage.run(&["completions", "bash"]).out);
    let ask = "source ./completions && complete -p knotwright && COMP_WORDS=(knotwright me) COMP_CWORD=1 && \
               _knotwright knotwright me knotwright && echo \"${COMPREPLY[@]}\"";
    let mut bash = Command::new("bash");
    let answer =
        bash.args(["--norc", "--noprofile", "-c", ask]).current_dir(stage.path(".")).output().unwrap();
    let answer = String::from_utf8(answer.stdout).unwrap();
    assert!(answer.contains("-F _knotwright knotwright") && answer.ends_with("measure\n"), "{answer}");
}
