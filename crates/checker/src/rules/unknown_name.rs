//! A thread, number, label or motif that was never named.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unknown-name",
    severity: Severity::Error,
    summary: "A thread, motif, label or number is called by a name that nothing bears.",
    why: "Every name must be given before it can be called: a thread by `thread`, a motif by `motif` or `use`, a \
          label by `as` earlier in the same block, a number as the parameter of a motif or by `for`. Most often \
          two letters changed places, or the name differs in large and small letters, which count.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1 (klep): forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1 (kelp): forward to edge }
"#,
};

pub(super) fn thread(name: &str, nearest: Option<&str>) -> Finding {
    finding(
        format!("No thread is called `{name}`."),
        nearest,
        format!("Write `thread {name}` and its color in the head of the file."),
    )
}

pub(super) fn number(name: &str, nearest: Option<&str>) -> Finding {
    let otherwise = "Only the parameters of a motif and the name after `for` stand for numbers.";
    finding(format!("No number is called `{name}` here."), nearest, otherwise.to_owned())
}

pub(super) fn label(name: &str, nearest: Option<&str>) -> Finding {
    let otherwise = format!(
        "A label is given with `as {name}` when the strand is first taken, and holds until the end of that block."
    );
    finding(format!("No strand is labeled `{name}` here."), nearest, otherwise)
}

pub(super) fn motif(name: &str, nearest: Option<&str>) -> Finding {
    let otherwise = format!(
        "Write `motif {name}() {{ ... }}`, or fetch it from its file with `use {name} from \"...\"`."
    );
    finding(format!("No motif is called `{name}`."), nearest, otherwise)
}

fn finding(message: String, nearest: Option<&str>, otherwise: String) -> Finding {
    let help = nearest.map_or(otherwise, |name| format!("Did you mean `{name}`?"));
    Finding::new(&RULE, message).help(help)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_near_name_is_offered_first() {
        let finding = thread("klep", Some("kelp"));
        assert_eq!(finding.message, "No thread is called `klep`.");
        assert_eq!(finding.help.unwrap(), "Did you mean `kelp`?");
    }

    #[test]
    fn without_a_near_name_it_is_said_how_such_names_are_given() {
        assert!(label("tip", None).help.unwrap().contains("`as tip`"));
        assert!(motif("fan", None).help.unwrap().contains("use fan from"));
        assert!(number("size", None).help.unwrap().contains("parameters"));
        assert!(thread("kelp", None).help.unwrap().contains("thread kelp"));
    }
}
