//! No text makes the parser panic, and what it says lies within the text.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let parsed = knotwright_grammar::parse(text);
    let fits = |span: knotwright_grammar::Span| text.get(span.start as usize..span.end as usize).is_some();
    assert!(parsed.tokens.iter().all(|token| fits(token.span)));
    assert!(parsed.problems.iter().all(|problem| fits(problem.span)));
});
