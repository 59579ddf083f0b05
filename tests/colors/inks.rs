//! What every token of the samples is, as JSON: what each editor's coloring is held to.
//!
//!     cargo run --package knotwright-tests --example inks > inks.json
//!
//! Lines count from 0, columns in characters from 0, so that editors of every kind can find the place.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "reads the samples, and is asked to print"
)]

#[path = "../grammars/samples.rs"]
mod samples;

use knotwright_checker::Source;
use knotwright_editor::semantic_tokens;
use knotwright_grammar::{Columns, LineIndex};
use samples::{Sample, samples};
use serde_json::{Value, json};

fn main() {
    let all = samples("corpus/accepted").into_iter().chain(samples("patterns"));
    println!("{}", Value::from(all.map(colored).collect::<Vec<_>>()));
}

fn colored(sample: Sample) -> Value {
    let lines = LineIndex::new(&sample.text);
    let source = Source::new(sample.name.clone(), sample.text.clone());
    let tokens: Vec<Value> = semantic_tokens(&source)
        .into_iter()
        .map(|token| {
            let place = lines.position(&sample.text, token.span.start, Columns::Chars);
            let text = token.span.of(&sample.text);
            json!({ "line": place.line, "column": place.column, "text": text, "ink": format!("{:?}", token.ink) })
        })
        .collect();
    json!({ "name": sample.name, "text": sample.text, "tokens": tokens })
}
