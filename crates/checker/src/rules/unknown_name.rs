//! A thread, number, label or motif that was never named.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unknown-name",
    severity: Severity::Error,
    tags: &[],
    summary: "A thread, bead, motif, label or number has a name that was never declared.",
    why: "Every name must be declared before you use it: a thread by `thread`, a bead by `bead`, a motif by `motif` or \
          `use`, a label by `as` earlier in the same block, a number as the parameter of a motif or by `for`. Usually \
          two letters are swapped, or the name differs in capital and small letters, which matter.",
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
        format!("Write `thread {name}` and its color at the top of the file."),
    )
}

pub(super) fn bead(name: &str, nearest: Option<&str>) -> Finding {
    let otherwise = format!(
        "Write `bead {name}`, its color, its size and its hole at the top of the file: `bead {name} white 4 mm hole 1.5 mm`."
    );
    finding(format!("No bead is called `{name}`."), nearest, otherwise)
}

pub(super) fn number(name: &str, nearest: Option<&str>) -> Finding {
    let message = format!("No number is called `{name}` here.");
    if let Some(spaced) = spaced(name) {
        let help = format!("A `-` between numbers has a space on both sides: write `{spaced}`.");
        return Finding::new(&RULE, message).help(help);
    }
    let otherwise = "Only the parameters of a motif and the name after `for` stand for numbers.";
    finding(message, nearest, otherwise.to_owned())
}

/// `size - 1`, for `size-1`, which is one name.
pub(crate) fn spaced(name: &str) -> Option<String> {
    let (first, last) = name.rsplit_once('-')?;
    let is_number = !last.is_empty() && last.bytes().all(|byte| byte.is_ascii_digit());
    is_number.then(|| format!("{first} - {last}"))
}

pub(super) fn label(name: &str, nearest: Option<&str>) -> Finding {
    let otherwise = format!(
        "Give a label with `as {name}` when you first take the strand; it is known until the end of that \
         block."
    );
    finding(format!("No strand is labeled `{name}` here."), nearest, otherwise)
}

pub(super) fn motif(name: &str, nearest: Option<&str>) -> Finding {
    let otherwise = format!(
        "Write `motif {name}() {{ ... }}`, or import it from its file with `use {name} from \"...\"`."
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
