//! A thread that changes color, and a length that is missing, alone or impossible.

use crate::wording::length;
use crate::{ColorLengthTrouble, Edit, Finding, Mend, Place, Rule, Severity};
use knotwright_grammar::Span;

pub(crate) static RULE: Rule = Rule {
    name: "color-length",
    severity: Severity::Error,
    tags: &[],
    summary: "A thread that changes color does not say how far each color goes.",
    why: "Along some threads the color changes again and again. Which color a knot shows follows from the thread that its \
          strand has used up before it, so each color needs the length that it has on the thread. Measure it on yours. A \
          thread of one color has no length: how much of it there is follows from the knots.",
    example: r#"pattern "Dusk over the bay"

thread dusk #223355, #5b7bb5 12 cm, #dfe7f5 12 cm

strands 4 dusk

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Dusk over the bay"

thread dusk #223355 12 cm, #5b7bb5 12 cm, #dfe7f5 12 cm

strands 4 dusk

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(trouble: &ColorLengthTrouble) -> Finding {
    match trouble {
        ColorLengthTrouble::Alone { .. } => {
            Finding::new(&RULE, "This thread has one color, so there is no length after which another one comes.").help(
                "Leave the length out, or write the colors that follow: `thread dusk #223355 12 cm, #5b7bb5 12 cm`.",
            )
        }
        ColorLengthTrouble::Missing { .. } => Finding::new(&RULE, "This color does not say how far it goes before the next one comes.")
            .help("Write its length on the thread after it, such as `12 cm`."),
        ColorLengthTrouble::Zero { .. } => Finding::new(&RULE, "This color goes no way at all: its length is zero.")
            .help("Write how far it goes on the thread, or leave the color out."),
        ColorLengthTrouble::Implausible { millimeters } => {
            let far = if *millimeters < 1000.0 {
                length(*millimeters)
            } else {
                format!("{} m", (millimeters / 10.0).round() / 100.0)
            };
            let said = format!("No color goes {far} on a thread: it is 1 mm to 10 m.");
            Finding::new(&RULE, said).help("Check the decimal point and the unit: `mm`, `cm`, `m` or `in`.")
        }
    }
}

/// What mends it: no length where none belongs, and that of all other colors where one is missing.
pub(super) fn mend(trouble: &ColorLengthTrouble, place: Place) -> Option<Mend> {
    let (place, text, title) = match trouble {
        ColorLengthTrouble::Alone { after } => (*after, String::new(), "leave the length out".to_owned()),
        ColorLengthTrouble::Missing { instead: Some(other) } => {
            let end = Span { start: place.span.end, ..place.span };
            let text = length(*other);
            (
                Place { span: end, ..place },
                format!(" {text}"),
                format!("write `{text}`, as for the other colors"),
            )
        }
        ColorLengthTrouble::Zero { instead: Some(other) } => {
            let text = length(*other);
            (place, text.clone(), format!("write `{text}`, as for the other colors"))
        }
        ColorLengthTrouble::Missing { instead: None }
        | ColorLengthTrouble::Zero { instead: None }
        | ColorLengthTrouble::Implausible { .. } => return None,
    };
    Some(Mend::new(title, vec![Edit { place, text }], false))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, find_by, messages_of};
    use knotwright_numbers::ToNumber;

    fn band(thread: &str) -> String {
        format!(
            "pattern \"A\"\nthread dusk {thread}\nstrands 4 dusk\nset {{ take left 1: forward to edge }}\n"
        )
    }

    /// The message, and the line after the mend.
    fn reported(thread: &str) -> (String, Option<String>) {
        let text = band(thread);
        let finding = find_by(RULE.name, &text).remove(0);
        let mended = finding.mends.first().map(|mend| {
            let (mut text, edit) = (text.clone(), &mend.edits[0]);
            text.replace_range(edit.place.span.start.to_usize()..edit.place.span.end.to_usize(), &edit.text);
            assert_silent(RULE.name, &text);
            text.lines().nth(1).unwrap().replace("thread dusk ", "")
        });
        (finding.message, mended)
    }

    #[test]
    fn each_mistake_is_named_and_mended_where_only_one_mend_is_near() {
        let (message, mended) = reported("navy 12 cm \"dusk\"");
        assert_eq!(
            message,
            "This thread has one color, so there is no length after which another one comes."
        );
        assert_eq!(mended.unwrap(), "navy \"dusk\"");
        let (message, mended) = reported("navy, white 12 cm, gray 12 cm");
        assert_eq!(message, "This color does not say how far it goes before the next one comes.");
        assert_eq!(mended.unwrap(), "navy 12 cm, white 12 cm, gray 12 cm");
        let (message, mended) = reported("navy 12 cm, white 0 cm");
        assert_eq!(message, "This color goes no way at all: its length is zero.");
        assert_eq!(mended.unwrap(), "navy 12 cm, white 12 cm");
        let (message, mended) = reported("navy 12 cm, white 12 cm, gray 120 m");
        assert_eq!(message, "No color goes 120 m on a thread: it is 1 mm to 10 m.");
        assert_eq!(mended, None);
        assert_eq!(reported("navy, white 12 cm, gray 11 cm").1, None, "whose length would it be?");
    }

    #[test]
    fn every_color_is_looked_at() {
        assert_eq!(messages_of(RULE.name, &band("navy, white 0 mm, gray 0.1 mm")).len(), 3);
        let unknown = find_by("unknown-color", &band("nvy 2 cm, wite 2 cm"));
        assert_eq!(unknown.len(), 2, "{unknown:?}");
    }

    #[test]
    fn a_thread_with_lengths_in_other_units_is_fine() {
        assert_silent(RULE.name, &band("navy 12 mm, white 0.5 in, gray 1 m, #123 10 m"));
    }
}
