//! `-- allow RULE: reason`: a warning that is meant to stay; `-- allow RULE, RULE: reason` for several.
//!
//! At the end of a line it holds for that line; on a line of its own for the next line that is no comment. Only
//! warnings can be allowed, and only with a reason. What silences nothing is itself reported.

use crate::resolve::nearest_word;
use crate::rules::{self, allow_without_effect as about_allows};
use crate::{FileId, Finding, Place, Severity, Source};
use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;
use std::sync::Arc;

/// The most lines of comments between an allowance and the line it is for.
const MOST_COMMENTS: usize = 50;

/// One rule of such a comment.
#[derive(Debug, Clone, PartialEq)]
struct Allow<'a> {
    /// The comment.
    comment: Span,
    /// The name of a rule, as written.
    rule: &'a str,
    /// Whether the comment names others besides.
    among_others: bool,
    /// Whether something comes after the colon.
    reason: bool,
    /// The bytes of the line for which it holds.
    line: (usize, usize),
    /// Whether it silenced something.
    used: bool,
}

/// Takes out the findings that comments allow, and adds one for each comment of the checked file that allows nothing.
pub(crate) fn apply_allowances(mut findings: Vec<Finding>, files: &[Arc<Source>]) -> Vec<Finding> {
    let sound = findings.iter().all(|finding| finding.rule.severity == Severity::Warning);
    for (number, source) in files.iter().enumerate() {
        let file = FileId(number.to_u32());
        let mut allows = allows(source);
        findings.retain(|finding| finding.place.file != file || !silenced(finding, &mut allows));
        if file == FileId::CHECKED {
            findings.extend(allows.iter().filter_map(|allow| without_effect(allow, sound)));
        }
    }
    findings
}

fn silenced(finding: &Finding, allows: &mut [Allow]) -> bool {
    if finding.rule.severity == Severity::Error {
        return false;
    }
    // Allowances are in the order of their lines; several may hold for one.
    let at = finding.place.span.start.to_usize();
    let first = allows.partition_point(|allow| allow.line.1 < at);
    let here = allows[first..].iter_mut().take_while(|allow| allow.line.0 <= at);
    let meant = here.filter(|allow| allow.reason && allow.rule == finding.rule.name);
    meant.map(|allow| allow.used = true).count() > 0
}

/// What is to be said of a comment that allows nothing. With errors in the file it is not known which warnings there
/// would be.
fn without_effect(allow: &Allow, sound: bool) -> Option<Finding> {
    let finding = match rules::named(allow.rule) {
        None => about_allows::unknown(
            allow.rule,
            nearest_word(allow.rule, rules::all().iter().map(|rule| rule.name)),
        ),
        Some(rule) if rule.severity == Severity::Error => about_allows::error(rule.name),
        Some(rule) if !allow.reason => about_allows::no_reason(rule.name),
        Some(rule) if sound && !allow.used => about_allows::idle(rule.name, allow.among_others),
        Some(_) => return None,
    };
    Some(finding.at(Place { file: FileId::CHECKED, span: allow.comment }))
}

fn allows(source: &Source) -> Vec<Allow<'_>> {
    source.parsed.comments.iter().flat_map(|comment| allow(&source.text, *comment)).collect()
}

/// What a comment allows, a rule after the other. `-- allow some slack` is prose: there must be a colon, or the name of
/// a rule.
fn allow(text: &str, comment: Span) -> Vec<Allow<'_>> {
    let Some((names, reason)) = named(comment.of(text)) else { return Vec::new() };
    let is_meant = reason.is_some() || names.iter().any(|name| rules::named(name).is_some());
    if !is_meant || names.is_empty() {
        return Vec::new();
    }
    let (line, among_others) = (line(text, comment), names.len() > 1);
    let reason = reason.is_some_and(|reason| !reason.trim().is_empty());
    names.into_iter().map(|rule| Allow { comment, rule, among_others, reason, line, used: false }).collect()
}

/// The words between `-- allow` and the colon, which commas part, and what comes after the colon if there is one.
fn named(comment: &str) -> Option<(Vec<&str>, Option<&str>)> {
    let said = comment.strip_prefix("--")?.trim().strip_prefix("allow")?;
    let mut rest = said.trim_start();
    if rest.len() == said.len() {
        return None;
    }
    let mut names = Vec::new();
    loop {
        let end = rest.find(|letter: char| matches!(letter, ':' | ',') || letter.is_whitespace());
        let (name, after) = rest.split_at(end.unwrap_or(rest.len()));
        names.extend(Some(name).filter(|name| !name.is_empty()));
        let after = after.trim_start();
        match after.strip_prefix(',') {
            Some(more) => rest = more.trim_start(),
            None => return Some((names, after.strip_prefix(':'))),
        }
    }
}

/// The line for which a comment holds: its own, or the next that is no comment if it stands alone.
fn line(text: &str, comment: Span) -> (usize, usize) {
    let is_end = |letter: char| letter == '\n' || letter == '\r';
    let own = text[..comment.start.to_usize()].rfind(is_end).map_or(0, |end| end + 1);
    let (mut start, mut end) = (own, comment.end.to_usize());
    for _ in 0..MOST_COMMENTS {
        let is_comment = text[start..end].trim_start_matches([' ', '\t', '\u{feff}']).starts_with("--");
        if !is_comment || end == text.len() {
            break;
        }
        start = end + if text[end..].starts_with("\r\n") { 2 } else { 1 };
        end = text[start..].find(is_end).map_or(text.len(), |length| start + length);
    }
    (start, end)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{NoLibrary, Settings, check};

    fn found(text: &str) -> Vec<(&'static str, String)> {
        let source = Arc::new(Source::new("band.knot", text));
        let findings = check(source, &NoLibrary, &Settings::default()).findings;
        findings.into_iter().map(|finding| (finding.rule.name, finding.message)).collect()
    }

    fn with(comment: &str, above: bool) -> String {
        let (line, tail) = if above { (format!("{comment}\n"), "") } else { (String::new(), comment) };
        format!(
            "pattern \"Slack tide\"\nthread kelp #1f5d50\n{line}thread foam white {tail}\nstrands 4 kelp\nset {{ take left 1: forward 3 }}\n"
        )
    }

    #[test]
    fn a_warning_is_allowed_on_its_line_and_on_the_line_above() {
        for above in [false, true] {
            assert_eq!(found(&with("-- allow unused-thread: kept for the winter colorway", above)), []);
        }
        let two = with("-- allow unused-thread: kept for winter\n-- white as snow", true);
        assert_eq!(found(&two), [], "other comments may stand between");
    }

    #[test]
    fn without_a_reason_it_has_no_effect() {
        for comment in
            ["-- allow unused-thread", "-- allow unused-thread:", "-- allow unused-thread for winter"]
        {
            let found = found(&with(comment, false));
            let rules: Vec<_> = found.iter().map(|(rule, _)| *rule).collect();
            assert_eq!(rules, ["unused-thread", "allow-without-effect"], "{comment}");
            assert!(found[1].1.contains("without a reason"));
        }
    }

    #[test]
    fn an_unknown_rule_is_reported_with_the_nearest() {
        let source = Arc::new(Source::new("band.knot", with("-- allow unused-tread: winter", false)));
        let report = check(source, &NoLibrary, &Settings::default());
        let finding =
            report.findings.iter().find(|finding| finding.rule.name == "allow-without-effect").unwrap();
        assert_eq!(finding.message, "There is no rule called `unused-tread`, so this allows nothing.");
        assert_eq!(finding.help.as_deref(), Some("Did you mean `unused-thread`?"));
    }

    #[test]
    fn an_error_cannot_be_allowed() {
        let text = "pattern \"Slack tide\"\nthread kelp #1f5d50\nstrands 4 kelp\n-- allow past-the-edge: why not\nset { take left 1: forward 9 }\n";
        let rules: Vec<_> = found(text).into_iter().map(|(rule, _)| rule).collect();
        assert_eq!(rules, ["allow-without-effect", "past-the-edge"]);
    }

    #[test]
    fn prose_that_begins_with_allow_is_prose() {
        let text = with("-- allow some slack here", false).replace("thread foam white", "");
        assert_eq!(found(&text), []);
    }

    #[test]
    fn one_comment_allows_several_rules_for_one_reason() {
        // Two threads that nobody uses, of colors that look alike where they meet: two rules on one line.
        let text = |comment: &str| {
            format!(
                "pattern \"Slack tide\"\nthread kelp #1f5d50\nstrands 4 kelp\nset {{ take left 1 as wave: forward 2 }} {comment}\n"
            )
        };
        let rules = |text: &str| found(text).into_iter().map(|(rule, _)| rule).collect::<Vec<_>>();
        let alone = rules(&text(""));
        // That nothing uses the label is told beside the strand, as long as that is said.
        assert_eq!(alone, ["idle-strand"], "what there is to allow");
        for comment in [
            "-- allow idle-strand, unused-label: a sketch",
            "-- allow unused-label ,idle-strand : a sketch",
            "-- allow unused-label,idle-strand, : a sketch",
        ] {
            assert_eq!(found(&text(comment)), [], "{comment}");
        }
        let idle = found(&text("-- allow idle-strand, missing-brick, unused-label: a sketch"));
        assert_eq!(idle.len(), 1, "{idle:?}");
        assert_eq!(idle[0].1, "There is no `missing-brick` finding here to allow.");
        let silent = rules(&text("-- allow idle-strand, unused-label"));
        let said = |rule| silent.iter().filter(|of| **of == rule).count();
        assert_eq!((said("allow-without-effect"), silent.len()), (2, 3), "without a reason: {silent:?}");
        let unknown = rules(&text("-- allow idle-strand, unused-lable: a sketch"));
        assert_eq!(unknown.len(), 2, "{unknown:?}");
        assert_eq!(rules(&text("-- allow some, slack here")), alone, "prose");
    }

    #[test]
    fn it_holds_for_its_line_alone() {
        let text = "pattern \"Slack tide\"\n-- allow unused-thread: winter\nthread kelp #1f5d50\nthread foam white\nstrands 4 kelp\nset { take left 1: forward 3 }\n";
        let rules: Vec<_> = found(text).into_iter().map(|(rule, _)| rule).collect();
        assert_eq!(rules, ["allow-without-effect", "unused-thread"]);
    }
}
