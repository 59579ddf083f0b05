//! Lists of JSON with an entry a line: people compare and merge them.

use crate::visible::to_json;
use serde::Serialize;

/// A document of such a form, with its entries under `name`.
pub(crate) fn lined(schema: &str, name: &str, entries: &[impl Serialize]) -> String {
    let lines: Vec<String> = entries.iter().map(|entry| format!("\n    {}", to_json(entry))).collect();
    let end = if lines.is_empty() { "" } else { "\n  " };
    format!("{{\n  \"schema\": \"{schema}\",\n  \"{name}\": [{}{end}]\n}}\n", lines.join(","))
}
