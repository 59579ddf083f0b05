//! `knotwright.explain`

use knotwright_checker::rules;
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
pub(super) struct ExplainRequest {
    rule: String,
}

#[derive(Debug, Serialize)]
pub(super) struct ExplainAnswer {
    title: &'static str,
    markdown: String,
}

pub(super) fn answer(arguments: ExplainRequest) -> Result<ExplainAnswer, String> {
    let rule =
        rules::named(&arguments.rule).ok_or_else(|| format!("There is no rule `{}`.", arguments.rule))?;
    Ok(ExplainAnswer { title: rule.name, markdown: rules::write_page(rule) })
}
