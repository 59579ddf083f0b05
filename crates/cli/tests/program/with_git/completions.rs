//! The completions, in bash itself.

use crate::stage::Stage;
use std::process::Command;

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn bash_completes_the_commands() {
    let stage = Stage::with(&[]);
    stage.write("completions", stage.run(&["completions", "bash"]).out);
    let ask = "source ./completions && complete -p knotwright && COMP_WORDS=(knotwright mea) COMP_CWORD=1 && \
               _knotwright knotwright mea knotwright && echo \"${COMPREPLY[@]}\"";
    let mut bash = Command::new("bash");
    let answer =
        bash.args(["--norc", "--noprofile", "-c", ask]).current_dir(stage.path(".")).output().unwrap();
    let answer = String::from_utf8(answer.stdout).unwrap();
    assert!(answer.contains("-F _knotwright knotwright") && answer.ends_with("measure\n"), "{answer}");
}
