//! A thread, number, label or motif that was never named.

use crate::{Finding, Rule, Severity, Uncalled, UnknownName};
use knotwright_grammar::tree::Due;

pub(crate) static RULE: Rule = Rule {
    name: "unknown-name",
    severity: Severity::Error,
    tags: &[],
    summary: "A thread, bead, motif, label or number has a name that was never declared.",
    why: "Every name must be declared before you use it: a thread by `thread`, a bead by `bead`, a motif by `motif` or \
          `use`, a label by `as` earlier in the same block, a number as the parameter of a motif or by `for`. Usually \
          two letters are swapped, or the name differs in capital and small letters, which matter. If the declaration is what is \
          misspelled, all calls of the name are one finding, at the first of them; so they are if the declaration is missing.",
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

pub(super) fn words(unknown: &UnknownName) -> Finding {
    let UnknownName { due, name, again, uncalled, .. } = unknown;
    let message = match due {
        Due::Thread | Due::Argument => format!("No thread is called `{name}`."),
        Due::Bead => format!("No bead is called `{name}`."),
        Due::Number => format!("No number is called `{name}` here."),
        Due::Label => format!("No strand is labeled `{name}` here."),
        Due::Motif => format!("No motif is called `{name}`."),
    };
    let mut finding = Finding::new(&RULE, message);
    if let Some(uncalled) = uncalled {
        finding = finding
            .note(uncalled.place, format!("`{}` is declared here, and nothing uses it", uncalled.name));
    }
    finding.again(again).help(help(unknown))
}

fn help(UnknownName { due, name, nearest, again, uncalled }: &UnknownName) -> String {
    if let Some(spaced) = spaced(name).filter(|_| *due == Due::Number) {
        return format!("A `-` between numbers has a space on both sides: write `{spaced}`.");
    }
    match (uncalled, nearest) {
        (Some(Uncalled { name: other, .. }), _) if !again.is_empty() => {
            format!("Did you mean `{name}` where `{other}` is declared?")
        }
        (Some(Uncalled { name: nearest, .. }), _) | (None, Some(nearest)) => {
            format!("Did you mean `{nearest}`?")
        }
        (None, None) => match said_for(name).filter(|_| *due == Due::Thread) {
            Some("") => "Only a space or a comma stands between the names of threads.".to_owned(),
            Some(word) => format!("The notation says `{word}`."),
            None => declare(*due, name),
        },
    }
}

/// What stands in a list of threads for a word that people write there, and that is no thread.
pub(crate) fn said_for(word: &str) -> Option<&'static str> {
    match word {
        "and" => Some(""),
        "mirrored" | "mirrors" => Some("| mirror"),
        "closed" | "closes" | "close" => Some("start"),
        _ => None,
    }
}

/// How such a name is given.
fn declare(due: Due, name: &str) -> String {
    match due {
        Due::Thread | Due::Argument => format!("Write `thread {name}` and its color at the top of the file."),
        Due::Bead => format!(
            "Write `bead {name}`, its color, its size and its hole at the top of the file: `bead {name} white 4 mm hole 1.5 mm`."
        ),
        Due::Number => {
            "Only the parameters of a motif and the name after `for` stand for numbers.".to_owned()
        }
        Due::Label => format!(
            "Give a label with `as {name}` when you first take the strand; it is known until the end of that block."
        ),
        Due::Motif => {
            format!(
                "Write `motif {name}() {{ ... }}`, or import it from its file with `use {name} from \"...\"`."
            )
        }
    }
}

/// `size - 1`, for `size-1`, which is one name.
pub(crate) fn spaced(name: &str) -> Option<String> {
    let (first, last) = name.rsplit_once('-')?;
    let is_number = !last.is_empty() && last.bytes().all(|byte| byte.is_ascii_digit());
    is_number.then(|| format!("{first} - {last}"))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::Finding;
    use crate::trial::find_by;

    fn found(text: &str) -> Finding {
        let mut found = find_by(RULE.name, text);
        assert_eq!(found.len(), 1, "{found:#?}");
        found.remove(0)
    }

    fn helps(text: &str) -> String {
        found(text).help.unwrap()
    }

    #[test]
    fn a_near_name_is_offered_first() {
        // Used elsewhere, too: so that it is right.
        let finding = found(&RULE.example.replace("4 kelp", "kelp klep kelp klep"));
        assert_eq!(finding.message, "No thread is called `klep`.");
        assert_eq!(finding.help.unwrap(), "Did you mean `kelp`?");
        assert_eq!(finding.mends[0].title, "write `kelp` in all three places");
        assert!(!finding.mends[0].certain);
    }

    #[test]
    fn without_a_near_name_it_is_said_how_such_names_are_given() {
        let step = |step: &str| helps(&RULE.instead.replace("take left 1 (kelp): forward to edge", step));
        assert!(step("take tip: forward 1").contains("`as tip`"));
        assert!(step("work fan()").contains("use fan from"));
        assert!(step("take left 1: forward size").contains("parameters"));
        assert!(step("take left 1 (moss): forward 1").contains("thread moss"));
        assert!(step("bead pearl on left 1").contains("bead pearl"));
        assert!(step("take left 1 (and): forward 1").contains("Only a space or a comma"));
        assert!(step("expect closed").contains("`start`"));
    }
}
