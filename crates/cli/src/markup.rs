//! Text in XML and HTML, and what a page may do.

use crate::visible::visible;
use base64::Engine as _;
use sha2::{Digest as _, Sha256};

/// Text as text, in an element or in a quoted attribute. XML 1.0 knows no control characters, not even written as
/// references: they are made visible first.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in visible(text).chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            sign => out.push(sign),
        }
    }
    out
}

/// The policy of a page with this style and with pictures that stand in it, and nothing else: nothing runs, nothing is
/// sent for or sent anywhere. The style is named by its hash (Content Security Policy Level 3, section 2.3.1).
pub(crate) fn policy(style: &str) -> String {
    let hash = base64::engine::general_purpose::STANDARD.encode(Sha256::digest(style));
    format!(
        "default-src 'none'; style-src 'sha256-{hash}'; img-src data:; base-uri 'none'; form-action 'none'"
    )
}

/// A picture as an address that holds it.
pub(crate) fn picture(svg: &str) -> String {
    format!("data:image/svg+xml;base64,{}", base64::engine::general_purpose::STANDARD.encode(svg))
}
