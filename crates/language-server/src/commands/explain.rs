//! `knotwright.explain`

use knotwright_checker::rules;
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
pub(super) struct Wish {
    rule: String,
}

#[derive(Debug, Serialize)]
pub(super) struct Answer {
    title: &'static str,
    markdown: String,
}

pub(super) fn answer(wish: Wish) -> Result<Answer, String> {
    let rule = rules::named(&wish.rule).ok_or_else(|| format!("There is no rule `{}`.", wish.rule))?;
    Ok(Answer { title: rule.name, markdown: rules::page(rule) })
}
