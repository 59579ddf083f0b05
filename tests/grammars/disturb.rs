//! Small accidents: a text with one token left out, doubled or exchanged with the next.

use knotwright_grammar::Token;

/// Every text that is one accident away from `text`; `tokens` are its tokens.
pub(crate) fn disturbed(text: &str, tokens: &[Token]) -> Vec<String> {
    let part = |token: &Token| token.span.of(text);
    let mut texts = Vec::new();
    for (at, token) in tokens.iter().enumerate() {
        let (before, after) = (&text[..token.span.start as usize], &text[token.span.end as usize..]);
        texts.push(format!("{before}{after}"));
        texts.push(format!("{before}{0} {0}{after}", part(token)));
        if let Some(next) = tokens.get(at + 1) {
            let between = &text[token.span.end as usize..next.span.start as usize];
            let rest = &text[next.span.end as usize..];
            texts.push(format!("{before}{}{between}{}{rest}", part(next), part(token)));
        }
    }
    texts
}
