//! `-- allow RULE: reason`: a warning that is meant to stay.
//!
//! At the end of a line it holds for that line; on a line of its own for the next line that is no comment. Only
//! warnings can be allowed, and only with a reason. What silences nothing is told itself.

use crate::resolve::closest;
use crate::rules::{self, allow_without_effect as told};
use crate::{FileId, Finding, Place, Severity, Source};
use knotwright_grammar::Span;
use std::sync::Arc;

/// So many lines of comments may stand between an allowance and the line it is for.
const MOST_COMMENTS: usize = 50;

/// One such comment.
#[derive(Debug, Clone, PartialEq)]
struct Allow<'a> {
    /// The comment.
    comment: Span,
    /// The name of a rule, as written.
    rule: &'a str,
    /// Whether something stands behind the colon.
    reason: bool,
    /// The bytes of the line for which it holds.
    line: (usize, usize),
    /// Whether it silenced something.
    used: bool,
}

/// Takes out the findings that comments allow, and adds one for each comment of the checked file that allows nothing.
pub(crate) fn apply(mut findings: Vec<Finding>, files: &[Arc<Source>]) -> Vec<Finding> {
    let sound = findings.iter().all(|finding| finding.rule.severity == Severity::Warning);
    for (number, source) in files.iter().enumerate() {
        let file = FileId(number as u32);
        let mut allows = allows(source);
        findings.retain(|finding| finding.place.file != file || !silenced(finding, &mut allows));
        if file == FileId(0) {
            findings.extend(allows.iter().filter_map(|allow| without_effect(allow, sound)));
        }
    }
    findings
}

fn silenced(finding: &Finding, allows: &mut [Allow]) -> bool {
    if finding.rule.severity == Severity::Error {
        return false;
    }
    // Allowances stand in the order of their lines; several may hold for one.
    let at = finding.place.span.start as usize;
    let first = allows.partition_point(|allow| allow.line.1 < at);
    let here = allows[first..].iter_mut().take_while(|allow| allow.line.0 <= at);
    let meant = here.filter(|allow| allow.reason && allow.rule == finding.rule.name);
    meant.map(|allow| allow.used = true).count() > 0
}

/// What is to be said of a comment that allows nothing. With errors in the file it is not known which warnings there
/// would be.
fn without_effect(allow: &Allow, sound: bool) -> Option<Finding> {
    let finding = match rules::named(allow.rule) {
        None => told::unknown(allow.rule, closest(allow.rule, rules::all().iter().map(|rule| rule.name))),
        Some(rule) if rule.severity == Severity::Error => told::error(rule.name),
        Some(rule) if !allow.reason => told::no_reason(rule.name),
        Some(rule) if sound && !allow.used => told::idle(rule.name),
        Some(_) => return None,
    };
    Some(finding.at(Place { file: FileId(0), span: allow.comment }))
}

fn allows(source: &Source) -> Vec<Allow<'_>> {
    source.parsed.comments.iter().filter_map(|comment| allow(&source.text, *comment)).collect()
}

/// A comment that allows something. `-- allow some slack` is prose: there must be a colon, or the name of a rule.
fn allow(text: &str, comment: Span) -> Option<Allow<'_>> {
    let said = comment.of(text).strip_prefix("--")?.trim().strip_prefix("allow")?;
    let rest = said.trim_start();
    let end = rest.find(|letter: char| letter == ':' || letter.is_whitespace()).unwrap_or(rest.len());
    let (rule, after) = rest.split_at(end);
    let reason = after.trim_start().strip_prefix(':');
    let is_meant =
        rest.len() < said.len() && !rule.is_empty() && (reason.is_some() || rules::named(rule).is_some());
    let reason = reason.is_some_and(|reason| !reason.trim().is_empty());
    is_meant.then(|| Allow { comment, rule, reason, line: line(text, comment), used: false })
}

/// The line for which a comment holds: its own, or the next that is no comment if it stands alone.
fn line(text: &str, comment: Span) -> (usize, usize) {
    let is_end = |letter: char| letter == '\n' || letter == '\r';
    let own = text[..comment.start as usize].rfind(is_end).map_or(0, |end| end + 1);
    let (mut start, mut end) = (own, comment.end as usize);
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
            assert!(found[1].1.contains("without saying why"));
        }
    }

    #[test]
    fn an_unknown_rule_is_told_with_the_nearest() {
        let source = Arc::new(Source::new("band.knot", with("-- allow unused-tread: winter", false)));
        let report = check(source, &NoLibrary, &Settings::default());
        let told =
            report.findings.iter().find(|finding| finding.rule.name == "allow-without-effect").unwrap();
        assert_eq!(told.message, "No rule is called `unused-tread`, so that this allows nothing.");
        assert_eq!(told.help.as_deref(), Some("Did you mean `unused-thread`?"));
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
    fn it_holds_for_its_line_alone() {
        let text = "pattern \"Slack tide\"\n-- allow unused-thread: winter\nthread kelp #1f5d50\nthread foam white\nstrands 4 kelp\nset { take left 1: forward 3 }\n";
        let rules: Vec<_> = found(text).into_iter().map(|(rule, _)| rule).collect();
        assert_eq!(rules, ["allow-without-effect", "unused-thread"]);
    }
}
